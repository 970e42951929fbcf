//! Does the size in force pass, and how warm is each branch of the loom with everything as it is?

use super::branches::{Loom, SettledLoom};
use super::bundle::Way;
use super::choices::{Check, Guard, Protection};
use super::drop::{BETTER_SHARE, fault_current, loop_drop};
use super::load::{fuse_share, through_fuse};
use super::protection::{Node, Tried};
use super::reads::Reads;
use super::sizing::{Demand, demand_of, fails_every_size, wires_of};
use super::{
    ALLOWED, BRANCH, BRANCH_AIR, BRANCH_HEAT, BRANCH_LETTER, BRANCH_SURFACE, BRANCHES, BUNDLE_DIAMETER, CHECK, CIRCUITS, CONDUCTIVITY,
    COPPER_LENGTH, COVER, DROP, FAULT_CURRENT, FUSE, FUSE_BOX_AIR, FUSE_SHARE, GROMMET, GUARD, INSULATION, OPENS_WITHIN, OTHER_DROP,
    OTHER_RESISTANCE, PARENT, PATTERN, PEAK, PROTECTION, REST_VOLTAGE, RETURN, RMS, SIZE, SLEEVE, SOURCE_RESISTANCE, WARMEST,
    WIRE_TEMPERATURE, WIRES,
};
use crate::data::conductors::Conductor;
use crate::data::fuses::{self, Fuse, MUST_OPEN};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{A, CELSIUS, KM_PER_W, M, MILLIOHM, MILLIOHM_PER_M, MM, ONE, RISE, S, V, W_PER_M};
use crate::quantity::{Current, Length, Ratio, Resistance, Temperature, ThermalConductivity, Voltage, ratio};
use crate::report::Unknown;
use crate::spec::{Source, Verdict};

static TEMPERATURE: Line = Line {
    equation: "θ = θ_s + Δθ_o + I_rms² · R(θ) · r",
    terms: &[("θ_s", CELSIUS), ("Δθ_o", RISE), ("I_rms", A), ("r", KM_PER_W)],
    unit: CELSIUS,
    source: Source::Published("Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975); resistance by ISO 6722-1, from memory"),
};
static LOSS: Line = Line {
    equation: "U = I · R_20 · (1 + 0.00393 · (θ − 20)) · l + U_o",
    terms: &[("I", A), ("R_20", MILLIOHM_PER_M), ("θ", CELSIUS), ("l", M), ("U_o", V)],
    unit: V,
    source: Source::FromMemory("IEC 60028 and ISO 6722-1:2011"),
};
static SHORT: Line = Line {
    equation: "I_k = U / (R_s + R_20 · (1 + 0.00393 · (θ_i − 20)) · l + R_o)",
    terms: &[("U", V), ("R_s", MILLIOHM), ("R_20", MILLIOHM_PER_M), ("θ_i", CELSIUS), ("l", M), ("R_o", MILLIOHM)],
    unit: A,
    source: Source::Definition,
};
static OPENING: Line = Line { equation: "t ≤ t_max(I_k / I_n)", terms: &[("I_k", A), ("I_n", A)], unit: S, source: fuses::SOURCE };
static SLOWEST: Line =
    Line { equation: "θ = max over the slowest openings from 1.35 · I_n up", terms: &[("I_n", A)], unit: CELSIUS, source: fuses::SOURCE };
static SURFACE: Line = Line {
    equation: "Σ I² · R = π · D · (h_c · (θ_s − θ_a) + ε · σ · (θ_s⁴ − θ_a⁴))",
    terms: &[("D", MM), ("Σ", W_PER_M)],
    unit: CELSIUS,
    source: Source::Published("Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975); emissivity 0.9 from memory"),
};
static ACROSS: Line = Line { equation: "D = 1.2 · √(Σ d²)", terms: &[("n", ONE)], unit: MM, source: Source::CommonPractice };
static SLEEVE_LINE: Line = Line { equation: "d = 1.1 · D", terms: &[("D", MM)], unit: MM, source: Source::CommonPractice };
static GROMMET_LINE: Line = Line { equation: "d = D + 2 · s", terms: &[("D", MM), ("s", MM)], unit: MM, source: Source::Definition };

const NOT_IN_TABLE: Unknown = Unknown::NoSolution("Wire of this size is not in the table.");
const NO_FUSE: Unknown = Unknown::NoSolution("No fuse in this circuit.");
const NEVER_OPENS: Unknown = Unknown::NoSolution("It may never open: the short draws less than 1.35 times the fuse's rating.");
const NO_END: Unknown = Unknown::NoSolution("This wire heats itself up without end.");

/// Multiple of its rating from which a fuse opens within 5 s (60 s of the high-current type), by its table.
const OPENS_SOON: f64 = 2.0;

pub(super) const CHECKS: Step = Step {
    name: "each circuit as it is",
    reads: &[
        RMS.id,
        PEAK.id,
        PATTERN.id,
        FUSE.id,
        PROTECTION.id,
        RETURN.id,
        BRANCH.id,
        INSULATION.id,
        ALLOWED.id,
        COPPER_LENGTH.id,
        OTHER_DROP.id,
        OTHER_RESISTANCE.id,
        SIZE.id,
        FUSE_SHARE.id,
        FUSE_BOX_AIR.id,
        SOURCE_RESISTANCE.id,
        REST_VOLTAGE.id,
        CONDUCTIVITY.id,
        COVER.id,
        BRANCH_LETTER.id,
        PARENT.id,
        BRANCH_AIR.id,
    ],
    writes: &[
        WIRE_TEMPERATURE.id,
        DROP.id,
        FAULT_CURRENT.id,
        OPENS_WITHIN.id,
        WARMEST.id,
        GUARD.id,
        CHECK.id,
        WIRES.id,
        BUNDLE_DIAMETER.id,
        SLEEVE.id,
        GROMMET.id,
        BRANCH_HEAT.id,
        BRANCH_SURFACE.id,
    ],
    run: run_checks,
};

fn run_checks(case: &mut Case<'_>) {
    let conductivity = case.of(CONDUCTIVITY);
    let loom = loom(case, conductivity);
    let (share, box_air) = (case.of(FUSE_SHARE), case.of(FUSE_BOX_AIR));
    let shared = Shared {
        share,
        carried: share.and_then(|share| Ok(fuse_share(share, box_air?))),
        source: case.of(SOURCE_RESISTANCE),
        voltage: case.of(REST_VOLTAGE),
    };
    for row in 0..case.rows(CIRCUITS) {
        circuit(case, row, &loom, &shared);
    }
    let cover = case.of(COVER);
    for row in 0..case.rows(BRANCHES) {
        branch(case, row, &loom, cover);
    }
}

/// Values that all circuits share.
struct Shared {
    share: Result<Ratio, Unknown>,
    carried: Result<Ratio, Unknown>,
    source: Result<Resistance, Unknown>,
    voltage: Result<Voltage, Unknown>,
}

/// A wire where it is warmest, and how it and its fuse get on where they do worst.
pub(super) struct Placed {
    pub(super) demand: Demand,
    pub(super) wire: Conductor,
    pub(super) way: Way,
    pub(super) temperature: Temperature,
    node: Option<Node>,
    guard: Option<Guard>,
}

impl Placed {
    /// Ready to be tried against currents.
    pub(super) fn tried(&self) -> Tried<'_> {
        Tried { wire: &self.wire, insulation: self.demand.insulation, way: self.way, running: self.temperature.si() }
    }
}

/// The loom with every circuit at its size in force, settled; where one of which size or load is not known runs, nobody
/// knows how warm it gets.
pub(super) fn loom(cells: &mut impl Reads, conductivity: Result<ThermalConductivity, Unknown>) -> SettledLoom {
    let mut loom = Loom::read(cells);
    for row in 0..cells.count(CIRCUITS) {
        let (size, rms, branch) = (cells.read(SIZE, row), cells.read(RMS, row), cells.read(BRANCH, row));
        let count = cells.read(RETURN, row).map(wires_of);
        match (size.map(Conductor::of), rms, branch, count) {
            (Ok(Some(wire)), Ok(rms), Ok(branch), Ok(count)) => {
                loom.lay(branch, &wire, rms.si() * rms.si() * wire.resistance.si(), count);
            }
            _ => loom.lay_unsized(branch, count.unwrap_or(1)),
        }
    }
    loom.settle(conductivity)
}

#[inline]
pub(super) fn placed(cells: &mut impl Reads, row: usize, loom: &SettledLoom) -> Result<Placed, Unknown> {
    let demand = demand_of(cells, row)?;
    let wire = Conductor::of(cells.read(SIZE, row)?).ok_or(NOT_IN_TABLE)?;
    let cold = demand.cold(&wire);
    let mut warmest: Option<(Way, f64, Option<Node>)> = None;
    let mut guard = None;
    for bundle in loom.path(cells.read(BRANCH, row)?)? {
        let way = bundle?.way(&wire, cold);
        let running = way.copper(cold).ok_or(NO_END)?;
        let mut node = None;
        if let Some(fuse) = demand.fuse {
            let tried = Tried { wire: &wire, insulation: demand.insulation, way, running };
            let here = tried.node();
            let found = tried.guard_by(&here, fuse);
            if guard.is_none_or(|worst: Guard| found.verdict() > worst.verdict()) {
                guard = Some(found);
            }
            node = Some(here);
        }
        if warmest.is_none_or(|(_, temperature, _)| running > temperature) {
            warmest = Some((way, running, node));
        }
    }
    let (way, running, node) = warmest.ok_or(NOT_IN_TABLE)?;
    Ok(Placed { demand, wire, way, temperature: Temperature::from_si(running), node, guard })
}

fn circuit(case: &mut Case<'_>, row: usize, loom: &SettledLoom, shared: &Shared) {
    let placed = placed(case, row, loom);
    let placed = placed.as_ref().map_err(|why| *why);
    case.answer_row(WIRE_TEMPERATURE, row, |case| {
        let Placed { demand, way, temperature, .. } = placed?;
        Ok(case.say(&TEMPERATURE, &[way.surface, way.lift, demand.rms.si(), way.inner], *temperature))
    });
    let lost = placed.map(|Placed { demand, wire, temperature, .. }| {
        loop_drop(demand.peak, wire.resistance_at(*temperature), demand.length, Resistance::ZERO, demand.others)
    });
    case.answer_row(DROP, row, |case| {
        let Placed { demand, wire, temperature, .. } = placed?;
        let numbers = [demand.peak.si(), wire.resistance.si(), temperature.si(), demand.length.si(), demand.others.si()];
        Ok(case.say(&LOSS, &numbers, lost?))
    });
    let others = case.cell(OTHER_RESISTANCE, row);
    let short = placed.and_then(|Placed { demand, wire, .. }| {
        let hot = wire.resistance_at(demand.insulation.lasting);
        Ok(fault_current(shared.voltage?, shared.source?, hot, demand.length, others?))
    });
    case.answer_row(FAULT_CURRENT, row, |case| {
        let (Placed { demand, wire, .. }, source, voltage) = (placed?, shared.source?, shared.voltage?);
        let lasting = demand.insulation.lasting.si();
        let numbers = [voltage.si(), source.si(), wire.resistance.si(), lasting, demand.length.si(), others?.si()];
        Ok(case.say(&SHORT, &numbers, short?))
    });
    case.answer_row(OPENS_WITHIN, row, |case| {
        let (short, fuse) = (short?, placed?.demand.fuse.ok_or(NO_FUSE)?);
        let latest = fuse.opens_within(short).ok_or(NEVER_OPENS)?;
        Ok(case.say(&OPENING, &[short.si(), fuse.rating.si()], latest))
    });
    case.answer_row(WARMEST, row, |case| {
        let placed = placed?;
        let (node, fuse) = placed.node.as_ref().zip(placed.demand.fuse).ok_or(NO_FUSE)?;
        Ok(case.say(&SLOWEST, &[fuse.rating.si()], placed.tried().warmest(node, fuse).ok_or(NO_END)?))
    });
    let guard = case.cell(PROTECTION, row).and_then(|protection| {
        let placed = placed?;
        match (protection, placed.guard, placed.demand.fuse) {
            (Protection::EarthSide, ..) => Ok(Guard::NotNeeded),
            (Protection::Fuse, Some(guard), Some(fuse)) => {
                let load = through_fuse(case.cell(PATTERN, row)?, placed.demand.rms, placed.demand.peak, shared.share?);
                with_load_and_short(guard, fuse, load, short?, shared.carried?)
            }
            _ => Ok(Guard::Unfused),
        }
    });
    case.answer_row(GUARD, row, |_| guard);
    case.answer_row(CHECK, row, |case| {
        if case.cell(SIZE, row).is_err_and(fails_every_size) {
            return Ok(Check::NoSize);
        }
        let (Placed { demand, temperature, .. }, lost, guard) = (placed?, lost?, guard?);
        Ok(if *temperature > demand.insulation.lasting {
            Check::TooHot
        } else if guard.verdict() == Verdict::Beyond {
            Check::FuseFails
        } else if lost > demand.allowed {
            Check::LosesTooMuch
        } else if lost > demand.allowed * BETTER_SHARE || guard.verdict() == Verdict::Near {
            Check::Close
        } else {
            Check::Passes
        })
    });
}

fn with_load_and_short(guard: Guard, fuse: Fuse, load: Current, short: Current, carried: Ratio) -> Result<Guard, Unknown> {
    let multiple = short / fuse.rating;
    // The suggested fuse must not fail by the last bit.
    let overloaded = load.si() * (1.0 - 1e-12) > fuse.rating.si() * carried.si();
    Ok(if guard == Guard::TooLarge {
        guard
    } else if overloaded {
        Guard::TooSmall
    } else if multiple < MUST_OPEN {
        Guard::MayNeverOpen
    } else if guard == Guard::Guards && multiple < OPENS_SOON {
        Guard::SlowAtEnd
    } else {
        guard
    })
}

fn branch(case: &mut Case<'_>, row: usize, loom: &SettledLoom, cover: Result<Length, Unknown>) {
    let letter = case.cell(BRANCH_LETTER, row);
    let wires = letter.and_then(|letter| loom.wires(letter)).map(f64::from);
    let bundle = letter.and_then(|letter| loom.bundle(letter));
    case.answer_row(WIRES, row, |_| Ok(ratio(wires?)));
    let across = letter.and_then(|letter| loom.across(letter));
    case.answer_row(BUNDLE_DIAMETER, row, |case| Ok(case.say(&ACROSS, &[wires?], across?)));
    case.answer_row(SLEEVE, row, |case| Ok(case.say(&SLEEVE_LINE, &[across?.si()], across? * 1.1)));
    case.answer_row(GROMMET, row, |case| Ok(case.say(&GROMMET_LINE, &[across?.si(), cover?.si()], across? + cover? * 2.0)));
    case.answer_row(BRANCH_HEAT, row, |_| Ok(bundle?.heat));
    case.answer_row(BRANCH_SURFACE, row, |case| {
        let bundle = bundle?;
        Ok(case.say(&SURFACE, &[bundle.diameter.si(), bundle.heat.si()], bundle.surface))
    });
}
