//! Dimensions after ISO 129-1: projection lines, dimension line, closed arrowheads, figures above the line and readable
//! from below or from the right.

use crate::picture::{At, Room, Words};
use trialfit_core::scene::Anchor;

/// Length and half the width of an arrowhead: closed, about 28°.
const ARROW: (f64, f64) = (9.0, 2.2);
/// How far a line goes on beyond arrows that stand outside.
const TAIL: f64 = 16.0;
/// Gap between the thing and its projection line, and how far that goes past the dimension line.
const GAP: f64 = 2.0;
/// Distance of the figures from the line.
const LIFT: f64 = 4.0;
/// Least distance of a dimension line from what it measures, in em, so that the figures have room.
const LEAST: f64 = 1.3;

/// A dimension ready to be drawn.
#[derive(Debug, PartialEq)]
pub(crate) struct Drawn {
    pub(crate) lines: Vec<(At, At)>,
    pub(crate) arrows: [[At; 3]; 2],
    pub(crate) words: Words,
}

/// Which way figures along `way` read: to the right, or upwards where the line is upright.
pub(crate) fn reading(way: At) -> At {
    let backwards = if way.x.abs() < 0.03 { way.y > 0.0 } else { way.x < 0.0 };
    if backwards { way * -1.0 } else { way }
}

/// The lines of a dimension, before its figures have their place.
#[derive(Clone, Debug)]
pub(crate) struct Bare {
    projections: Vec<(At, At)>,
    start: At,
    end: At,
    way: At,
    length: f64,
    /// Arrows stand between the projection lines and point outwards.
    inside: bool,
}

/// Draws the lines of a dimension between two points, `offset` pixels to the left of the way, and takes their room. All
/// dimensions of a drawing do this before the first figure is placed, so that figures keep off every line.
pub(crate) fn draw(from: At, to: At, offset: f64, em: f64, room: &mut Room) -> Bare {
    let (length, way) = ((to - from).length(), (to - from).unit());
    let aside = if offset == 0.0 { 0.0 } else { offset.abs().max(LEAST * em).copysign(offset) };
    let (start, end) = (from + way.left() * aside, to + way.left() * aside);
    let mut projections = Vec::with_capacity(2);
    if aside != 0.0 {
        let away = way.left() * aside.signum();
        projections.extend([(from, start), (to, end)].map(|(point, on_line)| (point + away * GAP, on_line + away * (2.0 * GAP))));
    }
    let bare = Bare { projections, start, end, way, length, inside: length >= 2.0 * ARROW.0 + 4.0 };
    let line = bare.line();
    for &(from, to) in bare.projections.iter().chain([&line]) {
        room.take_line(from, to, 6);
    }
    bare
}

impl Bare {
    /// The dimension line, with tails where the arrows stand outside.
    fn line(&self) -> (At, At) {
        let tail = self.way * if self.inside { 0.0 } else { TAIL };
        (self.start - tail, self.end + tail)
    }

    /// Finds the place of the figures, and takes its room.
    pub(crate) fn say(self, text: &str, em: f64, room: &mut Room) -> Drawn {
        let Self { start, end, way, length, inside, .. } = self;
        let along = reading(way);
        let up = along.left();
        let words = |middle: At, below: bool| {
            let lift = if below { -LIFT - 0.72 * em } else { LIFT };
            Words { text: text.to_owned(), at: middle + up * lift, along, anchor: Anchor::Middle, em }
        };
        let width = words(start, false).width();
        let overhang = 0.5 * (width - length).max(0.0);
        let clear = if inside { 4.0 } else { TAIL } + width / 2.0;
        let middle = (start + end) * 0.5;
        let quarter = way * ((length - width).max(0.0) * 0.4);
        let ways = [
            (overhang, words(middle, false)),
            (overhang + 3.0, words(middle + quarter, false)),
            (overhang + 3.0, words(middle - quarter, false)),
            (overhang + 5.0, words(middle, true)),
            (9.0, words(end + way * clear, false)),
            (9.5, words(start - way * clear, false)),
            (11.0, words(end + way * clear, true)),
            (11.5, words(start - way * clear, true)),
        ];
        // There is always a way, so the fallback is never taken.
        let placed = room.place(ways).unwrap_or_else(|| words(middle, false));

        // A line under figures that stand outside.
        let (mut first, mut last) = self.line();
        let reach = (placed.at - middle).dot(way);
        if reach.abs() > length / 2.0 {
            let far = middle + way * (reach + (width / 2.0).copysign(reach));
            if reach > 0.0 {
                last = far
            } else {
                first = far
            }
            room.take_line(first, last, 6);
        }
        let mut lines = self.projections;
        lines.push((first, last));
        let turn = if inside { 1.0 } else { -1.0 };
        Drawn { lines, arrows: [arrow(start, way * -turn), arrow(end, way * turn)], words: placed }
    }
}

/// An arrowhead with its tip here, pointing this way.
pub(crate) fn arrow(tip: At, way: At) -> [At; 3] {
    let back = tip - way * ARROW.0;
    [tip, back + way.left() * ARROW.1, back - way.left() * ARROW.1]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(from: (f64, f64), to: (f64, f64), offset: f64) -> Drawn {
        let mut room = Room::new(400.0, 400.0);
        draw(At::new(from.0, from.1), At::new(to.0, to.1), offset, 13.0, &mut room).say("146 mm", 13.0, &mut room)
    }

    #[test]
    fn figures_never_stand_on_their_head() {
        for degrees in (0..360).step_by(5) {
            let (sine, cosine) = libm::sincos(f64::from(degrees).to_radians());
            let to = (200.0 + 100.0 * cosine, 200.0 + 100.0 * sine);
            let words = drawn((200.0, 200.0), to, 30.0).words;
            let along = words.along;
            assert!(along.x > 0.0 || along.y < -0.99, "{degrees}°: {along:?}");
            assert!((along.length() - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn figures_stand_above_a_level_line_whichever_way_it_was_measured() {
        let there = drawn((100.0, 200.0), (300.0, 200.0), 40.0);
        let back = drawn((300.0, 200.0), (100.0, 200.0), -40.0);
        for dimension in [there, back] {
            let (from, to) = dimension.lines[2];
            assert!((from.y - 160.0).abs() < 1e-9 && (to.y - 160.0).abs() < 1e-9, "40 px above what is measured");
            assert_eq!(dimension.words.at, At::new(200.0, 160.0 - LIFT));
        }
    }

    #[test]
    fn arrows_point_outwards_inside_and_inwards_outside() {
        let wide = drawn((100.0, 200.0), (300.0, 200.0), 0.0);
        assert!(wide.arrows[0][1].x > 100.0 && wide.arrows[1][1].x < 300.0);
        let narrow = drawn((200.0, 200.0), (210.0, 200.0), 30.0);
        assert!(narrow.arrows[0][1].x < 200.0 && narrow.arrows[1][1].x > 210.0);
    }

    #[test]
    fn figures_that_stand_outside_have_the_line_under_them() {
        let narrow = drawn((200.0, 200.0), (204.0, 200.0), 30.0);
        let (from, to) = narrow.lines[2];
        let half = narrow.words.width() / 2.0;
        assert!(from.x <= narrow.words.at.x - half + 1e-9 || from.x < 200.0);
        assert!(to.x >= narrow.words.at.x + half - 1e-9 || narrow.words.at.x.abs() < 202.0, "{narrow:?}");
    }

    #[test]
    fn a_tight_offset_still_leaves_room_for_figures() {
        let tight = drawn((100.0, 200.0), (300.0, 200.0), 0.5);
        assert!((tight.lines[2].0.y - (200.0 - LEAST * 13.0)).abs() < 1e-9);
    }

    #[test]
    fn no_length_is_no_disaster() {
        let nothing = drawn((200.0, 200.0), (200.0, 200.0), 20.0);
        assert!(nothing.lines.iter().all(|(from, to)| from.x.is_finite() && to.y.is_finite()));
    }
}
