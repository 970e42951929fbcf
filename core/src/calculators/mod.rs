//! The calculators: physics only. Each states its question, its inputs and outputs, and its steps.

pub mod bonnet_line;
pub mod car;
pub mod clutch;
pub mod flywheel;
pub mod front_drive;
pub mod wiring;

use crate::build::Build;
use crate::chart::Chart;
use crate::listing::Listing;
use crate::plan::{Plan, Step};
use crate::proofs::Proof;
use crate::report::{Report, Unknown};
use crate::scene::Scene;
use crate::sentence::Sentence;
use crate::spec::{Id, Spec, Table};

/// Makes a calculator's answer in words.
pub type Speak = fn(&Build, &Report) -> Sentence;
/// Makes a calculator's drawing; unknown when what it shows is.
pub type Draw = fn(&Build, &Report) -> Result<Scene, Unknown>;
/// Makes one of a calculator's charts, evaluating the build with other values along the way.
pub type Plot = fn(&Plan, &Build, &Report) -> Result<Chart, Unknown>;

/// Makes a calculator's list to work from.
pub type List = fn(&Build, &Report) -> Listing;

/// One calculator, as everything generic sees it.
pub struct Calculator {
    /// First word of its keys.
    pub key: &'static str,
    /// On screen.
    pub label: &'static str,
    /// What it answers, as its user would ask.
    pub question: &'static str,
    /// Declarations, in the order of their ordinals.
    pub specs: &'static [Spec],
    /// Tables, in the order of their ordinals.
    pub tables: &'static [Table],
    /// The physics.
    pub steps: &'static [Step],
    /// The one input that matters most here.
    pub choice: Id,
    /// Its answer in words.
    pub sentence: Speak,
    /// Its drawing, if it has one.
    pub scene: Option<Draw>,
    /// Its charts.
    pub charts: &'static [Plot],
    /// Its list to work from, if it has one.
    pub listing: Option<List>,
    /// All that the list holds in drawings for paper, if it draws it.
    pub diagrams: Option<fn(&Build, &Report) -> Vec<Scene>>,
    /// What to do and prove on the car itself.
    pub proofs: &'static [Proof],
    /// Stand on its screen whatever its figures say, since the work can hurt someone either way.
    pub cautions: &'static [&'static str],
    /// Letters of its equations that stand for no declared value, and what they are: `("A_m", "Area of the master cylinder")`.
    pub letters: &'static [(&'static str, &'static str)],
    /// What it leaves out and how far it can be wrong.
    pub leaves_out: &'static [&'static str],
}

impl core::fmt::Debug for Calculator {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        out.write_str(self.key)
    }
}

/// The front drive's place in [`ALL`].
const FRONT_DRIVE_PLACE: u8 = 1;
/// The clutch's place in [`ALL`].
const CLUTCH_PLACE: u8 = 2;
/// The bonnet line's place in [`ALL`].
const BONNET_LINE_PLACE: u8 = 5;
/// The flywheel's place in [`ALL`].
const FLYWHEEL_PLACE: u8 = 3;
/// The wiring's place in [`ALL`].
const WIRING_PLACE: u8 = 4;

/// Every calculator, in the order of their numbers.
pub static ALL: &[&Calculator] =
    &[&car::CAR, &front_drive::FRONT_DRIVE, &clutch::CLUTCH, &flywheel::FLYWHEEL, &wiring::WIRING, &bonnet_line::BONNET_LINE];
