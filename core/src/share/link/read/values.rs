//! Values and tolerances of a link's cells.

use super::{QUOTED, Reader};
use crate::build::{Origin, Refusal};
use crate::entry::{EntryError, clean, read_quantity};
use crate::quantity::{Dimension, Unit};
use crate::share::LinkProblem;
use crate::share::problem::Stands;
use crate::show;
use crate::spec::{Choice, Kind, Place, Role};
use crate::tolerance::{Shape, Tolerance};

impl Reader {
    /// A cell, given by a part or else in its own right.
    pub(super) fn cell(&mut self, key: &str, value: &str, part: Option<u16>) {
        let layout = self.link.build.layout();
        let Some(place) = layout.place_by_key(key) else { return self.unknown_key(key) };
        let spec = layout.spec(place.id);
        if spec.role != Role::Input {
            return self.problems.add(LinkProblem::NotAnInput { key: clean(key, QUOTED), label: spec.label });
        }
        if layout.find(place).is_none() {
            return self.problems.add(LinkProblem::NoSuchRow { key: clean(key, QUOTED) });
        }
        if self.is_held() && part.is_none() && !matches!(spec.kind, Kind::Text(_)) {
            // What cannot be read is as usual, as the message says; and what stands there goes with its parts' values.
            self.as_usual(place);
        }
        match (spec.kind, value) {
            (Kind::Text(most), _) if part.is_none() => {
                let words = self.words(key, value, most);
                if self.link.build.set_text(place, &words).is_err() {
                    self.problems.add(LinkProblem::Words { key: clean(key, QUOTED) });
                }
            }
            (_, "gone") if part.is_none() => self.link.build.forget(place),
            (_, "follow") if self.is_held() => {}
            (_, "follow") if part.is_none() => self.as_usual(place),
            (Kind::Choice(choices), _) => self.choice(place, part, key, value, choices),
            (Kind::Text(_), _) => self.problems.add(LinkProblem::Item { item: clean(key, QUOTED) }),
            (Kind::Quantity { dimension, unit }, _) => self.quantity(place, part, key, value, (dimension, unit)),
        }
    }

    /// The input whose tolerance an item gives: one that holds a quantity, in a row that is there.
    pub(super) fn toleranced(&mut self, stem: &str, key: &str) -> Option<(Place, &'static Dimension, &'static Unit)> {
        let layout = self.link.build.layout();
        let Some(place) = layout.place_by_key(stem) else {
            self.unknown_key(stem);
            return None;
        };
        let spec = layout.spec(place.id);
        let problem = match spec.kind {
            _ if spec.role != Role::Input => LinkProblem::NotAnInput { key: clean(key, QUOTED), label: spec.label },
            Kind::Quantity { dimension, unit } if layout.find(place).is_some() => {
                let (dimension, unit) = dimension.difference(unit);
                return Some((place, dimension, unit));
            }
            Kind::Quantity { .. } => LinkProblem::NoSuchRow { key: clean(key, QUOTED) },
            _ => LinkProblem::Item { item: clean(key, QUOTED) },
        };
        self.problems.add(problem);
        None
    }

    pub(super) fn half_width(&mut self, stem: &str, key: &str, value: &str) {
        let Some((place, dimension, unit)) = self.toleranced(stem, key) else { return };
        let label = self.link.build.layout().spec(place.id).label;
        let key = clean(key, QUOTED);
        if self.is_held() {
            // What cannot be read is as usual, as the message says.
            _ = self.link.build.set_half_width(place, None);
        }
        match read_quantity(value, dimension, unit) {
            _ if value == "follow" => _ = self.link.build.set_half_width(place, None),
            Err(why) => self.problems.add(LinkProblem::NotAQuantity { key, label, stands: Stands::Usual, why }),
            Ok(si) => {
                if let Err(Refusal::OutOfRange(ends)) = self.link.build.set_half_width(place, Some(si)) {
                    self.problems.add(out_of_range(key, label, Stands::Usual, si, unit, ends));
                }
            }
        }
    }

    pub(super) fn shape(&mut self, stem: &str, key: &str, value: &str) {
        let Some((place, ..)) = self.toleranced(stem, key) else { return };
        if self.is_held() || value == "follow" {
            _ = self.link.build.set_shape(place, None);
        }
        let shape = match value {
            "follow" => return,
            "uniform" => Some(Shape::Uniform),
            "triangular" => Some(Shape::Triangular),
            "normal" => Some(Tolerance::NONE.shape),
            _ => value.strip_prefix("normal-").and_then(|sigmas| sigmas.parse().ok()).map(|sigmas| Shape::Normal { sigmas }),
        };
        if shape.is_none_or(|shape| self.link.build.set_shape(place, Some(shape)).is_err()) {
            self.problems.add(LinkProblem::NoSuchChoice {
                key: clean(key, QUOTED),
                label: self.link.build.layout().spec(place.id).label,
                stands: Stands::Usual,
                value: clean(value, QUOTED),
                choices: "normal-2, normal-3, uniform, triangular".into(),
            });
        }
    }

    /// What stands at a place whose value cannot be taken.
    fn stands(&self, place: Place) -> Stands {
        if self.link.build.origin(place) == Origin::Missing { Stands::Nothing } else { Stands::Usual }
    }

    pub(super) fn quantity(&mut self, place: Place, part: Option<u16>, key: &str, value: &str, of: (&'static Dimension, &'static Unit)) {
        let (dimension, unit) = of;
        let label = self.link.build.layout().spec(place.id).label;
        let (key, stands) = (clean(key, QUOTED), self.stands(place));
        match read_quantity(value, dimension, unit) {
            Err(why) => self.problems.add(LinkProblem::NotAQuantity { key, label, stands, why }),
            Ok(si) => match self.give(place, si, part) {
                Err(Refusal::OutOfRange(ends)) => self.problems.add(out_of_range(key, label, stands, si, unit, ends)),
                Err(Refusal::NotWhole) => self.problems.add(not_whole(key, label, stands, si, unit)),
                _ => {}
            },
        }
    }

    pub(super) fn choice(&mut self, place: Place, part: Option<u16>, key: &str, value: &str, choices: &'static [Choice]) {
        let chosen = choices.iter().position(|choice| choice.key == value);
        if chosen.is_none_or(|ordinal| self.give(place, ordinal as f64, part).is_err()) {
            self.problems.add(LinkProblem::NoSuchChoice {
                key: clean(key, QUOTED),
                label: self.link.build.layout().spec(place.id).label,
                stands: self.stands(place),
                value: clean(value, QUOTED),
                choices: choices.iter().map(|choice| choice.key).collect::<Vec<_>>().join(", "),
            });
        }
    }
}

pub(super) fn not_whole(key: String, label: &'static str, stands: Stands, si: f64, unit: &'static Unit) -> LinkProblem {
    LinkProblem::NotAQuantity { key, label, stands, why: EntryError::NotWhole { text: show::input(si, unit).to_string() } }
}

pub(super) fn out_of_range(
    key: String,
    label: &'static str,
    stands: Stands,
    si: f64,
    unit: &'static Unit,
    [lowest, highest]: [f64; 2],
) -> LinkProblem {
    let shown = |si| show::input(si, unit).to_string();
    let end = |number: f64| shown(unit.to_si(number));
    LinkProblem::OutOfRange { key, label, stands, value: shown(si), lowest: end(lowest), highest: end(highest) }
}
