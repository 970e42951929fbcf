//! Which shim does a concentric slave need?
//!
//! Its bearing must have room to be pushed back as the plate wears, and stroke left to free the clutch:
//! gap = D − H − S − shim; gap ≥ w·λ + reserve; gap + travel ≤ stroke. Common practice, no source.

use super::{
    BEARING_AT_STOP, BELL_DEPTH, COLLAPSED_LENGTH, FINGER_HEIGHT, FINGER_SHIFT, RELEASE_BY, ReleaseBy, SHIM, SHIM_FIT, SHIM_GAP,
    SHIM_LEFT_WHEN_WORN, SHIM_RESERVE, SHIM_STROKE_LEFT, SHIM_THICKEST, SHIM_THINNEST, SLAVE_STROKE, ShimFit,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::Length;
use crate::quantity::unit::MM;
use crate::report::Unknown;
use crate::spec::Source;

static GAP: Line =
    Line {
        equation: "g = D − H − S − t", terms: &[("D", MM), ("H", MM), ("S", MM), ("t", MM)], unit: MM, source: Source::CommonPractice
    };
static LEFT_WHEN_WORN: Line = Line { equation: "r = g − y", terms: &[("g", MM), ("y", MM)], unit: MM, source: Source::CommonPractice };
static STROKE_LEFT: Line =
    Line { equation: "l = s − g − x", terms: &[("s", MM), ("g", MM), ("x", MM)], unit: MM, source: Source::CommonPractice };
static THICKEST: Line = Line {
    equation: "t = D − H − S − y − r",
    terms: &[("D", MM), ("H", MM), ("S", MM), ("y", MM), ("r", MM)],
    unit: MM,
    source: Source::CommonPractice,
};
static THINNEST: Line = Line {
    equation: "t = max(0, D − H − S + x − s)",
    terms: &[("D", MM), ("H", MM), ("S", MM), ("x", MM), ("s", MM)],
    unit: MM,
    source: Source::CommonPractice,
};

/// What is measured with the gearbox off, and what the slave can do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// D, from the bell housing's face to the face the slave is bolted to.
    pub bell_depth: Length,
    /// H, from the engine's face to the finger tips, plate new and cover bolted up.
    pub finger_height: Length,
    /// S, the slave pushed right back, from its seat to the bearing's face.
    pub collapsed: Length,
    /// How far the slave can come out.
    pub stroke: Length,
}

impl Room {
    /// How far the slave stands out at rest with a new plate.
    #[must_use]
    pub fn gap(&self, shim: Length) -> Length {
        self.bell_depth - self.finger_height - self.collapsed - shim
    }

    /// Room the slave is pushed back by when the plate is worn out, less what the fingers need: negative is too little.
    #[must_use]
    pub fn left_when_worn(&self, shim: Length, finger_shift: Length) -> Length {
        self.gap(shim) - finger_shift
    }

    /// Stroke left with the clutch freed: negative is too little.
    #[must_use]
    pub fn stroke_left(&self, shim: Length, travel: Length) -> Length {
        self.stroke - self.gap(shim) - travel
    }

    /// With a thinner shim than this the slave runs out of stroke on `travel`.
    #[must_use]
    pub fn thinnest(&self, travel: Length) -> Length {
        (self.gap(Length::ZERO) + travel - self.stroke).max(Length::ZERO)
    }

    /// With a thicker shim than this less than `reserve` is left behind a worn plate; negative: no shim is thin enough.
    #[must_use]
    pub fn thickest(&self, finger_shift: Length, reserve: Length) -> Length {
        self.gap(Length::ZERO) - finger_shift - reserve
    }
}

pub(super) const SHIM_STEP: Step = Step {
    name: "shim of a concentric slave",
    reads: &[
        RELEASE_BY.id,
        BELL_DEPTH.id,
        FINGER_HEIGHT.id,
        COLLAPSED_LENGTH.id,
        SLAVE_STROKE.id,
        SHIM.id,
        SHIM_RESERVE.id,
        FINGER_SHIFT.id,
        BEARING_AT_STOP.id,
    ],
    writes: &[SHIM_FIT.id, SHIM_GAP.id, SHIM_LEFT_WHEN_WORN.id, SHIM_STROKE_LEFT.id, SHIM_THINNEST.id, SHIM_THICKEST.id],
    run: |case| {
        case.answer(SHIM_FIT, |case| {
            if case.of(RELEASE_BY)? == ReleaseBy::Fork {
                return Ok(ShimFit::NotNeeded);
            }
            let room = with_stroke(case)?;
            let (shim, reserve, shift, travel) =
                (case.of(SHIM)?, case.of(SHIM_RESERVE)?, case.of(FINGER_SHIFT)?, case.of(BEARING_AT_STOP)?);
            Ok(if room.left_when_worn(shim, shift) < reserve {
                ShimFit::Bottoms
            } else if room.stroke_left(shim, travel) < Length::ZERO {
                ShimFit::RunsOut
            } else {
                ShimFit::Fits
            })
        });
        case.answer(SHIM_GAP, |case| {
            let room = room(case)?;
            said_gap(case, room)
        });
        case.answer(SHIM_LEFT_WHEN_WORN, |case| {
            let room = room(case)?;
            let (gap, shim, shift) = (said_gap(case, room)?, case.of(SHIM)?, case.of(FINGER_SHIFT)?);
            Ok(case.say(&LEFT_WHEN_WORN, &[gap.si(), shift.si()], room.left_when_worn(shim, shift)))
        });
        case.answer(SHIM_STROKE_LEFT, |case| {
            let room = with_stroke(case)?;
            let (gap, shim, travel) = (said_gap(case, room)?, case.of(SHIM)?, case.of(BEARING_AT_STOP)?);
            Ok(case.say(&STROKE_LEFT, &[room.stroke.si(), gap.si(), travel.si()], room.stroke_left(shim, travel)))
        });
        case.answer(SHIM_THINNEST, |case| {
            let room = with_stroke(case)?;
            let travel = case.of(BEARING_AT_STOP)?;
            let numbers = [room.bell_depth, room.finger_height, room.collapsed, travel, room.stroke].map(Length::si);
            Ok(case.say(&THINNEST, &numbers, room.thinnest(travel)))
        });
        case.answer(SHIM_THICKEST, |case| {
            let room = room(case)?;
            let (shift, reserve) = (case.of(FINGER_SHIFT)?, case.of(SHIM_RESERVE)?);
            let numbers = [room.bell_depth, room.finger_height, room.collapsed, shift, reserve].map(Length::si);
            Ok(case.say(&THICKEST, &numbers, room.thickest(shift, reserve)))
        });
    },
};

// Without the stroke, which only some answers need.
fn room(case: &mut Case<'_>) -> Result<Room, Unknown> {
    if case.of(RELEASE_BY)? == ReleaseBy::Fork {
        return Err(Unknown::NotHere("Only a concentric slave takes a shim."));
    }
    Ok(Room {
        bell_depth: case.of(BELL_DEPTH)?,
        finger_height: case.of(FINGER_HEIGHT)?,
        collapsed: case.of(COLLAPSED_LENGTH)?,
        stroke: Length::ZERO,
    })
}

fn with_stroke(case: &mut Case<'_>) -> Result<Room, Unknown> {
    let room = room(case)?;
    Ok(Room { stroke: case.of(SLAVE_STROKE)?, ..room })
}

fn said_gap(case: &mut Case<'_>, room: Room) -> Result<Length, Unknown> {
    let shim = case.of(SHIM)?;
    let numbers = [room.bell_depth, room.finger_height, room.collapsed, shim].map(Length::si);
    Ok(case.say(&GAP, &numbers, room.gap(shim)))
}
