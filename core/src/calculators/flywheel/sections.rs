//! What does the wheel weigh, and how hard is it to spin, by its sizes?
//!
//! A turned wheel is rings side by side: a ring's inertia is m·(D² + d²)/8. Holes on a circle take metal away: each has
//! a cylinder's own inertia, m·d²/8, and by the parallel-axis theorem m·(D/2)² more. Bolts put into them count as points.

use super::material::{Material, figures};
use super::{
    BOLT_CIRCLE_FROM_SECTIONS, BOLT_MASS, BORE_FROM_SECTIONS, DENSITY, GYRATION_FROM_SECTIONS, HOLE_CIRCLE, HOLE_COUNT, HOLE_DEPTH,
    HOLE_DIAMETER, HOLES, HOLES_INERTIA, HOLES_MASS, INERTIA_FROM_SECTIONS, InertiaMethod, MASS_FROM_SECTIONS, METHOD, OUTER_FROM_SECTIONS,
    RING_FROM, RING_INERTIA, RING_INNER, RING_JOINED, RING_MASS, RING_MATERIAL, RING_OUTER, RING_WIDTH, RINGS, RingMaterial,
};
use crate::choices;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{G, KG, KG_M2, KG_PER_M3, MM, ONE};
use crate::quantity::{Density, Inertia, Length, Mass, Ratio, circle};
use crate::report::Unknown;
use crate::spec::Source;
use core::f64::consts::PI;

static RING_MASS_LINE: Line = Line {
    equation: "m = ρ · π / 4 · (D² − d²) · b",
    terms: &[("ρ", KG_PER_M3), ("D", MM), ("d", MM), ("b", MM)],
    unit: KG,
    source: Source::Definition,
};
static RING_INERTIA_LINE: Line =
    Line { equation: "J = m · (D² + d²) / 8", terms: &[("m", KG), ("D", MM), ("d", MM)], unit: KG_M2, source: Source::Definition };
static HOLES_MASS_LINE: Line = Line {
    equation: "m = N · (ρ · π / 4 · d² · h − m_b)",
    terms: &[("N", ONE), ("ρ", KG_PER_M3), ("d", MM), ("h", MM), ("m_b", G)],
    unit: KG,
    source: Source::Definition,
};
static HOLES_INERTIA_LINE: Line = Line {
    equation: "J = m · (D / 2)² + N · ρ · π / 4 · d² · h · d² / 8",
    terms: &[("m", KG), ("D", MM), ("N", ONE), ("ρ", KG_PER_M3), ("d", MM), ("h", MM)],
    unit: KG_M2,
    source: Source::Definition,
};
static MASS_SUM: Line =
    Line { equation: "m = Σm_r − Σm_h", terms: &[("Σm_r", KG), ("Σm_h", KG)], unit: KG, source: Source::Definition };
static INERTIA_SUM: Line =
    Line { equation: "J = ΣJ_r − ΣJ_h", terms: &[("ΣJ_r", KG_M2), ("ΣJ_h", KG_M2)], unit: KG_M2, source: Source::Definition };
static GYRATION_LINE: Line = Line { equation: "k = √(J / m)", terms: &[("J", KG_M2), ("m", KG)], unit: MM, source: Source::Definition };

choices! {
    /// A ring against the rest of the wheel.
    Touching {
        Joined "joined" "joined to the wheel"
        Apart "apart" "touches no ring of the wheel: check its diameters and where it starts"
        NotUsed "not-used" "the sizes do not make the inertia"
    }
}

/// Most rings of the table.
pub const MOST_RINGS: usize = 16;

/// Something that spins: what it weighs and how hard it is to spin about the wheel's axis.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Body {
    /// Mass.
    pub mass: Mass,
    /// Moment of inertia about the wheel's axis.
    pub inertia: Inertia,
}

impl Body {
    /// Radius at which all the mass would have the same inertia: √(J/m).
    #[must_use]
    pub fn radius_of_gyration(&self) -> Length {
        Length::from_si((self.inertia.si() / self.mass.si()).sqrt())
    }

    /// A body of this mass and radius of gyration: J = m·k².
    #[must_use]
    pub fn of_gyration(mass: Mass, radius: Length) -> Self {
        Self { mass, inertia: Inertia::from_si(mass.si() * radius.si() * radius.si()) }
    }
}

impl core::ops::Add for Body {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { mass: self.mass + other.mass, inertia: self.inertia + other.inertia }
    }
}

impl core::ops::Sub for Body {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { mass: self.mass - other.mass, inertia: self.inertia - other.inertia }
    }
}

/// A turned ring; a disc when its bore is nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ring {
    outer: Length,
    inner: Length,
    width: Length,
}

impl Ring {
    /// A ring by its two diameters and its width along the axis.
    ///
    /// # Errors
    /// When it would have no metal.
    pub fn new(outer: Length, inner: Length, width: Length) -> Result<Self, Unknown> {
        if inner < Length::ZERO || inner >= outer || width <= Length::ZERO {
            return Err(Unknown::NoSolution("A ring's outer diameter must be larger than its inner one, and its width more than nothing."));
        }
        Ok(Self { outer, inner, width })
    }

    /// Mass and inertia of the ring in this material.
    #[must_use]
    pub fn body(&self, density: Density) -> Body {
        let mass = density * ((circle(self.outer) - circle(self.inner)) * self.width);
        let squares = self.outer * self.outer + self.inner * self.inner;
        Body { mass, inertia: Inertia::from_si(mass.si() * squares.si() / 8.0) }
    }
}

/// Like holes, evenly spaced on a circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holes {
    count: f64,
    diameter: Length,
    pitch_circle: Length,
    depth: Length,
}

impl Holes {
    /// `count` (a whole number) holes of this diameter and depth, their centres on a circle of this diameter.
    ///
    /// # Errors
    /// When they would run into each other or over the axis.
    pub fn new(count: Ratio, diameter: Length, pitch_circle: Length, depth: Length) -> Result<Self, Unknown> {
        let count = count.si().round();
        if count < 1.0 || diameter <= Length::ZERO || depth <= Length::ZERO {
            return Err(Unknown::NoSolution("Holes need a number, a diameter and a depth."));
        }
        let apart = if count > 1.0 { pitch_circle * libm::sin(PI / count) } else { pitch_circle };
        if apart <= diameter {
            return Err(Unknown::NoSolution("These holes would run into each other: check their circle."));
        }
        Ok(Self { count, diameter, pitch_circle, depth })
    }

    /// Mass and inertia that the holes take away in this material.
    #[must_use]
    pub fn body(&self, density: Density) -> Body {
        let mass = density * (circle(self.diameter) * self.depth) * self.count;
        let squares = self.diameter * self.diameter + self.pitch_circle * self.pitch_circle * 2.0;
        Body { mass, inertia: Inertia::from_si(mass.si() * squares.si() / 8.0) }
    }

    /// A mass put into each hole, as points on the circle.
    #[must_use]
    pub fn filled(&self, each: Mass) -> Body {
        Body::of_gyration(each * self.count, self.pitch_circle / 2.0)
    }
}

/// Density of a ring's row: the wheel's own, or of the metal the row names.
fn density(case: &mut Case<'_>, row: usize) -> Result<Density, Unknown> {
    let named = match case.cell(RING_MATERIAL, row)? {
        RingMaterial::Wheel => return case.of(DENSITY),
        RingMaterial::Steel => Material::Steel,
        RingMaterial::Iron => Material::GreyIron,
        RingMaterial::Aluminium => Material::Aluminium,
    };
    Ok(figures(named).density)
}

fn sizes(case: &mut Case<'_>, row: usize) -> Result<Ring, Unknown> {
    Ring::new(case.cell(RING_OUTER, row)?, case.cell(RING_INNER, row)?, case.cell(RING_WIDTH, row)?)
}

/// A row's ring, with the numbers its lines name: ρ, D, d, b.
fn ring(case: &mut Case<'_>, row: usize) -> Result<(Body, [f64; 4]), Unknown> {
    let (ring, density) = (sizes(case, row)?, density(case, row)?);
    Ok((ring.body(density), [density.si(), ring.outer.si(), ring.inner.si(), ring.width.si()]))
}

/// Mean density of what holes take away: they go from the clutch's side through one ring into the next.
fn drilled(case: &mut Case<'_>, diameter: Length, pitch_circle: Length, depth: Length) -> Result<Density, Unknown> {
    // Where a ring ends towards the clutch, how thick it is, of what.
    let mut metal = [(Length::ZERO, Length::ZERO, Density::ZERO); MOST_RINGS];
    let (mut layers, mut thick) = (0, Length::ZERO);
    let (mut bore, mut rim) = (pitch_circle, pitch_circle);
    for row in 0..case.rows(RINGS).min(MOST_RINGS) {
        let ring = sizes(case, row)?;
        (bore, rim) = (bore.min(ring.inner), rim.max(ring.outer));
        if ring.inner <= pitch_circle && pitch_circle < ring.outer {
            let layer = (case.cell(RING_FROM, row)? + ring.width, ring.width, density(case, row)?);
            // Nearest to the clutch first.
            let mut at = layers;
            while at > 0 && metal[at - 1].0 < layer.0 {
                metal[at] = metal[at - 1];
                at -= 1;
            }
            metal[at] = layer;
            (layers, thick) = (layers + 1, thick + ring.width);
        }
    }
    if pitch_circle - diameter < bore || pitch_circle + diameter > rim {
        return Err(Unknown::NoSolution("These holes break out of the wheel: check their circle and diameter."));
    }
    // Sizes are measured, each a little off.
    if depth > thick * 1.01 {
        return Err(Unknown::NoSolution("These holes go deeper than there is metal on their circle."));
    }
    let metal = &metal[..layers];
    let first = metal.first().map_or(Density::ZERO, |layer| layer.2);
    let (mut mean, mut left) = (first, depth);
    for &(_, width, density) in metal.iter() {
        let through = left.min(width);
        mean = mean + (density - first) * (through / depth);
        left = left - through;
    }
    Ok(mean)
}

/// What a row of holes takes away, less the bolts put back, with the numbers its lines name: N, ρ, d, h, m_b, D.
fn holes(case: &mut Case<'_>, row: usize) -> Result<(Body, [f64; 6]), Unknown> {
    let (count, diameter) = (case.cell(HOLE_COUNT, row)?, case.cell(HOLE_DIAMETER, row)?);
    let (pitch_circle, depth) = (case.cell(HOLE_CIRCLE, row)?, case.cell(HOLE_DEPTH, row)?);
    let (density, bolt) = (drilled(case, diameter, pitch_circle, depth)?, case.cell(BOLT_MASS, row)?);
    let holes = Holes::new(count, diameter, pitch_circle, depth)?;
    let numbers = [holes.count, density.si(), diameter.si(), depth.si(), bolt.si(), pitch_circle.si()];
    Ok((holes.body(density) - holes.filled(bolt), numbers))
}

/// Metal of all rings, and what all holes take away.
fn whole(case: &mut Case<'_>) -> Result<(Body, Body), Unknown> {
    overlap(case)?;
    let (mut metal, mut taken) = (Body::default(), Body::default());
    for row in 0..case.rows(RINGS) {
        metal = metal + Body { mass: case.cell(RING_MASS, row)?, inertia: case.cell(RING_INERTIA, row)? };
    }
    for row in 0..case.rows(HOLES) {
        taken = taken + Body { mass: case.cell(HOLES_MASS, row)?, inertia: case.cell(HOLES_INERTIA, row)? };
    }
    if taken.mass >= metal.mass || taken.inertia >= metal.inertia {
        return Err(Unknown::NoSolution("The holes would take away the whole wheel."));
    }
    Ok((metal, taken))
}

/// Rounding of a typed millimetre, not a real overlap.
const TOUCHING: Length = Length::from_si(1e-9);

/// Where each ring lies.
struct Rooms {
    /// Inner and outer diameter, start and end along the axis.
    rooms: [[Length; 4]; MOST_RINGS],
    count: usize,
}

impl Rooms {
    fn of(case: &mut Case<'_>) -> Result<Self, Unknown> {
        let mut found = Self { rooms: [[Length::ZERO; 4]; MOST_RINGS], count: case.rows(RINGS).min(MOST_RINGS) };
        for row in 0..found.count {
            let from = case.cell(RING_FROM, row)?;
            found.rooms[row] = [case.cell(RING_INNER, row)?, case.cell(RING_OUTER, row)?, from, from + case.cell(RING_WIDTH, row)?];
        }
        Ok(found)
    }

    /// How far two reach over each other, in diameter and along the axis; less than nothing where there is room between.
    fn common(&self, one: usize, other: usize) -> (Length, Length) {
        let (one, other) = (self.rooms[one], self.rooms[other]);
        (one[1].min(other[1]) - one[0].max(other[0]), one[3].min(other[3]) - one[2].max(other[2]))
    }

    /// Side by side, or one around the other. Sizes are measured, each a little off.
    fn touch(&self, one: usize, other: usize) -> bool {
        const OFF: Length = Length::from_si(-0.5e-3);
        let (across, along) = self.common(one, other);
        (across / 2.0 > OFF && along > TOUCHING) || (along > OFF && across > TOUCHING)
    }

    /// The wheel: the most rings that hang together, of as many those of the first row; by the bits of their rows.
    fn wheel(&self) -> u16 {
        let mut beside = [0_u16; MOST_RINGS];
        for one in 0..self.count {
            for other in (0..one).filter(|other| self.touch(one, *other)) {
                beside[one] |= 1 << other;
                beside[other] |= 1 << one;
            }
        }
        let (mut left, mut most) = (((1_u32 << self.count) - 1) as u16, 0_u16);
        while left != 0 {
            let (mut joined, mut before) = (1 << left.trailing_zeros(), 0);
            while joined != before {
                before = joined;
                joined = (0..self.count).filter(|row| before >> row & 1 == 1).fold(before, |all, row| all | beside[row]);
            }
            if joined.count_ones() > most.count_ones() {
                most = joined;
            }
            left &= !joined;
        }
        most
    }
}

/// Metal must not count twice.
fn overlap(case: &mut Case<'_>) -> Result<(), Unknown> {
    let rooms = Rooms::of(case)?;
    for row in 0..rooms.count {
        for other in 0..row {
            let (across, along) = rooms.common(row, other);
            if across > TOUCHING && along > TOUCHING {
                return Err(Unknown::NoSolution("Two rings lie over each other: their metal would count twice."));
            }
        }
    }
    Ok(())
}

pub(super) const JOINED: Step = Step {
    name: "rings that hang together",
    reads: &[METHOD.id, RING_OUTER.id, RING_INNER.id, RING_WIDTH.id, RING_FROM.id],
    writes: &[RING_JOINED.id],
    run: |case| {
        let used = case.of(METHOD).map(|method| method == InertiaMethod::Sections);
        let wheel = used.and_then(|used| if used { Ok(Some(Rooms::of(case)?.wheel())) } else { Ok(None) });
        for row in 0..case.rows(RINGS) {
            case.answer_row(RING_JOINED, row, |_| {
                Ok(match wheel? {
                    None => Touching::NotUsed,
                    Some(wheel) if row >= MOST_RINGS || wheel >> row & 1 == 1 => Touching::Joined,
                    Some(_) => Touching::Apart,
                })
            });
        }
    },
};

/// The extreme of a column; `pick` says which of two stays.
fn extreme(
    case: &mut Case<'_>,
    rows: usize,
    none: &'static str,
    value: impl Fn(&mut Case<'_>, usize) -> Result<Length, Unknown>,
    pick: fn(Length, Length) -> Length,
) -> Result<Length, Unknown> {
    let mut found = None;
    for row in 0..rows {
        let next = value(case, row)?;
        found = Some(found.map_or(next, |best| pick(best, next)));
    }
    found.ok_or(Unknown::NoSolution(none))
}

pub(super) const RINGS_AND_HOLES: Step = Step {
    name: "rings and holes of the flywheel",
    reads: &[
        RING_OUTER.id,
        RING_INNER.id,
        RING_WIDTH.id,
        RING_FROM.id,
        RING_MATERIAL.id,
        HOLE_COUNT.id,
        HOLE_DIAMETER.id,
        HOLE_CIRCLE.id,
        HOLE_DEPTH.id,
        BOLT_MASS.id,
        DENSITY.id,
    ],
    writes: &[RING_MASS.id, RING_INERTIA.id, HOLES_MASS.id, HOLES_INERTIA.id],
    run: |case| {
        for row in 0..case.rows(RINGS) {
            let ring = ring(case, row);
            case.answer_row(RING_MASS, row, |case| {
                let (body, numbers) = ring?;
                Ok(case.say(&RING_MASS_LINE, &numbers, body.mass))
            });
            case.answer_row(RING_INERTIA, row, |case| {
                let (body, [_, outer, inner, _]) = ring?;
                Ok(case.say(&RING_INERTIA_LINE, &[body.mass.si(), outer, inner], body.inertia))
            });
        }
        for row in 0..case.rows(HOLES) {
            let holes = holes(case, row);
            case.answer_row(HOLES_MASS, row, |case| {
                let (body, [count, density, diameter, depth, bolt, _]) = holes?;
                Ok(case.say(&HOLES_MASS_LINE, &[count, density, diameter, depth, bolt], body.mass))
            });
            case.answer_row(HOLES_INERTIA, row, |case| {
                let (body, [count, density, diameter, depth, _, pitch_circle]) = holes?;
                let numbers = [body.mass.si(), pitch_circle, count, density, diameter, depth];
                Ok(case.say(&HOLES_INERTIA_LINE, &numbers, body.inertia))
            });
        }
    },
};

pub(super) const WHOLE: Step = Step {
    name: "flywheel from its sections",
    reads: &[
        RING_MASS.id,
        RING_INERTIA.id,
        RING_OUTER.id,
        RING_INNER.id,
        RING_WIDTH.id,
        RING_FROM.id,
        HOLES_MASS.id,
        HOLES_INERTIA.id,
        HOLE_CIRCLE.id,
    ],
    writes: &[
        MASS_FROM_SECTIONS.id,
        INERTIA_FROM_SECTIONS.id,
        GYRATION_FROM_SECTIONS.id,
        OUTER_FROM_SECTIONS.id,
        BORE_FROM_SECTIONS.id,
        BOLT_CIRCLE_FROM_SECTIONS.id,
    ],
    run: |case| {
        let whole = whole(case);
        case.answer(MASS_FROM_SECTIONS, |case| {
            let (metal, taken) = whole?;
            Ok(case.say(&MASS_SUM, &[metal.mass.si(), taken.mass.si()], metal.mass - taken.mass))
        });
        case.answer(INERTIA_FROM_SECTIONS, |case| {
            let (metal, taken) = whole?;
            Ok(case.say(&INERTIA_SUM, &[metal.inertia.si(), taken.inertia.si()], metal.inertia - taken.inertia))
        });
        case.answer(GYRATION_FROM_SECTIONS, |case| {
            let (metal, taken) = whole?;
            let body = metal - taken;
            Ok(case.say(&GYRATION_LINE, &[body.inertia.si(), body.mass.si()], body.radius_of_gyration()))
        });
        const NO_RINGS: &str = "The flywheel has no rings yet.";
        let rings = case.rows(RINGS);
        case.answer(OUTER_FROM_SECTIONS, |case| extreme(case, rings, NO_RINGS, |case, row| Ok(sizes(case, row)?.outer), Length::max));
        case.answer(BORE_FROM_SECTIONS, |case| extreme(case, rings, NO_RINGS, |case, row| Ok(sizes(case, row)?.inner), Length::min));
        let holes = case.rows(HOLES);
        case.answer(BOLT_CIRCLE_FROM_SECTIONS, |case| {
            extreme(
                case,
                holes,
                "There are no holes in the table: type the circle of the crank bolts.",
                |case, row| case.cell(HOLE_CIRCLE, row),
                Length::min,
            )
        });
    },
};
