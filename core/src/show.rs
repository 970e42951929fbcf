//! How values are shown: digits, signs, the units that each reader prefers, inches as fractions, wires by their gauge.
//!
//! The same for every reader, whatever the device's language: a point for the decimals, a true minus, and a narrow space
//! between groups of three from five digits on. [`crate::entry`] reads back whatever stands here.

mod cell;
pub mod gauge;
mod label;
mod system;

pub(crate) use cell::digits_of;
pub use cell::{at, brief, cell, figure, piece, sentence};
pub use label::{label, row_name};
pub use system::{Sort, System, Way};

use crate::quantity::unit::ONE;
use crate::quantity::{Length, Unit};

/// A value as shown: its figures apart from its unit, so that a page can set them large, and as a voice says both.
#[derive(Clone, PartialEq, Debug)]
pub struct Shown {
    /// `22.2`, `−40`, `17 500`.
    pub number: String,
    /// `mm`; empty for a pure number.
    pub unit: &'static str,
    /// `22.2 millimetres`.
    pub spoken: String,
}

impl core::fmt::Display for Shown {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        out.write_str(&self.number)?;
        match self.unit {
            "" => Ok(()),
            "°" => out.write_str("°"),
            // A number and its unit stay on one line.
            unit => write!(out, "\u{A0}{unit}"),
        }
    }
}

/// A result in `unit`, rounded to this many significant digits (three suit most answers).
///
/// ```
/// use trialfit_core::{quantity::Force, show::answer};
/// assert_eq!(answer(131.87, Force::DIMENSION.unit("N"), 3).to_string(), "132\u{A0}N");
/// ```
#[must_use]
pub fn answer(si: f64, unit: &'static Unit, digits: u8) -> Shown {
    shown(&significant(number_in(si, unit), digits, Zeros::Keep), unit)
}

/// The number of `unit`; nought where the shift of a scale (of temperature) leaves only its rounding.
fn number_in(si: f64, unit: &Unit) -> f64 {
    let number = unit.from_si(si);
    if number.abs() < 1e-12 * unit.from_si(0.0).abs() { 0.0 } else { number }
}

/// A value as its field holds it: the shortest decimal of `unit` that reads back to the same bits where that is short,
/// else six significant digits. Showing it in another unit changes nothing in the build.
#[must_use]
pub fn input(si: f64, unit: &'static Unit) -> Shown {
    let number = shortest(si, unit)
        .filter(|exact| exact.chars().filter(char::is_ascii_digit).count() <= 9)
        .unwrap_or_else(|| significant(number_in(si, unit), 6, Zeros::Drop));
    let mut shown = shown(&number, unit);
    shown.number.retain(|letter| letter != GROUP); // a field is edited: no invisible letters in it
    shown
}

/// A whole number of anything, its digits in groups.
#[must_use]
pub fn count(number: f64) -> String {
    shown(&format!("{number:.0}"), ONE).number
}

fn shown(number: &str, unit: &'static Unit) -> Shown {
    let plain = number.strip_prefix('-').unwrap_or(number);
    let sign = if plain.len() < number.len() { "−" } else { "" };
    let voice = if sign.is_empty() { "" } else { "minus " };
    let gap = if unit.spoken.is_empty() || unit.symbol.is_empty() { "" } else { " " };
    let words = if unit.symbol.is_empty() { "" } else { unit.spoken };
    Shown { number: format!("{sign}{}", grouped(plain)), unit: unit.symbol, spoken: format!("{voice}{plain}{gap}{words}") }
}

/// How many significant digits an input's number has in `unit`, as far as they would be shown.
#[must_use]
pub fn digits(si: f64, unit: &Unit) -> u8 {
    let number = significant(number_in(si, unit), 6, Zeros::Drop);
    let figures = number.split('e').next().unwrap_or_default().trim_start_matches(['-', '0', '.']);
    let figures = if number.contains('.') { figures } else { figures.trim_end_matches('0') };
    figures.chars().filter(char::is_ascii_digit).count().clamp(1, 6) as u8
}

/// The shortest decimal of `unit` that gives exactly this SI number, in plain figures or with an `e`; none where no
/// double of that unit does (the conversion steps over it).
#[must_use]
pub fn shortest(si: f64, unit: &Unit) -> Option<String> {
    if !si.is_finite() {
        return None;
    }
    let same = |number: f64| unit.to_si(number).to_bits() == si.to_bits();
    let near = unit.from_si(si);
    // What was typed in up to 15 digits comes back at the 15th. The shift of a scale loses more, so that fewer may do.
    let fewest = if unit.from_si(0.0) == 0.0 { 15 } else { 1 };
    let [up, down] = [near.next_up(), near.next_down()];
    [near, up, down, up.next_up(), down.next_down()]
        .into_iter()
        .flat_map(|number| (fewest..=17).map(move |digits| significant(number, digits, Zeros::Drop)))
        .find(|text| text.parse().is_ok_and(same))
}

/// Whether zeros at the end of the decimals stand (they say how exact an answer is) or go.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Zeros {
    Keep,
    Drop,
}

/// `number` rounded to so many significant digits, with an ASCII minus and without groups; an exponent only where plain
/// figures would be mostly zeros.
pub(crate) fn significant(number: f64, digits: u8, zeros: Zeros) -> String {
    if !number.is_finite() {
        return "—".into();
    }
    if number == 0.0 {
        return "0".into();
    }
    let digits = usize::from(digits.clamp(1, 17));
    // Rust rounds the exact value of the double here, ties to even: the same figures on every machine.
    let written = format!("{:.*e}", digits - 1, number);
    let (mantissa, exponent) = written.split_once('e').unwrap_or((&written, "0"));
    let exponent: i32 = exponent.parse().unwrap_or(0);
    let (sign, mantissa) = match mantissa.strip_prefix('-') {
        Some(mantissa) => ("-", mantissa),
        None => ("", mantissa),
    };
    let mut figures: String = mantissa.chars().filter(char::is_ascii_digit).collect();
    if zeros == Zeros::Drop {
        figures.truncate(figures.trim_end_matches('0').len().max(1));
    }
    let text = match usize::try_from(exponent) {
        Ok(before) if before < 15 => {
            let whole = before + 1;
            if figures.len() <= whole {
                format!("{figures}{}", "0".repeat(whole - figures.len()))
            } else {
                format!("{}.{}", &figures[..whole], &figures[whole..])
            }
        }
        Err(_) if exponent >= -5 => {
            format!("0.{}{figures}", "0".repeat(exponent.unsigned_abs() as usize - 1))
        }
        _ => {
            let (first, rest) = figures.split_at(1);
            let point = if rest.is_empty() { "" } else { "." };
            format!("{first}{point}{rest}e{exponent}")
        }
    };
    format!("{sign}{text}")
}

/// Narrow no-break space.
const GROUP: char = '\u{202F}';

/// Groups of three before the point, from five digits on.
pub(crate) fn grouped(number: &str) -> String {
    let whole = number.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(number.len());
    if whole < 5 {
        return number.into();
    }
    let mut text = String::new();
    for (index, letter) in number.chars().enumerate() {
        if index > 0 && index < whole && (whole - index).is_multiple_of(3) {
            text.push(GROUP);
        }
        text.push(letter);
    }
    text
}

/// How far a length may lie from a fraction of an inch and still be called by it.
const FRACTION_WITHIN: Length = crate::quantity::millimetres(0.01);

/// A length as the trade names bores and threads, `7/8`, `1 1/16`, when it lies within 0.01 mm of a 64th of an inch; to
/// stand beside the millimetres, not for them.
///
/// ```
/// use trialfit_core::{quantity::millimetres, show::inch_fraction};
/// assert_eq!(inch_fraction(millimetres(22.225)).unwrap().to_string(), "7/8\u{A0}in");
/// assert_eq!(inch_fraction(millimetres(22.0)), None);
/// ```
#[must_use]
pub fn inch_fraction(length: Length) -> Option<Shown> {
    let sixty_fourths = (length.in_inches() * 64.0).round();
    if !(1.0..=64_000.0).contains(&sixty_fourths) {
        return None;
    }
    let named = crate::quantity::inches(sixty_fourths / 64.0);
    if (length - named).abs() > FRACTION_WITHIN {
        return None;
    }
    let all = sixty_fourths as u32; // whole and at most 64 000
    let (whole, mut over, mut under) = (all / 64, all % 64, 64);
    while over > 0 && over.is_multiple_of(2) {
        (over, under) = (over / 2, under / 2);
    }
    let name = match under {
        2 => "half",
        4 => "quarter",
        8 => "eighth",
        16 => "sixteenth",
        32 => "thirty-second",
        _ => "sixty-fourth",
    };
    let ending = if over > 1 { "s" } else { "" };
    let (number, spoken) = match (whole, over) {
        (1, 0) => ("1".into(), "1 inch".into()),
        (whole, 0) => (format!("{whole}"), format!("{whole} inches")),
        (0, over) => (format!("{over}/{under}"), format!("{over} {name}{ending} of an inch")),
        (whole, over) => (format!("{whole} {over}/{under}"), format!("{whole} and {over} {name}{ending} inches")),
    };
    Some(Shown { number, unit: "in", spoken })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Angle, Pressure, Ratio, RotationalSpeed, Temperature, inches, millimetres};

    #[track_caller]
    fn check(number: f64, digits: u8, expected: &str) {
        assert_eq!(significant(number, digits, Zeros::Keep), expected);
    }

    #[test]
    fn digits_are_significant_ones() {
        check(22.225, 3, "22.2");
        check(22.0, 3, "22.0");
        check(999.6, 3, "1000");
        check(2134.0, 3, "2130");
        check(0.012_345, 3, "0.0123");
        check(0.000_001_234, 3, "1.23e-6");
        check(-5.25, 2, "-5.2");
        check(0.0, 3, "0");
        check(f64::NAN, 3, "—");
        check(1e300, 3, "1.00e300");
    }

    #[test]
    fn answers_have_a_true_minus_groups_and_a_voice() {
        let shown = answer(crate::quantity::celsius(-40.0).si(), Temperature::DIMENSION.unit("°C"), 3);
        assert_eq!((shown.number.as_str(), shown.spoken.as_str()), ("−40.0", "minus 40.0 degrees Celsius"));
        let shown = answer(crate::quantity::per_minute(17_512.0).si(), RotationalSpeed::DIMENSION.unit("min⁻¹"), 3);
        assert_eq!((shown.number.as_str(), shown.spoken.as_str()), ("17\u{202F}500", "17500 per minute"));
        assert_eq!(answer(0.5, Ratio::DIMENSION.unit("%"), 2).to_string(), "50\u{A0}%");
        assert_eq!(answer(1.25, Ratio::DIMENSION.unit(""), 3).spoken, "1.25");
        assert_eq!(answer(3.0_f64.to_radians(), Angle::DIMENSION.unit("°"), 2).to_string(), "3.0°");
    }

    #[test]
    fn melting_ice_is_at_nought() {
        for unit in ["°C", "°F"] {
            let unit = Temperature::DIMENSION.unit(unit);
            let ice = crate::quantity::fahrenheit(32.0).si();
            assert_eq!(answer(ice + 6e-14, unit, 3).number, if unit.symbol == "°C" { "0" } else { "32.0" });
        }
    }

    #[test]
    fn inputs_keep_what_was_typed() {
        for typed in [22.225, 0.1, 145.0, 5.748, 19.05, 1e-3] {
            let millimetre = Length::DIMENSION.unit("mm");
            let shown = input(millimetres(typed).si(), millimetre);
            assert_eq!(shown.number, typed.to_string());
        }
    }

    #[test]
    fn inputs_in_a_foreign_unit_stay_short() {
        assert_eq!(input(millimetres(146.0).si(), Length::DIMENSION.unit("in")).number, "5.74803");
        assert_eq!(input(crate::quantity::bar(1.1).si(), Pressure::DIMENSION.unit("psi")).number, "15.9542");
    }

    #[test]
    fn imperial_units_are_those_of_the_trade() {
        let unit = System::Imperial.unit(Length::DIMENSION, Length::DIMENSION.unit("mm"));
        assert_eq!(unit.symbol, "in");
        let unit = System::Imperial.unit(Pressure::DIMENSION, Pressure::DIMENSION.unit("bar"));
        assert_eq!(unit.symbol, "psi");
    }

    // Bores of the trade, in inches by definition (1 in = 25.4 mm): NIST SP 811, U1.
    #[test]
    fn bores_are_called_by_their_fraction() {
        for (bore, name) in [(15.875, "5/8"), (19.05, "3/4"), (22.2, ""), (22.23, "7/8"), (25.4, "1"), (26.99, "1 1/16")] {
            let fraction = inch_fraction(millimetres(bore)).map(|shown| shown.number);
            assert_eq!(fraction.as_deref().unwrap_or(""), name, "{bore} mm");
        }
        assert_eq!(inch_fraction(inches(5.75)).map(|shown| shown.spoken).as_deref(), Some("5 and 3 quarters inches"));
    }
}
