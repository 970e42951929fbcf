//! Every word the page itself says. What belongs to a calculator is declared in core.

use crate::keep::Fault;
use crate::settings::Theme;
use trialfit_core::build::Refusal;
use trialfit_core::report::lower_first;
use trialfit_core::show::{Shown, System};
use trialfit_core::spec::{Kind, Sense, Spec};

pub const CAR: &str = "Car";
pub const APP: &str = "Trialfit";
pub const VERSION: &str = "Version";
pub const SKIP: &str = "Skip to the answer";
pub const CALCULATORS: &str = "Calculators";
pub const OVERVIEW: &str = "Overview";
pub const OVERVIEW_QUESTION: &str = "How does the whole of it stand?";
pub const SIDE_BY_SIDE: &str = "Side by side";
pub const FEEDS: &str = "What feeds what";
pub const TURNED: &str = "What the last change turned";
pub const TAKE_BACK: &str = "Take it back";
pub const DEMO_NAME: &str = "Demo car";
pub const NO_NAME: &str = "Unnamed car";
pub const MY_CAR: &str = "My car";
pub const TOLD: &str = "To know";
pub const DEMO: &str = "Demo car, not yours.";
pub const DEMO_CLEAR: &str = "Clear it";
pub const SEND: &str = "Send";
pub const MENU: &str = "Menu";
pub const CLOSE: &str = "Close";
pub const DISMISS: &str = "All right";

pub const PASSED: &str = "Limits passed";
pub const ANSWER: &str = "Answer";
pub const DRAWING: &str = "Drawing";
pub const JOB_CARD: &str = "Job card";
pub const RESULTS: &str = "Results";
pub const ON_THE_WAY: &str = "On the way there";
pub const CHARTS: &str = "Charts";
pub const METHOD: &str = "Method";
pub const LEAVES_OUT: &str = "What it leaves out";
pub const SOURCES: &str = "Sources of the usual values";
pub const MATTERS_MOST: &str = "What matters most";
pub const OTHER: &str = "Other";
pub const RULES_FIRST: &str = "Local rules and licensed practice come first.";

pub const TAKING: &str = "taking a point of the chart";

pub const WHICH_ROW: &str = "Which of";
pub const UNDO: &str = "Undo";
pub const REDO: &str = "Redo";
pub const LESS: &str = "less";
pub const MORE: &str = "more";
pub const CHANGE: &str = "the change";
pub const OTHER_TAB: &str = "the other tab's change";
pub const TAKE_THEIRS: &str = "taking the link's car";
pub const CLEARING: &str = "clearing the demo";

pub const NOT_GIVEN: &str = "not given";
pub const YOURS: &str = "yours";
pub const OF_THE_DEMO: &str = "the demo car's";
pub const PUT_BACK: &str = "put back";
pub const DONT_KNOW: &str = "don't know";
pub const ESTIMATE: &str = "An estimate by its method.";
pub const SHOW_WORKING: &str = "show working";

pub const MINUS_KEY: &str = "minus";
pub const SLASH_KEY: &str = "slash";
pub const SPACE_KEY: &str = "space";
pub const LETTERS_KEY: &str = "letters";

pub const ADD_ROW: &str = "Add a row";
pub const REMOVE_ROW: &str = "remove";
pub const MOVE_UP: &str = "up";
pub const MOVE_DOWN: &str = "down";

pub const FROM_A_LINK: &str = "From a link; yours is untouched.";
pub const KEEP_MINE: &str = "Keep mine";
pub const TAKE_IT: &str = "Take theirs";
pub const KEEP_BOTH: &str = "Keep both";
pub const NOTE_SAYS: &str = "It says:";
pub const LINK_PROBLEMS: &str = "Some of it could not be used:";
pub const ASK_TITLE: &str = "This car came by link";
pub const ASK_WORDS: &str = "Yours is untouched. Before this one changes, say what becomes of yours.";
pub const ASK_BOTH: &str = "Keep both: file mine, go on with this one";
pub const ASK_TAKE: &str = "Take theirs: it replaces mine (undo brings mine back)";
pub const ASK_LOOK: &str = "Only look: leave it as it came";

pub const NEW_VERSION: &str = "A new version is ready.";
pub const TAKE_VERSION: &str = "Change to it";

pub const SEND_TITLE: &str = "Send this car";
pub const SEND_WORDS: &str = "The link carries the numbers you gave. It goes where you send it and nowhere else.";
pub const SEND_LINK: &str = "Link";
pub const SEND_TEXT: &str = "In words, with the link";
pub const SEND_NOTE: &str = "Note for whoever opens it";
pub const SEND_SHOW: &str = "Open it at";
pub const SEND_SHOW_NOTHING: &str = "the answer";
pub const COPY_LINK: &str = "Copy link";
pub const COPY_WORDS: &str = "Copy words";
pub const COPIED: &str = "Copied.";
pub const COPY_BY_HAND: &str = "It is marked: copy it from there.";
pub const SHARE: &str = "Share";

pub const MENU_UNITS: &str = "Units";
pub const MENU_COLOURS: &str = "Colours";
pub const MENU_CARS: &str = "Cars in this browser";
pub const KEPT_HERE: &str = "Kept in this browser only; send one to yourself to have it elsewhere.";
pub const ON_THE_BENCH: &str = "on the bench";
pub const OPEN: &str = "open";
pub const THROW_AWAY: &str = "throw away";
pub const NEW_CAR: &str = "Start another car";
pub const PASTE: &str = "Open a link";
pub const PASTE_HELP: &str = "Paste a Trialfit link here.";
pub const PRINT: &str = "Print";
pub const DAMAGED_TEXTS: &str = "Damaged texts put aside";
pub const COPY: &str = "copy";

/// The name of a copy.
pub fn copy_of(name: &str) -> String {
    let name = if name.is_empty() { NO_NAME } else { name };
    let kept: String = name.chars().take(50).collect();
    format!("{kept}, copy")
}

/// A word as a sentence begins with it.
pub fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// What undo or redo acts on: `Undo: slave bore`.
pub fn acts_on(act: &str, what: Option<&str>) -> String {
    what.map_or_else(|| act.to_owned(), |what| format!("{act}: {}", lower_first(what)))
}

/// An act on something with a name: `put back: slave bore`, the visible word first.
pub fn act_of(act: &str, what: &str) -> String {
    format!("{act}: {what}")
}

/// Why the build is not kept.
pub const fn not_kept(fault: Fault) -> &'static str {
    match fault {
        Fault::Blocked => {
            "This browser lets the page keep nothing. What is on the screen stays until the page is closed: send it to yourself before."
        }
        Fault::Full => {
            "There is no room left to keep this. What is on the screen stays until the page is closed: throw other cars away, or send it to yourself."
        }
    }
}

/// What was kept could not be read whole.
pub const DAMAGED: &str = "What this browser kept was damaged. The rest is here; the damaged text is put aside in the menu.";

/// Another tab changed the car.
pub const ADOPTED: &str = "Changed in another tab; this one shows it.";

/// This tab goes on under a new name.
pub fn copied(name: &str) -> String {
    format!("Another tab changed this car too. Both are kept; here you go on with “{name}”.")
}

/// The link could not be opened.
pub fn no_link(why: &str) -> String {
    format!("The link was not opened. {why}")
}

pub const fn system(system: System) -> &'static str {
    match system {
        System::Metric => "millimetres, newtons",
        System::Imperial => "inches, pounds",
    }
}

pub const fn theme(theme: Theme) -> &'static str {
    match theme {
        Theme::Device => "as the device",
        Theme::Light => "light",
        Theme::Dark => "dark",
    }
}

/// `3 of 9 measured`.
pub fn measured(given: usize, all: usize) -> String {
    format!("{given} of {all} measured")
}

/// What stays in force while a field holds something else.
pub fn stays(kept: Option<&Shown>) -> String {
    match kept {
        Some(kept) => format!("{kept} stays in force."),
        None => "It stays not given.".to_owned(),
    }
}

/// Why a number was not taken.
pub fn refusal(why: Refusal, spec: &Spec, typed: &str, system: System) -> String {
    match (why, spec.kind) {
        (Refusal::OutOfRange([lowest, highest]), Kind::Quantity { dimension, unit }) => {
            let shown = |number: f64| trialfit_core::show::input(unit.to_si(number), system.unit(dimension, unit));
            format!("{typed} is outside {} to {}.", shown(lowest), shown(highest))
        }
        (Refusal::TooLong(most), _) => format!("At most {most} letters fit."),
        _ => format!("{typed} cannot stand here."),
    }
}

/// Said with the answer while a field holds what was not taken.
pub fn uses(what: &str, kept: Option<&Shown>) -> String {
    match kept {
        Some(kept) => format!("Uses {kept} for {}, not what you typed.", lower_first(what)),
        None => format!("{what} is still not given: what you typed could not be taken."),
    }
}

/// `follows peak torque, 240 N·m`.
pub fn follows(what: &str, value: Option<&Shown>) -> String {
    let what = lower_first(what);
    value.map_or_else(|| format!("follows {what}, unknown"), |value| format!("follows {what}, {value}"))
}

pub fn from_part(name: &str) -> String {
    format!("from {name}")
}

/// `usual value: common practice, no source`.
pub fn usual(source: &str) -> String {
    format!("usual value: {source}")
}

/// What a button brings back: `put back 22.2 mm`.
pub fn back_to(act: &str, value: Option<&Shown>) -> String {
    value.map_or_else(|| act.to_owned(), |value| format!("{act}: take {value}"))
}

/// `at most 130 N, near from 115 N`.
pub fn limit(sense: Sense, beyond: Option<&Shown>, near: Option<&Shown>) -> String {
    let way = match sense {
        Sense::AtMost => "at most",
        Sense::AtLeast => "at least",
    };
    let beyond = beyond.map_or_else(|| "not known".to_owned(), ToString::to_string);
    near.map_or_else(|| format!("{way} {beyond}"), |near| format!("{way} {beyond}, near from {near}"))
}

/// What an answer hangs on that nobody measured.
pub fn rests_on(labels: &[&str]) -> String {
    let list = labels.iter().map(|label| lower_first(label)).collect::<Vec<_>>().join(", ");
    format!("Guess: {list}. Measure yours to trust this.")
}

/// `and 4 more`.
pub fn more(count: usize) -> String {
    format!("and {count} more")
}

/// `8 rows`.
pub fn rows(count: usize) -> String {
    if count == 1 { "1 row".to_owned() } else { format!("{count} rows") }
}
