//! The word most like a misspelt one.

/// The candidate whose name is within a third of its letters of `word` (two neighbours swapped count once), the first
/// of the nearest; none when nothing is that near.
pub(crate) fn nearest<T>(word: &str, candidates: impl Iterator<Item = T>, name: impl Fn(&T) -> &str) -> Option<T> {
    let word: Vec<char> = word.chars().take(LONGEST).collect();
    let mut best: Option<(usize, T)> = None;
    for candidate in candidates {
        let letters: Vec<char> = name(&candidate).chars().take(LONGEST).collect();
        let away = distance(&word, &letters);
        let near_enough = away <= letters.len().div_ceil(3);
        if near_enough && best.as_ref().is_none_or(|(least, _)| away < *least) {
            best = Some((away, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// Longer words are compared by their beginning, so that hostile text costs little.
const LONGEST: usize = 64;

/// Letters to add, drop, change or swap with a neighbour (optimal string alignment).
fn distance(left: &[char], right: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=right.len()).collect();
    for (row, letter) in left.iter().enumerate() {
        let mut next = vec![row + 1];
        for (column, other) in right.iter().enumerate() {
            let changed = last[column] + usize::from(letter != other);
            let mut least = changed.min(last[column + 1] + 1).min(next[column] + 1);
            let swapped = row > 0 && column > 0 && left[row - 1] == *other && right[column - 1] == *letter;
            if swapped {
                least = least.min(before[column - 1] + 1);
            }
            next.push(least);
        }
        before = last;
        last = next;
    }
    last.last().copied().unwrap_or(left.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_finger_is_found_and_another_word_is_not() {
        let words = ["slave-bore", "master-bore", "pedal-ratio"];
        let near = |word| nearest(word, words.iter(), |word| word).copied();
        assert_eq!(near("salve-bore"), Some("slave-bore"));
        assert_eq!(near("pedal-ration"), Some("pedal-ratio"));
        assert_eq!(near("headlamp"), None);
    }
}
