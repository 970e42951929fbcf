//! Will the alternator excite through its lamp, and does the engine stop at key-off?
//!
//! Key on, the lamp feeds the alternator: I = U/R_l. Key off with the engine turning, the alternator feeds back through the
//! lamp into whatever hangs on the switched feed: I = U/(R_l + R_coil), which may hold a relay closed. A diode stops that.

use super::choices::Diode;
use super::{BACK_FEED, DIODE, EXCITATION, LAMP_RESISTANCE, RELAY_COIL, REST_VOLTAGE};
use crate::calculators::car::SYSTEM_VOLTAGE;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{A, OHM, V};
use crate::quantity::{Current, Resistance, Voltage};
use crate::spec::Source;

static EXCITING: Line = Line { equation: "I = U / R_l", terms: &[("U", V), ("R_l", OHM)], unit: A, source: Source::Definition };
static FEEDING_BACK: Line = Line {
    equation: "I = U / (R_l + U_0 / I_c)",
    terms: &[("U", V), ("R_l", OHM), ("U_0", V), ("I_c", A)],
    unit: A,
    source: Source::Definition,
};

/// What comes back through a lamp into a relay's coil, known by what it draws at the battery's rest voltage.
#[must_use]
pub fn back_feed(charging: Voltage, lamp: Resistance, rest: Voltage, coil: Current) -> Current {
    charging / (lamp + rest / coil)
}

pub(super) const LAMP: Step = Step {
    name: "charge lamp",
    reads: &[LAMP_RESISTANCE.id, REST_VOLTAGE.id, SYSTEM_VOLTAGE.id, RELAY_COIL.id, DIODE.id],
    writes: &[EXCITATION.id, BACK_FEED.id],
    run: run_lamp,
};

fn run_lamp(case: &mut Case<'_>) {
    case.answer(EXCITATION, |case| {
        let (rest, lamp) = (case.of(REST_VOLTAGE)?, case.of(LAMP_RESISTANCE)?);
        Ok(case.say(&EXCITING, &[rest.si(), lamp.si()], rest / lamp))
    });
    case.answer(BACK_FEED, |case| {
        if case.of(DIODE)? == Diode::Fitted {
            return Ok(Current::ZERO);
        }
        let (charging, lamp) = (case.of(SYSTEM_VOLTAGE)?, case.of(LAMP_RESISTANCE)?);
        let (rest, coil) = (case.of(REST_VOLTAGE)?, case.of(RELAY_COIL)?);
        let numbers = [charging.si(), lamp.si(), rest.si(), coil.si()];
        Ok(case.say(&FEEDING_BACK, &numbers, back_feed(charging, lamp, rest, coil)))
    });
}
