//! Words on a chart: names of curves, limits, bands and points, each where it can be read.

use super::sheet::Area;
use crate::language::says;
use crate::picture::{At, Room, Words};
use crate::words;
use trialfit_core::chart::{Chart, Edge};
use trialfit_core::scene::Anchor;
use trialfit_core::show::{System, answer, figure};

/// A limit's name and number.
pub(super) fn edge(edge: &Edge, chart: &Chart, system: System) -> String {
    format!("{} {}", edge.label, figure(edge.at, chart.y.unit, 3, system))
}

/// Every label with its class, those with the least choice of place first.
pub(super) fn place(
    chart: &Chart,
    edges: &[&Edge],
    curves: &[Vec<Vec<At>>],
    spots: &[At],
    area: &Area,
    room: &mut Room,
) -> Vec<(Words, &'static str)> {
    let mut placed = Vec::new();
    for (spot, &at) in chart.spots.iter().zip(spots) {
        // Points that can be taken are many and have a list; marks are few and speak for themselves.
        if spot.present || spot.sets.is_empty() {
            let class = if spot.present { "ink-words ink-changing" } else { "ink-words" };
            placed.extend(spot_label(&spot.label, at, spot.present, area, room).map(|words| (words, class)));
        }
    }
    for edge in edges {
        placed.extend(edge_label(edge, area, room).map(|words| (words, "ink-words")));
    }
    for (at, curve) in curves.iter().enumerate() {
        placed.extend(curve_label(&chart.curves[at].label, curve, curves, at, area, room).map(|words| (words, "ink-words")));
    }
    for &band in &chart.bands {
        placed.extend(band_label(band, area, room).map(|words| (words, "ink-words ink-title")));
    }
    placed
}

fn spot_label(text: &str, at: At, present: bool, area: &Area, room: &mut Room) -> Option<Words> {
    let (em, clear) = (area.em, if present { 9.0 } else { 4.0 });
    let text = says(text);
    let level = |x: f64, y: f64, anchor| Words::level(text.clone().into_owned(), at + At::new(x, y), anchor, em);
    let (beside, over, slanted) = (clear + 4.0, clear + 0.8 * em, clear + 0.6 * em);
    room.place([
        (0.0, level(beside, 0.0, Anchor::Start)),
        (0.5, level(-beside, 0.0, Anchor::End)),
        (1.0, level(0.0, -over, Anchor::Middle)),
        (1.0, level(0.0, over, Anchor::Middle)),
        (2.0, level(clear, -slanted, Anchor::Start)),
        (2.0, level(-clear, -slanted, Anchor::End)),
        (2.0, level(clear, slanted, Anchor::Start)),
        (2.0, level(-clear, slanted, Anchor::End)),
    ])
}

/// On the allowed side close to the line, or beyond the strokes.
fn edge_label(edge: &Edge, area: &Area, room: &mut Room) -> Option<Words> {
    let (y, em) = (area.y.at(edge.at), area.em);
    let aside = if edge.above { -1.0 } else { 1.0 };
    let text = says(&format!("{} {}", edge.label, answer(edge.at, area.y.unit, 3))).into_owned();
    let half = Words::level(text.clone(), At::new(0.0, 0.0), Anchor::Middle, em).width() / 2.0;
    let (near, past) = (-aside * 0.85 * em, aside * (7.0 + 0.75 * em));
    let (left, right) = (area.left + 4.0 + half, (area.right - 2.0 - half).max(area.left + 4.0 + half));
    let ways = [(0.0, near), (3.0, past)].into_iter().flat_map(|(price, side)| {
        // From the right, where curves have mostly gone apart, to the left.
        (0..=6).map(move |step| (price + 0.2 * f64::from(step), right + (left - right) * f64::from(step) / 6.0, side))
    });
    room.place(ways.map(|(price, x, side)| (price, Words::level(text.clone(), At::new(x, y + side), Anchor::Middle, em))))
}

fn band_label(band: (f64, f64), area: &Area, room: &mut Room) -> Option<Words> {
    let (from, to) = area.band(band)?;
    let em = area.em;
    let heights = [area.bottom - 0.9 * em, area.top + 0.8 * em, area.bottom - 2.2 * em, (area.top + area.bottom) / 2.0];
    let ways = heights.into_iter().enumerate().flat_map(|(index, y)| {
        [0.5, 0.3, 0.7].map(|share| {
            let at = At::new(from + (to - from) * share, y);
            (index as f64 + 2.0 * f64::abs(share - 0.5), Words::level(says(words::WITHIN).into_owned(), at, Anchor::Middle, em))
        })
    });
    room.place(ways)
}

/// A label beside its own curve, clear of the others.
fn curve_label(text: &str, own: &[Vec<At>], all: &[Vec<Vec<At>>], which: usize, area: &Area, room: &mut Room) -> Option<Words> {
    let (text, em) = (says(text), area.em);
    let points: Vec<At> = own.iter().flat_map(|run| along(run, 0.9 * em)).collect();
    let others: Vec<At> = all
        .iter()
        .enumerate()
        .filter(|(at, _)| *at != which)
        .flat_map(|(_, runs)| runs.iter().flat_map(|run| along(run, 0.9 * em)))
        .collect();
    let last = points.last()?.x;
    let ways = points.iter().flat_map(|&point| {
        [-0.85 * em, 0.85 * em, -1.3 * em, 1.3 * em].map(|lift| {
            let at = point + At::new(0.0, lift);
            let words = Words::level(text.clone().into_owned(), at, Anchor::Middle, em);
            // Rather near the end of the curve, rather above it, and never nearer to another than to its own.
            let mut price = 0.01 * (last - point.x) + if lift < 0.0 { 0.0 } else { 0.5 } + (lift.abs() / em - 0.85) * 3.0;
            let half = words.width() / 2.0;
            price += 8.0 * (area.left + 3.0 - (at.x - half)).max(0.0) + 8.0 * (at.x + half - area.right).max(0.0);
            price += 8.0 * (area.top - (at.y - 0.5 * em)).max(0.0) + 8.0 * (at.y + 0.5 * em - area.bottom).max(0.0);
            let rival = others.iter().map(|&other| (other - at).length()).fold(f64::INFINITY, f64::min);
            price += 1.5 * (1.6 * lift.abs() - rival).max(0.0);
            (price, words)
        })
    });
    room.place(ways)
}

/// Points along a chain, about so far apart, both ends among them.
fn along(run: &[At], apart: f64) -> Vec<At> {
    let mut points: Vec<At> = run.first().copied().into_iter().collect();
    for pair in run.windows(2) {
        let steps = ((pair[1] - pair[0]).length() / apart).ceil().clamp(1.0, 200.0);
        points.extend((1..=steps as usize).map(|step| pair[0] + (pair[1] - pair[0]) * (step as f64 / steps)));
    }
    // Dense data need not be tried at every point.
    let every = (points.len() / 60).max(1);
    let end = points.last().copied();
    points.into_iter().step_by(every).chain(end).collect()
}
