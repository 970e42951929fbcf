//! Alternator output, its cost and its inertia.

use trialfit_core::calculators::front_drive::alternator::{self, Output, Rating, Unfit, reflected, shaft_power, spin_up};
use trialfit_core::calculators::front_drive::grip;
use trialfit_core::quantity::{amperes, kilogram_square_metres, millimetres, per_minute, radians_per_second_squared, volts};
use trialfit_tests::{agrees, agrees_within};

fn through(cut_in: f64, low: (f64, f64), high: (f64, f64)) -> Result<Output, Unfit> {
    let rating = |(speed, current)| Rating { speed: per_minute(speed), current: amperes(current) };
    Output::through(per_minute(cut_in), rating(low), rating(high))
}

#[test]
fn the_curve_of_a_small_alternator() {
    // A practising engineer's worked figures: τ = 682 min⁻¹, I∞ = 50.03 A, 40.4 A at 2125 min⁻¹.
    let source = "common practice, figures worked by hand";
    let output = through(1000.0, (1500.0, 26.0), (6000.0, 50.0)).expect("concave");
    agrees(output.rise.in_per_minute(), 682.0, 0.5, source);
    agrees(output.most.in_amperes(), 50.03, 5e-3, source);
    agrees(output.at(per_minute(2125.0)).in_amperes(), 40.4, 5e-2, source);
}

#[test]
fn the_curve_goes_through_its_ratings() {
    for (cut_in, low, high) in [
        (1000.0, (1500.0, 26.0), (6000.0, 50.0)),
        (1200.0, (1500.0, 50.0), (6000.0, 120.0)),
        (800.0, (1500.0, 55.0), (6000.0, 56.0)),
        (0.0, (1800.0, 40.0), (6000.0, 70.0)),
        // Nearly straight: 13 A for 500 min⁻¹ would be 130 A for 5000.
        (1000.0, (1500.0, 13.0), (6000.0, 129.0)),
    ] {
        let output = through(cut_in, low, high).expect("concave");
        for (speed, current) in [low, high] {
            agrees_within(output.at(per_minute(speed)).in_amperes(), current, 1e-9, "its own rating");
        }
        assert_eq!(output.at(per_minute(cut_in)), amperes(0.0));
        assert_eq!(output.at(per_minute(cut_in - 100.0)), amperes(0.0));
    }
}

#[test]
fn the_curve_by_plain_bisection() {
    // The same equation solved the slow way, on τ.
    let (near, far, ratio) = (500.0, 5000.0, 50.0 / 26.0);
    let (mut low, mut high) = (10.0_f64, 1e6_f64);
    for _ in 0..200 {
        let rise = (low + high) / 2.0;
        let got = (1.0 - libm::exp(-far / rise)) / (1.0 - libm::exp(-near / rise));
        if got < ratio { low = rise } else { high = rise }
    }
    let output = through(1000.0, (1500.0, 26.0), (6000.0, 50.0)).expect("concave");
    agrees_within(output.rise.in_per_minute(), low, 1e-9, "bisection");
}

#[test]
fn ratings_that_fit_no_such_curve_say_why() {
    assert_eq!(through(1600.0, (1500.0, 26.0), (6000.0, 50.0)), Err(Unfit::SpeedsOutOfOrder));
    assert_eq!(through(1000.0, (6000.0, 26.0), (1500.0, 50.0)), Err(Unfit::SpeedsOutOfOrder));
    assert_eq!(through(1000.0, (1500.0, 50.0), (6000.0, 50.0)), Err(Unfit::NoRise));
    assert_eq!(through(1000.0, (1500.0, 60.0), (6000.0, 50.0)), Err(Unfit::NoRise));
    assert_eq!(through(1000.0, (1500.0, 5.0), (6000.0, 50.0)), Err(Unfit::TooSteep));
    assert_eq!(through(1000.0, (1500.0, 0.0), (6000.0, 50.0)), Err(Unfit::NotARating));
    assert_eq!(through(f64::NAN, (1500.0, 26.0), (6000.0, 50.0)), Err(Unfit::NotARating));
    assert_eq!(through(-1.0, (1500.0, 26.0), (6000.0, 50.0)), Err(Unfit::NotARating));
}

#[test]
fn what_it_costs_at_the_shaft() {
    // L11: 100 A at 14 V and 60 %, at 6000 min⁻¹.
    let power = shaft_power(volts(14.0), amperes(100.0), 0.60);
    agrees(power.in_watts(), 2333.333, 5e-4, "V·I/η, computed");
    let torque = alternator::torque(power, per_minute(6000.0));
    agrees(torque.in_newton_metres(), 3.713615, 5e-7, "P/ω, computed");
}

#[test]
fn a_free_rev_outweighs_charging() {
    // A practising engineer's figures: 0.0015 kg·m², ratio 2.5, 1667 rad/s²: 6.3 N·m, 208 N at 30 mm.
    let source = "common practice, figures worked by hand";
    let rotor = kilogram_square_metres(0.0015);
    let torque = spin_up(rotor, 2.5, radians_per_second_squared(1667.0));
    agrees(torque.in_newton_metres(), 6.3, 0.05, source);
    agrees(grip::pull(torque, millimetres(60.0)).in_newtons(), 208.0, 0.5, source);
    agrees_within(reflected(rotor, 2.5).si(), 0.009375, 1e-12, "J·i², by hand");
}
