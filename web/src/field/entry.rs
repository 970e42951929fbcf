//! What a number field holds: the value in force, or text of its reader's own while that says more.

use super::slider::fraction;
use crate::bench::{Bench, Typed, bits, spec_of};
use crate::history::Gesture;
use crate::language;
use crate::signal::{Memo, memo};
use crate::stops::Stops;
use crate::words;
use leptos::prelude::*;
use trialfit_core::entry::{clean, read_quantity};
use trialfit_core::quantity::unit::AWG;
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

    /// The unit bare numbers are read in.
    pub fn unit(self, system: System) -> &'static Unit {
        if system.shows_gauges(self.unit) { AWG } else { system.unit(self.dimension, self.unit) }
    }

    /// That, then the others it may be shown in.
    pub fn units(self, system: System) -> Vec<&'static Unit> {
        let mut units = vec![self.unit(system)];
        if let Some(sort) = self.unit.sort {
            for unit in (0..sort.ways().len()).map(|way| self.unit(system.with(sort, way))) {
                if !units.contains(&unit) {
                    units.push(unit);
                }
            }
        }
        units
    }

    /// The stops of its slider in the units shown.
    pub fn stops(self) -> Option<Stops> {
        Stops::of(self.spec, self.bench.system())
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
            None => self.shown().map(|shown| language::number(&self.written(shown)).into_owned()).unwrap_or_default(),
        }
    }

    /// What stands after the field: its unit, or the gauge that may be taken for an area that brings its own.
    pub fn after(self) -> &'static str {
        let unit = self.unit(self.bench.system());
        match self.shown() {
            Some(shown) if unit.is_gauge() => shown.unit.trim_start_matches(self.unit.symbol).trim_start(),
            _ => unit.symbol,
        }
    }

    /// Whether what stands in the field brings a unit of its own.
    pub fn brings_unit(self) -> bool {
        self.typed.get().is_some_and(|typed| typed.text.contains(|letter: char| letter.is_alphabetic() || "\"″\'′°%".contains(letter)))
    }

    /// What the field does not say already: what is in force where another unit was typed, the trade's fraction.
    pub fn beside(self) -> Option<Shown> {
        let text = self.text().replace(' ', "");
        let unsaid = |it: &Shown| text != it.number && text != format!("{}{}", it.number, it.unit);
        let other = if self.brings_unit() && self.problem().is_none() { self.shown() } else { None };
        [other, fraction(self)].into_iter().flatten().find(unsaid)
    }

    /// As it reads back: an area that is no gauge among gauges brings its unit.
    fn written(self, shown: Shown) -> String {
        if self.unit(self.bench.system()).is_gauge() && shown.unit != AWG.symbol {
            format!("{} {}", shown.number, self.unit.symbol)
        } else {
            shown.number
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
        let system = untrack(|| self.bench.system());
        let read = read_quantity(&text, self.dimension, self.unit(system)).map_err(|why| why.to_string());
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
        let stops = self.stops()?;
        let value = self.value.get_untracked().unwrap_or_else(|_| stops.at(stops.last() / 2));
        let next = stops.next(value, up)?;
        self.bench.build().with_untracked(|build| build.check(self.place, next).is_ok()).then_some(next)
    }

    /// Moves one stop.
    pub fn nudge(self, up: bool) {
        if let Some(next) = self.next(up) {
            self.bench.set(Gesture::Sliding(self.place), self.place, next);
        }
    }
}
