//! Where words can stand: what lines and other words already take up.

use super::At;
use trialfit_core::scene::Anchor;

/// Words on the picture.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Words {
    pub(crate) text: String,
    /// Where the anchor stands on the line they are written on.
    pub(crate) at: At,
    /// Reading direction, one pixel long.
    pub(crate) along: At,
    pub(crate) anchor: Anchor,
    /// Size of the letters in pixels.
    pub(crate) em: f64,
}

impl Words {
    /// Level words whose middle height is at `at`.
    pub(crate) fn level(text: String, at: At, anchor: Anchor, em: f64) -> Self {
        Self { text, at: at + At::new(0.0, MIDDLE * em), along: At::new(1.0, 0.0), anchor, em }
    }

    pub(crate) fn width(&self) -> f64 {
        width(&self.text, self.em)
    }

    /// Discs that cover the words, whichever way they read.
    fn discs(&self) -> impl Iterator<Item = At> + '_ {
        let width = self.width();
        let start = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -width / 2.0,
            Anchor::End => -width,
        };
        // The outermost discs reach a little past the words: they need air between them.
        let first = self.at + self.along * (start + INSET * self.em) + self.along.left() * (MIDDLE * self.em);
        let reach = (width - 2.0 * INSET * self.em).max(0.0);
        let steps = (reach / (0.7 * self.em)).ceil().max(1.0);
        (0..=steps as usize).map(move |index| first + self.along * (reach * index as f64 / steps))
    }

    /// How far the words stand out of a frame with `margin`: left, top, right, bottom; negative inside.
    pub(crate) fn beyond(&self, width: f64, height: f64, margin: f64) -> [f64; 4] {
        let mut most = [f64::NEG_INFINITY; 4];
        for disc in self.discs() {
            let radius = RADIUS * self.em;
            let out = [disc.x - radius, disc.y - radius, width - disc.x - radius, height - disc.y - radius];
            for (most, out) in most.iter_mut().zip(out) {
                *most = most.max(margin - out);
            }
        }
        most
    }
}

/// Half the height of capitals over the line, in em.
const MIDDLE: f64 = 0.36;
/// Half the height of a line of words, in em.
const RADIUS: f64 = 0.55;
/// How far inside the words' ends the outermost discs stand, in em.
const INSET: f64 = 0.25;

/// Width of words in the widest of the usual sans-serifs, near enough to make room for them; in others some air is left.
pub(crate) fn width(text: &str, em: f64) -> f64 {
    let letters = text.chars().map(|letter| match letter {
        '\u{202F}' => 0.20,
        'i' | 'j' | 'l' | 'I' | '.' | ',' | ':' | ';' | '\'' | '|' => 0.30,
        ' ' | '\u{A0}' | '(' | ')' | '/' | 'f' | 't' | 'r' | '-' | '·' | '⁻' | '¹' | '²' | '³' | '°' => 0.39,
        'm' | 'w' | 'M' | 'W' | '%' | '—' => 0.92,
        '−' | '+' | '=' | '≤' | '≥' | '×' | '±' => 0.84,
        letter if letter.is_uppercase() => 0.69,
        _ => 0.61,
    });
    letters.sum::<f64>() * em
}

/// Side of a cell in pixels.
const CELL: f64 = 3.0;

/// Where a disc looks for lines under it, in radii: close enough that none passes between. Not at its edge, so that
/// words may stand over their own dimension line.
const SAMPLES: [(f64, f64); 9] =
    [(0.0, 0.0), (0.0, -0.6), (0.0, -0.3), (0.0, 0.3), (0.0, 0.6), (-0.5, -0.45), (0.5, -0.45), (-0.5, 0.15), (0.5, 0.15)];

/// What is taken up so far.
pub(crate) struct Room {
    width: f64,
    height: f64,
    columns: usize,
    /// Per cell: what a word over it costs.
    lines: Vec<u8>,
    words: Vec<(At, f64)>,
}

impl Room {
    pub(crate) fn new(width: f64, height: f64) -> Self {
        let (columns, rows) = ((width / CELL).ceil().max(1.0) as usize, (height / CELL).ceil().max(1.0) as usize);
        Self { width, height, columns, lines: vec![0; columns * rows], words: Vec::new() }
    }

    fn cell(&self, at: At) -> Option<usize> {
        let inside = at.x >= 0.0 && at.y >= 0.0 && at.x < self.width && at.y < self.height;
        inside.then(|| (at.y / CELL) as usize * self.columns + (at.x / CELL) as usize)
    }

    /// A line stands here; `weight` says how bad words over it are.
    pub(crate) fn take_line(&mut self, from: At, to: At, weight: u8) {
        let steps = ((to - from).length() / (CELL * 0.5)).ceil().clamp(1.0, 2000.0);
        for step in 0..=steps as usize {
            if let Some(cell) = self.cell(from + (to - from) * (step as f64 / steps)) {
                self.lines[cell] = self.lines[cell].max(weight);
            }
        }
    }

    pub(crate) fn take_chain(&mut self, points: &[At], closed: bool, weight: u8) {
        for pair in points.windows(2) {
            self.take_line(pair[0], pair[1], weight);
        }
        if let (true, Some(&first), Some(&last)) = (closed, points.first(), points.last()) {
            self.take_line(last, first, weight);
        }
    }

    /// Something solid stands here, as bad for words as other words are.
    pub(crate) fn take_disc(&mut self, centre: At, radius: f64) {
        self.words.push((centre, radius));
    }

    pub(crate) fn take_words(&mut self, words: &Words) {
        let radius = RADIUS * words.em;
        self.words.extend(words.discs().map(|disc| (disc, radius)));
    }

    /// How badly these words would stand: pixels of overlap, more or less. Past `limit` nobody needs the exact number.
    fn cost(&self, words: &Words, limit: f64) -> f64 {
        let radius = RADIUS * words.em;
        let mut cost = 0.0;
        for disc in words.discs() {
            if cost > limit {
                break;
            }
            for &(other, reach) in &self.words {
                let near = (other - disc).dot(other - disc);
                let both = radius + reach;
                if near < both * both {
                    cost += 4.0 * (both - near.sqrt());
                }
            }
            let out = [radius - disc.x, radius - disc.y, disc.x + radius - self.width, disc.y + radius - self.height];
            cost += out.into_iter().map(|out| 6.0 * out.max(0.0)).sum::<f64>();
            for (x, y) in SAMPLES {
                if let Some(cell) = self.cell(disc + At::new(x * radius, y * radius)) {
                    cost += 0.4 * f64::from(self.lines[cell]);
                }
            }
        }
        cost
    }

    /// The best of several ways to place words, each with a price of its own; takes its room.
    pub(crate) fn place(&mut self, ways: impl IntoIterator<Item = (f64, Words)>) -> Option<Words> {
        let mut best: Option<(f64, Words)> = None;
        for (price, words) in ways {
            let least = best.as_ref().map_or(f64::INFINITY, |best| best.0);
            if price < least {
                let cost = price + self.cost(&words, least - price);
                if cost < least {
                    best = Some((cost, words));
                }
            }
        }
        let (_, best) = best?;
        self.take_words(&best);
        Some(best)
    }
}

#[cfg(test)]
impl Room {
    /// How badly these words would stand.
    pub(crate) fn overlap(&self, words: &Words) -> f64 {
        self.cost(words, f64::INFINITY)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(x: f64, y: f64) -> Words {
        Words::level("146 mm".into(), At::new(x, y), Anchor::Middle, 13.0)
    }

    #[test]
    fn words_keep_off_each_other() {
        let mut room = Room::new(300.0, 200.0);
        room.take_words(&at(100.0, 100.0));
        let placed = room.place([(0.0, at(110.0, 100.0)), (1.0, at(110.0, 120.0)), (3.0, at(110.0, 140.0))]);
        assert_eq!(placed, Some(at(110.0, 120.0)));
    }

    #[test]
    fn words_turned_upright_keep_off_each_other_too() {
        let mut room = Room::new(300.0, 200.0);
        let upright = Words { along: At::new(0.0, -1.0), ..at(100.0, 100.0) };
        room.take_words(&upright);
        assert!(room.overlap(&at(100.0, 75.0)) > 5.0, "crosses the upper half of the upright words");
        assert!(room.overlap(&at(160.0, 100.0)) < 0.1);
    }

    #[test]
    fn words_keep_inside_and_off_lines() {
        let mut room = Room::new(300.0, 200.0);
        room.take_line(At::new(0.0, 50.0), At::new(300.0, 50.0), 10);
        assert!(room.overlap(&at(100.0, 50.0)) > room.overlap(&at(100.0, 62.0)) + 5.0);
        assert!(room.overlap(&at(5.0, 100.0)) > 50.0, "sticks out of the frame");
    }

    #[test]
    fn standing_out_is_measured_on_each_side() {
        let [left, top, right, bottom] = at(10.0, 100.0).beyond(300.0, 200.0, 2.0);
        assert!(left > 10.0 && top < 0.0 && right < 0.0 && bottom < 0.0);
    }
}
