//! Sending the car: a link that carries it, with the answer in words, to copy or hand to the device's own way of sharing.

use crate::answer::sentence;
use crate::bench::Bench;
use crate::copy::{copied_or_not, copy};
use crate::dom::{El, button, el, value_in};
use crate::route::Screen;
use crate::signal::{State, memo};
use crate::words;
use leptos::prelude::*;
use leptos::task::spawn_local;
use trialfit_core::calculators::ALL;
use trialfit_core::share::link::{self, Asked, Link, NOTE, Sought, Tool};
use trialfit_core::show;
use trialfit_core::spec::{Id, Role};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_name = Navigator)]
    type Sharer;
    /// The device's own way of sharing; not every browser has one.
    #[wasm_bindgen(thread_local_v2, js_name = navigator)]
    static SHARER: Sharer;
    #[wasm_bindgen(method, getter, js_name = share)]
    fn can_share(this: &Sharer) -> Option<js_sys::Function>;
    #[wasm_bindgen(method)]
    fn share(this: &Sharer, what: &web_sys::ShareData) -> js_sys::Promise;
}

/// The address of this page that carries a link.
pub fn address_of(link: Link) -> String {
    let page = window().location().href().unwrap_or_default();
    format!("{}#{}", page.split('#').next().unwrap_or_default(), link::write(&link))
}

/// What the window to send from holds.
pub fn send() -> Vec<El> {
    let bench = Bench::get();
    let note = State::new(String::new());
    let show = State::new(String::new());
    let with_held = State::new(true);
    let at = bench.looking.get_untracked();
    let tools = open_tools(at);
    let tool_options: Vec<El> =
        tools.iter().map(|asked| el("option").set("value", asked.tool.key()).text(words::tool(asked.tool))).collect();
    let address = memo(move || {
        let show = show.get();
        let show = if show.is_empty() { at.key().to_owned() } else { show };
        let asked = Tool::by_key(&show).and_then(|tool| tools.iter().copied().find(|asked| asked.tool == tool));
        let held = if with_held.get() { bench.held.get() } else { Vec::new() };
        let sought = if asked.is_some_and(|asked| asked.tool == Tool::Combine) { bench.sought.get() } else { Sought::default() };
        let shelf = bench.shelf_address(asked.is_some_and(|asked| matches!(asked.tool, Tool::Combine | Tool::Parts)));
        address_of(Link { note: note.get(), show, asked, sought, held, shelf, ..bench.build().get().into() })
    });
    let text = memo(move || format!("{}: {}\n{}", at.label(), show::sentence(&sentence(at), bench.system()), address.get()));
    let label = |id: &str, text: &str| el("label").set("for", id).text(text);
    let note_field = el("input")
        .class("words")
        .id("send-note")
        .set("type", "text")
        .set("dir", "auto")
        .set("maxlength", &NOTE.to_string())
        .on("input", move |event| note.set(value_in(&event)));
    let calculator = if let Screen::Of(calculator) = at { Some(calculator) } else { None };
    let places = |role: Role, label: &str| {
        let group = el("optgroup").set("label", label);
        let specs = calculator.into_iter().flat_map(|at| ALL[usize::from(at)].specs.iter().enumerate().map(move |it| (at, it)));
        let of_role = specs.filter(|(_, (_, spec))| spec.role == role);
        let ids = of_role.map(|(calculator, (ordinal, _))| Id { calculator, ordinal: ordinal as u8 });
        bench.build().with_untracked(|build| {
            // Of rows, the answers alone: they are what one asks about.
            let places = ids.flat_map(|id| build.layout().places_of(id)).filter(|it| it.row.is_none() || role == Role::Output);
            group.children(places.map(|place| el("option").set("value", &bench.key(place)).text(&show::label(build, place))))
        })
    };
    let places = calculator.map(|_| [places(Role::Output, words::SEND_ANSWERS), places(Role::Input, words::SEND_VALUES)]);
    let show_field = el("select")
        .id("send-show")
        .child(el("option").set("value", "").text(words::SEND_SHOW_NOTHING))
        .children(tool_options)
        .children(places.into_iter().flatten())
        .on("change", move |event| show.set(value_in(&event)));
    let link_field = el("input").class("words").id("send-link").set("type", "text").set("readonly", "").value(move || address.get());
    let text_field = el("textarea").id("send-text").set("rows", "4").set("readonly", "").value(move || text.get());
    let copied = State::new(None);
    let share = can_share().then(|| button("", "share").text(words::SHARE).on_press(move || share(&text.get_untracked())));
    let acts = el("p")
        .class("acts")
        .child(button("", "copy-link").text(words::COPY_LINK).on_press(move || copy("send-link", copied)))
        .child(button("", "copy-words").text(words::COPY_WORDS).on_press(move || copy("send-text", copied)))
        .children(share)
        .child(copied_or_not(copied));
    let held = move || {
        // A press turns it over: what stands in the state is what is ticked.
        let tick = el("input")
            .id("send-held")
            .set("type", "checkbox")
            .prop("checked", move || with_held.get().into())
            .on("change", move |_| with_held.update(|with| *with = !*with));
        el("label").class("chip").child(tick).child(el("span").text(words::SEND_HELD))
    };
    let held = el("div").when(move || !bench.held.with(Vec::is_empty), held);
    vec![
        el("h2").text(words::SEND_TITLE),
        el("p").class("note").text(words::SEND_WORDS),
        label("send-note", words::SEND_NOTE),
        note_field,
        label("send-show", words::SEND_SHOW),
        show_field,
        held,
        label("send-link", words::SEND_LINK),
        link_field,
        label("send-text", words::SEND_TEXT),
        text_field,
        acts,
    ]
}

/// Tools that a link can open as they are set now, and the sections of the overview.
fn open_tools(at: Screen) -> Vec<Asked> {
    let bench = Bench::get();
    match at {
        Screen::Of(_) => bench.tools.get_untracked(),
        Screen::Overview => {
            let beside = (!bench.held.with_untracked(Vec::is_empty)).then_some(Tool::Beside);
            let search = bench.tools.with_untracked(|tools| tools.iter().any(|asked| asked.tool == Tool::Combine)).then_some(Tool::Combine);
            beside.into_iter().chain([Tool::Parts]).chain(search).map(Asked::of).collect()
        }
    }
}

/// Whether the device has its own way of sharing.
pub fn can_share() -> bool {
    SHARER.with(|sharer| sharer.can_share()).is_some()
}

/// Hands a text to the device's own way of sharing.
pub fn share(text: &str) {
    let what = web_sys::ShareData::new();
    what.set_title(words::APP);
    what.set_text(text);
    let shared = JsFuture::from(SHARER.with(|sharer| sharer.share(&what)));
    // Whoever breaks it off needs no message.
    spawn_local(async move { _ = shared.await });
}
