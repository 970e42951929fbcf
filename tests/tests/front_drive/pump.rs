//! The water pump: affinity laws, suction head, onset of cavitation.

use trialfit_core::calculators::front_drive::pump::{
    CapPlace, Suction, System, Warmth, coolant_rise, flow_at, head, head_at, npsh_available, power_at, shut_in,
};
use trialfit_core::data::{atmosphere, coolant, water};
use trialfit_core::quantity::{
    Length, Pressure, STANDARD_GRAVITY, bar, celsius, feet, kilograms_per_cubic_metre, kilopascals, kilowatts, litres, litres_per_minute,
    metres, pascals, per_minute, pounds_per_square_inch, ratio, watts,
};
use trialfit_tests::{agrees, agrees_within};

#[test]
fn affinity_of_fox() {
    let source = "Fox and McDonald, Introduction to Fluid Mechanics, example 10.7, seen";
    let (from, to) = (per_minute(1170.0), per_minute(1750.0));
    agrees(flow_at(to, from, litres_per_minute(300.0)).in_litres_per_minute(), 448.717949, 5e-7, source);
    agrees(head_at(to, from, feet(21.9)).in_feet(), 48.994631, 5e-7, source);
    agrees(head_at(to, from, feet(25.0)).in_feet(), 55.929944, 5e-7, source);
    agrees(power_at(to, from, watts(1.0)).in_watts(), 3.346236, 5e-7, source);
}

#[test]
fn affinity_by_hand() {
    for (from, to, before, after, share) in [
        (3000.0, 6000.0, [60.0, 4.0, 100.0], [120.0, 16.0, 800.0], 1e-12),
        (2900.0, 3600.0, [100.0, 20.0, 7.5], [124.137931, 30.820452, 14.347452], 3e-8),
    ] {
        let (from, to) = (per_minute(from), per_minute(to));
        let flow = flow_at(to, from, litres_per_minute(before[0])).in_litres_per_minute();
        agrees_within(flow, after[0], share, "n, computed");
        agrees_within(head_at(to, from, metres(before[1])).in_metres(), after[1], share, "n²");
        agrees_within(power_at(to, from, watts(before[2])).in_watts(), after[2], share, "n³");
    }
}

#[test]
fn suction_head_of_munson() {
    // H10: the highest lift that leaves the 15 ft the pump requires; 62.22 lbf/ft³ is 996.66 kg/m³ at standard gravity.
    let source = "Munson, Young and Okiishi, example 12.3, seen";
    let density = kilograms_per_cubic_metre(62.22 * 0.45359237 / (0.3048 * 0.3048 * 0.3048));
    let left = npsh_available(pounds_per_square_inch(14.7), pounds_per_square_inch(0.5069), density, feet(-7.653011), feet(10.195051));
    agrees(left.in_feet(), 15.0, 1e-5, source);
}

#[test]
fn suction_head_of_fox() {
    // H11: 16.038109 ft/s in the pipe, losses 0.5 + 0.0237·(6/(5.047/12) + 30 + 8), the tank 3.5 ft above; the
    // example's own g is 32.2 ft/s², and its NPSH counts the velocity head, so that loses nothing here.
    let source = "Fox and McDonald, Introduction to Fluid Mechanics, example 10.8, seen";
    let gravity = 32.2;
    let pipe = 6.0 / (5.047 / 12.0);
    let velocity_head = 16.038109 * 16.038109 / (2.0 * gravity);
    let loss = (0.5 + 0.0237 * (pipe + 38.0)) * velocity_head;
    let specific_weight = 1.93 * gravity;
    let density = kilograms_per_cubic_metre(specific_weight * 0.45359237 / (0.3048 * 0.3048 * 0.3048));
    let vapour = pascals(density.si() * STANDARD_GRAVITY * 1.17 * 0.3048);
    let got = npsh_available(pounds_per_square_inch(14.7), vapour, density, feet(3.5), feet(loss));
    agrees(got.in_feet(), 29.447153, 0.02, source);
}

#[test]
fn draining_tank_of_schaschke() {
    // H18: 5 m required, 18 kPa, 0.94·101.3 kPa, 970 kg/m³ at g = 9.81, pump 3 m below, 0.5 m lost; level left 0.384780.
    let source = "Schaschke, Fluid Mechanics Worked Examples, example 9.6, seen";
    let density = kilograms_per_cubic_metre(970.0 * 9.81 / STANDARD_GRAVITY);
    let got = npsh_available(kilopascals(0.94 * 101.3), kilopascals(18.0), density, metres(0.384780 - 3.0), metres(0.5));
    agrees(got.in_metres().abs(), 5.0, 0.1, source);
}

/// Head left at rest less the loss of 15 kPa, plain water.
fn standing(cap: Pressure, celsius_at: f64, altitude: f64) -> f64 {
    let temperature = celsius(celsius_at);
    let air = atmosphere::pressure(metres(altitude)).expect("in range");
    let density = water::density(temperature).expect("in range");
    let vapour = water::saturation_pressure(temperature).expect("in range");
    let loss = head(kilopascals(15.0), density);
    npsh_available(air + cap, vapour, density, Length::ZERO, loss).in_metres()
}

#[test]
fn suction_head_of_coolants() {
    let source = "CoolProp 8.0.0 and ISO 2533, computed";
    // H12: open tank, 20 °C, 3 m of lift, 1.2 m lost.
    let temperature = celsius(20.0);
    let got = npsh_available(
        pascals(101_325.0),
        water::saturation_pressure(temperature).expect("in range"),
        water::density(temperature).expect("in range"),
        metres(-3.0),
        metres(1.2),
    );
    agrees(got.in_metres(), 5.911860, 1e-3, source);
    // H13 to H17. Saturation pressure agrees to 0.01 %, which is 1.5 mm of head at these temperatures.
    for (cap, at, altitude, expected) in [
        (0.0, 90.0, 0.0, 1.705335),
        (1.1, 105.0, 0.0, 8.055786),
        (1.1, 110.0, 0.0, 5.677512),
        (0.0, 90.0, 1000.0, 0.495918),
        (1.1, 105.0, 2000.0, 5.724817),
    ] {
        agrees(standing(bar(cap), at, altitude), expected, 1.5e-3, source);
    }
}

fn suction(cap: CapPlace) -> Suction {
    Suction { rated: per_minute(6000.0), required: metres(3.0), pipe_loss: kilopascals(15.0), radiator_loss: kilopascals(25.0), cap }
}

fn water_at(degrees: f64) -> Warmth {
    Warmth::of(ratio(0.0), celsius(degrees)).expect("in range")
}

fn system(cap: Pressure) -> System {
    System { air: atmosphere::SEA_LEVEL, cap, coolant: litres(6.0), gas: litres(1.0), filled: water_at(20.0), height: Length::ZERO }
}

#[test]
fn onset_of_cavitation() {
    // A practising engineer's figures, plain water: vented at 90 °C 5080 min⁻¹; 1.1 bar at 105 °C 8690 min⁻¹.
    let source = "common practice, worked by hand to three figures";
    for (cap, at, expected) in [(0.0, 90.0, 5080.0), (1.1, 105.0, 8690.0)] {
        let system = system(bar(cap));
        let (full, density) = (system.air + system.cap, water_at(at).density);
        let left = system.standing_head(full, water_at(at));
        let got = suction(CapPlace::PumpInlet).onset(left, density).expect("something is demanded");
        agrees(got.in_per_minute(), expected, 6.0, source);
        // The definition: available head equals required head there.
        let loss = head_at(got, per_minute(6000.0), head(kilopascals(15.0), density));
        let required = head_at(got, per_minute(6000.0), metres(3.0));
        agrees_within((left - loss).in_metres(), required.in_metres(), 1e-12, "NPSHa = NPSHr");
    }
}

#[test]
fn a_cap_on_the_hot_tank_costs_the_radiators_loss() {
    // 25 kPa is 2.6 m.
    let density = coolant::density(ratio(0.0), celsius(90.0)).expect("in range");
    let inlet = suction(CapPlace::PumpInlet).demand(density);
    let tank = suction(CapPlace::HotTank).demand(density);
    agrees((tank - inlet).in_metres(), 2.6, 0.05, "p/ρg, by hand");
}

#[test]
fn coolant_that_boils_as_it_stands_has_no_speed_left() {
    let system = system(bar(0.0));
    let density = coolant::density(ratio(0.0), celsius(105.0)).expect("in range");
    let left = system.standing_head(system.air, water_at(105.0));
    assert!(left < Length::ZERO);
    assert_eq!(suction(CapPlace::PumpInlet).onset(left, density), Some(per_minute(0.0)));
    let nothing = Suction { required: Length::ZERO, pipe_loss: Pressure::ZERO, ..suction(CapPlace::PumpInlet) };
    assert_eq!(nothing.onset(metres(1.0), density), None);
}

#[test]
fn a_cold_system_is_not_yet_pressurised() {
    // Boyle and Gay-Lussac by hand: 1 litre squeezed to 0.8 and warmed from 300 K to 360 K: 1.25 · 1.2.
    let got = shut_in(bar(1.0), litres(1.0), litres(0.2), trialfit_core::quantity::kelvin(300.0), trialfit_core::quantity::kelvin(360.0));
    agrees_within(got.in_bar(), 1.5, 1e-12, "p·V/T, by hand");

    let system = system(bar(1.1));
    let at = |degrees| system.pressure(water_at(degrees)).in_bar();
    agrees_within(at(20.0), 1.01325, 1e-12, "as filled");
    // Water from 20 to 80 °C grows by 998.1618/971.7662 (CoolProp): 6 litres by 0.16297.
    let by_hand = 1.01325 / (1.0 - 6.0 * (998.1618 / 971.7662 - 1.0)) * 353.15 / 293.15;
    agrees_within(at(80.0), by_hand, 3e-5, "p·V/T on CoolProp's densities");
    agrees_within(at(130.0), 2.11325, 1e-12, "the cap lifts");
    // No room at all: the cap lifts at once.
    let full = System { gas: litres(0.01), ..system };
    agrees_within(full.pressure(water_at(80.0)).in_bar(), 2.11325, 1e-12, "full");
    assert_eq!(Warmth::of(ratio(0.0), celsius(130.1)), None);
}

#[test]
fn idle_flow_shows_as_a_temperature_rise() {
    // 4.2 kW into 1 kg/s of 4200 J/(kg·K) is 1 K.
    let density = kilograms_per_cubic_metre(1000.0);
    let heat = trialfit_core::quantity::joules_per_kilogram_kelvin(4200.0);
    let got = coolant_rise(kilowatts(4.2), litres_per_minute(60.0), density, heat);
    agrees_within(got.in_kelvin_rise(), 1.0, 1e-12, "Q/(ρ·c·V̇), by hand");
}
