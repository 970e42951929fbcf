//! Where is a point of the engine once the engine is in the car?
//!
//! Axes, of engine and car alike: along is back from the front, across is to the right as one stands before the car
//! facing it, up is up. The engine's origin lies midway between its mounts, its along axis is that of the crank. The
//! car's origin lies midway between the pads the mounts stand on; its axes are level.

use crate::quantity::{Angle, Length};

/// A point, in the engine or in the car.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    /// Back.
    pub along: Length,
    /// To the right, facing the car.
    pub across: Length,
    /// Up.
    pub up: Length,
}

impl Position {
    pub(super) const fn si(self) -> [f64; 3] {
        [self.along.si(), self.across.si(), self.up.si()]
    }

    pub(super) const fn from_si([along, across, up]: [f64; 3]) -> Self {
        Self { along: Length::from_si(along), across: Length::from_si(across), up: Length::from_si(up) }
    }
}

/// A turn about an axis: x' = c + R·(x − c), R by Rodrigues' formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    centre: [f64; 3],
    pub(super) rows: [[f64; 3]; 3],
}

impl Turn {
    /// About an axis through `centre`, right-handed in (along, across, up). `direction` holds numbers of any length; with
    /// none of it, nothing turns.
    #[must_use]
    pub fn about(centre: Position, direction: [f64; 3], angle: Angle) -> Self {
        let length = direction.iter().map(|part| part * part).sum::<f64>().sqrt();
        let [x, y, z] = if length > 0.0 { direction.map(|part| part / length) } else { [0.0; 3] };
        let (sine, cosine) = if length > 0.0 { libm::sincos(angle.si()) } else { (0.0, 1.0) };
        let rest = 1.0 - cosine;
        let rows = [
            [cosine + x * x * rest, x * y * rest - z * sine, x * z * rest + y * sine],
            [y * x * rest + z * sine, cosine + y * y * rest, y * z * rest - x * sine],
            [z * x * rest - y * sine, z * y * rest + x * sine, cosine + z * z * rest],
        ];
        Self { centre: centre.si(), rows }
    }

    /// Where a point goes.
    #[must_use]
    pub fn of(&self, point: Position) -> Position {
        Position::from_si(self.of_si(point.si()))
    }

    #[inline]
    pub(super) fn of_si(&self, [x, y, z]: [f64; 3]) -> [f64; 3] {
        let [a, b, c] = self.centre;
        let (x, y, z) = (x - a, y - b, z - c);
        let [first, second, third] = self.rows;
        [
            a + first[0] * x + first[1] * y + first[2] * z,
            b + second[0] * x + second[1] * y + second[2] * z,
            c + third[0] * x + third[1] * y + third[2] * z,
        ]
    }
}

/// How the engine stands in the car.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stance {
    origin: [f64; 3],
    sine: f64,
    cosine: f64,
}

impl Stance {
    /// Its mounts at `at` in the car, its tail down by `pitch`.
    #[must_use]
    pub fn new(at: Position, pitch: Angle) -> Self {
        let (sine, cosine) = libm::sincos(pitch.si());
        Self { origin: at.si(), sine, cosine }
    }

    /// Where a point of the engine is in the car.
    #[must_use]
    pub fn in_car(&self, point: Position) -> Position {
        Position::from_si(self.place(point.si()))
    }

    #[inline]
    pub(super) fn place(&self, [x, y, z]: [f64; 3]) -> [f64; 3] {
        let [a, b, c] = self.origin;
        [a + x * self.cosine + z * self.sine, b + y, c + z * self.cosine - x * self.sine]
    }

    /// The same from the mounts on, not from the car's origin: along and up.
    #[inline]
    pub(super) fn lever(&self, placed: [f64; 3]) -> [f64; 2] {
        [placed[0] - self.origin[0], placed[2] - self.origin[2]]
    }

    /// A direction of the car (a gradient) as seen from the engine.
    #[inline]
    pub(super) fn seen_from_engine(&self, [x, y, z]: [f64; 3]) -> [f64; 3] {
        [x * self.cosine - z * self.sine, y, x * self.sine + z * self.cosine]
    }

    /// Most that a point moves along and up in the car when it moves by no more than `by` in the engine.
    #[inline]
    pub(super) fn spread(&self, by: [f64; 3]) -> [f64; 3] {
        let (sine, cosine) = (self.sine.abs(), self.cosine.abs());
        [by[0] * cosine + by[2] * sine, by[1], by[0] * sine + by[2] * cosine]
    }
}

/// How much an engine tips when one end of it is raised by `raise`, the supports `base` apart: atan(raise / base).
#[must_use]
pub fn tip(raise: Length, base: Length) -> Angle {
    Angle::from_si(libm::atan2(raise.si(), base.si()))
}
