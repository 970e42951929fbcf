//! What a value may be off by: ± and how the values between are spread, given for one input alone or as usual.

use super::entry::Entry;
use crate::bench::Bench;
use crate::dom::{El, el, put_value, value_in};
use crate::figure::unit;
use crate::history::Gesture;
use crate::language;
use crate::signal::{State, memo};
use crate::words;
use trialfit_core::entry::{clean, read_end};
use trialfit_core::show;
use trialfit_core::tolerance::Shape;

/// Shapes to choose from, with their words in the address of the field.
const SHAPES: [(&str, Shape, &str); 4] = [
    ("normal-2", Shape::Normal { sigmas: 2.0 }, words::NORMAL_TWO),
    ("normal-3", Shape::Normal { sigmas: 3.0 }, words::NORMAL_THREE),
    ("uniform", Shape::Uniform, words::UNIFORM),
    ("triangular", Shape::Triangular, words::TRIANGULAR),
];

/// ± and shape of one input.
pub fn tolerance(entry: Entry) -> El {
    let bench = Bench::get();
    let key = bench.key(entry.place);
    let (id, shape_id, note_id) = (format!("{key}.pm"), format!("{key}.dist"), format!("{key}.pm.note"));
    let (dimension, difference) = entry.dimension.difference(entry.unit);
    let symbol = move || bench.system().unit(dimension, difference);
    let given = memo(move || bench.build().with(|build| build.tolerance(entry.place)));
    let in_force = memo(move || bench.look(|_, report| report.tolerance(entry.place)));
    let problem = State::new(None::<(String, String)>);
    let shown = move || {
        if let Some((text, _)) = problem.get() {
            return text;
        }
        let number = |width: f64| language::number(&show::input(width, symbol()).number).into_owned();
        in_force
            .get()
            .ok()
            .filter(|off| off.half_width > 0.0 || given.get().half_width.is_some())
            .map_or_else(String::new, |off| number(off.half_width))
    };
    let take = move |text: String| {
        let (place, label) = (entry.place, entry.spec.label);
        let system = leptos::prelude::untrack(|| bench.system());
        let read = if text.trim().is_empty() {
            Ok(None)
        } else {
            read_end(&text, dimension, system.unit(dimension, difference)).map(Some).map_err(|why| why.to_string())
        };
        let taken = read.and_then(|width| {
            let tried = bench.build().with_untracked(|build| build.clone().set_half_width(place, width));
            tried.map(|()| width).map_err(|why| words::refusal(why, entry.spec, &clean(&text, 24), system))
        });
        match taken {
            Ok(width) => {
                problem.set(None);
                bench.edit(Gesture::Once, label, move |build| _ = build.set_half_width(place, width));
            }
            Err(why) => problem.set(Some((text, why))),
        }
    };
    let note = move || match (problem.get(), given.get().half_width, in_force.get().map(|off| off.half_width)) {
        (Some((_, why)), ..) => why,
        (None, Some(_), _) => words::whose(bench.visit.with(Option::is_some)).to_owned(),
        (None, None, Ok(0.0) | Err(_)) => words::NOTHING_OFF.to_owned(),
        (None, None, Ok(_)) => words::USUAL_OFF.to_owned(),
    };
    let field = el("input")
        .class("number")
        .id(&id)
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set("aria-describedby", &note_id)
        .flag("aria-invalid", move || problem.with(Option::is_some))
        .value(shown)
        .on("change", move |event| take(value_in(&event)));
    let chosen = move || {
        let shape = given.get().shape;
        SHAPES.iter().find(|(_, known, _)| Some(*known) == shape).map_or("", |(word, ..)| word).to_owned()
    };
    let option = |word: &str, label: &str| el("option").set("value", word).text(label);
    let shapes = el("select")
        .id(&shape_id)
        .set("aria-label", &words::act_of(words::SPREAD_LIKE, entry.spec.label))
        .child(option("", words::AS_USUAL))
        .children(SHAPES.iter().map(|(word, _, label)| option(word, label)))
        .value(chosen)
        .on("change", move |event| {
            let (place, word) = (entry.place, value_in(&event));
            let shape = SHAPES.iter().find(|(known, ..)| *known == word).map(|(_, shape, _)| *shape);
            bench.edit(Gesture::Once, entry.spec.label, move |build| _ = build.set_shape(place, shape));
            put_value(&event, &leptos::prelude::untrack(chosen));
        });
    let label = el("label").set("for", &id).text(words::GIVE_OR_TAKE).text(" ").maybe(move || Some(unit(symbol().symbol)));
    let line = el("span").class("note").id(&note_id).says(note).class_when("wrong", move || problem.with(Option::is_some));
    el("p").class("asked").child(label).child(field).child(shapes).child(line)
}
