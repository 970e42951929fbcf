//! Text from outside, made safe to show and simple to read.

/// `text` without control, bidirectional and invisible characters, runs of spaces as one, at most `most` characters
/// (the last of them `…` when something was cut).
#[must_use]
pub fn clean(text: &str, most: usize) -> String {
    let mut cleaned = String::new();
    let mut length = 0;
    let mut space = false;
    for letter in text.chars() {
        if letter.is_whitespace() {
            space = length > 0;
            continue;
        }
        if invisible(letter) {
            continue;
        }
        if length + usize::from(space) >= most {
            if length >= most {
                cleaned.pop();
            }
            cleaned.push('…');
            break;
        }
        if space {
            cleaned.push(' ');
            length += 1;
            space = false;
        }
        cleaned.push(letter);
        length += 1;
    }
    cleaned
}

/// Control characters and those that reorder what is shown around them: no words of a build hold any.
#[must_use]
pub fn hostile(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{61C}' | '\u{200E}' | '\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2066}'..='\u{206F}' | '\u{FFF9}'..='\u{FFFB}')
}

/// Characters that change how others are shown, or show nothing: a message must read as it will be understood.
pub(crate) fn invisible(letter: char) -> bool {
    hostile(letter)
        || matches!(letter, '\u{AD}' | '\u{180E}' | '\u{200B}'..='\u{200D}' | '\u{2060}'..='\u{2065}' | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}'
            | '\u{E0000}'..='\u{E0FFF}')
}

/// The letters of an entry with every dash, quote, space and operator in its plain form, outer spaces gone.
pub(crate) fn plain(text: &str) -> Vec<char> {
    let mut letters: Vec<char> = Vec::new();
    for letter in text.chars() {
        // As wide as a Chinese or Japanese letter: the same letters set apart by a constant.
        let letter = match letter {
            '\u{FF01}'..='\u{FF5E}' => char::from_u32(u32::from(letter) - 0xFEE0).unwrap_or(letter),
            letter => letter,
        };
        let letter = match letter {
            '−' | '–' | '—' | '‐' | '‑' | '‒' | '﹣' => '-',
            '×' => '*',
            '÷' | '⁄' | '∕' => '/',
            '’' | '‘' | '′' | '`' | '´' => '\'',
            '”' | '“' | '″' => '"',
            letter if letter.is_whitespace() => ' ',
            letter if invisible(letter) => continue,
            letter => letter,
        };
        match (letter, letters.last()) {
            (' ', None | Some(' ')) => {}
            // Two single marks are how a keyboard without the double one writes inches.
            ('\'', Some('\'')) => {
                letters.pop();
                letters.push('"');
            }
            _ => letters.push(letter),
        }
    }
    if letters.last() == Some(&' ') {
        letters.pop();
    }
    letters
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cleaned_text_cannot_reorder_or_hide() {
        assert_eq!(clean("ab\u{202E}cd\0\u{7}e", 20), "abcde");
        assert_eq!(clean("  a\t\n b  ", 20), "a b");
    }

    #[test]
    fn long_text_is_clipped_with_a_mark() {
        assert_eq!(clean("abcdef", 4), "abc…");
        assert_eq!(clean("abcd", 4), "abcd");
        assert_eq!(clean("ab cd", 3), "ab…");
    }
}
