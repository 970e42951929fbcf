//! The water pump: what it moves at any speed, and the speed at which it begins to cavitate.
//!
//! A pump boils its inlet when the head above the vapour pressure, NPSH available, falls to what it requires. Required
//! head and every loss go as n² like the flow's square, so the onset has a closed form:
//! n = n_ref·√(A₀/(NPSHr + Σh_loss)), A₀ = (p − p_v)/ρg + z. Standard hydraulics, e.g. Munson, Young and Okiishi,
//! Fundamentals of Fluid Mechanics, 12.4.2; that required head goes as n² is an approximation (exponent 1.3 to 2 in
//! practice, from memory).

use crate::choices;
use crate::data::coolant;
use crate::quantity::{
    Density, Flow, Length, Power, Pressure, Ratio, RotationalSpeed, STANDARD_GRAVITY, SpecificHeat, Temperature, TemperatureRise, Volume,
    kelvin_rise, metres,
};

/// Flow at another speed: Q ∝ n.
#[must_use]
pub fn flow_at(speed: RotationalSpeed, rated: RotationalSpeed, flow: Flow) -> Flow {
    flow * (speed / rated)
}

/// Head at another speed: H ∝ n². Losses and required suction head scale alike.
#[must_use]
pub fn head_at(speed: RotationalSpeed, rated: RotationalSpeed, head: Length) -> Length {
    let ratio = speed / rated;
    head * (ratio * ratio)
}

/// Shaft power at another speed: P ∝ n³.
#[must_use]
pub fn power_at(speed: RotationalSpeed, rated: RotationalSpeed, power: Power) -> Power {
    let ratio = speed / rated;
    power * (ratio * ratio * ratio)
}

/// Height of liquid that presses this hard: p/(ρ·g).
#[must_use]
pub fn head(pressure: Pressure, density: Density) -> Length {
    metres(pressure.si() / (density.si() * STANDARD_GRAVITY))
}

/// Net positive suction head available: (p − p_v)/(ρg) + z − h_loss, p absolute on a surface z above the inlet.
#[must_use]
pub fn npsh_available(surface: Pressure, vapour: Pressure, density: Density, height: Length, loss: Length) -> Length {
    head(surface - vapour, density) + height - loss
}

choices! {
    /// Where the pressure cap sits: it holds the pressure there, and what flows between it and the pump costs some.
    #[derive(Default)]
    CapPlace {
        /// On a header tank.
        #[default]
        PumpInlet "pump-inlet" "on a tank teed to the pump's inlet"
        /// The radiator lies between it and the pump.
        HotTank "hot-tank" "on the radiator's hot tank"
    }
}

/// What the pump and its pipes need, at one rated speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suction {
    /// Pump speed the rest is given at.
    pub rated: RotationalSpeed,
    /// NPSH the pump requires there.
    pub required: Length,
    /// Loss of the suction pipe there.
    pub pipe_loss: Pressure,
    /// Loss of the radiator there; counted when the cap is on the hot tank.
    pub radiator_loss: Pressure,
    /// Where the cap sits.
    pub cap: CapPlace,
}

impl Suction {
    /// Head lost between cap and pump at rated speed, in this liquid.
    #[must_use]
    pub fn losses(&self, density: Density) -> Length {
        let radiator = match self.cap {
            CapPlace::PumpInlet => Pressure::ZERO,
            CapPlace::HotTank => self.radiator_loss,
        };
        head(self.pipe_loss + radiator, density)
    }

    /// Required head and losses together, at rated speed, in this liquid.
    #[must_use]
    pub fn demand(&self, density: Density) -> Length {
        self.required + self.losses(density)
    }

    /// Pump speed at which cavitation begins, where `standing` is the head over vapour with nothing flowing (A₀).
    ///
    /// Zero when the coolant boils as it stands. `None` when nothing is demanded, so that no speed would do it.
    #[must_use]
    pub fn onset(&self, standing: Length, density: Density) -> Option<RotationalSpeed> {
        let demand = self.demand(density);
        (demand > Length::ZERO).then(|| self.rated * (standing / demand).max(0.0).sqrt())
    }
}

/// The coolant and the space above it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct System {
    /// Air pressure.
    pub air: Pressure,
    /// What the cap holds over the air's pressure.
    pub cap: Pressure,
    /// Coolant in the system when filled.
    pub coolant: Volume,
    /// Air left above it when filled.
    pub gas: Volume,
    /// The coolant when filled.
    pub filled: Warmth,
    /// Height of the coolant's surface above the pump inlet.
    pub height: Length,
}

/// Coolant at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warmth {
    /// Its temperature.
    pub temperature: Temperature,
    /// Its density.
    pub density: Density,
    /// Its vapour pressure.
    pub vapour: Pressure,
}

impl Warmth {
    /// Coolant with this share of glycol by volume. `None` where its properties are not known.
    #[must_use]
    pub fn of(glycol: Ratio, temperature: Temperature) -> Option<Self> {
        let (density, vapour) = (coolant::density(glycol, temperature)?, coolant::vapour_pressure(glycol, temperature)?);
        Some(Self { temperature, density, vapour })
    }
}

impl System {
    /// How much the coolant has grown when it has warmed.
    #[must_use]
    pub fn growth(&self, warm: Warmth) -> Volume {
        self.coolant * (self.filled.density / warm.density - 1.0)
    }

    /// Absolute pressure over the coolant when it has warmed, at most what the cap holds.
    ///
    /// The shut-in air: p₀·V/(V − ΔV)·T/T₀, ΔV the coolant's expansion. The coolant's own vapour is left out, as the
    /// space may be cooler than the coolant, and hoses that give; the first makes it safe, the second hopeful.
    #[must_use]
    pub fn pressure(&self, warm: Warmth) -> Pressure {
        let ceiling = self.air + self.cap;
        shut_in(self.air, self.gas, self.growth(warm), self.filled.temperature, warm.temperature).min(ceiling)
    }

    /// Head over vapour at the pump inlet with nothing flowing, the space at `pressure`: A₀ of the onset.
    #[must_use]
    pub fn standing_head(&self, pressure: Pressure, warm: Warmth) -> Length {
        npsh_available(pressure, warm.vapour, warm.density, self.height, Length::ZERO)
    }
}

/// Pressure of air shut in while the liquid below grows: p₀·V/(V − ΔV)·T/T₀. Endless once the space is full.
#[must_use]
pub fn shut_in(filled: Pressure, space: Volume, growth: Volume, filled_at: Temperature, temperature: Temperature) -> Pressure {
    let (left, warmer) = (space - growth, temperature.in_kelvin() / filled_at.in_kelvin());
    if left > Volume::ZERO {
        filled * (space / left) * warmer
    } else if growth <= Volume::ZERO {
        // No air at all, and nothing yet that presses.
        filled * warmer
    } else {
        Pressure::from_si(f64::INFINITY)
    }
}

/// How much warmer the coolant leaves the engine than it came: ΔT = Q/(ρ·c·V̇).
#[must_use]
pub fn coolant_rise(heat: Power, flow: Flow, density: Density, specific_heat: SpecificHeat) -> TemperatureRise {
    kelvin_rise(heat.si() / (density.si() * specific_heat.si() * flow.si()))
}
