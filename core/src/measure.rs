//! How a number is taken from the car: guides that lead through it, and sketches that name what to measure.

use crate::calculators::ALL;
use crate::order::Order;
use crate::quantity::Time;
use crate::scene::{Anchor, Pen, Point, Scene, Shape};
use crate::spec::{Id, Spec, TableId};

/// A measurement that is led through step by step.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Guide {
    /// A stopwatch over so many swings.
    Stopwatch {
        /// Input: swings counted.
        count: Id,
        /// Input: time for them all.
        time: Id,
        /// Input: how far that time may be off.
        doubt: Id,
    },
    /// A tone to compare with the plucked belt's.
    Tone,
    /// The numbers of a table one by one, row after row: every column that names this guide.
    Walk(TableId),
}

/// One stroke of a sketch. Lengths are the sketch's own; only their proportions matter.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Stroke {
    /// A chain of lines.
    Line(Pen, &'static [(f64, f64)]),
    /// A closed outline.
    Round(Pen, &'static [(f64, f64)]),
    /// Metal that is cut: a closed outline, hatched.
    Cut(&'static [(f64, f64)]),
    /// A circle by its centre and radius.
    Circle(Pen, (f64, f64), f64),
    /// The dimension that is an input: from, to, and how far to the left of that way its line stands.
    Input(Id, (f64, f64), (f64, f64), f64),
    /// The dimension that is whichever input is asked for, where the sketch serves several.
    Asked((f64, f64), (f64, f64), f64),
    /// A dimension that an input is made of, in words.
    Part(Id, &'static str, (f64, f64), (f64, f64), f64),
    /// Words at a point.
    Words(&'static str, (f64, f64), Anchor),
}

/// A small drawing, not to scale, of where a number is measured.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Sketch {
    /// What it shows.
    pub title: &'static str,
    /// Its strokes.
    pub strokes: &'static [Stroke],
}

impl Sketch {
    /// The sketch as a drawing, with the dimension of input `asked` in the accent.
    #[must_use]
    pub fn scene(&self, asked: Id) -> Scene {
        let named = self.strokes.iter().filter_map(|stroke| stroke.named(asked)).collect::<Vec<_>>().join(", ");
        Scene {
            title: self.title.to_owned(),
            description: format!("Where to measure: {named}. Not to scale."),
            shapes: self.strokes.iter().map(|stroke| stroke.shape(asked)).collect(),
            handles: Vec::new(),
            rows: None,
        }
    }

    /// Whether this input is one of its dimensions.
    #[must_use]
    pub fn shows(&self, input: Id) -> bool {
        self.strokes.iter().any(|stroke| match stroke {
            Stroke::Input(id, ..) | Stroke::Part(id, ..) => *id == input,
            _ => matches!(stroke, Stroke::Asked(..)),
        })
    }
}

fn spec(id: Id) -> Option<&'static Spec> {
    ALL.get(usize::from(id.calculator))?.specs.get(usize::from(id.ordinal))
}

impl Stroke {
    fn named(&self, asked: Id) -> Option<&'static str> {
        match self {
            Self::Input(id, ..) => spec(*id).map(|spec| spec.label),
            Self::Asked(..) => spec(asked).map(|spec| spec.label),
            Self::Part(_, words, ..) => Some(words),
            _ => None,
        }
    }

    fn shape(&self, asked: Id) -> Shape {
        let point = |&(x, y): &(f64, f64)| Point { x, y };
        let path =
            |points: &[(f64, f64)], closed, hatched, pen| Shape::Path { points: points.iter().map(point).collect(), closed, hatched, pen };
        let dimension = |id: Id, from, to, offset: f64| {
            let label = vec![self.named(asked).unwrap_or_default().into()];
            let pen = if id == asked { Pen::Changing } else { Pen::Thin };
            Shape::Dimension { from: point(from), to: point(to), offset, label, pen }
        };
        match self {
            Self::Line(pen, points) => path(points, false, false, *pen),
            Self::Round(pen, points) => path(points, true, false, *pen),
            Self::Cut(points) => path(points, true, true, Pen::Outline),
            Self::Circle(pen, centre, radius) => Shape::Circle { centre: point(centre), radius: *radius, pen: *pen },
            Self::Input(id, from, to, offset) | Self::Part(id, _, from, to, offset) => dimension(*id, from, to, *offset),
            Self::Asked(from, to, offset) => dimension(asked, from, to, *offset),
            Self::Words(words, at, anchor) => Shape::Label { at: point(at), anchor: *anchor, label: vec![(*words).into()] },
        }
    }
}

/// One count that was timed.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Timing {
    /// Swings, there and back; at least one.
    pub swings: u16,
    /// Time for them all.
    pub time: Time,
}

impl Timing {
    fn period(&self) -> f64 {
        self.time.si() / f64::from(self.swings.max(1))
    }
}

/// What several timings come to for one swing.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Period {
    /// Their mean.
    pub mean: Time,
    /// Its standard uncertainty by their scatter; none from a single one.
    pub doubt: Option<Time>,
}

/// How much further the mean of few may be off than its scatter says: Student's t for 68.27 %, one to nine degrees of freedom
/// (JCGM 100:2008, table G.2, from memory).
const STUDENT: [f64; 9] = [1.84, 1.32, 1.20, 1.14, 1.11, 1.09, 1.08, 1.07, 1.06];

/// Mean and scatter of timings (JCGM 100:2008, 4.2). `None` of none.
#[must_use]
pub fn period(timings: &[Timing]) -> Option<Period> {
    let count = timings.len() as f64;
    let mean = timings.iter().map(Timing::period).sum::<f64>() / count;
    let squares: f64 = timings.iter().map(|timing| (timing.period() - mean) * (timing.period() - mean)).sum();
    let student = STUDENT.get(timings.len().wrapping_sub(2)).copied().unwrap_or(1.0);
    let doubt = (timings.len() > 1).then(|| Time::from_si(student * (squares / (count - 1.0) / count).sqrt()));
    (!timings.is_empty()).then(|| Period { mean: Time::from_si(mean), doubt })
}

/// The timing that differs from the middle one by half a swing or more: somebody probably miscounted.
#[must_use]
pub fn miscounted(timings: &[Timing]) -> Option<usize> {
    let mut periods: Vec<f64> = timings.iter().map(Timing::period).collect();
    periods.order_by(f64::total_cmp);
    let middle = *periods.get(periods.len() / 2)?;
    timings.iter().position(|timing| (timing.time.si() / middle - f64::from(timing.swings)).abs() > 0.5)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spec::Role;

    fn timing(swings: u16, seconds: f64) -> Timing {
        Timing { swings, time: Time::from_si(seconds) }
    }

    #[test]
    fn timings_are_averaged_with_their_scatter() {
        // By hand: mean 2.15 s; deviations −0.01, 0, 0.01; s = 0.01; t = 1.32 for two degrees of freedom.
        let found = period(&[timing(10, 21.4), timing(10, 21.5), timing(20, 43.2)]).expect("some");
        assert!((found.mean.si() - 2.15).abs() < 1e-12);
        assert!((found.doubt.expect("three").si() - 1.32 * 0.01 / 3.0_f64.sqrt()).abs() < 1e-9);
        assert_eq!(period(&[timing(10, 21.4)]).expect("one").doubt, None);
        assert_eq!(period(&[]), None);
    }

    #[test]
    fn a_swing_too_few_is_noticed() {
        let runs = [timing(30, 64.5), timing(30, 62.35), timing(30, 64.7)];
        assert_eq!(miscounted(&runs), Some(1));
        assert_eq!(miscounted(&[runs[0], runs[2]]), None);
        assert_eq!(miscounted(&[]), None);
    }

    #[test]
    fn sketches_and_guides_belong_to_the_inputs_that_name_them() {
        for (calculator, it) in ALL.iter().enumerate() {
            for (ordinal, declared) in it.specs.iter().enumerate() {
                let id = Id { calculator: calculator as u8, ordinal: ordinal as u8 };
                if let Some(sketch) = declared.sketch {
                    assert!(sketch.shows(id), "{} is not in its sketch", declared.label);
                    for stroke in sketch.strokes {
                        if let Stroke::Input(id, ..) = stroke {
                            assert!(spec(*id).is_some_and(|spec| spec.role == Role::Input), "{} measures no input", sketch.title);
                        }
                    }
                }
                if let Some(Guide::Walk(table)) = declared.guide {
                    assert_eq!(declared.table, Some(table), "{} is walked in another table", declared.label);
                }
            }
        }
    }
}
