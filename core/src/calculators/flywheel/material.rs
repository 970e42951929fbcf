//! What is the wheel made of?
//!
//! Lowest values that the standards promise: a real bar is rarely weaker, an unknown casting often is.

use super::{MATERIAL, MATERIAL_DENSITY, MATERIAL_POISSON, MATERIAL_STRENGTH, MATERIAL_TENSILE};
use crate::choices;
use crate::plan::{Line, Step};
use crate::quantity::unit::{KG_PER_M3, MPA, ONE};
use crate::quantity::{Density, Pressure, Ratio, kilograms_per_cubic_metre, megapascals, ratio};
use crate::spec::Source;

choices! {
    /// Metal of the flywheel.
    Material {
        Steel "steel" "carbon steel"
        AlloySteel "alloy-steel" "alloy steel, hardened and tempered"
        NodularIron "nodular-iron" "nodular iron"
        GreyIron "grey-iron" "grey cast iron"
        Aluminium "aluminium" "aluminium 6061-T6"
    }
}

/// What a metal is like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// Density.
    pub density: Density,
    /// Poisson's ratio.
    pub poisson: Ratio,
    /// Stress at which it stays bent; its tensile strength where it breaks without bending.
    pub strength: Pressure,
    /// Stress at which it breaks.
    pub tensile: Pressure,
    /// It breaks without bending first.
    pub brittle: bool,
}

const SOURCE: Source = Source::FromMemory("lowest values of EN 10083-2 C45, EN 10083-3 42CrMo4, EN 1563, EN 1561 grade 200, ASTM B209");

static TABLE_DENSITY: Line = Line { equation: "ρ of the metal", terms: &[], unit: KG_PER_M3, source: SOURCE };
static TABLE_POISSON: Line = Line { equation: "ν of the metal", terms: &[], unit: ONE, source: SOURCE };
static TABLE_STRENGTH: Line = Line { equation: "R_e of the metal, R_m for cast iron", terms: &[], unit: MPA, source: SOURCE };
static TABLE_TENSILE: Line = Line { equation: "R_m of the metal", terms: &[], unit: MPA, source: SOURCE };

/// The metal's figures, from memory of the standards named in the working.
#[must_use]
pub const fn figures(material: Material) -> Figures {
    let (density, poisson, strength, tensile, brittle) = match material {
        Material::Steel => (7850.0, 0.30, 350.0, 600.0, false),
        Material::AlloySteel => (7850.0, 0.30, 650.0, 900.0, false),
        Material::NodularIron => (7100.0, 0.275, 250.0, 400.0, false),
        Material::GreyIron => (7200.0, 0.27, 200.0, 200.0, true),
        Material::Aluminium => (2700.0, 0.33, 240.0, 290.0, false),
    };
    Figures {
        density: kilograms_per_cubic_metre(density),
        poisson: ratio(poisson),
        strength: megapascals(strength),
        tensile: megapascals(tensile),
        brittle,
    }
}

pub(super) const METAL: Step = Step {
    name: "metal of the flywheel",
    reads: &[MATERIAL.id],
    writes: &[MATERIAL_DENSITY.id, MATERIAL_POISSON.id, MATERIAL_STRENGTH.id, MATERIAL_TENSILE.id],
    run: |case| {
        let metal = case.of(MATERIAL).map(figures);
        case.answer(MATERIAL_DENSITY, |case| Ok(case.say(&TABLE_DENSITY, &[], metal?.density)));
        case.answer(MATERIAL_POISSON, |case| Ok(case.say(&TABLE_POISSON, &[], metal?.poisson)));
        case.answer(MATERIAL_STRENGTH, |case| Ok(case.say(&TABLE_STRENGTH, &[], metal?.strength)));
        case.answer(MATERIAL_TENSILE, |case| Ok(case.say(&TABLE_TENSILE, &[], metal?.tensile)));
    },
};
