//! How much room is there over a point, standing, moving, and with every dimension against it?
//!
//! Room is taken upwards: the underside where the point stands, less the point's height. Moving, the engine is rolled to
//! either side, bounced up and hot, and the bonnet pressed down; the worse side counts. Tolerances are added to first
//! order as squares and as chance; the worst case is also bounded without that: the lowest the underside can be
//! anywhere the point can get to, and the point as high as it can be. The farther of the two bounds is taken, so that no
//! combination within the tolerances is worse.

use super::Contributor;
use super::placed::{Bonnet, Motion, OffBy, Point, Standing};
use super::space::Stance;
use super::surface::{INNER, Outside, Spot};
use crate::report::Unknown;
use crate::tolerance::{Off, Stack};

/// Room over a point at rest.
#[derive(Clone, Copy)]
pub(super) struct Rest {
    pub(super) gap: f64,
    pub(super) over: f64,
    pub(super) placed: [f64; 3],
}

/// Room over a point in motion, on its worse side.
#[derive(Clone, Copy)]
pub(super) struct Moving {
    pub(super) gap: f64,
    pub(super) over: f64,
    pub(super) up: f64,
    pub(super) bounce: f64,
    pub(super) pressed: f64,
    pub(super) side: usize,
    pub(super) left: Result<Left, Unknown>,
}

/// What tolerances leave of that room.
#[derive(Clone, Copy)]
pub(super) struct Left {
    pub(super) worst: f64,
    pub(super) rss: f64,
    pub(super) deviation: f64,
    /// Whether it can touch at all.
    pub(super) possible: bool,
    /// Whether it cannot come closer than at worst.
    pub(super) bounded: bool,
}

fn outside(why: Outside) -> Unknown {
    Unknown::NoSolution(why.reason())
}

/// What lies over a place: its height, and the bonnet there if it is that.
fn over(bonnet: &Bonnet, point: &Point, placed: [f64; 3]) -> Result<(f64, Option<Spot>), Unknown> {
    match point.ceiling {
        Some(ceiling) => Ok((ceiling, None)),
        None => {
            let spot = bonnet.surface.at(placed[0], placed[1]).map_err(outside)?;
            Ok((spot.height, Some(spot)))
        }
    }
}

/// Room standing still.
#[inline]
pub(super) fn rest(stance: &Stance, bonnet: &Bonnet, point: &Point) -> Result<Rest, Unknown> {
    let placed = stance.place(point.at);
    let (over, _) = over(bonnet, point, placed)?;
    Ok(Rest { gap: over - placed[2], over, placed })
}

/// Least room while the bonnet opens.
pub(super) fn opening(bonnet: &Bonnet, point: &Point, rest: &Rest) -> Result<f64, Unknown> {
    match (bonnet.swing?, point.ceiling) {
        (Some(swing), None) => Ok(swing.least(&bonnet.surface, rest.placed, rest.gap)),
        _ => Ok(rest.gap),
    }
}

/// The engine rolled to one side.
struct Side {
    side: usize,
    placed: [f64; 3],
    spot: Option<Spot>,
    over: f64,
    bounce: f64,
    pressed: f64,
    gap: f64,
}

type Car<'a> = (&'a Standing, &'a Motion, &'a Bonnet);

impl Side {
    #[inline]
    fn new((standing, motion, bonnet): Car<'_>, point: &Point, side: usize) -> Result<Self, Unknown> {
        let (rolled, bounce) = motion.shift(side, point.at);
        let placed = standing.stance.place(rolled);
        let (over, spot) = over(bonnet, point, placed)?;
        let pressed = if spot.is_some() { bonnet.pressed? } else { 0.0 };
        Ok(Self { side, placed, spot, over, bounce, pressed, gap: over - placed[2] - bounce - pressed })
    }

    /// Every dimension: how much the room changes with it, and what it may be off by.
    #[inline]
    fn each(&self, (standing, motion, bonnet): Car<'_>, off_by: &OffBy, mut add: impl FnMut(Contributor, f64, Off)) {
        let slope = self.spot.map_or([0.0; 2], |spot| spot.slope);
        let [x, y, z] = standing.stance.seen_from_engine([slope[0], slope[1], -1.0]);
        let x = x - motion.bounce[1];
        let [first, second, third] = &motion.turns[self.side].rows;
        let with = |axis: usize| motion.grown * (first[axis] * x + second[axis] * y + third[axis] * z);
        add(Contributor::PointAlong, with(0), off_by.point[0]);
        add(Contributor::PointAcross, with(1), off_by.point[1]);
        add(Contributor::PointUp, with(2), off_by.point[2]);
        add(Contributor::EngineHeight, -1.0, motion.height);
        add(Contributor::ForeAft, slope[0], motion.fore_aft);
        add(Contributor::Sideways, slope[1], motion.sideways);
        let [along, up] = standing.stance.lever(self.placed);
        add(Contributor::Pitch, slope[0] * up + along, motion.pitch);
        match self.spot {
            None => add(Contributor::Ceiling, 1.0, off_by.ceiling),
            Some(spot) => {
                for (station, share) in spot.stations.into_iter().zip(spot.shares) {
                    let heights = &bonnet.heights[station];
                    add(Contributor::BonnetHeights, share * (1.0 - spot.out), heights[INNER]);
                    add(Contributor::BonnetHeights, share * spot.out, heights[spot.outer]);
                    add(Contributor::BonnetPlaces, -slope[0] * share, bonnet.along[station]);
                }
                add(Contributor::BonnetPlaces, -slope[1] * self.placed[1] / bonnet.surface.half_width(), bonnet.out);
            }
        }
    }

    /// How far the point can get from where it is, along, across and up.
    #[inline]
    fn reach(&self, (standing, motion, bonnet): Car<'_>, off_by: &OffBy) -> [f64; 3] {
        let by = [off_by.point[0].half_width, off_by.point[1].half_width, off_by.point[2].half_width];
        let [first, second, third] = &motion.turns[self.side].rows;
        let turned = |row: &[f64; 3]| motion.grown * (row[0].abs() * by[0] + row[1].abs() * by[1] + row[2].abs() * by[2]);
        let rolled = [turned(first), turned(second), turned(third)];
        let [mut along, mut across, mut up] = standing.stance.spread(rolled);
        let [behind, above] = standing.stance.lever(self.placed);
        let (behind, above) = (behind.abs(), above.abs());
        // A tip by δ moves a point by its lever times δ, and by no more than half its distance times δ² beyond that.
        let tip = motion.pitch.half_width;
        let second = 0.5 * tip * tip * (behind + above) + tip * (rolled[0] + rolled[2]);
        along += motion.fore_aft.half_width + above * tip + second;
        up += motion.height.half_width + behind * tip + second + motion.bounce[1].abs() * rolled[0];
        across += motion.sideways.half_width;
        if self.spot.is_some() {
            // Stations elsewhere than measured are as much as the point elsewhere.
            along += bonnet.furthest_along;
            let (width, off) = (bonnet.surface.half_width(), bonnet.out.half_width);
            across = (across * width + self.placed[1].abs() * off) / (width - off);
        }
        [along, across, up]
    }

    /// The room that nothing within the tolerances can go below, the point getting as far as `reach`.
    fn bound(&self, bonnet: &Bonnet, off_by: &OffBy, [along, across, up]: [f64; 3]) -> f64 {
        let over = match self.spot {
            None => self.over - off_by.ceiling.half_width,
            Some(_) => bonnet.surface.lowest([self.placed[0], self.placed[1]], [along, across]),
        };
        over - self.placed[2] - up - self.bounce - self.pressed
    }

    /// No more than that bound, and quickly told: the underside as steep as it is anywhere.
    #[inline]
    fn rough_bound(&self, bonnet: &Bonnet, off_by: &OffBy, [along, across, up]: [f64; 3]) -> f64 {
        let ([steep_along, steep_across], low_by) = bonnet.surface.steepest();
        match self.spot {
            None => self.gap - up - off_by.ceiling.half_width,
            // A step is endlessly steep, but only for what moves.
            Some(_) if along > 0.0 => self.gap - up - steep_along * along - steep_across * across - low_by,
            Some(_) => self.gap - up - steep_across * across - low_by,
        }
    }
}

/// Room in motion.
pub(super) fn moving(car: Car<'_>, point: &Point, off_by: &OffBy) -> Result<Moving, Unknown> {
    let (one, other) = (Side::new(car, point, 0)?, Side::new(car, point, 1)?);
    let (worse, better) = if other.gap < one.gap { (other, one) } else { (one, other) };
    let left = left(car, off_by, &worse, &better);
    let Side { gap, over, placed, bounce, pressed, side, .. } = worse;
    Ok(Moving { gap, over, up: placed[2], bounce, pressed, side, left })
}

fn left(car: Car<'_>, off_by: &OffBy, worse: &Side, better: &Side) -> Result<Left, Unknown> {
    car.1.sure?;
    if worse.spot.is_some() {
        car.2.sure?;
    }
    let mut stack = Stack::default();
    worse.each(car, off_by, |_, sensitivity, off| stack.add(sensitivity, off));
    let mut worst = worse.bound(car.2, off_by, worse.reach(car, off_by)).min(worse.gap - stack.worst_case());
    // The other side has more room, but may lose more of it where the underside is steeper there.
    let reach = better.reach(car, off_by);
    if better.rough_bound(car.2, off_by, reach) < worst {
        worst = worst.min(better.bound(car.2, off_by, reach));
    }
    let bounded = stack.is_bounded();
    Ok(Left { worst, rss: worse.gap - stack.root_sum_square(), deviation: stack.deviation(), possible: !bounded || worst < 0.0, bounded })
}

/// Number of [`Contributor`]s.
pub(super) const CONTRIBUTORS: usize = 10;

/// Variance of a point's room by what it comes from, on its worse side.
pub(super) fn variances(car: Car<'_>, point: &Point, off_by: &OffBy, side: usize) -> Result<[f64; CONTRIBUTORS], Unknown> {
    let mut variances = [0.0; CONTRIBUTORS];
    Side::new(car, point, side)?.each(car, off_by, |from, sensitivity, off| {
        let deviation = sensitivity * off.deviation();
        if let Some(variance) = variances.get_mut(from as usize) {
            *variance += deviation * deviation;
        }
    });
    Ok(variances)
}
