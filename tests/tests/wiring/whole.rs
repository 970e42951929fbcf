//! From rows to verdicts, sentence, drawing, charts and loom list.

use trialfit_core::build::Build;
use trialfit_core::calculators::wiring::choices::{Check, Diode, EarthTo, Governs, Guard, LoadBy, Pattern, Protection, SensorEarth, Strap};
use trialfit_core::calculators::wiring::*;
use trialfit_core::plan::Plan;
use trialfit_core::quantity::{Area, Value, amperes, celsius, hours, metres, ohms, ratio, square_millimetres, volts, watts};
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Id, Place, RowId, Verdict};
use trialfit_tests::{agrees, agrees_within, evaluated};

fn cell(id: Id, row: u16) -> Place {
    Place { id, row: Some(RowId(row)) }
}

fn set(build: &mut Build, place: impl Into<Place>, value: impl Value) {
    build.set(place.into(), value.to_cell()).expect("in range");
}

fn said(build: &Build) -> String {
    let report = evaluated(build);
    show::sentence(&(WIRING.sentence)(build, &report), System::Metric).replace('\u{A0}', " ")
}

/// Keeps one row of the demo.
fn only(row: u16) -> Build {
    let mut build = Build::default();
    build.set_rows(CIRCUITS, &[RowId(row)]).expect("fewer rows");
    build
}

/// Pump of 8 A, 4 m out, 0.5 m back by the body, copper only, in 60 °C: about 0.80 V in 1 mm², 0.55 in 1.5, 0.33 in 2.5,
/// and a 15 A fuse (what a fitter expects: common practice, no source).
#[test]
fn the_pump_of_a_fitters_experience() {
    let mut build = only(1);
    set(&mut build, cell(CURRENT.id, 1), amperes(8.0));
    set(&mut build, cell(CONTACTS.id, 1), ratio(0.0));
    for (input, nothing) in [(FUSE_DROP.id, 0.0), (RELAY_DROP.id, 0.0), (BODY_RESISTANCE.id, 0.0)] {
        build.set(input.into(), nothing).expect("in range");
    }
    set(&mut build, CABIN_AIR.id, celsius(60.0));
    for (area, lost) in [(1.0, 0.80), (1.5, 0.55), (2.5, 0.33)] {
        set(&mut build, cell(SIZE.id, 1), square_millimetres(area));
        let report = evaluated(&build);
        agrees(report.cell(DROP, 0).expect("known").in_volts(), lost, 0.03 * lost, "common practice, no source");
        assert_eq!(report.cell(SUGGESTED_FUSE, 0), Ok(amperes(15.0)));
    }
}

/// What is typed over the smallest size is checked, with the reason; the smallest passes, and the next thinner does not.
#[test]
fn the_smallest_size_passes_and_the_next_thinner_fails_for_the_reason_given() {
    let build = Build::default();
    let report = evaluated(&build);
    for (at, row) in build.rows(CIRCUITS).to_vec().into_iter().enumerate() {
        let (smallest, governs) = (report.cell(SMALLEST, at).expect("known"), report.cell(GOVERNS, at).expect("known"));
        assert!(report.cell(SMALLEST_ALONE, at).expect("known") <= smallest);
        let verdict = report.verdict(&build, Place { id: CHECK.id, row: Some(row) });
        assert!(matches!(verdict, Verdict::Within | Verdict::Near), "row {} at its smallest size", row.0);
        if governs == Governs::Strength {
            assert_eq!(smallest, square_millimetres(0.5));
            continue;
        }
        let sizes = trialfit_core::data::conductors::STOCKED_AREAS;
        let thinner = sizes.iter().rev().map(|&area| square_millimetres(area)).find(|area| *area < smallest).expect("a thinner one");
        let mut tried = build.clone();
        set(&mut tried, cell(SIZE.id, row.0), thinner);
        let expected = match governs {
            Governs::Drop => Check::LosesTooMuch,
            Governs::Heat => Check::TooHot,
            _ => Check::FuseFails,
        };
        assert_eq!(evaluated(&tried).cell(CHECK, at), Ok(expected), "row {}", row.0);
    }
}

/// Each of the three governs somewhere.
#[test]
fn loss_heat_and_fuse_can_each_govern() {
    // Long and thin: loss.
    assert_eq!(evaluated(&only(1)).cell(GOVERNS, 0), Ok(Governs::Drop));
    // Short, strong, allowed to lose much, behind a fuse that just carries it: heat.
    let mut hot = only(2);
    set(&mut hot, cell(LENGTH.id, 2), metres(0.3));
    set(&mut hot, cell(RETURN_LENGTH.id, 2), metres(0.0));
    set(&mut hot, cell(ALLOWED.id, 2), volts(2.0));
    set(&mut hot, EARTH_CABLE.id, metres(0.4));
    set(&mut hot, cell(PROTECTION.id, 2), Protection::EarthSide);
    assert_eq!(evaluated(&hot).cell(GOVERNS, 0), Ok(Governs::Heat));
    // A little load behind a large fuse: the fuse.
    let mut fused = only(14);
    set(&mut fused, cell(FUSE.id, 14), amperes(30.0));
    let report = evaluated(&fused);
    assert_eq!(report.cell(GOVERNS, 0), Ok(Governs::Fuse));
    assert_eq!(report.cell(GUARD, 0), Ok(Guard::Guards));
    set(&mut fused, cell(SIZE.id, 14), square_millimetres(0.5));
    let report = evaluated(&fused);
    assert_eq!((report.cell(GUARD, 0), report.cell(CHECK, 0)), (Ok(Guard::TooLarge), Ok(Check::FuseFails)));
    assert!(said(&fused).starts_with("Beyond: 1 of 1. Instruments feed burns before its fuse opens; "), "{}", said(&fused));
}

/// Every way a fuse can fail its circuit is told.
#[test]
fn a_fuse_is_too_small_missing_or_too_far_away() {
    let mut build = only(1);
    set(&mut build, cell(FUSE.id, 1), amperes(7.5));
    assert_eq!(evaluated(&build).cell(GUARD, 0), Ok(Guard::TooSmall));
    set(&mut build, cell(PROTECTION.id, 1), Protection::Nothing);
    assert_eq!(evaluated(&build).cell(GUARD, 0), Ok(Guard::Unfused));
    set(&mut build, cell(PROTECTION.id, 1), Protection::EarthSide);
    assert_eq!(evaluated(&build).cell(GUARD, 0), Ok(Guard::NotNeeded));
    // A long thin wire: 12.6 V over 40 m of 0.5 mm² is less than 1.35 times 10 A.
    let mut far = only(14);
    set(&mut far, cell(LENGTH.id, 14), metres(40.0));
    set(&mut far, cell(SIZE.id, 14), square_millimetres(0.5));
    set(&mut far, cell(FUSE.id, 14), amperes(10.0));
    let report = evaluated(&far);
    assert!(report.cell(FAULT_CURRENT, 0).expect("known") < amperes(13.5));
    assert_eq!(report.cell(GUARD, 0), Ok(Guard::MayNeverOpen));
    assert!(report.cell(OPENS_WITHIN, 0).is_err());
}

/// 30 A for a twentieth of the time: 6.7 A rms would do with 10 A, at three times which a fuse may open within a pulse; one
/// of 30 A holds 1.1 times its rating for 100 h (ISO 8820-3, from memory).
#[test]
fn a_pulse_must_not_open_its_fuse() {
    let mut build = only(1);
    set(&mut build, cell(CURRENT.id, 1), amperes(30.0));
    set(&mut build, cell(PATTERN.id, 1), Pattern::Pulsed);
    set(&mut build, cell(DUTY_AT_MOST.id, 1), ratio(0.05));
    set(&mut build, cell(LENGTH.id, 1), metres(0.3));
    set(&mut build, cell(CONTACTS.id, 1), ratio(0.0));
    assert_eq!(evaluated(&build).cell(SUGGESTED_FUSE, 0), Ok(amperes(30.0)));
    set(&mut build, cell(FUSE.id, 1), amperes(10.0));
    assert_eq!(evaluated(&build).cell(GUARD, 0), Ok(Guard::TooSmall));
}

/// Where no size passes that is known, not unknown: forty contacts of 5 mΩ lose 3 V of 15 A (Ohm's law), air of 110 °C is
/// past the 85 °C of letter A (ISO 6722-1, from memory), corroded joints alone lose more than the charge cable may, and
/// no fuse listed carries 250 A for hours.
#[test]
fn no_size_that_passes_is_beyond() {
    let beyond = |place: Place, change: &dyn Fn(&mut Build)| {
        let mut build = only(1);
        change(&mut build);
        let report = evaluated(&build);
        assert_eq!(report.verdict(&build, place), Verdict::Beyond);
        said(&build)
    };
    let check = cell(CHECK.id, 1);
    let lost = beyond(check, &|build| {
        set(build, cell(CONTACTS.id, 1), ratio(40.0));
        set(build, cell(CURRENT.id, 1), amperes(15.0));
    });
    assert!(lost.starts_with("Beyond: 1 of 1. Fuel pump: contacts, fuse, relay and return alone lose"), "{lost}");
    let hot = beyond(check, &|build| {
        set(build, cell(BRANCH.id, 1), choices::Branch::C);
        set(build, cell(INSULATION.id, 1), choices::Letter::A);
    });
    assert!(hot.starts_with("Beyond: 1 of 1. Fuel pump: the air around it is hotter"), "{hot}");
    beyond(CHARGE_DROP.id.into(), &|build| set(build, JOINTS.id, choices::Joints::Corroded));
    let unfused = beyond(check, &|build| {
        set(build, cell(CURRENT.id, 1), amperes(250.0));
        set(build, cell(LENGTH.id, 1), metres(1.0));
        set(build, cell(CONTACTS.id, 1), ratio(0.0));
        set(build, cell(SIZE.id, 1), square_millimetres(95.0));
        assert!(evaluated(build).cell(DROP, 0).is_ok());
    });
    assert!(unfused.starts_with("Beyond: 1 of 1. Fuel pump has no fuse"), "{unfused}");
}

/// Nothing but coils that charge together is on for more than all the time: a pump that is has no average and no heat.
#[test]
fn no_load_is_on_more_than_all_the_time() {
    let mut build = only(1);
    for duty in [DUTY_AT_IDLE, DUTY_AT_MOST] {
        set(&mut build, cell(duty.id, 1), ratio(1.5));
    }
    let report = evaluated(&build);
    let why = report.cell(RMS, 0).expect_err("cannot be");
    assert_eq!(why.reason(report.layout()), "It cannot be on for more than all the time.");
    assert!(report.of(LOAD_AT_IDLE).is_err() && report.of(LOAD_AT_CRUISE).is_ok());
    set(&mut build, cell(PATTERN.id, 1), Pattern::Ramp);
    let report = evaluated(&build);
    assert!(report.cell(RMS, 0).is_ok() && report.of(LOAD_AT_IDLE).is_ok());
}

/// Without current nothing is lost, in a relay's contact neither (Ohm's law).
#[test]
fn nothing_flows_nothing_is_lost() {
    let mut build = only(1);
    set(&mut build, cell(CURRENT.id, 1), amperes(0.0));
    assert_eq!(evaluated(&build).cell(DROP, 0), Ok(volts(0.0)));
}

/// 55 W at 13.8 V is 3.986 A (Ohm's law), and is used only when the load is given so.
#[test]
fn a_load_in_watts_is_a_current() {
    let mut build = only(14);
    set(&mut build, cell(LOAD_BY.id, 14), LoadBy::Power);
    assert!(evaluated(&build).cell(CURRENT, 0).is_err(), "watts not given yet");
    set(&mut build, cell(POWER.id, 14), watts(55.0));
    agrees_within(evaluated(&build).cell(CURRENT, 0).expect("known").in_amperes(), 55.0 / 13.8, 1e-12, "P/U");
    // A current typed before is not what it draws.
    set(&mut build, cell(CURRENT.id, 14), amperes(1.0));
    agrees_within(evaluated(&build).cell(PEAK, 0).expect("known").in_amperes(), 55.0 / 13.8, 1e-12, "P/U");
}

/// Averages of the rows and all else, by hand for the demo (currents: common practice).
#[test]
fn the_demo_loads_the_alternator_as_added_up_by_hand() {
    let build = Build::default();
    let report = evaluated(&build);
    let coils = |rpm: f64| 0.5 * 8.0 * 0.003 * rpm / 60.0 * 2.0;
    let idle = 7.0 + 18.0 * 0.25 + 0.7 + 2.0 * 0.15 + 0.15 * 0.25 + 4.0 * 0.1 + coils(850.0) + 3.0 * 0.33 + 0.1 + 0.5 + 11.7;
    let cruise = 7.0 + 18.0 * 0.1 + 0.7 + 2.0 * 0.15 + 0.15 * 0.1 + 4.0 * 0.3 + coils(3300.0) + 3.0 * 0.33 + 0.1 + 0.5 + 15.7;
    agrees_within(report.of(LOAD_AT_IDLE).expect("known").in_amperes(), idle, 1e-12, "sum");
    agrees_within(report.of(LOAD_AT_CRUISE).expect("known").in_amperes(), cruise, 1e-12, "sum");
    assert!(report.of(DRAIN_AT_IDLE).is_err(), "it charges");
    let mut flat = build;
    set(&mut flat, MADE_AT_IDLE.id, amperes(idle - 5.5));
    agrees_within(evaluated(&flat).of(DRAIN_AT_IDLE).expect("known").si(), hours(4.0).si(), 1e-9, "half of 44 A·h at 5.5 A");
}

/// A battery that pays for the load runs down: beyond, as the front drive judges its own balance, with how long it lasts.
#[test]
fn a_battery_that_runs_down_is_beyond() {
    let mut build = Build::default();
    assert!(evaluated(&build).standing(&build, BALANCE_AT_CRUISE.id.into()).estimate, "by a plate nobody read");
    set(&mut build, MADE_AT_CRUISE.id, amperes(40.0));
    assert_eq!(evaluated(&build).verdict(&build, BALANCE_AT_CRUISE.id.into()), Verdict::Within, "measured");
    set(&mut build, MADE_AT_IDLE.id, amperes(10.0));
    let report = evaluated(&build);
    assert_eq!(report.verdict(&build, BALANCE_AT_IDLE.id.into()), Verdict::Beyond);
    let hours = 22.0 / (report.of(LOAD_AT_IDLE).expect("known").in_amperes() - 10.0);
    let said = said(&build);
    assert!(said.starts_with("Beyond: over at idle −16.6 A, wanted 0 A."), "{said}");
    assert!(said.contains(&format!("The battery lasts {hours:.2} h.")), "{said}");
}

/// Ohm's law on the demo's cables: 35 mm² of 0.527 mΩ/m at 80 °C, joints of 0.2 mΩ, 180 A.
#[test]
fn heavy_cables_lose_what_ohms_law_says() {
    let report = evaluated(&Build::default());
    let hot = 0.527 * (1.0 + 0.003_93 * 60.0);
    const SOURCE: &str = "Ohm's law on ISO 6722-1, from memory";
    agrees_within(report.of(POSITIVE_DROP).expect("known").in_volts(), 0.18 * (1.5 * hot + 0.4), 1e-9, SOURCE);
    let (strap, earth) = (0.25 * hot + 0.4, 0.4 * hot + 0.4);
    let link = strap * 30.0 / (strap + 30.0);
    agrees_within(report.of(RETURN_DROP).expect("known").in_volts(), 0.18 * (link + 0.05 + earth), 1e-9, SOURCE);
    let battery = 7.0 * (1.0 + 0.8 * 5.0 / 35.0);
    let left = 12.6 - 0.18 * (battery + 1.5 * hot + 0.4 + link + 0.05 + earth);
    agrees_within(report.of(STARTER_VOLTAGE).expect("known").in_volts(), left, 1e-9, SOURCE);
    agrees_within(report.of(DIP_VOLTAGE).expect("known").in_volts(), 12.6 - 0.5 * battery, 1e-9, SOURCE);
    agrees_within(report.of(STRAY_CURRENT).expect("known").in_amperes(), 180.0 * strap / (strap + 30.0), 1e-9, SOURCE);
    agrees_within(report.of(STRAP_DROP).expect("known").in_volts(), 0.05 * link, 1e-9, SOURCE);
}

/// A cold start is judged with cold cables, a hot restart with hot ones at what the starter draws at 20 °C; the worse counts.
#[test]
fn a_cold_start_has_cold_cables() {
    let mut build = Build::default();
    set(&mut build, START_TEMPERATURE.id, celsius(-10.0));
    let report = evaluated(&build);
    const SOURCE: &str = "Ohm's law on ISO 6722-1, from memory";
    let lost = |at: f64, current: f64| {
        let copper = 0.527 * (1.0 + 0.003_93 * (at - 20.0));
        let (strap, earth) = (0.25 * copper + 0.4, 0.4 * copper + 0.4);
        let back = strap * 30.0 / (strap + 30.0) + 0.05 + earth;
        [current * (1.5 * copper + 0.4), current * back, 1000.0 * current * strap / (strap + 30.0)]
    };
    let (cold, hot) = (lost(-10.0, 0.26), lost(80.0, 0.18));
    let worse = |at: usize| cold[at].max(hot[at]);
    agrees_within(report.of(POSITIVE_DROP).expect("known").in_volts(), worse(0), 1e-9, SOURCE);
    agrees_within(report.of(RETURN_DROP).expect("known").in_volts(), worse(1), 1e-9, SOURCE);
    agrees(report.of(RETURN_DROP).expect("known").in_volts(), 0.297, 5e-4, SOURCE);
    agrees_within(report.of(STRAY_CURRENT).expect("known").in_amperes(), worse(2), 1e-9, SOURCE);
    // The battery has 1.8 times its resistance then, and 7 mΩ · (1 + 0.8 · 5/35) at 20 °C.
    let left = |battery: f64, current: f64, lost: [f64; 3]| 12.6 - current * battery - lost[0] - lost[1];
    let worse = left(7.0 * 1.8, 0.26, cold).min(left(7.0 * (1.0 + 0.8 * 5.0 / 35.0), 0.18, hot));
    agrees_within(report.of(STARTER_VOLTAGE).expect("known").in_volts(), worse, 1e-9, SOURCE);
}

/// An engine strap is always needed (common practice): without it the starter's current goes through cables and pipes,
/// whichever end the battery's cable is bolted to; and a thin one shows.
#[test]
fn a_missing_or_thin_strap_shows_its_consequence() {
    let mut build = Build::default();
    set(&mut build, STRAP.id, Strap::Missing);
    let report = evaluated(&build);
    assert_eq!(report.of(STRAY_CURRENT), Ok(amperes(180.0)));
    assert_eq!(report.verdict(&build, STRAY_CURRENT.id.into()), Verdict::Beyond);
    assert_eq!(report.verdict(&build, RETURN_DROP.id.into()), Verdict::Beyond);
    assert!(said(&build).starts_with("Beyond: "), "{}", said(&build));
    set(&mut build, EARTH_TO.id, EarthTo::Engine);
    let report = evaluated(&build);
    assert_eq!(report.of(STRAY_CURRENT), Ok(amperes(50.0)), "everything on the body comes back this way");
    assert_eq!(report.verdict(&build, STRAY_CURRENT.id.into()), Verdict::Beyond);
    let mut thin = Build::default();
    set(&mut thin, STRAP_SIZE.id, square_millimetres(2.5));
    assert_eq!(evaluated(&thin).verdict(&thin, STRAY_CURRENT.id.into()), Verdict::Beyond);
}

/// Sensors earthed on the engine are off by the strap's loss while cranking: I·R of a strap of 0.25 m.
#[test]
fn sensors_are_off_by_what_the_strap_loses() {
    let mut build = Build::default();
    assert_eq!(evaluated(&build).of(SENSOR_ERROR), Ok(volts(0.0)));
    set(&mut build, SENSOR_EARTH.id, SensorEarth::Engine);
    let report = evaluated(&build);
    let strap = 0.25 * 0.527 * (1.0 + 0.003_93 * 60.0) + 0.4;
    let link = strap * 30.0 / (strap + 30.0);
    agrees_within(report.of(SENSOR_ERROR).expect("known").in_volts(), 0.18 * link, 1e-9, "I·R");
    assert_eq!(report.verdict(&build, SENSOR_ERROR.id.into()), Verdict::Beyond);
    // The starter's current stays on the engine with the battery bolted to it, and the alternator makes nothing yet.
    set(&mut build, EARTH_TO.id, EarthTo::Engine);
    let report = evaluated(&build);
    let load = report.of(LOAD_AT_IDLE).expect("known").in_amperes();
    agrees_within(report.of(SENSOR_ERROR).expect("known").in_volts(), load * link * 1e-3, 1e-9, "I·R");
}

/// A 2.2 W bulb excites (12.6 V over 65 Ω is 0.194 A, 0.15 wanted: common practice), a diode alone of 1000 Ω does not; and
/// without a diode in its feed the alternator keeps a relay closed.
#[test]
fn the_charge_lamp_excites_and_does_not_keep_the_engine_running() {
    let mut build = Build::default();
    agrees_within(evaluated(&build).of(EXCITATION).expect("known").in_amperes(), 12.6 / 65.0, 1e-12, "Ohm's law");
    assert_eq!(evaluated(&build).verdict(&build, BACK_FEED.id.into()), Verdict::Within);
    set(&mut build, DIODE.id, Diode::None);
    assert_eq!(evaluated(&build).verdict(&build, BACK_FEED.id.into()), Verdict::Beyond);
    set(&mut build, LAMP_RESISTANCE.id, ohms(1000.0));
    let report = evaluated(&build);
    assert_eq!(report.verdict(&build, EXCITATION.id.into()), Verdict::Beyond);
    assert_eq!(report.verdict(&build, BACK_FEED.id.into()), Verdict::Within, "but so little does not hold a relay");
}

/// Charge fuse a quarter over 50 A: 62.5, so 70 A; the cable it asks for passes, and a thinner one is too hot or unguarded.
#[test]
fn the_charge_cable_follows_the_alternator() {
    let mut build = Build::default();
    let report = evaluated(&build);
    assert_eq!(report.of(SUGGESTED_CHARGE_FUSE), Ok(amperes(70.0)));
    let smallest: Area = report.of(CHARGE_SMALLEST).expect("known");
    assert_eq!(report.of(CHARGE_SIZE), Ok(smallest));
    assert_eq!(report.of(CHARGE_GUARD), Ok(Guard::Guards));
    set(&mut build, ALTERNATOR_CURRENT.id, amperes(90.0));
    assert!(evaluated(&build).of(CHARGE_SMALLEST).expect("known") > smallest);
    set(&mut build, CHARGE_SIZE.id, square_millimetres(4.0));
    let report = evaluated(&build);
    assert_eq!(report.verdict(&build, CHARGE_TEMPERATURE.id.into()), Verdict::Beyond);
    assert_eq!(report.of(CHARGE_GUARD), Ok(Guard::TooLarge));
}

/// Branches: what is not in the list, stands twice or runs in a ring is said.
#[test]
fn the_looms_branches_are_told_apart() {
    let reason = |build: &Build, row: usize| {
        let report = evaluated(build);
        report.cell(WIRE_TEMPERATURE, row).map_err(|why| why.reason(report.layout())).expect_err("not known")
    };
    let mut build = Build::default();
    set(&mut build, cell(BRANCH.id, 1), choices::Branch::K);
    assert_eq!(reason(&build, 0), "Its branch is not in the list of branches.");
    let mut ring = Build::default();
    set(&mut ring, cell(PARENT.id, 1), choices::Parent::B);
    assert_eq!(reason(&ring, 0), "These branches leave from one another in a ring.");
    let mut twice = Build::default();
    set(&mut twice, cell(BRANCH_LETTER.id, 5), choices::Branch::D);
    assert_eq!(reason(&twice, 0), "Two branches have this letter.");
}

/// Where a wire runs of which nobody knows how thick it is or how warm it gets, nobody knows how thick and how warm the loom
/// is, nor what that leaves to its neighbours; the wires are counted all the same.
#[test]
fn a_circuit_without_a_size_leaves_its_way_unknown() {
    let wires = evaluated(&Build::default()).cell(WIRES, 0);
    type Case<'a> = (&'a dyn Fn(&mut Build), &'a str);
    let unknown: [Case<'_>; 3] = [
        (&|build| build.forget(cell(CURRENT.id, 2)), "Unknown: 14 of 14. Radiator fan needs “Current while on”."),
        (&|build| build.forget(cell(LENGTH.id, 2)), "Unknown: 14 of 14. Radiator fan needs “Wire out”."),
        (
            &|build| set(build, cell(CURRENT.id, 2), amperes(100.0)),
            "Beyond: 1 of 14. Radiator fan: contacts, fuse, relay and return alone lose",
        ),
    ];
    for (change, sentence) in unknown {
        let mut build = Build::default();
        change(&mut build);
        let report = evaluated(&build);
        let reason = |why: trialfit_core::report::Unknown| why.reason(report.layout());
        assert_eq!(report.cell(WIRES, 0), wires);
        for why in [report.cell(BUNDLE_DIAMETER, 0).err(), report.cell(GROMMET, 0).err(), report.cell(BRANCH_SURFACE, 0).err()] {
            assert_eq!(why.map(reason).as_deref(), Some("A circuit that runs through it has no size yet."));
        }
        for why in [report.cell(SMALLEST, 0).err(), report.cell(WIRE_TEMPERATURE, 0).err(), report.cell(CHECK, 0).err()] {
            assert_eq!(why.map(reason).as_deref(), Some("A circuit that shares its way has no size yet."));
        }
        assert!(report.cell(SMALLEST_ALONE, 0).is_ok(), "alone it has no neighbours");
        assert!(said(&build).starts_with(sentence), "{}", said(&build));
    }
    // Sizes given are sizes.
    let mut given = Build::default();
    (1..=14).for_each(|row| set(&mut given, cell(SIZE.id, row), square_millimetres(6.0)));
    given.forget(cell(LENGTH.id, 2));
    assert!(evaluated(&given).cell(BUNDLE_DIAMETER, 0).is_ok());
    // Nobody knows where it runs.
    let mut nowhere = Build::default();
    nowhere.forget(cell(BRANCH.id, 2));
    assert!((0..5).all(|branch| evaluated(&nowhere).cell(BUNDLE_DIAMETER, branch).is_err()));
}

/// How warm the charge cable gets and what it loses does not hang on its fuse (Joule, Ohm).
#[test]
fn without_a_fuse_the_charge_cable_loses_as_much() {
    let mut build = Build::default();
    set(&mut build, CHARGE_SIZE.id, square_millimetres(16.0));
    let [drop, temperature] =
        [evaluated(&build).of(CHARGE_DROP).map(Value::to_cell), evaluated(&build).of(CHARGE_TEMPERATURE).map(Value::to_cell)];
    build.forget(CHARGE_FUSE.id.into());
    let report = evaluated(&build);
    assert_eq!([report.of(CHARGE_DROP).map(Value::to_cell), report.of(CHARGE_TEMPERATURE).map(Value::to_cell)], [drop, temperature]);
    assert!(report.of(CHARGE_GUARD).is_err());
}

/// Wires of the trunk: every circuit, and the returns of those that have one of their own.
#[test]
fn the_trunk_carries_every_circuit() {
    let report = evaluated(&Build::default());
    let wires = report.cell(WIRES, 0).expect("known").in_ratio();
    agrees_within(wires, 14.0 + 5.0, 1e-12, "fourteen rows, five of them with a wire back");
    let (bundle, grommet) = (report.cell(BUNDLE_DIAMETER, 0).expect("known"), report.cell(GROMMET, 0).expect("known"));
    agrees_within(grommet.in_millimetres(), bundle.in_millimetres() + 1.6, 1e-12, "0.8 mm of tape on both sides");
}

/// The answer in words, with the demo and with the longest names: three lines of a phone, about 123 letters.
#[test]
fn the_sentence_fits_a_phone() {
    let demo = Build::default();
    assert!(said(&demo).starts_with("All 14 pass, Radiator fan only just: 0.786 V lost, 0.800 V allowed."), "{}", said(&demo));
    let mut relaxed = Build::default();
    for limit in [DROP_CONTROL_FEED, DROP_CONTROL_EARTH, DROP_PUMP_OR_COIL, DROP_INJECTORS, DROP_MOTOR, DROP_HEATER, DROP_LAMP] {
        let doubled = evaluated(&demo).of(limit).expect("known") * 2.0;
        set(&mut relaxed, limit.id, doubled);
    }
    set(&mut relaxed, MADE_AT_IDLE.id, amperes(40.0));
    let sizes: Vec<_> = demo.rows(CIRCUITS).iter().map(|row| row.0).zip((0..14).map(|at| evaluated(&demo).cell(SIZE, at))).collect();
    for (row, size) in sizes {
        set(&mut relaxed, cell(SIZE.id, row), size.expect("known"));
    }
    assert!(said(&relaxed).starts_with("By estimate: over at cruise 10.4 A. All 14 circuits pass."), "{}", said(&relaxed));
    set(&mut relaxed, MADE_AT_CRUISE.id, amperes(40.0));
    assert!(said(&relaxed).starts_with("All 14 circuits pass. Closest: "), "{}", said(&relaxed));
    let mut long = Build::default();
    for row in 1..=14 {
        long.set_text(cell(NAME.id, row), "Oxygen sensor heater, bank 2").expect("short enough");
        set(&mut long, cell(SIZE.id, row), square_millimetres(0.13));
    }
    for build in [&demo, &relaxed, &long] {
        assert!(said(build).chars().count() <= 123, "{}", said(build));
    }
    let mut none = Build::default();
    none.set_rows(CIRCUITS, &[]).expect("no rows");
    assert!(!said(&none).is_empty());
}

/// Drawing, charts and loom list of the demo.
#[test]
fn the_demo_is_drawn_plotted_and_listed() {
    let (plan, build) = (Plan::default(), Build::default());
    let report = evaluated(&build);
    let draw = WIRING.scene.expect("a drawing");
    let scene = draw(&build, &report).expect("drawn");
    let full = scene::full(&build, &report);
    // Three heavy cables and 14 circuits go on one piece of paper, every one of a long list on some.
    assert!(full.len() == 1 && scene.shapes.len() < full[0].shapes.len());
    assert!(full[0].description.contains("Tachometer: no fuse needed"), "{}", full[0].description);
    let charts: Vec<_> = WIRING.charts.iter().map(|plot| plot(&plan, &build, &report).expect("plotted")).collect();
    for chart in &charts {
        assert!(chart.curves.iter().any(|curve| curve.points.iter().any(|(_, y)| y.is_some())), "{}", chart.title);
    }
    let drop = &charts[0];
    let fan = 1;
    assert_eq!(drop.present, report.cell(SIZE, fan).ok().map(Area::si));
    assert!(drop.spots.iter().any(|spot| spot.present && spot.good) && drop.spots.iter().any(|spot| !spot.good));
    assert!(drop.finding.starts_with("Radiator fan: 2.5 mm² and thicker pass."), "{}", drop.finding);
    assert!(charts[2].finding.contains("opens before its wire is damaged"), "{}", charts[2].finding);
    let list = loom::list(&build, &report);
    // 14 out; back: pump, fan, coils, instruments to body or engine, five to the control unit; the lamp's has no length.
    assert_eq!(list.len(), 14 + 4 + 5);
    let pump = &list[0];
    assert_eq!((pump.label.as_str(), pump.colour.as_str(), pump.gauge), ("1 Fuel pump", "WHGN", "12"));
    agrees_within(pump.length.expect("known").in_metres(), 4.0 * 1.1 + 0.15, 1e-12, "10 % and 150 mm");
    assert_eq!(list[1].label, "1R Fuel pump");
    // A label for either end of each wire, and a row for each wire.
    let listing = (WIRING.listing.expect("a list"))(&build, &report);
    assert_eq!((listing.labels.len(), listing.rows.len()), (2 * list.len(), list.len()));
    assert!(listing.rows.iter().all(|row| row.len() == listing.head.len()));
}

/// A car of one's own asks for its lengths, first.
#[test]
fn a_cleared_build_asks_for_lengths() {
    let build = Build::cleared(trialfit_core::calculators::ALL);
    assert_eq!(said(&build), "Unknown: 14 of 14. Fuel pump needs “Wire out”.");
    let report = evaluated(&build);
    assert_eq!(report.verdict(&build, cell(CHECK.id, 1)), Verdict::Unknown);
    let draw = WIRING.scene.expect("a drawing");
    assert!(draw(&build, &report).is_ok());
}
