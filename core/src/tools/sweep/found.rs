//! What a sweep found.

use crate::build::Build;
use crate::chart::{Axis, Chart, Curve, Edge};
use crate::layout::Layout;
use crate::order::Order;
use crate::plan::Plan;
use crate::quantity::Unit;
use crate::report::{Report, Unknown, lower_first};
use crate::sentence::{Piece, Sentence};
use crate::show::{self, System};
use crate::spec::{Choice, Kind, Place, Sense, Verdict};
use crate::tools::dial::{Stop, apart, most};

/// One value of the input.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// SI, or a choice's ordinal.
    pub at: f64,
    /// Each output asked for, or why there is none.
    pub values: Vec<Result<f64, Unknown>>,
    /// What hangs on the input and is past a limit or not known here.
    pub stops: Vec<Stop>,
}

/// Values of the input with everything that hangs on it inside its limits: from the first to the last such point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Lowest and highest, SI.
    pub ends: [f64; 2],
    /// What stops it below and above; none where the range ends.
    pub stopped_by: [Option<Place>; 2],
}

/// What a sweep found.
#[derive(Clone, Debug, PartialEq)]
pub struct Swept {
    /// The input.
    pub input: Place,
    /// Its value in the build, SI.
    pub present: Option<f64>,
    /// The outputs asked for.
    pub outputs: Vec<Place>,
    /// Rising.
    pub points: Vec<Point>,
    /// Rising.
    pub bands: Vec<Band>,
    /// Past a limit or not known whatever the input is.
    pub anyway: Vec<Stop>,
}

/// An axis for a place that holds a quantity.
pub(super) fn axis(layout: &Layout, place: Place) -> Option<Axis> {
    match layout.kind(place.id) {
        Kind::Quantity { dimension, unit } => Some(Axis { label: layout.spec(place.id).label.into(), dimension, unit }),
        Kind::Choice(_) | Kind::Text(_) => None,
    }
}

pub(super) fn bands(points: &[Point]) -> Vec<Band> {
    let mut bands: Vec<Band> = Vec::new();
    let mut before: Option<&Point> = None;
    for point in points {
        let first = |point: &Point| point.stops.first().map(|stop| stop.place);
        match (first(point), before.map(first)) {
            (None, Some(None)) => {
                if let Some(band) = bands.last_mut() {
                    band.ends[1] = point.at;
                }
            }
            (None, stopped) => bands.push(Band { ends: [point.at; 2], stopped_by: [stopped.flatten(), None] }),
            (Some(by), Some(None)) => {
                if let Some(band) = bands.last_mut() {
                    band.stopped_by[1] = Some(by);
                }
            }
            (Some(_), _) => {}
        }
        before = Some(point);
    }
    bands
}

impl Swept {
    /// An output's curve: SI points, none where there is no answer.
    #[must_use]
    pub fn curve(&self, output: usize) -> Vec<(f64, Option<f64>)> {
        self.points.iter().map(|point| (point.at, point.values.get(output).and_then(|value| value.ok()))).collect()
    }

    /// Stretches in which an output has no answer, with the reason: from the first to the last point without.
    #[must_use]
    pub fn gaps(&self, output: usize) -> Vec<([f64; 2], Unknown)> {
        let mut gaps: Vec<([f64; 2], Unknown)> = Vec::new();
        let mut open = false;
        for point in &self.points {
            match (point.values.get(output), gaps.last_mut()) {
                (Some(Err(why)), Some((ends, same))) if open && *same == *why => ends[1] = point.at,
                (Some(Err(why)), _) => {
                    gaps.push(([point.at; 2], *why));
                    open = true;
                }
                _ => open = false,
            }
        }
        gaps
    }

    /// `From 132 mm to 158 mm everything that hangs on it is within limits; above, pump at highest stops it.`
    #[must_use]
    pub fn finding(&self, build: &Build) -> Sentence {
        let kind = build.layout().spec(self.input.id).kind;
        let mut pieces = match (kind, most(self.points.iter().map(|point| &point.stops))) {
            _ if self.points.is_empty() => Vec::new(),
            (_, Some((by, throughout))) if self.bands.is_empty() => vec![nowhere(build, kind, by, throughout).into()],
            (Kind::Choice(choices), _) => vec![self.choices(build, choices).into()],
            (Kind::Quantity { unit, .. }, _) => self.between(build, unit),
            (Kind::Text(_), _) => Vec::new(),
        };
        pieces.push(apart(build, "it", &self.anyway).into());
        let present = self.present.and_then(|present| self.points.iter().find(|point| point.at == present));
        let stopped = present.is_some_and(|point| !point.stops.is_empty());
        Sentence { verdict: if stopped { Verdict::Beyond } else { Verdict::Within }, pieces }
    }

    fn between(&self, build: &Build, unit: &'static Unit) -> Vec<Piece> {
        // Bands are as fine as their points lie: three digits, not the input's own.
        let at = |value: f64| Piece::figure(value, unit);
        let label = |place: Place| lower_first(&show::label(build, place));
        let mut pieces: Vec<Piece> = Vec::new();
        for (place, band) in self.bands.iter().enumerate() {
            let [low, high] = band.ends;
            pieces.push(if place == 0 { "From ".into() } else { "; from ".into() });
            pieces.extend([at(low), " to ".into(), at(high)]);
            if place == 0 {
                pieces.push(" everything that hangs on it is within limits".into());
            }
            for (by, side) in band.stopped_by.into_iter().zip([", below stopped by ", ", above stopped by "]) {
                if let Some(by) = by {
                    pieces.extend([side.into(), label(by).into()]);
                }
            }
        }
        pieces.push(".".into());
        pieces
    }

    /// Choices have no order: each by its name, and of those that do not do, what stops them.
    fn choices(&self, build: &Build, choices: &[Choice]) -> String {
        let named = |points: &mut dyn Iterator<Item = &Point>| {
            let label = |point: &Point| choices.get(point.at as usize).map(|choice| choice.label);
            points.filter_map(label).collect::<Vec<_>>().join("; ")
        };
        let stop = |point: &Point| point.stops.first().copied();
        if self.points.iter().all(|point| point.stops.is_empty()) {
            return "With each of them everything that hangs on it is within limits.".into();
        }
        let good = named(&mut self.points.iter().filter(|point| point.stops.is_empty()));
        let mut said = format!("Everything that hangs on it is within limits with {good}.");
        let mut stops: Vec<Stop> = self.points.iter().filter_map(stop).collect();
        stops.order_by(Ord::cmp);
        stops.dedup();
        for by in stops {
            let its = named(&mut self.points.iter().filter(|point| stop(point) == Some(by)));
            let label = show::label(build, by.place);
            said.push_str(&if by.unknown {
                format!(" {label} is not known with {its}.")
            } else {
                format!(" {label} is past its limit with {its}.")
            });
        }
        said
    }

    /// The chart of one output, its limits drawn in where they do not move with the input, over the curve of what is
    /// fitted if there is one.
    #[must_use]
    pub fn chart(&self, plan: &Plan, build: &Build, report: &Report, output: usize, fitted: Option<&Self>) -> Option<Chart> {
        let place = *self.outputs.get(output)?;
        let layout = build.layout();
        let still = |mark: &Place| mark.id != self.input.id && !plan.feeds(self.input.id, mark.id);
        let edges = layout.spec(place.id).limits.iter().flatten().filter_map(|limit| {
            let mark = layout.beside(limit.beyond, place);
            let at = report.value(mark).ok().filter(|_| still(&mark))?;
            Some(Edge { label: layout.spec(limit.beyond).label.into(), at, above: limit.sense == Sense::AtMost })
        });
        let curve = |swept: &Self, dashed: bool| Curve {
            label: if dashed { "as fitted".into() } else { show::label(build, place) },
            points: swept.curve(output),
            dashed,
        };
        let fitted = fitted.into_iter().map(|swept| curve(swept, true));
        Some(Chart {
            title: show::label(build, place),
            finding: show::sentence(&self.finding(build), System::Metric),
            curves: fitted.chain([curve(self, false)]).collect(),
            edges: edges.collect(),
            present: self.present,
            bands: self.bands.iter().map(|band| (band.ends[0], band.ends[1])).collect(),
            ..Chart::on(axis(layout, self.input)?, axis(layout, place)?)
        })
    }
}

/// No value does.
fn nowhere(build: &Build, kind: Kind, by: Stop, throughout: bool) -> String {
    let label = lower_first(&show::label(build, by.place));
    let (is, can) = match kind {
        Kind::Choice(_) => ("With none of them is", "With none of them can"),
        _ => ("Nowhere in this range is", "Nowhere in this range can"),
    };
    match (by.unknown, throughout) {
        (true, _) => format!("{can} it be told whether everything that hangs on it is within limits: {label} is not known."),
        (false, true) => format!("{is} everything that hangs on it within limits: {label} is past its limit throughout."),
        (false, false) => format!("{is} everything that hangs on it within limits: {label} stops most of it."),
    }
}
