//! The build: every input of one car, and where each value comes from.

mod parts;
mod tolerances;

pub use parts::{Fitted, MOST_PARTS};

use crate::calculators::{self, Calculator};
use crate::layout::Layout;
use crate::spec::{Cell, Follow, Id, Kind, Place, Role, RowId, Spec, TableId};
use crate::tolerance::Given;
use litemap::LiteMap;
use std::sync::Arc;

/// Who gave the value that stands in an input.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Origin {
    /// Nobody yet: the default, or what the input follows.
    Usual,
    /// Typed or chosen here.
    Own,
    /// Said to be not known.
    Missing,
    /// A part of the shelf, by its place in [`Build::parts`].
    Part(u16),
}

/// Why a value was not taken.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Refusal {
    /// Not a number.
    NotFinite,
    /// Below or above what physics allows; the range, in the input's unit.
    OutOfRange([f64; 2]),
    /// A part of a number where things are counted.
    NotWhole,
    /// No such choice.
    NoSuchChoice,
    /// Longer than this many characters.
    TooLong(u16),
    /// The place is not an input of this build, or of another kind.
    NotThere,
}

/// So many inputs are looked for that differ from build to build.
const MOST_CHANGES: usize = 8;

/// Every input of one car.
#[derive(Clone, Debug)]
pub struct Build {
    layout: Arc<Layout>,
    /// Same slots as a report, so that evaluation starts with one copy. NaN is *not given*.
    pub(crate) cells: Vec<f64>,
    pub(crate) origins: Vec<Origin>,
    /// Shared by builds that differ in numbers alone: there are as many as rows have names.
    texts: Arc<LiteMap<Place, Box<str>>>,
    tolerances: LiteMap<Place, Given>,
    /// The tolerances by slot, for evaluation; empty while there are none.
    pub(crate) given: Arc<Vec<Given>>,
    /// What stands under the value of a part, lowest first, restored when the part goes. Never an empty list.
    under: LiteMap<Place, Vec<(f64, Origin)>>,
    parts: Vec<Fitted>,
    /// Highest row name ever given, per table.
    last_names: LiteMap<TableId, RowId>,
}

impl PartialEq for Build {
    fn eq(&self, other: &Self) -> bool {
        // Bits, so that a cell not given equals another.
        let bits = |cell: &f64| cell.to_bits();
        self.layout == other.layout
            && self.origins == other.origins
            && self.texts == other.texts
            && self.tolerances == other.tolerances
            && self.parts == other.parts
            && self.cells.iter().map(bits).eq(other.cells.iter().map(bits))
            && self.under.len() == other.under.len()
            && self.under.iter().zip(&other.under).all(|((place, layers), (their_place, theirs))| {
                let layer = |layer: &(f64, Origin)| (layer.0.to_bits(), layer.1);
                place == their_place && layers.iter().map(layer).eq(theirs.iter().map(layer))
            })
    }
}

impl Default for Build {
    fn default() -> Self {
        Self::new(calculators::ALL)
    }
}

impl Build {
    /// The demo car: every default of these calculators.
    #[must_use]
    pub fn new(calculators: &'static [&'static Calculator]) -> Self {
        let layout = Arc::new(Layout::new(calculators));
        let mut build = Self {
            cells: vec![f64::NAN; layout.len()],
            origins: vec![Origin::Usual; layout.len()],
            layout,
            texts: Arc::default(),
            tolerances: LiteMap::new(),
            given: Arc::default(),
            under: LiteMap::new(),
            parts: Vec::new(),
            last_names: LiteMap::new(),
        };
        for place in build.layout.clone().places(Role::Input) {
            build.put_usual(place);
        }
        build
    }

    /// A car of one's own: what belongs to the particular car is not given yet, the rest stays at its default.
    #[must_use]
    pub fn cleared(calculators: &'static [&'static Calculator]) -> Self {
        let mut build = Self::new(calculators);
        build.forget_the_car();
        build
    }

    /// Says that nothing is known of what belongs to the particular car.
    pub(crate) fn forget_the_car(&mut self) {
        for place in self.layout.clone().places(Role::Input) {
            if self.layout.spec(place.id).of_the_car {
                self.forget(place);
            }
        }
    }

    /// Where its cells stand.
    #[must_use]
    pub fn layout(&self) -> &Arc<Layout> {
        &self.layout
    }

    fn spec(&self, id: Id) -> &'static Spec {
        self.layout.spec(id)
    }

    fn input_slot(&self, place: Place) -> Option<usize> {
        if self.layout.spec(place.id).role != Role::Input {
            return None;
        }
        self.layout.find(place)
    }

    /// The value that stands there (SI, or a choice's ordinal) unless the input follows another; none when missing.
    #[must_use]
    pub fn own_value(&self, place: Place) -> Option<f64> {
        self.input_slot(place).map(|slot| self.cells[slot]).filter(|value| !value.is_nan())
    }

    /// Who gave it.
    #[must_use]
    pub fn origin(&self, place: Place) -> Origin {
        self.input_slot(place).map_or(Origin::Missing, |slot| self.origins[slot])
    }

    /// What the input follows now; none when it was typed, has no one to follow, or its row's choice names none.
    #[must_use]
    pub fn following(&self, place: Place) -> Option<Id> {
        if self.origin(place) != Origin::Usual {
            return None;
        }
        match self.spec(place.id).follows {
            Follow::Nothing => None,
            Follow::The(id) => Some(id),
            Follow::ByChoice(column, targets) => {
                let choice = self.own_value(Place { id: column, row: place.row })?;
                targets.iter().find(|(ordinal, _)| f64::from(*ordinal) == choice).map(|&(_, id)| id)
            }
        }
    }

    /// The words of a text input.
    #[must_use]
    pub fn text(&self, place: Place) -> &str {
        self.texts.get(&place).map_or("", |words| words)
    }

    /// Words that somebody gave: the car's name, those of rows and parts.
    pub fn own_words(&self) -> impl Iterator<Item = String> {
        let given = self.texts.iter().filter(|(place, words)| !words.is_empty() && self.origin(**place) != Origin::Usual);
        given
            .map(|(_, words)| words.to_string())
            .chain(self.parts.iter().map(|part| part.name.to_string()))
            .filter(|words| !words.is_empty())
    }

    /// Whether this value may stand there.
    ///
    /// # Errors
    /// The reason it may not.
    pub fn check(&self, place: Place, value: f64) -> Result<(), Refusal> {
        let spec = self.spec(place.id);
        match spec.kind {
            _ if !value.is_finite() => Err(Refusal::NotFinite),
            Kind::Quantity { unit, .. } => {
                let [lowest, highest] = spec.possible;
                // Compared in SI, ends included, so that the ends themselves can be typed in any unit.
                let slack = 1e-12 * value.abs();
                if value < unit.to_si(lowest) - slack || value > unit.to_si(highest) + slack {
                    return Err(Refusal::OutOfRange(spec.possible));
                }
                if spec.whole && value.fract() != 0.0 {
                    return Err(Refusal::NotWhole);
                }
                Ok(())
            }
            Kind::Choice(choices) if value >= 0.0 && value < choices.len() as f64 && value.fract() == 0.0 => Ok(()),
            Kind::Choice(_) => Err(Refusal::NoSuchChoice),
            Kind::Text(_) => Err(Refusal::NotThere),
        }
    }

    /// Types a value over whatever stands there: SI, or a choice's ordinal.
    ///
    /// # Errors
    /// The reason it was not taken; what stood there stays.
    pub fn set(&mut self, place: Place, value: f64) -> Result<(), Refusal> {
        let slot = self.input_slot(place).ok_or(Refusal::NotThere)?;
        self.check(place, value)?;
        self.put(slot, place, value, Origin::Own);
        Ok(())
    }

    /// Writes words, stripped of characters that would garble what stands beside them.
    ///
    /// # Errors
    /// When too long, or not a text input.
    pub fn set_text(&mut self, place: Place, words: &str) -> Result<(), Refusal> {
        let slot = self.input_slot(place).ok_or(Refusal::NotThere)?;
        let Kind::Text(most) = self.spec(place.id).kind else { return Err(Refusal::NotThere) };
        let mut clean: String = words.chars().filter(|&letter| !crate::entry::hostile(letter)).collect();
        // Words that nobody would see are none.
        if clean.chars().all(|letter| letter.is_whitespace() || crate::entry::invisible(letter)) {
            clean.clear();
        }
        if clean.chars().count() > usize::from(most) {
            return Err(Refusal::TooLong(most));
        }
        self.origins[slot] = Origin::Own;
        Arc::make_mut(&mut self.texts).insert(place, clean.into());
        Ok(())
    }

    /// Back to the default, or to following.
    pub fn put_back(&mut self, place: Place) {
        if self.input_slot(place).is_some() {
            self.under.remove(&place);
            self.put_usual(place);
        }
    }

    /// Says that the value is not known.
    pub fn forget(&mut self, place: Place) {
        if let Some(slot) = self.input_slot(place) {
            match self.spec(place.id).kind {
                Kind::Text(_) => {
                    Arc::make_mut(&mut self.texts).insert(place, "".into());
                    self.origins[slot] = Origin::Own;
                }
                _ => self.put(slot, place, f64::NAN, Origin::Missing),
            }
        }
    }

    fn put(&mut self, slot: usize, place: Place, value: f64, origin: Origin) {
        self.under.remove(&place);
        // One zero, so that equal builds have equal bits.
        self.cells[slot] = if value == 0.0 { 0.0 } else { value };
        self.origins[slot] = origin;
    }

    /// The default of a place: the row's where a new build has that row, else the column's.
    fn usual(&self, place: Place) -> Cell {
        let spec = self.spec(place.id);
        let otherwise = if matches!(spec.kind, Kind::Text(_)) { Cell::Text("") } else { Cell::Usual };
        let (Some(table), Some(RowId(row))) = (self.layout.table_of(place.id), place.row) else {
            return match spec.kind {
                // A text's default stands in its help of last resort: nothing.
                Kind::Text(_) => Cell::Text(""),
                _ => Cell::Usual,
            };
        };
        let calculator = self.layout.calculators()[table.calculator as usize];
        let rows = calculator.tables[table.table as usize].rows;
        let Some(cells) = usize::from(row).checked_sub(1).and_then(|at| rows.get(at)) else { return otherwise };
        if place.id.calculator != table.calculator {
            return otherwise; // a table's default rows hold the columns of its own calculator
        }
        let column = calculator.specs[..usize::from(place.id.ordinal)]
            .iter()
            .filter(|other| other.table == spec.table && other.role == Role::Input)
            .count();
        cells.get(column).copied().unwrap_or(otherwise)
    }

    fn put_usual(&mut self, place: Place) {
        let Some(slot) = self.layout.find(place) else { return };
        let spec = self.spec(place.id);
        let cell = match self.usual(place) {
            Cell::Number(number) => spec.to_cell(number),
            Cell::Choice(ordinal) => f64::from(ordinal),
            Cell::Missing => f64::NAN,
            Cell::Text(words) => {
                Arc::make_mut(&mut self.texts).insert(place, words.into());
                0.0
            }
            Cell::Usual => spec.default_cell(),
        };
        self.cells[slot] = cell;
        self.origins[slot] = Origin::Usual;
    }

    /// Lets another number stand there without asking whether it may: for tools that try many.
    pub(crate) fn vary(&mut self, slot: usize, value: f64) {
        self.cells[slot] = value;
        self.origins[slot] = Origin::Own;
    }

    /// Inputs in which it differs from another of the same rows, by value, by who gave it or by tolerance; none where rows
    /// differ, or so much that looking for each takes longer than working all out.
    pub(crate) fn changed_since(&self, before: &Self) -> Option<Vec<Place>> {
        if !Arc::ptr_eq(&self.layout, &before.layout) && self.layout != before.layout {
            return None;
        }
        let tolerance = |build: &Self, slot: usize| build.given.get(slot).copied().unwrap_or_default();
        let differs = |&slot: &usize| {
            self.cells[slot].to_bits() != before.cells[slot].to_bits()
                || self.origins[slot] != before.origins[slot]
                || tolerance(self, slot) != tolerance(before, slot)
        };
        let slots: Vec<usize> = (0..self.layout.len()).filter(differs).take(MOST_CHANGES + 1).collect();
        (slots.len() <= MOST_CHANGES).then(|| slots.into_iter().filter_map(|slot| self.layout.place_at(slot)).collect())
    }

    /// Rows of a table, in order.
    #[must_use]
    pub fn rows(&self, table: TableId) -> &[RowId] {
        self.layout.rows(table)
    }

    /// Puts these rows in the table: known ones keep their cells, new ones get defaults.
    ///
    /// # Errors
    /// When a name stands twice, or there are fewer or more rows than the table takes.
    pub fn set_rows(&mut self, table: TableId, rows: &[RowId]) -> Result<(), Refusal> {
        let declared = &self.layout.calculators()[table.calculator as usize].tables[table.table as usize];
        let count = rows.len();
        if count < usize::from(declared.least) || count > usize::from(declared.most) {
            return Err(Refusal::OutOfRange([f64::from(declared.least), f64::from(declared.most)]));
        }
        if (1..count).any(|at| rows[..at].contains(&rows[at])) {
            return Err(Refusal::NotThere);
        }
        let before = self.layout.clone();
        let after = Arc::make_mut(&mut self.layout);
        after.set_rows(table, rows.to_vec());
        let after = self.layout.clone();
        let mut cells = vec![f64::NAN; after.len()];
        let mut origins = vec![Origin::Usual; after.len()];
        let mut fresh = Vec::new();
        for place in after.places(Role::Input) {
            let slot = after.find(place).unwrap_or_default();
            match before.find(place) {
                Some(old) => (cells[slot], origins[slot]) = (self.cells[old], self.origins[old]),
                None => fresh.push(place),
            }
        }
        (self.cells, self.origins) = (cells, origins);
        Arc::make_mut(&mut self.texts).retain(|&place, _| after.find(place).is_some());
        self.under.retain(|&place, _| after.find(place).is_some());
        self.tolerances.retain(|&place, _| after.find(place).is_some());
        self.settle_tolerances();
        for place in fresh {
            self.put_usual(place);
        }
        if let Some(highest) = rows.iter().max() {
            self.keep_names(table, *highest);
        }
        Ok(())
    }

    /// Highest name a row of this table ever had, or the demo's last when none was ever added.
    #[must_use]
    pub fn last_name(&self, table: TableId) -> RowId {
        let declared = &self.layout.calculators()[table.calculator as usize].tables[table.table as usize];
        self.last_names.get(&table).copied().unwrap_or(RowId(declared.rows.len() as u16))
    }

    /// Says that rows up to this name were there once: none of these names is given again.
    pub fn keep_names(&mut self, table: TableId, last: RowId) {
        let last = last.max(self.last_name(table));
        self.last_names.insert(table, last);
    }

    /// Adds a row at the end under a name never used before; none when the table is full.
    pub fn add_row(&mut self, table: TableId) -> Option<RowId> {
        let row = RowId(self.last_name(table).0.checked_add(1)?);
        let rows: Vec<RowId> = self.rows(table).iter().copied().chain([row]).collect();
        self.set_rows(table, &rows).ok()?;
        Some(row)
    }
}
