//! What a link changes against one's own car: all of it listed, to take some.

use crate::banners::forget_link;
use crate::bench::{Bench, plan, spec_of};
use crate::dom::{El, button, el, folded};
use crate::figure::pieces;
use crate::page::focus_later;
use crate::signal::{Memo, State, memo};
use crate::words;
use trialfit_core::changed::{Changes, What, changes};
use trialfit_core::report::Report;
use trialfit_core::spec::Kind;

/// From one's own to what is shown. Tracked.
fn difference() -> Changes {
    let bench = Bench::get();
    bench.visit.with(|visit| {
        let Some(visit) = visit else { return Changes::default() };
        let mut own = Report::new(&visit.own);
        plan().evaluate(&visit.own, &mut own);
        bench.look(|build, report| {
            let mut found = changes((&visit.own, &own), (build, report));
            // A name that the link has not is none to take.
            let has_words = |place| !matches!(spec_of(place).kind, Kind::Text(_)) || !build.text(place).is_empty();
            found.inputs.retain(|it| !matches!(it.what, What::Cell(place) if !has_words(place)));
            found
        })
    })
}

/// Folded; what is ticked can be taken.
pub fn differs() -> El {
    let found = memo(difference);
    let summary = el("summary").says(move || match found.with(|it| it.inputs.len()) {
        0 => words::AS_YOURS.to_owned(),
        count => words::differs_in(count),
    });
    folded(el("details").class("row-more differing").id("visit-differs").child(summary), move || inside(found))
}

fn inside(found: Memo<Changes>) -> El {
    let bench = Bench::get();
    let ticked = State::new(Vec::<bool>::new());
    let all = found.with_untracked(|it| it.inputs.len());
    ticked.set(vec![true; all]);
    let line = move |at: usize| {
        let tick = el("input")
            .set("type", "checkbox")
            .id(&format!("take-{at}"))
            .prop("checked", move || ticked.with(|ticked| ticked[at]).into())
            .on("change", move |_| ticked.update(|ticked| ticked[at] = !ticked[at]));
        let words = found.with_untracked(|it| pieces(&it.inputs[at].line.pieces, bench.system()));
        el("li").child(el("label").class("tick").child(tick).child(el("span").children(words)))
    };
    let count = move || ticked.with(|ticked| ticked.iter().filter(|&&it| it).count());
    let take = button("quiet", "take-some").says(move || words::take_some(count(), all)).prop("disabled", move || (count() == 0).into());
    let take = take.on_press(move || {
        let of_ticked = |(at, it): (usize, &trialfit_core::changed::Input)| ticked.with_untracked(|ticked| ticked[at]).then_some(it.what);
        let some: Vec<What> = found.with_untracked(|it| it.inputs.iter().enumerate().filter_map(of_ticked).collect());
        bench.take_some(some);
        forget_link();
        focus_later("main".into());
    });
    let turn = button("quiet", "tick-all").says(move || if count() == 0 { words::ALL_OF_IT } else { words::NONE_OF_IT }.to_owned());
    let turn = turn.on_press(move || {
        let none = ticked.with_untracked(|ticked| !ticked.contains(&true));
        ticked.set(vec![none; all]);
    });
    let turns: Vec<El> =
        found.with_untracked(|it| it.verdicts.iter().map(|it| el("li").children(pieces(&it.line.pieces, bench.system()))).collect());
    let turned = (!turns.is_empty()).then(|| [el("p").text(words::IT_TURNS), el("ul").children(turns)]);
    let choose = (all > 0).then(|| {
        [
            el("p").class("note").text(words::MINE_AND_THEIRS),
            el("ul").class("ticks").children((0..all).map(line)),
            el("p").class("acts").child(take).child(turn),
        ]
    });
    el("div").children(choose.into_iter().flatten()).children(turned.into_iter().flatten())
}
