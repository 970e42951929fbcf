//! The belt path to scale, seen from the front of the engine.

use crate::build::Build;
use crate::calculators::front_drive::belt_path::{self, BeltPath, Impossible, Pulley};
use crate::calculators::front_drive::declared::{
    ADJUSTER, ADJUSTER_LOOSE, ADJUSTER_TIGHT, ADJUSTER_WAY, BELT_LINE, DRAWN_LENGTH, DUTY, FITTED, GAP, NAME, PULLEYS, SIDE, TURNS, WRAP,
    X, Y,
};
use crate::calculators::front_drive::tangent;
use crate::calculators::front_drive::tangent::Hand;
use crate::quantity::unit::MM;
use crate::quantity::{Length, millimetres};
use crate::report::{Report, Unknown, lower_first};
use crate::scene::{Anchor, Handle, Pen, Point, Scene, Shape};
use crate::spec::{Id, Place, Verdict};

/// The pulleys of a report as the belt sees them, and its path or why there is none.
///
/// # Errors
/// The first cause, when a place or diameter is unknown.
pub(super) fn drawn(report: &Report, rows: usize) -> Result<(Vec<Pulley>, Result<BeltPath, Impossible>), Unknown> {
    let one = |row| {
        Ok(Pulley {
            centre: tangent::Point::new(report.cell(X, row)?, report.cell(Y, row)?),
            diameter: report.cell(BELT_LINE, row)?,
            side: report.cell(SIDE, row)?,
        })
    };
    let pulleys = (0..rows).map(one).collect::<Result<Vec<_>, _>>()?;
    let path = belt_path::close(&pulleys);
    Ok((pulleys, path))
}

pub(in super::super) fn scene(build: &Build, report: &Report) -> Result<Scene, Unknown> {
    let rows = build.rows(PULLEYS);
    let (pulleys, path) = drawn(report, rows.len())?;
    let draw = Draw { build, report };
    let mut scene = Scene { title: "Belt path".into(), description: String::new(), shapes: Vec::new(), handles: Vec::new(), rows: None };
    for (row, pulley) in pulleys.iter().enumerate() {
        draw.pulley(&mut scene, row, pulley);
    }
    draw.adjuster(&mut scene, &pulleys);
    match &path {
        Ok(path) => draw.belt(&mut scene, &pulleys, path),
        Err(why) => {
            let below = pulleys.iter().map(|it| (it.centre.y - it.diameter).in_millimetres()).fold(f64::INFINITY, f64::min);
            scene.shapes.push(Shape::Label { at: Point { x: 0.0, y: below }, anchor: Anchor::Middle, label: vec![why.to_string().into()] });
        }
    }
    scene.description = draw.description(&pulleys, &path);
    Ok(scene)
}

struct Draw<'a> {
    build: &'a Build,
    report: &'a Report,
}

impl Draw<'_> {
    fn place(&self, id: Id, row: usize) -> Place {
        Place { id, row: self.build.rows(PULLEYS).get(row).copied() }
    }

    fn name(&self, row: usize) -> String {
        let words = self.build.text(self.place(NAME.id, row));
        if words.is_empty() { format!("Pulley {}", row + 1) } else { words.to_owned() }
    }

    fn pulley(&self, scene: &mut Scene, row: usize, pulley: &Pulley) {
        let centre = point(pulley.centre);
        let beyond = [WRAP.id, GAP.id, FITTED.id].iter().any(|&id| self.report.verdict(self.build, self.place(id, row)) == Verdict::Beyond);
        let pen = if beyond { Pen::Beyond } else { Pen::Outline };
        let body = self.report.cell(FITTED, row).unwrap_or(pulley.diameter).in_millimetres() / 2.0;
        scene.shapes.push(Shape::Circle { centre, radius: body, pen });
        let arm = body * 0.3;
        for (x, y) in [(arm, 0.0), (0.0, arm)] {
            let ends = vec![Point { x: centre.x - x, y: centre.y - y }, Point { x: centre.x + x, y: centre.y + y }];
            scene.shapes.push(Shape::Path { points: ends, closed: false, hatched: false, pen: Pen::Axis });
        }
        self.arrow(scene, row, centre, body * 0.6);
        let name = Point { x: centre.x, y: centre.y - body - 12.0 };
        scene.shapes.push(Shape::Label { at: name, anchor: Anchor::Middle, label: vec![self.name(row).into()] });
        for (id, way, step) in [(X.id, "sideways", Point { x: 1e-3, y: 0.0 }), (Y.id, "up and down", Point { x: 0.0, y: 1e-3 })] {
            scene.handles.push(Handle {
                at: centre,
                place: self.place(id, row),
                label: format!("Move the {} {way}", lower_first(&self.name(row))),
                per_millimetre: step,
            });
        }
    }

    /// A quarter turn with a head: the way it turns.
    fn arrow(&self, scene: &mut Scene, row: usize, centre: Point, radius: f64) {
        let Ok(hand) = self.report.cell(TURNS, row) else { return };
        let sign = if hand == Hand::Anticlockwise { 1.0 } else { -1.0 };
        let quarter = core::f64::consts::FRAC_PI_2;
        let from = quarter * (1.0 - sign * 0.5);
        scene.shapes.push(Shape::Arc { centre, radius, from, sweep: sign * quarter, pen: Pen::Thin });
        let (sine, cosine) = libm::sincos(from + sign * quarter);
        let tip = Point { x: centre.x + radius * cosine, y: centre.y + radius * sine };
        // The way it moves at the tip, and outwards from there.
        let (along, out) = ((-sign * sine, sign * cosine), (cosine, sine));
        let barb = |side: f64| Point {
            x: tip.x - radius * (0.35 * along.0 - 0.15 * side * out.0),
            y: tip.y - radius * (0.35 * along.1 - 0.15 * side * out.1),
        };
        scene.shapes.push(Shape::Path { points: vec![barb(1.0), tip, barb(-1.0)], closed: false, hatched: false, pen: Pen::Thin });
    }

    fn belt(&self, scene: &mut Scene, pulleys: &[Pulley], path: &BeltPath) {
        for (pulley, arc) in pulleys.iter().zip(path.arcs()) {
            let centre = point(pulley.centre);
            let start = point(arc.start);
            scene.shapes.push(Shape::Arc {
                centre,
                radius: pulley.diameter.in_millimetres() / 2.0,
                from: libm::atan2(start.y - centre.y, start.x - centre.x),
                sweep: if arc.hand == Hand::Anticlockwise { arc.wrap.si() } else { -arc.wrap.si() },
                pen: Pen::Heavy,
            });
        }
        for span in path.spans() {
            let points = vec![point(span.start), point(span.end)];
            scene.shapes.push(Shape::Path { points, closed: false, hatched: false, pen: Pen::Heavy });
        }
    }

    /// Both ends of the adjuster's travel, dashed, and the way between.
    fn adjuster(&self, scene: &mut Scene, pulleys: &[Pulley]) {
        let ends = || -> Result<_, Unknown> {
            let duty = self.report.of(ADJUSTER)?;
            let row = (0..pulleys.len()).find(|&row| self.report.cell(DUTY, row) == Ok(duty)).ok_or(Unknown::NotComputed)?;
            Ok((row, self.report.of(ADJUSTER_WAY)?, self.report.of(ADJUSTER_LOOSE)?, self.report.of(ADJUSTER_TIGHT)?))
        };
        let Ok((row, way, loose, tight)) = ends() else { return };
        let (sine, cosine) = libm::sincos(way.in_radians());
        let (centre, radius) = (point(pulleys[row].centre), pulleys[row].diameter.in_millimetres() / 2.0);
        let at = |travel: Length| Point { x: centre.x + cosine * travel.in_millimetres(), y: centre.y + sine * travel.in_millimetres() };
        let (from, to) = (at(-loose), at(tight));
        for end in [from, to] {
            scene.shapes.push(Shape::Circle { centre: end, radius, pen: Pen::Hidden });
        }
        scene.shapes.push(Shape::Path { points: vec![from, to], closed: false, hatched: false, pen: Pen::Axis });
    }

    fn description(&self, pulleys: &[Pulley], path: &Result<BeltPath, Impossible>) -> String {
        let names: Vec<String> = (0..pulleys.len()).map(|row| lower_first(&self.name(row))).collect();
        let over = format!("The belt runs over {}.", names.join(", "));
        match path {
            Err(why) => format!("{over} {why}"),
            Ok(path) => {
                let length = self.report.of(DRAWN_LENGTH).unwrap_or(millimetres(f64::NAN)).in_millimetres();
                let wraps: Vec<String> =
                    names.iter().zip(path.arcs()).map(|(name, arc)| format!("{name} {:.0}°", arc.wrap.in_degrees())).collect();
                format!("{over} As drawn its effective length is {length:.0} {}; it lies on {}.", MM.symbol, wraps.join(", "))
            }
        }
    }
}

fn point(at: tangent::Point) -> Point {
    Point { x: at.x.in_millimetres(), y: at.y.in_millimetres() }
}
