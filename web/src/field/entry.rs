//! What a number field holds: the value in force, or text of its reader's own while that says more.

use crate::bench::{Bench, Typed, bits, spec_of};
use crate::history::Gesture;
use crate::signal::{Memo, memo};
use crate::stops::Stops;
use crate::words;
use leptos::prelude::*;
use trialfit_core::entry::{clean, read_quantity};
use trialfit_core::quantity::{Dimension, Unit};
use trialfit_core::report::Unknown;
use trialfit_core::show::{self, Shown, System};
use trialfit_core::spec::{Kind, Place, Spec};

/// Letters of a refused text repeated in its message.
const REPEATED: usize = 24;

/// One quantity that can be typed.
#[derive(Clone, Copy, Debug)]
pub struct Entry {
    bench: Bench,
    pub place: Place,
    pub spec: &'static Spec,
    pub(super) dimension: &'static Dimension,
    pub(super) unit: &'static Unit,
    pub value: Memo<Result<f64, Unknown>>,
    typed: Memo<Option<Typed>>,
}

impl Entry {
    /// None for what is no quantity.
    pub fn of(place: Place) -> Option<Self> {
        let bench = Bench::get();
        let spec = spec_of(place);
        let Kind::Quantity { dimension, unit } = spec.kind else { return None };
        let value = bench.value(place);
        let typed = memo(move || {
            let typed = bench.typed.with(|typed| typed.get(&place).cloned());
            typed.filter(|typed| typed.stands == bits(value.get()))
        });
        Some(Self { bench, place, spec, dimension, unit, value, typed })
    }

    /// The unit bare numbers are read in, and its counterpart of the other system where that is another.
    pub fn units(self, system: System) -> (&'static Unit, Option<&'static Unit>) {
        let other = match system {
            System::Metric => System::Imperial,
            System::Imperial => System::Metric,
        };
        let unit = |system: System| system.unit(self.dimension, self.unit);
        (unit(system), Some(unit(other)).filter(|other| *other != unit(system)))
    }

    /// The value in force as the field shows it.
    pub fn shown(self) -> Option<Shown> {
        let system = self.bench.system();
        self.value.get().ok().map(|value| show::cell(self.spec, value, system))
    }

    /// What stands in the field.
    pub fn text(self) -> String {
        match self.typed.get() {
            Some(typed) => typed.text,
            None => self.shown().map(|shown| shown.number).unwrap_or_default(),
        }
    }

    /// Why what stands in the field was not taken.
    pub fn problem(self) -> Option<String> {
        self.typed.get().and_then(|typed| typed.problem)
    }

    /// Takes what was typed, or says why not.
    pub fn take(self, text: String) {
        if text.trim().is_empty() && self.bench.value_now(self.place).is_err() {
            self.drop_text();
            return;
        }
        let system = self.bench.settings.with_untracked(|settings| settings.system);
        let read = read_quantity(&text, self.dimension, self.units(system).0).map_err(|why| why.to_string());
        let read = read.and_then(|value| {
            let checked = self.bench.build().with_untracked(|build| build.check(self.place, value));
            checked.map(|()| value).map_err(|why| words::refusal(why, self.spec, &clean(&text, REPEATED), system))
        });
        let problem = match read {
            Ok(value) => {
                self.bench.set(Gesture::Typing(self.place), self.place, value);
                None
            }
            Err(why) => {
                // What stays is what stood before the typing: never the beginning of a number that was refused.
                self.bench.call_off(Gesture::Typing(self.place));
                Some(format!("{why} {}", words::stays(untrack(|| self.shown()).as_ref())))
            }
        };
        let typed = Typed { text, stands: bits(self.bench.value_now(self.place)), problem };
        self.bench.typed.update(|all| _ = all.insert(self.place, typed));
    }

    /// The field is left, perhaps because it goes from the page with everything it reads: a bare number is shown as any other; text that says more, or was not taken, stays.
    pub fn leave(self) {
        self.bench.finish();
        let says_more =
            |typed: &Typed| typed.problem.is_some() || !typed.text.chars().all(|letter| matches!(letter, '0'..='9' | '.' | ','));
        if !self.typed.try_get_untracked().flatten().is_some_and(|typed| says_more(&typed)) {
            self.drop_text();
        }
    }

    /// Shows the value in force again.
    pub fn drop_text(self) {
        if self.bench.typed.with_untracked(|typed| typed.contains_key(&self.place)) {
            self.bench.typed.update(|typed| _ = typed.remove(&self.place));
        }
    }

    /// The next stop up or down, if there is one that may stand here.
    pub fn next(self, up: bool) -> Option<f64> {
        let stops = Stops::of(self.spec)?;
        let number = match self.value.get_untracked() {
            Ok(value) => self.unit.from_si(value),
            Err(_) => stops.at(stops.last() / 2),
        };
        let next = self.unit.to_si(stops.next(number, up)?);
        self.bench.build().with_untracked(|build| build.check(self.place, next).is_ok()).then_some(next)
    }

    /// Moves one stop.
    pub fn nudge(self, up: bool) {
        if let Some(next) = self.next(up) {
            self.bench.set(Gesture::Sliding(self.place), self.place, next);
        }
    }

    /// The value in force as a number of the spec's unit.
    pub fn number(self) -> Option<f64> {
        self.value.get().ok().map(|value| self.unit.from_si(value))
    }
}
