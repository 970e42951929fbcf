//! Equations set as mathematics: what stands in a line of a book, as MathML.

use crate::dom::{El, math};
use crate::language;
use trialfit_core::plan::Line;

/// A piece of an equation.
#[derive(Clone, Debug, PartialEq)]
enum Bit {
    Number(String),
    Letter(String),
    Sign(String),
    Words(String),
    Bracket(Vec<Bit>),
    Over(Vec<Bit>, Vec<Bit>),
    Power(Box<Bit>, Vec<Bit>),
    Root(Vec<Bit>),
}

/// The equation as an element.
pub(crate) fn equation(line: &Line) -> El {
    let whole = math("math").set("displaystyle", "true");
    let text = language::equation(line.equation);
    // Some lines are sentences.
    if !text.contains(['=', '≈', '≤', '≥']) {
        return whole.child(math("mtext").own(&language::number(text)));
    }
    let names: Vec<&str> = line.terms.iter().map(|term| term.0).collect();
    whole.children(read(text, &names).iter().map(set))
}

/// Other words as short as these are names.
const SHORT_WORDS: [&str; 4] = ["at", "by", "of", "or"];

struct Reader<'a> {
    rest: &'a str,
    names: &'a [&'a str],
}

fn read(text: &str, names: &[&str]) -> Vec<Bit> {
    let mut reader = Reader { rest: text, names };
    let mut all = Vec::new();
    while !reader.rest.is_empty() {
        all.extend(reader.row());
        // A bracket that nothing opened.
        if let Some(closing) = reader.next() {
            all.push(Bit::Sign(closing.to_string()));
        }
    }
    all
}

impl Reader<'_> {
    fn next(&mut self) -> Option<char> {
        let next = self.rest.chars().next()?;
        self.rest = &self.rest[next.len_utf8()..];
        Some(next)
    }

    /// Up to a closing bracket or the end. Products stand over what follows a stroke.
    fn row(&mut self) -> Vec<Bit> {
        let (mut done, mut product) = (Vec::new(), Vec::new());
        while let Some(next) = self.rest.trim_start().chars().next() {
            self.rest = self.rest.trim_start();
            match next {
                ')' => break,
                '/' => {
                    self.next();
                    let below = self.factor().into_iter().collect();
                    product = vec![Bit::Over(bare(core::mem::take(&mut product)), bare(below))];
                }
                '·' => {
                    self.next();
                    product.push(Bit::Sign("·".into()));
                }
                _ => match self.factor() {
                    Some(sign @ (Bit::Sign(_) | Bit::Words(_))) if !matches!(&sign, Bit::Sign(of) if matches!(of.as_str(), "Σ" | "∫")) =>
                    {
                        done.append(&mut product);
                        done.push(sign);
                    }
                    Some(factor) => product.push(factor),
                    None => break,
                },
            }
        }
        done.append(&mut product);
        done
    }

    /// One thing with its powers.
    fn factor(&mut self) -> Option<Bit> {
        self.rest = self.rest.trim_start();
        let mut bit = self.thing()?;
        loop {
            let raised = self.rest.trim_start();
            let power = self.rest.find(|letter| !is_power(letter)).unwrap_or(self.rest.len());
            if power > 0 {
                let (digits, rest) = self.rest.split_at(power);
                self.rest = rest;
                bit = Bit::Power(Box::new(bit), vec![Bit::Number(digits.chars().map(plain).collect())]);
            } else if let Some(rest) = raised.strip_prefix('^') {
                self.rest = rest;
                let power = self.factor().into_iter().collect();
                bit = Bit::Power(Box::new(bit), bare(power));
            } else {
                return Some(bit);
            }
        }
    }

    fn thing(&mut self) -> Option<Bit> {
        let name = self.names.iter().filter(|name| self.starts_with(name)).max_by_key(|name| name.len());
        if let Some(name) = name {
            self.rest = &self.rest[name.len()..];
            return Some(Bit::Letter((*name).to_owned()));
        }
        let next = self.rest.chars().next()?;
        Some(match next {
            '(' => {
                self.next();
                let inside = self.row();
                self.next();
                Bit::Bracket(inside)
            }
            '√' => {
                self.next();
                Bit::Root(bare(self.factor().into_iter().collect()))
            }
            _ if next.is_ascii_digit() => Bit::Number(self.take(|letter| letter.is_ascii_digit() || letter == '.')),
            _ if next.is_alphabetic() && next != 'Σ' => {
                let word = self.take(|letter| (letter.is_alphanumeric() && !is_power(letter)) || matches!(letter, '_' | '′' | '+'));
                // One letter or one with an index is a name; functions stand before a bracket or a root.
                let stands_before = self.rest.trim_start().starts_with(['(', '√']);
                let short = word.chars().filter(char::is_ascii_lowercase).count() < 3 && !SHORT_WORDS.contains(&word.as_str());
                let is_name = word.contains('_') || short;
                if is_name || stands_before { Bit::Letter(word) } else { Bit::Words(word) }
            }
            _ => {
                self.next();
                Bit::Sign(next.to_string())
            }
        })
    }

    fn take(&mut self, belongs: impl Fn(char) -> bool) -> String {
        let end = self.rest.find(|letter| !belongs(letter)).unwrap_or(self.rest.len());
        let (taken, rest) = self.rest.split_at(end);
        self.rest = rest;
        taken.to_owned()
    }

    fn starts_with(&self, name: &str) -> bool {
        let goes_on = |letter: char| (letter.is_alphanumeric() && !is_power(letter)) || matches!(letter, '_' | '′');
        self.rest.strip_prefix(name).is_some_and(|rest| !rest.starts_with(goes_on))
    }
}

/// Without the bracket around the whole of it.
fn bare(mut bits: Vec<Bit>) -> Vec<Bit> {
    match (bits.len(), bits.pop()) {
        (1, Some(Bit::Bracket(inside))) => inside,
        (_, last) => {
            bits.extend(last);
            bits
        }
    }
}

fn is_power(letter: char) -> bool {
    matches!(letter, '²' | '³' | '¹' | '⁰' | '⁴'..='⁹' | '⁻')
}

/// A raised digit as one on the line.
fn plain(letter: char) -> char {
    match letter {
        '²' => '2',
        '³' => '3',
        '¹' => '1',
        '⁻' => '−',
        _ => char::from_digit(u32::from(letter).wrapping_sub(u32::from('⁰')), 10).unwrap_or(letter),
    }
}

fn set(bit: &Bit) -> El {
    let row = |bits: &[Bit]| math("mrow").children(bits.iter().map(set));
    match bit {
        Bit::Number(text) => math("mn").own(&language::number(text)),
        Bit::Sign(text) => math("mo").own(text),
        Bit::Words(text) => math("mtext").own(&format!("\u{A0}{text}\u{A0}")),
        Bit::Letter(name) => letter(name),
        Bit::Bracket(bits) => math("mrow").child(math("mo").own("(")).children(bits.iter().map(set)).child(math("mo").own(")")),
        Bit::Over(above, below) => math("mfrac").child(row(above)).child(row(below)),
        Bit::Power(base, power) => math("msup").child(set(base)).child(row(power)),
        Bit::Root(bits) => math("msqrt").child(row(bits)),
    }
}

/// A letter, and what is written small below it: `M_f`, `n₂`.
pub(crate) fn letter(name: &str) -> El {
    let low = |letter: char| u32::from(letter).checked_sub(u32::from('₀')).filter(|digit| *digit < 10);
    let digits: String = name.chars().filter_map(low).filter_map(|digit| char::from_digit(digit, 10)).collect();
    let stem = name.trim_end_matches(|letter| low(letter).is_some());
    let (stem, index) = match stem.split_once('_') {
        Some((stem, index)) => (stem, format!("{index}{digits}")),
        None => (stem, digits),
    };
    let stem = math("mi").own(stem);
    if index.is_empty() { stem } else { math("msub").child(stem).child(math("mtext").own(&index)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Brackets by (), what stands over and below by [ | ], powers by ^{ }, roots by √{ }.
    fn text(bits: &[Bit]) -> String {
        let one = |bit: &Bit| match bit {
            Bit::Number(text) | Bit::Letter(text) | Bit::Sign(text) => text.clone(),
            Bit::Words(text) => format!("‹{text}›"),
            Bit::Bracket(bits) => format!("({})", text(bits)),
            Bit::Over(above, below) => format!("[{}|{}]", text(above), text(below)),
            Bit::Power(base, power) => format!("{}^{{{}}}", text(core::slice::from_ref(base)), text(power)),
            Bit::Root(bits) => format!("√{{{}}}", text(bits)),
        };
        bits.iter().map(one).collect()
    }

    #[track_caller]
    fn check(equation: &str, names: &[&str], expected: &str) {
        assert_eq!(text(&read(equation, names)), expected);
    }

    #[test]
    fn products_stand_over_what_they_are_divided_by() {
        check("n₂ = n₁ · d₁ / d₂", &["n₁", "d₁", "d₂"], "n₂=[n₁·d₁|d₂]");
        check("i = d_crank / d_p · ( 1 − s )", &["d_crank", "d_p", "s"], "i=[d_crank|d_p]·(1−s)");
        check("M = P / ( 2 · π · n )", &["P", "n"], "M=[P|2·π·n]");
        check("M = z · μ · F · (D + d) / 4", &["z", "μ", "F", "D", "d"], "M=[z·μ·F·(D+d)|4]");
    }

    #[test]
    fn powers_and_roots_keep_what_is_theirs() {
        check("P = P_ref · ( n / n_ref )³", &["P_ref", "n", "n_ref"], "P=P_ref·([n|n_ref])^{3}");
        check("f = √( F / ( z · m ) ) / ( 2 · L )", &["F", "z", "m", "L"], "f=[√{[F|z·m]}|2·L]");
        check("I = I_m · ( 1 − e^( −( n − n_0 ) / τ ) )", &["I_m", "n", "n_0", "τ"], "I=I_m·(1−e^{−[n−n_0|τ]})");
        check("Q = ½ · J_1 · ω²", &["J_1", "ω"], "Q=½·J_1·ω^{2}");
    }

    #[test]
    fn words_stay_words() {
        check("F_set = larger of F_idle and F_rev", &["F_idle", "F_rev"], "F_set=‹larger›‹of›F_idle‹and›F_rev");
        check("g = max(0, D − H)", &["D", "H"], "g=max(0,D−H)");
    }

    #[test]
    fn nothing_of_a_line_is_lost() {
        use trialfit_core::calculators::ALL;
        let plan = trialfit_core::plan::Plan::default();
        for calculator in 0..ALL.len() as u8 {
            let sections = trialfit_core::method::method(&plan, ALL, calculator, Default::default());
            for line in sections.iter().flat_map(|section| &section.entries).filter_map(|entry| entry.equation) {
                let names: Vec<&str> = line.terms.iter().map(|term| term.0).collect();
                let kept = |text: &str| text.chars().map(plain).filter(|it| it.is_alphanumeric()).collect::<String>();
                assert_eq!(kept(&text(&read(line.equation, &names))), kept(line.equation), "{}", line.equation);
            }
        }
    }
}
