//! Two builds side by side, against what the reports themselves say.

use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::{bonnet_line, car, clutch, front_drive, wiring};
use trialfit_core::changed::{What, changes, take};
use trialfit_core::compare::{Difference, Way, differences};
use trialfit_core::share::link;
use trialfit_core::spec::{Id, Place, Role, RowId, Verdict};
use trialfit_tests::{PLAN, evaluated};

fn changed(sets: &[(Place, f64)]) -> Build {
    let mut build = Build::default();
    for &(place, value) in sets {
        build.set(place, value).expect("possible");
    }
    build
}

#[test]
fn the_same_build_differs_in_nothing() {
    let build = Build::default();
    let report = evaluated(&build);
    let none = changes((&build, &report), (&build, &report));
    assert!(differences(&PLAN, (&build, &report), (&build, &report), &none).is_empty());
}

/// A bigger slave bore: less effort is better, less travel in hand is not (hydraulic ratio; the law has its own test).
#[test]
fn a_bigger_bore_is_lighter_and_eats_travel() {
    let (before, after) = (Build::default(), changed(&[(clutch::SLAVE_BORE.id.into(), 0.0238125)]));
    let (was, is) = (evaluated(&before), evaluated(&after));
    let found = differences(&PLAN, (&before, &was), (&after, &is), &changes((&before, &was), (&after, &is)));
    let of = |place: Place| found.iter().find(|it| it.place == place).expect("it differs");
    let force = of(clutch::PEDAL_FORCE.id.into());
    assert!(force.after.expect("known") < force.before.expect("known") && force.way == Some(Way::Better) && force.causes == [0]);
    // Every place that differs is told, and no other.
    for place in after.layout().places(Role::Output) {
        let differs = was.value(place) != is.value(place) || was.verdict(&before, place) != is.verdict(&after, place);
        assert_eq!(found.iter().any(|it| it.place == place), differs, "{}", after.layout().key(place));
    }
}

/// A hair more bore: no verdict turns, less effort is better, less travel in hand is worse (hydraulic ratio).
#[test]
fn without_a_verdict_turned_the_limit_says_which_way_is_better() {
    let (before, after) = (Build::default(), changed(&[(clutch::SLAVE_BORE.id.into(), 22.3e-3)]));
    let (was, is) = (evaluated(&before), evaluated(&after));
    let found = differences(&PLAN, (&before, &was), (&after, &is), &changes((&before, &was), (&after, &is)));
    for (output, way) in [(clutch::PEDAL_FORCE.id, Way::Better), (clutch::PEDAL_LEFT.id, Way::Worse)] {
        let it = found.iter().find(|it| it.place == output.into()).expect("it differs");
        assert_eq!((it.verdicts[0], it.way), (it.verdicts[1], Some(way)));
    }
}

/// With a bearing that presses harder the pedal comes back no better: its least force only forbids a pedal that stays down.
/// Where it does stay down, more is better.
#[test]
fn inside_a_limit_that_only_forbids_neither_way_is_better() {
    let pressed = |held: f64, least: f64| {
        changed(&[
            (clutch::BEARING_LOAD.id.into(), 2000.0),
            (clutch::BEARING_LOAD_HOLD.id.into(), held),
            (clutch::EFFORT_LEAST.id.into(), least),
        ])
    };
    let force: Place = clutch::PEDAL_FORCE_HOLD.id.into();
    let (way, [was, is]) = ways(&pressed(900.0, 0.0), &pressed(1500.0, 0.0), force);
    assert_eq!((way, was), (None, is));
    assert_ne!(is, Verdict::Beyond);
    let (way, verdicts) = ways(&pressed(900.0, 200.0), &pressed(1500.0, 200.0), force);
    assert_eq!((way, verdicts), (Some(Way::Better), [Verdict::Beyond; 2]));
}

/// What passed its limit leads, whatever got better; then what got near one; what only moved comes last.
#[test]
fn what_got_worse_leads_the_worst_first() {
    let before = Build::default();
    let mut worse_and_better = 0;
    for bore in [16.0, 19.05, 20.6375, 23.8125, 25.4, 28.0] {
        let after = changed(&[(clutch::SLAVE_BORE.id.into(), bore * 1e-3), (front_drive::ALTERNATOR_PULLEY.id.into(), 0.09)]);
        let (was, is) = (evaluated(&before), evaluated(&after));
        let found = differences(&PLAN, (&before, &was), (&after, &is), &changes((&before, &was), (&after, &is)));
        // Got worse: 0; got better: 1; did not turn: 2.
        let rank = |it: &Difference| match it.verdicts {
            [stood, stands] if stood == stands => 2,
            [stood, stands] => u8::from(stands < stood),
        };
        let ranks: Vec<u8> = found.iter().map(rank).collect();
        assert!(ranks.is_sorted(), "{ranks:?}");
        let fell: Vec<Verdict> = found.iter().filter(|it| rank(it) == 0).map(|it| it.verdicts[1]).collect();
        assert!(fell.is_sorted_by(|one, other| one >= other), "{fell:?}");
        worse_and_better +=
            usize::from(ranks.contains(&0) && ranks.contains(&1) && fell.contains(&Verdict::Near) && fell.contains(&Verdict::Beyond));
    }
    assert!(worse_and_better > 0, "nothing was tried");
}

fn ways(before: &Build, after: &Build, output: Place) -> (Option<Way>, [Verdict; 2]) {
    let (was, is) = (evaluated(before), evaluated(after));
    let found = differences(&PLAN, (before, &was), (after, &is), &changes((before, &was), (after, &is)));
    let it = found.iter().find(|it| it.place == output).expect("it differs");
    (it.way, it.verdicts)
}

/// Twice the loss allowed takes a thinner wire: 0.462 V of 0.5 becomes 0.853 V of 1.065, nearer to nothing and further from
/// its limit.
#[test]
fn where_the_limit_goes_along_neither_way_is_better() {
    let before = Build::default();
    let of = |id: Id| Place { id, row: before.rows(wiring::CIRCUITS).first().copied() };
    let after = changed(&[(of(wiring::ALLOWED.id), 1.065)]);
    let (way, [was, is]) = ways(&before, &after, of(wiring::DROP.id));
    assert_eq!((way, was), (None, is));
}

/// A joint has to bend, but not much: past the most, less is better.
#[test]
fn past_one_of_two_limits_away_from_it_is_better() {
    let joint: Place = bonnet_line::FRONT_JOINT.id.into();
    let usual = evaluated(&Build::default()).value(joint).expect("known");
    let up = |up: f64| changed(&[(bonnet_line::JOINT_MOST.id.into(), 0.5 * usual), (bonnet_line::FLANGE_UP.id.into(), up)]);
    let now = evaluated(&Build::default()).value(bonnet_line::FLANGE_UP.id.into()).expect("known");
    let (one, other) = (up(now), up(now + 0.002));
    let grows = evaluated(&other).value(joint).expect("known") > evaluated(&one).value(joint).expect("known");
    let (more, less) = if grows { (&other, &one) } else { (&one, &other) };
    assert_eq!(ways(less, more, joint), (Some(Way::Worse), [Verdict::Beyond; 2]));
    assert_eq!(ways(more, less, joint), (Some(Way::Better), [Verdict::Beyond; 2]));
}

/// A circuit's copper hangs on its own length, not on another's, though both stand in one column.
#[test]
fn of_rows_each_answer_names_its_own() {
    let before = Build::default();
    let rows = before.rows(wiring::CIRCUITS).to_vec();
    let cell = |id: Id, row: usize| Place { id, row: Some(rows[row]) };
    let longer = [cell(wiring::LENGTH.id, 0), cell(wiring::LENGTH.id, 1)];
    let after = changed(&longer.map(|place| (place, before.own_value(place).expect("a length") + 1.0)));
    let (was, is) = (evaluated(&before), evaluated(&after));
    let all = changes((&before, &was), (&after, &is));
    let found = differences(&PLAN, (&before, &was), (&after, &is), &all);
    for (row, longer) in longer.into_iter().enumerate() {
        let copper = found.iter().find(|it| it.place == cell(wiring::COPPER_LENGTH.id, row)).expect("more copper");
        let causes: Vec<What> = copper.causes.iter().map(|&at| all.inputs[at].what).collect();
        assert_eq!(causes, [What::Cell(longer)]);
    }
}

/// A row that came and a length that changed: the circuit's copper is the length's doing, not the row's.
#[test]
fn a_row_that_came_is_no_cause_of_what_another_row_changed() {
    let before = Build::default();
    let length = Place { id: wiring::LENGTH.id, row: before.rows(wiring::CIRCUITS).first().copied() };
    let mut after = changed(&[(length, 2.5)]);
    let row = after.add_row(wiring::CIRCUITS).expect("room for one");
    let (was, is) = (evaluated(&before), evaluated(&after));
    let all = changes((&before, &was), (&after, &is));
    let found = differences(&PLAN, (&before, &was), (&after, &is), &all);
    let copper = Place { id: wiring::COPPER_LENGTH.id, ..length };
    let causes = |it: &Difference| it.causes.iter().map(|&at| all.inputs[at].what).collect::<Vec<_>>();
    assert_eq!(causes(found.iter().find(|it| it.place == copper).expect("more wire")), [What::Cell(length)]);
    // And the other way round: taken out again, the row is missed where it counted, the length is not its doing.
    let back = differences(&PLAN, (&after, &is), (&before, &was), &changes((&after, &is), (&before, &was)));
    let inputs = changes((&after, &is), (&before, &was)).inputs;
    let its = back.iter().find(|it| it.place == copper).expect("less wire");
    assert_eq!(its.causes.iter().map(|&at| inputs[at].what).collect::<Vec<_>>(), [What::Cell(length)]);
    assert!(inputs.iter().any(|input| input.what == What::Removed(wiring::CIRCUITS, row)));
}

/// Of two inputs, each answer names the one that feeds it.
#[test]
fn an_answer_names_what_changed_it() {
    let after = changed(&[(clutch::SLAVE_BORE.id.into(), 0.0238125), (front_drive::ALTERNATOR_PULLEY.id.into(), 0.07)]);
    let before = Build::default();
    let (was, is) = (evaluated(&before), evaluated(&after));
    let changes = changes((&before, &was), (&after, &is));
    let found = differences(&PLAN, (&before, &was), (&after, &is), &changes);
    for (output, input) in [
        (clutch::PEDAL_FORCE.id.into(), clutch::SLAVE_BORE.id.into()),
        (front_drive::ALTERNATOR_IDLE.id.into(), front_drive::ALTERNATOR_PULLEY.id.into()),
    ] {
        let it = found.iter().find(|it: &&Difference| it.place == output).expect("it differs");
        let causes: Vec<What> = it.causes.iter().map(|&at| changes.inputs[at].what).collect();
        assert_eq!(causes, [What::Cell(input)]);
    }
    assert!(found.iter().all(|it| !it.causes.is_empty()), "an answer without a cause");
    // Verdicts that differ come first.
    let turned = found.iter().take_while(|it| it.verdicts[0] != it.verdicts[1]).count();
    assert!(found[turned..].iter().all(|it| it.verdicts[0] == it.verdicts[1]));
    assert!(found.iter().filter(|it| it.verdicts == [Verdict::Within, Verdict::Beyond]).all(|it| it.way == Some(Way::Worse)));
}

/// Taking all that a link changes gives its build; taking some leaves the rest as it was, to the bit.
#[test]
fn what_is_taken_of_another_build_stands_as_it_does_there() {
    let links: Vec<Build> = trialfit_tests::corpus().iter().filter_map(|text| Some(link::read(text).ok()?.link.build)).collect();
    assert!(links.len() > 64);
    for pair in links.windows(2) {
        let [mine, theirs] = pair else { unreachable!() };
        let (own, other) = (evaluated(mine), evaluated(theirs));
        let whats: Vec<What> = changes((mine, &own), (theirs, &other)).inputs.iter().map(|it| it.what).collect();
        let mut whole = mine.clone();
        take(&mut whole, theirs, &whats);
        let left = changes((&whole, &evaluated(&whole)), (theirs, &other)).inputs;
        // Parts stay where they are fitted: what one set is then typed.
        let left = left.iter().filter(|it| !matches!(it.what, What::Cell(place) if matches!(theirs.origin(place), Origin::Part(_))));
        assert_eq!(left.map(|it| format!("{:?}", it.line)).collect::<Vec<_>>(), Vec::<String>::new());
        let Some((first, rest)) = whats.split_first() else { continue };
        let mut some = mine.clone();
        take(&mut some, theirs, &[*first]);
        let left: Vec<What> = changes((&some, &evaluated(&some)), (theirs, &other)).inputs.iter().map(|it| it.what).collect();
        assert!(
            rest.iter().all(|what| matches!(first, What::Added(..) | What::Removed(..) | What::Moved(_)) || left.contains(what)),
            "more than {first:?} was taken"
        );
        assert!(
            !left.contains(first) || matches!(first, What::Cell(place) if matches!(theirs.origin(*place), Origin::Part(_))),
            "{first:?} was not taken"
        );
    }
}

/// A table of one row whose row is another: the old one can go only once the new one is there.
#[test]
fn rows_are_taken_where_neither_can_go_first() {
    let mine = Build::default();
    let mut theirs = Build::default();
    let table = car::GEARS;
    theirs.set_rows(table, &[RowId(40)]).expect("one gear");
    let whats: Vec<What> = changes((&mine, &evaluated(&mine)), (&theirs, &evaluated(&theirs))).inputs.iter().map(|it| it.what).collect();
    let mut whole = mine.clone();
    take(&mut whole, &theirs, &whats);
    assert_eq!(whole.rows(table), [RowId(40)]);
}
