//! Section lines of ISO 128: thin, at 45°, clipped to the outline.

use super::At;
use trialfit_core::order::Order;

/// Lines rising to the right inside a closed chain, `apart` pixels from each other. Where the chain crosses itself or
/// runs around a hole, every second part is open.
pub(crate) fn hatch(outline: &[At], apart: f64) -> Vec<(At, At)> {
    // With y down, x + y stands still along a line that rises to the right.
    let sums = || outline.iter().map(|point| point.x + point.y).filter(|sum| sum.is_finite());
    let (least, most) = (sums().fold(f64::INFINITY, f64::min), sums().fold(f64::NEG_INFINITY, f64::max));
    let pitch = apart * core::f64::consts::SQRT_2;
    if outline.len() < 3 || !(most - least).is_finite() || (most - least) / pitch > 2000.0 {
        return Vec::new();
    }
    let mut lines = Vec::new();
    // Lines at whole multiples: sections that touch share them, and a moved part does not make them crawl.
    let mut sum = (least / pitch).floor() * pitch + pitch;
    while sum < most {
        let mut cuts = Vec::new();
        for (index, &from) in outline.iter().enumerate() {
            let to = outline[(index + 1) % outline.len()];
            let (before, after) = (from.x + from.y - sum, to.x + to.y - sum);
            if (before < 0.0) != (after < 0.0) {
                cuts.push(from + (to - from) * (before / (before - after)));
            }
        }
        cuts.order_by(|left, right| left.x.total_cmp(&right.x));
        lines.extend(cuts.chunks_exact(2).map(|pair| (pair[0], pair[1])));
        sum += pitch;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chain(points: &[(f64, f64)]) -> Vec<At> {
        points.iter().map(|&(x, y)| At::new(x, y)).collect()
    }

    #[test]
    fn a_square_is_filled_evenly_from_edge_to_edge() {
        let lines = hatch(&chain(&[(0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0)]), 6.0);
        // The diagonal is 84.85 px long: 14 lines 6 px apart fit in it.
        assert_eq!(lines.len(), 14);
        for (from, to) in lines {
            assert!((from.x + from.y - to.x - to.y).abs() < 1e-9, "at 45°");
            assert!(from.y > to.y, "rising to the right");
            for end in [from, to] {
                let on_edge = [end.x, end.y, 60.0 - end.x, 60.0 - end.y].iter().any(|gap| gap.abs() < 1e-9);
                assert!(on_edge, "{end:?}");
            }
        }
    }

    #[test]
    fn a_notch_stays_open() {
        // A U: the slot from x = 20 to 40 is open down to y = 50.
        let u = chain(&[(0.0, 0.0), (20.0, 0.0), (20.0, 50.0), (40.0, 50.0), (40.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0)]);
        for (from, to) in hatch(&u, 3.0) {
            let middle = (from + to) * 0.5;
            assert!(!(20.1..39.9).contains(&middle.x) || middle.y > 50.0, "{middle:?} lies in the slot");
        }
    }

    #[test]
    fn degenerate_outlines_give_nothing() {
        assert!(hatch(&chain(&[(0.0, 0.0), (5.0, 5.0)]), 6.0).is_empty());
        assert!(hatch(&chain(&[(0.0, 0.0), (f64::NAN, 5.0), (1.0, 1.0)]), 6.0).iter().all(|(from, _)| from.x.is_finite()));
    }
}
