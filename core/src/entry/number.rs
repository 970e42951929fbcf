//! One bare number: which of its marks group digits and which one is the decimal mark.

use super::sum::Problem;

/// A number and whether it was whole digits alone (the only kind a fraction may follow).
pub(super) struct Number {
    pub value: f64,
    pub whole: bool,
}

/// Reads the number that starts at `at`, moving it past; `None` when none starts there.
pub(super) fn number(letters: &[char], at: &mut usize) -> Option<Result<Number, Problem>> {
    let start = *at;
    let mut runs = vec![digits(letters, at)];
    let mut marks: Vec<char> = Vec::new();
    loop {
        let mark = match letters.get(*at) {
            Some(&mark @ ('.' | ',')) => mark,
            Some(&mark @ (' ' | '\'')) if marks.is_empty() || marks.contains(&mark) => {
                if !group_follows(letters, *at, runs.last().map_or(0, Vec::len)) {
                    break;
                }
                mark
            }
            _ => break,
        };
        let mut next = *at + 1;
        let run = digits(letters, &mut next);
        if run.is_empty() {
            // A decimal mark typed before its decimals; not the point of an abbreviation without any digit.
            if matches!(mark, '.' | ',') && !runs[0].is_empty() {
                *at = next;
            }
            break;
        }
        marks.push(mark);
        runs.push(run);
        *at = next;
    }
    if runs.iter().all(Vec::is_empty) {
        *at = start;
        return None;
    }
    let Some(decimal) = decimal_mark(&runs, &marks) else {
        return Some(Err(Problem::Marks));
    };
    let mut written = String::new();
    for (index, run) in runs.iter().enumerate() {
        if Some(index) == decimal {
            written.push('.');
        }
        written.extend(run);
    }
    let zero = written.chars().all(|letter| matches!(letter, '0' | '.'));
    let exponent = exponent(letters, at);
    written.push_str(&exponent);
    let whole = marks.is_empty() && exponent.is_empty();
    // Digits, one point and an exponent always parse; what matters is how large they are.
    Some(match written.parse::<f64>() {
        Ok(value) if !value.is_finite() => Err(Problem::TooLarge),
        Ok(0.0) if !zero => Err(Problem::TooSmall),
        Ok(value) => Ok(Number { value, whole }),
        Err(_) => Err(Problem::NotANumber),
    })
}

/// Index of the run after the decimal mark, `Some(runs.len())` standing for none; `None` when the marks make no sense.
fn decimal_mark(runs: &[Vec<char>], marks: &[char]) -> Option<Option<usize>> {
    let grouped = |marks: &[char]| {
        marks.iter().all(|mark| *mark == marks[0])
            && (marks.is_empty() || (1..=3).contains(&runs[0].len()))
            && runs[1..=marks.len()].iter().all(|run| run.len() == 3)
    };
    let (last, before) = match marks.split_last() {
        None => return Some(None),
        Some((last, before)) => (*last, before),
    };
    let is_decimal = matches!(last, '.' | ',') && !before.contains(&last);
    if is_decimal { grouped(before).then_some(Some(marks.len())) } else { grouped(marks).then_some(None) }
}

/// Whether the mark at `at` stands before exactly three digits that are no fraction's numerator.
fn group_follows(letters: &[char], at: usize, before: usize) -> bool {
    let mut next = at + 1;
    let run = digits(letters, &mut next);
    let fraction = letters.get(next) == Some(&'/') && letters.get(next + 1).is_some_and(char::is_ascii_digit);
    run.len() == 3 && (1..=3).contains(&before) && !fraction
}

/// The run of digits at `at`, moving it past.
pub(super) fn digits(letters: &[char], at: &mut usize) -> Vec<char> {
    let run: Vec<char> = letters.get(*at..).unwrap_or_default().iter().copied().take_while(char::is_ascii_digit).collect();
    *at += run.len();
    run
}

/// `e3`, `E-3`: as written, or empty.
fn exponent(letters: &[char], at: &mut usize) -> String {
    let mut next = *at;
    if !matches!(letters.get(next), Some('e' | 'E')) {
        return String::new();
    }
    next += 1;
    let mut written = String::from("e");
    if let Some(sign @ ('+' | '-')) = letters.get(next) {
        written.push(*sign);
        next += 1;
    }
    let run = digits(letters, &mut next);
    if run.is_empty() {
        return String::new();
    }
    written.extend(run);
    *at = next;
    written
}

/// Value of a one-character fraction.
pub(super) fn vulgar(letter: char) -> Option<f64> {
    let (over, under) = match letter {
        '½' => (1.0, 2.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅐' => (1.0, 7.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '⅑' => (1.0, 9.0),
        '⅒' => (1.0, 10.0),
        _ => return None,
    };
    Some(over / under)
}
