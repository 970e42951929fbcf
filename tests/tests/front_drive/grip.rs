//! Grip, tension and tone.

use trialfit_core::calculators::front_drive::belt_path::{BeltPath, Pulley, Side, close};
use trialfit_core::calculators::front_drive::grip::{
    Demand, Lie, Surface, Tightening, bearing_load, centrifugal, friction_ratio, pull, span_frequency, tension_for, tensions,
};
use trialfit_core::calculators::front_drive::{Point, speeds};
use trialfit_core::quantity::{
    Force, Length, LinearDensity, RotationalSpeed, degrees, hertz, kilograms_per_metre, metres, metres_per_second, millimetres, newtons,
    per_minute, pounds_force, radians, watts,
};
use trialfit_tests::{agrees, agrees_within};

const FLAT: f64 = 1.0;

/// Two equal pulleys of this diameter, the first driving: both wraps are 180°.
fn pair(diameter: Length) -> BeltPath {
    let pulley = |x: f64| Pulley { centre: Point::new(diameter * x, Length::ZERO), diameter, side: Side::Ribs };
    close(&[pulley(0.0), pulley(4.0)]).expect("an open belt")
}

fn sine(degrees: f64) -> f64 {
    libm::sin(degrees.to_radians())
}

#[test]
fn euler_and_eytelwein() {
    for (friction, wrap, half_groove, expected) in [
        (0.3, 180.0, 90.0, 2.566332395),
        (0.25, 160.0, 90.0, 2.009993927),
        (0.3, 180.0, 20.0, 15.730802410),
        (0.3, 120.0, 20.0, 6.278182230),
        (0.3, 90.0, 20.0, 3.966207560),
        (0.5, 180.0, 20.0, 98.760844161),
    ] {
        let got = friction_ratio(friction, degrees(wrap), sine(half_groove));
        agrees_within(got, expected, 1e-9, "e^(μθ/sin β), computed");
    }
}

#[test]
fn an_alternators_pull() {
    // B20: 2200 W at the shaft, 55.7 mm, 6000 min⁻¹, 120°, μ 0.3, 40° groove.
    let source = "e^(μθ/sin β) and P/v, computed";
    let speed = speeds::belt(per_minute(6000.0), millimetres(55.7));
    let force = watts(2200.0) / speed;
    agrees(force.in_newtons(), 125.723833, 1e-6, source);
    let same = pull(watts(2200.0) / per_minute(6000.0), millimetres(55.7));
    agrees(same.in_newtons(), 125.723833, 1e-6, source);
    let ratio = friction_ratio(0.3, degrees(120.0), sine(20.0));
    // On the verge of slipping: slack side F/(ratio − 1). Spring-kept mean T0, as the two sides average.
    let path = pair(millimetres(55.7));
    let pulls = [Force::ZERO, force];
    let demand = Demand { crank: 0, pulls: &pulls, as_listed: true, centrifugal: Force::ZERO };
    let set = Tightening::Sprung(1, newtons(86.681449));
    let run = tensions(&Lie::from(&path), &demand, set).expect("two pulleys");
    let (slack, tight) = run.sides(1).expect("there");
    agrees(tight.in_newtons(), 149.543365, 1e-5, source);
    agrees(slack.in_newtons(), 23.819532, 1e-5, source);
    agrees(run.margin(1, ratio).expect("there"), 1.0, 1e-6, source);
    let needed = run.needed(&[1e9, ratio], set).expect("grips");
    agrees(needed.in_newtons(), 86.681449, 1e-6, source);
}

#[test]
fn friction_examples_of_khurmi() {
    let book = "Khurmi and Gupta, Theory of Machines, seen, recomputed";
    // 11.4: 0.6 m, 200 min⁻¹, μ 0.25, 160°, 2.5 kN.
    let slack = 2500.0 / friction_ratio(0.25, degrees(160.0), FLAT);
    agrees(slack, 1243.784852, 1e-6, book);
    let speed = speeds::belt(per_minute(200.0), metres(0.6));
    agrees((newtons(2500.0 - slack) * speed).in_watts(), 7893.032558, 1e-5, book);
    // 11.5: two and a half turns, μ 0.25, 9 kN; printed 177.33.
    let slack = 9000.0 / friction_ratio(0.25, degrees(900.0), FLAT);
    agrees(slack, 177.325857, 1e-6, book);
    agrees(slack, 177.33, 5e-3, book);
    // 11.6: crossed, 3.476488812 rad, 1 kN.
    let slack = 1000.0 / friction_ratio(0.25, radians(3.476488812), FLAT);
    agrees(slack, 419.319465, 1e-6, book);
    let speed = speeds::belt(per_minute(200.0), metres(0.45));
    agrees((newtons(1000.0 - slack) * speed).in_watts(), 2736.392554, 1e-5, book);
    // 11.8: 7.5 kW, 1.2 m, 250 min⁻¹, 165°, μ 0.3.
    let ratio = friction_ratio(0.3, degrees(165.0), FLAT);
    let force = (watts(7500.0) / speeds::belt(per_minute(250.0), metres(1.2))).in_newtons();
    agrees(force * ratio / (ratio - 1.0), 825.348258, 1e-5, book);
}

/// Effective tight side, given the most the belt may carry in all.
fn effective(most: f64, belt: LinearDensity, speed: f64) -> f64 {
    most - centrifugal(belt, metres_per_second(speed)).in_newtons()
}

#[test]
fn centrifugal_examples_of_khurmi() {
    let book = "Khurmi and Gupta, Theory of Machines, seen, recomputed";
    // 11.10: 100 × 6 mm, 2 MPa, 1000 kg/m³, 120°, μ 0.3, at the best speed √(T/3m) = 25.82 m/s; printed 9.64 kW.
    let belt = kilograms_per_metre(0.6);
    let best = 25.819889;
    let tight = effective(1200.0, belt, best);
    let ratio = friction_ratio(0.3, degrees(120.0), FLAT);
    agrees(tight * (1.0 - 1.0 / ratio) * best, 9636.228555, 1e-3, book);
    // 11.17: two V-belts in one, 30° groove, 750 mm² each, μ 0.12, 1200 kg/m³, 7 MPa, 300 mm, 1500 min⁻¹, 180°.
    let belt = kilograms_per_metre(0.9);
    let speed = speeds::belt(per_minute(1500.0), millimetres(300.0));
    let tight = effective(5250.0, belt, speed.in_metres_per_second());
    let slack = tight / friction_ratio(0.12, degrees(180.0), sine(15.0));
    agrees(tight, 4750.351277, 1e-5, book);
    agrees(slack, 1106.981275, 1e-5, book);
    agrees((newtons(2.0 * (tight - slack)) * speed).in_watts(), 171_689.767, 1e-3, book);
    // 11.18: 30° groove, 0.35 kg/m, 560 N, 140°, μ 0.15 at 23.094011 m/s.
    let best = 23.094011;
    let tight = effective(560.0, kilograms_per_metre(0.35), best);
    let ratio = friction_ratio(0.15, degrees(140.0), sine(15.0));
    agrees(tight * (1.0 - 1.0 / ratio) * best, 6529.663735, 1e-3, book);
    // 11.19: 35° groove, 375 mm² at 2.5 MPa and 1000 kg/m³, 1600 m/min: 670.83 N of effective tension.
    let tight = effective(937.5, kilograms_per_metre(0.375), 1600.0 / 60.0);
    agrees(tight, 670.833333, 1e-6, book);
    let path = close(&[
        Pulley { diameter: metres(1.0), ..Pulley::default() },
        Pulley { centre: Point::new(metres(1.75), Length::ZERO), diameter: metres(1.0 / 3.0), side: Side::Ribs },
    ])
    .expect("an open belt");
    let ratio = friction_ratio(0.25, path.arcs()[1].wrap, sine(17.5));
    agrees(tight * (1.0 - 1.0 / ratio) * 1600.0 / 60.0, 16_083.108, 1e-2, book);
}

#[test]
fn a_large_and_a_small_pulley_of_khurmi() {
    // 11.11: 1.2 and 0.5 m, 4 m apart, 0.9 kg/m, at most 2 kN, μ 0.3, large one at 200 min⁻¹.
    let book = "Khurmi and Gupta, Theory of Machines, example 11.11, recomputed";
    let path = close(&[
        Pulley { diameter: metres(1.2), ..Pulley::default() },
        Pulley { centre: Point::new(metres(4.0), Length::ZERO), diameter: metres(0.5), side: Side::Ribs },
    ])
    .expect("an open belt");
    let speed = speeds::belt(per_minute(200.0), metres(1.2));
    let tight = effective(2000.0, kilograms_per_metre(0.9), speed.in_metres_per_second());
    let slack = tight / friction_ratio(0.3, path.arcs()[1].wrap, FLAT);
    agrees(tight, 1857.877697, 1e-5, book);
    agrees(slack, 763.016396, 1e-5, book);
    agrees((tight - slack) * 0.6, 656.916780, 1e-5, book);
    agrees((tight - slack) * 0.25, 273.715325, 1e-5, book);
}

/// Power a locked pair can pass: the pull at which its weaker pulley is about to slip.
fn power_of_locked(path: &BeltPath, ratio: f64, set: f64, belt: LinearDensity, crank: RotationalSpeed, diameter: Length) -> f64 {
    let speed = speeds::belt(crank, diameter);
    let (mut low, mut high) = (0.0, 2.0 * set);
    for _ in 0..60 {
        let force = (low + high) / 2.0;
        let pulls = [Force::ZERO, newtons(force)];
        let demand = Demand { crank: 0, pulls: &pulls, as_listed: true, centrifugal: centrifugal(belt, speed) };
        let run = tensions(&Lie::from(path), &demand, Tightening::Locked(newtons(set))).expect("two pulleys");
        if run.margin(1, ratio).expect("there") > 1.0 { low = force } else { high = force }
    }
    (newtons(low) * speed).in_watts()
}

#[test]
fn locked_centres_of_khurmi() {
    let book = "Khurmi and Gupta, Theory of Machines, seen, recomputed";
    // 11.12: 2 kN, μ 0.3, 150°, 0.4 m, 500 min⁻¹, weightless. Equal pulleys make both spans count alike.
    let ratio = friction_ratio(0.3, degrees(150.0), FLAT);
    let power = power_of_locked(&pair(metres(0.4)), ratio, 2000.0, kilograms_per_metre(0.0), per_minute(500.0), metres(0.4));
    agrees(power, 15_652.870, 1e-3, book);
    // 11.13: 3 kN, 1.5 kg/m, 1.5 and 1.0 m, 4.8 m apart, the small one at 400 min⁻¹: m·v² 657.97 N, 41.84 kW.
    let path = close(&[
        Pulley { diameter: metres(1.0), ..Pulley::default() },
        Pulley { centre: Point::new(metres(4.8), Length::ZERO), diameter: metres(1.5), side: Side::Ribs },
    ])
    .expect("an open belt");
    let ratio = friction_ratio(0.3, path.arcs()[0].wrap, FLAT);
    let belt = kilograms_per_metre(1.5);
    let speed = speeds::belt(per_minute(400.0), metres(1.0));
    agrees(centrifugal(belt, speed).in_newtons(), 657.973627, 1e-5, book);
    let power = power_of_locked(&path, ratio, 3000.0, belt, per_minute(400.0), metres(1.0));
    agrees(power, 41_840.442, 1e-2, book);
}

#[test]
fn a_flat_belt_of_shigley() {
    // Problem 17-1: θ 3.037 rad, f 0.80, ΔF 664 lbf, Fc 73.4 lbf; the printed Fi keeps the mean less Fc: a sprung belt.
    let source = "Shigley, 10th ed. solutions, problem 17-1, seen";
    let ratio = friction_ratio(0.80, radians(3.037), FLAT);
    agrees(ratio, 11.35, 5e-3, source);
    let path = pair(metres(0.4));
    let pulls = [Force::ZERO, pounds_force(664.0)];
    let demand = Demand { crank: 0, pulls: &pulls, as_listed: true, centrifugal: pounds_force(73.4) };
    let set = Tightening::Sprung(1, pounds_force(396.128));
    let run = tensions(&Lie::from(&path), &demand, set).expect("two pulleys");
    let (slack, tight) = run.sides(1).expect("there");
    agrees(tight.in_pounds_force() + 73.4, 801.528, 1e-3, source);
    agrees(slack.in_pounds_force() + 73.4, 137.528, 1e-3, source);
    let needed = run.needed(&[ratio, ratio], set).expect("grips");
    agrees(needed.in_pounds_force(), 396.128, 1e-3, source);
}

#[test]
fn a_v_belt_of_shigley() {
    let source = "Shigley, 8th ed. solutions, chapter 17, seen";
    // ΔF = 2935/13 lbf, ratio 5, Fc 25.93101 lbf.
    let pulls = [Force::ZERO, pounds_force(2935.0 / 13.0)];
    let demand = Demand { crank: 0, pulls: &pulls, as_listed: true, centrifugal: pounds_force(25.93101) };
    let path = pair(metres(0.66));
    let set = Tightening::Sprung(1, pounds_force(169.32692));
    let run = tensions(&Lie::from(&path), &demand, set).expect("two pulleys");
    let (slack, tight) = run.sides(1).expect("there");
    agrees(tight.in_pounds_force() + 25.93101, 308.14255, 1e-4, source);
    agrees(slack.in_pounds_force() + 25.93101, 82.373, 1e-3, source);
    agrees(run.needed(&[5.0, 5.0], set).expect("grips").in_pounds_force(), 169.32692, 1e-4, source);
}

#[test]
fn wedge_friction_is_not_trusted_past_its_cap() {
    // Common practice, no source: 4 at a half turn, falling with wrap, halved when wet.
    let dry = Surface { friction: 0.30, most_ratio: 4.0, wet: false };
    let wet = Surface { friction: 0.15, most_ratio: 4.0, wet: true };
    agrees_within(dry.usable_ratio(Side::Ribs, degrees(180.0)), 4.0, 1e-12, "the cap");
    agrees_within(dry.usable_ratio(Side::Ribs, degrees(240.0)), 4.0, 1e-12, "the cap");
    agrees_within(dry.usable_ratio(Side::Ribs, degrees(90.0)), 2.0, 1e-12, "root of the cap");
    agrees_within(wet.usable_ratio(Side::Ribs, degrees(180.0)), 2.0, 1e-12, "half the cap");
    // The flat back grips by friction alone: e^(0.3·π) = 2.566 (B14), e^(0.15·π) = 1.6020.
    agrees(dry.usable_ratio(Side::Back, degrees(180.0)), 2.566332395, 1e-8, "B14");
    agrees(wet.usable_ratio(Side::Back, degrees(180.0)), 1.6020, 5e-5, "e^(0.15·π), by hand");
}

#[test]
fn the_belt_tightens_from_crank_to_crank() {
    // B10 with 40 N at pulley 2, 60 N at 3, none at 4; the belt runs as listed, then the other way.
    let rows = [(0.0, 0.0, 150.0), (260.0, 40.0, 70.0), (200.0, 250.0, 56.0), (-20.0, 230.0, 120.0)];
    let pulleys = rows.map(|(x, y, diameter)| Pulley {
        centre: Point::new(millimetres(x), millimetres(y)),
        diameter: millimetres(diameter),
        side: Side::Ribs,
    });
    let path = close(&pulleys).expect("B10");
    let pulls = [0.0, 40.0, 60.0, 0.0].map(newtons);
    let set = Tightening::Sprung(3, newtons(100.0));
    for (as_listed, expected) in [(true, [0.0, 40.0, 100.0, 100.0]), (false, [200.0, 160.0, 100.0, 100.0])] {
        let demand = Demand { crank: 0, pulls: &pulls, as_listed, centrifugal: newtons(50.0) };
        let run = tensions(&Lie::from(&path), &demand, set).expect("four pulleys");
        for (got, expected) in run.spans().iter().zip(expected) {
            agrees(got.in_newtons(), expected, 1e-9, "sum of pulls, by hand");
        }
        // Locked: the mean over the belt's length is the set tension less m·v².
        let locked = tensions(&Lie::from(&path), &demand, Tightening::Locked(newtons(300.0))).expect("four");
        let mut mean = 0.0;
        for (at, tension) in locked.spans().iter().enumerate() {
            let (here, next) = (path.arcs()[at].length, path.arcs()[(at + 1) % 4].length);
            mean += tension.in_newtons() * (path.spans()[at].length + (here + next) / 2.0).in_millimetres();
        }
        agrees(mean / path.length.in_millimetres(), 250.0, 1e-9, "mean tension, by hand");
    }
    // The slack span hangs on nothing in the first case: no grip at its pulleys.
    let demand = Demand { crank: 0, pulls: &pulls, as_listed: true, centrifugal: newtons(50.0) };
    let run = tensions(&Lie::from(&path), &demand, set).expect("four pulleys");
    assert_eq!(run.margin(1, 4.0), Some(0.0));
    assert_eq!(run.margin(9, 4.0), None);
    // At the tension said to be needed, the weakest pulley is just at its limit and none below.
    let ratios = [3.0, 2.0, 1.8, 2.5];
    let needed = run.needed(&ratios, set).expect("grips");
    let run = tensions(&Lie::from(&path), &demand, Tightening::Sprung(3, needed)).expect("four pulleys");
    let worst = (0..4).map(|at| run.margin(at, ratios[at]).expect("there")).fold(9.0, f64::min);
    agrees(worst, 1.0, 1e-9, "its definition");
}

#[test]
fn what_a_running_belt_weighs() {
    // Six ribs of 0.022 kg/m at 55 m/s: 399 N.
    let got = centrifugal(kilograms_per_metre(0.132), metres_per_second(55.0));
    agrees(got.in_newtons(), 399.0, 0.5, "m·v², worked by hand");
}

#[test]
fn load_on_a_bearing() {
    let half_turn = bearing_load(newtons(100.0), newtons(300.0), degrees(180.0));
    agrees(half_turn.in_newtons(), 400.0, 1e-9, "pulls in line add");
    let none = bearing_load(newtons(100.0), newtons(300.0), degrees(0.0));
    agrees(none.in_newtons(), 200.0, 1e-9, "pulls opposed subtract");
    let square = bearing_load(newtons(300.0), newtons(400.0), degrees(90.0));
    agrees(square.in_newtons(), 500.0, 1e-9, "three, four, five");
}

#[test]
fn the_note_of_a_span() {
    let note = "engineering note on alternator belts, seen";
    let five_ribs = kilograms_per_metre(0.11);
    // X1: 220 Hz over 170 mm; the note rounds 615 N to 610 N. X2: 624 N rings at 221 Hz.
    let tension = tension_for(hertz(220.0), five_ribs, millimetres(170.0));
    agrees(tension.in_newtons(), 615.4544, 5e-5, note);
    agrees_within(tension.in_newtons(), 610.0, 0.01, note);
    let tone = span_frequency(newtons(624.0), five_ribs, millimetres(170.0));
    agrees(tone.in_hertz(), 221.522087, 5e-7, note);
    agrees(tone.in_hertz(), 221.0, 1.0, note);
    // X4, X5.
    for (tension, belt, span, expected) in [(200.0, 0.08, 0.25, 100.0), (400.0, 0.1068, 0.28, 109.283940)] {
        let got = span_frequency(newtons(tension), kilograms_per_metre(belt), metres(span));
        agrees(got.in_hertz(), expected, 5e-7, "√(T/m)/2L, computed");
    }
    // X3: 0.0992 kg/m over 1.038 m weighs 0.103 kg, 0.1106 kg/m over 0.868 m 0.096 kg: 0.022 to 0.025 kg/m for a rib.
    for (belt, length, mass) in [(0.0992, 1.038, 0.103), (0.1106, 0.868, 0.096)] {
        agrees((kilograms_per_metre(belt) * metres(length)).in_kilograms(), mass, 5e-4, note);
    }
}
