//! Which belt goes on, and can it be tightened? One pulley moves along a straight line.
//!
//! The length of a tight belt is convex in where a pulley stands: each span with its share of the wraps adds
//! f(d) = √(d² − k²) + k·asin(k/d) of the distance d between centres, and f′ = √(d² − k²)/d only grows. So over a travel
//! the longest belt lies at an end, and the shortest at an end or where the rate changes sign once.
//! The rate itself is that of unit tension doing work: dL/dx = (u₁ − u₂)·w, u₁ along the span that arrives, u₂ along the
//! one that leaves, w the way the pulley moves.

use super::belt_path::{BeltPath, Impossible, MOST_PULLEYS, Pulley, trace};
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
    /// Shortest belt that goes round, and where along the travel.
    pub shortest: Length,
    /// Place of the pulley for the shortest belt.
    pub at_shortest: Length,
    /// Longest belt that can be made tight.
    pub longest: Length,
    /// Place of the pulley for the longest belt.
    pub at_longest: Length,
}

/// Steps of any search below; each halves the travel at worst, so this is past the last digit.
const STEPS: usize = 60;

/// Range of belt lengths over the travel.
///
/// # Errors
/// [`Impossible`] when the belt cannot run with the adjuster at an end of its travel, or the pulley meets another.
pub fn reach(pulleys: &[Pulley], adjuster: &Adjuster) -> Result<Reach, Impossible> {
    let (low, high) = (adjuster.from.min(adjuster.to), adjuster.from.max(adjuster.to));
    clear(pulleys, adjuster, low, high)?;
    let (start, end) = (at(pulleys, adjuster, low)?, at(pulleys, adjuster, high)?);
    let ends = [(start.0, low), (end.0, high)];
    let [longest, mut shortest] = if ends[0].0 > ends[1].0 { ends } else { [ends[1], ends[0]] };
    if start.1 < 0.0 && end.1 > 0.0 {
        let (mut left, mut right) = (low, high);
        for _ in 0..STEPS {
            let middle = (left + right) / 2.0;
            let (length, rate) = at(pulleys, adjuster, middle)?;
            if length < shortest.0 {
                shortest = (length, middle);
            }
            if rate < 0.0 {
                left = middle;
            } else {
                right = middle;
            }
        }
    }
    Ok(Reach { shortest: shortest.0, at_shortest: shortest.1, longest: longest.0, at_longest: longest.1 })
}

/// Where along the travel the pulley stands when a belt of this length is tight. `None` when the travel does not reach.
///
/// Between the shortest and the longest place of `reach`, so that more travel is a tighter belt.
///
/// # Errors
/// As [`reach`].
pub fn place_for(pulleys: &[Pulley], adjuster: &Adjuster, reach: &Reach, length: Length) -> Result<Option<Length>, Impossible> {
    if !(reach.shortest..=reach.longest).contains(&length) {
        return Ok(None);
    }
    let (mut short, mut long) = (reach.at_shortest, reach.at_longest);
    let mut place = long;
    for _ in 0..STEPS {
        let (got, rate) = at(pulleys, adjuster, place)?;
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
    Ok(Some(place))
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

/// Length of the belt and its rate against the travel, with the adjuster at `place`.
fn at(pulleys: &[Pulley], adjuster: &Adjuster, place: Length) -> Result<(Length, f64), Impossible> {
    let all = moved(pulleys, adjuster, place);
    let path = trace(all.get(..pulleys.len()).ok_or(Impossible::TooMany)?)?;
    Ok((path.length, rate(&path, adjuster)))
}

fn rate(path: &BeltPath, adjuster: &Adjuster) -> f64 {
    let (arriving, leaving) = (path.spans()[path.before(adjuster.pulley)].direction, path.spans()[adjuster.pulley].direction);
    let way = heading(adjuster);
    (arriving[0] - leaving[0]) * way[0] + (arriving[1] - leaving[1]) * way[1]
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

/// What is to spare when a belt is fitted and when it stretches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Slack with the adjuster at its loose end, to slip the belt on.
    pub slack: Length,
    /// Share of its length the belt may stretch before the travel ends; dimensionless.
    pub stretch: f64,
}

impl Reach {
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
