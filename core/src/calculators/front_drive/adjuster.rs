//! Which belt goes on, and can it be tightened? One pulley moves along a straight line.
//!
//! Moving one pulley changes only its two spans and the wraps at their ends. A span of length l and direction ψ adds
//! l + k·ψ to the belt, k = s₁r₁ − s₂r₂ as in [`tangent`]: the arcs it bounds are s₁r₁·ψ longer and s₂r₂·ψ shorter.
//! That sum has the unit vector along the span for its gradient and a Hessian of 1/l across it, so the length is convex
//! in the pulley's place: over a straight travel the longest belt lies at an end, the shortest at an end or where the
//! rate (u₁ − u₂)·w changes sign, u₁ along the span that arrives, u₂ along the one that leaves, w the way it moves.

use super::belt_path::{BeltPath, Impossible, MOST_PULLEYS, Pulley, Side, close};
use super::tangent::{Hand, Round, Span, tangent};
use crate::quantity::{Angle, Length, metres};

/// A pulley that moves, and how far. An arm that swings is close to this over a short travel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adjuster {
    /// Which pulley, counted from 0.
    pub pulley: usize,
    /// The way it moves, counted anticlockwise from the right.
    pub direction: Angle,
    /// Where the travel begins, measured along `direction` from where the pulley is listed; may be negative.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

/// The belts an adjuster can take, along the cord line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    travel: Travel,
    /// Shortest belt that goes round.
    pub shortest: Length,
    /// Place of the pulley for the shortest belt.
    pub at_shortest: Length,
    /// Longest belt that can be made tight.
    pub longest: Length,
    /// Place of the pulley for the longest belt.
    pub at_longest: Length,
}

/// A belt length known at one place of the travel: what the others are counted from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// Where along the travel the pulley then stands.
    pub place: Length,
    /// Length along the cord line.
    pub length: Length,
    /// Way the pulleys are listed round the loop.
    pub listed: Hand,
}

/// The moving pulley between its neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Travel {
    before: Round,
    mover: Round,
    after: Round,
    way: [f64; 2],
    /// The whole belt, and both spans, where the length is known.
    known: (Length, [Span; 2]),
}

impl Travel {
    fn new(pulleys: &[Pulley], adjuster: &Adjuster, known: Known) -> Option<Self> {
        let (at, count) = (adjuster.pulley, pulleys.len());
        let round = |index: usize| -> Option<Round> {
            let pulley = pulleys.get(index % count)?;
            let hand = if pulley.side == Side::Ribs { known.listed } else { known.listed.reversed() };
            Some((pulley.centre, pulley.diameter, hand))
        };
        let (before, mover, after, way) = (round((at + count).checked_sub(1)?)?, round(at)?, round(at + 1)?, heading(adjuster));
        let there = (mover.0.moved(way, known.place), mover.1, mover.2);
        let spans = [tangent(before, there)?, tangent(there, after)?];
        Some(Self { before, mover, after, way, known: (known.length, spans) })
    }

    /// Length of the belt with the pulley at `place`, and its rate against the travel.
    fn at(&self, place: Length) -> Option<(Length, f64)> {
        let mover = (self.mover.0.moved(self.way, place), self.mover.1, self.mover.2);
        let arriving = tangent(self.before, mover)?;
        let leaving = tangent(mover, self.after)?;
        let mut length = self.known.0;
        for (old, new, from, to) in [(self.known.1[0], arriving, self.before, mover), (self.known.1[1], leaving, mover, self.after)] {
            let offset = (from.2.sign() * from.1 - to.2.sign() * to.1) / 2.0;
            let across = old.direction[0] * new.direction[1] - old.direction[1] * new.direction[0];
            let along = old.direction[0] * new.direction[0] + old.direction[1] * new.direction[1];
            length = length + new.length - old.length + offset * libm::atan2(across, along);
        }
        Some((length, self.rate(&arriving, &leaving)))
    }

    /// What the belt grows by for each step of the pulley along its travel, between these spans.
    fn rate(&self, arriving: &Span, leaving: &Span) -> f64 {
        let turn = [arriving.direction[0] - leaving.direction[0], arriving.direction[1] - leaving.direction[1]];
        turn[0] * self.way[0] + turn[1] * self.way[1]
    }
}

/// Steps of any search below; each halves the travel at worst, so this is past the last digit.
const STEPS: usize = 60;

/// Range of belt lengths over the travel.
///
/// # Errors
/// [`Impossible`] when the belt cannot run with the adjuster at an end of its travel, or the pulley meets another.
pub fn reach(pulleys: &[Pulley], adjuster: &Adjuster) -> Result<Reach, Impossible> {
    let (low, high) = ends(adjuster);
    clear(pulleys, adjuster, low, high)?;
    let runs = |place| {
        let all = moved(pulleys, adjuster, place);
        close(all.get(..pulleys.len()).ok_or(Impossible::TooMany)?)
    };
    let (loose, tight) = (runs(low)?, runs(high)?);
    let known = Known { place: low, length: loose.length, listed: loose.listed };
    let travel = Travel::new(pulleys, adjuster, known).ok_or(Impossible::NotAPulley(adjuster.pulley))?;
    let end = |path: &BeltPath| {
        let (arriving, leaving) = (&path.spans()[path.before(adjuster.pulley)], &path.spans()[adjuster.pulley]);
        (path.length, travel.rate(arriving, leaving))
    };
    let reach = between(travel, [(low, end(&loose)), (high, end(&tight))])?;
    // Between the ends the belt is nearest to leaving the pulley where it is shortest.
    if reach.at_shortest > low && reach.at_shortest < high {
        runs(reach.at_shortest)?;
    }
    Ok(reach)
}

/// The same for a travel that [`reach`] has proved possible, from a length already known.
///
/// # Errors
/// [`Impossible`] when there is no such pulley, or it meets a neighbour.
pub fn reach_from(pulleys: &[Pulley], adjuster: &Adjuster, known: Known) -> Result<Reach, Impossible> {
    let refused = Impossible::NotAPulley(adjuster.pulley);
    let travel = Travel::new(pulleys, adjuster, known).ok_or(refused)?;
    let (low, high) = ends(adjuster);
    between(travel, [(low, travel.at(low).ok_or(refused)?), (high, travel.at(high).ok_or(refused)?)])
}

/// The range over a travel, from place, length and rate at its ends.
fn between(travel: Travel, [(low, loose), (high, tight)]: [(Length, (Length, f64)); 2]) -> Result<Reach, Impossible> {
    let ends = [(loose.0, low), (tight.0, high)];
    let [longest, mut shortest] = if loose.0 > tight.0 { ends } else { [ends[1], ends[0]] };
    if loose.1 < 0.0 && tight.1 > 0.0 {
        let (mut left, mut right) = (low, high);
        for _ in 0..STEPS {
            let middle = (left + right) / 2.0;
            let (length, rate) = travel.at(middle).ok_or(Impossible::NotOnce)?;
            shortest = (length, middle);
            if rate < 0.0 {
                left = middle;
            } else {
                right = middle;
            }
        }
    }
    Ok(Reach { travel, shortest: shortest.0, at_shortest: shortest.1, longest: longest.0, at_longest: longest.1 })
}

fn ends(adjuster: &Adjuster) -> (Length, Length) {
    (adjuster.from.min(adjuster.to), adjuster.from.max(adjuster.to))
}

impl Reach {
    /// Where along the travel the pulley stands when a belt of this length is tight. `None` when the travel does not reach.
    ///
    /// Between the shortest and the longest place, so that more travel is a tighter belt.
    #[must_use]
    pub fn place_for(&self, length: Length) -> Option<Length> {
        if !(self.shortest..=self.longest).contains(&length) {
            return None;
        }
        let (mut short, mut long) = (self.at_shortest, self.at_longest);
        let mut place = long;
        for _ in 0..STEPS {
            let (got, rate) = self.travel.at(place)?;
            let excess = (got - length).in_metres();
            if excess.abs() <= 1e-12 {
                break;
            }
            if excess < 0.0 {
                short = place;
            } else {
                long = place;
            }
            // Newton from the convex side cannot overshoot; should rounding push it out, halve.
            let (low, high) = (short.min(long), short.max(long));
            let next = place - metres(excess / rate);
            place = if next > low && next < high { next } else { (short + long) / 2.0 };
        }
        Some(place)
    }

    /// How a belt of this length fits.
    #[must_use]
    pub fn fit(&self, length: Length) -> Fit {
        Fit { slack: length - self.shortest, stretch: self.longest / length - 1.0 }
    }

    /// Shortest and longest belt that goes on with `slack` and takes up `stretch` (dimensionless):
    /// L_min + slack ≤ L ≤ L_max/(1 + stretch). Common practice, no source.
    #[must_use]
    pub fn window(&self, slack: Length, stretch: f64) -> (Length, Length) {
        (self.shortest + slack, self.longest / (1.0 + stretch))
    }
}

/// What is to spare when a belt is fitted and when it stretches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Slack with the adjuster at its loose end, to slip the belt on.
    pub slack: Length,
    /// Share of its length the belt may stretch before the travel ends; dimensionless.
    pub stretch: f64,
}

/// The pulleys with the adjuster moved to `place` along its travel.
#[must_use]
pub fn moved(pulleys: &[Pulley], adjuster: &Adjuster, place: Length) -> [Pulley; MOST_PULLEYS] {
    let mut all = [Pulley::default(); MOST_PULLEYS];
    for (to, from) in all.iter_mut().zip(pulleys) {
        *to = *from;
    }
    if let Some(pulley) = all.get_mut(adjuster.pulley) {
        pulley.centre = pulley.centre.moved(heading(adjuster), place);
    }
    all
}

fn heading(adjuster: &Adjuster) -> [f64; 2] {
    let (sine, cosine) = libm::sincos(adjuster.direction.in_radians());
    [cosine, sine]
}

/// The moving pulley meets no other on its way.
fn clear(pulleys: &[Pulley], adjuster: &Adjuster, low: Length, high: Length) -> Result<(), Impossible> {
    let mover = pulleys.get(adjuster.pulley).ok_or(Impossible::NotAPulley(adjuster.pulley))?;
    let way = heading(adjuster);
    for (index, other) in pulleys.iter().enumerate() {
        if index == adjuster.pulley {
            continue;
        }
        let [x, y] = mover.centre.towards(other.centre);
        let nearest = metres(x * way[0] + y * way[1]).max(low).min(high);
        let clear = mover.centre.moved(way, nearest).distance(other.centre) > (mover.diameter + other.diameter) / 2.0;
        if !clear {
            let (one, two) = (index.min(adjuster.pulley), index.max(adjuster.pulley));
            return Err(Impossible::Overlap(one, two));
        }
    }
    Ok(())
}
