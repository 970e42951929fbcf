//! How warm does something long and round get in still air?
//!
//! A wire or a bundle of them is a horizontal cylinder: free convection after Churchill & Chu (1975) and radiation,
//! q = π·D·(h_c·(θ_s − θ_a) + ε·σ·(θ_s⁴ − θ_a⁴)). Asked the short way (does it lose this much heat at this temperature?)
//! that is one evaluation; asked the long way (how warm is it?) Newton's method runs until a step is under a
//! thousandth of a kelvin.

use crate::data::conductors::{PER_KELVIN, REFERENCE};
use crate::data::film::Film;
use crate::quantity::{HeatPerLength, Length, Temperature, ThermalResistance};
use core::f64::consts::PI;

/// Share of a black body's radiation that insulation gives off (from memory, 0.9 for plastics of any colour).
const EMISSIVITY: f64 = 0.9;

/// Stefan–Boltzmann constant, W/(m²·K⁴) (CODATA 2018).
const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// A first guess of all heat carried off, W/(m²·K); only the number of Newton's steps hangs on it.
const GUESSED_TRANSFER: f64 = 20.0;

/// Newton's steps at most; a handful is usual, and hopeless heats stop here with a temperature far past any limit.
const STEPS: u32 = 24;

/// Step after which it is settled, in kelvin: what is left then is some hundredths of it.
const SETTLED: f64 = 1e-3;

/// A horizontal cylinder in still air at one atmosphere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cylinder {
    /// In metres, with its square root.
    diameter: f64,
    root: f64,
    /// In kelvin.
    air: f64,
}

/// What something that heats itself settles at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settled {
    /// Its surface.
    pub surface: Temperature,
    /// Its copper.
    pub copper: Temperature,
    /// Heat it makes and loses.
    pub heat: HeatPerLength,
}

impl Cylinder {
    /// Of this diameter, in air of this temperature.
    #[must_use]
    #[inline]
    pub fn new(diameter: Length, air: Temperature) -> Self {
        Self { diameter: diameter.si(), root: diameter.si().sqrt(), air: air.si() }
    }

    /// Another diameter in the same air.
    #[inline]
    pub(super) fn of(&self, diameter: Length) -> Self {
        Self { diameter: diameter.si(), root: diameter.si().sqrt(), air: self.air }
    }

    /// Heat lost at a surface temperature; nothing where the air is warmer.
    #[must_use]
    pub fn loss(&self, surface: Temperature) -> HeatPerLength {
        HeatPerLength::from_si(self.flow(surface.si()).0)
    }

    /// Heat lost, W/m, and its rise with each kelvin of surface temperature, W/(m·K), at a surface in kelvin. The rise
    /// leaves the film's own warming out: it conducts better and is driven less, which nearly cancels.
    #[inline]
    pub(super) fn flow(&self, surface: f64) -> (f64, f64) {
        let rise = (surface - self.air).max(0.0);
        let surface = self.air + rise;
        let film = Film::at(0.5 * (surface + self.air));
        let (transfer, exponent) = film.convection(self.diameter, self.root, rise);
        let radiant = EMISSIVITY * STEFAN_BOLTZMANN;
        let (hot, cold) = (surface * surface, self.air * self.air);
        let girth = PI * self.diameter;
        let heat = girth * (transfer + radiant * (hot + cold) * (surface + self.air)) * rise;
        (heat, girth * (transfer * (1.0 + exponent) + 4.0 * radiant * hot * surface))
    }

    /// Where it settles when its current makes `cold` heat in copper at 20 °C, which lies behind `inner` from the
    /// surface. None when the copper heats itself up faster than its heat gets to the surface.
    #[must_use]
    pub fn settle(&self, cold: HeatPerLength, inner: ThermalResistance) -> Option<Settled> {
        let (cold, inner) = (cold.si(), inner.si());
        let escaping = 1.0 - PER_KELVIN * cold * inner;
        // Also refuses what is not a number.
        if escaping.partial_cmp(&0.0) != Some(core::cmp::Ordering::Greater) {
            return None;
        }
        // Heat made, with the copper's temperature written as the surface's: q = q₂₀·(1 + α·(θ_s − 20)) / escaping.
        let made = |surface: f64| cold * (1.0 + PER_KELVIN * (surface - REFERENCE)) / escaping;
        let made_slope = PER_KELVIN * cold / escaping;
        let mut surface = self.air + made(self.air) / (PI * self.diameter * GUESSED_TRANSFER);
        for _ in 0..STEPS {
            let (lost, slope) = self.flow(surface);
            let net = slope - made_slope;
            // Where heat grows faster than loss Newton's step points the wrong way; radiation will win further up.
            let step = (made(surface) - lost) / if net > 0.25 * slope { net } else { slope };
            surface = (surface + step).max(self.air);
            if step.abs() < SETTLED {
                break;
            }
        }
        let heat = made(surface);
        let copper = Temperature::from_si(surface + heat * inner);
        Some(Settled { surface: Temperature::from_si(surface), copper, heat: HeatPerLength::from_si(heat) })
    }
}
