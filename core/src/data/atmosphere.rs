//! Air pressure by height, ISO 2533:1975 (the constants from memory).

use crate::quantity::{Density, Length, Pressure, Temperature, kilograms_per_cubic_metre, metres, pascals};

/// Specific gas constant of dry air, J/(kg·K).
const GAS: f64 = 287.052_87;
/// Pressure of the standard atmosphere at sea level.
pub const SEA_LEVEL: Pressure = pascals(101_325.0);
/// Lowest height above sea level this holds for.
pub const LOWEST: Length = metres(-500.0);
/// Greatest height above sea level this holds for.
pub const HIGHEST: Length = metres(5000.0);

/// Air pressure at this height above the sea. `None` outside −500 to 5000 m.
///
/// p = p₀·(1 − β·H/T₀)^(g/(β·R)), H = r·h/(r + h): the standard's lowest layer. Weather moves it by ±3 %.
#[must_use]
pub fn pressure(altitude: Length) -> Option<Pressure> {
    /// Nominal radius of the earth, m; temperature at sea level, K; its fall, K/m.
    const RADIUS: f64 = 6_356_766.0;
    const WARMTH: f64 = 288.15;
    const LAPSE: f64 = 0.0065;
    if !(LOWEST..=HIGHEST).contains(&altitude) {
        return None;
    }
    let height = altitude.in_metres();
    let geopotential = RADIUS * height / (RADIUS + height);
    let exponent = crate::quantity::STANDARD_GRAVITY / (LAPSE * GAS);
    Some(SEA_LEVEL * libm::pow(1.0 - LAPSE * geopotential / WARMTH, exponent))
}

/// Density of dry air at this height and temperature, ρ = p/(R·T). `None` outside −500 to 5000 m.
///
/// Damp air is lighter, by 1 % on a sultry day.
#[must_use]
pub fn density(altitude: Length, temperature: Temperature) -> Option<Density> {
    Some(kilograms_per_cubic_metre(pressure(altitude)?.in_pascals() / (GAS * temperature.in_kelvin())))
}
