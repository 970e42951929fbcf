//! Masses and moments of inertia: from sizes, from gyration, from a swing.

use trialfit_core::calculators::flywheel::sections::{Body, Holes, Ring};
use trialfit_core::calculators::flywheel::strength::stored_energy;
use trialfit_core::calculators::flywheel::swing::{Hanging, Reading, Swing};
use trialfit_core::calculators::flywheel::totals::equivalent_mass;
use trialfit_core::quantity::*;
use trialfit_tests::{agrees, agrees_within};

const DISC: &str = "m·(D² + d²)/8, computed and checked with scipy.integrate.quad";

fn ring(outer: f64, inner: f64, width: f64, density: f64) -> Body {
    let ring = Ring::new(millimetres(outer), millimetres(inner), millimetres(width)).expect("has metal");
    ring.body(kilograms_per_cubic_metre(density))
}

#[test]
fn rings_weigh_and_resist_what_their_sizes_say() {
    // A disc of 6 kg, 280 mm, and a ring of 7 kg, 290/240 mm, at whatever density makes those masses.
    let per_density = ring(280.0, 0.0, 20.0, 1.0).mass.in_kilograms();
    agrees(ring(280.0, 0.0, 20.0, 6.0 / per_density).inertia.si(), 0.058_8, 1e-12, DISC);
    let per_density = ring(290.0, 240.0, 20.0, 1.0).mass.in_kilograms();
    agrees(ring(290.0, 240.0, 20.0, 7.0 / per_density).inertia.si(), 0.123_987_5, 1e-12, DISC);
    for (sizes, density, mass, inertia) in [
        ([280.0, 100.0, 20.0], 7850.0, 8.434_233_797, 0.093_198_283),
        ([280.0, 100.0, 20.0], 2700.0, 2.900_946_656, 0.032_055_461),
        ([300.0, 0.0, 25.0], 7850.0, 13.872_095_061, 0.156_061_069),
    ] {
        let body = ring(sizes[0], sizes[1], sizes[2], density);
        agrees(body.mass.in_kilograms(), mass, 5e-10, DISC);
        agrees(body.inertia.si(), inertia, 5e-10, DISC);
    }
}

#[test]
fn holes_and_bolts_follow_the_parallel_axis() {
    let holes = Holes::new(ratio(6.0), millimetres(10.0), millimetres(220.0), millimetres(20.0)).expect("apart");
    agrees(holes.filled(grams(80.0)).inertia.si(), 0.005_808, 1e-12, "six points of 0.08 kg at 110 mm: m·r²");
    // A hole is a cylinder about its own middle, m·d²/8, carried out to the circle, m·r².
    let body = holes.body(kilograms_per_cubic_metre(7850.0));
    let mass = 6.0 * 7850.0 * core::f64::consts::FRAC_PI_4 * 0.01 * 0.01 * 0.02;
    agrees_within(body.mass.in_kilograms(), mass, 1e-12, "volume of a cylinder");
    agrees_within(body.inertia.si(), mass * (0.01 * 0.01 / 8.0 + 0.11 * 0.11), 1e-12, "Huygens and Steiner");
}

/// So many holes side by side that they are a ring: what is left must be the two rings on either side. Each hole is a
/// square of the ring's metal less its corners, so mass and inertia shrink alike, by π/4.
#[test]
fn a_circle_of_touching_holes_takes_a_quarter_pi_of_a_ring() {
    let count = 100_000.0;
    let diameter = core::f64::consts::PI * 200.0 / count;
    let holes = Holes::new(ratio(count), millimetres(diameter * (1.0 - 1e-6)), millimetres(200.0), millimetres(10.0)).expect("apart");
    let (taken, ring) = (holes.body(kilograms_per_cubic_metre(7850.0)), ring(200.0 + diameter, 200.0 - diameter, 10.0, 7850.0));
    agrees_within(taken.mass / ring.mass, core::f64::consts::FRAC_PI_4, 1e-5, "circle in a square");
    agrees_within(taken.inertia / ring.inertia, core::f64::consts::FRAC_PI_4, 1e-5, "circle in a square");
}

#[test]
fn what_cannot_be_turned_is_refused() {
    assert!(Ring::new(millimetres(100.0), millimetres(100.0), millimetres(5.0)).is_err());
    assert!(Ring::new(millimetres(100.0), millimetres(50.0), Length::ZERO).is_err());
    assert!(Holes::new(ratio(8.0), millimetres(30.0), millimetres(70.0), millimetres(5.0)).is_err(), "8 of 30 mm do not go on 70 mm");
    assert!(Holes::new(ratio(2.0), millimetres(30.0), millimetres(29.0), millimetres(5.0)).is_err());
}

/// Khurmi & Gupta, Theory of Machines, ex. 3.1 and 16.2: 2500 kg at 1 m, 1500 N·m for 10 s: 0.6 rad/s², 45 kJ.
#[test]
fn gyration_and_stored_energy_are_those_of_khurmi() {
    let body = Body::of_gyration(kilograms(2500.0), metres(1.0));
    let gain = newton_metres(1500.0) / body.inertia;
    agrees(gain.in_radians_per_second_squared(), 0.6, 1e-12, "Khurmi & Gupta, ex. 3.1");
    agrees(stored_energy(body.inertia, gain * seconds(10.0)).in_kilojoules(), 45.0, 1e-9, "Khurmi & Gupta, ex. 3.1");
    agrees(body.radius_of_gyration().in_metres(), 1.0, 1e-15, "definition");
    for (inertia, speed, energy) in [(0.15, 7000.0, 40_300.884_638), (0.15, 6000.0, 29_608.813_203), (0.10, 3000.0, 4_934.802_201)] {
        let got = stored_energy(kilogram_square_metres(inertia), per_minute(speed)).in_joules();
        agrees(got, energy, 5e-7, "½·J·ω², computed");
    }
}

/// Shigley, solutions to ch. 16, the punch: 110.72 in·lbf·s² from 124.41 to 117.81 rad/s gives up 88 501.37 in·lbf.
#[test]
fn a_slowing_wheel_gives_what_shigley_and_khurmi_print() {
    let inch_pound = pounds_force_inches(1.0).si();
    let wheel = kilogram_square_metres(110.72 * inch_pound);
    let held = |speed: f64| stored_energy(wheel, radians_per_second(speed)).in_joules() / inch_pound;
    agrees(held(124.41), 856_853.67, 5e-3, "Shigley, solutions manual 8th ed., ch. 16");
    agrees(held(117.81), 768_352.30, 5e-3, "Shigley, solutions manual 8th ed., ch. 16");
    // Khurmi ex. 16.21: 150 kg at 0.6 m and 300 min⁻¹ gives 7 kJ and turns at 257.601 224 after.
    let wheel = Body::of_gyration(kilograms(150.0), metres(0.6)).inertia;
    let given = stored_energy(wheel, per_minute(300.0)) - stored_energy(wheel, per_minute(257.601_224));
    agrees(given.in_joules(), 7000.0, 1e-3, "Khurmi & Gupta, ex. 16.21");
    // Khurmi ex. 3.3: 140 kg·m² at 240 min⁻¹ gives 6 kJ and drops by 16.877 176.
    let wheel = kilogram_square_metres(140.0);
    let given = stored_energy(wheel, per_minute(240.0)) - stored_energy(wheel, per_minute(240.0 - 16.877_176));
    agrees(given.in_joules(), 6000.0, 1e-3, "Khurmi & Gupta, ex. 3.3");
}

#[test]
fn equivalent_masses_are_the_closed_form() {
    let radius = metres(0.3);
    let source = "J·G²/r², computed";
    let at =
        |inertia: f64, overall: f64| equivalent_mass(kilogram_square_metres(inertia), ratio(overall), radius, ratio(1.0)).in_kilograms();
    agrees(at(0.1, 14.35), 228.802_778, 5e-7, source);
    let gears = [3.636, 2.214, 1.422, 1.0, 0.802];
    for (gear, mass) in gears.into_iter().zip([223.426_382, 82.840_352, 34.173_220, 16.9, 10.870_148]) {
        agrees(at(0.1, gear * 3.9), mass, 5e-7, source);
    }
    for (gear, mass) in gears.into_iter().zip([335.139_574, 124.260_529, 51.259_829, 25.35, 16.305_221]) {
        agrees(at(0.15, gear * 3.9), mass, 6e-7, source);
    }
}

/// Khurmi & Gupta ex. 3.13: 75 kg on a 0.3 m drum of 100 kg·m², geared up six times to 5 kg·m². The mass drives the gear
/// here, so its loss makes the far side heavier: 1/η where a car's engine has η. The book takes g = 9.81.
#[test]
fn a_geared_drop_falls_as_khurmi_prints() {
    let falls = |efficiency: f64| {
        let far = equivalent_mass(kilogram_square_metres(5.0), ratio(6.0), metres(0.3), ratio(1.0 / efficiency));
        let drum = kilograms(100.0 / (0.3 * 0.3));
        75.0 * 9.81 / (kilograms(75.0) + drum + far).in_kilograms()
    };
    agrees(falls(1.0), 0.230_924_150, 5e-10, "Khurmi & Gupta, ex. 3.13");
    agrees(falls(0.9), 0.215_867_971, 5e-10, "Khurmi & Gupta, ex. 3.13");
}

fn swing(hanging: Hanging, mass: f64, radius: f64, length: f64, period: f64) -> Swing {
    Swing { hanging, mass: kilograms(mass), radius: metres(radius), length: metres(length), period: seconds(period) }
}

const TRIFILAR: &str = "m·g·R²·T²/(4π²·L), computed";

#[test]
fn swings_tell_the_inertia() {
    for hanging in [Hanging::ThreeStrings, Hanging::TwoStrings] {
        let got = swing(hanging, 7.0, 0.12, 1.5, 1.2).inertia().expect("swings").si();
        agrees(got, 0.024_037_689, 5e-10, TRIFILAR);
        let got = swing(hanging, 6.0, 0.12, 1.5, 2.027_201_654).inertia().expect("swings").si();
        agrees(got, 0.0588, 1e-10, TRIFILAR);
    }
    // The annulus of 280/100 × 20 mm, hung by its bore: sizes and swing, two ways to one number.
    let body = ring(280.0, 100.0, 20.0, 7850.0);
    let hung = swing(Hanging::KnifeEdge, body.mass.in_kilograms(), 0.05, 0.0, 1.044_489_735);
    agrees(hung.inertia().expect("swings").si(), body.inertia.si(), 1e-9, "physical pendulum, computed");
    agrees(body.inertia.si(), 0.093_198_283, 5e-10, DISC);
    assert!(swing(Hanging::KnifeEdge, 7.0, 0.12, 0.0, 0.1).inertia().is_err(), "faster than any pendulum of that length");
}

/// 1.500 ± 0.005 s, 0.1200 ± 0.0005 m, 1.500 ± 0.002 m, 7.00 ± 0.01 kg: root of squares, and the `uncertainties` library.
#[test]
fn the_doubt_of_a_swing_is_that_of_its_readings() {
    let it = swing(Hanging::ThreeStrings, 7.0, 0.12, 1.5, 1.5);
    let doubt = it.doubt(kilograms(0.01), metres(0.0005), metres(0.002), seconds(0.005)).expect("swings");
    agrees(it.inertia().expect("swings").si(), 0.037_558_888, 5e-10, TRIFILAR);
    agrees(doubt.whole.si(), 0.000_407_488, 5e-10, "uncertainties 3.2, ufloat");
    assert_eq!(doubt.decides(), Reading::Radius, "0.83 % against 0.67, 0.13 and 0.14");
}

/// Each part of the doubt is the slope of the formula: a small step up and down must show the same.
#[test]
fn doubts_are_slopes_hung_either_way() {
    for base in [swing(Hanging::ThreeStrings, 4.2, 0.12, 1.5, 2.15), swing(Hanging::KnifeEdge, 8.4, 0.05, 1.0, 1.04)] {
        let step = 1e-6;
        let at = |changed: Swing| changed.inertia().expect("swings").si();
        let slope = |up: Swing, down: Swing| (at(up) - at(down)).abs() / 2.0;
        let doubt = base.doubt(kilograms(step), metres(step), metres(step), seconds(step)).expect("swings");
        let stepped = |sign: f64| {
            let by = sign * step;
            [
                Swing { mass: base.mass + kilograms(by), ..base },
                Swing { radius: base.radius + metres(by), ..base },
                Swing { length: base.length + metres(by), ..base },
                Swing { period: base.period + seconds(by), ..base },
            ]
        };
        for ((up, down), part) in stepped(1.0).into_iter().zip(stepped(-1.0)).zip(doubt.parts) {
            agrees(part.si(), slope(up, down), 1e-6 * part.si().max(1e-12), "central difference");
        }
    }
}
