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
            '.' => {
                let Some((inside, after)) = rest.split_once('.') else {
                    sound = false;
                    break;
                };
                rest = after;
                if inside == "0" {
                    continue;
                }
                for code in inside.split('-') {
                    let letter = u32::from_str_radix(code, 16).ok().and_then(char::from_u32);
                    match letter {
                        Some(letter) => words.push(letter),
                        None => sound = false,
                    }
                }
            }
            letter => words.push(letter),
        }
    }
    if words.contains(hostile) {
        words.retain(|letter| !hostile(letter));
        sound = false;
    }
    (words, sound)
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
        assert_eq!(read("ab.d800.cd"), ("abcd".into(), false));
        assert_eq!(read("ab.zz.cd"), ("abcd".into(), false));
        assert_eq!(read("ab.e9"), ("ab".into(), false));
        assert_eq!(read("ab.7.cd"), ("abcd".into(), false));
    }
}
