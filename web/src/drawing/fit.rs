//! From millimetres of the real thing to pixels of the frame.

use crate::picture::{At, Frame};
use trialfit_core::scene::{Point, Scene, Shape};

/// A scale and where zero stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Fit {
    /// Pixels to a millimetre.
    scale: f64,
    /// The same upwards, more where rows of a list would else stand too near to one another.
    rise: f64,
    zero: At,
}

/// Most pixels to a millimetre: a drawing of one small thing is not blown up without end.
const MOST: f64 = 40.0;

impl Fit {
    /// As large as the frame allows, in its middle, with these margins left, top, right and bottom; stretched upwards to
    /// the `least_rise` if there is room.
    pub(crate) fn new(shown: Extent, frame: Frame, margins: [f64; 4], least_rise: f64) -> Self {
        let [left, top, right, bottom] = margins;
        let (width, height) = ((frame.width - left - right).max(1.0), (frame.height - top - bottom).max(1.0));
        let (across, up) = (shown.most.x - shown.least.x, shown.most.y - shown.least.y);
        let tallest = height / up.max(1e-6);
        let scale = (width / across.max(1e-6)).min(tallest).min(MOST);
        let rise = scale.max(least_rise.min(tallest));
        let zero =
            At::new(left + (width - across * scale) / 2.0 - shown.least.x * scale, top + (height + up * rise) / 2.0 + shown.least.y * rise);
        Self { scale, rise, zero }
    }

    pub(crate) fn at(self, point: Point) -> At {
        At::new(self.zero.x + point.x * self.scale, self.zero.y - point.y * self.rise)
    }

    pub(crate) fn pixels(self, millimetres: f64) -> f64 {
        millimetres * self.scale
    }

    /// A way on the screen in millimetres, y up.
    pub(crate) fn millimetres(self, way: At) -> Point {
        Point { x: way.x / self.scale, y: -way.y / self.rise }
    }
}

/// Where a drawing begins and ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Extent {
    least: Point,
    most: Point,
}

impl Extent {
    /// Of everything in a scene but its words, whose size does not follow the scale.
    pub(crate) fn of(scene: &Scene) -> Self {
        let mut all =
            Self { least: Point { x: f64::INFINITY, y: f64::INFINITY }, most: Point { x: f64::NEG_INFINITY, y: f64::NEG_INFINITY } };
        for shape in &scene.shapes {
            corners(shape).into_iter().for_each(|point| all.take(point));
        }
        scene.handles.iter().for_each(|handle| all.take(handle.at));
        let known = all.least.x.is_finite() && all.least.y.is_finite();
        if known { all } else { Self { least: Point { x: 0.0, y: 0.0 }, most: Point { x: 1.0, y: 1.0 } } }
    }

    /// Whether it is so much wider than high that a narrow screen leaves height over. A drawing that `was` stays so for a
    /// little longer: the page must not jump to and fro while something is dragged.
    pub(crate) fn is_wide(self, was: bool) -> bool {
        let (across, up) = (self.most.x - self.least.x, self.most.y - self.least.y);
        across > up * if was { 1.1 } else { 1.2 }
    }

    fn take(&mut self, point: Point) {
        if point.x.is_finite() && point.y.is_finite() {
            self.least = Point { x: self.least.x.min(point.x), y: self.least.y.min(point.y) };
            self.most = Point { x: self.most.x.max(point.x), y: self.most.y.max(point.y) };
        }
    }
}

/// A point of a circle.
fn on_circle(centre: Point, radius: f64, angle: f64) -> Point {
    let (sine, cosine) = libm::sincos(angle);
    Point { x: centre.x + radius * cosine, y: centre.y + radius * sine }
}

/// Points an arc passes, close enough to one another to stand for it.
pub(crate) fn arc_points(centre: Point, radius: f64, from: f64, sweep: f64) -> Vec<Point> {
    let steps = (sweep.abs() * 6.0).ceil().clamp(2.0, 48.0);
    (0..=steps as usize).map(|step| on_circle(centre, radius, from + sweep * step as f64 / steps)).collect()
}

/// Points that span a shape.
pub(crate) fn corners(shape: &Shape) -> Vec<Point> {
    match shape {
        Shape::Path { points, .. } => points.clone(),
        Shape::Circle { centre, radius, .. } => arc_points(*centre, *radius, 0.0, core::f64::consts::TAU),
        Shape::Arc { centre, radius, from, sweep, .. } => arc_points(*centre, *radius, *from, *sweep),
        Shape::Dimension { from, to, offset, .. } => {
            let (x, y) = (to.x - from.x, to.y - from.y);
            let length = (x * x + y * y).sqrt();
            let (left, up) = if length > 0.0 { (-y / length * offset, x / length * offset) } else { (0.0, 0.0) };
            vec![*from, *to, Point { x: from.x + left, y: from.y + up }, Point { x: to.x + left, y: to.y + up }]
        }
        Shape::Label { at, .. } => vec![*at],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::scene::Pen;

    fn scene(shapes: Vec<Shape>) -> Scene {
        Scene { title: String::new(), description: String::new(), shapes, handles: Vec::new(), rows: None }
    }

    const FRAME: Frame = Frame { width: 340.0, height: 240.0, em: 13.0 };

    #[test]
    fn a_circle_fills_the_lesser_side_and_stands_in_the_middle() {
        let circle = Shape::Circle { centre: Point { x: 1000.0, y: -500.0 }, radius: 50.0, pen: Pen::Outline };
        let fit = Fit::new(Extent::of(&scene(vec![circle])), FRAME, [20.0; 4], 0.0);
        assert!((fit.pixels(1.0) - 2.0).abs() < 0.01, "200 px of height for 100 mm: {}", fit.pixels(1.0));
        let centre = fit.at(Point { x: 1000.0, y: -500.0 });
        assert!((centre - At::new(170.0, 120.0)).length() < 1.0, "{centre:?}");
        assert!(fit.at(Point { x: 1000.0, y: -450.0 }).y < centre.y, "y is up");
    }

    #[test]
    fn rows_are_spread_as_far_as_there_is_room() {
        let wide = Extent { least: Point { x: 0.0, y: 0.0 }, most: Point { x: 300.0, y: 100.0 } };
        let step = |least_rise| {
            let fit = Fit::new(wide, FRAME, [20.0; 4], least_rise);
            [fit.pixels(1.0), fit.at(Point { x: 0.0, y: 0.0 }).y - fit.at(Point { x: 0.0, y: 1.0 }).y]
        };
        let near = |found: [f64; 2], wanted: [f64; 2]| assert!(found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-9), "{found:?}");
        near(step(0.5), [1.0, 1.0]);
        near(step(1.5), [1.0, 1.5]);
        near(step(9.0), [1.0, 2.0]);
    }

    #[test]
    fn a_way_on_the_screen_leads_back_to_millimetres() {
        let line = Shape::Path {
            points: vec![Point { x: 0.0, y: 0.0 }, Point { x: 600.0, y: 0.0 }],
            closed: false,
            hatched: false,
            pen: Pen::Thin,
        };
        let fit = Fit::new(Extent::of(&scene(vec![line])), FRAME, [20.0; 4], 0.0);
        assert_eq!(fit.millimetres(At::new(10.0, -5.0)), Point { x: 20.0, y: 10.0 });
    }

    #[test]
    fn wide_stays_wide_for_a_little_longer() {
        let box_of = |width: f64| {
            let points = vec![Point { x: 0.0, y: 0.0 }, Point { x: width, y: 100.0 }];
            Extent::of(&scene(vec![Shape::Path { points, closed: false, hatched: false, pen: Pen::Thin }]))
        };
        assert!(box_of(130.0).is_wide(false) && !box_of(115.0).is_wide(false));
        assert!(box_of(115.0).is_wide(true) && !box_of(105.0).is_wide(true));
    }

    #[test]
    fn nothing_to_show_is_no_disaster() {
        let fit = Fit::new(Extent::of(&scene(Vec::new())), FRAME, [200.0; 4], 0.0);
        assert!(fit.at(Point { x: 0.0, y: 0.0 }).x.is_finite() && fit.pixels(1.0) > 0.0);
    }

    #[test]
    fn a_dimension_stands_to_the_left_of_its_way() {
        let dimension = Shape::Dimension {
            from: Point { x: 0.0, y: 0.0 },
            to: Point { x: 10.0, y: 0.0 },
            offset: 4.0,
            label: Vec::new(),
            pen: Pen::Thin,
        };
        assert!(corners(&dimension).contains(&Point { x: 10.0, y: 4.0 }), "above a way to the right");
    }
}
