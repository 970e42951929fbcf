//! How high is the bonnet's underside over a point?
//!
//! Measured at stations along the car, at each on the middle line and so far to either side of it; straight between
//! neighbours both ways (bilinear). Nothing is known outside of what was measured.

use crate::quantity::Length;
use crate::tolerance::Off;

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
    /// As low as each may be.
    lowest: [[f64; COLUMNS]; MOST],
    /// Where each station was given.
    given: [usize; MOST],
    count: usize,
    across: f64,
    steepest: [f64; 2],
    low_by: f64,
}

/// The underside at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    pub(super) height: f64,
    /// Change of height along and across.
    pub(super) slope: [f64; 2],
    /// The stations before and behind, in the order given, and how much of each is in this height.
    pub(super) stations: [usize; 2],
    pub(super) shares: [f64; 2],
    /// The outer column, and how far out: the middle has the rest.
    pub(super) outer: usize,
    pub(super) out: f64,
}

/// The middle column.
pub(super) const INNER: usize = 1;

impl Surface {
    /// The stations in any order; `across` is how far the outer columns lie from the middle. More than [`MOST`] stations
    /// are left out.
    pub fn new(stations: impl IntoIterator<Item = Station>, across: Length) -> Self {
        let mut surface = Self::empty(across);
        stations.into_iter().for_each(|station| surface.insert(&station));
        surface.measure();
        surface
    }

    pub(super) const fn empty(across: Length) -> Self {
        Self {
            along: [0.0; MOST],
            heights: [[f64::NAN; COLUMNS]; MOST],
            lowest: [[f64::NAN; COLUMNS]; MOST],
            given: [0; MOST],
            count: 0,
            across: across.si(),
            steepest: [0.0; 2],
            low_by: 0.0,
        }
    }

    pub(super) fn insert(&mut self, station: &Station) {
        if self.count == MOST {
            return;
        }
        let along = station.along.si();
        let mut at = self.count;
        while at > 0 && self.along[at - 1] > along {
            self.along[at] = self.along[at - 1];
            self.heights[at] = self.heights[at - 1];
            self.lowest[at] = self.lowest[at - 1];
            self.given[at] = self.given[at - 1];
            at -= 1;
        }
        self.along[at] = along;
        self.given[at] = self.count;
        for column in 0..COLUMNS {
            let (height, low_by) = (station.heights[column].map_or(f64::NAN, Length::si), station.low_by[column].si());
            self.heights[at][column] = height;
            self.lowest[at][column] = height - low_by;
            self.low_by = self.low_by.max(low_by);
        }
        self.count += 1;
    }

    /// Once all stations are in: how steep it is at most.
    pub(super) fn measure(&mut self) {
        for at in 0..self.count {
            let [left, middle, right] = self.heights[at];
            // `max` takes the number where the other is none.
            self.steepest[1] = self.steepest[1].max((left - middle).abs() / self.across).max((right - middle).abs() / self.across);
            if at > 0 {
                let run = self.along[at] - self.along[at - 1];
                for column in 0..COLUMNS {
                    let rise = (self.heights[at][column] - self.heights[at - 1][column]).abs();
                    self.steepest[0] = self.steepest[0].max(if run > 0.0 { rise / run } else { f64::INFINITY });
                }
            }
        }
    }

    /// Whether the stations stand in this order however far each is off; `off_by` is in the order given. Two at the same
    /// place are a step when neither is off.
    pub(super) fn keeps_order(&self, off_by: &[Off; MOST]) -> bool {
        let station = |at: usize| (self.along[at], off_by[self.given[at]].half_width);
        (1..self.count).all(|at| {
            let ((before, by), (behind, off)) = (station(at - 1), station(at));
            before + by < behind - off || by + off == 0.0
        })
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
        let run = to - from;
        let behind = if run > 0.0 { (along - from) / run } else { 0.0 };
        let (outer, out) = self.column(across)?;
        let (front, back) = (&self.heights[before], &self.heights[before + 1]);
        let mut rises = [front[outer] - front[INNER], back[outer] - back[INNER]];
        let mut ends = [front[INNER] + rises[0] * out, back[INNER] + rises[1] * out];
        let mut height = ends[0] + (ends[1] - ends[0]) * behind;
        if height.is_nan() {
            // What has no share need not be known.
            for (end, inner) in [front[INNER], back[INNER]].into_iter().enumerate() {
                if out == 0.0 && rises[end].is_nan() {
                    (rises[end], ends[end]) = (0.0, inner);
                }
            }
            for (end, other, share) in [(0, 1, 1.0 - behind), (1, 0, behind)] {
                if share == 0.0 && ends[end].is_nan() {
                    (rises[end], ends[end]) = (rises[other], ends[other]);
                }
            }
            height = ends[0] + (ends[1] - ends[0]) * behind;
            if height.is_nan() {
                return Err(Outside::NotMeasured);
            }
        }
        let side = if outer > INNER { 1.0 } else { -1.0 };
        let outward = (rises[0] + (rises[1] - rises[0]) * behind) / self.across;
        Ok(Spot {
            height,
            slope: [if run > 0.0 { (ends[1] - ends[0]) / run } else { 0.0 }, side * outward],
            stations: [self.given[before], self.given[before + 1]],
            shares: [1.0 - behind, behind],
            outer,
            out,
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

    /// The outer column of a place, and how far out towards it.
    #[inline]
    fn column(&self, across: f64) -> Result<(usize, f64), Outside> {
        let out = across.abs() / self.across;
        if out > 1.0 { Err(Outside::Side) } else { Ok((if across < 0.0 { 0 } else { 2 }, out)) }
    }

    /// The lowest the underside can be anywhere within `by` of a place, every height as low as it may be off. Parts of that
    /// rectangle that were not measured are left out; the place itself must have been.
    pub(super) fn lowest(&self, place: [f64; 2], by: [f64; 2]) -> f64 {
        let from = (place[0] - by[0]).max(self.along[0]);
        let to = (place[0] + by[0]).min(self.along[self.count.max(1) - 1]);
        let left = (place[1] - by[1]).max(-self.across);
        let right = (place[1] + by[1]).min(self.across);
        let (Ok(first), Ok(last)) = (self.before(from), self.before(to)) else { return f64::INFINITY };
        // Straight between stations and columns: the lowest is on a corner, a station, or the middle line.
        let edges = self.lowest_along(left, [from, to], [first, last]).min(self.lowest_along(right, [from, to], [first, last]));
        if left < 0.0 && right > 0.0 { edges.min(self.lowest_along(0.0, [from, to], [first, last])) } else { edges }
    }

    #[inline]
    fn lowest_along(&self, across: f64, [from, to]: [f64; 2], [first, last]: [usize; 2]) -> f64 {
        let Ok((outer, out)) = self.column(across) else { return f64::INFINITY };
        let low = |station: usize| {
            let lowest = &self.lowest[station];
            if out == 0.0 { lowest[INNER] } else { lowest[INNER] + (lowest[outer] - lowest[INNER]) * out }
        };
        let between = |at: usize, along: f64| {
            let (start, run) = (self.along[at], self.along[at + 1] - self.along[at]);
            let (one, other) = (low(at), low(at + 1));
            if along <= start { one } else { one + (other - one) * ((along - start) / run) }
        };
        // `min` takes the number where the other is none.
        let mut lowest = between(first, from).min(between(last, to));
        for station in first + 1..=last {
            lowest = lowest.min(low(station));
        }
        lowest
    }

    /// Steepest change of height along and across, and the most any height may be lower, among what was measured.
    pub(super) const fn steepest(&self) -> ([f64; 2], f64) {
        (self.steepest, self.low_by)
    }

    /// How far out the outer columns lie.
    pub(super) const fn half_width(&self) -> f64 {
        self.across
    }
}
