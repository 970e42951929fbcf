//! Where each cell of a build or report stands in its one long row.

use crate::calculators::Calculator;
use crate::spec::{Id, Kind, Place, Role, RowId, Spec, Table, TableId};

/// As many declarations as a calculator can have.
const STRIDE: usize = 256;

/// As many calculators as there is room for.
const CALCULATORS: usize = 8;
const _: () = assert!(crate::calculators::ALL.len() <= CALCULATORS);

const fn flat(id: Id) -> usize {
    id.calculator as usize * STRIDE + id.ordinal as usize
}

/// Where the cells of one declaration stand: at even distances, or a single one.
#[derive(Clone, Copy)]
pub(crate) struct Cells {
    start: usize,
    stride: usize,
}

impl Cells {
    /// Slot of the `row`-th, or of the single one whatever the row.
    #[inline]
    pub(crate) fn slot(self, row: usize) -> usize {
        self.start + row * self.stride
    }
}

/// Slots of every declaration; changes only when rows come, go or move.
#[derive(Clone, Debug)]
pub struct Layout {
    calculators: &'static [&'static Calculator],
    /// Per calculator, where its tables begin in `rows`.
    bases: Vec<usize>,
    /// Per declaration: slot of its first (or only) cell, and the distance to the next row's. A calculator takes
    /// [`STRIDE`] places whatever it declares, so that a known id is a known place inside, which nobody has to check.
    starts: Box<[(u32, u32); CALCULATORS * STRIDE]>,
    /// Per table: the rows, in order.
    rows: Vec<Vec<RowId>>,
    length: usize,
}

impl PartialEq for Layout {
    fn eq(&self, other: &Self) -> bool {
        core::ptr::eq(self.calculators, other.calculators) && self.rows == other.rows
    }
}

impl Layout {
    /// Lays out the calculators with each table's default rows, named 1, 2, 3 ….
    #[must_use]
    pub fn new(calculators: &'static [&'static Calculator]) -> Self {
        let mut bases = Vec::with_capacity(calculators.len());
        let mut rows = Vec::new();
        for calculator in calculators {
            bases.push(rows.len());
            rows.extend(calculator.tables.iter().map(|table| (1..=table.rows.len() as u16).map(RowId).collect()));
        }
        let mut layout = Self { calculators, bases, starts: Box::new([(0, 0); CALCULATORS * STRIDE]), rows, length: 0 };
        layout.settle();
        layout
    }

    /// Gives every declaration its slot again after the rows changed: single cells first, then each table row by row.
    fn settle(&mut self) {
        let mut next = 0;
        self.starts.fill((0, 0));
        for id in self.ids().filter(|&id| self.table_of(id).is_none()).collect::<Vec<_>>() {
            self.starts[flat(id)] = (next, 0);
            next += 1;
        }
        for (calculator, it) in self.calculators.iter().enumerate() {
            for table in 0..it.tables.len() {
                let table = TableId { calculator: calculator as u8, table: table as u8 };
                // A column may be declared by another calculator than the table.
                let columns: Vec<Id> = self.ids().filter(|&id| self.table_of(id) == Some(table)).collect();
                for (at, id) in columns.iter().enumerate() {
                    self.starts[flat(*id)] = (next + at as u32, columns.len() as u32);
                }
                next += (columns.len() * self.rows(table).len()) as u32;
            }
        }
        self.length = next as usize;
    }

    /// Number of slots.
    #[must_use]
    pub fn len(&self) -> usize {
        self.length
    }

    /// True without any calculator.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.length == 0
    }

    /// The calculators laid out.
    #[must_use]
    pub fn calculators(&self) -> &'static [&'static Calculator] {
        self.calculators
    }

    /// What was declared under `id`.
    #[must_use]
    pub fn spec(&self, id: Id) -> &'static Spec {
        &self.calculators[id.calculator as usize].specs[id.ordinal as usize]
    }

    /// The table a column belongs to.
    #[must_use]
    pub fn table_of(&self, id: Id) -> Option<TableId> {
        self.spec(id).table
    }

    /// The place of another declaration in the same row, where that is a column: a limit's, or what an input follows.
    #[must_use]
    pub fn beside(&self, id: Id, place: Place) -> Place {
        Place { id, row: place.row.filter(|_| self.table_of(id).is_some()) }
    }

    fn table_index(&self, table: TableId) -> usize {
        self.bases[table.calculator as usize] + table.table as usize
    }

    /// Rows of a table, in order.
    #[must_use]
    pub fn rows(&self, table: TableId) -> &[RowId] {
        &self.rows[self.table_index(table)]
    }

    /// Puts these rows in the table instead. Slots change: cells have to be moved by the caller.
    pub(crate) fn set_rows(&mut self, table: TableId, rows: Vec<RowId>) {
        let at = self.table_index(table);
        self.rows[at] = rows;
        self.settle();
    }

    /// Slot of a declaration in the `row`-th row (0 for single cells).
    #[must_use]
    #[inline]
    pub fn slot(&self, id: Id, row: usize) -> usize {
        self.column(id).slot(row)
    }

    /// Where the cells of a declaration stand.
    #[inline]
    pub(crate) fn column(&self, id: Id) -> Cells {
        let (start, stride) = self.starts[flat(id)];
        Cells { start: start as usize, stride: stride as usize }
    }

    /// Slot of a place; none when its row is not there, or it names a row where there are none, or lacks one.
    #[must_use]
    pub fn find(&self, place: Place) -> Option<usize> {
        match (self.table_of(place.id), place.row) {
            (None, None) => Some(self.slot(place.id, 0)),
            (Some(table), Some(row)) => {
                let at = self.rows(table).iter().position(|&id| id == row)?;
                Some(self.slot(place.id, at))
            }
            _ => None,
        }
    }

    /// The place whose cell stands there.
    pub(crate) fn place_at(&self, slot: usize) -> Option<Place> {
        self.ids().find_map(|id| {
            let Cells { start, stride } = self.column(id);
            let Some(table) = self.table_of(id) else { return (start == slot).then_some(Place { id, row: None }) };
            let ahead = slot.checked_sub(start).filter(|ahead| ahead % stride == 0)?;
            let row = *self.rows(table).get(ahead / stride)?;
            Some(Place { id, row: Some(row) })
        })
    }

    /// Every declaration, in order.
    pub fn ids(&self) -> impl Iterator<Item = Id> + use<> {
        let calculators = self.calculators;
        calculators.iter().enumerate().flat_map(|(calculator, it)| {
            (0..it.specs.len()).map(move |ordinal| Id { calculator: calculator as u8, ordinal: ordinal as u8 })
        })
    }

    /// Every place of one declaration: itself, or a place in each row.
    pub fn places_of(&self, id: Id) -> impl Iterator<Item = Place> + '_ {
        let rows: &[RowId] = self.table_of(id).map_or(&[], |table| self.rows(table));
        let single = self.spec(id).table.is_none().then_some(Place { id, row: None });
        single.into_iter().chain(rows.iter().map(move |&row| Place { id, row: Some(row) }))
    }

    /// Every place of this role, in order.
    pub fn places(&self, role: Role) -> impl Iterator<Item = Place> + '_ {
        self.ids().filter(move |&id| self.spec(id).role == role).flat_map(|id| self.places_of(id))
    }

    /// Key of a table: `front-drive.pulleys`.
    #[must_use]
    pub fn table_key(&self, table: TableId) -> String {
        let calculator = self.calculators[table.calculator as usize];
        format!("{}.{}", calculator.key, calculator.tables[table.table as usize].key)
    }

    /// Key of a place: `clutch.slave-bore`, `front-drive.pulleys.3.diameter`; first the calculator that declares it.
    #[must_use]
    pub fn key(&self, place: Place) -> String {
        let (calculator, word) = (self.calculators[place.id.calculator as usize].key, self.spec(place.id).key);
        match (self.table_of(place.id), place.row) {
            (Some(table), Some(RowId(row))) => format!("{calculator}.{}.{row}.{word}", self.table(table).key),
            (Some(table), None) => format!("{calculator}.{}.{word}", self.table(table).key),
            _ => format!("{calculator}.{word}"),
        }
    }

    /// What was declared of a table.
    #[must_use]
    pub fn table(&self, table: TableId) -> &'static Table {
        &self.calculators[table.calculator as usize].tables[table.table as usize]
    }

    /// The table with this key.
    #[must_use]
    pub fn table_by_key(&self, key: &str) -> Option<TableId> {
        let (calculator, word) = key.split_once('.')?;
        let at = self.calculators.iter().position(|it| it.key == calculator)?;
        let table = self.calculators[at].tables.iter().position(|table| table.key == word)?;
        Some(TableId { calculator: at as u8, table: table as u8 })
    }

    /// The place a key names, whether or not its row exists in this layout.
    #[must_use]
    pub fn place_by_key(&self, key: &str) -> Option<Place> {
        let mut words = key.split('.');
        let at = self.calculators.iter().position(|it| Some(it.key) == words.clone().next())?;
        let calculator = self.calculators[at];
        words.next();
        let ordinal = |table: Option<&str>, word: &str| {
            let of = |spec: &Spec| spec.table.map(|table| self.table(table).key);
            let found = calculator.specs.iter().position(|spec| of(spec) == table && spec.key == word)?;
            Some(Id { calculator: at as u8, ordinal: found as u8 })
        };
        let (first, second, third) = (words.next()?, words.next(), words.next());
        match (second, third, words.next()) {
            (None, None, None) => Some(Place { id: ordinal(None, first)?, row: None }),
            (Some(row), Some(column), None) => {
                let row = row.parse().ok().filter(|_| row.bytes().all(|byte| byte.is_ascii_digit()))?;
                Some(Place { id: ordinal(Some(first), column)?, row: Some(RowId(row)) })
            }
            _ => None,
        }
    }

    /// What a cell holds, for a declaration.
    #[must_use]
    pub fn kind(&self, id: Id) -> Kind {
        self.spec(id).kind
    }
}
