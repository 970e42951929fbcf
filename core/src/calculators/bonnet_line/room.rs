//! How much room is there over a point, standing, moving, and with every dimension against it?
//!
//! Room is taken upwards: the underside where the point stands, less the point's height. Moving, the engine is rolled to
//! either side, bounced up and hot, and the bonnet pressed down; the worse side counts. Tolerances are added to first
//! order as squares and as chance; the worst case is also bounded without that: the lowest the underside can be
//! anywhere the point can get to, and the point as high as it can be. The farther of the two bounds is taken, so that no
//! combination within the tolerances is worse.

use super::opening::Swing;
use super::space::{Position, Stance, Turn};
use super::surface::{MOST, Outside, Spot, Station, Surface};
use super::values::Values;
use super::{
    BONNET, BONNET_VARIES, BOUNCE, BOUNCE_GEARBOX, CEILING, Contributor, FORE_AFT, GEARBOX_MOUNT, GROWTH, HEIGHT, HINGE_ALONG, HINGE_UP,
    LEFT, MIDDLE, OPENING, OPENS, OUT, OVER, Opens, Over, PITCH, POINT_ACROSS, POINT_ALONG, POINT_UP, PRESSED, REST_HEIGHT, REST_PITCH,
    RIGHT, ROLL, ROLL_AXIS_FALLS, ROLL_AXIS_UP, SIDEWAYS, STATION,
};
use crate::quantity::{Angle, Length};
use crate::report::Unknown;
use crate::spec::{Column, Id};
use crate::tolerance::{Stack, Tolerance};

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
    pub(super) height: Tolerance,
    pub(super) fore_aft: Tolerance,
    pub(super) sideways: Tolerance,
    pub(super) pitch: Tolerance,
}

impl Motion {
    pub(super) const READS: [Id; 13] = [
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
        let behind = (values.one(BOUNCE_GEARBOX)? - bounce) / values.one(GEARBOX_MOUNT)?;
        Ok(Self {
            turns: [turn(roll), turn(-roll)],
            grown: 1.0 + values.one(GROWTH)?.si(),
            bounce: [bounce.si(), behind],
            height: values.off_by(HEIGHT)?,
            fore_aft: values.off_by(FORE_AFT)?,
            sideways: values.off_by(SIDEWAYS)?,
            pitch: values.off_by(PITCH)?,
        })
    }

    /// A point of the engine rolled to one side and hot, in the engine; and its bounce.
    #[inline]
    pub(super) fn shift(&self, side: usize, point: [f64; 3]) -> ([f64; 3], f64) {
        let rolled = self.turns[side].of_si(point.map(|part| part * self.grown));
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
    point: [Tolerance; 3],
    ceiling: Tolerance,
}

impl OffBy {
    pub(super) fn read(values: &mut impl Values, row: usize) -> Result<Self, Unknown> {
        let point = [values.off_by_at(POINT_ALONG, row)?, values.off_by_at(POINT_ACROSS, row)?, values.off_by_at(POINT_UP, row)?];
        Ok(Self { point, ceiling: values.off_by_at(CEILING, row)? })
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
    heights: [[Tolerance; 3]; MOST],
    along: [Tolerance; MOST],
    out: Tolerance,
    pressed: Result<f64, Unknown>,
    pub(super) swing: Result<Option<Swing>, Unknown>,
    /// Why the tolerances are not known, if they are not.
    unsure: Option<Unknown>,
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
        let rows = values.count(BONNET).min(MOST);
        let out = values.one(OUT)?;
        let mut unsure = None;
        let mut sure = |tolerance: Result<Tolerance, Unknown>| {
            tolerance.unwrap_or_else(|why| {
                unsure = unsure.or(Some(why));
                Tolerance::NONE
            })
        };
        let (mut heights, mut along) = ([[Tolerance::NONE; 3]; MOST], [Tolerance::NONE; MOST]);
        let mut stations = [Station { along: Length::ZERO, heights: [None; 3], low_by: [Length::ZERO; 3] }; MOST];
        let mut furthest_along = 0.0_f64;
        const COLUMNS: [Column<Length>; 3] = [LEFT, MIDDLE, RIGHT];
        for row in 0..rows {
            stations[row].along = values.at(STATION, row)?;
            along[row] = sure(values.off_by_at(STATION, row));
            furthest_along = furthest_along.max(along[row].half_width);
            for (at, column) in COLUMNS.into_iter().enumerate() {
                heights[row][at] = sure(values.off_by_at(column, row));
                stations[row].heights[at] = values.at(column, row).ok();
                stations[row].low_by[at] = Length::from_si(heights[row][at].half_width);
            }
        }
        let out_off_by = sure(values.off_by(OUT));
        Ok(Self {
            surface: Surface::new(stations.into_iter().take(rows), out),
            heights,
            along,
            out: out_off_by,
            pressed: values.one(PRESSED).map(Length::si),
            swing: Self::swing(values),
            unsure,
            furthest_along,
        })
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
    /// Of the side where contact is likelier: its room, its standard deviation, and whether it can touch at all.
    pub(super) likelier: (f64, f64, bool),
    side: usize,
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

/// One side's roll: the room, what it hangs on, and all it may be off by.
struct Side<'a> {
    standing: &'a Standing,
    motion: &'a Motion,
    bonnet: &'a Bonnet,
    point: &'a Point,
    side: usize,
    off_by: &'a OffBy,
    placed: [f64; 3],
    spot: Option<Spot>,
    over: f64,
    bounce: f64,
    pressed: f64,
}

impl<'a> Side<'a> {
    fn new(
        (standing, motion, bonnet): (&'a Standing, &'a Motion, &'a Bonnet),
        point: &'a Point,
        off_by: &'a OffBy,
        side: usize,
    ) -> Result<Self, Unknown> {
        let (rolled, bounce) = motion.shift(side, point.at);
        let placed = standing.stance.place(rolled);
        let (over, spot) = over(bonnet, point, placed)?;
        let pressed = if spot.is_some() { bonnet.pressed? } else { 0.0 };
        if let (Some(_), Some(why)) = (spot, bonnet.unsure) {
            return Err(why);
        }
        Ok(Self { standing, motion, bonnet, point, side, off_by, placed, spot, over, bounce, pressed })
    }

    fn gap(&self) -> f64 {
        self.over - self.placed[2] - self.bounce - self.pressed
    }

    /// Every dimension: how much the room changes with it, and its tolerance.
    #[inline]
    fn each(&self, mut add: impl FnMut(Contributor, f64, Tolerance)) {
        let Motion { height, fore_aft, sideways, pitch, grown, bounce, .. } = *self.motion;
        let slope = self.spot.map_or([0.0; 2], |spot| spot.slope);
        let seen = self.standing.stance.to_engine([slope[0], slope[1], -1.0]);
        let seen = [seen[0] - bounce[1], seen[1], seen[2]];
        let rows = &self.motion.turns[self.side].rows;
        let with = |axis: usize| grown * (rows[0][axis] * seen[0] + rows[1][axis] * seen[1] + rows[2][axis] * seen[2]);
        add(Contributor::PointAlong, with(0), self.off_by.point[0]);
        add(Contributor::PointAcross, with(1), self.off_by.point[1]);
        add(Contributor::PointUp, with(2), self.off_by.point[2]);
        add(Contributor::EngineHeight, -1.0, height);
        add(Contributor::ForeAft, slope[0], fore_aft);
        add(Contributor::Sideways, slope[1], sideways);
        let [along, up] = self.standing.stance.from_mounts(self.placed);
        add(Contributor::Pitch, slope[0] * up + along, pitch);
        if let Some(spot) = self.spot {
            for (station, shares) in spot.stations.into_iter().zip(spot.shares) {
                for (share, tolerance) in shares.into_iter().zip(self.bonnet.heights[station]) {
                    if share != 0.0 {
                        add(Contributor::BonnetHeights, share, tolerance);
                    }
                }
                add(Contributor::BonnetPlaces, -slope[0] * (shares[0] + shares[1] + shares[2]), self.bonnet.along[station]);
            }
            add(Contributor::BonnetPlaces, -slope[1] * self.placed[1] / self.bonnet.surface.half_width(), self.bonnet.out);
        }
        if self.point.ceiling.is_some() {
            add(Contributor::Ceiling, 1.0, self.off_by.ceiling);
        }
    }

    /// The room that nothing within the tolerances can go below.
    fn bound(&self) -> f64 {
        let Motion { height, fore_aft, sideways, pitch, grown, bounce, .. } = *self.motion;
        let rows = &self.motion.turns[self.side].rows;
        let by = self.off_by.point.map(|tolerance| tolerance.half_width);
        let rolled = rows.map(|row| grown * (row[0].abs() * by[0] + row[1].abs() * by[1] + row[2].abs() * by[2]));
        let [mut along, mut across, mut up] = self.standing.stance.spread(rolled);
        let [behind, above] = self.standing.stance.from_mounts(self.placed).map(f64::abs);
        // A tip by δ moves a point by its lever times δ, and by no more than half its distance times δ² beyond that.
        let tip = pitch.half_width;
        let second = 0.5 * tip * tip * (behind + above) + tip * (rolled[0] + rolled[2]);
        along += fore_aft.half_width + above * tip + second;
        up += height.half_width + behind * tip + second + bounce[1].abs() * rolled[0];
        across += sideways.half_width;
        let top = self.placed[2] + up + self.bounce + self.pressed;
        if let Some(ceiling) = self.point.ceiling {
            return ceiling - self.off_by.ceiling.half_width - top;
        }
        along += self.bonnet.furthest_along;
        let width = self.bonnet.surface.half_width();
        let narrowest = width - self.bonnet.out.half_width;
        if narrowest > 0.0 {
            across = across * width / narrowest + self.placed[1].abs() * self.bonnet.out.half_width / narrowest;
        }
        self.bonnet.surface.lowest([self.placed[0], self.placed[1]], [along, across]) - top
    }
}

/// Room in motion.
pub(super) fn moving(car: (&Standing, &Motion, &Bonnet), point: &Point, off_by: &OffBy) -> Result<Moving, Unknown> {
    let mut found: Option<Moving> = None;
    for side in [0, 1] {
        let state = Side::new(car, point, off_by, side)?;
        let gap = state.gap();
        let mut stack = Stack::default();
        state.each(|_, sensitivity, tolerance| stack.add(sensitivity, tolerance));
        let worst = state.bound().min(gap - stack.worst_case());
        let (rss, deviation) = (gap - stack.root_sum_square(), stack.deviation());
        let likelier = (gap, deviation, !stack.is_bounded() || worst < 0.0);
        let Side { over, placed, bounce, pressed, .. } = state;
        found = Some(match found {
            None => Moving { gap, over, up: placed[2], bounce, pressed, worst, rss, likelier, side },
            Some(other) => {
                let worse = if gap < other.gap { Moving { gap, over, up: placed[2], bounce, pressed, side, ..other } } else { other };
                let (other_gap, other_deviation, _) = other.likelier;
                // Fewer deviations away; where there are none, whichever has less room.
                let (here, there) = (gap * other_deviation, other_gap * deviation);
                let sooner = if here == there { gap < other_gap } else { here < there };
                let likelier = if sooner { likelier } else { other.likelier };
                Moving { worst: worst.min(other.worst), rss: rss.min(other.rss), likelier, ..worse }
            }
        });
    }
    found.ok_or(Unknown::NotComputed)
}

/// Number of [`Contributor`]s.
pub(super) const CONTRIBUTORS: usize = 10;

/// Variance of a point's room by what it comes from, on its worse side.
pub(super) fn variances(
    car: (&Standing, &Motion, &Bonnet),
    point: &Point,
    off_by: &OffBy,
    worse: &Moving,
) -> Result<[f64; CONTRIBUTORS], Unknown> {
    let mut variances = [0.0; CONTRIBUTORS];
    Side::new(car, point, off_by, worse.side)?.each(|from, sensitivity, tolerance| {
        let deviation = sensitivity * tolerance.deviation();
        if let Some(variance) = variances.get_mut(from as usize) {
            *variance += deviation * deviation;
        }
    });
    Ok(variances)
}
