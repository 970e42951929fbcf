//! Paths over many pulleys: reference layouts, and an independent way to the same numbers.

use trialfit_core::calculators::front_drive::adjuster::{self, Adjuster};
use trialfit_core::calculators::front_drive::belt_path::{BeltPath, Impossible, Pulley, Side, close};
use trialfit_core::calculators::front_drive::{Hand, Point, clearance};
use trialfit_core::quantity::{degrees, metres, millimetres};
use trialfit_tests::{agrees, agrees_within};

const COMPUTED: &str = "shapely hull or scipy fsolve, then polyline, computed";

/// x, y, diameter; +1 ribs, −1 back.
type Row = [f64; 4];

struct Layout {
    name: &'static str,
    rows: &'static [Row],
    length: f64,
    spans: &'static [f64],
    wraps: &'static [f64],
    /// Least gap of a span to a third pulley, and which (counted from 1).
    span_gap: (f64, usize, usize),
    pulley_gap: f64,
}

const LAYOUTS: [Layout; 5] = [
    Layout {
        name: "B9",
        rows: &[[0.0, 0.0, 160.0, 1.0], [220.0, 80.0, 60.0, 1.0], [60.0, 260.0, 130.0, 1.0]],
        length: 1122.488155,
        spans: &[228.691933, 238.275051, 266.411336],
        wraps: &[138.533082, 90.961283, 130.505635],
        span_gap: (177.820908, 2, 1),
        pulley_gap: 121.833281,
    },
    Layout {
        name: "B10",
        rows: &[[0.0, 0.0, 150.0, 1.0], [260.0, 40.0, 70.0, 1.0], [200.0, 250.0, 56.0, 1.0], [-20.0, 230.0, 120.0, 1.0]],
        length: 1254.075414,
        spans: &[260.000000, 218.291090, 218.577217, 230.380121],
        wraps: &[106.247841, 90.289761, 69.083333, 94.379064],
        span_gap: (188.309195, 2, 4),
        pulley_gap: 95.867928,
    },
    Layout {
        name: "B11",
        rows: &[
            [0.0, 0.0, 150.0, 1.0],
            [260.0, 40.0, 70.0, 1.0],
            [215.0, 150.0, 76.0, -1.0],
            [200.0, 250.0, 56.0, 1.0],
            [-20.0, 230.0, 120.0, 1.0],
        ],
        length: 1317.746609,
        spans: &[260.000000, 93.786993, 76.609399, 218.577217, 230.380121],
        wraps: &[106.247841, 132.652445, 92.359334, 119.079983, 94.379064],
        span_gap: (90.665027, 4, 3),
        pulley_gap: 35.118742,
    },
    Layout {
        name: "B12",
        rows: &[[0.0, 0.0, 160.0, 1.0], [220.0, 80.0, 60.0, 1.0], [150.0, 170.0, 70.0, -1.0], [60.0, 260.0, 130.0, 1.0]],
        length: 1171.192349,
        spans: &[228.691933, 93.674970, 78.740079, 266.411336],
        wraps: &[138.533082, 130.315435, 79.414403, 170.565886],
        span_gap: (81.823273, 2, 4),
        pulley_gap: 27.279221,
    },
    Layout {
        name: "B13",
        rows: &[
            [0.0, 0.0, 165.0, 1.0],
            [250.0, -10.0, 58.0, 1.0],
            [170.0, 95.0, 76.0, -1.0],
            [240.0, 220.0, 110.0, 1.0],
            [80.0, 150.0, 76.0, -1.0],
            [-120.0, 210.0, 135.0, 1.0],
        ],
        length: 1776.318888,
        spans: &[244.413072, 113.736538, 108.977062, 147.820838, 180.193646, 241.402154],
        wraps: &[73.866960, 147.749240, 137.531423, 215.530974, 102.852434, 163.236683],
        span_gap: (29.352283, 4, 3),
        pulley_gap: 29.475116,
    },
];

fn pulleys(rows: &[Row]) -> Vec<Pulley> {
    rows.iter()
        .map(|&[x, y, diameter, side]| Pulley {
            centre: Point::new(millimetres(x), millimetres(y)),
            diameter: millimetres(diameter),
            side: if side > 0.0 { Side::Ribs } else { Side::Back },
        })
        .collect()
}

fn check(layout: &Layout, path: &BeltPath) {
    agrees(path.length.in_millimetres(), layout.length, 1e-5, layout.name);
    agrees(path.turning.in_degrees(), 360.0, 1e-9, "one turn");
    for (got, expected) in path.spans().iter().zip(layout.spans) {
        agrees(got.length.in_millimetres(), *expected, 1e-5, layout.name);
    }
    for (got, expected) in path.arcs().iter().zip(layout.wraps) {
        agrees(got.wrap.in_degrees(), *expected, 1e-5, layout.name);
    }
}

#[test]
fn reference_layouts() {
    for layout in &LAYOUTS {
        let path = close(&pulleys(layout.rows)).expect(layout.name);
        assert_eq!(path.listed, Hand::Anticlockwise);
        assert_eq!(path.spans().len(), layout.spans.len());
        check(layout, &path);
    }
}

#[test]
fn the_same_listed_the_other_way_round() {
    for layout in &LAYOUTS {
        let mut all = pulleys(layout.rows);
        all.reverse();
        let path = close(&all).expect(layout.name);
        assert_eq!(path.listed, Hand::Clockwise);
        let count = all.len();
        agrees(path.length.in_millimetres(), layout.length, 1e-5, layout.name);
        for at in 0..count {
            let wrap = path.arcs()[count - 1 - at].wrap.in_degrees();
            agrees(wrap, layout.wraps[at], 1e-5, layout.name);
            let span = path.spans()[(2 * count - 2 - at) % count].length.in_millimetres();
            agrees(span, layout.spans[at], 1e-5, layout.name);
        }
    }
}

#[test]
fn gaps() {
    for layout in &LAYOUTS {
        let all = pulleys(layout.rows);
        let path = close(&all).expect(layout.name);
        let gap = clearance::of_spans(&path, &all).expect("three pulleys or more");
        let (expected, span, pulley) = layout.span_gap;
        agrees(gap.distance.in_millimetres(), expected, 1e-5, COMPUTED);
        assert_eq!((gap.from + 1, gap.pulley + 1), (span, pulley), "{}", layout.name);
        let gap = clearance::of_pulleys(&all).expect("two pulleys or more");
        agrees(gap.distance.in_millimetres(), layout.pulley_gap, 1e-5, COMPUTED);
    }
}

#[test]
fn a_pulley_on_the_back_turns_the_other_way() {
    let path = close(&pulleys(LAYOUTS[4].rows)).expect("B13");
    let crank = path.arcs()[0].hand;
    for (arc, row) in path.arcs().iter().zip(LAYOUTS[4].rows) {
        assert_eq!(arc.hand == crank, row[3] > 0.0);
    }
}

/// Contact angles of one span by Newton's method on perpendicularity alone: (P − Q)·(P − A) = 0 = (P − Q)·(Q − B).
fn contacts(from: &Row, to: &Row) -> (f64, f64) {
    let point = |row: &Row, angle: f64| {
        let radius = row[2] / 2.0;
        [row[0] + radius * libm::cos(angle), row[1] + radius * libm::sin(angle)]
    };
    let residual = |angles: [f64; 2]| {
        let (p, q) = (point(from, angles[0]), point(to, angles[1]));
        let run = [p[0] - q[0], p[1] - q[1]];
        [run[0] * (p[0] - from[0]) + run[1] * (p[1] - from[1]), run[0] * (q[0] - to[0]) + run[1] * (q[1] - to[1])]
    };
    // Start where the belt would touch were the line of centres its direction.
    let ahead = libm::atan2(to[1] - from[1], to[0] - from[0]);
    let quarter = std::f64::consts::FRAC_PI_2;
    let mut at = [ahead - from[3] * quarter, ahead - to[3] * quarter];
    for _ in 0..50 {
        let here = residual(at);
        let step = 1e-6;
        let slope = |index: usize| {
            let (mut up, mut down) = (at, at);
            up[index] += step;
            down[index] -= step;
            let (up, down) = (residual(up), residual(down));
            [(up[0] - down[0]) / (2.0 * step), (up[1] - down[1]) / (2.0 * step)]
        };
        let (a, b) = (slope(0), slope(1));
        let determinant = a[0] * b[1] - b[0] * a[1];
        at[0] -= (here[0] * b[1] - b[0] * here[1]) / determinant;
        at[1] -= (a[0] * here[1] - here[0] * a[1]) / determinant;
    }
    (at[0], at[1])
}

/// Length of the belt as a polygon: straight runs between contacts and very many chords on each pulley.
fn polygon_length(rows: &[Row]) -> f64 {
    const CHORDS: usize = 20_000;
    let count = rows.len();
    let spans: Vec<(f64, f64)> = (0..count).map(|at| contacts(&rows[at], &rows[(at + 1) % count])).collect();
    let mut length = 0.0;
    for (at, row) in rows.iter().enumerate() {
        let radius = row[2] / 2.0;
        let next = &rows[(at + 1) % count];
        let (leave, arrive) = spans[at];
        length += libm::hypot(
            row[0] + radius * libm::cos(leave) - next[0] - next[2] / 2.0 * libm::cos(arrive),
            row[1] + radius * libm::sin(leave) - next[1] - next[2] / 2.0 * libm::sin(arrive),
        );
        let onto = spans[(at + count - 1) % count].1;
        let wrap = ((leave - onto) * row[3]).rem_euclid(std::f64::consts::TAU);
        let point = |share: usize| {
            let angle = onto + row[3] * wrap * share as f64 / CHORDS as f64;
            (radius * libm::cos(angle), radius * libm::sin(angle))
        };
        let mut before = point(0);
        for share in 1..=CHORDS {
            let here = point(share);
            length += libm::hypot(here.0 - before.0, here.1 - before.1);
            before = here;
        }
    }
    length
}

#[test]
fn an_independent_numeric_path_agrees() {
    for layout in &LAYOUTS {
        let path = close(&pulleys(layout.rows)).expect(layout.name);
        let polygon = polygon_length(layout.rows);
        agrees(polygon, layout.length, 1e-5, layout.name);
        agrees(path.length.in_millimetres(), polygon, 1e-5, "Newton on perpendicularity, polygon");
    }
}

#[test]
fn an_adjuster_reaches_from_its_loose_to_its_tight_end() {
    // B11's back-side pulley pushed 40 mm towards the loop and 10 mm out of it, along the line to the origin.
    let rows = LAYOUTS[2].rows;
    let all = pulleys(rows);
    let adjuster = Adjuster { pulley: 2, direction: degrees(180.0), from: millimetres(-10.0), to: millimetres(20.0) };
    let length_at = |travel: f64| {
        let mut moved = rows.to_vec();
        moved[2][0] -= travel;
        polygon_length(&moved)
    };
    let reach = adjuster::reach(&all, &adjuster).expect("a belt runs");
    agrees(reach.shortest.in_millimetres(), length_at(-10.0), 1e-5, "polygon");
    agrees(reach.longest.in_millimetres(), length_at(20.0), 1e-5, "polygon");
    agrees(reach.at_longest.in_millimetres(), 20.0, 1e-9, "the tight end");

    let wanted = length_at(7.0);
    let place = reach.place_for(millimetres(wanted));
    agrees(place.expect("within reach").in_millimetres(), 7.0, 1e-4, "polygon");
    let place = reach.place_for(millimetres(2000.0));
    assert_eq!(place, None);

    // L_min + slack ≤ L ≤ L_max/(1 + stretch), by hand on the two ends.
    let fit = reach.fit(millimetres(wanted));
    agrees(fit.slack.in_millimetres(), wanted - length_at(-10.0), 1e-5, "by hand");
    agrees(fit.stretch, length_at(20.0) / wanted - 1.0, 1e-8, "by hand");
    let (least, most) = reach.window(millimetres(5.0), 0.01);
    agrees(least.in_millimetres(), length_at(-10.0) + 5.0, 1e-5, "by hand");
    agrees(most.in_millimetres(), length_at(20.0) / 1.01, 1e-5, "by hand");
}

#[test]
fn an_adjuster_whose_belt_is_shortest_midway() {
    // An idler of two that slides along the line between them and beyond: shortest when nearest the line of centres.
    let rows: [Row; 3] = [[0.0, 0.0, 100.0, 1.0], [300.0, 0.0, 100.0, 1.0], [100.0, 200.0, 60.0, 1.0]];
    let all = pulleys(&rows);
    let adjuster = Adjuster { pulley: 2, direction: degrees(0.0), from: millimetres(0.0), to: millimetres(100.0) };
    let reach = adjuster::reach(&all, &adjuster).expect("a belt runs");
    // Both other pulleys alike, so by symmetry the shortest is midway, at x = 150.
    agrees(reach.at_shortest.in_millimetres(), 50.0, 1e-4, "symmetry");
    let mut middle = rows;
    middle[2][0] = 150.0;
    agrees_within(reach.shortest.in_millimetres(), polygon_length(&middle), 1e-8, "polygon");
}

#[test]
fn impossible_layouts_are_told_in_words() {
    let run = |rows: &[Row]| close(&pulleys(rows)).map(|_| ()).unwrap_err();
    let (crank, right, top) = ([0.0, 0.0, 160.0, 1.0], [220.0, 80.0, 60.0, 1.0], [60.0, 260.0, 130.0, 1.0]);
    assert_eq!(run(&[]), Impossible::TooFew);
    assert_eq!(run(&[crank]), Impossible::TooFew);
    assert_eq!(run(&[right; 13]), Impossible::TooMany);
    assert_eq!(run(&[crank, [f64::NAN, 0.0, 60.0, 1.0]]), Impossible::NotAPulley(1));
    assert_eq!(run(&[crank, [200.0, 0.0, 0.0, 1.0]]), Impossible::NotAPulley(1));
    assert_eq!(run(&[crank, [200.0, 0.0, -60.0, 1.0]]), Impossible::NotAPulley(1));
    assert_eq!(run(&[crank, right, [200.0, 80.0, 60.0, 1.0]]), Impossible::Overlap(1, 2));
    assert_eq!(run(&[crank, crank]), Impossible::Overlap(0, 1));
    // A ribbed pulley well inside the hull of three others is not reached.
    let inside = [90.0, 100.0, 40.0, 1.0];
    assert_eq!(run(&[crank, right, inside, top]), Impossible::Misses(2));
    // A back-side pulley left outside the loop is not reached either.
    let outside = [300.0, 300.0, 40.0, -1.0];
    assert_eq!(run(&[crank, right, outside, top]), Impossible::Misses(2));
    // Four corners in the order of a bow tie.
    let corner = |x: f64, y: f64| [x, y, 40.0, 1.0];
    let bow = [corner(0.0, 0.0), corner(300.0, 300.0), corner(300.0, 0.0), corner(0.0, 300.0)];
    assert!(matches!(run(&bow), Impossible::Misses(_) | Impossible::Crosses(..) | Impossible::NotOnce));

    let words = run(&[crank, right, inside, top]).to_string();
    assert!(words.starts_with("The belt would not touch pulley 3:"), "{words}");
    let words = Impossible::Overlap(1, 2).to_string();
    assert_eq!(words, "Pulleys 2 and 3 overlap: move them apart.");
}

#[test]
fn an_adjuster_that_meets_a_pulley_is_refused() {
    let all = pulleys(LAYOUTS[2].rows);
    let adjuster = Adjuster { pulley: 2, direction: degrees(90.0), from: metres(0.0), to: millimetres(200.0) };
    assert_eq!(adjuster::reach(&all, &adjuster), Err(Impossible::Overlap(2, 3)));
    let nowhere = Adjuster { pulley: 9, ..adjuster };
    assert_eq!(adjuster::reach(&all, &nowhere), Err(Impossible::NotAPulley(9)));
}
