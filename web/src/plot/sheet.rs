//! A chart laid out in a frame: SVG, and where its points to take stand.

use super::axis::{Scale, title};
use super::labels;
use crate::drawing::arrow;
use crate::language;
use crate::picture::{At, Frame, Ink, Room, Words, hatch, width};
use trialfit_core::chart::{Chart, Curve, Edge, FITTED};
use trialfit_core::scene::Anchor;
use trialfit_core::show::{System, answer};

/// What the page shows of a chart.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Sheet {
    /// Inside of the `svg` element.
    pub(crate) svg: String,
    /// Points to take, in the order of the chart.
    pub(crate) spots: Vec<At>,
    /// Limits too far off to be drawn, in words.
    pub(crate) far: Vec<String>,
}

/// How far off the values a limit may lie, in spans of theirs, and still be drawn.
const FAR: f64 = 1.0;
/// Distance between the strokes of a limit's edge, and of a band; pixels.
const EDGE: f64 = 7.0;
const BAND: f64 = 22.0;

pub(super) struct Area {
    pub(super) x: Scale,
    pub(super) y: Scale,
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
    pub(super) em: f64,
}

impl Area {
    /// Whether a place along x lies inside.
    pub(super) fn shows(&self, x: f64) -> bool {
        (self.left - 0.5..=self.right + 0.5).contains(&self.x.at(x))
    }

    /// What of a band lies inside.
    pub(super) fn band(&self, band: (f64, f64)) -> Option<(f64, f64)> {
        let [one, other] = [band.0, band.1].map(|x| self.x.at(x).clamp(self.left, self.right));
        let (from, to) = (one.min(other), one.max(other));
        (to - from >= 0.5).then_some((from, to))
    }

    fn at(&self, x: f64, y: f64) -> At {
        At::new(self.x.at(x), self.y.at(y))
    }
}

/// Lays a chart out.
pub(crate) fn lay_out(chart: &Chart, frame: Frame, system: System) -> Sheet {
    let (near, far) = limits(chart);
    let area = area(chart, &near, frame, system);
    let mut room = Room::new(frame.width, frame.height);
    let curves: Vec<Vec<Vec<At>>> = chart.curves.iter().map(|curve| runs(curve, &area)).collect();
    let spots: Vec<At> = chart.spots.iter().map(|spot| area.at(spot.at.0, spot.at.1)).collect();
    for run in curves.iter().flatten() {
        room.take_chain(run, false, 10);
    }
    spots.iter().for_each(|&spot| room.take_disc(spot, 4.0));

    let mut ink = Ink::default();
    chart.bands.iter().for_each(|&band| draw_band(band, &area, &mut ink));
    draw_axes(chart, &area, &mut ink, &mut room);
    near.iter().for_each(|edge| draw_edge(edge, &area, &mut ink, &mut room));
    for (curve, runs) in chart.curves.iter().zip(&curves) {
        runs.iter().for_each(|run| ink.chain(if curve.dashed { "ink-fitted" } else { "ink-curve" }, run, false));
    }
    if let Some(fitted) = chart.fitted.filter(|&fitted| area.shows(fitted)) {
        draw_fitted(chart, fitted, &area, &mut ink, &mut room);
    }
    let present = chart.present.filter(|&present| area.shows(present));
    if let Some(present) = present {
        draw_present(chart, present, &area, &mut ink, &mut room);
    }
    draw_spots(chart, &spots, &mut ink, &mut room);

    // Words last: over every line, and where none is if there is room.
    for (words, class) in labels::place(chart, &near, &curves, &spots, &area, &mut room) {
        ink.words(class, &words);
    }
    let far = far.into_iter().map(|edge| labels::edge(edge, chart, system)).collect();
    Sheet { svg: ink.finish(), spots, far }
}

/// Limits near enough to the values to be drawn, and the others.
fn limits(chart: &Chart) -> (Vec<&Edge>, Vec<&Edge>) {
    let (mut least, mut greatest) = (f64::INFINITY, f64::NEG_INFINITY);
    for y in values(chart) {
        (least, greatest) = (least.min(y), greatest.max(y));
    }
    // A span of nothing, or from far above nothing, still lets a limit at some distance in.
    let reach = FAR * (greatest - least).max(0.5 * greatest.abs());
    chart.edges.iter().partition(|edge| !reach.is_finite() || (edge.at >= least - reach && edge.at <= greatest + reach))
}

fn values(chart: &Chart) -> impl Iterator<Item = f64> + '_ {
    let curves = chart.curves.iter().flat_map(|curve| curve.points.iter().filter_map(|point| point.1));
    curves.chain(chart.spots.iter().map(|spot| spot.at.1)).filter(|value| value.is_finite())
}

fn area(chart: &Chart, edges: &[&Edge], frame: Frame, system: System) -> Area {
    let em = frame.em;
    let across = chart.curves.iter().flat_map(|curve| curve.points.iter().map(|point| point.0));
    let across = across.chain(chart.spots.iter().map(|spot| spot.at.0));
    let air = if chart.spots.is_empty() { 0.0 } else { 0.07 };
    let x = Scale::new(&chart.x, across, system, air, false, (frame.width / (4.6 * em)) as usize);
    let up = values(chart).chain(edges.iter().map(|edge| edge.at));
    let y = Scale::new(&chart.y, up, system, 0.07, chart.spots.is_empty(), (frame.height / (3.4 * em)) as usize);
    let left = y.widest(em) + 9.0;
    let right = frame.width - (x.ticks.last().map_or(0.0, |(_, label)| width(label, em)) / 2.0).max(6.0);
    let (top, bottom) = (1.7 * em, frame.height - 2.9 * em);
    Area { x: x.between(left, right), y: y.between(bottom, top), left, top, right, bottom, em }
}

/// The unbroken parts of a curve.
fn runs(curve: &Curve, area: &Area) -> Vec<Vec<At>> {
    let mut runs = vec![Vec::new()];
    for &(x, y) in &curve.points {
        let at = y.map(|y| area.at(x, y)).filter(|at| at.x.is_finite() && at.y.is_finite());
        match (at, runs.last_mut()) {
            (Some(at), Some(run)) => run.push(at),
            _ => runs.push(Vec::new()),
        }
    }
    runs.retain(|run| !run.is_empty());
    runs
}

fn draw_axes(chart: &Chart, area: &Area, ink: &mut Ink, room: &mut Room) {
    let Area { left, top, right, bottom, em, .. } = *area;
    let mut lines = vec![(At::new(left, bottom), At::new(right, bottom)), (At::new(left, bottom), At::new(left, top))];
    let present = chart.present.map(|present| (area.x.at(present), present_words(present, area).width()));
    for (number, label) in &area.y.ticks {
        let at = At::new(left, area.y.at_number(*number));
        lines.push((at - At::new(4.0, 0.0), at));
        ink.words("ink-words ink-tick", &Words::level(label.clone(), at - At::new(7.0, 0.0), Anchor::End, em));
    }
    for (number, label) in &area.x.ticks {
        let at = At::new(area.x.at_number(*number), bottom);
        lines.push((at, at + At::new(0.0, 4.0)));
        let words = Words::level(label.clone(), at + At::new(0.0, 4.0 + 0.8 * em), Anchor::Middle, em);
        // The present value is written in the same row and goes first.
        let free = present.is_none_or(|(there, width)| (there - at.x).abs() > 0.5 * (width + words.width()) + 0.5 * em);
        if free {
            ink.words("ink-words ink-tick", &words);
        }
    }
    ink.strokes("ink-thin", &lines);
    let y_title = Words::level(title(&chart.y, area.y.unit), At::new(0.0, 0.7 * em), Anchor::Start, em);
    let x_title = Words::level(title(&chart.x, area.x.unit), At::new(right, bottom + 2.2 * em + 2.0), Anchor::End, em);
    for words in [y_title, x_title] {
        ink.words("ink-words ink-title", &words);
        room.take_words(&words);
    }
    room.take_line(lines[0].0, lines[0].1, 6);
    room.take_line(lines[1].0, lines[1].1, 20);
}

/// A limit: a line with short strokes on the forbidden side, and its name.
fn draw_edge(edge: &Edge, area: &Area, ink: &mut Ink, room: &mut Room) {
    let y = area.y.at(edge.at);
    let (from, to) = (At::new(area.left, y), At::new(area.right, y));
    let aside = if edge.above { -1.0 } else { 1.0 };
    let mut strokes = Vec::new();
    let mut x = area.left + EDGE;
    while x <= area.right {
        strokes.push((At::new(x, y), At::new(x - 5.0, y + 6.0 * aside)));
        x += EDGE;
    }
    ink.chain("ink-edge", &[from, to], false);
    ink.strokes("ink-thin", &strokes);
    room.take_line(from, to, 12);
    room.take_line(from + At::new(0.0, 4.0 * aside), to + At::new(0.0, 4.0 * aside), 5);
}

/// A band in which everything is well: sparse hatching, and a bar on the axis from end to end.
fn draw_band(band: (f64, f64), area: &Area, ink: &mut Ink) {
    let Some((from, to)) = area.band(band) else { return };
    let corners = [(from, area.top), (to, area.top), (to, area.bottom), (from, area.bottom)].map(|(x, y)| At::new(x, y));
    ink.strokes("ink-band", &hatch(&corners, BAND));
    let sides = [from, to].map(|x| (At::new(x, area.top), At::new(x, area.bottom)));
    ink.strokes("ink-band", &sides);
    let bar = |x: f64| (At::new(x, area.bottom - 5.0), At::new(x, area.bottom + 5.0));
    ink.strokes("ink-bar", &[(At::new(from, area.bottom), At::new(to, area.bottom)), bar(from), bar(to)]);
}

fn present_words(present: f64, area: &Area) -> Words {
    let text = language::number(&answer(present, area.x.unit, 3).to_string()).into_owned();
    let width = width(&text, area.em);
    let x = area.x.at(present).clamp(width / 2.0, (area.right - width / 2.0).max(width / 2.0));
    Words::level(text, At::new(x, area.bottom + 4.0 + 0.8 * area.em), Anchor::Middle, area.em)
}

/// The present value: a projection line up from the axis, its figure below, a punch mark on every curve it meets.
fn draw_present(chart: &Chart, present: f64, area: &Area, ink: &mut Ink, room: &mut Room) {
    let x = area.x.at(present);
    let (foot, head) = (At::new(x, area.bottom), At::new(x, area.top));
    ink.chain("ink-thin ink-changing", &[foot, head], false);
    ink.chain("ink-arrow ink-changing", &arrow(foot, At::new(0.0, 1.0)), true);
    ink.words("ink-words ink-changing", &present_words(present, area));
    room.take_line(foot, head, 6);
    for curve in &chart.curves {
        if let Some(y) = curve.at(present) {
            let at = area.at(present, y);
            ink.circle("ink-punch", at, 3.5);
            room.take_disc(at, 4.0);
        }
    }
}

/// The fitted value: a dashed line with its name, a ring on every curve it meets.
fn draw_fitted(chart: &Chart, fitted: f64, area: &Area, ink: &mut Ink, room: &mut Room) {
    let x = area.x.at(fitted);
    let (foot, head) = (At::new(x, area.bottom), At::new(x, area.top));
    ink.chain("ink-fitted", &[foot, head], false);
    room.take_line(foot, head, 6);
    let ends = [(Anchor::Start, 4.0), (Anchor::End, -4.0)];
    let ways = ends.into_iter().flat_map(|(anchor, away)| {
        [0.7, 1.9, 3.1].map(|down| {
            let at = head + At::new(away, down * area.em);
            (down, Words::level(language::says(FITTED).into_owned(), at, anchor, area.em))
        })
    });
    if let Some(words) = room.place(ways) {
        ink.words("ink-words", &words);
    }
    for y in chart.curves.iter().filter_map(|curve| curve.at(fitted)) {
        let at = area.at(fitted, y);
        ink.circle("ink-fitted", at, 4.0);
        room.take_disc(at, 5.0);
    }
}

/// Points to take: a disc inside every limit, a cross outside; the present one ringed, with a punch mark.
fn draw_spots(chart: &Chart, spots: &[At], ink: &mut Ink, room: &mut Room) {
    for (spot, &at) in chart.spots.iter().zip(spots).filter(|(spot, at)| !spot.present && at.x.is_finite() && at.y.is_finite()) {
        if spot.good {
            ink.circle("ink-good", at, 4.0);
        } else {
            let (rising, falling) = (At::new(3.5, -3.5), At::new(3.5, 3.5));
            ink.strokes("ink-bad", &[(at - rising, at + rising), (at - falling, at + falling)]);
        }
    }
    for (spot, &at) in chart.spots.iter().zip(spots).filter(|(spot, _)| spot.present) {
        ink.circle("ink-ring", at, 9.0);
        if spot.good {
            ink.circle("ink-punch", at, 4.0);
        } else {
            let (rising, falling) = (At::new(4.0, -4.0), At::new(4.0, 4.0));
            ink.strokes("ink-bad ink-changing", &[(at - rising, at + rising), (at - falling, at + falling)]);
        }
        room.take_disc(at, 9.0);
    }
}
