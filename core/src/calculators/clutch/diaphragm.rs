//! What does a diaphragm spring press with, and what does it take to lift it?
//!
//! The closed ring outside the finger slots is a disc spring: Almen & László, Trans. ASME 58 (1936), RP-58-10, in the
//! form of DIN EN 16984:
//! F(s) = 4E/(1 − ν²) · t⁴/(K₁·De²) · s/t · [(h/t − s/t)·(h/t − s/2t) + 1],
//! K₁ = ((δ − 1)/δ)²/π / ((δ + 1)/(δ − 1) − 2/ln δ), δ = De/Di.
//!
//! Carried on circles inside its edges, its load grows and its travel shrinks by (De − Di)/(D₁ − D₂). The fingers work
//! it by λ = (D₂ − D₃)/(D₁ − D₂), and bend: **a bearing load computed from spring dimensions is an estimate and cannot
//! be *within*; measured data can.**

use super::load_curve::{LoadCurve, POINTS, Point};
use super::{Refusal, is_not_negative, is_positive};
use crate::quantity::{Force, Length, Pressure, Stiffness};
use core::f64::consts::PI;

/// The closed ring of a diaphragm spring, unloaded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ring {
    /// De, over the outer edge.
    pub outer: Length,
    /// Di, at the roots of the fingers.
    pub inner: Length,
    /// t, of the sheet.
    pub thickness: Length,
    /// h₀, free height of the cone without the sheet's thickness.
    pub cone: Length,
    /// E, 206 GPa for spring steel.
    pub modulus: Pressure,
    /// ν, 0.3 for steel (a number).
    pub poisson: f64,
}

/// Where the load over travel turns: it rises to the peak, falls to the valley, rises again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turns {
    /// Deflection of highest load before the dip.
    pub peak: Length,
    /// Deflection of lowest load after it.
    pub valley: Length,
}

/// A ring that can be computed with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Diaphragm {
    ring: Ring,
    // 4E/((1 − ν²)·K₁·De²), in N/m⁴.
    scale: f64,
}

impl Diaphragm {
    /// # Errors
    /// When the ring has no width, no thickness or no stiffness.
    pub fn new(ring: Ring) -> Result<Self, Refusal> {
        if !is_positive(ring.inner.si()) || !is_positive(ring.outer.si()) || ring.outer < ring.inner * 1.02 {
            return Err("The spring's outer diameter must be larger than the circle of its finger roots.");
        }
        if !is_positive(ring.thickness.si()) || !is_not_negative(ring.cone.si()) || !is_positive(ring.modulus.si()) {
            return Err("The spring needs a sheet thickness, a cone height and a modulus.");
        }
        if !(0.0..0.5).contains(&ring.poisson) {
            return Err("Poisson's ratio lies between 0 and 0.5.");
        }
        let outer = ring.outer.si();
        let scale = 4.0 * ring.modulus.si() / ((1.0 - ring.poisson * ring.poisson) * dish_factor(ring.outer / ring.inner) * outer * outer);
        Ok(Self { ring, scale })
    }

    /// Its sizes.
    #[must_use]
    pub fn ring(&self) -> &Ring {
        &self.ring
    }

    /// Load between the edges at this deflection.
    #[must_use]
    pub fn load(&self, deflection: Length) -> Force {
        let (s, t, h) = (deflection.si(), self.ring.thickness.si(), self.ring.cone.si());
        Force::from_si(self.scale * t * s * ((h - s) * (h - s / 2.0) + t * t))
    }

    /// Peak and valley at h₀ ∓ √((h₀² − 2t²)/3); none for a spring that only ever rises.
    #[must_use]
    pub fn turns(&self) -> Option<Turns> {
        let (t, h) = (self.ring.thickness.si(), self.ring.cone.si());
        let square = (h * h - 2.0 * t * t) / 3.0;
        if square < 0.0 {
            return None;
        }
        let half = square.sqrt();
        Some(Turns { peak: Length::from_si(h - half), valley: Length::from_si(h + half) })
    }
}

/// K₁ of the formula; δ = De/Di, above one.
#[must_use]
pub fn dish_factor(delta: f64) -> f64 {
    let step = (delta - 1.0) / delta;
    step * step / PI / ((delta + 1.0) / (delta - 1.0) - 2.0 / libm::log(delta))
}

/// The circles a cover works its spring on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circles {
    /// D₁, where the spring presses the pressure plate.
    pub plate: Length,
    /// D₂, the pivot rings or rivets on the cover.
    pub pivot: Length,
    /// D₃, where the bearing touches the fingers.
    pub fingers: Length,
}

/// What a plate needs to come free, and how the fingers take it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// How far the plate's cushion springs back.
    pub cushion: Length,
    /// Load over bend at the finger tips.
    pub finger_stiffness: Stiffness,
}

/// A diaphragm spring in its cover, bolted up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cover {
    spring: Diaphragm,
    // Load and travel at the circles against those at the edges, (De − Di)/(D₁ − D₂).
    carried: f64,
    finger_ratio: f64,
}

impl Cover {
    /// # Errors
    /// When the circles do not lie inside one another as they must.
    pub fn new(spring: Diaphragm, circles: Circles) -> Result<Self, Refusal> {
        let Circles { plate, pivot, fingers } = circles;
        if !is_positive(fingers.si()) || fingers >= pivot || pivot >= plate || plate > spring.ring.outer {
            return Err("From outside in: spring edge, plate circle, pivot circle, finger tips.");
        }
        if pivot < spring.ring.inner {
            return Err("The pivot circle lies on the closed ring, outside the finger roots.");
        }
        let carried = (spring.ring.outer - spring.ring.inner) / (plate - pivot);
        let finger_ratio = (pivot - fingers) / (plate - pivot);
        if !is_positive(carried) || !is_positive(finger_ratio) {
            return Err("The plate circle and the pivot circle are too close to tell apart.");
        }
        Ok(Self { spring, carried, finger_ratio })
    }

    /// The spring in it.
    #[must_use]
    pub fn spring(&self) -> &Diaphragm {
        &self.spring
    }

    /// Load and travel on the circles against those at the spring's edges, (De − Di)/(D₁ − D₂) (a number).
    #[must_use]
    pub fn carried(&self) -> f64 {
        self.carried
    }

    /// Load on the fingers with the plate free and lifted this far.
    #[must_use]
    pub fn bearing_load_freed(&self, fitted: Length, lift: Length) -> Force {
        self.clamp(fitted + lift * self.carried) / self.finger_ratio
    }

    /// λ, finger travel for each travel of the pressure plate (a number).
    #[must_use]
    pub fn finger_ratio(&self) -> f64 {
        self.finger_ratio
    }

    /// Load on the plate with the spring deflected this far.
    #[must_use]
    pub fn clamp(&self, deflection: Length) -> Force {
        self.spring.load(deflection) * self.carried
    }

    /// Deflection after the facings have lost `wear` in all: the plate follows and the spring opens.
    #[must_use]
    pub fn worn(&self, deflection: Length, wear: Length) -> Length {
        deflection - wear * self.carried
    }

    /// Load on the bearing over its travel, up to `lift` of the pressure plate. The cushion's push fades evenly while
    /// it springs back; the fingers bend under the load.
    ///
    /// # Errors
    /// When the spring does not press at all where it is fitted, or would turn over and stay.
    pub fn bearing_load(&self, fitted: Length, lift: Length, plate: Plate) -> Result<LoadCurve, Refusal> {
        let (lift, cushion) = (lift.si(), plate.cushion.si());
        if !is_positive(lift) || !is_not_negative(cushion) || !is_positive(plate.finger_stiffness.si()) {
            return Err("The release needs a lift of the plate and a finger stiffness.");
        }
        let clamp = self.clamp(fitted);
        if !is_positive(clamp.si()) {
            return Err("Fitted like this the spring does not press on the plate.");
        }
        let mut points = [Point::START; POINTS - 1];
        let mut before = 0.0;
        for (at, point) in points.iter_mut().enumerate() {
            let next = lift * (at + 1) as f64 / (POINTS - 1) as f64;
            // One sample falls on the end of the cushion, where the load turns a corner.
            let raised = if before <= cushion && cushion < next { cushion } else { next };
            before = next;
            let cushioned = if raised < cushion { clamp * (1.0 - raised / cushion) } else { Force::ZERO };
            let spring = self.clamp(fitted + Length::from_si(raised) * self.carried);
            if spring.si() < 0.0 {
                return Err("Lifted this far the spring would turn over and not come back.");
            }
            let load = ((spring - cushioned) / self.finger_ratio).max(Force::ZERO);
            let travel = Length::from_si(raised) * self.finger_ratio + load / plate.finger_stiffness;
            *point = Point { travel, load };
        }
        LoadCurve::new(&points)
    }
}
