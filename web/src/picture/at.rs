//! Points on the screen.

use core::ops::{Add, Mul, Sub};

/// A point or a way between two, in CSS pixels: x to the right, y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct At {
    pub(crate) x: f64,
    pub(crate) y: f64,
}

impl At {
    pub(crate) const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    pub(crate) fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    pub(crate) fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The same way, one pixel long; to the right when it leads nowhere.
    pub(crate) fn unit(self) -> Self {
        let length = self.length();
        if length > 1e-9 { self * (1.0 / length) } else { Self::new(1.0, 0.0) }
    }

    /// Turned a quarter to the left, as seen on the screen.
    pub(crate) const fn left(self) -> Self {
        Self { x: self.y, y: -self.x }
    }
}

impl Add for At {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for At {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for At {
    type Output = Self;
    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by)
    }
}

/// The nearest of these points to `to`, within so many pixels; of equally near ones the `preferred`, else the first.
pub(crate) fn nearest(points: impl Iterator<Item = At>, to: At, within: f64, preferred: Option<usize>) -> Option<usize> {
    let mut best: Option<(usize, f64)> = None;
    for (index, point) in points.enumerate() {
        let distance = (point - to).length();
        let closer = best.is_none_or(|(_, least)| distance < least - 1.0 || (distance < least + 1.0 && Some(index) == preferred));
        if distance <= within && closer {
            best = Some((index, distance));
        }
    }
    best.map(|(index, _)| index)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_within_reach_is_taken() {
        let points = || [At::new(0.0, 0.0), At::new(30.0, 0.0), At::new(30.4, 0.0)].into_iter();
        assert_eq!(nearest(points(), At::new(12.0, 0.0), 22.0, None), Some(0));
        assert_eq!(nearest(points(), At::new(22.0, 5.0), 22.0, None), Some(1));
        assert_eq!(nearest(points(), At::new(22.0, 5.0), 22.0, Some(2)), Some(2), "as good as on top of one another");
        assert_eq!(nearest(points(), At::new(2.0, 0.0), 22.0, Some(2)), Some(0), "preferred only among equals");
        assert_eq!(nearest(points(), At::new(15.0, 40.0), 22.0, None), None);
    }

    #[test]
    fn left_is_up_when_going_right() {
        assert_eq!(At::new(1.0, 0.0).left(), At::new(0.0, -1.0));
    }
}
