//! The overview of all calculators, the links between them, and what a change changed.

use proptest::prelude::*;
use std::collections::BTreeSet;
use std::sync::LazyLock;
use trialfit_core::build::Build;
use trialfit_core::calculators::{bonnet_line, car, clutch, flywheel, front_drive, wiring};
use trialfit_core::changed::{Changes, What, changes};
use trialfit_core::overview::{self, By};
use trialfit_core::report::Report;
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Id, Kind, Place, Role, Sense, Verdict};
use trialfit_core::tolerance::Shape;
use trialfit_tests::{PLAN, evaluated, laws};

static INPUTS: LazyLock<Vec<Place>> = LazyLock::new(|| Build::default().layout().places(Role::Input).collect());

fn with(values: &[(Id, f64)]) -> (Build, Report) {
    let mut build = Build::default();
    for &(id, value) in values {
        build.set(id.into(), value).expect("in range");
    }
    let report = evaluated(&build);
    (build, report)
}

fn compared(before: &Build, after: &Build) -> Changes {
    changes((before, &evaluated(before)), (after, &evaluated(after)))
}

fn said(sentence: &trialfit_core::sentence::Sentence) -> String {
    show::sentence(sentence, System::Metric).replace(['\u{a0}', '\u{202f}'], " ")
}

#[test]
fn the_worst_figure_is_the_furthest_past_its_limit() {
    // 48 mm alternator pulley: too fast at the top; idle and all else stay as they are.
    let (build, report) = with(&[(front_drive::ALTERNATOR_PULLEY.id, 0.048)]);
    let all = overview::calculators(&build, &report);
    assert_eq!(all.len(), 6);
    for one in &all {
        assert_eq!(one.worst.map(|_| one.line.verdict), report.worst(&build, one.calculator).map(|(verdict, _)| verdict));
    }
    let worst = all[usize::from(front_drive::ALTERNATOR_PULLEY.id.calculator)].worst.expect("judged");
    assert_eq!(report.verdict(&build, worst), Verdict::Beyond);
    // By hand over every judged figure: nobody beyond is a larger share past its limit.
    let layout = build.layout();
    let past = |place: Place| {
        let limit = report.standing(&build, place).limit?;
        let row = place.row.filter(|_| layout.table_of(limit.beyond).is_some());
        let (value, mark) = (report.value(place).ok()?, report.value(Place { id: limit.beyond, row }).ok()?);
        Some(if limit.sense == Sense::AtMost { value / mark - 1.0 } else { 1.0 - value / mark })
    };
    let beyond = layout.places(Role::Output).filter(|place| {
        place.id.calculator == worst.id.calculator && layout.spec(place.id).is_judged() && report.verdict(&build, *place) == Verdict::Beyond
    });
    let most = beyond.filter_map(past).fold(f64::NEG_INFINITY, f64::max);
    assert!(past(worst).is_none_or(|share| share >= most - 1e-12), "{} against {most}", layout.key(worst));
}

/// What the front drive's own answer begins with: its belt runs at 53.5 m/s of 50, which no guess decides.
#[test]
fn a_figure_past_its_limit_comes_before_an_estimate() {
    let (build, report) = with(&[]);
    let worst = overview::worst(&build, &report, front_drive::BELT_SPEED.id.calculator).expect("judged");
    assert_eq!(worst, front_drive::BELT_SPEED.id.into());
    assert!(!report.standing(&build, worst).estimate);
    assert_eq!(report.verdict(&build, front_drive::TENSION_SET.id.into()), report.verdict(&build, worst), "an estimate, near too");
}

#[test]
fn a_line_says_figure_and_limit() {
    let (build, report) = with(&[(clutch::BEARING_LOAD.id, 3000.0)]);
    let place = clutch::PEDAL_FORCE.id.into();
    let force = report.of(clutch::PEDAL_FORCE).expect("known").in_newtons();
    assert!(force > 220.0);
    assert_eq!(said(&overview::against_limit(&build, &report, place)), format!("Pedal force at its peak: {force:.0} N, at most 220 N."));
    let (mut build, _) = with(&[]);
    build.forget(clutch::SLAVE_BORE.id.into());
    let report = evaluated(&build);
    let line = overview::against_limit(&build, &report, place);
    assert_eq!((line.verdict, said(&line).as_str()), (Verdict::Unknown, "Pedal force at its peak: needs “Slave bore”."));
}

/// Figure and no limit: why nobody can judge it is told.
#[test]
fn a_line_says_which_limit_is_not_known() {
    let (mut build, before) = with(&[]);
    let was = build.clone();
    build.forget(clutch::THRUST_LIMIT.id.into());
    let report = evaluated(&build);
    let line = overview::against_limit(&build, &report, clutch::THRUST.id.into());
    let limit = build.layout().spec(clutch::THRUST_LIMIT.id).label;
    assert_eq!(line.verdict, Verdict::Unknown);
    assert!(said(&line).ends_with(&format!(" N: needs “{limit}”.")), "{}", said(&line));
    let turned = changes((&was, &before), (&build, &report)).verdicts;
    let line = &turned.iter().find(|it| it.place == clutch::THRUST.id.into()).expect("turned").line;
    assert!(said(line).contains(": within → unknown, ") && said(line).ends_with(&format!(" N: needs “{limit}”.")), "{}", said(line));
}

/// Without a water pump on the belt its speed is no worse: there is none to judge.
#[test]
fn what_is_no_part_of_the_car_is_gone_not_worse() {
    let before = Build::default();
    let (mut after, pump) = (before.clone(), before.rows(front_drive::PULLEYS)[3]);
    after.set(Place { id: front_drive::DUTY.id, row: Some(pump) }, 4.0).expect("another accessory");
    let report = evaluated(&after);
    assert!(!report.concerns(front_drive::PUMP_HIGH.id.into()));
    let (was, is) = (compared(&before, &after), compared(&after, &before));
    assert!(was.verdicts.iter().chain(&is.verdicts).all(|it| it.place != front_drive::PUMP_HIGH.id.into()), "{:?}", was.verdicts);
    // Past its limit it is told on coming and going.
    let mut fast = before.clone();
    fast.set(front_drive::PUMP_LIMIT.id.into(), 1e2 * core::f64::consts::TAU).expect("in range");
    let mut none = fast.clone();
    none.set(Place { id: front_drive::DUTY.id, row: Some(pump) }, 4.0).expect("another accessory");
    let turned = |changes: Changes| changes.verdicts.into_iter().find(|it| it.place == front_drive::PUMP_HIGH.id.into()).expect("turned");
    assert_eq!(said(&turned(compared(&fast, &none)).line), "Pump at highest: gone, was beyond.");
    assert!(said(&turned(compared(&none, &fast)).line).starts_with("New, Pump at highest: 7926 min⁻¹, at most 6000 min⁻¹"));
}

#[test]
fn every_link_the_calculators_have_is_listed_and_no_other() {
    let (build, report) = with(&[]);
    let links = overview::links(&PLAN, &build, &report);
    let has = |from: Id, to: Id| {
        links.iter().any(|link| link.from == from && matches!(link.by, By::Following { input, now: true } if input == to))
    };
    for (from, to) in [
        (car::PEAK_TORQUE.id, clutch::TORQUE_TO_HOLD.id),
        (car::PEAK_TORQUE.id, bonnet_line::ROLL_ENGINE.id),
        (clutch::CAPACITY_NEW_FACINGS.id, bonnet_line::ROLL_CLUTCH.id),
        (wiring::LOAD_AT_IDLE.id, front_drive::LOAD_IDLE.id),
        (front_drive::RATED_CURRENT.id, wiring::ALTERNATOR_CURRENT.id),
        (front_drive::REFLECTED_INERTIA.id, flywheel::ACCESSORIES.id),
        (flywheel::DUMP_HEAT.id, clutch::DUMP_HEAT.id),
    ] {
        assert!(has(from, to), "{} → {}", build.layout().key(from.into()), build.layout().key(to.into()));
    }
    // The revs read the engine's torque directly.
    let torque = links.iter().find(|link| link.from == car::FLYWHEEL_TORQUE.id && link.to == flywheel::REV_TIME.id.calculator);
    assert!(matches!(&torque.expect("read").by, By::Steps(steps) if steps.contains(&"free revs")));
    for link in &links {
        assert_ne!(link.from.calculator, link.to);
        // What is said to feed does: the plan would work the other calculator out again.
        let outputs: Vec<Id> =
            build.layout().ids().filter(|id| id.calculator == link.to && build.layout().spec(*id).role == Role::Output).collect();
        assert!(outputs.iter().any(|&output| PLAN.feeds(link.from, output)), "{}", said(&link.line));
    }
    // And what feeds is said to, through someone.
    let layout = build.layout();
    let pairs: BTreeSet<(u8, u8)> = links.iter().map(|link| (link.from.calculator, link.to)).collect();
    for step in PLAN.steps() {
        for (read, written) in step.reads.iter().zip(step.writes.iter().cycle()) {
            if read.calculator != written.calculator {
                assert!(pairs.contains(&(read.calculator, written.calculator)), "{}", layout.key((*read).into()));
            }
        }
    }
    let line = links.iter().find(|link| link.from == car::PEAK_TORQUE.id && link.to == clutch::MARGIN.id.calculator).expect("there");
    assert_eq!(said(&line.line), "Peak torque 240 N·m → torque to hold.");
}

#[test]
fn a_link_cut_by_hand_says_so() {
    let (build, report) = with(&[(clutch::TORQUE_TO_HOLD.id, 300.0)]);
    let links = overview::links(&PLAN, &build, &report);
    let cut =
        links.iter().find(|link| matches!(link.by, By::Following { input, .. } if input == clutch::TORQUE_TO_HOLD.id)).expect("there");
    assert!(matches!(cut.by, By::Following { now: false, .. }));
    assert_eq!(said(&cut.line), "Peak torque 240 N·m → torque to hold, now given: 300 N·m.");
}

#[test]
fn a_change_is_told_in_one_line_each() {
    let before = Build::default();
    let mut after = before.clone();
    after.set(clutch::CLAMP_LOAD.id.into(), 6500.0).expect("in range");
    after.set(clutch::MARGIN_LEAST.id.into(), 1.3).expect("in range");
    let found = compared(&before, &after);
    let inputs: Vec<String> = found.inputs.iter().map(|input| said(&input.line)).collect();
    assert_eq!(inputs, ["Clamp load: 5000 N → 6500 N.", "Margin wanted: 1.2 → 1.3."]);
    let margin = found.verdicts.iter().find(|turned| turned.place == clutch::MARGIN.id.into()).expect("turned");
    // By hand: z·μ·F·(D + d)/4 over 240 N·m.
    let at = |clamp: f64| 2.0 * 0.27 * clamp * 0.378 / 4.0 / 240.0;
    let line = format!("Margin over torque: beyond → within, {:.2} → {:.2}.", at(5000.0), at(6500.0));
    assert_eq!(said(&margin.line), line);
    let limit_alone = {
        let mut looser = before.clone();
        looser.set(clutch::MARGIN_LEAST.id.into(), 1.0).expect("in range");
        compared(&before, &looser)
    };
    let margin = limit_alone.verdicts.iter().find(|turned| turned.place == clutch::MARGIN.id.into()).expect("turned");
    assert_eq!(said(&margin.line), format!("Margin over torque: beyond → within, {:.2}.", at(5000.0)));
}

#[test]
fn the_worst_turn_comes_first() {
    let before = Build::default();
    let mut after = before.clone();
    after.set(front_drive::ALTERNATOR_PULLEY.id.into(), 0.045).expect("in range");
    after.forget(clutch::CLAMP_LOAD.id.into());
    after.set(flywheel::MATERIAL.id.into(), 1.0).expect("a choice");
    let found = compared(&before, &after);
    let stood = |verdict: Option<Verdict>| verdict.expect("rows alike");
    let got_worse: Vec<Verdict> =
        found.verdicts.iter().filter(|turned| turned.after > turned.before).map(|turned| stood(turned.after)).collect();
    assert!(got_worse.len() > 1 && got_worse.iter().rev().is_sorted(), "{got_worse:?}");
    let first_better = found.verdicts.iter().position(|turned| turned.after < turned.before).unwrap_or(found.verdicts.len());
    assert_eq!(first_better, got_worse.len(), "what got worse stands before what got better");
    let reason = found.verdicts.iter().find(|turned| turned.after == Some(Verdict::Unknown)).expect("one is unknown now");
    assert!(said(&reason.line).ends_with("unknown, needs “Clamp load”."), "{}", said(&reason.line));
}

#[test]
fn rows_that_come_and_go_are_told_once() {
    let before = Build::default();
    let mut after = before.clone();
    let row = after.add_row(wiring::CIRCUITS).expect("room");
    let cell = |id| Place { id, row: Some(row) };
    after.set_text(cell(wiring::NAME.id), "Spot lamps").expect("short");
    after.set(cell(wiring::CURRENT.id), 20.0).expect("in range");
    after.set(cell(wiring::LENGTH.id), 4.0).expect("in range");
    after.set(cell(wiring::SIZE.id), 0.5e-6).expect("in range");
    let found = compared(&before, &after);
    let inputs: Vec<String> = found.inputs.iter().map(|input| said(&input.line)).collect();
    assert_eq!(inputs, ["Circuits: Spot lamps added."]);
    let new = found.verdicts.iter().find(|turned| turned.place == cell(wiring::DROP.id)).expect("loses too much");
    assert_eq!((new.before, new.after), (None, Some(Verdict::Beyond)));
    assert!(said(&new.line).starts_with("New, Circuits, Spot lamps: voltage lost: "), "{}", said(&new.line));
    let back = compared(&after, &before);
    assert!(matches!(back.inputs.as_slice(), [gone] if gone.what == What::Removed(wiring::CIRCUITS, row)));
    let gone = back.verdicts.iter().find(|turned| turned.place == cell(wiring::DROP.id)).expect("gone");
    assert_eq!(said(&gone.line), "Circuits, Spot lamps: voltage lost: gone, was beyond.");
    let mut moved = before.clone();
    let rows: Vec<_> = before.rows(front_drive::PULLEYS).iter().rev().copied().collect();
    moved.set_rows(front_drive::PULLEYS, &rows).expect("the same rows");
    assert!(compared(&before, &moved).inputs.iter().any(|input| input.what == What::Moved(front_drive::PULLEYS)));
}

/// Given as it was taken to be, a number differs in who gave it alone: it stands once, with that.
#[test]
fn a_number_that_stays_is_not_said_twice() {
    let place = clutch::SLAVE_BORE.id.into();
    let (before, mut after) = (Build::default(), Build::default());
    after.set(place, before.own_value(place).expect("usual")).expect("possible");
    for (one, other, words) in
        [(&before, &after, "Slave bore: 22.225 mm, now given."), (&after, &before, "Slave bore: 22.225 mm, as usual.")]
    {
        assert_eq!(compared(one, other).inputs.iter().map(|it| said(&it.line)).collect::<Vec<_>>(), [words]);
    }
}

#[test]
fn a_tolerance_is_an_input_too() {
    let before = Build::default();
    let mut after = before.clone();
    let place = bonnet_line::HEIGHT.id.into();
    after.set_half_width(place, Some(0.012)).expect("in range");
    after.set_shape(place, Some(Shape::Uniform)).expect("a shape");
    let found = compared(&before, &after);
    assert!(matches!(found.inputs.as_slice(), [one] if one.what == What::Cell(place)));
    assert!(
        said(&found.inputs[0].line).ends_with("give or take as usual → 12 mm (equally likely anywhere between)."),
        "{}",
        said(&found.inputs[0].line)
    );
}

/// Sets an input somewhere in its usual range, or forgets it.
fn give(build: &mut Build, at: usize, share: Option<f64>) -> Place {
    let place = INPUTS[at];
    let spec = build.layout().spec(place.id);
    let value = share.and_then(|share| match spec.kind {
        Kind::Quantity { unit, .. } => Some(spec.settled(unit.to_si(spec.usual[0] + share * (spec.usual[1] - spec.usual[0])))),
        Kind::Choice(choices) => Some((share * (choices.len() - 1) as f64).round()),
        Kind::Text(_) => None,
    });
    match value {
        Some(value) => build.set(place, value).expect("in range"),
        None => build.forget(place),
    }
    place
}

proptest! {
    #![proptest_config(laws(256))]

    #[test]
    fn nothing_changed_is_nothing(given in prop::collection::vec((0..INPUTS.len(), prop::option::weighted(0.9, 0.0..=1.0)), 0..20)) {
        let mut build = Build::default();
        for (at, share) in given {
            give(&mut build, at, share);
        }
        prop_assert_eq!(compared(&build, &build.clone()), Changes::default());
    }

    #[test]
    fn one_change_lists_itself_and_exactly_what_stands_otherwise(at in 0..INPUTS.len(), share in prop::option::weighted(0.9, 0.0..=1.0)) {
        let before = Build::default();
        let mut after = before.clone();
        let place = give(&mut after, at, share);
        let (first, then) = (evaluated(&before), evaluated(&after));
        let found = changes((&before, &first), (&after, &then));
        prop_assert_eq!(found.inputs.iter().map(|input| input.what).collect::<Vec<_>>(), vec![What::Cell(place)]);
        let otherwise: BTreeSet<Place> = before
            .layout()
            .places(Role::Output)
            .filter(|place| before.layout().spec(place.id).is_judged() && first.verdict(&before, *place) != then.verdict(&after, *place))
            .collect();
        prop_assert_eq!(found.verdicts.len(), otherwise.len());
        prop_assert_eq!(found.verdicts.iter().map(|turned| turned.place).collect::<BTreeSet<_>>(), otherwise);
    }

    #[test]
    fn the_other_way_round_everything_turns_back(
        given in prop::collection::vec((0..INPUTS.len(), prop::option::weighted(0.9, 0.0..=1.0)), 0..12), rows in 0..3_u8,
    ) {
        let before = Build::default();
        let mut after = before.clone();
        for (at, share) in given {
            give(&mut after, at, share);
        }
        for _ in 0..rows {
            after.add_row(wiring::CIRCUITS);
        }
        let turns = |found: Changes, back: bool| {
            let ends = |turned: trialfit_core::changed::Turned| if back { (turned.after, turned.before) } else { (turned.before, turned.after) };
            found.verdicts.into_iter().map(|turned| (turned.place, ends(turned))).collect::<Vec<_>>()
        };
        let (there, back) = (compared(&before, &after), compared(&after, &before));
        prop_assert_eq!(there.inputs.len(), back.inputs.len());
        let (mut there, mut back) = (turns(there, false), turns(back, true));
        there.sort_by_key(|(place, _)| *place);
        back.sort_by_key(|(place, _)| *place);
        prop_assert_eq!(there, back);
    }
}
