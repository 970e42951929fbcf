//! The one-line diagram: feed, fuse, relay, wire, load and way back of each circuit, drawn from its row.

use super::choices::{Protection, Return, Strap, Switching};
use super::loom::label_of;
use super::sentence::{by_need, verdict};
use super::{
    ALLOWED, CHARGE_ALLOWED, CHARGE_DROP, CHARGE_FUSE, CHARGE_SIZE, CIRCUITS, DROP, FUSE, POSITIVE_ALLOWED, POSITIVE_DROP, PROTECTION,
    RETURN, SIZE, STARTER_SIZE, STRAP, STRAP_ALLOWED, STRAP_DROP, STRAP_SIZE, SWITCHING,
};
use crate::build::Build;
use crate::data::fuses::Fuse;
use crate::quantity::unit::{CONDUCTOR, V};
use crate::quantity::{Area, Current, Voltage};
use crate::report::{Report, Unknown};
use crate::scene::{Anchor, Pen, Point, Rows, Scene, Shape};
use crate::sentence::Piece;
use crate::show;
use crate::spec::{Input, Output, Verdict};

/// Most circuits on a screen, and rows under each other on paper: a page less its head.
const ON_A_SCREEN: usize = 12;
const ON_PAPER: usize = 18;

/// Distance of rows; across, where things stand. Millimetres of paper: a diagram has no scale.
const PITCH: f64 = 20.0;
const FEED: f64 = 2.0;
const FUSE_FROM: f64 = 10.0;
const FUSE_TO: f64 = 24.0;
const RELAY_FROM: f64 = 30.0;
const RELAY_TO: f64 = 40.0;
const LOAD: f64 = 135.0;
const LOAD_RADIUS: f64 = 5.0;
const BACK: f64 = 153.0;
const WORDS: f64 = 42.0;
const RIGHT: f64 = 160.0;
/// Words from their line, and from the middle of a fuse, so that at a phone's scale they are nearer to it than to the next row.
const OFF_LINE: f64 = 4.5;
const OFF_BOX: f64 = 6.5;
/// The words over all rows.
const OVER: f64 = 3.5;

/// Circuits, the one that stands worst first.
///
/// # Errors
/// None: what is not known is drawn without its figure.
pub(super) fn worst(build: &Build, report: &Report) -> Result<Scene, Unknown> {
    let rows = by_need(build, report);
    let all = rows.len();
    let rows: Vec<Row> = rows.into_iter().take(ON_A_SCREEN).map(|at| circuit(build, report, at)).collect();
    let mut scene = drawn(&rows, "Circuits, the worst first");
    // A screen may show fewer of them.
    if all > 1 {
        let label = format!("{all} circuits, worst first").into();
        scene.shapes.push(words(Point { x: (FEED + RIGHT) / 2.0, y: OVER }, Anchor::Middle, vec![label]));
    }
    Ok(scene)
}

/// Heavy cables, then every circuit in the order of the rows, in as many drawings as paper needs.
#[must_use]
pub fn full(build: &Build, report: &Report) -> Vec<Scene> {
    let circuits = (0..build.rows(CIRCUITS).len()).map(|at| circuit(build, report, at));
    let rows: Vec<Row> = heavy(build, report).into_iter().chain(circuits).collect();
    rows.chunks(ON_PAPER).map(|rows| drawn(rows, "One-line diagram")).collect()
}

/// What stands between battery and load on one line.
struct Row {
    name: String,
    verdict: Verdict,
    /// Fed from the battery here, or the earth side of something.
    fed: bool,
    fuse: Option<Current>,
    relay: bool,
    size: Result<Area, Unknown>,
    lost: Result<(Voltage, Voltage), Unknown>,
    back: Return,
}

fn circuit(build: &Build, report: &Report, at: usize) -> Row {
    let protection = report.cell(PROTECTION, at);
    Row {
        name: build.rows(CIRCUITS).get(at).map_or_else(String::new, |&row| label_of(build, row, "")),
        verdict: verdict(build, report, at),
        fed: protection != Ok(Protection::EarthSide),
        fuse: report.cell(FUSE, at).ok().filter(|_| protection == Ok(Protection::Fuse)),
        relay: report.cell(SWITCHING, at) == Ok(Switching::Relay),
        size: report.cell(SIZE, at),
        lost: report.cell(DROP, at).and_then(|lost| Ok((lost, report.cell(ALLOWED, at)?))),
        back: report.cell(RETURN, at).unwrap_or(Return::NotCounted),
    }
}

fn heavy(build: &Build, report: &Report) -> [Row; 3] {
    let lost = |lost: Output<Voltage>, allowed: Input<Voltage>| report.of(lost).and_then(|lost| Ok((lost, report.of(allowed)?)));
    let row = |name: &str, judged: Output<Voltage>, allowed: Input<Voltage>, size: Input<Area>, back: Return| Row {
        name: name.into(),
        verdict: report.verdict(build, judged.id.into()),
        fed: true,
        fuse: None,
        relay: false,
        size: report.of(size),
        lost: lost(judged, allowed),
        back,
    };
    let starter = row("Starter", POSITIVE_DROP, POSITIVE_ALLOWED, STARTER_SIZE, Return::Engine);
    let alternator = row("Alternator", CHARGE_DROP, CHARGE_ALLOWED, CHARGE_SIZE, Return::Engine);
    let strap = row("Engine strap", STRAP_DROP, STRAP_ALLOWED, STRAP_SIZE, Return::Body);
    [
        Row { relay: true, ..starter },
        Row { fuse: report.of(CHARGE_FUSE).ok(), ..alternator },
        Row { fed: false, size: strap.size.and_then(|size| fitted(report, size)), ..strap },
    ]
}

fn fitted(report: &Report, size: Area) -> Result<Area, Unknown> {
    match report.of(STRAP)? {
        Strap::Fitted => Ok(size),
        Strap::Missing => Err(Unknown::NoSolution("There is no strap.")),
    }
}

fn drawn(rows: &[Row], title: &str) -> Scene {
    let mut shapes = Vec::new();
    let mut description = String::new();
    let mut above = 0.0;
    for (at, row) in rows.iter().enumerate() {
        let y = -PITCH * (at as f64 + 0.5);
        // The battery's bar, as far down as this row.
        shapes.push(line(Pen::Heavy, &[(FEED, above), (FEED, y)]));
        above = y;
        draw(row, y, &mut shapes);
        description.push_str(&in_words(row));
    }
    if rows.is_empty() {
        shapes.push(words(Point { x: RIGHT / 2.0, y: 0.0 }, Anchor::Middle, vec!["No circuits yet".into()]));
        description.push_str("No circuits yet.");
    } else {
        shapes.push(words(Point { x: FEED, y: OVER }, Anchor::Start, vec!["battery +".into()]));
        // Where the drawing ends on the right, whatever the words are.
        shapes.push(words(Point { x: RIGHT, y: OVER }, Anchor::End, vec!["battery −".into()]));
    }
    Scene { title: title.into(), description, shapes, handles: Vec::new(), rows: Some(Rows { count: rows.len(), pitch: PITCH }) }
}

fn line(pen: Pen, points: &[(f64, f64)]) -> Shape {
    Shape::Path { points: points.iter().map(|&(x, y)| Point { x, y }).collect(), closed: false, hatched: false, pen }
}

fn words(at: Point, anchor: Anchor, label: Vec<Piece>) -> Shape {
    Shape::Label { at, anchor, label }
}

fn draw(row: &Row, y: f64, shapes: &mut Vec<Shape>) {
    let pen = if row.verdict == Verdict::Beyond { Pen::Beyond } else { Pen::Outline };
    shapes.push(line(pen, &[(if row.fed { FEED } else { FUSE_TO }, y), (RELAY_FROM, y)]));
    if let Some(fuse) = row.fuse {
        let corners = [(FUSE_FROM, y - 3.0), (FUSE_TO, y - 3.0), (FUSE_TO, y + 3.0), (FUSE_FROM, y + 3.0)];
        let points = corners.iter().map(|&(x, y)| Point { x, y }).collect();
        shapes.push(Shape::Path { points, closed: true, hatched: false, pen: Pen::Thin });
        let x = 0.5 * (FUSE_FROM + FUSE_TO);
        let rating: Vec<Piece> = vec![format!("{} A", fuse.in_amperes()).into()];
        shapes.push(words(Point { x, y: y + OFF_BOX }, Anchor::Middle, rating));
        if let Some(colour) = Fuse::new(fuse).colour() {
            shapes.push(words(Point { x, y: y - OFF_BOX }, Anchor::Middle, vec![colour.into()]));
        }
    }
    // A contact stands as it is without current: open.
    let contact = if row.relay { (RELAY_TO - 1.0, y + 5.0) } else { (RELAY_TO, y) };
    shapes.push(line(pen, &[(RELAY_FROM, y), contact]));
    shapes.push(line(pen, &[(RELAY_TO, y), (LOAD - LOAD_RADIUS, y)]));
    shapes.push(words(Point { x: WORDS, y: y + OFF_LINE }, Anchor::Start, vec![row.name.clone().into()]));
    shapes.push(words(Point { x: WORDS, y: y - OFF_LINE }, Anchor::Start, figures(row)));
    shapes.push(Shape::Circle { centre: Point { x: LOAD, y }, radius: LOAD_RADIUS, pen: Pen::Outline });
    way_back(row.back, y, pen, shapes);
}

/// `2.5 mm², 0.33 of 0.50 V`, or as much of it as is known.
fn figures(row: &Row) -> Vec<Piece> {
    let mut pieces = Vec::new();
    if let Ok(size) = row.size {
        pieces.push(Piece::Figure { value: size.si(), unit: CONDUCTOR, digits: 2 });
    }
    if let Ok((lost, allowed)) = row.lost {
        if !pieces.is_empty() {
            pieces.push(", ".into());
        }
        let lost = show::answer(lost.si(), V, 2).number;
        pieces.extend([format!("{lost} of ").into(), Piece::Figure { value: allowed.si(), unit: V, digits: 2 }]);
    }
    if pieces.is_empty() {
        pieces.push("not known".into());
    }
    pieces
}

/// Earth of the body (three falling lines), of the engine (a hatched slope under one line), or a contact to earth.
fn way_back(back: Return, y: f64, pen: Pen, shapes: &mut Vec<Shape>) {
    let from = LOAD + LOAD_RADIUS;
    match back {
        Return::NotCounted => shapes.push(line(Pen::Hidden, &[(from, y), (BACK, y)])),
        Return::OwnWire => shapes.push(line(pen, &[(from, y), (RIGHT, y)])),
        Return::LowSide => {
            shapes.push(line(pen, &[(from, y), (from + 2.0, y), (from + 9.0, y + 4.0)]));
            shapes.push(line(pen, &[(from + 10.0, y), (BACK, y)]));
            earth(y, shapes);
        }
        Return::Body => {
            shapes.push(line(pen, &[(from, y), (BACK, y)]));
            earth(y, shapes);
        }
        Return::Engine => {
            shapes.push(line(pen, &[(from, y), (BACK, y), (BACK, y - 3.0)]));
            shapes.push(line(Pen::Outline, &[(BACK - 5.0, y - 3.0), (BACK + 5.0, y - 3.0)]));
            for step in 0..4 {
                let x = BACK - 4.0 + 3.0 * f64::from(step);
                shapes.push(line(Pen::Thin, &[(x, y - 3.0), (x - 2.0, y - 5.5)]));
            }
        }
    }
}

fn earth(y: f64, shapes: &mut Vec<Shape>) {
    shapes.push(line(Pen::Outline, &[(BACK, y), (BACK, y - 3.0)]));
    for (step, half) in [5.0, 3.2, 1.4].into_iter().enumerate() {
        let level = y - 3.0 - 1.6 * step as f64;
        shapes.push(line(Pen::Outline, &[(BACK - half, level), (BACK + half, level)]));
    }
}

fn in_words(row: &Row) -> String {
    let fuse = match (row.fuse, row.fed) {
        (Some(fuse), _) => format!("{} A fuse", fuse.in_amperes()),
        (None, true) => "no fuse".into(),
        (None, false) => "no fuse needed".into(),
    };
    let relay = if row.relay { ", relay" } else { "" };
    let size = row.size.map_or("size not known".into(), |size| format!("{} mm²", size.in_square_millimetres()));
    let back = match row.back {
        Return::OwnWire => "back by its own wire",
        Return::LowSide => "switched to earth by the control unit",
        Return::Body => "back by the body",
        Return::Engine => "back by the engine",
        Return::NotCounted => "its way back in a row of its own",
    };
    format!("{}: {fuse}{relay}, {size}, {back}; {}. ", row.name, row.verdict.word())
}
