//! Stresses of a spinning ring, and the speeds it must bear.

use trialfit_core::calculators::flywheel::rattle::{natural_frequency, second_order_speed};
use trialfit_core::calculators::flywheel::strength::{Annulus, missed_shift};
use trialfit_core::quantity::*;
use trialfit_tests::{agrees, agrees_within};

const ELASTICITY: &str = "Timoshenko & Goodier §32, formula from memory; values by scipy.integrate.solve_bvp of the elasticity equation";

fn annulus(inner: f64, outer: f64, density: f64, poisson: f64) -> Annulus {
    Annulus::new(millimetres(outer), millimetres(inner), kilograms_per_cubic_metre(density), ratio(poisson)).expect("has metal")
}

#[test]
fn rings_are_pulled_as_elasticity_says() {
    for (sizes, speed, expected) in [
        ([50.0, 150.0, 7850.0, 0.3], 7000.0, [80.145_026, 25.308_956, 17.399_907]),
        ([50.0, 150.0, 7200.0, 0.27], 7000.0, [72.928_481, 23.793_642, 15.814_067]),
        ([40.0, 140.0, 7850.0, 0.3], 9000.0, [114.703_802, 33.121_159, 28.763_111]),
    ] {
        let [inner, outer, density, poisson] = sizes;
        let (ring, speed) = (annulus(inner, outer, density, poisson), per_minute(speed));
        let [bore, rim, radial] = expected;
        agrees(ring.hoop_at_bore(speed).in_megapascals(), bore, 5e-7, ELASTICITY);
        agrees(ring.hoop_at_rim(speed).in_megapascals(), rim, 5e-7, ELASTICITY);
        agrees(ring.radial_peak(speed).0.in_megapascals(), radial, 5e-7, ELASTICITY);
        // The formula over the radius meets both ends.
        agrees(ring.hoop_at(millimetres(inner), speed).in_megapascals(), bore, 5e-7, ELASTICITY);
        agrees(ring.hoop_at(millimetres(outer), speed).in_megapascals(), rim, 5e-7, ELASTICITY);
    }
    let (_, at) = annulus(50.0, 150.0, 7850.0, 0.3).radial_peak(per_minute(7000.0));
    agrees(at.in_millimetres(), 86.602_540, 5e-7, ELASTICITY);
}

#[test]
fn a_pinhole_doubles_the_stress_of_a_solid_disc() {
    let speed = per_minute(7000.0);
    let solid = annulus(0.0, 150.0, 7850.0, 0.3);
    agrees(solid.hoop_at(Length::ZERO, speed).in_megapascals(), 39.149_791, 5e-7, ELASTICITY);
    agrees(solid.hoop_at_bore(speed).in_megapascals(), 39.149_791, 5e-7, ELASTICITY);
    agrees(annulus(1e-6, 150.0, 7850.0, 0.3).hoop_at_bore(speed).in_megapascals(), 78.299_581, 1e-6, ELASTICITY);
}

#[test]
fn thin_rings_are_pulled_by_density_and_rim_speed() {
    let thin = |radius: f64, density: f64| annulus(radius * (1.0 - 1e-10), radius, density, 0.3);
    let source = "ρ·v²";
    agrees_within(thin(1000.0, 7850.0).average_hoop(radians_per_second(100.0)).in_megapascals(), 78.5, 1e-9, source);
    agrees_within(thin(150.0, 7850.0).average_hoop(per_minute(7000.0)).in_megapascals(), 94.908_583, 1e-8, source);
    // Khurmi & Gupta ex. 16.14 and 16.16: 7 MPa in 7200 kg/m³ allow 31.18 m/s, 6 MPa in 7250 kg/m³ 28.77 m/s.
    for (stress, density, velocity, speed, diameter) in
        [(7.0, 7200.0, 31.180_478, 800.0, 0.744_379), (6.0, 7250.0, 28.767_798, 600.0, 0.915_707)]
    {
        let source = "Khurmi & Gupta, ex. 16.14 and 16.16";
        let ring = thin(500.0 * diameter, density);
        let bursts = ring.burst_speed(megapascals(stress));
        agrees_within(rim_speed(bursts, metres(diameter / 2.0)).in_metres_per_second(), velocity, 2e-8, source);
        agrees_within(bursts.in_per_minute(), speed, 1e-6, source);
    }
}

/// The averaged pull is the force that parts the two halves, ∫ρω²·x dA, over the cut: added up in strips.
#[test]
fn the_average_is_the_force_on_a_half_over_the_cut() {
    let (ring, speed) = (annulus(40.0, 140.0, 7850.0, 0.3), per_minute(9000.0));
    let strips = 4000;
    let (inner, width) = (0.04, 0.1 / f64::from(strips));
    let load = 7850.0 * speed.si() * speed.si();
    // Each half strip of radius r pulls with 2·r²·ρω² dr across the cut, which two walls of the ring share.
    let force: f64 = (0..strips).map(|at| inner + (f64::from(at) + 0.5) * width).map(|r| load * 2.0 * r * r * width).sum();
    agrees_within(ring.average_hoop(speed).si(), force / (2.0 * 0.1), 1e-6, "midpoint rule");
    // The same by the hoop stress that elasticity gives, averaged over the radius: equilibrium.
    let mean: f64 = (0..strips).map(|at| ring.hoop_at(metres(inner + (f64::from(at) + 0.5) * width), speed).si()).sum();
    agrees_within(mean / f64::from(strips), ring.average_hoop(speed).si(), 1e-6, "equilibrium of a half");
}

#[test]
fn a_missed_shift_and_a_rattle_come_out_as_by_hand() {
    let over = missed_shift(per_minute(7000.0), ratio(1.422), ratio(2.214));
    agrees(over.in_per_minute(), 10_900.0, 50.0, "7000 in third, second selected; by hand");
    let engine = kilogram_square_metres(0.12);
    let frequency = natural_frequency(newton_metres_per_radian(1000.0), engine, kilogram_square_metres(0.01));
    agrees(frequency.in_hertz(), 52.0, 0.5, "two masses on a spring; by hand");
    agrees(second_order_speed(frequency).in_per_minute(), 1570.0, 5.0, "two pulses a turn; by hand");
}
