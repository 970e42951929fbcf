//! How much room is there over a point, standing, moving, and with every dimension against it?
//!
//! Room is taken upwards: the underside where the point stands, less the point's height. Moving, the engine is rolled to
//! either side, bounced up and hot, and the bonnet pressed down; the worse side counts. Tolerances are added to first
//! order as squares and as chance; the worst case is also bounded without that: the lowest the underside can be
//! anywhere the point can get to, and the point as high as it can be. The farther of the two bounds is taken, so that no
//! combination within the tolerances is worse.

use super::opening::Swing;
use super::space::{Position, Stance, Turn};
use super::surface::{INNER, MOST, Outside, Spot, Station, Surface};
use super::values::Values;
use super::{
    BONNET, BONNET_VARIES, BOUNCE, BOUNCE_GEARBOX, CEILING, Contributor, FORE_AFT, GEARBOX_MOUNT, GROWTH, HEIGHT, HINGE_ALONG, HINGE_UP,
    LEFT, MIDDLE, OPENING, OPENS, OUT, OVER, Opens, Over, PITCH, POINT_ACROSS, POINT_ALONG, POINT_UP, PRESSED, REST_HEIGHT, REST_PITCH,
    RIGHT, ROLL, ROLL_AXIS_FALLS, ROLL_AXIS_UP, SIDEWAYS, STATION,
};
use crate::quantity::{Angle, Length};
use crate::report::Unknown;
use crate::spec::Id;
use crate::tolerance::{Off, Stack};

/// Where the engine stands, and by how much that may be off.
#[derive(Clone, Copy)]
pub(super) struct Standing {
    pub(super) stance: Stance,
    pub(super) at: [f64; 3],
    pub(super) pitch: f64,
}

impl Standing {
    pub(super) const READS: [Id; 4] = [REST_HEIGHT.id, REST_PITCH.id, FORE_AFT.id, SIDEWAYS.id];

    pub(super) fn read(values: &mut impl Values) -> Result<Self, Unknown> {
        let (height, pitch) = (values.one(REST_HEIGHT)?, values.one(REST_PITCH)?);
        let at = Position { along: values.one(FORE_AFT)?, across: values.one(SIDEWAYS)?, up: height };
        Ok(Self { stance: Stance::new(at, pitch), at: at.si(), pitch: pitch.si() })
    }

    /// The same, raised and tipped further.
    pub(super) fn moved(&self, up: f64, tail_down: f64) -> Stance {
        let at = Position::from_si([self.at[0], self.at[1], self.at[2] + up]);
        Stance::new(at, Angle::from_si(self.pitch + tail_down))
    }
}

/// How the engine moves, and how far its place may be off.
#[derive(Clone, Copy)]
pub(super) struct Motion {
    pub(super) turns: [Turn; 2],
    /// Every length of the engine, hot.
    pub(super) grown: f64,
    /// At the mounts, and more with each length behind them.
    pub(super) bounce: [f64; 2],
    pub(super) height: Off,
    pub(super) fore_aft: Off,
    pub(super) sideways: Off,
    pub(super) pitch: Off,
}

impl Motion {
    pub(super) const READS: [Id; 14] = [
        super::MEASURING.id,
        ROLL.id,
        ROLL_AXIS_UP.id,
        ROLL_AXIS_FALLS.id,
        GROWTH.id,
        BOUNCE.id,
        BOUNCE_GEARBOX.id,
        GEARBOX_MOUNT.id,
        HEIGHT.id,
        PITCH.id,
        FORE_AFT.id,
        SIDEWAYS.id,
        super::PITCH_READING.id,
        super::SPREAD.id,
    ];

    pub(super) fn read(values: &mut impl Values) -> Result<Self, Unknown> {
        let (roll, falls) = (values.one(ROLL)?, values.one(ROLL_AXIS_FALLS)?);
        let centre = Position { along: Length::ZERO, across: Length::ZERO, up: values.one(ROLL_AXIS_UP)? };
        let (sine, cosine) = libm::sincos(falls.si());
        let turn = |angle: Angle| Turn::about(centre, [cosine, 0.0, -sine], angle);
        let bounce = values.one(BOUNCE)?;
        let (measured, pitch) = (values.measured()?, values.usual(super::PITCH_READING)?);
        let behind = (values.one(BOUNCE_GEARBOX)? - bounce) / values.one(GEARBOX_MOUNT)?;
        Ok(Self {
            turns: [turn(roll), turn(-roll)],
            grown: 1.0 + values.one(GROWTH)?.si(),
            bounce: [bounce.si(), behind],
            height: values.off(HEIGHT, measured),
            fore_aft: values.off(FORE_AFT, measured),
            sideways: values.off(SIDEWAYS, measured),
            pitch: values.off(PITCH, pitch),
        })
    }

    /// A point of the engine rolled to one side and hot, in the engine; and its bounce.
    #[inline]
    pub(super) fn shift(&self, side: usize, [along, across, up]: [f64; 3]) -> ([f64; 3], f64) {
        let rolled = self.turns[side].of_si([along * self.grown, across * self.grown, up * self.grown]);
        (rolled, self.bounce[0] + self.bounce[1] * rolled[0])
    }
}

/// A point of the engine, along, across and up.
#[derive(Clone, Copy)]
pub(super) struct Point {
    pub(super) at: [f64; 3],
    /// The height of what is fixed over it, unless that is the bonnet.
    pub(super) ceiling: Option<f64>,
}

/// What a point's place, and what is fixed over it, may be off by.
#[derive(Clone, Copy)]
pub(super) struct OffBy {
    point: [Off; 3],
    ceiling: Off,
}

impl OffBy {
    #[inline]
    pub(super) fn read(values: &mut impl Values, row: usize, measured: Off) -> Self {
        let mut off = |column| values.off_at(column, row, measured);
        Self { point: [off(POINT_ALONG), off(POINT_ACROSS), off(POINT_UP)], ceiling: off(CEILING) }
    }
}

impl Point {
    pub(super) const READS: [Id; 5] = [POINT_ALONG.id, POINT_ACROSS.id, POINT_UP.id, OVER.id, CEILING.id];

    pub(super) fn read(values: &mut impl Values, row: usize) -> Result<Self, Unknown> {
        let at = [values.at(POINT_ALONG, row)?.si(), values.at(POINT_ACROSS, row)?.si(), values.at(POINT_UP, row)?.si()];
        let ceiling = match values.at(OVER, row)? {
            Over::Bonnet => None,
            Over::Fixed => Some(values.at(CEILING, row)?.si()),
        };
        Ok(Self { at, ceiling })
    }
}

/// The bonnet and its tolerances, in the order of its rows.
pub(super) struct Bonnet {
    pub(super) surface: Surface,
    heights: [[Off; 3]; MOST],
    along: [Off; MOST],
    out: Off,
    pressed: Result<f64, Unknown>,
    pub(super) swing: Result<Option<Swing>, Unknown>,
    /// Why the tolerances are not known, if they are not.
    sure: Result<(), Unknown>,
    furthest_along: f64,
}

impl Bonnet {
    pub(super) const READS: [Id; 13] = [
        STATION.id,
        LEFT.id,
        MIDDLE.id,
        RIGHT.id,
        OUT.id,
        PRESSED.id,
        OPENS.id,
        HINGE_ALONG.id,
        HINGE_UP.id,
        OPENING.id,
        super::MEASURING.id,
        BONNET_VARIES.id,
        super::SPREAD.id,
    ];

    pub(super) fn read(values: &mut impl Values) -> Result<Self, Unknown> {
        let out = values.one(OUT)?;
        let (measured, moulded) = (values.measured(), values.usual(BONNET_VARIES));
        let sure = measured.and(moulded).map(|_| ());
        let (measured, moulded) = (measured.unwrap_or(Off::NONE), moulded.unwrap_or(Off::NONE));
        let mut bonnet = Self {
            surface: Surface::empty(out),
            heights: [[Off::NONE; 3]; MOST],
            along: [Off::NONE; MOST],
            out: values.off(OUT, measured),
            pressed: values.one(PRESSED).map(Length::si),
            swing: Self::swing(values),
            sure,
            furthest_along: 0.0,
        };
        for row in 0..values.count(BONNET).min(MOST) {
            let along = values.off_at(STATION, row, measured);
            let heights = [values.off_at(LEFT, row, moulded), values.off_at(MIDDLE, row, moulded), values.off_at(RIGHT, row, moulded)];
            let low_by = |column: usize| Length::from_si(heights[column].half_width);
            bonnet.surface.insert(&Station {
                along: values.at(STATION, row)?,
                heights: [values.at(LEFT, row).ok(), values.at(MIDDLE, row).ok(), values.at(RIGHT, row).ok()],
                low_by: [low_by(0), low_by(1), low_by(2)],
            });
            bonnet.furthest_along = bonnet.furthest_along.max(along.half_width);
            (bonnet.along[row], bonnet.heights[row]) = (along, heights);
        }
        bonnet.surface.measure();
        Ok(bonnet)
    }

    fn swing(values: &mut impl Values) -> Result<Option<Swing>, Unknown> {
        let at_front = match values.one(OPENS)? {
            Opens::Lifts => return Ok(None),
            Opens::Front => true,
            Opens::Rear => false,
        };
        let opening = values.one(OPENING)?.si();
        let (sine, cosine) = libm::sincos(opening);
        Ok(Some(Swing { hinge: [values.one(HINGE_ALONG)?.si(), values.one(HINGE_UP)?.si()], at_front, sine, cosine, opening }))
    }
}

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
    pub(super) worst: f64,
    pub(super) rss: f64,
    pub(super) deviation: f64,
    /// Whether it can touch at all.
    pub(super) possible: bool,
    pub(super) side: usize,
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
            if off < width {
                across = (across * width + self.placed[1].abs() * off) / (width - off);
            }
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
            Some(_) => self.gap - up - steep_along * along - steep_across * across - low_by,
        }
    }
}

/// Room in motion.
pub(super) fn moving(car: Car<'_>, point: &Point, off_by: &OffBy) -> Result<Moving, Unknown> {
    let (one, other) = (Side::new(car, point, 0)?, Side::new(car, point, 1)?);
    let (worse, better) = if other.gap < one.gap { (other, one) } else { (one, other) };
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
    let Side { gap, over, placed, bounce, pressed, side, .. } = worse;
    Ok(Moving {
        gap,
        over,
        up: placed[2],
        bounce,
        pressed,
        worst,
        rss: gap - stack.root_sum_square(),
        deviation: stack.deviation(),
        possible: !stack.is_bounded() || worst < 0.0,
        side,
    })
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
