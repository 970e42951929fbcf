//! Does the bonnet clear the engine on its way up?
//!
//! Seen from the bonnet, it is the engine's points that swing about the hinge. The gap is taken upwards to the underside,
//! as when shut; a point that leaves what was measured is past the bonnet's edge and free.

use super::surface::Surface;

/// The bonnet's hinge and how far it opens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Swing {
    /// Along and up.
    pub(super) hinge: [f64; 2],
    /// At the front: its rear rises.
    pub(super) at_front: bool,
    pub(super) sine: f64,
    pub(super) cosine: f64,
    pub(super) opening: f64,
}

/// Between these the gap bends by less than a thousandth of the way to the hinge.
const STEP: f64 = core::f64::consts::PI / 180.0;

impl Swing {
    /// The least gap over the swing, given the gap when shut.
    pub(super) fn least(&self, surface: &Surface, [along, across, up]: [f64; 3], shut: f64) -> f64 {
        let (x, z) = (along - self.hinge[0], up - self.hinge[1]);
        let side = if self.at_front { 1.0 } else { -1.0 };
        // Opening by α takes the point round by −α (front hinge) and the gap changes by x' + s·z', for either slope s: while
        // that cannot be negative, it only opens.
        let ([steepest, _], _) = surface.steepest();
        let turned = |sine: f64, cosine: f64| [x * cosine + side * z * sine, z * cosine - side * x * sine];
        let [end_x, end_z] = turned(self.sine, self.cosine);
        let opens = |x: f64, z: f64| side * x > steepest * z.abs();
        // Both ends safe, and less than half a turn between: all between is as safe as the worse of them.
        if opens(x, z) && opens(end_x, end_z) {
            return shut;
        }
        let mut least = shut;
        let mut angle = STEP;
        while angle < self.opening + STEP {
            let (sine, cosine) = libm::sincos(angle.min(self.opening));
            let [x, z] = turned(sine, cosine);
            if let Ok(spot) = surface.at(self.hinge[0] + x, across) {
                least = least.min(spot.height - self.hinge[1] - z);
            }
            angle += STEP;
        }
        least
    }
}
