//! Wires and bundles in still air.

use trialfit_core::calculators::wiring::bundle::{Bundle, Packing};
use trialfit_core::calculators::wiring::heat::Cylinder;
use trialfit_core::data::conductors::Conductor;
use trialfit_core::quantity::{
    HeatPerLength, ThermalResistance, celsius, millimetres, milliohms_per_metre, square_millimetres, watts_per_metre,
    watts_per_metre_kelvin,
};
use trialfit_tests::heat_balance as oracle;
use trialfit_tests::{agrees, agrees_within};

/// The second heat balance itself, against Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, ex. 9.4 (pipe of
/// 0.1 m at 165 °C in 23 °C, emissivity 0.85, 763 W/m) and against a published library's correlation.
#[test]
fn the_second_heat_balance_agrees_with_a_textbook() {
    let rayleigh = 9.81 * 2.725e-3 * 142.0 * 0.1_f64.powi(3) / (22.8e-6 * 32.8e-6);
    agrees_within(rayleigh, 5.075_925e6, 1e-6, "Incropera & DeWitt, ex. 9.4");
    let nusselt = oracle::nusselt(rayleigh, 0.697);
    agrees_within(nusselt, 23.094_934, 1e-6, "Incropera & DeWitt, ex. 9.4, recomputed");
    let convected = nusselt * 0.0313 / 0.1 * std::f64::consts::PI * 0.1 * 142.0;
    let radiated = std::f64::consts::PI * 0.1 * 0.85 * 5.67e-8 * (438.0_f64.powi(4) - 296.0_f64.powi(4));
    agrees(convected + radiated, 763.0, 1.0, "Incropera & DeWitt, ex. 9.4");
    for (rayleigh, prandtl, expected) in [
        (1.0, 0.71, 0.848_751_804),
        (10.0, 0.71, 1.148_263_418),
        (100.0, 0.71, 1.669_705_611),
        (1e4, 0.71, 4.373_272_100),
        (1e6, 0.7, 14.510_190_847),
        (1e9, 0.7, 115.529_365_684),
    ] {
        agrees_within(oracle::nusselt(rayleigh, prandtl), expected, 1e-9, "Churchill & Chu 1975, by a published library");
    }
}

/// Heat lost with CoolProp's air at the film's temperature, computed: 0.5 % for the air.
#[test]
fn cylinders_lose_what_churchill_and_chu_say() {
    for (diameter, surface, air, lost) in [(2.0, 60.0, 23.0, 5.618_36), (3.0, 100.0, 60.0, 8.971_55), (5.0, 85.0, 40.0, 13.935_35)] {
        let got = Cylinder::new(millimetres(diameter), celsius(air)).loss(celsius(surface)).in_watts_per_metre();
        agrees_within(got, lost, 0.005, "Churchill & Chu 1975, computed with CoolProp");
    }
    for diameter in [1.0, 2.0, 5.0, 15.0, 40.0] {
        for air in [-30.0, 20.0, 80.0, 120.0] {
            for rise in [0.5, 5.0, 40.0, 120.0] {
                let got = Cylinder::new(millimetres(diameter), celsius(air)).loss(celsius(air + rise)).in_watts_per_metre();
                agrees_within(got, oracle::loss(diameter / 1000.0, air + rise, air), 0.005, "the second heat balance");
            }
        }
    }
    assert_eq!(Cylinder::new(millimetres(2.0), celsius(40.0)).loss(celsius(20.0)), HeatPerLength::ZERO);
}

/// A free wire, its surface's temperature (no drop in the insulation), solved elsewhere with CoolProp's air: 0.3 K.
#[test]
fn wires_settle_where_another_solver_says() {
    for (current, resistance, diameter, air, settled) in [
        (10.0, 18.5, 2.1, 40.0, 54.611),
        (15.0, 12.7, 2.4, 40.0, 60.280),
        (20.0, 7.6, 3.0, 60.0, 78.703),
        (5.0, 37.1, 1.6, 60.0, 68.934),
        (100.0, 1.16, 8.3, 60.0, 92.054),
    ] {
        let cold = cold_heat(current, milliohms_per_metre(resistance).si());
        let got = Cylinder::new(millimetres(diameter), celsius(air)).settle(cold, ThermalResistance::ZERO).expect("settles");
        agrees(got.surface.in_celsius(), settled, 0.3, "Brent's method with CoolProp's air");
        assert_eq!(got.surface, got.copper);
    }
}

fn cold_heat(current: f64, resistance: f64) -> HeatPerLength {
    watts_per_metre(current * current * resistance)
}

/// Ratings in a cable merchant's data sheet of thin-wall car cable: all are a rise of 36 to 38 K of one free wire, which
/// is what this heat balance gives with the resistances quoted from memory of ISO 6722-1.
#[test]
fn a_merchants_ratings_are_one_rise() {
    for (area, rating, rise) in [
        (0.5, 11.0, 38.0),
        (0.75, 14.0, 38.0),
        (1.0, 16.5, 38.0),
        (1.5, 21.0, 38.0),
        (2.5, 29.0, 38.0),
        (4.0, 39.0, 37.0),
        (6.0, 50.0, 36.5),
        (10.0, 70.0, 32.5),
    ] {
        let wire = Conductor::of(square_millimetres(area)).expect("a size of the table");
        let cold = cold_heat(rating, wire.resistance.si());
        for air in [25.0, 30.0, 40.0] {
            let settled = Cylinder::new(wire.outside, celsius(air)).settle(cold, ThermalResistance::ZERO).expect("settles");
            agrees(settled.surface.in_celsius() - air, rise, 0.05 * rise, "a cable merchant's data sheet");
        }
    }
}

/// Hand's breadth: 2.5 mm² insulation of 2.2 on 3.0 mm with 0.17 W/(m·K) takes 0.290369 K for each W/m, computed.
#[test]
fn insulation_takes_its_share() {
    let wire = Conductor::of(square_millimetres(2.5)).expect("a size of the table");
    let cylinder = Cylinder::new(wire.outside, celsius(60.0));
    let inner = ThermalResistance::from_si(0.290_369);
    let settled = cylinder.settle(cold_heat(20.0, wire.resistance.si()), inner).expect("settles");
    let drop = settled.copper.si() - settled.surface.si();
    agrees_within(drop, settled.heat.si() * 0.290_369, 1e-9, "ln(3/2.2)/(2π·0.17)");
    // The core's own insulation is that one: a bundle of one wire is a free wire.
    let mut packing = Packing::default();
    packing.add(wire.outside, 1);
    let cold = cold_heat(20.0, wire.resistance.si());
    let bundle = Bundle::settle(packing, cold, inner, celsius(60.0), watts_per_metre_kelvin(0.25)).expect("settles");
    let copper = bundle.wire(&wire, cold).expect("settles");
    agrees(copper.in_celsius(), settled.copper.in_celsius(), 1e-4, "a bundle of one wire is a free wire");
    // And the same temperature by the second heat balance.
    let lost = oracle::loss_of_copper(wire.outside.si(), 0.290_369, copper.in_celsius(), 60.0);
    let made = 400.0 * wire.resistance_at(copper).si();
    agrees_within(lost, made, 0.005, "the second heat balance");
}

/// Smallest circle around n equal circles (closed forms; optimal by Graham, Pirl, Fodor, from memory): a bundle is never
/// smaller, and a real loom of many wires is 1.2·√n (common practice).
#[test]
fn bundles_are_as_thick_as_circles_must_be() {
    let bundle = |count: u32| {
        let mut packing = Packing::default();
        packing.add(millimetres(2.0), count);
        packing.diameter().in_millimetres() / 2.0
    };
    let tightest = [
        (1, 1.0),
        (2, 2.0),
        (3, 2.154_700_538),
        (4, 2.414_213_562),
        (5, 2.701_301_617),
        (6, 3.0),
        (7, 3.0),
        (8, 3.304_764_871),
        (9, 3.613_125_930),
        (19, 4.863_703_305),
    ];
    for (count, least) in tightest {
        assert!(bundle(count) >= least * (1.0 - 1e-9), "{count}");
        agrees_within(bundle(count), f64::max(least, if count > 1 { 1.2 * f64::from(count).sqrt() } else { 1.0 }), 1e-9, "the looser");
    }
    // Two unlike wires lie side by side.
    let mut packing = Packing::default();
    packing.add(millimetres(6.0), 1);
    packing.add(millimetres(2.0), 1);
    agrees_within(packing.diameter().in_millimetres(), 8.0, 1e-12, "side by side");
    packing.add(millimetres(2.0), 1);
    assert!(packing.diameter() >= millimetres(8.0));
}

/// Heat of all wires leaves through the bundle's surface, and a wire among warm ones is warmer than alone.
#[test]
fn bundles_balance() {
    let wire = Conductor::of(square_millimetres(1.5)).expect("a size of the table");
    let cold = cold_heat(8.0, wire.resistance.si());
    let inner = ThermalResistance::from_si(0.27);
    let settle = |count: u32| {
        let mut packing = Packing::default();
        packing.add(wire.outside, count);
        let conductivity = watts_per_metre_kelvin(0.25);
        Bundle::settle(packing, cold * f64::from(count), inner, celsius(60.0), conductivity).expect("settles")
    };
    let mut before = celsius(0.0);
    for count in [1, 2, 3, 5, 10, 20] {
        let bundle = settle(count);
        let lost = oracle::loss(bundle.diameter.si(), bundle.surface.in_celsius(), 60.0);
        agrees_within(bundle.heat.in_watts_per_metre(), lost, 0.005, "the second heat balance");
        let copper = bundle.wire(&wire, cold).expect("settles");
        assert!(copper > before, "{count} wires");
        before = copper;
    }
    // Grouping factors of common practice for n equally loaded wires: the current that gives the same rise falls to 0.85
    // of a free wire's for 2, 0.55 for 10. Rises go about with the square of the current.
    let rise = |count: u32| settle(count).wire(&wire, cold).expect("settles").in_celsius() - 60.0;
    for (count, factor) in [(2, 0.85), (3, 0.76), (5, 0.67), (10, 0.55)] {
        let by_balance = (rise(1) / rise(count)).sqrt();
        assert!((by_balance / factor - 1.0).abs() < 0.2, "{count} wires: {by_balance} against {factor}, common practice");
    }
}

/// A wire that heats itself up faster than its heat gets out is no number.
#[test]
fn a_wire_without_end_is_refused() {
    let cylinder = Cylinder::new(millimetres(2.0), celsius(20.0));
    assert!(cylinder.settle(watts_per_metre(5_000.0), ThermalResistance::from_si(0.3)).is_none());
    let glowing = cylinder.settle(watts_per_metre(500.0), ThermalResistance::from_si(0.3)).expect("radiation holds it");
    assert!(glowing.copper > celsius(400.0) && glowing.copper.si().is_finite());
}
