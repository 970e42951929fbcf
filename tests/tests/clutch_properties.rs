//! What must hold for every clutch, whatever its sizes.

use proptest::prelude::*;
use trialfit_core::calculators::clutch::bores::{Wanted, judge, pairs};
use trialfit_core::calculators::clutch::capacity::Facing;
use trialfit_core::calculators::clutch::diaphragm::{Circles, Cover, Diaphragm, Plate, Ring};
use trialfit_core::calculators::clutch::hydraulics::{Parts, System, hydraulic_ratio};
use trialfit_core::calculators::clutch::load_curve::{LoadCurve, POINTS, Point};
use trialfit_core::quantity::*;
use trialfit_tests::laws;

/// A clutch someone could build; pedal springs that push alike everywhere.
fn parts() -> impl Strategy<Value = Parts> {
    let pedal = (3.0..9.0, 80.0..200.0, 0.0..15.0, 0.0..2.0);
    let hydraulics = (12.0..26.0, 15.0..40.0, 0.0..2.0, 0.0..5.0, 0.0..80.0, 0.1..2.0);
    let losses = (0.8..1.0, 0.8..1.0, 0.8..1.0, 0.0..200.0);
    let rest = (1.0..2.5, 0.0..3.0, -50.0..50.0, 0.0..200.0);
    (pedal, hydraulics, losses, rest).prop_map(|(pedal, hydraulics, losses, rest)| Parts {
        pedal_ratio: pedal.0,
        pedal_travel: millimetres(pedal.1),
        free_play: millimetres(pedal.2),
        port_closing: millimetres(pedal.3),
        master: circle(millimetres(hydraulics.0)),
        slave: circle(millimetres(hydraulics.1)),
        hose_length: metres(hydraulics.2),
        hose_growth: cubic_centimetres_per_metre(hydraulics.3),
        trapped: cubic_centimetres(hydraulics.4),
        bulk_modulus: gigapascals(hydraulics.5),
        pedal_efficiency: losses.0,
        seal_efficiency: losses.1,
        fork_efficiency: losses.2,
        seal_stick: kilopascals(losses.3),
        fork_ratio: rest.0,
        bearing_gap: millimetres(rest.1),
        pedal_spring_at_rest: newtons(rest.2),
        pedal_spring_at_stop: newtons(rest.2),
        slave_spring: newtons(rest.3),
    })
}

/// Any load over travel, dips and steps included, and a travel that frees the plate.
fn loads() -> impl Strategy<Value = (LoadCurve, Length)> {
    let steps = prop::collection::vec((0.0..1.0, 0.0..3_000.0), POINTS);
    (steps, 0.5..12.0).prop_map(|(steps, needed)| {
        let mut points = [Point::START; POINTS - 1];
        let mut travel = 0.0;
        for (point, (step, load)) in points.iter_mut().zip(steps) {
            travel += step;
            *point = Point { travel: millimetres(travel), load: newtons(load) };
        }
        (LoadCurve::new(&points).expect("sizes that can be built"), millimetres(needed))
    })
}

/// Anything a hostile link could carry.
fn absurd() -> impl Strategy<Value = f64> {
    prop_oneof![
        any::<f64>().prop_filter("finite", |number| number.is_finite()),
        prop::sample::select(vec![0.0, -0.0, -1.0, 1.0, 1e-15, 1e15, 1e-300, 1e300, f64::MIN_POSITIVE, f64::MAX]),
    ]
}

const CLOSE: f64 = 1e-9;

fn with_slave(parts: Parts, slave: Area) -> System {
    System::new(Parts { slave, ..parts }).expect("sizes that can be built")
}

proptest! {
    #![proptest_config(laws(512))]

    /// With springs that push alike everywhere: one that stiffens pushes more on the longer stroke of a bigger bore.
    #[test]
    fn a_bigger_slave_never_raises_peak_effort(parts in parts(), (curve, needed) in loads(), more in 1.0..2.0) {
        let system = System::new(parts).expect("sizes that can be built");
        let bigger = with_slave(parts, parts.slave * more);
        let (small, big) = (system.push(&curve, needed).heaviest, bigger.push(&curve, needed).heaviest);
        prop_assert!(big.force.si() <= small.force.si() + CLOSE, "{small:?} {big:?}");
    }

    /// Where the slave moves more than the line swells by, x > k·F/A², from the place of highest load on.
    #[test]
    fn a_bigger_slave_never_shortens_the_pedals_travel(parts in parts(), (curve, needed) in loads(), more in 1.0..2.0) {
        let system = System::new(parts).expect("sizes that can be built");
        let swells = (parts.hose_growth * parts.hose_length).si() / 6.9e6 + parts.trapped.si() / parts.bulk_modulus.si();
        let area = parts.slave.si();
        let firm = |point: &Point| {
            let load = point.load.si() / (parts.fork_ratio * parts.fork_efficiency) + parts.slave_spring.si();
            let slave_travel = (point.travel + parts.bearing_gap).si() * parts.fork_ratio;
            slave_travel > swells * load / (parts.seal_efficiency * area * area)
        };
        let end = Point { travel: needed, load: curve.load_at(needed) };
        prop_assume!(firm(&end) && curve.points().iter().filter(|point| point.travel.si() > 0.0).all(firm));
        let bigger = with_slave(parts, parts.slave * more);
        let (small, big) = (system.push(&curve, needed).release, bigger.push(&curve, needed).release);
        prop_assert!(big.pedal.si() >= small.pedal.si() - CLOSE, "{small:?} {big:?}");
    }

    /// Counting the pedal springs: the foot and what they gave put in what the fingers and the slave's spring took, or more.
    #[test]
    fn work_out_never_exceeds_work_in(
        parts in parts(), (curve, needed) in loads(), at_rest in -80.0..80.0, at_stop in -80.0..80.0,
    ) {
        let parts = Parts { pedal_spring_at_rest: newtons(at_rest), pedal_spring_at_stop: newtons(at_stop), ..parts };
        let work = System::new(parts).expect("sizes that can be built").work(&curve, needed);
        let put_in = work.foot.si() - work.pedal_spring.si();
        prop_assert!(put_in >= work.fingers.si() + work.slave_spring.si() - CLOSE, "{work:?}");
    }

    #[test]
    fn equal_bores_give_a_hydraulic_ratio_of_one(bore in 1.0..100.0) {
        let area = circle(millimetres(bore));
        prop_assert_eq!(hydraulic_ratio(area, area).in_ratio(), 1.0);
    }

    #[test]
    fn even_pressure_holds_at_least_what_even_wear_does(
        outer in 10.0..1_000.0, share in 0.01..0.999, surfaces in 1.0..12.0, friction in 0.0..1.0, clamp in 0.0..20_000.0,
    ) {
        let plate = Facing::new(millimetres(outer), millimetres(outer * share), surfaces, friction).expect("sizes that can be built");
        let (new, worn_in) = (plate.torque_new(newtons(clamp)), plate.torque_worn_in(newtons(clamp)));
        prop_assert!(new.si() >= worn_in.si() * (1.0 - 1e-14));
    }

    #[test]
    fn a_softer_hose_never_lengthens_bearing_travel(parts in parts(), (curve, _) in loads(), more in 1.0..5.0, at in 0.0..1.0) {
        let softer = Parts { hose_growth: parts.hose_growth * more, ..parts };
        let pedal = parts.pedal_travel * at;
        let firm = System::new(parts).expect("sizes that can be built").bearing_at(&curve, pedal);
        let soft = System::new(softer).expect("sizes that can be built").bearing_at(&curve, pedal);
        prop_assert!(soft.si() <= firm.si() + CLOSE, "{firm:?} {soft:?}");
    }

    /// Two ways round: the pedal travel of a bearing travel brings the bearing there, or past it where it jumps.
    #[test]
    fn travel_at_release_releases(parts in parts(), (curve, needed) in loads()) {
        let system = System::new(parts).expect("sizes that can be built");
        let there = system.push(&curve, needed).release;
        let reached = system.bearing_at(&curve, there.pedal + micrometres(1.0));
        prop_assert!(reached.si() >= needed.si() - CLOSE, "{there:?} {reached:?}");
        let before = system.bearing_at(&curve, there.pedal - micrometres(1.0));
        prop_assert!(before.si() <= needed.si() + CLOSE, "{there:?} {before:?}");
    }

    #[test]
    fn the_budget_adds_up_to_the_pedals_travel(parts in parts(), (curve, needed) in loads()) {
        let system = System::new(parts).expect("sizes that can be built");
        let budget = system.budget(&system.push(&curve, needed));
        let sum = budget.free_play + budget.port_closing + budget.hose + budget.fluid + budget.bearing_gap
            + budget.release + budget.left;
        prop_assert!((sum - parts.pedal_travel).si().abs() < CLOSE);
    }

    #[test]
    fn the_stroke_runs_forward_and_meets_its_peak(parts in parts(), (curve, needed) in loads()) {
        let system = System::new(parts).expect("sizes that can be built");
        let states = system.stroke(&curve);
        prop_assert!(states.windows(2).all(|pair| pair[0].pedal.si() <= pair[1].pedal.si() + CLOSE));
        let top = states.iter().map(|state| state.force.si()).fold(f64::MIN, f64::max);
        let push = system.push(&curve, needed);
        if push.release.pedal <= parts.pedal_travel {
            prop_assert!(push.heaviest.force.si() <= top + 1e-6);
        }
    }

    /// Each pair listed as passing passes when it is fitted and judged alone.
    #[test]
    fn pairs_that_pass_pass_alone(parts in parts(), (curve, needed) in loads(), effort in 50.0..250.0, over in 0.0..4.0) {
        let wanted = Wanted { travel: needed, most_travel: needed + millimetres(over), effort: newtons(effort), pressure: megapascals(4.0) };
        let system = System::new(parts).expect("sizes that can be built");
        for pair in pairs(&system) {
            let slave = pair.slave.expect("every pair of the field names its slave").diameter();
            let alone = System::new(Parts { master: circle(pair.master.diameter()), slave: circle(slave), ..parts }).expect("sizes that can be built");
            let fitness = judge(&pair.system.expect("sizes that can be built"), &curve, wanted);
            prop_assert_eq!(fitness, judge(&alone, &curve, wanted));
            if fitness.passes() {
                prop_assert!(alone.push(&curve, needed).heaviest.force.si() <= effort);
                prop_assert!(alone.budget(&alone.push(&curve, needed)).left.si() >= -CLOSE);
                prop_assert!(alone.push(&curve, needed).bearing_at_stop.si() <= wanted.most_travel.si());
                prop_assert!(alone.push(&curve, needed).hardest.pressure.si() <= wanted.pressure.si());
            }
        }
    }

    #[test]
    fn no_hydraulics_whatever_give_nan(numbers in prop::collection::vec(absurd(), 19), points in prop::collection::vec((absurd(), absurd()), POINTS), needed in 0.0..1e15) {
        let parts = Parts {
            pedal_ratio: numbers[0],
            pedal_travel: Length::from_si(numbers[1]),
            free_play: Length::from_si(numbers[2]),
            port_closing: Length::from_si(numbers[3]),
            master: Area::from_si(numbers[4]),
            slave: Area::from_si(numbers[5]),
            fork_ratio: numbers[6],
            bearing_gap: Length::from_si(numbers[7]),
            hose_length: Length::from_si(numbers[8]),
            hose_growth: VolumePerLength::from_si(numbers[9]),
            trapped: Volume::from_si(numbers[10]),
            bulk_modulus: Pressure::from_si(numbers[11]),
            pedal_efficiency: numbers[12],
            seal_efficiency: numbers[13],
            fork_efficiency: numbers[14],
            seal_stick: Pressure::from_si(numbers[15]),
            pedal_spring_at_rest: Force::from_si(numbers[16]),
            pedal_spring_at_stop: Force::from_si(numbers[17]),
            slave_spring: Force::from_si(numbers[18]),
        };
        // Most absurd systems are refused; clamped into the accepted range they must compute.
        let size = |number: f64| number.abs().clamp(1e-15, 1e15);
        let clamped = Parts {
            pedal_ratio: size(numbers[0]),
            pedal_travel: Length::from_si(size(numbers[1])),
            free_play: Length::from_si(size(numbers[2])),
            port_closing: Length::from_si(size(numbers[3])),
            master: Area::from_si(size(numbers[4])),
            slave: Area::from_si(size(numbers[5])),
            fork_ratio: size(numbers[6]),
            bearing_gap: Length::from_si(size(numbers[7])),
            hose_length: Length::from_si(size(numbers[8])),
            hose_growth: VolumePerLength::from_si(size(numbers[9])),
            trapped: Volume::from_si(size(numbers[10])),
            bulk_modulus: Pressure::from_si(size(numbers[11])),
            pedal_efficiency: size(numbers[12]).min(1.0),
            seal_efficiency: size(numbers[13]).min(1.0),
            fork_efficiency: size(numbers[14]).min(1.0),
            seal_stick: Pressure::from_si(size(numbers[15])),
            pedal_spring_at_rest: Force::from_si(size(numbers[16])),
            pedal_spring_at_stop: Force::from_si(-size(numbers[17])),
            slave_spring: Force::from_si(size(numbers[18])),
        };
        let mut curve = [Point::START; POINTS - 1];
        for (point, (travel, load)) in curve.iter_mut().zip(points) {
            *point = Point { travel: Length::from_si(size(travel)), load: Force::from_si(size(load)) };
        }
        let curve = LoadCurve::new(&curve).expect("sizes that can be built");
        let needed = Length::from_si(needed);
        for system in [System::new(parts), System::new(clamped)].into_iter().flatten() {
            let budget = system.budget(&system.push(&curve, needed));
            let work = system.work(&curve, needed);
            let at_release = system.push(&curve, needed).release;
            let (heaviest, hardest) = (system.push(&curve, needed).heaviest, system.push(&curve, needed).hardest);
            let mut all = vec![
                budget.hose.si(), budget.fluid.si(), budget.release.si(), budget.left.si(), work.foot.si(),
                work.fingers.si(), work.pedal_spring.si(), at_release.pedal.si(), at_release.force.si(),
                heaviest.force.si(), hardest.pressure.si(), system.push(&curve, needed).bearing_at_stop.si(),
            ];
            all.extend(system.stroke(&curve).iter().flat_map(|state| [state.pedal.si(), state.force.si()]));
            prop_assert!(all.iter().all(|number| number.is_finite()), "{all:?}");
        }
    }

    #[test]
    fn no_cover_whatever_gives_nan(numbers in prop::collection::vec(absurd(), 13)) {
        let ring = Ring {
            outer: Length::from_si(numbers[0]),
            inner: Length::from_si(numbers[1]),
            thickness: Length::from_si(numbers[2]),
            cone: Length::from_si(numbers[3]),
            modulus: Pressure::from_si(numbers[4]),
            poisson: numbers[5],
        };
        let circles = Circles {
            plate: Length::from_si(numbers[6]),
            pivot: Length::from_si(numbers[7]),
            fingers: Length::from_si(numbers[8]),
        };
        let plate = Plate {
            cushion: Length::from_si(numbers[9]),
            finger_stiffness: Stiffness::from_si(numbers[10]),
        };
        let curve = Diaphragm::new(ring)
            .and_then(|spring| Cover::new(spring, circles))
            .and_then(|cover| cover.bearing_load(Length::from_si(numbers[11]), Length::from_si(numbers[12]), plate));
        if let Ok(curve) = curve {
            prop_assert!(curve.points().iter().all(|point| point.load.si().is_finite() && point.travel.si().is_finite()));
        }
        if let Ok(plate) = Facing::new(ring.outer, ring.inner, numbers[2], numbers[3]) {
            prop_assert!(plate.torque_new(newtons(1.0)).si().is_finite());
            prop_assert!(plate.pressure_at_inner_edge(newtons(1.0)).si().is_finite());
        }
    }

    /// A cover that could be built: its curve starts at nothing, runs forward, and its clamp load over the finger ratio is
    /// what the bearing carries where the cushion ends.
    #[test]
    fn a_covers_bearing_load_is_its_clamp_load_over_the_finger_ratio(
        thickness in 2.0..3.0, cone in 3.0..5.5, fitted in 0.6..1.1, pivot in 186.0..200.0, fingers in 40.0..60.0, cushion in 0.4..1.0,
    ) {
        let spring = Diaphragm::new(Ring {
            outer: millimetres(230.0), inner: millimetres(180.0), thickness: millimetres(thickness),
            cone: millimetres(cone), modulus: gigapascals(206.0), poisson: 0.3,
        }).expect("sizes that can be built");
        let circles = Circles { plate: millimetres(225.0), pivot: millimetres(pivot), fingers: millimetres(fingers) };
        let cover = Cover::new(spring, circles).expect("sizes that can be built");
        let (fitted, cushion) = (millimetres(cone * fitted), millimetres(cushion));
        let plate = Plate { cushion, finger_stiffness: newtons_per_millimetre(1_500.0) };
        let carried = 50.0 / (225.0 - pivot);
        if let Ok(curve) = cover.bearing_load(fitted, millimetres(1.5), plate) {
            let load = cover.clamp(fitted + cushion * carried) / cover.finger_ratio();
            let travel = cushion * cover.finger_ratio() + load / plate.finger_stiffness;
            prop_assert!((curve.load_at(travel) - load).si().abs() < 1e-6 * load.si().max(1.0));
        }
    }
}

/// The exception to the second law: in a line this soft, swelling shrinks faster with the bore than the piston's need
/// of fluid grows, and a bigger slave shortens the pedal's travel.
#[test]
fn in_a_very_soft_line_a_bigger_slave_shortens_the_pedals_travel() {
    let parts = Parts {
        pedal_ratio: 6.0,
        pedal_travel: millimetres(140.0),
        free_play: Length::ZERO,
        port_closing: Length::ZERO,
        master: circle(millimetres(19.05)),
        slave: circle(millimetres(19.05)),
        fork_ratio: 1.0,
        bearing_gap: Length::ZERO,
        hose_length: metres(3.0),
        hose_growth: cubic_centimetres_per_metre(4.0),
        trapped: Volume::ZERO,
        bulk_modulus: gigapascals(1.5),
        pedal_efficiency: 1.0,
        seal_efficiency: 1.0,
        fork_efficiency: 1.0,
        seal_stick: Pressure::ZERO,
        pedal_spring_at_rest: Force::ZERO,
        pedal_spring_at_stop: Force::ZERO,
        slave_spring: Force::ZERO,
    };
    let end = Point { travel: millimetres(2.0), load: newtons(1_000.0) };
    let curve = LoadCurve::from_figures(end, end).expect("sizes that can be built");
    // The slave moves 2 mm; the line swells by k·F/A² = 21 mm of it.
    let small = System::new(parts).expect("sizes that can be built").push(&curve, end.travel).release.pedal;
    let big = with_slave(parts, circle(millimetres(25.4))).push(&curve, end.travel).release.pedal;
    assert!(big < small, "{big:?} {small:?}");
}

/// A line soft enough to jump: the pedal stands still while the bearing runs on, and never has to be lifted for it.
#[test]
fn a_soft_line_lets_the_bearing_jump() {
    let (peak, hold) =
        (Point { travel: millimetres(4.0), load: newtons(3_000.0) }, Point { travel: millimetres(4.5), load: newtons(500.0) });
    let curve = LoadCurve::from_figures(peak, hold).expect("sizes that can be built");
    let parts = Parts {
        pedal_ratio: 6.0,
        pedal_travel: millimetres(200.0),
        free_play: Length::ZERO,
        port_closing: Length::ZERO,
        master: circle(millimetres(19.05)),
        slave: circle(millimetres(22.225)),
        fork_ratio: 1.0,
        bearing_gap: Length::ZERO,
        hose_length: metres(1.0),
        hose_growth: cubic_centimetres_per_metre(2.17),
        trapped: Volume::ZERO,
        bulk_modulus: gigapascals(1.5),
        pedal_efficiency: 1.0,
        seal_efficiency: 1.0,
        fork_efficiency: 1.0,
        seal_stick: Pressure::ZERO,
        pedal_spring_at_rest: Force::ZERO,
        pedal_spring_at_stop: Force::ZERO,
        slave_spring: Force::ZERO,
    };
    let system = System::new(parts).expect("sizes that can be built");
    let at_peak = system.state(peak.travel, peak.load);
    assert!(system.state(hold.travel, hold.load).pedal < at_peak.pedal);
    assert_eq!(system.push(&curve, hold.travel).release.pedal, at_peak.pedal);
    assert!(system.bearing_at(&curve, at_peak.pedal - micrometres(10.0)) < peak.travel);
    assert!(system.bearing_at(&curve, at_peak.pedal + micrometres(10.0)) > hold.travel);
}
