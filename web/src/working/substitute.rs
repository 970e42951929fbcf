//! An equation with its numbers put in.

use crate::language;
use trialfit_core::method::sides;
use trialfit_core::plan::Said;
use trialfit_core::quantity::Unit;
use trialfit_core::show::{Shown, System, answer, figure};

/// Significant digits of numbers in the working: more than in an answer, so that the sums can be followed.
const DIGITS: u8 = 5;

/// A piece of a line of working.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Bit {
    /// As it stands.
    Plain(String),
    /// A letter that stands for a number, and what is written small below it.
    Letter(String, String),
    /// A number put in for a letter.
    Number(String),
}

/// A letter that a word of an equation may be, at the start of `rest`; letters that are words of their own only.
fn letter_at<'a>(rest: &str, terms: &'a [(&'static str, &'static Unit)]) -> Option<(usize, &'a str)> {
    let fits = |term: &&str| rest.starts_with(*term) && !rest[term.len()..].chars().next().is_some_and(belongs);
    let longest = terms.iter().map(|term| term.0).enumerate().filter(|(_, term)| fits(term) && !term.is_empty());
    longest.max_by_key(|(_, term)| term.len())
}

/// Whether a character goes on with the word before it; superscripts are powers, no part of a name.
fn belongs(letter: char) -> bool {
    (letter.is_alphanumeric() && !is_power(letter)) || matches!(letter, '_' | '′' | '″')
}

fn is_power(letter: char) -> bool {
    matches!(letter, '²' | '³' | '¹' | '⁰' | '⁴'..='⁹' | '⁻')
}

/// Walks an equation: `letter` is given each term found by its number, with the text before and after it.
fn walk(equation: &str, terms: &[(&'static str, &'static Unit)], mut letter: impl FnMut(usize, &str, &str) -> Bit) -> Vec<Bit> {
    let mut bits = Vec::new();
    let mut plain = String::new();
    let mut at = 0;
    let mut inside = false;
    while let Some(next) = equation[at..].chars().next() {
        let found = if inside { None } else { letter_at(&equation[at..], terms) };
        if let Some((which, term)) = found {
            if !plain.is_empty() {
                bits.push(Bit::Plain(core::mem::take(&mut plain)));
            }
            let end = at + term.len();
            bits.push(letter(which, &equation[..at], &equation[end..]));
            at = end;
            inside = false;
        } else {
            plain.push(next);
            at += next.len_utf8();
            inside = belongs(next);
        }
    }
    if !plain.is_empty() {
        bits.push(Bit::Plain(plain));
    }
    bits
}

/// Splits `M_f` into its letter and its index.
fn name(term: &str) -> Bit {
    let (letter, index) = term.split_once('_').unwrap_or((term, ""));
    Bit::Letter(letter.to_owned(), index.to_owned())
}

/// The equation as the book prints it, its letters marked; the result's letter, which no number stands for, too.
pub(crate) fn equation(said: &Said) -> Vec<Bit> {
    let (left, right) = sides(language::equation(said.line.equation));
    let mut bits = match left {
        Some(left) if !left.contains(' ') => vec![name(left), Bit::Plain(" ".into())],
        Some(left) => vec![Bit::Plain(format!("{left} "))],
        None => Vec::new(),
    };
    bits.extend(walk(right, said.line.terms, |which, _, _| name(said.line.terms[which].0)));
    bits
}

/// The right side with every letter replaced by its number, or nothing where there is no letter to replace.
///
/// In the units of the equation, whatever the reader's: constants in it hold in those alone.
pub(crate) fn substituted(said: &Said) -> Option<Vec<Bit>> {
    let (_, right) = sides(language::equation(said.line.equation));
    let bits = walk(right, said.line.terms, |which, before, after| {
        let value = said.numbers.get(which).copied().unwrap_or(f64::NAN);
        let shown = plain(value, said.line.terms[which].1);
        let text = shown.to_string();
        let powered = after.chars().next().is_some_and(is_power);
        let divides = before.trim_end().ends_with('/') && shown.unit.contains(['/', '·']);
        let negative = text.starts_with('−') && !before.trim_end().ends_with(['=', '≈', '(']);
        let bracketed = (powered && !shown.unit.is_empty()) || divides || negative;
        Bit::Number(if bracketed { format!("({text})") } else { text })
    });
    bits.iter().any(|bit| matches!(bit, Bit::Number(_))).then_some(bits)
}

/// Whether the equation is no more than its result: a constant, stated.
pub(crate) fn says_it_all(said: &Said) -> bool {
    let (_, right) = sides(said.line.equation);
    said.line.terms.is_empty() && right.trim_start_matches(['=', '≈', ' ']) == plain(said.result, said.line.unit).to_string()
}

/// The result in the equation's unit, and in the reader's where that is another.
pub(crate) fn result(said: &Said, system: System) -> (Shown, Option<Shown>) {
    let theirs = trimmed(figure(said.result, said.line.unit, DIGITS, system));
    (plain(said.result, said.line.unit), Some(theirs).filter(|theirs| theirs.unit != said.line.unit.symbol))
}

fn plain(value: f64, unit: &'static Unit) -> Shown {
    trimmed(answer(value, unit, DIGITS))
}

/// Without zeros at the end that say nothing.
fn trimmed(mut shown: Shown) -> Shown {
    if shown.number.contains('.') && !shown.number.contains('e') {
        let kept = shown.number.trim_end_matches('0').trim_end_matches('.').len();
        shown.number.truncate(kept);
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::plan::Line;
    use trialfit_core::quantity::unit::{BAR, CELSIUS, CM3, M_PER_S, MM, N_PER_MM, NM, ONE, RPM};
    use trialfit_core::quantity::{celsius, metres_per_second, millimetres, newton_metres, per_minute};
    use trialfit_core::spec::Source;

    fn text(bits: &[Bit]) -> String {
        let one = |bit: &Bit| match bit {
            Bit::Plain(text) | Bit::Number(text) => text.clone(),
            Bit::Letter(letter, index) if index.is_empty() => format!("‹{letter}›"),
            Bit::Letter(letter, index) => format!("‹{letter} {index}›"),
        };
        bits.iter().map(one).collect::<String>().replace('\u{A0}', " ")
    }

    #[track_caller]
    fn check(equation_text: &'static str, terms: &'static [(&'static str, &'static Unit)], numbers: &[f64], marked: &str, filled: &str) {
        let line: &'static Line = Box::leak(Box::new(Line { equation: equation_text, terms, unit: ONE, source: Source::Definition }));
        let said = Said { of: None, line, numbers: numbers.into(), result: 1.0 };
        assert_eq!(text(&equation(&said)), marked);
        assert_eq!(substituted(&said).map(|bits| text(&bits)).unwrap_or_default(), filled);
    }

    #[test]
    fn letters_with_indices_are_told_apart() {
        let numbers = [per_minute(850.0).si(), millimetres(146.0).si(), millimetres(56.0).si()];
        check(
            "n₂ = n₁ · d₁ / d₂",
            &[("n₁", RPM), ("d₁", MM), ("d₂", MM)],
            &numbers,
            "‹n₂› = ‹n₁› · ‹d₁› / ‹d₂›",
            "= 850 min⁻¹ · 146 mm / 56 mm",
        );
    }

    #[test]
    fn a_letter_inside_another_word_stays() {
        let numbers = [1.5, 240.0];
        check("M_i = M · max(M_f, Mx)", &[("M", ONE), ("M_f", NM)], &numbers, "‹M i› = ‹M› · max(‹M f›, Mx)", "= 1.5 · max(240 N·m, Mx)");
    }

    #[test]
    fn powers_of_numbers_with_units_are_bracketed() {
        check(
            "p = 0.5 · ρ · v² + k³",
            &[("ρ", ONE), ("v", M_PER_S), ("k", ONE)],
            &[1.2, metres_per_second(55.0).si(), 2.0],
            "‹p› = 0.5 · ‹ρ› · ‹v›² + ‹k›³",
            "= 0.5 · 1.2 · (55 m/s)² + 2³",
        );
    }

    #[test]
    fn negative_numbers_and_fractions_of_units_are_bracketed() {
        let numbers = [celsius(-40.0).si(), celsius(20.0).si(), 3000.0];
        check(
            "x = T₁ · T₀ + T₁ / c",
            &[("T₁", CELSIUS), ("T₀", CELSIUS), ("c", N_PER_MM)],
            &numbers,
            "‹x› = ‹T₁› · ‹T₀› + ‹T₁› / ‹c›",
            "= −40 °C · 20 °C + (−40 °C) / (3 N/mm)",
        );
    }

    #[test]
    fn digits_and_brackets_of_the_equation_stay_as_they_are() {
        check(
            "p = 0.97 + 0.15 · n / 1000 + 0.05 · (n / 1000)²",
            &[("n", RPM)],
            &[per_minute(6000.0).si()],
            "‹p› = 0.97 + 0.15 · ‹n› / 1000 + 0.05 · (‹n› / 1000)²",
            "= 0.97 + 0.15 · 6000 min⁻¹ / 1000 + 0.05 · (6000 min⁻¹ / 1000)²",
        );
    }

    #[test]
    fn an_equation_without_letters_has_nothing_to_put_in() {
        check("always 1", &[], &[], "always 1", "");
    }

    #[test]
    fn a_constant_is_not_said_twice() {
        static FRICTION: Line = Line { equation: "μ = 0.27", terms: &[], unit: ONE, source: Source::CommonPractice };
        static PRESSURE: Line = Line { equation: "p = 2.17", terms: &[], unit: BAR, source: Source::CommonPractice };
        let said = |line, result| Said { of: None, line, numbers: Box::new([]), result };
        assert!(says_it_all(&said(&FRICTION, 0.27)));
        assert!(!says_it_all(&said(&FRICTION, 0.35)), "another number is news");
        assert!(!says_it_all(&said(&PRESSURE, 2.17e5)), "the unit is news");
    }

    #[test]
    fn the_result_comes_in_the_readers_unit_too() {
        static LINE: Line =
            Line { equation: "M = k · p · V", terms: &[("k", ONE), ("p", BAR), ("V", CM3)], unit: NM, source: Source::Definition };
        let said = Said { of: None, line: &LINE, numbers: Box::new([]), result: newton_metres(240.0).si() };
        let (own, other) = result(&said, System::Imperial);
        // 1 lbf·ft = 1.355 818 N·m (NIST SP 811, B.8).
        assert_eq!((own.number.as_str(), other.map(|other| other.to_string())), ("240", Some("177.01\u{A0}lbf·ft".into())));
        assert_eq!(result(&said, System::Metric).1, None);
    }
}
