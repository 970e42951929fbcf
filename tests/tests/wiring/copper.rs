//! Copper: resistance, gauges, what it withstands, and voltage lost.

use std::f64::consts::PI;
use trialfit_core::calculators::wiring::choices::Gauge;
use trialfit_core::calculators::wiring::drop::{fault_current, fuse_drop, loop_drop};
use trialfit_core::calculators::wiring::loom::{cut_length, gauge_not_thinner};
use trialfit_core::data::conductors::{Conductor, GAUGES, SIZES, swallowed, warming};
use trialfit_core::quantity::{
    Resistance, ResistancePerLength, Voltage, amperes, celsius, circle, feet, inches, metres, millimetres, milliohms, milliohms_per_metre,
    millivolts, percent, square_millimetres, volts,
};
use trialfit_tests::{agrees, agrees_within};

/// Annealed copper, 1/58 Ω·mm²/m (IEC 60028:1925, from memory).
fn ideal(square_millimetres: f64) -> ResistancePerLength {
    ResistancePerLength::from_si(1.0 / 58.0 / square_millimetres)
}

/// R(T)/R20 = 1 + 0.00393·(T − 20) (IEC 60028, from memory), computed.
#[test]
fn copper_warms_by_iec_60028() {
    let expected =
        [(-40.0, 0.764_2), (0.0, 0.921_4), (60.0, 1.157_2), (85.0, 1.255_45), (105.0, 1.334_05), (125.0, 1.412_65), (150.0, 1.510_9)];
    for (at, ratio) in expected {
        agrees_within(warming(celsius(at)), ratio, 1e-9, "IEC 60028, from memory");
    }
    // An ideal bar of 2.5 mm², a metre of it.
    agrees_within(ideal(2.5).in_milliohms_per_metre(), 6.896_552, 1e-6, "1/58 Ω·mm²/m");
    agrees_within((ideal(2.5) * warming(celsius(85.0))).in_milliohms_per_metre(), 8.658_276, 1e-6, "IEC 60028, from memory");
}

/// IEC 60228 annex B, seen in a cable maker's page. Its table is of 1/(1 + 0.004·ΔT), rounded: up to 0.43 % off.
#[test]
fn copper_warms_nearly_as_iec_60228_prints() {
    let printed = [
        (5.0, 1.064),
        (10.0, 1.042),
        (15.0, 1.020),
        (25.0, 0.980),
        (30.0, 0.962),
        (40.0, 0.926),
        (50.0, 0.893),
        (60.0, 0.862),
        (70.0, 0.833),
        (80.0, 0.806),
        (90.0, 0.781),
        (100.0, 0.758),
    ];
    for (at, factor) in printed {
        agrees_within(1.0 / warming(celsius(at)), factor, 0.005, "IEC 60228 annex B, seen in a cable maker's page");
    }
}

/// The resistances quoted from memory of ISO 6722-1 stand in one ratio to those of IEC 60228 class 5, plain, seen in two
/// cable makers' pages: the same copper with another allowance. A slip in a row would stand out.
#[test]
fn resistances_stand_in_one_ratio_to_those_of_iec_60228() {
    let class_5 = [
        (0.5, 39.0),
        (0.75, 26.0),
        (1.0, 19.5),
        (1.5, 13.3),
        (2.5, 7.98),
        (4.0, 4.95),
        (6.0, 3.30),
        (10.0, 1.91),
        (16.0, 1.21),
        (25.0, 0.780),
        (35.0, 0.554),
        (50.0, 0.386),
        (70.0, 0.272),
        (95.0, 0.206),
        (120.0, 0.161),
    ];
    for (area, resistance) in class_5 {
        let wire = Conductor::of(square_millimetres(area)).expect("a size of the table");
        agrees_within(wire.resistance.in_milliohms_per_metre() / resistance, 0.953, 0.007, "IEC 60228, seen in two cable makers' pages");
    }
}

/// Nominal area is a name: the metal is what has the resistance. Definition, on the row of 0.5 mm².
#[test]
fn nominal_area_is_not_metal() {
    let wire = Conductor::of(square_millimetres(0.5)).expect("a size of the table");
    agrees_within(wire.metal().in_square_millimetres(), 1000.0 / 58.0 / 37.1, 1e-12, "definition");
    assert!(SIZES.iter().all(|wire| wire.metal() < wire.area));
}

/// Sizes rise in everything, and what lies between two of them lies between theirs.
#[test]
fn sizes_rise() {
    for pair in SIZES.windows(2) {
        let [thin, thick] = pair else { continue };
        assert!(thin.area < thick.area && thin.resistance > thick.resistance && thin.outside < thick.outside);
        let between = Conductor::of((thin.area + thick.area) * 0.5).expect("inside the table");
        assert!(thin.resistance > between.resistance && between.resistance > thick.resistance);
        assert!(thin.outside < between.outside && between.outside < thick.outside);
    }
    for wire in &SIZES {
        assert_eq!(Conductor::of(wire.area).as_ref(), Some(wire));
    }
    assert_eq!(Conductor::of(square_millimetres(0.1)), None);
    assert_eq!(Conductor::of(square_millimetres(121.0)), None);
}

/// Diameter of a solid wire of a gauge in mm: 0.127·92^((36 − n)/39) (ASTM B258, from memory; ends at 0.005 in for 36 and
/// 0.46 in for 4/0).
fn gauge(number: i32) -> f64 {
    0.127 * 92_f64.powf(f64::from(36 - number) / 39.0)
}

/// Areas by that formula, computed elsewhere to six decimals.
#[test]
fn gauges_are_those_of_astm_b258() {
    const SOURCE: &str = "ASTM B258, from memory";
    agrees_within(gauge(-3), 0.46 * 25.4, 1e-12, SOURCE);
    agrees_within(gauge(36), 0.005 * 25.4, 1e-12, SOURCE);
    let table = [
        (-3, 107.219_303),
        (-1, 67.430_882),
        (0, 53.475_121),
        (1, 42.407_699),
        (2, 33.630_834),
        (4, 21.150_639),
        (6, 13.301_768),
        (8, 8.365_564),
        (10, 5.261_155),
        (12, 3.308_773),
        (14, 2.080_908),
        (16, 1.308_696),
        (18, 0.823_047),
        (20, 0.517_619),
        (22, 0.325_534),
        (24, 0.204_730),
    ];
    for (number, area) in table {
        let listed = GAUGES.iter().find(|(of, _)| *of == number).expect("a gauge of the list").1;
        agrees(listed, area, 1e-9, SOURCE);
    }
    for (number, area) in GAUGES {
        agrees(area, PI / 4.0 * gauge(number.into()).powi(2), 5e-7, SOURCE);
    }
    // A step is 92^(1/39), six nearly double the diameter: three nearly double the area.
    let area = |number: i8| GAUGES.iter().find(|(of, _)| *of == number).expect("a gauge of the list").1;
    agrees_within((area(4) / area(10)).sqrt(), 2.005_031_5, 1e-6, "92^(6/39)");
    agrees_within((area(1) / area(2)).sqrt(), 1.122_932_196_5, 1e-6, "92^(1/39)");
}

/// NEC (NFPA 70) chapter 9 table 8, uncoated copper at 75 °C, solid, Ω/1000 ft, seen in a public data file and a page
/// (whose label says stranded). ρ/A is within 0.4 % of it.
#[test]
fn gauges_and_warming_give_the_resistances_of_the_nec() {
    for (number, printed) in [(14, 3.07), (12, 1.93), (10, 1.21), (8, 0.764)] {
        let area = GAUGES.iter().find(|(of, _)| *of == number).expect("a gauge of the list").1;
        let hot = ideal(area) * warming(celsius(75.0));
        agrees_within((hot * feet(1000.0)).in_ohms(), printed, 0.004, "NEC chapter 9 table 8, solid");
    }
    // The conversion printed under that table: 0.00323 for each kelvin from 75 °C.
    let per_kelvin = warming(celsius(76.0)) / warming(celsius(75.0)) - 1.0;
    agrees(per_kelvin, 0.003_23, 5e-6, "NEC chapter 9 table 8, note");
    // ρ in Ω·cmil/ft, computed from 1/58 and 0.00393.
    let per_mil = |at: f64| (ideal(circle(inches(0.001)).in_square_millimetres()) * warming(celsius(at)) * feet(1.0)).in_ohms();
    for (at, expected) in [(20.0, 10.371_215), (25.0, 10.575_010), (75.0, 12.612_954)] {
        agrees_within(per_mil(at), expected, 1e-6, "ρ = 1/58 Ω·mm²/m, α = 0.00393");
    }
}

/// Circular mils that worked examples ask for, and the gauge their tables give.
#[test]
fn gauges_are_chosen_as_published_examples_choose() {
    let mils = |mils: f64| gauge_not_thinner(circle(inches(0.001)) * mils);
    assert_eq!(mils(10.75 * 10.0 * 25.0 / 0.36), Some(Gauge::G10), "12 V, 10 A, 25 ft column, 3 %: a chandlery's table");
    assert_eq!(mils(10.75 * 10.0 * 21.0 / 0.36), Some(Gauge::G12), "the same for its exact 21 ft");
    assert_eq!(mils(10.75 * 10.0 * 25.0 / 1.2), Some(Gauge::G16), "the same at 10 %");
    assert_eq!(mils(2.0 * 0.866 * 12.9 * 20.0 * 200.0 / 14.4), Some(Gauge::G12), "an electrical journal's K method");
    assert_eq!(gauge_not_thinner(square_millimetres(0.5)), Some(Gauge::G20));
    assert_eq!(gauge_not_thinner(square_millimetres(120.0)), None);
}

/// k of I²·t = k²·S²: computed from the formula of IEC 60364-5-54, and as a pocket guide to BS 7671 prints it.
#[test]
fn copper_withstands_what_bs_7671_prints() {
    let table = [
        (70.0, 160.0, 115.0, 114.836_1),
        (70.0, 140.0, 103.0, 102.653_6),
        (90.0, 250.0, 143.0, 142.874_0),
        (60.0, 200.0, 141.0, 140.734_5),
        (30.0, 160.0, 143.0, 142.686_1),
        (30.0, 250.0, 176.0, 175.569_5),
        (30.0, 200.0, 159.0, 158.989_4),
        (90.0, 160.0, 100.0, 99.738_0),
        (85.0, 160.0, 103.6, 103.626_6),
        (105.0, 160.0, 87.4, 87.443_6),
        (125.0, 250.0, 123.3, 123.274_7),
    ];
    for (start, end, printed, exact) in table {
        let k = swallowed(celsius(start), celsius(end), square_millimetres(1.0)).in_ampere_squared_seconds().sqrt();
        agrees(k, printed, 0.5, "BS 7671 tables 43.1, 54.2, 54.3, seen in a pocket guide");
        agrees(k, exact, 1e-4, "IEC 60364-5-54, formula from memory");
    }
}

/// t = k²·S²/I² for the printed k of 115 and 143: worked cases, with the unrounded k.
#[test]
fn short_circuits_last_as_long_as_k_says() {
    let pvc = |area: f64| swallowed(celsius(70.0), celsius(160.0), square_millimetres(area)) * (115.0 / 114.836_1_f64).powi(2);
    let xlpe = |area: f64| swallowed(celsius(90.0), celsius(250.0), square_millimetres(area)) * (143.0 / 142.874_0_f64).powi(2);
    let cases = [
        (pvc(2.5), 1000.0, 0.082_656_25),
        (pvc(1.5), 500.0, 0.119_025),
        (xlpe(25.0), 3000.0, 1.420_069_444),
        (pvc(2.749_806_661), 1000.0, 0.1),
        (xlpe(4.422_765_958), 2000.0, 0.1),
    ];
    for (swallows, current, time) in cases {
        agrees_within(swallows.in_ampere_squared_seconds() / (current * current), time, 1e-5, "t = k²S²/I²");
    }
}

/// Worked voltage drops.
#[test]
fn loops_lose_what_worked_examples_lose() {
    let nothing = (Resistance::ZERO, Voltage::ZERO);
    let lost = |current: f64, wire: ResistancePerLength, length: f64| {
        loop_drop(amperes(current), wire, metres(length), nothing.0, nothing.1).in_volts()
    };
    let class_5 = milliohms_per_metre(7.98);
    agrees_within(lost(20.0, class_5, 6.0), 0.957_6, 1e-9, "2.5 mm², IEC 60228 class 5, 3 m out and back");
    agrees_within(lost(20.0, class_5 * warming(celsius(60.0)), 6.0), 1.108_135, 1e-6, "the same at 60 °C");
    agrees_within(lost(150.0, ideal(25.0), 4.0), 0.413_793, 1e-6, "ideal copper");
    agrees_within(lost(120.0, ideal(9.103_448), 2.2), 0.5, 1e-6, "ideal copper, area for half a volt");
    let wire = Conductor::of(square_millimetres(1.5)).expect("a size of the table");
    agrees_within(lost(4.17, wire.resistance, 5.0), 0.264_795, 1e-6, "0.265 V, a cable-size tutorial");
    let strap = loop_drop(amperes(200.0), ideal(16.0), metres(0.3), milliohms(0.2), Voltage::ZERO);
    agrees(strap.in_volts(), 0.104_655, 5e-7, "ideal copper and two joints of 0.1 mΩ");
    // The pump of a fitter's experience, copper only, its wire at 70 °C: 8 A, 4 m out, 0.5 m back.
    for (area, fitter) in [(1.0, 0.80), (1.5, 0.55), (2.5, 0.33)] {
        let wire = Conductor::of(square_millimetres(area)).expect("a size of the table");
        agrees(lost(8.0, wire.resistance_at(celsius(70.0)), 4.5), fitter, 0.005, "common practice, no source");
    }
    // A fuse's and a relay's share come on top.
    let fixed = fuse_drop(millivolts(90.0), amperes(10.0), amperes(15.0)) + millivolts(60.0);
    agrees_within(loop_drop(amperes(10.0), class_5, metres(1.0), milliohms(10.0), fixed).in_volts(), 0.299_8, 1e-9, "sum, by hand");
}

/// 12.6 V, 6 mΩ, 5 m of 0.5 mm²: 65.796 A, computed.
#[test]
fn shorts_draw_what_their_loop_allows() {
    let wire = Conductor::of(square_millimetres(0.5)).expect("a size of the table");
    let short = fault_current(volts(12.6), milliohms(6.0), wire.resistance, metres(5.0), Resistance::ZERO);
    agrees_within(short.in_amperes(), 65.796_345, 1e-7, "Ohm's law, 191.5 mΩ");
}

/// 10 % and 150 mm more (common practice, no source).
#[test]
fn wires_are_cut_with_their_allowance() {
    agrees_within(cut_length(metres(4.0), percent(10.0), millimetres(150.0)).in_metres(), 4.55, 1e-12, "arithmetic");
}
