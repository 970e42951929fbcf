//! Files for whoever wants a drawing or chart elsewhere: a drawing, a picture, a table.

use crate::dom::{self, El, button, el, folded};
use crate::send::{can_share_files, share_file};
use crate::words;
use leptos::prelude::{document, window};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{
    Blob, BlobPropertyBag, CanvasRenderingContext2d, Element, HtmlAnchorElement, HtmlCanvasElement, HtmlImageElement, Url, XmlSerializer,
};

const SVG: &str = "image/svg+xml";

/// Dots of a picture for each of the screen's.
const SHARPNESS: f64 = 3.0;

/// Hands a text to the reader as a file.
pub fn text(name: &str, kind: &str, text: &str) {
    // Spreadsheets read a table without this mark in the letters of their own system: “min⁻¹” and “Öl” would be garbled.
    let mark = if kind == "text/csv" { "\u{FEFF}" } else { "" };
    if let Some(blob) = blob(kind, &[mark, text].concat()) {
        hand_over(name, &blob);
    }
}

/// Folded: the picture in an `svg` element as a file or for a message, and what else there is to save.
pub fn saves(what: &str, called: impl Fn() -> String + 'static, sheet: &Element, more: impl Fn() -> Option<El> + 'static) -> El {
    let (sheet, called) = (sheet.clone(), Rc::new(called));
    let act = move |label: &str, act: fn(String, &Element)| {
        let (sheet, called) = (sheet.clone(), called.clone());
        button("quiet", "").text(label).on_press(move || act(called(), &sheet))
    };
    let inside = move || {
        let send = can_share_files().then(|| act(words::SEND_PICTURE, |name, of| png(&name, of, share_file)));
        let drawing = act(words::SAVE_SVG, |name, of| text(&format!("{}.svg", plain(&name)), SVG, &alone(of)));
        let picture = act(words::SAVE_PNG, |name, of| png(&name, of, |name, blob| hand_over(name, &blob)));
        el("p").class("acts").child(drawing).child(picture).children(more()).children(send)
    };
    folded(el("details").class("plot-list").child(el("summary").text(what)), inside)
}

/// A name that every file system takes.
pub fn plain(name: &str) -> String {
    name.to_lowercase().chars().map(|letter| if letter.is_ascii_alphanumeric() { letter } else { '-' }).collect()
}

/// The drawing in an `svg` element as a picture.
fn png(name: &str, of: &Element, then: fn(&str, Blob)) {
    let name = format!("{}.png", plain(name));
    let frame = of.get_bounding_client_rect();
    let (width, height) = (frame.width(), frame.height());
    let (Some(blob), Ok(image)) = (blob(SVG, &alone(of)), HtmlImageElement::new()) else { return };
    let Ok(url) = Url::create_object_url_with_blob(&blob) else { return };
    let drawn = image.clone();
    let source = url.clone();
    let loaded = Closure::once_into_js(move || {
        _ = Url::revoke_object_url(&source);
        let canvas = document().create_element("canvas").ok().and_then(|it| it.dyn_into::<HtmlCanvasElement>().ok());
        let Some(canvas) = canvas else { return };
        canvas.set_width((width * SHARPNESS) as u32);
        canvas.set_height((height * SHARPNESS) as u32);
        let context = canvas.get_context("2d").ok().flatten().and_then(|it| it.dyn_into::<CanvasRenderingContext2d>().ok());
        let Some(context) = context else { return };
        let size = (f64::from(canvas.width()), f64::from(canvas.height()));
        _ = context.draw_image_with_html_image_element_and_dw_and_dh(&drawn, 0.0, 0.0, size.0, size.1);
        let done = Closure::once_into_js(move |blob: Option<Blob>| {
            if let Some(blob) = blob {
                then(&name, blob);
            }
        });
        _ = canvas.to_blob(done.unchecked_ref());
    });
    image.set_onload(Some(loaded.unchecked_ref()));
    image.set_src(&url);
}

/// What a drawing's elements take from the style sheet, and what each is without one.
const LOOK: [(&str, &str); 15] = [
    ("fill", "rgb(0, 0, 0)"),
    ("fill-opacity", "1"),
    ("stroke", "none"),
    ("stroke-width", "1px"),
    ("stroke-dasharray", "none"),
    ("stroke-linecap", "butt"),
    ("stroke-linejoin", "miter"),
    ("stroke-opacity", "1"),
    ("opacity", "1"),
    ("paint-order", "normal"),
    ("font-size", ""),
    ("font-weight", "400"),
    ("font-family", ""),
    ("text-anchor", "start"),
    ("dominant-baseline", "auto"),
];

/// The drawing with its size, its ground and its look written at its elements: a file of its own has no style sheet, and
/// the page's policy lets it bring none.
fn alone(of: &Element) -> String {
    let Some(copy) = of.clone_node_with_deep(true).ok().and_then(|node| node.dyn_into::<Element>().ok()) else { return String::new() };
    let style = |element: &Element, name: &str| {
        let style = window().get_computed_style(element).ok().flatten();
        style.and_then(|style| style.get_property_value(name).ok()).unwrap_or_default()
    };
    let all = |root: &Element| {
        let inside = root.query_selector_all("*").ok();
        let inside = inside.into_iter().flat_map(|list| (0..list.length()).filter_map(move |at| list.get(at)?.dyn_into::<Element>().ok()));
        inside.collect::<Vec<_>>()
    };
    for (from, to) in all(of).iter().zip(&all(&copy)) {
        for (name, without) in LOOK {
            let value = style(from, name);
            if !value.is_empty() && value != without {
                _ = to.set_attribute(name, &value);
            }
        }
        _ = to.remove_attribute("class");
    }
    let frame = of.get_bounding_client_rect();
    let ground = document().body().map(|body| style(&body, "background-color")).unwrap_or_default();
    let ground = dom::svg("rect").set("width", "100%").set("height", "100%").set("fill", &ground);
    _ = copy.insert_before(ground.element(), copy.first_child().as_ref());
    _ = copy.remove_attribute("class");
    _ = copy.set_attribute("width", &frame.width().to_string());
    _ = copy.set_attribute("height", &frame.height().to_string());
    XmlSerializer::new().and_then(|writer| writer.serialize_to_string(&copy)).unwrap_or_default()
}

fn blob(kind: &str, text: &str) -> Option<Blob> {
    let parts = js_sys::Array::of1(&JsValue::from_str(text));
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    Blob::new_with_str_sequence_and_options(&parts, &options).ok()
}

/// Gives a file to the reader.
pub fn hand_over(name: &str, blob: &Blob) {
    let Ok(url) = Url::create_object_url_with_blob(blob) else { return };
    let link = document().create_element("a").ok().and_then(|it| it.dyn_into::<HtmlAnchorElement>().ok());
    if let Some(link) = link {
        link.set_href(&url);
        link.set_download(name);
        link.click();
    }
    // The browser has taken its own hold of the file by then.
    gloo_timers::callback::Timeout::new(10_000, move || _ = Url::revoke_object_url(&url)).forget();
}
