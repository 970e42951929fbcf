//! Does the belt hold? Tension in every span, and what each pulley needs against what its wrap can give.
//!
//! All tensions here are *effective*: what presses belt to pulley, the belt's own centrifugal m·v² left out. Every span
//! carries that much more, and no pulley feels it.

use super::belt_path::{BeltPath, MOST_PULLEYS, Side};
use crate::quantity::{Angle, Force, Frequency, Length, LinearDensity, Torque, Velocity, hertz, newtons};
use core::f64::consts::PI;

/// Sine of half the PK profile's 40° groove (ISO 9981, from memory).
const SINE_HALF_GROOVE: f64 = 0.342_020_143_325_668_7;

/// Euler and Eytelwein: tight over slack tension when the whole wrap is about to slip, e^(μθ/sin β). Dimensionless.
///
/// `friction` is μ and `sine_half_groove` sin β, 1 for a flat pulley; both dimensionless.
#[must_use]
pub fn friction_ratio(friction: f64, wrap: Angle, sine_half_groove: f64) -> f64 {
    libm::exp(friction * wrap.in_radians() / sine_half_groove)
}

/// What the belt's faces can do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// Friction of rubber on the pulley; dimensionless.
    pub friction: f64,
    /// Most a half turn may be trusted with, tight over slack; dimensionless. Wedge friction promises more than belts keep.
    pub most_ratio: f64,
    /// Wet: `most_ratio` is halved.
    pub wet: bool,
}

impl Surface {
    /// The ratio of tensions to count on: friction's, but no more than the cap, which falls with wrap as friction does.
    ///
    /// The cap of a half turn, 4 and 2 when wet, is common practice with no source. Dimensionless.
    #[must_use]
    pub fn usable_ratio(&self, side: Side, wrap: Angle) -> f64 {
        let sine = match side {
            Side::Ribs => SINE_HALF_GROOVE,
            Side::Back => 1.0,
        };
        let half_turn = (if self.wet { self.most_ratio / 2.0 } else { self.most_ratio }).max(1.0);
        let share = (wrap.in_radians() / PI).clamp(0.0, 1.0);
        friction_ratio(self.friction.max(0.0), wrap, sine).min(libm::pow(half_turn, share))
    }
}

/// What keeps the belt tight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tightening {
    /// Set and locked, at this tension standing still. The belt cannot lengthen, so running its mean is less by m·v².
    Locked(Force),
    /// A spring presses this pulley (counted from 0) and keeps this effective tension on its two spans at any speed.
    Sprung(usize, Force),
}

/// Force at the belt line that turns a pulley against this torque.
#[must_use]
pub fn pull(torque: Torque, diameter: Length) -> Force {
    torque / (diameter / 2.0)
}

/// m·v²: tension a moving belt carries round every bend by itself.
#[must_use]
pub fn centrifugal(belt: LinearDensity, speed: Velocity) -> Force {
    newtons(belt.si() * speed.si() * speed.si())
}

/// How much belt lies where: all that tension asks of a path. Span *i* runs from pulley *i* to the next one listed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lie {
    count: usize,
    spans: [Length; MOST_PULLEYS],
    arcs: [Length; MOST_PULLEYS],
}

impl Lie {
    /// From the spans and arcs in the order listed; any past [`MOST_PULLEYS`] are left out.
    #[must_use]
    pub fn new(parts: impl IntoIterator<Item = (Length, Length)>) -> Self {
        let mut lie = Self { count: 0, spans: Default::default(), arcs: Default::default() };
        for (span, arc) in parts.into_iter().take(MOST_PULLEYS) {
            (lie.spans[lie.count], lie.arcs[lie.count]) = (span, arc);
            lie.count += 1;
        }
        lie
    }

    fn before(&self, pulley: usize) -> usize {
        (pulley + self.count - 1) % self.count
    }
}

impl From<&BeltPath> for Lie {
    fn from(path: &BeltPath) -> Self {
        Self::new(path.spans().iter().zip(path.arcs()).map(|(span, arc)| (span.length, arc.length)))
    }
}

/// What the pulleys ask of the belt.
#[derive(Clone, Copy, Debug)]
pub struct Demand<'a> {
    /// The pulley that drives, counted from 0.
    pub crank: usize,
    /// Pull each pulley takes from the belt (negative: it drives), in the order listed. The crank's own is not read.
    pub pulls: &'a [Force],
    /// Whether the belt runs in the order the pulleys are listed.
    pub as_listed: bool,
    /// m·v² at this speed.
    pub centrifugal: Force,
}

/// Effective tension in every span.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tensions {
    count: usize,
    spans: [Force; MOST_PULLEYS],
    /// Gain of each span over the slack one behind the crank.
    gains: [Force; MOST_PULLEYS],
    /// Mean gain over the belt's length.
    mean_gain: Force,
    centrifugal: Force,
}

/// Tensions in a belt under load.
///
/// Behind the crank it is slackest; each pulley it passes adds its pull; before the crank it is tightest. Where the
/// level lies is for [`Tightening`] to say: locked, the mean over the belt's length stays; sprung, one pulley's spans do.
/// `None` when a pulley named is not there.
#[must_use]
pub fn tensions(lie: &Lie, demand: &Demand<'_>, tightening: Tightening) -> Option<Tensions> {
    let count = lie.count;
    if demand.crank >= count || demand.pulls.len() < count {
        return None;
    }
    let mut gains = [Force::ZERO; MOST_PULLEYS];
    let mut gain = Force::ZERO;
    for step in 1..count {
        // Span leaving a pulley as the belt runs: its own as listed, the one before it the other way.
        let (pulley, span) = if demand.as_listed {
            let pulley = (demand.crank + step) % count;
            (pulley, pulley)
        } else {
            let pulley = (demand.crank + count - step) % count;
            (pulley, lie.before(pulley))
        };
        gain = gain + demand.pulls[pulley];
        gains[span] = gain;
    }
    let mean_gain = mean(lie, &gains);
    let slack = match tightening {
        Tightening::Locked(tension) => tension - demand.centrifugal - mean_gain,
        Tightening::Sprung(pulley, tension) if pulley < count => tension - (gains[lie.before(pulley)] + gains[pulley]) / 2.0,
        Tightening::Sprung(..) => return None,
    };
    let mut spans = [Force::ZERO; MOST_PULLEYS];
    for (tension, gain) in spans.iter_mut().zip(gains).take(count) {
        *tension = slack + gain;
    }
    Some(Tensions { count, spans, gains, mean_gain, centrifugal: demand.centrifugal })
}

/// Mean over the belt's length: each span with half of both arcs at its ends.
fn mean(lie: &Lie, gains: &[Force]) -> Force {
    let mut sum = Force::ZERO;
    let mut whole = 0.0;
    for (at, gain) in gains.iter().enumerate().take(lie.count) {
        let arcs = (lie.arcs[at] + lie.arcs[(at + 1) % lie.count]) / 2.0;
        let share = (lie.spans[at] + arcs).si();
        sum = sum + *gain * share;
        whole += share;
    }
    sum / whole
}

impl Tensions {
    /// Effective tension of each span, in the order listed. Below zero the span hangs loose.
    #[must_use]
    pub fn spans(&self) -> &[Force] {
        &self.spans[..self.count]
    }

    /// What every span carries besides, and no pulley feels: m·v².
    #[must_use]
    pub fn centrifugal(&self) -> Force {
        self.centrifugal
    }

    /// Slack and tight side of a pulley. `None` when there is no such pulley.
    #[must_use]
    pub fn sides(&self, pulley: usize) -> Option<(Force, Force)> {
        let leaving = *self.spans().get(pulley)?;
        let arriving = self.spans[(pulley + self.count - 1) % self.count];
        Some((leaving.min(arriving), leaving.max(arriving)))
    }

    /// Grip in hand at a pulley: usable ratio over the ratio it needs. Below 1 it slips; 0 when its slack side hangs loose.
    ///
    /// Dimensionless. `None` when there is no such pulley.
    #[must_use]
    pub fn margin(&self, pulley: usize, usable_ratio: f64) -> Option<f64> {
        let (slack, tight) = self.sides(pulley)?;
        if slack > Force::ZERO { Some(usable_ratio * (slack / tight)) } else { Some(0.0) }
    }

    /// Push of the belt on a pulley's bearing: √(T₁² + T₂² − 2·T₁·T₂·cos θ), loose spans counted as none.
    ///
    /// `None` when there is no such pulley.
    #[must_use]
    pub fn bearing_load(&self, pulley: usize, wrap: Angle) -> Option<Force> {
        let (slack, tight) = self.sides(pulley)?;
        Some(bearing_load(slack.max(Force::ZERO), tight.max(Force::ZERO), wrap))
    }

    /// Least setting of the same kind of tightening at which every pulley grips and no span hangs loose.
    ///
    /// `usable_ratios` in the order listed, each above 1, else `None`: such a pulley carries nothing.
    #[must_use]
    pub fn needed(&self, usable_ratios: &[f64], tightening: Tightening) -> Option<Force> {
        let lowest = self.gains[..self.count].iter().fold(Force::ZERO, |low, gain| low.min(*gain));
        let mut slack = -lowest;
        for pulley in 0..self.count {
            let (one, two) = (self.gains[(pulley + self.count - 1) % self.count], self.gains[pulley]);
            let pull = (one - two).abs();
            if pull > Force::ZERO {
                let ratio = *usable_ratios.get(pulley).filter(|ratio| **ratio > 1.0)?;
                slack = slack.max(pull / (ratio - 1.0) - one.min(two));
            }
        }
        match tightening {
            Tightening::Locked(_) => Some(slack + self.mean_gain + self.centrifugal),
            Tightening::Sprung(pulley, _) if pulley < self.count => {
                let before = self.gains[(pulley + self.count - 1) % self.count];
                Some(slack + (before + self.gains[pulley]) / 2.0)
            }
            Tightening::Sprung(..) => None,
        }
    }
}

/// √(T₁² + T₂² − 2·T₁·T₂·cos θ): the sum of two pulls that enclose a wrap θ.
#[must_use]
pub fn bearing_load(slack: Force, tight: Force, wrap: Angle) -> Force {
    // As (T₁ − T₂)² + 4·T₁·T₂·sin²(θ/2), which never takes a root of less than nothing.
    let sine = libm::sin(wrap.in_radians() / 2.0);
    let across = 4.0 * slack.si() * tight.si() * sine * sine;
    let along = (tight - slack).si();
    newtons((along * along + across).max(0.0).sqrt())
}

/// Note a span rings at when plucked, as a string: f = √(T/m)/(2L). A stiff belt rings a little higher.
///
/// Zero for a loose span.
#[must_use]
pub fn span_frequency(tension: Force, belt: LinearDensity, span: Length) -> Frequency {
    hertz((tension.si().max(0.0) / belt.si()).sqrt() / (2.0 * span.si()))
}

/// Tension of a span that rings at `frequency`: T = m·(2·L·f)².
#[must_use]
pub fn tension_for(frequency: Frequency, belt: LinearDensity, span: Length) -> Force {
    let speed = 2.0 * span.si() * frequency.si();
    newtons(belt.si() * speed * speed)
}
