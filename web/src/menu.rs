//! Units, colours, language, the cars this browser keeps, the home screen, a place to paste a link, and damaged texts put aside.

use crate::bench::Bench;
use crate::cars::cars;
use crate::copy::{copied_or_not, copy};
use crate::dialog::close;
use crate::dom::{El, button, el, folded, item, value_in};
use crate::field::options::{chip, named_chip};
use crate::language;
use crate::route::{self, Route};
use crate::settings::Theme;
use crate::sheet;
use crate::signal::{State, memo};
use crate::words;
use gloo_events::EventListener;
use leptos::prelude::*;
use trialfit_core::calculators::ALL;
use trialfit_core::overview::OVERVIEW;
use trialfit_core::share::link;
use trialfit_core::show::{Sort, System, Way};
use web_sys::CustomEvent;

/// The menu.
pub fn menu() -> Vec<El> {
    let bench = Bench::get();
    let system = |system: System| {
        let now = move || bench.settings.with(|settings| settings.system == system);
        let (chip, radio) = chip("units", &format!("units-{}", system.write()), words::system(system), now);
        _ = radio.on("change", move |_| bench.prefer(system));
        chip
    };
    let theme = |theme: Theme| {
        let now = move || bench.settings.with(|settings| settings.theme == theme);
        let (chip, radio) = chip("colours", &format!("colours-{}", theme.key()), words::theme(theme), now);
        _ = radio.on("change", move |_| bench.settings.update(|settings| settings.theme = theme));
        chip
    };
    let now = language::code();
    let languages = language::all().into_iter().map(|(code, name)| {
        let is_now = code == now;
        let label = el("span").set("lang", &code).own(&name);
        let (chip, radio) = named_chip("language", &format!("language-{code}"), label, move || is_now);
        _ = radio.on("change", move |_| language::choose(&code));
        chip
    });
    let chips = |legend: &str| el("fieldset").class("chips").child(el("legend").text(legend));
    let print = button("quiet", "print").text(words::PRINT).on_press(|| _ = window().print());
    let sheet = button("quiet", "print-sheet").text(words::PRINT_SHEET).on_press(sheet::print);
    vec![
        el("h2").text(words::MENU),
        el("section").child(to_overview()),
        chips(words::MENU_UNITS).children([System::Metric, System::Imperial].map(system)),
        units_one_by_one(),
        chips(words::MENU_COLOURS).children(Theme::ALL.map(theme)),
        chips(words::MENU_LANGUAGE).children(languages),
        cars(),
        paste(),
        home_screen(),
        // In a part of its own: only the window's last acts stay in sight over the others.
        el("section").child(el("h3").text(words::ON_PAPER)).child(el("p").class("acts").child(sheet).child(print)),
        damaged(),
    ]
}

/// Where parts are chosen and builds compared: the car's name in the strip leads there too, but who would guess?
fn to_overview() -> El {
    el("a").class("place").id("to-overview").set("href", &format!("#{OVERVIEW}")).text(words::MENU_OVERVIEW).on_press(|| close("menu"))
}

/// Each sort of quantity in a unit of its own.
fn units_one_by_one() -> El {
    let bench = Bench::get();
    let own = move || bench.settings.with(|settings| settings.system);
    let row = move |sort: Sort| {
        let id = format!("units-of-{}", sort.key());
        let option = |(at, way): (usize, &Way)| el("option").set("value", &at.to_string()).text(way.label);
        let ways = el("select").id(&id).children(sort.ways().iter().enumerate().map(option));
        let ways = ways.value(move || own().way(sort).to_string()).on("change", move |event| {
            let way = value_in(&event).parse().unwrap_or_default();
            bench.prefer(bench.settings.with_untracked(|settings| settings.system).with(sort, way));
        });
        el("p").class("asked").child(el("label").set("for", &id).text(words::sort(sort))).child(ways)
    };
    let mixed = move || ![System::Metric, System::Imperial].contains(&own());
    let title = el("summary").id("units-each-title").says(move || words::one_by_one(mixed()));
    folded(el("details").class("row-more").id("units-each").child(title), move || {
        el("div").class("units").children(Sort::ALL.map(row)).child(el("p").class("note").text(words::GAUGES_HELP))
    })
}

/// For a home-screen app, which no link opens.
fn paste() -> El {
    let wrong = State::new(String::new());
    let field = el("input")
        .class("words")
        .id("paste")
        .set("type", "text")
        .set("autocomplete", "off")
        .set("spellcheck", "false")
        .set("aria-describedby", "paste-note paste-problem")
        .on("change", move |event| {
            let text = value_in(&event);
            let leads = |text: &&str| route::read(text, ALL) != Route::Unknown;
            // Among other words, or in a post with other addresses.
            let found = text.match_indices('#').map(|(at, _)| &text[at + 1..]).chain([text.trim()]).find(leads);
            wrong.set(match (found, link::read(&text)) {
                (Some(fragment), _) => {
                    _ = window().location().set_hash(fragment.trim());
                    String::new()
                }
                (None, Err(why)) if !text.trim().is_empty() => words::no_link(&why.to_string()),
                _ => String::new(),
            });
        });
    el("section")
        .child(el("h3").child(el("label").set("for", "paste").text(words::PASTE)))
        .child(el("p").class("note").id("paste-note").text(words::PASTE_HELP))
        .child(field)
        .child(el("p").class("problem").id("paste-problem").set("role", "status").says(move || wrong.get()))
}

/// From the loader: the browser can install the page; and to it: let it ask.
const INSTALL_CAN: &str = "trialfit-install-can";
const INSTALL_ASK: &str = "trialfit-install-ask";

/// Putting the page on the home screen, unless it was opened from there.
fn home_screen() -> El {
    let root = document().document_element();
    let is = move |name: &str| root.as_ref().is_some_and(|root| root.has_attribute(name));
    let section = el("section");
    if is("data-installed") {
        return section;
    }
    let can = State::new(is("data-install"));
    let heard = EventListener::new(&window(), INSTALL_CAN, move |_| can.set(is("data-install")));
    // As long as the menu is open.
    StoredValue::new_local(heard);
    let ask = || {
        button("quiet", "install").text(words::INSTALL).on_press(|| {
            if let Ok(event) = CustomEvent::new(INSTALL_ASK) {
                _ = window().dispatch_event(&event);
            }
        })
    };
    section
        .id("home-screen")
        .child(el("h3").text(words::HOME_SCREEN))
        .child(el("p").class("note").text(words::INSTALL_HELP))
        .when(move || can.get(), move || el("p").class("acts").child(ask()))
        .when(move || !can.get(), || el("p").class("note").text(words::INSTALL_BY_HAND))
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
        let area = area.own(&bench.with_keeper(|keeper| keeper.text(&key)).unwrap_or_default());
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
