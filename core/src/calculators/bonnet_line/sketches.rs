//! Where the bonnet line's numbers are measured.

use super::{HEIGHT, LEFT, MIDDLE, OUT, POINT_ACROSS, POINT_ALONG, POINT_UP, RIGHT, STATION, UNDER_ACROSS, UNDER_ALONG, UNDER_UP};
use crate::measure::Sketch;
use crate::measure::Stroke::{Circle, Cut, Input, Line, Round, Words};
use crate::scene::Anchor::Middle;
use crate::scene::Pen::{Axis, Heavy, Hidden, Outline, Thin};

pub(super) static ACROSS_THE_CAR: Sketch = Sketch {
    title: "Bonnet shut, seen from the front",
    strokes: &[
        Line(Heavy, &[(-100.0, 66.0), (-70.0, 82.0), (-30.0, 94.0), (0.0, 97.0), (30.0, 94.0), (70.0, 82.0), (100.0, 66.0)]),
        Line(Thin, &[(-100.0, 0.0), (100.0, 0.0)]),
        Cut(&[(-98.0, -9.0), (-84.0, -9.0), (-84.0, 0.0), (-98.0, 0.0)]),
        Cut(&[(84.0, -9.0), (98.0, -9.0), (98.0, 0.0), (84.0, 0.0)]),
        Words("straightedge over the pads", (0.0, -22.0), Middle),
        Input(LEFT.id, (-62.0, 0.0), (-62.0, 84.0), 0.0),
        Input(MIDDLE.id, (0.0, 0.0), (0.0, 97.0), 0.0),
        Input(RIGHT.id, (62.0, 0.0), (62.0, 84.0), 0.0),
        Input(OUT.id, (0.0, 0.0), (62.0, 0.0), -44.0),
    ],
};

pub(super) static ALONG_THE_CAR: Sketch = Sketch {
    title: "Bonnet and pads from the side, front on the left",
    strokes: &[
        Line(Heavy, &[(-90.0, 74.0), (-40.0, 86.0), (20.0, 94.0), (100.0, 100.0)]),
        Line(Axis, &[(0.0, -14.0), (0.0, 60.0)]),
        Cut(&[(-8.0, -8.0), (8.0, -8.0), (8.0, 0.0), (-8.0, 0.0)]),
        Round(Outline, &[(-60.0, 24.0), (50.0, 24.0), (50.0, 70.0), (-60.0, 70.0)]),
        Line(Hidden, &[(70.0, 0.0), (70.0, 98.0)]),
        Words("engine", (-30.0, 46.0), Middle),
        Input(HEIGHT.id, (0.0, 0.0), (0.0, 24.0), 84.0),
        Input(STATION.id, (0.0, 0.0), (70.0, 0.0), -22.0),
    ],
};

pub(super) static POINT: Sketch = Sketch {
    title: "A point on the engine, from the side and from the front",
    strokes: &[
        Round(
            Outline,
            &[(-60.0, -20.0), (50.0, -20.0), (50.0, 70.0), (-36.0, 70.0), (-36.0, 84.0), (-44.0, 84.0), (-44.0, 70.0), (-60.0, 70.0)],
        ),
        Line(Axis, &[(-72.0, 0.0), (66.0, 0.0)]),
        Circle(Outline, (0.0, 0.0), 4.0),
        Words("mounts", (8.0, 10.0), crate::scene::Anchor::Start),
        Round(
            Outline,
            &[(120.0, -20.0), (180.0, -20.0), (180.0, 70.0), (172.0, 70.0), (172.0, 84.0), (164.0, 84.0), (164.0, 70.0), (120.0, 70.0)],
        ),
        Line(Axis, &[(150.0, -30.0), (150.0, 96.0)]),
        Input(POINT_UP.id, (-40.0, 0.0), (-40.0, 84.0), 36.0),
        Input(POINT_ALONG.id, (-40.0, 0.0), (0.0, 0.0), -34.0),
        Input(POINT_ACROSS.id, (150.0, 84.0), (168.0, 84.0), 16.0),
    ],
};

pub(super) static UNDERNEATH: Sketch = Sketch {
    title: "A low point of the engine, from the side and from the front",
    strokes: &[
        Round(Outline, &[(-60.0, 60.0), (60.0, 60.0), (60.0, -30.0), (40.0, -46.0), (-40.0, -46.0), (-60.0, -30.0)]),
        Line(Axis, &[(-72.0, 0.0), (72.0, 0.0)]),
        Circle(Outline, (0.0, 0.0), 4.0),
        Words("mounts", (-8.0, 12.0), crate::scene::Anchor::End),
        Round(Outline, &[(120.0, 60.0), (180.0, 60.0), (180.0, -30.0), (172.0, -46.0), (128.0, -46.0), (120.0, -30.0)]),
        Line(Axis, &[(150.0, -58.0), (150.0, 72.0)]),
        Input(UNDER_UP.id, (40.0, 0.0), (40.0, -46.0), 36.0),
        Input(UNDER_ALONG.id, (0.0, 0.0), (40.0, 0.0), 74.0),
        Input(UNDER_ACROSS.id, (150.0, -46.0), (172.0, -46.0), -16.0),
    ],
};
