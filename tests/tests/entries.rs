//! What people type, as data beside what must be read or said; and laws over any text at all.

use proptest::prelude::*;
use serde::Deserialize;
use trialfit_core::entry::{read_end, read_quantity};
use trialfit_core::quantity::{DIMENSIONS, Dimension, Length, Unit};
use trialfit_core::show;
use trialfit_tests::laws;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    dimension: Option<String>,
    unit: Option<String>,
    entry: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    dimension: Option<String>,
    unit: Option<String>,
    typed: String,
    reads: Option<f64>,
    says: Option<String>,
}

#[test]
fn entries_are_read_as_written_beside_them() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/entries");
    let mut failures = Vec::new();
    let mut walked = 0;
    for file in std::fs::read_dir(folder).expect("the folder of entries") {
        let path = file.expect("an entry of the folder").path();
        let text = std::fs::read_to_string(&path).expect("a readable file");
        let file: File = toml::from_str(&text).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
        for case in &file.entry {
            walked += 1;
            if let Err(why) = check(&file, case) {
                failures.push(format!("{}: “{}”: {why}", path.display(), case.typed));
            }
        }
    }
    assert!(walked > 100, "only {walked} entries were found");
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

/// A field of lengths takes the difference of two readings; an end of a range does not guess it.
#[test]
fn a_range_is_asked_about_either_way_round() {
    let unit = Length::DIMENSION.unit("mm");
    let end = |typed| read_end(typed, Length::DIMENSION, unit).map_err(|why| why.to_string());
    let asked = "“6-5” may be from 6 to 5, or 6 less 5. Write one number, or “6 - 5” for the difference.";
    assert_eq!(end("6-5"), Err(asked.into()));
    assert_eq!(end("6–5 mm"), Err(asked.into()));
    assert!(end("5-6").is_err() && end("5-5").is_err());
    assert_eq!(read_quantity("6-5", Length::DIMENSION, unit), Ok(0.001));
    for (typed, read) in [("6 - 5", 0.001), ("-5", -0.005), ("6.5", 0.0065), ("(6-5)/2", 0.0005), ("1e-3", 1e-6)] {
        assert_eq!(end(typed), Ok(read), "{typed}");
    }
}

fn check(file: &File, case: &Case) -> Result<(), String> {
    let dimension = case.dimension.as_ref().or(file.dimension.as_ref()).ok_or("names no dimension")?;
    let unit = case.unit.as_ref().or(file.unit.as_ref()).ok_or("names no unit")?;
    let dimension = DIMENSIONS.iter().find(|known| known.name == dimension).ok_or("no such dimension")?;
    let unit = dimension.find(unit).ok_or("no such unit")?;
    match (read_quantity(&case.typed, dimension, unit), case.reads, &case.says) {
        (Ok(si), Some(expected), None) => {
            let wanted = unit.to_si(expected);
            let close = (si - wanted).abs() <= 1e-12 * wanted.abs();
            if close { Ok(()) } else { Err(format!("read {si}, not {wanted} in SI")) }
        }
        (Err(why), None, Some(expected)) => {
            let said = why.to_string();
            if said == *expected { Ok(()) } else { Err(format!("said\n  {said}\nnot\n  {expected}")) }
        }
        (got, _, _) => Err(format!("gave {got:?}")),
    }
}

#[test]
fn ten_thousand_letters_are_refused_at_once() {
    let (dimension, unit) = (DIMENSIONS[0], &DIMENSIONS[0].units[1]);
    for text in ["1".repeat(10_000), "(".repeat(10_000), "1+".repeat(5_000), "é".repeat(10_000)] {
        let said = read_quantity(&text, dimension, unit).expect_err("too long").to_string();
        assert_eq!(said, "This is too long for one number. Write one like 12.5 mm.");
    }
}

/// Any dimension with any of its units.
fn fields() -> impl Strategy<Value = (&'static Dimension, &'static Unit)> {
    let all: Vec<_> = DIMENSIONS.iter().flat_map(|dimension| dimension.units.iter().map(move |unit| (*dimension, unit))).collect();
    prop::sample::select(all)
}

/// Half of the last of so many significant digits, as a share of a number that begins with 1.
const DIGIT: [f64; 8] = [5.0, 0.5, 0.05, 5e-3, 5e-4, 5e-5, 5e-6, 5e-7];

proptest! {
    #![proptest_config(laws(256))]

    #[test]
    fn no_text_panics_or_gives_anything_but_a_plain_number(text in any::<String>(), (dimension, unit) in fields()) {
        sound(&text, dimension, unit)?;
    }

    #[test]
    fn no_text_made_of_what_entries_are_made_of_does(text in "[-+*/(). ,'\"0-9e½¾−×a-z°²·]{0,40}", (dimension, unit) in fields()) {
        sound(&text, dimension, unit)?;
    }

    #[test]
    fn what_a_field_shows_reads_back_to_the_same_bits(
        number in prop_oneof![-1e6_f64..1e6, -1.0_f64..1.0, (-100_000_i32..100_000).prop_map(|n| f64::from(n) / 1000.0)],
        (dimension, unit) in fields(),
    ) {
        let si = unit.to_si(number) + 0.0;
        let Some(text) = show::shortest(si, unit) else {
            return Ok(()); // no double of this unit: links fall back on SI
        };
        let read = read_quantity(&text, dimension, unit);
        prop_assert_eq!(read.map(f64::to_bits), Ok(si.to_bits()), "{}", text);
        let read = show::shortest(si, &dimension.units[0]).expect("SI always has one").parse::<f64>();
        prop_assert_eq!(read.map(f64::to_bits), Ok(si.to_bits()));
    }

    #[test]
    fn what_is_shown_is_read_again_to_the_digits_shown(number in -1e7_f64..1e7, digits in 2_u8..8, (dimension, unit) in fields()) {
        let si = unit.to_si(number);
        let shown = show::answer(si, unit, digits);
        let read = read_quantity(&shown.to_string(), dimension, unit).map_err(|why| TestCaseError::fail(why.to_string()))?;
        let rounding = DIGIT[usize::from(digits)] * number.abs().max(1e-12) * 1.000_001;
        prop_assert!((unit.from_si(read) - number).abs() <= rounding + 1e-9, "{} from {}", shown, number);
    }

    #[test]
    fn decimals_typed_are_shown_as_typed(thousandths in -9_999_999_i64..9_999_999, (dimension, unit) in fields()) {
        let typed = format!("{}", thousandths as f64 / 1000.0);
        let si = read_quantity(&typed, dimension, unit).map_err(|why| TestCaseError::fail(why.to_string()))?;
        let shown = show::input(si, unit).number.replace('−', "-");
        prop_assert_eq!(shown.parse::<f64>().map(f64::to_bits), typed.parse::<f64>().map(|n| (n + 0.0).to_bits()), "{} shown as {}", typed, shown);
    }

    #[test]
    fn the_comma_is_the_point(whole in 0_u32..100_000, decimals in 0_u32..1000, (dimension, unit) in fields()) {
        let point = read_quantity(&format!("{whole}.{decimals:03}"), dimension, unit);
        let comma = read_quantity(&format!("{whole},{decimals:03}"), dimension, unit);
        prop_assert!(point.is_ok());
        prop_assert_eq!(point, comma);
    }
}

fn sound(text: &str, dimension: &'static Dimension, unit: &'static Unit) -> Result<(), TestCaseError> {
    match read_quantity(text, dimension, unit) {
        Ok(si) => prop_assert!(si.is_finite() && !(si == 0.0 && si.is_sign_negative())),
        Err(why) => {
            let said = why.to_string();
            prop_assert!(said.chars().count() < 200, "{}", said);
            let hidden = |letter: char| letter.is_control() || matches!(letter, '\u{202A}'..='\u{202E}');
            prop_assert!(!said.contains(hidden), "hidden letters");
        }
    }
    Ok(())
}
