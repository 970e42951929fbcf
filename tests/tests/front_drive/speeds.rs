//! Ratios and speeds.

use trialfit_core::calculators::front_drive::designation::{Designation, RIB_PITCH, cord_length, effective_length, nearest};
use trialfit_core::calculators::front_drive::speeds;
use trialfit_core::quantity::{millimetres, per_minute};
use trialfit_tests::{agrees, agrees_within};

const COMPUTED: &str = "ratio of diameters, by hand";

#[test]
fn alternator_speeds_of_the_worked_ratio() {
    // L6 and L7: crank 146 and alternator 56 mm effective, 2 mm line difference.
    let crank = speeds::on_ribs(millimetres(146.0), millimetres(2.0));
    let alternator = speeds::on_ribs(millimetres(56.0), millimetres(2.0));
    for (engine, expected) in [(850.0, 2125.0), (3000.0, 7500.0), (7000.0, 17_500.0)] {
        let got = speeds::driven(per_minute(engine), crank, alternator, 0.0);
        agrees_within(got.in_per_minute(), expected, 1e-12, COMPUTED);
    }
    // L8: the same with 1 % slip.
    for (engine, expected) in [(850.0, 2103.75), (3000.0, 7425.0), (7000.0, 17_325.0)] {
        let got = speeds::driven(per_minute(engine), crank, alternator, 0.01);
        agrees_within(got.in_per_minute(), expected, 1e-12, COMPUTED);
    }
    // L9: the engine speed that brings the rated 6000 min⁻¹.
    let got = speeds::driven(per_minute(6000.0), alternator, crank, 0.0);
    agrees_within(got.in_per_minute(), 2400.0, 1e-12, COMPUTED);
}

#[test]
fn largest_ratio_under_a_rotor_limit() {
    // L10: 18 000 min⁻¹ at 7200 allows 2.5, so 60 mm under a 150 mm crank pulley.
    let least = speeds::diameter_for(per_minute(18_000.0), per_minute(7200.0), millimetres(150.0));
    agrees_within(least.in_millimetres(), 60.0, 1e-12, COMPUTED);
}

#[test]
fn line_difference_moves_the_ratio_by_two_percent() {
    // ISO 9981:2020, 5.4 (2 mm nominal) against the 1.2 mm of measurement (from memory), and none.
    for (difference, expected) in [(2.0, 2.400000), (1.2, 2.438356), (0.0, 2.500000)] {
        let on = |effective| speeds::on_ribs(millimetres(effective), millimetres(difference));
        let got = speeds::driven(per_minute(1000.0), on(140.0), on(56.0), 0.0);
        agrees(got.in_per_minute() / 1000.0, expected, 5e-7, "ISO 9981:2020, 5.4, computed");
    }
}

#[test]
fn fitters_ranges_are_met() {
    // Common practice, no source: what a fitter would accept, with the nominal line difference.
    let at = |engine, pulley| {
        let on = |effective| speeds::on_ribs(millimetres(effective), millimetres(2.0));
        speeds::driven(per_minute(engine), on(146.0), on(pulley), 0.0).in_per_minute()
    };
    assert!((2100.0..=2160.0).contains(&at(850.0, 56.0)));
    assert!((17_400.0..=17_800.0).contains(&at(7000.0, 56.0)));
    agrees(at(850.0, 65.0), 1860.0, 20.0, "common practice");
    assert!((15_200.0..=15_400.0).contains(&at(7000.0, 65.0)));
}

#[test]
fn compound_drive() {
    let source = "Khurmi and Gupta, Theory of Machines, example 11.1, seen";
    for (slip, exact, printed, half_digit) in [(0.0, 1500.0, 1500.0, 0.5), (0.02, 1440.6, 1440.0, 1.0)] {
        let middle = speeds::driven(per_minute(150.0), millimetres(750.0), millimetres(450.0), slip);
        let last = speeds::driven(middle, millimetres(900.0), millimetres(150.0), slip);
        agrees_within(last.in_per_minute(), exact, 1e-12, source);
        agrees(last.in_per_minute(), printed, half_digit, source);
    }
}

#[test]
fn v_belt_ratio_of_mott() {
    // B43: 1160 min⁻¹ on 12.4 in to 21.1 in, printed 682.
    let source = "Mott, Machine Elements in Mechanical Design, 4th ed., example 7-1, seen";
    let got = speeds::driven(per_minute(1160.0), millimetres(12.4), millimetres(21.1), 0.0);
    agrees(got.in_per_minute(), 681.7062, 5e-5, source);
    agrees(got.in_per_minute(), 682.0, 0.5, source);
}

#[test]
fn back_side_pulleys_grow_by_the_belts_back() {
    let got = speeds::on_back(millimetres(70.0), millimetres(1.5));
    agrees_within(got.in_millimetres(), 73.0, 1e-12, COMPUTED);
}

#[test]
fn belt_and_rim_speeds() {
    // B20: 55.7 mm at 6000 min⁻¹; H20: an impeller of 70 mm at 7000 min⁻¹.
    for (diameter, at, expected) in [(55.7, 6000.0, 17.498671), (70.0, 7000.0, 25.656340)] {
        let got = speeds::belt(per_minute(at), millimetres(diameter));
        agrees(got.in_metres_per_second(), expected, 5e-7, "π·d·n, computed");
    }
}

#[test]
fn pulleys_out_of_line() {
    // tan 0.5° = 0.008727 (any table): 0.5° over 200 mm is 1.7454 mm.
    let got = speeds::misalignment(millimetres(1.745_373_6), millimetres(200.0));
    agrees(got.in_degrees(), 0.5, 1e-6, "table of tangents");
    assert_eq!(got, speeds::misalignment(millimetres(-1.745_373_6), millimetres(200.0)));
}

#[test]
fn a_belts_name_and_length() {
    // Two equal pulleys of 100 mm effective, 250 mm apart: L_e = 2·250 + π·100, by definition of ISO 9981 (from memory).
    let effective = 2.0 * 250.0 + std::f64::consts::PI * 100.0;
    let cord = 2.0 * 250.0 + std::f64::consts::PI * 104.0;
    let got = effective_length(millimetres(cord), millimetres(2.0));
    agrees(got.in_millimetres(), effective, 1e-9, "ISO 9981, from memory");
    agrees(cord_length(got, millimetres(2.0)).in_millimetres(), cord, 1e-9, "the same, back");

    let name = Designation { ribs: 6, length: millimetres(1250.0) };
    assert_eq!(name.to_string(), "6PK1250", "ISO 9981, from memory");
    for (ribs, expected) in [(6.0, 21.36), (7.0, 24.92)] {
        agrees((RIB_PITCH * ribs).in_millimetres(), expected, 1e-9, "ISO 9981, from memory");
    }

    let any = |wanted, step, least, most| nearest(millimetres(wanted), millimetres(step), millimetres(least), millimetres(most));
    for (wanted, least, most, expected) in
        [(1193.1, 1100.0, 1300.0, 1195.0), (1193.1, 1197.0, 1300.0, 1200.0), (1193.1, 1100.0, 1191.0, 1190.0)]
    {
        let got = any(wanted, 5.0, least, most).expect("a belt");
        agrees(got.in_millimetres(), expected, 1e-9, "multiples of five");
    }
    assert_eq!(any(1193.0, 5.0, 1191.0, 1194.0), None, "no multiple of five lies there");
    for (wanted, step) in [(1000.0, 0.0), (1000.0, -5.0), (f64::NAN, 5.0), (1e12, 5.0)] {
        assert_eq!(any(wanted, step, 1.0, 2000.0), None);
    }
    assert_eq!(any(1000.0, 5.0, f64::NAN, 2000.0), None);
}
