//! Water as a liquid: when it boils, what it weighs, how much heat it carries.

use crate::quantity::{
    Density, Pressure, SpecificHeat, Temperature, celsius, joules_per_kilogram_kelvin, kilograms_per_cubic_metre, megapascals,
};

/// Lowest temperature these properties hold for.
pub const COLDEST: Temperature = celsius(0.0);
/// Highest temperature these properties hold for.
pub const HOTTEST: Temperature = celsius(200.0);

fn holds(temperature: Temperature) -> bool {
    (COLDEST..=HOTTEST).contains(&temperature)
}

/// Coefficients of the saturation line: IAPWS R7-97(2012), table 34. From memory; the release's check values agree.
const SATURATION: [f64; 10] = [
    0.116_705_214_527_67e4,
    -0.724_213_167_032_06e6,
    -0.170_738_469_400_92e2,
    0.120_208_247_024_70e5,
    -0.323_255_503_223_33e7,
    0.149_151_086_135_30e2,
    -0.482_326_573_615_91e4,
    0.405_113_405_420_57e6,
    -0.238_555_575_678_49,
    0.650_175_348_447_98e3,
];

/// Pressure at which water of this temperature boils, absolute. `None` outside 0 to 200 °C.
///
/// IAPWS R7-97(2012), region 4, equation 30; within 0.01 % of IAPWS-95 from 20 to 130 °C.
#[must_use]
pub fn saturation_pressure(temperature: Temperature) -> Option<Pressure> {
    if !holds(temperature) {
        return None;
    }
    let n = &SATURATION;
    let kelvin = temperature.in_kelvin();
    let theta = kelvin + n[8] / (kelvin - n[9]);
    let a = (theta + n[0]) * theta + n[1];
    let b = (n[2] * theta + n[3]) * theta + n[4];
    let c = (n[5] * theta + n[6]) * theta + n[7];
    let root = 2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt());
    let square = root * root;
    Some(megapascals(square * square))
}

/// Temperature at which water boils under this absolute pressure. `None` where that lies outside 0 to 200 °C.
///
/// IAPWS R7-97(2012), region 4, equation 31: the same line as [`saturation_pressure`], solved for temperature.
#[must_use]
pub fn boiling_point(pressure: Pressure) -> Option<Temperature> {
    // Outside, the quadratics below answer with their other root.
    if !(saturation_pressure(COLDEST)?..=saturation_pressure(HOTTEST)?).contains(&pressure) {
        return None;
    }
    let n = &SATURATION;
    let beta = pressure.in_megapascals().sqrt().sqrt();
    let e = (beta + n[2]) * beta + n[5];
    let f = (n[0] * beta + n[3]) * beta + n[6];
    let g = (n[1] * beta + n[4]) * beta + n[7];
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    let sum = n[9] + d;
    let kelvin = (sum - (sum * sum - 4.0 * (n[8] + n[9] * d)).sqrt()) / 2.0;
    Some(Temperature::from_si(kelvin).max(COLDEST).min(HOTTEST))
}

/// Density of the liquid on its boiling line. `None` outside 0 to 200 °C.
///
/// IAPWS SR1-86(1992), equation 2 (Wagner and Pruss 1993), coefficients from memory; within 0.001 % of IAPWS-95 here.
/// Liquid under a few bar is denser by less than 0.02 %.
#[must_use]
pub fn density(temperature: Temperature) -> Option<Density> {
    /// Critical point of water: 647.096 K, 322 kg/m³ (IAPWS R2-83).
    const CRITICAL_KELVIN: f64 = 647.096;
    const CRITICAL_DENSITY: f64 = 322.0;
    if !holds(temperature) {
        return None;
    }
    // Powers of the cube root: 1, 2, 5, 16, 43 and 110 thirds.
    let third = libm::cbrt(1.0 - temperature.in_kelvin() / CRITICAL_KELVIN);
    let p2 = third * third;
    let p5 = p2 * p2 * third;
    let p10 = p5 * p5;
    let p16 = p10 * p5 * third;
    let p32 = p16 * p16;
    let p43 = p32 * p10 * third;
    let p110 = p43 * p43 * p16 * p5 * p2 * third;
    let relative = 1.0 + 1.992_740_64 * third + 1.099_653_42 * p2
        - 0.510_839_303 * p5
        - 1.754_934_79 * p16
        - 45.517_035_2 * p43
        - 6.746_944_50e5 * p110;
    Some(kilograms_per_cubic_metre(CRITICAL_DENSITY * relative))
}

/// Specific heat of the boiling liquid, J/(kg·K), at 0, 10 … 200 °C: made with CoolProp 8.0.0 (IAPWS-95).
const SPECIFIC_HEAT: [f64; 21] = [
    4219.9, 4195.5, 4184.4, 4180.1, 4179.6, 4181.5, 4185.1, 4190.2, 4196.9, 4205.3, 4215.7, 4228.3, 4243.5, 4261.5, 4282.6, 4307.1, 4335.4,
    4367.8, 4405.0, 4447.4, 4495.8,
];

/// Specific heat of the liquid. `None` outside 0 to 200 °C.
///
/// Interpolated in a table made with IAPWS-95, within 0.06 % of it.
#[must_use]
pub fn specific_heat(temperature: Temperature) -> Option<SpecificHeat> {
    if !holds(temperature) {
        return None;
    }
    // Rounding may carry the last kelvin a hair past the table's end.
    let celsius = temperature.in_celsius().clamp(0.0, 200.0);
    super::interpolated(&SPECIFIC_HEAT, 0.0, 10.0, celsius).map(joules_per_kilogram_kelvin)
}
