//! Turning moments, and how evenly a four idles.

use core::f64::consts::PI;
use libm::{cos, sin};
use trialfit_core::calculators::flywheel::idle::{Four, unevenness};
use trialfit_core::calculators::flywheel::sections::Body;
use trialfit_core::calculators::flywheel::turning_moment::Diagram;
use trialfit_core::quantity::*;
use trialfit_tests::{agrees, agrees_within};

const KHURMI: &str = "Khurmi & Gupta, Theory of Machines, ch. 16";

fn wheel(mass: f64, radius: f64) -> Inertia {
    Body::of_gyration(kilograms(mass), metres(radius)).inertia
}

/// Points of (turns of π, N·m).
fn points(points: &[(f64, f64)]) -> Vec<(Angle, Torque)> {
    points.iter().map(|&(angle, torque)| (radians(angle * PI), newton_metres(torque))).collect()
}

#[test]
fn printed_fluctuations_give_the_printed_unevenness() {
    let joules_over_a_degree_scale = 975.0 * 5.0 * PI / 180.0;
    for (swing, inertia, speed, expected, tolerance, source) in [
        (56_000.0, wheel(6500.0, 1.8), 120.0, 2.020_650_386 / 120.0, 1e-11, "ex. 16.1"),
        (0.1 * 300e3 * 60.0 / 90.0, wheel(5_628.954_647, 2.0), 90.0, 0.01, 1e-11, "ex. 16.3"),
        (joules_over_a_degree_scale, wheel(36.0, 0.15), 1800.0, 0.002_956_4, 5e-8, "ex. 16.4, printed 0.3 %"),
        (172.0 * 10.0 * PI, wheel(182.497_668, 0.5), 600.0, 0.03, 1e-10, "ex. 16.5"),
        (0.1 * 150e3 * 60.0 / 80.0, wheel(3_806.965 / 0.95, 1.0), 80.0, 0.04, 1e-8, "ex. 16.15, without the book's rounding"),
    ] {
        let got = unevenness(joules(swing), inertia, per_minute(speed)).in_ratio();
        agrees(got, expected, tolerance, &format!("{KHURMI}, {source}"));
    }
    // Shigley ex. 16-6 (inputs from memory): 3531 in·lbf at 250 rad/s and a tenth wants 0.565 lbf·s²·in.
    let inch_pound = pounds_force_inches(1.0).si();
    let inertia = kilogram_square_metres(0.564_96 * inch_pound);
    agrees(unevenness(joules(3531.0 * inch_pound), inertia, radians_per_second(250.0)).in_ratio(), 0.1, 1e-6, "Shigley, ex. 16-6");
    // Shigley, solutions to ch. 16: 110.72 in·lbf·s² gives up 88 501.37 in·lbf about 121.11 rad/s: 0.0545.
    let inertia = kilogram_square_metres(110.72 * inch_pound);
    let got = unevenness(joules(88_501.37 * inch_pound), inertia, radians_per_second(121.11)).in_ratio();
    agrees(got, 0.054_496, 5e-7, "Shigley, solutions manual 8th ed., ch. 16");
}

#[test]
fn straight_sided_diagrams_are_exact() {
    // Ex. 16.6: up from 750 to 3000 N·m in half a turn, held for one, back in half a turn, held for one.
    let trapezium = points(&[(0.0, 750.0), (1.0, 3000.0), (3.0, 3000.0), (4.0, 750.0), (6.0, 750.0)]);
    let diagram = Diagram { points: &trapezium };
    agrees(diagram.mean().in_newton_metres(), 1875.0, 1e-9, "Khurmi & Gupta, ex. 16.6");
    agrees((diagram.mean() * per_minute(250.0)).in_kilowatts(), 49.087_385, 5e-7, "Khurmi & Gupta, ex. 16.6");
    agrees(diagram.fluctuation().in_joules(), 8_835.729_338, 5e-7, "Khurmi & Gupta, ex. 16.6");
    let uneven = unevenness(diagram.fluctuation(), wheel(500.0, 0.6), per_minute(250.0));
    agrees(uneven.in_ratio(), 0.071_619_724, 5e-10, "Khurmi & Gupta, ex. 16.6");

    // Ex. 16.7: two triangles of 2000 and 1500 N·m, each over half a turn.
    let triangles = points(&[(0.0, 0.0), (0.5, 2000.0), (1.0, 0.0), (1.5, 1500.0), (2.0, 0.0)]);
    let diagram = Diagram { points: &triangles };
    agrees(diagram.mean().in_newton_metres(), 875.0, 1e-9, "Khurmi & Gupta, ex. 16.7");
    agrees(diagram.fluctuation().in_joules(), 994.019_551, 5e-7, "Khurmi & Gupta, ex. 16.7");
    agrees(diagram.fluctuation() / diagram.work(), 0.180_803_571, 5e-10, "Khurmi & Gupta, ex. 16.7");
    let uneven = unevenness(diagram.fluctuation(), wheel(197.319_649, 1.75), per_minute(100.0));
    agrees(uneven.in_ratio(), 0.015, 1e-10, "Khurmi & Gupta, ex. 16.7");

    // Ex. 16.8: three cylinders at 120°, each a triangle of 90 N·m with its peak at 60° of 180°.
    let one = |degrees: f64| match degrees.rem_euclid(360.0) {
        at if at < 60.0 => 90.0 * at / 60.0,
        at if at < 180.0 => 90.0 * (180.0 - at) / 120.0,
        _ => 0.0,
    };
    let three: Vec<_> =
        (0..=6).map(|at| 60.0 * f64::from(at)).map(|at| (at / 180.0, one(at) + one(at - 120.0) + one(at + 120.0))).collect();
    let three = points(&three);
    let diagram = Diagram { points: &three };
    agrees(diagram.mean().in_newton_metres(), 67.5, 1e-9, "Khurmi & Gupta, ex. 16.8");
    agrees((diagram.mean() * per_minute(600.0)).in_kilowatts(), 4.241_150, 5e-7, "Khurmi & Gupta, ex. 16.8");
    agrees(diagram.fluctuation().in_joules(), 11.780_972, 5e-7, "Khurmi & Gupta, ex. 16.8");
    agrees(diagram.fluctuation() / diagram.work(), 1.0 / 36.0, 1e-12, "Khurmi & Gupta, ex. 16.8");
    let inertia = wheel(12.0, 0.08);
    agrees(unevenness(diagram.fluctuation(), inertia, per_minute(600.0)).in_ratio(), 0.038_856, 5e-7, "Khurmi & Gupta, ex. 16.8");
    let peak = three.iter().map(|point| point.1).fold(Torque::ZERO, Torque::max);
    let gain = (peak - diagram.mean()) / inertia;
    agrees(gain.in_radians_per_second_squared(), 292.968_75, 5e-6, "Khurmi & Gupta, ex. 16.8");

    // Ex. 16.9: 20 kW at 300 min⁻¹; one stroke in four drives, a triangle with 1.5 times the cycle's work.
    let work = 20e3 * 60.0 / 150.0;
    let peak = 2.0 * 1.5 * work / PI;
    agrees(peak, 7_639.437_268, 5e-7, "Khurmi & Gupta, ex. 16.9");
    let rest = -0.5 * work / (3.0 * PI);
    let single = points(&[(0.0, 0.0), (0.5, peak), (1.0, 0.0), (1.0, rest), (4.0, rest)]);
    let diagram = Diagram { points: &single };
    agrees(diagram.mean().in_newton_metres(), 636.619_772, 5e-7, "Khurmi & Gupta, ex. 16.9");
    agrees(diagram.fluctuation().in_joules(), 10_083.333_333, 5e-7, "Khurmi & Gupta, ex. 16.9");
    let uneven = unevenness(diagram.fluctuation(), kilogram_square_metres(255.413_817), per_minute(300.0));
    agrees(uneven.in_ratio(), 0.04, 1e-10, "Khurmi & Gupta, ex. 16.9");
}

fn sampled(cycle: f64, pieces: usize, torque: impl Fn(f64) -> f64) -> Vec<(Angle, Torque)> {
    let angle = |at: usize| cycle * at as f64 / pieces as f64;
    (0..=pieces).map(|at| (radians(angle(at)), newton_metres(torque(angle(at))))).collect()
}

/// Smooth diagrams of the same chapter: the sampled answer meets the book's at the square of the step.
#[test]
fn smooth_diagrams_are_met_at_the_second_order() {
    type Torques = fn(f64) -> f64;
    let cases: [(Torques, f64, &str); 3] = [
        (|angle| 600.0 * sin(2.0 * angle) - 500.0 * sin(angle), 1_204.166_667, "Khurmi & Gupta, ex. 16.12"),
        (|angle| 5000.0 + 1500.0 * sin(3.0 * angle), 1_000.0, "Khurmi & Gupta, ex. 16.13"),
        (|angle| 1500.0 * sin(3.0 * angle) - 600.0 * sin(angle), 1_656.502_339, "ex. 16.13 (b), its arcsine taken rightly"),
    ];
    for (torque, expected, source) in cases {
        let swing = |pieces| Diagram { points: &sampled(2.0 * PI, pieces, torque) }.fluctuation().in_joules();
        agrees_within(swing(7200), expected, 2e-6, source);
        let order = libm::log2((swing(90) - expected) / (swing(180) - expected));
        assert!((1.8..2.2).contains(&order), "order {order} ({source})");
    }
    // Ex. 16.12: 500 kg at 0.4 m, 150 min⁻¹: 6.1 %; ex. 16.13: 1000 kg·m², 300 min⁻¹: 0.1 % and 0.17 %.
    for (swing, inertia, speed, uneven) in [
        (1_204.166_667, wheel(500.0, 0.4), 150.0, 0.061_003_796),
        (1_000.0, kilogram_square_metres(1000.0), 300.0, 0.001_013_212),
        (1_656.502_339, kilogram_square_metres(1000.0), 300.0, 0.001_678_388),
    ] {
        agrees_within(unevenness(joules(swing), inertia, per_minute(speed)).in_ratio(), uneven, 1e-6, KHURMI);
    }
}

/// Crank torque of one cylinder each 10°: Uicker, Pennock & Shigley, Theory of Machines and Mechanisms, problem 18.1. The
/// book's Simpson rule makes 890.7 J of it, straight lines 901.288 J. Its solution takes that work for the fluctuation;
/// the table's own is 1961.79 J between tabled angles, and a little more between the lines' own turning points.
#[test]
fn a_tabled_cylinder_swings_what_its_table_says() {
    #[rustfmt::skip]
    let table = [
        0, 17, 812, 963, 1016, 937, 774, 641, 697, 849, 1031, 1027, 902, 712, 607, 594, 544, 345,
        0, -344, -540, -576, -570, -638, -785, -879, -814, -571, -324, -190, -203, -235, -164, -7, 150, 145,
        0, -145, -150, 7, 164, 235, 203, 490, 424, 571, 814, 879, 785, 638, 570, 576, 540, 344,
        0, -344, -540, -577, -572, -643, -793, -893, -836, -605, -379, -264, -300, -368, -334, -198, -56, -2,
    ];
    let at = |step: usize| f64::from(table[step % table.len()]);
    let points: Vec<_> = (0..=72).map(|step| (degrees(10.0 * step as f64), newton_metres(at(step)))).collect();
    let diagram = Diagram { points: &points };
    let source = "Uicker, Pennock & Shigley, problem 18.1, computed from its table";
    agrees(diagram.work().in_joules(), 901.288, 5e-4, source);
    agrees(diagram.mean().in_newton_metres(), 71.722_2, 5e-5, source);
    agrees_within(diagram.fluctuation().in_joules(), 1_961.79, 1e-3, source);
    // The same lines, walked in steps of a hundredth of a degree.
    let mean = diagram.mean().in_newton_metres();
    let (mut held, mut least, mut most) = (0.0_f64, 0.0_f64, 0.0_f64);
    for fine in 0..72_000 {
        let along = (f64::from(fine) + 0.5) / 1000.0;
        let (from, to) = (at(fine as usize / 1000), at(fine as usize / 1000 + 1));
        held += (from + (to - from) * along.fract() - mean) * degrees(0.01).si();
        (least, most) = (least.min(held), most.max(held));
    }
    agrees_within(diagram.fluctuation().in_joules(), most - least, 1e-6, "the same lines, summed");
    let simpson: f64 = (0..72).step_by(2).map(|step| at(step) + 4.0 * at(step + 1) + at(step + 2)).sum();
    agrees(simpson * degrees(10.0).si() / 3.0, 890.699_7, 5e-5, "the book's rule on the same table, so the table is typed right");
}

fn four(reciprocating: f64, rod_ratio: f64) -> Four {
    Four {
        gas: newton_metres(150.0),
        reciprocating: kilograms(reciprocating),
        crank_radius: millimetres(47.0),
        rod_ratio: ratio(rod_ratio),
    }
}

/// T = T_m + A·sin 2θ alone hands over A itself: 150 J, 7.6 and 12.6 % at 850 min⁻¹.
#[test]
fn gas_alone_swings_its_own_amplitude() {
    let (swing, idle) = (four(0.0, 0.31).energy_swing(per_minute(850.0)), per_minute(850.0));
    agrees(swing.in_joules(), 150.0, 1e-12, "∫ A·sin 2θ over a quarter turn");
    for (inertia, uneven) in [(0.25, 0.075_727_943), (0.15, 0.126_213_239)] {
        agrees(unevenness(swing, kilogram_square_metres(inertia), idle).in_ratio(), uneven, 5e-10, "A/(J·ω²), computed");
    }
}

/// 0.55 kg on 47 mm: 19 N·m at 850, 167 at 2500 min⁻¹.
#[test]
fn pistons_push_back_as_by_hand() {
    let engine = four(0.55, 0.31);
    for (speed, torque) in [(850.0, 19.0), (2500.0, 167.0)] {
        agrees(engine.second_order(per_minute(speed)).in_newton_metres(), torque, 0.5, "2·m·r²·ω², by hand");
    }
}

/// Another way to the same torque: four slider-cranks worked out exactly, m·a·v/ω of each added up.
#[test]
fn two_orders_are_the_slider_cranks_own() {
    let (engine, speed) = (four(0.55, 0.31), per_minute(850.0));
    let (radius, rod, omega) = (0.047, 0.047 / 0.31, speed.si());
    // Piston's distance from the crank, and by small steps its speed and acceleration.
    let place = |angle: f64| radius * cos(angle) + (rod * rod - radius * radius * sin(angle) * sin(angle)).sqrt();
    let step = 1e-3;
    let torque = |angle: f64| {
        let rate = (place(angle + step) - place(angle - step)) / (2.0 * step) * omega;
        let gain = (place(angle + step) - 2.0 * place(angle) + place(angle - step)) / (step * step) * omega * omega;
        -0.55 * gain * rate / omega
    };
    let amplitude = engine.second_order(speed).in_newton_metres();
    for degree in (0..180).step_by(5) {
        let angle = f64::from(degree).to_radians();
        let exact = 2.0 * torque(angle) + 2.0 * torque(angle + PI);
        let gas = 150.0 * sin(2.0 * angle);
        let got = engine.excess(radians(angle), speed).in_newton_metres() - gas;
        assert!((got - exact).abs() < 0.01 * amplitude, "{got}, not {exact}, at {degree}°");
    }
}

/// The closed form against the sampled diagram, at speeds where gas rules, where both cancel and where pistons rule.
#[test]
fn the_swing_is_that_of_its_own_diagram() {
    for speed in [850.0, 1500.0, 2300.0, 2370.0, 2376.0, 2400.0, 2500.0, 4000.0] {
        let (engine, speed) = (four(0.55, 0.31), per_minute(speed));
        let swing = |pieces| {
            let points = sampled(PI, pieces, |angle| engine.excess(radians(angle), speed).in_newton_metres());
            Diagram { points: &points }.fluctuation().in_joules()
        };
        agrees_within(swing(3600), engine.energy_swing(speed).in_joules(), 1e-5, "the same torque, sampled");
    }
}
