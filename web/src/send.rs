//! Sending the car: a link that carries it, with the answer in words, to copy or hand to the device's own way of sharing.

use crate::answer::sentence;
use crate::bench::Bench;
use crate::copy::{copied_or_not, copy};
use crate::dom::{El, button, el, folded, svg, value_in};
use crate::field::options::chip;
use crate::follow::effect;
use crate::language;
use crate::route::Screen;
use crate::signal::{State, memo};
use crate::{save, words};
use leptos::prelude::*;
use trialfit_core::calculators::ALL;
use trialfit_core::method::key_of;
use trialfit_core::share::link::{self, Asked, Link, NOTE, Sought, Tool};
use trialfit_core::share::markup::Form;
use trialfit_core::share::qr::{Qr, qr};
use trialfit_core::share::text::Post;
use trialfit_core::show;
use trialfit_core::spec::{Id, Role};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_futures::spawn_local;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_name = Navigator)]
    type Sharer;
    /// The device's own way of sharing; not every browser has one.
    #[wasm_bindgen(thread_local_v2, js_name = navigator)]
    static SHARER: Sharer;
    #[wasm_bindgen(method, getter, js_name = share)]
    fn can_share(this: &Sharer) -> Option<js_sys::Function>;
    /// Whether it takes this; not every browser can be asked.
    #[wasm_bindgen(method, catch, js_name = canShare)]
    fn takes(this: &Sharer, what: &web_sys::ShareData) -> Result<bool, JsValue>;
    #[wasm_bindgen(method)]
    fn share(this: &Sharer, what: &web_sys::ShareData) -> js_sys::Promise;
}

/// The address of this page that carries a link.
pub fn address_of(link: &Link) -> String {
    format!("{}#{}", page_address(), link::write(link))
}

/// The address of this page without what follows it.
pub fn page_address() -> String {
    let page = window().location().href().unwrap_or_default();
    page.split('#').next().unwrap_or_default().to_owned()
}

/// What the window to send from holds.
pub fn send() -> Vec<El> {
    let bench = Bench::get();
    let note = State::new(String::new());
    let show = State::new(String::new());
    let with_held = State::new(true);
    let in_my_units = State::new(false);
    let at = bench.looking.get_untracked();
    let tools = open_tools(at);
    let tool_options: Vec<El> =
        tools.iter().map(|asked| el("option").set("value", asked.tool.key()).text(words::tool(asked.tool))).collect();
    let form = State::new(Form::Plain);
    let whole = State::new(false);
    let link = memo(move || {
        let show = show.get();
        let show = if show.is_empty() { at.key().to_owned() } else { show };
        let asked = Tool::by_key(&show).and_then(|tool| tools.iter().copied().find(|asked| asked.tool == tool));
        let held = if with_held.get() { bench.held.get() } else { Vec::new() };
        let sought = if asked.is_some_and(|asked| asked.tool == Tool::Combine) { bench.sought.get() } else { Sought::default() };
        let shelf = bench.shelf_address(asked.is_some_and(|asked| matches!(asked.tool, Tool::Combine | Tool::Parts)));
        let units = in_my_units.get().then(|| bench.system());
        Link { note: note.get(), show, asked, sought, units, held, shelf, ..bench.build().get().into() }
    });
    let address = memo(move || link.with(address_of));
    let text = memo(move || {
        let page = page_address();
        let calculator = if let Screen::Of(calculator) = at { Some(calculator) } else { None };
        let post = Post { form: form.get(), system: bench.system(), page: &page, calculator, translate: language::said };
        link.with(|link| match whole.get() {
            true => bench.report().with(|report| post.report(link, report)),
            false => post.answer(at.label(), &sentence(at), link),
        })
    });
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
        .children(calculator.map(|at| el("option").set("value", &key_of(ALL[usize::from(at)].key)).text(words::METHOD)))
        .children(places.into_iter().flatten())
        .on("change", move |event| show.set(value_in(&event)));
    let link_field = el("input")
        .class("words")
        .id("send-link")
        .set("aria-label", words::SEND_LINK)
        .set("type", "text")
        .set("readonly", "")
        .value(move || address.get());
    let text_field =
        el("textarea").id("send-text").set("aria-label", words::SEND_TEXT).set("rows", "4").set("readonly", "").value(move || text.get());
    let (link_copied, words_copied) = (State::new(None), State::new(None));
    // What was copied is another once note or link change.
    effect(move |_| {
        text.with(|_| ());
        address.with(|_| ());
        link_copied.set(None);
        words_copied.set(None);
    });
    let share = can_share().then(|| button("", "share").text(words::SHARE).on_press(move || share(&text.get_untracked())));
    let acts = |acts: Vec<El>, copied| el("p").class("acts").children(acts).child(copied_or_not(copied));
    let link_acts = vec![button("", "copy-link").text(words::COPY_LINK).on_press(move || copy("send-link", link_copied))];
    let words_acts = vec![button("", "copy-words").text(words::COPY_WORDS).on_press(move || copy("send-text", words_copied))];
    let as_form = |(it, key, words): (Form, &str, &str)| {
        let (chip, radio) = chip("send-form", &format!("send-{key}"), words, move || form.get() == it);
        _ = radio.on("change", move |_| form.set(it));
        chip
    };
    let forms = el("fieldset").class("chips").child(el("legend").text(words::SEND_FORM)).children(
        [(Form::Plain, "plain", words::PLAIN), (Form::Markdown, "markdown", words::MARKDOWN), (Form::Bbcode, "bbcode", words::BBCODE)]
            .map(as_form),
    );
    let held = move || tick("send-held", words::SEND_HELD, with_held);
    let held = el("div").when(move || !bench.held.with(Vec::is_empty), held);
    let code = folded(el("details").class("row-more").id("send-qr").child(el("summary").id("send-qr-title").text(words::QR)), move || {
        el("div").maybe(move || code(&address.get()).map_or_else(Some, Some))
    });
    let whole = el("p").class("chips").child(tick("send-whole", words::SEND_WHOLE, whole));
    let part = |title: &str| el("section").child(el("h3").text(title));
    vec![
        el("h2").text(words::SEND_TITLE),
        el("p").class("note").text(words::SEND_WORDS),
        part(words::SEND_LINK).child(link_field).child(acts(link_acts.into_iter().chain(share).collect(), link_copied)).child(code),
        part(words::SEND_WITH)
            .child(label("send-note", words::SEND_NOTE))
            .child(note_field)
            .child(label("send-show", words::SEND_SHOW))
            .child(show_field)
            .child(el("p").class("chips").child(tick("send-units", words::SEND_UNITS, in_my_units)))
            .child(held),
        part(words::SEND_TEXT).child(forms).child(whole).child(text_field).child(acts(words_acts, words_copied)),
    ]
}

/// Something to have or not.
fn tick(id: &str, words: &str, state: State<bool>) -> El {
    let tick = el("input")
        .id(id)
        .set("type", "checkbox")
        .prop("checked", move || state.get().into())
        // A press turns it over: what stands in the state is what is ticked.
        .on("change", move |_| state.update(|is| *is = !*is));
    el("label").class("chip").child(tick).child(el("span").text(words))
}

/// The QR code of an address, or why there is none.
pub fn code(address: &str) -> Result<El, El> {
    let Some(Qr { side, path }) = qr(address) else {
        return Err(el("p").class("note").text(&words::too_long_for_qr(address.len())));
    };
    let code = svg("svg")
        .class("qr")
        // On paper; a camera wants this much of each module.
        .set("width", &format!("{:.1}mm", 0.42 * f64::from(side)))
        .set("viewBox", &format!("0 0 {side} {side}"))
        .set("role", "img")
        .set("aria-label", words::QR_SAYS)
        .child(svg("path").set("d", &path));
    Ok(code)
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

/// Whether it takes pictures too.
pub fn can_share_files() -> bool {
    let empty = web_sys::File::new_with_str_sequence(&js_sys::Array::new(), "empty.png");
    can_share() && empty.is_ok_and(|empty| SHARER.with(|sharer| sharer.takes(&with_file(&empty))).unwrap_or(false))
}

fn with_file(file: &web_sys::File) -> web_sys::ShareData {
    let what = web_sys::ShareData::new();
    what.set_files(&js_sys::Array::of1(file));
    what
}

/// Hands a picture to it; where it will not have it, to the reader as a file.
pub fn share_file(name: &str, picture: web_sys::Blob) {
    let kind = web_sys::FilePropertyBag::new();
    kind.set_type(&picture.type_());
    let file = web_sys::File::new_with_blob_sequence_and_options(&js_sys::Array::of1(&picture), name, &kind);
    let Ok(file) = file else { return save::hand_over(name, &picture) };
    let shared = JsFuture::from(SHARER.with(|sharer| sharer.share(&with_file(&file))));
    let name = name.to_owned();
    spawn_local(async move {
        let refused = shared.await.err().and_then(|why| why.dyn_into::<js_sys::Error>().ok());
        // Whoever breaks it off wants no file either.
        if refused.is_some_and(|why| why.name() != "AbortError") {
            save::hand_over(&name, &picture);
        }
    });
}
