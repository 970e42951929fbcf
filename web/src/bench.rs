//! What lies on the bench: the car shown, what was worked out for it, and every way to change it.

use crate::banners::forget_link;
use crate::browser::{self, Browser};
use crate::follow::slice;
use crate::history::{Gesture, History};
use crate::keep::{self, Fault, Keeper, Saved};
use crate::language;
use crate::measure::Watch;
use crate::moment::{self, Moment};
use crate::route::Screen;
use crate::settings::Settings;
use crate::signal::{Memo, State, memo};
use crate::visit::Visit;
use crate::words;
use gloo_timers::callback::Timeout;
use leptos::prelude::*;
use litemap::LiteMap;
use std::cell::Cell;
use std::sync::LazyLock;
use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::{ALL, Calculator, car};
use trialfit_core::plan::Plan;
use trialfit_core::report::{Report, Unknown};
use trialfit_core::share::link::{Asked, Sought};
use trialfit_core::show::System;
use trialfit_core::spec::{Place, Spec};

static PLAN: LazyLock<Plan> = LazyLock::new(Plan::default);

thread_local! {
    /// There is one page, and so one bench; made before anything is shown.
    static BENCH: Cell<Option<Bench>> = const { Cell::new(None) };
}

/// After so many milliseconds without a change the bench is calm.
pub const CALM: u32 = 60;

/// The order of evaluation.
pub fn plan() -> &'static Plan {
    &PLAN
}

/// What was declared there.
pub fn spec_of(place: Place) -> &'static Spec {
    &calculator_of(place).specs[usize::from(place.id.ordinal)]
}

/// The calculator it belongs to.
pub fn calculator_of(place: Place) -> &'static Calculator {
    ALL[usize::from(place.id.calculator)]
}

/// Text in a field, as typed.
#[derive(Clone, PartialEq, Debug)]
pub struct Typed {
    pub text: String,
    /// What stood in the build when it was typed, or through it. When something else stands there, the text is stale.
    pub stands: Option<u64>,
    /// Why it could not be taken.
    pub problem: Option<String>,
}

/// Something to tell that is not an answer.
#[derive(Clone, PartialEq, Debug)]
pub enum Notice {
    /// The build could not be kept.
    NotKept(Fault),
    /// What was kept could not be read whole.
    Damaged(Vec<String>),
    /// A link could not be opened.
    NoLink(String),
    /// Two tabs changed the car; this one's goes on under that name.
    Copied(String),
    /// Another tab changed the car and this one shows it.
    Adopted,
    /// Another tab threw the car away.
    Gone,
    /// The language that was wanted could not be loaded; its own name.
    NoLanguage(String),
}

impl Notice {
    /// In words.
    pub fn text(&self) -> String {
        match self {
            Self::NotKept(fault) => words::not_kept(*fault).to_owned(),
            Self::Damaged(_) => words::DAMAGED.to_owned(),
            Self::NoLink(why) => words::no_link(why),
            Self::Copied(name) => words::copied(name),
            Self::Adopted => words::ADOPTED.to_owned(),
            Self::Gone => words::GONE.to_owned(),
            Self::NoLanguage(name) => words::no_language(name),
        }
    }

    fn same_kind(&self, other: &Self) -> bool {
        core::mem::discriminant(self) == core::mem::discriminant(other)
    }
}

pub(crate) type Change = Box<dyn FnOnce(&mut Build)>;

/// Handles of all that the page's parts share.
#[derive(Clone, Copy, Debug)]
pub struct Bench {
    build: State<Build>,
    report: leptos::prelude::Memo<Report>,
    /// The first report and where to go on with it, until it is asked for.
    begun: StoredValue<Option<(Report, Option<usize>)>, LocalStorage>,
    demo: Memo<bool>,
    pub(crate) history: State<History<Moment>>,
    keeper: StoredValue<Keeper<Browser>, LocalStorage>,
    /// The build has changed since the device kept it.
    pub(crate) to_keep: State<bool>,
    /// Texts of fields that hold more than their value shows.
    pub typed: State<LiteMap<Place, Typed>>,
    /// A number field has the focus: a phone's keypad is probably open.
    pub typing: State<bool>,
    /// The answer itself is scrolled out of sight.
    pub away: State<bool>,
    /// Units and colours.
    pub settings: State<Settings>,
    /// The units shown: a visit may bring its own.
    system: Memo<System>,
    /// The visit to a car that came by link, with one's own set aside.
    pub visit: State<Option<Visit>>,
    /// The input that is being measured in a window of its own.
    pub measuring: State<Option<Place>>,
    /// The stopwatch and the runs it took.
    pub watch: State<Watch>,
    /// A change waits for the answer whether the visited car is to be kept.
    pub asking: State<bool>,
    pending: StoredValue<Option<Change>, LocalStorage>,
    pub notices: State<Vec<Notice>>,
    /// The build that is held as fitted, beside the one on trial; then others to compare with, in all at most
    /// [`MOST_HELD`](trialfit_core::share::link::MOST_HELD).
    pub held: State<Vec<Build>>,
    /// The first of them, with what was worked out for it.
    pub fitted: Memo<Option<Fitted>>,
    /// What is looked at.
    pub looking: State<Screen>,
    /// The tools that are open, as they are set.
    pub tools: State<Vec<Asked>>,
    /// What a search among parts is asked, or will be.
    pub sought: State<Sought>,
    /// The text of a shelf that came with the car visited, or why it did not.
    pub came: State<Option<Result<String, String>>>,
    /// What a link asks a tool that is still to be opened.
    pub(crate) wanted: StoredValue<Option<Asked>, LocalStorage>,
    calm: State<u32>,
    /// What undo knows is newer than what the device keeps of it.
    pub(crate) steps_to_keep: StoredValue<bool, LocalStorage>,
    calming: StoredValue<Option<Timeout>, LocalStorage>,
}

/// What is held as fitted.
#[derive(Clone, Debug)]
pub struct Fitted {
    pub build: Build,
    pub report: Report,
}

impl Fitted {
    fn of(build: &Build) -> Self {
        let mut report = Report::new(build);
        plan().evaluate(build, &mut report);
        Self { build: build.clone(), report }
    }
}

impl PartialEq for Fitted {
    fn eq(&self, other: &Self) -> bool {
        self.build == other.build
    }
}

impl Bench {
    /// Fetches what the device kept, or the demo car.
    pub fn open() -> Self {
        let (mut keeper, found) = Keeper::open(Browser);
        let mut notices = Vec::new();
        let build = match found {
            Ok(None) => Build::default(),
            Ok(Some(found)) => {
                if !found.problems.is_empty() {
                    notices.push(Notice::Damaged(found.problems));
                }
                found.build
            }
            Err(fault) => {
                notices.push(Notice::NotKept(fault));
                Build::default()
            }
        };
        let held = moment::held(keeper.held());
        let settings = keeper.text(keep::SETTINGS).as_deref().map(Settings::read).unwrap_or_default();
        let watch = keeper.text(keep::WATCH).as_deref().map(Watch::read).unwrap_or_default();
        notices.extend(language::lacking().map(Notice::NoLanguage));
        language::leave_words_of(held.iter().chain([&build]));
        let begun = StoredValue::new_local(Some((Report::new(&build), Some(0))));
        let build = State::new(build);
        let worked_out = StoredValue::new_local(None::<Build>);
        let report = leptos::prelude::Memo::new_owning(move |old: Option<Report>| {
            build.with(|build| {
                let before = worked_out.try_update_value(|before| before.replace(build.clone())).flatten();
                let Some((mut report, before)) = old.zip(before) else {
                    let begun = begun.try_update_value(Option::take).flatten();
                    let (mut report, at) = begun.unwrap_or_else(|| (Report::new(build), Some(0)));
                    _ = at.and_then(|at| plan().evaluate_on(build, &mut report, at, || true));
                    return (report, true);
                };
                plan().evaluate_since(&before, build, &mut report);
                (report, true)
            })
        });
        let (settings, visit, held) = (State::new(settings), State::<Option<Visit>>::default(), State::new(held));
        let bench = Self {
            build,
            report,
            begun,
            demo: memo(move || build.with(|build| build.origin(car::NAME.id.into()) == Origin::Usual)),
            history: State::new(Moment::steps(keeper.steps())),
            keeper: StoredValue::new_local(keeper),
            to_keep: State::new(false),
            typed: State::default(),
            typing: State::new(false),
            away: State::new(false),
            settings,
            system: memo(move || {
                let of_link = visit.with(|visit| visit.as_ref().and_then(|visit| visit.units));
                of_link.unwrap_or_else(|| settings.with(|settings| settings.system))
            }),
            visit,
            measuring: State::default(),
            watch: State::new(watch),
            asking: State::new(false),
            pending: StoredValue::new_local(None),
            notices: State::new(notices),
            held,
            fitted: memo(move || held.with(|held| held.first().map(Fitted::of))),
            looking: State::new(Screen::Of(ALL.iter().position(|it| it.scene.is_some()).unwrap_or(0) as u8)),
            tools: State::default(),
            sought: State::default(),
            came: State::default(),
            wanted: StoredValue::new_local(None),
            calm: State::new(0),
            steps_to_keep: StoredValue::new_local(false),
            calming: StoredValue::new_local(None),
        };
        BENCH.set(Some(bench));
        bench
    }

    /// The bench of this page.
    pub fn get() -> Self {
        BENCH.get().expect("the page opens its bench first")
    }

    /// Works out another slice of the first report; tells whether more is left. Nothing changes the build before that.
    pub fn work_out(self) -> bool {
        let begun = self.build.with_untracked(|build| {
            self.begun.try_update_value(|begun| {
                let (report, at) = begun.as_mut()?;
                *at = plan().evaluate_on(build, report, (*at)?, slice());
                *at
            })
        });
        begun.flatten().is_some()
    }

    /// The build shown.
    pub fn build(self) -> State<Build> {
        self.build
    }

    /// What was worked out for it.
    pub fn report(self) -> leptos::prelude::Memo<Report> {
        self.report
    }

    /// Both, to read something of them; whoever reads is told of changes.
    pub fn look<T>(self, read: impl FnOnce(&Build, &Report) -> T) -> T {
        self.build.with(|build| self.report.with(|report| read(build, report)))
    }

    /// Both as they are now, for whoever acts.
    pub fn look_now<T>(self, read: impl FnOnce(&Build, &Report) -> T) -> T {
        self.build.with_untracked(|build| self.report.with_untracked(|report| read(build, report)))
    }

    /// The number in force at a place.
    pub fn value(self, place: Place) -> Memo<Result<f64, Unknown>> {
        memo(move || self.report.with(|report| report.value(place)))
    }

    /// The number in force now, for whoever acts.
    pub fn value_now(self, place: Place) -> Result<f64, Unknown> {
        self.report.with_untracked(|report| report.value(place))
    }

    /// Who gave it. Tracked.
    pub fn origin(self, place: Place) -> Origin {
        self.build.with(|build| build.origin(place))
    }

    /// The words of a text input. Tracked.
    pub fn text(self, place: Place) -> String {
        self.build.with(|build| build.text(place).to_owned())
    }

    /// The link word and field id of a place.
    pub fn key(self, place: Place) -> String {
        self.build.with_untracked(|build| build.layout().key(place))
    }

    /// True while it is the demo: nobody has called the car anything.
    pub fn is_demo(self) -> bool {
        self.demo.get()
    }

    /// The units to show, tracked.
    pub fn system(self) -> System {
        self.system.get()
    }

    /// Shows one's own units also where the link visited brought some.
    pub fn in_own_units(self) {
        if self.visit.with_untracked(|visit| visit.as_ref().is_some_and(|visit| visit.units.is_some())) {
            self.visit.update(|visit| _ = visit.as_mut().map(|visit| visit.units = None));
        }
    }

    /// Takes other units for one's own.
    pub fn prefer(self, system: System) {
        self.settings.update(|settings| settings.system = system);
        self.in_own_units();
    }

    /// Changes the build, unless it is one that came by link: then asks first.
    pub fn edit(self, gesture: Gesture, what: &'static str, change: impl FnOnce(&mut Build) + 'static) {
        self.change(gesture, what, Box::new(change), None);
    }

    /// The same, made once for all changes; where it starts a trial, with what was held before.
    pub(crate) fn change(self, gesture: Gesture, what: &'static str, change: Change, held: Option<Vec<Build>>) {
        if self.visit.with_untracked(Option::is_some) {
            if untrack(|| self.has_own()) {
                self.pending.set_value(Some(change));
                self.asking.set(true);
                return;
            }
            self.take_over();
            forget_link();
        }
        let before = self.build.get_untracked();
        let mut after = before.clone();
        change(&mut after);
        if after != before {
            if held.is_some() {
                self.keep_held(vec![before.clone()]);
            }
            self.history.update(|history| history.record(gesture, what, Moment { build: before, held }));
            self.show(after);
            // The answer is painted first.
            self.to_keep.set(true);
        }
    }

    /// Sets one input.
    pub fn set(self, gesture: Gesture, place: Place, value: f64) {
        // Refused values are told where they are typed; a slider or drawing simply stops there.
        self.edit(gesture, spec_of(place).label, move |build| _ = build.set(place, value));
    }

    /// A gesture is over.
    pub fn finish(self) {
        self.history.update(History::finish);
    }

    /// Shows a build in the place of the one shown.
    pub(crate) fn show(self, build: Build) {
        self.held.with_untracked(|held| language::leave_words_of(held.iter().chain([&build])));
        self.build.set(build);
        let stands = |place: &Place, typed: &Typed| typed.stands == bits(self.value_now(*place));
        // Every field follows these: told only when one goes.
        if !self.typed.with_untracked(|typed| typed.iter().all(|(place, typed)| stands(place, typed))) {
            self.typed.update(|typed| typed.retain(|place, typed| stands(place, typed)));
        }
        self.calming.set_value(Some(Timeout::new(CALM, move || {
            self.calm.update(|calm| *calm += 1);
            self.keep_steps();
        })));
    }

    /// Tracked by what may come a moment after the answer: charts and working.
    pub fn when_calm(self) {
        self.calm.with(|_| ());
    }

    /// Keeps the build on the device. What is on the screen stays whatever becomes of that.
    pub fn keep(self) {
        self.to_keep.update_untracked(|due| *due = false);
        let saved = self.with_keeper(|keeper| self.build.with_untracked(|build| keeper.save(build)));
        match saved {
            Ok(Saved::Done) => {
                self.steps_to_keep.set_value(true);
                self.withdraw(|notice| matches!(notice, Notice::NotKept(_) | Notice::Gone));
                if self.with_keeper(|keeper| keeper.is_first()) {
                    browser::ask_to_keep();
                }
            }
            Ok(Saved::Changed) => self.keep_copy(),
            Err(fault) => self.tell(Notice::NotKept(fault)),
        }
    }

    /// Keeps it now, if it is yet to be kept.
    pub(crate) fn keep_if_due(self) {
        if self.to_keep.get_untracked() {
            self.keep();
        }
    }

    /// Another tab changed the same car since: this one's goes on as a copy, and both stay.
    fn keep_copy(self) {
        let mut copy = self.build.get_untracked();
        let name = language::says(&words::copy_of(&keep::name(&copy))).into_owned();
        _ = copy.set_text(car::NAME.id.into(), &name);
        match self.with_keeper(|keeper| keeper.save_anew(&copy)) {
            Ok(_) => {
                self.steps_to_keep.set_value(true);
                self.keep_held(self.held.get_untracked());
                self.tell(Notice::Copied(name));
            }
            Err(fault) => self.tell(Notice::NotKept(fault)),
        }
        self.show(copy);
    }

    /// Another tab wrote: shows what it wrote, unless that concerns another car.
    pub fn adopt(self, key: Option<&str>) {
        if self.with_keeper(|keeper| keeper.is_gone()) && self.visit.with_untracked(Option::is_none) {
            self.tell(Notice::Gone);
        }
        self.adopt_held(key);
        let Some(theirs) = self.with_keeper(|keeper| keeper.concerns(key).then(|| keeper.adopt()).flatten()) else { return };
        match self.visit.get_untracked() {
            Some(visit) => self.visit.set(Some(Visit { own: theirs, ..visit })),
            // Kept again as it was, with what is held for it.
            None if self.build.with_untracked(|build| *build == theirs) => {}
            None => {
                let before = self.build.get_untracked();
                self.history.update(|history| history.record(Gesture::Elsewhere, words::OTHER_TAB, before.into()));
                self.show(theirs);
                self.tell(Notice::Adopted);
            }
        }
    }

    /// Whatever the device keeps, to ask or change it.
    pub fn with_keeper<T>(self, act: impl FnOnce(&mut Keeper<Browser>) -> T) -> T {
        self.keep_if_due();
        self.keeper.try_update_value(act).expect("the bench is as long as the page")
    }

    /// Puts another build in the place of the one shown, with its own steps to undo in place of those.
    pub fn replace(self, build: Build, steps: History<Moment>) {
        self.keep_if_due();
        self.history.set(steps);
        self.typed.update(LiteMap::clear);
        self.show(build);
    }

    /// The change that waited, if it is now to be done.
    pub fn answer_pending(self, does: bool) {
        self.asking.set(false);
        let change = self.pending.try_update_value(Option::take).flatten();
        match change {
            Some(change) if does => self.edit(Gesture::Once, words::CHANGE, change),
            _ => self.typed.update(LiteMap::clear),
        }
    }

    /// Tells something, in place of what was told of the same kind.
    pub fn tell(self, notice: Notice) {
        if self.notices.with_untracked(|notices| notices.contains(&notice)) {
            return;
        }
        self.notices.update(|notices| {
            notices.retain(|other| !other.same_kind(&notice));
            notices.push(notice);
        });
    }

    /// No longer tells it.
    pub fn withdraw(self, which: impl Fn(&Notice) -> bool) {
        if self.notices.with_untracked(|notices| notices.iter().any(&which)) {
            self.notices.update(|notices| notices.retain(|notice| !which(notice)));
        }
    }
}

/// The number as its bits, to tell whether it is still the same one.
pub fn bits(value: Result<f64, Unknown>) -> Option<u64> {
    value.ok().map(f64::to_bits)
}
