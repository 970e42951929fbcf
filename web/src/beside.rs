//! What is fitted beside what is on trial: inputs that differ, and every answer that differs for it.

use crate::bench::{Bench, plan, spec_of};
use crate::dom::{El, button, el};
use crate::figure::{figure, pieces};
use crate::gauge;
use crate::history::Gesture;
use crate::page::focus_later;
use crate::signal::memo;
use crate::words;
use trialfit_core::build::Build;
use trialfit_core::changed::{Changes, What, changes};
use trialfit_core::compare::{Difference, Way, differences};
use trialfit_core::report::Report;
use trialfit_core::share::link::MOST_HELD;
use trialfit_core::show;
use trialfit_core::spec::{Place, Role};

/// So many answers are listed at once; of more, the rest is counted.
const LISTED: usize = 40;

/// Holding, comparing, going back.
pub fn beside() -> El {
    let bench = Bench::get();
    let found = memo(move || {
        bench.when_calm();
        bench.held.with(|held| {
            held.first().map(|held| {
                let mut was = Report::new(held);
                plan().evaluate(held, &mut was);
                bench.look_now(|build, report| {
                    let changes = changes((held, &was), (build, report));
                    let differ = differences(plan(), (held, &was), (build, report), &changes);
                    (changes, differ)
                })
            })
        })
    });
    let act = move |id: &str, label: &str, act: fn(Bench)| {
        button("quiet", id).text(label).on_press(move || {
            act(bench);
            focus_later("beside".into());
        })
    };
    let hold = |bench: Bench| {
        let mut held = bench.held.get_untracked();
        let build = bench.build().get_untracked();
        match held.first_mut() {
            Some(first) => *first = build,
            None => held.push(build),
        }
        bench.hold(held);
    };
    let hold_another = |bench: Bench| {
        let mut held = bench.held.get_untracked();
        held.push(bench.build().get_untracked());
        bench.hold(held);
    };
    let back = |bench: Bench| {
        if let Some(held) = bench.held.get_untracked().into_iter().next() {
            bench.edit(Gesture::Once, words::BACK_TO_FITTED, move |build| *build = held);
        }
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
        .many(move || found.with(|found| found.as_ref().map(|(changes, differ)| shown(changes, differ)).unwrap_or_default()))
}

fn shown(changes: &Changes, differ: &[Difference]) -> Vec<El> {
    let bench = Bench::get();
    if changes.inputs.is_empty() && differ.is_empty() {
        return vec![el("p").class("note").text(words::NOTHING_DIFFERS)];
    }
    let inputs = changes.inputs.iter().map(|it| el("li").child(el("p").children(pieces(&it.line.pieces, bench.system()))));
    let rows = differ.iter().take(LISTED).map(|it| row(it, changes));
    let left = differ.len().saturating_sub(LISTED);
    let mut shown = vec![
        el("h3").text(words::DIFFERS),
        el("ul").class("differs").children(inputs),
        el("h3").text(words::ANSWERS_DIFFER),
        el("ul").class("differs").children(rows),
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
        let of = |(_, report): &(Build, Report)| report.value(*place).map(f64::to_bits).ok();
        others.iter().any(|other| of(other) != of(first))
    };
    let layout = bench.build().with_untracked(|build| build.layout().clone());
    let row = |place: Place| {
        let spec = spec_of(place);
        let value = |(build, report): &(Build, Report)| {
            let shown = report.value(place).map_or_else(|_| el("span").text("?"), |value| figure(&show::cell(spec, value, bench.system())));
            let verdict = spec.is_judged().then(|| gauge::verdict(report.verdict(build, place)));
            el("td").child(shown).text(" ").children(verdict)
        };
        let label = bench.build().with_untracked(|build| show::label(build, place));
        el("tr").child(el("th").set("scope", "row").text(&label)).children(all.iter().map(value))
    };
    let mut places: Vec<Place> = layout.places(Role::Input).chain(layout.places(Role::Output)).filter(is_shown).filter(differs).collect();
    places.sort_by_key(|place| !is_input(place));
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

fn row(it: &Difference, changes: &Changes) -> El {
    let bench = Bench::get();
    let label = bench.build().with_untracked(|build: &Build| show::label(build, it.place));
    let link = el("a").set("href", &format!("#{}", bench.key(it.place))).text(&label);
    let spec = spec_of(it.place);
    let value = |at: usize| {
        let shown = match if at == 0 { it.before } else { it.after } {
            Ok(value) => figure(&show::cell(spec, value, bench.system())),
            Err(_) => el("span").text("?"),
        };
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
    let causes = it.causes.iter().map(cause).collect::<Vec<_>>().join(", ");
    el("li")
        .set("data-key", &bench.key(it.place))
        .child(link)
        .child(el("span").class("pair").child(value(0)).text(" → ").child(value(1)))
        .child(el("span").class("note").text(&words::way_and_cause(way, &causes)))
}
