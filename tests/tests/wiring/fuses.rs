//! Fuses, and wires under them.

use trialfit_core::calculators::wiring::protection::Node;
use trialfit_core::data::conductors::{INSULATIONS, after_short, swallowed};
use trialfit_core::data::fuses::{Fuse, RATINGS};
use trialfit_core::quantity::{
    ampere_squared_seconds, amperes, celsius, joules_per_metre_kelvin, kelvin_metres_per_watt, milliohms_per_metre, seconds,
    square_millimetres, watts_per_metre,
};
use trialfit_tests::{agrees, agrees_within};

/// ISO 8820-3, colours to 30 A seen in a motoring article's table (another article's "tan, 1 A" is wrong), the rest from
/// memory.
#[test]
fn fuses_have_the_colours_of_iso_8820_3() {
    for (rating, colour) in [
        (1.0, "black"),
        (2.0, "grey"),
        (3.0, "violet"),
        (4.0, "pink"),
        (5.0, "tan"),
        (7.5, "brown"),
        (10.0, "red"),
        (15.0, "blue"),
        (20.0, "yellow"),
        (25.0, "clear"),
        (30.0, "green"),
        (35.0, "blue-green"),
        (40.0, "orange"),
        (50.0, "red"),
        (60.0, "blue"),
        (70.0, "tan"),
        (80.0, "clear"),
        (100.0, "violet"),
    ] {
        assert_eq!(Fuse::new(amperes(rating)).colour(), Some(colour), "{rating} A");
    }
    assert_eq!(Fuse::new(amperes(6.0)).colour(), None);
}

/// A load of 8 A for hours at 0.8 of the rating wants 10 A (common practice); ratings are whole ones of the list.
#[test]
fn the_next_rating_is_taken() {
    let next = |least: f64| Fuse::at_least(amperes(least)).map(|fuse| fuse.rating.in_amperes());
    assert_eq!(next(8.0 / 0.8), Some(10.0));
    assert_eq!(next(10.1), Some(15.0));
    assert_eq!(next(34.3), Some(35.0));
    assert_eq!(next(0.0), Some(1.0));
    assert_eq!(next(251.0), None);
    assert!(RATINGS.windows(2).all(|pair| pair[0] < pair[1]));
}

/// Time limits, from memory of ISO 8820-3. Data sheets disagree on 1.35 times (600 or 1800 s: the longer is kept).
#[test]
fn fuses_open_within_the_times_of_the_table() {
    let within =
        |rating: f64, multiple: f64| Fuse::new(amperes(rating)).opens_within(amperes(rating * multiple)).map(|time| time.in_seconds());
    for (multiple, latest) in [(1.35, 1800.0), (1.6, 50.0), (2.0, 5.0), (3.5, 0.5), (6.0, 0.1), (5.9, 0.5), (100.0, 0.1)] {
        assert_eq!(within(15.0, multiple), Some(latest), "{multiple}");
    }
    for (multiple, latest) in [(2.0, 60.0), (3.5, 7.0), (6.0, 1.0)] {
        assert_eq!(within(60.0, multiple), Some(latest), "{multiple}");
    }
    assert_eq!(within(15.0, 1.34), None);
    for rating in RATINGS {
        let openings = Fuse::new(amperes(*rating)).openings();
        assert!(openings.windows(2).all(|pair| pair[0].multiple < pair[1].multiple && pair[0].latest > pair[1].latest));
    }
}

/// 15 A at 600 % for 0.1 s lets 810 A²s through, 30 A 3240; 0.5 mm² in PVC (k = 115, exactly 114.8361) swallows 3306.25.
#[test]
fn shorts_are_swallowed_or_not() {
    let through = |rating: f64| {
        let opening = Fuse::new(amperes(rating)).openings().last().copied().expect("a row");
        (rating * opening.multiple).powi(2) * opening.latest.in_seconds()
    };
    let pvc = swallowed(celsius(70.0), celsius(160.0), square_millimetres(0.5)).in_ampere_squared_seconds();
    agrees_within(pvc, 3306.25 * (114.836_1_f64 / 115.0).powi(2), 1e-5, "115²·0.5² with the unrounded k");
    agrees_within(through(15.0), 810.0, 1e-9, "90²·0.1");
    agrees_within(pvc / through(30.0), 1.0204, 0.004, "marginal, by the rounded k");
}

/// θ = (θ₁ + 234.5)·e^(I²t/(K²S²)) − 234.5, computed.
#[test]
fn copper_ends_a_short_at_the_formulas_temperature() {
    for (current, area, time, start, end) in
        [(500.0, 1.5, 0.1, 70.0, 144.240_072), (180.0, 0.5, 0.1, 85.0, 177.589_816), (1000.0, 2.5, 0.05, 85.0, 139.346_840)]
    {
        let through = ampere_squared_seconds(current * current * time);
        let got = after_short(celsius(start), through, square_millimetres(area)).in_celsius();
        agrees_within(got, end, 1e-8, "IEC 60949, formula from memory, computed");
    }
    // The two ways of saying it agree: what k says is swallowed warms exactly to the end it stands for.
    for insulation in &INSULATIONS {
        let area = square_millimetres(2.5);
        let end = after_short(insulation.lasting, swallowed(insulation.lasting, insulation.short, area), area);
        agrees_within(end.in_celsius(), insulation.short.in_celsius(), 1e-9, "k and the end temperature are one formula");
    }
}

/// Letters of ISO 6722, seen in a cable standard that prints the table.
#[test]
fn letters_stand_for_their_temperatures() {
    for (insulation, lasting) in INSULATIONS.iter().zip([85.0, 100.0, 125.0, 150.0, 175.0, 200.0, 225.0, 250.0]) {
        assert_eq!(insulation.lasting, celsius(lasting));
        assert!(insulation.lasting < insulation.overload && insulation.overload <= insulation.short.max(insulation.overload));
    }
}

/// 1 mm² with 6.9 J/(m·K) and 6.5 K·m/W: τ about 45 s; 24 A for 50 s from 60 °C give 121 °C where no loss would give 284
/// (worked by a practising engineer, no published source).
#[test]
fn between_shorts_and_hours_a_wire_is_one_node() {
    let node = |resistance: f64| Node {
        capacity: joules_per_metre_kelvin(6.9),
        resistance: milliohms_per_metre(resistance),
        reference: celsius(60.0),
        loss: watts_per_metre(0.0),
        outward: kelvin_metres_per_watt(6.5),
    };
    const SOURCE: &str = "an engineer's worked case, no published source";
    let warm = node(18.5).temperature_after(amperes(24.0), seconds(50.0), celsius(60.0));
    agrees(warm.in_celsius(), 121.0, 1.0, SOURCE);
    let without_loss = after_short(celsius(60.0), ampere_squared_seconds(24.0 * 24.0 * 50.0), square_millimetres(1.0));
    agrees(without_loss.in_celsius(), 284.0, 0.5, SOURCE);
    // Without the copper's own warming: the exponential's 63 % after τ = 6.9·6.5 s.
    let tiny = node(1e-6);
    let cooled = tiny.temperature_after(amperes(0.0), seconds(6.9 * 6.5), celsius(160.0));
    agrees(cooled.in_celsius(), 60.0 + 100.0 * (-1.0_f64).exp(), 1e-9, "e^−1 after one time constant");
    // After long it is where it settles; where the copper heats itself up without end it says so.
    let node = node(18.5);
    let settled = node.settled(amperes(15.0)).expect("settles");
    agrees(node.temperature_after(amperes(15.0), seconds(1e4), celsius(60.0)).in_celsius(), settled.in_celsius(), 1e-9, "the limit");
    assert_eq!(node.settled(amperes(50.0)), None);
    assert!(node.temperature_after(amperes(50.0), seconds(1e6), celsius(60.0)) > celsius(1e6));
    assert!(node.stands(amperes(0.0)) && !node.stands(amperes(1.0)));
}
