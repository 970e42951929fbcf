//! Names made from content, so that a file can be kept for ever once fetched.
//!
//! A source refers to another by its plain name in double braces, `{{boot.js}}`. A file's name is made after those it
//! refers to have theirs, so that a change anywhere below changes every name above it.

use anyhow::{Context, Result, bail, ensure};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;

/// Hexadecimal digits of the content's hash in a name.
const DIGITS: usize = 12;

/// The first digits of the SHA-256 of `content`.
#[must_use]
pub fn fingerprint(content: &[u8]) -> String {
    let digits = Sha256::digest(content).iter().map(|byte| format!("{byte:02x}")).collect::<String>();
    digits[..DIGITS].to_owned()
}

/// Whether `name` is one of those made here, which no other content will ever have.
#[must_use]
pub fn is_fingerprinted(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or_default();
    stem.rsplit_once('-').is_some_and(|(_, end)| end.len() == DIGITS && end.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f')))
}

/// A source before it has its name.
#[derive(Debug, Clone)]
pub enum Source {
    /// Text of ours, in which references are replaced.
    Template(String),
    /// Taken as it is.
    Finished(Vec<u8>),
}

/// Sources by plain name, and the finished files that have been asked for.
#[derive(Debug, Default)]
pub struct Names {
    sources: BTreeMap<String, Source>,
    finished: BTreeMap<String, (String, Vec<u8>)>,
    under_way: Vec<String>,
}

impl Names {
    #[must_use]
    pub fn new(sources: BTreeMap<String, Source>) -> Self {
        Self { sources, ..Self::default() }
    }

    /// Replaces every reference in `text`; `known` gives the words that are no files.
    pub fn fill(&mut self, text: &str, known: &[(&str, &str)]) -> Result<String> {
        let mut filled = String::with_capacity(text.len());
        let mut rest = text;
        while let Some((before, after)) = rest.split_once("{{") {
            let (word, next) = after.split_once("}}").context("`{{` without `}}`")?;
            filled.push_str(before);
            match known.iter().find(|(name, _)| *name == word) {
                Some((_, value)) => filled.push_str(value),
                None => filled.push_str(&self.name_of(word)?),
            }
            rest = next;
        }
        filled.push_str(rest);
        Ok(filled)
    }

    /// The name `source` is served under; finishes it if that has not been done.
    fn name_of(&mut self, source: &str) -> Result<String> {
        if let Some((name, _)) = self.finished.get(source) {
            return Ok(name.clone());
        }
        if self.under_way.iter().any(|name| name == source) {
            bail!("{} refer to each other in a circle", self.under_way.join(", "));
        }
        let content = self.sources.get(source).cloned().with_context(|| format!("there is no file for {{{{{source}}}}}"))?;
        self.under_way.push(source.to_owned());
        let body = match content {
            Source::Finished(bytes) => bytes,
            Source::Template(text) => self.fill(&text, &[]).with_context(|| format!("in {source}"))?.into_bytes(),
        };
        self.under_way.pop();
        let (stem, extension) = source.split_once('.').unwrap_or((source, "bin"));
        let name = format!("{stem}-{}.{extension}", fingerprint(&body));
        self.finished.insert(source.to_owned(), (name.clone(), body));
        Ok(name)
    }

    /// Every finished file; an error names the sources that nothing refers to, as no page could ever load them.
    pub fn finish(self) -> Result<Vec<(String, Vec<u8>)>> {
        let unused = self.sources.keys().filter(|name| !self.finished.contains_key(*name)).cloned().collect::<Vec<_>>();
        ensure!(unused.is_empty(), "no page refers to {}", unused.join(", "));
        Ok(self.finished.into_values().collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(sources: &[(&str, &str)]) -> Names {
        let template = |(name, text): &(&str, &str)| ((*name).to_owned(), Source::Template((*text).to_owned()));
        Names::new(sources.iter().map(template).collect())
    }

    /// SHA-256 of "abc": FIPS 180-2, appendix B.1.
    #[test]
    fn fingerprint_is_the_start_of_sha_256() {
        assert_eq!(fingerprint(b"abc"), "ba7816bf8f01");
    }

    #[test]
    fn names_made_here_are_told_from_others() {
        assert!(is_fingerprinted("app_bg-ba7816bf8f01.wasm"));
        assert!(is_fingerprinted("icon-192-ba7816bf8f01.png"));
        for other in ["index.html", "sw.js", "icon-192.png", "app-ba7816bf8f0.js", "app-BA7816BF8F01.js", ""] {
            assert!(!is_fingerprinted(other), "{other}");
        }
    }

    #[test]
    fn a_change_below_changes_every_name_above() {
        let name = |leaf: &str| names(&[("a.js", "uses {{b.js}}"), ("b.js", leaf)]).fill("{{a.js}}", &[]).unwrap();
        assert_ne!(name("one"), name("two"));
        assert_eq!(name("one"), name("one"));
    }

    #[test]
    fn references_become_names_and_known_words_their_values() {
        let mut names = names(&[("b.js", "abc")]);
        assert_eq!(names.fill("<{{b.js}}|{{word}}>", &[("word", "{value}")]).unwrap(), "<b-ba7816bf8f01.js|{value}>");
        assert_eq!(names.finish().unwrap(), [("b-ba7816bf8f01.js".to_owned(), b"abc".to_vec())]);
    }

    #[test]
    fn mistakes_in_references_are_told() {
        let problem = |sources, text| {
            let mut names = names(sources);
            let result = names.fill(text, &[]).and_then(|_| names.finish());
            format!("{:#}", result.unwrap_err())
        };
        assert_eq!(problem(&[], "{{gone.js}}"), "there is no file for {{gone.js}}");
        assert_eq!(problem(&[("a.js", "{{a.js}}")], "{{a.js}}"), "in a.js: a.js refer to each other in a circle");
        assert_eq!(problem(&[("a.js", "")], "nothing"), "no page refers to a.js");
        assert_eq!(problem(&[], "{{open"), "`{{` without `}}`");
    }
}
