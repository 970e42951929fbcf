//! Laws of the wiring over the whole range.

use proptest::prelude::*;
use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::wiring::choices::{
    Branch, Check, Guard, Kind, Letter, Pattern, Protection, Return, SensorEarth, SizeRange, Strap, Surroundings, Switching,
};
use trialfit_core::calculators::wiring::*;
use trialfit_core::data::conductors::{Conductor, INSULATIONS, SIZES};
use trialfit_core::data::fuses::{Fuse, RATINGS};
use trialfit_core::quantity::{Value, amperes, celsius, metres, square_millimetres};
use trialfit_core::spec::{Id, Place, Role, RowId, Verdict};
use trialfit_tests::laws;
use trialfit_tests::{PLAN, evaluated, heat_balance::Wire};

fn cell(id: Id, row: RowId) -> Place {
    Place { id, row: Some(row) }
}

fn set(build: &mut Build, place: impl Into<Place>, value: impl Value) {
    build.set(place.into(), value.to_cell()).expect("in range");
}

/// One circuit, anywhere a car may have it.
#[derive(Clone, Debug)]
struct Circuit {
    amperes: f64,
    metres: f64,
    kind: u8,
    pattern: u8,
    duty: f64,
    back: u8,
    branch: u8,
    letter: u8,
    protection: u8,
    relay: u8,
    size: Option<usize>,
    fuse: Option<usize>,
}

fn circuit() -> impl Strategy<Value = Circuit> {
    let what = (0.0..40.0, 0.05..12.0, 0..9_u8, 0..3_u8, 0.0..1.0);
    let way = (0..5_u8, 0..6_u8, 0..8_u8, prop_oneof![6 => Just(0_u8), 1 => Just(1), 1 => Just(2)], 0..2_u8);
    let parts = (prop::option::weighted(0.3, 0..SIZES.len()), prop::option::weighted(0.3, 0..RATINGS.len()));
    (what, way, parts).prop_map(|((amperes, metres, kind, pattern, duty), (back, branch, letter, protection, relay), (size, fuse))| {
        Circuit { amperes, metres, kind, pattern, duty, back, branch, letter, protection, relay, size, fuse }
    })
}

/// Fourteen rows of the demo and more, changed to these.
fn loom(circuits: &[Circuit], temperatures: [f64; 3], every: bool) -> Build {
    let mut build = Build::default();
    build.set_rows(CIRCUITS, &[]).expect("no rows");
    let airs = [CABIN_AIR, BAY_AIR, EXHAUST_AIR];
    for (input, at) in airs.into_iter().zip(temperatures) {
        set(&mut build, input.id, celsius(at));
    }
    set(&mut build, SIZE_RANGE.id, if every { SizeRange::Every } else { SizeRange::Stocked });
    for it in circuits {
        let row = build.add_row(CIRCUITS).expect("room");
        set(&mut build, cell(CURRENT.id, row), amperes(it.amperes));
        set(&mut build, cell(LENGTH.id, row), metres(it.metres));
        set(&mut build, cell(KIND.id, row), Kind::from_cell(f64::from(it.kind)));
        set(&mut build, cell(PATTERN.id, row), Pattern::from_cell(f64::from(it.pattern)));
        set(&mut build, cell(DUTY_AT_MOST.id, row), trialfit_core::quantity::ratio(it.duty));
        set(&mut build, cell(RETURN.id, row), Return::from_cell(f64::from(it.back)));
        // The sixth is a branch that is not in the list.
        set(&mut build, cell(BRANCH.id, row), Branch::from_cell(f64::from(it.branch)));
        set(&mut build, cell(INSULATION.id, row), Letter::from_cell(f64::from(it.letter)));
        set(&mut build, cell(PROTECTION.id, row), Protection::from_cell(f64::from(it.protection)));
        set(&mut build, cell(SWITCHING.id, row), Switching::from_cell(f64::from(it.relay)));
        if let Some(size) = it.size {
            set(&mut build, cell(SIZE.id, row), SIZES[size].area);
        }
        if let Some(fuse) = it.fuse {
            set(&mut build, cell(FUSE.id, row), amperes(RATINGS[fuse]));
        }
    }
    build
}

fn looms() -> impl Strategy<Value = Build> {
    let airs = (-30.0..60.0, 20.0..110.0, 60.0..160.0).prop_map(|(cabin, bay, exhaust)| [cabin, bay, exhaust]);
    (prop::collection::vec(circuit(), 1..30), airs, any::<bool>()).prop_map(|(circuits, airs, every)| loom(&circuits, airs, every))
}

proptest! {
    #![proptest_config(laws(256))]

    #[test]
    fn no_loom_panics_or_gives_what_is_no_number(build in looms()) {
        let report = evaluated(&build);
        for place in build.layout().places(Role::Output) {
            if let Ok(value) = report.value(place) {
                prop_assert!(value.is_finite(), "{}", build.layout().key(place));
            }
        }
        let _ = (WIRING.sentence)(&build, &report);
        let _ = loom::list(&build, &report);
        let _ = scene::full(&build, &report);
        for plot in WIRING.charts {
            let _ = plot(&PLAN, &build, &report);
        }
    }

    #[test]
    fn thicker_wire_never_loses_more(build in looms(), at in 0..30_usize) {
        let rows = build.rows(CIRCUITS).to_vec();
        let (at, mut build) = (at % rows.len(), build);
        let mut before = f64::INFINITY;
        for wire in &SIZES {
            set(&mut build, cell(SIZE.id, rows[at]), wire.area);
            let Ok(lost) = evaluated(&build).cell(DROP, at) else { continue };
            prop_assert!(lost.si() <= before, "{} V in {} mm²", lost.si(), wire.area.in_square_millimetres());
            before = lost.si();
        }
    }

    #[test]
    fn longer_wire_of_one_size_never_loses_less(build in looms(), at in 0..30_usize, size in 0..SIZES.len()) {
        let rows = build.rows(CIRCUITS).to_vec();
        let (at, mut build) = (at % rows.len(), build);
        set(&mut build, cell(SIZE.id, rows[at]), SIZES[size].area);
        let mut before = 0.0;
        for length in [0.0, 0.1, 0.5, 2.0, 10.0, 50.0] {
            set(&mut build, cell(LENGTH.id, rows[at]), metres(length));
            let Ok(lost) = evaluated(&build).cell(DROP, at) else { continue };
            prop_assert!(lost.si() >= before);
            before = lost.si();
        }
    }

    #[test]
    fn hotter_air_never_makes_a_wire_cooler_or_lose_less(build in looms()) {
        let report = evaluated(&build);
        let mut fixed = build.clone();
        for (at, row) in build.rows(CIRCUITS).to_vec().into_iter().enumerate() {
            if let Ok(size) = report.cell(SIZE, at) {
                set(&mut fixed, cell(SIZE.id, row), size);
            }
        }
        let before = evaluated(&fixed);
        for input in [CABIN_AIR, BAY_AIR, EXHAUST_AIR] {
            let hotter = before.of(input).expect("given").in_celsius() + 20.0;
            set(&mut fixed, input.id, celsius(hotter.min(150.0).max(hotter - 20.0)));
        }
        let after = evaluated(&fixed);
        for at in 0..build.rows(CIRCUITS).len() {
            if let (Ok(cool), Ok(hot)) = (before.cell(WIRE_TEMPERATURE, at), after.cell(WIRE_TEMPERATURE, at)) {
                prop_assert!(hot >= cool, "{} then {}", cool.in_celsius(), hot.in_celsius());
            }
            if let (Ok(cool), Ok(hot)) = (before.cell(DROP, at), after.cell(DROP, at)) {
                prop_assert!(hot.si() >= cool.si() * (1.0 - 1e-12));
            }
        }
    }

    /// The law of sizing: where all sizes are the smallest that pass, they do pass.
    #[test]
    fn sizes_that_follow_pass(build in looms()) {
        let mut build = build;
        for row in build.rows(CIRCUITS).to_vec() {
            build.put_back(cell(SIZE.id, row));
            build.put_back(cell(FUSE.id, row));
        }
        let report = evaluated(&build);
        for (at, row) in build.rows(CIRCUITS).to_vec().into_iter().enumerate() {
            let Ok(smallest) = report.cell(SMALLEST, at) else { continue };
            prop_assert_eq!(build.origin(cell(SIZE.id, row)), Origin::Usual);
            prop_assert!(report.cell(SMALLEST_ALONE, at).expect("known") <= smallest);
            let (lost, allowed) = (report.cell(DROP, at).expect("known"), report.cell(ALLOWED, at).expect("known"));
            prop_assert!(lost.si() <= allowed.si() * (1.0 + 1e-9), "row {} loses {} of {}", row.0, lost.si(), allowed.si());
            let (warm, lasting) = (report.cell(WIRE_TEMPERATURE, at).expect("known"), report.cell(LASTING, at).expect("known"));
            prop_assert!(warm.si() <= lasting.si() + 1e-3);
            let guard = report.cell(GUARD, at).expect("known");
            prop_assert!(!matches!(guard, Guard::TooLarge | Guard::LongOverload | Guard::TooSmall), "row {}: {:?}", row.0, guard);
        }
    }

    /// A fuse that guards its wire guards it when it is smaller, and a check that passes means no judged output is beyond.
    #[test]
    fn checks_and_verdicts_agree(build in looms()) {
        let report = evaluated(&build);
        for (at, &row) in build.rows(CIRCUITS).iter().enumerate() {
            let Ok(check) = report.cell(CHECK, at) else { continue };
            if check == Check::NoSize {
                prop_assert!(report.cell(SMALLEST, at).is_err() && report.cell(SIZE, at).is_err());
                continue;
            }
            let verdict = |id: Id| report.verdict(&build, cell(id, row));
            let worst = [DROP.id, WIRE_TEMPERATURE.id, GUARD.id].map(verdict).into_iter().max().expect("three");
            let passes = matches!(check, Check::Passes | Check::Close);
            prop_assert_eq!(passes, worst != Verdict::Beyond);
            prop_assert_eq!(check == Check::Passes, worst == Verdict::Within);
        }
    }

    #[test]
    fn a_missing_strap_never_helps(build in looms(), engine in any::<bool>()) {
        let mut build = build;
        set(&mut build, SENSOR_EARTH.id, if engine { SensorEarth::Engine } else { SensorEarth::ControlUnit });
        let with = evaluated(&build);
        set(&mut build, STRAP.id, Strap::Missing);
        let without = evaluated(&build);
        prop_assert!(without.of(STRAY_CURRENT).expect("known") >= with.of(STRAY_CURRENT).expect("known"));
        prop_assert!(without.of(STARTER_VOLTAGE).expect("known") <= with.of(STARTER_VOLTAGE).expect("known"));
        prop_assert!(without.of(SENSOR_ERROR).expect("known") >= with.of(SENSOR_ERROR).expect("known"));
    }
}

/// One free wire behind a fuse.
fn lone(area: usize, rating: f64, letter: u8, air: f64, load: f64) -> Build {
    let mut build = loom(
        &[Circuit {
            amperes: load,
            metres: 1.0,
            kind: 8,
            pattern: 0,
            duty: 1.0,
            back: 2,
            branch: 0,
            letter,
            protection: 0,
            relay: 0,
            size: Some(area),
            fuse: None,
        }],
        [air, air, air],
        true,
    );
    let row = build.rows(CIRCUITS)[0];
    set(&mut build, cell(FUSE.id, row), amperes(rating));
    let branch = build.rows(BRANCHES)[0];
    set(&mut build, cell(SURROUNDINGS.id, branch), Surroundings::Cabin);
    build
}

proptest! {
    #![proptest_config(laws(64))]

    /// A fuse said to guard opens before the wire's damage at every listed multiple of its rating, by a heat balance in
    /// small steps that shares nothing with the core's: within 5 s to the short's temperature, from there on to what the
    /// insulation stands for hours.
    #[test]
    fn a_guarding_fuse_opens_before_the_damage_at_every_listed_multiple(
        area in 3..18_usize,
        rating in 0..17_usize,
        letter in 0..8_u8,
        air in 20.0..110.0,
        load in 0.0..0.7,
    ) {
        let rating = RATINGS[rating];
        let build = lone(area, rating, letter, air, load * rating);
        let report = evaluated(&build);
        let Ok(Guard::Guards | Guard::SlowAtEnd) = report.cell(GUARD, 0) else { return Ok(()) };
        let insulation = &INSULATIONS[usize::from(letter)];
        let size = Conductor::of(SIZES[area].area).expect("a size of the table");
        let running = report.cell(WIRE_TEMPERATURE, 0).expect("known").in_celsius();
        let wire = oracle_of(&size, air);
        for opening in Fuse::new(amperes(rating)).openings() {
            let reached = wire.after(rating * opening.multiple, opening.latest.in_seconds(), running);
            let stands = if opening.latest.in_seconds() <= 5.0 { insulation.short } else { insulation.overload };
            prop_assert!(
                reached <= stands.in_celsius() + 0.02 * (stands.in_celsius() - air),
                "{} mm² behind {rating} A at {} times: {reached} °C", size.area.in_square_millimetres(), opening.multiple
            );
        }
    }
}

/// The wire as the second heat balance sees it: diameters and metal from the table, insulation and heats of copper and
/// plastic as handbooks have them.
fn oracle_of(size: &Conductor, air: f64) -> Wire {
    // Largest core diameters of thin-wall cable, mm, from memory, beside the outsides of the core's table.
    const CORES: [(f64, f64); 15] = [
        (0.5, 1.1),
        (0.75, 1.3),
        (1.0, 1.5),
        (1.25, 1.7),
        (1.5, 1.8),
        (2.0, 2.0),
        (2.5, 2.2),
        (3.0, 2.4),
        (4.0, 2.8),
        (5.0, 3.1),
        (6.0, 3.4),
        (8.0, 4.3),
        (10.0, 4.5),
        (12.0, 5.4),
        (16.0, 5.8),
    ];
    let area = size.area.in_square_millimetres();
    let core = CORES.iter().find(|(of, _)| (of - area).abs() < 1e-9).expect("a size of the list").1;
    let outside = size.outside.in_millimetres();
    let coat = std::f64::consts::FRAC_PI_4 * (outside * outside - core * core) * 1e-6;
    Wire {
        diameter: outside / 1000.0,
        insulation: libm::log(outside / core) / (2.0 * std::f64::consts::PI * 0.17),
        capacity: 3.45e6 * size.metal().si() + 2.1e6 * coat,
        resistance: size.resistance.si(),
        air,
    }
}

/// The size in force of a row that lacks nothing is never thinner than the thinnest one uses.
#[test]
fn the_thinnest_wire_is_kept() {
    let mut build = Build::default();
    set(&mut build, LEAST_SIZE.id, square_millimetres(1.0));
    let report = evaluated(&build);
    for at in 0..build.rows(CIRCUITS).len() {
        assert!(report.cell(SMALLEST, at).expect("known") >= square_millimetres(1.0));
    }
}

/// Two hundred rows, and not one more.
#[test]
fn two_hundred_rows_are_taken() {
    let mut build = Build::default();
    while build.add_row(CIRCUITS).is_some() {}
    assert_eq!(build.rows(CIRCUITS).len(), 200);
    for row in build.rows(CIRCUITS).to_vec() {
        set(&mut build, cell(CURRENT.id, row), amperes(1.0));
        set(&mut build, cell(LENGTH.id, row), metres(1.0));
    }
    let report = evaluated(&build);
    assert!((0..200).all(|at| report.cell(CHECK, at).is_ok()));
}
