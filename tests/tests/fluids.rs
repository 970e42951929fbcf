//! Water, coolant and air against published or reference-library values.

use trialfit_core::data::{atmosphere, coolant, water};
use trialfit_core::quantity::{bar, celsius, kelvin, kilopascals, megapascals, metres, millimetres, pascals, ratio};
use trialfit_tests::{agrees, agrees_within};

const COOLPROP: &str = "CoolProp 8.0.0, IAPWS-95, computed";

/// °C, saturation pressure kPa, density of the liquid kg/m³.
const SATURATION: [[f64; 3]; 17] = [
    [20.0, 2.33932, 998.1618],
    [30.0, 4.24697, 995.6062],
    [40.0, 7.38494, 992.1751],
    [50.0, 12.35195, 987.9962],
    [60.0, 19.94643, 983.1602],
    [70.0, 31.20093, 977.7337],
    [80.0, 47.41447, 971.7662],
    [85.0, 57.86697, 968.5918],
    [90.0, 70.18177, 965.2953],
    [95.0, 84.60847, 961.8802],
    [100.0, 101.41800, 958.3491],
    [105.0, 120.90309, 954.7043],
    [110.0, 143.37871, 950.9480],
    [115.0, 169.18238, 947.0817],
    [120.0, 198.67442, 943.1066],
    [125.0, 232.23815, 939.0238],
    [130.0, 270.27998, 934.8340],
];

#[test]
fn water_boils_and_weighs_as_the_steam_formulation_says() {
    for [at, pressure, density] in SATURATION {
        let got = water::saturation_pressure(celsius(at)).expect("in range");
        agrees_within(got.in_kilopascals(), pressure, 1e-4, COOLPROP);
        let got = water::density(celsius(at)).expect("in range");
        agrees_within(got.si(), density, 1e-5, COOLPROP);
    }
}

#[test]
fn saturation_line_reproduces_its_own_release() {
    // IAPWS R7-97(2012), tables 35 and 36, from memory; rows beyond 200 °C are outside our range.
    let source = "IAPWS R7-97(2012), table 35";
    let got = water::saturation_pressure(kelvin(300.0)).expect("in range");
    agrees_within(got.in_megapascals(), 0.353_658_941e-2, 2e-9, source);
    let source = "IAPWS R7-97(2012), table 36";
    let got = water::boiling_point(megapascals(0.1)).expect("in range");
    agrees_within(got.in_kelvin(), 0.372_755_919e3, 2e-9, source);
    let got = water::boiling_point(megapascals(1.0)).expect("in range");
    agrees_within(got.in_kelvin(), 0.453_035_632e3, 2e-9, source);
}

#[test]
fn a_second_library_agrees_on_saturation() {
    for (at, expected) in [(20.0, 2.339215), (90.0, 70.182361), (100.0, 101.417978), (120.0, 198.665400), (130.0, 270.259607)] {
        let got = water::saturation_pressure(celsius(at)).expect("in range");
        agrees_within(got.in_kilopascals(), expected, 3e-7, "iapws 1.5, IAPWS97");
    }
}

#[test]
fn a_cap_raises_the_boiling_point() {
    let at_sea = [
        (0.0, 99.9743),
        (0.5, 111.6135),
        (0.9, 118.8140),
        (1.0, 120.4190),
        (1.1, 121.9601),
        (1.3, 124.8720),
        (1.5, 127.5856),
        (2.0, 133.6728),
    ];
    let at_2000 = [(0.0, 93.3174), (0.9, 115.0578), (1.1, 118.5139), (1.3, 121.6836)];
    let at_3000 = [(0.0, 89.9772), (1.1, 116.9321)];
    for (height, cases) in [(0.0, &at_sea[..]), (2000.0, &at_2000), (3000.0, &at_3000)] {
        for &(cap, expected) in cases {
            let air = atmosphere::pressure(metres(height)).expect("in range");
            let got = water::boiling_point(air + bar(cap)).expect("in range");
            agrees(got.in_celsius(), expected, 0.01, COOLPROP);
        }
    }
}

#[test]
fn liquid_water_at_one_atmosphere() {
    for (at, density, heat) in
        [(20.0, 998.2072, 4184.051), (60.0, 983.1958, 4184.953), (80.0, 971.7904, 4196.753), (90.0, 965.3096, 4205.206)]
    {
        let got = water::density(celsius(at)).expect("in range");
        agrees_within(got.si(), density, 1e-4, COOLPROP);
        let got = water::specific_heat(celsius(at)).expect("in range");
        agrees_within(got.si(), heat, 1e-3, COOLPROP);
    }
}

#[test]
fn glycol_mixtures_match_the_reference_fit() {
    let source = "CoolProp 8.0.0, INCOMP::MEG (Melinder, IIR 2010)";
    // Mass share, °C, kg/m³, J/(kg·K). Tolerances are the fit's own: 0.3 % and 1 %.
    for [share, at, density, heat] in [
        [0.30, 20.0, 1038.05, 3718.25],
        [0.30, 80.0, 1004.26, 3877.67],
        [0.40, 20.0, 1051.86, 3519.02],
        [0.40, 80.0, 1015.39, 3733.82],
        [0.50, 0.0, 1074.62, 3202.88],
        [0.50, 20.0, 1064.93, 3312.04],
        [0.50, 40.0, 1053.44, 3412.72],
        [0.50, 60.0, 1040.49, 3503.15],
        [0.50, 80.0, 1026.41, 3581.58],
        [0.50, 90.0, 1019.04, 3615.75],
        [0.50, 100.0, 1011.52, 3646.26],
        [0.60, 80.0, 1036.01, 3410.33],
    ] {
        // Volume share of this mass share, by hand: (w/1113)/(w/1113 + (1 − w)/998.2).
        let volume = share / 1113.0 / (share / 1113.0 + (1.0 - share) / 998.2);
        let mass = coolant::mass_share(ratio(volume)).expect("in range");
        agrees(mass.in_ratio(), share, 1e-12, "the definition turned round");
        let got = coolant::density(ratio(volume), celsius(at)).expect("in range");
        agrees_within(got.si(), density, 3e-3, source);
        let got = coolant::specific_heat(ratio(volume), celsius(at)).expect("in range");
        agrees_within(got.si(), heat, 1e-2, source);
    }
}

#[test]
fn hot_coolant_expands_as_the_handbook_table_says() {
    // ASHRAE Fundamentals, density of aqueous ethylene glycol by volume, seen in a pipe maker's design manual
    // (table 5-16): lb/ft³ at 210 °F and 240 °F (98.9 and 115.6 °C). Inhibitors make it denser; expansion is compared.
    for (share, warm, hot) in [(0.2, 61.71, 60.90), (0.3, 62.53, 61.70), (0.4, 63.29, 62.43), (0.5, 63.99, 63.10)] {
        let at = |fahrenheit: f64| coolant::density(ratio(share), trialfit_core::quantity::fahrenheit(fahrenheit)).expect("in range");
        agrees(at(240.0) / at(210.0), hot / warm, 2e-3, "ASHRAE Fundamentals, seen second hand");
    }
}

#[test]
fn glycol_lowers_the_vapour_pressure() {
    // 0.757 follows from 0.525 as the mass share of half by volume; 0.7555 from 1113 and 998.2 kg/m³.
    let water_share = coolant::water_mole_share(ratio(0.5)).expect("in range");
    agrees(water_share.in_ratio(), 0.757, 2e-3, "Raoult, half glycol by volume");
    let mass = coolant::mass_share(ratio(0.5)).expect("in range");
    agrees(mass.in_ratio(), 0.525, 3e-3, "half of 1.113 kg in half of it and half of 0.998 kg of water, rounded");
    let got = coolant::vapour_pressure(ratio(0.5), celsius(100.0)).expect("in range");
    agrees_within(got.in_kilopascals(), 101.418 * 0.757, 3e-3, "Raoult on CoolProp's saturation");
    let plain = coolant::vapour_pressure(ratio(0.0), celsius(100.0));
    assert_eq!(plain, water::saturation_pressure(celsius(100.0)));
}

#[test]
fn air_thins_with_height() {
    for (height, expected) in [
        (-500.0, 107_477.979),
        (0.0, 101_325.0),
        (500.0, 95_461.285),
        (1000.0, 89_876.278),
        (1500.0, 84_559.666),
        (2000.0, 79_501.411),
        (2500.0, 74_691.740),
        (3000.0, 70_121.144),
        (4000.0, 61_660.423),
        (5000.0, 54_048.262),
    ] {
        let got = atmosphere::pressure(metres(height)).expect("in range");
        agrees_within(got.in_pascals(), expected, 1e-6, "ISO 2533, ambiance 1.3 computed");
    }
}

#[test]
fn air_weighs_what_the_standard_atmosphere_says() {
    for (height, warmth, expected) in [
        (-500.0, 291.400, 1.284_895),
        (0.0, 288.150, 1.225_000),
        (1000.0, 281.651, 1.111_660),
        (2500.0, 271.906, 0.956_954),
        (5000.0, 255.676, 0.736_429),
    ] {
        let got = atmosphere::density(metres(height), kelvin(warmth)).expect("in range");
        agrees_within(got.in_kilograms_per_cubic_metre(), expected, 3e-6, "ISO 2533, ambiance 1.3 computed");
    }
}

#[test]
fn nothing_is_answered_outside_its_range() {
    for at in [celsius(-0.01), celsius(200.01), kelvin(-1.0), kelvin(f64::INFINITY), kelvin(f64::NAN)] {
        assert_eq!(water::saturation_pressure(at), None);
        assert_eq!(water::density(at), None);
        assert_eq!(water::specific_heat(at), None);
        assert_eq!(coolant::density(ratio(0.5), at), None);
    }
    for edge in [celsius(0.0), celsius(200.0)] {
        assert!(water::saturation_pressure(edge).is_some());
        assert!(water::density(edge).is_some());
        assert!(water::specific_heat(edge).is_some());
    }
    for pressure in [pascals(0.0), pascals(-1.0), kilopascals(0.5), megapascals(2.0), pascals(f64::NAN), pascals(1e300)] {
        assert_eq!(water::boiling_point(pressure), None);
    }
    for share in [-0.01, 0.601, f64::NAN] {
        assert_eq!(coolant::vapour_pressure(ratio(share), celsius(90.0)), None);
        assert_eq!(coolant::density(ratio(share), celsius(90.0)), None);
    }
    assert!(coolant::density(ratio(0.6), celsius(130.0)).is_some());
    assert_eq!(coolant::density(ratio(0.6), celsius(130.1)), None);
    for height in [millimetres(-500_001.0), metres(5000.1), metres(f64::NAN)] {
        assert_eq!(atmosphere::pressure(height), None);
        assert_eq!(atmosphere::density(height, celsius(15.0)), None);
    }
}
