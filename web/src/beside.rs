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
use trialfit_core::show;

/// So many answers are listed at once; of more, the rest is counted.
const LISTED: usize = 40;

/// Holding, comparing, going back.
pub fn beside() -> El {
    let bench = Bench::get();
    let found = memo(move || {
        bench.when_calm();
        bench.held.with(|held| {
            held.as_ref().map(|held| {
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
    let hold = |bench: Bench| bench.hold(Some(bench.build().get_untracked()));
    let back = |bench: Bench| {
        if let Some(held) = bench.held.get_untracked() {
            bench.edit(Gesture::Once, words::BACK_TO_FITTED, move |build| *build = held);
        }
    };
    let acts = move || {
        let held = bench.held.with(Option::is_some);
        let mut acts = vec![act("hold", if held { words::HOLD_AGAIN } else { words::HOLD }, hold)];
        if held {
            acts.extend([act("back-to-fitted", words::BACK_TO_FITTED, back), act("let-go", words::LET_GO, |bench| bench.hold(None))]);
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
