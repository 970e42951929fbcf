//! Lines of text set for where they go: as they are, or in the markup of a forum. Words of the reader's own come out as
//! words there, whatever they look like.

use core::fmt::Write;

/// How text is marked up.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Form {
    /// Not at all: for messages and mail.
    Plain,
    /// CommonMark.
    Markdown,
    /// The tags in brackets of older forums.
    Bbcode,
}

/// A line and what it is.
#[derive(Clone, PartialEq, Debug)]
pub enum Line {
    /// Title of what follows, and words after it that are not its name.
    Heading(&'static str, String),
    /// Words by themselves.
    Words(String),
    /// Words of whoever sends it.
    Note(String),
    /// One of a list.
    Item(String),
    /// What can hurt.
    Caution(&'static str),
    /// The build's link, from the page it is opened on; of an empty page the link alone.
    Address {
        /// The page.
        page: String,
        /// What follows it.
        fragment: String,
    },
    /// Room.
    Blank,
}

/// Brings a text into the reader's language; in English it leaves it as it is.
pub type Translate = fn(&str) -> String;

/// Where a link stands behind words.
const OPENS: &str = "Open the car with these values";

pub(super) fn written(lines: &[Line], form: Form, translate: Translate) -> String {
    let mut text = String::new();
    let mut before = Kind::Words;
    for line in lines {
        let kind = line.kind();
        if kind != before {
            match form {
                // Between words, a list and a quotation, Markdown wants room.
                Form::Markdown if !text.ends_with("\n\n") => text.push('\n'),
                Form::Bbcode if kind == Kind::Item => text.push_str("[list]\n"),
                Form::Bbcode if before == Kind::Item => text.push_str("[/list]\n"),
                _ => {}
            }
            before = kind;
        }
        if !(matches!(line, Line::Blank) && text.ends_with("\n\n")) {
            one(line, form, translate, &mut text);
        }
    }
    text.truncate(text.trim_end().len());
    text
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Words,
    Item,
    Caution,
}

impl Line {
    fn kind(&self) -> Kind {
        match self {
            Self::Item(_) => Kind::Item,
            Self::Caution(_) => Kind::Caution,
            _ => Kind::Words,
        }
    }
}

/// Writing to a string does not fail.
fn one(line: &Line, form: Form, translate: Translate, text: &mut String) {
    let say = |words: &str| escaped(&translate(words), form);
    let note = |note: &String| format!("{} {}", say("Note:"), escaped(note, form));
    _ = match (line, form) {
        (Line::Heading(title, after), Form::Plain) => writeln!(text, "{}{}", say(title).to_uppercase(), say(after)),
        (Line::Heading(title, after), Form::Markdown) => writeln!(text, "**{}**{}  ", say(title), say(after)),
        (Line::Heading(title, after), Form::Bbcode) => writeln!(text, "[b]{}[/b]{}", say(title), say(after)),
        (Line::Words(words), Form::Plain | Form::Bbcode) => writeln!(text, "{}", say(words)),
        (Line::Words(words), Form::Markdown) => writeln!(text, "{}  ", say(words)),
        (Line::Note(words), Form::Plain | Form::Bbcode) => writeln!(text, "{}", note(words)),
        (Line::Note(words), Form::Markdown) => writeln!(text, "{}  ", note(words)),
        (Line::Item(words), Form::Plain | Form::Markdown) => writeln!(text, "- {}", say(words)),
        (Line::Item(words), Form::Bbcode) => writeln!(text, "[*]{}", say(words)),
        (Line::Caution(words), Form::Plain) => writeln!(text, "! {}", say(words)),
        (Line::Caution(words), Form::Markdown) => writeln!(text, "> {}  ", say(words)),
        (Line::Caution(words), Form::Bbcode) => writeln!(text, "[i]{}[/i]", say(words)),
        (Line::Address { page, fragment }, _) if page.is_empty() => writeln!(text, "{} #{fragment}", say("Build:")),
        (Line::Address { page, fragment }, Form::Plain) => writeln!(text, "{page}#{fragment}"),
        (Line::Address { page, fragment }, Form::Markdown) => writeln!(text, "[{}](<{}#{fragment}>)", say(OPENS), plain_address(page)),
        (Line::Address { page, fragment }, Form::Bbcode) => writeln!(text, "[url={}#{fragment}]{}[/url]", plain_address(page), say(OPENS)),
        (Line::Blank, _) => writeln!(text),
    };
}

/// Words that the markup leaves as they are.
fn escaped(words: &str, form: Form) -> String {
    let mut text = String::with_capacity(words.len());
    for (at, letter) in words.char_indices() {
        match (form, letter) {
            (Form::Markdown, '&') => text.push_str("&amp;"),
            (Form::Markdown, '<') => text.push_str("&lt;"),
            (Form::Markdown, '>') => text.push_str("&gt;"),
            (Form::Markdown, '\\' | '`' | '*' | '_' | '[' | ']' | '#' | '|' | '~' | '$' | '^' | '=') => text.extend(['\\', letter]),
            // At the beginning they would make a list; in the middle, with smart punctuation, a dash.
            (Form::Markdown, '-' | '+') if at == 0 || words[..at].ends_with(letter) => text.extend(['\\', letter]),
            // Of a number at the beginning, which would be an item's.
            (Form::Markdown, '.' | ')') if at > 0 && words[..at].chars().all(|it| it.is_ascii_digit()) => text.extend(['\\', letter]),
            // There is no way to write a bracket that every forum takes for one.
            (Form::Bbcode, '[') => text.push('('),
            (Form::Bbcode, ']') => text.push(')'),
            _ => text.push(letter),
        }
    }
    text
}

/// The page's address without letters that would end it early.
fn plain_address(page: &str) -> String {
    page.chars().fold(String::new(), |mut text, letter| {
        match letter {
            '<' | '>' | '[' | ']' | '"' | ' ' => _ = write!(text, "%{:02X}", u32::from(letter)),
            _ => text.push(letter),
        }
        text
    })
}
