//! How high is the bonnet's underside over a point?
//!
//! Measured at stations along the car, at each on the middle line and so far to either side of it; straight between
//! neighbours both ways (bilinear). Nothing is known outside of what was measured.

use crate::quantity::Length;

/// Most stations.
pub const MOST: usize = 16;

/// Left of the middle as one faces the car, the middle, right of it.
const COLUMNS: usize = 3;

/// Why there is no height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outside {
    /// In front of the first station.
    Front,
    /// Behind the last.
    Back,
    /// Further out than the outer columns.
    Side,
    /// At a station where it was not measured.
    NotMeasured,
}

impl Outside {
    /// In a sentence.
    #[must_use]
    pub const fn reason(self) -> &'static str {
        match self {
            Self::Front => "Needs the bonnet's height further forward.",
            Self::Back => "Needs the bonnet's height further back.",
            Self::Side => "Needs the bonnet's height further out.",
            Self::NotMeasured => "Needs the bonnet's height there.",
        }
    }
}

/// Heights at one place along the car, and by how much each may be off. `None`: not measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Where.
    pub along: Length,
    /// To the left of one who faces the car, in the middle, to the right.
    pub heights: [Option<Length>; COLUMNS],
    /// Lower by so much at worst.
    pub low_by: [Length; COLUMNS],
}

/// The underside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    along: [f64; MOST],
    /// NaN: not measured.
    heights: [[f64; COLUMNS]; MOST],
    low_by: [[f64; COLUMNS]; MOST],
    /// Where each station was given.
    given: [usize; MOST],
    count: usize,
    across: f64,
}

/// The underside at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    pub(super) height: f64,
    /// Change of height along and across.
    pub(super) slope: [f64; 2],
    /// The stations before and behind, in the order given, and how much of each of their heights is in this one.
    pub(super) stations: [usize; 2],
    pub(super) shares: [[f64; COLUMNS]; 2],
}

impl Surface {
    /// The stations in any order; `across` is how far the outer columns lie from the middle. More than [`MOST`] stations
    /// are left out.
    pub fn new(stations: impl IntoIterator<Item = Station>, across: Length) -> Self {
        let mut surface = Self {
            along: [0.0; MOST],
            heights: [[f64::NAN; COLUMNS]; MOST],
            low_by: [[0.0; COLUMNS]; MOST],
            given: [0; MOST],
            count: 0,
            across: across.si(),
        };
        for (given, station) in stations.into_iter().take(MOST).enumerate() {
            let along = station.along.si();
            let mut at = surface.count;
            while at > 0 && surface.along[at - 1] > along {
                surface.along[at] = surface.along[at - 1];
                surface.heights[at] = surface.heights[at - 1];
                surface.low_by[at] = surface.low_by[at - 1];
                surface.given[at] = surface.given[at - 1];
                at -= 1;
            }
            surface.along[at] = along;
            surface.heights[at] = station.heights.map(|height| height.map_or(f64::NAN, Length::si));
            surface.low_by[at] = station.low_by.map(Length::si);
            surface.given[at] = given;
            surface.count += 1;
        }
        surface
    }

    /// Height of the underside.
    ///
    /// # Errors
    /// Where it was not measured.
    pub fn height(&self, along: Length, across: Length) -> Result<Length, Outside> {
        self.at(along.si(), across.si()).map(|spot| Length::from_si(spot.height))
    }

    #[inline]
    pub(super) fn at(&self, along: f64, across: f64) -> Result<Spot, Outside> {
        let before = self.before(along)?;
        let (from, to) = (self.along[before], self.along[before + 1]);
        let behind = if to > from { (along - from) / (to - from) } else { 0.0 };
        let (inner, outer, out) = self.columns(across)?;
        let side = if outer == 2 { 1.0 } else { -1.0 };
        let mut shares = [[0.0; COLUMNS]; 2];
        let mut ends = [0.0; 2];
        let mut outward = [0.0; 2];
        for (end, weight) in [(0, 1.0 - behind), (1, behind)] {
            let heights = &self.heights[before + end];
            shares[end][inner] = weight * (1.0 - out);
            shares[end][outer] = weight * out;
            // What has no share need not be known.
            let outer_height = if out == 0.0 && heights[outer].is_nan() { heights[inner] } else { heights[outer] };
            ends[end] = heights[inner] * (1.0 - out) + outer_height * out;
            outward[end] = if self.across > 0.0 { (outer_height - heights[inner]) / self.across } else { 0.0 };
        }
        for (end, other, weight) in [(0, 1, 1.0 - behind), (1, 0, behind)] {
            if weight == 0.0 && ends[end].is_nan() {
                (ends[end], outward[end]) = (ends[other], outward[other]);
            }
        }
        let height = ends[0] * (1.0 - behind) + ends[1] * behind;
        if height.is_nan() {
            return Err(Outside::NotMeasured);
        }
        let along_slope = if to > from { (ends[1] - ends[0]) / (to - from) } else { 0.0 };
        Ok(Spot {
            height,
            slope: [along_slope, side * (outward[0] * (1.0 - behind) + outward[1] * behind)],
            stations: [self.given[before], self.given[before + 1]],
            shares,
        })
    }

    /// The last station that is not behind, and that has one after it.
    #[inline]
    fn before(&self, along: f64) -> Result<usize, Outside> {
        if self.count < 2 || along < self.along[0] {
            return Err(Outside::Front);
        }
        if along > self.along[self.count - 1] {
            return Err(Outside::Back);
        }
        let mut at = 0;
        while at + 2 < self.count && self.along[at + 1] <= along {
            at += 1;
        }
        Ok(at)
    }

    /// The inner and outer column, and how far out between them.
    #[inline]
    fn columns(&self, across: f64) -> Result<(usize, usize, f64), Outside> {
        let out = across.abs() / self.across;
        // An underside measured along its middle only has no width.
        if out.is_nan() || out > 1.0 {
            return if across == 0.0 { Ok((1, 2, 0.0)) } else { Err(Outside::Side) };
        }
        Ok((1, if across < 0.0 { 0 } else { 2 }, out))
    }

    /// The lowest the underside can be anywhere within `by` of a place, every height as low as it may be off. Parts of that
    /// rectangle that were not measured are left out; the place itself must have been.
    pub(super) fn lowest(&self, place: [f64; 2], by: [f64; 2]) -> f64 {
        let ends = [self.along[0], self.along[self.count - 1]];
        let from = (place[0] - by[0]).max(ends[0]);
        let to = (place[0] + by[0]).min(ends[1]);
        let left = (place[1] - by[1]).max(-self.across).min(place[1]);
        let right = (place[1] + by[1]).min(self.across).max(place[1]);
        let mut lowest = f64::INFINITY;
        let (Ok(first), Ok(last)) = (self.before(from), self.before(to)) else { return lowest };
        // Straight between stations and columns: the lowest is on a corner, a station, or the middle line.
        for across in [left, right, 0.0] {
            if !(left..=right).contains(&across) {
                continue;
            }
            let Ok((inner, outer, out)) = self.columns(across) else { continue };
            let low = |station: usize| {
                let part = |column: usize, share: f64| {
                    if share == 0.0 { 0.0 } else { (self.heights[station][column] - self.low_by[station][column]) * share }
                };
                part(inner, 1.0 - out) + part(outer, out)
            };
            let between = |at: usize, along: f64| {
                let (start, end) = (self.along[at], self.along[at + 1]);
                let share = if end > start { (along - start) / (end - start) } else { 0.0 };
                let (one, other) = (low(at), low(at + 1));
                if share == 0.0 { one } else { one + (other - one) * share }
            };
            // `min` takes the number where the other is none.
            lowest = lowest.min(between(first, from)).min(between(last, to));
            for station in first + 1..=last {
                lowest = lowest.min(low(station));
            }
        }
        lowest
    }

    /// Steepest change of height along, among what was measured.
    pub(super) fn steepest(&self) -> f64 {
        let mut steepest = 0.0_f64;
        for at in 1..self.count {
            let run = self.along[at] - self.along[at - 1];
            for column in 0..COLUMNS {
                let rise = (self.heights[at][column] - self.heights[at - 1][column]).abs();
                steepest = steepest.max(if run > 0.0 { rise / run } else { f64::INFINITY });
            }
        }
        steepest
    }

    /// How far out the outer columns lie.
    pub(super) const fn half_width(&self) -> f64 {
        self.across
    }
}
