//! The bonnet line as a whole: from a build to its figures, sentence, drawing and charts.

use core::ops::ControlFlow;
use trialfit_core::build::Build;
use trialfit_core::calculators::bonnet_line::*;
use trialfit_core::quantity::*;
use trialfit_core::report::{Report, Unknown};
use trialfit_core::share::link;
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Column, Id, Output, OutputColumn, Place, Role, RowId, Verdict};
use trialfit_core::tolerance::Shape;
use trialfit_core::tools::Job;
use trialfit_core::tools::spread::{Outcome, Spread};
use trialfit_tests::{PLAN, agrees, agrees_within, evaluated};

const BY_HAND: &str = "by hand from the declared inputs";

fn with(changes: &[(Id, f64)]) -> (Build, Report) {
    let mut build = Build::default();
    for &(id, value) in changes {
        build.set(id.into(), value).expect("a value in range");
    }
    let report = evaluated(&build);
    (build, report)
}

fn mm(report: &Report, output: Output<Length>) -> f64 {
    report.of(output).expect("known").in_millimetres()
}

fn cell(report: &Report, output: OutputColumn<Length>, row: usize) -> f64 {
    report.cell(output, row).expect("known").in_millimetres()
}

fn spoken(build: &Build, report: &Report) -> (Verdict, String) {
    let sentence = (BONNET_LINE.sentence)(build, report);
    (sentence.verdict, show::sentence(&sentence, System::Metric).replace(['\u{a0}', '\u{202f}'], " "))
}

/// The filler cap, 60 in front, 40 to the right, 395 up; the bonnet's stations at −160 and 0 (481/436 and 492/449 mm).
#[test]
fn the_demo_cap_is_where_adding_up_by_hand_puts_it() {
    let (_, report) = with(&[]);
    let bonnet = |x: f64, y: f64| {
        let behind = (x + 160.0) / 160.0;
        let (middle, side) = (481.0 + 11.0 * behind, 436.0 + 13.0 * behind);
        middle + (side - middle) * y.abs() / 250.0
    };
    let pitched = |x: f64, z: f64| {
        let (sine, cosine) = libm::sincos(3.0_f64.to_radians());
        (x * cosine + z * sine, 60.0 + z * cosine - x * sine)
    };
    let (x, z) = pitched(-60.0, 395.0);
    agrees(cell(&report, CLEARANCE, 0), bonnet(x, 40.0) - z, 1e-9, BY_HAND);
    // μ·N·r/i over 2·k·a², both ways; 75 K of aluminium; two g more on mounts 1.3 times as stiff; 4 mm pressed.
    let grip = 1.0 * 0.58 * 730.0 * 9.806_65 * (0.97 * 0.576 / 2.0) / 3.9;
    let roll = grip / (2.0 * 150_000.0 * 0.22 * 0.22);
    agrees(report.of(ROLL).expect("known").si(), roll, 1e-12, BY_HAND);
    let grown = 1.0 + 23.1e-6 * 75.0;
    let (load, base) = (165.0 * 9.806_65 * 2.0 / 1.3, 700.0);
    let (front, behind) = (load * (480.0 / base) / 300.0, load * (220.0 / base) / 200.0);
    agrees(mm(&report, BOUNCE), front, 1e-9, BY_HAND);
    agrees(mm(&report, BOUNCE_GEARBOX), behind, 1e-9, BY_HAND);
    let rolled = |side: f64| {
        let (sine, cosine) = libm::sincos(side * roll);
        let (across, up) = (grown * (40.0 * cosine - 395.0 * sine), grown * (40.0 * sine + 395.0 * cosine));
        let (x, z) = pitched(-60.0 * grown, up);
        bonnet(x, across) - z - (front + (behind - front) * -60.0 * grown / base) - 4.0
    };
    agrees(cell(&report, WORKING, 0), rolled(1.0).min(rolled(-1.0)), 1e-9, BY_HAND);
    // All dimensions against it, to first order, ± 2 mm, 0.3° and 3 mm: within a few hundredths of the bound.
    let (slope_x, slope_y) = (11.4 / 160.0, 44.5 / 250.0);
    let tip = 0.3_f64.to_radians() * (x + slope_x * (z - 60.0)).abs();
    let (sine, cosine) = libm::sincos(3.0_f64.to_radians());
    let point = 2.0 * (slope_x * cosine + sine).abs() + 2.0 * slope_y + 2.0 * (slope_x * sine - cosine).abs();
    let places = 2.0 * slope_x + 2.0 * slope_y * 40.0 / 250.0;
    let all = point + 2.0 + 2.0 * slope_x + 2.0 * slope_y + tip + 3.0 + places;
    let taken = cell(&report, WORKING, 0) - cell(&report, WORST, 0);
    assert!(taken >= all - 0.05 && taken <= all + 0.5, "{taken} for {all}, {BY_HAND}");
    // The bellhousing under a tunnel roof at 250 mm.
    let (_, z) = pitched(300.0, 160.0);
    agrees(cell(&report, CLEARANCE, 7), 250.0 - z, 1e-9, BY_HAND);
}

/// Two parts one over the other, the upper known exactly, the lower 1 mm below it and ± 20: at worst it is the higher.
#[test]
fn below_the_part_that_may_be_highest_counts_at_worst() {
    let cell = |id, row| Place { id, row: Some(RowId(row)) };
    let worst = |upper_from: f64, upper_to: f64| {
        let mut build = Build::default();
        let top = build.own_value(cell(LOWER_TOP.id, 1)).expect("a height");
        for (place, value) in [
            (cell(LOWER_FROM.id, 1), upper_from),
            (cell(LOWER_TO.id, 1), upper_to),
            (cell(LOWER_FROM.id, 2), -1.0),
            (cell(LOWER_TO.id, 2), 1.0),
            (cell(LOWER_TOP.id, 2), top - 1e-3),
        ] {
            build.set(place, value).expect("in range");
        }
        build.set_half_width(cell(LOWER_TOP.id, 1), Some(0.0)).expect("in range");
        build.set_half_width(cell(LOWER_TOP.id, 2), Some(0.02)).expect("in range");
        mm(&evaluated(&build), LEAST_UNDER_WORST)
    };
    agrees(worst(-1.0, 1.0), worst(-2.5, -2.0), 1e-9, "the exact part at worst stands 19 mm under the other");
}

/// Stations at 1.85 and 0 mm, each ± 2 mm: had they changed places, the underside would run from other heights to others.
#[test]
fn stations_that_may_stand_in_another_order_leave_the_worst_unknown() {
    let station = Place { id: STATION.id, row: Some(RowId(2)) };
    let at = |along: f64, half_width: Option<f64>| {
        let mut build = Build::default();
        build.set(station, along).expect("in range");
        for row in [2, 3] {
            build.set_half_width(Place { row: Some(RowId(row)), ..station }, half_width).expect("in range");
        }
        let report = evaluated(&build);
        (build, report)
    };
    let (build, report) = at(1.85e-3, None);
    let why = "Two bonnet stations are closer together than they may be off: space them wider.";
    for id in [LEAST_WORST.id, LEAST_RSS.id, CHANCE_ANY.id, HIGHEST_ABOVE.id, FIRST.id] {
        assert_eq!(report.value(id.into()), Err(Unknown::NoSolution(why)));
    }
    assert!(report.of(LEAST).is_ok() && report.of(LEAST_WORKING).is_ok(), "as measured it is known");
    assert!(report.cell(WORST, 7).is_ok(), "the bellhousing is under something fixed");
    let (verdict, words) = spoken(&build, &report);
    assert!(verdict == Verdict::Unknown && words.starts_with("Unknown: room over the ") && words.ends_with(why), "{words}");
    // Far enough apart, or measured well enough, there is one order. Exactly at one place they are a step.
    for (along, half_width) in [(4.1e-3, None), (1.85e-3, Some(0.9e-3)), (0.0, Some(0.0))] {
        assert!(at(along, half_width).1.of(LEAST_WORST).is_ok(), "{along} {half_width:?}");
    }
    assert!(at(4.0e-3, None).1.of(LEAST_WORST).is_err(), "they may meet");
    assert!(at(0.0, Some(1e-6)).1.of(LEAST_WORST).is_err());
}

#[test]
fn outer_heights_that_may_be_in_the_middle_leave_the_worst_unknown() {
    let (mut build, _) = with(&[(OUT.id, 0.05)]);
    for place in build.layout().clone().places_of(POINT_ACROSS.id) {
        build.set(place, 0.0).expect("in range");
    }
    let mut worst = |half_width: f64| {
        build.set_half_width(OUT.id.into(), Some(half_width)).expect("in range");
        evaluated(&build).of(LEAST_WORST)
    };
    let why = "The bonnet's outer heights may be off by all they are from the middle.";
    assert_eq!(worst(0.05), Err(Unknown::NoSolution(why)));
    assert!(worst(0.049).expect("known") < worst(0.002).expect("known"));
}

/// Below: the rack's top at −165 covers the sump's front; the road is 280 below the pads.
#[test]
fn the_demo_sump_is_where_adding_up_by_hand_puts_it() {
    let (_, report) = with(&[]);
    let up = |x: f64, z: f64| 60.0 + z * libm::cos(3.0_f64.to_radians()) - x * libm::sin(3.0_f64.to_radians());
    agrees(cell(&report, UNDER_CLEARANCE, 0), up(-120.0, -185.0) + 165.0, 1e-9, BY_HAND);
    agrees(cell(&report, UNDER_CLEARANCE, 1), up(120.0, -200.0) + 280.0, 1e-9, BY_HAND);
    agrees(mm(&report, ROAD), up(120.0, -200.0) + 280.0, 1e-9, BY_HAND);
    let bounce = mm(&report, BOUNCE) + (mm(&report, BOUNCE_GEARBOX) - mm(&report, BOUNCE)) * 120.0 / 700.0;
    agrees(mm(&report, ROAD_BUMP), mm(&report, ROAD) - 60.0 - 10.0 - bounce, 0.01, BY_HAND);
    // Joints: the shaft from flange to pinion against both axes.
    let (sine, cosine) = libm::sincos(3.0_f64.to_radians());
    let (x, z) = (820.0 * cosine - 60.0 * sine, 60.0 - 60.0 * cosine - 820.0 * sine);
    let falls = libm::atan2(z + 58.0, 1520.0 - x).to_degrees();
    agrees(report.of(FRONT_JOINT).expect("known").in_degrees(), (falls - 3.0).abs(), 1e-9, BY_HAND);
    agrees(report.of(REAR_JOINT).expect("known").in_degrees(), (falls - 2.8).abs(), 1e-9, BY_HAND);
    agrees(mm(&report, SHAFT_LENGTH), libm::hypot(1520.0 - x, z + 58.0), 1e-9, BY_HAND);
}

/// X24 and practice: sag counts once, and not at all when the engine sat on its mounts while it was measured.
#[test]
fn sag_counts_once() {
    let (_, sat) = with(&[]);
    let (_, softer) = with(&[(MOUNT_STIFFNESS.id, 80e3)]);
    assert_eq!(cell(&sat, CLEARANCE, 0), cell(&softer, CLEARANCE, 0));
    let slung = [(MEASURED_ON.id, 1.0), (WEIGHT.id, 160.0), (MOUNT_STIFFNESS.id, 250e3), (GEARBOX_STIFFNESS.id, 500e3), (CENTRE.id, 0.35)];
    let (_, slung) = with(&slung);
    agrees(mm(&slung, SAG), 1.569_064, 5e-7, "160 kg on four of 250 N/mm, computed");
    agrees(mm(&slung, SAG_GEARBOX), 1.569_064, 5e-7, "160 kg on four of 250 N/mm, computed");
    agrees(cell(&slung, CLEARANCE, 0) - cell(&sat, CLEARANCE, 0), 1.569_064, 5e-7, "both ends alike");
    // Half as stiff behind: the tail sinks as far again, over 700 mm from mount to mount.
    let soft = [(MEASURED_ON.id, 1.0), (WEIGHT.id, 160.0), (MOUNT_STIFFNESS.id, 250e3), (GEARBOX_STIFFNESS.id, 250e3), (CENTRE.id, 0.35)];
    let (_, soft) = with(&soft);
    let tail_down = |report: &Report| report.of(REST_PITCH).expect("known").si();
    agrees(tail_down(&soft) - tail_down(&slung), libm::atan(1.569_064 / 700.0), 1e-9, "tail down by a right triangle");
}

/// Each remedy buys what doing it to the build buys.
#[test]
fn remedies_buy_what_doing_them_buys() {
    let (build, report) = with(&[]);
    let least = |build: &Build| mm(&evaluated(build), LEAST);
    let raised = |build: &mut Build, column: Column<Length>, row: u16, by: f64| {
        let place = Place { id: column.id, row: Some(RowId(row)) };
        let now = build.own_value(place).expect("given");
        build.set(place, now + by).expect("in range");
    };
    let changed = |change: &dyn Fn(&mut Build)| {
        let mut other = build.clone();
        change(&mut other);
        least(&other) - least(&build)
    };
    let move_by = |other: &mut Build, id: Id, by: f64| {
        let now = other.own_value(id.into()).expect("given");
        other.set(id.into(), now + by).expect("in range");
    };
    let cut = changed(&|other| raised(other, POINT_UP, 1, -0.010));
    let drop = changed(&|other| move_by(other, HEIGHT.id, -0.005));
    let tilt = changed(&|other| move_by(other, PITCH.id, 1.0_f64.to_radians()));
    let packer = changed(&|other| {
        move_by(other, HEIGHT.id, -0.005);
        move_by(other, PITCH.id, -libm::atan(5.0 / 700.0));
    });
    let raise = changed(&|other| {
        for row in 1..=5 {
            for column in [LEFT, MIDDLE, RIGHT] {
                raised(other, column, row, 0.010);
            }
        }
    });
    for (output, expected) in [(BUYS_CUT, cut), (BUYS_DROP, drop), (BUYS_TILT, tilt), (BUYS_PACKER, packer), (BUYS_RAISE, raise)] {
        agrees(mm(&report, output), expected, 1e-9, "the same done to the build");
    }
    // A cut of 30 mm leaves another point the tightest.
    let (_, deep) = with(&[(TRY_CUT.id, 0.030)]);
    assert!(mm(&deep, BUYS_CUT) < 20.0, "{}", mm(&deep, BUYS_CUT));
}

/// At each end of the band no limit of its kind is passed, and half a millimetre on one is.
#[test]
fn the_band_of_heights_ends_where_a_limit_does() {
    let at = |height: f64, changes: &[(Id, f64)]| {
        let mut changes = changes.to_vec();
        changes.push((HEIGHT.id, height));
        with(&changes)
    };
    let passed = |(build, report): &(Build, Report), ids: &[Id]| {
        let places = ids.iter().flat_map(|&id| build.layout().places_of(id));
        places.filter(|place| report.verdict(build, *place) == Verdict::Beyond).count()
    };
    let above = [CLEARANCE.id, WORST.id, CHANCE_ANY.id];
    let below = [UNDER_CLEARANCE.id, UNDER_WORST.id, UNDER_CHANCE.id, ROAD.id, ROAD_BUMP.id];
    let behind = [FRONT_JOINT.id, REAR_JOINT.id, SHAKE.id];
    const BUILDS: [&[(Id, f64)]; 3] =
        [&[], &[(PADS_UP.id, 0.262), (NOSE_UP.id, 0.02)], &[(PINION_ACROSS.id, 0.03), (SHAKE_MOST.id, 400.0)]];
    for changes in BUILDS {
        let (_, report) = with(changes);
        let half = 0.5e-3;
        for (output, ids, inward) in [
            (HIGHEST_ABOVE, above.as_slice(), -1e-9),
            (LOWEST_BELOW, below.as_slice(), 1e-9),
            (LOWEST_BEHIND, behind.as_slice(), 1e-6),
            (HIGHEST_BEHIND, behind.as_slice(), -1e-6),
        ] {
            let end = report.of(output).expect("known").si();
            assert_eq!(passed(&at(end + inward, changes), ids), 0, "{changes:?} at {end}");
            assert!(passed(&at(end - inward.signum() * half, changes), ids) > 0, "{changes:?} past {end}");
        }
    }
    // Both axes fall by some 3°: where the shaft does too, its joints stand too straight.
    const STRAIGHT: &[(Id, f64)] = &[(JOINT_STRAIGHT.id, 0.01)];
    const FLANGE_HIGHER: &[(Id, f64)] = &[(JOINT_STRAIGHT.id, 0.01), (FLANGE_UP.id, -0.01)];
    for (changes, low, high) in [(STRAIGHT, false, true), (FLANGE_HIGHER, true, false)] {
        let report = with(changes).1;
        let ends = [report.of(LOWEST_BEHIND).expect("known").si(), report.of(HIGHEST_BEHIND).expect("known").si()];
        for (end, inward, straight) in [(ends[0], 1e-6, low), (ends[1], -1e-6, high)] {
            assert_eq!(passed(&at(end + inward, changes), &behind), 0, "at {end}");
            let past = at(end - 500.0 * inward, changes);
            assert!(passed(&past, &behind) > 0, "past {end}");
            let least = past.1.of(FRONT_JOINT).expect("known").min(past.1.of(REAR_JOINT).expect("known"));
            assert_eq!(least.si() < 0.01, straight, "{least:?} past {end}");
        }
    }
    // Just above the middle of what is too straight, the way up is shorter; but above the bonnet is in the way.
    let report = at(0.088, STRAIGHT).1;
    assert!(report.of(HIGHEST_BEHIND).expect("known").si() < 0.088, "the stretch that suits above too");
    assert!(report.of(MOVE).expect("some height suits").si() < 0.0);
    let wide = with(&[(JOINT_STRAIGHT.id, 0.087)]).1.of(BAND);
    assert_eq!(wide, Err(Unknown::NoSolution("At every height a joint bends too much or stands too straight.")));
    // Too high by far: the move brings it just inside, as the sentence says.
    let (build, report) = at(0.080, &[]);
    let up = report.of(MOVE).expect("some height suits");
    agrees(up.in_millimetres(), (mm(&report, HIGHEST_ABOVE) - 80.0).min(0.0), 1e-9, "to the highest that suits");
    assert!(spoken(&build, &report).1.contains("Drop the engine 15 mm."), "{}", spoken(&build, &report).1);
    let suits = at(0.080 + up.si() - 1e-9, &[]);
    assert_ne!(suits.1.worst(&suits.0, BONNET_LINE.choice.calculator).expect("judged").0, Verdict::Beyond);
}

fn spread(build: &Build, output: Output<Length>, samples: u32) -> Outcome {
    let mut job = Spread::new(&PLAN, build, &[output.id.into()], samples, 5).expect("tolerances are known");
    match job.advance(&PLAN, u32::MAX) {
        ControlFlow::Break(mut found) => found.outcomes.remove(0),
        ControlFlow::Continue(_) => unreachable!("asked for all of it"),
    }
}

/// The chance in closed form against samples of the whole calculator, and what the tightest point hangs on.
#[test]
fn chance_and_shares_agree_with_samples() {
    let (build, report) = with(&[(HEIGHT.id, 0.0710)]);
    let samples = 20_000;
    let outcome = spread(&build, LEAST_WORKING, samples);
    let found = outcome.below_nought.expect("samples");
    let chance = report.of(CHANCE_ANY).expect("known").si();
    assert!(chance > 0.01 && chance < 0.2, "{chance}");
    // Four standard errors, and a tenth of it for what bends.
    assert!((found.share - chance).abs() < 4.0 * found.error + 0.1 * chance, "{} against {chance}", found.share);
    agrees_within(outcome.mean, report.of(LEAST_WORKING).expect("known").si(), 0.05, "two routes to one number");
    let first = outcome.first_order.expect("all known");
    agrees_within(outcome.deviation, first.deviation(), 0.03, "two routes to one number");
    agrees((mm(&report, LEAST_WORKING) - mm(&report, LEAST_RSS)) * 1e-3, first.root_sum_square(), 2e-5, "two routes to one number");
    // Engine height, the cap's height and the bonnet's heights lead; the bonnet's are four inputs.
    let of = |place: Place| outcome.shares.iter().find(|share| share.place == place).map_or(0.0, |share| share.of_variance);
    let height = of(HEIGHT.id.into());
    let bonnet: f64 = (1..=5).flat_map(|row| [LEFT, MIDDLE, RIGHT].map(|column| of(Place { id: column.id, row: Some(RowId(row)) }))).sum();
    agrees(height, report.of(FIRST_SHARE).expect("known").si(), 0.015, "two routes to one number");
    assert_eq!(report.of(FIRST), Ok(Contributor::EngineHeight));
    assert_eq!(report.of(THIRD), Ok(Contributor::BonnetHeights));
    agrees(bonnet, report.of(THIRD_SHARE).expect("known").si(), 0.015, "two routes to one number");
}

#[test]
fn a_tolerance_of_its_own_takes_the_place_of_the_usual_one() {
    let (mut build, before) = with(&[]);
    build.set_half_width(HEIGHT.id.into(), Some(5e-3)).expect("in range");
    build.set_shape(HEIGHT.id.into(), Some(Shape::Uniform)).expect("a shape");
    let mut report = before.clone();
    PLAN.evaluate_after(&build, &mut report, &[HEIGHT.id.into()]);
    agrees(mm(&before, LEAST_WORST) - mm(&report, LEAST_WORST), 3.0, 1e-9, "5 − 2 mm");
    assert_eq!(mm(&report, LEAST_WORST), mm(&evaluated(&build), LEAST_WORST));
    // It travels in a link, and comes back with the same figures.
    let text = link::plain(&build.clone().into());
    assert_eq!(text, "1.1/bonnet-line.height.pm=5/bonnet-line.height.dist=uniform/end");
    let opened = link::read(&text).expect("a link");
    assert!(opened.problems.is_empty() && opened.link.build == build);
}

/// Giving a dimension for itself what is usual for it changes nothing: what the declaration names is what is used.
#[test]
fn usual_tolerances_are_those_declared() {
    let (build, before) = with(&[]);
    let own = |place: &Place| place.id.calculator == BONNET_LINE.choice.calculator && build.layout().spec(place.id).tolerance.is_some();
    let toleranced: Vec<Place> = build.layout().places(Role::Input).filter(own).collect();
    assert!(toleranced.len() > 50, "{}", toleranced.len());
    for place in toleranced {
        let usual = before.tolerance(place).expect("known");
        let mut given = build.clone();
        given.set_half_width(place, Some(usual.half_width)).expect("in range");
        given.set_shape(place, Some(usual.shape)).expect("a shape");
        let mut after = before.clone();
        PLAN.evaluate_after(&given, &mut after, &[place]);
        for output in build.layout().places(Role::Output) {
            assert_eq!(after.value(output), before.value(output), "{} by {}", build.layout().key(output), build.layout().key(place));
        }
    }
}

/// Against turning the bonnet itself in small steps and looking how far each point is under it.
#[test]
fn the_opening_bonnet_clears_as_turning_it_shows() {
    const HINGES: [[f64; 3]; 4] = [[0.0, -0.65, 0.33], [0.0, -0.10, 0.30], [1.0, 0.32, 0.50], [1.0, 0.05, 0.42]];
    for [opens, along, up] in HINGES {
        let (_, report) = with(&[(OPENS.id, opens), (HINGE_ALONG.id, along), (HINGE_UP.id, up)]);
        let (sine, cosine) = libm::sincos(3.0_f64.to_radians());
        // The cam cover's rear, on the middle line.
        let (x, z) = (180.0 * cosine + 372.0 * sine - along * 1e3, 60.0 + 372.0 * cosine - 180.0 * sine - up * 1e3);
        const MIDDLES: [(f64, f64); 5] = [(-320.0, 468.0), (-160.0, 481.0), (0.0, 492.0), (160.0, 500.0), (320.0, 506.0)];
        let under = |x: f64| {
            let pair = MIDDLES.windows(2).find(|pair| (pair[0].0..=pair[1].0).contains(&x))?;
            Some(pair[0].1 + (pair[1].1 - pair[0].1) * (x - pair[0].0) / 160.0)
        };
        let side = if opens == 0.0 { 1.0 } else { -1.0 };
        let least = (0..=60_000).filter_map(|step| {
            let (sine, cosine) = libm::sincos((f64::from(step) * 1e-3).to_radians());
            let (across, above) = (x * cosine + side * z * sine, z * cosine - side * x * sine);
            Some(under(across + along * 1e3)? - above - up * 1e3)
        });
        let least = least.fold(f64::INFINITY, f64::min);
        assert!((cell(&report, SWINGING, 2) - least).abs() < 0.15, "{} and {least} at {opens} {along} {up}", cell(&report, SWINGING, 2));
    }
    let (_, lifted) = with(&[(OPENS.id, 2.0)]);
    assert_eq!(lifted.cell(SWINGING, 2), lifted.cell(CLEARANCE, 2));
}

#[test]
fn what_was_not_measured_is_unknown_with_its_reason() {
    let mut build = Build::default();
    let place = Place { id: POINT_ACROSS.id, row: Some(RowId(5)) };
    build.set(place, 0.300).expect("in range");
    let report = evaluated(&build);
    assert_eq!(report.cell(CLEARANCE, 4), Err(Unknown::NoSolution("Needs the bonnet's height further out.")));
    assert!(report.cell(CLEARANCE, 0).is_ok() && report.of(LEAST).is_err() && report.of(ROAD).is_ok());
    let (verdict, words) = spoken(&build, &report);
    assert_eq!((verdict, words.as_str()), (Verdict::Unknown, "Unknown: room over the air filter. Needs the bonnet's height further out."));
    build.put_back(place);
    build.forget(ROLL_ENGINE.id.into());
    let report = evaluated(&build);
    assert_eq!(report.of(ROLL), Err(Unknown::NotGiven(ROLL_ENGINE.id)));
    assert!(report.of(LEAST).is_ok() && report.of(LEAST_WORST).is_err());
}

#[test]
fn sentences_say_what_stops_the_car_first() {
    type Case = (&'static [(Id, f64)], Verdict, &'static str);
    const CASES: [Case; 15] = [
        (&[(HEIGHT.id, 0.055)], Verdict::Within, "Clears by 30 mm at the oil filler cap, 9.9 mm at worst."),
        (&[], Verdict::Near, "Only just: oil filler cap clears by 25 mm, 4.9 mm at worst. Check with clay."),
        (&[(HEIGHT.id, 0.075)], Verdict::Beyond, "Beyond: oil filler cap hits by 10 mm at worst. Drop the engine 10 mm."),
        (
            &[(HEIGHT.id, 0.075), (PADS_UP.id, 0.260)],
            Verdict::Beyond,
            "Beyond: oil filler cap hits by 10 mm at worst. Drop the engine 10 mm.",
        ),
        (
            &[(HEIGHT.id, 0.055), (PADS_UP.id, 0.250)],
            Verdict::Beyond,
            "Beyond: 24 mm over the road after a bump, 40 mm wanted. No engine height suits all.",
        ),
        (
            &[(HEIGHT.id, 0.055), (ROAD_LEAST.id, 0.130)],
            Verdict::Beyond,
            "Beyond: 129 mm over the road, 130 mm wanted. Raise the engine 1.0 mm.",
        ),
        (
            &[(HEIGHT.id, 0.055), (BUMP.id, 0.085)],
            Verdict::Beyond,
            "Beyond: 29 mm over the road after a bump, 40 mm wanted. No engine height suits all.",
        ),
        (&[(HEIGHT.id, 0.055), (NOSE_UP.id, -0.09)], Verdict::Beyond, "Beyond: rear joint bends 6"),
        (&[(HEIGHT.id, 0.055), (NOSE_UP.id, 0.07)], Verdict::Beyond, "Beyond: the driveline shakes with"),
        (
            &[(HEIGHT.id, 0.055), (PROP_SPEED.id, 1800.0), (SHAKE_MOST.id, 5000.0)],
            Verdict::Beyond,
            "Beyond: the propshaft runs at 81.8 % of its critical speed, 75.0 % at most.",
        ),
        (&[(HEIGHT.id, 0.055), (HINGE_ALONG.id, 0.10)], Verdict::Beyond, "Beyond: the opening bonnet hits the "),
        (
            &[(WORST_LEAST.id, 0.006)],
            Verdict::Beyond,
            "Beyond: oil filler cap clears by only 4.9 mm at worst, 6.0 mm wanted. Drop the engine 1.1 mm.",
        ),
        // Told apart by one digit more.
        (&[(HEIGHT.id, 0.055), (BUMP.id, 0.0738)], Verdict::Beyond, "Beyond: 39.8 mm over the road after a bump, 40.0 mm wanted. "),
        (
            &[(HEIGHT.id, 0.055), (YOKES.id, 1.0)],
            Verdict::Beyond,
            "Beyond: the driveline shakes with 2260 rad/s², at most 500 rad/s². Put the yokes of the shaft in line.",
        ),
        (
            &[(HEIGHT.id, 0.055), (JOINT_BENT.id, 0.05), (JOINT_STRAIGHT.id, 0.04), (SHAKE_MOST.id, 5000.0)],
            Verdict::Beyond,
            "Beyond: front joint bends 2.2°, at least 2.3°, or its needles wear.",
        ),
    ];
    for (changes, verdict, start) in CASES {
        let (build, report) = with(changes);
        let (found, words) = spoken(&build, &report);
        assert!(found == verdict && words.starts_with(start), "{found:?}: {words}");
    }
}

/// A point that touches is past a limit at its own figures by squares and by chance, not only at its worst.
#[test]
fn a_point_that_touches_is_beyond_in_its_own_row() {
    for (height, expected) in [(0.055, Verdict::Within), (0.130, Verdict::Beyond)] {
        let (build, report) = with(&[(HEIGHT.id, height)]);
        let row = Some(build.rows(POINTS)[2]);
        for id in [RSS.id, CHANCE.id] {
            assert_eq!(report.verdict(&build, Place { id, row }), expected, "{height} m, {}", report.layout().spec(id).label);
        }
    }
}

/// A part whose height alone is uncertain, by two deviations: its worst case is one figure of many, and the chance counts.
#[test]
fn what_may_touch_below_is_beyond() {
    let exact = "bonnet-line.measuring=0/bonnet-line.bonnet-varies=0/bonnet-line.pitch-reading=0";
    let link = format!("1.1/bonnet-line.height=55/{exact}/bonnet-line.lower.1.top.pm=30/end");
    let build = link::read(&link).expect("opens").link.build;
    let report = evaluated(&build);
    let (worst, chance) = (cell(&report, UNDER_WORST, 0), report.cell(UNDER_CHANCE, 0).expect("known").si());
    // ± 30 mm is two deviations of 15.
    let room = worst + 30.0;
    agrees_within(chance, trialfit_core::tolerance::normal_tail(room / 15.0), 1e-9, BY_HAND);
    assert!(worst > 0.0 && report.of(ROAD_BUMP).is_ok());
    let (verdict, words) = spoken(&build, &report);
    assert!(verdict == Verdict::Beyond && words.starts_with("Beyond: sump, front touches below with a chance of "), "{words}");
    let (mut raised, lowest) = (build.clone(), report.of(LOWEST_BELOW).expect("known").si());
    raised.set(HEIGHT.id.into(), lowest + 1e-9).expect("in range");
    let place = Place { id: UNDER_CHANCE.id, row: Some(build.rows(UNDER)[0]) };
    assert_eq!(evaluated(&raised).verdict(&raised, place), Verdict::Within, "raised to {lowest}");
}

/// What the steps say they touch is what they touch, and the working ends in the figure.
#[test]
fn steps_keep_their_word() {
    let build = Build::default();
    let report = evaluated(&build);
    let (_, traces) = PLAN.evaluate_traced(&build);
    for (step, trace) in traces.into_iter().filter(|(step, _)| step.writes[0].calculator == BONNET_LINE.choice.calculator) {
        for id in &trace.reads {
            assert!(step.reads.contains(id), "“{}” reads {} unsaid", step.name, build.layout().spec(*id).label);
        }
        for id in step.writes {
            let rows = build.layout().places_of(*id).count();
            assert_eq!(
                trace.writes.iter().filter(|written| *written == id).count(),
                rows,
                "“{}” and {}",
                step.name,
                build.layout().spec(*id).label
            );
            for place in build.layout().places_of(*id) {
                if let Some(last) = PLAN.working(&report, place).lines.iter().rfind(|said| said.of == Some(place)) {
                    assert_eq!(Ok(last.result), report.value(place), "working of {}", build.layout().key(place));
                }
            }
        }
    }
}

/// What the working of both joints together writes down comes to the figure, with the shaft straight or askew.
#[test]
fn the_joints_working_comes_to_its_figure() {
    for (across, crossed) in [(0.0, 0.0), (0.0, 1.0), (0.025, 0.0), (0.025, 1.0)] {
        let (_, report) = with(&[(PINION_ACROSS.id, across), (YOKES.id, crossed)]);
        let trace = PLAN.working(&report, RESIDUAL.id.into());
        let last = trace.lines.last().expect("worked");
        let &[one, other, aside] = &*last.numbers else { panic!("three angles") };
        let square = match last.line.equation {
            "β_e = √(|γ₁ − γ₂| · √((γ₁ + γ₂)² + 4 · β_h²))" => {
                (one - other).abs() * libm::hypot(one + other, 2.0 * aside)
            }
            "β_e = √(√((γ₁² + γ₂² − 2 · β_h²)² + 4 · β_h² · (γ₁ + γ₂)²))" => {
                libm::hypot(one * one + other * other - 2.0 * aside * aside, 2.0 * aside * (one + other))
            }
            other => panic!("no such line: {other}"),
        };
        agrees_within(report.of(RESIDUAL).expect("known").si(), square.sqrt(), 1e-12, "the equation shown, by hand");
    }
}

#[test]
fn charts_run_through_the_present() {
    let (build, report) = with(&[]);
    for (chart, outputs) in BONNET_LINE.charts.iter().zip([[LEAST.id, LEAST_WORST.id], [FRONT_JOINT.id, REAR_JOINT.id]]) {
        let chart = chart(&PLAN, &build, &report).expect("known");
        let present = chart.present.expect("the engine's height");
        for (curve, id) in chart.curves.iter().zip(outputs) {
            let there = curve.points.iter().find(|point| point.0 == present).expect("a point at the present");
            assert_eq!(there.1, report.value(id.into()).ok(), "{}", curve.label);
            assert_eq!(curve.points.len(), 41);
        }
        assert_eq!(chart.bands.len(), 1);
    }
}

/// An answer asks only for what it uses: room as measured for no give or take, roll for no gearbox mount.
#[test]
fn what_is_as_measured_asks_for_no_give_or_take() {
    let of = |gone: &str| {
        let at = format!("1.1/bonnet-line.{gone}=gone/end");
        let build = link::read(&at).expect("opens").link.build;
        let report = evaluated(&build);
        (build, report)
    };
    let whole = evaluated(&Build::default());
    let nominal = [WORKING.id, CLEARANCE.id, LEAST.id, LEAST_WORKING.id, ROAD.id, ROAD_BUMP.id];
    for (gone, known) in [("measuring", &nominal[..]), ("pitch-reading", &nominal), ("gearbox-stiffness", &[ROLL.id, ROLL_FULL.id])] {
        let (build, report) = of(gone);
        for place in known.iter().flat_map(|&id| build.layout().places_of(id)) {
            assert_eq!(report.value(place), whole.value(place), "{} without {gone}", build.layout().key(place));
        }
    }
    for (gone, id) in [("measuring", MEASURING.id), ("pitch-reading", PITCH_READING.id)] {
        assert_eq!(of(gone).1.of(LEAST_WORST), Err(Unknown::NotGiven(id)));
        assert_eq!(of(gone).1.of(LEAST_UNDER_WORST), Err(Unknown::NotGiven(id)));
    }
}

/// How far the engine may rise goes by the chance that is judged: that of contact anywhere, not an equal share for each point.
#[test]
fn the_chance_of_contact_is_shared_as_it_falls() {
    let link = "1.1/bonnet-line.worst-least=-5/bonnet-line.height=68.27/end";
    let mut build = link::read(link).expect("opens").link.build;
    let report = evaluated(&build);
    assert!(report.of(CHANCE_ANY).expect("known") <= report.of(CHANCE_MOST).expect("given"));
    let highest = report.of(HIGHEST_ABOVE).expect("known");
    assert!(highest.in_millimetres() >= 68.27, "{highest:?}");
    // There, the chance is the limit, and not beyond it.
    build.set(HEIGHT.id.into(), highest.si()).expect("in range");
    let report = evaluated(&build);
    let (chance, most) = (report.of(CHANCE_ANY).expect("known"), report.of(CHANCE_MOST).expect("given"));
    assert!(chance <= most && chance.si() > 0.9999 * most.si(), "{chance:?} {most:?}");
}
