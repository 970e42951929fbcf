//! The branches of the loom as steps see them: which circuits share which stretch, in which air.

use super::bundle::{Bundle, Packing};
use super::choices::{BRANCHES_AT_MOST, Branch, Parent};
use super::reads::Reads;
use super::{BRANCH_AIR, BRANCH_LETTER, BRANCHES, PARENT};
use crate::data::conductors::Conductor;
use crate::quantity::{HeatPerLength, Length, Temperature, ThermalConductivity, ThermalResistance};
use crate::report::Unknown;

const NOT_LISTED: Unknown = Unknown::NoSolution("Its branch is not in the list of branches.");
const TWICE: Unknown = Unknown::NoSolution("Two branches have this letter.");
const RING: Unknown = Unknown::NoSolution("These branches leave from one another in a ring.");
const EMPTY: Unknown = Unknown::NoSolution("No circuit runs through it.");
const UNSIZED: Unknown = Unknown::NoSolution("A circuit that runs through it has no size yet.");
/// Why a wire's heat is not known although its own row lacks nothing.
pub(super) const UNSIZED_BESIDE: Unknown = Unknown::NoSolution("A circuit that shares its way has no size yet.");
const NO_END: Unknown = Unknown::NoSolution("The wires of this branch heat themselves up without end.");

/// One branch.
#[derive(Clone, Copy)]
pub(super) struct Stretch {
    parent: Parent,
    air: Result<Temperature, Unknown>,
    /// The hottest air from here to the fuse box.
    hottest: Result<Temperature, Unknown>,
    /// Bits of the branches from here to the fuse box, this one included.
    path: Result<u16, Unknown>,
    packing: Packing,
    /// Wires that run through it and have no size yet.
    unsized_wires: u32,
    /// Heat its currents would make at 20 °C, W/m.
    cold: f64,
    /// Insulation of its last wire: of its only one, if it has one.
    lone: f64,
}

/// All branches by their letter.
#[derive(Clone)]
pub(super) struct Loom {
    stretches: [Stretch; BRANCHES_AT_MOST],
}

/// All branches with every wire in, settled.
pub(super) struct SettledLoom {
    loom: Loom,
    bundles: [Result<Bundle, Unknown>; BRANCHES_AT_MOST],
}

/// The branches of a path, by their places.
#[derive(Clone, Copy)]
struct Path(u16);

impl Iterator for Path {
    type Item = usize;

    #[inline]
    fn next(&mut self) -> Option<usize> {
        let at = self.0.trailing_zeros() as usize;
        self.0 &= self.0.wrapping_sub(1);
        (at < BRANCHES_AT_MOST).then_some(at)
    }
}

impl Loom {
    /// Reads the table; no wires yet.
    pub(super) fn read(cells: &mut impl Reads) -> Self {
        const MISSING: Stretch = Stretch {
            parent: Parent::Source,
            air: Err(NOT_LISTED),
            hottest: Err(NOT_LISTED),
            path: Err(NOT_LISTED),
            packing: Packing::NONE,
            unsized_wires: 0,
            cold: 0.0,
            lone: 0.0,
        };
        let mut loom = Self { stretches: [MISSING; BRANCHES_AT_MOST] };
        let mut listed = 0;
        for row in 0..cells.count(BRANCHES) {
            let Ok(letter) = cells.read(BRANCH_LETTER, row) else { continue };
            let parent = cells.read(PARENT, row);
            let bit = 1 << letter as u16;
            let stretch = &mut loom.stretches[letter as usize];
            stretch.path = if listed & bit == 0 { parent.map(|_| bit) } else { Err(TWICE) };
            stretch.parent = parent.unwrap_or(Parent::Source);
            stretch.air = cells.read(BRANCH_AIR, row);
            listed |= bit;
        }
        let own = loom.stretches;
        for at in Path(listed) {
            let path = path(&own, at);
            loom.stretches[at].path = path;
            loom.stretches[at].hottest = path.and_then(|path| hottest(&own, path));
        }
        loom
    }

    #[inline]
    fn path(&self, branch: Branch) -> Result<Path, Unknown> {
        self.stretches[branch as usize].path.map(Path)
    }

    /// The hottest air on the way.
    pub(super) fn hottest_air(&self, branch: Branch) -> Result<Temperature, Unknown> {
        self.stretches[branch as usize].hottest
    }

    /// Lays wires that end in a branch: `count` of them, each making this heat at 20 °C, W/m. Left out when the branch is
    /// not known: its own row says so.
    pub(super) fn lay(&mut self, branch: Branch, wire: &Conductor, cold: f64, count: u32) {
        let Ok(path) = self.path(branch) else { return };
        for at in path {
            let stretch = &mut self.stretches[at];
            stretch.packing.add(wire.outside, count);
            stretch.cold += f64::from(count) * cold;
            stretch.lone = wire.insulation;
        }
    }

    /// Lays wires of which size or load is not known: how thick and how warm it gets where they run is not known either. They
    /// may run anywhere where no branch is given.
    pub(super) fn lay_unsized(&mut self, branch: Result<Branch, Unknown>, count: u32) {
        let path = branch.map_or(Ok(Path(u16::MAX)), |branch| self.path(branch));
        for at in path.into_iter().flatten() {
            self.stretches[at].unsized_wires += count;
        }
    }

    /// Lets every branch with wires settle.
    pub(super) fn settle(self, conductivity: Result<ThermalConductivity, Unknown>) -> SettledLoom {
        let mut bundles = [Err(EMPTY); BRANCHES_AT_MOST];
        for (stretch, bundle) in self.stretches.iter().zip(&mut bundles) {
            if stretch.unsized_wires > 0 {
                *bundle = Err(UNSIZED);
            } else if stretch.packing.wires > 0 {
                let (cold, lone) = (HeatPerLength::from_si(stretch.cold), ThermalResistance::from_si(stretch.lone));
                *bundle = stretch.air.and_then(|air| Bundle::settle(stretch.packing, cold, lone, air, conductivity?).ok_or(NO_END));
            }
        }
        SettledLoom { loom: self, bundles }
    }
}

impl SettledLoom {
    /// Bundles from this branch to the fuse box.
    #[inline]
    pub(super) fn path(&self, branch: Branch) -> Result<impl Iterator<Item = Result<&Bundle, Unknown>> + Clone + use<'_>, Unknown> {
        let beside = |why: &Unknown| if *why == UNSIZED { UNSIZED_BESIDE } else { *why };
        Ok(self.loom.path(branch)?.map(move |at| self.bundles[at].as_ref().map_err(beside)))
    }

    /// So many wires run through a branch that is in the list and leads to the fuse box.
    pub(super) fn wires(&self, branch: Branch) -> Result<u32, Unknown> {
        let stretch = &self.loom.stretches[branch as usize];
        stretch.path.map(|_| stretch.packing.wires + stretch.unsized_wires)
    }

    /// How thick it is. A wire has a diameter, an empty branch has none.
    pub(super) fn across(&self, branch: Branch) -> Result<Length, Unknown> {
        let stretch = &self.loom.stretches[branch as usize];
        match (self.wires(branch)?, stretch.unsized_wires) {
            (0, _) => Err(EMPTY),
            (_, 0) => Ok(stretch.packing.diameter()),
            _ => Err(UNSIZED),
        }
    }

    /// The branch's own bundle.
    pub(super) fn bundle(&self, branch: Branch) -> Result<&Bundle, Unknown> {
        self.wires(branch)?;
        self.bundles[branch as usize].as_ref().map_err(|why| *why)
    }
}

/// Follows a branch to the fuse box through those it leaves from.
fn path(stretches: &[Stretch; BRANCHES_AT_MOST], from: usize) -> Result<u16, Unknown> {
    let (mut path, mut at) = (0, Some(from));
    while let Some(here) = at {
        let bit = stretches[here].path?;
        if path & bit != 0 {
            return Err(RING);
        }
        path |= bit;
        at = (stretches[here].parent as usize).checked_sub(1);
    }
    Ok(path)
}

fn hottest(stretches: &[Stretch; BRANCHES_AT_MOST], path: u16) -> Result<Temperature, Unknown> {
    let mut hottest = Temperature::ZERO;
    for at in Path(path) {
        hottest = hottest.max(stretches[at].air?);
    }
    Ok(hottest)
}
