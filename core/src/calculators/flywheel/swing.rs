//! How hard is it to spin, by letting it swing?
//!
//! Hung level on strings of length L that leave it at radius R, it twists back and forth in T: J = m·g·R²·T²/(4π²·L),
//! on three strings or on two. Hung by its bore of radius R over a knife edge it is a pendulum: J = m·R·(g·T²/4π² − R).
//! Small swings, under some 10°, light strings (from memory: any text on bifilar and trifilar suspension).
//!
//! Each reading's ± goes through the slope of the formula; the four are added as squares (JCGM 100, GUM).

use super::{
    INERTIA_FROM_SWING, LENGTH_DOUBT, MASS_DOUBT, RADIUS_DOUBT, STRING_LENGTH, SWING, SWING_DECIDES, SWING_DOUBT, SWING_DOUBT_SHARE,
    SWING_PERIOD, SWING_RADIUS, SWING_TIME, SWINGS, TIME_DOUBT, WEIGHED,
};
use crate::choices;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{KG, KG_M2, M, MM, ONE, PERCENT, S};
use crate::quantity::{Inertia, Length, Mass, Ratio, STANDARD_GRAVITY, Time, ratio};
use crate::report::Unknown;
use crate::spec::Source;
use core::f64::consts::PI;

choices! {
    /// How the wheel is hung.
    Hanging {
        ThreeStrings "three-strings" "level on three strings"
        TwoStrings "two-strings" "level on two strings"
        KnifeEdge "knife-edge" "by its bore over an edge"
    }
}

choices! {
    /// A reading of the swing test.
    Reading {
        Mass "mass" "the mass"
        Radius "radius" "the radius"
        Length "length" "the string length"
        Time "time" "the time"
    }
}

const TEXT: Source = Source::FromMemory("any text on bifilar and trifilar suspension");
static PERIOD: Line = Line { equation: "T = t / N", terms: &[("t", S), ("N", ONE)], unit: S, source: Source::Definition };
static ON_STRINGS: Line =
    Line {
        equation: "J = m · g · R² · T² / (4 · π² · L)", terms: &[("m", KG), ("R", MM), ("T", S), ("L", M)], unit: KG_M2, source: TEXT
    };
static ON_EDGE: Line = Line {
    equation: "J = m · R · (g · T² / (4 · π²) − R)",
    terms: &[("m", KG), ("R", MM), ("T", S)],
    unit: KG_M2,
    source: Source::FromMemory("any text on the physical pendulum"),
};
static DOUBT: Line = Line {
    equation: "u = √(u_m² + u_R² + u_L² + u_t²)",
    terms: &[("u_m", KG_M2), ("u_R", KG_M2), ("u_L", KG_M2), ("u_t", KG_M2)],
    unit: KG_M2,
    source: Source::Standard("JCGM 100:2008, 5.1.2"),
};
static SHARE: Line = Line { equation: "u / J", terms: &[("u", KG_M2), ("J", KG_M2)], unit: PERCENT, source: Source::Definition };

/// A swing that was timed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// How it hung.
    pub hanging: Hanging,
    /// Mass of what swings.
    pub mass: Mass,
    /// From its axis to each string, or to the edge it hangs by.
    pub radius: Length,
    /// Length of each string; of no matter over an edge.
    pub length: Length,
    /// Time of one swing, there and back.
    pub period: Time,
}

/// What each reading's ± makes of the inertia, and all together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubt {
    /// From mass, radius, length and time, in that order.
    pub parts: [Inertia; 4],
    /// Root of the sum of their squares.
    pub whole: Inertia,
}

impl Doubt {
    /// The reading with the largest part.
    #[must_use]
    pub fn decides(&self) -> Reading {
        const ORDER: [Reading; 4] = [Reading::Mass, Reading::Radius, Reading::Length, Reading::Time];
        let mut worst = 3;
        for at in 0..3 {
            if self.parts[at] > self.parts[worst] {
                worst = at;
            }
        }
        ORDER[worst]
    }
}

impl Swing {
    /// Moment of inertia about the wheel's axis.
    ///
    /// # Errors
    /// When no wheel hung on that edge could swing so fast.
    pub fn inertia(&self) -> Result<Inertia, Unknown> {
        let (mass, radius) = (self.mass.si(), self.radius.si());
        // A string pendulum of this period would be so long.
        let pendulum = STANDARD_GRAVITY * self.period.si() * self.period.si() / (4.0 * PI * PI);
        let inertia = match self.hanging {
            Hanging::ThreeStrings | Hanging::TwoStrings => mass * radius * radius * pendulum / self.length.si(),
            Hanging::KnifeEdge => mass * radius * (pendulum - radius),
        };
        if inertia > 0.0 {
            Ok(Inertia::from_si(inertia))
        } else {
            Err(Unknown::NoSolution("A wheel that hangs on this radius cannot swing so fast: check time, count and radius."))
        }
    }

    /// The ± of the inertia from the ± of mass, radius, length and period.
    ///
    /// # Errors
    /// As [`Swing::inertia`].
    pub fn doubt(&self, mass: Mass, radius: Length, length: Length, period: Time) -> Result<Doubt, Unknown> {
        let inertia = self.inertia()?.si();
        let pendulum = STANDARD_GRAVITY * self.period.si() * self.period.si() / (4.0 * PI * PI);
        let (m, r) = (self.mass.si(), self.radius.si());
        let [by_radius, by_length, by_period] = match self.hanging {
            Hanging::ThreeStrings | Hanging::TwoStrings => {
                [2.0 * inertia / r, inertia / self.length.si(), 2.0 * inertia / self.period.si()]
            }
            Hanging::KnifeEdge => [m * (pendulum - 2.0 * r), 0.0, 2.0 * m * r * pendulum / self.period.si()],
        };
        let parts = [inertia / m * mass.si(), by_radius * radius.si(), by_length * length.si(), by_period * period.si()];
        let whole = parts.iter().map(|part| part * part).sum::<f64>().sqrt();
        Ok(Doubt { parts: parts.map(|part| Inertia::from_si(part.abs())), whole: Inertia::from_si(whole) })
    }
}

fn period(case: &mut Case<'_>) -> Result<Time, Unknown> {
    Ok(case.of(SWING_TIME)? / case.of(SWINGS)?.si())
}

fn swing(case: &mut Case<'_>) -> Result<Swing, Unknown> {
    let hanging = case.of(SWING)?;
    // No string, no length to ask for.
    let length = if hanging == Hanging::KnifeEdge { Length::ZERO } else { case.of(STRING_LENGTH)? };
    Ok(Swing { hanging, mass: case.of(WEIGHED)?, radius: case.of(SWING_RADIUS)?, length, period: period(case)? })
}

fn doubt(case: &mut Case<'_>) -> Result<Doubt, Unknown> {
    let swing = swing(case)?;
    let length = if swing.hanging == Hanging::KnifeEdge { Length::ZERO } else { case.of(LENGTH_DOUBT)? };
    let of_period = case.of(TIME_DOUBT)? / case.of(SWINGS)?.si();
    swing.doubt(case.of(MASS_DOUBT)?, case.of(RADIUS_DOUBT)?, length, of_period)
}

pub(super) const SWING_TEST: Step = Step {
    name: "swing test",
    reads: &[
        SWING.id,
        WEIGHED.id,
        SWING_RADIUS.id,
        STRING_LENGTH.id,
        SWING_TIME.id,
        SWINGS.id,
        MASS_DOUBT.id,
        RADIUS_DOUBT.id,
        LENGTH_DOUBT.id,
        TIME_DOUBT.id,
    ],
    writes: &[SWING_PERIOD.id, INERTIA_FROM_SWING.id, SWING_DOUBT.id, SWING_DOUBT_SHARE.id, SWING_DECIDES.id],
    run: |case| {
        case.answer(SWING_PERIOD, |case| {
            let (time, count) = (case.of(SWING_TIME)?, case.of(SWINGS)?);
            let period = period(case)?;
            Ok(case.say(&PERIOD, &[time.si(), count.si()], period))
        });
        case.answer(INERTIA_FROM_SWING, |case| {
            let it = swing(case)?;
            let inertia = it.inertia()?;
            let numbers = [it.mass.si(), it.radius.si(), it.period.si(), it.length.si()];
            Ok(match it.hanging {
                Hanging::KnifeEdge => case.say(&ON_EDGE, &numbers[..3], inertia),
                Hanging::ThreeStrings | Hanging::TwoStrings => case.say(&ON_STRINGS, &numbers, inertia),
            })
        });
        let doubt = doubt(case);
        case.answer(SWING_DOUBT, |case| {
            let doubt = doubt?;
            Ok(case.say(&DOUBT, &doubt.parts.map(Inertia::si), doubt.whole))
        });
        case.answer(SWING_DOUBT_SHARE, |case| {
            let (doubt, inertia) = (doubt?.whole, swing(case)?.inertia()?);
            let share: Ratio = ratio(doubt / inertia);
            Ok(case.say(&SHARE, &[doubt.si(), inertia.si()], share))
        });
        case.answer(SWING_DECIDES, |_| Ok(doubt?.decides()));
    },
};
