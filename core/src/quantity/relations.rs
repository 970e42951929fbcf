//! Which quantities multiply to which: the only ways from one type to another.
use super::*;

macro_rules! relations {
    ($($left:ident * $right:ident = $product:ident;)*) => {$(
        impl core::ops::Mul<$right> for $left { type Output = $product; fn mul(self, by: $right) -> $product { $product::from_si(self.si() * by.si()) } }
        impl core::ops::Mul<$left> for $right { type Output = $product; fn mul(self, by: $left) -> $product { $product::from_si(self.si() * by.si()) } }
        impl core::ops::Div<$left> for $product { type Output = $right; fn div(self, by: $left) -> $right { $right::from_si(self.si() / by.si()) } }
        impl core::ops::Div<$right> for $product { type Output = $left; fn div(self, by: $right) -> $left { $left::from_si(self.si() / by.si()) } }
    )*};
}

relations! {
    Area * Length = Volume;
    Pressure * Area = Force;
    Force * Length = Torque;
    Stiffness * Length = Force;
    Torque * RotationalSpeed = Power;
    Inertia * AngularAcceleration = Torque;
    Force * Velocity = Power;
    Voltage * Current = Power;
    Current * Resistance = Voltage;
    ResistancePerLength * Length = Resistance;
    Current * Time = Charge;
    HeatPerLength * ThermalResistance = TemperatureRise;
    Velocity * Time = Length;
    AngularAcceleration * Time = RotationalSpeed;
    LinearDensity * Length = Mass;
    Density * Volume = Mass;
}

impl core::ops::Mul for Length {
    type Output = Area;
    fn mul(self, by: Self) -> Area {
        Area::from_si(self.si() * by.si())
    }
}

impl core::ops::Div<Length> for Area {
    type Output = Length;
    fn div(self, by: Length) -> Length {
        Length::from_si(self.si() / by.si())
    }
}

/// Area of a circle of this diameter.
#[must_use]
pub fn circle(diameter: Length) -> Area {
    diameter * diameter * (PI / 4.0)
}

/// Speed of a point at this radius.
#[must_use]
pub fn rim_speed(speed: RotationalSpeed, radius: Length) -> Velocity {
    Velocity::from_si(speed.si() * radius.si())
}

// One way only: a volume divided by a length is an area.
impl core::ops::Mul<Length> for VolumePerLength {
    type Output = Volume;
    fn mul(self, by: Length) -> Volume {
        Volume::from_si(self.si() * by.si())
    }
}

impl core::ops::Add<TemperatureRise> for Temperature {
    type Output = Self;
    fn add(self, rise: TemperatureRise) -> Self {
        Self::from_si(self.si() + rise.si())
    }
}
