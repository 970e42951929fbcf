//! American wire gauge: a name for some areas, no scale of them.

use super::{Shown, shown};
use crate::data::conductors::GAUGES;
use crate::quantity::unit::{AWG, MM2};
use crate::quantity::{Area, square_millimetres};

/// An area this near to a gauge's, as a share of it, is called by it: lists round to two or three digits, and the next
/// gauge is 21 % away. Of the sizes of ISO 6722 only 0.13 mm² is as near to any, to 26 AWG, which merchants call alike.
const WITHIN: f64 = 0.01;

/// Thickest and thinnest: 4/0 and 40.
const THICKEST: i32 = -3;
const THINNEST: i32 = 40;

macro_rules! at_least {
    ($($name:literal)*) => { [$(concat!("mm² (", $name, " AWG or thicker)")),*] };
}

/// What stands after an area that is no gauge, for each of the trade's gauges.
const AT_LEAST: [&str; GAUGES.len()] = at_least!("26" "24" "22" "20" "18" "16" "14" "12" "10" "8" "6" "4" "2" "1" "1/0" "2/0" "3/0" "4/0");

/// Area of a solid wire of a gauge, 0 for 1/0 and falling from there: its diameter is 0.005 in · 92^((36 − n)/39) (ASTM
/// B258, from memory). To a millionth of a square millimetre, as lists have it, so that links stay short.
#[must_use]
pub fn area(gauge: i32) -> Area {
    let diameter = 0.127 * libm::exp(f64::from(36 - gauge) / 39.0 * LN_92);
    square_millimetres(libm::round(diameter * diameter * core::f64::consts::FRAC_PI_4 * 1e6) / 1e6)
}

/// Areas of the trade's gauges, rising, in mm²: [`GAUGES`], for the steps of a slider.
pub static AREAS: [f64; GAUGES.len()] = {
    let mut areas = [0.0; GAUGES.len()];
    let mut at = 0;
    while at < areas.len() {
        areas[at] = GAUGES[at].1;
        at += 1;
    }
    areas
};

/// Natural logarithm of 92.
const LN_92: f64 = 4.521_788_577_049_04;

/// The gauge of a name, without AWG: `6`, `2/0`, `00`.
#[must_use]
pub fn named(name: &str) -> Option<Area> {
    let gauge = match name.strip_suffix("/0").or_else(|| name.strip_suffix("/ 0")) {
        Some(noughts) => 1 - noughts.trim().parse::<i32>().ok().filter(|noughts| (1..=4).contains(noughts))?,
        None if name.len() > 1 && name.bytes().all(|digit| digit == b'0') => 1 - i32::try_from(name.len()).ok()?,
        None if name.bytes().all(|digit| digit.is_ascii_digit()) => name.parse().ok()?,
        None => return None,
    };
    (THICKEST..=THINNEST).contains(&gauge).then(|| area(gauge))
}

/// The gauge of an area, where it is one.
#[must_use]
pub fn of(square_metres: f64) -> Option<Shown> {
    let gauge = (THICKEST..=THINNEST).find(|gauge| (square_metres / area(*gauge).si() - 1.0).abs() < WITHIN)?;
    Some(shown(&if gauge > 0 { gauge.to_string() } else { format!("{}/0", 1 - gauge) }, AWG))
}

/// An area that is no gauge with the trade's gauge that has no less copper; a gauge as it is.
pub(super) fn or_thicker(square_metres: f64, shown: Shown) -> Shown {
    let enough = GAUGES.iter().position(|(_, area)| square_millimetres(*area).si() >= square_metres);
    match enough.filter(|_| shown.unit == MM2.symbol && square_metres > 0.0) {
        Some(at) => {
            let spoken = format!("{}, {}", shown.spoken, AT_LEAST[at].trim_start_matches("mm² (").trim_end_matches(')'));
            Shown { unit: AT_LEAST[at], spoken, ..shown }
        }
        None => shown,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::conductors::SIZES;
    use crate::show::input;

    // ASTM B258, from memory: diameters in mil and areas in mm² of some gauges.
    #[test]
    fn gauges_are_those_of_the_standard() {
        for (gauge, mil, mm2) in
            [(36, 5.0, 0.0127), (24, 20.1, 0.205), (12, 80.8, 3.31), (10, 101.9, 5.26), (0, 324.9, 53.5), (-3, 460.0, 107.0)]
        {
            let area = area(gauge);
            let diameter = (area.in_square_millimetres() / core::f64::consts::FRAC_PI_4).sqrt() / 0.0254;
            assert!((diameter / mil - 1.0).abs() < 6e-4, "{gauge}: {diameter} mil");
            assert!((area.in_square_millimetres() / mm2 - 1.0).abs() < 5e-3, "{gauge}: {area:?}");
        }
        assert!((libm::exp(LN_92) / 92.0 - 1.0).abs() < 1e-14);
    }

    #[test]
    fn the_trades_gauges_are_the_formulas() {
        for (gauge, mm2) in GAUGES {
            assert_eq!(area(gauge.into()), square_millimetres(mm2), "{gauge}");
        }
    }

    #[test]
    fn every_gauge_comes_back_by_its_name() {
        for gauge in THICKEST..=THINNEST {
            let shown = of(area(gauge).si()).expect("a gauge");
            assert_eq!(named(&shown.number), Some(area(gauge)), "{shown}");
        }
        assert_eq!([named("00"), named("0000")], [named("2/0"), named("4/0")]);
        for no_gauge in ["", "41", "5/0", "0/0", "00000", "2.5", "x", "-3"] {
            assert_eq!(named(no_gauge), None, "{no_gauge}");
        }
    }

    #[test]
    fn no_metric_size_but_the_thinnest_passes_for_a_gauge() {
        for size in &SIZES[1..] {
            assert_eq!(of(size.area.si()), None, "{:?}", size.area);
        }
    }

    // 12 AWG has 3.31 mm² and 14 AWG 2.08: ASTM B258, from memory.
    #[test]
    fn an_area_that_is_no_gauge_says_which_has_no_less() {
        let shown = |mm2: f64| {
            let area = square_millimetres(mm2).si();
            or_thicker(area, of(area).unwrap_or_else(|| input(area, MM2)))
        };
        let said = |mm2: f64| shown(mm2).to_string().replace('\u{A0}', " ");
        assert_eq!([said(2.5), said(3.31), said(2.08)], ["2.5 mm² (12 AWG or thicker)", "12 AWG", "14 AWG"]);
        assert_eq!([said(0.14), said(120.0), said(0.0)], ["0.14 mm² (24 AWG or thicker)", "120 mm²", "0 mm²"]);
        assert_eq!(shown(2.5).spoken, "2.5 square millimetres, 12 AWG or thicker");
    }
}
