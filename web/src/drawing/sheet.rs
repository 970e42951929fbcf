//! A scene laid out in a frame: SVG, and where its handles stand.

use super::dimension::{self, Drawn};
use super::fit::{Extent, Fit, arc_points, corners};
use crate::picture::{At, Frame, Ink, Room, Words, hatch, say};
use core::f64::consts::{PI, TAU};
use std::borrow::Cow;
use trialfit_core::scene::{Anchor, Handle, Pen, Point, Rows, Scene, Shape};
use trialfit_core::show::System;
use trialfit_core::spec::Place;

/// What the page shows of a scene.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Sheet {
    /// Inside of the `svg` element.
    pub(crate) svg: String,
    pub(crate) fit: Fit,
    /// Handles in the order of the scene.
    pub(crate) grips: Vec<Grip>,
}

/// A handle on the screen.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Grip {
    pub(crate) at: At,
    pub(crate) place: Place,
    pub(crate) label: String,
    /// Change of the input, SI, for each millimetre to the right and up.
    pub(crate) per: Point,
}

/// Distance of section lines, pixels.
const HATCHING: f64 = 6.0;
/// Pixels kept free at the edge, and around handles, which must be reached with a finger.
const MARGIN: f64 = 6.0;
const HANDLE_MARGIN: f64 = 22.0;
/// Radius of a punch mark with some air.
const PUNCH: f64 = 9.0;

/// Height of a row of a list that can be read, in em: two lines of words and the drawing between them.
const ROW: f64 = 3.2;

/// Least distance of rows, in em, where there is room: nearer, words would be pushed to another row's line.
const APART: f64 = 3.0;

/// As many rows of a list as can be read in the frame; any other scene as it is.
fn readable(scene: &Scene, frame: Frame) -> Cow<'_, Scene> {
    let Some(Rows { count, pitch }) = scene.rows else { return Cow::Borrowed(scene) };
    // A line of words stands over the first.
    let most = ((frame.height - 2.0 * MARGIN - 1.5 * frame.em) / (ROW * frame.em)).max(1.0) as usize;
    if most >= count {
        return Cow::Borrowed(scene);
    }
    let shown = |shape: &&Shape| corners(shape).iter().all(|point| point.y > -pitch * most as f64);
    Cow::Owned(Scene { shapes: scene.shapes.iter().filter(shown).cloned().collect(), ..scene.clone() })
}

/// Lays a scene out. While something is dragged its fit is `kept`, lest the ground move under the finger.
pub(crate) fn lay_out(scene: &Scene, frame: Frame, system: System, kept: Option<Fit>) -> Sheet {
    let scene = &*readable(scene, frame);
    let fit = kept.unwrap_or_else(|| fitted(scene, frame, system));
    let mut room = Room::new(frame.width, frame.height);
    let grip =
        |handle: &Handle| Grip { at: fit.at(handle.at), place: handle.place, label: handle.label.clone(), per: handle.per_millimetre };
    let grips: Vec<Grip> = scene.handles.iter().map(grip).collect();
    for shape in &scene.shapes {
        take_room(shape, fit, &mut room);
    }
    grips.iter().for_each(|grip| room.take_disc(grip.at, PUNCH));

    let mut ink = Ink::default();
    for shape in &scene.shapes {
        outline(shape, fit, &mut ink);
    }
    let (dimensions, labels) = annotate(scene, fit, system, frame.em, &mut room);
    for (Drawn { lines, arrows, words }, pen) in &dimensions {
        let (line, head, text) = match pen {
            Pen::Changing => ("ink-thin ink-changing", "ink-arrow ink-changing", "ink-words ink-changing"),
            Pen::Beyond => ("ink-thin", "ink-arrow", "ink-words ink-past"),
            _ => ("ink-thin", "ink-arrow", "ink-words"),
        };
        ink.strokes(line, lines);
        arrows.iter().for_each(|arrow| ink.chain(head, arrow, true));
        ink.words(text, words);
    }
    for label in &labels {
        ink.words("ink-words", label);
    }
    Sheet { svg: ink.finish(), fit, grips }
}

/// The largest scale at which the shapes and the words around them stay inside the frame.
fn fitted(scene: &Scene, frame: Frame, system: System) -> Fit {
    let extent = Extent::of(scene);
    let least = if scene.handles.is_empty() { MARGIN } else { HANDLE_MARGIN };
    let mut margins = [least; 4];
    let rise = scene.rows.map_or(0.0, |rows| APART * frame.em / rows.pitch);
    for _ in 0..3 {
        let fit = Fit::new(extent, frame, margins, rise);
        // Without regard to lines, only to each other: so the words stand where they would best.
        let mut room = Room::new(frame.width, frame.height);
        let (dimensions, labels) = annotate(scene, fit, system, frame.em, &mut room);
        let mut most = [0.0_f64; 4];
        for words in dimensions.iter().map(|(drawn, _)| &drawn.words).chain(&labels) {
            for (most, beyond) in most.iter_mut().zip(words.beyond(frame.width, frame.height, 3.0)) {
                *most = most.max(beyond);
            }
        }
        if most.iter().all(|&beyond| beyond < 0.5) {
            break;
        }
        let cap = [frame.width * 0.35, frame.height * 0.35, frame.width * 0.35, frame.height * 0.35];
        for side in 0..4 {
            margins[side] = (margins[side] + most[side]).min(cap[side]);
        }
    }
    Fit::new(extent, frame, margins, rise)
}

/// Dimensions with their pens, then labels.
fn annotate(scene: &Scene, fit: Fit, system: System, em: f64, room: &mut Room) -> (Vec<(Drawn, Pen)>, Vec<Words>) {
    let mut bare = Vec::new();
    for shape in &scene.shapes {
        if let Shape::Dimension { from, to, offset, label, pen } = shape {
            bare.push((dimension::draw(fit.at(*from), fit.at(*to), fit.pixels(*offset), em, room), say(label, system), *pen));
        }
    }
    let dimensions = bare.into_iter().map(|(bare, text, pen)| (bare.say(&text, em, room), pen)).collect();
    let labels = scene.shapes.iter().filter_map(|shape| {
        let Shape::Label { at, anchor, label } = shape else { return None };
        let (at, text) = (fit.at(*at), say(label, system));
        let around: &[_] = if scene.rows.is_some() { &IN_ROW } else { &AROUND };
        let ways = around.iter().map(|&(x, y)| {
            let away = At::new(x * em, y * em);
            (5.0 * away.length() / em, Words::level(text.clone(), at + away, *anchor, em))
        });
        // Also beside the point.
        let beside = [(Anchor::Start, 0.8), (Anchor::End, -0.8)].into_iter().flat_map(|(anchor, away)| {
            [0.0, -0.8, 0.8].map(|y| (12.0 + f64::abs(y), Words::level(text.clone(), at + At::new(away * em, y * em), anchor, em)))
        });
        room.place(ways.chain(beside.filter(|_| scene.rows.is_none())))
    });
    let labels = labels.collect();
    (dimensions, labels)
}

/// Where else a label may stand, in em from its point.
const AROUND: [(f64, f64); 15] = [
    (0.0, 0.0),
    (0.0, -1.1),
    (0.0, 1.1),
    (0.8, -0.6),
    (-0.8, -0.6),
    (0.8, 0.6),
    (-0.8, 0.6),
    (0.0, -1.9),
    (0.0, 1.9),
    (0.0, -2.7),
    (0.0, 2.7),
    (0.0, -3.5),
    (0.0, 3.5),
    (1.8, 0.0),
    (-1.8, 0.0),
];

/// The same in a list, where words at another line would tell of another row.
const IN_ROW: [(f64, f64); 5] = [(0.0, 0.0), (-0.4, 0.0), (0.4, 0.0), (-0.8, 0.0), (0.8, 0.0)];

fn pen_class(pen: Pen) -> &'static str {
    match pen {
        Pen::Outline => "ink-outline",
        Pen::Thin => "ink-thin",
        Pen::Axis => "ink-axis",
        Pen::Hidden => "ink-hidden",
        Pen::Fitted => "ink-alternative",
        Pen::Heavy => "ink-heavy",
        Pen::Changing => "ink-outline ink-changing",
        Pen::Beyond => "ink-beyond",
    }
}

/// How bad words over a line of this kind are.
fn weight(pen: Pen) -> u8 {
    match pen {
        Pen::Heavy | Pen::Beyond => 14,
        Pen::Outline | Pen::Changing => 9,
        Pen::Thin | Pen::Hidden | Pen::Fitted => 4,
        Pen::Axis => 2,
    }
}

fn on_screen(points: &[Point], fit: Fit) -> Vec<At> {
    points.iter().map(|&point| fit.at(point)).filter(|at| at.x.is_finite() && at.y.is_finite()).collect()
}

fn take_room(shape: &Shape, fit: Fit, room: &mut Room) {
    match shape {
        Shape::Path { closed, pen, .. } => room.take_chain(&on_screen(&corners(shape), fit), *closed, weight(*pen)),
        Shape::Circle { pen, .. } => room.take_chain(&on_screen(&corners(shape), fit), true, weight(*pen)),
        Shape::Arc { pen, .. } => room.take_chain(&on_screen(&corners(shape), fit), false, weight(*pen)),
        Shape::Dimension { .. } | Shape::Label { .. } => {}
    }
}

fn outline(shape: &Shape, fit: Fit, ink: &mut Ink) {
    match shape {
        Shape::Path { points, closed, hatched, pen } => {
            let points = on_screen(points, fit);
            if *hatched {
                ink.strokes("ink-hatching", &hatch(&points, HATCHING));
            }
            ink.chain(pen_class(*pen), &points, *closed);
        }
        Shape::Circle { centre, radius, pen } => {
            let (centre, radius) = (fit.at(*centre), fit.pixels(*radius));
            if centre.x.is_finite() && centre.y.is_finite() && radius.is_finite() {
                ink.circle(pen_class(*pen), centre, radius);
            }
        }
        Shape::Arc { centre, radius, from, sweep, pen } => ink.path(pen_class(*pen), &arc(*centre, *radius, *from, *sweep, fit)),
        Shape::Dimension { .. } | Shape::Label { .. } => {}
    }
}

/// Path commands of an arc; a whole turn in two halves, as one command cannot make it.
fn arc(centre: Point, radius: f64, from: f64, sweep: f64, fit: Fit) -> String {
    let sweep = sweep.clamp(-TAU, TAU);
    if !(centre.x + centre.y + radius + from + sweep).is_finite() {
        return String::new();
    }
    let pixels = fit.pixels(radius);
    // y is up in the scene and down on the screen: counter-clockwise there is a falling angle here.
    let turning = u8::from(sweep < 0.0);
    let parts = if sweep.abs() > PI { 2.0 } else { 1.0 };
    let mut commands = String::new();
    for part in 0..=parts as usize {
        let ends = arc_points(centre, radius, from, sweep * part as f64 / parts);
        let Some(end) = ends.last().map(|&end| fit.at(end)) else { continue };
        if part == 0 {
            commands.push_str(&format!("M{:.1} {:.1}", end.x, end.y));
        } else {
            commands.push_str(&format!("A{pixels:.1} {pixels:.1} 0 0 {turning} {:.1} {:.1}", end.x, end.y));
        }
    }
    commands
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::quantity::unit::MM;
    use trialfit_core::sentence::Piece;
    use trialfit_core::spec::Id;

    const FRAME: Frame = Frame { width: 328.0, height: 300.0, em: 13.0 };

    fn point(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    fn scene() -> Scene {
        let dimension = Shape::Dimension {
            from: point(0.0, 0.0),
            to: point(240.0, 0.0),
            offset: -60.0,
            label: vec!["span ".into(), Piece::figure(0.24, MM)],
            pen: Pen::Thin,
        };
        let handle = Handle {
            at: point(240.0, 80.0),
            place: Place::from(Id { calculator: 0, ordinal: 0 }),
            label: "alternator, across".into(),
            per_millimetre: point(0.001, 0.0),
        };
        Scene {
            title: "Belt path".into(),
            description: String::new(),
            shapes: vec![
                Shape::Circle { centre: point(0.0, 0.0), radius: 73.0, pen: Pen::Outline },
                Shape::Circle { centre: point(240.0, 80.0), radius: 28.0, pen: Pen::Outline },
                Shape::Arc { centre: point(0.0, 0.0), radius: 73.0, from: 2.0, sweep: 3.5, pen: Pen::Heavy },
                dimension,
                Shape::Label { at: point(240.0, 80.0), anchor: Anchor::Middle, label: vec!["alternator".into()] },
            ],
            handles: vec![handle],
            rows: None,
        }
    }

    #[test]
    fn words_stay_inside_the_frame_and_off_each_other() {
        for frame in [FRAME, Frame { height: 190.0, ..FRAME }, Frame { width: 900.0, height: 600.0, em: 15.0 }] {
            let fit = fitted(&scene(), frame, System::Metric);
            let mut room = Room::new(frame.width, frame.height);
            let (dimensions, labels) = annotate(&scene(), fit, System::Metric, frame.em, &mut room);
            let mut taken = Room::new(frame.width, frame.height);
            for words in dimensions.iter().map(|(drawn, _)| &drawn.words).chain(&labels) {
                assert!(taken.overlap(words) < 1.0, "{words:?} in {frame:?}");
                taken.take_words(words);
            }
        }
    }

    #[test]
    fn a_low_frame_shows_as_many_rows_as_can_be_read() {
        let words = |row| Shape::Label { at: point(0.0, 10.0 - 20.0 * f64::from(row)), anchor: Anchor::Start, label: vec!["row".into()] };
        let list =
            Scene { shapes: (1..=6).map(words).collect(), handles: Vec::new(), rows: Some(Rows { count: 6, pitch: 20.0 }), ..scene() };
        let shown = |height| readable(&list, Frame { height, ..FRAME }).shapes.len();
        assert_eq!([90.0, 140.0, 184.0, 300.0, 900.0].map(shown), [1, 2, 3, 6, 6]);
        assert_eq!(*readable(&scene(), Frame { height: 90.0, ..FRAME }), scene());
    }

    #[test]
    fn words_of_a_list_stay_with_their_row() {
        let line = |row: f64| -20.0 * (row + 0.5);
        let rows = (0..4).map(f64::from);
        let shapes = rows.flat_map(|row| {
            let y = line(row);
            let path = Shape::Path { points: vec![point(0.0, y), point(160.0, y)], closed: false, hatched: false, pen: Pen::Outline };
            let words =
                |off: f64, text: &'static str| Shape::Label { at: point(42.0, y + off), anchor: Anchor::Start, label: vec![text.into()] };
            let load = Shape::Circle { centre: point(135.0, y), radius: 5.0, pen: Pen::Outline };
            [path, words(4.5, "11 Oxygen sensor heater"), words(-4.5, "0.75 mm², 0.094 of 0.10 V"), load]
        });
        let list = Scene { shapes: shapes.collect(), handles: Vec::new(), rows: Some(Rows { count: 4, pitch: 20.0 }), ..scene() };
        let frame = Frame { width: 272.0, height: 230.0, ..FRAME };
        let fit = fitted(&list, frame, System::Metric);
        let apart = fit.at(point(0.0, line(1.0))).y - fit.at(point(0.0, line(0.0))).y;
        assert!((apart - APART * frame.em).abs() < 1e-6, "{apart}");
        let mut room = Room::new(frame.width, frame.height);
        list.shapes.iter().for_each(|shape| take_room(shape, fit, &mut room));
        let (_, labels) = annotate(&list, fit, System::Metric, frame.em, &mut room);
        assert_eq!(labels.len(), 8);
        for (at, words) in labels.iter().enumerate() {
            let off = words.at.y - fit.at(point(0.0, line((at / 2) as f64))).y;
            assert!((off < 0.0) == (at % 2 == 0) && off.abs() < 0.5 * apart, "{words:?} stands {off} off its line");
        }
    }

    #[test]
    fn figures_follow_the_readers_units() {
        let metric = lay_out(&scene(), FRAME, System::Metric, None).svg;
        let imperial = lay_out(&scene(), FRAME, System::Imperial, None).svg;
        assert!(metric.contains("span 240\u{A0}mm") && imperial.contains("span 9.45\u{A0}in"));
    }

    #[test]
    fn a_kept_fit_moves_only_what_moved() {
        let before = lay_out(&scene(), FRAME, System::Metric, None);
        let mut moved = scene();
        moved.handles[0].at = point(640.0, 80.0);
        let after = lay_out(&moved, FRAME, System::Metric, Some(before.fit));
        let way = after.grips[0].at - before.grips[0].at;
        assert!((way.x - before.fit.pixels(400.0)).abs() < 1e-9 && way.y.abs() < 1e-9);
        assert_ne!(lay_out(&moved, FRAME, System::Metric, None).fit, before.fit);
    }

    #[test]
    fn more_than_half_a_turn_is_drawn_in_two_arcs_and_goes_the_right_way() {
        let fit = Fit::new(Extent::of(&scene()), FRAME, [20.0; 4], 0.0);
        let long = arc(point(0.0, 0.0), 73.0, 0.0, 3.5, fit);
        assert_eq!(long.matches('A').count(), 2);
        assert!(long.contains(" 0 0 0 "), "counter-clockwise on the screen too: {long}");
        assert!(arc(point(0.0, 0.0), 73.0, 0.0, -1.0, fit).contains(" 0 0 1 "));
    }

    #[test]
    fn numbers_that_are_none_draw_nothing() {
        let mut broken = scene();
        broken.shapes.push(Shape::Circle { centre: point(f64::NAN, 0.0), radius: 1.0, pen: Pen::Outline });
        broken.shapes.push(Shape::Arc { centre: point(0.0, 0.0), radius: f64::INFINITY, from: 0.0, sweep: 1.0, pen: Pen::Outline });
        let svg = lay_out(&broken, FRAME, System::Metric, None).svg;
        assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
    }
}
