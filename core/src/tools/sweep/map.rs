//! Two inputs over their ranges → where everything that hangs on them is within limits.

use super::Job;
use super::found::axis;
use crate::build::{Build, Refusal};
use crate::chart::{Chart, Curve, Spot};
use crate::order::Order;
use crate::plan::Plan;
use crate::report::{Unknown, lower_first};
use crate::show::{self, System};
use crate::spec::Place;
use crate::tools::dial::{Dial, Still, Stop, apart, most};
use core::ops::ControlFlow;

/// A map under way, row by row.
#[derive(Debug)]
pub struct Map {
    dials: [Dial; 2],
    /// Columns and rows.
    at: [Vec<f64>; 2],
    output: Option<Place>,
    judged: Vec<Place>,
    anyway: Vec<Stop>,
    still: Still,
    stops_now: Vec<Stop>,
    cells: Vec<Cell>,
}

/// One point of a map.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// The output asked for, or why there is none; not computed without one.
    pub value: Result<f64, Unknown>,
    /// What hangs on the two and is past a limit or not known here.
    pub stops: Vec<Stop>,
}

/// What a map found.
#[derive(Clone, Debug, PartialEq)]
pub struct Mapped {
    /// Across, then up.
    pub inputs: [Place; 2],
    /// Their values in the build, SI.
    pub present: [Option<f64>; 2],
    /// What is past a limit or not known as they stand.
    pub stops_now: Vec<Stop>,
    /// Columns and rows: the values of each input, SI, rising.
    pub at: [Vec<f64>; 2],
    /// Row by row from the lowest.
    pub cells: Vec<Cell>,
    /// Past a limit or not known whatever the two are.
    pub anyway: Vec<Stop>,
}

impl Map {
    /// Maps two inputs of a build over their ranges (SI) on at most so many points each, both ends included.
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
        let stops_now = dials[0].stops(judged.iter().copied());
        let at = [0, 1].map(|axis| dials[axis].points(ranges[axis], count[axis]));
        Ok(Self { stops_now, still: Still::new(), dials, at, output, judged, anyway, cells: Vec::new() })
    }
}

impl Job for Map {
    type Answer = Mapped;

    fn advance(&mut self, plan: &Plan, evaluations: u32) -> ControlFlow<Mapped, f32> {
        let columns = self.at[0].len();
        let all = columns * self.at[1].len();
        for _ in 0..evaluations {
            if self.cells.len() == all {
                break;
            }
            let (across, up) = (self.at[0][self.cells.len() % columns], self.at[1][self.cells.len() / columns]);
            let [dial, other] = &mut self.dials;
            dial.turn_both(plan, across, other, up);
            let value = self.output.map_or(Err(Unknown::NotComputed), |output| dial.value(output));
            let stops = dial.stops(self.judged.iter().copied());
            self.still.take(&self.dials, &stops);
            self.cells.push(Cell { value, stops });
        }
        if self.cells.len() < all {
            return ControlFlow::Continue(self.cells.len() as f32 / all as f32);
        }
        // What stands still and stops at every point does so whatever the two are.
        let still = core::mem::replace(&mut self.still, Still::new()).found();
        let all_stops = self.cells.iter_mut().map(|cell| &mut cell.stops).chain([&mut self.stops_now]);
        all_stops.for_each(|stops| stops.retain(|stop| !still.contains(stop)));
        self.anyway.extend(still);
        self.anyway.order_by(Ord::cmp);
        ControlFlow::Break(Mapped {
            inputs: [self.dials[0].place(), self.dials[1].place()],
            present: [self.dials[0].present, self.dials[1].present],
            stops_now: core::mem::take(&mut self.stops_now),
            at: core::mem::take(&mut self.at),
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
        let suits = |column: usize, row: usize| self.cells[row * columns + column].stops.is_empty();
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

    /// Within limits at how many of its points, and what stops most of the others.
    #[must_use]
    pub fn finding(&self, build: &Build) -> String {
        let label = |stop: Stop| lower_first(&show::label(build, stop.place));
        let stopped = self.cells.iter().filter(|cell| !cell.stops.is_empty());
        let suits = self.cells.len() - stopped.clone().count();
        let mut said = match (suits, most(stopped.map(|cell| &cell.stops))) {
            (_, None) => "Everything that hangs on them is within limits everywhere here.".into(),
            (0, Some((Stop { unknown: true, place }, _))) => {
                let label = lower_first(&show::label(build, place));
                format!("Nowhere here can it be told whether everything that hangs on them is within limits: {label} is not known.")
            }
            (0, Some((most, true))) => {
                format!("Nowhere here is everything that hangs on them within limits; {} is past its limit throughout.", label(most))
            }
            (0, Some((most, false))) => {
                format!("Nowhere here is everything that hangs on them within limits; {} stops most of it.", label(most))
            }
            (_, Some((most, _))) => {
                let share = 100.0 * suits as f64 / self.cells.len() as f64;
                // What is little is not none, and what is nearly all is not all.
                let digits = usize::from(!(1.0..99.0).contains(&share));
                format!("Within limits on {share:.digits$} % of this field; {} stops most of the rest.", label(most))
            }
        };
        said.push_str(&apart(build, "them", &self.anyway));
        said
    }

    /// The field with its border; every few points one that can be taken. None when an axis has no quantity.
    #[must_use]
    pub fn chart(&self, build: &Build, few: [usize; 2]) -> Option<Chart> {
        let layout = build.layout();
        let [x, y] = self.inputs.map(|input| axis(layout, input));
        let said = |axis: usize, value: f64| show::cell(layout.spec(self.inputs[axis].id), value, System::Metric).to_string();
        let spot = |at: (f64, f64), stops: &[Stop], present: bool| {
            // What stands now is written on the chart, where there is little room.
            let by = stops.first().filter(|_| !present);
            let stopped = by.map_or_else(String::new, |by| format!("; {} stops it", lower_first(&show::label(build, by.place))));
            Spot {
                at,
                label: format!("{} by {}{stopped}", said(0, at.0), said(1, at.1)),
                good: stops.is_empty(),
                present,
                sets: vec![(self.inputs[0], at.0), (self.inputs[1], at.1)],
            }
        };
        let columns = self.at[0].len();
        let every = [0, 1].map(|axis| (self.at[axis].len() - 1).div_ceil(few[axis].max(1)).max(1));
        let points = self.cells.iter().enumerate().filter_map(|(at, cell)| {
            let (column, row) = (at % columns, at / columns);
            let shown = column % every[0] == 0 && row % every[1] == 0;
            shown.then(|| spot((self.at[0][column], self.at[1][row]), &cell.stops, false))
        });
        let inside = |axis: usize| {
            let (now, at) = (self.present[axis]?, &self.at[axis]);
            (at.first()? <= &now && &now <= at.last()?).then_some(now)
        };
        let now = inside(0).zip(inside(1)).map(|now| spot(now, &self.stops_now, true));
        let border = self.outline().into_iter().flat_map(|[(x, y), (to_x, to_y)]| [(x, Some(y)), (to_x, Some(to_y)), (to_x, None)]);
        Some(Chart {
            title: format!("{} and {}", show::label(build, self.inputs[0]), lower_first(&show::label(build, self.inputs[1]))),
            finding: self.finding(build),
            curves: vec![Curve { label: String::new(), points: border.collect(), dashed: false }],
            spots: points.chain(now).collect(),
            ..Chart::on(x?, y?)
        })
    }
}
