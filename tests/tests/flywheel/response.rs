//! Times: free revs, falling, pulling through the gears.

use core::f64::consts::PI;
use trialfit_core::calculators::flywheel::curve::TorqueCurve;
use trialfit_core::calculators::flywheel::in_gear::{Driveline, RoadLoad, with_wheels};
use trialfit_core::calculators::flywheel::revs::rev_time;
use trialfit_core::calculators::flywheel::shut::{EngineDrag, speed_after_shift};
use trialfit_core::calculators::flywheel::totals::equivalent_mass;
use trialfit_core::quantity::*;
use trialfit_tests::{agrees, agrees_within};

const CLOSED: &str = "closed form, agreeing with scipy.integrate.quad to 1e-12";

/// A curve through these points of (min⁻¹, N·m).
fn curve(points: &[(f64, f64)]) -> TorqueCurve {
    TorqueCurve::new(points.iter().map(|&(speed, torque)| Ok((per_minute(speed), newton_metres(torque))))).expect("few points")
}

fn revs(curve: &TorqueCurve, inertia: f64) -> f64 {
    rev_time(curve, kilogram_square_metres(inertia), per_minute(1000.0), per_minute(7000.0)).expect("reaches").in_seconds()
}

#[test]
fn free_revs_take_the_closed_forms_time() {
    let constant = curve(&[(1000.0, 200.0), (7000.0, 200.0)]);
    for (inertia, time) in [(0.15, 0.15 * PI), (0.25, PI / 4.0), (0.12, 0.376_991_118)] {
        agrees(revs(&constant, inertia), time, 5e-10, CLOSED);
    }
    // 220 − 0.1·ω is a straight line: two points hold it.
    let line = |speed: f64| (speed, 220.0 - 0.1 * per_minute(speed).si());
    agrees(revs(&curve(&[line(1000.0), line(7000.0)]), 0.15), 0.534_740_868, 5e-10, CLOSED);
    // The same in eight pieces, given in any order.
    let pieces = [7000.0, 1000.0, 3210.0, 2000.0, 6543.0, 2000.0, 4000.0, 5000.0].map(line);
    agrees(revs(&curve(&pieces), 0.15), 0.534_740_868, 5e-10, CLOSED);
}

/// 0.14 kg·m², the demo's curve, 1000 to 6500 min⁻¹: 0.37 s. With friction taken off brake torque again it would be 0.48.
#[test]
fn brake_torque_is_not_robbed_of_friction_twice() {
    let demo = [(1000.0, 170.0), (2000.0, 205.0), (3000.0, 225.0), (4000.0, 240.0), (5000.0, 235.0), (6000.0, 215.0), (6500.0, 200.0)];
    let time = rev_time(&curve(&demo), kilogram_square_metres(0.14), per_minute(1000.0), per_minute(6500.0)).expect("reaches");
    agrees(time.in_seconds(), 0.37, 0.005, "common practice, no source; by hand 0.14·576/218");
}

/// Falling against a straight drag is reving along it: the integral is the same.
#[test]
fn coasting_down_takes_the_closed_forms_time() {
    let displacement = cubic_centimetres(2500.0);
    let pumping = pascals(20.0 * 4.0 * PI / displacement.si());
    let constant = EngineDrag { friction: ratio(0.0), pumping, displacement };
    let fall = |drag: EngineDrag, from: f64, to: f64| {
        drag.fall_time(kilogram_square_metres(0.15), per_minute(from), per_minute(to)).expect("falls").in_seconds()
    };
    agrees(fall(constant, 7000.0, 1000.0), 1.5 * PI, 5e-10, CLOSED);
    let drag = |speed: f64, torque: fn(f64) -> f64| (speed, torque(per_minute(speed).si()));
    let through = |torque: fn(f64) -> f64| revs(&curve(&[drag(1000.0, torque), drag(7000.0, torque)]), 0.15);
    agrees(through(|speed| 0.05 * speed), 5.837_730_447, 5e-10, CLOSED);
    agrees(through(|speed| 15.0 + 0.03 * speed), 3.562_357_088, 5e-10, CLOSED);
    // The motored fit (Barnes-Moss in Heywood eq. 13.6, from memory) on 2.5 L, without pumping.
    let fit = EngineDrag { friction: ratio(1.0), pumping: Pressure::ZERO, displacement };
    let source = "scipy.integrate.quad over the fit";
    agrees(fall(fit, 7000.0, 4495.935), 0.576_099_743, 5e-8, source);
    agrees(fall(fit, 7000.0, 1000.0), 2.189_962_841, 5e-10, source);
    let still = EngineDrag { friction: ratio(0.0), pumping: Pressure::ZERO, displacement };
    assert!(still.fall_time(kilogram_square_metres(0.15), per_minute(7000.0), per_minute(1000.0)).is_err());
}

#[test]
fn upshifts_ask_for_the_ratio_rules_speeds() {
    let gears = [3.636, 2.214, 1.422, 1.0, 0.802];
    for (pair, speed) in gears.windows(2).zip([4_262.376_238, 4_495.934_959, 4_922.644_163, 5_614.0]) {
        let got = speed_after_shift(per_minute(7000.0), ratio(pair[0]), ratio(pair[1])).in_per_minute();
        agrees(got, speed, 5e-7, "n·i₂/i₁, computed");
    }
}

const KMH: f64 = 1.0 / 3.6;

/// A driveline of ratio one on a wheel of one metre: engine speed in rad/s is road speed in m/s, torque is pull.
fn direct() -> Driveline {
    Driveline { overall: ratio(1.0), radius: metres(1.0), efficiency: ratio(1.0) }
}

fn pull(points: impl IntoIterator<Item = (f64, f64)>) -> TorqueCurve {
    let points = points.into_iter().map(|(speed, pull)| Ok((radians_per_second(speed), newton_metres(pull))));
    TorqueCurve::new(points).expect("few points")
}

fn run(curve: &TorqueCurve, load: &RoadLoad, mass: f64, from: f64, to: f64) -> f64 {
    direct().time(curve, load, kilograms(mass), radians_per_second(from), radians_per_second(to)).expect("gets there").in_seconds()
}

/// 700 kg that rolls at 0.013, with ρ = 1.2 kg/m³ and 0.65 m²: k = 0.39 kg/m.
fn load() -> RoadLoad {
    RoadLoad::new(kilograms(700.0), ratio(0.013), kilograms_per_cubic_metre(1.2), square_metres(0.65))
}

fn no_load() -> RoadLoad {
    RoadLoad::new(Mass::ZERO, ratio(0.0), Density::ZERO, Area::ZERO)
}

#[test]
fn constant_pull_takes_the_closed_forms_time() {
    let constant = pull([(0.0, 3500.0), (100.0, 3500.0)]);
    agrees(run(&constant, &no_load(), 700.0, 0.0, 100.0 * KMH), 5.555_555_556, 5e-10, CLOSED);
    agrees(run(&constant, &load(), 700.0, 0.0, 100.0 * KMH), 5.878_050_446, 5e-10, CLOSED);
    // 0.15 kg·m² against 220 − 2e-4·ω²: air drag has that shape.
    let quadratic = RoadLoad::new(Mass::ZERO, ratio(0.0), kilograms_per_cubic_metre(4e-4), square_metres(1.0));
    let flat = pull([(0.0, 220.0), (800.0, 220.0)]);
    let time = run(&flat, &quadratic, 0.15, per_minute(1000.0).si(), per_minute(7000.0).si());
    agrees(time, 0.547_059_746, 5e-10, CLOSED);
}

#[test]
fn road_load_is_the_closed_form() {
    for (speed, force, power) in [(50.0, 164.471_996, 2.284_333), (100.0, 390.166_441, 10.837_957), (150.0, 766.323_848, 31.930_160)] {
        let speed = kilometres_per_hour(speed);
        agrees(load().at(speed).in_newtons(), force, 5e-7, CLOSED);
        agrees((load().at(speed) * speed).in_kilowatts(), power, 5e-7, CLOSED);
    }
    // 100 kW run out where the load takes them all.
    let top = metres_per_second(62.329_490);
    agrees((load().at(top) * top).in_kilowatts(), 100.0, 5e-6, CLOSED);
}

/// Torque is straight between points, constant power is not: the error must shrink with the square of their distance.
#[test]
fn constant_power_is_met_at_the_second_order() {
    let between = |points: usize, load: &RoadLoad, mass: f64| {
        let (from, to) = (60.0 * KMH, 100.0 * KMH);
        let at = |point: usize| from + (to - from) * point as f64 / (points - 1) as f64;
        // The ends themselves, so that nothing is asked beyond them.
        let curve = pull((0..points).map(|point| (at(point), 100_000.0 / at(point))));
        run(&curve, load, mass, at(0), at(points - 1))
    };
    // m·(v₂² − v₁²)/2P; the same with 85 kg more; with road load by quadrature.
    let cases = [(no_load(), 700.0, 1.728_395_062), (no_load(), 785.0, 1.938_271_605), (load(), 700.0, 1.856_373_057)];
    for (load, mass, time) in cases {
        let error = |points| between(points, &load, mass) - time;
        agrees_within(between(24, &load, mass), time, 3e-4, CLOSED);
        for points in [3, 6, 12] {
            // Twice the pieces, a quarter of the error.
            let order = libm::log2(error(points) / error(2 * points - 1));
            assert!((1.9..2.1).contains(&order), "order {order} at {points} points");
        }
    }
}

/// Third gear, 200 N·m, four wheels of 0.9 kg·m²: the wheel that is lighter by 0.05 kg·m² saves 0.114 s.
#[test]
fn a_pull_in_third_is_the_closed_form() {
    let gear = Driveline { overall: ratio(5.5458), radius: metres(0.3), efficiency: ratio(0.92) };
    let constant = curve(&[(2000.0, 200.0), (6000.0, 200.0)]);
    for (inertia, moved, time) in [(0.15, 791.259_829, 5.271_133_396), (0.10, 774.173_220, 5.157_307_575)] {
        // The reference does not put the efficiency on the engine's inertia.
        let engine = equivalent_mass(kilogram_square_metres(inertia), gear.overall, gear.radius, ratio(1.0));
        let mass = with_wheels(kilograms(700.0), kilogram_square_metres(0.9), gear.radius) + engine;
        agrees(mass.in_kilograms(), moved, 5e-7, CLOSED);
        let got = gear.time(&constant, &no_load(), mass, per_minute(2000.0), per_minute(6000.0)).expect("pulls").in_seconds();
        agrees(got, time, 5e-9, CLOSED);
    }
    agrees_within(gear.road_speed(per_minute(6000.0)).si(), 33.988_885, 1e-7, CLOSED);
    let uphill = RoadLoad::new(kilograms(30_000.0), ratio(0.013), Density::ZERO, Area::ZERO);
    assert!(gear.time(&constant, &uphill, kilograms(30_000.0), per_minute(2000.0), per_minute(6000.0)).is_err());
}

#[test]
fn curves_are_read_between_their_points_only() {
    let steps = curve(&[(3000.0, 200.0), (1000.0, 100.0), (3000.0, 150.0), (5000.0, 250.0)]);
    let at = |speed: f64| steps.at(per_minute(speed)).map(Torque::in_newton_metres);
    for (speed, torque) in [(1000.0, 100.0), (2000.0, 150.0), (3000.0, 200.0), (4000.0, 200.0), (5000.0, 250.0)] {
        agrees(at(speed).expect("on the curve"), torque, 1e-9, "straight lines");
    }
    assert!(at(999.0).is_err() && at(5001.0).is_err());
    let revs = |from: f64, to: f64| rev_time(&steps, kilogram_square_metres(0.1), per_minute(from), per_minute(to));
    assert!(revs(900.0, 2000.0).is_err() && revs(2000.0, 5001.0).is_err() && revs(3000.0, 3000.0).is_err());
    assert!(curve(&[(1000.0, 100.0)]).at(per_minute(1000.0)).is_ok());
    let many = (0..25).map(|point| Ok((per_minute(f64::from(point)), newton_metres(1.0))));
    assert!(TorqueCurve::new(many).is_err());
}
