//! The wheel cut through its axis, one half, to scale: it lies on its crank side with the axis at the left.

use super::{
    BOLT_CIRCLE, BORE, HOLE_CIRCLE, HOLE_DEPTH, HOLE_DIAMETER, HOLES, OUTER, RING_FROM, RING_INNER, RING_NAME, RING_OUTER, RING_WIDTH,
    RINGS,
};
use crate::build::Build;
use crate::order::Order;
use crate::quantity::Length;
use crate::quantity::unit::MM;
use crate::report::{Report, Unknown};
use crate::scene::{Handle, Pen, Point, Scene, Shape};
use crate::sentence::Piece;
use crate::spec::Place;

/// A ring's cut face, millimetres: from its inner to its outer radius, and from the crank's side to the clutch's.
#[derive(Clone, Copy)]
struct Face {
    inner: f64,
    outer: f64,
    crank: f64,
    clutch: f64,
}

/// Holes where the cut meets them: their nearest and farthest radius, and how deep they go from the clutch's side.
#[derive(Clone, Copy)]
struct Drilled {
    inner: f64,
    outer: f64,
    depth: f64,
}

pub(super) fn half_section(build: &Build, report: &Report) -> Result<Scene, Unknown> {
    let mm = Length::in_millimetres;
    let mut faces = Vec::new();
    for row in 0..build.rows(RINGS).len() {
        let (outer, inner) = (mm(report.cell(RING_OUTER, row)?) / 2.0, mm(report.cell(RING_INNER, row)?) / 2.0);
        let crank = mm(report.cell(RING_FROM, row)?);
        if inner >= outer {
            return Err(Unknown::NoSolution("A ring's outer diameter must be larger than its inner one."));
        }
        faces.push(Face { inner, outer, crank, clutch: crank + mm(report.cell(RING_WIDTH, row)?) });
    }
    let mut drilled = Vec::new();
    for row in 0..build.rows(HOLES).len() {
        let (circle, half) = (mm(report.cell(HOLE_CIRCLE, row)?) / 2.0, mm(report.cell(HOLE_DIAMETER, row)?) / 2.0);
        drilled.push(Drilled { inner: circle - half, outer: circle + half, depth: mm(report.cell(HOLE_DEPTH, row)?) });
    }
    drilled.order_by(|one, other| one.inner.total_cmp(&other.inner));

    let (crank, clutch) = (
        faces.iter().map(|face| face.crank).fold(f64::INFINITY, f64::min),
        faces.iter().map(|face| face.clutch).fold(f64::NEG_INFINITY, f64::max),
    );
    let (outer, bore) = (mm(report.of(OUTER)?) / 2.0, mm(report.of(BORE)?) / 2.0);
    let over = 0.03 * outer;
    let mut shapes = Vec::new();
    for face in &faces {
        section(&mut shapes, face, &drilled);
    }
    shapes.push(line([0.0, 0.0], [crank - over, clutch + over], Pen::Axis));
    for hole in &drilled {
        let middle = (hole.inner + hole.outer) / 2.0;
        let (from, to) = span(&faces, middle).unwrap_or((crank, clutch));
        shapes.push(line([middle, middle], [from - over, to + over], Pen::Axis));
    }
    let bolts = report.of(BOLT_CIRCLE).ok().map(|circle| mm(circle) / 2.0);
    dimensions(&mut shapes, [crank, clutch], outer, bore, bolts);

    let mut handles = Vec::new();
    for (at, face) in faces.iter().enumerate() {
        let row = build.rows(RINGS).get(at).copied();
        let name = match build.text(Place { id: RING_NAME.id, row }) {
            "" => format!("ring {}", at + 1),
            name => name.to_owned(),
        };
        handles.push(Handle {
            at: Point { x: (face.inner + face.outer) / 2.0, y: face.clutch },
            place: Place { id: RING_WIDTH.id, row },
            label: format!("{name}, width"),
            per_millimetre: Point { x: 0.0, y: 1e-3 },
        });
        // A radius grows by one, a diameter by two.
        handles.push(Handle {
            at: Point { x: face.outer, y: (face.crank + face.clutch) / 2.0 },
            place: Place { id: RING_OUTER.id, row },
            label: format!("{name}, outer diameter"),
            per_millimetre: Point { x: 2e-3, y: 0.0 },
        });
    }
    Ok(Scene {
        title: "Flywheel, half section".into(),
        description: format!(
            "One half of the wheel cut through its axis, clutch above: {} rings, {:.0} mm over all, bore {:.0} mm, {:.0} mm thick.",
            faces.len(),
            2.0 * outer,
            2.0 * bore,
            clutch - crank
        ),
        shapes,
        handles,
        rows: None,
    })
}

/// From one radius and height to another.
fn line(radii: [f64; 2], heights: [f64; 2], pen: Pen) -> Shape {
    let points = vec![Point { x: radii[0], y: heights[0] }, Point { x: radii[1], y: heights[1] }];
    Shape::Path { points, closed: false, hatched: false, pen }
}

/// Where the metal begins and ends along the axis at this radius.
fn span(faces: &[Face], radius: f64) -> Option<(f64, f64)> {
    let cut = || faces.iter().filter(|face| face.inner <= radius && radius <= face.outer);
    let (from, to) = (cut().map(|face| face.crank).reduce(f64::min)?, cut().map(|face| face.clutch).reduce(f64::max)?);
    Some((from, to))
}

/// A ring's cut face: whole, notched by blind holes from the clutch's side, or in pieces where holes go through.
fn section(shapes: &mut Vec<Shape>, face: &Face, drilled: &[Drilled]) {
    let Face { inner, outer, crank, clutch } = *face;
    let point = |(x, y): (f64, f64)| Point { x, y };
    // Outwards along the clutch's side, stepping in at each blind hole; a through hole closes a piece and begins one.
    let mut begin = inner;
    let mut side = vec![point((inner, clutch))];
    let close = |side: &mut Vec<Point>, begin: f64, end: f64, shapes: &mut Vec<Shape>| {
        if end > begin {
            let mut points = core::mem::take(side);
            points.extend([(end, clutch), (end, crank), (begin, crank)].map(point));
            shapes.push(Shape::Path { points, closed: true, hatched: true, pen: Pen::Outline });
        }
        side.clear();
    };
    for hole in drilled {
        let (low, high) = (hole.inner.max(begin), hole.outer.min(outer));
        if low >= high {
            continue;
        }
        if hole.depth >= clutch - crank {
            close(&mut side, begin, low, shapes);
            // The wall behind the cut.
            shapes.push(line([low, high], [crank, crank], Pen::Outline));
            shapes.push(line([low, high], [clutch, clutch], Pen::Outline));
            begin = high;
            side.push(point((high, clutch)));
        } else {
            let bottom = clutch - hole.depth;
            side.extend([(low, clutch), (low, bottom), (high, bottom), (high, clutch)].map(point));
        }
    }
    close(&mut side, begin, outer, shapes);
}

/// Diameters from the axis to one side, as of a half view; the thickness over all at the rim.
fn dimensions(shapes: &mut Vec<Shape>, [crank, clutch]: [f64; 2], outer: f64, bore: f64, bolts: Option<f64>) {
    let room = 0.1 * outer;
    let mut diameter = |radius: f64, height: f64, offset: f64| {
        let label = vec!["⌀".into(), Piece::figure(2e-3 * radius, MM)];
        let (from, to) = (Point { x: 0.0, y: height }, Point { x: radius, y: height });
        shapes.push(Shape::Dimension { from, to, offset, label, pen: Pen::Thin });
    };
    diameter(outer, clutch, room);
    if bore > 0.0 {
        diameter(bore, crank, -room);
    }
    if let Some(bolts) = bolts {
        diameter(bolts, crank, -2.0 * room);
    }
    let (from, to) = (Point { x: outer, y: clutch }, Point { x: outer, y: crank });
    let label = vec![Piece::figure(1e-3 * (clutch - crank), MM)];
    shapes.push(Shape::Dimension { from, to, offset: room, label, pen: Pen::Thin });
}
