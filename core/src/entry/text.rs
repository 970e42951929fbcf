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

/// The text of a file: UTF-8, or UTF-16 where a mark at its start says so, as some editors and shells write. What is
/// neither shows by its marks of replacement.
#[must_use]
pub fn decoded(bytes: &[u8]) -> String {
    let pairs = |read: fn([u8; 2]) -> u16| {
        let units: Vec<u16> = bytes[2..].chunks_exact(2).map(|pair| read([pair[0], pair[1]])).collect();
        String::from_utf16_lossy(&units)
    };
    match bytes {
        [0xFF, 0xFE, ..] => pairs(u16::from_le_bytes),
        [0xFE, 0xFF, ..] => pairs(u16::from_be_bytes),
        _ => String::from_utf8_lossy(bytes).into_owned(),
    }
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
    fn a_file_is_read_in_the_letters_it_was_written_in() {
        let text = "Öl ½ 🚗\r\n";
        let units = |write: fn(u16) -> [u8; 2]| "\u{FEFF}".encode_utf16().chain(text.encode_utf16()).flat_map(write).collect::<Vec<u8>>();
        assert_eq!(decoded(text.as_bytes()), text);
        assert_eq!(decoded(&units(u16::to_le_bytes)), text);
        assert_eq!(decoded(&units(u16::to_be_bytes)), text);
        // Half a letter at the end, and what is no text.
        assert_eq!(decoded(&[0xFF, 0xFE, b'a', 0, b'b']), "a");
        assert_eq!(decoded(&[0xFF]), "\u{FFFD}");
        assert_eq!(decoded(&[]), "");
    }

    #[test]
    fn long_text_is_clipped_with_a_mark() {
        assert_eq!(clean("abcdef", 4), "abc…");
        assert_eq!(clean("abcd", 4), "abcd");
        assert_eq!(clean("ab cd", 3), "ab…");
    }
}
