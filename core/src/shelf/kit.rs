//! The kit list: what is chosen, what the rules still ask, and what it all costs and weighs.

use super::{Asks, At, Currency, Name, Part, Price, Rule, Shelf, find, rules};
use crate::build::{Build, Fitted, Origin};
use crate::quantity::Mass;
use crate::report::lower_first;
use crate::show;
use crate::spec::Place;

/// What is chosen for a build.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Kit {
    /// Each part, in the order they were chosen.
    pub lines: Vec<Line>,
    /// What the rules still ask or forbid; empty when all is well.
    pub troubles: Vec<Trouble>,
    /// Mass of the parts whose mass is known.
    pub mass: Mass,
    /// Parts whose mass is not.
    pub not_weighed: usize,
    /// Mass of what comes off the engine, as far as it is known.
    pub removed: Mass,
    /// What the parts cost, by currency.
    pub totals: Vec<Total>,
    /// Parts without a price.
    pub not_priced: usize,
}

/// One part of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// As the build has it.
    pub fitted: Fitted,
    /// Name of its slot; its id when no shelf here has the part.
    pub slot: String,
    /// Where it is on the shelves; none when it is on none of those open.
    pub at: Option<At>,
    /// Its price.
    pub price: Option<Price>,
    /// Its mass.
    pub mass: Option<Mass>,
    /// Whether it is to be had.
    pub stock: String,
    /// Picture or page.
    pub link: String,
    /// What comes off the engine with it: a name each, with its mass where that is known.
    pub removes: Vec<super::Removed>,
    /// To be said with it.
    pub cautions: Vec<String>,
    /// What it sets that stands otherwise in the build.
    pub detached: Vec<Detached>,
}

/// An input that a chosen part sets, and that holds something else.
#[derive(Clone, Debug, PartialEq)]
pub struct Detached {
    /// Which.
    pub place: Place,
    /// The part whose value stands instead; none for one that was typed.
    pub by: Option<String>,
}

/// A rule that does not hold, or a like contradiction.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// The part whose rule it is, by its place in [`Kit::lines`].
    pub line: usize,
    /// As a sentence.
    pub words: String,
}

/// Money of one currency.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Total {
    /// All together.
    pub price: Price,
    /// Of so many parts.
    pub parts: usize,
}

/// How far the difference between two kits' prices is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Known {
    /// Every part in which they differ has a price.
    Exactly,
    /// One without a price is of this kit alone: it may be dearer still.
    AtLeast,
    /// One without a price is of the other alone: it may be less.
    AtMost,
    /// Each has one without a price that the other has not, or nothing else is known of it.
    Not,
}

/// What one kit costs more than another, or less.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dearer {
    /// It is cheaper.
    pub less: bool,
    /// By so much.
    pub by: Price,
}

impl core::fmt::Display for Dearer {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(out, "{}{}", if self.less { '−' } else { '+' }, self.by)
    }
}

/// The kit list of a build, as far as these shelves know its parts.
#[must_use]
pub fn kit(shelves: &[Shelf], build: &Build) -> Kit {
    let lines: Vec<Line> = build.parts().iter().enumerate().map(|(at, fitted)| line(shelves, build, at, fitted)).collect();
    let mut kit = Kit { troubles: troubles(shelves, build, &lines), ..Kit::default() };
    for line in &lines {
        kit.mass = kit.mass + line.mass.unwrap_or_default();
        kit.not_weighed += usize::from(line.mass.is_none());
        kit.not_priced += usize::from(line.price.is_none());
        kit.removed = kit.removed + line.removed();
        if let Some(price) = line.price {
            kit.add(price);
        }
    }
    kit.lines = lines;
    kit
}

impl Kit {
    fn add(&mut self, price: Price) {
        match self.totals.iter_mut().find(|total| total.price.currency == price.currency) {
            Some(total) => {
                total.price.thousandths += price.thousandths;
                total.parts += 1;
            }
            None => self.totals.push(Total { price, parts: 1 }),
        }
    }

    /// What the parts cost more than another kit's, in each currency in which the two differ.
    #[must_use]
    pub fn dearer(&self, than: &Self) -> Vec<Dearer> {
        let theirs_alone = than.totals.iter().filter(|total| self.total(total.price.currency).is_none());
        let dearer = |total: &Total| {
            let currency = total.price.currency;
            let [ours, theirs] = [self, than].map(|kit| kit.total(currency).map_or(0, |price| price.thousandths));
            let by = Price { thousandths: ours.abs_diff(theirs), currency };
            (ours != theirs).then_some(Dearer { less: ours < theirs, by })
        };
        self.totals.iter().chain(theirs_alone).filter_map(dearer).collect()
    }

    /// How far that is known, and the parts without a price, of this kit or the other alone.
    #[must_use]
    pub fn dearer_is_known<'a>(&'a self, than: &'a Self) -> (Known, Vec<&'a Fitted>) {
        let [ours, theirs] = [self.unpriced_beside(than), than.unpriced_beside(self)];
        let known = match (ours.is_empty(), theirs.is_empty()) {
            (true, true) => Known::Exactly,
            _ if self.dearer(than).is_empty() => Known::Not,
            (false, true) => Known::AtLeast,
            (true, false) => Known::AtMost,
            (false, false) => Known::Not,
        };
        (known, [theirs, ours].concat())
    }

    /// Parts without a price that another kit has not.
    fn unpriced_beside(&self, other: &Self) -> Vec<&Fitted> {
        let same = |one: &Fitted, two: &Fitted| (&one.shelf, &one.id) == (&two.shelf, &two.id);
        let alone = |fitted: &&Fitted| !other.lines.iter().any(|line| same(&line.fitted, fitted));
        self.lines.iter().filter(|line| line.price.is_none()).map(|line| &line.fitted).filter(alone).collect()
    }

    /// Mass of the parts less that of what comes off.
    #[must_use]
    pub fn added(&self) -> Mass {
        self.mass - self.removed
    }

    /// What the parts cost in one currency.
    #[must_use]
    pub fn total(&self, currency: Currency) -> Option<Price> {
        self.totals.iter().find(|total| total.price.currency == currency).map(|total| total.price)
    }
}

impl Line {
    /// Mass of what comes off the engine with it, as far as it is known.
    #[must_use]
    pub fn removed(&self) -> Mass {
        self.removes.iter().filter_map(|removed| removed.mass).fold(Mass::default(), |all, one| all + one)
    }
}

fn line(shelves: &[Shelf], build: &Build, at: usize, fitted: &Fitted) -> Line {
    let found = find(shelves, fitted);
    let part = found.and_then(|found| found.of(shelves));
    let mut line = Line {
        fitted: fitted.clone(),
        slot: fitted.slot.to_string(),
        at: found,
        price: None,
        mass: None,
        stock: String::new(),
        link: String::new(),
        removes: Vec::new(),
        cautions: Vec::new(),
        detached: Vec::new(),
    };
    if let (Some(found), Some(part)) = (found, part) {
        line.slot.clone_from(&shelves[found.shelf].slot_of(part).name);
        line.fitted.name = part.name.as_str().into();
        (line.price, line.mass) = (part.price, part.mass);
        line.stock.clone_from(&part.stock);
        line.link.clone_from(&part.link);
        line.removes.clone_from(&part.removes);
        line.cautions.clone_from(&part.cautions);
        line.detached = part.sets.iter().filter_map(|(place, value)| detached(build, at, *place, *value)).collect();
    }
    line
}

/// What stands in a place instead of what the part sets, if anything does.
fn detached(build: &Build, part: usize, place: Place, value: f64) -> Option<Detached> {
    let by = match build.origin(place) {
        Origin::Part(at) if usize::from(at) == part => {
            return (build.own_value(place).map(f64::to_bits) != Some(value.to_bits())).then_some(Detached { place, by: None });
        }
        Origin::Part(at) => build.parts().get(usize::from(at)).map(ToString::to_string),
        Origin::Own | Origin::Usual | Origin::Missing => None,
    };
    Some(Detached { place, by })
}

fn troubles(shelves: &[Shelf], build: &Build, lines: &[Line]) -> Vec<Trouble> {
    let known = || lines.iter().enumerate().filter_map(|(line, it)| Some((line, it.at?, it.at?.of(shelves)?)));
    let mut troubles = Vec::new();
    for (line, at, part) in known() {
        let others: Vec<(At, &Part)> = known().filter(|(other, ..)| *other != line).map(|(_, at, part)| (at, part)).collect();
        for rule in &part.rules {
            let words = broken(shelves, at, part, rule, &others);
            troubles.extend(words.into_iter().map(|words| Trouble { line, words: with_reason(words, &rule.because) }));
        }
        for (_, _, other) in known().filter(|(other, ..)| *other > line).filter(|(.., other)| rules::at_odds(part, other)) {
            let twice = part
                .sets
                .iter()
                .find(|(place, value)| other.sets.iter().any(|(same, differs)| place == same && value.to_bits() != differs.to_bits()));
            let what = twice.map_or_else(String::new, |(place, _)| lower_first(&show::label(build, *place)));
            troubles.push(Trouble { line, words: format!("{} and {} each set {what}, and not alike.", part.name, other.name) });
        }
    }
    troubles
}

fn with_reason(words: String, because: &str) -> String {
    if because.is_empty() { words } else { format!("{words} ({because})") }
}

/// What of a rule does not hold.
fn broken(shelves: &[Shelf], at: At, part: &Part, rule: &Rule, others: &[(At, &Part)]) -> Vec<String> {
    let shelf = &shelves[at.shelf];
    let name = &part.name;
    let there = |asked: &Name| others.iter().find(|(other, _)| rules::means(shelves, at.shelf, asked, *other));
    match rule.asks {
        Asks::Needs => {
            let lacks = rule.of.iter().filter(|asked| there(asked).is_none());
            lacks.map(|asked| format!("{name} needs {}: {}.", called(shelf, asked), missing(asked))).collect()
        }
        Asks::NeedsOneOf if rule.of.iter().all(|asked| there(asked).is_none()) => match rule.of.as_slice() {
            [asked] => vec![format!("{name} needs {}: {}.", called(shelf, asked), missing(asked))],
            several => vec![format!("{name} needs {}: none chosen.", either(several.iter().map(|asked| called(shelf, asked)).collect()))],
        },
        Asks::NeedsOneOf => Vec::new(),
        Asks::Excludes => {
            let meant = |other: &At| rule.of.iter().any(|asked| rules::means(shelves, at.shelf, asked, *other));
            let wrong = others.iter().filter(|(other, _)| meant(other) && slot(shelves, *other) != slot(shelves, at));
            wrong.map(|(_, other)| format!("{name} does not go with {}.", other.name)).collect()
        }
        Asks::OnlyWith => {
            let meant = |other: &At| rule.of.iter().any(|asked| rules::means(shelves, at.shelf, asked, *other));
            let slots: Vec<&str> = At::all(shelves).filter(meant).filter_map(|allowed| slot(shelves, allowed)).collect();
            let wrong = others.iter().filter(|(other, _)| !meant(other) && slot(shelves, *other).is_some_and(|slot| slots.contains(&slot)));
            let allowed = || either(rule.of.iter().map(|asked| called(shelf, asked)).collect());
            wrong.map(|(_, other)| format!("{name} goes only with {}, not with {}.", allowed(), other.name)).collect()
        }
    }
}

fn slot(shelves: &[Shelf], at: At) -> Option<&str> {
    at.of(shelves).map(|part| shelves[at.shelf].slot_of(part).id.as_str())
}

fn called(shelf: &Shelf, name: &Name) -> String {
    match name {
        Name::Part(at) => shelf.parts[*at].name.clone(),
        Name::Slot(at) => {
            let noun = lower_first(&shelf.slots[*at].name);
            let article = if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
            format!("{article} {noun}")
        }
        Name::Elsewhere(id) => format!("“{id}”"),
    }
}

fn missing(name: &Name) -> &'static str {
    match name {
        Name::Part(_) => "not chosen",
        Name::Slot(_) => "none chosen",
        Name::Elsewhere(_) => "on no shelf that is open, or not chosen",
    }
}

/// `one`, `one or another`, `one, another or a third`.
fn either(mut names: Vec<String>) -> String {
    match names.pop() {
        Some(last) if names.is_empty() => last,
        Some(last) => format!("{} or {last}", names.join(", ")),
        None => String::new(),
    }
}
