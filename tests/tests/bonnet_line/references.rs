//! The bonnet line's physics against printed and independently computed answers.

use core::f64::consts::PI;
use trialfit_core::calculators::bonnet_line::MountMetal;
use trialfit_core::calculators::bonnet_line::joints::{Bend, acceleration, extremes, lead, residual, shake, unevenness};
use trialfit_core::calculators::bonnet_line::mounts::{Mounts, grip_torque, weight};
use trialfit_core::calculators::bonnet_line::propshaft::{critical_speed, surge};
use trialfit_core::calculators::bonnet_line::space::{Position, Stance, Turn, tip};
use trialfit_core::calculators::bonnet_line::surface::{Outside, Station, Surface};
use trialfit_core::quantity::*;
use trialfit_core::tolerance::{Shape, Stack, Tolerance, normal_tail, sigmas_above};
use trialfit_tests::{agrees, agrees_within};

const RIGID: &str = "rigid rotation x' = c + R(x − c), computed with numpy";
const KHURMI: &str = "Khurmi & Gupta, Theory of Machines, ch. 9";
const HOOKE: &str = "Hooke joint, cos β and 1/cos β, computed (any mechanisms text)";

fn stack(half_widths: &[f64], shape: Shape) -> Stack {
    let mut stack = Stack::default();
    for &half_width in half_widths {
        stack.add(1.0, Tolerance { half_width, shape });
    }
    stack
}

/// Shouldered screw: w = a − b − c − d, inches; the sums are printed, the root is computed.
#[test]
fn shigleys_screw_stacks_up() {
    let source = "Shigley, Mechanical Engineering Design, shouldered-screw example, ch. 1";
    let screw = stack(&[0.003, 0.001, 0.005, 0.001], Shape::Uniform);
    agrees(screw.worst_case(), 0.010, 1e-12, source);
    agrees(screw.root_sum_square(), 0.006, 1e-12, "computed for the same example");
    assert!(screw.is_bounded());
}

/// 420 ± 3 − 310 ± 2 − 65 ± 1.5 − 20 ± 2.5 mm.
#[test]
fn four_dimensions_stack_up() {
    let source = "√Σt², Σ|t| and Σt²/3, computed with scipy.stats.norm";
    let widths = [3.0, 2.0, 1.5, 2.5];
    let normal = stack(&widths, Shape::Normal { sigmas: 3.0 });
    agrees(normal.worst_case(), 9.0, 1e-12, source);
    agrees(normal.root_sum_square(), 4.636_809, 5e-7, source);
    agrees(1.5 * normal.root_sum_square(), 6.955_214, 5e-7, "Bender's 1.5, computed");
    agrees(normal.deviation(), 1.545_603, 5e-7, source);
    agrees(normal_tail(5.0 / normal.deviation()), 6.082_494e-4, 5e-10, source);
    agrees(normal_tail(3.0 / normal.deviation()), 0.026_129_750, 5e-10, source);
    agrees(stack(&widths, Shape::Uniform).deviation(), 2.677_063, 5e-7, source);
    agrees(stack(&widths, Shape::Triangular).deviation(), 1.892_969, 5e-7, source);
}

/// One-sided parts per million beyond z, and the other way round.
#[test]
fn normal_tails_are_those_of_the_tables() {
    let source = "scipy.stats.norm.sf";
    for (z, parts) in [
        (1.0, 158_655.254),
        (2.0, 22_750.131_95),
        (3.0, 1_349.898_032),
        (4.0, 31.671_241_83),
        (4.5, 3.397_673_125),
        (5.0, 0.286_651_571_9),
        (6.0, 9.865_876_450e-4),
        (3.0 * 1.33, 33.036_647_6),
    ] {
        agrees_within(normal_tail(z) * 1e6, parts, 1e-9 + 5e-9, source);
    }
    for (inside, z) in
        [(0.90, 1.644_853_627), (0.95, 1.959_963_985), (0.99, 2.575_829_304), (0.9973, 2.999_976_993), (0.999, 3.290_526_731)]
    {
        let found = sigmas_above((1.0 - inside) / 2.0);
        agrees(found, z, 1e-3, "two-sided coverage factors, scipy.stats.norm");
        assert!(found >= z - 1e-9, "never too low: {found} for {z}");
    }
}

/// JCGM 100:2008 (GUM) H.1: standard uncertainties in nm add up as squares.
#[test]
fn the_end_gauge_of_the_gum_adds_up() {
    let combined = |parts: &[f64]| stack(parts, Shape::Normal { sigmas: 1.0 }).deviation();
    agrees(combined(&[25.0, 9.7, 2.9, 16.6]), 31.671_1, 5e-5, "JCGM 100:2008, H.1.4: prints 32 nm");
    agrees(combined(&[5.8, 3.9, 6.7]), 9.681_942, 5e-7, "JCGM 100:2008, H.1.3.2: prints 9.7 nm");
    agrees(combined(&[25.0, 9.7, 2.9, 16.6, 11.7, 1.7]), 33.805_9, 5e-5, "JCGM 100:2008, H.1.7, inputs from memory: prints 34 nm");
}

#[test]
fn points_turn_as_rigid_ones_do() {
    let at = |x: f64, z: f64| Position { along: millimetres(x), across: Length::ZERO, up: millimetres(z) };
    // Tail up is counter-clockwise with the front of the car to the left.
    for (point, centre, turn, expected) in [
        ((500.0, 300.0), (0.0, 0.0), 1.0, (494.688_126, 308.680_512)),
        ((500.0, 300.0), (0.0, 0.0), 3.0, (483.613_981, 325.756_839)),
        ((500.0, 300.0), (0.0, 0.0), -2.0, (510.165_263, 282.367_500)),
        ((620.0, 410.0), (120.0, 55.0), 2.5, (604.039_228, 431.471_812)),
    ] {
        let stance = Stance::new(at(centre.0, centre.1), degrees(-turn));
        let found = stance.in_car(at(point.0 - centre.0, point.1 - centre.1));
        agrees(found.along.in_millimetres(), expected.0, 1e-6, RIGID);
        agrees(found.up.in_millimetres(), expected.1, 1e-6, RIGID);
    }
    // Rolled by 4° about the crank's axis.
    let roll = Turn::about(at(0.0, 0.0), [1.0, 0.0, 0.0], degrees(4.0));
    let found = roll.of(Position { along: Length::ZERO, across: millimetres(-180.0), up: millimetres(450.0) });
    agrees(found.across.in_millimetres(), -210.951_942, 1e-6, RIGID);
    agrees(found.up.in_millimetres(), 436.347_657, 1e-6, RIGID);
    // Tipped by 1°, a point moves along a chord: 2r·sin(φ/2).
    let moved = Stance::new(at(0.0, 0.0), degrees(-1.0)).in_car(at(500.0, 300.0));
    agrees(libm::hypot(moved.along.in_millimetres() - 500.0, moved.up.in_millimetres() - 300.0), 10.176_802, 5e-7, "chord, computed");
}

#[test]
fn points_turn_about_any_axis() {
    let point = Position { along: millimetres(300.0), across: millimetres(120.0), up: millimetres(520.0) };
    let centre = Position { along: Length::ZERO, across: Length::ZERO, up: millimetres(150.0) };
    let source = "scipy.spatial.transform.Rotation";
    for (direction, expected) in
        [([1.0, 0.0, 0.0], [300.0, 100.471_240, 525.773_243]), ([1.0, 0.2, -0.1], [304.355_875, 99.480_598, 522.519_948])]
    {
        let found = Turn::about(centre, direction, degrees(3.0)).of(point);
        for (part, expected) in [found.along, found.across, found.up].into_iter().zip(expected) {
            agrees(part.in_millimetres(), expected, 1e-6, source);
        }
    }
}

#[test]
fn a_raised_mount_tips_the_engine() {
    agrees(tip(millimetres(12.0), millimetres(700.0)).in_degrees(), 0.982_117, 5e-7, "atan(12/700), computed");
}

/// Side by side, springs add.
#[test]
fn mounts_roll_sag_and_grow() {
    let source = "springs in parallel, computed";
    let mounts = Mounts {
        engine: newtons_per_millimetre(250.0),
        half_spacing: millimetres(250.0),
        gearbox: newtons_per_millimetre(500.0),
        gearbox_at: millimetres(700.0),
    };
    let torque = newton_metres(200.0 * 3.636);
    let roll = mounts.roll(torque);
    agrees(torque.si() / roll.si(), 31_250.0, 1e-9, source);
    agrees(roll.in_degrees(), 1.333_296, 5e-7, source);
    agrees(250.0 * roll.si(), 5.817_6, 5e-7, source);
    agrees(350.0 * roll.si(), 8.144_64, 5e-7, source);
    // Four of 250 N/mm: two at the engine, as much as two at the gearbox, the weight halfway.
    let sink = mounts.sink(weight(kilograms(160.0), 1.0), millimetres(350.0));
    agrees(sink.engine.in_millimetres(), 1.569_064, 5e-7, source);
    agrees(sink.gearbox.in_millimetres(), 1.569_064, 5e-7, source);
    let source = "α·L·ΔT with 23.1 and 12·10⁻⁶ per kelvin, computed";
    agrees(MountMetal::Aluminium.growth(millimetres(500.0), kelvin_rise(80.0)).in_millimetres(), 0.924, 1e-9, source);
    agrees(MountMetal::Iron.growth(millimetres(500.0), kelvin_rise(80.0)).in_millimetres(), 0.480, 1e-9, source);
    agrees(MountMetal::Iron.growth(millimetres(700.0), kelvin_rise(150.0)).in_millimetres(), 1.260, 1e-9, source);
}

/// Common practice, no source: 150 N/mm at 220 mm, a point 350 mm above the axis. 300 N·m give 1.2° and 7 mm, the engine's
/// full 873 N·m 3.4° and 21 mm.
#[test]
fn grip_rolls_the_engine_less_than_its_torque_would() {
    let source = "common practice, no source";
    let mounts = Mounts {
        engine: newtons_per_millimetre(150.0),
        half_spacing: millimetres(220.0),
        gearbox: newtons_per_millimetre(200.0),
        gearbox_at: millimetres(700.0),
    };
    for (torque, roll, sideways, digits) in [(300.0, 1.2, 7.0, 0.5), (240.0 * 3.636, 3.4, 21.0, 0.5)] {
        let found = mounts.roll(newton_metres(torque));
        agrees(found.in_degrees(), roll, 0.05, source);
        agrees(350.0 * found.si(), sideways, digits * 0.7, source);
    }
    // 730 kg with 58 % on the driven wheels, μ = 1, 0.2794 m, 3.9: about 300 N·m, far less than the engine's.
    agrees(grip_torque(kilograms(730.0), 0.58, 1.0, millimetres(279.36), 3.9).in_newton_metres(), 297.4, 0.1, "μ·N·r/i, by hand");
}

#[test]
fn joints_run_unevenly_as_the_tables_say() {
    let speed = per_minute(1000.0);
    for (bend, low, high, uneven, ahead) in [
        (1.0, 0.999_847_695, 1.000_152_328, 0.000_304_633, 0.004_363_545),
        (2.0, 0.999_390_827, 1.000_609_544, 0.001_218_717, 0.017_456_838),
        (3.0, 0.998_629_535, 1.001_372_346, 0.002_742_811, 0.039_287_862),
        (5.0, 0.996_194_698, 1.003_819_838, 0.007_625_139, 0.109_221_746),
        (10.0, 0.984_807_753, 1.015_426_612, 0.030_618_859, 0.438_561_434),
        (15.0, 0.965_925_826, 1.035_276_180, 0.069_350_354, 0.993_121_958),
        (20.0, 0.939_692_621, 1.064_177_772, 0.124_485_152, 1.781_681_903),
        (30.0, 0.866_025_404, 1.154_700_538, 0.288_675_135, 4.117_194_270),
    ] {
        let bend = degrees(bend);
        let [slowest, fastest] = extremes(speed, bend);
        agrees(slowest / speed, low, 1e-9, HOOKE);
        agrees(fastest / speed, high, 1e-9, HOOKE);
        agrees(unevenness(bend).in_ratio(), uneven, 1e-9, HOOKE);
        agrees(lead(bend).in_degrees(), ahead, 1e-9, HOOKE);
    }
}

#[test]
fn joints_swing_as_khurmi_prints() {
    // D1: 12 % of 500 min⁻¹ between slowest and fastest is 19.64° (example 9.4).
    let [slowest, fastest] = extremes(per_minute(500.0), degrees(19.644_202));
    agrees((fastest - slowest).in_per_minute(), 60.0, 1e-5, KHURMI);
    // D2: 1200 min⁻¹, 100 between, at 16.4°: 1251 and 1151 (example 9.5).
    let [slowest, fastest] = extremes(per_minute(1200.0), degrees(16.422_908));
    agrees(fastest.in_per_minute(), 1_251.041_215, 1e-5, KHURMI);
    agrees(slowest.in_per_minute(), 1_151.041_215, 1e-5, KHURMI);
    // D3: two of 20° wrongly phased, 500 min⁻¹ (example 9.7: 532.1, 469.85, 566.24, 441.5).
    let [slowest, fastest] = extremes(per_minute(500.0), degrees(20.0));
    agrees(fastest.in_per_minute(), 532.088_886, 5e-7, KHURMI);
    agrees(slowest.in_per_minute(), 469.846_310, 5e-7, KHURMI);
    agrees(extremes(fastest, degrees(20.0))[1].in_per_minute(), 566.237, 5e-4, KHURMI);
    agrees(extremes(slowest, degrees(20.0))[0].in_per_minute(), 441.511, 5e-4, KHURMI);
    // D9: 240 min⁻¹, 20°, 45°; 55 kg at 0.15 m under 200 N·m: the driven side wants 103 N·m more or less (example 9.6,
    // which rounds the inertia).
    let found = acceleration(per_minute(240.0), degrees(20.0), degrees(45.0));
    agrees(found.si(), -78.328_175, 5e-7, "Khurmi & Gupta, example 9.6, computed without rounding");
    let inertia = kilogram_square_metres(55.0 * 0.15 * 0.15);
    agrees(200.0 + (inertia * found).si(), 103.068_884, 5e-7, "Khurmi & Gupta, example 9.6, computed without rounding");
}

/// 7000 min⁻¹ at 3°; the peak over a turn, and what it is to first order.
#[test]
fn a_joint_shakes_with_the_square_of_both() {
    let (speed, bend) = (per_minute(7000.0), degrees(3.0));
    let peak = (0..3600).map(|at| acceleration(speed, bend, degrees(f64::from(at) * 0.1)).si().abs()).fold(0.0, f64::max);
    agrees(peak, 1_473.839, 5e-3, "scan of θ, computed");
    let sine = libm::sin(bend.si());
    agrees(speed.si() * speed.si() * sine * sine, 1_471.816, 5e-4, "ω²·sin²β, computed");
    agrees_within(shake(speed, bend).si(), 1_471.816, 1e-3, "β² for sin²β: 0.09 % at 3°");
}

#[test]
fn pairs_of_joints_cancel_when_they_should() {
    let bend = |vertical: f64, sideways: f64| Bend { vertical: degrees(vertical), sideways: degrees(sideways) };
    // Alike and in line, nothing is left; and the same the other way round (a Z or a W).
    for rear in [bend(3.0, 1.5), bend(-3.0, -1.5)] {
        agrees(residual(bend(3.0, 1.5), rear, false).in_degrees(), 0.0, 1e-9, "equal joints in phase, identity");
    }
    // Unlike, and what makers ask for.
    let source = "β² = |β1² ± β2²|, driveshaft practice, from memory";
    let left = residual(bend(5.0, 0.0), bend(4.0, 0.0), false);
    agrees(left.in_degrees(), 3.0, 1e-9, source);
    agrees(unevenness(left).in_ratio(), 0.002_743, 5e-7, source);
    agrees(residual(bend(5.0, 0.0), bend(4.0, 0.0), true).in_degrees(), 41.0_f64.sqrt(), 1e-9, source);
    agrees(unevenness(degrees(2.9765)).in_ratio(), 0.0027, 5e-8, "U ≤ 0.0027, a maker's technical page");
    // Planes a quarter turn apart do not cancel: they add as crossed ones do.
    agrees(residual(bend(3.0, 0.0), bend(0.0, 3.0), false).in_degrees(), 18.0_f64.sqrt(), 1e-9, source);
    // In two planes at once.
    agrees(bend(3.0, 2.0).angle().in_degrees(), 3.603_527, 5e-7, "tan² = tan² + tan², computed");
    agrees(bend(2.5, 1.5).angle().in_degrees(), 2.914_497, 5e-7, "tan² = tan² + tan², computed");
}

/// A tube of 63.5/58.5 mm, 1.2 m between its joints: (π/2L²)·√(EI/ρA) by hand.
#[test]
fn a_propshaft_whirls() {
    let found = critical_speed(millimetres(63.5), millimetres(58.5), metres(1.2), gigapascals(206.0), kilograms_per_cubic_metre(7850.0));
    agrees(found.in_per_minute(), 7250.0, 25.0, "by hand from the formula");
    // A solid bar of d whirls as (π/L)²·√(E·d²/(16ρ)): by hand for 20 mm steel over 1 m, 2416 min⁻¹.
    let bar = critical_speed(millimetres(20.0), Length::ZERO, metres(1.0), gigapascals(206.0), kilograms_per_cubic_metre(7850.0));
    agrees(bar.in_radians_per_second(), PI * PI * (206e9_f64 / 7850.0).sqrt() * 0.005, 1e-9, "by hand");
    // A sump of 220 mm at 1 g: the surface stands at 45°.
    agrees(surge(millimetres(220.0), 1.0).in_millimetres(), 110.0, 1e-9, "½·w·a/g, by hand");
}

fn underside() -> Surface {
    let station = |along: f64, heights: [f64; 3]| Station {
        along: millimetres(along),
        heights: heights.map(|height| (height > 0.0).then_some(millimetres(height))),
        low_by: [Length::ZERO; 3],
    };
    Surface::new(
        [station(200.0, [440.0, 500.0, 460.0]), station(-100.0, [420.0, 470.0, 430.0]), station(400.0, [0.0, 506.0, 0.0])],
        millimetres(250.0),
    )
}

/// Straight between what was measured both ways: by hand.
#[test]
fn the_underside_is_straight_between_what_was_measured() {
    let (surface, by_hand) = (underside(), "by hand");
    let height = |along: f64, across: f64| surface.height(millimetres(along), millimetres(across)).map(Length::in_millimetres);
    for (along, across, expected) in [
        (-100.0, 0.0, 470.0),
        (200.0, -250.0, 440.0),
        (50.0, 0.0, 485.0),
        (50.0, 125.0, 465.0),
        (50.0, -125.0, 457.5),
        (125.0, 100.0, 476.5),
        (400.0, 0.0, 506.0),
        (300.0, 0.0, 503.0),
    ] {
        agrees(height(along, across).expect("measured"), expected, 1e-9, by_hand);
    }
    assert_eq!(height(-101.0, 0.0), Err(Outside::Front));
    assert_eq!(height(401.0, 0.0), Err(Outside::Back));
    assert_eq!(height(0.0, 251.0), Err(Outside::Side));
    assert_eq!(height(300.0, 10.0), Err(Outside::NotMeasured));
    // At the station itself the next one does not matter.
    agrees(height(200.0, 125.0).expect("measured"), 480.0, 1e-9, by_hand);
}
