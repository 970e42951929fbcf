//! Which belt goes on, does it take up its stretch, and how does it lie where it puts the adjuster?

use super::belt::{lies, pulleys};
use super::first;
use crate::calculators::front_drive::Hand;
use crate::calculators::front_drive::adjuster::{self, Adjuster, Known};
use crate::calculators::front_drive::belt_path::{Impossible, MOST_PULLEYS, Pulley, Side};
use crate::calculators::front_drive::declared::{
    ADJUSTER, ADJUSTER_LOOSE, ADJUSTER_PLACE, ADJUSTER_TIGHT, ADJUSTER_WAY, BELT_LENGTH, BELT_LINE, BELT_RUNS, BELT_SLACK, BELT_STRETCH,
    BELT_WIDTH, BeltRuns, CORD_LENGTH, CRANK_TURNS, DRAWN_LENGTH, DUTY, Duty, FITTING_SLACK, GAP, LENGTH_STEP, LINE_DIFFERENCE,
    LONGEST_BELT, MISALIGNMENT, OFFSET, PULLEY_GAP, RIBS, SHORTEST_BELT, SIDE, SPAN, SPAN_GAP, STRETCH, SUGGESTED_BELT, WRAP, X, Y,
};
use crate::calculators::front_drive::designation::{self, cord_length, effective_length};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{MM, ONE, PERCENT};
use crate::quantity::{Length, ratio};
use crate::report::Unknown;
use crate::spec::Source;

static EFFECTIVE: Line = Line {
    equation: "L_e = L − 2 · π · b",
    terms: &[("L", MM), ("b", MM)],
    unit: MM,
    source: Source::FromMemory("ISO 9981, effective length"),
};
static SUITS: Line = Line {
    equation: "L_min + slack ≤ L ≤ L_max / ( 1 + ε )",
    terms: &[("L_min", MM), ("slack", MM), ("L_max", MM), ("ε", PERCENT)],
    unit: MM,
    source: Source::CommonPractice,
};
static SLACK: Line = Line { equation: "slack = L − L_min", terms: &[("L", MM), ("L_min", MM)], unit: MM, source: Source::Definition };
static STRETCHES: Line =
    Line { equation: "ε = L_max / L − 1", terms: &[("L_max", MM), ("L", MM)], unit: PERCENT, source: Source::Definition };
static WIDTH: Line = Line { equation: "w = 3.56 · z", terms: &[("z", ONE)], unit: MM, source: Source::FromMemory("ISO 9981, rib pitch") };

const BACKWARDS: Unknown = Unknown::NoSolution("Moving this way the adjuster slackens the belt: turn its direction round.");
const OUT_OF_REACH: Unknown = Unknown::NoSolution("The adjuster's travel does not reach this belt.");

fn refused(why: Impossible) -> Unknown {
    Unknown::NoSolution(why.reason())
}

/// The pulleys, how many, and the one that moves.
fn moving(case: &mut Case<'_>) -> Result<([Pulley; MOST_PULLEYS], usize, Adjuster), Unknown> {
    let (pulleys, count) = pulleys(case)?;
    let duty = case.of(ADJUSTER)?;
    let adjuster = Adjuster {
        pulley: first(case, duty)?,
        direction: case.of(ADJUSTER_WAY)?,
        from: -case.of(ADJUSTER_LOOSE)?,
        to: case.of(ADJUSTER_TIGHT)?,
    };
    Ok((pulleys, count, adjuster))
}

pub(in super::super) const REACH: Step = Step {
    name: "belts the adjuster takes",
    reads: &[
        DUTY.id,
        X.id,
        Y.id,
        SIDE.id,
        BELT_LINE.id,
        ADJUSTER.id,
        ADJUSTER_WAY.id,
        ADJUSTER_LOOSE.id,
        ADJUSTER_TIGHT.id,
        LINE_DIFFERENCE.id,
        DRAWN_LENGTH.id,
        FITTING_SLACK.id,
        STRETCH.id,
        LENGTH_STEP.id,
        RIBS.id,
    ],
    writes: &[SHORTEST_BELT.id, LONGEST_BELT.id, SUGGESTED_BELT.id, BELT_WIDTH.id],
    run: |case| {
        let reach = moving(case).and_then(|(all, count, adjuster)| adjuster::reach(&all[..count], &adjuster).map_err(refused));
        let reach = reach.and_then(|reach| if reach.at_longest < reach.at_shortest { Err(BACKWARDS) } else { Ok(reach) });
        for (output, longest) in [(SHORTEST_BELT, false), (LONGEST_BELT, true)] {
            case.answer(output, |case| {
                let (reach, difference) = (reach?, case.of(LINE_DIFFERENCE)?);
                let cord = if longest { reach.longest } else { reach.shortest };
                Ok(case.say(&EFFECTIVE, &[cord.si(), difference.si()], effective_length(cord, difference)))
            });
        }
        case.answer(SUGGESTED_BELT, |case| {
            let (reach, difference) = (reach?, case.of(LINE_DIFFERENCE)?);
            let (slack, stretch) = (case.of(FITTING_SLACK)?, case.of(STRETCH)?);
            let (least, most) = reach.window(slack, stretch.si());
            let (least, most) = (effective_length(least, difference), effective_length(most, difference));
            let (wanted, step) = (case.of(DRAWN_LENGTH)?, case.of(LENGTH_STEP)?);
            let found = designation::nearest(wanted, step, least, most)
                .ok_or(Unknown::NoSolution("No belt length both goes on and takes up its stretch: the adjuster needs more travel."))?;
            let numbers = [
                effective_length(reach.shortest, difference).si(),
                slack.si(),
                effective_length(reach.longest, difference).si(),
                stretch.si(),
            ];
            Ok(case.say(&SUITS, &numbers, found))
        });
        case.answer(BELT_WIDTH, |case| {
            let ribs = case.of(RIBS)?;
            Ok(case.say(&WIDTH, &[ribs.si()], designation::RIB_PITCH * ribs.si()))
        });
    },
};

pub(in super::super) const BELT: Step = Step {
    name: "fit of the belt",
    reads: &[
        DUTY.id,
        X.id,
        Y.id,
        SIDE.id,
        BELT_LINE.id,
        OFFSET.id,
        ADJUSTER.id,
        ADJUSTER_WAY.id,
        ADJUSTER_LOOSE.id,
        ADJUSTER_TIGHT.id,
        LINE_DIFFERENCE.id,
        BELT_LENGTH.id,
        SHORTEST_BELT.id,
        CORD_LENGTH.id,
        CRANK_TURNS.id,
        BELT_RUNS.id,
    ],
    writes: &[BELT_SLACK.id, BELT_STRETCH.id, ADJUSTER_PLACE.id, WRAP.id, SPAN.id, GAP.id, MISALIGNMENT.id, PULLEY_GAP.id, SPAN_GAP.id],
    run: |case| {
        // The step before has proved the travel possible.
        let proved = case.of(SHORTEST_BELT);
        let moving = proved.and_then(|_| moving(case));
        let reach = moving.and_then(|(all, count, adjuster)| {
            let known = Known { place: Length::ZERO, length: case.of(CORD_LENGTH)?, listed: listed(case)? };
            adjuster::reach_from(&all[..count], &adjuster, known).map_err(refused)
        });
        case.answer(BELT_SLACK, |case| {
            let (reach, length) = (reach?, belt(case)?);
            Ok(case.say(&SLACK, &[length.si(), reach.shortest.si()], reach.fit(length).slack))
        });
        case.answer(BELT_STRETCH, |case| {
            let (reach, length) = (reach?, belt(case)?);
            Ok(case.say(&STRETCHES, &[reach.longest.si(), length.si()], ratio(reach.fit(length).stretch)))
        });
        let place = reach.and_then(|reach| Ok(reach.place_for(belt(case)?).ok_or(OUT_OF_REACH)));
        case.answer(ADJUSTER_PLACE, |_| place?);
        let standing = match place {
            Ok(place) => place.and_then(|place| moving.map(|(all, count, mover)| (adjuster::moved(&all[..count], &mover, place), count))),
            // Where no belt or no travel is known, all stands as drawn.
            Err(_) => pulleys(case),
        };
        lies(case, &standing);
    },
};

/// Way the pulleys are listed round the loop: the crank's, unless its pulley is smooth or the belt runs backwards.
fn listed(case: &mut Case<'_>) -> Result<Hand, Unknown> {
    let crank = first(case, Duty::Crank)?;
    let (way, runs, side) = (case.of(CRANK_TURNS)?, case.of(BELT_RUNS)?, case.cell(SIDE, crank)?);
    let alike = (runs == BeltRuns::AsListed) == (side == Side::Ribs);
    Ok(if alike { way } else { way.reversed() })
}

/// The belt chosen, along its cord.
fn belt(case: &mut Case<'_>) -> Result<Length, Unknown> {
    Ok(cord_length(case.of(BELT_LENGTH)?, case.of(LINE_DIFFERENCE)?))
}
