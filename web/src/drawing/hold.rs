//! A handle that is held: from where, and what its inputs were then.

use super::fit::Fit;
use super::grip::{along, dragged, settled, spec_of};
use crate::picture::At;
use trialfit_core::scene::Point;
use trialfit_core::spec::Place;

/// Way before a press becomes a drag, in pixels.
const START: f64 = 4.0;

/// A gesture under way.
#[derive(Clone, Debug)]
pub(crate) struct Hold {
    /// The pointer that holds it; none when a key does.
    pub(crate) pointer: Option<i32>,
    from: At,
    fit: Option<Fit>,
    /// Inputs at the spot held, with their value at the start and the last one given out.
    inputs: Vec<Held>,
    /// A finger changes one dimension at a time: the one along which it set out.
    one_only: bool,
    moved: bool,
}

#[derive(Clone, Copy, Debug)]
struct Held {
    place: Place,
    per: Point,
    start: f64,
    last: f64,
}

impl Hold {
    /// A pointer took hold at `from` of these inputs: place, change for each millimetre, present value.
    pub(crate) fn new(pointer: i32, from: At, fit: Fit, inputs: impl Iterator<Item = (Place, Point, f64)>, one_only: bool) -> Self {
        let inputs = inputs.map(|(place, per, start)| Held { place, per, start, last: start }).collect();
        Self { pointer: Some(pointer), from, fit: Some(fit), inputs, one_only, moved: false }
    }

    /// A key is held down; it has moved something already.
    pub(crate) fn by_key() -> Self {
        Self { pointer: None, from: At::new(0.0, 0.0), fit: None, inputs: Vec::new(), one_only: false, moved: true }
    }

    /// Whether it is a drag by now.
    pub(crate) fn moved(&self) -> bool {
        self.moved
    }

    /// The pointer is here now: the inputs that change, and to what.
    pub(crate) fn moved_to(&mut self, at: At) -> Vec<(Place, f64)> {
        let Some(fit) = self.fit else { return Vec::new() };
        let way = at - self.from;
        if !self.moved {
            if way.length() < START {
                return Vec::new();
            }
            self.moved = true;
            if self.one_only {
                let along = |held: &Held| along(held.per, way).abs();
                if let Some(one) = self.inputs.iter().copied().max_by(|left, right| along(left).total_cmp(&along(right))) {
                    self.inputs = vec![one];
                }
            }
        }
        let way = fit.millimetres(way);
        let mut changes = Vec::new();
        for held in &mut self.inputs {
            let Some(spec) = spec_of(held.place.id) else { continue };
            let by = dragged(held.per, way);
            // Back at the start stands what stood there, settled or not.
            let value = if by == 0.0 { held.start } else { settled(spec, held.start + by) };
            if value != held.last {
                held.last = value;
                changes.push((held.place, value));
            }
        }
        changes
    }
}

#[cfg(test)]
mod tests {
    use super::super::fit::Extent;
    use super::*;
    use crate::picture::Frame;
    use trialfit_core::calculators::car::{ROLLING_RADIUS, TYRE_WIDTH};
    use trialfit_core::quantity::millimetres;
    use trialfit_core::scene::{Pen, Scene, Shape};

    /// 600 mm over 300 px: two millimetres to a pixel.
    fn fit() -> Fit {
        let points = vec![Point { x: 0.0, y: 0.0 }, Point { x: 600.0, y: 0.0 }];
        let shapes = vec![Shape::Path { points, closed: false, hatched: false, pen: Pen::Thin }];
        let scene = Scene { title: String::new(), description: String::new(), shapes, handles: Vec::new(), rows: None };
        Fit::new(Extent::of(&scene), Frame { width: 340.0, height: 240.0, em: 13.0 }, [20.0; 4], 0.0)
    }

    fn hold(one_only: bool) -> Hold {
        let across = (Place::from(TYRE_WIDTH.id), Point { x: 0.001, y: 0.0 }, millimetres(195.0).si());
        let up = (Place::from(ROLLING_RADIUS.id), Point { x: 0.0, y: 0.001 }, millimetres(280.0).si());
        Hold::new(1, At::new(100.0, 100.0), fit(), [across, up].into_iter(), one_only)
    }

    #[test]
    fn a_mouse_moves_both_dimensions_at_a_spot() {
        let mut hold = hold(false);
        assert!(hold.moved_to(At::new(102.0, 101.0)).is_empty() && !hold.moved(), "not a drag yet");
        let changes = hold.moved_to(At::new(110.0, 95.0));
        let expected = [(Place::from(TYRE_WIDTH.id), millimetres(215.0).si()), (Place::from(ROLLING_RADIUS.id), millimetres(290.0).si())];
        assert_eq!(changes, expected, "20 mm to the right, 10 mm up, in their steps");
        assert!(hold.moved_to(At::new(110.2, 95.1)).is_empty(), "the same step says nothing new");
    }

    #[test]
    fn a_finger_moves_the_one_it_set_out_along() {
        let mut hold = hold(true);
        let up = hold.moved_to(At::new(103.0, 90.0));
        assert_eq!(up, [(Place::from(ROLLING_RADIUS.id), millimetres(300.0).si())]);
        let later = hold.moved_to(At::new(160.0, 90.0));
        assert!(later.is_empty(), "sideways no longer counts");
    }

    #[test]
    fn back_at_the_start_everything_stands_as_before() {
        let mut hold = hold(false);
        hold.moved_to(At::new(150.0, 100.0));
        assert_eq!(hold.moved_to(At::new(100.0, 100.0)), [(Place::from(TYRE_WIDTH.id), millimetres(195.0).si())]);
    }
}
