//! What is fitted beside what is on trial: inputs that differ, every answer that differs for it, price and mass.

use crate::answer::{heard, seen};
use crate::bench::{Bench, Fitted, plan, spec_of};
use crate::dom::{El, button, el};
use crate::figure::{figure, pieces};
use crate::gauge;
use crate::history::Gesture;
use crate::language;
use crate::page::focus_later;
use crate::parts::{shelves, weight};
use crate::signal::{Memo, memo};
use crate::words;
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::changed::{Changes, Input, What, changes};
use trialfit_core::compare::{Difference, Way, differences};
use trialfit_core::order::Order;
use trialfit_core::overview::OVERVIEW;
use trialfit_core::report::{Report, Unknown};
use trialfit_core::share::link::MOST_HELD;
use trialfit_core::shelf::{self, Known};
use trialfit_core::show::{self, Shown};
use trialfit_core::spec::{Place, Role};

/// So many answers are listed at once; of more, the rest is counted.
const LISTED: usize = 40;

/// So many changes, and so many answers that differ, are told on a calculator's own screen.
const HERE: usize = 4;

/// So many answers that got better, and as many that got worse, are told at a glance.
const GLANCED: usize = 2;

/// What the parts on trial cost and weigh more than those fitted.
#[derive(Clone, PartialEq)]
struct KitDiffers {
    price: String,
    known: Known,
    /// Names of the parts without a price that make it so.
    unpriced: String,
    mass: String,
}

/// How what is on trial differs from what is fitted.
#[derive(Clone, PartialEq)]
pub struct Trial {
    changes: Changes,
    differ: Vec<Difference>,
    /// What the parts cost and weigh more, where they differ.
    kit: Option<KitDiffers>,
}

impl Trial {
    /// Of what is held as fitted and what stands on the bench, a moment after a change.
    pub fn now() -> Memo<Option<Self>> {
        let bench = Bench::get();
        memo(move || {
            bench.when_calm();
            bench.came.with(|_| ());
            bench.fitted.with(|fitted| {
                let Fitted { build: held, report: was } = fitted.as_ref()?;
                bench.look_now(|build, report| {
                    let changes = changes((held, was), (build, report));
                    let mut differ = differences(plan(), (held, was), (build, report), &changes);
                    // What reads alike tells nobody anything.
                    differ.retain(|it| it.verdicts[0] != it.verdicts[1] || reads(it.place, it.before) != reads(it.place, it.after));
                    Some(Self { changes, differ, kit: kit_differs(held, build) })
                })
            })
        })
    }

    fn is_nothing(&self) -> bool {
        self.changes.inputs.is_empty() && self.differ.is_empty() && self.kit.is_none()
    }

    /// What of it shows on one calculator's screen.
    fn here(&self, calculator: u8) -> Vec<El> {
        if self.is_nothing() {
            return vec![el("p").class("note").text(words::NOTHING_DIFFERS)];
        }
        let system = Bench::get().system();
        let is_here = |it: &&Input| matches!(it.what, What::Cell(place) if place.id.calculator == calculator);
        let inputs = self.changes.inputs.iter().filter(is_here).take(HERE);
        let inputs = inputs.map(|it| el("li").child(el("p").children(pieces(&it.line.pieces, system))));
        let differ: Vec<&Difference> = self.differ.iter().filter(|it| it.place.id.calculator == calculator).collect();
        let rows = differ.iter().take(HERE).map(|it| row(it, &self.changes));
        let left = differ.len().saturating_sub(HERE);
        let more = (left > 0).then(|| el("p").class("note").text(&words::more(left)));
        let list = el("ul").class("differs").children(self.kit_row()).children(inputs).children(rows);
        core::iter::once(list).chain(more).collect()
    }

    fn kit_row(&self) -> Option<El> {
        let KitDiffers { price, known, unpriced, mass } = self.kit.as_ref()?;
        let bound = match known {
            Known::Exactly => None,
            Known::AtLeast => Some(words::AT_LEAST),
            Known::AtMost => Some(words::AT_MOST),
            Known::Not => Some(words::PRICE_NOT_KNOWN),
        };
        let figures = if *known == Known::Not || price.is_empty() { mass.clone() } else { format!("{price} · {mass}") };
        let pair = el("b").class("pair").children(bound.map(|bound| el("span").text(bound))).own(&language::number(&figures));
        let without = || el("span").class("note").text(words::HAS_NO_PRICE).text(" ").own(unpriced);
        Some(el("li").child(el("span").text(words::PARTS)).child(pair).children((!unpriced.is_empty()).then(without)))
    }
}

/// `+84.00 EUR · −1.20 kg`.
fn kit_differs(fitted: &Build, on_trial: &Build) -> Option<KitDiffers> {
    if fitted.parts() == on_trial.parts() {
        return None;
    }
    let shelves = shelves();
    let [was, is] = [fitted, on_trial].map(|build| shelf::kit(&shelves, build));
    let mass = is.added() - was.added();
    let sign = if mass.si() > 0.0 { "+" } else { "" };
    let (known, unpriced) = is.dearer_is_known(&was);
    Some(KitDiffers {
        price: is.dearer(&was).iter().map(ToString::to_string).collect::<Vec<_>>().join(" · "),
        known,
        unpriced: unpriced.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "),
        mass: format!("{sign}{}", weight(mass)),
    })
}

/// Makes what is on trial the one that is fitted.
fn hold(bench: Bench) {
    let mut held = bench.held.get_untracked();
    let build = bench.build().get_untracked();
    match held.first_mut() {
        Some(first) => *first = build,
        None => held.push(build),
    }
    bench.hold(held);
}

fn back(bench: Bench) {
    if let Some(held) = bench.held.get_untracked().into_iter().next() {
        bench.edit(Gesture::Once, words::BACK_TO_FITTED, move |build| *build = held);
    }
}

/// An act on what is held, after which the focus goes there.
fn act(id: &str, label: &str, to: &'static str, act: fn(Bench)) -> El {
    button("quiet", id).text(label).on_press(move || {
        act(Bench::get());
        focus_later(to.into());
    })
}

/// What comes of the trial, in short: for beside the parts while one chooses.
pub fn at_a_glance(trial: Memo<Option<Trial>>) -> El {
    let shown = |trial: &Trial| {
        let mut ways = [GLANCED; 2];
        let mut counts = |way: Way| ways[way as usize].checked_sub(1).map(|left| ways[way as usize] = left).is_some();
        let told: Vec<&Difference> = trial.differ.iter().filter(|it| it.way.is_some_and(&mut counts)).collect();
        let left = trial.differ.len() - told.len();
        let more = (left > 0).then(|| act("glance-more", &words::more(left), "beside", |_| ()));
        el("section")
            .class("glance")
            .id("glance")
            .set("aria-labelledby", "glance-title")
            .child(el("h2").id("glance-title").text(words::ON_TRIAL))
            .child(el("ul").class("differs").children(trial.kit_row()).children(told.into_iter().map(|it| row(it, &trial.changes))))
            .child(
                el("p")
                    .class("acts")
                    .child(act("keep-trial", words::HOLD_AGAIN, "parts", hold))
                    .child(act("put-back-trial", words::BACK_TO_FITTED, "parts", back))
                    .children(more),
            )
    };
    el("div").class("glance-place").maybe(move || trial.with(|trial| trial.as_ref().filter(|trial| !trial.is_nothing()).map(shown)))
}

/// On a calculator's own screen, for as long as something is held: what is fitted says there, what was changed there and
/// what comes of it. Its place stays while both are alike, so that nothing moves under the hand that turns a number.
pub fn fitted_here(calculator: u8) -> El {
    let bench = Bench::get();
    let trial = Trial::now();
    let said = memo(move || {
        let answer = |fitted: &Fitted| (ALL[usize::from(calculator)].sentence)(&fitted.build, &fitted.report);
        bench.fitted.with(|fitted| fitted.as_ref().map(answer))
    });
    let answer = move || {
        let heard = el("p")
            .class("apart")
            .id("fitted-answer")
            .says(move || said.with(|said| said.as_ref().map(|it| heard(it, bench.system())).unwrap_or_default()));
        let seen = move || said.with(|said| said.as_ref().map(|it| seen(it, bench.system())).unwrap_or_default());
        [el("p").class("sentence").set("aria-hidden", "true").many(seen), heard]
    };
    let comes = move || trial.with(|trial| trial.as_ref().map(|trial| trial.here(calculator)).unwrap_or_default());
    let act = |id: &str, label: &str, does: fn(Bench)| act(id, label, "fitted-here", does);
    let shown = move || {
        el("section")
            .class("trial")
            .id("fitted-here")
            .set("tabindex", "-1")
            .set("aria-labelledby", "fitted-here-title")
            .child(el("h2").id("fitted-here-title").text(words::FITTED))
            .children(answer())
            .many(comes)
            .child(
                el("p")
                    .class("acts")
                    .child(act("keep-here", words::HOLD_AGAIN, hold))
                    .child(act("put-back-here", words::BACK_TO_FITTED, back))
                    .child(el("a").set("href", &format!("#{OVERVIEW}.beside")).text(words::ALL_THAT_DIFFERS)),
            )
    };
    el("div").class("trial-place").when(move || bench.fitted.with(Option::is_some), shown)
}

/// Holding, comparing, going back.
pub fn beside(trial: Memo<Option<Trial>>) -> El {
    let bench = Bench::get();
    let act = |id: &str, label: &str, does: fn(Bench)| act(id, label, "beside", does);
    let hold_another = |bench: Bench| {
        let mut held = bench.held.get_untracked();
        held.push(bench.build().get_untracked());
        bench.hold(held);
    };
    let acts = move || {
        let held = bench.held.with(Vec::len);
        let mut acts = vec![act("hold", if held > 0 { words::HOLD_AGAIN } else { words::HOLD }, hold)];
        if held > 0 {
            acts.push(act("back-to-fitted", words::BACK_TO_FITTED, back));
        }
        if (1..MOST_HELD).contains(&held) {
            acts.push(act("hold-another", words::HOLD_ANOTHER, hold_another));
        }
        if held > 0 {
            acts.push(act("let-go", words::LET_GO, |bench| bench.hold(Vec::new())));
        }
        acts
    };
    el("section")
        .class("results")
        .id("beside")
        .set("tabindex", "-1")
        .set("aria-labelledby", "beside-title")
        .child(el("h2").id("beside-title").text(words::BESIDE))
        .child(el("p").class("help").text(words::BESIDE_HELP))
        .child(el("p").class("acts").many(acts))
        .many(move || bench.held.with(|held| if held.len() > 1 { all_of(held) } else { Vec::new() }))
        .many(move || trial.with(|trial| trial.as_ref().map(shown).unwrap_or_default()))
}

fn shown(trial: &Trial) -> Vec<El> {
    let bench = Bench::get();
    let Trial { changes, differ, .. } = trial;
    if trial.is_nothing() {
        return vec![el("p").class("note").text(words::NOTHING_DIFFERS)];
    }
    let inputs = changes.inputs.iter().map(|it| el("li").child(el("p").children(pieces(&it.line.pieces, bench.system()))));
    let rows = differ.iter().take(LISTED).map(|it| row(it, changes));
    let left = differ.len().saturating_sub(LISTED);
    let mut shown = vec![
        el("h3").text(words::DIFFERS),
        el("ul").class("differs").children(inputs),
        el("h3").text(words::ANSWERS_DIFFER),
        el("ul").class("differs").children(trial.kit_row()).children(rows),
    ];
    shown.extend((left > 0).then(|| el("p").class("note").text(&words::more(left))));
    shown
}

/// Every build held and the one on trial, side by side: inputs and judged answers in which any two differ. Where there is
/// no room for it, only its note is shown.
fn all_of(held: &[Build]) -> Vec<El> {
    let bench = Bench::get();
    bench.when_calm();
    let builds: Vec<Build> = held.iter().cloned().chain([bench.build().get_untracked()]).collect();
    let report = |build: &Build| {
        let mut report = Report::new(build);
        plan().evaluate(build, &mut report);
        report
    };
    let all: Vec<(Build, Report)> = builds.into_iter().map(|build| (build.clone(), report(&build))).collect();
    let Some((first, others)) = all.split_first() else { return Vec::new() };
    let is_input = |place: &Place| spec_of(*place).role == Role::Input;
    let is_shown = |place: &Place| is_input(place) || spec_of(*place).is_judged();
    let differs = |place: &Place| {
        let of = |(_, report): &(Build, Report)| reads(*place, report.value(*place));
        others.iter().any(|other| of(other) != of(first))
    };
    let layout = bench.build().with_untracked(|build| build.layout().clone());
    let row = |place: Place| {
        let spec = spec_of(place);
        let value = |(build, report): &(Build, Report)| {
            let shown = reads(place, report.value(place)).map_or_else(|| el("span").text("?"), |shown| figure(&shown));
            let verdict = spec.is_judged().then(|| gauge::verdict(report.verdict(build, place)));
            el("td").child(shown).text(" ").children(verdict)
        };
        let label = bench.build().with_untracked(|build| show::label(build, place));
        el("tr").child(el("th").set("scope", "row").text(&label)).children(all.iter().map(value))
    };
    let mut places: Vec<Place> = layout.places(Role::Input).chain(layout.places(Role::Output)).filter(is_shown).filter(differs).collect();
    places.order_by_key(|place| !is_input(place));
    let named = (0..held.len()).map(words::held).chain([words::ON_TRIAL.to_owned()]);
    let head = core::iter::once(String::new()).chain(named).map(|name| el("th").set("scope", "col").text(&name));
    let table = el("table")
        .child(el("caption").text(words::ALL_HELD))
        .child(el("thead").child(el("tr").children(head)))
        .child(el("tbody").children(places.into_iter().take(LISTED).map(row)));
    vec![
        el("p").class("note if-narrow").text(words::MORE_ON_A_WIDE_SCREEN),
        el("div").class("plot-values if-wide").set("tabindex", "0").set("role", "group").set("aria-label", words::ALL_HELD).child(table),
    ]
}

/// A value as it is read. Tracked.
fn reads(place: Place, value: Result<f64, Unknown>) -> Option<Shown> {
    value.ok().map(|value| show::cell(spec_of(place), value, Bench::get().system()))
}

fn row(it: &Difference, changes: &Changes) -> El {
    let bench = Bench::get();
    let label = bench.build().with_untracked(|build: &Build| show::label(build, it.place));
    let link = el("a").set("href", &format!("#{}", bench.key(it.place))).text(&label);
    let value = |at: usize| {
        let shown = reads(it.place, if at == 0 { it.before } else { it.after });
        let shown = shown.map_or_else(|| el("span").text("?"), |shown| figure(&shown));
        let verdict = (it.verdicts[0] != it.verdicts[1]).then(|| gauge::verdict(it.verdicts[at]));
        el("span").child(shown).text(" ").children(verdict)
    };
    let way = match it.way {
        Some(Way::Better) => words::BETTER,
        Some(Way::Worse) => words::WORSE,
        None => "",
    };
    let cause = |&at: &usize| match changes.inputs.get(at).map(|input| input.what) {
        Some(What::Cell(place)) => bench.build().with_untracked(|build| show::label(build, place)),
        Some(What::Added(table, _) | What::Removed(table, _) | What::Moved(table)) => crate::table::declared(table).label.to_owned(),
        None => String::new(),
    };
    let causes: Vec<String> = it.causes.iter().map(cause).filter(|cause| !cause.is_empty()).collect();
    el("li")
        .set("data-key", &bench.key(it.place))
        .child(link)
        .child(el("span").class("pair").child(value(0)).text(" → ").child(value(1)))
        .child(el("span").class("note").text(&words::way_and_cause(way, &causes)))
}
