//! What must hold for every flywheel, whatever its sizes.

use proptest::prelude::*;
use trialfit_core::build::Build;
use trialfit_core::calculators::car;
use trialfit_core::calculators::flywheel::curve::TorqueCurve;
use trialfit_core::calculators::flywheel::idle::{Four, unevenness};
use trialfit_core::calculators::flywheel::in_gear::{Driveline, RoadLoad};
use trialfit_core::calculators::flywheel::launch::join;
use trialfit_core::calculators::flywheel::revs::rev_time;
use trialfit_core::calculators::flywheel::sections::{Holes, Ring};
use trialfit_core::calculators::flywheel::shut::EngineDrag;
use trialfit_core::calculators::flywheel::strength::{Annulus, stored_energy};
use trialfit_core::calculators::flywheel::swing::{Hanging, Swing};
use trialfit_core::calculators::flywheel::totals::equivalent_mass;
use trialfit_core::calculators::flywheel::turning_moment::Diagram;
use trialfit_core::calculators::flywheel::*;
use trialfit_core::quantity::*;
use trialfit_core::spec::{Id, Kind, Output, Place, Role, TableId};
use trialfit_tests::{PLAN, evaluated, laws};

/// A torque curve that pulls everywhere from 500 to 8000 min⁻¹, its points in any order.
fn curve() -> impl Strategy<Value = TorqueCurve> {
    let point = (500.0..8000.0, 20.0..500.0);
    let ends = (20.0..500.0, 20.0..500.0);
    (prop::collection::vec(point, 0..12), ends).prop_map(|(mut points, (first, last))| {
        points.extend([(8000.0, last), (500.0, first)]);
        TorqueCurve::new(points.into_iter().map(|(speed, torque)| Ok((per_minute(speed), newton_metres(torque))))).expect("few points")
    })
}

/// Two engine speeds inside it, the lower first.
fn range() -> impl Strategy<Value = (RotationalSpeed, RotationalSpeed)> {
    (500.0..7900.0, 1.0..7500.0).prop_map(|(from, width): (f64, f64)| (per_minute(from), per_minute((from + width).min(8000.0))))
}

fn inertia() -> impl Strategy<Value = Inertia> {
    (0.01..2.0).prop_map(kilogram_square_metres)
}

fn annulus() -> impl Strategy<Value = Annulus> {
    (0.0..0.99, 0.05..0.3, 2000.0..9000.0, 0.2..0.4).prop_map(|(share, outer, density, poisson)| {
        Annulus::new(metres(outer), metres(outer * share), kilograms_per_cubic_metre(density), ratio(poisson)).expect("has metal")
    })
}

fn four() -> impl Strategy<Value = Four> {
    (1.0..400.0, 0.0..1.5, 20.0..80.0, 0.0..0.5).prop_map(|(gas, reciprocating, radius, rod_ratio)| Four {
        gas: newton_metres(gas),
        reciprocating: kilograms(reciprocating),
        crank_radius: millimetres(radius),
        rod_ratio: ratio(rod_ratio),
    })
}

#[track_caller]
fn same(one: f64, other: f64, share: f64) {
    assert!((one - other).abs() <= share * one.abs().max(other.abs()), "{one} and {other}");
}

/// Simpson's rule from 0 to 1, its strips halved until that no longer tells.
fn settled_simpson(f: impl Fn(f64) -> f64) -> f64 {
    let mut trapezium = (f(0.0) + f(1.0)) / 2.0;
    let mut simpson = f64::INFINITY;
    for halvings in 0..24 {
        let strips = f64::from(1 << halvings);
        let between: f64 = (0..1 << halvings).map(|strip| f((f64::from(strip) + 0.5) / strips)).sum::<f64>() / strips;
        let finer = (trapezium + 2.0 * between) / 3.0;
        trapezium = (trapezium + between) / 2.0;
        // Not before the strips have seen the whole of it.
        if halvings > 3 && (finer - simpson).abs() <= 1e-10 * finer.abs() {
            return finer;
        }
        simpson = finer;
    }
    panic!("Simpson's rule does not settle")
}

proptest! {
    #![proptest_config(laws(512))]

    #[test]
    fn more_inertia_never_revs_faster(curve in curve(), (from, to) in range(), small in inertia(), more in inertia()) {
        let time = |inertia| rev_time(&curve, inertia, from, to).expect("pulls");
        prop_assert!(time(small + more) > time(small));
        // In proportion, in fact.
        same((time(small + more) / time(small)) * (small / (small + more)), 1.0, 1e-12);
    }

    #[test]
    fn more_inertia_never_idles_rougher(four in four(), idle in 300.0..2500.0, small in inertia(), more in inertia()) {
        let (idle, swing) = (per_minute(idle), four.energy_swing(per_minute(idle)));
        prop_assert!(unevenness(swing, small + more, idle) <= unevenness(swing, small, idle));
    }

    #[test]
    fn more_inertia_never_falls_faster_nor_pulls_harder_nor_stalls_sooner(
        small in inertia(), more in inertia(), car in 0.05..2.0, overall in 0.5..20.0, (to, from) in range(), friction in 0.1..3.0,
    ) {
        let drag = EngineDrag { friction: ratio(friction), pumping: bar(0.65), displacement: cubic_centimetres(2500.0) };
        let fall = |inertia| drag.fall_time(inertia, from, to).expect("falls");
        prop_assert!(fall(small + more) > fall(small));
        let mass = |inertia| equivalent_mass(inertia, ratio(overall), metres(0.28), ratio(0.9));
        prop_assert!(mass(small + more) > mass(small));
        let left = |inertia| join(inertia, from, kilogram_square_metres(car), RotationalSpeed::ZERO).speed;
        prop_assert!(left(small + more) >= left(small));
    }

    /// Time to the middle and from there: the sum, wherever the middle is.
    #[test]
    fn times_add_up(curve in curve(), (from, to) in range(), share in 0.01..0.99, inertia in inertia()) {
        let middle = from + (to - from) * share;
        let time = |from, to| rev_time(&curve, inertia, from, to).expect("pulls").in_seconds();
        same(time(from, middle) + time(middle, to), time(from, to), 1e-11);
        let drag = EngineDrag { friction: ratio(1.0), pumping: bar(0.65), displacement: cubic_centimetres(2500.0) };
        let fall = |from, to| drag.fall_time(inertia, from, to).expect("falls").in_seconds();
        same(fall(to, middle) + fall(middle, from), fall(to, from), 1e-11);
    }

    /// Against Simpson's rule on each stretch, which knows nothing of the closed form.
    #[test]
    fn the_closed_form_is_the_integral(
        curve in curve(), (from, to) in range(), overall in 2.0..16.0, mass in 0.0..900.0, area in 0.0..1.0,
    ) {
        let load = RoadLoad::new(kilograms(mass), ratio(0.013), kilograms_per_cubic_metre(1.2), square_metres(area));
        let gear = Driveline { overall: ratio(overall), radius: metres(0.28), efficiency: ratio(0.9) };
        let Ok(time) = gear.time(&curve, &load, kilograms(700.0), from, to) else {
            let short = curve.between(from, to).expect("reaches").any(|piece| {
                [(piece.first, piece.from), (piece.last, piece.to)].into_iter().any(|(torque, speed)| {
                    torque.si() * 0.9 * overall / 0.28 <= load.at(gear.road_speed(speed)).si() * (1.0 + 1e-12)
                })
            });
            prop_assert!(short, "refused though it pulls");
            return Ok(());
        };
        let mut sum = 0.0;
        for piece in curve.between(from, to).expect("reaches") {
            let net = |share: f64| {
                let torque = piece.first + (piece.last - piece.first) * share;
                let speed = gear.road_speed(piece.from + piece.width() * share);
                torque.si() * 0.9 * overall / 0.28 - load.at(speed).si()
            };
            // Where the pull all but ends, the last digits of what is left of it count, in the closed form too.
            prop_assume!(net(0.0).min(net(1.0)) > 0.01);
            sum += gear.road_speed(piece.width()).si() * settled_simpson(|share| 1.0 / net(share));
        }
        same(700.0 * sum, time.in_seconds(), 1e-8);
    }

    #[test]
    fn stress_goes_with_the_square_of_speed(ring in annulus(), speed in 100.0..12_000.0, times in 1.0..5.0) {
        let (slow, fast) = (per_minute(speed), per_minute(speed * times));
        let square = times * times;
        same(ring.hoop_at_bore(fast).si(), ring.hoop_at_bore(slow).si() * square, 1e-12);
        same(ring.hoop_at_rim(fast).si(), ring.hoop_at_rim(slow).si() * square, 1e-12);
        same(ring.radial_peak(fast).0.si(), ring.radial_peak(slow).0.si() * square, 1e-12);
        same(ring.average_hoop(fast).si(), ring.average_hoop(slow).si() * square, 1e-12);
        same(stored_energy(kilogram_square_metres(1.0), fast).si(), stored_energy(kilogram_square_metres(1.0), slow).si() * square, 1e-12);
    }

    #[test]
    fn the_bore_is_pulled_most(ring in annulus(), speed in 100.0..12_000.0, tensile in 50.0..2000.0) {
        let (speed, tensile) = (per_minute(speed), megapascals(tensile));
        let bore = ring.hoop_at_bore(speed);
        let slack = 1.0 + 1e-12;
        prop_assert!(ring.hoop_at_rim(speed).si() <= bore.si() * slack);
        prop_assert!(ring.average_hoop(speed).si() <= bore.si() * slack);
        prop_assert!(ring.radial_peak(speed).0.si() <= bore.si() * slack);
        same(ring.average_hoop(ring.burst_speed(tensile)).si(), tensile.si(), 1e-12);
    }

    /// Work in is work out and heat.
    #[test]
    fn a_clutch_makes_heat_of_what_it_takes(one in inertia(), other in inertia(), fast in -8000.0..8000.0, slow in -8000.0..8000.0) {
        let (fast, slow) = (per_minute(fast), per_minute(slow));
        let joined = join(one, fast, other, slow);
        let before = stored_energy(one, fast) + stored_energy(other, slow);
        let after = stored_energy(one + other, joined.speed) + joined.heat;
        prop_assert!((before - after).abs().si() <= 1e-12 * before.si() + 1e-12);
        prop_assert!(joined.heat.si() >= 0.0);
    }

    #[test]
    fn a_swing_tells_what_swings(hanging in 0..3_usize, mass in 0.5..30.0, gyration in 0.03..0.2, radius in 0.03..0.2, length in 0.3..4.0) {
        let (mass, inertia): (f64, f64) = (mass, mass * gyration * gyration);
        let weight = mass * STANDARD_GRAVITY;
        let hanging = [Hanging::ThreeStrings, Hanging::TwoStrings, Hanging::KnifeEdge][hanging];
        let square = match hanging {
            Hanging::KnifeEdge => (inertia + mass * radius * radius) / (weight * radius),
            _ => inertia * length / (weight * radius * radius),
        };
        let period = seconds(2.0 * core::f64::consts::PI * f64::sqrt(square));
        let swing = Swing { hanging, mass: kilograms(mass), radius: metres(radius), length: metres(length), period };
        same(swing.inertia().expect("swings").si(), inertia, 1e-9);
        let doubt = swing.doubt(grams(10.0), millimetres(0.5), millimetres(2.0), milliseconds(10.0)).expect("swings");
        let largest = doubt.parts.into_iter().fold(Inertia::ZERO, Inertia::max);
        prop_assert!(largest <= doubt.whole * (1.0 + 1e-12) && doubt.whole.si() <= 2.0 * largest.si() * (1.0 + 1e-12));
    }

    /// A ring is the rings it can be cut into, along the axis and around it.
    #[test]
    fn rings_add_up(inner in 0.0..200.0, first in 1.0..100.0, second in 1.0..100.0, width in 1.0..50.0, share in 0.1..0.9) {
        let density = kilograms_per_cubic_metre(7850.0);
        let ring = |inner: f64, outer: f64, width: f64| {
            Ring::new(millimetres(outer), millimetres(inner), millimetres(width)).expect("has metal").body(density)
        };
        let (middle, outer) = (inner + first, inner + first + second);
        let whole = ring(inner, outer, width);
        for parts in [
            ring(inner, middle, width) + ring(middle, outer, width),
            ring(inner, outer, width * share) + ring(inner, outer, width * (1.0 - share)),
        ] {
            same(parts.mass.si(), whole.mass.si(), 1e-12);
            same(parts.inertia.si(), whole.inertia.si(), 1e-12);
        }
        let gyration = whole.radius_of_gyration().in_millimetres();
        prop_assert!(inner / 2.0 <= gyration && gyration <= outer / 2.0);
    }

    #[test]
    fn holes_farther_out_take_more_inertia_and_no_more_mass(count in 1.0..24.0_f64, diameter in 1.0..20.0, circle in 200.0..280.0, out in 1.0..20.0) {
        let density = kilograms_per_cubic_metre(7850.0);
        let holes = |circle: f64| Holes::new(ratio(count.round()), millimetres(diameter), millimetres(circle), millimetres(8.0));
        let (Ok(near), Ok(far)) = (holes(circle), holes(circle + out)) else { return Ok(()) };
        prop_assert!(far.body(density).inertia > near.body(density).inertia);
        prop_assert_eq!(far.body(density).mass, near.body(density).mass);
    }

    /// The energy swing of a diagram is there whatever angle it is begun at, and none of it is the mean's.
    #[test]
    fn a_diagram_may_begin_anywhere(torques in prop::collection::vec(-1000.0..1000.0, 3..40), start in 0..40_usize, more in -500.0..500.0) {
        let cycle = |start: usize, more: f64| {
            let at = |step: usize| (degrees(10.0 * step as f64), newton_metres(torques[(start + step) % torques.len()] + more));
            let points: Vec<_> = (0..=torques.len()).map(at).collect();
            Diagram { points: &points }.fluctuation().si()
        };
        let (one, other) = (cycle(0, 0.0), cycle(start, more));
        prop_assert!((one - other).abs() <= 1e-9 * (1.0 + one.abs()), "{one} {other}");
    }
}

/// What somebody, or a hostile link, may do to an input: say it is not known, or put any number in its range.
#[derive(Clone, Debug)]
struct Touch {
    which: prop::sample::Index,
    what: u8,
    share: f64,
}

fn touches() -> impl Strategy<Value = Vec<Touch>> {
    let touch = (any::<prop::sample::Index>(), 0..10_u8, 0.0..=1.0).prop_map(|(which, what, share)| Touch { which, what, share });
    prop::collection::vec(touch, 0..40)
}

fn touch(build: &mut Build, touches: &[Touch]) {
    // The car and the flywheel; the front drive reaches it through one number alone, which is an input here.
    let near = |id: Id| id.calculator == car::IDLE.id.calculator || id.calculator == INERTIA.id.calculator;
    let places: Vec<Place> = build.layout().places(Role::Input).filter(|place| near(place.id)).collect();
    for Touch { which, what, share } in touches {
        let place = places[which.index(places.len())];
        let ([lowest, highest], usual) = (build.layout().spec(place.id).possible, build.layout().spec(place.id).usual);
        let number = match what {
            0 => {
                build.forget(place);
                continue;
            }
            1 => lowest,
            2 => highest,
            // Spread over the powers of ten where the range spans them.
            3 if lowest > 0.0 => lowest * libm::pow(highest / lowest, *share),
            3 => lowest + (highest - lowest) * share,
            _ => usual[0] + (usual[1] - usual[0]) * share,
        };
        let value = match build.layout().kind(place.id) {
            Kind::Quantity { unit, .. } => build.layout().spec(place.id).settled(unit.to_si(number)),
            Kind::Choice(choices) => (share * choices.len() as f64).floor().min(choices.len() as f64 - 1.0),
            Kind::Text(_) => continue,
        };
        build.set(place, value).expect("in the range that is possible");
    }
}

proptest! {
    #![proptest_config(laws(512))]

    #[test]
    fn nothing_panics_and_every_answer_is_a_number_or_a_reason(
        touches in touches(), rows in prop::collection::vec(0..30_usize, 4), share in 0.0..1.0,
    ) {
        let mut build = Build::default();
        let tables = [car::TORQUE_CURVE, car::GEARS, RINGS, HOLES];
        for (table, rows) in tables.into_iter().zip(rows) {
            resize(&mut build, table, rows, share);
        }
        touch(&mut build, &touches);
        let report = evaluated(&build);
        for place in build.layout().places(Role::Output) {
            if let Ok(value) = report.value(place) {
                prop_assert!(value.is_finite(), "{}", build.layout().key(place));
            }
            let _ = report.standing(&build, place);
        }
        prop_assert!(!(FLYWHEEL.sentence)(&build, &report).pieces.is_empty());
        if let Some(Ok(scene)) = FLYWHEEL.scene.map(|draw| draw(&build, &report)) {
            prop_assert!(scene.handles.iter().all(|handle| handle.at.x.is_finite() && handle.at.y.is_finite()));
        }
        for plot in FLYWHEEL.charts {
            let Ok(chart) = plot(&PLAN, &build, &report) else { continue };
            let points = chart.curves.iter().flat_map(|curve| &curve.points);
            prop_assert!(points.into_iter().all(|(x, y)| x.is_finite() && y.is_none_or(f64::is_finite)), "{}", chart.title);
        }
    }

    /// In the whole calculator too, whatever else is changed.
    #[test]
    fn a_heavier_wheel_is_never_livelier_nor_rougher(
        touches in touches(), light in 1.0..10.0, more in 0.1..10.0,
    ) {
        let mut build = Build::default();
        touch(&mut build, &touches);
        build.put_back(METHOD.id.into());
        build.put_back(GYRATION.id.into());
        let mut with = |mass: f64| {
            build.set(WEIGHED.id.into(), mass).expect("in range");
            evaluated(&build)
        };
        let (light, heavy) = (with(light), with(light + more));
        let rises = |output: Output<Time>| light.of(output).ok().zip(heavy.of(output).ok()).is_none_or(|(light, heavy)| light <= heavy);
        prop_assert!(rises(REV_TIME) && rises(DROP_TIME));
        if let (Ok(light), Ok(heavy)) = (light.of(UNEVENNESS), heavy.of(UNEVENNESS)) {
            prop_assert!(heavy <= light);
        }
        for gear in 0..build.rows(car::GEARS).len() {
            if let (Ok(light), Ok(heavy)) = (light.cell(GEAR_TIME, gear), heavy.cell(GEAR_TIME, gear)) {
                prop_assert!(light <= heavy);
            }
        }
        if let (Ok(light), Ok(heavy)) = (light.of(STORED_ENERGY), heavy.of(STORED_ENERGY)) {
            prop_assert!(light <= heavy);
        }
    }
}

/// As many rows as asked for, as far as the table takes them; half the time the new ones are filled in.
fn resize(build: &mut Build, table: TableId, rows: usize, share: f64) {
    let kept: Vec<_> = build.rows(table).iter().copied().take(rows.max(1)).collect();
    build.set_rows(table, &kept).expect("fewer rows");
    while build.rows(table).len() < rows && build.add_row(table).is_some() {}
    let missing = |place: &Place| build.layout().table_of(place.id) == Some(table) && build.own_value(*place).is_none();
    let places: Vec<Place> = build.layout().places(Role::Input).filter(missing).collect();
    for (at, place) in places.into_iter().enumerate().filter(|_| share < 0.5) {
        if let Kind::Quantity { unit, .. } = build.layout().kind(place.id) {
            let spec = build.layout().spec(place.id);
            let [low, high] = spec.usual;
            let value = unit.to_si(low + (high - low) * (share * (at + 1) as f64).fract());
            build.set(place, spec.settled(value)).expect("usual");
        }
    }
}
