//! What does each answer about the pedal ask for?
//!
//! The linkage is worked out in one go, with a one in place of each part nobody gave. An answer stands where everything it
//! uses was given; else it says what it lacks.

use super::cover::{Age, given_loads};
use super::{
    BEARING_GAP, BULK_MODULUS, CONCENTRIC_AREA, COVER_FIGURES, CoverFigures, FORK_EFFICIENCY, FORK_RATIO, FREE_PLAY, HOSE_GROWTH,
    HOSE_LENGTH, MASTER_BORE, PEDAL_EFFICIENCY, PEDAL_RATIO, PEDAL_SPRING_AT_REST, PEDAL_SPRING_AT_STOP, PEDAL_TRAVEL, PORT_CLOSING,
    RELEASE_BY, ReleaseBy, SEAL_EFFICIENCY, SEAL_STICK, SLAVE_BORE, SLAVE_SPRING, TRAPPED,
};
use crate::plan::Case;
use crate::quantity::{Area, Ratio, circle};
use crate::report::Unknown;

/// What each answer asks for. With everything given there is nothing to ask.
#[derive(Clone, Copy)]
pub(super) struct Asks {
    pub(super) linkage: bool,
    /// Plate new, and worn.
    pub(super) covers: [Result<(), Unknown>; 2],
}

impl Asks {
    /// What the line's pressure hangs on besides the load.
    pub(super) fn pressure(self, case: &mut Case<'_>) -> Result<(), Unknown> {
        if self.linkage {
            return Ok(());
        }
        slave(case)?;
        if case.of(RELEASE_BY)? == ReleaseBy::Fork {
            case.of(FORK_RATIO)?;
            case.of(FORK_EFFICIENCY)?;
        }
        case.of(SLAVE_SPRING)?;
        case.of(SEAL_EFFICIENCY)?;
        case.of(SEAL_STICK).map(|_| ())
    }

    /// What pushes the bearing, and how much of the fluid hose and pressure take in.
    pub(super) fn volume(self, case: &mut Case<'_>) -> Result<(), Unknown> {
        if self.linkage {
            return Ok(());
        }
        self.pressure(case)?;
        case.of(MASTER_BORE)?;
        case.of(PEDAL_RATIO)?;
        case.of(BEARING_GAP)?;
        case.of(HOSE_LENGTH)?;
        case.of(HOSE_GROWTH)?;
        case.of(TRAPPED)?;
        case.of(BULK_MODULUS).map(|_| ())
    }

    /// Where the pad stands.
    pub(super) fn path(self, case: &mut Case<'_>) -> Result<(), Unknown> {
        if self.linkage {
            return Ok(());
        }
        self.volume(case)?;
        case.of(FREE_PLAY)?;
        case.of(PORT_CLOSING).map(|_| ())
    }

    /// What the foot feels besides the load. Springs that push alike everywhere do not ask where the pad stands.
    pub(super) fn foot(self, case: &mut Case<'_>) -> Result<(), Unknown> {
        if self.linkage {
            return Ok(());
        }
        self.pressure(case)?;
        case.of(MASTER_BORE)?;
        case.of(PEDAL_RATIO)?;
        case.of(PEDAL_EFFICIENCY)?;
        if springs_differ(case)? {
            self.path(case)?;
            case.of(PEDAL_TRAVEL)?;
        }
        Ok(())
    }

    /// The whole of the load over the travel.
    pub(super) fn cover(self, age: Age) -> Result<(), Unknown> {
        self.covers[age as usize]
    }

    /// A load on the bearing: of a maker's figures, that one alone.
    pub(super) fn load(self, case: &mut Case<'_>, age: Age, load: Load) -> Result<(), Unknown> {
        let Err(why) = self.cover(age) else { return Ok(()) };
        match (case.of(COVER_FIGURES)?, load) {
            (CoverFigures::Spring, _) => Err(why),
            (CoverFigures::Measured, Load::Peak) => given_loads(case, age).0.map(|_| ()),
            (CoverFigures::Measured, Load::Hold) => given_loads(case, age).1.map(|_| ()),
        }
    }

    /// What the foot feels at that load.
    pub(super) fn force(self, case: &mut Case<'_>, age: Age, load: Load) -> Result<(), Unknown> {
        self.foot(case)?;
        self.load(case, age, load)?;
        match self.cover(age) {
            Err(why) if springs_differ(case)? => Err(why),
            _ => Ok(()),
        }
    }
}

fn springs_differ(case: &mut Case<'_>) -> Result<bool, Unknown> {
    Ok(case.of(PEDAL_SPRING_AT_REST)? != case.of(PEDAL_SPRING_AT_STOP)?)
}

/// A load of the two that a cover's maker gives.
#[derive(Clone, Copy)]
pub(super) enum Load {
    Peak,
    Hold,
}

/// Area of the piston at the clutch.
pub(super) fn slave(case: &mut Case<'_>) -> Result<Area, Unknown> {
    match case.of(RELEASE_BY)? {
        ReleaseBy::Fork => case.of(SLAVE_BORE).map(circle),
        ReleaseBy::Concentric => case.of(CONCENTRIC_AREA),
    }
}

/// Slave travel for each of the bearing's.
pub(super) fn fork_ratio(case: &mut Case<'_>) -> Result<f64, Unknown> {
    match case.of(RELEASE_BY)? {
        ReleaseBy::Fork => case.of(FORK_RATIO).map(Ratio::si),
        ReleaseBy::Concentric => Ok(1.0),
    }
}
