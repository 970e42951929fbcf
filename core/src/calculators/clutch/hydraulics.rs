//! How heavy is the pedal, how far does it go, and where does its travel get lost?
//!
//! One closed column of fluid between two pistons, standing still at each point of a slow push (Pascal's law), with
//! losses that always work against the foot:
//!
//! - slave: p = (L/(k·η_fork) + F_spring)/(A_s·η_seals) + p_stick for the bearing load L and fork ratio k;
//! - volume: A_m·(x_pedal/R − x_port) = A_s·x_slave + C·p, where C is the hose's growth and the fluid's give;
//! - pedal: F = p·A_m/(R·η_pedal) + F_pedal-spring.
//!
//! The seals' loss of both cylinders is counted at the slave, so that line pressure errs high. Rigid pipe does not grow.
//! The load curve is straight between points, so all of this is too, and every answer below is exact.
//!
//! A very soft line can let the bearing jump forward once the load starts to fall: the pedal then stands still while
//! the hose gives back its fluid. Going down, the pedal's travel therefore belongs to the *highest* volume met so far.

use super::load_curve::{LoadCurve, Point};
use super::{Refusal, is_not_negative, is_positive};
use crate::quantity::{Area, Force, Length, Pressure, Ratio, Volume, VolumePerLength, megapascals};

/// Pressure at which a hose's growth is stated: FMVSS 106, S5.3.2, 6.9 MPa (from memory).
pub const HOSE_TEST_PRESSURE: Pressure = megapascals(6.9);

/// Diameter of the plain piston with this area.
#[must_use]
pub fn equivalent_bore(area: Area) -> Length {
    Length::from_si((area.si() * 4.0 / core::f64::consts::PI).sqrt())
}

/// Slave area against master area: how much the fluid multiplies force and divides travel.
#[must_use]
pub fn hydraulic_ratio(master: Area, slave: Area) -> Ratio {
    Ratio::from_si(slave / master)
}

/// By how much fluid of this bulk modulus shrinks under pressure.
#[must_use]
pub fn fluid_give(trapped: Volume, pressure: Pressure, bulk_modulus: Pressure) -> Volume {
    trapped * (pressure / bulk_modulus)
}

/// By how much a hose swells under pressure, given its growth per length at [`HOSE_TEST_PRESSURE`].
#[must_use]
pub fn hose_growth(length: Length, growth: VolumePerLength, pressure: Pressure) -> Volume {
    growth * length * (pressure / HOSE_TEST_PRESSURE)
}

/// Everything between the foot and the release bearing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parts {
    /// Pad travel against master piston travel (a number).
    pub pedal_ratio: f64,
    /// Travel of the pad from rest to its stop.
    pub pedal_travel: Length,
    /// Travel of the pad before the push rod meets the piston.
    pub free_play: Length,
    /// Travel of the master piston before its port is shut.
    pub port_closing: Length,
    /// Of the master cylinder.
    pub master: Area,
    /// Of the slave cylinder, or of a concentric slave's ring.
    pub slave: Area,
    /// Slave travel against bearing travel (a number): 1 for a concentric slave.
    pub fork_ratio: f64,
    /// Air between bearing and fingers at rest; none with a bearing in constant contact.
    pub bearing_gap: Length,
    /// Of the flexible hose.
    pub hose_length: Length,
    /// Of that hose at [`HOSE_TEST_PRESSURE`].
    pub hose_growth: VolumePerLength,
    /// Fluid shut in between the pistons.
    pub trapped: Volume,
    /// Of the fluid; trapped air lowers it badly.
    pub bulk_modulus: Pressure,
    /// Share of the force that gets past the pedal's pivots (a number).
    pub pedal_efficiency: f64,
    /// Share that gets past both cylinders' seals (a number).
    pub seal_efficiency: f64,
    /// Share that gets past the fork's pivot (a number): 1 for a concentric slave.
    pub fork_efficiency: f64,
    /// Pressure it takes to move the seals at all.
    pub seal_stick: Pressure,
    /// Push of the pedal's springs against the foot at rest, at the pad.
    pub pedal_spring_at_rest: Force,
    /// The same at the stop; negative where an over-centre spring helps.
    pub pedal_spring_at_stop: Force,
    /// Pull of a return spring on the slave, along its whole travel.
    pub slave_spring: Force,
}

/// Where the pedal stands and what it asks for with the bearing in one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    /// Of the bearing from first touch; negative while it still crosses its gap.
    pub bearing: Length,
    /// Of the fingers on the bearing.
    pub load: Force,
    /// Of the pad from rest.
    pub pedal: Length,
    /// At the pad, pushing slowly down.
    pub force: Force,
    /// In the line.
    pub pressure: Pressure,
}

/// Parts that can work together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct System {
    pub(super) parts: Parts,
    // Volume per pressure, m³/Pa.
    pub(super) hose: f64,
    pub(super) fluid: f64,
    // Newtons at the pad per pascal, metres at the pad per cubic metre.
    force_per_pressure: f64,
    pub(super) travel_per_volume: f64,
}

impl System {
    /// # Errors
    /// When a part has no size, an efficiency is not a share, or a size is absurd.
    pub fn new(parts: Parts) -> Result<Self, Refusal> {
        let Parts { pedal_ratio, fork_ratio, master, slave, bulk_modulus, .. } = parts;
        if ![pedal_ratio, fork_ratio, master.si(), slave.si(), bulk_modulus.si()].into_iter().all(is_positive) {
            return Err("The pedal, the fork, both pistons and the fluid's stiffness must be larger than nothing.");
        }
        let shares = [parts.pedal_efficiency, parts.seal_efficiency, parts.fork_efficiency];
        if !shares.into_iter().all(|share| is_positive(share) && share <= 1.0) {
            return Err("An efficiency lies above zero and is at most one.");
        }
        let amounts = [
            parts.pedal_travel.si(),
            parts.free_play.si(),
            parts.port_closing.si(),
            parts.bearing_gap.si(),
            parts.hose_length.si(),
            parts.hose_growth.si(),
            parts.trapped.si(),
            parts.seal_stick.si(),
            parts.slave_spring.si(),
        ];
        if !amounts.into_iter().all(is_not_negative) {
            return Err("Travels, lengths and volumes cannot be less than nothing.");
        }
        let springs = [parts.pedal_spring_at_rest, parts.pedal_spring_at_stop];
        if !springs.into_iter().all(|spring| is_not_negative(spring.si().abs())) {
            return Err("A spring's force must be a number.");
        }
        let pascal = Pressure::from_si(1.0);
        let hose = hose_growth(parts.hose_length, parts.hose_growth, pascal).si();
        let fluid = fluid_give(parts.trapped, pascal, bulk_modulus).si();
        Ok(Self {
            parts,
            hose,
            fluid,
            force_per_pressure: master.si() / (pedal_ratio * parts.pedal_efficiency),
            travel_per_volume: pedal_ratio / master.si(),
        })
    }

    /// The parts it is made of.
    #[must_use]
    pub fn parts(&self) -> &Parts {
        &self.parts
    }

    /// With other pistons.
    ///
    /// # Errors
    /// As [`System::new`].
    pub fn with_pistons(&self, master: Area, slave: Area) -> Result<Self, Refusal> {
        Self::new(Parts { master, slave, ..self.parts })
    }

    /// With the bearing at this travel under this load, the pedal still going down.
    #[must_use]
    pub fn state(&self, bearing: Length, load: Force) -> State {
        let pressure = self.pressure(load);
        let volume = self.slave_volume(bearing) + self.given(pressure).si();
        let pedal = self.pedal_for(volume);
        State { bearing, load, pedal, force: self.force(pressure, pedal), pressure }
    }

    /// Where the bearing is with the pad this far down, pushing. Zero until it moves.
    #[must_use]
    pub fn bearing_at(&self, curve: &LoadCurve, pedal: Length) -> Length {
        let parts = &self.parts;
        let pushed = ((pedal - parts.free_play) / parts.pedal_ratio - parts.port_closing).max(Length::ZERO);
        let volume = (parts.master * pushed).si();
        let mut before = (-parts.bearing_gap, self.volume(-parts.bearing_gap, Force::ZERO));
        if volume <= before.1 {
            return Length::ZERO;
        }
        for Point { travel, load } in [Point::START].iter().chain(curve.points()).copied() {
            let here = (travel, self.volume(travel, load));
            if here.1 >= volume {
                // The first point at or past this volume, so the line up to it rises through it.
                let share = if here.1 > before.1 { (volume - before.1) / (here.1 - before.1) } else { 1.0 };
                return (before.0 + (here.0 - before.0) * share).max(Length::ZERO);
            }
            before = here;
        }
        let beyond = (volume - before.1) / (parts.slave.si() * parts.fork_ratio);
        (before.0 + Length::from_si(beyond)).max(Length::ZERO)
    }

    // Before the port is shut: only the pedal's springs push back.
    pub(super) fn idle(&self, pedal: Length) -> State {
        let (bearing, force) = (-self.parts.bearing_gap, self.pedal_spring(pedal));
        State { bearing, load: Force::ZERO, pedal, force, pressure: Pressure::ZERO }
    }

    pub(super) fn pressure(&self, load: Force) -> Pressure {
        let parts = &self.parts;
        let force = load / (parts.fork_ratio * parts.fork_efficiency) + parts.slave_spring;
        force / (parts.slave * parts.seal_efficiency) + parts.seal_stick
    }

    pub(super) fn force(&self, pressure: Pressure, pedal: Length) -> Force {
        Force::from_si(pressure.si() * self.force_per_pressure) + self.pedal_spring(pedal)
    }

    /// Push of the pedal's springs against the foot, at the pad; past the stop, as at the stop.
    #[must_use]
    pub fn pedal_spring(&self, pedal: Length) -> Force {
        let parts = &self.parts;
        let share = if parts.pedal_travel > Length::ZERO { (pedal / parts.pedal_travel).min(1.0) } else { 0.0 };
        parts.pedal_spring_at_rest + (parts.pedal_spring_at_stop - parts.pedal_spring_at_rest) * share
    }

    pub(super) fn slave_volume(&self, bearing: Length) -> f64 {
        (self.parts.slave * (bearing + self.parts.bearing_gap)).si() * self.parts.fork_ratio
    }

    /// What hose and fluid take in at this pressure.
    #[must_use]
    pub fn given(&self, pressure: Pressure) -> Volume {
        Volume::from_si((self.hose + self.fluid) * pressure.si())
    }

    pub(super) fn volume(&self, bearing: Length, load: Force) -> f64 {
        self.slave_volume(bearing) + self.given(self.pressure(load)).si()
    }

    // Pad travel at which the master has pushed this much out.
    pub(super) fn pedal_for(&self, volume: f64) -> Length {
        let parts = &self.parts;
        parts.free_play + parts.port_closing * parts.pedal_ratio + Length::from_si(volume * self.travel_per_volume)
    }
}
