//! How far does the engine move on its mounts?
//!
//! Springs in parallel: sag and bounce are load over stiffness at each end, roll is torque over 2·k·a² (small angles). Two
//! engine mounts stand to either side; the gearbox mount sits on the middle line and does not resist rolling.

use super::MountMetal;
use crate::quantity::{Angle, Force, Length, Mass, STANDARD_GRAVITY, Stiffness, TemperatureRise, Torque};

/// The mounts under engine and gearbox.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mounts {
    /// Of each of the two at the engine.
    pub engine: Stiffness,
    /// Of these from the middle line.
    pub half_spacing: Length,
    /// Of the one at the gearbox.
    pub gearbox: Stiffness,
    /// Of this behind the others.
    pub gearbox_at: Length,
}

/// How far the engine goes down at its mounts and at the gearbox's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sink {
    /// At the engine's mounts.
    pub engine: Length,
    /// At the gearbox's.
    pub gearbox: Length,
}

impl Mounts {
    /// Under a weight whose centre lies `centre` behind the engine mounts: each end carries by the lever.
    #[must_use]
    pub fn sink(&self, weight: Force, centre: Length) -> Sink {
        let behind = centre / self.gearbox_at;
        Sink { engine: weight * (1.0 - behind) / (self.engine * 2.0), gearbox: weight * behind / self.gearbox }
    }

    /// Under a torque about the crank's axis.
    #[must_use]
    pub fn roll(&self, torque: Torque) -> Angle {
        roll(torque, self.engine, self.half_spacing)
    }
}

/// Under a torque about the crank's axis, on two mounts of this stiffness, so far from the middle line.
#[must_use]
pub fn roll(torque: Torque, mount: Stiffness, half_spacing: Length) -> Angle {
    let stiffness = mount.si() * 2.0 * half_spacing.si() * half_spacing.si();
    Angle::from_si(torque.si() / stiffness)
}

/// Weight of a mass under `gravities` (a number) times standard gravity.
#[must_use]
pub fn weight(mass: Mass, gravities: f64) -> Force {
    Force::from_si(mass.si() * STANDARD_GRAVITY * gravities)
}

/// Torque on the gearbox's output that the driven tyres can take: μ·N·r / i_f. `share` of the car's weight stands on them;
/// friction, share and final drive are numbers.
#[must_use]
pub fn grip_torque(car: Mass, share: f64, friction: f64, radius: Length, final_drive: f64) -> Torque {
    weight(car, share) * radius * (friction / final_drive)
}

impl MountMetal {
    /// Growth of each length for each kelvin: 23.1·10⁻⁶ aluminium, 12·10⁻⁶ iron and steel (handbooks, from memory).
    #[must_use]
    pub const fn expansion(self) -> f64 {
        match self {
            Self::Aluminium => 23.1e-6,
            Self::Iron => 12e-6,
        }
    }

    /// By how much a length grows.
    #[must_use]
    pub fn growth(self, length: Length, warmer: TemperatureRise) -> Length {
        length * (self.expansion() * warmer.si())
    }
}
