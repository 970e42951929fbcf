//! Where the flywheel's numbers are measured.

use super::{
    BOLT_CIRCLE, BORE, HOLE_CIRCLE, HOLE_DEPTH, HOLE_DIAMETER, OUTER, RING_FROM, RING_INNER, RING_OUTER, RING_WIDTH, STRING_LENGTH,
    SWING_RADIUS,
};
use crate::measure::Sketch;
use crate::measure::Stroke::{Circle, Cut, Input, Line, Round, Words};
use crate::scene::Anchor::Start;
use crate::scene::Pen::{Axis, Hidden, Outline, Thin};

pub(super) static WHEEL: Sketch = Sketch {
    title: "Wheel from the front",
    strokes: &[
        Circle(Thin, (0.0, 0.0), 106.0),
        Circle(Outline, (0.0, 0.0), 100.0),
        Circle(Outline, (0.0, 0.0), 18.0),
        Circle(Axis, (0.0, 0.0), 40.0),
        Circle(Outline, (40.0, 0.0), 6.0),
        Circle(Outline, (-40.0, 0.0), 6.0),
        Circle(Outline, (0.0, 40.0), 6.0),
        Circle(Outline, (0.0, -40.0), 6.0),
        Input(OUTER.id, (-106.0, 0.0), (106.0, 0.0), 122.0),
        Input(BOLT_CIRCLE.id, (-40.0, 0.0), (40.0, 0.0), 62.0),
        Input(BORE.id, (-18.0, 0.0), (18.0, 0.0), -62.0),
    ],
};

pub(super) static RING: Sketch = Sketch {
    title: "One ring, cut through the axis",
    strokes: &[
        Line(Axis, &[(-20.0, 0.0), (70.0, 0.0)]),
        Line(Hidden, &[(0.0, -76.0), (0.0, 76.0)]),
        Cut(&[(14.0, 30.0), (46.0, 30.0), (46.0, 60.0), (14.0, 60.0)]),
        Cut(&[(14.0, -60.0), (46.0, -60.0), (46.0, -30.0), (14.0, -30.0)]),
        Words("crank's face", (-4.0, -70.0), crate::scene::Anchor::End),
        Input(RING_OUTER.id, (46.0, -60.0), (46.0, 60.0), -44.0),
        Input(RING_INNER.id, (46.0, -30.0), (46.0, 30.0), -18.0),
        Input(RING_FROM.id, (0.0, 60.0), (14.0, 60.0), 16.0),
        Input(RING_WIDTH.id, (14.0, -60.0), (46.0, -60.0), -16.0),
    ],
};

pub(super) static HOLES: Sketch = Sketch {
    title: "Holes on their circle, and one cut through",
    strokes: &[
        Circle(Outline, (0.0, 0.0), 80.0),
        Circle(Axis, (0.0, 0.0), 56.0),
        Circle(Outline, (0.0, 56.0), 12.0),
        Circle(Outline, (0.0, -56.0), 12.0),
        Circle(Outline, (56.0, 0.0), 12.0),
        Circle(Outline, (-56.0, 0.0), 12.0),
        Cut(&[(120.0, 40.0), (150.0, 40.0), (150.0, 12.0), (130.0, 12.0), (130.0, -12.0), (150.0, -12.0), (150.0, -40.0), (120.0, -40.0)]),
        Input(HOLE_CIRCLE.id, (-56.0, 0.0), (56.0, 0.0), 94.0),
        Input(HOLE_DIAMETER.id, (150.0, -12.0), (150.0, 12.0), -18.0),
        Input(HOLE_DEPTH.id, (130.0, 40.0), (150.0, 40.0), 14.0),
    ],
};

pub(super) static SWING: Sketch = Sketch {
    title: "Wheel on its strings",
    strokes: &[
        Cut(&[(-60.0, 150.0), (60.0, 150.0), (60.0, 160.0), (-60.0, 160.0)]),
        Line(Outline, &[(-44.0, 150.0), (-44.0, 0.0)]),
        Line(Outline, &[(44.0, 150.0), (44.0, 0.0)]),
        Round(Outline, &[(-64.0, -12.0), (64.0, -12.0), (64.0, 0.0), (-64.0, 0.0)]),
        Line(Axis, &[(0.0, 60.0), (0.0, -24.0)]),
        Words("twist and let go", (6.0, 50.0), Start),
        Input(STRING_LENGTH.id, (44.0, 0.0), (44.0, 150.0), -34.0),
        Input(SWING_RADIUS.id, (0.0, -12.0), (44.0, -12.0), -16.0),
    ],
};
