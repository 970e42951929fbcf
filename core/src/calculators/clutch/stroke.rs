//! What happens along one push of the pedal: where its travel goes, what it asks for on the way, what work it takes.

use super::hydraulics::{State, System};
use super::load_curve::{LoadCurve, POINTS, Point};
use crate::quantity::{Energy, Force, Length};

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

/// One slow push to release, as if the stop were not there, so that systems that drag can be compared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Push {
    /// Where it asks most of the foot on the way.
    pub heaviest: State,
    /// Where the line sees most pressure on the way.
    pub hardest: State,
    /// At release. In a line so soft that the bearing jumps there, the pad stands where the jump began.
    pub release: State,
    /// Where the pad is furthest down until release: release itself, or where a jump to it begins.
    pub furthest: State,
    /// Where the bearing is with the pad on its stop: more than the cover allows bends its fingers.
    pub bearing_at_stop: Length,
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

impl System {
    /// One push against this load, to the bearing travel that frees the clutch.
    #[must_use]
    pub fn push(&self, curve: &LoadCurve, needed: Length) -> Push {
        let end = self.state(needed, curve.load_at(needed));
        let rest = self.idle(Length::ZERO);
        let (mut heaviest, mut hardest, mut furthest) = (rest, rest, rest);
        let last = Point { travel: needed, load: end.load };
        // Those at the end, too: the load may fall there by a sheer step.
        let inner = curve.points().iter().take_while(|point| point.travel <= needed).filter(|point| **point != last);
        for point in inner.chain([&last]) {
            let state = self.state(point.travel, point.load);
            if state.pedal >= furthest.pedal {
                furthest = state;
            }
            // Where the bearing jumps on, the pad stands still.
            let state = State { pedal: furthest.pedal, force: self.force(state.pressure, furthest.pedal), ..state };
            heaviest = if state.force > heaviest.force { state } else { heaviest };
            hardest = if state.pressure > hardest.pressure { state } else { hardest };
        }
        let bearing_at_stop = self.bearing_at(curve, self.parts.pedal_travel);
        if bearing_at_stop < needed {
            // A spring that stiffens does so as far as the stop.
            let state = self.state(bearing_at_stop, curve.load_at(bearing_at_stop));
            heaviest = if state.force > heaviest.force { state } else { heaviest };
        }
        let release = State { pedal: furthest.pedal, force: self.force(end.pressure, furthest.pedal), ..end };
        Push { heaviest, hardest, release, furthest, bearing_at_stop }
    }

    /// The pedal's travel to the last millimetre.
    #[must_use]
    pub fn budget(&self, push: &Push) -> Budget {
        let (parts, most) = (&self.parts, &push.furthest);
        let pressure = most.pressure.si();
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
            release: at_pad(self.slave_volume(most.bearing)) - bearing_gap,
            left: parts.pedal_travel - most.pedal,
        }
    }

    /// The push in order, straight between states, to the stop. The first states are rest, rod on piston, and port shut.
    #[must_use]
    pub fn stroke(&self, curve: &LoadCurve) -> [State; STATES] {
        let parts = &self.parts;
        let end = self.bearing_at(curve, parts.pedal_travel);
        let last = State { pedal: parts.pedal_travel.max(self.pedal_for(0.0)), ..self.state(end, curve.load_at(end)) };
        let mut states = [last; STATES];
        states[0] = self.idle(Length::ZERO);
        states[1] = self.idle(parts.free_play);
        states[2] = self.idle(self.pedal_for(0.0));
        states[3] = self.state(-parts.bearing_gap, Force::ZERO);
        let mut furthest = states[3].pedal;
        for (state, point) in states[4..].iter_mut().zip(curve.points()) {
            if point.travel >= end {
                break;
            }
            *state = self.state(point.travel, point.load);
            furthest = furthest.max(state.pedal);
            state.pedal = furthest;
            state.force = self.force(state.pressure, furthest);
        }
        states
    }

    /// Work of one slow push to release; a jump of the bearing takes none of the foot's.
    #[must_use]
    pub fn work(&self, curve: &LoadCurve, needed: Length) -> Work {
        let end = self.push(curve, needed).furthest.pedal;
        let turned = end.min(self.parts.pedal_travel);
        let spring = (self.pedal_spring(Length::ZERO) + self.pedal_spring(end)).si() / 2.0 * turned.si();
        let spring = spring + self.pedal_spring(end).si() * (end - turned).si();
        let slave_travel = (needed + self.parts.bearing_gap) * self.parts.fork_ratio;
        let slave_spring = (self.parts.slave_spring * slave_travel).si();
        // Force without springs is straight over volume between points: trapezoids, from the furthest volume so far.
        let start = (0.0, 0.0);
        let gap = -self.parts.bearing_gap;
        let mut before = (self.volume(gap, Force::ZERO), self.pressure(Force::ZERO).si());
        let mut joules = trapezoid(start, before);
        let mut furthest = before.0;
        let last = Point { travel: needed, load: curve.load_at(needed) };
        let inner = curve.points().iter().take_while(|point| point.travel <= needed).filter(|point| **point != last);
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
}

fn trapezoid(from: (f64, f64), to: (f64, f64)) -> f64 {
    (from.1 + to.1) / 2.0 * (to.0 - from.0)
}
