//! How much voltage does a circuit lose?
//!
//! ΔU = I·(R_wire + ΣR_contact + R_path) + fuse + relay, the wire out and back at its working temperature.

use super::choices::{Return, Switching};
use super::sizing::fuse_of;
use super::{
    ALLOWED, BODY_PATH, CIRCUITS, CONTACT_RESISTANCE, CONTACTS, COPPER_LENGTH, ENGINE_PATH, FUSE, FUSE_DROP, INSULATION, LASTING, LENGTH,
    NEAR_DROP, OTHER_DROP, OTHER_RESISTANCE, PEAK, PROTECTION, RELAY_DROP, RETURN, RETURN_LENGTH, SWITCHING,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{A, M, MILLIOHM, ONE, V};
use crate::quantity::{Current, Length, Resistance, ResistancePerLength, Voltage};
use crate::spec::Source;

static OTHERS: Line = Line {
    equation: "R_o = n · R_c + R_p",
    terms: &[("n", ONE), ("R_c", MILLIOHM), ("R_p", MILLIOHM)],
    unit: MILLIOHM,
    source: Source::CommonPractice,
};
static OTHER_LOSS: Line = Line {
    equation: "U_o = I · R_o + U_f · I / I_n + U_r",
    terms: &[("I", A), ("R_o", MILLIOHM), ("U_f", V), ("I_n", A), ("U_r", V)],
    unit: V,
    source: Source::CommonPractice,
};
static WIRE_LENGTH: Line = Line { equation: "l = l_1 + l_2", terms: &[("l_1", M), ("l_2", M)], unit: M, source: Source::Definition };
static FOUR_FIFTHS: Line = Line { equation: "U_b = 0.8 · U", terms: &[("U", V)], unit: V, source: Source::CommonPractice };

/// Share of what it may lose under which a circuit is not only just within (common practice, no source).
pub(super) const BETTER_SHARE: f64 = 0.8;

/// Voltage lost in a wire of this resistance per length (hot) and in everything else of the loop.
#[must_use]
pub fn loop_drop(current: Current, wire: ResistancePerLength, length: Length, others: Resistance, fixed: Voltage) -> Voltage {
    current * (wire * length + others) + fixed
}

/// What a fuse loses at a current: in proportion to what it loses at its rating.
#[must_use]
pub fn fuse_drop(at_rating: Voltage, current: Current, rating: Current) -> Voltage {
    at_rating * (current / rating)
}

/// What flows when the far end of a loop is shorted.
#[must_use]
pub fn fault_current(voltage: Voltage, source: Resistance, wire: ResistancePerLength, length: Length, others: Resistance) -> Current {
    voltage / (source + wire * length + others)
}

pub(super) const OTHER_LOSSES: Step = Step {
    name: "what each circuit loses outside its wire",
    reads: &[
        PEAK.id,
        FUSE.id,
        PROTECTION.id,
        LENGTH.id,
        RETURN.id,
        RETURN_LENGTH.id,
        INSULATION.id,
        ALLOWED.id,
        SWITCHING.id,
        CONTACTS.id,
        CONTACT_RESISTANCE.id,
        FUSE_DROP.id,
        RELAY_DROP.id,
        BODY_PATH.id,
        ENGINE_PATH.id,
    ],
    writes: &[OTHER_RESISTANCE.id, OTHER_DROP.id, COPPER_LENGTH.id, NEAR_DROP.id, LASTING.id],
    run: run_other_losses,
};

fn run_other_losses(case: &mut Case<'_>) {
    let (contact, body, engine) = (case.of(CONTACT_RESISTANCE), case.of(BODY_PATH), case.of(ENGINE_PATH));
    let (at_rating, contact_of_relay) = (case.of(FUSE_DROP), case.of(RELAY_DROP));
    for row in 0..case.rows(CIRCUITS) {
        let back = case.cell(RETURN, row);
        let path = back.and_then(|back| match back {
            Return::Body => body,
            Return::Engine => engine,
            Return::OwnWire | Return::LowSide | Return::NotCounted => Ok(Resistance::ZERO),
        });
        let count = case.cell(CONTACTS, row);
        let others = path.and_then(|path| Ok(contact? * count?.si() + path));
        case.answer_row(OTHER_RESISTANCE, row, |case| Ok(case.say(&OTHERS, &[count?.si(), contact?.si(), path?.si()], others?)));
        case.answer_row(OTHER_DROP, row, |case| {
            let (peak, others) = (case.cell(PEAK, row)?, others?);
            // Without a fuse: nothing lost in one of any rating.
            let (in_fuse, rating) = match fuse_of(case, row)? {
                Some(fuse) => (at_rating?, fuse.rating),
                None => (Voltage::ZERO, crate::quantity::amperes(1.0)),
            };
            let in_relay = match case.cell(SWITCHING, row)? {
                Switching::Relay if peak > Current::ZERO => contact_of_relay?,
                Switching::Relay | Switching::Direct => Voltage::ZERO,
            };
            let numbers = [peak.si(), others.si(), in_fuse.si(), rating.si(), in_relay.si()];
            Ok(case.say(&OTHER_LOSS, &numbers, peak * others + fuse_drop(in_fuse, peak, rating) + in_relay))
        });
        case.answer_row(COPPER_LENGTH, row, |case| {
            let out = case.cell(LENGTH, row)?;
            let back = if back? == Return::NotCounted { Length::ZERO } else { case.cell(RETURN_LENGTH, row)? };
            Ok(case.say(&WIRE_LENGTH, &[out.si(), back.si()], out + back))
        });
        case.answer_row(NEAR_DROP, row, |case| {
            let allowed = case.cell(ALLOWED, row)?;
            Ok(case.say(&FOUR_FIFTHS, &[allowed.si()], allowed * BETTER_SHARE))
        });
        case.answer_row(LASTING, row, |case| Ok(case.cell(INSULATION, row)?.stands().lasting));
    }
}
