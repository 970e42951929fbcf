//! Car and engine against published and independently computed values.

use trialfit_core::build::Build;
use trialfit_core::calculators::car::engine::{friction_mean_pressure, torque_of_mean_pressure};
use trialfit_core::calculators::car::gearing::{road_speed, tyre_diameter};
use trialfit_core::calculators::car::{
    CAR, CRUISE_ENGINE_SPEED, CURVE_POWER, CURVE_TORQUE, FLYWHEEL_TORQUE, HIGHEST_SPEED, PEAK_POWER, PEAK_POWER_SPEED, PEAK_TORQUE,
    PEAK_TORQUE_SPEED, ROLLING_RADIUS, SPEED_AT_POWER, SPEED_AT_REDLINE, SPEED_PER_THOUSAND, TORQUE_BASIS, TORQUE_CURVE, TorqueBasis,
};
use trialfit_core::calculators::{flywheel, front_drive};
use trialfit_core::quantity::{
    Value, cubic_centimetres, inches, kilometres_per_hour, miles_per_hour, millimetres, newton_metres, per_minute, percent, ratio,
};
use trialfit_core::report::Unknown;
use trialfit_core::spec::Place;
use trialfit_tests::{PLAN, agrees, agrees_within, evaluated};

/// Tyre diameter by the designation: rim + 2 · width · aspect (ISO 4000-1; arithmetic exact).
#[test]
fn tyre_diameters_are_those_of_the_designation() {
    for (width, aspect, rim, diameter) in [
        (195.0, 50.0, 15.0, 576.0),
        (185.0, 60.0, 14.0, 577.6),
        (205.0, 55.0, 16.0, 631.9),
        (165.0, 80.0, 13.0, 594.2),
        (175.0, 70.0, 13.0, 575.2),
        (225.0, 45.0, 17.0, 634.3),
        (195.0, 60.0, 15.0, 615.0),
        (205.0, 50.0, 15.0, 586.0),
        (155.0, 80.0, 15.0, 629.0),
    ] {
        let got = tyre_diameter(millimetres(width), percent(aspect), inches(rim)).in_millimetres();
        agrees(got, diameter, 1e-9, "ISO 4000-1, arithmetic of the designation");
    }
}

/// Road speeds of an undeformed 576 mm tyre on a 3.9 axle, computed from the definition with a general-purpose library.
#[test]
fn road_speeds_follow_from_tyre_and_ratios() {
    let radius = millimetres(288.0);
    let at = |speed: f64, gear: f64| road_speed(per_minute(speed), radius, ratio(gear), ratio(3.9));
    let source = "n·60·π·D/1000/G, computed independently";
    agrees_within(at(1000.0, 0.802).in_kilometres_per_hour(), 34.712_399, 1e-6, source);
    agrees_within(at(1000.0, 0.802).in_miles_per_hour(), 21.569_285, 1e-6, source);
    agrees_within(at(1000.0, 1.0).in_kilometres_per_hour(), 27.839_344, 1e-6, source);
    agrees_within(at(6000.0, 1.0).in_kilometres_per_hour(), 167.036_065, 1e-6, source);
    agrees_within(at(6000.0, 3.636).in_kilometres_per_hour(), 45.939_512, 1e-6, source);
    let engine_at = |road: f64, gear: f64| road / at(1.0, gear).si();
    agrees_within(engine_at(miles_per_hour(70.0).si(), 1.0), 4_046.578_090, 1e-6, source);
    agrees_within(engine_at(kilometres_per_hour(100.0).si(), 0.802), 2_880.814_994, 1e-6, source);
}

/// Barnes-Moss 1975 as printed in Heywood eq. 13.6 (formula from memory; values computed independently), and the
/// torque of a mean effective pressure in a four-stroke of 2.5 L.
#[test]
fn engine_friction_is_that_of_the_motored_fit() {
    for (speed, pressure) in [(800.0, 1.122), (1000.0, 1.170), (3000.0, 1.870), (6000.0, 3.670), (7000.0, 4.470)] {
        agrees(friction_mean_pressure(per_minute(speed)).in_bar(), pressure, 5e-4, "Heywood eq. 13.6, from memory");
    }
    for (speed, torque) in [(800.0, 22.321_481), (1000.0, 23.276_410), (3000.0, 37.202_468), (6000.0, 73.012_330), (7000.0, 88.927_824)] {
        let got = torque_of_mean_pressure(friction_mean_pressure(per_minute(speed)), cubic_centimetres(2500.0));
        agrees_within(got.in_newton_metres(), torque, 1e-7, "p·V/4π of the same fit, computed independently");
    }
    // Gupta, Fundamentals of Internal Combustion Engines, ex. 16.3: 120 N·m from four cylinders of 90 × 100 mm is 5.926 bar.
    let displacement = cubic_centimetres(4.0 * core::f64::consts::FRAC_PI_4 * 9.0 * 9.0 * 10.0);
    let per_bar = torque_of_mean_pressure(trialfit_core::quantity::bar(1.0), displacement);
    agrees(newton_metres(120.0) / per_bar, 5.926, 5e-4, "Gupta, Fundamentals of Internal Combustion Engines, ex. 16.3");
}

/// N·m · min⁻¹ / 9549.2966 = kW (NIST SP 811): the whole path from typed curve to power.
#[test]
fn the_demo_car_adds_up() {
    let report = evaluated(&Build::default());
    let kilowatts = 200.0 * 6500.0 / 9_549.296_585_513_72;
    agrees_within(report.cell(CURVE_POWER, 6).expect("known").in_kilowatts(), kilowatts, 1e-12, "NIST SP 811");
    assert_eq!(report.of(PEAK_TORQUE), Ok(newton_metres(240.0)));
    assert_eq!(report.of(PEAK_TORQUE_SPEED), Ok(per_minute(4000.0)));
    agrees_within(report.of(PEAK_POWER).expect("known").in_kilowatts(), kilowatts, 1e-12, "largest of the curve's M·n");
    assert_eq!(report.of(PEAK_POWER_SPEED), Ok(per_minute(6500.0)));
    // ETRTO convention: rolling circumference 3.05·D (from memory) against the 0.97·π·D used here.
    let radius = report.of(ROLLING_RADIUS).expect("follows the tyre's size");
    agrees_within(radius.in_millimetres() * 2.0 * core::f64::consts::PI, 3.05 * 576.0, 2e-3, "ETRTO convention, from memory");
    let top = report.cell(SPEED_AT_REDLINE, 4).expect("known");
    let engine = report.of(CRUISE_ENGINE_SPEED).expect("known");
    agrees_within(top.in_kilometres_per_hour() / 110.0, per_minute(6800.0) / engine, 1e-12, "speeds are proportional");
}

/// What the engine never turns, it does not give; an idle above the limiter is no engine.
#[test]
fn speeds_keep_their_order() {
    let of = |link: &str| evaluated(&trialfit_core::share::link::read(link).expect("a link").link.build);
    let low = of("1.1/car.redline=5000/car.limiter-overshoot=0/end");
    // 235 N·m at 5000 per minute, 2π·n·M by hand.
    agrees_within(low.of(PEAK_POWER).expect("known").in_kilowatts(), 123.046, 1e-5, "by hand");
    assert_eq!(low.of(PEAK_POWER_SPEED), Ok(per_minute(5000.0)));
    // No torque is pulled above it either: 225 N·m at 3000 is the most of a curve whose peak lies at 4000.
    let lower = of("1.1/car.redline=3000/car.limiter-overshoot=0/end");
    assert_eq!((lower.of(PEAK_TORQUE), lower.of(PEAK_TORQUE_SPEED)), (Ok(newton_metres(225.0)), Ok(per_minute(3000.0))));
    assert_eq!(of("1.1/car.redline=gone/end").of(PEAK_TORQUE), Ok(newton_metres(240.0)));
    let upside = of("1.1/car.idle=2500/car.redline=1000/car.limiter-overshoot=0/end");
    for output in [front_drive::ALTERNATOR_IDLE, front_drive::ALTERNATOR_HIGH, HIGHEST_SPEED] {
        assert!(matches!(upside.of(output), Err(Unknown::NoSolution(_))));
    }
    let cruise = of("1.1/car.cruise=9000/end");
    assert!(
        matches!(cruise.of(front_drive::ALTERNATOR_CRUISE), Err(Unknown::NoSolution(_))) && cruise.of(front_drive::ALTERNATOR_IDLE).is_ok()
    );
}

/// 10 N·m indicated are less than the 22 to 89 that friction takes (Heywood eq. 13.6, from memory).
#[test]
fn an_engine_that_does_not_turn_itself_has_no_peak() {
    let mut build = Build::default();
    build.set(TORQUE_BASIS.id.into(), TorqueBasis::Indicated.to_cell()).expect("a choice");
    for &row in &build.rows(TORQUE_CURVE).to_vec() {
        build.set(Place { id: CURVE_TORQUE.id, row: Some(row) }, 10.0).expect("in range");
    }
    let report = evaluated(&build);
    assert!(report.cell(FLYWHEEL_TORQUE, 0).expect("known").si() < 0.0, "motored");
    let why = |words: &str| words.starts_with("No torque is left");
    assert!(matches!(report.of(PEAK_TORQUE), Err(Unknown::NoSolution(words)) if why(words)));
    assert!(matches!(report.of(PEAK_POWER_SPEED), Err(Unknown::NoSolution(words)) if why(words)));
}

/// 5.4.3.2.1 in a link lists the same box from its top gear down.
#[test]
fn first_and_top_are_found_in_whichever_order_they_are_listed() {
    let of = |link: &str| evaluated(&trialfit_core::share::link::read(link).expect("a link").link.build);
    let (up, down) = (of("1.1/end"), of("1.1/car.gears=5.4.3.2.1/end"));
    assert_eq!(up.of(CRUISE_ENGINE_SPEED), down.of(CRUISE_ENGINE_SPEED));
    assert_eq!(up.of(flywheel::LAUNCH_LEFT), down.of(flywheel::LAUNCH_LEFT));
    // 110 km/h on 279.36 mm (0.97 · 576 / 2) at 0.802 · 3.9, by hand.
    agrees_within(down.of(CRUISE_ENGINE_SPEED).expect("known").in_per_minute(), 3_266.903_60, 1e-8, "by hand");
}

/// The chart speaks of the same peak as the figure, not of what lies above the limiter.
#[test]
fn the_curve_says_the_peak_that_is_reached() {
    let build = trialfit_core::share::link::read("1.1/car.redline=5000/end").expect("a link").link.build;
    let chart = CAR.charts[0](&PLAN, &build, &evaluated(&build)).expect("drawn");
    assert_eq!(chart.finding, "Power peaks at 123 kW.", "235 N·m at 5000 per minute, by hand");
}

#[test]
fn the_speed_of_peak_power_gives_a_road_speed() {
    let report = evaluated(&trialfit_core::share::link::read("1.1/car.power-speed=5000/end").expect("a link").link.build);
    for row in 0..5 {
        let (one, thousand) = (report.cell(SPEED_AT_POWER, row).expect("known"), report.cell(SPEED_PER_THOUSAND, row).expect("known"));
        agrees_within(one / thousand, 5.0, 1e-12, "speeds are proportional");
    }
}

/// A curve from the rollers is put back before the driveline; an indicated one loses the engine's friction, once.
#[test]
fn where_the_torque_was_measured_counts_once() {
    let mut build = Build::default();
    build.set(TORQUE_BASIS.id.into(), TorqueBasis::Wheels.to_cell()).expect("a choice");
    agrees_within(evaluated(&build).of(PEAK_TORQUE).expect("known").in_newton_metres(), 240.0 / 0.9, 1e-12, "definition of efficiency");
    build.set(TORQUE_BASIS.id.into(), TorqueBasis::Indicated.to_cell()).expect("a choice");
    let at_6000 = evaluated(&build).cell(FLYWHEEL_TORQUE, 5).expect("known").in_newton_metres();
    agrees(at_6000, 215.0 - 73.012_330, 1e-5, "Heywood eq. 13.6, from memory, on 2.5 L at 6000");
}
