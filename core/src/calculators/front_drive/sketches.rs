//! Where the front drive's numbers are measured.

use super::{LINE_DIFFERENCE, OFFSET, RIB_TENSION, X, Y};
use crate::measure::Sketch;
use crate::measure::Stroke::{Asked, Circle, Cut, Input, Line, Part, Round, Words};
use crate::scene::Anchor::Start;
use crate::scene::Pen::{Axis, Heavy, Hidden, Outline, Thin};

pub(super) static PULLEY: Sketch = Sketch {
    title: "Grooved pulley, cut through the axis",
    strokes: &[
        Cut(&[
            (0.0, 20.0),
            (0.0, 70.0),
            (5.0, 70.0),
            (5.0, 60.0),
            (9.0, 52.0),
            (13.0, 60.0),
            (17.0, 52.0),
            (21.0, 60.0),
            (25.0, 52.0),
            (29.0, 60.0),
            (29.0, 70.0),
            (34.0, 70.0),
            (34.0, 20.0),
        ]),
        Cut(&[
            (0.0, -20.0),
            (0.0, -70.0),
            (5.0, -70.0),
            (5.0, -60.0),
            (9.0, -52.0),
            (13.0, -60.0),
            (17.0, -52.0),
            (21.0, -60.0),
            (25.0, -52.0),
            (29.0, -60.0),
            (29.0, -70.0),
            (34.0, -70.0),
            (34.0, -20.0),
        ]),
        Line(Axis, &[(-20.0, 0.0), (70.0, 0.0)]),
        Line(Hidden, &[(-2.0, 64.0), (36.0, 64.0)]),
        Asked((29.0, -60.0), (29.0, 60.0), -34.0),
        Words("over the ribs", (76.0, 60.0), Start),
        Words("not the lip", (40.0, -76.0), Start),
    ],
};

pub(super) static CORD: Sketch = Sketch {
    title: "Belt on its pulley, cut through",
    strokes: &[
        Cut(&[(0.0, 0.0), (0.0, 20.0), (12.0, 20.0), (17.0, 8.0), (22.0, 20.0), (27.0, 8.0), (32.0, 20.0), (44.0, 20.0), (44.0, 0.0)]),
        Round(
            Outline,
            &[(8.0, 36.0), (36.0, 36.0), (36.0, 20.0), (32.0, 20.0), (27.0, 9.0), (22.0, 20.0), (17.0, 9.0), (12.0, 20.0), (8.0, 20.0)],
        ),
        Line(Axis, &[(0.0, 28.0), (56.0, 28.0)]),
        Words("cord", (-2.0, 28.0), crate::scene::Anchor::End),
        Input(LINE_DIFFERENCE.id, (44.0, 20.0), (44.0, 28.0), -16.0),
    ],
};

pub(super) static PLACE: Sketch = Sketch {
    title: "Pulleys from the front",
    strokes: &[
        Circle(Outline, (0.0, 0.0), 34.0),
        Circle(Outline, (90.0, 70.0), 20.0),
        Line(Axis, &[(-42.0, 0.0), (112.0, 0.0)]),
        Line(Axis, &[(90.0, -10.0), (90.0, 98.0)]),
        Words("crank", (0.0, 0.0), crate::scene::Anchor::Middle),
        Input(X.id, (0.0, 0.0), (90.0, 0.0), -48.0),
        Input(Y.id, (90.0, 0.0), (90.0, 70.0), -30.0),
    ],
};

pub(super) static IN_LINE: Sketch = Sketch {
    title: "Pulleys from above, the crank's on the left",
    strokes: &[
        Round(Outline, &[(0.0, 0.0), (60.0, 0.0), (60.0, 26.0), (0.0, 26.0)]),
        Round(Outline, &[(90.0, -10.0), (130.0, -10.0), (130.0, 16.0), (90.0, 16.0)]),
        Line(Thin, &[(-6.0, 0.0), (150.0, 0.0)]),
        Words("straight edge", (20.0, -8.0), Start),
        Input(OFFSET.id, (130.0, -10.0), (130.0, 0.0), -16.0),
    ],
};

pub(super) static SPAN: Sketch = Sketch {
    title: "One span of the belt",
    strokes: &[
        Circle(Outline, (0.0, 0.0), 30.0),
        Circle(Outline, (140.0, 0.0), 30.0),
        Line(Heavy, &[(0.0, 30.0), (140.0, 30.0)]),
        Line(Hidden, &[(0.0, 30.0), (70.0, 38.0), (140.0, 30.0), (70.0, 22.0), (0.0, 30.0)]),
        Part(RIB_TENSION.id, "span: pluck its middle", (0.0, 30.0), (140.0, 30.0), 22.0),
    ],
};
