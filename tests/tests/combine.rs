//! Combine: the front against every combination tried one by one, the rules against every choice there is.

use core::ops::ControlFlow;
use proptest::prelude::*;
use proptest::sample::Index;
use std::collections::{BTreeMap, BTreeSet};
use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::{clutch, front_drive};
use trialfit_core::quantity::newtons;
use trialfit_core::report::Report;
use trialfit_core::shelf::{self, Asks, At, Currency, Name, Shelf};
use trialfit_core::spec::{Place, Verdict};
use trialfit_core::tools::Job;
use trialfit_core::tools::combine::{self, Aim, Chancing, Combine, Combined, Must, Search, What, fit, judged, slots_for};
use trialfit_tests::{PLAN, laws};

fn demo() -> Shelf {
    shelf::read(include_str!("../../public/demo-shelf.json")).expect("a shelf").shelf
}

fn place(id: trialfit_core::spec::Id) -> Place {
    id.into()
}

fn euro() -> Currency {
    Currency::new("EUR").expect("letters")
}

fn least(what: What) -> Aim {
    Aim { what, most: false }
}

fn run(build: &Build, shelf: &Shelf, search: &[Search], aims: &[Aim], musts: &[Must], piece: u32) -> Combined {
    let shelves = core::slice::from_ref(shelf);
    let mut job = Combine::new(&PLAN, build, shelves, search, aims, musts).expect("something to search");
    let mut before = 0.0;
    loop {
        match job.advance(&PLAN, piece) {
            ControlFlow::Break(found) => return found,
            ControlFlow::Continue(done) => {
                assert!(done >= before && done < 1.0, "{done} after {before}");
                before = done;
            }
        }
    }
}

/// Every way to fill the slots, one by one.
fn every(shelf: &Shelf, search: &[Search]) -> Vec<Vec<Option<At>>> {
    let mut all = vec![Vec::new()];
    for slot in search {
        let mut ways: Vec<Option<At>> = if slot.or_none { vec![None] } else { Vec::new() };
        let its = shelf.parts.iter().enumerate().filter(|(_, part)| shelf.slot_of(part).id == slot.slot);
        ways.extend(its.map(|(part, _)| Some(At { shelf: 0, part })));
        if ways.is_empty() {
            ways.push(None);
        }
        all = all.iter().flat_map(|before| ways.iter().map(|way| before.iter().copied().chain([*way]).collect::<Vec<_>>())).collect();
    }
    all
}

/// The rules as the shelf's own words have them, written again without sets of bits.
fn rules_hold(shelf: &Shelf, chosen: &BTreeSet<usize>) -> bool {
    let slot = |part: usize| shelf.parts[part].slot;
    let is = |name: &Name, other: usize| match name {
        Name::Part(part) => *part == other,
        Name::Slot(at) => slot(other) == *at,
        Name::Elsewhere(_) => false,
    };
    chosen.iter().all(|&part| {
        let others = || chosen.iter().copied().filter(|&other| other != part);
        let there = |name: &Name| others().any(|other| is(name, other));
        let agree = others().all(|other| {
            let theirs: BTreeMap<Place, f64> = shelf.parts[other].sets.iter().copied().collect();
            shelf.parts[part].sets.iter().all(|(place, value)| theirs.get(place).is_none_or(|their| their == value))
        });
        agree
            && shelf.parts[part].rules.iter().all(|rule| match rule.asks {
                Asks::Needs => rule.of.iter().all(there),
                Asks::NeedsOneOf => rule.of.iter().any(there),
                Asks::Excludes => !rule.of.iter().any(there),
                Asks::OnlyWith => others().all(|other| {
                    let named = |name: &Name| is(name, other);
                    let its_slot = |name: &Name| (0..shelf.parts.len()).any(|any| any != part && is(name, any) && slot(any) == slot(other));
                    rule.of.iter().any(named) || !rule.of.iter().any(its_slot)
                }),
            })
    })
}

/// What one combination comes to, on a build of its own evaluated whole; none when it does not pass.
fn figures(build: &Build, shelf: &Shelf, search: &[Search], parts: &[Option<At>], aims: &[Aim], musts: &[Must]) -> Option<Vec<f64>> {
    let shelves = core::slice::from_ref(shelf);
    let mut build = build.clone();
    let trade = combine::Trade { parts: parts.to_vec(), figures: Vec::new(), alike: 0 };
    assert_eq!(fit(shelves, search, &trade, &mut build), []);
    let mut report = Report::new(&build);
    PLAN.evaluate(&build, &mut report);
    let holds = |must: &Must| match *must {
        Must::Stand(place, _) => matches!(report.verdict(&build, place), Verdict::Within | Verdict::Near),
        Must::AtMost(place, most) => report.value(place).is_ok_and(|value| value <= most),
        Must::AtLeast(place, least) => report.value(place).is_ok_and(|value| value >= least),
    };
    if !musts.iter().all(holds) {
        return None;
    }
    let kit = shelf::kit(shelves, &build);
    let of = |aim: &Aim| match aim.what {
        What::Output(place) => report.value(place).ok(),
        What::Price(currency) => {
            let whole = kit.total(currency).map_or(0.0, |total| total.thousandths as f64 / 1000.0);
            (kit.not_priced == 0).then_some(whole)
        }
        What::Mass => (kit.not_weighed == 0).then(|| (kit.mass - kit.removed).si()),
    };
    aims.iter().map(of).collect()
}

fn betters(one: &[f64], other: &[f64], aims: &[Aim]) -> bool {
    let no_worse = |(at, aim): (usize, &Aim)| if aim.most { one[at] >= other[at] } else { one[at] <= other[at] };
    aims.iter().enumerate().all(no_worse) && one != other
}

/// How many combinations the rules allow and how many pass, and the figures of the front as every pair compared has it.
fn brute(build: &Build, shelf: &Shelf, search: &[Search], aims: &[Aim], musts: &[Must]) -> ([usize; 2], Vec<Vec<f64>>) {
    let set = |parts: &[Option<At>]| parts.iter().flatten().map(|at| at.part).collect::<BTreeSet<_>>();
    let stay: BTreeSet<usize> = build
        .parts()
        .iter()
        .filter(|fitted| !search.iter().any(|slot| *slot.slot == *fitted.slot))
        .filter_map(|fitted| shelf.find(&fitted.id))
        .collect();
    let allowed: Vec<_> =
        every(shelf, search).into_iter().filter(|parts| rules_hold(shelf, &set(parts).union(&stay).copied().collect())).collect();
    let mut all: Vec<Vec<f64>> = allowed.iter().filter_map(|parts| figures(build, shelf, search, parts, aims, musts)).collect();
    let (allowed, whole) = (allowed.len(), all.clone());
    all.retain(|one| !whole.iter().any(|other| betters(other, one, aims)));
    all.sort_by(|one, other| one.partial_cmp(other).expect("numbers"));
    all.dedup();
    ([allowed, whole.len()], all)
}

#[track_caller]
fn same_front(found: &Combined, expected: &[Vec<f64>]) {
    let mut front: Vec<Vec<f64>> = found.front.trades().iter().map(|trade| trade.figures.clone()).collect();
    front.sort_by(|one, other| one.partial_cmp(other).expect("numbers"));
    // Masses are added in another order.
    let close = |(one, other): (&f64, &f64)| (one - other).abs() <= 1e-9 * other.abs().max(1.0);
    let alike = |(one, other): (&Vec<f64>, &Vec<f64>)| one.len() == other.len() && one.iter().zip(other).all(close);
    assert!(front.len() == expected.len() && front.iter().zip(expected).all(alike), "{front:?}\n{expected:?}");
}

/// A shelf of a few slots and parts with rules among them, as text.
fn small_shelf() -> impl Strategy<Value = Shelf> {
    let part =
        (0..4_usize, 0..4_u8, 0..5_u8, 0..40_u32, prop::collection::vec((0..4_u8, prop::collection::vec(any::<Index>(), 1..3)), 0..3));
    prop::collection::vec(part, 3..9).prop_map(|parts| {
        let slots = ["slave", "master", "cover", "other"];
        let count = parts.len();
        let name = |index: &Index| {
            let at = index.index(count + slots.len());
            if at < count { format!("\"p{at}\"") } else { format!("\"{}\"", slots[at - count]) }
        };
        let texts: Vec<String> = parts
            .iter()
            .enumerate()
            .map(|(at, (slot, key, value, price, rules))| {
                let (key, base) = [("clutch.slave-bore", 18), ("clutch.master-bore", 15), ("clutch.clamp-load", 5000), ("clutch.pedal-ratio", 5)]
                    [usize::from((*key).min(3))];
                let step = if base > 1000 { 400 } else { 1 };
                let sets = if *slot == 3 { String::new() } else { format!("\"{key}\":{}", base + step * i32::from(*value)) };
                let rules: Vec<String> = rules
                    .iter()
                    .map(|(asks, names)| {
                        let word = ["needs", "needs-one-of", "excludes", "only-with"][usize::from(*asks)];
                        format!("{{\"{word}\":[{}]}}", names.iter().map(name).collect::<Vec<_>>().join(","))
                    })
                    .collect();
                format!(
                    r#"{{"id":"p{at}","name":"P{at}","slot":"{}","mass":{},"price":{{"amount":{price},"currency":"EUR"}},"sets":{{{sets}}},"rules":[{}]}}"#,
                    slots[*slot],
                    f64::from(*price % 7) / 4.0,
                    rules.join(",")
                )
            })
            .collect();
        let slots: Vec<String> = slots.iter().map(|slot| format!("{{\"id\":\"{slot}\",\"name\":\"{slot}\"}}")).collect();
        let text = format!(r#"{{"trialfit-shelf":1,"id":"small","name":"Small","slots":[{}],"parts":[{}]}}"#, slots.join(","), texts.join(","));
        shelf::read(&text).expect("a shelf").shelf
    })
}

fn search() -> [Search; 4] {
    [Search::filled("slave"), Search::or_none("master"), Search::filled("cover"), Search::or_none("other")]
}

proptest! {
    #![proptest_config(laws(150))]

    #[test]
    fn the_front_is_that_of_every_combination_whatever_the_pieces(
        shelf in small_shelf(), aim in 0..4_u8, stays in any::<Index>(), piece in 1..40_u32, force in 60.0..200.0_f64
    ) {
        let mut build = Build::default();
        // A part of a slot that is not searched stays, and one of a slot that is goes.
        let search = &search()[..3];
        let stay = stays.get(&shelf.parts);
        shelf.choose(stay, &mut build);
        let aims = [
            vec![least(What::Output(place(clutch::PEDAL_FORCE.id))), least(What::Price(euro()))],
            vec![Aim { what: What::Output(place(clutch::CAPACITY.id)), most: true }, least(What::Price(euro())), least(What::Mass)],
            vec![least(What::Mass)],
            vec![least(What::Output(place(clutch::PEDAL_FORCE.id))), Aim { what: What::Output(place(clutch::PEDAL_LEFT.id)), most: true }],
        ];
        let aims = &aims[usize::from(aim)];
        let musts = [Must::AtMost(place(clutch::PEDAL_FORCE.id), newtons(force).si()), Must::Stand(place(clutch::PEDAL_LEFT.id), Verdict::Near)];
        if shelf.parts.iter().any(|part| search.iter().any(|slot| slot.slot == shelf.slot_of(part).id)) {
            let found = run(&build, &shelf, search, aims, &musts, piece);
            let ([allowed, passed], expected) = brute(&build, &shelf, search, aims, &musts);
            prop_assert_eq!(found.passed, passed as u64);
            // Every combination counts once, and none that the rules allow as one that they forbid.
            let counted = |found: &Combined| {
                found.forbidden + found.failed.iter().sum::<f64>() + (found.passed + found.not_compared) as f64
            };
            prop_assert_eq!(counted(&found), found.combinations);
            prop_assert!(found.combinations - found.forbidden >= allowed as f64);
            same_front(&found, &expected);
            // With nothing asked, what is not forbidden is what the rules allow.
            let free = run(&build, &shelf, search, aims, &[], piece);
            prop_assert_eq!((counted(&free), free.combinations - free.forbidden), (free.combinations, allowed as f64));
            prop_assert_eq!(run(&build, &shelf, search, aims, &musts, 1_000), found);
        }
    }

    /// The kit list has nothing to say of just those choices that the search allows, and that the words of the rules do.
    #[test]
    fn rules_are_the_same_in_the_kit_list_and_the_search(shelf in small_shelf()) {
        let shelves = core::slice::from_ref(&shelf);
        let all: Vec<Search> = search().iter().map(|slot| Search::or_none(&slot.slot)).collect();
        let mut good = 0_u32;
        for parts in every(&shelf, &all) {
            let mut build = Build::default();
            let trade = combine::Trade { parts: parts.clone(), figures: Vec::new(), alike: 0 };
            fit(shelves, &all, &trade, &mut build);
            let troubles = shelf::kit(shelves, &build).troubles;
            let chosen = parts.iter().flatten().map(|at| at.part).collect();
            prop_assert_eq!(troubles.is_empty(), rules_hold(&shelf, &chosen), "{:?}", troubles);
            good += u32::from(troubles.is_empty());
        }
        let found = run(&Build::default(), &shelf, &all, &[least(What::Mass)], &[], 100);
        prop_assert_eq!(found.combinations - found.forbidden, f64::from(good));
    }

    /// A part whose rules are said never to hold is in no choice that fulfils them all, and every other part is in one.
    #[test]
    fn rules_that_never_hold_are_those_that_no_choice_fulfils(shelf_parts in small_shelf()) {
        let shelf = shelf_parts;
        let all: Vec<Search> = search().iter().map(|slot| Search::or_none(&slot.slot)).collect();
        let mut fulfilled = BTreeSet::new();
        for parts in every(&shelf, &all) {
            let chosen: BTreeSet<usize> = parts.iter().flatten().map(|at| at.part).collect();
            if rules_hold(&shelf, &chosen) {
                fulfilled.extend(chosen);
            }
        }
        for at in 0..shelf.parts.len() {
            prop_assert_eq!(shelf.can_be_chosen(at), fulfilled.contains(&at), "{}", shelf.parts[at].name);
        }
    }
}

/// From the demo shelf: pedals under 110 N that hold the torque, release, and do not over-travel.
#[test]
fn the_demo_shelf_lightens_the_pedal_under_a_limit() {
    let (build, shelf) = (Build::default(), demo());
    let shelves = core::slice::from_ref(&shelf);
    let aims = [least(What::Output(place(clutch::PEDAL_FORCE.id))), least(What::Price(euro())), least(What::Mass)];
    let search = slots_for(&PLAN, shelves, &aims);
    let slots: Vec<&str> = search.iter().map(|slot| slot.slot.as_str()).collect();
    for slot in ["slave-cylinder", "pedal-box", "master-cylinder", "clutch-hose", "clutch-cover", "clutch-plate", "bleed-line"] {
        assert!(slots.contains(&slot), "{slots:?}");
    }
    let limit = newtons(110.0).si();
    let mut musts = judged(&PLAN, &build, shelves, &search);
    assert!(musts.contains(&Must::Stand(place(clutch::MARGIN.id), Verdict::Near)));
    musts.push(Must::AtMost(place(clutch::PEDAL_FORCE.id), limit));
    let found = run(&build, &shelf, &search, &aims, &musts, 64);
    assert!(!found.front.trades().is_empty(), "{found:?}");
    let ([_, passed], expected) = brute(&build, &shelf, &search, &aims, &musts);
    assert_eq!(found.passed, passed as u64);
    same_front(&found, &expected);
    // Fitted: it is what the search said, and nothing is lacking; taken off, it is the build as before.
    for trade in found.front.trades() {
        let mut fitted = build.clone();
        assert_eq!(fit(shelves, &search, trade, &mut fitted), []);
        assert_eq!(fitted.origin(clutch::MASTER_BORE.id.into()), Origin::Part(fitted.part_in("master-cylinder").expect("searched")));
        let mut report = Report::new(&fitted);
        PLAN.evaluate(&fitted, &mut report);
        let force = report.of(clutch::PEDAL_FORCE).expect("known");
        assert!(force.si() == trade.figures[0] && force.si() <= limit);
        let kit = shelf::kit(shelves, &fitted);
        assert_eq!((kit.troubles.len(), kit.total(euro()).map(|total| total.thousandths as f64 / 1000.0)), (0, Some(trade.figures[1])));
        while !fitted.parts().is_empty() {
            fitted.remove_part(0);
        }
        assert!(fitted == build);
    }
}

/// A part whose bore nobody could read must not pass with the bore that was there before.
/// A belt that drives no water pump: its speed is no reason to rule every alternator pulley out.
#[test]
fn what_is_no_part_of_the_car_rules_nothing_out() {
    let (mut build, shelf) = (Build::default(), demo());
    let pump = build.rows(front_drive::PULLEYS)[3];
    build.set(Place { id: front_drive::DUTY.id, row: Some(pump) }, 4.0).expect("another accessory");
    let search = [Search::filled("crank-pulley")];
    let musts = [Must::Stand(place(front_drive::PUMP_HIGH.id), Verdict::Near)];
    let found = run(&build, &shelf, &search, &[least(What::Mass)], &musts, 10);
    assert_eq!((found.passed, found.failed.as_slice()), (3, &[0.0][..]));
    build.set_half_width(place(front_drive::CRANK_PULLEY.id), Some(1e-3)).expect("possible");
    let mut job = Chancing::new(&PLAN, &build, &musts, 100, 1).expect("known");
    let ControlFlow::Break(chances) = job.advance(&PLAN, 1000) else { panic!("all at once") };
    assert!(chances.any.share == 0.0, "{chances:?}");
}

#[test]
fn a_part_that_could_not_be_read_whole_is_left_out() {
    for bore in ["2000", "\"22 kg\"", "1e999", "null", "true"] {
        let text = format!(
            r#"{{"trialfit-shelf":1,"id":"s","name":"S","slots":[{{"id":"slave-cylinder","name":"Slave"}}],
            "parts":[{{"id":"a","name":"A","slot":"slave-cylinder","sets":{{"clutch.slave-bore":{bore},"clutch.pedal-ratio":6}}}},
            {{"id":"b","name":"B","slot":"slave-cylinder","sets":{{"clutch.slave-bore":19.05}}}}]}}"#
        );
        let read = shelf::read(&text).expect("a shelf");
        assert_eq!((read.shelf.parts.len(), read.problems.len()), (2, 1), "{bore}: {:?}", read.problems);
        let aims = [least(What::Output(clutch::PEDAL_FORCE.id.into()))];
        let found = run(&Build::default(), &read.shelf, &[Search::filled("slave-cylinder")], &aims, &[], 100);
        assert_eq!(found.left_out.iter().map(|left| left.1).collect::<Vec<_>>(), [place(clutch::SLAVE_BORE.id)], "{bore}");
        assert!(found.front.trades().iter().all(|trade| trade.parts == [Some(At { shelf: 0, part: 1 })]), "{bore}");
        assert_eq!(found.passed, 1, "{bore}");
    }
}

#[test]
fn rules_prune_before_anything_is_worked_out() {
    let (build, shelf) = (Build::default(), demo());
    let search = ["slave-cylinder", "master-cylinder", "clutch-cover", "clutch-plate", "flywheel", "starter"].map(Search::filled);
    let aims = [least(What::Output(place(clutch::PEDAL_FORCE.id))), least(What::Price(euro()))];
    let found = run(&build, &shelf, &search, &aims, &[], 500);
    assert_eq!(found.combinations, 864.0);
    // Each starter goes with its own wheels: 3 of 6 pairs, less those of the harsh plate on the light wheel; and the
    // concentric slave lacks its bleed line.
    assert_eq!(found.combinations - found.forbidden, f64::from(5 * 4 * 3 * (3 + 2)));
    assert_eq!(found.worked_out, 5 * 4 * 3 * (3 + 2));
}

/// What stays fitted counts with what it takes off: the blank weighs 0.2 kg and the pump it stands for 3.8 kg.
#[test]
fn what_stays_counts_with_what_comes_off() {
    let shelf = demo();
    let search = [Search::filled("filler-cap")];
    let lightest = |build: &Build| run(build, &shelf, &search, &[least(What::Mass)], &[], 10).front.trades()[0].figures[0];
    let bare = Build::default();
    let mut blanked = bare.clone();
    shelf.choose(&shelf.parts[shelf.find("steering-blank").expect("on the shelf")], &mut blanked);
    assert!((lightest(&blanked) - lightest(&bare) - (0.2 - 3.8)).abs() < 1e-9, "{} and {}", lightest(&blanked), lightest(&bare));
    // As a part that is searched it counts no otherwise.
    let found = run(&bare, &shelf, &[Search::filled("steering-pump")], &[least(What::Mass)], &[], 10);
    assert!((found.front.trades()[0].figures[0] - (0.2 - 3.8)).abs() < 1e-9, "{:?}", found.front);
}
