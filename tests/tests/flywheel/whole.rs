//! The calculator as a whole: links, ways of knowing the wheel, reasons, and the ranges a fitter would accept.

use super::{demo, row, set};
use trialfit_core::build::Build;
use trialfit_core::calculators::car::{CURVE_SPEED, CURVE_TORQUE, REDLINE, TORQUE_BASIS, TORQUE_CURVE, TorqueBasis};
use trialfit_core::calculators::flywheel::idle::Four;
use trialfit_core::calculators::flywheel::material::Material;
use trialfit_core::calculators::flywheel::sections::Touching;
use trialfit_core::calculators::flywheel::strength::Outcome;
use trialfit_core::calculators::flywheel::totals::Agreement;
use trialfit_core::calculators::flywheel::*;
use trialfit_core::calculators::{ALL, car, front_drive};
use trialfit_core::quantity::*;
use trialfit_core::report::{Report, Unknown};
use trialfit_core::share::link::read;
use trialfit_core::spec::{Output, Role, RowId, Verdict};
use trialfit_tests::{agrees, agrees_within, evaluated};

const TRADE: &str = "common practice, no source: a range a fitter would accept";

#[track_caller]
fn between(got: f64, range: core::ops::RangeInclusive<f64>) {
    assert!(range.contains(&got), "{got} outside {range:?} ({TRADE})");
}

/// The demo with nothing hung on the front: the trade's figures are for crank, cover and plate alone.
fn bare() -> Report {
    let mut build = demo();
    set(&mut build, "flywheel.accessories", 0.0);
    evaluated(&build)
}

#[test]
fn a_light_wheel_for_a_standard_one_comes_out_as_fitters_know_it() {
    let report = bare();
    let of = |output: Output<Inertia>| report.of(output).expect("known").si();
    agrees(report.of(REFERENCE_INERTIA).expect("known").si(), 0.090, 5e-4, TRADE);
    agrees(of(INERTIA), 0.046, 5e-4, TRADE);
    agrees(of(REFERENCE_ENGINE_INERTIA), 0.185, 5e-4, TRADE);
    agrees(of(ENGINE_INERTIA), 0.140, 2e-3, TRADE);
    agrees(report.of(REFERENCE_REV_TIME).expect("known").in_seconds(), 0.49, 5e-3, TRADE);
    agrees(report.of(REV_TIME).expect("known").in_seconds(), 0.37, 8e-3, TRADE);
    let gain = |gear: usize| report.cell(GEAR_GAIN, gear).expect("known").in_percent();
    between(gain(0), 8.0..=12.0);
    // Printed in whole per cent.
    between(gain(3).round(), 1.0..=2.0);
    agrees(report.of(ROUGHER).expect("known").in_ratio(), 1.3, 0.05, TRADE);
    let seconds = |row: usize| report.cell(SHIFT_TIME, row).expect("known").in_seconds();
    between(seconds(1), 0.3..=1.0);
    assert!((0..4).all(|row| report.cell(SHIFT_TIME, row).expect("known") < report.cell(REFERENCE_SHIFT_TIME, row).expect("known")));
}

/// A light flywheel for a 2.5-litre four weighs about 3.7 kg and is far lighter than standard.
#[test]
fn the_demos_sizes_make_a_light_wheel() {
    let report = evaluated(&demo());
    let mass = report.of(MASS_FROM_SECTIONS).expect("known").in_kilograms();
    between(mass, 3.2..=4.3);
    between(mass / report.of(REFERENCE_MASS).expect("known").in_kilograms(), 0.3..=0.6);
}

#[test]
fn three_ways_lead_to_the_wheel_and_the_one_chosen_counts() {
    let mut build = demo();
    for (method, output) in [(0.0, INERTIA_FROM_GYRATION), (1.0, INERTIA_FROM_SECTIONS), (2.0, INERTIA_FROM_SWING)] {
        set(&mut build, "flywheel.method", method);
        let report = evaluated(&build);
        assert_eq!(report.of(INERTIA), report.of(output));
        // The demo's wheel was made up once and told in three ways.
        agrees_within(report.of(INERTIA).expect("known").si(), 4.2 * 0.105 * 0.105, 0.01, "m·k² of the demo's wheel");
    }
}

/// Sizes, then the swing that a wheel of those sizes would make: the same inertia again.
#[test]
fn sizes_and_swing_are_two_routes_to_one_number() {
    let mut build = demo();
    let report = evaluated(&build);
    let (mass, inertia) = (report.of(MASS_FROM_SECTIONS).expect("known"), report.of(INERTIA_FROM_SECTIONS).expect("known"));
    let (radius, length) = (0.12, 1.5);
    let period = 2.0 * core::f64::consts::PI * (inertia.si() * length / (mass.si() * STANDARD_GRAVITY)).sqrt() / radius;
    set(&mut build, "flywheel.mass", mass.si());
    set(&mut build, "flywheel.swing-time", 30.0 * period);
    agrees_within(evaluated(&build).of(INERTIA_FROM_SWING).expect("known").si(), inertia.si(), 1e-12, "trifilar pendulum");
    // The pull of a scale that agrees, and of one that does not.
    set(&mut build, "flywheel.method", 1.0);
    assert_eq!(evaluated(&build).of(SCALES), Ok(Agreement::Agrees));
    set(&mut build, "flywheel.mass", 1.05 * mass.si());
    let report = evaluated(&build);
    assert_eq!(report.of(SCALES), Ok(Agreement::Differs));
    assert_eq!(report.verdict(&build, SCALES.id.into()), Verdict::Near);
}

#[test]
fn an_aluminium_wheel_keeps_its_steel_ring_gear() {
    let mut build = demo();
    set(&mut build, "flywheel.material", f64::from(Material::Aluminium as u8));
    let (steel, light) = (evaluated(&demo()), evaluated(&build));
    let mass = |report: &Report, ring: usize| report.cell(RING_MASS, ring).expect("known").in_kilograms();
    agrees_within(mass(&light, 2) / mass(&steel, 2), 2700.0 / 7850.0, 1e-12, "densities");
    agrees_within(mass(&light, 4), mass(&steel, 4), 1e-12, "the ring gear stays steel");
    // A certificate goes over the table.
    set(&mut build, "flywheel.density", 2810.0);
    agrees_within(mass(&evaluated(&build), 2) / mass(&steel, 2), 2810.0 / 7850.0, 1e-12, "densities");
}

#[test]
fn the_order_of_the_torque_curves_rows_does_not_matter() {
    let mut build = demo();
    let sorted = evaluated(&build);
    let mut rows: Vec<RowId> = build.rows(TORQUE_CURVE).to_vec();
    rows.reverse();
    rows.swap(1, 4);
    build.set_rows(TORQUE_CURVE, &rows).expect("the same rows");
    let mixed = evaluated(&build);
    for place in build.layout().places(Role::Output).filter(|place| place.id.calculator == INERTIA.id.calculator) {
        assert_eq!(sorted.value(place).map(f64::to_bits), mixed.value(place).map(f64::to_bits), "{}", build.layout().key(place));
    }
}

/// At the flywheel as it stands; indicated less friction, once; at the wheels by the driveline's loss, once.
#[test]
fn torque_counts_as_what_it_was_measured_as() {
    let mut build = demo();
    let time = |build: &Build| evaluated(build).of(REV_TIME).expect("known").in_seconds();
    let flywheel = time(&build);
    build.set(TORQUE_BASIS.id.into(), TorqueBasis::Wheels.to_cell()).expect("a choice");
    agrees_within(time(&build), flywheel * 0.90, 1e-12, "definition of efficiency");
    build.set(TORQUE_BASIS.id.into(), TorqueBasis::Indicated.to_cell()).expect("a choice");
    let indicated = time(&build);
    // The same as brake torque typed point by point: 0.97 + 0.15·n + 0.05·n² bar on 2.5 L (Heywood eq. 13.6, from memory).
    let mut typed = demo();
    let given = evaluated(&typed);
    for at in 0..8 {
        let speed = given.cell(CURVE_SPEED, at).expect("known");
        let thousands = speed.in_per_minute() / 1000.0;
        let friction = (0.97 + 0.15 * thousands + 0.05 * thousands * thousands) * 1e5 * 2.5e-3 / (4.0 * core::f64::consts::PI);
        let torque = given.cell(CURVE_TORQUE, at).expect("known").in_newton_metres() - friction;
        typed.set(row(CURVE_TORQUE.id, at as u16 + 1), torque).expect("in range");
    }
    agrees_within(indicated, time(&typed), 1e-12, "friction taken off once");
    assert!(indicated > 1.2 * flywheel);
}

/// Accessories weigh on the crank by ratio squared, and the lighter engine side spins their rotors up harder.
#[test]
fn the_front_drive_and_the_flywheel_feel_each_other() {
    let mut build = demo();
    let report = evaluated(&build);
    assert_eq!(report.of(ACCESSORIES), report.of(front_drive::REFLECTED_INERTIA));
    let gathers = report.of(car::PEAK_TORQUE).expect("known") / report.of(ENGINE_INERTIA).expect("known");
    assert_eq!(report.of(front_drive::CRANK_ACCELERATION), Ok(gathers));
    let rotor = report.of(front_drive::ALTERNATOR_ROTOR).expect("known");
    build.set(front_drive::ALTERNATOR_ROTOR.id.into(), rotor.si() + 0.001).expect("in range");
    let heavier = evaluated(&build);
    assert!(heavier.of(REV_TIME).expect("known") > report.of(REV_TIME).expect("known"));
    build.put_back(front_drive::ALTERNATOR_ROTOR.id.into());
    set(&mut build, "flywheel.mass", 9.0);
    let spin_up = |report: &Report| report.of(front_drive::SPIN_UP_TORQUE).expect("known");
    assert!(spin_up(&evaluated(&build)) < spin_up(&report));
}

#[test]
fn what_was_measured_goes_over_what_follows() {
    let mut build = demo();
    set(&mut build, "flywheel.reference-inertia", 0.12);
    assert_eq!(evaluated(&build).of(REFERENCE_INERTIA).expect("typed").si(), 0.12);
    // The shift follows the redline until it is typed.
    build.set(REDLINE.id.into(), per_minute(7200.0).si()).expect("in range");
    assert_eq!(evaluated(&build).of(SHIFT_SPEED), Ok(per_minute(7200.0)));
    set(&mut build, "flywheel.shift-speed", per_minute(5000.0).si());
    let asked = evaluated(&build).cell(SHIFT_TO, 0).expect("known").in_per_minute();
    agrees_within(asked, 5000.0 * 2.214 / 3.636, 1e-12, "ratio rule");
}

#[test]
fn the_same_idle_evenness_is_where_it_says() {
    let mut build = demo();
    let report = evaluated(&build);
    let (even, wanted) = (report.of(EVEN_IDLE).expect("known"), report.of(REFERENCE_UNEVENNESS).expect("known"));
    build.set(car::IDLE.id.into(), even.si()).expect("in range");
    agrees_within(evaluated(&build).of(UNEVENNESS).expect("known").si(), wanted.si(), 1e-12, "solved and put back");
    let engine =
        Four { gas: newton_metres(120.0), reciprocating: kilograms(0.55), crank_radius: millimetres(47.0), rod_ratio: ratio(0.31) };
    agrees(engine.energy_swing(per_minute(850.0)).in_joules(), report.of(IDLE_SWING).expect("known").in_joules(), 1e-9, "one function");
}

#[test]
fn what_cannot_be_says_why() {
    let reason = |key: &str, value: f64, output: Output<Time>| {
        let mut build = demo();
        set(&mut build, key, value);
        evaluated(&build).of(output).expect_err("cannot be")
    };
    let curve = Unknown::NoSolution("The torque curve does not reach over these speeds.");
    assert_eq!(reason("flywheel.rev-from", per_minute(900.0).si(), REV_TIME), curve);
    let range = Unknown::NoSolution("The upper speed must be above the lower one.");
    assert_eq!(reason("flywheel.rev-to", per_minute(1000.0).si(), REV_TIME), range);
    assert_eq!(reason("flywheel.rev-to", per_minute(1000.0).si(), DROP_TIME), range);
    let report = evaluated(&demo());
    assert_eq!(report.cell(SHIFT_TIME, 4), Err(Unknown::NoSolution("There is no higher gear.")));

    // The demo's limiter cuts in at 6800 min⁻¹ and overshoots by 300.
    let words = |why: Unknown| why.reason(evaluated(&demo()).layout());
    let limited = |key: &str, label: &str, output: Output<Time>| {
        let reason = words(reason(key, per_minute(7150.0).si(), output));
        assert!(reason.starts_with(&format!("“{label}” is above the highest engine speed")), "{reason}");
    };
    limited("flywheel.rev-to", "Free revs to", REV_TIME);
    limited("flywheel.rev-to", "Free revs to", REFERENCE_REV_TIME);
    limited("flywheel.rev-to", "Free revs to", DROP_TIME);
    limited("flywheel.launch-speed", "Launch at", DUMP_TIME);
    let first = |key: &str, speed: f64| {
        let mut build = demo();
        set(&mut build, key, per_minute(speed).si());
        evaluated(&build)
    };
    let fast = first("flywheel.gear-to", 7150.0);
    assert!(words(fast.cell(GEAR_TIME, 0).expect_err("limited")).starts_with("“In gear to” is above the highest engine speed"));
    assert!(fast.cell(GEAR_GAIN, 4).is_err());
    let fast = first("flywheel.shift-speed", 7150.0);
    assert!(words(fast.cell(SHIFT_TO, 0).expect_err("limited")).starts_with("“Shift at” is above the highest engine speed"));
    assert!(fast.cell(SHIFT_TIME, 0).is_err());
    let fast = first("flywheel.launch-speed", 7150.0);
    assert!(fast.of(LAUNCH_LEFT).is_err() && fast.of(SLIP_HEAT).is_err() && fast.of(TORQUE_AT_LAUNCH).is_err());
    // Past the redline it still gets there, as far as the curve goes.
    assert!(first("flywheel.rev-to", 7000.0).of(REV_TIME).is_ok());
    assert!(first("flywheel.gear-to", 7000.0).cell(GEAR_TIME, 0).is_ok());
    // A redline nobody gave holds nothing back.
    let mut open = demo();
    set(&mut open, "car.redline", per_minute(6000.0).si());
    assert!(evaluated(&open).of(REV_TIME).is_err(), "6500 is asked");
    open.forget(REDLINE.id.into());
    assert!(evaluated(&open).of(REV_TIME).is_ok());

    let mut build = demo();
    build.set(row(RING_FROM.id, 5), millimetres(-10.0).si()).expect("in range");
    build.set(row(RING_INNER.id, 5), millimetres(200.0).si()).expect("in range");
    let report = evaluated(&build);
    assert!(report.of(MASS_FROM_SECTIONS).is_ok(), "apart along the axis");
    assert_eq!(report.cell(RING_JOINED, 4), Ok(Touching::NotUsed), "the sizes are not asked");
    set(&mut build, "flywheel.method", 1.0);
    let report = evaluated(&build);
    // 10 mm wide from −10: 3 mm short of the friction face.
    assert_eq!(report.cell(RING_JOINED, 4), Ok(Touching::Apart));
    assert_eq!(report.verdict(&build, row(RING_JOINED.id, 5)), Verdict::Near);
    assert!((0..4).all(|row| report.cell(RING_JOINED, row) == Ok(Touching::Joined)));
    // Half a millimetre is what measuring leaves; a millimetre is a gap.
    for (from, joined) in [(-7.4, Touching::Joined), (-8.0, Touching::Apart)] {
        build.set(row(RING_FROM.id, 5), millimetres(from).si()).expect("in range");
        assert_eq!(evaluated(&build).cell(RING_JOINED, 4), Ok(joined), "from {from}");
    }
    // Two pairs that hang together each, and not with each other: the rings of the smaller part are named.
    let mut parted = demo();
    set(&mut parted, "flywheel.method", 1.0);
    parted.set(row(RING_INNER.id, 3), millimetres(154.0).si()).expect("in range");
    let report = evaluated(&parted);
    let apart: Vec<usize> = (0..5).filter(|&row| report.cell(RING_JOINED, row) == Ok(Touching::Apart)).collect();
    assert_eq!(apart, [0, 1], "hub and web");
    // In whatever order they are listed: the demo's one ring after the other goes to the end, and to the front.
    set(&mut build, "flywheel.method", 1.0);
    for at in 1..=5_u16 {
        let others = || (1..=5).filter(move |row| *row != at);
        for order in [others().chain([at]).collect::<Vec<_>>(), [at].into_iter().chain(others().rev()).collect()] {
            let mut listed = build.clone();
            listed.set_rows(RINGS, &order.iter().map(|&row| RowId(row)).collect::<Vec<_>>()).expect("the same rows");
            let report = evaluated(&listed);
            let apart = order.iter().enumerate().filter(|(place, _)| report.cell(RING_JOINED, *place) == Ok(Touching::Apart));
            assert_eq!(apart.map(|(_, &row)| row).collect::<Vec<_>>(), [5], "{order:?}");
        }
    }
    set(&mut build, "flywheel.method", 0.0);
    build.set(row(RING_FROM.id, 5), millimetres(0.0).si()).expect("in range");
    let twice = Unknown::NoSolution("Two rings lie over each other: their metal would count twice.");
    assert_eq!(evaluated(&build).of(MASS_FROM_SECTIONS), Err(twice));

    let mut build = demo();
    build.set_rows(HOLES, &[]).expect("none is allowed");
    let report = evaluated(&build);
    assert!(report.of(MASS_FROM_SECTIONS).is_ok());
    assert!(matches!(report.of(FACTOR), Err(Unknown::NoSolution(words)) if words.contains("type the circle")));
    set(&mut build, "flywheel.bolt-circle", millimetres(72.0).si());
    assert_eq!(evaluated(&build).of(FACTOR), evaluated(&demo()).of(FACTOR));
}

#[test]
fn a_cleared_car_keeps_the_usual_wheel_asks_for_its_material_and_nothing_falls_back() {
    let mut build = Build::cleared(ALL);
    let report = evaluated(&build);
    assert_eq!(report.of(INERTIA), evaluated(&demo()).of(INERTIA));
    build.forget(WEIGHED.id.into());
    assert_eq!(evaluated(&build).of(INERTIA), Err(Unknown::NotGiven(WEIGHED.id)));
    assert_eq!(report.of(REV_TIME).map_err(|_| ()), Err(()));
    assert_eq!(report.of(FACTOR).map_err(|_| ()), Err(()));
    assert_eq!(report.of(MATERIAL_DENSITY), Err(Unknown::NotGiven(MATERIAL.id)));
}

#[test]
fn a_brittle_wheel_cracks_where_a_tough_one_gives() {
    let outcome = |material: Material, factor: f64| {
        let mut build = demo();
        set(&mut build, "flywheel.material", f64::from(material as u8));
        set(&mut build, "flywheel.hole-factor", factor);
        let report = evaluated(&build);
        (report.of(OVERSPEED_OUTCOME).expect("known"), report.verdict(&build, OVERSPEED_OUTCOME.id.into()))
    };
    assert_eq!(outcome(Material::AlloySteel, 3.0), (Outcome::Holds, Verdict::Within));
    assert_eq!(outcome(Material::Steel, 3.0), (Outcome::Yields, Verdict::Near));
    assert_eq!(outcome(Material::GreyIron, 2.5), (Outcome::Cracks, Verdict::Beyond));
    // Nobody has said what it is made of: it cannot be within.
    let build = demo();
    let report = evaluated(&build);
    assert_eq!(report.verdict(&build, FACTOR.id.into()), Verdict::Near);
    assert!(report.standing(&build, FACTOR.id.into()).estimate);
}

/// Whatever its certificate says of yielding, it breaks at its tensile strength; grey cast iron knows no other.
#[test]
fn no_metal_is_stronger_than_what_breaks_it() {
    let factor = |material: Material, strength: f64, tensile: f64| {
        let mut build = demo();
        set(&mut build, "flywheel.material", f64::from(material as u8));
        set(&mut build, "flywheel.strength", megapascals(strength).si());
        set(&mut build, "flywheel.tensile-strength", megapascals(tensile).si());
        evaluated(&build).of(FACTOR).expect("known").si()
    };
    let sound = factor(Material::Steel, 300.0, 600.0);
    agrees_within(factor(Material::Steel, 600.0, 300.0), sound, 1e-12, "the lower of the two; practice A15");
    let iron = factor(Material::GreyIron, 200.0, 200.0);
    agrees_within(factor(Material::GreyIron, 200.0, 250.0), iron * 1.25, 1e-12, "tensile strength alone; practice A15");
}

/// All its mass at its rim gives the outside radius; a hole takes away no more than is there.
#[test]
fn no_wheel_holds_more_than_its_sizes_allow() {
    let why = |changes: &str, of: Output<Inertia>| evaluated(&read(changes).expect("opens").link.build).of(of);
    assert!(matches!(why("1.1/flywheel.radius-of-gyration=146/end", INERTIA), Err(Unknown::NoSolution(_))));
    assert!(why("1.1/flywheel.radius-of-gyration=144/end", INERTIA).is_ok());
    assert!(matches!(why("1.1/flywheel.method=swing/flywheel.swing-time=200/end", INERTIA), Err(Unknown::NoSolution(_))));
    // 42 mm of bore: all metal is at 21 mm or further out.
    assert!(matches!(why("1.1/flywheel.radius-of-gyration=20/end", INERTIA), Err(Unknown::NoSolution(_))));
    assert!(matches!(why("1.1/flywheel.method=swing/flywheel.swing-time=9/end", INERTIA), Err(Unknown::NoSolution(_))));
    // 72 mm less a hole's 31 is inside the bore, 280 and a hole's 11 past the 290 of the rim.
    for hole in ["2.circle=500", "3.depth=100", "1.diameter=31", "2.circle=280/flywheel.holes.2.diameter=11"] {
        let link = format!("1.1/flywheel.method=sections/flywheel.holes.{hole}/end");
        assert!(matches!(why(&link, INERTIA_FROM_SECTIONS), Err(Unknown::NoSolution(_))), "{hole}");
    }
}

/// Holes through a face of steel into aluminium behind it: 9 mm from the clutch's side are steel, what is deeper is not.
#[test]
fn holes_weigh_what_was_where_they_are() {
    let rings = "flywheel.material=aluminium/flywheel.rings.2.outer=236/flywheel.rings.2.from=0/flywheel.rings.2.width=3";
    let taken = |depth: f64| {
        let holes = format!("flywheel.holes.3.circle=190/flywheel.holes.3.depth={depth}");
        let link = format!("1.1/flywheel.method=sections/{rings}/flywheel.rings.3.material=steel/{holes}/end");
        evaluated(&read(&link).expect("opens").link.build).cell(HOLES_MASS, 2).expect("known").in_kilograms()
    };
    // 12 of 20 mm: N·π/4·d² by hand.
    let area = 12.0 * core::f64::consts::FRAC_PI_4 * 0.02 * 0.02;
    agrees_within(taken(5.0), area * 0.005 * 7850.0, 1e-12, "by hand");
    agrees_within(taken(11.0), area * (0.009 * 7850.0 + 0.002 * 2700.0), 1e-12, "by hand");
}

/// 5.4.3.2.1 in a link lists the same box from its top gear down.
#[test]
fn a_missed_shift_asks_not_how_the_gears_are_listed() {
    let speed = |link: &str| evaluated(&read(link).expect("opens").link.build).of(MISSED_SHIFT).expect("known");
    assert_eq!(speed("1.1/car.gears=5.4.3.2.1/end"), speed("1.1/end"));
}

/// Stress goes with the square of the speed, so a redline that is √2 higher halves the factor.
#[test]
fn the_factor_halves_when_the_redline_rises_by_a_root_of_two() {
    let mut build = demo();
    let before = evaluated(&build).of(FACTOR).expect("known");
    build.set(REDLINE.id.into(), per_minute(6800.0).si() * 2.0_f64.sqrt()).expect("in range");
    agrees_within(before / evaluated(&build).of(FACTOR).expect("known"), 2.0, 1e-12, "ρ·ω²");
}

/// An engine that idles above its highest speed has no times: that is no redline nobody gave, which holds nothing back.
#[test]
fn a_contradictory_highest_speed_has_no_times() {
    let of = |link: &str| evaluated(&read(link).expect("opens").link.build);
    let (upside, free) = (of("1.1/car.idle=2500/car.redline=1000/end"), of("1.1/car.redline=gone/end"));
    let unknown = |found: Result<f64, Unknown>| matches!(found, Err(Unknown::NoSolution(words)) if words.starts_with("The engine idles"));
    for output in [REV_TIME, REFERENCE_REV_TIME] {
        assert!(unknown(upside.of(output).map(Time::si)) && free.of(output).is_ok());
    }
    assert!(unknown(upside.cell(GEAR_TIME, 0).map(Time::si)) && free.cell(GEAR_TIME, 0).is_ok());
    assert!(unknown(upside.of(LAUNCH_LEFT).map(RotationalSpeed::si)) && free.of(LAUNCH_LEFT).is_ok());
}
