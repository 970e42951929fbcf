//! Every word the page itself says. What belongs to a calculator is declared in core.

use crate::keep::Fault;
use crate::settings::Theme;
use trialfit_core::build::Refusal;
use trialfit_core::entry::EntryError;
use trialfit_core::report::lower_first;
use trialfit_core::share::link::Tool;
use trialfit_core::show::{Shown, Sort, System};
use trialfit_core::spec::{Kind, Sense, Spec};

pub const CAR: &str = "Car";
pub const APP: &str = "Trialfit";
pub const VERSION: &str = "Version";
pub const SKIP: &str = "Skip to the answer";
pub const CALCULATORS: &str = "Calculators";
pub const OVERVIEW: &str = "Overview";
pub const MENU_OVERVIEW: &str = "Overview: parts, kit list, on trial";
pub const OVERVIEW_QUESTION: &str = "How does the whole of it stand?";
pub const SIDE_BY_SIDE: &str = "Side by side";
pub const PROOFS: &str = "To prove on the car";
pub const PROOFS_HELP: &str =
    "The figures are this car's; a tick holds until a change moves them. Common practice: what the makers ask comes first.";
pub const PRINT_PROOFS: &str = "Print this list";
pub const FEEDS: &str = "What feeds what";
pub const BESIDE: &str = "Fitted and on trial";
pub const FITTED: &str = "Fitted";
pub const ALL_THAT_DIFFERS: &str = "All that differs";
pub const BESIDE_HELP: &str = "A chosen part goes on trial beside what is fitted. Without parts: take it as fitted, then turn any number.";
pub const HOLD: &str = "Take it as fitted";
pub const HOLD_ANOTHER: &str = "Set this aside to compare";
pub const ON_TRIAL: &str = "On trial";
pub const ALL_HELD: &str = "All of them side by side";
pub const MORE_ON_A_WIDE_SCREEN: &str = "The others held stand beside these two on a wide screen.";
pub const HOLD_AGAIN: &str = "Keep what is on trial";
pub const BACK_TO_FITTED: &str = "Put back what is fitted";
pub const LET_GO: &str = "Stop comparing";
pub const NOTHING_DIFFERS: &str = "Nothing differs from what is fitted.";
pub const DIFFERS: &str = "Changed";
pub const ANSWERS_DIFFER: &str = "What comes of it: fitted → on trial";
pub const BETTER: &str = "better";
pub const WORSE: &str = "worse";
pub const PARTS: &str = "Parts";
pub const PARTS_HELP: &str = "Open a shelf: a file of parts, your own or your supplier's. It stays on this device. A chosen part sets its numbers; type over one and it is yours again.";
pub const OPEN_SHELF: &str = "Open a shelf";
pub const DEMO_SHELF: &str = "Try the demo shelf";
pub const NO_FILE: &str = "The file could not be read.";
pub const SAVE_SHELF: &str = "Save this shelf as a file";
pub const PUT_AWAY: &str = "Put this shelf away";
pub const NONE_CHOSEN: &str = "none chosen";
pub const CHOOSING: &str = "choosing a part";
pub const PART_PAGE: &str = "Its page";
pub const KIT: &str = "Kit list";
pub const KIT_CSV: &str = "Kit list (CSV)";
pub const TURNED: &str = "What the last change turned";
pub const TAKE_BACK: &str = "Take it back";
pub const DEMO_NAME: &str = "Demo car";
pub const FROM_A_LINK_NAME: &str = "From a link";
pub const NO_NAME: &str = "Unnamed car";
pub const MY_CAR: &str = "My car";
pub const TOLD: &str = "To know";
pub const DEMO: &str = "Demo car, not yours: do its parts work together? Turn any number. All stays in this browser.";
pub const ENTER_FIRST: &str = "Enter first:";
pub const STILL_MISSING: &str = "Still missing:";
pub const DEMO_IS_BACK: &str = "Undo brings the demo car back.";
pub const OTHERS_ARE: &str = "Your other cars are in the menu.";
pub const DEMO_CLEAR: &str = "Start mine";
pub const SEND: &str = "Send";
pub const MENU: &str = "Menu";
pub const CLOSE: &str = "Close";
pub const DISMISS: &str = "All right";

pub const PASSED: &str = "Limits passed";
pub const ANSWER: &str = "Answer";
pub const DRAWING: &str = "Drawing";
pub const DRAWING_IN_WORDS: &str = "The drawing in words and figures";
pub const CAUTIONS: &str = "Cautions";
pub const JOB_CARD: &str = "Job card";
pub const RESULTS: &str = "Results";
pub const ON_THE_WAY: &str = "On the way there";
pub const CHARTS: &str = "Charts";
pub const METHOD: &str = "Method";
pub const LEAVES_OUT: &str = "What it leaves out";
pub const WHOLE_METHOD: &str = "The whole method";
pub const PRINT_METHOD: &str = "Print the method";
pub const MATTERS_MOST: &str = "What matters most";
pub const OTHER: &str = "Other";
pub const RULES_FIRST: &str = "Local rules and licensed practice come first.";

pub const SHEET: &str = "Build sheet";
pub const PRINT_SHEET: &str = "Print the build sheet";
pub const SHEET_GIVEN: &str = "Given for this car";
pub const SHEET_WATCH: &str = "Not within its limits";
pub const SHEET_ALL_WITHIN: &str = "Everything is within its limits.";
pub const SHEET_GUESSES: &str = "Rests on guesses: measure these";
pub const SHEET_OPENS: &str = "A telephone opens this car here, with all its figures. ";
pub const DATE: &str = "Date";
pub const MEASURE_IT: &str = "Measure it";
pub const COUNT_FIRST: &str = "Enter first how many swings you count.";
pub const STOPWATCH: &str = "Time the swing";
pub const COUNT_HELP: &str =
    "Press as it passes the middle, and count nought. Each time it comes back the same way is one more; press again at the last.";
pub const TAP_HELP: &str =
    "Press as it passes the middle, then each time it comes back the same way. The watch counts, and stops by itself.";
pub const PRESSES: &str = "Press at";
pub const FIRST_AND_LAST: &str = "first and last";
pub const EVERY_SWING: &str = "every swing";
pub const START: &str = "Start";
pub const START_AGAIN: &str = "Drop this run";
pub const LEAVE_OUT: &str = "leave out";
pub const WALK: &str = "Measure one by one";
pub const PREVIOUS: &str = "Previous";
pub const NEXT: &str = "Next";
pub const BY_EAR: &str = "Belt tension by ear";
pub const TONE_HELP: &str = "Pluck the span in the middle and turn the tone until both are one. A small loudspeaker gives it thinly: listen for the same note, not an octave off; half and double sound alike. A tuner that shows hertz does as well.";
pub const PLUCK: &str = "Span plucked";
pub const TONE: &str = "Tone";
pub const PLAY: &str = "Play the tone";
pub const NO_SOUND: &str = "This browser makes no sound here. Use a tuner that shows hertz, and set its figure.";
pub const SLEPT: &str = "The screen or the device slept through this run, so its time is not to be trusted. Time it again.";

pub const PRINT_LIST: &str = "Print list and diagram";
pub const PRINT_LABELS: &str = "Print the labels";
pub const TOOLS: &str = "What if";
pub const SWEEP: &str = "Sweep a number";
pub const SWEEP_HELP: &str =
    "One number over a range, everything else as it is: how an answer follows, and where everything that hangs on it is within limits.";
pub const MAP: &str = "Two numbers at once";
pub const MAP_HELP: &str = "Two numbers over their ranges, everything else as it is: the field in which everything that hangs on them is within limits. A point can be taken.";
pub const ACROSS: &str = "Across";
pub const UPWARDS: &str = "Upwards";
pub const NO_FIELD: &str = "Two different numbers, each from and to a possible value, the lower one first.";
pub const SOLVE: &str = "Reach a target";
pub const SOLVE_HELP: &str = "What one number has to be for an answer to come to what you want.";
pub const SPREAD: &str = "How far it may be off";
pub const SPREAD_HELP: &str = "Every number with a give or take is drawn at random, all together, and the answer worked out each time. A number's give or take is given where the number is: open the line under it.";
pub const COMBINE: &str = "Find a set of parts";
pub const COMBINE_HELP: &str = "Every combination of the parts searched is worked out; of those that keep the limits, the ones that no other betters in every aim are shown.";
pub const AIMS: &str = "Best in";
pub const AIM: &str = "aim";
pub const AIM_WAY: &str = "least or most";
pub const NO_AIM: &str = "no aim";
pub const LEAST: &str = "the least";
pub const MOST: &str = "the most";
pub const PRICE: &str = "Price";
pub const MASS_ADDED: &str = "Mass added, less what comes off";
pub const OWN_LIMITS: &str = "And has to have";
pub const LIMIT: &str = "limit";
pub const LIMIT_WAY: &str = "at most or at least";
pub const LIMIT_NUMBER: &str = "how much";
pub const NO_LIMIT: &str = "no limit";
pub const AT_MOST: &str = "at most";
pub const AT_LEAST: &str = "at least";
pub const PRICE_NOT_KNOWN: &str = "price not known";
pub const HAS_NO_PRICE: &str = "Without a price:";
pub const SEARCH_PARTS: &str = "Search among the parts for";
pub const MAY_STAY_EMPTY: &str = "may stay empty";
pub const LIMITS_HELP: &str = "What these parts can turn is kept from going past its limits. Untick what may.";
pub const SEARCH: &str = "Search";
pub const RULED_OUT: &str = "What was ruled out";
pub const RULED_OUT_HELP: &str = "Each combination counts once, where it failed first.";
pub const BY_RULES: &str = "by rules between parts";
pub const NOT_COMPARED: &str = "without a figure of an aim";
pub const FRONT: &str = "Sets that no other betters";
pub const SET: &str = "set";
pub const ALREADY_CHOSEN: &str = "With what is already chosen: ";
pub const FIT_PARTS: &str = "Fit these parts";
pub const FITTING: &str = "fitting a set of parts";
pub const IS_FITTED: &str = "Fitted: the kit list is below.";
pub const COUNTING_CHANCES: &str = "Counting the chances …";
pub const TURN: &str = "Turn";
pub const FROM: &str = "from";
pub const TO: &str = "to";
pub const WATCH: &str = "Watch";
pub const TARGET: &str = "It should be";
pub const FIND: &str = "Find it";
pub const TAKE: &str = "take";
pub const MEETS: &str = "Meets it";
pub const TO_BE_HAD: &str = "To be had in the trade's sizes";
pub const IN_STEPS: &str = "In round steps";
pub const EACH_OF_THEM: &str = "Each of them";
pub const NEAREST: &str = "The nearest";
pub const APART: &str = "That answer does not hang on this number.";
pub const NONE_MEETS: &str = "None of them meets it.";
pub const NO_RANGE: &str = "From and to have to be possible values, the lower one first.";
pub const NO_NUMBER: &str = "This is no number.";
pub const WORKING_IT_OUT: &str = "Working it out";
pub const STOP: &str = "Stop";
pub const DRAW_SAMPLES: &str = "Draw 100 000 samples";
pub const NOTHING_IS_OFF: &str = "Nothing that feeds it has a give or take yet. Open the line under a number and give it one.";
pub const HELD_BACK: &str = "Some drawn values were held back at the end of what is possible.";
pub const HANGS_ON: &str = "number";
pub const HANGS_ON_CAPTION: &str = "What it hangs on, by share of the variance";
pub const BY_SAMPLES: &str = "by samples";
pub const TO_FIRST_ORDER: &str = "to first order";
pub const GIVE_OR_TAKE: &str = "give or take";
pub const SPREAD_LIKE: &str = "spread like";
pub const NOTHING_OFF: &str = "taken as exact";
pub const USUAL_OFF: &str = "as usual here";
pub const AS_USUAL: &str = "spread as usual";
pub const NORMAL_TWO: &str = "normal, ± is two sigma";
pub const NORMAL_THREE: &str = "normal, ± is three sigma";
pub const UNIFORM: &str = "equally likely anywhere between";
pub const TRIANGULAR: &str = "triangular";

pub const NO_POINT: &str = "None of them.";
pub const WITHIN_ALL: &str = "within every limit";
pub const PAST_ONE: &str = "past a limit";
pub const PREVIOUS_POINT: &str = "previous point";
pub const NEXT_POINT: &str = "next point";
pub const ALL_POINTS: &str = "All points";
pub const ALL_VALUES: &str = "All values";
pub const WITHIN: &str = "within";
pub const PREVIOUS_HANDLE: &str = "previous handle";
pub const NEXT_HANDLE: &str = "next handle";
pub const DONE: &str = "done";

pub const SAVE: &str = "Save";
pub const SAVE_DRAWING: &str = "Save the drawing";
pub const SAVE_SVG: &str = "drawing (SVG)";
pub const SAVE_PNG: &str = "picture (PNG)";
pub const SEND_PICTURE: &str = "send the picture";
pub const SAVE_CSV: &str = "values (CSV)";

pub const TAKING: &str = "taking a point of the chart";

pub const WHICH_ROW: &str = "Which of";
pub const UNDO: &str = "Undo";
pub const REDO: &str = "Redo";
pub const LESS: &str = "less";
pub const MORE: &str = "more";
pub const CHANGE: &str = "the change";
pub const OTHER_TAB: &str = "the other tab's change";
pub const TAKE_SOME: &str = "taking some of the link's car";
pub const TAKE_THEIRS: &str = "taking the link's car";
pub const NAMING: &str = "the car's name";
pub const HOLDING: &str = "what is held as fitted";
pub const CLEARING: &str = "clearing the demo";

pub const NOT_GIVEN: &str = "not given";
pub const OF_THE_DEMO: &str = "the demo car's";
pub const OF_A_NEW_ROW: &str = "for a start; yours may differ";
pub const PUT_BACK: &str = "put back";
pub const DONT_KNOW: &str = "don't know";
pub const LIKE_THE_DEMO: &str = "as in the demo car";
pub const ESTIMATE: &str = "An estimate by its method.";
pub const SHOW_WORKING: &str = "show working";
pub const HIDE_WORKING: &str = "hide working";

pub const CITE: &str = "link to this answer";

pub const MINUS_KEY: &str = "minus";
pub const SLASH_KEY: &str = "slash";
pub const SPACE_KEY: &str = "space";
pub const LETTERS_KEY: &str = "letters";

pub const ADD_ROW: &str = "Add a row";
pub const REMOVE_ROW: &str = "remove";
pub const MOVE_UP: &str = "up";
pub const MOVE_DOWN: &str = "down";

pub const FROM_A_LINK: &str = "From a link; yours is untouched.";
/// The same where nobody has a car of their own yet.
pub const FIRST_LINK: &str = "From a link. Change anything, and it is yours.";
pub const BACK_TO_DEMO: &str = "Back to the demo";
pub const TAKE_FIRST: &str = "Make it mine";
pub const KEEP_MINE: &str = "Keep mine";
pub const TAKE_IT: &str = "Take theirs";
pub const KEEP_BOTH: &str = "Keep both";
pub const AS_YOURS: &str = "Nothing in it differs from yours.";
pub const MINE_AND_THEIRS: &str = "Yours → the link's. Untick what you do not want.";
pub const NONE_OF_IT: &str = "Untick all";
pub const ALL_OF_IT: &str = "Tick all";
pub const IT_TURNS: &str = "What it turns, taken as a whole";
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
pub const SEND_WITH: &str = "What goes with it";
pub const SEND_NOTE: &str = "Note for whoever opens it";
pub const SEND_SHOW: &str = "Open it at";
pub const SEND_ANSWERS: &str = "An answer, with its working";
pub const SEND_VALUES: &str = "A value";
pub const SEND_HELD: &str = "with what is held as fitted";
pub const SEND_UNITS: &str = "shown in my units";
pub const SEND_FORM: &str = "Written for";
pub const SEND_WHOLE: &str = "with every figure and what was given";
pub const PLAIN: &str = "a message";
pub const MARKDOWN: &str = "Markdown";
pub const BBCODE: &str = "BBCode";
pub const QR: &str = "QR code";
pub const QR_SAYS: &str = "QR code of the link, for a telephone's camera";
pub const SEND_SHOW_NOTHING: &str = "the answer";
pub const COPY_LINK: &str = "Copy link";
pub const COPY_WORDS: &str = "Copy words";
pub const COPIED: &str = "Copied.";
pub const COPY_BY_HAND: &str = "It is marked: copy it from there.";
pub const SHARE: &str = "Share";

pub const MENU_UNITS: &str = "Units";
pub const MENU_COLOURS: &str = "Colours";
pub const MENU_LANGUAGE: &str = "Language";
pub const MENU_CARS: &str = "Cars in this browser";
pub const KEPT_HERE: &str = "Kept in this browser only; send one to yourself to have it elsewhere.";
pub const ON_THE_BENCH: &str = "on the bench";
pub const OPEN: &str = "open";
pub const THROW_AWAY: &str = "throw away";
pub const NEW_CAR: &str = "Start another car";
pub const NEXT_CUSTOMER: &str = "Next customer";
pub const SAVE_CAR: &str = "save";
pub const NEXT_CUSTOMER_HELP: &str = "Next customer files the car on the bench with the time in its name, and starts another.";
pub const SAVE_CARS: &str = "Save all as one file";
pub const OPEN_CARS: &str = "Add cars from a file";
pub const NAME: &str = "Name";
pub const THROWN: &str = "Thrown away";
pub const TOO_LONG: &str = "The file is too long to be one of cars; nothing was taken from it.";
pub const HOME_SCREEN: &str = "On the home screen";
pub const INSTALL: &str = "Put it on the home screen";
pub const INSTALL_HELP: &str =
    "It then opens like an app, without a network too. On some phones it keeps its own cars: take these along in a file.";
pub const INSTALL_BY_HAND: &str =
    "On iPhone and iPad: Share, then Add to Home Screen. Elsewhere: Install or Add to Home screen in the browser's menu.";
pub const PASTE: &str = "Open a link";
pub const PASTE_HELP: &str = "Paste a Trialfit link here.";
pub const ON_PAPER: &str = "On paper";
pub const PRINT: &str = "Print this screen";
pub const DAMAGED_TEXTS: &str = "Damaged texts put aside";
pub const COPY: &str = "copy";

/// The name of a copy.
pub fn copy_of(name: &str) -> String {
    let name = if name.is_empty() { NO_NAME } else { name };
    let kept: String = name.chars().take(50).collect();
    format!("{kept}, copy")
}

/// The name of a car filed at a time; an earlier time goes from it.
pub fn filed(name: &str, now: &str) -> String {
    let is_time = |text: &str| text.len() == now.len() && text.chars().all(|it| it.is_ascii_digit() || "-: ".contains(it));
    let name = name.rsplit_once(", ").filter(|(_, time)| is_time(time)).map_or(name, |(name, _)| name);
    let kept: String = name.chars().take(40).collect();
    format!("{kept}, {now}")
}

/// A name as every system takes it for a file.
pub fn file_name(name: &str) -> String {
    let plain = |letter: char| if letter.is_alphanumeric() { letter } else { '-' };
    name.chars().map(plain).collect()
}

/// What came of a file of cars.
pub fn imported(count: usize) -> String {
    match count {
        0 => "No car was added.".to_owned(),
        1 => "1 car was added.".to_owned(),
        _ => format!("{count} cars were added."),
    }
}

/// What was wrong with a car of a file, by its name or number there.
pub fn in_file(car: &str, problem: &str) -> String {
    format!("Car {car}: {problem}")
}

/// More than a file may have.
pub fn left_out(count: usize) -> String {
    format!("{count} more were left out: put them into a file of their own.")
}

/// Whether the browser promised to keep what it has.
pub const fn promised(does: bool) -> &'static str {
    if does {
        "The browser has promised not to clear them away."
    } else {
        "The browser may clear them away when it runs short of room or the page is long unused: save a file now and then."
    }
}

/// A word as a sentence begins with it.
pub fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// What undo or redo acts on: `Undo: slave bore`.
pub fn acts_on(act: &str, what: Option<String>) -> String {
    what.map_or_else(|| act.to_owned(), |what| format!("{act}: {}", lower_first(&what)))
}

/// An act on something with a name: `put back: slave bore`, the visible word first.
pub fn act_of(act: &str, what: &str) -> String {
    format!("{act}: {what}")
}

/// A method as it is cited: `Clutch: method, Trialfit 0.1.0`.
pub fn method_of(calculator: &str, version: &str) -> String {
    format!("{calculator}: {}, {APP} {version}", lower_first(METHOD))
}

/// Whose a value is that somebody gave.
pub const fn whose(visiting: bool) -> &'static str {
    if visiting { "the link's" } else { "yours" }
}

/// What a link changes, to choose from.
pub fn differs_in(count: usize) -> String {
    if count == 1 { "It differs from yours in one thing".to_owned() } else { format!("It differs from yours in {count} things") }
}

/// Takes what is ticked.
pub fn take_some(ticked: usize, all: usize) -> String {
    format!("Take {ticked} of {all} into mine")
}

pub fn proofs_done(done: usize, all: usize) -> String {
    format!("{done} of {all} ticked")
}

/// What was ticked when its figures were these.
pub fn proved_at(figures: &str) -> String {
    format!("Ticked at {figures}; the figures are others now.")
}

/// Why the build is not kept.
pub const fn not_kept(fault: Fault) -> &'static str {
    match fault {
        Fault::Blocked => {
            "This browser lets the page keep nothing. What is on the screen stays until the page is closed: before that, save it as a file (in the menu) or send it to yourself."
        }
        Fault::Full => {
            "There is no room left to keep this. What is on the screen stays until the page is closed: throw other cars away, or save it as a file; the menu has both."
        }
    }
}

/// What was kept could not be read whole.
pub const DAMAGED: &str = "What this browser kept was damaged. The rest is here; the damaged text is put aside in the menu.";

/// Another tab changed the car.
pub const ADOPTED: &str = "Changed in another tab; this one shows it.";

/// Another tab threw the car away.
pub const GONE: &str = "Another tab threw this car away. It is still here: the next change keeps it again.";

/// This tab goes on under a new name.
pub fn copied(name: &str) -> String {
    format!("Another tab changed this car too. Both are kept; here you go on with “{name}”.")
}

/// The reader's language could not be loaded.
pub fn no_language(name: &str) -> String {
    format!(
        "{name} could not be loaded: without a network it has to have been read here before. This is English; load the page again for {name}."
    )
}

/// The link could not be opened.
pub fn no_link(why: &str) -> String {
    format!("The link was not opened. {why}")
}

pub fn system(system: System) -> &'static str {
    if system == System::Metric { "millimetres, newtons" } else { "inches, pounds" }
}

/// What opens the units of each sort.
pub fn one_by_one(mixed: bool) -> String {
    if mixed { "One by one: mixed" } else { "One by one" }.to_owned()
}

pub const fn sort(sort: Sort) -> &'static str {
    match sort {
        Sort::Length => "Lengths",
        Sort::Bore => "Cylinder bores",
        Sort::Conductor => "Wire sizes",
        Sort::Torque => "Torque",
        Sort::Force => "Effort, loads, springs",
        Sort::Pressure => "Pressure",
        Sort::Temperature => "Temperature",
        Sort::Speed => "Speed",
        Sort::Mass => "Mass",
        Sort::Power => "Power",
    }
}

/// How wires are told by their gauge.
pub const GAUGES_HELP: &str = "A wire within 1 % of a gauge is called by it; any other keeps its mm² and names a gauge thick enough. Charts and limits keep mm². A number typed with its unit is read by it, whatever is set here: 10 kgf, 7/8 in, 6 AWG.";

/// With a link that brought units.
pub const UNITS_OF_LINK: &str = "Shown in the units of the link.";
pub const MY_UNITS: &str = "Show mine";

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
        (Refusal::NotWhole, _) => EntryError::NotWhole { text: typed.to_owned() }.to_string(),
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

/// `better, by slave bore`.
pub fn way_and_cause(way: &str, causes: &[String]) -> String {
    let causes: Vec<_> = causes.iter().map(|cause| lower_first(cause)).collect();
    let by = if causes.is_empty() { String::new() } else { format!("by {}", causes.join(", ")) };
    [way.to_owned(), by].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
}

/// A number that a chosen part sets and that holds something else.
pub fn detached(what: &str, by: Option<&str>) -> String {
    match by {
        Some(part) => format!("{what} is {part}'s."),
        None => format!("{what} is yours, not the part's."),
    }
}

/// What a part would have set and could not.
pub fn not_set(part: &str, what: &str) -> String {
    format!("{part} could not set {}.", lower_first(what))
}

/// What comes off the engine.
pub fn comes_off(what: &str) -> String {
    format!("Comes off: {what}.")
}

/// What a kit costs and weighs.
pub fn kit_total(price: &str, not_priced: usize, mass: &str, not_weighed: usize, removed: &str) -> String {
    let without = |count: usize, what: &str| if count == 0 { String::new() } else { format!(" ({count} without a {what})") };
    format!("{price}{}, {mass}{}; {removed} come off.", without(not_priced, "price"), without(not_weighed, "mass"))
}

/// `Aim 2`.
pub fn nth(what: &str, at: usize) -> String {
    format!("{} {at}", capital(what))
}

/// An aim at money.
pub fn price_in(currency: impl std::fmt::Display) -> String {
    format!("{PRICE}, {currency}")
}

/// How many slots are searched.
pub fn slots(searched: usize, all: usize) -> String {
    format!("{searched} of {all} kinds of parts")
}

/// How many limits are kept.
pub fn limits_kept(kept: usize, all: usize) -> String {
    if kept == all { format!("{all} limits kept") } else { format!("{kept} of {all} limits kept") }
}

/// How many there are to search.
pub fn combinations(count: &str) -> String {
    format!("{count} combinations.")
}

/// So many that it is said.
pub fn combinations_many(count: &str) -> String {
    format!("{count} combinations. That may take a while; it can be stopped.")
}

/// What was found.
pub fn front(front: usize, passed: &str, all: &str) -> String {
    let sets = if front == 1 { "1 set that no other betters".to_owned() } else { format!("{front} sets that no other betters") };
    format!("{sets}, of {passed} that pass; {all} combinations in all.")
}

/// Nothing was found.
pub fn none_passes(all: &str) -> String {
    format!("None of {all} combinations passes.")
}

/// Search without what stops most.
pub fn do_without(what: &str) -> String {
    format!("Most fail at this; do without it: {}", lower_first(what))
}

/// `1 728: margin over torque`.
pub fn so_many(count: &str, what: &str) -> String {
    format!("{count}: {}", lower_first(what))
}

/// `Price against pedal force`.
pub fn against(one: &str, other: &str) -> String {
    format!("{one} against {}", lower_first(other))
}

/// Others come to the same.
pub fn alike(count: &str) -> String {
    format!("{count} more come to the same in every aim.")
}

/// How likely all that was asked holds.
pub fn all_holds(share: f64, error: f64, samples: &str) -> String {
    format!(
        "With every give or take counted, all of it holds in {:.2} % of {samples} samples, give or take {:.2} %.",
        100.0 * share,
        100.0 * error
    )
}

/// One thing that may fail.
pub fn may_fail(what: &str, share: f64, error: f64) -> String {
    format!("{what}: fails in {:.2} %, give or take {:.2} %.", 100.0 * share, 100.0 * error)
}

/// What a held build is called.
pub fn held(at: usize) -> String {
    if at == 0 { "Fitted".to_owned() } else { format!("Held {}", at + 1) }
}

/// What the curves of a chart say at the present value.
pub fn reading(at: &Shown, curves: &str) -> String {
    format!("At {at}: {curves}.")
}

/// Limits too far off to be drawn.
pub fn off_the_chart(limits: &str) -> String {
    format!("Off the chart: {limits}.")
}

/// A stretch without an answer, and why.
pub fn gap([from, to]: &[String; 2], why: &str) -> String {
    if from == to { format!("None at {from}: {why}") } else { format!("None from {from} to {to}: {why}") }
}

/// `22.2 mm gives 118 N`.
pub fn gives(input: &str, output: &str) -> String {
    format!("{input} gives {output}")
}

/// Where no value meets the target.
pub fn none_meets([from, to]: &[String; 2]) -> String {
    format!("Nothing from {from} to {to} meets it.")
}

/// A stretch that meets the target.
pub fn met_throughout(from: &str, to: &str) -> String {
    format!("Met all the way from {from} to {to}.")
}

/// The target lies outside.
pub fn out_of_reach([low, high]: &[String; 2]) -> String {
    format!("It gets from {low} to {high} and no further.")
}

/// The target is jumped over.
pub fn jump(at: &str, [before, after]: &[String; 2]) -> String {
    format!("At {at} it jumps from {before} to {after}.")
}

/// The middle and nine tenths of the samples.
pub fn nine_of_ten(middle: &str, low: &str, high: &str) -> String {
    format!("{middle} in the middle; nine of ten lie between {low} and {high}.")
}

/// How likely a limit is passed.
pub fn chance(sense: Sense, limit: &str, share: f64, error: f64) -> String {
    let side = match sense {
        Sense::AtMost => "above",
        Sense::AtLeast => "below",
    };
    let percent = |share: f64| format!("{:.2} %", 100.0 * share);
    format!("Chance of being {side} {limit}: {}, give or take {}.", percent(share), percent(error))
}

/// Two ways to a standard deviation.
pub fn deviation(samples: &str, first: Option<&str>, agree: bool) -> String {
    match first {
        None => format!("Standard deviation {samples} by samples; to first order it is not known."),
        Some(first) if agree => format!("Standard deviation {samples} by samples, {first} to first order."),
        Some(first) => format!(
            "Standard deviation {samples} by samples, but {first} to first order: the answer bends within what the numbers may be off by. Trust the samples."
        ),
    }
}

/// `12 of 100 000 samples have no answer.`
pub fn without_answer(unknown: &str, all: &str) -> String {
    format!("{unknown} of {all} samples have no answer; they are left out.")
}

/// How it was drawn.
pub fn samples(all: &str) -> String {
    format!("{all} samples, the same for everyone who opens this car. Numbers are taken to vary independently.")
}

/// `8 rows`.
pub fn rows(count: usize) -> String {
    if count == 1 { "1 row".to_owned() } else { format!("{count} rows") }
}

/// A tool, or a section of the overview, as the page calls it.
pub fn tool(tool: Tool) -> &'static str {
    match tool {
        Tool::Sweep => SWEEP,
        Tool::Map => MAP,
        Tool::Solve => SOLVE,
        Tool::Spread => SPREAD,
        Tool::Combine => COMBINE,
        Tool::Beside => BESIDE,
        Tool::Parts => PARTS,
    }
}

/// A shelf that a link names cannot be had.
pub fn no_shelf(address: &str) -> String {
    format!("The shelf “{address}” that the link names could not be fetched; the values are the link's own.")
}

/// Why there is no QR code.
pub fn too_long_for_qr(letters: usize) -> String {
    format!("The link has {letters} letters, too many for a telephone to read off a screen: copy it instead.")
}

/// `Not known yet: 12 figures`.
pub fn not_known_yet(count: usize) -> String {
    format!("Not known yet: {count} figures")
}

/// `Run 2: 64.48 s`.
pub fn run(at: usize, time: &str) -> String {
    format!("Run {at}: {time}")
}

/// `, 30 swings`.
pub fn of_swings(swings: u16) -> String {
    if swings == 1 { ", one swing".to_owned() } else { format!(", {swings} swings") }
}

/// On the button while the watch runs.
pub fn stop_after(swings: u16) -> String {
    if swings == 1 { "Stop after one swing".to_owned() } else { format!("Stop after {swings} swings") }
}

/// On the button while swings are tapped.
pub fn tap(done: u16, all: u16) -> String {
    format!("{done} of {all}")
}

/// Seconds as they pass.
pub fn elapsed(seconds: f64) -> String {
    format!("{seconds:.1} s")
}

/// What several runs come to.
pub fn timed(time: &str, swings: u16, off: Option<&str>, period: &str) -> String {
    let off = off
        .map_or_else(|| "Time it again, to see how far it may be off.".to_owned(), |off| format!("By their scatter, give or take {off}."));
    format!("{time}{}: {period} for each. {off}", of_swings(swings))
}

/// One run differs.
pub fn miscounted(run: usize) -> String {
    format!("Run {run} differs by about a swing. Was one miscounted?")
}

/// `2 of 20.`
pub fn stop_of(at: usize, all: usize) -> String {
    format!("{at} of {all}.")
}

/// `Crank to alternator`.
pub fn span(from: &str, to: &str) -> String {
    format!("{from} to {to}")
}

/// `112 Hz`.
pub fn hertz(number: &str) -> String {
    format!("{number} Hz")
}

/// The tones to tune between.
pub fn wanted_tone([run_in, new]: [String; 2], least: Option<String>) -> String {
    let least = least.map(|least| format!(" Under {least} Hz a pulley slips.")).unwrap_or_default();
    format!("Wanted: {run_in} Hz run in, {new} Hz new.{least}")
}

/// What a tone means.
pub fn tone_means(each: &str) -> String {
    format!("It means {each} for each rib.")
}

/// `Take 64.5 s`.
pub fn take_value(value: &str) -> String {
    format!("Take {value}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::calculators::front_drive::{FRONT_DRIVE, RIBS};

    #[test]
    fn a_part_of_a_count_is_refused_for_what_it_is() {
        let said = refusal(Refusal::NotWhole, &FRONT_DRIVE.specs[usize::from(RIBS.id.ordinal)], "6.4", System::Metric);
        assert_eq!(said, "“6.4” is not a whole number, and this is a count.");
    }
}
