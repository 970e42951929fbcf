//! Where the belt runs: spans, wraps and length of a closed path over pulleys in any order, ribs or back.
//!
//! A ribbed pulley lies inside the loop and a back-side one outside it, so the two kinds turn opposite ways. Each span
//! is the common tangent of its two pulleys ([`tangent`]); each wrap is the angle between the spans that meet there.
//! Once round, ribbed wraps less back-side wraps make one turn: Σ(sign·wrap) = 360° is what proves a path closed.

use super::tangent::{Hand, Point, Span, tangent};
use crate::choices;
use crate::quantity::{Angle, Length, metres, radians};
use core::f64::consts::{PI, TAU};
use core::fmt;

/// Most pulleys one belt may run over.
pub const MOST_PULLEYS: usize = 12;

choices! {
    /// Which face of the belt a pulley touches.
    #[derive(Default)]
    Side {
        #[default]
        Ribs "ribs" "grooved, on the belt's ribs"
        Back "back" "smooth, on the belt's back"
    }
}

/// One pulley of the drive.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Pulley {
    /// Its axis.
    pub centre: Point,
    /// Diameter of the belt's cord line on it (see [`super::speeds`]).
    pub diameter: Length,
    /// Face of the belt it touches.
    pub side: Side,
}

/// Where the belt lies on a pulley.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Arc {
    /// Where it comes on, in the order listed.
    pub start: Point,
    /// Where it leaves.
    pub end: Point,
    /// Angle it covers.
    pub wrap: Angle,
    /// Belt on it.
    pub length: Length,
    /// Way the pulley turns when the belt runs in the order listed.
    pub hand: Hand,
}

/// A closed path: span *i* runs from pulley *i* to the next one listed, arc *i* lies on pulley *i*.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeltPath {
    count: usize,
    spans: [Span; MOST_PULLEYS],
    arcs: [Arc; MOST_PULLEYS],
    /// Length along the cord line.
    pub length: Length,
    /// Ribbed wraps less back-side wraps: 360° but for rounding.
    pub turning: Angle,
    /// Way the pulleys were listed round the loop.
    pub listed: Hand,
}

impl BeltPath {
    /// The spans, in the order listed.
    #[must_use]
    pub fn spans(&self) -> &[Span] {
        &self.spans[..self.count]
    }

    /// The arcs, in the order listed.
    #[must_use]
    pub fn arcs(&self) -> &[Arc] {
        &self.arcs[..self.count]
    }

    /// Index of the span that arrives at a pulley, in the order listed.
    pub(super) fn before(&self, pulley: usize) -> usize {
        (pulley + self.count - 1) % self.count
    }
}

/// Why no belt can run over these pulleys in this order. Pulleys are counted from 0, and told from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Impossible {
    /// Fewer than two pulleys.
    TooFew,
    /// More than [`MOST_PULLEYS`].
    TooMany,
    /// A diameter or place that is no sensible number.
    NotAPulley(usize),
    /// Two pulleys in the same place.
    Overlap(usize, usize),
    /// The belt would not touch this pulley.
    Misses(usize),
    /// The spans that leave these pulleys cross.
    Crosses(usize, usize),
    /// In this order the belt does not go round once.
    NotOnce,
}

/// The same words about each of the pulleys.
macro_rules! numbered {
    ($before:literal, $after:literal) => {
        numbered!($before, $after, 1 2 3 4 5 6 7 8 9 10 11 12)
    };
    ($before:literal, $after:literal, $($number:literal)*) => { [$(concat!($before, $number, $after)),*] };
}

static NOT_A_PULLEY: [&str; MOST_PULLEYS] = numbered!("Pulley ", " has no usable diameter or place.");
static OVERLAPS: [&str; MOST_PULLEYS] = numbered!("Pulley ", " overlaps another: move them apart.");
static MISSES: [&str; MOST_PULLEYS] =
    numbered!("The belt would not touch pulley ", ": move it, let it run on the other side, or change its place in the order.");
static CROSSES: [&str; MOST_PULLEYS] = numbered!("The belt would cross itself after pulley ", ": check the order and the sides.");

impl Impossible {
    /// The reason as a sentence, naming one pulley.
    #[must_use]
    pub fn reason(self) -> &'static str {
        let about = |words: &'static [&'static str; MOST_PULLEYS], at: usize| words.get(at).copied().unwrap_or("There is no such pulley.");
        match self {
            Self::TooFew => "A belt needs at least two pulleys.",
            Self::TooMany => "A belt here runs over at most twelve pulleys.",
            Self::NotAPulley(at) => about(&NOT_A_PULLEY, at),
            Self::Overlap(_, at) => about(&OVERLAPS, at),
            Self::Misses(at) => about(&MISSES, at),
            Self::Crosses(_, at) => about(&CROSSES, at),
            Self::NotOnce => "In this order the belt does not run round once: check the order and the sides.",
        }
    }
}

impl fmt::Display for Impossible {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Overlap(one, two) => write!(out, "Pulleys {} and {} overlap: move them apart.", one + 1, two + 1),
            Self::Crosses(one, two) => {
                write!(out, "The belt would cross itself after pulleys {} and {}: check the order and the sides.", one + 1, two + 1)
            }
            other => out.write_str(other.reason()),
        }
    }
}

impl core::error::Error for Impossible {}

/// The path of a tight belt over pulleys listed in either direction round the loop.
///
/// # Errors
/// [`Impossible`] when no uncrossed belt can run so.
pub fn close(pulleys: &[Pulley]) -> Result<BeltPath, Impossible> {
    check(pulleys)?;
    let likely = listing(pulleys);
    run(pulleys, likely).or_else(|why| run(pulleys, likely.reversed()).map_err(|_| why))
}

fn check(pulleys: &[Pulley]) -> Result<(), Impossible> {
    /// Nothing on a car is as far away or as large as this.
    const ABSURD: Length = metres(1000.0);
    match pulleys.len() {
        ..2 => return Err(Impossible::TooFew),
        2..=MOST_PULLEYS => {}
        _ => return Err(Impossible::TooMany),
    }
    for (at, pulley) in pulleys.iter().enumerate() {
        let near = |length: Length| length.abs() < ABSURD;
        let sound = near(pulley.centre.x) && near(pulley.centre.y) && near(pulley.diameter) && pulley.diameter > Length::ZERO;
        if !sound {
            return Err(Impossible::NotAPulley(at));
        }
        for (before, other) in pulleys[..at].iter().enumerate() {
            let apart = pulley.centre.distance(other.centre) > (pulley.diameter + other.diameter) / 2.0;
            if !apart {
                return Err(Impossible::Overlap(before, at));
            }
        }
    }
    Ok(())
}

/// The way the centres are listed round the loop, by the sign of their polygon's area.
fn listing(pulleys: &[Pulley]) -> Hand {
    let from = pulleys[0].centre;
    let doubled: f64 = pulleys
        .windows(2)
        .map(|pair| {
            let (a, b) = (from.towards(pair[0].centre), from.towards(pair[1].centre));
            a[0] * b[1] - a[1] * b[0]
        })
        .sum();
    if doubled < 0.0 { Hand::Clockwise } else { Hand::Anticlockwise }
}

/// Runs the belt in the order listed with the ribbed pulleys turning `ribs`, and checks that it closes after one turn
/// without crossing itself.
fn run(pulleys: &[Pulley], ribs: Hand) -> Result<BeltPath, Impossible> {
    let count = pulleys.len();
    let round = |at: usize| {
        let pulley = pulleys[at % count];
        let hand = match pulley.side {
            Side::Ribs => ribs,
            Side::Back => ribs.reversed(),
        };
        (pulley.centre, pulley.diameter, hand)
    };
    let mut path =
        BeltPath { count, spans: Default::default(), arcs: Default::default(), length: Length::ZERO, turning: Angle::ZERO, listed: ribs };
    for at in 0..count {
        path.spans[at] = tangent(round(at), round(at + 1)).ok_or(Impossible::Overlap(at, (at + 1) % count))?;
    }
    let mut turning = 0.0;
    for at in 0..count {
        let (_, diameter, hand) = round(at);
        let (arriving, leaving) = (path.spans[path.before(at)], path.spans[at]);
        let wrap = turn(arriving.direction, leaving.direction, hand);
        path.arcs[at] = Arc { start: arriving.end, end: leaving.start, wrap: radians(wrap), length: diameter * (wrap / 2.0), hand };
        turning += if hand == ribs { wrap } else { -wrap };
        path.length = path.length + leaving.length + path.arcs[at].length;
    }
    path.turning = radians(turning);
    once(&path, ribs)?;
    uncrossed(&path)?;
    Ok(path)
}

/// Angle from one direction to the next in the sense of `hand`, 0 to 2π.
fn turn(from: [f64; 2], to: [f64; 2], hand: Hand) -> f64 {
    let across = from[0] * to[1] - from[1] * to[0];
    let along = from[0] * to[0] + from[1] * to[1];
    let angle = libm::atan2(hand.sign() * across, along);
    if angle < 0.0 { angle + TAU } else { angle }
}

/// Every wrap is a true one and they make one turn. A pulley the belt would miss shows as nearly a whole turn too much.
fn once(path: &BeltPath, ribs: Hand) -> Result<(), Impossible> {
    /// Far above rounding, far below what a belt could tell.
    const NOTHING: f64 = 1e-9;
    let bare = |arc: &Arc| {
        let wrap = arc.wrap.in_radians();
        !(NOTHING..=TAU - NOTHING).contains(&wrap)
    };
    if let Some(at) = path.arcs().iter().position(bare) {
        return Err(Impossible::Misses(at));
    }
    let excess = path.turning.in_radians() - TAU;
    if excess.abs() < 1e-6 {
        return Ok(());
    }
    let culprit = if excess > 0.0 { ribs } else { ribs.reversed() };
    let widest = (0..path.count)
        .filter(|&at| path.arcs[at].hand == culprit && path.arcs[at].wrap.in_radians() > PI)
        .max_by(|&one, &two| path.arcs[one].wrap.si().total_cmp(&path.arcs[two].wrap.si()));
    match widest {
        Some(at) if path.count > 2 => Err(Impossible::Misses(at)),
        _ => Err(Impossible::NotOnce),
    }
}

/// No two spans may cross.
fn uncrossed(path: &BeltPath) -> Result<(), Impossible> {
    for at in 1..path.count {
        for before in 0..at {
            if cross(&path.spans[before], &path.spans[at]) {
                return Err(Impossible::Crosses(before, at));
            }
        }
    }
    Ok(())
}

fn cross(one: &Span, two: &Span) -> bool {
    let side = |of: &Span, point: Point| {
        let [x, y] = of.start.towards(point);
        of.direction[0] * y - of.direction[1] * x
    };
    side(one, two.start) * side(one, two.end) < 0.0 && side(two, one.start) * side(two, one.end) < 0.0
}
