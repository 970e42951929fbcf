//! Is it safe?
//!
//! The wheel as a flat ring of one thickness that spins freely (rotating annulus, Timoshenko & Goodier, Theory of
//! Elasticity, §32; Shigley eq. 3-55; from memory): pulled along its rim most at the bore, and more at the edge of each
//! bolt hole. It bursts when the pull averaged over a cut through the axis, ρ·ω²·(r_o³ − r_i³)/(3·(r_o − r_i)), reaches
//! what the metal breaks at. Stress goes with the square of the speed.

use super::material::figures;
use super::{
    AVERAGE_STRESS, BOLT_CIRCLE, BORE, BORE_STRESS, BURST_FACTOR, BURST_SPEED, DENSITY, ENERGY_AS_HEIGHT, ENERGY_AS_SPEED, FACTOR,
    HOLE_FACTOR, INERTIA, MATERIAL, MATERIAL_POISSON, MISSED_SHIFT, OUTER, OVERSPEED, OVERSPEED_FACTOR, OVERSPEED_MARGIN,
    OVERSPEED_OUTCOME, OVERSPEED_STRESS, PEAK_STRESS, RADIAL_STRESS, RIM_STRESS, STORED_ENERGY, STRENGTH, TENSILE, WHEEL_MASS,
};
use crate::calculators::car::{GEAR_RATIO, GEARS, HIGHEST_SPEED, MASS, REDLINE};
use crate::choices;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{J, KG, KG_M2, KG_PER_M3, KM_PER_H, M, MM, MPA, ONE, RPM};
use crate::quantity::{
    Density, Energy, Inertia, Length, Pressure, Ratio, RotationalSpeed, STANDARD_GRAVITY, Velocity, metres, metres_per_second, ratio,
};
use crate::report::Unknown;
use crate::spec::Source;

choices! {
    /// What the overspeed does to the wheel.
    Outcome {
        Holds "holds" "holds, edges of the holes too"
        Yields "yields" "edges of the holes stay stretched: replace it after a missed shift"
        Cracks "cracks" "cracks from a hole: do not run it"
    }
}

const ELASTICITY: Source = Source::FromMemory("Timoshenko & Goodier, Theory of Elasticity, §32; Shigley, eq. 3-55");
static HOOP_LINE: Line = Line {
    equation: "σ_i = ρ · ω² · (3 + ν) / q · (r_o² + r_i² · (1 − ν) / (3 + ν))",
    terms: &[("ρ", KG_PER_M3), ("ω", RPM), ("ν", ONE), ("q", ONE), ("r_o", MM), ("r_i", MM)],
    unit: MPA,
    source: ELASTICITY,
};
static BOLT_LINE: Line = Line {
    equation: "σ_b = ρ · ω² · (3 + ν) / 8 · (r_i² + r_o² + r_i² · r_o² / r² − r² · (1 + 3 · ν) / (3 + ν))",
    terms: &[("ρ", KG_PER_M3), ("ω", RPM), ("ν", ONE), ("r_i", MM), ("r_o", MM), ("r", MM)],
    unit: MPA,
    source: ELASTICITY,
};
static RIM_LINE: Line = Line {
    equation: "σ = ρ · ω² · (3 + ν) / 8 · (2 · r_i² + r_o² − r_o² · (1 + 3 · ν) / (3 + ν))",
    terms: &[("ρ", KG_PER_M3), ("ω", RPM), ("ν", ONE), ("r_i", MM), ("r_o", MM)],
    unit: MPA,
    source: ELASTICITY,
};
static RADIAL_LINE: Line = Line {
    equation: "σ_r = ρ · ω² · (3 + ν) / 8 · (r_o − r_i)²",
    terms: &[("ρ", KG_PER_M3), ("ω", RPM), ("ν", ONE), ("r_o", MM), ("r_i", MM)],
    unit: MPA,
    source: ELASTICITY,
};
static PEAK_LINE: Line = Line {
    equation: "σ_p = K · σ_b or σ_i, the larger",
    terms: &[("K", ONE), ("σ_b", MPA), ("σ_i", MPA)],
    unit: MPA,
    source: Source::FromMemory("a hole in a pulled plate: K 2 to 3; Peterson, Stress Concentration Factors"),
};
static FACTOR_LINE: Line = Line { equation: "R / σ_p", terms: &[("R", MPA), ("σ_p", MPA)], unit: ONE, source: Source::Definition };
static AVERAGE_LINE: Line = Line {
    equation: "σ_m = ρ · ω² · (r_o² + r_o · r_i + r_i²) / 3",
    terms: &[("ρ", KG_PER_M3), ("ω", RPM), ("r_o", MM), ("r_i", MM)],
    unit: MPA,
    source: Source::Definition,
};
static BURST_LINE: Line = Line {
    equation: "n_b = √(3 · R_m / (ρ · (r_o² + r_o · r_i + r_i²)))",
    terms: &[("R_m", MPA), ("ρ", KG_PER_M3), ("r_o", MM), ("r_i", MM)],
    unit: RPM,
    source: Source::FromMemory("average-hoop burst criterion of rotating discs"),
};
static BURST_FACTOR_LINE: Line =
    Line { equation: "n_b / n_o", terms: &[("n_b", RPM), ("n_o", RPM)], unit: ONE, source: Source::Definition };
static MISSED_LINE: Line =
    Line { equation: "n = n_r · i_low / i", terms: &[("n_r", RPM), ("i_low", ONE), ("i", ONE)], unit: RPM, source: Source::Definition };
static OVERSPEED_LINE: Line = Line {
    equation: "n_o = s · n_r or n, the larger",
    terms: &[("s", ONE), ("n_r", RPM), ("n", RPM)],
    unit: RPM,
    source: Source::CommonPractice,
};
static ENERGY_LINE: Line =
    Line { equation: "E = ½ · J · ω²", terms: &[("J", KG_M2), ("ω", RPM)], unit: J, source: Source::Definition };
static AS_SPEED_LINE: Line =
    Line { equation: "v = √(2 · E / m)", terms: &[("E", J), ("m", KG)], unit: KM_PER_H, source: Source::Definition };
static AS_HEIGHT_LINE: Line = Line { equation: "h = E / (m_w · g)", terms: &[("E", J), ("m_w", KG)], unit: M, source: Source::Definition };

/// A flat ring that spins freely.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Annulus {
    outer: Length,
    inner: Length,
    density: Density,
    poisson: Ratio,
}

impl Annulus {
    /// From the two radii, the density and Poisson's ratio (dimensionless). A bore of zero is a solid disc away from
    /// its centre; any bore at all doubles the stress there.
    ///
    /// # Errors
    /// When the bore is not smaller than the rim.
    pub fn new(outer: Length, inner: Length, density: Density, poisson: Ratio) -> Result<Self, Unknown> {
        if inner < Length::ZERO || inner >= outer {
            return Err(Unknown::NoSolution("The flywheel's bore must be smaller than its outside."));
        }
        Ok(Self { outer, inner, density, poisson })
    }

    /// ρ·ω².
    fn load(&self, speed: RotationalSpeed) -> f64 {
        self.density.si() * speed.si() * speed.si()
    }

    // The middle of a solid disc has half of what the edge of a pinhole has.
    fn parts(&self) -> f64 {
        if self.inner > Length::ZERO { 4.0 } else { 8.0 }
    }

    fn squares(&self) -> (f64, f64, f64) {
        (self.outer.si() * self.outer.si(), self.inner.si() * self.inner.si(), self.poisson.si())
    }

    /// Stress along the rim's direction at a radius between bore and rim (for a solid disc, any down to the centre).
    #[must_use]
    pub fn hoop_at(&self, radius: Length, speed: RotationalSpeed) -> Pressure {
        let ((outer, inner, poisson), here) = (self.squares(), radius.si() * radius.si());
        let lame = if inner > 0.0 { inner * outer / here } else { 0.0 };
        let bracket = inner + outer + lame - here * (1.0 + 3.0 * poisson) / (3.0 + poisson);
        Pressure::from_si(self.load(speed) * (3.0 + poisson) / 8.0 * bracket)
    }

    /// The same at the bore, where it is largest: ρω²·(3+ν)/4·[r_o² + r_i²(1−ν)/(3+ν)]; in the middle of a solid disc, half.
    #[must_use]
    pub fn hoop_at_bore(&self, speed: RotationalSpeed) -> Pressure {
        let (outer, inner, poisson) = self.squares();
        Pressure::from_si(self.load(speed) * (3.0 + poisson) / self.parts() * (outer + inner * (1.0 - poisson) / (3.0 + poisson)))
    }

    /// The same at the rim.
    #[must_use]
    pub fn hoop_at_rim(&self, speed: RotationalSpeed) -> Pressure {
        let (outer, inner, poisson) = self.squares();
        let bracket = 2.0 * inner + outer - outer * (1.0 + 3.0 * poisson) / (3.0 + poisson);
        Pressure::from_si(self.load(speed) * (3.0 + poisson) / 8.0 * bracket)
    }

    /// Largest stress outwards, and the radius at which it is: √(r_i·r_o).
    #[must_use]
    pub fn radial_peak(&self, speed: RotationalSpeed) -> (Pressure, Length) {
        let width = (self.outer - self.inner).si();
        let stress = self.load(speed) * (3.0 + self.poisson.si()) / 8.0 * width * width;
        (Pressure::from_si(stress), Length::from_si((self.inner.si() * self.outer.si()).sqrt()))
    }

    /// Pull along the rim, averaged over a cut through the axis; of a thin ring, ρ·v².
    #[must_use]
    pub fn average_hoop(&self, speed: RotationalSpeed) -> Pressure {
        Pressure::from_si(self.load(speed) * self.mean_square())
    }

    // (r_o³ − r_i³)/(3·(r_o − r_i)) with the difference divided out, so that a thin ring keeps its digits.
    fn mean_square(&self) -> f64 {
        let (outer, inner) = (self.outer.si(), self.inner.si());
        (outer * outer + outer * inner + inner * inner) / 3.0
    }

    /// Speed at which the averaged pull reaches the metal's tensile strength.
    #[must_use]
    pub fn burst_speed(&self, tensile: Pressure) -> RotationalSpeed {
        RotationalSpeed::from_si((tensile.si() / (self.density.si() * self.mean_square())).sqrt())
    }
}

/// Energy of something spinning: ½·J·ω².
#[must_use]
pub fn stored_energy(inertia: Inertia, speed: RotationalSpeed) -> Energy {
    Energy::from_si(0.5 * inertia.si() * speed.si() * speed.si())
}

/// Engine speed after the next lower gear went in by mistake at `speed`: the road drags the engine up with it.
#[must_use]
pub fn missed_shift(speed: RotationalSpeed, gear: Ratio, lower: Ratio) -> RotationalSpeed {
    speed * (lower / gear)
}

/// The wheel, and what makes its largest stress: the bolts' circle (radius) and what a hole does to the stress.
type Wheel = (Annulus, Length, Ratio);

fn annulus(case: &mut Case<'_>) -> Result<Annulus, Unknown> {
    let (outer, inner) = (case.of(OUTER)? / 2.0, case.of(BORE)? / 2.0);
    Annulus::new(outer, inner, case.of(DENSITY)?, case.of(MATERIAL_POISSON)?)
}

fn wheel(case: &mut Case<'_>, ring: Annulus) -> Result<Wheel, Unknown> {
    let (circle, factor) = (case.of(BOLT_CIRCLE)? / 2.0, case.of(HOLE_FACTOR)?);
    if circle <= ring.inner || circle >= ring.outer {
        return Err(Unknown::NoSolution("The circle of the crank bolts must lie between bore and outside."));
    }
    Ok((ring, circle, factor))
}

fn bore_stress(case: &mut Case<'_>, ring: &Annulus, speed: RotationalSpeed) -> Pressure {
    let numbers = [ring.density.si(), speed.si(), ring.poisson.si(), ring.parts(), ring.outer.si(), ring.inner.si()];
    case.say(&HOOP_LINE, &numbers, ring.hoop_at_bore(speed))
}

/// Largest stress anywhere: at the edge of a crank bolt's hole, or at the bore.
fn peak(case: &mut Case<'_>, (ring, circle, factor): Wheel, speed: RotationalSpeed) -> Pressure {
    let numbers = [ring.density.si(), speed.si(), ring.poisson.si(), ring.inner.si(), ring.outer.si(), circle.si()];
    let at_bolts = case.say(&BOLT_LINE, &numbers, ring.hoop_at(circle, speed));
    let at_bore = bore_stress(case, &ring, speed);
    let numbers = [factor.si(), at_bolts.si(), at_bore.si()];
    case.say(&PEAK_LINE, &numbers, (at_bolts * factor.si()).max(at_bore))
}

fn factor(case: &mut Case<'_>, strength: Pressure, wheel: Wheel, speed: RotationalSpeed) -> Ratio {
    let peak = peak(case, wheel, speed);
    case.say(&FACTOR_LINE, &[strength.si(), peak.si()], ratio(strength / peak))
}

/// What the largest stress is held against: no metal yields above what breaks it, and a brittle one does not yield.
fn strength(case: &mut Case<'_>) -> Result<Pressure, Unknown> {
    let tensile = case.of(TENSILE)?;
    if figures(case.of(MATERIAL)?).brittle { Ok(tensile) } else { Ok(case.of(STRENGTH)?.min(tensile)) }
}

/// The worst of one gear too low, going up through the gears.
fn missed(case: &mut Case<'_>) -> Result<RotationalSpeed, Unknown> {
    let redline = case.of(REDLINE)?;
    let (mut low, mut gear) = (ratio(1.0), ratio(1.0));
    for row in 1..case.rows(GEARS) {
        let (before, here) = (case.cell(GEAR_RATIO, row - 1)?, case.cell(GEAR_RATIO, row)?);
        // In whichever order they are listed.
        let (long, short) = (before.max(here), before.min(here));
        if long / short > low / gear {
            (low, gear) = (long, short);
        }
    }
    let speed = missed_shift(redline, gear, low);
    Ok(case.say(&MISSED_LINE, &[redline.si(), low.si(), gear.si()], speed))
}

pub(super) const OVERSPEEDS: Step = Step {
    name: "overspeed",
    reads: &[REDLINE.id, GEAR_RATIO.id, OVERSPEED_MARGIN.id],
    writes: &[MISSED_SHIFT.id, OVERSPEED.id],
    run: |case| {
        case.answer(MISSED_SHIFT, missed);
        case.answer(OVERSPEED, |case| {
            let (missed, margin, redline) = (missed(case)?, case.of(OVERSPEED_MARGIN)?, case.of(REDLINE)?);
            let numbers = [margin.si(), redline.si(), missed.si()];
            Ok(case.say(&OVERSPEED_LINE, &numbers, missed.max(redline * margin.si())))
        });
    },
};

pub(super) const STRESSES: Step = Step {
    name: "strength of the flywheel",
    reads: &[
        OUTER.id,
        BORE.id,
        BOLT_CIRCLE.id,
        DENSITY.id,
        MATERIAL.id,
        MATERIAL_POISSON.id,
        STRENGTH.id,
        TENSILE.id,
        HOLE_FACTOR.id,
        REDLINE.id,
        OVERSPEED.id,
    ],
    writes: &[
        BORE_STRESS.id,
        RIM_STRESS.id,
        RADIAL_STRESS.id,
        PEAK_STRESS.id,
        FACTOR.id,
        OVERSPEED_STRESS.id,
        OVERSPEED_FACTOR.id,
        OVERSPEED_OUTCOME.id,
        AVERAGE_STRESS.id,
        BURST_SPEED.id,
        BURST_FACTOR.id,
    ],
    run: |case| {
        let (redline, over, strength) = (case.of(REDLINE), case.of(OVERSPEED), strength(case));
        let ring = annulus(case);
        let wheel = ring.and_then(|ring| wheel(case, ring));
        case.answer(BORE_STRESS, |case| Ok(bore_stress(case, &ring?, redline?)));
        case.answer(RIM_STRESS, |case| {
            let (ring, speed) = (ring?, redline?);
            let numbers = [ring.density.si(), speed.si(), ring.poisson.si(), ring.inner.si(), ring.outer.si()];
            Ok(case.say(&RIM_LINE, &numbers, ring.hoop_at_rim(speed)))
        });
        case.answer(RADIAL_STRESS, |case| {
            let (ring, speed) = (ring?, redline?);
            let numbers = [ring.density.si(), speed.si(), ring.poisson.si(), ring.outer.si(), ring.inner.si()];
            Ok(case.say(&RADIAL_LINE, &numbers, ring.radial_peak(speed).0))
        });
        case.answer(PEAK_STRESS, |case| Ok(peak(case, wheel?, redline?)));
        case.answer(FACTOR, |case| Ok(factor(case, strength?, wheel?, redline?)));
        case.answer(OVERSPEED_STRESS, |case| Ok(peak(case, wheel?, over?)));
        let mut at_overspeed = Err(Unknown::NotComputed);
        case.answer(OVERSPEED_FACTOR, |case| {
            at_overspeed = strength.and_then(|strength| Ok(factor(case, strength, wheel?, over?)));
            at_overspeed
        });
        case.answer(OVERSPEED_OUTCOME, |case| {
            let brittle = figures(case.of(MATERIAL)?).brittle;
            Ok(match (at_overspeed?.si() >= 1.0, brittle) {
                (true, _) => Outcome::Holds,
                (false, false) => Outcome::Yields,
                (false, true) => Outcome::Cracks,
            })
        });
        case.answer(AVERAGE_STRESS, |case| {
            let (ring, speed) = (ring?, over?);
            let numbers = [ring.density.si(), speed.si(), ring.outer.si(), ring.inner.si()];
            Ok(case.say(&AVERAGE_LINE, &numbers, ring.average_hoop(speed)))
        });
        let tensile = case.of(TENSILE);
        let burst = |case: &mut Case<'_>| -> Result<RotationalSpeed, Unknown> {
            let (ring, tensile) = (ring?, tensile?);
            let numbers = [tensile.si(), ring.density.si(), ring.outer.si(), ring.inner.si()];
            Ok(case.say(&BURST_LINE, &numbers, ring.burst_speed(tensile)))
        };
        case.answer(BURST_SPEED, burst);
        case.answer(BURST_FACTOR, |case| {
            let (burst, over) = (burst(case)?, over?);
            Ok(case.say(&BURST_FACTOR_LINE, &[burst.si(), over.si()], ratio(burst / over)))
        });
    },
};

fn energy(case: &mut Case<'_>) -> Result<Energy, Unknown> {
    let (inertia, speed) = (case.of(INERTIA)?, case.of(HIGHEST_SPEED)?);
    Ok(case.say(&ENERGY_LINE, &[inertia.si(), speed.si()], stored_energy(inertia, speed)))
}

pub(super) const STORED: Step = Step {
    name: "energy stored in the flywheel",
    reads: &[INERTIA.id, HIGHEST_SPEED.id, MASS.id, WHEEL_MASS.id],
    writes: &[STORED_ENERGY.id, ENERGY_AS_SPEED.id, ENERGY_AS_HEIGHT.id],
    run: |case| {
        case.answer(STORED_ENERGY, energy);
        case.answer(ENERGY_AS_SPEED, |case| {
            let (energy, mass) = (energy(case)?, case.of(MASS)?);
            let speed: Velocity = metres_per_second((2.0 * energy.si() / mass.si()).sqrt());
            Ok(case.say(&AS_SPEED_LINE, &[energy.si(), mass.si()], speed))
        });
        case.answer(ENERGY_AS_HEIGHT, |case| {
            let (energy, mass) = (energy(case)?, case.of(WHEEL_MASS)?);
            let height = metres(energy.si() / (mass.si() * STANDARD_GRAVITY));
            Ok(case.say(&AS_HEIGHT_LINE, &[energy.si(), mass.si()], height))
        });
    },
};
