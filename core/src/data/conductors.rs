//! Copper in cars: sizes, resistance, how it warms, what its insulation stands.
//!
//! Nominal area is a name, not the metal: resistance comes from the standard's table, never from resistivity over area.

use crate::quantity::{
    Area, CurrentSquareTime, Length, ResistancePerLength, Temperature, celsius, millimetres, milliohms_per_metre, square_millimetres,
};
use crate::spec::Source;
use core::f64::consts::{LN_2, PI};

/// Resistances of the sizes and the letters of insulation.
pub const SOURCE: Source = Source::FromMemory("ISO 6722-1:2011");

/// Rise of copper's resistance with each kelvin over 20 °C, as a share of that at 20 °C (IEC 60028, from memory).
pub(crate) const PER_KELVIN: f64 = 0.003_93;

/// The temperature the tables hold at, in kelvin.
pub(crate) const REFERENCE: f64 = 293.15;

/// Heat that warms a volume of copper, J/(m³·K) (IEC 60949, from memory).
const COPPER_HEAT: f64 = 3.45e6;

/// Heat that warms a volume of insulation, J/(m³·K): soft PVC, from memory; cross-linked plastics are close.
const INSULATION_HEAT: f64 = 2.1e6;

/// Thermal conductivity of insulation, W/(m·K): soft PVC, from memory.
const INSULATION_CONDUCTIVITY: f64 = 0.17;

/// Resistivity of annealed copper at 20 °C: 1/58 Ω·mm²/m (IEC 60028, from memory).
const RESISTIVITY: f64 = 1e-6 / 58.0;

/// Resistance at a temperature over that at 20 °C.
///
/// ```
/// use trialfit_core::{data::conductors::warming, quantity::celsius};
/// assert_eq!(warming(celsius(20.0)), 1.0);
/// ```
#[must_use]
pub const fn warming(at: Temperature) -> f64 {
    1.0 + PER_KELVIN * (at.si() - REFERENCE)
}

/// A wire: one size of the table, or one between two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conductor {
    /// Nominal area.
    pub area: Area,
    /// Highest resistance of the bare copper at 20 °C.
    pub resistance: ResistancePerLength,
    /// Diameter over the insulation, at most.
    pub outside: Length,
    /// Heat that warms a metre of copper and insulation by a kelvin, J/(m·K).
    pub(crate) capacity: f64,
    /// From copper to surface, K·m/W.
    pub(crate) insulation: f64,
    /// Natural logarithm of the outside in metres.
    pub(crate) log_outside: f64,
}

const fn thin_wall(area: f64, resistance: f64, core: f64, outside: f64) -> Conductor {
    let metal = RESISTIVITY / milliohms_per_metre(resistance).si();
    let coat = circle_of(outside) - circle_of(core);
    Conductor {
        area: square_millimetres(area),
        resistance: milliohms_per_metre(resistance),
        outside: millimetres(outside),
        capacity: COPPER_HEAT * metal + INSULATION_HEAT * coat,
        insulation: natural_log(outside / core) / (2.0 * PI * INSULATION_CONDUCTIVITY),
        log_outside: natural_log(outside / 1000.0),
    }
}

const fn circle_of(millimetres: f64) -> f64 {
    PI / 4.0 * millimetres * millimetres * 1e-6
}

/// The logarithm where no library can be called: 2·artanh((m − 1)/(m + 1)) + n·ln 2 with x = m·2ⁿ, m from ⅔ to 4/3.
const fn natural_log(x: f64) -> f64 {
    let (mut mantissa, mut twos) = (x, 0.0);
    while mantissa > 4.0 / 3.0 {
        (mantissa, twos) = (mantissa / 2.0, twos + 1.0);
    }
    while mantissa < 2.0 / 3.0 {
        (mantissa, twos) = (mantissa * 2.0, twos - 1.0);
    }
    let z = (mantissa - 1.0) / (mantissa + 1.0);
    let (mut power, mut sum, mut odd) = (z, 0.0, 1.0);
    while odd < 24.0 {
        sum += power / odd;
        power *= z * z;
        odd += 2.0;
    }
    2.0 * sum + twos * LN_2
}

/// Sizes by rising area: nominal mm², highest mΩ/m at 20 °C, largest conductor and largest outside in mm.
///
/// Areas and resistances: ISO 6722-1:2011, bare copper, from memory. Outsides of 0.5 to 10 mm² (without 1.25, 5 and 8):
/// seen in a cable merchant's data sheet of thin-wall cable; all other diameters from memory. The 2002 edition had
/// 52.0 mΩ/m at 0.35 mm²: the larger is kept.
#[expect(clippy::approx_constant, reason = "6 mm² has 3.14 mΩ/m")]
pub static SIZES: [Conductor; 28] = [
    thin_wall(0.13, 136.0, 0.55, 1.05),
    thin_wall(0.22, 84.4, 0.7, 1.2),
    thin_wall(0.35, 54.4, 0.9, 1.4),
    thin_wall(0.5, 37.1, 1.1, 1.7),
    thin_wall(0.75, 24.7, 1.3, 1.9),
    thin_wall(1.0, 18.5, 1.5, 2.1),
    thin_wall(1.25, 14.9, 1.7, 2.3),
    thin_wall(1.5, 12.7, 1.8, 2.4),
    thin_wall(2.0, 9.42, 2.0, 2.8),
    thin_wall(2.5, 7.60, 2.2, 3.0),
    thin_wall(3.0, 6.15, 2.4, 3.4),
    thin_wall(4.0, 4.71, 2.8, 3.7),
    thin_wall(5.0, 3.94, 3.1, 4.0),
    thin_wall(6.0, 3.14, 3.4, 4.3),
    thin_wall(8.0, 2.38, 4.3, 5.0),
    thin_wall(10.0, 1.82, 4.5, 6.0),
    thin_wall(12.0, 1.52, 5.4, 6.5),
    thin_wall(16.0, 1.16, 5.8, 7.2),
    thin_wall(20.0, 0.955, 6.9, 7.8),
    thin_wall(25.0, 0.743, 7.2, 8.7),
    thin_wall(30.0, 0.647, 8.3, 9.6),
    thin_wall(35.0, 0.527, 8.5, 10.4),
    thin_wall(40.0, 0.473, 9.6, 11.1),
    thin_wall(50.0, 0.368, 10.5, 12.2),
    thin_wall(60.0, 0.315, 11.6, 13.3),
    thin_wall(70.0, 0.259, 12.5, 14.4),
    thin_wall(95.0, 0.196, 14.8, 16.7),
    thin_wall(120.0, 0.153, 16.5, 18.7),
];

/// Places in [`SIZES`] of what most shops keep (common practice, no source).
pub static STOCKED: &[u8] = &[3, 4, 5, 7, 8, 9, 10, 11, 13, 15, 17, 19, 21, 23, 25, 26, 27];

/// Places in [`SIZES`] of every size of the standard.
pub static EVERY: &[u8] = &[0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27];

/// Areas that most shops keep, in mm²: [`STOCKED`], for the steps of a slider.
pub static STOCKED_AREAS: &[f64] = &[0.5, 0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0, 120.0];

impl Conductor {
    /// The wire of this area. Between two sizes of the table its copper conducts in proportion and its diameter lies
    /// between theirs; none outside the table.
    #[must_use]
    pub fn of(area: Area) -> Option<Self> {
        let after = SIZES.iter().position(|size| size.area.si() >= area.si())?;
        let thick = &SIZES[after];
        if thick.area.si() == area.si() {
            return Some(*thick);
        }
        let thin = &SIZES[after.checked_sub(1)?];
        let share = (area - thin.area) / (thick.area - thin.area);
        let between = |thin: f64, thick: f64| thin + (thick - thin) * share;
        let outside = Length::from_si(between(thin.outside.si(), thick.outside.si()));
        Some(Self {
            area,
            resistance: ResistancePerLength::from_si(1.0 / between(1.0 / thin.resistance.si(), 1.0 / thick.resistance.si())),
            outside,
            capacity: between(thin.capacity, thick.capacity),
            insulation: between(thin.insulation, thick.insulation),
            log_outside: libm::log(outside.si()),
        })
    }

    /// Resistance of its copper at this temperature.
    #[must_use]
    pub const fn resistance_at(&self, temperature: Temperature) -> ResistancePerLength {
        ResistancePerLength::from_si(self.resistance.si() * warming(temperature))
    }

    /// Area of metal that has its resistance: less than the nominal area.
    #[must_use]
    pub fn metal(&self) -> Area {
        Area::from_si(RESISTIVITY / self.resistance.si())
    }
}

/// The trade's American gauges by falling number (0, −1, −2 for 1/0, 2/0, 3/0), with the area in mm² of a solid wire of
/// diameter 0.127 mm · 92^((36 − n)/39) (ASTM B258, from memory).
pub static GAUGES: [(i8, f64); 18] = [
    (26, 0.128_756),
    (24, 0.204_730),
    (22, 0.325_534),
    (20, 0.517_619),
    (18, 0.823_047),
    (16, 1.308_696),
    (14, 2.080_908),
    (12, 3.308_773),
    (10, 5.261_155),
    (8, 8.365_564),
    (6, 13.301_768),
    (4, 21.150_639),
    (2, 33.630_834),
    (1, 42.407_699),
    (0, 53.475_121),
    (-1, 67.430_882),
    (-2, 85.028_773),
    (-3, 107.219_303),
];

/// −β is where copper's resistance would be nothing, °C (IEC 60949, from memory).
const BETA: f64 = 234.5;

/// c·(β + 20)/ρ of copper in A²·s/m⁴: 3.45·10⁻³ J/(K·mm³) and 17.241·10⁻⁶ Ω·mm (IEC 60949, from memory).
const COPPER_SQUARE: f64 = 3.45e-3 * (BETA + 20.0) / 17.241e-6 * 1e12;

/// I²·t that copper of an area swallows from one temperature to another while no heat leaves it, k²·S² with
/// k² = c·(β + 20)/ρ · ln((β + θ₂)/(β + θ₁)) (IEC 60364-5-54, from memory; values seen in a pocket guide to BS 7671).
/// Holds up to 5 s.
#[must_use]
pub fn swallowed(start: Temperature, end: Temperature, area: Area) -> CurrentSquareTime {
    let warmed = (BETA + end.in_celsius()) / (BETA + start.in_celsius());
    CurrentSquareTime::from_si(COPPER_SQUARE * libm::log(warmed) * area.si() * area.si())
}

/// Less than [`swallowed`]: ln x ≥ 2·(x − 1)/(x + 1) from 1 up, the first term of its series. Nothing where it cools.
pub(crate) fn surely_swallowed(start: Temperature, end: Temperature, area: Area) -> CurrentSquareTime {
    let (cold, hot) = (BETA + start.in_celsius(), BETA + end.in_celsius());
    CurrentSquareTime::from_si(COPPER_SQUARE * (2.0 * (hot - cold) / (hot + cold)).max(0.0) * area.si() * area.si())
}

/// Copper's temperature after a short of at most 5 s: θ = (θ₁ + β)·e^(I²t/(K²·S²)) − β (IEC 60949, from memory).
#[must_use]
pub fn after_short(start: Temperature, let_through: CurrentSquareTime, area: Area) -> Temperature {
    let grown = libm::exp(let_through.si() / (COPPER_SQUARE * area.si() * area.si()));
    celsius((start.in_celsius() + BETA) * grown - BETA)
}

/// What the insulation of one letter stands. Letters and their temperatures: seen in a cable standard that prints the
/// table of ISO 6722; overloads from memory.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Insulation {
    /// For 3000 h: what the letter means.
    pub lasting: Temperature,
    /// For 6 h, the standard's thermal overload: 50 K more.
    pub overload: Temperature,
    /// For the 5 s of a short circuit: 160 °C of PVC, 250 °C of cross-linked plastics, or the overload where that is more.
    pub short: Temperature,
}

const fn letter(lasting: f64, short: f64) -> Insulation {
    Insulation { lasting: celsius(lasting), overload: celsius(lasting + 50.0), short: celsius(short) }
}

/// Letters A to H of ISO 6722.
pub static INSULATIONS: [Insulation; 8] = [
    letter(85.0, 160.0),
    letter(100.0, 160.0),
    letter(125.0, 250.0),
    letter(150.0, 250.0),
    letter(175.0, 250.0),
    letter(200.0, 250.0),
    letter(225.0, 275.0),
    letter(250.0, 300.0),
];
