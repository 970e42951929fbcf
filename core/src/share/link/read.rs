//! Reading a link: whatever still makes sense is taken, all else is said.

mod asked;
mod held;
mod parts;
mod sought;
mod values;

use super::{Asked, LONGEST, Link, NOTE, OF_THE_CAR, Opened, Tool, VERSION};
use crate::build::Build;
use crate::calculators::{self, Calculator};
use crate::entry::{clean, invisible, nearest};
use crate::layout::Layout;
use crate::method::key_of;
use crate::order::Order;
use crate::overview::OVERVIEW;
use crate::share::problem::Problems;
use crate::share::{LinkProblem, Unreadable, base62, editions, words};
use crate::show::System;
use crate::spec::{Role, RowId, TableId};
use std::collections::BTreeSet;
use std::sync::Arc;

/// More items than the largest build has cells.
const MOST_ITEMS: usize = 10_000;

/// Letters that may stand between the `#` and a link: a quotation mark, a bracket.
const BEFORE_HEAD: usize = 8;

/// Version, form and edition, at their longest.
const LONGEST_HEAD: usize = 24;

/// Longest piece of a link quoted in a message.
const QUOTED: usize = 48;

/// Reads a link, or a whole address that has one after its `#`.
///
/// # Errors
/// [`Unreadable`], when nothing of it is a link. All lesser damage is in [`Opened::problems`].
pub fn read(text: &str) -> Result<Opened, Unreadable> {
    read_for(calculators::ALL, text)
}

/// Like [`read`], for these calculators.
///
/// # Errors
/// [`Unreadable`].
pub fn read_for(calculators: &'static [&'static Calculator], text: &str) -> Result<Opened, Unreadable> {
    if text.len() > 4 * LONGEST {
        return Err(Unreadable::TooLong);
    }
    let mut found = fragment(text)?;
    // Somebody's keyboard or printer had capitals alone.
    if !found.bytes().any(|letter| letter.is_ascii_lowercase()) {
        found.make_ascii_lowercase();
    }
    let not_a_link = || Unreadable::NotALink { text: clean(text, QUOTED) };
    let (head, body) = found.split_once('/').ok_or_else(not_a_link)?;
    let (version, edition) = head.split_once('.').ok_or_else(not_a_link)?;
    let (version, form) = version.split_at(version.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(version.len()));
    let (version, edition) = (version.parse().map_err(|_| not_a_link())?, edition.parse().map_err(|_| not_a_link())?);
    if version == 0 || edition == 0 {
        return Err(Unreadable::NoEdition { head: clean(head, QUOTED) });
    }
    let mut problems = Problems::default();
    if version > VERSION {
        problems.add(LinkProblem::LaterVersion { version });
    }
    if edition > editions::CURRENT {
        problems.add(LinkProblem::LaterEdition { edition });
    }
    let unpacked;
    let (body, damaged) = match form {
        "" => (body, false),
        "z" => {
            unpacked = unpack(body)?;
            (unpacked.0.as_str(), unpacked.1)
        }
        _ => return Err(Unreadable::LaterForm),
    };
    let usual = base(calculators, edition);
    let mut reader = Reader { link: usual.clone().into(), usual, problems, first: None };
    reader.items(body, damaged);
    Ok(Opened { link: reader.link, problems: reader.problems.finish() })
}

/// The defaults of an edition.
fn base(calculators: &'static [&'static Calculator], edition: u32) -> Build {
    restored(Build::new(calculators), edition, editions::SUPERSEDED).link.build
}

/// Today's defaults turned back, edition by edition.
fn restored(build: Build, edition: u32, superseded: &[&str]) -> Reader {
    let mut reader = Reader { usual: build.clone(), link: build.into(), problems: Problems::default(), first: None };
    let kept = usize::try_from(edition - 1).unwrap_or(usize::MAX);
    for items in superseded.iter().skip(kept).rev() {
        reader.items(&format!("{items}/end"), false);
    }
    reader
}

/// What a page that escapes, or a program that sets type, makes of a link's own letters.
const WRITTEN: [(&str, &str); 8] =
    [("&#x2F;", "/"), ("&#47;", "/"), ("&#x3D;", "="), ("&#61;", "="), ("\u{2010}", "-"), ("\u{2011}", "-"), ("–", "-"), ("−", "-")];

/// The link within an address, a quotation, a line that was wrapped or escaped on its way.
fn fragment(text: &str) -> Result<String, Unreadable> {
    let mut text = if is_quoted_printable(text) { printed_decoded(text) } else { text.to_owned() };
    for _ in 0..3 {
        match percent_decoded(&text) {
            Some(decoded) => text = decoded,
            None => break,
        }
    }
    for (written, letter) in WRITTEN {
        text = text.replace(written, letter);
    }
    let outside = |letter: char| !letter.is_ascii_alphanumeric();
    // A few such letters only, lest many of them cost as much as many times many.
    let begins = |rest: &str| rest.chars().take(BEFORE_HEAD).take_while(|&letter| outside(letter)).map(char::len_utf8).sum::<usize>();
    let fragments = || text.match_indices('#').map(|(at, _)| &text[at + 1..]).map(|rest| &rest[begins(rest)..]);
    // A note may have a `#` or an address in it.
    let bare = Some(text.trim_start_matches(outside)).filter(|bare| has_head(bare));
    let found = match bare.or_else(|| fragments().find(|found| has_head(found))).or_else(|| fragments().next_back()) {
        Some(fragment) => fragment,
        None if text.contains("://") => return Err(Unreadable::NoFragment),
        None => text.trim_start_matches(outside),
    };
    let found = &found[..end_of_link(found).unwrap_or(found.len())];
    let mut letters = String::new();
    let mut rest = found.chars().filter(|&letter| !invisible(letter) || letter.is_whitespace()).peekable();
    while let Some(letter) = rest.next() {
        // A quoted answer begins each line with its mark.
        while letter == '\n' && rest.next_if(|&next| next == '>' || next.is_whitespace()).is_some() {}
        // A space that parts figures is theirs: `5 3/4in`.
        let parts = letter == ' ' && letters.ends_with(is_digit) && rest.peek().copied().is_some_and(is_digit);
        if parts || !letter.is_whitespace() {
            letters.push(letter);
        }
    }
    Ok(letters)
}

fn is_digit(letter: char) -> bool {
    letter.is_ascii_digit()
}

/// A value may have a stroke in it: `7/8in`, `(20+24)/2`, `110km/h`.
fn goes_on(before: &str, after: &str) -> bool {
    let value = before.rsplit_once('=').map_or("", |(_, value)| value);
    let number = value.starts_with(|letter: char| letter.is_ascii_digit() || matches!(letter, '-' | '('));
    let fraction = value.ends_with(|letter: char| letter.is_ascii_digit() || letter == ')') && after.starts_with(is_digit);
    let unit = value.ends_with(char::is_alphabetic) && (1..=2).contains(&after.len());
    number && (fraction || unit && after.bytes().all(|byte| byte.is_ascii_lowercase())) && !after.contains('=')
}

/// Whether a version and an edition stand at its start.
fn has_head(text: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let head = text.bytes().take(LONGEST_HEAD).position(|byte| byte == b'/').and_then(|end| text[..end].split_once('.'));
    head.is_some_and(|(version, edition)| digits(version.trim_end_matches(|letter: char| letter.is_ascii_lowercase())) && digits(edition))
}

/// Just past the first `/end` that ends there: what follows is the sentence around the link.
fn end_of_link(text: &str) -> Option<usize> {
    let continues = |letter: char| letter.is_ascii_alphanumeric() || matches!(letter, '-' | '=' | '/');
    let ends = |rest: &str| !rest.strip_prefix('/').unwrap_or(rest).starts_with(continues);
    text.match_indices("/end").map(|(at, end)| at + end.len()).find(|&end| ends(&text[end..]))
}

/// Whether a mail's own writing was copied: `=3D` for `=`, which no value but words begins with, or a packed link with `=`
/// at the end of its lines (RFC 2045, 6.7).
fn is_quoted_printable(text: &str) -> bool {
    let of_words = |at: usize| ["name", "note", "from", "to", "shelf"].iter().any(|key| text[..at].ends_with(key));
    let broken = text.contains("=\n") || text.contains("=\r\n");
    let packed = |(at, _): (usize, &str)| text[..at].ends_with(|letter: char| letter.is_ascii_digit());
    text.match_indices("=3D").any(|(at, _)| !of_words(at)) || broken && text.match_indices("z.").any(packed)
}

/// Without the breaks of its lines, and each letter as it was.
fn printed_decoded(text: &str) -> String {
    let joined = text.replace("=\r\n", "").replace("=\n", "");
    decoded(&joined, b'=').unwrap_or(joined)
}

/// With `%2F` as `/` and so on; none when nothing was escaped.
fn percent_decoded(text: &str) -> Option<String> {
    decoded(text, b'%')
}

/// With each letter that two figures after `mark` stand for; none when nothing was escaped.
fn decoded(text: &str, mark: u8) -> Option<String> {
    let bytes = text.as_bytes();
    let digit = |at: usize| bytes.get(at).and_then(|&byte| char::from(byte).to_digit(16));
    let mut decoded = Vec::with_capacity(bytes.len());
    let mut at = 0;
    while let Some(&byte) = bytes.get(at) {
        match (byte == mark, digit(at + 1), digit(at + 2)) {
            (true, Some(high), Some(low)) => {
                decoded.push((high * 16 + low) as u8);
                at += 3;
            }
            _ => {
                decoded.push(byte);
                at += 1;
            }
        }
    }
    (decoded.len() < bytes.len()).then(|| String::from_utf8_lossy(&decoded).into_owned())
}

/// The items of a packed link, as many as can be had, and whether damage (not a cut) left it at that.
fn unpack(body: &str) -> Result<(String, bool), Unreadable> {
    let (packed, whole) = match body.strip_suffix("/end") {
        Some(packed) => (packed, true),
        None => (body, false),
    };
    let (bytes, _) = base62::decode(packed);
    let (items, sound) = match miniz_oxide::inflate::decompress_to_vec_zlib_with_limit(&bytes, LONGEST) {
        Ok(items) => (items, true),
        Err(stopped) => (stopped.output, false),
    };
    if items.is_empty() {
        return Err(Unreadable::Damaged);
    }
    let items = String::from_utf8_lossy(&items).into_owned();
    // Half of it may by chance end like a whole one.
    Ok(if sound { (items, false) } else { (items.trim_end_matches("/end").into(), whole) })
}

/// Boxed, since what is read is far smaller.
type Fault = Box<LinkProblem>;

fn is_setting(key: &str) -> bool {
    asked::KEYS.contains(&key) || sought::is_key(key)
}

struct Reader {
    /// While a held part is read, its build stands in the place of the first.
    link: Link,
    /// The defaults of the link's edition.
    usual: Build,
    problems: Problems,
    /// While a held part is read, where the first build's cells stand.
    first: Option<Arc<Layout>>,
}

impl Reader {
    fn items(&mut self, body: &str, damaged: bool) {
        let mut items: Vec<&str> = Vec::new();
        let (mut from, mut end) = (0, 0);
        for piece in body.split('/').take(MOST_ITEMS + 1) {
            let start = end;
            end += piece.len() + 1;
            match items.last_mut() {
                Some(last) if goes_on(last, piece) => *last = &body[from..start + piece.len()],
                _ => {
                    from = start;
                    items.push(piece);
                }
            }
        }
        if items.len() > MOST_ITEMS {
            items.truncate(MOST_ITEMS);
            self.problems.add(LinkProblem::TooManyItems { most: MOST_ITEMS });
        } else if items.last() == Some(&"end") {
            items.pop();
        } else {
            // Half a number is a number too: the last item cannot be trusted.
            items.pop();
            self.problems.add(if damaged { LinkProblem::Damaged } else { LinkProblem::Truncated });
        }
        let held = items.iter().position(|item| held::is_mark(item)).unwrap_or(items.len());
        let parts = items.split_off(held);
        self.part_of_link(items);
        self.held_parts(parts);
    }

    fn is_held(&self) -> bool {
        self.first.is_some()
    }

    /// The items of one build.
    fn part_of_link(&mut self, items: Vec<&str>) {
        let mut seen = BTreeSet::new();
        let pairs: Vec<(&str, &str)> = items.into_iter().filter_map(|item| self.pair(item, &mut seen)).collect();
        if !self.is_held() && pairs.contains(&(OF_THE_CAR, "gone")) {
            self.link.build.forget_the_car();
        }
        // Rows first: cells stand in them, whatever the order they were written in.
        let tables: Vec<Option<TableId>> = pairs.iter().map(|(key, _)| self.link.build.layout().table_by_key(key)).collect();
        for (&(key, value), table) in pairs.iter().zip(&tables) {
            if let Some(table) = table {
                self.rows(*table, key, value);
            }
        }
        // Then parts: cells name them.
        self.usual_in_new_rows();
        let mut parts = self.inherited(pairs.contains(&("part", "gone")));
        for &(key, value) in &pairs {
            if let Some(count) = key.strip_prefix("part.") {
                self.part(&mut parts, key, count, value);
            }
        }
        // What parts set comes last, over the rest.
        let mut others: Vec<(&str, &str)> = pairs.iter().zip(&tables).filter(|(_, table)| table.is_none()).map(|(pair, _)| *pair).collect();
        others.order_by_key(|(key, _)| key.contains(".part."));
        for (key, value) in others {
            match key {
                _ if key.starts_with("part.") => {}
                "part" if self.is_held() && value == "gone" => {}
                OF_THE_CAR if !self.is_held() && value == "gone" => {}
                _ if self.is_held() && (is_setting(key) || matches!(key, "shelf" | "note" | "show" | "units")) => {
                    self.problems.add(LinkProblem::Item { item: clean(key, QUOTED) })
                }
                "shelf" => self.shelf(value),
                "note" => self.link.note = self.words("note", value, NOTE),
                "show" => self.show(value),
                "units" => self.units(value),
                _ if is_setting(key) => {}
                _ => match key.rsplit_once('.') {
                    Some((stem, "pm")) => self.half_width(stem, key, value),
                    Some((stem, "dist")) => self.shape(stem, key, value),
                    Some((stem, "own")) if self.is_held() && value == "follow" => self.no_words(stem, key),
                    Some((stem, count)) if stem.ends_with(".part") => {
                        self.set_by_part(&parts, stem.trim_end_matches(".part"), key, count, value)
                    }
                    _ => self.cell(key, value, None),
                },
            }
        }
        if !self.is_held() {
            self.asked(&pairs);
            self.sought(&pairs);
        }
    }

    fn pair<'a>(&mut self, item: &'a str, seen: &mut BTreeSet<&'a str>) -> Option<(&'a str, &'a str)> {
        let quoted = || clean(item, QUOTED);
        match item.split_once('=') {
            _ if item.is_empty() => {}
            Some((key, value)) if !value.is_empty() => {
                if seen.insert(key) {
                    return Some((key, value));
                } else {
                    self.problems.add(LinkProblem::Twice { key: clean(key, QUOTED) });
                }
            }
            _ => self.problems.add(LinkProblem::Item { item: quoted() }),
        }
        None
    }

    fn rows(&mut self, table: TableId, key: &str, value: &str) {
        let declared = &self.link.build.layout().calculators()[table.calculator as usize].tables[table.table as usize];
        let rows: Option<Vec<RowId>> = match value {
            "gone" => Some(Vec::new()),
            "follow" if self.is_held() => Some(self.usual.rows(table).to_vec()),
            "follow" => Some((1..=declared.rows.len() as u16).map(RowId).collect()),
            _ => value.split('.').take(usize::from(declared.most) + 1).map(|row| row.parse().ok().map(RowId)).collect(),
        };
        if rows.is_none_or(|rows| self.link.build.set_rows(table, &rows).is_err()) {
            if self.is_held() {
                _ = self.link.build.set_rows(table, self.usual.rows(table));
            }
            self.problems.add(LinkProblem::Rows {
                key: key.into(),
                label: declared.label,
                value: clean(value, QUOTED),
                least: declared.least,
                most: declared.most,
            });
        }
    }

    fn show(&mut self, key: &str) {
        if let Some(tool) = Tool::by_key(key) {
            self.link.asked = Some(Asked::of(tool));
            return;
        }
        let layout = self.link.build.layout();
        let known = key == OVERVIEW
            || layout.place_by_key(key).is_some_and(|place| layout.find(place).is_some())
            || layout.table_by_key(key).is_some()
            || layout.calculators().iter().any(|it| it.key == key || key_of(it.key) == key);
        if known {
            self.link.show = key.into();
        } else {
            self.unknown_key(key);
        }
    }

    fn units(&mut self, value: &str) {
        let unknown = match System::read(value) {
            Some((system, unknown)) => {
                self.link.units = Some(system);
                unknown
            }
            None => vec![value],
        };
        unknown.into_iter().for_each(|word| self.problems.add(LinkProblem::Units { word: clean(word, QUOTED) }));
    }

    /// Readable words, no longer than may stand there.
    fn words(&mut self, key: &str, value: &str, most: u16) -> String {
        let (words, sound) = words::read(value);
        if !sound {
            self.problems.add(LinkProblem::Words { key: clean(key, QUOTED) });
        }
        if words.chars().count() <= usize::from(most) {
            return words;
        }
        self.problems.add(LinkProblem::LongWords { key: clean(key, QUOTED), most });
        words.chars().take(usize::from(most)).collect()
    }

    fn unknown_key(&mut self, key: &str) {
        let problem = self.no_key(key);
        self.problems.add(problem);
    }

    fn no_key(&self, key: &str) -> LinkProblem {
        let layout = self.link.build.layout();
        let known = || layout.places(Role::Input).map(|place| layout.key(place));
        let nearest = if self.problems.wanted() { nearest(key, known(), |known| known) } else { None };
        LinkProblem::UnknownKey { key: clean(key, QUOTED), nearest }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculators::car;
    use crate::quantity::per_minute;
    use crate::spec::Place;

    #[test]
    fn a_superseded_edition_keeps_its_defaults() {
        // Of our invention: edition 1 idled faster and had four gears, edition 2 was heavier.
        let superseded = ["car.idle=900/car.gears=1.2.3.4", "car.mass=800"];
        let of = |edition| {
            let build = restored(Build::default(), edition, &superseded).link.build;
            let value = |id| build.own_value(Place::from(id)).unwrap();
            (per_minute(900.0).si() == value(car::IDLE.id), value(car::MASS.id), build.rows(car::GEARS).len())
        };
        assert_eq!(of(1), (true, 800.0, 4));
        assert_eq!(of(2), (false, 800.0, 5));
        assert_eq!(of(3), (false, 730.0, 5));
    }

    #[test]
    fn what_is_usual_in_a_held_build_is_so_by_its_edition() {
        let mut reader = restored(Build::default(), 1, &["car.idle=900/car.name=Old/car.gears.2.ratio=2.5"]);
        reader.usual = reader.link.build.clone();
        reader.items("car.idle=1000/car.name=New/car.gears=1.3/b2/car.idle=follow/car.name.own=follow/car.gears=follow/end", false);
        assert_eq!(reader.problems.finish(), []);
        assert!(reader.link.held[0] == reader.usual && reader.link.build != reader.usual);
    }

    #[test]
    fn every_superseded_edition_still_reads() {
        assert_eq!(restored(Build::default(), 1, editions::SUPERSEDED).problems.finish(), []);
    }
}
