//! Which unit the letters after a number mean.

use super::nearest;
use crate::quantity::{DIMENSIONS, Dimension, Unit};

/// What letters are, in a dimension.
pub(super) enum Match {
    Found(&'static Unit),
    /// This unit but for `m` against `M`, which is a factor of a thousand million.
    OtherCase(&'static Unit),
    None,
}

/// Finds the unit of `dimension` that `typed` names.
pub(super) fn find(dimension: &'static Dimension, typed: &str) -> Match {
    let typed = fold(typed);
    if typed.is_empty() {
        return Match::None;
    }
    let small = typed.to_ascii_lowercase();
    let all = || dimension.units.iter().flat_map(|unit| names(unit).map(move |name| (unit, fold(name))));
    let named = dimension.units.iter().map(|unit| (unit, fold(unit.symbol))).find(|(_, symbol)| *symbol == typed);
    let named =
        named.or_else(|| all().find(|(_, name)| *name == typed)).or_else(|| all().find(|(_, name)| name.to_ascii_lowercase() == small));
    match named {
        None => Match::None,
        Some((unit, name)) if swapped_prefix(&typed, &name, dimension) => Match::OtherCase(unit),
        Some((unit, _)) => Match::Found(unit),
    }
}

/// The dimension that these letters are a unit of; the one that shows them so before one that merely allows them.
pub(super) fn dimension_of(typed: &str) -> Option<&'static Dimension> {
    let folded = fold(typed);
    let shows = |dimension: &&&Dimension| dimension.units.iter().any(|unit| fold(unit.symbol) == folded);
    let allows = |dimension: &&&'static Dimension| matches!(find(dimension, typed), Match::Found(_));
    let found = DIMENSIONS.iter().find(shows).or_else(|| DIMENSIONS.iter().find(allows));
    found.copied().filter(|_| !folded.is_empty())
}

/// The unit whose name is nearly what was typed.
pub(super) fn like(dimension: &'static Dimension, typed: &str) -> Option<&'static Unit> {
    let typed = fold(typed).to_ascii_lowercase();
    let units = dimension.units.iter();
    let all = units.flat_map(|unit| names(unit).map(move |name| (fold(name).to_ascii_lowercase(), unit)));
    nearest(&typed, all.filter(|(name, _)| name.chars().count() > 1), |(name, _)| name).map(|(_, unit)| unit)
}

/// The unit a bare number after `unit` is of: inches after feet, pounds after stone, feet after yards.
pub(super) fn below(dimension: &'static Dimension, unit: &Unit) -> Option<&'static Unit> {
    match unit.symbol {
        "yd" => dimension.find("ft"),
        "ft" => dimension.find("in"),
        "st" => dimension.find("lb"),
        _ => None,
    }
}

/// How many of `small` make one of `large`, where that is a whole number from zero up.
pub(super) fn ratio(large: &Unit, small: &Unit) -> Option<f64> {
    let from_zero = large.to_si(0.0) == 0.0 && small.to_si(0.0) == 0.0;
    let each = large.to_si(1.0) / small.to_si(1.0);
    let whole = each.round();
    (from_zero && (each - whole).abs() < 1e-9 * whole).then_some(whole)
}

/// Two parts as people write them in this dimension.
pub(super) fn pair_example(dimension: &Dimension) -> Option<&'static str> {
    match dimension.name {
        "length" => Some("5 ft 8 in"),
        "mass" => Some("11 st 4 lb"),
        "time" => Some("1 min 30 s"),
        _ => None,
    }
}

fn names(unit: &'static Unit) -> impl Iterator<Item = &'static str> {
    [unit.symbol, unit.spoken].into_iter().chain(unit.also.iter().copied()).filter(|name| !name.is_empty())
}

/// Whether these differ in the case of a leading m, and it alone, or that of a thousandth or a million of another unit.
fn swapped_prefix(typed: &str, name: &str, dimension: &Dimension) -> bool {
    let (Some((first, rest)), Some((other, same))) = (typed.split_at_checked(1), name.split_at_checked(1)) else { return false };
    let of_another = || dimension.units.iter().any(|unit| names(unit).any(|name| fold(name).eq_ignore_ascii_case(rest)));
    let prefix = first != other && first.eq_ignore_ascii_case("m") && !rest.is_empty();
    prefix && (rest == same || !rest.eq_ignore_ascii_case("m") && of_another())
}

/// A unit's letters without what people write differently: dots, spaces, raised figures, kinds of quote.
fn fold(name: &str) -> String {
    name.chars()
        .filter_map(|letter| match letter {
            ' ' | '.' | '·' | '⋅' | '•' | '*' | '-' | '⁻' | '(' | ')' | '^' => None,
            '¹' => Some('1'),
            '²' => Some('2'),
            '³' => Some('3'),
            'µ' | 'μ' => Some('u'),
            'º' | '˚' => Some('°'),
            '″' | '”' | '“' => Some('"'),
            '′' | '’' | '‘' => Some('\''),
            letter => Some(letter),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_of_every_unit_finds_that_unit() {
        for dimension in DIMENSIONS {
            for unit in dimension.units {
                for name in names(unit) {
                    let Match::Found(found) = find(dimension, name) else {
                        panic!("{name} is not read as a unit of {}", dimension.name);
                    };
                    assert_eq!(found.symbol, unit.symbol, "{name} of {}", dimension.name);
                }
            }
        }
    }

    #[test]
    fn feet_and_inches_stone_and_pounds_are_whole_ratios() {
        let of = |dimension: &'static Dimension, large, small| ratio(dimension.unit(large), dimension.unit(small));
        assert_eq!(of(crate::quantity::Length::DIMENSION, "ft", "in"), Some(12.0));
        assert_eq!(of(crate::quantity::Mass::DIMENSION, "st", "lb"), Some(14.0));
        assert_eq!(of(crate::quantity::Length::DIMENSION, "in", "mm"), None);
        assert_eq!(of(crate::quantity::Temperature::DIMENSION, "°C", "K"), None);
    }
}
