//! A link to one answer: it opens there, with the working unfolded.

use crate::bench::{Bench, spec_of};
use crate::copy::{copied_or_not, copy};
use crate::dom::{El, button, el, folded};
use crate::language;
use crate::send::{address_of, can_share, share};
use crate::signal::{State, memo};
use crate::words;
use trialfit_core::share::link::Link;
use trialfit_core::show;
use trialfit_core::spec::Place;

/// Folded, so that it is in nobody's way.
pub fn cite(place: Place, key: &str) -> El {
    let key = key.to_owned();
    let summary = el("summary").set("aria-label", &words::act_of(words::CITE, spec_of(place).label)).text(words::CITE);
    folded(el("details").class("cite").id(&format!("{key}.cite")).child(summary), move || inside(place, &key))
}

fn inside(place: Place, key: &str) -> El {
    let bench = Bench::get();
    let show = key.to_owned();
    let address = memo(move || address_of(&Link { show: show.clone(), ..bench.build().get().into() }));
    let id = format!("{key}.link");
    let field = el("input")
        .class("words")
        .id(&id)
        .set("type", "text")
        .set("readonly", "")
        .set("aria-label", &words::act_of(words::CITE, spec_of(place).label))
        .value(move || address.get());
    let said = move || {
        let label = bench.build().with_untracked(|build| show::label(build, place));
        let value = bench.value_now(place).ok().map(|value| show::cell(spec_of(place), value, bench.system()).to_string());
        let said = [label, value.unwrap_or_else(|| "?".to_owned())].join(": ");
        format!("{}\n{}", language::says(&said), address.get_untracked())
    };
    let copied = State::new(None);
    let sharing = can_share().then(|| button("quiet", "").text(words::SHARE).on_press(move || share(&said())));
    let acts = el("p")
        .class("acts")
        .child(button("quiet", &format!("{key}.copy")).text(words::COPY_LINK).on_press(move || copy(&id, copied)))
        .children(sharing)
        .child(copied_or_not(copied));
    el("div").child(field).child(acts)
}
