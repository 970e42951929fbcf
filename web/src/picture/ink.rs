//! Writes SVG as text. Looks come from classes alone, as the page allows no inline style.

use super::{At, Words};
use core::fmt::Write as _;
use trialfit_core::scene::Anchor;

/// The inside of an `svg` element.
#[derive(Default)]
pub(crate) struct Ink(String);

impl Ink {
    pub(crate) fn finish(self) -> String {
        self.0
    }

    /// A path of ready-made commands.
    pub(crate) fn path(&mut self, class: &str, commands: &str) {
        if !commands.is_empty() {
            self.write(format_args!("<path class=\"{class}\" d=\"{commands}\"/>"));
        }
    }

    /// A chain of straight lines.
    pub(crate) fn chain(&mut self, class: &str, points: &[At], closed: bool) {
        self.path(class, &chain(points, closed));
    }

    /// Separate straight lines, as one path.
    pub(crate) fn strokes(&mut self, class: &str, strokes: &[(At, At)]) {
        self.path(class, &strokes.iter().map(|&(from, to)| chain(&[from, to], false)).collect::<String>());
    }

    pub(crate) fn circle(&mut self, class: &str, centre: At, radius: f64) {
        self.write(format_args!("<circle class=\"{class}\" cx=\"{:.1}\" cy=\"{:.1}\" r=\"{radius:.1}\"/>", centre.x, centre.y));
    }

    pub(crate) fn words(&mut self, class: &str, words: &Words) {
        let anchor = match words.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let (along, at) = (words.along, words.at);
        if along == At::new(1.0, 0.0) {
            self.write(format_args!("<text class=\"{class}\" text-anchor=\"{anchor}\" x=\"{:.1}\" y=\"{:.1}\">", at.x, at.y));
        } else {
            // A matrix instead of an angle: the way of the line is at hand, its angle is not.
            self.write(format_args!(
                "<text class=\"{class}\" text-anchor=\"{anchor}\" transform=\"matrix({:.4} {:.4} {:.4} {:.4} {:.1} {:.1})\">",
                along.x, along.y, -along.y, along.x, at.x, at.y
            ));
        }
        escape(&mut self.0, &words.text);
        self.0.push_str("</text>");
    }

    fn write(&mut self, what: core::fmt::Arguments<'_>) {
        // Writing to a string cannot fail.
        let _ = self.0.write_fmt(what);
    }
}

/// Path commands of a chain of straight lines.
pub(crate) fn chain(points: &[At], closed: bool) -> String {
    let mut commands = String::new();
    for (index, point) in points.iter().enumerate() {
        let letter = if index == 0 { 'M' } else { 'L' };
        let _ = write!(commands, "{letter}{:.1} {:.1}", point.x, point.y);
    }
    if closed && !commands.is_empty() {
        commands.push('Z');
    }
    commands
}

fn escape(out: &mut String, text: &str) {
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            letter => out.push(letter),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_cannot_become_markup() {
        let mut ink = Ink::default();
        let at = At::new(1.0, 2.0);
        ink.words("label", &Words { text: "<b> & c".into(), at, along: At::new(1.0, 0.0), anchor: Anchor::Middle, em: 13.0 });
        assert_eq!(ink.finish(), "<text class=\"label\" text-anchor=\"middle\" x=\"1.0\" y=\"2.0\">&lt;b&gt; &amp; c</text>");
    }

    #[test]
    fn a_closed_chain_returns() {
        let points = [At::new(0.0, 0.0), At::new(10.0, 0.0), At::new(10.0, 5.25)];
        assert_eq!(chain(&points, true), "M0.0 0.0L10.0 0.0L10.0 5.2Z");
    }
}
