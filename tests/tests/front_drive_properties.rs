//! Laws of the front drive over the whole range.

use proptest::prelude::*;
use trialfit_core::calculators::front_drive::adjuster::{self, Adjuster};
use trialfit_core::calculators::front_drive::alternator::{Output, Rating};
use trialfit_core::calculators::front_drive::belt_path::{BeltPath, Pulley, Side, close};
use trialfit_core::calculators::front_drive::grip::{Demand, Lie, Surface, Tightening, tensions};
use trialfit_core::calculators::front_drive::pump::{self, CapPlace, Suction, System, Warmth};
use trialfit_core::calculators::front_drive::{Hand, Point, clearance, speeds};
use trialfit_core::data::{atmosphere, coolant, water};
use trialfit_core::quantity::*;
use trialfit_tests::laws;

fn pulley(x: f64, y: f64, diameter: f64, side: Side) -> Pulley {
    Pulley { centre: Point::new(millimetres(x), millimetres(y)), diameter: millimetres(diameter), side }
}

/// Ribbed pulleys scattered round a ring, and back-side ones pressed in on some spans: layouts that mostly close.
fn layouts() -> impl Strategy<Value = Vec<Pulley>> {
    let ring = prop::collection::vec((0.7..1.3_f64, 40.0..170.0_f64, prop::option::of((-0.3..0.6_f64, 50.0..80.0_f64))), 3..=6);
    ring.prop_map(|ring| {
        let count = ring.len();
        let at = |index: usize, reach: f64, turn: f64| {
            let angle = std::f64::consts::TAU * (index as f64 + turn) / count as f64;
            (250.0 * reach * libm::cos(angle), 250.0 * reach * libm::sin(angle))
        };
        let mut all = Vec::new();
        for (index, (reach, diameter, idler)) in ring.into_iter().enumerate() {
            let (x, y) = at(index, reach, 0.0);
            all.push(pulley(x, y, diameter, Side::Ribs));
            if let Some((depth, diameter)) = idler {
                let (x, y) = at(index, 0.8 - depth / 2.0, 0.5);
                all.push(pulley(x, y, diameter, Side::Back));
            }
        }
        all
    })
}

fn closing() -> impl Strategy<Value = (Vec<Pulley>, BeltPath)> {
    layouts().prop_filter_map("closes", |all| close(&all).ok().map(|path| (all, path)))
}

fn near(one: f64, two: f64, share: f64) -> bool {
    (one - two).abs() <= share * one.abs().max(two.abs())
}

/// Any double at all, absurd ones included.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![4 => prop::num::f64::ANY, 3 => -1e3..1e3_f64, 2 => 0.0..0.3_f64, 1 => Just(0.0)]
}

proptest! {
    #![proptest_config(laws(256))]

    #[test]
    fn one_turn_is_made((_, path) in closing()) {
        prop_assert!((path.turning.in_degrees() - 360.0).abs() < 1e-6);
        // The same from the places alone: contacts on their circles, spans square to their radii.
        for (at, span) in path.spans().iter().enumerate() {
            prop_assert_eq!(span.start, path.arcs()[at].end);
        }
    }

    #[test]
    fn contacts_are_tangent((all, path) in closing()) {
        let count = all.len();
        for (at, span) in path.spans().iter().enumerate() {
            for (point, pulley) in [(span.start, &all[at]), (span.end, &all[(at + 1) % count])] {
                let radius = [(point.x - pulley.centre.x).si(), (point.y - pulley.centre.y).si()];
                prop_assert!(near(libm::hypot(radius[0], radius[1]), pulley.diameter.si() / 2.0, 1e-9));
                let along = radius[0] * span.direction[0] + radius[1] * span.direction[1];
                prop_assert!(along.abs() < 1e-12);
            }
            prop_assert!(near(span.start.distance(span.end).si(), span.length.si(), 1e-9));
        }
    }

    #[test]
    fn length_ignores_moving_turning_and_mirroring(
        (all, path) in closing(), x in -500.0..500.0_f64, y in -500.0..500.0_f64, angle in 0.0..6.3_f64, mirror: bool,
    ) {
        let (sine, cosine) = (libm::sin(angle), libm::cos(angle));
        let flip = if mirror { -1.0 } else { 1.0 };
        let moved: Vec<Pulley> = all.iter().map(|old| {
            let (px, py) = (flip * old.centre.x.in_millimetres(), old.centre.y.in_millimetres());
            Pulley {
                centre: Point::new(millimetres(px * cosine - py * sine + x), millimetres(px * sine + py * cosine + y)),
                ..*old
            }
        }).collect();
        let again = close(&moved);
        prop_assert!(again.is_ok(), "{:?}", again);
        let again = again.expect("just checked");
        prop_assert!(near(again.length.si(), path.length.si(), 1e-10));
        let expected = if mirror { path.listed.reversed() } else { path.listed };
        prop_assert_eq!(again.listed, expected);
        for (one, two) in again.arcs().iter().zip(path.arcs()) {
            prop_assert!((one.wrap.si() - two.wrap.si()).abs() < 1e-9);
        }
    }

    #[test]
    fn where_the_list_starts_and_its_direction_do_not_matter((all, path) in closing(), start in 0..6_usize) {
        let mut other = all.clone();
        other.rotate_left(start % all.len());
        other.reverse();
        let again = close(&other).expect("the same belt");
        prop_assert!(near(again.length.si(), path.length.si(), 1e-12));
        prop_assert_eq!(again.listed, path.listed.reversed());
    }

    #[test]
    fn bigger_pulleys_everywhere_take_a_longer_belt((all, path) in closing(), by in 0.1..4.0_f64) {
        // Ribs outside: the belt at a larger offset. A path parallel to a closed one is longer by 2π times the offset.
        let grown: Vec<Pulley> = all.iter().map(|old| {
            let by = millimetres(if old.side == Side::Ribs { by } else { -by });
            Pulley { diameter: old.diameter + by * 2.0, ..*old }
        }).collect();
        if let Ok(again) = close(&grown) {
            let expected = path.length.in_millimetres() + std::f64::consts::TAU * by;
            prop_assert!(near(again.length.in_millimetres(), expected, 1e-9));
        }
    }

    #[test]
    fn the_adjusters_range_holds_every_place_between(
        (all, _) in closing(), pulley in 0..12_usize, angle in 0.0..360.0_f64, from in -20.0..0.0_f64, to in 0.0..30.0_f64, share in 0.0..1.0_f64,
    ) {
        let adjuster = Adjuster {
            pulley: pulley % all.len(), direction: degrees(angle), from: millimetres(from), to: millimetres(to),
        };
        if let Ok(reach) = adjuster::reach(&all, &adjuster) {
            let place = millimetres(from + (to - from) * share);
            let between = adjuster::moved(&all, &adjuster, place);
            if let Ok(path) = close(&between[..all.len()]) {
                let spare = millimetres(1e-9);
                prop_assert!(path.length >= reach.shortest - spare && path.length <= reach.longest + spare);
                if let Some(found) = reach.place_for(path.length) {
                    let at = adjuster::moved(&all, &adjuster, found);
                    if let Ok(found) = close(&at[..all.len()]) {
                        prop_assert!(near(found.length.si(), path.length.si(), 1e-9));
                    }
                }
            }
        }
    }

    #[test]
    fn belt_paths_never_panic_or_answer_nonsense(
        rows in prop::collection::vec((wild(), wild(), wild(), any::<bool>()), 0..14), pulley in 0..14_usize,
        direction in wild(), from in wild(), to in wild(), length in wild(),
    ) {
        let all: Vec<Pulley> = rows.iter().map(|&(x, y, diameter, back)| Pulley {
            centre: Point::new(metres(x), metres(y)),
            diameter: metres(diameter),
            side: if back { Side::Back } else { Side::Ribs },
        }).collect();
        match close(&all) {
            Ok(path) => {
                prop_assert!(path.length.si().is_finite() && path.length > Length::ZERO);
                for (span, arc) in path.spans().iter().zip(path.arcs()) {
                    prop_assert!(span.length.si().is_finite() && arc.wrap.si() > 0.0 && arc.wrap.si() < 6.3);
                }
                let _ = clearance::of_spans(&path, &all);
            }
            Err(why) => prop_assert!(!why.to_string().is_empty()),
        }
        let adjuster = Adjuster { pulley, direction: radians(direction), from: metres(from), to: metres(to) };
        if let Ok(reach) = adjuster::reach(&all, &adjuster) {
            prop_assert!(reach.shortest.si().is_finite() && reach.longest >= reach.shortest);
            let _ = reach.place_for(metres(length));
        }
        let _ = clearance::of_pulleys(&all);
    }

    #[test]
    fn the_ratio_scales_speeds(crank in 1.0..1e4_f64, of in 20.0..400.0_f64, on in 20.0..400.0_f64, factor in 0.1..10.0_f64) {
        let speed = |crank: f64| speeds::driven(per_minute(crank), millimetres(of), millimetres(on), 0.0).si();
        prop_assert!(near(speed(crank * factor), speed(crank) * factor, 4.0 * f64::EPSILON));
        // Round the belt and back to the crank.
        let back = speeds::driven(radians_per_second(speed(crank)), millimetres(on), millimetres(of), 0.0);
        prop_assert!(near(back.si(), per_minute(crank).si(), 4.0 * f64::EPSILON));
    }

    #[test]
    fn affinity_laws_compose(from in 100.0..1e4_f64, to in 100.0..1e4_f64, value in 0.01..1e3_f64) {
        let (from, to) = (per_minute(from), per_minute(to));
        let ratio = to / from;
        prop_assert_eq!(pump::flow_at(from, from, litres_per_minute(value)), litres_per_minute(value));
        prop_assert!(near(pump::flow_at(to, from, litres_per_minute(value)) / litres_per_minute(value), ratio, 4.0 * f64::EPSILON));
        prop_assert!(near(pump::head_at(to, from, metres(value)) / metres(value), ratio * ratio, 4.0 * f64::EPSILON));
        prop_assert!(near(pump::power_at(to, from, watts(value)) / watts(value), ratio * ratio * ratio, 4.0 * f64::EPSILON));
    }

    #[test]
    fn a_pump_that_turns_faster_cavitates_at_a_lower_engine_speed(
        small in 80.0..140.0_f64, less in 0.5..20.0_f64, temperature in 60.0..120.0_f64, cap in 0.0..2.0_f64, height in 0.0..0.5_f64,
    ) {
        let suction = Suction {
            rated: per_minute(6000.0), required: metres(3.0), pipe_loss: kilopascals(15.0), radiator_loss: kilopascals(25.0),
            cap: CapPlace::HotTank,
        };
        let temperature = celsius(temperature);
        let density = coolant::density(ratio(0.5), temperature).expect("in range");
        let vapour = coolant::vapour_pressure(ratio(0.5), temperature).expect("in range");
        let head = pump::npsh_available(atmosphere::SEA_LEVEL + bar(cap), vapour, density, metres(height), Length::ZERO);
        let onset = suction.onset(head, density).expect("something is demanded");
        let engine = |pulley: f64| speeds::driven(onset, millimetres(pulley), millimetres(150.0), 0.0);
        prop_assert!(engine(small - less) <= engine(small));
        prop_assert!(onset == RotationalSpeed::ZERO || engine(small - less) < engine(small));
        // Hotter, or with less cap, never later.
        let hotter = temperature + kelvin(2.0);
        let density = coolant::density(ratio(0.5), hotter).expect("in range");
        let vapour = coolant::vapour_pressure(ratio(0.5), hotter).expect("in range");
        let head = pump::npsh_available(atmosphere::SEA_LEVEL + bar(cap), vapour, density, metres(height), Length::ZERO);
        prop_assert!(suction.onset(head, density).expect("something is demanded") <= onset);
    }

    #[test]
    fn the_output_curve_is_concave_and_never_falls(
        cut_in in 0.0..1400.0_f64, low in 5.0..60.0_f64, share in 0.001..0.999_f64, speed in 0.0..20_000.0_f64, step in 1.0..2000.0_f64,
    ) {
        let far = (6000.0 - cut_in) / (1500.0 - cut_in);
        let high = low * (1.0 + (far - 1.0) * share);
        let rating = |speed, current| Rating { speed: per_minute(speed), current: amperes(current) };
        let output = Output::through(per_minute(cut_in), rating(1500.0, low), rating(6000.0, high)).expect("concave");
        prop_assert!(near(output.at(per_minute(1500.0)).si(), low, 1e-9));
        prop_assert!(near(output.at(per_minute(6000.0)).si(), high, 1e-9));
        let at = |speed: f64| output.at(per_minute(speed)).si();
        prop_assert!(at(speed + step) >= at(speed));
        let start = cut_in + speed;
        prop_assert!(at(start + step) >= (at(start) + at(start + 2.0 * step)) / 2.0 * (1.0 - 1e-12));
    }

    #[test]
    fn the_tension_needed_is_just_enough(
        (all, path) in closing(), pulls in prop::collection::vec(0.0..300.0_f64, 12), wet: bool, as_listed: bool, locked: bool, fast in 0.0..60.0_f64,
    ) {
        let pulls: Vec<Force> = pulls.into_iter().map(newtons).collect();
        let surface = Surface { friction: 0.3, most_ratio: 4.0, wet };
        let usable: Vec<f64> = all.iter().zip(path.arcs()).map(|(pulley, arc)| surface.usable_ratio(pulley.side, arc.wrap)).collect();
        let demand = Demand {
            crank: 0, pulls: &pulls, as_listed, centrifugal: newtons(0.132 * fast * fast),
        };
        let set = |tension| if locked { Tightening::Locked(tension) } else { Tightening::Sprung(all.len() - 1, tension) };
        let run = tensions(&Lie::from(&path), &demand, set(newtons(300.0))).expect("pulleys are there");
        let needed = run.needed(&usable, set(newtons(300.0))).expect("every ratio is above one");
        let worst = |tension: Force| {
            let run = tensions(&Lie::from(&path), &demand, set(tension)).expect("pulleys are there");
            (0..all.len()).map(|at| run.margin(at, usable[at]).expect("there")).fold(f64::INFINITY, f64::min)
        };
        prop_assert!(worst(needed + newtons(1e-6)) >= 1.0 - 1e-9);
        prop_assert!(worst(needed - newtons(1.0)) < 1.0);
        // More tension never grips less.
        prop_assert!(worst(needed + newtons(50.0)) >= worst(needed + newtons(10.0)));
    }

    #[test]
    fn nothing_panics_on_any_number(a in wild(), b in wild(), c in wild(), d in wild(), e in wild()) {
        let rating = |speed, current| Rating { speed: per_minute(speed), current: amperes(current) };
        if let Ok(output) = Output::through(per_minute(a), rating(b, c), rating(d, e)) {
            prop_assert!(output.rise.si() > 0.0 && output.most.si() > 0.0);
            for speed in [a, b, c, d, e] {
                prop_assert!(!output.at(per_minute(speed)).si().is_nan() || speed.is_nan());
            }
        }
        for fluid in [water::density(kelvin(a)).map(Density::si), water::specific_heat(kelvin(b)).map(SpecificHeat::si),
            water::saturation_pressure(kelvin(c)).map(Pressure::si), water::boiling_point(pascals(d)).map(Temperature::si),
            coolant::density(ratio(a), kelvin(b)).map(Density::si), coolant::specific_heat(ratio(c), kelvin(d)).map(SpecificHeat::si),
            coolant::vapour_pressure(ratio(e), kelvin(a)).map(Pressure::si), atmosphere::pressure(metres(a)).map(Pressure::si)] {
            prop_assert!(fluid.is_none_or(|value| value.is_finite() && value > 0.0));
        }
        if let (Some(filled), Some(warm)) = (Warmth::of(ratio(c), celsius(20.0)), Warmth::of(ratio(c), kelvin(b))) {
            let system = System { air: pascals(a), cap: pascals(b), coolant: litres(d), gas: litres(e), filled, height: metres(a) };
            let _ = (system.pressure(warm), system.standing_head(pascals(a), warm));
        }
        let surface = Surface { friction: a, most_ratio: b, wet: true };
        let _ = (surface.usable_ratio(Side::Ribs, radians(c)), speeds::misalignment(metres(d), metres(e)));
        prop_assert_eq!(Hand::Clockwise.reversed(), Hand::Anticlockwise);
    }

    #[test]
    fn in_range_fluids_always_answer(temperature in 0.0..=130.0_f64, share in 0.0..=0.6_f64, altitude in -500.0..=5000.0_f64) {
        let (temperature, share) = (celsius(temperature), ratio(share));
        prop_assert!(coolant::density(share, temperature).is_some());
        prop_assert!(coolant::specific_heat(share, temperature).is_some());
        prop_assert!(atmosphere::pressure(metres(altitude)).is_some());
        let vapour = coolant::vapour_pressure(share, temperature).expect("in range");
        prop_assert!(vapour <= water::saturation_pressure(temperature).expect("in range"));
        // Boiling point undoes saturation pressure.
        let pressure = water::saturation_pressure(temperature).expect("in range");
        if let Some(back) = water::boiling_point(pressure) {
            prop_assert!((back.si() - temperature.si()).abs() < 1e-6);
        }
    }
}
