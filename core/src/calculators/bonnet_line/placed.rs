//! What the room over a point hangs on, as read: where the engine stands and how it moves, the point, the bonnet, each with
//! what it may be off by.

use super::opening::Swing;
use super::space::{Position, Stance, Turn};
use super::surface::{MOST, Station, Surface};
use super::values::Values;
use super::{
    BONNET, BONNET_VARIES, BOUNCE, BOUNCE_GEARBOX, CEILING, FORE_AFT, GEARBOX_MOUNT, GROWTH, HEIGHT, HINGE_ALONG, HINGE_UP, LEFT, MIDDLE,
    OPENING, OPENS, OUT, OVER, Opens, Over, PITCH, POINT_ACROSS, POINT_ALONG, POINT_UP, PRESSED, REST_HEIGHT, REST_PITCH, RIGHT, ROLL,
    ROLL_AXIS_FALLS, ROLL_AXIS_UP, SIDEWAYS, STATION,
};
use crate::quantity::{Angle, Length};
use crate::report::Unknown;
use crate::spec::Id;
use crate::tolerance::Off;

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
    /// Why what these may be off by is not known, if it is not.
    pub(super) sure: Result<(), Unknown>,
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
        let (measured, pitch) = (values.measured(), values.usual(super::PITCH_READING));
        let sure = measured.and(pitch).map(|_| ());
        let (measured, pitch) = (measured.unwrap_or(Off::NONE), pitch.unwrap_or(Off::NONE));
        let behind = (values.one(BOUNCE_GEARBOX)? - bounce) / values.one(GEARBOX_MOUNT)?;
        Ok(Self {
            turns: [turn(roll), turn(-roll)],
            grown: 1.0 + values.one(GROWTH)?.si(),
            bounce: [bounce.si(), behind],
            height: values.off(HEIGHT, measured),
            fore_aft: values.off(FORE_AFT, measured),
            sideways: values.off(SIDEWAYS, measured),
            pitch: values.off(PITCH, pitch),
            sure,
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
    pub(super) point: [Off; 3],
    pub(super) ceiling: Off,
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
    pub(super) heights: [[Off; 3]; MOST],
    pub(super) along: [Off; MOST],
    pub(super) out: Off,
    pub(super) pressed: Result<f64, Unknown>,
    pub(super) swing: Result<Option<Swing>, Unknown>,
    /// Why what tolerances take is not known, if it is not.
    pub(super) sure: Result<(), Unknown>,
    pub(super) furthest_along: f64,
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
        bonnet.sure = bonnet.sure.and_then(|()| bonnet.keeps_shape());
        Ok(bonnet)
    }

    /// That the same neighbours stay neighbours whatever each station and column is off by. Were two to change places, the
    /// underside would run from other heights to other heights, and no bound on how far it shifts would hold.
    fn keeps_shape(&self) -> Result<(), Unknown> {
        if !self.surface.keeps_order(&self.along) {
            return Err(Unknown::NoSolution("Two bonnet stations are closer together than they may be off: space them wider."));
        }
        if self.out.half_width >= self.surface.half_width() {
            return Err(Unknown::NoSolution("The bonnet's outer heights may be off by all they are from the middle."));
        }
        Ok(())
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
