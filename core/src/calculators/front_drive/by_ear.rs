//! Tension by ear: what a plucked span should sound, and what the tone it does sound means.

use super::grip::{span_frequency, tension_for};
use super::{RIB_MASS, RIBS, SPAN, TENSION_NEEDED};
use crate::plan::{Line, Said};
use crate::quantity::unit::{HZ, KG_PER_M, MM, N, ONE};
use crate::quantity::{Force, Frequency, Length, LinearDensity, newtons};
use crate::report::{Report, Unknown};
use crate::spec::Source;

/// Tension of each rib, run in and new (common practice, no source).
pub const USUAL_TENSION: [Force; 2] = [newtons(100.0), newtons(140.0)];

static TENSION_LINE: Line = Line {
    equation: "F = z · m · ( 2 · L · f )²",
    terms: &[("z", ONE), ("m", KG_PER_M), ("L", MM), ("f", HZ)],
    unit: N,
    source: Source::Definition,
};
static RIB_LINE: Line = Line { equation: "F_rib = F / z", terms: &[("F", N), ("z", ONE)], unit: N, source: Source::Definition };

/// A span of belt that can be plucked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plucked {
    length: Length,
    rib_mass: LinearDensity,
    /// Dimensionless.
    ribs: f64,
    needed: Result<Force, Unknown>,
}

impl Plucked {
    /// The span from the pulley in this row to the next one.
    ///
    /// # Errors
    /// When its length or the belt is not known.
    pub fn of(report: &Report, row: usize) -> Result<Self, Unknown> {
        Ok(Self {
            length: report.cell(SPAN, row)?,
            rib_mass: report.of(RIB_MASS)?,
            ribs: report.of(RIBS)?.si(),
            needed: report.of(TENSION_NEEDED),
        })
    }

    /// The tones to tune between: run in and new, or what grip needs where that is more.
    #[must_use]
    pub fn wanted(&self) -> [Frequency; 2] {
        let least = self.needed.map_or(Force::ZERO, |needed| needed / self.ribs);
        USUAL_TENSION.map(|usual| span_frequency(usual.max(least), self.rib_mass, self.length))
    }

    /// The tone under which a pulley slips at the load it carries.
    ///
    /// # Errors
    /// When the tension needed is not known.
    pub fn least(&self) -> Result<Frequency, Unknown> {
        Ok(span_frequency(self.needed?, self.rib_mass * self.ribs, self.length))
    }

    /// Tension of each rib when it rings so, with the working.
    #[must_use]
    pub fn tension(&self, tone: Frequency) -> (Force, [Said; 2]) {
        let all = tension_for(tone, self.rib_mass * self.ribs, self.length);
        let each = all / self.ribs;
        let said = |line, numbers: &[f64], result: Force| Said { of: None, line, numbers: numbers.into(), result: result.si() };
        let numbers = [self.ribs, self.rib_mass.si(), self.length.si(), tone.si()];
        (each, [said(&TENSION_LINE, &numbers, all), said(&RIB_LINE, &[all.si(), self.ribs], each)])
    }
}
