//! How thick is a branch of the loom, and how warm are the wires in it?
//!
//! All wires of a branch heat one surface (the bundle's), Σ I²·R = heat lost there; then each wire is warmer than the
//! surface by the heat of its neighbours, spread evenly over the section, Q/(4·π·k), and by its own from the middle,
//! q·ln(D/d)/(2·π·k), and by its own through its insulation. A bundle of one wire is that wire in free air.

use super::heat::Cylinder;
use crate::data::conductors::{Conductor, PER_KELVIN, REFERENCE};
use crate::quantity::{HeatPerLength, Length, Temperature, ThermalConductivity, ThermalResistance};
use core::f64::consts::PI;

/// Smallest circle around n equal ones, over the diameter of one, for n = 0, 1, 2 …: closed forms, proved or best known
/// (Graham, Pirl, Fodor; from memory).
const TIGHTEST: [f64; 11] =
    [0.0, 1.0, 2.0, 2.154_700_538, 2.414_213_562, 2.701_301_617, 3.0, 3.0, 3.304_764_871, 3.613_125_930, 3.813_025_631];

/// A real loom against √n: wires cross and lie loosely (common practice, no source).
const LOOSE: f64 = 1.2;

/// Wires laid together.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Packing {
    /// How many.
    pub wires: u32,
    /// Sum of the squares of their diameters, m².
    squares: f64,
    largest: f64,
    second: f64,
}

impl Packing {
    /// No wires.
    pub const NONE: Self = Self { wires: 0, squares: 0.0, largest: 0.0, second: 0.0 };

    /// Lays `count` wires of this diameter to the others.
    #[inline]
    pub fn add(&mut self, diameter: Length, count: u32) {
        let diameter = diameter.si();
        self.wires += count;
        self.squares += f64::from(count) * diameter * diameter;
        for _ in 0..count.min(2) {
            self.second = self.second.max(diameter.min(self.largest));
            self.largest = self.largest.max(diameter);
        }
    }

    /// Diameter of the bundle: 1.2·√(Σd²), not less than n equal wires of the same section need, nor than the two largest
    /// side by side; two wires are just that.
    #[must_use]
    #[inline]
    pub fn diameter(&self) -> Length {
        let tightest = TIGHTEST.get(self.wires as usize).copied().unwrap_or(0.0);
        if self.wires == 2 {
            return Length::from_si(self.largest + self.second);
        }
        let number = f64::from(self.wires);
        let over_mean = if self.wires > 1 { tightest.max(LOOSE * number.sqrt()) } else { tightest };
        let mean = (self.squares / number.max(1.0)).sqrt();
        Length::from_si((over_mean * mean).max(self.largest + self.second))
    }
}

/// A branch that has settled: what its wires need to know of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bundle {
    /// Its wires.
    pub packing: Packing,
    /// Its diameter.
    pub diameter: Length,
    /// Its surface.
    pub surface: Temperature,
    /// All heat it makes.
    pub heat: HeatPerLength,
    pub(super) cylinder: Cylinder,
    /// Heat its currents would make at 20 °C, W/m.
    cold: f64,
    /// 1/(2·π·k), K·m/W.
    spread: f64,
    log_diameter: f64,
}

/// One wire's way out: what it stands in, warmed by its neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Way {
    pub(super) cylinder: Cylinder,
    /// Heat of the neighbours, W/m.
    pub(super) others: f64,
    /// What the neighbours lift the middle over the surface, K.
    pub(super) lift: f64,
    /// From this wire's copper to the bundle's surface, K·m/W.
    pub(super) inner: f64,
    /// The bundle's surface as it is, K.
    pub(super) surface: f64,
}

impl Bundle {
    /// Settles wires whose currents make `cold` heat in copper at 20 °C. `lone` is the insulation of the wire where there
    /// is only one. None when it never settles.
    #[must_use]
    pub fn settle(
        packing: Packing,
        cold: HeatPerLength,
        lone: ThermalResistance,
        air: Temperature,
        conductivity: ThermalConductivity,
    ) -> Option<Self> {
        let diameter = packing.diameter();
        let spread = 1.0 / (2.0 * PI * conductivity.si());
        let cylinder = Cylinder::new(diameter, air);
        let inner = if packing.wires > 1 { ThermalResistance::from_si(0.5 * spread) } else { lone };
        let settled = cylinder.settle(cold, inner)?;
        Some(Self {
            packing,
            diameter,
            surface: settled.surface,
            heat: settled.heat,
            cylinder,
            cold: cold.si(),
            spread,
            log_diameter: libm::log(diameter.si()),
        })
    }

    /// The way out of a wire of this bundle: `own` is the heat its current makes at 20 °C, W/m, counted in the bundle as
    /// `counted`.
    #[inline]
    pub(super) fn way(&self, wire: &Conductor, counted: f64) -> Way {
        let surface = self.surface.si();
        if self.packing.wires <= 1 {
            // Another size may be tried in its place.
            let cylinder = self.cylinder.of(wire.outside);
            return Way { cylinder, others: 0.0, lift: 0.0, inner: wire.insulation, surface };
        }
        let share = if self.cold > 0.0 { (1.0 - counted / self.cold).max(0.0) } else { 0.0 };
        let others = self.heat.si() * share;
        let inner = self.spread * (self.log_diameter - wire.log_outside).max(0.0) + wire.insulation;
        Way { cylinder: self.cylinder, others, lift: 0.5 * self.spread * others, inner, surface }
    }

    /// Temperature of a wire of this bundle whose current makes this heat at 20 °C. None when it never settles.
    #[must_use]
    pub fn wire(&self, wire: &Conductor, cold: HeatPerLength) -> Option<Temperature> {
        self.way(wire, cold.si()).copper(cold.si()).map(Temperature::from_si)
    }
}

impl Way {
    /// Of a wire alone in still air; its surface is not known yet and stands at the air's temperature.
    #[inline]
    pub(super) fn alone(wire: &Conductor, air: Temperature) -> Self {
        Self { cylinder: Cylinder::new(wire.outside, air), others: 0.0, lift: 0.0, inner: wire.insulation, surface: air.si() }
    }

    /// Temperature of the copper in kelvin when its current makes `cold` heat at 20 °C, W/m.
    #[inline]
    pub(super) fn copper(&self, cold: f64) -> Option<f64> {
        let base = self.surface + self.lift;
        let escaping = 1.0 - PER_KELVIN * cold * self.inner;
        (escaping > 0.0).then(|| base + cold * (1.0 + PER_KELVIN * (base - REFERENCE)) / escaping * self.inner)
    }
}
