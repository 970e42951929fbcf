//! Curves over an input, computed when shown.

use crate::quantity::{Dimension, Unit};
use crate::spec::Place;
use std::borrow::Cow;

/// What the value and the point of what is fitted are called.
pub const FITTED: &str = "fitted";

/// An axis: what it is, and the metric unit it is shown in.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// In words.
    pub label: Cow<'static, str>,
    /// Kind of quantity.
    pub dimension: &'static Dimension,
    /// Unit on the metric screen.
    pub unit: &'static Unit,
}

/// One curve. A gap stands where there is no answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Written on the curve.
    pub label: String,
    /// SI points; none is a gap.
    pub points: Vec<(f64, Option<f64>)>,
    /// Dashed: what is fitted, or the reference, beside what is on trial.
    pub dashed: bool,
}

/// A limit, drawn as a hatched edge across the chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// What it is called.
    pub label: String,
    /// SI number on the y axis.
    pub at: f64,
    /// The hatched, forbidden side is above (else below).
    pub above: bool,
}

/// A point that can be taken with a tap: it sets inputs.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// SI x and y.
    pub at: (f64, f64),
    /// What it is, in words.
    pub label: String,
    /// Inside every limit.
    pub good: bool,
    /// Stands in the build now.
    pub present: bool,
    /// Inputs it sets, SI.
    pub sets: Vec<(Place, f64)>,
}

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// What it shows, in a few words.
    pub title: String,
    /// The finding in a sentence: the band that suits, or why there is none.
    pub finding: String,
    /// Across.
    pub x: Axis,
    /// Up.
    pub y: Axis,
    /// Curves.
    pub curves: Vec<Curve>,
    /// Limits.
    pub edges: Vec<Edge>,
    /// Points to take.
    pub spots: Vec<Spot>,
    /// The present value of the input along x, SI.
    pub present: Option<f64>,
    /// The fitted value of that input, SI, where another is on trial.
    pub fitted: Option<f64>,
    /// Bands of x, SI, in which everything drawn is inside its limits.
    pub bands: Vec<(f64, f64)>,
}

/// Curves no further apart than this share of their greatest value look like one.
const ALIKE: f64 = 0.005;

impl Curve {
    /// What it says (SI) at a place (SI) between its points, straight from one to the next; none in a gap or beyond its
    /// ends.
    #[must_use]
    pub fn at(&self, x: f64) -> Option<f64> {
        let found = self.points.windows(2).find_map(|pair| {
            let ((left, low), (right, high)) = (pair[0], pair[1]);
            let inside = left.min(right) <= x && x <= left.max(right) && left != right;
            let (low, high) = (low?, high?);
            inside.then(|| low + (high - low) * (x - left) / (right - left))
        });
        found.or_else(|| self.points.iter().find(|point| point.0 == x)?.1)
    }

    /// Whether it looks like another wherever both say something, which they do somewhere.
    fn is_like(&self, other: &Self) -> bool {
        let most = other.points.iter().filter_map(|point| point.1).fold(0.0_f64, |most, y| most.max(y.abs()));
        let mut both = other.points.iter().filter_map(|&(x, y)| Some((self.at(x)?, y?))).peekable();
        both.peek().is_some() && both.all(|(own, y)| (own - y).abs() <= ALIKE * most)
    }
}

impl Chart {
    /// Over these axes, with nothing in it yet.
    #[must_use]
    pub fn on(x: Axis, y: Axis) -> Self {
        Self {
            title: String::new(),
            finding: String::new(),
            x,
            y,
            curves: Vec::new(),
            edges: Vec::new(),
            spots: Vec::new(),
            present: None,
            fitted: None,
            bands: Vec::new(),
        }
    }

    /// With what is `fitted` under it, where it differs: its curves dashed, its value and its point marked.
    #[must_use]
    pub fn beside(mut self, fitted: &Self) -> Self {
        let own = core::mem::take(&mut self.curves);
        for was in &fitted.curves {
            let same = |curve: &Curve| curve.label == was.label && curve.is_like(was);
            // One without a name is a border.
            if !was.dashed && !was.label.is_empty() && !own.iter().any(same) {
                self.curves.push(Curve { label: format!("{}, {FITTED}", was.label), points: was.points.clone(), dashed: true });
            }
        }
        self.curves.extend(own);
        self.fitted = fitted.present.filter(|_| fitted.present != self.present);
        let stands = |chart: &Self| chart.spots.iter().position(|spot| spot.present);
        if let Some(was) = stands(fitted).map(|at| &fitted.spots[at])
            && stands(&self).is_none_or(|at| self.spots[at].at != was.at)
        {
            self.spots.push(Spot { at: was.at, label: FITTED.into(), good: was.good, present: false, sets: Vec::new() });
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Ratio;
    use crate::quantity::unit::ONE;
    use crate::spec::Id;

    fn curve(label: &str, points: &[(f64, f64)]) -> Curve {
        Curve { label: label.into(), points: points.iter().map(|&(x, y)| (x, Some(y))).collect(), dashed: false }
    }

    fn spot(x: f64, present: bool) -> Spot {
        let sets = vec![(Place::from(Id { calculator: 0, ordinal: 0 }), x)];
        Spot { at: (x, 1.0), label: String::new(), good: true, present, sets }
    }

    fn chart(curves: Vec<Curve>, spots: Vec<Spot>, present: f64) -> Chart {
        let axis = Axis { label: Cow::Borrowed(""), dimension: Ratio::DIMENSION, unit: ONE };
        Chart { curves, spots, present: Some(present), ..Chart::on(axis.clone(), axis) }
    }

    #[test]
    fn what_is_fitted_is_shown_where_it_differs_and_nowhere_else() {
        let line = |rise: f64| [(0.0, 0.0), (4.0, 4.0 * rise)];
        // The same line by other points, one that is steeper, a border.
        let known = curve("gone", &line(1.0));
        let fitted = vec![curve("level", &[(1.0, 1.0), (2.0, 2.0), (6.0, 6.0)]), curve("steep", &line(2.0)), curve("", &line(9.0)), known];
        // What is not known on trial is not alike.
        let on_trial = vec![curve("level", &line(1.0)), curve("steep", &line(3.0)), curve("gone", &[])];
        let both = chart(on_trial, vec![spot(1.0, false), spot(2.0, true)], 2.0).beside(&chart(
            fitted,
            vec![spot(1.0, true), spot(2.0, false)],
            1.0,
        ));
        let named: Vec<(&str, bool)> = both.curves.iter().map(|curve| (curve.label.as_str(), curve.dashed)).collect();
        assert_eq!(named, [("steep, fitted", true), ("gone, fitted", true), ("level", false), ("steep", false), ("gone", false)]);
        assert_eq!(both.fitted, Some(1.0));
        let mark = both.spots.last().unwrap();
        assert_eq!((mark.at, mark.label.as_str(), mark.present, mark.sets.len()), ((1.0, 1.0), FITTED, false, 0));
    }

    #[test]
    fn beside_itself_a_chart_stays_as_it_is() {
        let one = chart(vec![curve("level", &[(0.0, 1.0), (1.0, 1.0)])], vec![spot(1.0, true)], 1.0);
        assert_eq!(one.clone().beside(&one), one);
    }

    #[test]
    fn a_curve_is_read_between_its_points_and_not_in_gaps() {
        let broken =
            Curve { label: String::new(), points: vec![(0.0, Some(0.0)), (1.0, Some(2.0)), (2.0, None), (3.0, Some(6.0))], dashed: false };
        assert_eq!([0.5, 1.0, 1.5, 3.0, 4.0].map(|x| broken.at(x)), [Some(1.0), Some(2.0), None, Some(6.0), None]);
    }
}
