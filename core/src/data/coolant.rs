//! Water with ethylene glycol, by the share of volume that went into the mix at 20 °C.
//!
//! Corrosion inhibitors are left out; ready-made coolants are up to 1 % denser (ASHRAE's table for inhibited glycol).

use super::water;
use crate::quantity::{Density, Pressure, Ratio, SpecificHeat, Temperature, celsius, ratio};

/// Most glycol these properties hold for, by volume.
pub const MOST_GLYCOL: Ratio = ratio(0.6);
/// Highest temperature density and specific heat hold for.
pub const HOTTEST: Temperature = celsius(130.0);

/// Density of water and of glycol at 20 °C, kg/m³; molar masses, g/mol. From memory.
const WATER_20: f64 = 998.2;
const GLYCOL_20: f64 = 1113.0;
const WATER_MOLAR: f64 = 18.015;
const GLYCOL_MOLAR: f64 = 62.068;

/// Tables reach over mass shares 0, 0.1 … 0.6 (rows) and 0, 20 … 100 °C (columns), each a multiple of pure water's
/// value: made with CoolProp 8.0.0, `INCOMP::MEG`, whose fit is Melinder's (IIR 2010).
type Table = [[f64; 6]; 7];
const RELATIVE_DENSITY: Table = [
    [1.0, 1.0, 1.0, 1.0, 1.0, 1.0],
    [1.01436, 1.01326, 1.01264, 1.01237, 1.01233, 1.01241],
    [1.02982, 1.02683, 1.02480, 1.02353, 1.02284, 1.02254],
    [1.04574, 1.04080, 1.03730, 1.03498, 1.03365, 1.03308],
    [1.06116, 1.05466, 1.04995, 1.04683, 1.04511, 1.04461],
    [1.07541, 1.06776, 1.06214, 1.05841, 1.05644, 1.05616],
    [1.08865, 1.08000, 1.07342, 1.06886, 1.06632, 1.06587],
];
const RELATIVE_SPECIFIC_HEAT: Table = [
    [1.0, 1.0, 1.0, 1.0, 1.0, 1.0],
    [0.95887, 0.96648, 0.97209, 0.97604, 0.97872, 0.98054],
    [0.91695, 0.93073, 0.94119, 0.94885, 0.95433, 0.95830],
    [0.86880, 0.88822, 0.90352, 0.91524, 0.92405, 0.93068],
    [0.81563, 0.84063, 0.86103, 0.87723, 0.88977, 0.89930],
    [0.76069, 0.79119, 0.81674, 0.83742, 0.85349, 0.86535],
    [0.70466, 0.74005, 0.77008, 0.79435, 0.81268, 0.82506],
];

fn holds(glycol: Ratio) -> bool {
    (Ratio::ZERO..=MOST_GLYCOL).contains(&glycol)
}

/// Share of the mass that is glycol, where `glycol` is its share of the volume. `None` outside 0 to 0.6.
///
/// By the densities of the two at 20 °C, volumes added as if nothing shrank on mixing.
#[must_use]
pub fn mass_share(glycol: Ratio) -> Option<Ratio> {
    holds(glycol).then(|| {
        let share = glycol.in_ratio();
        let (heavy, light) = (share * GLYCOL_20, (1.0 - share) * WATER_20);
        ratio(heavy / (heavy + light))
    })
}

/// Share of the molecules that are water. `None` outside 0 to 0.6 glycol by volume.
#[must_use]
pub fn water_mole_share(glycol: Ratio) -> Option<Ratio> {
    let mass = mass_share(glycol)?.in_ratio();
    let (water, glycol) = ((1.0 - mass) / WATER_MOLAR, mass / GLYCOL_MOLAR);
    Some(ratio(water / (water + glycol)))
}

/// Absolute pressure at which the mixture boils. `None` outside 0 to 200 °C or 0 to 0.6 glycol by volume.
///
/// Raoult's law, p = x_water · p_sat, the glycol's own vapour (under 2 kPa below 110 °C, from memory) left out.
#[must_use]
pub fn vapour_pressure(glycol: Ratio, temperature: Temperature) -> Option<Pressure> {
    Some(water::saturation_pressure(temperature)? * water_mole_share(glycol)?.in_ratio())
}

/// Density of the liquid. `None` outside 0 to 130 °C or 0 to 0.6 glycol by volume.
///
/// Within 0.15 % of the table's source to 100 °C. Hotter, it expands as water does: within 0.2 % more of ASHRAE's table.
#[must_use]
pub fn density(glycol: Ratio, temperature: Temperature) -> Option<Density> {
    Some(water::density(temperature)? * relative(&RELATIVE_DENSITY, glycol, temperature)?)
}

/// Specific heat of the liquid. `None` outside 0 to 130 °C or 0 to 0.6 glycol by volume.
///
/// Within 0.4 % of the table's source to 100 °C; hotter, its ratio to water's is held.
#[must_use]
pub fn specific_heat(glycol: Ratio, temperature: Temperature) -> Option<SpecificHeat> {
    Some(water::specific_heat(temperature)? * relative(&RELATIVE_SPECIFIC_HEAT, glycol, temperature)?)
}

fn relative(table: &Table, glycol: Ratio, temperature: Temperature) -> Option<f64> {
    if temperature > HOTTEST {
        return None;
    }
    // 0.6 by volume is 0.626 by mass: the last cell is carried on by a quarter of itself.
    let mass = mass_share(glycol)?.in_ratio() / 0.1;
    let row = (mass as usize).min(table.len() - 2);
    let (column, along) = super::cell(6, 0.0, 20.0, temperature.in_celsius().clamp(0.0, 100.0))?;
    let at = |row: usize| table[row][column] + (table[row][column + 1] - table[row][column]) * along;
    Some(at(row) + (at(row + 1) - at(row)) * (mass - row as f64))
}
