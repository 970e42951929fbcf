//! Which size for each circuit?
//!
//! The copper may be as hot as its insulation stands, and no hotter than the voltage it may lose allows: both are one
//! limiting temperature θ_c, at which a size passes if it can lose the heat it makes there. No temperature has to be
//! found. First every circuit is sized alone in still air; then in its bundle, with its neighbours at their sizes.
//! Thicker neighbours make cooler but larger bundles, in which a fault's heat has further to go: what has passed is tried
//! again among them.

use super::branches::{Loom, SettledLoom};
use super::bundle::{Bundle, Way};
use super::choices::{Branch, Governs, Guard, Protection, Return, SizeRange};
use super::load::NO_FUSE_SOLD;
use super::protection::Tried;
use super::reads::Reads;
use super::{
    ALLOWED, BRANCH, BRANCH_AIR, BRANCH_LETTER, CIRCUITS, CONDUCTIVITY, COPPER_LENGTH, FUSE, GOVERNS, INSULATION, LEAST_SIZE, OTHER_DROP,
    PARENT, PEAK, PROTECTION, RETURN, RMS, SIZE_RANGE, SMALLEST, SMALLEST_ALONE,
};
use crate::data::conductors::{Conductor, EVERY, Insulation, PER_KELVIN, REFERENCE, SIZES, STOCKED, warming};
use crate::data::fuses::Fuse;
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{A, CELSIUS, CONDUCTOR, M, MILLIOHM_PER_M, V};
use crate::quantity::{Area, Current, Length, Temperature, ThermalConductivity, Voltage};
use crate::report::Unknown;
use crate::spec::Source;

static LIMITING: Line = Line {
    equation: "θ_c = min(θ_i, 20 + ((U − U_o) / (I · l · R_20) − 1) / 0.00393)",
    terms: &[("θ_i", CELSIUS), ("U", V), ("U_o", V), ("I", A), ("l", M), ("R_20", MILLIOHM_PER_M)],
    unit: CELSIUS,
    source: Source::FromMemory("IEC 60028 and ISO 6722-1:2011"),
};
static SMALLEST_LINE: Line = Line {
    equation: "S : loss(θ_c) ≥ I_rms² · R(θ_c)",
    terms: &[("I_rms", A), ("θ_c", CELSIUS)],
    unit: CONDUCTOR,
    source: Source::Published("Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975); sizes by ISO 6722-1, from memory"),
};

pub(super) const NOTHING_PASSES: Unknown =
    Unknown::NoSolution("No size passes: shorten the wire, lower the load or the fuse, or take it to cooler air.");
const NOTHING_LEFT: Unknown = Unknown::NoSolution("Contacts, fuse, relay and return alone lose what it may lose: no wire is thick enough.");
const TOO_HOT_AROUND: Unknown = Unknown::NoSolution("The air around it is hotter than its insulation stands.");

/// Whether this is why no size at all passes, not something that is missing.
pub(super) fn fails_every_size(why: Unknown) -> bool {
    [NOTHING_PASSES, NOTHING_LEFT, TOO_HOT_AROUND].contains(&why)
}

/// What is asked of a wire, whatever its size.
#[derive(Clone, Copy)]
pub(super) struct Demand {
    pub(super) rms: Current,
    pub(super) peak: Current,
    /// What the loop may lose, and what of it is lost outside the copper.
    pub(super) allowed: Voltage,
    pub(super) others: Voltage,
    /// All copper of the loop.
    pub(super) length: Length,
    pub(super) insulation: &'static Insulation,
    pub(super) fuse: Option<Fuse>,
}

impl Demand {
    /// Ω/m of hot copper that the allowed loss leaves; infinite where nothing flows.
    #[inline]
    fn per_metre(&self) -> f64 {
        let flow = self.peak.si() * self.length.si();
        if flow > 0.0 { (self.allowed - self.others).si() / flow } else { f64::INFINITY }
    }

    /// The temperature, in kelvin, at which this wire loses what it may lose; not above what its insulation stands.
    #[inline]
    fn limiting(&self, wire: &Conductor) -> f64 {
        let by_loss = REFERENCE + (self.per_metre() / wire.resistance.si() - 1.0) / PER_KELVIN;
        by_loss.min(self.insulation.lasting.si())
    }

    /// What is to blame when the limiting temperature is passed.
    fn blame(&self, limit: f64) -> Governs {
        if limit < self.insulation.lasting.si() { Governs::Drop } else { Governs::Heat }
    }

    /// Heat its current makes in this wire at 20 °C, W/m.
    #[inline]
    pub(super) fn cold(&self, wire: &Conductor) -> f64 {
        self.rms.si() * self.rms.si() * wire.resistance.si()
    }

    /// Heat made at a temperature in kelvin, W/m.
    #[inline]
    fn heat(&self, wire: &Conductor, kelvin: f64) -> f64 {
        self.cold(wire) * warming(Temperature::from_si(kelvin))
    }

    /// What stops this wire alone in still air, its fuse left aside.
    #[inline]
    fn stopped_alone(&self, wire: &Conductor, air: Temperature) -> Option<Governs> {
        let limit = self.limiting(wire);
        let heat = self.heat(wire, limit);
        let surface = limit - heat * wire.insulation;
        if limit < air.si() {
            return Some(self.blame(limit));
        }
        let way = Way::alone(wire, air);
        (heat > way.cylinder.flow(surface).0).then(|| self.blame(limit))
    }

    /// What stops this wire in a bundle where it counts as `counted` heat at 20 °C, W/m.
    #[inline]
    fn stopped_in(&self, bundle: &Bundle, wire: &Conductor, counted: f64) -> Option<Governs> {
        let way = bundle.way(wire, counted);
        let limit = self.limiting(wire);
        if way.surface + way.lift + self.heat(wire, limit) * way.inner > limit {
            return Some(self.blame(limit));
        }
        let fuse = self.fuse?;
        let running = way.copper(self.cold(wire)).unwrap_or(f64::INFINITY);
        let guard = Tried { wire, insulation: self.insulation, way, running }.guard(fuse);
        (guard != Guard::Guards).then_some(Governs::Fuse)
    }

    /// The place in `range` of the first size from `least` up that passes alone, and what stops a thinner one.
    pub(super) fn smallest_alone(&self, range: &[u8], least: Area, air: Temperature) -> Result<(usize, Governs), Unknown> {
        if self.per_metre() <= 0.0 {
            return Err(NOTHING_LEFT);
        }
        if air >= self.insulation.lasting {
            return Err(TOO_HOT_AROUND);
        }
        let mut governs = Governs::Strength;
        for (at, wire) in range.iter().map(|at| &SIZES[usize::from(*at)]).enumerate().filter(|(_, wire)| wire.area >= least) {
            match self.stopped_alone(wire, air) {
                None => return Ok((at, governs)),
                Some(why) => governs = why,
            }
        }
        Err(NOTHING_PASSES)
    }

    /// Says how this size came about.
    pub(super) fn say(&self, case: &mut Case<'_>, wire: &Conductor) -> Area {
        let limit = Temperature::from_si(self.limiting(wire));
        let numbers =
            [self.insulation.lasting.si(), self.allowed.si(), self.others.si(), self.peak.si(), self.length.si(), wire.resistance.si()];
        let limit = case.say(&LIMITING, &numbers, limit);
        case.say(&SMALLEST_LINE, &[self.rms.si(), limit.si()], wire.area)
    }
}

/// The sizes in the range chosen.
pub(super) fn sizes(range: SizeRange) -> &'static [u8] {
    match range {
        SizeRange::Stocked => STOCKED,
        SizeRange::Every => EVERY,
    }
}

/// The fuse of a row, if it has one: where none is sold for the load there is none.
pub(super) fn fuse_of(cells: &mut impl Reads, row: usize) -> Result<Option<Fuse>, Unknown> {
    match cells.read(PROTECTION, row)? {
        Protection::Fuse => match cells.read(FUSE, row) {
            Err(NO_FUSE_SOLD) => Ok(None),
            rating => Ok(Some(Fuse::new(rating?))),
        },
        Protection::EarthSide | Protection::Nothing => Ok(None),
    }
}

/// What a row asks of its wire.
pub(super) fn demand_of(cells: &mut impl Reads, row: usize) -> Result<Demand, Unknown> {
    Ok(Demand {
        rms: cells.read(RMS, row)?,
        peak: cells.read(PEAK, row)?,
        allowed: cells.read(ALLOWED, row)?,
        others: cells.read(OTHER_DROP, row)?,
        length: cells.read(COPPER_LENGTH, row)?,
        insulation: cells.read(INSULATION, row)?.stands(),
        fuse: fuse_of(cells, row)?,
    })
}

/// Wires of a circuit in its branch: a return of its own runs along.
pub(super) fn wires_of(back: Return) -> u32 {
    match back {
        Return::OwnWire | Return::LowSide => 2,
        Return::Body | Return::Engine | Return::NotCounted => 1,
    }
}

/// Rows of the table at most.
const CIRCUITS_AT_MOST: usize = 200;

/// A row as far as it is sized.
#[derive(Clone, Copy)]
struct Sized {
    demand: Demand,
    branch: Branch,
    /// Place of its size in the range.
    at: usize,
    governs: Governs,
}

type Round = Result<Sized, Unknown>;

/// Where a row runs, and how many wires it lays there.
type Laid = (Result<Branch, Unknown>, u32);

pub(super) const SIZES_THAT_PASS: Step = Step {
    name: "the smallest size of each circuit",
    reads: &[
        RMS.id,
        PEAK.id,
        FUSE.id,
        PROTECTION.id,
        RETURN.id,
        BRANCH.id,
        INSULATION.id,
        ALLOWED.id,
        COPPER_LENGTH.id,
        OTHER_DROP.id,
        SIZE_RANGE.id,
        LEAST_SIZE.id,
        CONDUCTIVITY.id,
        BRANCH_LETTER.id,
        PARENT.id,
        BRANCH_AIR.id,
    ],
    writes: &[SMALLEST_ALONE.id, SMALLEST.id, GOVERNS.id],
    // Few rows, as most looms have, should not pay for the room of two hundred.
    run: |case| if case.rows(CIRCUITS) <= FEW { size::<FEW>(case) } else { size::<CIRCUITS_AT_MOST>(case) },
};

const FEW: usize = 24;

/// Sizes at most `MOST` rows: alone, then with the others at their sizes until nobody's neighbours change any more. Sizes
/// only rise and rows without one only become more, so that this ends.
fn size<const MOST: usize>(case: &mut Case<'_>) {
    let (range, least) = (case.of(SIZE_RANGE).map(sizes), case.of(LEAST_SIZE));
    let empty = Loom::read(case);
    let mut rounds: [Round; MOST] = [Err(Unknown::NotComputed); MOST];
    let mut laid: [Laid; MOST] = [(Err(Unknown::NotComputed), 1); MOST];
    let rows = case.rows(CIRCUITS).min(MOST);
    for (row, (round, laid)) in rounds[..rows].iter_mut().zip(&mut laid).enumerate() {
        *laid = (case.cell(BRANCH, row), case.cell(RETURN, row).map_or(1, wires_of));
        *round = alone(case, row, &empty, range, least, laid.0);
        case.answer_row(SMALLEST_ALONE, row, |case| {
            let Sized { demand, at, .. } = (*round)?;
            Ok(demand.say(case, &SIZES[usize::from(range?[at])]))
        });
    }
    if let Ok(range) = range {
        let conductivity = case.of(CONDUCTIVITY);
        while together(&mut rounds[..rows], &laid[..rows], &empty, range, conductivity) {}
    }
    for (row, round) in rounds[..rows].iter().enumerate() {
        case.answer_row(SMALLEST, row, |case| {
            let Sized { demand, at, .. } = (*round)?;
            Ok(demand.say(case, &SIZES[usize::from(range?[at])]))
        });
        case.answer_row(GOVERNS, row, |_| Ok((*round)?.governs));
    }
}

fn alone(
    case: &mut Case<'_>,
    row: usize,
    loom: &Loom,
    range: Result<&'static [u8], Unknown>,
    least: Result<Area, Unknown>,
    branch: Result<Branch, Unknown>,
) -> Round {
    let (demand, branch) = (demand_of(case, row)?, branch?);
    let (at, governs) = demand.smallest_alone(range?, least?, loom.hottest_air(branch)?)?;
    Ok(Sized { demand, branch, at, governs })
}

/// Lays all rows at their sizes and makes those thicker that do not pass there; true when any was. Beside one without a size
/// nobody knows.
fn together(rounds: &mut [Round], laid: &[Laid], empty: &Loom, range: &[u8], conductivity: Result<ThermalConductivity, Unknown>) -> bool {
    let mut loom = empty.clone();
    for (round, laid) in rounds.iter().zip(laid) {
        match round {
            Ok(Sized { demand, branch, at, .. }) => {
                let wire = &SIZES[usize::from(range[*at])];
                loom.lay(*branch, wire, demand.cold(wire), laid.1);
            }
            Err(_) => loom.lay_unsized(laid.0, laid.1),
        }
    }
    let loom = loom.settle(conductivity);
    let mut thicker = false;
    for round in rounds {
        let Ok(sized) = round else { continue };
        match sized.thickened(&loom, range) {
            Ok(None) => {}
            Ok(Some(next)) => (*round, thicker) = (Ok(next), true),
            Err(why) => (*round, thicker) = (Err(why), true),
        }
    }
    thicker
}

impl Sized {
    /// The first thicker size that passes in its bundles; none when its own does.
    fn thickened(&self, loom: &SettledLoom, range: &[u8]) -> Result<Option<Self>, Unknown> {
        let wire_at = |at: u8| &SIZES[usize::from(at)];
        let counted = self.demand.cold(wire_at(range[self.at]));
        let path = loom.path(self.branch)?;
        let mut governs = None;
        for (step, at) in range[self.at..].iter().enumerate() {
            let mut stops = None;
            for bundle in path.clone() {
                stops = stops.or(self.demand.stopped_in(bundle?, wire_at(*at), counted));
            }
            if stops.is_none() {
                return Ok(governs.map(|governs| Self { at: self.at + step, governs, ..*self }));
            }
            governs = stops;
        }
        Err(NOTHING_PASSES)
    }
}
