//! The page: title strip, what there is to tell, the calculator, and the way around.

use crate::answer::{answer, heard, one_line, passed, sentence, unused, worst};
use crate::banners::{banners, visit_bar};
use crate::bench::{Bench, CALM, Notice};
use crate::beside::fitted_here;
use crate::card::job_card;
use crate::choice::the_choice;
use crate::dialog::dialog;
use crate::dom::{El, el};
use crate::figure::spoken;
use crate::follow::{Turn, at_last, during, effect, settle};
use crate::gauge;
use crate::keep::{SETTINGS, name};
use crate::language;
use crate::listing::listing;
use crate::measure;
use crate::menu::menu;
use crate::method::{self, method};
use crate::overview::{overview, turned};
use crate::pictures::{charts, drawing_saves, drawn, the_drawing};
use crate::results::results;
use crate::route::{self, Route, Screen};
use crate::send::{address_of, send};
use crate::settings::Theme;
use crate::signal::{State, memo};
use crate::tools::tools;
use crate::visit::Shown;
use crate::words;
use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use leptos::prelude::*;
use std::cell::RefCell;
use trialfit_core::calculators::{ALL, Calculator};
use trialfit_core::method::key_of;
use trialfit_core::overview::OVERVIEW;
use trialfit_core::share::link::{Asked, Sought, Tool};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::{HtmlElement, KeyboardEvent, ScrollIntoViewOptions, ScrollLogicalPosition, StorageEvent};

/// So many lines of what a change turned stand over the drawing, which gives way for them.
const SHORT: usize = 2;

/// Quiet for so many milliseconds, the answer is said.
const QUIET: u32 = 700;

thread_local! {
    /// What the page follows, it follows until it goes.
    static OWNER: Owner = Owner::new();
    /// The parts of the page that are made.
    static MADE: RefCell<Vec<Vec<El>>> = RefCell::default();
}

/// First of the loader's steps, each of them tasks of their own so that a touch between them is heard: fetches what the
/// device kept. Tells, as they all do, whether it is to be called again.
#[wasm_bindgen]
pub fn open() -> bool {
    language::begin();
    OWNER.with(|owner| owner.with(Bench::open));
    false
}

/// Then: works the car out.
#[wasm_bindgen(js_name = workOut)]
pub fn work_out() -> bool {
    Bench::get().work_out()
}

/// Last: makes the page, a part at a time, shows it and keeps it up.
#[wasm_bindgen]
pub fn show() -> bool {
    /// As they are made: what a link brings comes with the last, once all that it leads to is about to be there.
    const PARTS: [fn() -> Vec<El>; 3] = [top, || vec![during(Turn::Late, bar)], middle];
    MADE.with_borrow_mut(|made| {
        made.push(OWNER.with(|owner| owner.with(PARTS[made.len()])));
        let [top, bar, middle] = made.as_slice() else { return true };
        if let Some(body) = document().body() {
            for part in [top, middle, bar].into_iter().flatten() {
                _ = body.append_child(part.element());
            }
        }
        false
    })
}

/// Above what is looked at.
fn top() -> Vec<El> {
    let skip = el("a").class("skip").set("href", "#main").text(words::SKIP).on("click", |event| {
        // The fragment is the calculator's; the skip link only moves the focus.
        event.prevent_default();
        focus_later("main".into());
    });
    vec![skip, strip(), visit_bar(), banners()]
}

/// What is looked at, and what keeps the page up.
fn middle() -> Vec<El> {
    let bench = Bench::get();
    let cited = State::new(false);
    follow_address(bench, cited);
    keep_changes(bench);
    watch_other_tabs(bench);
    apply_settings(bench);
    undo_by_keys(bench);
    let title = memo(move || {
        let car = bench.build().with(name);
        if let (true, Screen::Of(calculator)) = (cited.get(), bench.looking.get()) {
            return language::says(&method::title(calculator)).into_owned();
        }
        let parts = [&*language::says(bench.looking.get().label()), &car, words::APP];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
    });
    effect(move |_| document().set_title(&title.get()));
    let made = State::new(false);
    let main = el("main").id("main").set("tabindex", "-1").flag("aria-busy", move || !made.get());
    let main = main.maybe(move || Some(screen(bench.looking.get(), made)));
    vec![main, measure::window(), during(Turn::Late, live), on_paper()]
}

/// On paper only: the link, for whoever has the sheet and not the page.
fn on_paper() -> El {
    let link = State::new(String::new());
    EventListener::new(&window(), "beforeprint", move |_| {
        link.set(address_of(&Bench::get().build().get_untracked().into()));
        settle();
    })
    .forget();
    el("p").class("on-paper").says_own(move || link.get())
}

/// What is looked at: the answer at once, then what one looks at first, then all the rest.
fn screen(screen: Screen, made: State<bool>) -> El {
    made.set(false);
    let whole = el("div").class("screen").set("data-calculator", screen.key());
    // Made anew when something else is looked at, not when a number changes.
    let whole = untrack(|| match screen {
        Screen::Overview => whole.class("screen whole").child(overview()),
        Screen::Of(calculator) => {
            let sheet = el("div").class("sheet").child(title_block(calculator));
            let sheet = || sheet.all_later(move || the_drawing(calculator)).all_later(move || the_choice(calculator));
            let sheet = during(Turn::Soon, sheet);
            whole.child(during(Turn::Late, || sheet.later(move || fitted_here(calculator))))
        }
    });
    during(Turn::Late, || {
        let whole = match screen {
            Screen::Overview => whole,
            Screen::Of(calculator) => whole.later(move || job_card(calculator)).later(move || rest(calculator)),
        };
        at_last(move || made.set(true));
        whole
    })
}

/// All below the job card.
fn rest(calculator: u8) -> El {
    el("div")
        .class("rest")
        .all_later(move || drawn(calculator))
        .all_later(move || drawing_saves(calculator))
        .all_later(move || charts(calculator))
        .all_later(move || listing(calculator))
        .later(move || results(calculator))
        .later(move || tools(calculator))
        .later(move || method(calculator))
}

/// What the car is called, in its owner's words or the reader's language. Tracked.
pub fn called() -> String {
    let bench = Bench::get();
    let called = bench.build().with(name);
    match called.as_str() {
        "" if bench.visit.with(Option::is_some) => language::says(words::FROM_A_LINK_NAME).into_owned(),
        "" if bench.is_demo() => language::says(words::DEMO_NAME).into_owned(),
        "" => language::says(words::NO_NAME).into_owned(),
        _ => called,
    }
}

/// The same, kept to itself whatever its direction of writing. Tracked.
pub fn car_name() -> El {
    el("bdi").says_own(called)
}

/// Which build of the app this is.
pub fn version() -> String {
    document().document_element().and_then(|root| root.get_attribute("data-version")).unwrap_or_default()
}

/// The answer; where there is room, and on paper, with the fields of a drawing's title block.
fn title_block(calculator: u8) -> El {
    let titled = |title: &str, what: El| el("div").child(el("dt").text(title)).child(el("dd").child(what));
    let fields = el("dl")
        .class("fields-of-title")
        .child(titled(words::CAR, car_name()))
        .child(titled(words::APP, el("span").text(ALL[usize::from(calculator)].label)))
        .child(titled(words::VERSION, el("span").text(&version())));
    let answer = answer(Screen::Of(calculator), ALL[usize::from(calculator)].question);
    let [passed, turned] = during(Turn::Soon, || [passed(calculator), turned(SHORT)]);
    el("div").class("title-block").child(answer).child(passed).child(turned).child(fields)
}

/// Car, calculator, send, menu; while the answer is out of sight, the answer in one line instead.
fn strip() -> El {
    let bench = Bench::get();
    // The car's name leads to the car as a whole.
    let car = el("a")
        .class("car")
        .id("car-name")
        .set("href", &format!("#{OVERVIEW}"))
        .bind("aria-current", move || (bench.looking.get() == Screen::Overview).then(|| "page".to_owned()))
        .bind("aria-label", || Some(words::act_of(&called(), words::OVERVIEW)))
        .child(car_name());
    let title = el("h1").says(move || bench.looking.get().label().to_owned());
    el("header")
        .class("strip")
        .class_when("typing", move || bench.typing.get())
        .class_when("away", move || bench.away.get())
        .child(el("div").class("where").child(car).child(title))
        .maybe(move || (bench.typing.get() || bench.away.get()).then(|| one_line(bench.looking.get())))
        .children(dialog("send", words::SEND, send))
        .children(dialog("menu", words::MENU, menu))
}

/// The way around: each calculator with the mark of its worst verdict.
fn bar() -> El {
    let bench = Bench::get();
    let link = move |(at, it): (usize, &&'static Calculator)| {
        let at = at as u8;
        let verdict = memo(move || worst(at));
        let word = el("span")
            .class("word")
            .child(el("span").class("apart").text(", "))
            .says_own(move || language::narrow(verdict.get().word()).into_owned());
        let link = el("a")
            .set("href", &format!("#{}", it.key))
            .id(&format!("to-{}", it.key))
            .bind("data-verdict", move || Some(verdict.get().word().to_owned()))
            .bind("aria-current", move || (bench.looking.get() == Screen::Of(at)).then(|| "page".to_owned()))
            .maybe(move || Some(gauge::mark(verdict.get())))
            .child(el("span").class("name").own(&language::narrow(it.label)))
            .child(word);
        el("li").child(link)
    };
    el("nav")
        .class("bar")
        .set("aria-label", words::CALCULATORS)
        .class_when("typing", move || bench.typing.get())
        .child(el("ul").children(ALL.iter().enumerate().map(link)))
}

/// The one live region: the answer, once the hands are quiet.
fn live() -> El {
    let bench = Bench::get();
    let said = State::new(String::new());
    let timer = StoredValue::new_local(None::<Timeout>);
    let words = memo(move || {
        let answer = heard(&sentence(bench.looking.get()), bench.system());
        let turned = bench.changes().verdicts.into_iter().map(|it| spoken(&it.line, bench.system()));
        unused().into_iter().chain(turned).fold(answer, |answer, more| format!("{answer} {more}"))
    });
    // Told once, before the answer that came with it.
    let news = StoredValue::new(String::new());
    let told = RefCell::new(Vec::<Notice>::new());
    effect(move |first| {
        let notices = bench.notices.get();
        let fresh = notices.iter().filter(|notice| !first && !told.borrow().contains(notice));
        let fresh: String = fresh.map(|notice| notice.text() + " ").collect();
        if !fresh.is_empty() {
            news.update_value(|news| news.push_str(&fresh));
        }
        told.replace(notices);
    });
    let say = move || said.set(news.try_update_value(core::mem::take).unwrap_or_default() + &words.get_untracked());
    effect(move |first| {
        words.with(|_| ());
        bench.notices.with(|_| ());
        // What stands there when the page opens is read with the page.
        if !first {
            timer.set_value(Some(Timeout::new(QUIET, say)));
        }
    });
    el("p").class("apart").id("live").set("role", "status").says(move || said.get())
}

fn follow_address(bench: Bench, cited: State<bool>) {
    let looking = bench.looking;
    let follow = move || {
        let fragment = window().location().hash().unwrap_or_default();
        let is_method = |key: &Option<String>| key.as_ref().is_some_and(|key| ALL.iter().any(|it| key_of(it.key) == *key));
        cited.set(false);
        match route::read(&fragment, ALL) {
            Route::To { screen, show } => {
                if looking.get_untracked() != screen {
                    looking.set(screen);
                    window().scroll_to_with_x_and_y(0.0, 0.0);
                }
                cited.set(is_method(&show));
                if let Some(key) = show {
                    focus_later(key);
                }
            }
            Route::Link(text) => match bench.visit(&text) {
                Some(Shown::Tool(asked, sought)) => open_tool(bench, asked, sought),
                Some(Shown::Key(key)) => {
                    if let Route::To { screen, show } = route::read(&key, ALL) {
                        looking.set(screen);
                        cited.set(is_method(&show));
                        if let Some(key) = show {
                            point_out_later(key);
                        }
                    }
                }
                None => {}
            },
            Route::Unknown => {}
        }
    };
    follow();
    EventListener::new(&window(), "hashchange", move |_| follow()).forget();
}

/// Opens a tool as a link asks, or a section of the overview.
fn open_tool(bench: Bench, asked: Asked, sought: Sought) {
    let here = bench.looking.get_untracked();
    let screen = match (asked.tool, asked.watch.or(asked.turn).or(asked.across), here) {
        (Tool::Combine | Tool::Beside | Tool::Parts, ..) => Screen::Overview,
        (_, Some(place), _) => Screen::Of(place.id.calculator),
        (_, None, Screen::Of(_)) => here,
        (_, None, Screen::Overview) => Screen::Of(0),
    };
    bench.want(asked, sought);
    bench.looking.set(screen);
    // Once the bench is calm: what tools find before that is taken to be of another build.
    Timeout::new(2 * CALM, move || {
        settle();
        // Without a shelf there is nothing to search, but a place to open one: the search is asked once it is.
        let there = document().get_element_by_id(asked.tool.key());
        let Some(tool) = there.or_else(|| document().get_element_by_id(Tool::Parts.key())) else { return };
        unfold(tool.unchecked_ref());
        let head = tool.query_selector(":scope > summary").ok().flatten();
        if head.is_some() {
            _ = tool.set_attribute("open", "");
        }
        if let Ok(head) = head.unwrap_or(tool).dyn_into::<HtmlElement>() {
            _ = head.focus();
            // With what it shows below it.
            Timeout::new(80, move || bring(&head, ScrollLogicalPosition::Start)).forget();
        }
    })
    .forget();
}

fn keep_changes(bench: Bench) {
    during(Turn::Soon, || {
        effect(move |_| {
            bench.to_keep.with(|_| ());
            bench.keep_if_due();
        });
    });
}

fn watch_other_tabs(bench: Bench) {
    EventListener::new(&window(), "storage", move |event| {
        if let Some(event) = event.dyn_ref::<StorageEvent>() {
            bench.adopt(event.key().as_deref());
        }
    })
    .forget();
    // A page that was asleep may have heard of nothing; one that goes may not come back.
    EventListener::new(&document(), "visibilitychange", move |_| {
        bench.adopt(None);
        bench.keep_steps();
    })
    .forget();
    EventListener::new(&window(), "pagehide", move |_| bench.keep_steps()).forget();
}

fn apply_settings(bench: Bench) {
    effect(move |first| {
        let settings = bench.settings.get();
        if let Some(root) = document().document_element() {
            // Without the attribute the style sheet goes by the device.
            _ = match settings.theme {
                Theme::Device => root.remove_attribute("data-theme"),
                theme => root.set_attribute("data-theme", theme.key()),
            };
        }
        if !first {
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
        // Capitals may be locked.
        match (event.key().to_ascii_lowercase().as_str(), event.shift_key()) {
            ("z", false) => bench.undo(),
            ("z", true) | ("y", _) => bench.redo(),
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
        settle();
        if !focus(&id) && open_results_of(&id) {
            // What stands in there is made once it is open.
            Timeout::new(80, move || {
                settle();
                focus(&id);
            })
            .forget();
        }
    })
    .forget();
}

fn focus(id: &str) -> bool {
    let Some(element) = document().get_element_by_id(id).and_then(|element| element.dyn_into::<HtmlElement>().ok()) else { return false };
    unfold(&element);
    _ = element.focus();
    if id != "main" {
        bring(&element, ScrollLogicalPosition::Nearest);
    }
    true
}

/// Opens the results of the table an answer's key speaks of: `front-drive.pulleys.3.speed`.
fn open_results_of(key: &str) -> bool {
    let mut words = key.split('.');
    let (Some(calculator), Some(table), Some(_)) = (words.next(), words.next(), words.next()) else { return false };
    let found = document().query_selector(&format!("[data-key=\"{calculator}.{table}.results\"]")).ok().flatten();
    found.is_some_and(|results| results.set_attribute("open", "").is_ok())
}

/// Points out what has this id, or the field it stands in. Nobody means to type yet, so no keypad opens.
fn point_out_later(id: String) {
    Timeout::new(0, move || {
        settle();
        if !point_out(&id) && open_results_of(&id) {
            Timeout::new(80, move || {
                settle();
                point_out(&id);
            })
            .forget();
        }
    })
    .forget();
}

/// Marks it too; an answer comes with its working.
fn point_out(id: &str) -> bool {
    let Some(element) = document().get_element_by_id(id) else { return false };
    let whole = element.closest(".field").ok().flatten().unwrap_or(element);
    let Ok(whole) = whole.dyn_into::<HtmlElement>() else { return false };
    unfold(&whole);
    if let Ok(Some(before)) = document().query_selector(".pointed-out") {
        _ = before.class_list().remove_1("pointed-out");
    }
    _ = whole.class_list().add_1("pointed-out");
    whole.set_tab_index(-1);
    _ = whole.focus();
    let working =
        document().get_element_by_id(&format!("{id}.working")).filter(|it| it.get_attribute("aria-expanded").as_deref() == Some("false"));
    let to = if let Some(Ok(working)) = working.map(|working| working.dyn_into::<HtmlElement>()) {
        working.click();
        ScrollLogicalPosition::Start
    } else {
        ScrollLogicalPosition::Center
    };
    bring(&whole, to);
    true
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

/// Scrolls it into sight.
pub fn bring(element: &HtmlElement, to: ScrollLogicalPosition) {
    let options = ScrollIntoViewOptions::new();
    options.set_block(to);
    element.scroll_into_view_with_scroll_into_view_options(&options);
}
