//! Two pulleys: printed examples.

use trialfit_core::calculators::front_drive::belt_path::{Impossible, Pulley, Side, close};
use trialfit_core::calculators::front_drive::{Hand, Point, tangent};
use trialfit_core::quantity::{Length, millimetres};
use trialfit_tests::agrees;

fn pulley(at: f64, diameter: f64) -> Pulley {
    Pulley { centre: Point::new(millimetres(at), Length::ZERO), diameter: millimetres(diameter), side: Side::Ribs }
}

/// Length and wraps (small pulley first, radians) of an open belt; any unit of length stands as millimetres.
fn open(small: f64, large: f64, centres: f64) -> (f64, f64, f64) {
    let path = close(&[pulley(0.0, small), pulley(centres, large)]).expect("an open belt");
    let wrap = |at: usize| path.arcs()[at].wrap.in_radians();
    (path.length.in_millimetres(), wrap(0), wrap(1))
}

#[test]
fn open_belts_of_shigley() {
    let source = "Shigley, 8th ed. solutions, p. 425, seen";
    let (length, small, large) = open(6.0, 18.0, 96.0);
    agrees(length, 230.074234, 5e-7, source);
    agrees(length, 230.074, 5e-4, source);
    agrees(small, 3.016511, 5e-7, source);
    agrees(large, 3.266674, 5e-7, source);

    let source = "Shigley, 10th ed., chapter 17, exercise 1, seen";
    let (length, small, _) = open(2.0, 4.0, 108.0);
    agrees(length, 225.434037, 5e-7, source);
    agrees(small, 3.123, 5e-4, source);
}

#[test]
fn v_belts_of_wentzell_and_mott() {
    let source = "Wentzell, Machine Design, example 14.2, seen";
    let (length, small, _) = open(4.0, 6.0, 19.119862);
    agrees(length, 54.0, 5e-6, source);
    agrees(small.to_degrees(), 174.004, 5e-4, source);

    let source = "Mott, Machine Elements in Mechanical Design, 4th ed., example 7-1, seen";
    agrees(open(12.4, 21.1, 24.0).0, 101.41229, 5e-6, source);
    let (length, small, _) = open(12.4, 21.1, 23.281583);
    agrees(length, 100.0, 5e-6, source);
    agrees(small.to_degrees(), 158.4766, 0.1, source);
}

#[test]
fn v_belt_of_khurmi() {
    // B30: exact length, printed 5.66 m.
    let source = "Khurmi and Gupta, Theory of Machines, example 11.19, seen";
    let length = open(1000.0 / 3.0, 1000.0, 1750.0).0 / 1000.0;
    agrees(length, 5.658081, 5e-7, source);
    agrees(length, 5.66, 5e-3, source);
}

#[test]
fn open_belts_computed() {
    let source = "closed form and hull of circles, computed with shapely";
    let (length, small, large) = open(60.0, 150.0, 300.0);
    agrees(length, 936.629971, 1e-6, source);
    agrees(small.to_degrees(), 162.746147, 1e-6, source);
    agrees(large.to_degrees(), 197.253853, 1e-6, source);
    let path = close(&[pulley(0.0, 60.0), pulley(300.0, 150.0)]).expect("an open belt");
    for span in path.spans() {
        agrees(span.length.in_millimetres(), 296.605799, 1e-6, source);
    }

    let (length, one, two) = open(100.0, 100.0, 250.0);
    agrees(length, 814.159265, 1e-6, source);
    agrees(one.to_degrees(), 180.0, 1e-9, source);
    agrees(two.to_degrees(), 180.0, 1e-9, source);
}

/// Span, wraps (radians) and length of a crossed belt, from its two crossing tangents.
fn crossed(one: f64, two: f64, centres: f64) -> (f64, f64, f64) {
    let at = |x: f64| Point::new(millimetres(x), Length::ZERO);
    let first = (at(0.0), millimetres(one), Hand::Anticlockwise);
    let second = (at(centres), millimetres(two), Hand::Clockwise);
    let out = tangent(first, second).expect("a crossing tangent");
    let back = tangent(second, first).expect("a crossing tangent");
    agrees(out.length.si(), back.length.si(), 1e-15, "symmetry");
    // Both wraps are the half turn and twice the angle of the span to the line of centres.
    let wrap = std::f64::consts::PI + 2.0 * libm::atan2(out.direction[1].abs(), out.direction[0]);
    let span = out.length.in_millimetres();
    (span, wrap, 2.0 * span + wrap * (one + two) / 2.0)
}

#[test]
fn crossed_belts() {
    let (span, wrap, length) = crossed(150.0, 60.0, 300.0);
    agrees(span, 281.024910, 1e-6, "closed form, computed");
    agrees(wrap.to_degrees(), 220.974630, 1e-6, "closed form, computed");
    agrees(length, 967.006980, 1e-6, "closed form, computed");

    // B7: the exact figures; the companion's 3.473 rad takes a sine for an arcsine.
    let source = "Khurmi and Gupta, Theory of Machines, example 11.6, recomputed";
    let (_, wrap, length) = crossed(450.0, 200.0, 1950.0);
    agrees(wrap, 3.476488812, 5e-10, source);
    agrees(length, 4975.310723, 5e-7, source);
}

#[test]
fn a_ribbed_belt_cannot_run_crossed() {
    let back = Pulley { side: Side::Back, ..pulley(300.0, 60.0) };
    assert_eq!(close(&[pulley(0.0, 150.0), back]), Err(Impossible::NotOnce));
}
