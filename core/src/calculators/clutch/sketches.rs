//! Where the clutch's numbers are measured.

use super::{
    BEARING_GAP, FACING_INNER, FACING_OUTER, FINGER_CIRCLE, FORK_RATIO, FREE_PLAY, PEDAL_RATIO, PEDAL_TRAVEL, PIVOT_CIRCLE, PLATE_CIRCLE,
    SPRING_CONE, SPRING_INNER, SPRING_OUTER,
};
use crate::measure::Sketch;
use crate::measure::Stroke::{Asked, Circle, Cut, Input, Line, Part, Round};
use crate::scene::Pen::{Axis, Hidden, Outline};

pub(super) static PEDAL: Sketch = Sketch {
    title: "Pedal from the side",
    strokes: &[
        Circle(Outline, (0.0, 100.0), 4.0),
        Line(Outline, &[(0.0, 96.0), (0.0, 0.0)]),
        Round(Outline, &[(-7.0, -12.0), (0.0, -12.0), (0.0, 12.0), (-7.0, 12.0)]),
        Line(Hidden, &[(3.0, 96.0), (55.0, 16.0)]),
        Circle(Outline, (0.0, 78.0), 2.0),
        Line(Outline, &[(2.0, 78.0), (52.0, 78.0)]),
        Round(Outline, &[(52.0, 70.0), (85.0, 70.0), (85.0, 86.0), (52.0, 86.0)]),
        Part(PEDAL_RATIO.id, "A, to the pad", (0.0, 0.0), (0.0, 100.0), 40.0),
        Part(PEDAL_RATIO.id, "B, to the pin", (0.0, 78.0), (0.0, 100.0), 18.0),
        Input(PEDAL_TRAVEL.id, (0.0, 0.0), (55.0, 16.0), -20.0),
        Input(FREE_PLAY.id, (0.0, 30.0), (9.0, 30.0), 8.0),
    ],
};

pub(super) static FORK: Sketch = Sketch {
    title: "Fork from above",
    strokes: &[
        Line(Outline, &[(0.0, 100.0), (0.0, -40.0)]),
        Circle(Outline, (0.0, 45.0), 4.0),
        Line(Axis, &[(-25.0, 100.0), (70.0, 100.0)]),
        Cut(&[(3.0, 104.0), (16.0, 104.0), (16.0, 116.0), (3.0, 116.0)]),
        Cut(&[(3.0, 84.0), (16.0, 84.0), (16.0, 96.0), (3.0, 96.0)]),
        Line(Outline, &[(26.0, 108.0), (40.0, 150.0)]),
        Line(Outline, &[(26.0, 92.0), (40.0, 50.0)]),
        Line(Outline, &[(0.0, -40.0), (40.0, -40.0)]),
        Round(Outline, &[(40.0, -50.0), (80.0, -50.0), (80.0, -30.0), (40.0, -30.0)]),
        Part(FORK_RATIO.id, "A, pivot to rod", (0.0, -40.0), (0.0, 45.0), 24.0),
        Part(FORK_RATIO.id, "B, pivot to bearing", (0.0, 45.0), (0.0, 100.0), 24.0),
        Input(BEARING_GAP.id, (16.0, 116.0), (26.0, 108.0), 24.0),
    ],
};

pub(super) static CYLINDER: Sketch = Sketch {
    title: "Cylinder, cut open",
    strokes: &[
        Cut(&[(0.0, 20.0), (90.0, 20.0), (90.0, 28.0), (0.0, 28.0)]),
        Cut(&[(0.0, -28.0), (90.0, -28.0), (90.0, -20.0), (0.0, -20.0)]),
        Round(Outline, &[(22.0, -20.0), (44.0, -20.0), (44.0, 20.0), (22.0, 20.0)]),
        Line(Outline, &[(-25.0, 0.0), (22.0, 0.0)]),
        Asked((90.0, -20.0), (90.0, 20.0), -16.0),
    ],
};

pub(super) static FACINGS: Sketch = Sketch {
    title: "Driven plate from the front",
    strokes: &[
        Circle(Outline, (0.0, 0.0), 114.0),
        Circle(Outline, (0.0, 0.0), 75.0),
        Circle(Outline, (0.0, 0.0), 12.0),
        Input(FACING_OUTER.id, (-114.0, 0.0), (114.0, 0.0), -132.0),
        Input(FACING_INNER.id, (-75.0, 0.0), (75.0, 0.0), 36.0),
    ],
};

pub(super) static SPRING: Sketch = Sketch {
    title: "Diaphragm spring, cut through the middle",
    strokes: &[
        Line(Outline, &[(-115.0, 0.0), (-22.0, 44.0)]),
        Line(Outline, &[(115.0, 0.0), (22.0, 44.0)]),
        Line(Axis, &[(0.0, -12.0), (0.0, 56.0)]),
        Circle(Outline, (97.0, 12.0), 3.0),
        Circle(Outline, (-97.0, 12.0), 3.0),
        Input(FINGER_CIRCLE.id, (-22.0, 44.0), (22.0, 44.0), 14.0),
        Input(SPRING_INNER.id, (-88.0, 13.0), (88.0, 13.0), 70.0),
        Input(PIVOT_CIRCLE.id, (-97.0, 12.0), (97.0, 12.0), 96.0),
        Input(PLATE_CIRCLE.id, (-112.0, 0.0), (112.0, 0.0), -16.0),
        Input(SPRING_OUTER.id, (-115.0, 0.0), (115.0, 0.0), -40.0),
        Input(SPRING_CONE.id, (115.0, 0.0), (115.0, 13.0), -12.0),
    ],
};
