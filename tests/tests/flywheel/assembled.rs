//! What goes into each answer: the demo's figures put together by hand, and the calculator's against them.

use super::{demo, set};
use core::f64::consts::PI;
use trialfit_core::calculators::flywheel::curve::TorqueCurve;
use trialfit_core::calculators::flywheel::in_gear::{Driveline, RoadLoad};
use trialfit_core::calculators::flywheel::shut::EngineDrag;
use trialfit_core::calculators::flywheel::*;
use trialfit_core::calculators::{car, clutch};
use trialfit_core::data::atmosphere;
use trialfit_core::quantity::*;
use trialfit_core::report::Report;
use trialfit_core::spec::Output;
use trialfit_tests::{agrees, agrees_within, evaluated};

const BY_HAND: &str = "put together by hand from the demo's figures";

/// The demo with accessories of 0.010 kg·m², and its total on the engine's side.
fn report() -> (Report, f64) {
    let mut build = demo();
    set(&mut build, "flywheel.accessories", 0.010);
    let total = 4.2 * 0.105 * 0.105 + 0.050 + 0.040 + 0.005 + 0.010;
    (evaluated(&build), total)
}

#[test]
fn everything_that_turns_with_the_crank_is_in_the_total() {
    let (report, total) = report();
    agrees_within(report.of(ENGINE_INERTIA).expect("known").si(), total, 1e-12, BY_HAND);
    agrees_within(report.of(REFERENCE_ENGINE_INERTIA).expect("known").si(), 0.195, 1e-12, BY_HAND);
    for key in ["crank-inertia", "cover-inertia", "plate-inertia", "front-pulley", "accessories"] {
        let mut build = demo();
        let before = evaluated(&build).of(ENGINE_INERTIA).expect("known").si();
        let key = format!("flywheel.{key}");
        let place = build.layout().place_by_key(&key).expect("a key");
        let value = evaluated(&build).value(place).expect("known");
        set(&mut build, &key, value + 0.001);
        agrees_within(evaluated(&build).of(ENGINE_INERTIA).expect("known").si() - before, 0.001, 1e-9, "one of the sum");
    }
}

#[test]
fn in_gear_the_car_its_wheels_and_the_engine_are_moved() {
    let (report, total) = report();
    let radius = 0.97 * 0.576 / 2.0;
    let points = [(1, 170), (2, 205), (3, 225), (4, 240), (5, 235), (6, 215)]
        .map(|(speed, torque)| (per_minute(1000.0 * f64::from(speed)), newton_metres(f64::from(torque))));
    let curve = TorqueCurve::new(points.into_iter().map(Ok)).expect("few points");
    let air = atmosphere::density(metres(200.0), celsius(25.0)).expect("in range");
    let load = RoadLoad::new(kilograms(730.0), ratio(0.013), air, square_metres(0.75));
    for (row, gear) in [3.636, 2.214, 1.422, 1.0, 0.802].into_iter().enumerate() {
        let overall = gear * 3.9;
        let equivalent = 0.90 * total * overall * overall / (radius * radius);
        let moved = 730.0 + 4.0 * 0.8 / (radius * radius) + equivalent;
        agrees_within(report.cell(EQUIVALENT_MASS, row).expect("known").in_kilograms(), equivalent, 1e-12, BY_HAND);
        agrees_within(report.cell(EQUIVALENT_SHARE, row).expect("known").in_ratio(), equivalent / 730.0, 1e-12, BY_HAND);
        let driveline = Driveline { overall: ratio(overall), radius: metres(radius), efficiency: ratio(0.90) };
        let time = driveline.time(&curve, &load, kilograms(moved), per_minute(2000.0), per_minute(6000.0)).expect("pulls");
        agrees_within(report.cell(GEAR_TIME, row).expect("known").in_seconds(), time.in_seconds(), 1e-12, BY_HAND);
    }
}

/// With the clutch down the driven plate stays with the gearbox; the lag comes on top.
#[test]
fn a_shift_leaves_the_plate_out_and_the_lag_in() {
    let (report, total) = report();
    let drag = EngineDrag { friction: ratio(1.0), pumping: bar(0.65), displacement: cubic_centimetres(2500.0) };
    let fall = |inertia: f64, from: f64, to: f64| {
        drag.fall_time(kilogram_square_metres(inertia), per_minute(from), per_minute(to)).expect("falls").in_seconds()
    };
    let time = 0.10 + fall(total - 0.005, 6800.0, 6800.0 * 2.214 / 3.636);
    agrees_within(report.cell(SHIFT_TIME, 0).expect("known").in_seconds(), time, 1e-12, BY_HAND);
    let time = 0.10 + fall(0.190, 6800.0, 6800.0 * 0.802);
    agrees_within(report.cell(REFERENCE_SHIFT_TIME, 3).expect("known").in_seconds(), time, 1e-12, BY_HAND);
    agrees_within(report.of(DROP_TIME).expect("known").in_seconds(), fall(total, 6500.0, 1000.0), 1e-12, "out of gear the plate turns too");
}

#[test]
fn a_launch_puts_the_plate_on_the_cars_side() {
    let (report, total) = report();
    let (radius, overall) = (0.97 * 0.576 / 2.0, 3.636 * 3.9);
    let (engine, car) = (total - 0.005, 730.0 * radius * radius / (overall * overall) + 0.005);
    let left = 3000.0 * engine / (engine + car);
    agrees_within(report.of(LAUNCH_LEFT).expect("known").in_per_minute(), left, 1e-12, BY_HAND);
    let speed = 3000.0 * PI / 30.0;
    let dump = 0.5 * engine * car / (engine + car) * speed * speed;
    agrees_within(report.of(DUMP_HEAT).expect("known").in_joules(), dump, 1e-12, BY_HAND);
    // At full throttle the engine makes 225 N·m there; the car rolls at 0.013 of its weight.
    let resisting = 0.013 * 730.0 * 9.806_65 * radius / overall;
    let slip = 0.5 * car * speed * speed * 225.0 / (225.0 - resisting);
    agrees_within(report.of(SLIP_HEAT).expect("known").in_joules(), slip, 1e-12, BY_HAND);
    agrees_within(report.of(PLATE_RISE).expect("known").in_kelvin_rise(), slip / (1.2 * 480.0), 1e-12, BY_HAND);
    // What the clutch can hold, it carries while it slips: the impulse that brings the car's side to speed.
    let held = report.of(clutch::CAPACITY).expect("known").in_newton_metres();
    agrees_within(report.of(DUMP_TIME).expect("known").in_seconds(), car * left * PI / 30.0 / held, 1e-12, "impulse");
}

#[test]
fn idle_takes_half_the_stroke_and_all_four_cylinders() {
    let (report, total) = report();
    let speed = 850.0 * PI / 30.0;
    let swing = 120.0 - 2.0 * 0.55 * 0.047 * 0.047 * speed * speed;
    agrees_within(report.of(IDLE_SWING).expect("known").in_joules(), swing, 1e-12, BY_HAND);
    agrees_within(report.of(UNEVENNESS).expect("known").in_ratio(), swing / (total * speed * speed), 1e-12, BY_HAND);
    agrees_within(report.of(ROUGHER).expect("known").in_ratio(), 0.195 / total, 1e-12, "by their inertias");
}

#[test]
fn strength_is_judged_at_the_redline_and_at_the_worst_shift() {
    let (report, _) = report();
    let megapascals = |output: Output<Pressure>| report.of(output).expect("known").in_megapascals();
    let speed = 6800.0 * PI / 30.0;
    let (outer, inner, bolts): (f64, f64, f64) = (0.145, 0.021, 0.036);
    let load = 7850.0 * speed * speed * 3.3 / 8.0;
    let at_bolts = load * (inner * inner + outer * outer + (inner * outer / bolts) * (inner * outer / bolts) - 1.9 / 3.3 * bolts * bolts);
    agrees_within(megapascals(PEAK_STRESS), 2.5 * at_bolts / 1e6, 1e-12, BY_HAND);
    agrees_within(report.of(FACTOR).expect("known").in_ratio(), 350e6 / (2.5 * at_bolts), 1e-12, BY_HAND);
    // First for second is the worst pair: 3.636/2.214, more than the margin of 1.2.
    let over = 6800.0 * 3.636 / 2.214;
    agrees_within(report.of(OVERSPEED).expect("known").in_per_minute(), over, 1e-12, BY_HAND);
    let square = (over / 6800.0) * (over / 6800.0);
    agrees_within(megapascals(OVERSPEED_STRESS), 2.5 * at_bolts / 1e6 * square, 1e-12, BY_HAND);
    let average = 7850.0 * speed * speed * square * (outer * outer + outer * inner + inner * inner) / 3.0;
    agrees_within(megapascals(AVERAGE_STRESS), average / 1e6, 1e-12, BY_HAND);
    agrees_within(report.of(BURST_FACTOR).expect("known").in_ratio(), (600e6 / average).sqrt(), 1e-12, BY_HAND);
    // Close-set gears: the margin over the redline is more than any missed shift.
    let mut build = demo();
    let top = build.rows(car::GEARS)[3..].to_vec();
    build.set_rows(car::GEARS, &top).expect("two gears left");
    set(&mut build, "flywheel.overspeed-margin", 1.5);
    agrees(evaluated(&build).of(OVERSPEED).expect("known").in_per_minute(), 1.5 * 6800.0, 1e-6, BY_HAND);
}

#[test]
fn stored_energy_is_told_in_plain_terms() {
    let (report, _) = report();
    let speed = 7100.0 * PI / 30.0;
    let energy = 0.5 * 4.2 * 0.105 * 0.105 * speed * speed;
    agrees_within(report.of(STORED_ENERGY).expect("known").in_joules(), energy, 1e-12, BY_HAND);
    let rolling = report.of(ENERGY_AS_SPEED).expect("known").in_metres_per_second();
    agrees_within(0.5 * 730.0 * rolling * rolling, energy, 1e-12, "the car's own energy");
    let height = report.of(ENERGY_AS_HEIGHT).expect("known").in_metres();
    agrees_within(4.2 * 9.806_65 * height, energy, 1e-12, "the wheel's weight lifted");
}
