//! Another language than the source's, at the edge: English texts come in as they are shown, and go out translated.
//!
//! A catalogue is made of a PO file by the bundler. A text is looked up whole; else by patterns, whose slots `{}` take
//! figures, names and other texts; else by its sentences; else by the parts that the program joins with colons, commas and
//! the like. What is left over stays as it stands, with the decimal mark of the language in its numbers.

use crate::order::Order;
use crate::quantity::DIMENSIONS;
use litemap::LiteMap;

/// Between the key and its translation, and between forms of a translation that hang on a number.
pub const TAB: char = '\t';
/// Between plural forms.
pub const FORM: char = '\u{1F}';
/// Stands for a figure in a text to be translated: the first of as many as are free for private use.
pub const FIGURE: char = '\u{E000}';

/// So many numbers have their plural form noted; those above go by their last two digits.
pub const FORMS: usize = 200;

/// So many answers are remembered.
const REMEMBERED: usize = 8000;
/// So deep are texts taken apart, and into so many parts: a text of somebody's own may be anything.
const DEEP: u8 = 60;
const PARTS: u32 = 3000;
/// A longer text is a list, and is taken apart from its start on.
const LONG: usize = 200;
const FEW: usize = 6;
/// Letters by which patterns are found.
const KEY: usize = 4;

/// A language: its catalogue, the reader's own words, which stay as they are, and what was looked up lately.
#[derive(Debug, Default)]
pub struct Language<'a> {
    code: &'a str,
    mark: &'a str,
    forms: &'a [u8],
    /// Sorted by key.
    whole: Vec<(&'a str, &'a str)>,
    /// Those with the most letters of their own first.
    patterns: Vec<Pattern<'a>>,
    /// Numbers of patterns by their first letters, by their last ones, and of those that have few of either.
    starts: LiteMap<&'a [u8], Vec<usize>>,
    ends: LiteMap<&'a [u8], Vec<usize>>,
    loose: Vec<usize>,
    own: Vec<String>,
    /// Parts that may still be looked at for the text in hand.
    left: u32,
    remembered: LiteMap<Box<str>, Found>,
}

/// A key with slots: what stands before, between and after them.
#[derive(Debug)]
struct Pattern<'a> {
    pieces: Vec<&'a str>,
    says: &'a str,
}

/// Finds a text in one way, so deep in others.
type Way<'a> = fn(&mut Language<'a>, &str, u8) -> Option<Found>;

/// A text translated.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// As it is shown.
    pub text: String,
    /// So many letters of words were found nowhere.
    pub lacks: usize,
}

impl<'a> Language<'a> {
    /// Reads what the bundler wrote: language, decimal mark and plural form of each number in the first line, then a key
    /// and its translation in each.
    #[must_use]
    pub fn read(text: &'a str) -> Self {
        let mut lines = text.lines();
        let mut head = lines.next().unwrap_or_default().split(TAB);
        let mut next = || head.next().unwrap_or_default();
        let (code, mark, forms) = (next(), next(), next().as_bytes());
        let mut language = Self { code, mark, forms, ..Self::default() };
        for (key, says) in lines.filter_map(|line| line.split_once(TAB)) {
            if key.contains("{}") {
                language.patterns.push(Pattern { pieces: key.split("{}").collect(), says });
            } else {
                language.whole.push((key, says));
            }
        }
        language.whole.order_by(Ord::cmp);
        let own_letters = |pattern: &Pattern| pattern.pieces.iter().map(|piece| piece.len()).sum::<usize>();
        language.patterns.order_by_key(|pattern| core::cmp::Reverse(own_letters(pattern)));
        for (at, Pattern { pieces, .. }) in language.patterns.iter().enumerate() {
            let (first, last) = (pieces[0].as_bytes(), pieces[pieces.len() - 1].as_bytes());
            if first.len() >= KEY {
                language.starts.entry(&first[..KEY]).or_default().push(at);
            } else if last.len() >= KEY {
                language.ends.entry(&last[last.len() - KEY..]).or_default().push(at);
            } else {
                language.loose.push(at);
            }
        }
        language
    }

    /// Which it is: `de`.
    #[must_use]
    pub fn code(&self) -> &str {
        self.code
    }

    /// Words that somebody gave: they stay as they are wherever a text names them.
    pub fn set_own(&mut self, mut own: Vec<String>) {
        own.order_by(String::cmp);
        own.dedup();
        if self.own != own {
            self.own = own;
            self.remembered.clear();
        }
    }

    /// A text of the program in this language.
    pub fn translate(&mut self, text: &str) -> Found {
        self.left = PARTS;
        self.find(text, 0)
    }

    /// The translation of a text that stands in the catalogue as it is.
    #[must_use]
    pub fn whole(&self, text: &str) -> Option<&'a str> {
        self.whole.binary_search_by(|(key, _)| (*key).cmp(text)).ok().map(|at| self.whole[at].1)
    }

    /// Numbers with the mark of this language before their decimals; dates, versions, links and addresses as they are.
    #[must_use]
    pub fn numbers(&self, text: &str) -> String {
        if matches!(self.mark, "" | ".") || !text.contains('.') || text.contains("://") {
            return text.to_owned();
        }
        let mut said = String::with_capacity(text.len());
        let mut rest = text;
        while let Some(start) = rest.find(|letter: char| letter.is_ascii_digit()) {
            let end = rest[start..].find(|letter: char| !letter.is_ascii_digit() && letter != '.').map_or(rest.len(), |end| start + end);
            let number = rest[start..end].trim_end_matches('.');
            said.push_str(&rest[..start]);
            match number.split_once('.') {
                Some((whole, decimals)) if !decimals.contains('.') && !rest[start + number.len()..].starts_with('/') => {
                    said.extend([whole, self.mark, decimals])
                }
                _ => said.push_str(number),
            }
            rest = &rest[start + number.len()..];
        }
        said + rest
    }

    fn find(&mut self, text: &str, depth: u8) -> Found {
        if !text.contains(char::is_alphabetic) {
            return Found { text: self.numbers(text), lacks: 0 };
        }
        // Inside another text, words of the reader's own are theirs.
        let key = if depth == 0 { text.to_owned() } else { format!("{FORM}{text}") };
        if let Some(found) = self.remembered.get(key.as_str()) {
            return found.clone();
        }
        let found = self.look(text, depth);
        if self.remembered.len() >= REMEMBERED {
            self.remembered.clear();
        }
        if self.left > 0 {
            self.remembered.insert(key.into(), found.clone());
        }
        found
    }

    fn look(&mut self, text: &str, depth: u8) -> Found {
        if depth > 0 && self.own.iter().any(|own| own == text) {
            return known(text);
        }
        if let Some(says) = self.whole(text) {
            return known(one_form(says));
        }
        let inner = text.trim();
        if inner.len() < text.len() {
            let (before, after) = text.split_once(inner).unwrap_or_default();
            return self.find(inner, depth).between(before, after);
        }
        if let Some(found) = self.in_other_case(text) {
            return found;
        }
        let mut best = Found { text: self.numbers(text), lacks: lacking(text) };
        if depth >= DEEP || self.left == 0 || best.lacks == 0 {
            return best;
        }
        self.left -= 1;
        let ways: [Way<'a>; 4] = [Self::by_pattern, Self::by_lines, Self::by_end, Self::by_parts];
        for way in ways {
            if let Some(found) = way(self, text, depth + 1)
                && (found.lacks < best.lacks)
            {
                best = found;
            }
            if best.lacks == 0 {
                break;
            }
        }
        best
    }

    /// Labels begin small inside sentences, and with a capital at their start.
    fn in_other_case(&self, text: &str) -> Option<Found> {
        let (turned, was_small) = turned(text)?;
        let says = one_form(self.whole(&turned)?);
        // What was catalogued with a capital knows whether it is a noun.
        Some(known(&if was_small { says.to_owned() } else { capital(says) }))
    }

    fn by_pattern(&mut self, text: &str, depth: u8) -> Option<Found> {
        let found = self.in_either_case(text, depth);
        if found.as_ref().is_some_and(|found| found.lacks == 0) || text.ends_with(['.', '!', '?', ':', ';']) {
            return found;
        }
        // A sentence that was made a part of another.
        let dotted = format!("{text}.");
        let whole = self.whole(&dotted).map(|says| known(one_form(says))).or_else(|| self.in_other_case(&dotted));
        let sentence = whole.or_else(|| self.in_either_case(&dotted, depth));
        let sentence = sentence.map(|it| Found { text: it.text.trim_end_matches('.').to_owned(), ..it });
        found.into_iter().chain(sentence).min_by_key(|found| found.lacks)
    }

    fn in_either_case(&mut self, text: &str, depth: u8) -> Option<Found> {
        let found = self.fill(text, depth);
        if found.as_ref().is_some_and(|found| found.lacks == 0) {
            return found;
        }
        let other = turned(text).and_then(|(turned, was_small)| {
            let found = self.fill(&turned, depth)?;
            Some(if was_small { found } else { Found { text: capital(&found.text), ..found } })
        });
        found.into_iter().chain(other).min_by_key(|found| found.lacks)
    }

    /// The pattern that leaves the least untranslated; of several the one with the most words of its own.
    fn fill(&mut self, text: &str, depth: u8) -> Option<Found> {
        let bytes = text.as_bytes();
        let first = bytes.get(..KEY).and_then(|key| self.starts.get(key)).into_iter().flatten();
        let last = bytes.get(bytes.len().saturating_sub(KEY)..).and_then(|key| self.ends.get(key)).into_iter().flatten();
        let mut candidates: Vec<usize> = first.chain(last).chain(&self.loose).copied().collect();
        candidates.order_by(Ord::cmp);
        let mut best: Option<Found> = None;
        for at in candidates {
            for leftmost in [true, false] {
                let Some(slots) = slots(&self.patterns[at].pieces, text, leftmost) else { continue };
                // A sentence is no part of another, unless it is a name with a full stop in it.
                if slots.iter().any(|slot| sentence_end(slot).is_some() && self.whole(slot).is_none()) {
                    continue;
                }
                let slots: Vec<String> = slots.into_iter().map(str::to_owned).collect();
                let mut lacks = 0;
                let said: Vec<String> = slots
                    .iter()
                    .map(|slot| {
                        let found = self.find(slot, depth);
                        lacks += found.lacks;
                        found.text
                    })
                    .collect();
                if best.as_ref().is_none_or(|best| lacks < best.lacks) {
                    let says = self.form(self.patterns[at].says, &slots);
                    best = Some(Found { text: filled(says, &said), lacks });
                }
                if lacks == 0 {
                    return best;
                }
                if self.patterns[at].pieces.len() == 2 {
                    break;
                }
            }
        }
        best
    }

    /// The form of a translation for the number in its first slot that has one.
    fn form(&self, says: &'a str, slots: &[String]) -> &'a str {
        if !says.contains(FORM) {
            return says;
        }
        let digits = |slot: &String| slot.chars().filter(|letter| !letter.is_whitespace()).collect::<String>().parse::<usize>().ok();
        let number = slots.iter().find_map(digits).unwrap_or(FORMS);
        let at = if number < FORMS { number } else { 100 + number % 100 };
        let form = self.forms.get(at).or(self.forms.last()).map_or(0, |digit| usize::from(digit.saturating_sub(b'0')));
        says.split(FORM).nth(form).unwrap_or(one_form(says))
    }

    /// Lines, then sentences.
    fn by_lines(&mut self, text: &str, depth: u8) -> Option<Found> {
        let end = text.find('\n').map(|at| at + 1).or_else(|| sentence_end(text))?;
        let (first, rest) = text.split_at(end);
        Some(self.find(first, depth).and(self.find(rest, depth)))
    }

    /// What ends a text without belonging to it.
    fn by_end(&mut self, text: &str, depth: u8) -> Option<Found> {
        let inner = text.strip_suffix(['.', ':', ';', ',', '…', '?', '!'])?;
        let found = self.find(inner, depth);
        Some(found.between("", &text[inner.len()..]))
    }

    /// Lists, labels with their values, numbers with their units.
    fn by_parts(&mut self, text: &str, depth: u8) -> Option<Found> {
        let mut cuts = cuts(text, &self.own);
        // What is called something, and more about it.
        let is_known = |words: &str| self.whole(words).is_some() || self.in_other_case(words).is_some();
        cuts.extend(text.match_indices(' ').filter(|(at, _)| *at < LONG && is_known(&text[..*at])).map(|(at, _)| (at, at + 1)));
        if text.len() > LONG {
            // A list: as much of its start as is known, then the rest.
            cuts.retain(|&(end, start)| start > end + 1);
            cuts.order_by(Ord::cmp);
            let tried =
                cuts.into_iter().take(FEW).map(|(end, start)| (self.find(&text[..end], depth).between("", &text[end..start]), start));
            let known: Vec<_> = tried.filter(|(found, _)| found.lacks == 0).collect();
            let mut best: Option<Found> = None;
            for (found, start) in known.into_iter().rev() {
                let whole = found.and(self.find(&text[start..], depth));
                if best.as_ref().is_none_or(|best| whole.lacks < best.lacks) {
                    best = Some(whole);
                }
                if best.as_ref().is_some_and(|best| best.lacks == 0) {
                    break;
                }
            }
            return best;
        }
        let mut best: Option<Found> = None;
        for (end, start) in cuts {
            let (one, between, other) = (&text[..end], &text[end..start], &text[start..]);
            let found = self.find(one, depth).between("", between);
            if best.as_ref().is_some_and(|best| found.lacks >= best.lacks) {
                continue;
            }
            let found = found.and(self.find(other, depth));
            if best.as_ref().is_none_or(|best| found.lacks < best.lacks) {
                best = Some(found);
            }
            if best.as_ref().is_some_and(|best| best.lacks == 0) {
                break;
            }
        }
        best
    }
}

impl Found {
    fn between(mut self, before: &str, after: &str) -> Self {
        self.text = [before, &self.text, after].concat();
        self
    }

    fn and(self, other: Self) -> Self {
        Self { text: self.text + &other.text, lacks: self.lacks + other.lacks }
    }
}

fn known(text: &str) -> Found {
    Found { text: text.to_owned(), lacks: 0 }
}

/// Where there is no number to go by, the form for many.
fn one_form(says: &str) -> &str {
    says.rsplit(FORM).next().unwrap_or(says)
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The text with its first letter in the other case, and whether that was small.
fn turned(text: &str) -> Option<(String, bool)> {
    let mut letters = text.chars();
    let first = letters.next()?;
    match (first.is_lowercase(), first.is_uppercase()) {
        (true, _) => Some((first.to_uppercase().chain(letters).collect(), true)),
        (_, true) => Some((first.to_lowercase().chain(letters).collect(), false)),
        _ => None,
    }
}

/// What stands in the slots of a pattern, if a text is one of its; the pieces between found from the left, or from the right.
fn slots<'t>(pieces: &[&str], text: &'t str, leftmost: bool) -> Option<Vec<&'t str>> {
    let (first, last) = (pieces.first()?, pieces.last()?);
    let mut rest = text.strip_prefix(first)?.strip_suffix(last)?;
    let mut slots = Vec::with_capacity(pieces.len() - 1);
    let between = &pieces[1..pieces.len() - 1];
    for at in 0..between.len() {
        let piece = if leftmost { between[at] } else { between[between.len() - 1 - at] };
        let found = if leftmost { rest.find(piece) } else { rest.rfind(piece) }?;
        let (before, after) = (&rest[..found], &rest[found + piece.len()..]);
        slots.push(if leftmost { before } else { after });
        rest = if leftmost { after } else { before };
    }
    slots.push(rest);
    if !leftmost {
        slots.reverse();
    }
    let fits = |slot: &&str| !slot.trim().is_empty() && !slot.contains('\n');
    slots.iter().all(fits).then_some(slots)
}

/// A translation with its slots filled: `{}` in their order, `{2}` by number.
fn filled(says: &str, slots: &[String]) -> String {
    let mut text = String::with_capacity(says.len() + slots.iter().map(String::len).sum::<usize>());
    let mut rest = says;
    let mut next = 0;
    while let Some((before, inside, after)) = rest.split_once('{').and_then(|(before, after)| {
        let (inside, after) = after.split_once('}')?;
        Some((before, inside, after))
    }) {
        text.push_str(before);
        let at = inside.parse::<usize>().ok().and_then(|number| number.checked_sub(1)).unwrap_or(next);
        text.push_str(slots.get(at).map_or("", String::as_str));
        next += 1;
        rest = after;
    }
    text + rest
}

/// After the first sentence of several, and the room that follows it.
fn sentence_end(text: &str) -> Option<usize> {
    let begins = |letter: char| !letter.is_lowercase() && !matches!(letter, '(' | '·' | '→' | '=');
    let ends = text.match_indices(". ").chain(text.match_indices("? ")).chain(text.match_indices("! ")).map(|(at, _)| at + 2);
    ends.filter(|&at| text[at..].chars().next().is_some_and(begins)).min()
}

/// Where a text may be two: the end of one and the start of the other, the likeliest first.
fn cuts(text: &str, own: &[String]) -> Vec<(usize, usize)> {
    let mut cuts = Vec::new();
    // A name of the reader's, whatever stands in it.
    let is_apart = |rest: &str| rest.starts_with([' ', ',', ':', ';', '.', ')', '”', '\u{A0}']);
    let named = own.iter().filter(|own| own.len() > 1 && text.starts_with(own.as_str()) && is_apart(&text[own.len()..]));
    cuts.extend(named.map(|own| (own.len(), own.len())));
    for between in ["; ", " · ", " → ", ": "] {
        cuts.extend(text.match_indices(between).map(|(at, it)| (at, at + it.len())));
    }
    if let Some(at) = text.find(" (").filter(|_| text.ends_with(')')) {
        cuts.push((at, at + 2));
    }
    cuts.extend(text.match_indices(") ").map(|(at, _)| (at, at + 2)));
    if text.ends_with([')', '”']) {
        let last = text.chars().next_back().map_or(0, char::len_utf8);
        cuts.push((text.len() - last, text.len()));
    }
    cuts.extend(text.match_indices(", ").map(|(at, _)| (at, at + 2)));
    for opening in ["“", "(", "± ", "≤ ", "≥ ", "minus "] {
        if text.starts_with(opening) {
            cuts.push((0, opening.len()));
        }
    }
    // A number before its unit or name, or after what it is of.
    let is_number =
        |text: &str| text.starts_with(|it: char| it.is_ascii_digit() || matches!(it, '−' | '+' | '±' | '⌀' | '?' | FIGURE..='\u{F8FF}'));
    if let Some(at) = text.find([' ', '\u{A0}']).filter(|_| is_number(text)) {
        cuts.push((at, at + text[at..].chars().next().map_or(0, char::len_utf8)));
    }
    cuts.extend(text.rmatch_indices(' ').map(|(at, _)| (at, at + 1)).filter(|(_, start)| is_number(&text[*start..])));
    cuts.extend(text.match_indices(" minus ").map(|(at, _)| (at, at + 1)));
    cuts.extend(text.match_indices(". ").map(|(at, _)| (at + 1, at + 2)));
    cuts.retain(|&(end, start)| start > 0 && end < text.len() && (end > 0 || start < text.len()));
    cuts
}

/// Letters of words that are no units, abbreviations or letters of a formula.
fn lacking(text: &str) -> usize {
    let is_unit = |word: &str| DIMENSIONS.iter().any(|dimension| dimension.find(word).is_some());
    let apart = |letter: char| ",;:()“”\"?!…=<>≤≥≈±↔→⌀.".contains(letter);
    let is_word = |word: &&str| word.as_bytes().windows(2).any(|pair| pair.iter().all(u8::is_ascii_lowercase)) && !is_unit(word);
    let words = text.split_whitespace().filter(|word| !is_unit(word.trim_end_matches([',', ';', ':', '.'])));
    words.flat_map(|word| word.split(apart)).filter(is_word).map(|word| word.chars().filter(|it| it.is_alphabetic()).count()).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    const SAMPLE: &str = "de\t,\t101\nBearing load\tAusrückkraft\nusual bore\tübliche Bohrung\n{} at the pedal.\t{} am Pedal.\n\
        {} of {} circuits\tVon {2} Kreisen {1}\nwithin\tim Rahmen\nUndo\tRückgängig\n\
        Needs {}.\tEs fehlt: {}.\n{} gears\t{} Gang\u{1F}{} Gänge\nmillimetres\tMillimeter\nfollows {}\tfolgt {}\nCrank\tKurbelwelle\n\
        Pulleys\tRiemenscheiben\ndiameter\tDurchmesser\nalternator\tLichtmaschine\n";

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let found = Language::read(SAMPLE).translate(text);
        assert_eq!((found.text.as_str(), found.lacks), (expected, 0));
    }

    #[test]
    fn texts_are_found_whole_in_either_case_and_with_room_around() {
        check("Bearing load", "Ausrückkraft");
        check("bearing load", "Ausrückkraft");
        check("Usual bore", "Übliche Bohrung");
        check(" within ", " im Rahmen ");
    }

    #[test]
    fn slots_take_figures_texts_and_another_order() {
        check("118.5\u{A0}N at the pedal.", "118,5\u{A0}N am Pedal.");
        check("5 of 14 circuits", "Von 14 Kreisen 5");
        check("follows bearing load, 1\u{202F}500.5\u{A0}N", "folgt Ausrückkraft, 1\u{202F}500,5\u{A0}N");
    }

    #[test]
    fn a_figure_set_apart_stays_one_letter() {
        check("\u{E000} at the pedal.", "\u{E000} am Pedal.");
    }

    #[test]
    fn sentences_lists_and_labels_are_taken_apart() {
        check("22.2\u{A0}mm at the pedal. Needs bearing load.", "22,2\u{A0}mm am Pedal. Es fehlt: Ausrückkraft.");
        check("needs bearing load", "Es fehlt: Ausrückkraft");
        check("Undo: bearing load", "Rückgängig: Ausrückkraft");
        check("Pulleys, Crank: diameter", "Riemenscheiben, Kurbelwelle: Durchmesser");
        check("Crank 163.5°, alternator 182°, within", "Kurbelwelle 163,5°, Lichtmaschine 182°, im Rahmen");
        check("Bearing load (within)", "Ausrückkraft (im Rahmen)");
        check("minus 22.2 millimetres", "minus 22,2 Millimeter");
    }

    #[test]
    fn what_hangs_on_a_number_has_its_form() {
        check("1 gears", "1 Gang");
        check("0 gears", "0 Gänge");
        check("1\u{202F}000 gears", "1\u{202F}000 Gänge");
    }

    #[test]
    fn numbers_have_their_mark_and_versions_dates_and_addresses_stay() {
        let language = Language::read(SAMPLE);
        for (text, said) in [
            ("−22.25", "−22,25"),
            ("0.1.0", "0.1.0"),
            ("2026-03-01 14:05", "2026-03-01 14:05"),
            ("https://a.example/#1.1/end", "https://a.example/#1.1/end"),
            ("It is 5.", "It is 5."),
            ("1.5 to 2.5.", "1,5 to 2,5."),
        ] {
            assert_eq!(language.numbers(text), said);
        }
    }

    #[test]
    fn words_of_the_readers_own_stay() {
        let mut language = Language::read(SAMPLE);
        language.set_own(["Crank", "Lamp, left: 2"].map(str::to_owned).to_vec());
        assert_eq!(language.translate("Pulleys, Crank: diameter").text, "Riemenscheiben, Crank: Durchmesser");
        assert_eq!(language.translate("Lamp, left: 2: diameter").text, "Lamp, left: 2: Durchmesser");
        assert_eq!(language.translate("Crank").text, "Kurbelwelle", "alone it is a text of the program");
    }

    #[test]
    fn what_is_not_known_stays_and_is_counted() {
        let found = Language::read(SAMPLE).translate("Pulleys: quite unknown, 2.5 mm");
        assert_eq!(found, Found { text: "Riemenscheiben: quite unknown, 2,5 mm".to_owned(), lacks: 12 });
        assert_eq!(Language::read("").translate("Pulleys, 2.5 mm").text, "Pulleys, 2.5 mm");
    }
}
