//! How heavy is the pedal, how far does it go, and where does its travel get lost?
//!
//! One closed column of fluid between two pistons, standing still at each point of a slow push (Pascal's law), with
//! losses that always work against the foot:
//!
//! - slave: p = (L/(k·η_fork) + F_spring)/(A_s·η_seals) + p_stick for the bearing load L and fork ratio k;
//! - volume: A_m·(x_pedal/R − x_port) = A_s·x_slave + C·p, where C is the hose's growth and the fluid's give;
//! - pedal: F = p·A_m/(R·η_pedal) + F_pedal-spring.
//!
//! The seals' loss of both cylinders is counted at the slave, so that line pressure errs high. Rigid pipe does not grow.
//! The load curve is straight between points, so all of this is too, and every answer below is exact.
//!
//! A very soft line can let the bearing jump forward once the load starts to fall: the pedal then stands still while
//! the hose gives back its fluid. Going down, the pedal's travel therefore belongs to the *highest* volume met so far.

use super::load_curve::{LoadCurve, POINTS, Point};
use super::{Refusal, is_not_negative, is_positive};
use crate::quantity::{Area, Energy, Force, Length, Pressure, Ratio, Volume, VolumePerLength, circle, megapascals};

/// Pressure at which a hose's growth is stated: FMVSS 106, S5.3.2, 6.9 MPa (from memory).
pub const HOSE_TEST_PRESSURE: Pressure = megapascals(6.9);

/// Area of a concentric slave's ring-shaped piston.
#[must_use]
pub fn annulus(outer: Length, inner: Length) -> Area {
    circle(outer) - circle(inner)
}

/// Diameter of the plain piston with this area.
#[must_use]
pub fn equivalent_bore(area: Area) -> Length {
    Length::from_si((area.si() * 4.0 / core::f64::consts::PI).sqrt())
}

/// Slave area against master area: how much the fluid multiplies force and divides travel.
#[must_use]
pub fn hydraulic_ratio(master: Area, slave: Area) -> Ratio {
    Ratio::from_si(slave / master)
}

/// By how much fluid of this bulk modulus shrinks under pressure.
#[must_use]
pub fn fluid_give(trapped: Volume, pressure: Pressure, bulk_modulus: Pressure) -> Volume {
    trapped * (pressure / bulk_modulus)
}

/// By how much a hose swells under pressure, given its growth per length at [`HOSE_TEST_PRESSURE`].
#[must_use]
pub fn hose_growth(length: Length, growth: VolumePerLength, pressure: Pressure) -> Volume {
    growth * length * (pressure / HOSE_TEST_PRESSURE)
}

/// Everything between the foot and the release bearing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parts {
    /// Pad travel against master piston travel (a number).
    pub pedal_ratio: f64,
    /// Travel of the pad from rest to its stop.
    pub pedal_travel: Length,
    /// Travel of the pad before the push rod meets the piston.
    pub free_play: Length,
    /// Travel of the master piston before its port is shut.
    pub port_closing: Length,
    /// Of the master cylinder.
    pub master: Area,
    /// Of the slave cylinder, or of a concentric slave's ring.
    pub slave: Area,
    /// Slave travel against bearing travel (a number): 1 for a concentric slave.
    pub fork_ratio: f64,
    /// Air between bearing and fingers at rest; none with a bearing in constant contact.
    pub bearing_gap: Length,
    /// Of the flexible hose.
    pub hose_length: Length,
    /// Of that hose at [`HOSE_TEST_PRESSURE`].
    pub hose_growth: VolumePerLength,
    /// Fluid shut in between the pistons.
    pub trapped: Volume,
    /// Of the fluid; trapped air lowers it badly.
    pub bulk_modulus: Pressure,
    /// Share of the force that gets past the pedal's pivots (a number).
    pub pedal_efficiency: f64,
    /// Share that gets past both cylinders' seals (a number).
    pub seal_efficiency: f64,
    /// Share that gets past the fork's pivot (a number): 1 for a concentric slave.
    pub fork_efficiency: f64,
    /// Pressure it takes to move the seals at all.
    pub seal_stick: Pressure,
    /// Push of the pedal's springs against the foot at rest, at the pad.
    pub pedal_spring_at_rest: Force,
    /// The same at the stop; negative where an over-centre spring helps.
    pub pedal_spring_at_stop: Force,
    /// Pull of a return spring on the slave, along its whole travel.
    pub slave_spring: Force,
}

/// Where the pedal stands and what it asks for with the bearing in one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    /// Of the bearing from first touch; negative while it still crosses its gap.
    pub bearing: Length,
    /// Of the pad from rest.
    pub pedal: Length,
    /// At the pad, pushing slowly down.
    pub force: Force,
    /// In the line.
    pub pressure: Pressure,
}

/// Where the pedal's travel goes, all measured at the pad. The lines add up to the pedal's whole travel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Budget {
    /// Until the push rod meets the piston.
    pub free_play: Length,
    /// Until the port is shut.
    pub port_closing: Length,
    /// Into the hose.
    pub hose: Length,
    /// Into the fluid itself.
    pub fluid: Length,
    /// Until the bearing touches.
    pub bearing_gap: Length,
    /// To move the bearing under load.
    pub release: Length,
    /// Left before the stop; negative when the clutch is not free there.
    pub left: Length,
}

/// Work over one slow push to release.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Work {
    /// By the foot.
    pub foot: Energy,
    /// Taken up by the pedal's springs; negative what they gave.
    pub pedal_spring: Energy,
    /// Taken up by the slave's spring.
    pub slave_spring: Energy,
    /// On the fingers.
    pub fingers: Energy,
}

/// How many states [`System::stroke`] gives: rest, piston met, port shut, and each point of the load curve with one more
/// before the gap and one at the end.
pub const STATES: usize = POINTS + 5;

/// Parts that can work together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct System {
    parts: Parts,
    // Volume per pressure, m³/Pa.
    hose: f64,
    fluid: f64,
    // Newtons at the pad per pascal, metres at the pad per cubic metre.
    force_per_pressure: f64,
    travel_per_volume: f64,
}

impl System {
    /// # Errors
    /// When a part has no size, an efficiency is not a share, or a size is absurd.
    pub fn new(parts: Parts) -> Result<Self, Refusal> {
        let Parts { pedal_ratio, fork_ratio, master, slave, bulk_modulus, .. } = parts;
        if ![pedal_ratio, fork_ratio, master.si(), slave.si(), bulk_modulus.si()].into_iter().all(is_positive) {
            return Err("The pedal, the fork, both pistons and the fluid's stiffness must be larger than nothing.");
        }
        let shares = [parts.pedal_efficiency, parts.seal_efficiency, parts.fork_efficiency];
        if !shares.into_iter().all(|share| is_positive(share) && share <= 1.0) {
            return Err("An efficiency lies above zero and is at most one.");
        }
        let amounts = [
            parts.pedal_travel.si(),
            parts.free_play.si(),
            parts.port_closing.si(),
            parts.bearing_gap.si(),
            parts.hose_length.si(),
            parts.hose_growth.si(),
            parts.trapped.si(),
            parts.seal_stick.si(),
            parts.slave_spring.si(),
        ];
        if !amounts.into_iter().all(is_not_negative) {
            return Err("Travels, lengths and volumes cannot be less than nothing.");
        }
        let springs = [parts.pedal_spring_at_rest, parts.pedal_spring_at_stop];
        if !springs.into_iter().all(|spring| is_not_negative(spring.si().abs())) {
            return Err("A spring's force must be a number.");
        }
        let hose = (parts.hose_growth * parts.hose_length).si() / HOSE_TEST_PRESSURE.si();
        let fluid = parts.trapped.si() / bulk_modulus.si();
        Ok(Self {
            parts,
            hose,
            fluid,
            force_per_pressure: master.si() / (pedal_ratio * parts.pedal_efficiency),
            travel_per_volume: pedal_ratio / master.si(),
        })
    }

    /// The parts it is made of.
    #[must_use]
    pub fn parts(&self) -> &Parts {
        &self.parts
    }

    /// With other pistons.
    ///
    /// # Errors
    /// As [`System::new`].
    pub fn with_pistons(&self, master: Area, slave: Area) -> Result<Self, Refusal> {
        Self::new(Parts { master, slave, ..self.parts })
    }

    /// With the bearing at this travel under this load, the pedal still going down.
    #[must_use]
    pub fn state(&self, bearing: Length, load: Force) -> State {
        let pressure = self.pressure(load);
        let volume = self.slave_volume(bearing) + self.given(pressure);
        let pedal = self.pedal_for(volume);
        State { bearing, pedal, force: self.force(pressure, pedal), pressure }
    }

    /// Pedal travel, force and line pressure at the moment the clutch is free.
    #[must_use]
    pub fn at_release(&self, curve: &LoadCurve, needed: Length) -> State {
        let end = self.state(needed, curve.load_at(needed));
        let pedal = self.pedal_for(self.release_volume(curve, needed).0);
        State { pedal, force: self.force(end.pressure, pedal), ..end }
    }

    /// The state that asks most of the foot on the way to release, or to the stop if that comes first.
    #[must_use]
    pub fn heaviest(&self, curve: &LoadCurve, needed: Length) -> State {
        self.largest(curve, needed, |state| state.force.si())
    }

    /// The state with the highest line pressure on the way to release, or to the stop if that comes first.
    #[must_use]
    pub fn hardest(&self, curve: &LoadCurve, needed: Length) -> State {
        self.largest(curve, needed, |state| state.pressure.si())
    }

    /// Where the bearing is with the pad this far down, pushing. Zero until it moves.
    #[must_use]
    pub fn bearing_at(&self, curve: &LoadCurve, pedal: Length) -> Length {
        let parts = &self.parts;
        let pushed = ((pedal - parts.free_play) / parts.pedal_ratio - parts.port_closing).max(Length::ZERO);
        let volume = (parts.master * pushed).si();
        let mut before = (-parts.bearing_gap, self.volume(-parts.bearing_gap, Force::ZERO));
        if volume <= before.1 {
            return Length::ZERO;
        }
        for Point { travel, load } in [Point::START].iter().chain(curve.points()).copied() {
            let here = (travel, self.volume(travel, load));
            if here.1 >= volume {
                // The first point at or past this volume, so the line up to it rises through it.
                let share = if here.1 > before.1 { (volume - before.1) / (here.1 - before.1) } else { 1.0 };
                return (before.0 + (here.0 - before.0) * share).max(Length::ZERO);
            }
            before = here;
        }
        let beyond = (volume - before.1) / (parts.slave.si() * parts.fork_ratio);
        (before.0 + Length::from_si(beyond)).max(Length::ZERO)
    }

    /// Where the bearing is with the pad on its stop: more than the cover allows bends its fingers.
    #[must_use]
    pub fn bearing_at_stop(&self, curve: &LoadCurve) -> Length {
        self.bearing_at(curve, self.parts.pedal_travel)
    }

    /// The pedal's travel to the last millimetre.
    #[must_use]
    pub fn budget(&self, curve: &LoadCurve, needed: Length) -> Budget {
        let parts = &self.parts;
        let (volume, at) = self.release_volume(curve, needed);
        let pressure = self.pressure(at.load).si();
        let at_pad = |volume: f64| Length::from_si(volume * self.travel_per_volume);
        let (hose, fluid) = (at_pad(self.hose * pressure), at_pad(self.fluid * pressure));
        let bearing_gap = at_pad((parts.slave * parts.bearing_gap).si() * parts.fork_ratio);
        let free_play = parts.free_play;
        let port_closing = parts.port_closing * parts.pedal_ratio;
        Budget {
            free_play,
            port_closing,
            hose,
            fluid,
            bearing_gap,
            release: at_pad(volume) - hose - fluid - bearing_gap,
            left: parts.pedal_travel - self.pedal_for(volume),
        }
    }

    /// The push in order, straight between states, to the stop. The first states are rest, rod on piston, and port shut.
    #[must_use]
    pub fn stroke(&self, curve: &LoadCurve) -> [State; STATES] {
        let parts = &self.parts;
        let idle = |pedal: Length| State { bearing: -parts.bearing_gap, pedal, force: self.pedal_spring(pedal), pressure: Pressure::ZERO };
        let end = self.bearing_at_stop(curve);
        let last = State { pedal: parts.pedal_travel.max(self.pedal_for(0.0)), ..self.state(end, curve.load_at(end)) };
        let mut states = [last; STATES];
        states[0] = idle(Length::ZERO);
        states[1] = idle(parts.free_play);
        states[2] = idle(self.pedal_for(0.0));
        states[3] = self.state(-parts.bearing_gap, Force::ZERO);
        let mut furthest = states[3].pedal;
        for (state, point) in states[4..].iter_mut().zip(curve.points()) {
            if point.travel >= end {
                break;
            }
            *state = self.state(point.travel, point.load);
            furthest = furthest.max(state.pedal);
            state.pedal = furthest;
        }
        states
    }

    /// Work of one slow push to release; a jump of the bearing takes none of the foot's.
    #[must_use]
    pub fn work(&self, curve: &LoadCurve, needed: Length) -> Work {
        let end = self.pedal_for(self.release_volume(curve, needed).0);
        let spring = (self.pedal_spring(Length::ZERO) + self.pedal_spring(end)).si() / 2.0 * end.si();
        let slave_travel = (needed + self.parts.bearing_gap) * self.parts.fork_ratio;
        let slave_spring = (self.parts.slave_spring * slave_travel).si();
        // Force without springs is straight over volume between points: trapezoids, from the furthest volume so far.
        let start = (0.0, 0.0);
        let gap = -self.parts.bearing_gap;
        let mut before = (self.volume(gap, Force::ZERO), self.pressure(Force::ZERO).si());
        let mut joules = trapezoid(start, before);
        let mut furthest = before.0;
        let last = Point { travel: needed, load: curve.load_at(needed) };
        let inner = curve.points().iter().take_while(|point| point.travel < needed);
        for Point { travel, load } in [Point::START].iter().chain(inner).chain([&last]).copied() {
            let here = (self.volume(travel, load), self.pressure(load).si());
            if here.0 > furthest {
                let share = ((furthest - before.0) / (here.0 - before.0)).max(0.0);
                joules += trapezoid((furthest, before.1 + (here.1 - before.1) * share), here);
                furthest = here.0;
            }
            before = here;
        }
        Work {
            foot: Energy::from_si(joules / self.parts.pedal_efficiency + spring),
            pedal_spring: Energy::from_si(spring),
            slave_spring: Energy::from_si(slave_spring),
            fingers: curve.work_until(needed),
        }
    }

    // The highest volume on the way to release, and where it was met.
    fn release_volume(&self, curve: &LoadCurve, needed: Length) -> (f64, Point) {
        let at = Point { travel: needed, load: curve.load_at(needed) };
        let mut most = (self.volume(needed, at.load), at);
        for point in curve.points().iter().take_while(|point| point.travel <= needed) {
            let volume = self.volume(point.travel, point.load);
            if volume > most.0 {
                most = (volume, *point);
            }
        }
        most
    }

    fn largest(&self, curve: &LoadCurve, needed: Length, by: fn(&State) -> f64) -> State {
        let reach = needed.min(self.bearing_at_stop(curve));
        let rest = State {
            bearing: -self.parts.bearing_gap,
            pedal: Length::ZERO,
            force: self.pedal_spring(Length::ZERO),
            pressure: Pressure::ZERO,
        };
        let mut most = rest;
        let mut furthest = Length::ZERO;
        let last = Point { travel: reach, load: curve.load_at(reach) };
        let inner = curve.points().iter().take_while(|point| point.travel <= reach);
        for point in inner.chain([&last]) {
            let mut state = self.state(point.travel, point.load);
            furthest = furthest.max(state.pedal).min(self.parts.pedal_travel);
            state.force = self.force(state.pressure, furthest);
            state.pedal = furthest;
            if by(&state) > by(&most) {
                most = state;
            }
        }
        most
    }

    fn pressure(&self, load: Force) -> Pressure {
        let parts = &self.parts;
        let force = load / (parts.fork_ratio * parts.fork_efficiency) + parts.slave_spring;
        force / (parts.slave * parts.seal_efficiency) + parts.seal_stick
    }

    fn force(&self, pressure: Pressure, pedal: Length) -> Force {
        Force::from_si(pressure.si() * self.force_per_pressure) + self.pedal_spring(pedal)
    }

    fn pedal_spring(&self, pedal: Length) -> Force {
        let parts = &self.parts;
        let share = if parts.pedal_travel > Length::ZERO { pedal / parts.pedal_travel } else { 0.0 };
        parts.pedal_spring_at_rest + (parts.pedal_spring_at_stop - parts.pedal_spring_at_rest) * share
    }

    fn slave_volume(&self, bearing: Length) -> f64 {
        (self.parts.slave * (bearing + self.parts.bearing_gap)).si() * self.parts.fork_ratio
    }

    fn given(&self, pressure: Pressure) -> f64 {
        (self.hose + self.fluid) * pressure.si()
    }

    fn volume(&self, bearing: Length, load: Force) -> f64 {
        self.slave_volume(bearing) + self.given(self.pressure(load))
    }

    // Pad travel at which the master has pushed this much out.
    fn pedal_for(&self, volume: f64) -> Length {
        let parts = &self.parts;
        parts.free_play + parts.port_closing * parts.pedal_ratio + Length::from_si(volume * self.travel_per_volume)
    }
}

fn trapezoid(from: (f64, f64), to: (f64, f64)) -> f64 {
    (from.1 + to.1) / 2.0 * (to.0 - from.0)
}
