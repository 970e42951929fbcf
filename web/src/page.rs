//! The page: title strip, what there is to tell, the calculator, and the way around.

use crate::answer::{Answer, OneLine, Passed, heard, sentence, unused, worst};
use crate::banners::{Banners, VisitBar};
use crate::bench::{Bench, Notice};
use crate::card::JobCard;
use crate::choice::TheChoice;
use crate::dialog::Dialog;
use crate::gauge;
use crate::keep::{SETTINGS, name};
use crate::menu::Menu;
use crate::pictures::{Charts, TheDrawing};
use crate::results::{Method, Results};
use crate::route::{self, Route};
use crate::send::{Send, address_of};
use crate::settings::Theme;
use crate::words;
use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use leptos::ev::{KeyboardEvent, MouseEvent};
use leptos::prelude::*;
use trialfit_core::calculators::{ALL, car};
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, ScrollIntoViewOptions, ScrollLogicalPosition, StorageEvent};

/// Quiet for so many milliseconds, the answer is said.
const QUIET: u32 = 700;

/// The calculator looked at.
#[derive(Clone, Copy, Debug)]
pub struct Looking(pub RwSignal<u8>);

/// All of it.
#[component]
pub fn App() -> impl IntoView {
    let bench = Bench::open();
    provide_context(bench);
    let first = ALL.iter().position(|it| it.scene.is_some()).unwrap_or(0) as u8;
    let looking = RwSignal::new(first);
    provide_context(Looking(looking));
    follow_address(bench, looking);
    watch_other_tabs(bench);
    apply_settings(bench);
    undo_by_keys(bench);
    let to_main = |event: MouseEvent| {
        // The fragment is the calculator's; the skip link only moves the focus.
        event.prevent_default();
        focus_later("main".into());
    };
    Effect::new(move |_| {
        let it = ALL[usize::from(looking.get())];
        let car = bench.build().with(name);
        document().set_title(&[it.label, &car, words::APP].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · "));
    });
    view! {
        <a class="skip" href="#main" on:click=to_main>{words::SKIP}</a>
        <Strip looking/>
        <VisitBar/>
        <Banners/>
        <main id="main" tabindex="-1">{move || screen(looking.get())}</main>
        <Bar looking/>
        <Live looking/>
        <OnPaper/>
    }
}

/// On paper only: the link, for whoever has the sheet and not the page.
#[component]
fn OnPaper() -> impl IntoView {
    let bench = Bench::get();
    let link = RwSignal::new(String::new());
    EventListener::new(&window(), "beforeprint", move |_| link.set(address_of(bench.build().get_untracked().into()))).forget();
    view! { <p class="on-paper">{link}</p> }
}

/// One calculator, from its declarations.
fn screen(calculator: u8) -> AnyView {
    view! {
        <div class="screen" data-calculator=ALL[usize::from(calculator)].key>
            <div class="sheet">
                <TitleBlock calculator/>
                <TheDrawing calculator/>
                <TheChoice calculator/>
            </div>
            <JobCard calculator/>
            <div class="rest">
                <Charts calculator/>
                <Results calculator/>
                <Method calculator/>
            </div>
        </div>
    }
    .into_any()
}

/// What the car is called.
#[component]
fn CarName() -> impl IntoView {
    let bench = Bench::get();
    let called = Memo::new(move |_| bench.build().with(name));
    let unnamed = move || if bench.is_demo() { words::DEMO_NAME } else { words::NO_NAME };
    view! { <bdi>{move || Some(called.get()).filter(|name| !name.is_empty()).unwrap_or_else(|| unnamed().into())}</bdi> }
}

/// The answer; where there is room, and on paper, with the fields of a drawing's title block.
#[component]
fn TitleBlock(calculator: u8) -> impl IntoView {
    let root = document().document_element();
    let version = root.and_then(|root| root.get_attribute("data-version")).unwrap_or_default();
    view! {
        <div class="title-block">
            <Answer calculator/>
            <Passed calculator/>
            <dl class="fields-of-title">
                <div><dt>{words::CAR}</dt><dd><CarName/></dd></div>
                <div><dt>{words::APP}</dt><dd>{ALL[usize::from(calculator)].label}</dd></div>
                <div><dt>{words::VERSION}</dt><dd>{version}</dd></div>
            </dl>
        </div>
    }
}

/// Car, calculator, send, menu; while a keypad is open, the answer in one line instead.
#[component]
fn Strip(looking: RwSignal<u8>) -> impl IntoView {
    let bench = Bench::get();
    let naming = format!("#{}", bench.key(car::NAME.id.into()));
    let one_line = Memo::new(move |_| bench.typing.get() || bench.away.get());
    let title = move || ALL[usize::from(looking.get())].label;
    view! {
        <header class="strip" class:typing=move || bench.typing.get() class:away=move || bench.away.get()>
            <div class="where">
                <a class="car" id="car-name" href=naming><CarName/></a>
                <h1>{title}</h1>
            </div>
            {move || one_line.get().then(|| view! { <OneLine calculator=looking.get()/> })}
            <Dialog id="send" label=words::SEND><Send looking/></Dialog>
            <Dialog id="menu" label=words::MENU><Menu/></Dialog>
        </header>
    }
}

/// The way around: each calculator with the mark of its worst verdict.
#[component]
fn Bar(looking: RwSignal<u8>) -> impl IntoView {
    let bench = Bench::get();
    let link = move |(at, it): (usize, &&'static trialfit_core::calculators::Calculator)| {
        let at = at as u8;
        let verdict = Memo::new(move |_| worst(at));
        view! {
            <li>
                <a href=format!("#{}", it.key) id=format!("to-{}", it.key) data-verdict=move || verdict.get().word()
                    aria-current=move || (looking.get() == at).then_some("page")>
                    {move || gauge::mark(verdict.get())}
                    <span class="name">{it.label}</span>
                    <span class="word"><span class="apart">", "</span>{move || verdict.get().word()}</span>
                </a>
            </li>
        }
    };
    view! {
        <nav class="bar" class:typing=move || bench.typing.get() aria-label=words::CALCULATORS>
            <ul>{ALL.iter().enumerate().map(link).collect_view()}</ul>
        </nav>
    }
}

/// The one live region: the answer, once the hands are quiet.
#[component]
fn Live(looking: RwSignal<u8>) -> impl IntoView {
    let bench = Bench::get();
    let said = RwSignal::new(String::new());
    let timer = StoredValue::new_local(None::<Timeout>);
    let words = Memo::new(move |_| {
        let answer = heard(&sentence(looking.get()), bench.system());
        unused().into_iter().fold(answer, |answer, unused| format!("{answer} {unused}"))
    });
    // Told once, before the answer that came with it.
    let news = StoredValue::new(String::new());
    Effect::new(move |before: Option<Vec<Notice>>| {
        let notices = bench.notices.get();
        let fresh = notices.iter().filter(|notice| before.as_ref().is_some_and(|before| !before.contains(notice)));
        let fresh: String = fresh.map(|notice| notice.text() + " ").collect();
        if !fresh.is_empty() {
            news.update_value(|news| news.push_str(&fresh));
        }
        notices
    });
    let say = move || said.set(news.try_update_value(core::mem::take).unwrap_or_default() + &words.get_untracked());
    Effect::new(move |before: Option<()>| {
        words.track();
        bench.notices.track();
        // What stands there when the page opens is read with the page.
        if before.is_some() {
            timer.set_value(Some(Timeout::new(QUIET, say)));
        }
    });
    view! { <p class="apart" id="live" role="status">{said}</p> }
}

fn follow_address(bench: Bench, looking: RwSignal<u8>) {
    let follow = move || {
        let fragment = window().location().hash().unwrap_or_default();
        match route::read(&fragment, ALL) {
            Route::To { calculator, show } => {
                if looking.get_untracked() != calculator {
                    looking.set(calculator);
                    window().scroll_to_with_x_and_y(0.0, 0.0);
                }
                if let Some(key) = show {
                    focus_later(key);
                }
            }
            Route::Link(text) => {
                if let Some(Route::To { calculator, show }) = bench.visit(&text).map(|key| route::read(&key, ALL)) {
                    looking.set(calculator);
                    if let Some(key) = show {
                        point_out_later(key);
                    }
                }
            }
            Route::Unknown => {}
        }
    };
    follow();
    EventListener::new(&window(), "hashchange", move |_| follow()).forget();
}

fn watch_other_tabs(bench: Bench) {
    EventListener::new(&window(), "storage", move |event| {
        if let Some(event) = event.dyn_ref::<StorageEvent>() {
            bench.adopt(event.key().as_deref());
        }
    })
    .forget();
}

fn apply_settings(bench: Bench) {
    Effect::new(move |before: Option<()>| {
        let settings = bench.settings.get();
        if let Some(root) = document().document_element() {
            // Without the attribute the style sheet goes by the device.
            _ = match settings.theme {
                Theme::Device => root.remove_attribute("data-theme"),
                theme => root.set_attribute("data-theme", theme.key()),
            };
        }
        if before.is_some() {
            // A page that keeps nothing says so about the build, which matters more.
            _ = bench.with_keeper(|keeper| keeper.keep_text(SETTINGS, &settings.write()));
        }
    });
}

fn undo_by_keys(bench: Bench) {
    let press = move |event: &KeyboardEvent| {
        let target = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
        let in_text = target.is_some_and(|target| target.matches("input[type=text], textarea").unwrap_or(false));
        if in_text || event.alt_key() || !(event.ctrl_key() || event.meta_key()) {
            return;
        }
        match event.key().as_str() {
            "z" => bench.undo(),
            "Z" | "y" => bench.redo(),
            _ => return,
        }
        event.prevent_default();
    };
    EventListener::new_with_options(&document(), "keydown", gloo_events::EventListenerOptions::enable_prevent_default(), move |event| {
        if let Some(event) = event.dyn_ref() {
            press(event);
        }
    })
    .forget();
}

/// Focuses what has this id once the page has settled, opening what it is folded into, clear of the bars.
pub fn focus_later(id: String) {
    Timeout::new(0, move || {
        let Some(element) = document().get_element_by_id(&id).and_then(|element| element.dyn_into::<HtmlElement>().ok()) else { return };
        unfold(&element);
        _ = element.focus();
        if id != "main" {
            bring(&element, ScrollLogicalPosition::Nearest);
        }
    })
    .forget();
}

/// Points out what has this id, or the field it stands in. Nobody means to type yet, so no keypad opens.
fn point_out_later(id: String) {
    Timeout::new(0, move || {
        let Some(element) = document().get_element_by_id(&id) else { return };
        let whole = element.closest(".field").ok().flatten().unwrap_or(element);
        if let Ok(whole) = whole.dyn_into::<HtmlElement>() {
            unfold(&whole);
            whole.set_tab_index(-1);
            _ = whole.focus();
            bring(&whole, ScrollLogicalPosition::Center);
        }
    })
    .forget();
}

fn unfold(element: &HtmlElement) {
    let mut folded = element.parent_element();
    while let Some(parent) = folded {
        if parent.tag_name() == "DETAILS" {
            _ = parent.set_attribute("open", "");
        }
        folded = parent.parent_element();
    }
}

fn bring(element: &HtmlElement, to: ScrollLogicalPosition) {
    let options = ScrollIntoViewOptions::new();
    options.set_block(to);
    element.scroll_into_view_with_scroll_into_view_options(&options);
}
