//! Words in a link: letters and digits as they are, `-` for a space, `.e9.` for anything else (code points in hex, joined
//! by `-`), `.0.` for no words.

use crate::entry::hostile;

/// Words in the letters a link may hold.
pub(super) fn write(words: &str) -> String {
    if words.is_empty() {
        return ".0.".into();
    }
    let mut text = String::new();
    let mut escaped = false;
    let mut spaced = false;
    for letter in words.chars() {
        // A second space is escaped: forums turn two hyphens into a dash.
        let plain = match letter {
            ' ' if !spaced => Some('-'),
            letter if letter.is_ascii_alphanumeric() => Some(letter),
            _ => None,
        };
        spaced = letter == ' ' && !spaced;
        match plain {
            Some(letter) => {
                if core::mem::take(&mut escaped) {
                    text.push('.');
                }
                text.push(letter);
            }
            None => {
                text.push(if escaped { '-' } else { '.' });
                text.push_str(&format!("{:x}", u32::from(letter)));
                escaped = true;
            }
        }
    }
    if escaped {
        text.push('.');
    }
    text
}

/// The words of a link's text, and whether all of it was readable and fit to show.
pub(super) fn read(text: &str) -> (String, bool) {
    let mut words = String::new();
    let mut sound = true;
    let mut rest = text;
    while let Some(letter) = rest.chars().next() {
        rest = &rest[letter.len_utf8()..];
        match letter {
            '-' => words.push(' '),
            '.' => match rest.split_once('.').and_then(|(inside, after)| Some((escaped(inside)?, after))) {
                Some((letters, after)) => {
                    words.push_str(&letters);
                    rest = after;
                }
                // A full stop typed by hand.
                None => words.push('.'),
            },
            letter => words.push(letter),
        }
    }
    if words.contains(hostile) {
        words.retain(|letter| !hostile(letter));
        sound = false;
    }
    (words, sound)
}

/// The letters of an escape; none where it is none.
fn escaped(inside: &str) -> Option<String> {
    if inside == "0" {
        return Some(String::new());
    }
    inside.split('-').map(|code| char::from_u32(u32::from_str_radix(code, 16).ok()?)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(words: &str, text: &str) {
        assert_eq!(write(words), text);
        assert_eq!(read(text), (words.into(), true));
    }

    #[test]
    fn words_come_back() {
        check("try this bore", "try-this-bore");
        check("", ".0.");
        check("é", ".e9.");
        check("Öl, 5-30", ".d6.l.2c.-5.2d.30");
        check("a  b", "a-.20.b");
        check("½½ in", ".bd-bd.-in");
        check("a/b=c", "a.2f.b.3d.c");
        check("<b>", ".3c.b.3e.");
    }

    #[test]
    fn damage_and_hostility_are_noticed_and_the_rest_kept() {
        assert_eq!(read("ab.202e.cd"), ("abcd".into(), false));
        assert_eq!(read("ab.7.cd"), ("abcd".into(), false));
    }

    #[test]
    fn what_is_no_escape_is_a_full_stop() {
        for (text, words) in
            [("bore-22.2-mm", "bore 22.2 mm"), ("22.2-or-23.5", "22.2 or 23.5"), ("ab.zz.cd", "ab.zz.cd"), ("end.", "end.")]
        {
            assert_eq!(read(text), (words.into(), true));
        }
    }
}
