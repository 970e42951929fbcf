//! Reading a shelf: whatever makes sense is taken, all else is said.

use super::file::{Fields, Figure, Form, PartFile, PriceFile, RemovedFile, RuleFile, ShelfFile, SlotFile, Wrong};
use super::problem::Problems;
use super::{Asks, Currency, Fault, Name, Part, Price, Removed, Rule, Shelf, ShelfProblem, Slot, Unreadable, rules};
use crate::build::{Build, Refusal};
use crate::calculators::{self, Calculator};
use crate::entry::{EntryError, clean, hostile, nearest, read_quantity};
use crate::layout::Layout;
use crate::quantity::{Mass, Ratio};
use crate::show;
use crate::spec::{Kind, Place, Role};
use litemap::LiteMap;
use serde_json::value::RawValue;

/// The version of the form.
pub const VERSION: u32 = 1;

/// Longest file read, in bytes.
pub const LONGEST: usize = 2 * 1024 * 1024;

/// Most entries of any list of a file; inner lists are short.
const MOST_PARTS: usize = 2000;
const MOST_SLOTS: usize = 200;
const MOST_INSIDE: usize = 60;

/// Longest name, and longest other words, in characters.
const NAME: usize = 80;
const WORDS: usize = 400;

/// Longest piece of a file quoted in a message.
const QUOTED: usize = 48;

/// A shelf that was read, and all that was wrong with it.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// What could be used.
    pub shelf: Shelf,
    /// What could not, by part.
    pub problems: Vec<ShelfProblem>,
}

/// Reads a shelf for the calculators of the app.
///
/// # Errors
/// [`Unreadable`], when nothing of it is a shelf. All lesser damage is in [`Read::problems`].
pub fn read(text: &str) -> Result<Read, Unreadable> {
    read_for(calculators::ALL, text)
}

/// Like [`read`], for these calculators.
///
/// # Errors
/// [`Unreadable`].
pub fn read_for(calculators: &'static [&'static Calculator], text: &str) -> Result<Read, Unreadable> {
    if text.len() > LONGEST {
        return Err(Unreadable::TooLong { most: LONGEST });
    }
    let text = text.trim_start_matches('\u{FEFF}');
    let not_json = |why: serde_json::Error| Unreadable::NotJson { line: why.line(), column: why.column() };
    let raw: &RawValue = serde_json::from_str(text).map_err(not_json)?;
    let mut reader = Reader { build: Build::new(calculators), shelf: Shelf::default(), problems: Problems::default() };
    let file: ShelfFile = reader.form("", raw).ok_or(Unreadable::NotAShelf)?;
    match file.trialfit_shelf {
        0 => return Err(Unreadable::NotAShelf),
        VERSION => {}
        later => reader.problems.add("", Fault::LaterVersion(later)),
    }
    reader.shelf(file);
    let Reader { shelf, mut problems, .. } = reader;
    rules::look_over(&shelf, &mut problems);
    Ok(Read { shelf, problems: problems.finish() })
}

/// Whether this may be the id of a shelf, slot or part: what links and forums leave alone.
#[must_use]
pub fn is_id(text: &str) -> bool {
    let sound = |word: &str| !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit());
    text.len() <= 40 && text.split('-').all(sound)
}

struct Reader {
    /// For its layout and ranges alone.
    build: Build,
    shelf: Shelf,
    problems: Problems,
}

impl Reader {
    /// Takes the fields of an object one by one; none when it is no object.
    fn form<T: Form>(&mut self, part: &str, raw: &RawValue) -> Option<T> {
        let Fields(fields) = serde_json::from_str(raw.get()).ok()?;
        let mut form = T::default();
        let mut seen: Vec<&str> = Vec::new();
        for (field, raw) in &fields {
            let quoted = || clean(field, QUOTED);
            if seen.contains(&field.as_str()) {
                self.problems.add(part, Fault::FieldTwice(quoted()));
                continue;
            }
            match form.take(field, raw) {
                Ok(()) => seen.push(field),
                Err(Wrong::Unknown) => self.problems.add(part, Fault::Field(quoted())),
                Err(Wrong::Kind) => {
                    seen.push(field);
                    self.problems.add(part, Fault::Kind(quoted()));
                }
            }
        }
        Some(form)
    }

    /// Each object of a list; those that are none are said under `part`, or under their number.
    fn forms<T: Form>(&mut self, part: &str, what: &str, raws: &[Box<RawValue>], most: usize) -> Vec<(String, T)> {
        if raws.len() > most {
            self.problems.add(part, Fault::TooMany(most));
        }
        let mut forms = Vec::new();
        for (at, raw) in raws.iter().take(most).enumerate() {
            let label = if part.is_empty() { format!("{what} {}", at + 1) } else { part.to_owned() };
            match self.form(&label, raw) {
                Some(form) => forms.push((label, form)),
                None => self.problems.add(&label, Fault::NotAnEntry),
            }
        }
        forms
    }

    fn words(&mut self, part: &str, field: &'static str, words: &str, most: usize) -> String {
        if words.chars().any(hostile) {
            self.problems.add(part, Fault::Hidden(field));
        }
        if words.chars().filter(|letter| !hostile(*letter)).nth(most).is_some() {
            self.problems.add(part, Fault::Long { field, most });
        }
        clean(words, most)
    }

    fn shelf(&mut self, file: ShelfFile) {
        self.shelf.name = self.words("", "name", &file.name, NAME);
        self.shelf.note = self.words("", "note", &file.note, WORDS);
        self.shelf.id = if is_id(&file.id) {
            file.id
        } else {
            self.problems.add("", Fault::Id(clean(&file.id, QUOTED)));
            "shelf".into()
        };
        for (label, slot) in self.forms::<SlotFile>("", "Slot", &file.slots, MOST_SLOTS) {
            if self.fresh(&label, &slot.id) {
                let name = self.words(&label, "name", &slot.name, NAME);
                let name = if name.is_empty() { slot.id.replace('-', " ") } else { name };
                self.shelf.slots.push(Slot { id: slot.id, name });
            }
        }
        // A rule names what may come later in the file.
        let mut rules: Vec<Vec<RuleFile>> = Vec::new();
        for (label, part) in self.forms::<PartFile>("", "Part", &file.parts, MOST_PARTS) {
            if let Some((part, its)) = self.part(&label, part) {
                self.shelf.parts.push(part);
                rules.push(its);
            }
        }
        for (at, its) in rules.into_iter().enumerate() {
            self.shelf.parts[at].rules = its.into_iter().flat_map(|rule| self.rules(at, rule)).collect();
        }
    }

    /// Whether something may have this id.
    fn fresh(&mut self, label: &str, id: &str) -> bool {
        let fault = if id.is_empty() {
            Fault::Lacks("id")
        } else if !is_id(id) {
            Fault::Id(clean(id, QUOTED))
        } else if self.shelf.slots.iter().any(|slot| slot.id == id) || self.shelf.find(id).is_some() {
            Fault::Duplicate(id.into())
        } else {
            return true;
        };
        self.problems.add(label, fault);
        false
    }

    fn part(&mut self, label: &str, file: PartFile) -> Option<(Part, Vec<RuleFile>)> {
        if !self.fresh(label, &file.id) {
            return None;
        }
        let name = self.words(&file.id, "name", &file.name, NAME);
        let label = if name.is_empty() { file.id.clone() } else { name.clone() };
        let label = label.as_str();
        if name.is_empty() {
            self.problems.add(label, Fault::Lacks("name"));
            return None;
        }
        let slot = self.slot(label, file.slot)?;
        let mut part = Part { id: file.id, name, slot, ..Part::default() };
        (part.sets, part.unset) = self.sets(label, file.sets);
        part.mass = file.mass.and_then(|mass| self.mass(label, "mass", &mass));
        part.price = file.price.and_then(|price| self.price(label, &price));
        part.stock = self.words(label, "stock", &file.stock, NAME);
        if !file.link.is_empty() {
            if is_link(&file.link) {
                part.link = file.link;
            } else {
                self.problems.add(label, Fault::Link(clean(&file.link, QUOTED)));
            }
        }
        for (_, removed) in self.forms::<RemovedFile>(label, "", &file.removes, MOST_INSIDE) {
            let name = self.words(label, "removes", &removed.name, NAME);
            let mass = removed.mass.and_then(|mass| self.mass(label, &format!("mass of “{name}”"), &mass));
            part.removes.push(Removed { name, mass });
        }
        if file.cautions.len() > MOST_INSIDE {
            self.problems.add(label, Fault::TooMany(MOST_INSIDE));
        }
        part.cautions = file.cautions.iter().take(MOST_INSIDE).map(|words| self.words(label, "cautions", words, WORDS)).collect();
        let rules = self.forms::<RuleFile>(label, "", &file.rules, MOST_INSIDE).into_iter().map(|(_, rule)| rule).collect();
        Some((part, rules))
    }

    fn slot(&mut self, label: &str, id: String) -> Option<usize> {
        if let Some(at) = self.shelf.slots.iter().position(|slot| slot.id == id) {
            return Some(at);
        }
        let fault = if id.is_empty() {
            Fault::Lacks("slot")
        } else if !is_id(&id) {
            Fault::Id(clean(&id, QUOTED))
        } else if self.shelf.find(&id).is_some() {
            Fault::Duplicate(id)
        } else {
            self.problems.add(label, Fault::Slot(id.clone()));
            self.shelf.slots.push(Slot { name: id.replace('-', " "), id });
            return Some(self.shelf.slots.len() - 1);
        };
        self.problems.add(label, fault);
        None
    }

    fn sets(&mut self, label: &str, sets: Vec<(String, Option<Figure>)>) -> (Vec<(Place, f64)>, Option<Place>) {
        if sets.len() > MOST_INSIDE {
            self.problems.add(label, Fault::TooMany(MOST_INSIDE));
        }
        let mut read: LiteMap<Place, f64> = LiteMap::new();
        let mut unset = None;
        for (key, figure) in sets.into_iter().take(MOST_INSIDE) {
            let set = match figure {
                None => Err(Fault::Value(clean(&key, QUOTED))),
                Some(figure) => self.set(&key, &figure),
            };
            match set {
                Ok((place, _)) if read.contains_key(&place) => self.problems.add(label, Fault::KeyTwice(clean(&key, QUOTED))),
                Ok((place, value)) => _ = read.insert(place, value),
                Err(fault) => {
                    unset = unset.or_else(|| self.build.layout().place_by_key(&key));
                    self.problems.add(label, fault);
                }
            }
        }
        (read.into_iter().collect(), unset)
    }

    fn set(&self, key: &str, figure: &Figure) -> Result<(Place, f64), Fault> {
        let layout = self.build.layout();
        let Some(place) = layout.place_by_key(key) else {
            let nearest = if self.problems.wanted() { nearest_key(layout, key) } else { None };
            return Err(Fault::Key { key: clean(key, QUOTED), nearest });
        };
        let key = clean(key, QUOTED);
        if layout.spec(place.id).role != Role::Input {
            return Err(Fault::Output(key));
        }
        let value = match (layout.kind(place.id), figure) {
            (Kind::Text(_), _) => return Err(Fault::Words(key)),
            (Kind::Quantity { unit, .. }, Figure::Number(number)) => unit.to_si(*number),
            (Kind::Quantity { dimension, unit }, Figure::Text(text)) => {
                read_quantity(text, dimension, unit).map_err(|why| Fault::Entry { key: key.clone(), why })?
            }
            (Kind::Choice(choices), figure) => {
                let typed = match figure {
                    Figure::Text(text) => clean(text, QUOTED),
                    Figure::Number(number) => number.to_string(),
                };
                let found = choices.iter().position(|choice| choice.key == typed);
                found.map(|at| at as f64).ok_or_else(|| {
                    let choices = choices.iter().map(|choice| choice.key).collect::<Vec<_>>().join(", ");
                    Fault::Choice { key: key.clone(), value: typed, choices }
                })?
            }
        };
        match (self.build.check(place, value), layout.kind(place.id)) {
            (Ok(()), _) => Ok((place, value)),
            (Err(Refusal::OutOfRange([lowest, highest])), Kind::Quantity { unit, .. }) => {
                let shown = |si| show::input(si, unit).to_string();
                let end = |number: f64| shown(unit.to_si(number));
                Err(Fault::Range { key, value: shown(value), lowest: end(lowest), highest: end(highest) })
            }
            (Err(Refusal::NotWhole), Kind::Quantity { unit, .. }) => {
                Err(Fault::Entry { key, why: EntryError::NotWhole { text: show::input(value, unit).to_string() } })
            }
            _ => Err(Fault::Value(key)),
        }
    }

    fn mass(&mut self, label: &str, what: &str, figure: &Figure) -> Option<Mass> {
        let unit = Mass::DIMENSION.unit("kg");
        let si = match figure {
            Figure::Number(number) => Ok(unit.to_si(*number)),
            Figure::Text(text) => read_quantity(text, Mass::DIMENSION, unit),
        };
        let fault = match si {
            Ok(si) if (0.0..10_000.0).contains(&si) => return Some(Mass::from_si(si + 0.0)),
            Ok(_) => Fault::MassRange(what.into()),
            Err(why) => Fault::Mass { what: what.into(), why },
        };
        self.problems.add(label, fault);
        None
    }

    fn price(&mut self, label: &str, raw: &RawValue) -> Option<Price> {
        let Some(PriceFile { amount, currency }) = self.form(label, raw) else {
            self.problems.add(label, Fault::Kind("price".into()));
            return None;
        };
        let shown = match &amount {
            None => String::new(),
            Some(Figure::Number(number)) => number.to_string(),
            Some(Figure::Text(text)) => clean(text, QUOTED),
        };
        if matches!(&amount, Some(Figure::Text(text)) if may_be_thousands(text)) {
            self.problems.add(label, Fault::PriceMark(shown));
            return None;
        }
        let Some(thousandths) = amount.and_then(|amount| thousandths(&amount).ok().flatten()) else {
            self.problems.add(label, Fault::Price(shown));
            return None;
        };
        let Some(currency) = Currency::new(&currency) else {
            self.problems.add(label, Fault::Currency(clean(&currency, QUOTED)));
            return None;
        };
        Some(Price { thousandths, currency })
    }

    fn rules(&mut self, at: usize, file: RuleFile) -> Vec<Rule> {
        let label = self.shelf.parts[at].name.clone();
        let because = self.words(&label, "because", &file.because, WORDS);
        let lists = [
            (Asks::Needs, file.needs),
            (Asks::NeedsOneOf, file.needs_one_of),
            (Asks::Excludes, file.excludes),
            (Asks::OnlyWith, file.only_with),
        ];
        if lists.iter().all(|(_, names)| names.is_empty()) {
            self.problems.add(&label, Fault::EmptyRule);
        }
        let mut rules = Vec::new();
        for (asks, names) in lists {
            if names.len() > MOST_INSIDE {
                self.problems.add(&label, Fault::TooMany(MOST_INSIDE));
            }
            let of: Vec<Name> = names.iter().take(MOST_INSIDE).filter_map(|name| self.name(at, &label, asks, name)).collect();
            if !of.is_empty() {
                rules.push(Rule { asks, of, because: because.clone() });
            }
        }
        rules
    }

    fn name(&mut self, at: usize, label: &str, asks: Asks, name: &str) -> Option<Name> {
        let fault = match (self.shelf.find(name), self.shelf.slots.iter().position(|slot| slot.id == name)) {
            (Some(part), _) if part == at => Fault::Itself,
            (Some(part), _) => return Some(Name::Part(part)),
            (_, Some(_)) if asks == Asks::OnlyWith => Fault::OnlyWithSlot(name.into()),
            (_, Some(slot)) => return Some(Name::Slot(slot)),
            (None, None) => {
                // Another shelf may have such a slot; until it is opened, what needs it lacks it.
                self.problems.add(label, Fault::NoSuchName(clean(name, QUOTED)));
                return is_id(name).then(|| Name::Elsewhere(name.into()));
            }
        };
        self.problems.add(label, fault);
        None
    }
}

/// The input's key most like this; a row's own number aside.
fn nearest_key(layout: &Layout, key: &str) -> Option<String> {
    nearest(key, layout.places(Role::Input).map(|place| layout.key(place)), |known| known)
}

/// `1,234` and `1.234`: a price a thousand times off would lead every search astray.
fn may_be_thousands(amount: &str) -> bool {
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    amount.trim().split_once([',', '.']).is_some_and(|(whole, rest)| {
        (1..=3).contains(&whole.len()) && rest.len() == 3 && !whole.starts_with('0') && digits(whole) && digits(rest)
    })
}

/// Thousandths of a price: exact, never negative; none when it has more decimals, or is more money than there is.
fn thousandths(amount: &Figure) -> Result<Option<u64>, EntryError> {
    let number = match amount {
        Figure::Number(number) => *number,
        Figure::Text(text) => read_quantity(text, Ratio::DIMENSION, &Ratio::DIMENSION.units[0])?,
    };
    let thousandths = (number * 1000.0).round();
    // Off by the rounding of the number and of the product, and no more.
    let exact = (number * 1000.0 - thousandths).abs() <= 2.0 * f64::EPSILON * thousandths;
    Ok((exact && (0.0..1e12).contains(&thousandths)).then_some(thousandths as u64))
}

/// `https:` with a host, or a path that stays on the app's own.
fn is_link(link: &str) -> bool {
    let plain =
        link.len() <= 500 && link.chars().all(|letter| letter.is_ascii_graphic() && !matches!(letter, '\\' | '"' | '<' | '>' | '`'));
    let elsewhere = link.split(['/', '?', '#']).next().is_some_and(|first| first.contains(':'));
    match link.strip_prefix("https://") {
        Some(rest) => plain && rest.starts_with(|letter: char| letter.is_ascii_alphanumeric()),
        None => plain && !link.is_empty() && !link.starts_with("//") && !elsewhere,
    }
}
