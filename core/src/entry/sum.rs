//! A sum of bare numbers: `+ - * /`, parentheses, fractions and mixed numbers.
//!
//! ```text
//! sum = product *( ("+" / "-") product )     product = signed *( ("*" / "/") signed )
//! signed = ["+" / "-"] atom                  atom = "(" sum ")" / number [fraction] / fraction
//! ```
//!
//! An operator is taken only when a number follows, so that `850/min` leaves `/min` to be a unit.

use super::number::{digits, number, vulgar};

/// What is wrong with a sum.
pub(super) enum Problem {
    NotANumber,
    Marks,
    Unfinished,
    DividesByZero,
    TooLarge,
    TooSmall,
    DashedFraction { whole: String, fraction: String },
    Range { from: String, to: String },
}

/// A sum's value, and whether it was one number alone with what sign.
pub(super) struct Sum {
    pub value: f64,
    pub single: bool,
    pub negative: bool,
}

/// Goes through the letters of an entry once, from left to right.
pub(super) struct Reader<'a> {
    letters: &'a [char],
    at: usize,
    operators: usize,
    /// Nobody subtracts here: `6-5` is a range as much as `5-6`.
    ranges: bool,
}

impl<'a> Reader<'a> {
    pub(super) fn new(letters: &'a [char], ranges: bool) -> Self {
        Self { letters, at: 0, operators: 0, ranges }
    }

    pub(super) fn sum(&mut self) -> Result<Sum, Problem> {
        let (start, before) = (self.at, self.operators);
        let negative = self.peek() == Some('-');
        let mut value = self.product()?;
        while let Some(operator) = self.operator(&['+', '-']) {
            if operator == '-' {
                self.refuse_dashed_fraction(start)?;
            }
            let after = self.at;
            let next = self.product()?;
            if operator == '-' && (self.ranges || value < next) {
                self.refuse_range(after)?;
            }
            value = if operator == '+' { value + next } else { value - next };
        }
        Ok(Sum { value, single: self.operators == before, negative })
    }

    pub(super) fn product(&mut self) -> Result<f64, Problem> {
        let mut value = self.signed()?;
        while let Some(operator) = self.operator(&['*', '/']) {
            let next = self.signed()?;
            if operator == '*' {
                value *= next;
            } else if next == 0.0 {
                return Err(Problem::DividesByZero);
            } else {
                value /= next;
            }
        }
        Ok(value)
    }

    fn signed(&mut self) -> Result<f64, Problem> {
        self.skip_spaces();
        match self.peek() {
            Some('-') => {
                self.at += 1;
                self.skip_spaces();
                Ok(-self.atom()?)
            }
            Some('+') => {
                self.at += 1;
                self.skip_spaces();
                self.atom()
            }
            _ => self.atom(),
        }
    }

    fn atom(&mut self) -> Result<f64, Problem> {
        if self.peek() == Some('(') {
            self.at += 1;
            self.operators += 1;
            let inner = self.sum()?;
            self.skip_spaces();
            if self.peek() != Some(')') {
                return Err(Problem::Unfinished);
            }
            self.at += 1;
            return Ok(inner.value);
        }
        if let Some(fraction) = self.peek().and_then(vulgar) {
            self.at += 1;
            return Ok(fraction);
        }
        match number(self.letters, &mut self.at) {
            None => Err(if self.at_end() && self.at > 0 && self.has_digits() { Problem::Unfinished } else { Problem::NotANumber }),
            Some(Err(why)) => Err(why),
            Some(Ok(number)) if number.whole => Ok(number.value + self.fraction_after()),
            Some(Ok(number)) => Ok(number.value),
        }
    }

    /// The proper fraction that makes the whole number just read a mixed one, or 0.
    fn fraction_after(&mut self) -> f64 {
        let spaced = self.peek() == Some(' ');
        let start = self.at + usize::from(spaced);
        if let Some(fraction) = self.letters.get(start).copied().and_then(vulgar) {
            self.at = start + 1;
            return fraction;
        }
        match self.proper_fraction(start) {
            Some((fraction, end)) if spaced => {
                self.at = end;
                fraction
            }
            _ => 0.0,
        }
    }

    /// `3/4` without spaces at `start`, less than one, and where it ends.
    fn proper_fraction(&self, start: usize) -> Option<(f64, usize)> {
        let mut at = start;
        let over = whole(&digits(self.letters, &mut at))?;
        if self.letters.get(at) != Some(&'/') {
            return None;
        }
        at += 1;
        let under = whole(&digits(self.letters, &mut at))?;
        let decimal = matches!(self.letters.get(at), Some('.' | ',' | 'e' | 'E'));
        (0.0 < over && over < under && !decimal).then(|| (over / under, at))
    }

    /// `5-3/4` with the reader just past the hyphen.
    fn refuse_dashed_fraction(&self, start: usize) -> Result<(), Problem> {
        let whole: String = self.letters[start..self.at - 1].iter().collect();
        match self.proper_fraction(self.at) {
            Some((_, end)) if !whole.is_empty() && whole.chars().all(|letter| letter.is_ascii_digit()) => {
                let fraction = self.letters[self.at..end].iter().collect();
                Err(Problem::DashedFraction { whole, fraction })
            }
            _ => Ok(()),
        }
    }

    /// `5-6` without spaces, which is how people write from 5 to 6; `after` is just past its hyphen.
    fn refuse_range(&self, after: usize) -> Result<(), Problem> {
        let plain = |part: &[char]| !part.is_empty() && part.iter().all(|letter| letter.is_ascii_digit() || matches!(letter, '.' | ','));
        let (from, to) = (&self.letters[..after - 1], &self.letters[after..self.at]);
        if !plain(from) || !plain(to) {
            return Ok(());
        }
        Err(Problem::Range { from: from.iter().collect(), to: to.iter().collect() })
    }

    /// Takes the next operator if it is one of these and a number follows it.
    fn operator(&mut self, among: &[char]) -> Option<char> {
        let start = self.at;
        self.skip_spaces();
        let operator = self.peek().filter(|letter| among.contains(letter));
        if operator.is_some() {
            self.at += 1;
            let after = self.at;
            self.skip_spaces();
            if matches!(self.peek(), Some('+' | '-')) {
                self.at += 1;
                self.skip_spaces();
            }
            let follows = self.starts_number() || self.peek() == Some('(');
            self.at = if follows { after } else { start };
            if follows {
                self.operators += 1;
                return operator;
            }
        }
        self.at = start;
        None
    }

    pub(super) fn skip_spaces(&mut self) {
        while self.peek() == Some(' ') {
            self.at += 1;
        }
    }

    pub(super) fn at_end(&self) -> bool {
        self.at >= self.letters.len()
    }

    /// Whether a number starts here, after spaces.
    pub(super) fn starts_number(&self) -> bool {
        let mut here = self.letters[self.at..].iter().skip_while(|letter| **letter == ' ');
        match here.next() {
            Some('.' | ',') => here.next().is_some_and(char::is_ascii_digit),
            Some(letter) => letter.is_ascii_digit() || vulgar(*letter).is_some(),
            None => false,
        }
    }

    pub(super) fn at_operator(&self) -> bool {
        matches!(self.peek(), Some('+' | '-' | '*' | '/' | '(' | ')'))
    }

    /// All that is left.
    pub(super) fn rest(&self) -> String {
        self.letters[self.at..].iter().collect()
    }

    pub(super) fn take_rest(&mut self) {
        self.at = self.letters.len();
    }

    /// Takes the unit written here: one foot or inch mark (and the hyphen of `5'-8"`), or all up to the next number.
    pub(super) fn unit_text(&mut self) -> String {
        let rest = &self.letters[self.at..];
        let length = if matches!(rest.first(), Some('\'' | '"')) {
            1
        } else {
            (1..rest.len()).find(|end| self.number_after(self.at + end)).unwrap_or(rest.len())
        };
        let length = self.stuck_to_next(length).unwrap_or(length);
        self.at += length;
        if rest.first() == Some(&'\'') && rest.get(1) == Some(&'-') {
            self.at += 1;
        }
        rest[..length].iter().collect::<String>().trim().into()
    }

    /// How many letters come before a figure that has letters of its own, as in `ft8in`; none in `mm2`.
    fn stuck_to_next(&self, length: usize) -> Option<usize> {
        let text = &self.letters[self.at..self.at + length];
        let first = text.iter().position(|letter| !letter.is_alphabetic()).filter(|&first| first > 0)?;
        let digits = text[first..].iter().take_while(|letter| letter.is_ascii_digit()).count();
        let letters = &text[first + digits..];
        (digits > 0 && !letters.is_empty() && letters.iter().all(|letter| letter.is_alphabetic())).then_some(first)
    }

    /// Whether a space or an operator stands at `at` with a number after it.
    fn number_after(&self, at: usize) -> bool {
        let operators = [' ', '+', '-', '*', '/', '('];
        operators.contains(&self.letters[at])
            && self.letters[at..]
                .iter()
                .find(|letter| !operators.contains(letter))
                .is_some_and(|letter| letter.is_ascii_digit() || vulgar(*letter).is_some())
    }

    fn has_digits(&self) -> bool {
        self.letters.iter().any(char::is_ascii_digit)
    }

    fn peek(&self) -> Option<char> {
        self.letters.get(self.at).copied()
    }
}

fn whole(digits: &[char]) -> Option<f64> {
    digits.iter().collect::<String>().parse().ok()
}
