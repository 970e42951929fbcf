//! A second, slower heat balance of a round wire in air, written from the paper: what the core is held against.

#![expect(clippy::disallowed_methods, reason = "a second path shares no function with the first")]

use std::f64::consts::PI;

/// Air at one atmosphere from −40 to 250 °C: °C, conductivity, kinematic viscosity, thermal diffusivity. Computed with
/// CoolProp 8.0.
const AIR: [(f64, f64, f64, f64); 8] = [
    (-40.0, 0.021_224_874, 9.994_612e-6, 1.392_122e-5),
    (0.0, 0.024_360_475, 1.331_596e-5, 1.873_283e-5),
    (25.0, 0.026_246_931, 1.557_696e-5, 2.202_313e-5),
    (60.0, 0.028_804_069, 1.896_806e-5, 2.696_687e-5),
    (100.0, 0.031_619_890, 2.314_958e-5, 3.305_811e-5),
    (150.0, 0.035_000_700, 2.880_941e-5, 4.126_077e-5),
    (200.0, 0.038_248_617, 3.492_328e-5, 5.003_553e-5),
    (250.0, 0.041_382_465, 4.146_724e-5, 5.931_064e-5),
];

/// Nusselt number of a horizontal cylinder (Churchill & Chu 1975).
#[must_use]
pub fn nusselt(rayleigh: f64, prandtl: f64) -> f64 {
    let root = 0.60 + 0.387 * rayleigh.powf(1.0 / 6.0) / (1.0 + (0.559 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    root * root
}

/// Film coefficient, W/(m²·K): metres and °C.
#[must_use]
pub fn film_coefficient(diameter: f64, surface: f64, air: f64) -> f64 {
    let film = 0.5 * (surface + air);
    let at = AIR.iter().position(|row| row.0 >= film).expect("film inside the table").max(1);
    let ((t0, k0, v0, a0), (t1, k1, v1, a1)) = (AIR[at - 1], AIR[at]);
    let share = (film - t0) / (t1 - t0);
    let between = |low: f64, high: f64| low + (high - low) * share;
    let (k, viscosity, diffusivity) = (between(k0, k1), between(v0, v1), between(a0, a1));
    let rayleigh = 9.806_65 * (surface - air) * diameter.powi(3) / ((film + 273.15) * viscosity * diffusivity);
    nusselt(rayleigh, viscosity / diffusivity) * k / diameter
}

/// Heat lost to still air, emissivity 0.9, W/m: metres and °C.
#[must_use]
pub fn loss(diameter: f64, surface: f64, air: f64) -> f64 {
    let radiant = 0.9 * 5.670_374_419e-8 * ((surface + 273.15).powi(4) - (air + 273.15).powi(4));
    PI * diameter * (film_coefficient(diameter, surface, air) * (surface - air) + radiant)
}

/// Heat lost by a wire's copper at a temperature through insulation of this resistance, by halving.
#[must_use]
pub fn loss_of_copper(diameter: f64, insulation: f64, copper: f64, air: f64) -> f64 {
    if copper <= air {
        return 0.0;
    }
    let (mut low, mut high) = (air, copper);
    for _ in 0..60 {
        let surface = 0.5 * (low + high);
        if loss(diameter, surface, air) * insulation > copper - surface { high = surface } else { low = surface }
    }
    loss(diameter, low, air)
}

/// A wire in still air.
pub struct Wire {
    /// Metres.
    pub diameter: f64,
    /// K·m/W.
    pub insulation: f64,
    /// J/(m·K).
    pub capacity: f64,
    /// Ω/m at 20 °C.
    pub resistance: f64,
    /// °C.
    pub air: f64,
}

impl Wire {
    /// Temperature of its copper after a current: C·dθ/dt = I²·R(θ) − loss(θ) in small steps (Heun); ends at 400 °C.
    #[must_use]
    pub fn after(&self, current: f64, seconds: f64, start: f64) -> f64 {
        let slope = |copper: f64| {
            let made = current * current * self.resistance * (1.0 + 0.003_93 * (copper - 20.0));
            (made - loss_of_copper(self.diameter, self.insulation, copper.min(400.0), self.air)) / self.capacity
        };
        let mut copper = start;
        let steps = 2000;
        let step = seconds / f64::from(steps);
        for _ in 0..steps {
            let first = slope(copper);
            copper += 0.5 * step * (first + slope(copper + step * first));
            if copper > 400.0 {
                break;
            }
        }
        copper
    }
}
