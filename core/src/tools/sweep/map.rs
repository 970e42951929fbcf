//! Two inputs over their ranges → where everything that hangs on them is within limits.

use super::Job;
use crate::build::{Build, Refusal};
use crate::plan::Plan;
use crate::report::Unknown;
use crate::spec::Place;
use crate::tools::dial::Dial;
use core::ops::ControlFlow;

/// A map under way, row by row.
#[derive(Debug)]
pub struct Map {
    dials: [Dial; 2],
    ranges: [[f64; 2]; 2],
    count: [u32; 2],
    output: Option<Place>,
    judged: Vec<Place>,
    anyway: Vec<Place>,
    cells: Vec<Cell>,
}

/// One point of a map.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// The output asked for, or why there is none; not computed without one.
    pub value: Result<f64, Unknown>,
    /// The first that is past a limit or unknown.
    pub stops: Option<Place>,
}

/// What a map found.
#[derive(Clone, Debug, PartialEq)]
pub struct Mapped {
    /// Across, then up.
    pub inputs: [Place; 2],
    /// Their values in the build, SI.
    pub present: [Option<f64>; 2],
    /// Columns and rows: the values of each input, SI, rising.
    pub at: [Vec<f64>; 2],
    /// Row by row from the lowest.
    pub cells: Vec<Cell>,
    /// Past a limit or unknown whatever the two are.
    pub anyway: Vec<Place>,
}

impl Map {
    /// Maps two inputs of a build over their ranges (SI) on so many points each, both ends included.
    ///
    /// # Errors
    /// When one is no input with a number, both are the same, or an end is not possible.
    pub fn new(
        plan: &Plan,
        build: &Build,
        inputs: [Place; 2],
        ranges: [[f64; 2]; 2],
        output: Option<Place>,
        count: [u32; 2],
    ) -> Result<Self, Refusal> {
        if inputs[0] == inputs[1] {
            return Err(Refusal::NotThere);
        }
        let mut dials = [Dial::new(plan, build, inputs[0])?, Dial::new(plan, build, inputs[1])?];
        for (dial, range) in dials.iter().zip(ranges) {
            dial.check(range)?;
        }
        let (judged, anyway) = dials[0].judged(plan, &inputs.map(|input| input.id));
        dials[0].want(plan, judged.iter().copied().chain(output));
        Ok(Self { dials, ranges, count: count.map(|count| count.max(2)), output, judged, anyway, cells: Vec::new() })
    }

    fn at(&self, axis: usize, step: u32) -> f64 {
        let ([from, to], last) = (self.ranges[axis], self.count[axis] - 1);
        if step == last { to } else { from + (to - from) * f64::from(step) / f64::from(last) }
    }
}

impl Job for Map {
    type Answer = Mapped;

    fn advance(&mut self, plan: &Plan, evaluations: u32) -> ControlFlow<Mapped, f32> {
        let [columns, rows] = self.count;
        let all = columns as usize * rows as usize;
        for _ in 0..evaluations {
            if self.cells.len() == all {
                break;
            }
            let (column, row) = (self.cells.len() as u32 % columns, self.cells.len() as u32 / columns);
            let (across, up) = (self.at(0, column), self.at(1, row));
            let [dial, other] = &mut self.dials;
            dial.turn_both(plan, across, other, up);
            let value = self.output.map_or(Err(Unknown::NotComputed), |output| dial.value(output));
            self.cells.push(Cell { value, stops: dial.stops(&self.judged) });
        }
        if self.cells.len() < all {
            return ControlFlow::Continue(self.cells.len() as f32 / all as f32);
        }
        ControlFlow::Break(Mapped {
            inputs: [self.dials[0].place(), self.dials[1].place()],
            present: [self.dials[0].present, self.dials[1].present],
            at: [(0..columns).map(|step| self.at(0, step)).collect(), (0..rows).map(|step| self.at(1, step)).collect()],
            cells: core::mem::take(&mut self.cells),
            anyway: core::mem::take(&mut self.anyway),
        })
    }
}

impl Mapped {
    /// The border between where all is within limits and where it is not: lines halfway between neighbours that differ,
    /// each from one corner of the grid to the next (SI, across and up). At the map's edge nothing is drawn.
    #[must_use]
    pub fn outline(&self) -> Vec<[(f64, f64); 2]> {
        let [columns, rows] = [self.at[0].len(), self.at[1].len()];
        let suits = |column: usize, row: usize| self.cells[row * columns + column].stops.is_none();
        // Corners lie halfway between points, and on the outermost points at the ends.
        let corner = |axis: usize, place: usize| {
            let values = &self.at[axis];
            0.5 * (values[place.saturating_sub(1)] + values[place.min(values.len() - 1)])
        };
        let mut lines = Vec::new();
        for row in 0..rows {
            for column in 0..columns {
                if column + 1 < columns && suits(column, row) != suits(column + 1, row) {
                    let across = corner(0, column + 1);
                    lines.push([(across, corner(1, row)), (across, corner(1, row + 1))]);
                }
                if row + 1 < rows && suits(column, row) != suits(column, row + 1) {
                    let up = corner(1, row + 1);
                    lines.push([(corner(0, column), up), (corner(0, column + 1), up)]);
                }
            }
        }
        lines
    }
}
