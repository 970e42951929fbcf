//! Units, colours, the cars this browser keeps, a place to paste a link, and damaged texts put aside.

use crate::banners::own_car;
use crate::bench::{Bench, Notice};
use crate::copy::{copied_or_not, copy};
use crate::dom::{El, button, el, item, value_in};
use crate::field::options::chip;
use crate::keep::Listed;
use crate::settings::{Theme, system_key};
use crate::sheet;
use crate::signal::{State, memo};
use crate::words;
use leptos::prelude::*;
use trialfit_core::show::System;

/// The menu.
pub fn menu() -> Vec<El> {
    let bench = Bench::get();
    let system = |system: System| {
        let (chip, radio) =
            chip("units", &format!("units-{}", system_key(system)), words::system(system), move || bench.system() == system);
        _ = radio.on("change", move |_| bench.settings.update(|settings| settings.system = system));
        chip
    };
    let theme = |theme: Theme| {
        let now = move || bench.settings.with(|settings| settings.theme == theme);
        let (chip, radio) = chip("colours", &format!("colours-{}", theme.key()), words::theme(theme), now);
        _ = radio.on("change", move |_| bench.settings.update(|settings| settings.theme = theme));
        chip
    };
    let chips = |legend: &str| el("fieldset").class("chips").child(el("legend").text(legend));
    let print = button("quiet", "print").text(words::PRINT).on_press(|| _ = window().print());
    let sheet = button("quiet", "print-sheet").text(words::PRINT_SHEET).on_press(sheet::print);
    vec![
        el("h2").text(words::MENU),
        chips(words::MENU_UNITS).children([System::Metric, System::Imperial].map(system)),
        chips(words::MENU_COLOURS).children(Theme::ALL.map(theme)),
        cars(),
        paste(),
        el("p").class("acts").child(sheet).child(print),
        damaged(),
    ]
}

/// What the browser keeps: which car is on the bench, and all of them.
type Kept = (u32, Vec<Listed>);

fn kept() -> Kept {
    Bench::get().with_keeper(|keeper| (keeper.number(), keeper.list()))
}

/// The cars kept here. One is on the bench; another can be put there, or thrown away.
fn cars() -> El {
    let all = State::new(kept());
    let items = move || {
        let (on_bench, list) = all.get();
        // A car that comes onto the bench or goes from it is shown anew.
        list.into_iter().map(|car| item(format!("{car:?} {}", car.number == on_bench), move || one_car(all, car))).collect()
    };
    let another = button("quiet", "another-car").text(words::NEW_CAR).on_press(move || {
        start_another();
        all.set(kept());
    });
    el("section")
        .child(el("h3").text(words::MENU_CARS))
        .child(el("p").class("note").text(words::KEPT_HERE))
        .child(el("ul").class("cars").id("cars").each(items))
        .child(el("p").class("acts").child(another))
}

fn one_car(all: State<Kept>, Listed { number, name }: Listed) -> El {
    let called = if name.is_empty() { words::NO_NAME } else { &name };
    let line = el("li").set("data-car", &number.to_string()).child(el("bdi").text(called));
    if all.with_untracked(|(on_bench, _)| *on_bench == number) {
        return line.child(el("span").class("note").text(words::ON_THE_BENCH));
    }
    let act = |word: &str, act: fn(u32)| {
        button("quiet", "").set("aria-label", &words::act_of(word, called)).text(word).on_press(move || {
            act(number);
            all.set(kept());
        })
    };
    line.child(act(words::OPEN, open)).child(act(words::THROW_AWAY, throw_away))
}

fn open(number: u32) {
    let bench = Bench::get();
    leave_visit(bench);
    match bench.with_keeper(|keeper| keeper.take(number)) {
        Ok(Some(found)) => {
            if !found.problems.is_empty() {
                bench.tell(Notice::Damaged(found.problems));
            }
            bench.replace(found.build);
        }
        Ok(None) => {}
        Err(fault) => bench.tell(Notice::NotKept(fault)),
    }
}

fn throw_away(number: u32) {
    let bench = Bench::get();
    if let Err(fault) = bench.with_keeper(|keeper| keeper.throw_away(number)) {
        bench.tell(Notice::NotKept(fault));
    }
}

fn start_another() {
    let bench = Bench::get();
    leave_visit(bench);
    let build = own_car();
    match bench.with_keeper(|keeper| keeper.save_anew(&build)) {
        Ok(_) => bench.replace(build),
        Err(fault) => bench.tell(Notice::NotKept(fault)),
    }
}

fn leave_visit(bench: Bench) {
    if bench.visit.with_untracked(Option::is_some) {
        bench.keep_mine();
    }
}

/// For a home-screen app, which no link opens.
fn paste() -> El {
    let field = el("input")
        .class("words")
        .id("paste")
        .set("type", "text")
        .set("autocomplete", "off")
        .set("spellcheck", "false")
        .set("aria-describedby", "paste-note")
        .on("change", |event| {
            let text = value_in(&event);
            let fragment = text.trim().rsplit_once('#').map_or(text.trim(), |(_, fragment)| fragment);
            if !fragment.is_empty() {
                _ = window().location().set_hash(fragment);
            }
        });
    el("section")
        .child(el("h3").child(el("label").set("for", "paste").text(words::PASTE)))
        .child(el("p").class("note").id("paste-note").text(words::PASTE_HELP))
        .child(field)
}

/// Texts that could not be read, to copy out.
fn damaged() -> El {
    let find = || Bench::get().with_keeper(|keeper| keeper.damaged());
    let keys = State::new(find());
    let text = move |key: String| {
        let bench = Bench::get();
        let copied = State::new(None);
        let id = key.replace('.', "-");
        let area = el("textarea").id(&id).set("readonly", "").set("rows", "3").set("aria-label", words::DAMAGED_TEXTS);
        let area = area.text(&bench.with_keeper(|keeper| keeper.text(&key)).unwrap_or_default());
        let discard = button("quiet", "").text(words::THROW_AWAY).on_press(move || {
            _ = bench.with_keeper(|keeper| keeper.discard(&key));
            keys.set(find());
        });
        let copy = button("quiet", "").text(words::COPY).on_press(move || copy(&id, copied));
        el("li").child(area).child(copy).child(discard).child(copied_or_not(copied))
    };
    let any = memo(move || !keys.with(Vec::is_empty));
    let list = move || keys.get().into_iter().map(|key| item(key.clone(), move || text(key))).collect();
    let title = move || any.get().then(|| el("h3").text(words::DAMAGED_TEXTS));
    el("section").maybe(title).child(el("ul").class("damaged").each(list))
}
