//! What people type → a number in SI, or one sentence saying what would be taken.
//!
//! `22.2`, `22,2 mm`, `7/8"`, `5 3/4 in`, `5' 8"`, `11 st 4 lb`, `(85+91)/2 mm`, `1e3`: a number, a fraction or a sum
//! of bare numbers, then a unit if it is not the field's own. The rules where people differ:
//!
//! - One comma or one point is the decimal mark: `22,225` and `1,234` have three decimals. Several alike are digit
//!   groups (`1,234,567`), and where both kinds stand the last is the decimal mark (`1.234,5`, `1,234.5`).
//! - A space or an apostrophe before exactly three digits groups them: `17 500`, `17'500`.
//! - Units are read without regard to case, except that `m` (a thousandth) is never taken for `M` (a million).
//! - `5-3/4` is refused: it may mean 5¾ or 4¼. So is `5-6`: it may mean from 5 to 6; and `6-5` where ranges are given.
//! - A conductor may be typed by its American gauge, `6 AWG`, `AWG 2/0`: see [`gauge`].

mod nearest;
mod number;
mod sum;
mod text;
mod unit;

pub(crate) use nearest::nearest;
pub(crate) use text::invisible;
pub use text::{clean, decoded, hostile};

use crate::quantity::unit::CONDUCTOR;
use crate::quantity::{Area, Dimension, Unit};
use crate::show::{Sort, gauge};
use sum::Reader;
use unit::Match;

/// Longest entry read, in characters; a longer one is a paste gone wrong.
const LONGEST: usize = 120;

/// Why an entry could not be read. Shown as one sentence beside the field; what was typed in it is already cleaned.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum EntryError {
    /// Nothing but spaces.
    #[error("Nothing is written here. Write a number: {example}.")]
    Empty {
        /// A number with the field's unit.
        example: String,
    },
    /// Longer than any quantity.
    #[error("This is too long for one number. Write one like {example}.")]
    TooLong {
        /// A number with the field's unit.
        example: String,
    },
    /// No number at its start.
    #[error("“{text}” is not a number. Write one, with its unit if you like: {example}.")]
    NotANumber {
        /// What was typed.
        text: String,
        /// A number with the field's unit.
        example: String,
    },
    /// A second number where a unit should be.
    #[error("“{text}” reads as more than one number. Write one: {example}.")]
    TwoNumbers {
        /// What was typed.
        text: String,
        /// A number with the field's unit.
        example: String,
    },
    /// Points, commas and groups that agree with no way of writing numbers.
    #[error("The points and commas of “{text}” do not make one number. Write it plainly: {example}.")]
    Marks {
        /// What was typed.
        text: String,
        /// A number with the field's unit.
        example: String,
    },
    /// A hyphen that may join or subtract.
    #[error(
        "“{whole}-{fraction}” may be {whole} {fraction}, or {whole} less {fraction}. Write “{whole} {fraction}” for the one, “{whole} - {fraction}” for the other."
    )]
    DashedFraction {
        /// Before the hyphen.
        whole: String,
        /// After it.
        fraction: String,
    },
    /// A hyphen between two numbers, the larger last or in a field of ranges.
    #[error("“{from}-{to}” may be from {from} to {to}, or {from} less {to}. Write one number, or “{from} - {to}” for the difference.")]
    Range {
        /// Before the hyphen.
        from: String,
        /// After it.
        to: String,
    },
    /// A sum that stops in its middle.
    #[error("“{text}” stops in the middle of a sum. Write it whole, like {example}.")]
    Unfinished {
        /// What was typed.
        text: String,
        /// A sum with the field's unit.
        example: String,
    },
    /// A fraction over nothing.
    #[error("“{text}” divides by zero, which has no answer.")]
    DividesByZero {
        /// What was typed.
        text: String,
    },
    /// A part of a number where things are counted.
    #[error("“{text}” is not a whole number, and this is a count.")]
    NotWhole {
        /// What was typed.
        text: String,
    },
    /// Beyond what a number here can hold.
    #[error("“{text}” is too large to work with. Write one like {example}.")]
    TooLarge {
        /// What was typed.
        text: String,
        /// A number with the field's unit.
        example: String,
    },
    /// Not zero, yet nearer to it than a number here can hold.
    #[error("“{text}” is too small to be told from 0. Write 0, or one like {example}.")]
    TooSmall {
        /// What was typed.
        text: String,
        /// A number with the field's unit.
        example: String,
    },
    /// Letters after the number that are no unit here.
    #[error("{number} what? “{typed}” is no unit of {dimension}. {suggestion}, perhaps.")]
    UnknownUnit {
        /// The number before it.
        number: String,
        /// The letters.
        typed: String,
        /// What the field holds.
        dimension: &'static str,
        /// The same number with a unit that would be taken.
        suggestion: String,
    },
    /// A unit of something else.
    #[error("{typed} is a unit of {other}; this wants {} {wanted}, such as {suggestion}.", article(wanted))]
    OtherDimension {
        /// The unit.
        typed: String,
        /// What it measures.
        other: &'static str,
        /// What the field holds.
        wanted: &'static str,
        /// The same number with a unit that would be taken.
        suggestion: String,
    },
    /// `mPa` for `MPa`.
    #[error("{typed} is not {meant}: a small m is a thousandth, a large M a million. {suggestion}, perhaps.")]
    PrefixCase {
        /// As typed.
        typed: String,
        /// The unit that differs in that letter alone.
        meant: &'static str,
        /// The same number with that unit.
        suggestion: String,
    },
    /// A unit with more of the sum after it.
    #[error("“{text}” has a unit inside the sum. Write bare numbers and the unit once, at the end: {example}.")]
    UnitInside {
        /// What was typed.
        text: String,
        /// A sum with the field's unit.
        example: String,
    },
    /// `AWG 2.5`.
    #[error(
        "“{text}” is no American gauge: they are whole, 40 the thinnest and 4/0 the thickest. Write one like 12 AWG, or an area like 2.5 mm²."
    )]
    NoGauge {
        /// What was typed.
        text: String,
    },
    /// `8 in 5 ft`, `5 ft 14 in`.
    #[error("“{text}” does not add up. Write the larger unit first and less than one of it after, like {example}.")]
    Parts {
        /// What was typed.
        text: String,
        /// A pair that would be taken.
        example: String,
    },
}

/// A conductor typed by its American gauge; none where that is not what was typed.
fn gauge(letters: &[char], unit: &Unit) -> Option<Result<f64, EntryError>> {
    if unit.sort != Some(Sort::Conductor) {
        return None;
    }
    let text: String = letters.iter().collect::<String>().to_ascii_lowercase();
    let name = text.strip_suffix("awg").or_else(|| text.strip_prefix("awg"));
    // In a field of gauges a bare number is one.
    let name = name.or_else(|| (unit.is_gauge() && !text.contains(char::is_alphabetic)).then_some(&text))?;
    Some(gauge::named(name.trim()).map(Area::si).ok_or_else(|| EntryError::NoGauge { text: clean(&text.to_uppercase(), 24) }))
}

/// Reads a quantity as typed into a field of this dimension, whose bare numbers are of `unit`; gives its number in the
/// coherent SI unit of `dimension` (which is known only when it runs, so that no typed quantity can be), always finite and
/// never −0.
///
/// ```
/// use trialfit_core::{entry::read_quantity, quantity::Length};
/// let millimetres = Length::DIMENSION.unit("mm");
/// let read = |typed| read_quantity(typed, Length::DIMENSION, millimetres);
/// assert_eq!(read("7/8 in"), Ok(0.022225)); // a slave cylinder's bore
/// assert_eq!(read("22,225"), Ok(0.022225));
/// assert_eq!(read("145 lb").unwrap_err().to_string(), "lb is a unit of mass; this wants a length, such as 145 mm.");
/// ```
///
/// # Errors
/// [`EntryError`], when the text is anything else.
pub fn read_quantity(text: &str, dimension: &'static Dimension, unit: &'static Unit) -> Result<f64, EntryError> {
    read(text, dimension, unit, false)
}

/// Like [`read_quantity`], its number in the same SI unit, for a tolerance or an end of a range, where people write `6-5` for a range: only
/// with spaces, `6 - 5`, is it a difference.
///
/// # Errors
/// [`EntryError`], when the text is anything else.
pub fn read_end(text: &str, dimension: &'static Dimension, unit: &'static Unit) -> Result<f64, EntryError> {
    read(text, dimension, unit, true)
}

fn read(text: &str, dimension: &'static Dimension, unit: &'static Unit, ranges: bool) -> Result<f64, EntryError> {
    // Areas are no gauges: what is said of them is in their own unit.
    let entry = Entry { shown: clean(text, 24), dimension, unit: if unit.is_gauge() { CONDUCTOR } else { unit } };
    if text.chars().nth(LONGEST).is_some() {
        return Err(EntryError::TooLong { example: entry.example() });
    }
    let letters = text::plain(text);
    if letters.is_empty() {
        return Err(EntryError::Empty { example: entry.example() });
    }
    if let Some(read) = gauge(&letters, unit) {
        return read;
    }
    let si = entry.parts(&mut Reader::new(&letters, ranges))?;
    if !si.is_finite() {
        return Err(entry.too_large());
    }
    Ok(si + 0.0) // −0 becomes 0
}

/// What the field takes, and what was typed, for the words of an error.
struct Entry {
    shown: String,
    dimension: &'static Dimension,
    unit: &'static Unit,
}

impl Entry {
    /// One quantity: a sum with a unit, or falling parts such as feet and inches.
    fn parts(&self, reader: &mut Reader<'_>) -> Result<f64, EntryError> {
        let first = reader.sum().map_err(|why| self.explain(why))?;
        let Some(mut unit) = self.unit_at(reader, first.value)? else {
            return Ok(self.unit.to_si(first.value));
        };
        let mut total = first.value;
        while !reader.at_end() {
            if !first.single || !reader.starts_number() {
                return Err(self.left_over(reader));
            }
            let part = reader.product().map_err(|why| self.explain(why))?;
            let smaller = match self.unit_at(reader, part)? {
                Some(unit) => unit,
                None => unit::below(self.dimension, unit).ok_or_else(|| self.not_one())?,
            };
            let each = unit::ratio(unit, smaller).filter(|each| *each > 1.0 && part < *each).ok_or_else(|| self.parts_wrong())?;
            // In the smaller unit, so that 5 ft 8 in and 68 in are the same number to the last bit.
            total = total * each + if first.negative { -part } else { part };
            unit = smaller;
        }
        Ok(unit.to_si(total))
    }

    /// The unit written at the reader, if any is.
    fn unit_at(&self, reader: &mut Reader<'_>, number: f64) -> Result<Option<&'static Unit>, EntryError> {
        reader.skip_spaces();
        if reader.at_end() {
            return Ok(None);
        }
        if let Match::Found(unit) = unit::find(self.dimension, &reader.rest()) {
            reader.take_rest();
            return Ok(Some(unit));
        }
        if reader.starts_number() {
            return Err(self.not_one());
        }
        if reader.at_operator() {
            return Err(self.unfinished());
        }
        let typed = reader.unit_text();
        let suggest = |unit: &Unit| written(number, unit);
        match unit::find(self.dimension, &typed) {
            Match::Found(unit) => Ok(Some(unit)),
            Match::OtherCase(unit) => Err(EntryError::PrefixCase { typed, meant: unit.symbol, suggestion: suggest(unit) }),
            Match::None => Err(match unit::dimension_of(&typed) {
                Some(other) => EntryError::OtherDimension {
                    typed: clean(&typed, 12),
                    other: other.name,
                    wanted: self.dimension.name,
                    suggestion: suggest(self.unit),
                },
                None => EntryError::UnknownUnit {
                    number: plain_number(number),
                    suggestion: suggest(unit::like(self.dimension, &typed).unwrap_or(self.unit)),
                    typed: clean(&typed, 12),
                    dimension: self.dimension.name,
                },
            }),
        }
    }

    fn example(&self) -> String {
        written(12.5, self.unit)
    }

    fn sum_example(&self) -> String {
        let unit = self.unit.symbol;
        if unit.is_empty() { "(85+91)/2".into() } else { format!("(85+91)/2 {unit}") }
    }

    fn explain(&self, why: sum::Problem) -> EntryError {
        let (text, example) = (self.shown.clone(), self.example());
        match why {
            sum::Problem::NotANumber => EntryError::NotANumber { text, example },
            sum::Problem::Marks => EntryError::Marks { text, example },
            sum::Problem::Unfinished => self.unfinished(),
            sum::Problem::DividesByZero => EntryError::DividesByZero { text },
            sum::Problem::TooLarge => self.too_large(),
            sum::Problem::TooSmall => EntryError::TooSmall { text, example },
            sum::Problem::Range { from, to } => EntryError::Range { from, to },
            sum::Problem::DashedFraction { whole, fraction } => EntryError::DashedFraction { whole, fraction },
        }
    }

    fn left_over(&self, reader: &Reader<'_>) -> EntryError {
        if reader.starts_number() {
            return self.not_one();
        }
        EntryError::UnitInside { text: self.shown.clone(), example: self.sum_example() }
    }

    fn not_one(&self) -> EntryError {
        EntryError::TwoNumbers { text: self.shown.clone(), example: self.example() }
    }

    fn unfinished(&self) -> EntryError {
        EntryError::Unfinished { text: self.shown.clone(), example: self.sum_example() }
    }

    fn too_large(&self) -> EntryError {
        EntryError::TooLarge { text: self.shown.clone(), example: self.example() }
    }

    fn parts_wrong(&self) -> EntryError {
        EntryError::Parts {
            text: self.shown.clone(),
            example: unit::pair_example(self.dimension).map_or_else(|| self.example(), Into::into),
        }
    }
}

/// A number and a unit as one would write them.
fn written(number: f64, unit: &Unit) -> String {
    let number = plain_number(number);
    match unit.symbol {
        "" => number,
        "°" => format!("{number}°"),
        symbol => format!("{number} {symbol}"),
    }
}

fn plain_number(number: f64) -> String {
    crate::show::significant(number, 6, crate::show::Zeros::Drop)
}

fn article(word: &str) -> &'static str {
    if word.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}
