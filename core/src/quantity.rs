//! Typed quantities: one SI number each, one table of units each.
//!
//! The table gives the constructors (`millimetres(150.0)`), the readers (`length.in_millimetres()`), what a person may
//! type, and how a value is shown. Factors are products of exact definitions (NIST SP 811, 2008, appendix B), kept as
//! `multiply / divide` so that a decimal in millimetres is the nearest number in metres.

mod relations;
pub mod unit;

pub use relations::{circle, rim_speed};

use crate::show::Sort;
use crate::spec::Domain;

/// One unit of a dimension: SI value = (number + `offset`) · `multiply` / `divide`.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// As shown: `mm`, `min⁻¹`, `°C`.
    pub symbol: &'static str,
    /// Other ways people write it, compared without case where no other unit differs by case alone. The first is the
    /// plain-letter form that links use.
    pub also: &'static [&'static str],
    /// As a screen reader says it: `millimetres`.
    pub spoken: &'static str,
    /// Symbol of the unit shown instead when imperial units are chosen (itself where the trade uses no other).
    pub imperial: &'static str,
    /// What it is chosen with; none where everybody uses the same.
    pub sort: Option<Sort>,
    multiply: f64,
    divide: f64,
    offset: f64,
}

impl Unit {
    /// Whether it is [AWG](unit::AWG), which names areas and is no scale of them.
    #[must_use]
    pub fn is_gauge(&self) -> bool {
        self.symbol == unit::AWG.symbol
    }

    /// SI number of `number` of this unit.
    #[must_use]
    pub const fn to_si(&self, number: f64) -> f64 {
        (number + self.offset) * self.multiply / self.divide
    }

    /// Number of this unit in an SI number.
    #[must_use]
    pub const fn from_si(&self, si: f64) -> f64 {
        si * self.divide / self.multiply - self.offset
    }
}

/// A kind of quantity and every unit it may be written in; the first unit is the SI one.
#[derive(Debug, PartialEq)]
pub struct Dimension {
    /// In words: `length`.
    pub name: &'static str,
    /// All units; `[0]` is SI.
    pub units: &'static [Unit],
}

impl Dimension {
    /// The unit with exactly this symbol.
    ///
    /// # Panics
    /// In constant evaluation only, when a declaration names a unit that does not exist: it then does not compile.
    #[must_use]
    pub const fn unit(&'static self, symbol: &str) -> &'static Unit {
        match self.find(symbol) {
            Some(unit) => unit,
            None => panic!("no such unit of this dimension"),
        }
    }

    /// What a difference of two such quantities is, and the unit that goes with `unit`: temperatures differ by kelvins.
    #[must_use]
    pub fn difference(&'static self, unit: &'static Unit) -> (&'static Self, &'static Unit) {
        if *self == *Temperature::DIMENSION { (TemperatureRise::DIMENSION, TemperatureRise::DIMENSION.unit("K")) } else { (self, unit) }
    }

    /// Whether this is one of its units, be it marked as the unit of [bores](unit::BORE) or not.
    #[must_use]
    pub fn has(&'static self, unit: &Unit) -> bool {
        self.units.iter().any(|known| known.symbol == unit.symbol && known.also == unit.also)
    }

    /// The unit with exactly this symbol, if there is one.
    #[must_use]
    pub const fn find(&'static self, symbol: &str) -> Option<&'static Unit> {
        let mut at = 0;
        while at < self.units.len() {
            if same(self.units[at].symbol, symbol) {
                return Some(&self.units[at]);
            }
            at += 1;
        }
        None
    }
}

pub(crate) const fn same(left: &str, right: &str) -> bool {
    let (left, right) = (left.as_bytes(), right.as_bytes());
    if left.len() != right.len() {
        return false;
    }
    let mut at = 0;
    while at < left.len() {
        if left[at] != right[at] {
            return false;
        }
        at += 1;
    }
    true
}

/// What a cell of a build or report can hold: a quantity as its SI number, a choice as its ordinal.
pub trait Value: Copy {
    /// What its cells may hold.
    const DOMAIN: Domain;
    /// From the number in the cell.
    fn from_cell(cell: f64) -> Self;
    /// The number for the cell.
    fn to_cell(self) -> f64;
}

/// A value with a dimension.
pub trait Quantity: Value {
    /// Its kind and units.
    const DIMENSION: &'static Dimension;
}

macro_rules! quantities {
    (@sort) => { None };
    (@sort $sort:ident) => { Some(Sort::$sort) };
    ($($(#[$about:meta])* $name:ident $words:literal $($sort:ident)? {
        $($symbol:literal $also:tt $spoken:literal -> $imperial:literal = $multiply:expr, $divide:expr, $offset:expr; $make:ident $read:ident)*
    })*) => {$(
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            const SORT: Option<Sort> = quantities!(@sort $($sort)?);
            /// Kind and units.
            pub const DIMENSION: &'static Dimension = &Dimension { name: $words, units: &[$(Unit {
                symbol: $symbol, also: &$also, spoken: $spoken, imperial: $imperial, sort: Self::SORT,
                multiply: $multiply, divide: $divide, offset: $offset,
            }),*] };
            /// None of it.
            pub const ZERO: Self = Self(0.0);
            /// From the SI number.
            #[must_use]
            pub const fn from_si(si: f64) -> Self { Self(si) }
            /// The SI number.
            #[must_use]
            pub const fn si(self) -> f64 { self.0 }
            /// The larger of two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }
            /// The smaller of two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }
            /// Without its sign.
            #[must_use]
            pub const fn abs(self) -> Self { Self(self.0.abs()) }
            $(
                #[doc = concat!("In ", $spoken, ".")]
                #[must_use]
                pub const fn $read(self) -> f64 { self.0 * $divide / $multiply - $offset }
            )*
        }
        $(
            #[doc = concat!("From a number of ", $spoken, ".")]
            #[must_use]
            pub const fn $make(number: f64) -> $name { $name((number + $offset) * $multiply / $divide) }
        )*
        impl Value for $name {
            const DOMAIN: Domain = Domain::Dimension(Self::DIMENSION);
            fn from_cell(cell: f64) -> Self { Self(cell) }
            fn to_cell(self) -> f64 { self.0 }
        }
        impl Quantity for $name {
            const DIMENSION: &'static Dimension = Self::DIMENSION;
        }
        impl core::ops::Add for $name { type Output = Self; fn add(self, other: Self) -> Self { Self(self.0 + other.0) } }
        impl core::ops::Sub for $name { type Output = Self; fn sub(self, other: Self) -> Self { Self(self.0 - other.0) } }
        impl core::ops::Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl core::ops::Mul<f64> for $name { type Output = Self; fn mul(self, by: f64) -> Self { Self(self.0 * by) } }
        impl core::ops::Mul<$name> for f64 { type Output = $name; fn mul(self, by: $name) -> $name { $name(self * by.0) } }
        impl core::ops::Div<f64> for $name { type Output = Self; fn div(self, by: f64) -> Self { Self(self.0 / by) } }
        impl core::ops::Div for $name { type Output = f64; fn div(self, by: Self) -> f64 { self.0 / by.0 } }
    )*
    /// Every dimension, for checks over all of them.
    pub const DIMENSIONS: &[&Dimension] = &[$($name::DIMENSION),*];
    };
}

use core::f64::consts::PI;

/// Standard gravity, exact (CGPM 1901).
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// International pound, exact (1959 agreement).
const POUND: f64 = 0.453_592_37;
const POUND_FORCE: f64 = POUND * STANDARD_GRAVITY;
const INCH: f64 = 0.0254;

quantities! {
    /// A distance.
    Length "length" Length {
        "m" ["m", "metre", "metres", "meter", "meters"] "metres" -> "ft" = 1.0, 1.0, 0.0; metres in_metres
        "mm" ["mm", "millimetre", "millimetres", "millimeter", "millimeters"] "millimetres" -> "in" = 1.0, 1000.0, 0.0; millimetres in_millimetres
        "cm" ["cm", "centimetre", "centimetres"] "centimetres" -> "in" = 1.0, 100.0, 0.0; centimetres in_centimetres
        "km" ["km", "kilometre", "kilometres"] "kilometres" -> "mi" = 1000.0, 1.0, 0.0; kilometres in_kilometres
        "in" ["in", "inch", "inches", "\"", "″"] "inches" -> "in" = 254.0, 10_000.0, 0.0; inches in_inches
        "thou" ["thou"] "thousandths of an inch" -> "thou" = 254.0, 10_000_000.0, 0.0; thousandths_of_an_inch in_thousandths_of_an_inch
        "ft" ["ft", "foot", "feet", "'", "′"] "feet" -> "ft" = 3048.0, 10_000.0, 0.0; feet in_feet
        "yd" ["yd", "yds", "yard", "yards"] "yards" -> "ft" = 9144.0, 10_000.0, 0.0; yards in_yards
        "mi" ["mi", "mile", "miles"] "miles" -> "mi" = 1609.344, 1.0, 0.0; miles in_miles
        "µm" ["um", "micron", "microns"] "micrometres" -> "µm" = 1.0, 1_000_000.0, 0.0; micrometres in_micrometres
    }
    /// A surface.
    Area "area" Length {
        "m²" ["m2", "sqm"] "square metres" -> "ft²" = 1.0, 1.0, 0.0; square_metres in_square_metres
        "mm²" ["mm2", "sqmm"] "square millimetres" -> "in²" = 1.0, 1e6, 0.0; square_millimetres in_square_millimetres
        "cm²" ["cm2"] "square centimetres" -> "in²" = 1.0, 1e4, 0.0; square_centimetres in_square_centimetres
        "in²" ["in2", "sqin"] "square inches" -> "in²" = INCH * INCH, 1.0, 0.0; square_inches in_square_inches
        "ft²" ["ft2", "sqft"] "square feet" -> "ft²" = 0.3048 * 0.3048, 1.0, 0.0; square_feet in_square_feet
    }
    /// A volume.
    Volume "volume" Length {
        "m³" ["m3"] "cubic metres" -> "m³" = 1.0, 1.0, 0.0; cubic_metres in_cubic_metres
        "L" ["l", "litre", "litres", "liter", "liters", "dm3"] "litres" -> "L" = 1.0, 1000.0, 0.0; litres in_litres
        "cm³" ["cm3", "cc", "ml"] "cubic centimetres" -> "in³" = 1.0, 1e6, 0.0; cubic_centimetres in_cubic_centimetres
        "mm³" ["mm3"] "cubic millimetres" -> "in³" = 1.0, 1e9, 0.0; cubic_millimetres in_cubic_millimetres
        "in³" ["in3", "cuin"] "cubic inches" -> "in³" = INCH * INCH * INCH, 1.0, 0.0; cubic_inches in_cubic_inches
    }
    /// Volume taken up by each length of a hose.
    VolumePerLength "volume per length" {
        "m³/m" ["m3pm"] "cubic metres per metre" -> "m³/m" = 1.0, 1.0, 0.0; cubic_metres_per_metre in_cubic_metres_per_metre
        "cm³/m" ["ccpm", "cc/m", "cm3/m", "ml/m"] "cubic centimetres per metre" -> "cm³/m" = 1.0, 1e6, 0.0; cubic_centimetres_per_metre in_cubic_centimetres_per_metre
    }
    /// An angle.
    Angle "angle" {
        "rad" ["rad", "radian", "radians"] "radians" -> "rad" = 1.0, 1.0, 0.0; radians in_radians
        "°" ["deg", "degree", "degrees"] "degrees" -> "°" = PI, 180.0, 0.0; degrees in_degrees
    }
    /// How fast something turns.
    RotationalSpeed "rotational speed" {
        "rad/s" ["radps"] "radians per second" -> "rad/s" = 1.0, 1.0, 0.0; radians_per_second in_radians_per_second
        "min⁻¹" ["rpm", "rev/min", "r/min", "/min", "1/min", "min-1"] "per minute" -> "min⁻¹" = PI, 30.0, 0.0; per_minute in_per_minute
    }
    /// A change of rotational speed.
    AngularAcceleration "angular acceleration" {
        "rad/s²" ["radps2"] "radians per second squared" -> "rad/s²" = 1.0, 1.0, 0.0; radians_per_second_squared in_radians_per_second_squared
    }
    /// How fast something moves.
    Velocity "speed" Speed {
        "m/s" ["mps"] "metres per second" -> "ft/s" = 1.0, 1.0, 0.0; metres_per_second in_metres_per_second
        "km/h" ["kph", "kmh", "kmph"] "kilometres per hour" -> "mph" = 1.0, 3.6, 0.0; kilometres_per_hour in_kilometres_per_hour
        "mph" ["mph"] "miles per hour" -> "mph" = 0.44704, 1.0, 0.0; miles_per_hour in_miles_per_hour
        "ft/s" ["fps"] "feet per second" -> "ft/s" = 0.3048, 1.0, 0.0; feet_per_second in_feet_per_second
    }
    /// A push or pull.
    Force "force" Force {
        "N" ["n", "newton", "newtons"] "newtons" -> "lbf" = 1.0, 1.0, 0.0; newtons in_newtons
        "kN" ["kn", "kilonewton", "kilonewtons"] "kilonewtons" -> "lbf" = 1000.0, 1.0, 0.0; kilonewtons in_kilonewtons
        "kgf" ["kgf", "kg", "kp"] "kilograms force" -> "lbf" = STANDARD_GRAVITY, 1.0, 0.0; kilograms_force in_kilograms_force
        "lbf" ["lbf", "lb", "lbs", "pounds"] "pounds force" -> "lbf" = POUND_FORCE, 1.0, 0.0; pounds_force in_pounds_force
    }
    /// A turning effort. Not an energy, though the units multiply alike.
    Torque "torque" Torque {
        "N·m" ["nm", "n.m", "n m", "newton metres"] "newton metres" -> "lbf·ft" = 1.0, 1.0, 0.0; newton_metres in_newton_metres
        "lbf·ft" ["lbfft", "lbft", "lb ft", "lb-ft", "ft lb", "ft-lb", "ftlb", "lbf ft", "ft lbf", "lb.ft", "ft lbs", "lbs ft", "foot pounds", "pound feet"] "pounds force feet" -> "lbf·ft" = POUND_FORCE * 0.3048, 1.0, 0.0; pounds_force_feet in_pounds_force_feet
        "lbf·in" ["lbfin", "lbin", "lb in", "in lb", "lbf in"] "pounds force inches" -> "lbf·in" = POUND_FORCE * INCH, 1.0, 0.0; pounds_force_inches in_pounds_force_inches
        "kgf·m" ["kgfm", "kgm", "kg m", "mkp"] "kilograms force metres" -> "lbf·ft" = STANDARD_GRAVITY, 1.0, 0.0; kilograms_force_metres in_kilograms_force_metres
    }
    /// A pressure, absolute or over the air's as its input says.
    Pressure "pressure" Pressure {
        "Pa" ["pa", "pascal", "pascals"] "pascals" -> "psi" = 1.0, 1.0, 0.0; pascals in_pascals
        "kPa" ["kpa"] "kilopascals" -> "psi" = 1e3, 1.0, 0.0; kilopascals in_kilopascals
        "MPa" ["mpa", "n/mm2"] "megapascals" -> "psi" = 1e6, 1.0, 0.0; megapascals in_megapascals
        "GPa" ["gpa"] "gigapascals" -> "GPa" = 1e9, 1.0, 0.0; gigapascals in_gigapascals
        "bar" ["bar", "bars"] "bar" -> "psi" = 1e5, 1.0, 0.0; bar in_bar
        "psi" ["psi", "lb/in2"] "pounds per square inch" -> "psi" = POUND_FORCE, INCH * INCH, 0.0; pounds_per_square_inch in_pounds_per_square_inch
    }
    /// An amount of matter.
    Mass "mass" Mass {
        "kg" ["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"] "kilograms" -> "lb" = 1.0, 1.0, 0.0; kilograms in_kilograms
        "g" ["g", "gram", "grams"] "grams" -> "oz" = 1.0, 1000.0, 0.0; grams in_grams
        "t" ["tonne", "tonnes"] "tonnes" -> "lb" = 1000.0, 1.0, 0.0; tonnes in_tonnes
        "lb" ["lb", "lbs", "pound", "pounds"] "pounds" -> "lb" = POUND, 1.0, 0.0; pounds in_pounds
        "oz" ["oz", "ounce", "ounces"] "ounces" -> "oz" = POUND, 16.0, 0.0; ounces in_ounces
        "st" ["st", "stone"] "stone" -> "lb" = POUND * 14.0, 1.0, 0.0; stone in_stone
    }
    /// Resistance to being spun up.
    Inertia "moment of inertia" Mass {
        "kg·m²" ["kgm2", "kg m2", "kg.m2"] "kilogram square metres" -> "lb·in²" = 1.0, 1.0, 0.0; kilogram_square_metres in_kilogram_square_metres
        "lb·in²" ["lbin2", "lb in2"] "pound square inches" -> "lb·in²" = POUND * INCH * INCH, 1.0, 0.0; pound_square_inches in_pound_square_inches
    }
    /// A temperature on a scale.
    Temperature "temperature" Temperature {
        "K" ["k", "kelvin"] "kelvin" -> "°F" = 1.0, 1.0, 0.0; kelvin in_kelvin
        "°C" ["c", "degc", "celsius"] "degrees Celsius" -> "°F" = 1.0, 1.0, 273.15; celsius in_celsius
        "°F" ["f", "degf", "fahrenheit"] "degrees Fahrenheit" -> "°F" = 5.0, 9.0, 459.67; fahrenheit in_fahrenheit
    }
    /// A difference of temperatures.
    TemperatureRise "temperature difference" Temperature {
        "K" ["k", "c", "°c", "degc"] "kelvin" -> "°F rise" = 1.0, 1.0, 0.0; kelvin_rise in_kelvin_rise
        "°F rise" ["f", "°f", "degf"] "degrees Fahrenheit" -> "°F rise" = 5.0, 9.0, 0.0; fahrenheit_rise in_fahrenheit_rise
    }
    /// A duration.
    Time "time" {
        "s" ["s", "sec", "second", "seconds"] "seconds" -> "s" = 1.0, 1.0, 0.0; seconds in_seconds
        "ms" ["ms"] "milliseconds" -> "ms" = 1.0, 1000.0, 0.0; milliseconds in_milliseconds
        "min" ["min", "minute", "minutes"] "minutes" -> "min" = 60.0, 1.0, 0.0; minutes in_minutes
        "h" ["h", "hour", "hours"] "hours" -> "h" = 3600.0, 1.0, 0.0; hours in_hours
        "d" ["d", "day", "days"] "days" -> "d" = 86_400.0, 1.0, 0.0; days in_days
    }
    /// Work per time.
    Power "power" Power {
        "W" ["w", "watt", "watts"] "watts" -> "W" = 1.0, 1.0, 0.0; watts in_watts
        "kW" ["kw", "kilowatt", "kilowatts"] "kilowatts" -> "hp" = 1000.0, 1.0, 0.0; kilowatts in_kilowatts
        "hp" ["hp", "bhp"] "horsepower" -> "hp" = POUND_FORCE * 0.3048 * 550.0, 1.0, 0.0; horsepower in_horsepower
        "PS" ["ps", "cv"] "metric horsepower" -> "hp" = STANDARD_GRAVITY * 75.0, 1.0, 0.0; metric_horsepower in_metric_horsepower
    }
    /// Work stored or done.
    Energy "energy" {
        "J" ["j", "joule", "joules"] "joules" -> "J" = 1.0, 1.0, 0.0; joules in_joules
        "kJ" ["kj"] "kilojoules" -> "kJ" = 1000.0, 1.0, 0.0; kilojoules in_kilojoules
    }
    /// Electric current.
    Current "current" {
        "A" ["a", "amp", "amps", "ampere", "amperes"] "amperes" -> "A" = 1.0, 1.0, 0.0; amperes in_amperes
        "mA" ["ma"] "milliamperes" -> "mA" = 1.0, 1000.0, 0.0; milliamperes in_milliamperes
    }
    /// Electric tension.
    Voltage "voltage" {
        "V" ["v", "volt", "volts"] "volts" -> "V" = 1.0, 1.0, 0.0; volts in_volts
        "mV" ["mv"] "millivolts" -> "mV" = 1.0, 1000.0, 0.0; millivolts in_millivolts
    }
    /// What drives back a current.
    Resistance "resistance" {
        "Ω" ["ohm", "ohms"] "ohms" -> "Ω" = 1.0, 1.0, 0.0; ohms in_ohms
        "mΩ" ["mohm", "mohms", "milliohm", "milliohms"] "milliohms" -> "mΩ" = 1.0, 1000.0, 0.0; milliohms in_milliohms
    }
    /// Resistance of each length of a wire.
    ResistancePerLength "resistance per length" {
        "Ω/m" ["ohmpm", "ohm/m"] "ohms per metre" -> "Ω/m" = 1.0, 1.0, 0.0; ohms_per_metre in_ohms_per_metre
        "mΩ/m" ["mohmpm", "mohm/m"] "milliohms per metre" -> "mΩ/m" = 1.0, 1000.0, 0.0; milliohms_per_metre in_milliohms_per_metre
    }
    /// What a battery holds.
    Charge "charge" {
        "A·s" ["as", "coulomb", "coulombs"] "ampere seconds" -> "A·s" = 1.0, 1.0, 0.0; ampere_seconds in_ampere_seconds
        "A·h" ["ah", "amp hours", "ampere hours"] "ampere hours" -> "A·h" = 3600.0, 1.0, 0.0; ampere_hours in_ampere_hours
    }
    /// A current squared over a time: what a fuse lets through and a wire must swallow.
    CurrentSquareTime "current squared times time" {
        "A²·s" ["a2s"] "ampere squared seconds" -> "A²·s" = 1.0, 1.0, 0.0; ampere_squared_seconds in_ampere_squared_seconds
    }
    /// Heat from each length of a wire.
    HeatPerLength "heat per length" {
        "W/m" ["wpm"] "watts per metre" -> "W/m" = 1.0, 1.0, 0.0; watts_per_metre in_watts_per_metre
    }
    /// Temperature that drives heat out of each length of a wire.
    ThermalResistance "thermal resistance of a length" {
        "K·m/W" ["kmpw"] "kelvin metres per watt" -> "K·m/W" = 1.0, 1.0, 0.0; kelvin_metres_per_watt in_kelvin_metres_per_watt
    }
    /// Heat that warms each length of a wire by one kelvin.
    HeatCapacityPerLength "heat capacity per length" {
        "J/(m·K)" ["jpmk"] "joules per metre kelvin" -> "J/(m·K)" = 1.0, 1.0, 0.0; joules_per_metre_kelvin in_joules_per_metre_kelvin
    }
    /// Heat through a thickness.
    ThermalConductivity "thermal conductivity" {
        "W/(m·K)" ["wpmk"] "watts per metre kelvin" -> "W/(m·K)" = 1.0, 1.0, 0.0; watts_per_metre_kelvin in_watts_per_metre_kelvin
    }
    /// Volume per time.
    Flow "flow" {
        "m³/s" ["m3ps"] "cubic metres per second" -> "m³/s" = 1.0, 1.0, 0.0; cubic_metres_per_second in_cubic_metres_per_second
        "L/min" ["lpm", "l/min"] "litres per minute" -> "L/min" = 1.0, 60_000.0, 0.0; litres_per_minute in_litres_per_minute
    }
    /// Mass of each length of a belt.
    LinearDensity "mass per length" {
        "kg/m" ["kgpm"] "kilograms per metre" -> "kg/m" = 1.0, 1.0, 0.0; kilograms_per_metre in_kilograms_per_metre
        "g/m" ["gpm"] "grams per metre" -> "g/m" = 1.0, 1000.0, 0.0; grams_per_metre in_grams_per_metre
    }
    /// Mass in each volume.
    Density "density" {
        "kg/m³" ["kgpm3", "kg/m3"] "kilograms per cubic metre" -> "kg/m³" = 1.0, 1.0, 0.0; kilograms_per_cubic_metre in_kilograms_per_cubic_metre
    }
    /// Heat that warms each mass by one kelvin.
    SpecificHeat "specific heat" {
        "J/(kg·K)" ["jpkgk", "j/kgk"] "joules per kilogram kelvin" -> "J/(kg·K)" = 1.0, 1.0, 0.0; joules_per_kilogram_kelvin in_joules_per_kilogram_kelvin
    }
    /// Force per travel.
    Stiffness "stiffness" Force {
        "N/m" ["npm"] "newtons per metre" -> "lbf/in" = 1.0, 1.0, 0.0; newtons_per_metre in_newtons_per_metre
        "N/mm" ["npmm"] "newtons per millimetre" -> "lbf/in" = 1000.0, 1.0, 0.0; newtons_per_millimetre in_newtons_per_millimetre
        "kgf/mm" ["kgfpmm", "kg/mm", "kp/mm"] "kilograms force per millimetre" -> "lbf/in" = STANDARD_GRAVITY * 1000.0, 1.0, 0.0; kilograms_force_per_millimetre in_kilograms_force_per_millimetre
        "lbf/in" ["lbfpin", "lb/in", "lbin"] "pounds force per inch" -> "lbf/in" = POUND_FORCE, INCH, 0.0; pounds_force_per_inch in_pounds_force_per_inch
    }
    /// Torque per angle of twist.
    TorsionalStiffness "torsional stiffness" {
        "N·m/rad" ["nmprad", "nm/rad"] "newton metres per radian" -> "N·m/rad" = 1.0, 1.0, 0.0; newton_metres_per_radian in_newton_metres_per_radian
        "N·m/°" ["nmpdeg", "nm/deg", "nm/°"] "newton metres per degree" -> "N·m/°" = 180.0, PI, 0.0; newton_metres_per_degree in_newton_metres_per_degree
    }
    /// How often something repeats.
    Frequency "frequency" {
        "Hz" ["hz", "hertz"] "hertz" -> "Hz" = 1.0, 1.0, 0.0; hertz in_hertz
    }
    /// A pure number.
    Ratio "ratio" {
        "" ["x", "×", "times"] "" -> "" = 1.0, 1.0, 0.0; ratio in_ratio
        "%" ["pc", "percent", "per cent"] "per cent" -> "%" = 1.0, 100.0, 0.0; percent in_percent
    }
}
