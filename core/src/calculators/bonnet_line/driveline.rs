//! What does the engine's place do to the propshaft?

use super::joints::{Bend, residual, shake, unevenness};
use super::placed::Standing;
use super::propshaft::critical_speed;
use super::{
    BAND, CRITICAL_SPEED, FLANGE_ALONG, FLANGE_UP, FRONT_JOINT, HEIGHT, HIGHEST_ABOVE, HIGHEST_BEHIND, JOINT_MOST, JOINT_STRAIGHT,
    LOWEST_BEHIND, LOWEST_BELOW, MOVE, NOSE_UP, PINION_ACROSS, PINION_ALONG, PINION_UP, PROP_SPEED, PROP_SPEED_GEARED, REAR_JOINT,
    RESIDUAL, SHAFT_LENGTH, SHAFT_UNEVENNESS, SHAKE, SHAKE_MOST, TUBE_DENSITY, TUBE_INNER, TUBE_MODULUS, TUBE_OUTER, UNEVENNESS, WHIRL,
    YOKES, Yokes, joined,
};
use crate::calculators::car;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{DEG, GPA, KG_PER_M3, MM, ONE, PERCENT, RAD_PER_S2, RPM};
use crate::quantity::{Angle, Length, Ratio, RotationalSpeed};
use crate::report::Unknown;
use crate::spec::{Id, Source};

const TEXTBOOK: Source = Source::FromMemory("Khurmi & Gupta, Theory of Machines, ch. 9");
const PRACTICE: Source = Source::FromMemory("propshaft makers' practice");

static BENT: Line =
    Line {
        equation: "β = atan √(tan² β_v + tan² β_h)", terms: &[("β_v", DEG), ("β_h", DEG)], unit: DEG, source: Source::Definition
    };
// Sideways both joints bend alike, which leaves this of the squares of their directions.
static LEFT_OVER: Line = Line {
    equation: "β_e = √(|γ₁ − γ₂| · √((γ₁ + γ₂)² + 4 · β_h²))",
    terms: &[("γ₁", DEG), ("γ₂", DEG), ("β_h", DEG)],
    unit: DEG,
    source: PRACTICE,
};
static CROSSED: Line = Line {
    equation: "β_e = √(√((γ₁² + γ₂² − 2 · β_h²)² + 4 · β_h² · (γ₁ + γ₂)²))",
    terms: &[("γ₁", DEG), ("γ₂", DEG), ("β_h", DEG)],
    unit: DEG,
    source: PRACTICE,
};
static UNEVEN: Line = Line { equation: "U = tan β · sin β", terms: &[("β", DEG)], unit: PERCENT, source: TEXTBOOK };
static SHAKES: Line =
    Line { equation: "α = β_e² · (2 · π · n)²", terms: &[("β_e", DEG), ("n", RPM)], unit: RAD_PER_S2, source: TEXTBOOK };
static GEARED: Line = Line { equation: "n = n_max / i", terms: &[("n_max", RPM), ("i", ONE)], unit: RPM, source: Source::Definition };
static WHIRLS: Line = Line {
    equation: "ω = (π / L)² · √(E · (D² + d²) / (16 · ρ))",
    terms: &[("L", MM), ("E", GPA), ("D", MM), ("d", MM), ("ρ", KG_PER_M3)],
    unit: RPM,
    source: Source::FromMemory("bending of a uniform beam on two supports, any mechanics text"),
};
static AGAINST: Line = Line { equation: "w = n / n_c", terms: &[("n", RPM), ("n_c", RPM)], unit: PERCENT, source: Source::Definition };
static LONG: Line =
    Line { equation: "L = √(x² + y² + z²)", terms: &[("x", MM), ("y", MM), ("z", MM)], unit: MM, source: Source::Definition };

/// The shaft as it lies: from the front joint to the rear one, along, across and down; and the two axes it joins.
#[derive(Clone, Copy)]
struct Shaft {
    run: [f64; 3],
    tail_down: f64,
    nose_up: f64,
    falls: f64,
    aside: f64,
}

impl Shaft {
    fn read(case: &mut Case<'_>) -> Result<Self, Unknown> {
        let standing = Standing::read(case)?;
        let front = standing.stance.place([case.of(FLANGE_ALONG)?.si(), 0.0, case.of(FLANGE_UP)?.si()]);
        let rear = [case.of(PINION_ALONG)?.si(), case.of(PINION_ACROSS)?.si(), case.of(PINION_UP)?.si()];
        let run = [rear[0] - front[0], rear[1] - front[1], front[2] - rear[2]];
        if run[0] <= 0.0 {
            return Err(Unknown::NoSolution("The rear joint must lie behind the front one."));
        }
        let (falls, aside) = (libm::atan2(run[2], run[0]), libm::atan2(run[1], run[0]));
        Ok(Self { run, tail_down: standing.pitch, nose_up: case.of(NOSE_UP)?.si(), falls, aside })
    }

    fn front(&self) -> Bend {
        Bend { vertical: Angle::from_si(self.falls - self.tail_down), sideways: Angle::from_si(self.aside) }
    }

    fn rear(&self) -> Bend {
        Bend { vertical: Angle::from_si(self.falls - self.nose_up), sideways: Angle::from_si(self.aside) }
    }

    /// How far the shaft may fall or rise to the rear until a joint bends by more than `most`, or both together shake by
    /// more than `shake` (over the speed squared). Yokes in line.
    fn falls_within(&self, most: f64, shake: f64) -> Option<[f64; 2]> {
        let (limit, aside) = (libm::tan(most), libm::tan(self.aside));
        let left = limit * limit - aside * aside;
        // (a − θ)² − (a − ν)² = (ν − θ)·(2a − θ − ν), and of the sideways parts 2·b·(ν − θ) is left.
        let apart = (self.nose_up - self.tail_down).abs();
        let sum = self.nose_up + self.tail_down;
        let reach = if apart > 0.0 {
            let ratio = shake / apart;
            ratio * ratio - 4.0 * self.aside * self.aside
        } else {
            f64::INFINITY
        };
        if left < 0.0 || reach < 0.0 {
            return None;
        }
        let (bend, reach) = (libm::atan(left.sqrt()), reach.sqrt());
        let lowest = (self.tail_down - bend).max(self.nose_up - bend).max((sum - reach) / 2.0);
        let highest = (self.tail_down + bend).min(self.nose_up + bend).min((sum + reach) / 2.0);
        Some([lowest, highest])
    }

    /// What is left of a stretch of such falls where no joint bends by less than `least`: before, between and behind the
    /// two axes. A joint that bends enough sideways is never too straight.
    fn bent_within(&self, [lowest, highest]: [f64; 2], least: f64) -> [[f64; 2]; 3] {
        let (limit, aside) = (libm::tan(least), libm::tan(self.aside));
        let left = limit * limit - aside * aside;
        if left <= 0.0 {
            return [[lowest, highest]; 3];
        }
        let straight = libm::atan(left.sqrt());
        let (first, second) = (self.tail_down.min(self.nose_up), self.tail_down.max(self.nose_up));
        [
            [lowest, highest.min(first - straight)],
            [lowest.max(first + straight), highest.min(second - straight)],
            [lowest.max(second + straight), highest],
        ]
    }
}

const OWN: [Id; 9] =
    [FLANGE_ALONG.id, FLANGE_UP.id, PINION_ALONG.id, PINION_UP.id, PINION_ACROSS.id, NOSE_UP.id, YOKES.id, PROP_SPEED.id, HEIGHT.id];

pub(super) const GEARED_STEP: Step = Step {
    name: "propshaft speed",
    reads: &[car::HIGHEST_SPEED.id, car::GEAR_RATIO.id],
    writes: &[PROP_SPEED_GEARED.id],
    run: |case| {
        case.answer(PROP_SPEED_GEARED, |case| {
            let (engine, highest) = (case.of(car::HIGHEST_SPEED)?, car::gearing::top(case)?.si());
            Ok(case.say(&GEARED, &[engine.si(), highest], engine / highest))
        });
    },
};

pub(super) const JOINTS_STEP: Step = Step {
    name: "propshaft",
    reads: &joined::<9, 13, 22>(
        [
            TUBE_OUTER.id,
            TUBE_INNER.id,
            TUBE_MODULUS.id,
            TUBE_DENSITY.id,
            JOINT_MOST.id,
            JOINT_STRAIGHT.id,
            SHAKE_MOST.id,
            HIGHEST_ABOVE.id,
            LOWEST_BELOW.id,
        ],
        joined::<9, 4, 13>(OWN, Standing::READS),
    ),
    writes: &[
        FRONT_JOINT.id,
        REAR_JOINT.id,
        RESIDUAL.id,
        UNEVENNESS.id,
        SHAFT_UNEVENNESS.id,
        SHAKE.id,
        SHAFT_LENGTH.id,
        CRITICAL_SPEED.id,
        WHIRL.id,
        LOWEST_BEHIND.id,
        HIGHEST_BEHIND.id,
    ],
    run: |case| {
        let shaft = Shaft::read(case);
        let joints = shaft.and_then(|shaft| Joints::of(&shaft, case.of(YOKES)?));
        case.answer(FRONT_JOINT, |case| joints.map(|joints| say_bend(case, joints.front)));
        case.answer(REAR_JOINT, |case| joints.map(|joints| say_bend(case, joints.rear)));
        case.answer(RESIDUAL, |case| joints.map(|joints| joints.say_left(case)));
        case.answer(UNEVENNESS, |case| {
            let left = joints?.say_left(case);
            Ok(case.say(&UNEVEN, &[left.si()], unevenness(left)))
        });
        case.answer(SHAFT_UNEVENNESS, |case| {
            let bend = say_bend(case, joints?.front);
            Ok(case.say(&UNEVEN, &[bend.si()], unevenness(bend)))
        });
        case.answer(SHAKE, |case| {
            let (left, speed) = (joints?.say_left(case), case.of(PROP_SPEED)?);
            Ok(case.say(&SHAKES, &[left.si(), speed.si()], shake(speed, left)))
        });
        case.answer(SHAFT_LENGTH, |case| length(case, shaft?));
        case.answer(CRITICAL_SPEED, |case| critical(case, shaft?));
        case.answer(WHIRL, |case| {
            let (critical, speed) = (critical(case, shaft?)?, case.of(PROP_SPEED)?);
            Ok(case.say(&AGAINST, &[speed.si(), critical.si()], Ratio::from_si(speed / critical)))
        });
        let heights = heights(case, shaft);
        case.answer(LOWEST_BEHIND, |_| heights.map(|[lowest, _]| lowest));
        case.answer(HIGHEST_BEHIND, |_| heights.map(|[_, highest]| highest));
    },
};

/// Both joints' bends, and what they leave together.
#[derive(Clone, Copy)]
struct Joints {
    front: (Bend, Angle),
    rear: (Bend, Angle),
    left: Angle,
    crossed: bool,
}

impl Joints {
    fn of(shaft: &Shaft, yokes: Yokes) -> Result<Self, Unknown> {
        let (front, rear, crossed) = (shaft.front(), shaft.rear(), yokes == Yokes::Crossed);
        Ok(Self { front: (front, front.angle()), rear: (rear, rear.angle()), left: residual(front, rear, crossed), crossed })
    }

    fn say_left(&self, case: &mut Case<'_>) -> Angle {
        let line = if self.crossed { &CROSSED } else { &LEFT_OVER };
        case.say(line, &[self.front.0.vertical.si(), self.rear.0.vertical.si(), self.front.0.sideways.si()], self.left)
    }
}

fn say_bend(case: &mut Case<'_>, (bend, angle): (Bend, Angle)) -> Angle {
    case.say(&BENT, &[bend.vertical.si(), bend.sideways.si()], angle)
}

fn length(case: &mut Case<'_>, shaft: Shaft) -> Result<Length, Unknown> {
    let [along, across, down] = shaft.run;
    Ok(case.say(&LONG, &shaft.run, Length::from_si((along * along + across * across + down * down).sqrt())))
}

fn critical(case: &mut Case<'_>, shaft: Shaft) -> Result<RotationalSpeed, Unknown> {
    let (outer, inner, length) = (case.of(TUBE_OUTER)?, case.of(TUBE_INNER)?, length(case, shaft)?);
    let (modulus, density) = (case.of(TUBE_MODULUS)?, case.of(TUBE_DENSITY)?);
    if inner >= outer {
        return Err(Unknown::NoSolution("The tube's inside must be smaller than its outside."));
    }
    let found = critical_speed(outer, inner, length, modulus, density);
    Ok(case.say(&WHIRLS, &[length.si(), modulus.si(), outer.si(), inner.si(), density.si()], found))
}

/// Heights of the engine between which no joint passes a limit; only the pitch stays as it is. Where joints that would
/// stand too straight leave several stretches: the nearest that suits above and below too, or else the nearest.
fn heights(case: &mut Case<'_>, shaft: Result<Shaft, Unknown>) -> Result<[Length; 2], Unknown> {
    let (shaft, height, most, shake) = (shaft?, case.of(HEIGHT)?, case.of(JOINT_MOST)?, case.of(SHAKE_MOST)?);
    let straight = case.of(JOINT_STRAIGHT)?;
    if case.of(YOKES)? == Yokes::Crossed {
        return Err(Unknown::NoSolution("Put the yokes of the shaft in line first."));
    }
    let speed = case.of(PROP_SPEED)?.si();
    let within = shaft
        .falls_within(most.si(), shake.si() / (speed * speed))
        .ok_or(Unknown::NoSolution("The joints bend too much sideways, at any height."))?;
    let up_to = |falls: f64| height + Length::from_si(shaft.run[0] * libm::tan(falls) - shaft.run[2]);
    let stretches = shaft.bent_within(within, straight.si());
    if stretches[0] == within {
        return Ok(within.map(up_to));
    }
    let (below, above) = (case.of(LOWEST_BELOW), case.of(HIGHEST_ABOVE));
    let mut best: Option<(bool, Length, [Length; 2])> = None;
    for stretch in stretches {
        let [lowest, highest] = stretch.map(up_to);
        if lowest > highest {
            continue;
        }
        let meets = above.is_ok_and(|above| lowest <= above) && below.is_ok_and(|below| highest >= below);
        let away = (lowest - height).max(height - highest).max(Length::ZERO);
        if best.is_none_or(|(met, least, _)| (meets && !met) || (meets == met && away < least)) {
            best = Some((meets, away, [lowest, highest]));
        }
    }
    let found = best.map(|(.., ends)| ends);
    found.ok_or(Unknown::NoSolution("At every height a joint bends too much or stands too straight."))
}

pub(super) const BAND_STEP: Step = Step {
    name: "heights that suit",
    reads: &[HEIGHT.id, HIGHEST_ABOVE.id, LOWEST_BELOW.id, LOWEST_BEHIND.id, HIGHEST_BEHIND.id],
    writes: &[BAND.id, MOVE.id],
    run: |case| {
        case.answer(BAND, |case| {
            let [lowest, highest] = band(case)?;
            Ok(highest - lowest)
        });
        case.answer(MOVE, |case| {
            let ([lowest, highest], height) = (band(case)?, case.of(HEIGHT)?);
            if highest < lowest {
                return Err(Unknown::NoSolution("No height suits above, below and behind at once."));
            }
            Ok(height.max(lowest).min(highest) - height)
        });
    },
};

fn band(case: &mut Case<'_>) -> Result<[Length; 2], Unknown> {
    let lowest = case.of(LOWEST_BELOW)?.max(case.of(LOWEST_BEHIND)?);
    let highest = case.of(HIGHEST_ABOVE)?.min(case.of(HIGHEST_BEHIND)?);
    Ok([lowest, highest])
}
