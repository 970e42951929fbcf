//! The combinations of parts that pass what is asked, and of these the ones that nothing betters.

mod ask;
mod found;

use super::runner::Runner;
use super::{folded, going, summary};
use crate::bench::{Bench, plan, spec_of};
use crate::dom::{El, el};
use crate::follow::effect;
use crate::signal::{State, memo};
use crate::words;
use ask::grouped;
use trialfit_core::build::Build;
use trialfit_core::calculators::{ALL, clutch};
use trialfit_core::order::Order;
use trialfit_core::share::link::{Asked, MOST_LIMITS, Sought, Tool};
use trialfit_core::shelf::{At, Currency, Shelf};
use trialfit_core::show;
use trialfit_core::spec::{Id, Kind, Place};
use trialfit_core::tools::combine::{self, AIMS, Aim, Cannot, Combine, Combined, Must, Search, What, judged, needed, slots_for};

/// From so many combinations on it is said that they may take long.
const MANY: f64 = 2e6;

/// An aim as it is asked for.
#[derive(Clone, Copy)]
struct Aimed {
    what: State<Option<What>>,
    most: State<bool>,
}

/// A limit of one's own.
#[derive(Clone, Copy)]
struct Limit {
    on: State<bool>,
    place: State<Place>,
    /// At least; else at most.
    least: State<bool>,
    number: State<super::Asked>,
}

/// All that is asked.
#[derive(Clone, Copy)]
struct Ask {
    shelves: State<Vec<Shelf>>,
    aims: [Aimed; AIMS],
    limits: [Limit; MOST_LIMITS],
    /// The calculators whose parts are searched; none while that follows from aims and limits.
    groups: State<Option<Vec<u8>>>,
    /// Slots that somebody took in (with whether they may stay empty) or left out.
    overruled: State<Vec<(String, Option<bool>)>>,
    /// Judged answers that may be beyond their limits.
    waived: State<Vec<Place>>,
}

/// A search as it was asked for, and of what.
#[derive(Clone, PartialEq, Default)]
struct Question {
    shelves: Vec<Shelf>,
    search: Vec<Search>,
    aims: Vec<Aim>,
    musts: Vec<Must>,
    /// The build without parts in the slots searched: fitting what was found does not change it.
    base: Build,
    /// A number that cannot be read stands in a limit.
    unreadable: bool,
}

/// The tool, folded.
pub fn combine(shelves: State<Vec<Shelf>>) -> El {
    folded(summary("combine", words::COMBINE), move || inside(shelves))
}

fn inside(shelves: State<Vec<Shelf>>) -> El {
    let bench = Bench::get();
    let ask = Ask::new(shelves);
    if bench.wanted(Tool::Combine).is_some() {
        ask.take(&bench.sought.get_untracked());
    }
    bench.knows(Tool::Combine, move || {
        bench.sought.set(ask.sought());
        Asked::of(Tool::Combine)
    });
    let search = memo(move || ask.search());
    let judged = memo(move || ask.judged(&search.get()));
    let question = memo(move || ask.question(search.get(), &judged.get()));
    let count = memo(move || question.with(|question| question.job().map(|job| job.combinations())));
    let runner = Runner::<Combined>::new();
    let looked = State::new(0);
    effect(move |first| {
        question.with(|_| ());
        if !first {
            runner.forget();
        }
    });
    let go = move || {
        // What could not be read says so at its field.
        if let (false, Ok(job)) = question.with_untracked(|question| (question.unreadable, question.job())) {
            looked.set(0);
            runner.start(job);
        }
    };
    let counted = move || match count.get() {
        Ok(count) if count > MANY => words::combinations_many(&show::count(count)),
        Ok(count) => words::combinations(&show::count(count)),
        Err(why) => why.to_string(),
    };
    el("div")
        .class("tool")
        .child(el("p").class("help").text(words::COMBINE_HELP))
        .children(ask.fields(search, judged))
        .child(el("p").class("found").id("combinations").says(counted))
        .child(going("combine-go", words::SEARCH, runner, go))
        .many(move || {
            runner.with(|found| found.map(|found| found::lines(ask, &question.get_untracked(), found, looked, go)).unwrap_or_default())
        })
}

impl Ask {
    fn new(shelves: State<Vec<Shelf>>) -> Self {
        let places = shelves.with_untracked(|shelves| moved(shelves));
        // What people ask of parts first, if these parts change it.
        let pedal = Place::from(clutch::PEDAL_FORCE.id);
        let first = if places.contains(&pedal) { Some(pedal) } else { places.first().copied() };
        let currency = shelves.with_untracked(|shelves| currencies(shelves).first().copied());
        let aims = [first.map(What::Output), currency.map(What::Price), Some(What::Mass)];
        let limit = |at: usize| {
            let place = first.unwrap_or(pedal);
            let now = Bench::get().value_now(place).ok().filter(|_| at == 0 && first.is_some());
            Limit {
                on: State::new(now.is_some()),
                place: State::new(place),
                least: State::new(false),
                number: State::new(Ok(now.map_or(0.0, |now| round(place, now)))),
            }
        };
        Self {
            shelves,
            aims: aims.map(|what| Aimed { what: State::new(what), most: State::new(false) }),
            limits: core::array::from_fn(limit),
            groups: State::new(None),
            overruled: State::default(),
            waived: State::default(),
        }
    }

    /// Aims that are given. Tracked, like all that follows.
    fn aimed(self) -> Vec<Aim> {
        self.aims.iter().filter_map(|aim| Some(Aim { what: aim.what.get()?, most: aim.most.get() })).collect()
    }

    /// Limits of one's own; none when one cannot be read.
    fn own(self) -> Option<Vec<Must>> {
        let given = self.limits.iter().filter(|limit| limit.on.get());
        given
            .map(|limit| {
                let (place, number) = (limit.place.get(), limit.number.get().ok()?);
                Some(if limit.least.get() { Must::AtLeast(place, number) } else { Must::AtMost(place, number) })
            })
            .collect()
    }

    /// The slots to search, in the order of the shelves.
    fn search(self) -> Vec<Search> {
        self.shelves.with(|shelves| {
            let mut search = match self.groups.get() {
                None => {
                    let limits = self.limits.iter().filter(|limit| limit.on.get());
                    let aim = |limit: &Limit| Aim { what: What::Output(limit.place.get()), most: false };
                    let all: Vec<Aim> = self.aimed().into_iter().chain(limits.map(aim)).collect();
                    slots_for(plan(), shelves, &all)
                }
                Some(groups) => {
                    let slots = grouped(shelves);
                    let mut search: Vec<Search> = slots
                        .iter()
                        .filter(|slot| slot.group.is_some_and(|of| groups.contains(&of)))
                        .map(|slot| Search::filled(&slot.id))
                        .collect();
                    needed(shelves, &mut search);
                    search
                }
            };
            self.overruled.with(|overruled| {
                for (slot, way) in overruled {
                    search.retain(|other| other.slot != *slot);
                    search.extend(way.map(|or_none| Search { slot: slot.clone(), or_none }));
                }
            });
            let order: Vec<String> = grouped(shelves).into_iter().map(|slot| slot.id).collect();
            search.order_by_key(|slot| order.iter().position(|id| *id == slot.slot));
            search
        })
    }

    /// What the parts of these slots can turn.
    fn judged(self, search: &[Search]) -> Vec<Must> {
        let base = base(search);
        self.shelves.with(|shelves| judged(plan(), &base, shelves, search))
    }

    fn question(self, search: Vec<Search>, judged: &[Must]) -> Question {
        let own = self.own();
        // A limit of one's own goes first: it is what most is ruled out by.
        let kept = judged.iter().filter(|must| !self.waived.with(|waived| waived.contains(&must.place())));
        Question {
            shelves: self.shelves.get(),
            aims: self.aimed(),
            unreadable: own.is_none(),
            musts: own.unwrap_or_default().into_iter().chain(kept.copied()).collect(),
            base: base(&search),
            search,
        }
    }

    /// Asks what a link asked.
    fn take(self, sought: &Sought) {
        let aims = sought.aims.iter().map(Some).chain(core::iter::repeat(None));
        for (ours, aim) in self.aims.iter().zip(aims) {
            ours.what.set(aim.map(|aim| aim.what));
            ours.most.set(aim.is_some_and(|aim| aim.most));
        }
        let limit = |must: &Must| match *must {
            Must::AtMost(place, number) => Some((place, number, false)),
            Must::AtLeast(place, number) => Some((place, number, true)),
            Must::Stand(..) => None,
        };
        let limits = sought.limits.iter().map(limit).chain(core::iter::repeat(None));
        for (ours, limit) in self.limits.iter().zip(limits) {
            if let Some((place, number, least)) = limit {
                ours.place.set(place);
                ours.number.set(Ok(number));
                ours.least.set(least);
            }
            ours.on.set(limit.is_some());
        }
        self.waived.set(sought.waived.clone());
        if sought.slots.is_empty() {
            return;
        }
        let slots = self.shelves.with_untracked(|shelves| grouped(shelves));
        let way = |id: &str| sought.slots.iter().find(|slot| slot.slot == id).map(|slot| slot.or_none);
        let filled = |group: u8| slots.iter().any(|slot| slot.group == Some(group) && way(&slot.id) == Some(false));
        self.groups.set(Some((0..ALL.len() as u8).filter(|group| filled(*group)).collect()));
        self.overruled.set(slots.iter().map(|slot| (slot.id.clone(), way(&slot.id))).collect());
    }

    /// As a link asks it. Tracked.
    fn sought(self) -> Sought {
        let follows = self.groups.with(Option::is_none) && self.overruled.with(Vec::is_empty);
        Sought {
            slots: if follows { Vec::new() } else { self.search() },
            aims: self.aimed(),
            limits: self.own().unwrap_or_default(),
            waived: self.waived.get(),
        }
    }

    /// No longer asks for something.
    fn waive(self, must: Must) {
        match must {
            Must::Stand(place, _) => self.waived.update(|waived| waived.push(place)),
            _ => {
                let its = |limit: &&Limit| limit.on.get_untracked() && limit.place.get_untracked() == must.place();
                self.limits.iter().filter(its).for_each(|limit| limit.on.set(false));
            }
        }
    }
}

impl Question {
    fn job(&self) -> Result<Combine, Cannot> {
        Combine::new(plan(), &self.base, &self.shelves, &self.search, &self.aims, &self.musts)
    }

    /// The build with what was found fitted.
    fn fitted(&self, trade: &combine::Trade) -> Build {
        let mut build = self.base.clone();
        combine::fit(&self.shelves, &self.search, trade, &mut build);
        build
    }
}

/// The build, told a moment after it changed, without parts in these slots.
fn base(search: &[Search]) -> Build {
    let bench = Bench::get();
    bench.when_calm();
    let mut build = bench.build().get_untracked();
    combine::clear(&mut build, search);
    build
}

/// Answers in numbers that a part of these shelves can move, judged ones first within their calculator.
fn moved(shelves: &[Shelf]) -> Vec<Place> {
    let sets = At::all(shelves).filter_map(|at| at.of(shelves)).flat_map(|part| &part.sets);
    let mut inputs: Vec<Id> = sets.map(|(place, _)| place.id).collect();
    inputs.order_by(Ord::cmp);
    inputs.dedup();
    let moves = |place: &Place| inputs.iter().any(|&input| plan().feeds(input, place.id));
    let all = Bench::get().build().with_untracked(|build| build.layout().places(trialfit_core::spec::Role::Output).collect::<Vec<_>>());
    let is = |place: &Place| place.row.is_none() && matches!(spec_of(*place).kind, Kind::Quantity { .. });
    let mut places: Vec<Place> = all.into_iter().filter(is).filter(moves).collect();
    places.order_by_key(|place| (place.id.calculator, !spec_of(*place).is_judged()));
    places
}

/// The currencies of these shelves' prices, the most frequent first.
fn currencies(shelves: &[Shelf]) -> Vec<Currency> {
    let prices = At::all(shelves).filter_map(|at| at.of(shelves)?.price);
    let mut counts: Vec<(Currency, usize)> = Vec::new();
    for price in prices {
        match counts.iter_mut().find(|(currency, _)| *currency == price.currency) {
            Some((_, count)) => *count += 1,
            None => counts.push((price.currency, 1)),
        }
    }
    counts.order_by_key(|(_, count)| core::cmp::Reverse(*count));
    counts.into_iter().map(|(currency, _)| currency).collect()
}

/// About this much, in two digits of the reader's unit; SI.
fn round(place: Place, value: f64) -> f64 {
    let Some(unit) = leptos::prelude::untrack(|| super::unit_of(place)) else { return value };
    let shown = unit.from_si(value);
    if shown == 0.0 || !shown.is_finite() {
        return value;
    }
    let step = libm::pow(10.0, libm::log10(shown.abs()).floor() - 1.0);
    unit.to_si((shown / step).round() * step)
}
