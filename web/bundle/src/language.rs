//! Languages: from the PO files people write to the catalogue the page reads.
//!
//! PO is what gettext and every translator's tool know. The page needs less: a line for each text, its key first, which it
//! can search as it comes.

use anyhow::{Context, Result, bail, ensure};
use polib::po_file::parse_from_reader;
use trialfit_core::language::{FORM, FORMS, TAB};

/// Of a number: what stands before its decimals. An entry with this context has it.
const NUMBER: &str = "number";
/// The language's own name stands as the translation of this.
const NAME: &str = "English";

/// A language as the page loads it.
#[derive(Debug, Clone)]
pub struct Language {
    /// `de`.
    pub code: String,
    /// `Deutsch`.
    pub name: String,
    /// Texts and their translations.
    pub texts: Vec<(String, String)>,
    mark: String,
    forms: String,
}

/// Reads a PO file.
///
/// # Errors
/// An entry without its translation, or one whose slots differ from its text's.
pub fn read(po: &str) -> Result<Language> {
    let catalog = parse_from_reader(po.as_bytes()).map_err(|why| anyhow::anyhow!("{why}"))?;
    let forms = &catalog.metadata.plural_rules;
    let form_of = |number: usize| -> Result<String> {
        let form = Plural::evaluate(&forms.expr, number)?;
        ensure!(form < forms.nplurals, "plural form {form} of {number}, of {}", forms.nplurals);
        Ok(form.to_string())
    };
    let mut language = Language {
        code: catalog.metadata.language.clone(),
        name: String::new(),
        texts: Vec::new(),
        mark: ".".to_owned(),
        forms: (0..FORMS).map(form_of).collect::<Result<String>>()?,
    };
    for message in catalog.messages() {
        let key = if message.is_plural() { message.msgid_plural()? } else { message.msgid() };
        let says = if message.is_plural() { message.msgstr_plural()?.clone() } else { vec![message.msgstr()?.to_owned()] };
        ensure!(message.is_translated() && !message.is_fuzzy(), "“{key}” is not translated");
        if message.msgctxt() == Some(NUMBER) {
            language.mark.clone_from(&says[0]);
            continue;
        }
        for form in &says {
            ensure!(slots(key) == slots(form), "“{key}” has other slots than “{form}”");
        }
        if message.is_plural() {
            // One is written out in the text for one, or has its slot too.
            ensure!(says.len() == forms.nplurals, "“{key}” has {} forms of {}", says.len(), forms.nplurals);
        }
        let says = says.join(&FORM.to_string());
        ensure!(!key.contains([TAB, '\n']) && !says.contains([TAB, '\n']), "“{key}” is more than a line");
        ensure!(!key.contains("{}{}"), "“{key}” has slots with nothing between them");
        language.texts.push((key.to_owned(), says));
    }
    language.name = language.of(NAME).context("no entry “English” with the language's own name")?.to_owned();
    language.texts.sort_unstable();
    Ok(language)
}

impl Language {
    /// A text's translation.
    #[must_use]
    pub fn of(&self, text: &str) -> Option<&str> {
        self.texts.iter().find(|(key, _)| key == text).map(|(_, says)| says.as_str())
    }

    /// As [`trialfit_core::language::Language::read`] reads it.
    #[must_use]
    pub fn written(&self) -> String {
        let mut text = format!("{}{TAB}{}{TAB}{}\n", self.code, self.mark, self.forms);
        for (key, says) in &self.texts {
            text.push_str(&format!("{key}{TAB}{says}\n"));
        }
        text
    }
}

/// Numbers of the slots of a text, sorted: `{}` are counted through. Another brace is a brace.
fn slots(text: &str) -> Vec<usize> {
    let numbers = text.split('{').skip(1).filter_map(|part| part.split_once('}')).map(|(number, _)| number);
    let is_slot = |number: &&str| number.chars().all(|letter| letter.is_ascii_digit());
    let mut all: Vec<usize> = numbers.filter(is_slot).enumerate().map(|(at, number)| number.parse().unwrap_or(at + 1)).collect();
    all.sort_unstable();
    all
}

/// The expression of a `Plural-Forms` header: what C knows of sums, comparisons and choices over `n`.
struct Plural<'a> {
    rest: &'a str,
    number: usize,
}

/// Signs by how tightly they bind, the loosest first; of those that begin alike the longer first.
const SIGNS: [&[&str]; 5] = [&["||"], &["&&"], &["==", "!="], &["<=", ">=", "<", ">"], &["%"]];

impl Plural<'_> {
    fn evaluate(expression: &str, number: usize) -> Result<usize> {
        let mut reader = Plural { rest: expression.trim_end_matches(';'), number };
        let form = reader.choice()?;
        ensure!(reader.rest.trim().is_empty(), "“{}” of the plural forms is not understood", reader.rest);
        Ok(form)
    }

    fn takes(&mut self, sign: &str) -> bool {
        let rest = self.rest.trim_start().strip_prefix(sign);
        self.rest = rest.unwrap_or(self.rest);
        rest.is_some()
    }

    fn choice(&mut self) -> Result<usize> {
        let is = self.signs(0)?;
        if !self.takes("?") {
            return Ok(is);
        }
        let then = self.choice()?;
        ensure!(self.takes(":"), "a choice of the plural forms has no other");
        let other = self.choice()?;
        Ok(if is > 0 { then } else { other })
    }

    fn signs(&mut self, level: usize) -> Result<usize> {
        let Some(signs) = SIGNS.get(level) else { return self.single() };
        let mut left = self.signs(level + 1)?;
        while let Some(sign) = signs.iter().find(|sign| self.takes(sign)) {
            let right = self.signs(level + 1)?;
            left = match *sign {
                "||" => usize::from(left > 0 || right > 0),
                "&&" => usize::from(left > 0 && right > 0),
                "==" => usize::from(left == right),
                "!=" => usize::from(left != right),
                "<=" => usize::from(left <= right),
                ">=" => usize::from(left >= right),
                "<" => usize::from(left < right),
                ">" => usize::from(left > right),
                _ => left.checked_rem(right).context("the plural forms divide by nought")?,
            };
        }
        Ok(left)
    }

    fn single(&mut self) -> Result<usize> {
        if self.takes("n") {
            return Ok(self.number);
        }
        if self.takes("(") {
            let inside = self.choice()?;
            ensure!(self.takes(")"), "a bracket of the plural forms is not closed");
            return Ok(inside);
        }
        let rest = self.rest.trim_start();
        let end = rest.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(rest.len());
        if end == 0 {
            bail!("“{rest}” of the plural forms is not understood");
        }
        self.rest = &rest[end..];
        Ok(rest[..end].parse()?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn po(entries: &str) -> Result<Language> {
        let head = r#"msgid ""
msgstr ""
"Language: de\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\n"

msgid "English"
msgstr "Deutsch"
"#;
        read(&format!("{head}\n{entries}"))
    }

    #[test]
    fn a_file_becomes_a_line_for_each_text() -> Result<()> {
        let language = po("msgctxt \"number\"\nmsgid \".\"\nmsgstr \",\"\n\nmsgid \"{} of {}\"\nmsgstr \"von {2} {1}\"\n\n\
            msgid \"{} gear\"\nmsgid_plural \"{} gears\"\nmsgstr[0] \"{} Gang\"\nmsgstr[1] \"{} Gänge\"\n")?;
        let written = language.written();
        let (head, rest) = written.split_once('\n').context("no head")?;
        assert!(head.starts_with("de\t,\t1011111"), "{head}");
        assert_eq!(rest, "English\tDeutsch\n{} gears\t{} Gang\u{1F}{} Gänge\n{} of {}\tvon {2} {1}\n");
        Ok(())
    }

    #[test]
    fn what_is_not_whole_is_refused() {
        for entries in [
            "msgid \"a\"\nmsgstr \"\"",
            "msgid \"{} a\"\nmsgstr \"b\"",
            "msgid \"{} a {}\"\nmsgstr \"{1} b {1}\"",
            "msgid \"{}{} a\"\nmsgstr \"{}{} b\"",
            "#, fuzzy\nmsgid \"a\"\nmsgstr \"b\"",
        ] {
            assert!(po(entries).is_err(), "{entries}");
        }
    }

    /// Examples of the gettext manual, "Plural forms".
    #[test]
    fn plural_forms_are_those_of_the_manual() -> Result<()> {
        let polish = "(n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<10 || n%100>=20) ? 1 : 2)";
        for (number, form) in [(1, 0), (2, 1), (5, 2), (12, 2), (22, 1), (112, 2), (0, 2)] {
            assert_eq!(Plural::evaluate(polish, number)?, form, "{number}");
        }
        assert_eq!(Plural::evaluate("n > 1", 1)?, 0);
        assert_eq!(Plural::evaluate("0", 7)?, 0);
        assert!(Plural::evaluate("n != ", 1).is_err() && Plural::evaluate("n % 0", 1).is_err() && Plural::evaluate("n )", 1).is_err());
        Ok(())
    }
}
