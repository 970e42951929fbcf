//! Pedal, cylinders and fork with their travels to scale.
//!
//! Bores, travels and the two lever ratios are the build's; lengths of arms, rods and bodies are drawn at sizes of our
//! own, chosen so that it fits a phone. The foot pushes to the right, towards the front of the car.

use super::hydraulics::{Parts, System};
use super::pedal::system;
use super::{
    BEARING_AT_STOP, FORK_RATIO, MASTER_BORE, PEDAL_AT_RELEASE, PEDAL_LEFT, PEDAL_TRAVEL, RELEASE_BY, ReleaseBy, SLAVE_BORE, SLAVE_TRAVEL,
    TRAVEL_NEEDED,
};
use crate::build::Build;
use crate::quantity::Length;
use crate::quantity::unit::{BORE, MM};
use crate::report::{Report, Unknown};
use crate::scene::{Anchor, Handle, Pen, Point, Scene, Shape};
use crate::sentence::Piece;

/// Pivot of the pedal, and the length of its arm.
const PIVOT: Point = Point { x: 0.0, y: 270.0 };
const ARM: f64 = 260.0;
/// Left end of the master's body, and where its piston begins.
const MASTER_X: f64 = 75.0;
const MASTER_PISTON_X: f64 = 85.0;
const MASTER_END_X: f64 = 165.0;
/// Shaft axis, and where the bearing touches at rest.
const AXIS_Y: f64 = 150.0;
const BEARING_X: f64 = 330.0;
/// From the fork's pivot up to the bearing.
const FORK_ARM: f64 = 55.0;
/// The slave sits to the right of the fork's end.
const SLAVE_PISTON_X: f64 = 395.0;
const SLAVE_END_X: f64 = 465.0;
/// Tips and rim of the diaphragm, from the shaft axis.
const TIP_Y: f64 = 22.0;
const RIM_Y: f64 = 112.0;
/// Height at which the line runs over everything.
const LINE_Y: f64 = 296.0;
/// Hole in a concentric slave for shaft and guide.
const GUIDE: f64 = 36.0;
const PISTON: f64 = 14.0;
/// Piston of a concentric slave, as far as the bearing.
const SLEEVE: f64 = 20.0;
const WALL: f64 = 5.0;

pub(super) fn scene(_build: &Build, mut report: &Report) -> Result<Scene, Unknown> {
    let system = system(&mut report)?;
    let (at_release, left) = (report.of(PEDAL_AT_RELEASE)?, report.of(PEDAL_LEFT)?);
    let (needed, at_stop) = (report.of(TRAVEL_NEEDED)?, report.of(BEARING_AT_STOP)?);
    let frees = left >= Length::ZERO;
    let mut shapes = Vec::new();
    let mut handles = Vec::new();
    pedal(&system, at_release, frees, &mut shapes, &mut handles);
    let master_y = master(&system, at_release, &mut shapes, &mut handles);
    let reached = if frees { needed } else { at_stop };
    match report.of(RELEASE_BY)? {
        ReleaseBy::Fork => fork(&system, reached, report.of(SLAVE_TRAVEL)?.min(slave_at(&system, at_stop)), &mut shapes, &mut handles),
        ReleaseBy::Concentric => concentric(&system, reached, &mut shapes),
    }
    line(report.of(RELEASE_BY)?, &system, master_y, &mut shapes);
    bearing(reached, needed, frees, &mut shapes);
    let (pad, stop, moved, wanted) =
        (at_release.in_millimetres(), system.parts().pedal_travel.in_millimetres(), reached.in_millimetres(), needed.in_millimetres());
    Ok(Scene {
        title: "Pedal, cylinders and release bearing".into(),
        description: if frees {
            format!("The pad goes {pad:.0} of {stop:.0} mm until the bearing has moved {wanted:.1} mm and the clutch is free.")
        } else {
            format!("The pad meets its stop at {stop:.0} mm; the bearing has moved {moved:.1} of {wanted:.1} mm and the clutch drags.")
        },
        shapes,
        handles,
        rows: None,
    })
}

fn slave_at(system: &System, bearing: Length) -> Length {
    (bearing + system.parts().bearing_gap) * system.parts().fork_ratio
}

fn path(points: &[(f64, f64)], closed: bool, pen: Pen) -> Shape {
    Shape::Path { points: points.iter().map(|&(x, y)| Point { x, y }).collect(), closed, hatched: false, pen }
}

fn block(x: f64, y: f64, width: f64, height: f64, hatched: bool, pen: Pen) -> Shape {
    let corner = |x: f64, y: f64| Point { x, y };
    let points = vec![corner(x, y), corner(x + width, y), corner(x + width, y + height), corner(x, y + height)];
    Shape::Path { points, closed: true, hatched, pen }
}

fn measure(from: Point, to: Point, offset: f64, words: &'static str, length: Length, pen: Pen) -> Shape {
    let figure = Piece::Figure { value: length.si(), unit: MM, digits: 3 };
    Shape::Dimension { from, to, offset, label: vec![words.into(), " ".into(), figure], pen }
}

/// Across a bore of so many millimetres.
fn across_bore(from: Point, to: Point, bore: f64) -> Shape {
    Shape::Dimension { from, to, offset: 12.0, label: vec![Piece::figure(BORE.to_si(bore), BORE)], pen: Pen::Changing }
}

fn label(x: f64, y: f64, anchor: Anchor, words: &'static str) -> Shape {
    Shape::Label { at: Point { x, y }, anchor, label: vec![words.into()] }
}

/// A point of the pedal's arm, this far from its pivot, with the pad moved by `travel` (mm).
fn on_pedal(travel: f64, radius: f64) -> Point {
    let turned = travel / ARM;
    Point { x: PIVOT.x + radius * libm::sin(turned), y: PIVOT.y - radius * libm::cos(turned) }
}

fn pedal(system: &System, at_release: Length, frees: bool, shapes: &mut Vec<Shape>, handles: &mut Vec<Handle>) {
    let stop = system.parts().pedal_travel;
    let arm = |travel: Length, pen: Pen| {
        let travel = travel.in_millimetres();
        let (pad, low, high) = (on_pedal(travel, ARM), on_pedal(travel, ARM + 22.0), on_pedal(travel, ARM - 22.0));
        // Six millimetres of rubber, square to the arm.
        let (x, y) = (-6.0 * libm::cos(travel / ARM), -6.0 * libm::sin(travel / ARM));
        [
            path(&[(PIVOT.x, PIVOT.y), (pad.x, pad.y)], false, pen),
            path(&[(low.x + x, low.y + y), (high.x + x, high.y + y), (high.x, high.y), (low.x, low.y)], true, pen),
        ]
    };
    shapes.push(Shape::Circle { centre: PIVOT, radius: 5.0, pen: Pen::Outline });
    shapes.extend(arm(Length::ZERO, Pen::Outline));
    if frees {
        shapes.extend(arm(at_release, Pen::Hidden));
    }
    let stop_pen = if frees { Pen::Thin } else { Pen::Beyond };
    shapes.extend(arm(stop, stop_pen));
    if frees {
        arc(ARM - 40.0, at_release, "free at ", Pen::Thin, shapes);
    }
    arc(ARM + 36.0, stop, "stop at ", Pen::Changing, shapes);
    let pad = on_pedal(stop.in_millimetres(), ARM);
    let per_millimetre = Point { x: 1e-3 * libm::cos(stop.in_millimetres() / ARM), y: 1e-3 * libm::sin(stop.in_millimetres() / ARM) };
    handles.push(Handle { at: pad, place: PEDAL_TRAVEL.id.into(), label: "pedal stop".into(), per_millimetre });
}

/// The pad's way, drawn above or below it to the same angle.
fn arc(radius: f64, travel: Length, words: &'static str, pen: Pen, shapes: &mut Vec<Shape>) {
    let sweep = travel.in_millimetres() / ARM;
    shapes.push(Shape::Arc { centre: PIVOT, radius, from: -core::f64::consts::FRAC_PI_2, sweep, pen });
    let beside = if radius < ARM { -10.0 } else { 14.0 };
    let at = on_pedal(travel.in_millimetres() / 2.0, radius + beside);
    let label = vec![words.into(), Piece::Figure { value: travel.si(), unit: MM, digits: 3 }];
    shapes.push(Shape::Label { at, anchor: Anchor::Middle, label });
}

/// Gives the height of the master's axis.
fn master(system: &System, at_release: Length, shapes: &mut Vec<Shape>, handles: &mut Vec<Handle>) -> f64 {
    let Parts { pedal_ratio, free_play, pedal_travel, master, .. } = *system.parts();
    let bore = super::hydraulics::equivalent_bore(master).in_millimetres();
    let pin = ARM / pedal_ratio.max(1.0);
    let y = PIVOT.y - pin;
    let pushed = ((at_release.min(pedal_travel) - free_play) / pedal_ratio).max(Length::ZERO).in_millimetres();
    let rod_end = MASTER_PISTON_X - free_play.in_millimetres() / pedal_ratio;
    shapes.push(path(&[(PIVOT.x, y), (rod_end, y)], false, Pen::Outline));
    cylinder(MASTER_X, MASTER_END_X, y, bore, shapes);
    shapes.push(block(MASTER_PISTON_X, y - bore / 2.0, PISTON, bore, true, Pen::Outline));
    shapes.push(block(MASTER_PISTON_X + pushed, y - bore / 2.0, PISTON, bore, false, Pen::Hidden));
    let (low, high) = (Point { x: MASTER_END_X, y: y - bore / 2.0 }, Point { x: MASTER_END_X, y: y + bore / 2.0 });
    shapes.push(across_bore(high, low, bore));
    handles.push(Handle {
        at: Point { x: (MASTER_X + MASTER_END_X) / 2.0, y: y + bore / 2.0 },
        place: MASTER_BORE.id.into(),
        label: "master bore".into(),
        per_millimetre: Point { x: 0.0, y: 2e-3 },
    });
    y
}

/// Two walls, cut, with their bore between them.
fn cylinder(from: f64, to: f64, y: f64, bore: f64, shapes: &mut Vec<Shape>) {
    shapes.push(block(from, y + bore / 2.0, to - from, WALL, true, Pen::Outline));
    shapes.push(block(from, y - bore / 2.0 - WALL, to - from, WALL, true, Pen::Outline));
}

fn fork(system: &System, reached: Length, slave_travel: Length, shapes: &mut Vec<Shape>, handles: &mut Vec<Handle>) {
    let Parts { fork_ratio, slave, .. } = *system.parts();
    let bore = super::hydraulics::equivalent_bore(slave).in_millimetres();
    let pivot = Point { x: BEARING_X - 14.0, y: AXIS_Y - FORK_ARM };
    let y = pivot.y - FORK_ARM * fork_ratio;
    let (moved, pushed) = (reached.in_millimetres(), slave_travel.in_millimetres());
    shapes.push(path(&[(BEARING_X - 14.0, AXIS_Y), (pivot.x, pivot.y), (pivot.x, y)], false, Pen::Outline));
    shapes.push(path(&[(BEARING_X - 14.0 + moved, AXIS_Y), (pivot.x, pivot.y), (pivot.x - pushed, y)], false, Pen::Hidden));
    shapes.push(Shape::Circle { centre: pivot, radius: 5.0, pen: Pen::Outline });
    shapes.push(path(&[(pivot.x, y), (SLAVE_PISTON_X, y)], false, Pen::Outline));
    cylinder(SLAVE_PISTON_X - 25.0, SLAVE_END_X, y, bore, shapes);
    shapes.push(block(SLAVE_PISTON_X, y - bore / 2.0, PISTON, bore, true, Pen::Outline));
    shapes.push(block(SLAVE_PISTON_X - pushed, y - bore / 2.0, PISTON, bore, false, Pen::Hidden));
    let (low, high) = (Point { x: SLAVE_END_X, y: y - bore / 2.0 }, Point { x: SLAVE_END_X, y: y + bore / 2.0 });
    shapes.push(across_bore(high, low, bore));
    let (rest, free) = (Point { x: pivot.x, y: y - 8.0 }, Point { x: pivot.x - pushed, y: y - 8.0 });
    shapes.push(measure(free, rest, -12.0, "slave", slave_travel, Pen::Thin));
    handles.push(Handle {
        at: Point { x: SLAVE_PISTON_X + 35.0, y: y + bore / 2.0 },
        place: SLAVE_BORE.id.into(),
        label: "slave bore".into(),
        per_millimetre: Point { x: 0.0, y: 2e-3 },
    });
    handles.push(Handle {
        at: Point { x: pivot.x, y },
        place: FORK_RATIO.id.into(),
        label: "fork ratio".into(),
        per_millimetre: Point { x: 0.0, y: -1.0 / FORK_ARM },
    });
}

fn concentric(system: &System, reached: Length, shapes: &mut Vec<Shape>) {
    let moved = reached.in_millimetres();
    let (inner, outer) = (GUIDE / 2.0, ring_radius(system));
    for side in [1.0, -1.0] {
        let low = if side > 0.0 { AXIS_Y + inner } else { AXIS_Y - outer };
        let height = outer - inner;
        shapes.push(block(BEARING_X - 34.0, low, SLEEVE, height, true, Pen::Outline));
        shapes.push(block(BEARING_X - 34.0 + moved, low, SLEEVE, height, false, Pen::Hidden));
        shapes.push(path(&[(BEARING_X - 80.0, AXIS_Y + side * outer), (BEARING_X - 22.0, AXIS_Y + side * outer)], false, Pen::Outline));
        shapes.push(path(&[(BEARING_X - 80.0, AXIS_Y + side * inner), (BEARING_X - 10.0, AXIS_Y + side * inner)], false, Pen::Outline));
    }
    shapes.push(path(&[(BEARING_X - 80.0, AXIS_Y - outer), (BEARING_X - 80.0, AXIS_Y + outer)], false, Pen::Outline));
}

/// Outer radius of the concentric slave's ring around its guide, mm.
fn ring_radius(system: &System) -> f64 {
    let square = system.parts().slave.in_square_millimetres() * 4.0 / core::f64::consts::PI;
    (square + GUIDE * GUIDE).sqrt() / 2.0
}

fn line(by: ReleaseBy, system: &System, master_y: f64, shapes: &mut Vec<Shape>) {
    let top = |area, y: f64| y + super::hydraulics::equivalent_bore(area).in_millimetres() / 2.0 + WALL;
    let (from, parts) = (MASTER_END_X - 8.0, system.parts());
    let mut corners = vec![(from, top(parts.master, master_y)), (from, LINE_Y)];
    match by {
        ReleaseBy::Fork => {
            let y = AXIS_Y - FORK_ARM * (1.0 + parts.fork_ratio);
            corners.extend([(SLAVE_END_X - 8.0, LINE_Y), (SLAVE_END_X - 8.0, top(parts.slave, y))]);
        }
        ReleaseBy::Concentric => corners.extend([(BEARING_X - 60.0, LINE_Y), (BEARING_X - 60.0, AXIS_Y + ring_radius(system))]),
    }
    shapes.push(path(&corners, false, Pen::Heavy));
}

/// Bearing, diaphragm and flywheel.
fn bearing(reached: Length, needed: Length, frees: bool, shapes: &mut Vec<Shape>) {
    let moved = reached.in_millimetres();
    shapes.push(path(&[(BEARING_X - 90.0, AXIS_Y), (BEARING_X + 75.0, AXIS_Y)], false, Pen::Axis));
    let free_pen = if frees { Pen::Hidden } else { Pen::Beyond };
    for side in [1.0, -1.0] {
        let low = if side > 0.0 { AXIS_Y + TIP_Y - 6.0 } else { AXIS_Y - TIP_Y - 6.0 };
        shapes.push(block(BEARING_X - 14.0, low, 14.0, 12.0, false, Pen::Outline));
        shapes.push(block(BEARING_X - 14.0 + moved, low, 14.0, 12.0, false, free_pen));
        let (tip, rim) = (AXIS_Y + side * TIP_Y, AXIS_Y + side * RIM_Y);
        shapes.push(path(&[(BEARING_X, tip), (BEARING_X + 18.0, rim)], false, Pen::Outline));
        // The fingers tip about the pivots, four fifths of the way out.
        let pivot = AXIS_Y + side * (TIP_Y + 0.8 * (RIM_Y - TIP_Y));
        shapes.push(path(&[(BEARING_X + moved, tip), (BEARING_X + 14.4, pivot)], false, free_pen));
    }
    shapes.push(path(&[(BEARING_X + 45.0, AXIS_Y - RIM_Y - 8.0), (BEARING_X + 45.0, AXIS_Y + RIM_Y + 8.0)], false, Pen::Outline));
    let (rest, free) = (Point { x: BEARING_X, y: AXIS_Y + RIM_Y + 10.0 }, Point { x: BEARING_X + moved, y: AXIS_Y + RIM_Y + 10.0 });
    shapes.push(measure(rest, free, 8.0, if frees { "free at" } else { "only" }, reached, if frees { Pen::Thin } else { Pen::Beyond }));
    if !frees {
        let figure = Piece::Figure { value: needed.si(), unit: MM, digits: 3 };
        let at = Point { x: BEARING_X + 50.0, y: AXIS_Y + RIM_Y - 10.0 };
        shapes.push(Shape::Label { at, anchor: Anchor::Start, label: vec!["needs ".into(), figure] });
    }
    shapes.push(label(BEARING_X + 50.0, AXIS_Y + 6.0, Anchor::Start, "engine"));
}
