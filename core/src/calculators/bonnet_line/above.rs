//! Does every point clear what is over it, and what does the tightest hang on?

use super::placed::{Bonnet, Motion, OffBy, Point, Standing};
use super::room::{CONTRIBUTORS, Left, Moving, Rest, moving, opening, rest, variances};
use super::values::Values;
use super::{
    BUYS_CUT, BUYS_DROP, BUYS_PACKER, BUYS_RAISE, BUYS_TILT, CHANCE, CHANCE_ANY, CHANCE_MOST, CLEARANCE, Contributor, FIRST, FIRST_SHARE,
    HEIGHT, HIGHEST_ABOVE, LEAST, LEAST_RSS, LEAST_WORKING, LEAST_WORST, POINTS, ROOM_LEAST, RSS, SECOND, SECOND_SHARE, SWINGING, THIRD,
    THIRD_SHARE, TRY_CUT, TRY_DROP, TRY_PACKER, TRY_RAISE, TRY_TILT, WORKING, WORST, WORST_LEAST, joined, remedies,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{DEG, MM, PERCENT};
use crate::quantity::{Length, Ratio, Value};
use crate::report::Unknown;
use crate::spec::{Id, Output, OutputColumn, Source};
use crate::tolerance::{Off, normal_tail, sigmas_above};

const GEOMETRY: Source = Source::Definition;
const STACKS: Source = Source::FromMemory("Scholz 1995, Tolerance Stack Analysis Methods");
const GUM: Source = Source::FromMemory("JCGM 100:2008, 5.1.2");

static PLACED: Line =
    Line {
        equation: "z = h + u · cos θ − x · sin θ", terms: &[("h", MM), ("u", MM), ("θ", DEG), ("x", MM)], unit: MM, source: GEOMETRY
    };
static STANDING: Line = Line { equation: "s = B − z", terms: &[("B", MM), ("z", MM)], unit: MM, source: GEOMETRY };
static IN_MOTION: Line =
    Line { equation: "s_w = B − z − b − p", terms: &[("B", MM), ("z", MM), ("b", MM), ("p", MM)], unit: MM, source: GEOMETRY };
static AT_WORST: Line = Line { equation: "s_min = s_w − T", terms: &[("s_w", MM), ("T", MM)], unit: MM, source: STACKS };
static BY_SQUARES: Line = Line { equation: "s_rss = s_w − √Σt²", terms: &[("s_w", MM), ("√Σt²", MM)], unit: MM, source: STACKS };
static TAIL: Line = Line { equation: "P = ½ · erfc(s / (σ · √2))", terms: &[("s", MM), ("σ", MM)], unit: PERCENT, source: GUM };
static NONE: Line = Line { equation: "P = 0", terms: &[], unit: PERCENT, source: STACKS };
static HIGHEST: Line = Line { equation: "h_max = h + m", terms: &[("h", MM), ("m", MM)], unit: MM, source: GEOMETRY };
static SHARE: Line = Line { equation: "p = v / Σv", terms: &[("v", PERCENT), ("Σv", PERCENT)], unit: PERCENT, source: GUM };

/// Most rows of [`POINTS`].
pub(super) const MOST_POINTS: usize = 24;

const OWN: [Id; 8] = [ROOM_LEAST.id, WORST_LEAST.id, CHANCE_MOST.id, TRY_CUT.id, TRY_PACKER.id, TRY_DROP.id, TRY_TILT.id, TRY_RAISE.id];

pub(super) const ABOVE_STEP: Step = Step {
    name: "room above",
    reads: &joined::<8, 36, 44>(
        OWN,
        joined::<4, 32, 36>(Standing::READS, joined::<14, 18, 32>(Motion::READS, joined::<5, 13, 18>(Point::READS, Bonnet::READS))),
    ),
    writes: &[
        CLEARANCE.id,
        WORKING.id,
        WORST.id,
        RSS.id,
        CHANCE.id,
        SWINGING.id,
        LEAST.id,
        LEAST_WORKING.id,
        LEAST_WORST.id,
        LEAST_RSS.id,
        CHANCE_ANY.id,
        FIRST.id,
        FIRST_SHARE.id,
        SECOND.id,
        SECOND_SHARE.id,
        THIRD.id,
        THIRD_SHARE.id,
        HIGHEST_ABOVE.id,
        BUYS_CUT.id,
        BUYS_PACKER.id,
        BUYS_DROP.id,
        BUYS_TILT.id,
        BUYS_RAISE.id,
    ],
    run: |case| {
        let (standing, motion, bonnet) = (Standing::read(case), Motion::read(case), Bonnet::read(case));
        let bonnet = bonnet.as_ref().map_err(|why| *why);
        // The least of each kind, and where it is; unknown while any point is, as it might be the one.
        let (mut least, mut working, mut worst, mut rss) = (Least::new(), Least::new(), Least::new(), Least::new());
        let mut any = Ok(0.0);
        let mut tightest = None;
        let (limits, measured) = (Limits::read(case), case.measured());
        let car = match (&standing, &motion, bonnet) {
            (Ok(standing), Ok(motion), Ok(bonnet)) => Ok((standing, motion, bonnet)),
            (standing, motion, bonnet) => {
                Err([standing.err(), motion.err(), bonnet.err()].into_iter().flatten().next().unwrap_or(Unknown::NotComputed))
            }
        };
        let mut rooms = [None; MOST_POINTS];
        let (mut margin, mut touching) = (Least::new(), Touching::new());
        for row in 0..case.rows(POINTS) {
            let point = Point::read(case, row);
            let stood = standing.and_then(|standing| rest(&standing.stance, bonnet?, &point?));
            // What nobody said a measurement may be off by, `left` of the room asks for.
            let off_by = OffBy::read(case, row, measured.unwrap_or(Off::NONE));
            let moved = car.and_then(|car| moving(car, &point?, &off_by));
            case.answer_row(CLEARANCE, row, |case| stand(case, standing, point, stood));
            case.answer_row(WORKING, row, |case| {
                let Moving { over, up, bounce, pressed, gap, .. } = moved?;
                Ok(case.say(&IN_MOTION, &[over, up, bounce, pressed], Length::from_si(gap)))
            });
            let left = moved.and_then(|moved| moved.left);
            less(case, WORST, &AT_WORST, row, left.and_then(|left| Ok((moved?.gap, left.worst))));
            less(case, RSS, &BY_SQUARES, row, left.and_then(|left| Ok((moved?.gap, left.rss))));
            let chance = left.and_then(|left| Ok(chance_of(moved?.gap, left.deviation, left.possible)));
            case.answer_row(CHANCE, row, |case| Ok(say_chance(case, moved?.gap, left?.deviation, chance?)));
            case.answer_row(SWINGING, row, |_| opening(bonnet?, &point?, &stood?).map(Length::from_si));
            least.take(stood.map(|stood| stood.gap));
            working.take(moved.map(|moved| moved.gap));
            rss.take(left.map(|left| left.rss));
            if worst.take(left.map(|left| left.worst)) {
                tightest = point.ok().map(|point| (point, off_by)).zip(moved.ok());
            }
            any = any.and_then(|sum: f64| Ok(sum + chance?));
            if let (Some(room), Ok(point), Ok(stood)) = (rooms.get_mut(row), point, stood) {
                *room = Some((point, stood.gap));
            }
            margin.take(limits.and_then(|limits| Ok(limits.margin(&stood?, &left?))));
            if let (Ok(moved), Ok(left)) = (moved, left) {
                touching.take(moved.gap, &left);
            }
        }
        for (output, found) in [(LEAST, least), (LEAST_WORKING, working), (LEAST_WORST, worst), (LEAST_RSS, rss)] {
            case.answer(output, |_| found.0.map(Length::from_si));
        }
        case.answer(HIGHEST_ABOVE, |case| {
            let (height, margin) = (case.of(HEIGHT)?, touching.margin(margin.0?, limits?));
            Ok(case.say(&HIGHEST, &[height.si(), margin], height + Length::from_si(margin)))
        });
        remedies::buys(case, standing, bonnet, least.0, &rooms);
        case.answer(CHANCE_ANY, |_| any.map(|sum| Ratio::from_si(sum.min(1.0))));
        let ranked = worst.0.and_then(|_| {
            let ((point, off_by), moved) = tightest.ok_or(Unknown::NotComputed)?;
            variances(car?, &point, &off_by, moved.side).map(ranked)
        });
        for (at, (which, share)) in [(FIRST, FIRST_SHARE), (SECOND, SECOND_SHARE), (THIRD, THIRD_SHARE)].into_iter().enumerate() {
            rank(case, which, share, ranked, at);
        }
    },
};

fn stand(
    case: &mut Case<'_>,
    standing: Result<Standing, Unknown>,
    point: Result<Point, Unknown>,
    stood: Result<Rest, Unknown>,
) -> Result<Length, Unknown> {
    let (Standing { at, pitch, .. }, Point { at: [along, _, up], .. }, stood) = (standing?, point?, stood?);
    let placed = case.say(&PLACED, &[at[2], up, pitch, along], Length::from_si(stood.placed[2]));
    Ok(case.say(&STANDING, &[stood.over, placed.si()], Length::from_si(stood.gap)))
}

/// A room less what tolerances take.
fn less(case: &mut Case<'_>, output: OutputColumn<Length>, line: &'static Line, row: usize, found: Result<(f64, f64), Unknown>) {
    case.answer_row(output, row, |case| {
        let (gap, left) = found?;
        Ok(case.say(line, &[gap, gap - left], Length::from_si(left)))
    });
}

/// Beyond so many deviations a chance is called none: less than one in a million million, and no error is so normal.
const NEVER: f64 = 7.0;

/// The chance that a point touches: its room, what that may be off by, and whether it can touch at all.
pub(super) fn chance_of(gap: f64, deviation: f64, possible: bool) -> f64 {
    if !possible || gap > NEVER * deviation {
        0.0
    } else if deviation > 0.0 {
        normal_tail(gap / deviation)
    } else {
        f64::from(gap < 0.0)
    }
}

fn say_chance(case: &mut Case<'_>, gap: f64, deviation: f64, chance: f64) -> Ratio {
    let found = Ratio::from_si(chance);
    if chance > 0.0 { case.say(&TAIL, &[gap, deviation], found) } else { case.say(&NONE, &[], found) }
}

/// The least of many, unknown as soon as one of them is.
#[derive(Clone, Copy)]
pub(super) struct Least(pub(super) Result<f64, Unknown>);

impl Least {
    pub(super) const fn new() -> Self {
        Self(Ok(f64::INFINITY))
    }

    /// Takes one more; true when it is the least so far.
    pub(super) fn take(&mut self, next: Result<f64, Unknown>) -> bool {
        match (self.0, next) {
            (Ok(least), Ok(next)) if next < least => {
                self.0 = Ok(next);
                true
            }
            (Ok(_), Err(why)) => {
                self.0 = Err(why);
                false
            }
            _ => false,
        }
    }
}

/// How far the engine may rise until a limit above is passed.
#[derive(Clone, Copy)]
struct Limits {
    room: f64,
    worst: f64,
    /// Of contact at any point.
    chance: f64,
}

impl Limits {
    fn read(case: &mut Case<'_>) -> Result<Self, Unknown> {
        Ok(Self { room: case.of(ROOM_LEAST)?.si(), worst: case.of(WORST_LEAST)?.si(), chance: case.of(CHANCE_MOST)?.si() })
    }

    /// Every room changes with the engine's height as it is, whatever lies over the point.
    fn margin(&self, stood: &Rest, left: &Left) -> f64 {
        (stood.gap - self.room).min(left.worst - self.worst)
    }
}

/// What the chance of contact at any point hangs on: of each point its room, what that may be off by, and its worst room if
/// it has one.
struct Touching {
    points: [(f64, f64, f64); MOST_POINTS],
    count: usize,
}

impl Touching {
    const fn new() -> Self {
        Self { points: [(0.0, 0.0, 0.0); MOST_POINTS], count: 0 }
    }

    fn take(&mut self, gap: f64, left: &Left) {
        if let Some(point) = self.points.get_mut(self.count) {
            *point = (gap, left.deviation, if left.bounded { left.worst } else { f64::NEG_INFINITY });
            self.count += 1;
        }
    }

    /// The chance with the engine higher by this.
    fn chance(&self, higher: f64) -> f64 {
        let points = self.points[..self.count].iter();
        points.map(|(gap, deviation, worst)| chance_of(gap - higher, *deviation, *worst < higher)).sum()
    }

    /// How far the engine may rise by the limit on that chance, and no further than by the other limits.
    fn margin(&self, others: f64, limits: Limits) -> f64 {
        if self.chance(others) <= limits.chance {
            return others;
        }
        // So rare at each point that all together are rare enough.
        let sigmas = sigmas_above(limits.chance / self.count.max(1) as f64);
        let rare = self.points[..self.count].iter().map(|(gap, deviation, worst)| (gap - sigmas * deviation).max(*worst));
        let (mut low, mut high) = (rare.fold(others, f64::min), others);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.chance(middle) <= limits.chance { low = middle } else { high = middle }
        }
        low - TO_SPARE
    }
}

/// A metre, so often halved, is a millionth of a millimetre; and so much is left, that rounding passes no limit.
const HALVINGS: u8 = 30;
const TO_SPARE: f64 = 1e-9;

/// Contributors with their shares, most first.
type Ranked = [(usize, f64, f64); CONTRIBUTORS];

fn ranked(variances: [f64; CONTRIBUTORS]) -> Ranked {
    let all: f64 = variances.iter().sum();
    let mut ranked = [(0, 0.0, all); CONTRIBUTORS];
    for (at, variance) in variances.into_iter().enumerate() {
        let mut place = at;
        while place > 0 && ranked[place - 1].1 < variance {
            ranked[place] = ranked[place - 1];
            place -= 1;
        }
        ranked[place] = (at, variance, all);
    }
    ranked
}

fn rank(case: &mut Case<'_>, which: Output<Contributor>, share: Output<Ratio>, ranked: Result<Ranked, Unknown>, at: usize) {
    let found = ranked.and_then(|ranked| match ranked[at] {
        (_, _, all) if all <= 0.0 => Err(Unknown::NoSolution("No dimension has a tolerance.")),
        found => Ok(found),
    });
    case.answer(which, |_| found.map(|(contributor, ..)| Contributor::from_cell(contributor as f64)));
    case.answer(share, |case| {
        let (_, variance, all) = found?;
        Ok(case.say(&SHARE, &[variance, all], Ratio::from_si(variance / all)))
    });
}
