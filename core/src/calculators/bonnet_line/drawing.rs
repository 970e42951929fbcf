//! The engine in its bay to scale: from the side, with the room that tolerances and motion take, and under it from the
//! front, rolled both ways.

use super::placed::{Bonnet, Motion, Point as Spot, Standing};
use super::values::Values;
use super::{
    BONNET, BONNET_VARIES, CLEARANCE, FLANGE_ALONG, FLANGE_UP, HEIGHT, LOWER, LOWER_FROM, LOWER_NAME, LOWER_TO, LOWER_TOP, MIDDLE, OUT,
    PADS_UP, PITCH, POINT_NAME, POINTS, PRESSED, ROAD, ROLL, ROLL_AXIS_UP, STATION, UNDER, UNDER_ACROSS, UNDER_ALONG, UNDER_UP, WORST,
};
use crate::build::Build;
use crate::order::Order;
use crate::quantity::unit::{DEG, MM};
use crate::quantity::{Angle, Length};
use crate::report::{Report, Unknown};
use crate::scene::{Anchor, Handle, Pen, Point, Scene, Shape};
use crate::sentence::Piece;
use crate::spec::{Id, OutputColumn, Place, TableId};

const MARK: f64 = 7.0;
/// Between the road of the side view and the top of the front view.
const BETWEEN: f64 = 70.0;

pub(super) fn scene(build: &Build, mut report: &Report) -> Result<Scene, Unknown> {
    let standing = Standing::read(&mut report)?;
    let motion = Motion::read(&mut report).ok();
    let drawing = Drawing { build, report, standing, motion };
    let mut shapes = Vec::new();
    let road = -report.of(PADS_UP)?.in_millimetres();
    let ends = drawing.bonnet(&mut shapes)?;
    let tightest = drawing.tightest();
    drawing.points(tightest, &mut shapes);
    drawing.under(road, ends, &mut shapes);
    let handles = drawing.handles(&mut shapes)?;
    drawing.front_view(tightest, road, ends, &mut shapes);
    let millimetres =
        |length: Result<Length, Unknown>| length.map_or("unknown".into(), |length| format!("{:.0} mm", length.in_millimetres()));
    let description = match tightest {
        Some(at) => format!(
            "From the side: the {} stands {} below what is over it, {} with everything at its worst; the lowest point is {} over the road. Below, from the front: rolled both ways.",
            drawing.name(POINT_NAME.id, POINTS, at),
            millimetres(report.cell(CLEARANCE, at)),
            millimetres(report.cell(WORST, at)),
            millimetres(report.of(ROAD))
        ),
        None => "The engine under its bonnet; how much room there is cannot be told yet.".into(),
    };
    Ok(Scene { title: "Engine under the bonnet".into(), description, shapes, handles, rows: None })
}

struct Drawing<'a> {
    build: &'a Build,
    report: &'a Report,
    standing: Standing,
    motion: Option<Motion>,
}

fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn path(points: Vec<Point>, pen: Pen) -> Shape {
    Shape::Path { points, closed: false, hatched: false, pen }
}

fn label(x: f64, y: f64, anchor: Anchor, words: String) -> Shape {
    Shape::Label { at: at(x, y), anchor, label: vec![words.into()] }
}

fn dimension(from: Point, to: Point, offset: f64, length: Length, pen: Pen) -> Shape {
    Shape::Dimension { from, to, offset, label: vec![Piece::Figure { value: length.si(), unit: MM, digits: 2 }], pen }
}

impl Drawing<'_> {
    fn name(&self, column: Id, table: TableId, at: usize) -> String {
        let row = self.build.rows(table).get(at).copied();
        self.build.text(Place { id: column, row }).to_owned()
    }

    fn rows(&self, table: TableId) -> usize {
        self.build.rows(table).len()
    }

    /// The point with the least room at worst, or standing where that is not known.
    fn tightest(&self) -> Option<usize> {
        let least = |output: OutputColumn<Length>| {
            let rooms = (0..self.rows(POINTS)).filter_map(|row| Some((row, self.report.cell(output, row).ok()?.si())));
            rooms.min_by(|one, other| one.1.total_cmp(&other.1)).map(|(row, _)| row)
        };
        least(WORST).or_else(|| least(CLEARANCE))
    }

    /// A point of the engine in the car, mm: along, across, up.
    fn placed(&self, point: [f64; 3]) -> [f64; 3] {
        self.standing.stance.place(point).map(|part| part * 1e3)
    }

    /// The same rolled to one side, bounced up and hot.
    fn moved(&self, side: usize, point: [f64; 3]) -> Option<[f64; 3]> {
        let (rolled, bounce) = self.motion?.shift(side, point);
        let mut placed = self.placed(rolled);
        placed[2] += bounce * 1e3;
        Some(placed)
    }

    fn point(&self, row: usize) -> Option<Spot> {
        let mut report = self.report;
        Spot::read(&mut report, row).ok()
    }

    /// The underside on the middle line, and as low as it may be; gives where it begins and ends.
    fn bonnet(&self, shapes: &mut Vec<Shape>) -> Result<[f64; 2], Unknown> {
        let mut stations = Vec::new();
        for row in 0..self.rows(BONNET) {
            let along = self.report.cell(STATION, row)?.in_millimetres();
            if let Ok(height) = self.report.cell(MIDDLE, row) {
                stations.push(at(along, height.in_millimetres()));
            }
        }
        stations.order_by(|one, other| one.x.total_cmp(&other.x));
        let off = self.report.of(BONNET_VARIES).unwrap_or(Length::ZERO) + self.report.of(PRESSED).unwrap_or(Length::ZERO);
        let lowered = stations.iter().map(|station| at(station.x, station.y - off.in_millimetres())).collect();
        let ends = stations.first().zip(stations.last()).map_or([-300.0, 300.0], |(first, last)| [first.x, last.x]);
        shapes.push(path(stations, Pen::Outline));
        shapes.push(path(lowered, Pen::Hidden));
        Ok(ends)
    }

    fn points(&self, tightest: Option<usize>, shapes: &mut Vec<Shape>) {
        let mut outline = Vec::new();
        for row in 0..self.rows(POINTS) {
            let Some(point) = self.point(row) else { continue };
            let [x, _, up] = self.placed(point.at);
            outline.push(at(x, up));
            shapes.push(Shape::Circle { centre: at(x, up), radius: MARK, pen: Pen::Outline });
            let highest = [0, 1].into_iter().filter_map(|side| self.moved(side, point.at)).max_by(|one, other| one[2].total_cmp(&other[2]));
            if let Some([moved_x, _, moved_up]) = highest {
                shapes.push(path(vec![at(x, up), at(moved_x, moved_up)], Pen::Thin));
                shapes.push(Shape::Circle { centre: at(moved_x, moved_up), radius: MARK, pen: Pen::Hidden });
            }
            if let Some(ceiling) = point.ceiling.map(|ceiling| ceiling * 1e3) {
                shapes.push(path(vec![at(x - 60.0, ceiling), at(x + 60.0, ceiling)], Pen::Outline));
            }
            if let (true, Ok(room)) = (tightest == Some(row), self.report.cell(CLEARANCE, row)) {
                let beyond = self.report.cell(WORST, row).is_ok_and(|worst| worst < Length::ZERO);
                let pen = if beyond { Pen::Beyond } else { Pen::Changing };
                shapes.push(dimension(at(x, up), at(x, up + room.in_millimetres()), 30.0, room, pen));
                shapes.push(label(x + 14.0, up - 26.0, Anchor::Start, self.name(POINT_NAME.id, POINTS, row)));
            }
        }
        for row in 0..self.rows(UNDER) {
            if let Some([x, _, up]) = self.low(row).map(|point| self.placed(point)) {
                outline.push(at(x, up));
                shapes.push(Shape::Circle { centre: at(x, up), radius: MARK, pen: Pen::Outline });
            }
        }
        shapes.push(Shape::Path { points: hull(outline), closed: true, hatched: false, pen: Pen::Thin });
    }

    fn low(&self, row: usize) -> Option<[f64; 3]> {
        let cell = |column| self.report.cell(column, row).ok().map(Length::si);
        Some([cell(UNDER_ALONG)?, cell(UNDER_ACROSS)?, cell(UNDER_UP)?])
    }

    /// Chassis parts, the road, and how far the lowest point is from it.
    fn under(&self, road: f64, [from, to]: [f64; 2], shapes: &mut Vec<Shape>) {
        for row in 0..self.rows(LOWER) {
            let cell = |column| self.report.cell(column, row).map(Length::in_millimetres);
            let (Ok(from), Ok(to), Ok(top)) = (cell(LOWER_FROM), cell(LOWER_TO), cell(LOWER_TOP)) else { continue };
            let points = vec![at(from, top), at(to, top), at(to, top - 25.0), at(from, top - 25.0)];
            shapes.push(Shape::Path { points, closed: true, hatched: true, pen: Pen::Outline });
            shapes.push(label((from + to) / 2.0, top - 58.0, Anchor::Middle, self.name(LOWER_NAME.id, LOWER, row)));
        }
        let lowest = (0..self.rows(UNDER)).filter_map(|row| self.low(row).map(|point| self.placed(point)));
        let lowest = lowest.min_by(|one, other| one[2].total_cmp(&other[2]));
        let end = lowest.map_or(to, |[x, ..]| to.max(x));
        shapes.push(path(vec![at(from, road), at(end.max(700.0), road)], Pen::Outline));
        shapes.push(label(from, road + 12.0, Anchor::Start, "road".into()));
        if let (Some([x, _, up]), Ok(room)) = (lowest, self.report.of(ROAD)) {
            shapes.push(dimension(at(x, road), at(x, up), 0.0, room, Pen::Thin));
        }
    }

    /// The crank's axis, the mounts and the flange; the last two can be dragged.
    fn handles(&self, shapes: &mut Vec<Shape>) -> Result<Vec<Handle>, Unknown> {
        let (along, up) = (self.report.of(FLANGE_ALONG)?, self.report.of(FLANGE_UP)?);
        let [front, mounts, flange] = [[-0.3, 0.0, up.si()], [0.0; 3], [along.si(), 0.0, up.si()]].map(|point| self.placed(point));
        shapes.push(path(vec![at(front[0], front[2]), at(flange[0], flange[2])], Pen::Axis));
        shapes.push(Shape::Circle { centre: at(mounts[0], mounts[2]), radius: 12.0, pen: Pen::Changing });
        shapes.push(path(vec![at(mounts[0], 0.0), at(mounts[0], mounts[2])], Pen::Thin));
        shapes.push(path(vec![at(mounts[0] - 45.0, 0.0), at(mounts[0] + 45.0, 0.0)], Pen::Outline));
        let pitch = self.report.of(PITCH)?;
        let label = vec!["tail down ".into(), Piece::Figure { value: pitch.si(), unit: DEG, digits: 2 }];
        shapes.push(Shape::Label { at: at(flange[0], flange[2] + 30.0), anchor: Anchor::End, label });
        let lever = along.in_millimetres().max(1.0);
        Ok(vec![
            Handle {
                at: at(mounts[0], mounts[2]),
                place: HEIGHT.id.into(),
                label: "engine up and down".into(),
                per_millimetre: at(0.0, 1e-3),
            },
            Handle { at: at(flange[0], flange[2]), place: PITCH.id.into(), label: "pitch".into(), per_millimetre: at(0.0, -1.0 / lever) },
        ])
    }

    /// The section at the tightest point, and every point at rest and rolled.
    fn front_view(&self, tightest: Option<usize>, road: f64, [from, to]: [f64; 2], shapes: &mut Vec<Shape>) {
        let mut report = self.report;
        let (Some(row), Ok(bonnet)) = (tightest, Bonnet::read(&mut report)) else { return };
        let Some(point) = self.point(row) else { return };
        let (placed, middle) = (self.standing.stance.place(point.at), (from + to) / 2.0);
        let width = report.one(OUT).map_or(0.0, Length::si);
        let section: Vec<[f64; 2]> = [-width, 0.0, width]
            .into_iter()
            .filter_map(|across| {
                Some([across * 1e3, bonnet.surface.height(Length::from_si(placed[0]), Length::from_si(across)).ok()?.in_millimetres()])
            })
            .collect();
        let highest = section.iter().map(|place| place[1]).fold(placed[2] * 1e3, f64::max);
        // The front view hangs under the road of the side view.
        let to_sheet = |across: f64, up: f64| at(middle + across, road - BETWEEN - highest + up);
        shapes.push(path(section.into_iter().map(|[across, up]| to_sheet(across, up)).collect(), Pen::Outline));
        for (other, point) in (0..self.rows(POINTS)).filter_map(|row| Some((row, self.point(row)?))) {
            let [_, across, up] = self.placed(point.at);
            let pen = if other == row { Pen::Outline } else { Pen::Thin };
            shapes.push(Shape::Circle { centre: to_sheet(across, up), radius: MARK, pen });
            for [_, across, up] in [0, 1].into_iter().filter_map(|side| self.moved(side, point.at)) {
                shapes.push(Shape::Circle { centre: to_sheet(across, up), radius: MARK, pen: Pen::Hidden });
            }
        }
        if let (Ok(roll), Ok(axis)) = (self.report.of(ROLL), self.report.of(ROLL_AXIS_UP)) {
            let [_, across, up] = self.placed([0.0, 0.0, axis.si()]);
            let (centre, arm) = (to_sheet(across, up), highest - up);
            for angle in [roll, -roll, Angle::ZERO] {
                let (sine, cosine) = libm::sincos(angle.si());
                let pen = if angle == Angle::ZERO { Pen::Axis } else { Pen::Hidden };
                shapes.push(path(vec![centre, at(centre.x + arm * sine, centre.y + arm * cosine)], pen));
            }
            shapes.push(Shape::Circle { centre, radius: MARK, pen: Pen::Axis });
            let label = vec!["rolls ± ".into(), Piece::Figure { value: roll.si(), unit: DEG, digits: 2 }];
            shapes.push(Shape::Label { at: at(centre.x, centre.y - 40.0), anchor: Anchor::Middle, label });
        }
    }
}

/// The convex outline of points, by Andrew's monotone chain (1979).
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.order_by(|one, other| one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y)));
    let turns_left = |a: Point, b: Point, c: Point| (b.x - a.x) * (c.y - a.y) > (b.y - a.y) * (c.x - a.x);
    let mut outline: Vec<Point> = Vec::new();
    for pass in 0..2 {
        let start = outline.len();
        let chain: Vec<Point> = if pass == 0 { points.clone() } else { points.iter().rev().copied().collect() };
        for point in chain {
            while outline.len() >= start + 2 && !turns_left(outline[outline.len() - 2], outline[outline.len() - 1], point) {
                outline.pop();
            }
            outline.push(point);
        }
        outline.pop();
    }
    outline
}
