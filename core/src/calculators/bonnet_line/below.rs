//! Does it clear the chassis and the road underneath?
//!
//! The same engine as above, seen from below: what is under a point is the highest chassis part that covers its place along
//! the car, or the road. Moving, every part counts that the point can get over. Rolled, the sump's corners come down.

use super::above::{Least, chance_of};
use super::placed::{Motion, Standing};
use super::propshaft::surge;
use super::values::Values;
use super::{
    BUMP, CHANCE_MOST, CORNERING, HEIGHT, LEAST_UNDER, LEAST_UNDER_WORST, LOWER, LOWER_FROM, LOWER_TO, LOWER_TOP, LOWEST_BELOW, MEASURING,
    PADS_UP, ROAD, ROAD_BUMP, ROAD_BUMP_LEAST, ROAD_LEAST, ROOM_LEAST, SPREAD, SQUASH, SUMP_WIDTH, SURGE, UNDER, UNDER_ACROSS, UNDER_ALONG,
    UNDER_CHANCE, UNDER_CLEARANCE, UNDER_ROAD, UNDER_RSS, UNDER_UP, UNDER_WORST, WORST_LEAST, joined,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{MM, ONE};
use crate::quantity::{Length, Ratio};
use crate::report::Unknown;
use crate::spec::{Id, Source};
use crate::tolerance::{Off, Stack, sigmas_above};

static OVER_PART: Line = Line { equation: "s = z − t", terms: &[("z", MM), ("t", MM)], unit: MM, source: Source::Definition };
static WORST: Line = Line { equation: "s_min = s_w − T", terms: &[("s_w", MM), ("T", MM)], unit: MM, source: Source::Definition };
static SQUARES: Line =
    Line { equation: "s_rss = s_w − √Σt²", terms: &[("s_w", MM), ("√Σt²", MM)], unit: MM, source: Source::Definition };
static BUMPED: Line =
    Line {
        equation: "s = s₀ − B − q − b", terms: &[("s₀", MM), ("B", MM), ("q", MM), ("b", MM)], unit: MM, source: Source::Definition
    };
static LOWEST: Line = Line { equation: "h_min = h − m", terms: &[("h", MM), ("m", MM)], unit: MM, source: Source::Definition };
static CLIMBS: Line = Line { equation: "h = ½ · w · a", terms: &[("w", MM), ("a", ONE)], unit: MM, source: Source::Definition };

/// A point under the engine, and what its place may be off by.
#[derive(Clone, Copy)]
struct Low {
    at: [f64; 3],
    off_by: Result<[Off; 3], Unknown>,
}

impl Low {
    fn read(values: &mut impl Values, row: usize, measured: Result<Off, Unknown>) -> Result<Self, Unknown> {
        let at = [values.at(UNDER_ALONG, row)?.si(), values.at(UNDER_ACROSS, row)?.si(), values.at(UNDER_UP, row)?.si()];
        let mut off = |column| measured.map(|measured| values.off_at(column, row, measured));
        let (along, across, up) = (off(UNDER_ALONG), off(UNDER_ACROSS), off(UNDER_UP));
        Ok(Self { at, off_by: along.and_then(|along| Ok([along, across?, up?])) })
    }
}

/// A part of the chassis, or the road when it has no ends.
#[derive(Clone, Copy)]
struct Part {
    from: f64,
    to: f64,
    top: f64,
    off_by: Result<Off, Unknown>,
}

/// Most rows of [`LOWER`], and the road.
const PARTS: usize = 17;

struct Parts {
    parts: [Part; PARTS],
    count: usize,
}

impl Parts {
    fn read(values: &mut impl Values, measured: Result<Off, Unknown>) -> Result<Self, Unknown> {
        let road = Part {
            from: f64::NEG_INFINITY,
            to: f64::INFINITY,
            top: -values.one(PADS_UP)?.si(),
            off_by: measured.map(|measured| values.off(PADS_UP, measured)),
        };
        let mut parts = [road; PARTS];
        let rows = values.count(LOWER).min(PARTS - 1);
        for (row, part) in parts[1..].iter_mut().enumerate().take(rows) {
            let (one, other) = (values.at(LOWER_FROM, row)?.si(), values.at(LOWER_TO, row)?.si());
            let top = values.at(LOWER_TOP, row)?.si();
            *part = Part {
                from: one.min(other),
                to: one.max(other),
                top,
                off_by: measured.map(|measured| values.off_at(LOWER_TOP, row, measured)),
            };
        }
        Ok(Self { parts, count: rows + 1 })
    }

    /// All that reach within `by` of a place; the road does everywhere.
    fn near(&self, along: f64, by: f64) -> impl Iterator<Item = &Part> {
        self.parts[..self.count].iter().filter(move |part| part.from <= along + by && along - by <= part.to)
    }
}

#[derive(Clone, Copy)]
struct Stood {
    gap: f64,
    up: f64,
    top: f64,
}

/// Room in motion, at worst, by squares; and the chance of none.
#[derive(Clone, Copy)]
struct Moving {
    gap: f64,
    worst: f64,
    rss: f64,
    /// At most: the parts' chances added.
    chance: f64,
    /// How far it may come down until that is too much.
    by_chance: f64,
}

fn rest(standing: &Standing, parts: &Parts, low: &Low) -> Stood {
    let placed = standing.stance.place(low.at);
    let top = parts.near(placed[0], 0.0).fold(f64::NEG_INFINITY, |top, part| top.max(part.top));
    Stood { gap: placed[2] - top, up: placed[2], top }
}

/// On the side where it comes lower; the worst is that of either side.
fn moving(standing: &Standing, motion: &Motion, parts: &Parts, low: &Low, sigmas: f64) -> Result<Moving, Unknown> {
    let on = |side| rolled(standing, motion, parts, low, sigmas, side);
    let (one, other) = (on(0)?, on(1)?);
    let lower = if other.gap < one.gap { other } else { one };
    Ok(Moving { worst: one.worst.min(other.worst), ..lower })
}

/// On one side, over every part it can get over: the highest as measured need not be the one that is highest at worst.
fn rolled(standing: &Standing, motion: &Motion, parts: &Parts, low: &Low, sigmas: f64, side: usize) -> Result<Moving, Unknown> {
    motion.sure?;
    let [along, across, up] = low.off_by?;
    let stance = &standing.stance;
    let tip = motion.pitch.half_width;
    let reach = motion.grown * (along.half_width + across.half_width + up.half_width);
    let (rolled, bounce) = motion.shift(side, low.at);
    let placed = stance.place(rolled);
    let [behind, above] = stance.lever(placed);
    // Along by every way at once, and the little that a tip takes beyond its lever.
    let second = 0.5 * tip * tip * (behind.abs() + above.abs()) + tip * reach;
    let [first_row, second_row, third_row] = &motion.turns[side].rows;
    let [x, y, z] = stance.seen_from_engine([0.0, 0.0, 1.0]);
    let x = x - motion.bounce[1];
    let with = |axis: usize| motion.grown * (first_row[axis] * x + second_row[axis] * y + third_row[axis] * z);
    let mut engine = Stack::default();
    engine.add(with(0), along);
    engine.add(with(1), across);
    engine.add(with(2), up);
    engine.add(1.0, motion.height);
    engine.add(-behind, motion.pitch);
    let mut least = Moving { gap: f64::INFINITY, worst: f64::INFINITY, rss: f64::INFINITY, chance: 0.0, by_chance: f64::INFINITY };
    for part in parts.near(placed[0], reach + motion.fore_aft.half_width + above.abs() * tip + second) {
        let mut stack = engine;
        stack.add(-1.0, part.off_by?);
        let gap = placed[2] - bounce - part.top;
        let worst = gap - stack.worst_case() - second;
        let possible = !stack.is_bounded() || worst < 0.0;
        let by_chance = gap - sigmas * stack.deviation();
        least = Moving {
            gap: least.gap.min(gap),
            worst: least.worst.min(worst),
            rss: least.rss.min(gap - stack.root_sum_square()),
            chance: (least.chance + chance_of(gap, stack.deviation(), possible)).min(1.0),
            // What cannot go beyond its worst case is safe there, too.
            by_chance: least.by_chance.min(if stack.is_bounded() { by_chance.max(worst) } else { by_chance }),
        };
    }
    Ok(least)
}

const OWN: [Id; 19] = [
    UNDER_ALONG.id,
    UNDER_ACROSS.id,
    UNDER_UP.id,
    LOWER_FROM.id,
    LOWER_TO.id,
    LOWER_TOP.id,
    PADS_UP.id,
    BUMP.id,
    SQUASH.id,
    SUMP_WIDTH.id,
    CORNERING.id,
    MEASURING.id,
    SPREAD.id,
    ROAD_BUMP_LEAST.id,
    HEIGHT.id,
    ROOM_LEAST.id,
    WORST_LEAST.id,
    ROAD_LEAST.id,
    CHANCE_MOST.id,
];

pub(super) const BELOW_STEP: Step = Step {
    name: "room underneath",
    reads: &joined::<19, 18, 37>(OWN, joined::<4, 14, 18>(Standing::READS, Motion::READS)),
    writes: &[
        UNDER_CLEARANCE.id,
        UNDER_WORST.id,
        UNDER_RSS.id,
        UNDER_CHANCE.id,
        UNDER_ROAD.id,
        LEAST_UNDER.id,
        LEAST_UNDER_WORST.id,
        ROAD.id,
        ROAD_BUMP.id,
        SURGE.id,
        LOWEST_BELOW.id,
    ],
    run: |case| {
        let (standing, motion, measured) = (Standing::read(case), Motion::read(case), case.measured());
        let parts = Parts::read(case, measured);
        let parts = parts.as_ref().map_err(|why| *why);
        let (mut least, mut worst, mut road, mut bumped) = (Least::new(), Least::new(), Least::new(), Least::new());
        let mut by_chance = Least::new();
        // So rare over each part that all parts together are rare enough.
        let sigmas = case.of(CHANCE_MOST).and_then(|most| Ok(sigmas_above(most.si() / parts?.count as f64)));
        let pads = case.of(PADS_UP).map(Length::si);
        for row in 0..case.rows(UNDER) {
            let low = Low::read(case, row, measured);
            let stood = standing.and_then(|standing| Ok(rest(&standing, parts?, &low?)));
            let moved = standing.and_then(|standing| moving(&standing, &motion?, parts?, &low?, sigmas.unwrap_or(0.0)));
            case.answer_row(UNDER_CLEARANCE, row, |case| {
                let Stood { gap, up, top } = stood?;
                Ok(case.say(&OVER_PART, &[up, top], Length::from_si(gap)))
            });
            for (output, line, left) in [
                (UNDER_WORST, &WORST, moved.map(|moved| (moved.gap, moved.worst))),
                (UNDER_RSS, &SQUARES, moved.map(|moved| (moved.gap, moved.rss))),
            ] {
                case.answer_row(output, row, |case| {
                    let (gap, left) = left?;
                    Ok(case.say(line, &[gap, gap - left], Length::from_si(left)))
                });
            }
            case.answer_row(UNDER_CHANCE, row, |_| moved.map(|moved| Ratio::from_si(moved.chance)));
            let over_road = standing.and_then(|standing| Ok(standing.stance.place(low?.at)[2] + pads?));
            case.answer_row(UNDER_ROAD, row, |_| over_road.map(Length::from_si));
            least.take(stood.map(|stood| stood.gap));
            worst.take(moved.map(|moved| moved.worst));
            by_chance.take(sigmas.and_then(|_| Ok(moved?.by_chance)));
            road.take(over_road);
            // Bounced down at its own place, not at the mounts'.
            bumped.take(motion.and_then(|motion| Ok(over_road? - motion.shift(0, low?.at).1)));
        }
        case.answer(LEAST_UNDER, |_| least.0.map(Length::from_si));
        case.answer(LEAST_UNDER_WORST, |_| worst.0.map(Length::from_si));
        case.answer(ROAD, |_| road.0.map(Length::from_si));
        case.answer(ROAD_BUMP, |case| after_bump(case, road.0?, bumped.0?));
        case.answer(LOWEST_BELOW, |case| {
            let (room, at_worst) = (case.of(ROOM_LEAST)?.si(), case.of(WORST_LEAST)?.si());
            let (on_road, on_bump) = (case.of(ROAD_LEAST)?.si(), case.of(ROAD_BUMP_LEAST)?.si());
            let after = bumped.0? - case.of(BUMP)?.si() - case.of(SQUASH)?.si();
            let margin = (least.0? - room).min(worst.0? - at_worst).min(by_chance.0?).min(road.0? - on_road).min(after - on_bump);
            let height = case.of(HEIGHT)?;
            Ok(case.say(&LOWEST, &[height.si(), margin], height - Length::from_si(margin)))
        });
        case.answer(SURGE, |case| {
            let (width, cornering) = (case.of(SUMP_WIDTH)?, case.of(CORNERING)?.si());
            Ok(case.say(&CLIMBS, &[width.si(), cornering], surge(width, cornering)))
        });
    },
};

fn after_bump(case: &mut Case<'_>, standing: f64, bounced: f64) -> Result<Length, Unknown> {
    let (bump, squash) = (case.of(BUMP)?, case.of(SQUASH)?);
    let left = Length::from_si(bounced) - bump - squash;
    Ok(case.say(&BUMPED, &[standing, bump.si(), squash.si(), standing - bounced], left))
}
