//! What an input or output is, declared once. Forms, validation, links, tools and documentation all read from here.
//!
//! A calculator lists its declarations with [`declare!`](crate::declare); each becomes a typed handle (`Input<Length>`)
//! and a [`Spec`]. Handles carry only an [`Id`]; everything said about it is found through the calculator.

use crate::measure::{Guide, Sketch};
use crate::quantity::unit::{BORE, CONDUCTOR};
use crate::quantity::{Area, Dimension, Length, Unit, Value};
use core::marker::PhantomData;

/// One declaration: which calculator, and which of its declarations.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub struct Id {
    /// The calculator's place in the list of all calculators.
    pub calculator: u8,
    /// The declaration's place in its calculator.
    pub ordinal: u8,
}

/// A row's name, never given twice within a build.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub struct RowId(pub u16);

/// One cell: a declaration and, for a column, its row.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub struct Place {
    /// What.
    pub id: Id,
    /// Which row, for columns.
    pub row: Option<RowId>,
}

impl From<Id> for Place {
    fn from(id: Id) -> Self {
        Self { id, row: None }
    }
}

/// One table of rows: which calculator, and which of its tables.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub struct TableId {
    /// The calculator's place in the list of all calculators.
    pub calculator: u8,
    /// The table's place in its calculator.
    pub table: u8,
}

/// Where a number, a default or an equation comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Source {
    /// A standard, by number and edition.
    Standard(&'static str),
    /// A book, paper or data sheet that was seen.
    Published(&'static str),
    /// A standard or book quoted from memory, not looked up.
    FromMemory(&'static str),
    /// What fitters do; no document is known.
    CommonPractice,
    /// A guess by judgement: weak, and shown as such.
    Judgement,
    /// Follows from definitions or geometry.
    Definition,
}

impl core::fmt::Display for Source {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Standard(which) | Self::Published(which) => out.write_str(which),
            Self::FromMemory(which) => write!(out, "{which}, from memory"),
            Self::CommonPractice => out.write_str("common practice, no source"),
            Self::Judgement => out.write_str("a guess; measure yours"),
            Self::Definition => out.write_str("by definition"),
        }
    }
}

/// One way a choice can be made.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Choice {
    /// In links; kebab-case, frozen once shipped.
    pub key: &'static str,
    /// On screen.
    pub label: &'static str,
}

/// What a cell may hold.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Kind {
    /// A quantity, kept in SI, written in `unit`.
    Quantity {
        /// Kind of quantity.
        dimension: &'static Dimension,
        /// The unit of ranges, defaults, steps, links and the metric screen.
        unit: &'static Unit,
    },
    /// One of these, kept as its ordinal.
    Choice(&'static [Choice]),
    /// Words, at most this many characters.
    Text(u16),
}

/// What a type of value is made of: the link between a Rust type and its [`Kind`].
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Domain {
    /// A quantity of this dimension.
    Dimension(&'static Dimension),
    /// A choice among these.
    Choices(&'static [Choice]),
}

/// Given from outside, or worked out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Role {
    /// Typed, chosen, followed or set by a part.
    Input,
    /// Computed by a step.
    Output,
}

/// Which way a limit holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sense {
    /// The output must not be above it.
    AtMost,
    /// The output must not be below it.
    AtLeast,
}

/// A limit of an output: both marks are inputs (a column's limit may be a column of the same table).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Limit {
    /// Which way.
    pub sense: Sense,
    /// Past this it is *beyond*.
    pub beyond: Id,
    /// Past this it is *near*.
    pub near: Option<Id>,
}

/// What an input takes when nobody typed it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Follow {
    /// Its default.
    Nothing,
    /// The value of another declaration.
    The(Id),
    /// The value named for the choice that stands in this column of the same row; its default for other choices.
    ByChoice(Id, &'static [(u8, Id)]),
}

/// How an output stands against its limits.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Verdict {
    /// Inside every limit.
    Within,
    /// Inside, but close, or resting on an estimate.
    Near,
    /// Cannot be told; the reason says why.
    Unknown,
    /// Past a limit.
    Beyond,
}

impl Verdict {
    /// The word on screen.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Within => "within",
            Self::Near => "near",
            Self::Unknown => "unknown",
            Self::Beyond => "beyond",
        }
    }
}

/// A default cell of a row that a new build starts with.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Cell {
    /// A number in the column's unit.
    Number(f64),
    /// A choice by its ordinal.
    Choice(u8),
    /// Words.
    Text(&'static str),
    /// The column's own default, following included.
    Usual,
    /// Not given.
    Missing,
}

/// Everything said about one input or output.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Spec {
    /// Last word of the key; kebab-case, frozen once shipped.
    pub key: &'static str,
    /// On screen.
    pub label: &'static str,
    /// What it is and, for inputs, how to measure it.
    pub help: &'static str,
    /// Input or output.
    pub role: Role,
    /// What the cell holds.
    pub kind: Kind,
    /// Default in the spec's unit (or the choice's ordinal); NaN: not given until somebody gives it.
    pub default: f64,
    /// Where the default comes from.
    pub source: Source,
    /// Lowest and highest number physics allows, in the spec's unit.
    pub possible: [f64; 2],
    /// Lowest and highest number usually met, in the spec's unit: the slider's ends.
    pub usual: [f64; 2],
    /// Slider step in the spec's unit.
    pub step: f64,
    /// A count: whole numbers alone.
    pub whole: bool,
    /// The sizes the trade sells, in the spec's unit; empty: any.
    pub sizes: &'static [f64],
    /// What it takes when nobody typed it.
    pub follows: Follow,
    /// The inputs that give its half-width and its [`Distribution`](crate::tolerance::Distribution) unless given for it
    /// alone; none: exact.
    pub tolerance: Option<(Id, Id)>,
    /// The table it is a column of: one of its own calculator's, or another's whose rows it answers for.
    pub table: Option<TableId>,
    /// The part of the car one would touch; a heading of the form.
    pub group: &'static str,
    /// Belongs to the particular car: not given after the demo is cleared.
    pub of_the_car: bool,
    /// Among the few that matter most and come first.
    pub matters: bool,
    /// Limits of an output.
    pub limits: [Option<Limit>; 2],
    /// For a choice output: the verdict of each choice.
    pub verdicts: &'static [Verdict],
    /// An output that cannot be *within* while any of these still holds its default.
    pub rests_on: &'static [Id],
    /// The same of one more input (the last) while this choice (an ordinal) stands in the first.
    pub rests_on_while: Option<(Id, u8, Id)>,
    /// An output that is an estimate by its method, and so never *within*.
    pub estimate: bool,
    /// An output that is an estimate while this choice stands, and so not *within* then.
    pub estimate_while: Option<(Id, u8)>,
    /// Stands beside the result.
    pub caution: &'static str,
    /// The measurement that gives it, where one is led through.
    pub guide: Option<Guide>,
    /// Where it is measured, if words are not enough.
    pub sketch: Option<&'static Sketch>,
    /// Significant digits shown.
    pub digits: u8,
}

impl Spec {
    /// A declaration with nothing said beyond the necessary.
    #[must_use]
    pub const fn new<V: Value>(role: Role, key: &'static str, label: &'static str, unit: &str, help: &'static str) -> Self {
        let kind = match V::DOMAIN {
            Domain::Dimension(dimension) => Kind::Quantity { dimension, unit: dimension.unit(unit) },
            Domain::Choices(choices) => Kind::Choice(choices),
        };
        Self {
            key,
            label,
            help,
            role,
            kind,
            default: f64::NAN,
            source: Source::Definition,
            possible: [f64::NEG_INFINITY, f64::INFINITY],
            usual: [f64::NAN, f64::NAN],
            step: 0.0,
            whole: false,
            sizes: &[],
            follows: Follow::Nothing,
            tolerance: None,
            table: None,
            group: "",
            of_the_car: false,
            matters: false,
            limits: [None, None],
            verdicts: &[],
            rests_on: &[],
            rests_on_while: None,
            estimate: false,
            estimate_while: None,
            caution: "",
            guide: None,
            sketch: None,
            digits: 3,
        }
    }

    /// A cell of words, at most `most` characters.
    #[must_use]
    pub const fn text(mut self, most: u16) -> Self {
        self.kind = Kind::Text(most);
        self
    }

    /// The bore of a cylinder, in millimetres.
    #[must_use]
    pub const fn bore(mut self) -> Self {
        self.kind = Kind::Quantity { dimension: Length::DIMENSION, unit: BORE };
        self
    }

    /// The area of a conductor, in square millimetres.
    #[must_use]
    pub const fn conductor(mut self) -> Self {
        self.kind = Kind::Quantity { dimension: Area::DIMENSION, unit: CONDUCTOR };
        self
    }

    /// Default in the spec's unit, and where it comes from.
    #[must_use]
    pub const fn default(mut self, number: f64, source: Source) -> Self {
        self.default = number;
        self.source = source;
        self
    }

    /// Range physics allows, in the spec's unit.
    #[must_use]
    pub const fn possible(mut self, lowest: f64, highest: f64) -> Self {
        self.possible = [lowest, highest];
        self
    }

    /// Range usually met and the slider's step, in the spec's unit.
    #[must_use]
    pub const fn usual(mut self, lowest: f64, highest: f64, step: f64) -> Self {
        self.usual = [lowest, highest];
        self.step = step;
        self
    }

    /// A count: whole numbers alone.
    #[must_use]
    pub const fn whole(mut self) -> Self {
        self.whole = true;
        self
    }

    /// The sizes the trade sells, rising, in the spec's unit.
    #[must_use]
    pub const fn sizes(mut self, sizes: &'static [f64]) -> Self {
        self.sizes = sizes;
        self
    }

    /// Follows another declaration unless typed.
    #[must_use]
    pub const fn follows(mut self, id: Id) -> Self {
        self.follows = Follow::The(id);
        self
    }

    /// Follows the declaration named for the choice in `column` of the same row.
    #[must_use]
    pub const fn follows_by(mut self, column: Id, targets: &'static [(u8, Id)]) -> Self {
        self.follows = Follow::ByChoice(column, targets);
        self
    }

    /// Is off by as much as these inputs say, unless given for it alone.
    #[must_use]
    pub const fn give_or_take(mut self, half_width: Id, distribution: Id) -> Self {
        self.tolerance = Some((half_width, distribution));
        self
    }

    /// The heading it stands under.
    #[must_use]
    pub const fn group(mut self, group: &'static str) -> Self {
        self.group = group;
        self
    }

    /// Belongs to the particular car.
    #[must_use]
    pub const fn of_the_car(mut self) -> Self {
        self.of_the_car = true;
        self
    }

    /// Among the few that come first.
    #[must_use]
    pub const fn matters(mut self) -> Self {
        self.matters = true;
        self
    }

    /// Adds an upper limit: *near* above `near`, *beyond* above `beyond`.
    #[must_use]
    pub const fn at_most(self, beyond: Id, near: Option<Id>) -> Self {
        self.limit(Limit { sense: Sense::AtMost, beyond, near })
    }

    /// Adds a lower limit: *near* below `near`, *beyond* below `beyond`.
    #[must_use]
    pub const fn at_least(self, beyond: Id, near: Option<Id>) -> Self {
        self.limit(Limit { sense: Sense::AtLeast, beyond, near })
    }

    const fn limit(mut self, limit: Limit) -> Self {
        let at = if self.limits[0].is_none() { 0 } else { 1 };
        self.limits[at] = Some(limit);
        self
    }

    /// For a choice output: the verdict of each choice, in order.
    #[must_use]
    pub const fn verdicts(mut self, verdicts: &'static [Verdict]) -> Self {
        self.verdicts = verdicts;
        self
    }

    /// Cannot be *within* while any of these still holds its default.
    #[must_use]
    pub const fn rests_on(mut self, ids: &'static [Id]) -> Self {
        self.rests_on = ids;
        self
    }

    /// The same of `on`, while `choice` (an ordinal) stands in the input.
    #[must_use]
    pub const fn rests_on_while(mut self, input: Id, choice: u8, on: Id) -> Self {
        self.rests_on_while = Some((input, choice, on));
        self
    }

    /// An estimate by its method: never *within*.
    #[must_use]
    pub const fn estimate(mut self) -> Self {
        self.estimate = true;
        self
    }

    /// An estimate while `choice` (an ordinal) stands in the input: not *within* then.
    #[must_use]
    pub const fn estimate_while(mut self, input: Id, choice: u8) -> Self {
        self.estimate_while = Some((input, choice));
        self
    }

    /// A caution that stands beside the result.
    #[must_use]
    pub const fn caution(mut self, words: &'static str) -> Self {
        self.caution = words;
        self
    }

    /// Comes from a measurement that is led through.
    #[must_use]
    pub const fn guided(mut self, guide: Guide) -> Self {
        self.guide = Some(guide);
        self
    }

    /// Is one of the dimensions of this sketch, or made of some.
    #[must_use]
    pub const fn sketched(mut self, sketch: &'static Sketch) -> Self {
        self.sketch = Some(sketch);
        self
    }

    /// Significant digits shown.
    #[must_use]
    pub const fn digits(mut self, digits: u8) -> Self {
        self.digits = digits;
        self
    }

    /// Makes it a column of this table.
    #[must_use]
    pub const fn column(mut self, table: TableId) -> Self {
        self.table = Some(table);
        self
    }

    /// True when an output is judged at all.
    #[must_use]
    pub const fn is_judged(&self) -> bool {
        self.limits[0].is_some() || !self.verdicts.is_empty()
    }

    /// What its verdict hangs on besides its own value.
    pub fn judged_by(&self) -> impl Iterator<Item = Id> + '_ {
        let marks = self.limits.iter().flatten().flat_map(|limit| [Some(limit.beyond), limit.near]).flatten();
        let chosen = self.rests_on_while.into_iter().flat_map(|(input, _, on)| [input, on]);
        marks.chain(self.estimate_while.map(|(input, _)| input)).chain(chosen).chain(self.rests_on.iter().copied())
    }

    /// The default as the number a cell holds: SI for quantities.
    #[must_use]
    pub fn default_cell(&self) -> f64 {
        self.to_cell(self.default)
    }

    /// The number nearest to this (SI) that may stand: a whole one for a count.
    #[must_use]
    pub fn settled(&self, value: f64) -> f64 {
        if self.whole { value.round() } else { value }
    }

    /// A number in the spec's unit as the number a cell holds.
    #[must_use]
    pub fn to_cell(&self, number: f64) -> f64 {
        match self.kind {
            Kind::Quantity { unit, .. } => unit.to_si(number),
            Kind::Choice(_) | Kind::Text(_) => number,
        }
    }
}

/// A table of rows: circuits, pulleys, torque points.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Table {
    /// Last word of the key.
    pub key: &'static str,
    /// On screen.
    pub label: &'static str,
    /// What a row is.
    pub help: &'static str,
    /// Fewest rows.
    pub least: u16,
    /// Most rows.
    pub most: u16,
    /// The rows a new build starts with: cells of the input columns in the order they are declared.
    pub rows: &'static [&'static [Cell]],
}

/// Place of a table's key among its calculator's, for [`declare!`](crate::declare) only.
///
/// # Panics
/// In constant evaluation only, for a key that is not there: it then does not compile.
#[must_use]
pub const fn ordinal_of(keys: &[&str], key: &str) -> u8 {
    let mut at = 0;
    while at < keys.len() {
        if crate::quantity::same(keys[at], key) {
            return at as u8;
        }
        at += 1;
    }
    panic!("no such table")
}

macro_rules! handles {
    ($($(#[$about:meta])* $name:ident)*) => {$(
        $(#[$about])*
        pub struct $name<V> { /// Which declaration.
            pub id: Id, of: PhantomData<fn() -> V> }
        impl<V> $name<V> {
            /// For [`declare!`](crate::declare) only.
            #[must_use]
            pub const fn new(id: Id) -> Self { Self { id, of: PhantomData } }
        }
        impl<V> Clone for $name<V> { fn clone(&self) -> Self { *self } }
        impl<V> Copy for $name<V> {}
    )*};
}

handles! {
    /// An input read as `V`.
    Input
    /// An input column of a table, read as `V`.
    Column
    /// An output set as `V`.
    Output
    /// An output column of a table, set as `V`.
    OutputColumn
}

/// A handle of one cell, input or output.
pub trait Single<V: Value>: Copy {
    /// Which declaration.
    fn id(self) -> Id;
}

/// A handle of one cell in each row, input or output.
pub trait PerRow<V: Value>: Copy {
    /// Which declaration.
    fn id(self) -> Id;
}

impl<V: Value> Single<V> for Input<V> {
    fn id(self) -> Id {
        self.id
    }
}
impl<V: Value> Single<V> for Output<V> {
    fn id(self) -> Id {
        self.id
    }
}
impl<V: Value> PerRow<V> for Column<V> {
    fn id(self) -> Id {
        self.id
    }
}
impl<V: Value> PerRow<V> for OutputColumn<V> {
    fn id(self) -> Id {
        self.id
    }
}

/// Declares a calculator's tables, inputs and outputs: a handle constant for each, and `SPECS` and `TABLES`.
///
/// `input NAME: Type "unit", "key", "Label", "help" { builder(calls) … }`, likewise `column(TABLE)`, `output` and
/// `output_column(TABLE)`. The help line is also the handle's documentation.
#[macro_export]
macro_rules! declare {
    (
        calculator $number:expr;
        tables { $($table:ident: $table_key:literal, $table_label:literal, $table_help:literal, $least:literal..=$most:literal, $rows:expr;)* }
        $($role:ident $(($of:ident))? $name:ident: $type:ty, $unit:literal, $key:literal, $label:literal, $help:literal
            { $($call:ident($($argument:tt)*))* })*
    ) => {
        #[expect(non_camel_case_types, clippy::upper_case_acronyms, reason = "only counts the declarations")]
        #[repr(u8)]
        enum Ordinal { $($name),* }
        $(
            #[doc = $table_help]
            pub const $table: $crate::spec::TableId =
                $crate::spec::TableId { calculator: $number, table: $crate::spec::ordinal_of(TABLE_KEYS, $table_key) };
        )*
        $(
            #[doc = $help]
            pub const $name: $crate::declare!(@handle $role $type) = <$crate::declare!(@handle $role $type)>::new(
                $crate::spec::Id { calculator: $number, ordinal: Ordinal::$name as u8 });
        )*
        /// Keys of this calculator's tables, in the order of their ordinals.
        pub const TABLE_KEYS: &[&str] = &[$($table_key),*];
        /// Tables of this calculator.
        pub static TABLES: &[$crate::spec::Table] = &[$($crate::spec::Table {
            key: $table_key, label: $table_label, help: $table_help, least: $least, most: $most, rows: $rows,
        }),*];
        /// Declarations of this calculator, in the order of their ordinals.
        pub static SPECS: &[$crate::spec::Spec] = &[$(
            $crate::spec::Spec::new::<$type>($crate::declare!(@role $role), $key, $label, $unit, $help)
                $(.column($of))? $(.$call($($argument)*))*
        ),*];
    };
    (@handle input $type:ty) => { $crate::spec::Input<$type> };
    (@handle column $type:ty) => { $crate::spec::Column<$type> };
    (@handle output $type:ty) => { $crate::spec::Output<$type> };
    (@handle output_column $type:ty) => { $crate::spec::OutputColumn<$type> };
    (@role input) => { $crate::spec::Role::Input };
    (@role column) => { $crate::spec::Role::Input };
    (@role output) => { $crate::spec::Role::Output };
    (@role output_column) => { $crate::spec::Role::Output };
}

/// Declares an enum whose variants are the ways of a choice, kept in cells by ordinal.
#[macro_export]
macro_rules! choices {
    ($(#[$about:meta])* $name:ident { $($(#[$variant_about:meta])* $variant:ident $key:literal $label:literal)* }) => {
        $(#[$about])*
        #[derive(Clone, Copy, PartialEq, Eq, Debug)]
        #[repr(u8)]
        pub enum $name { $(#[doc = $label] $(#[$variant_about])* $variant),* }
        impl $crate::quantity::Value for $name {
            const DOMAIN: $crate::spec::Domain = $crate::spec::Domain::Choices(&[$($crate::spec::Choice { key: $key, label: $label }),*]);
            fn from_cell(cell: f64) -> Self {
                const ALL: &[$name] = &[$($name::$variant),*];
                // The build's door lets only whole numbers in range through; anything else reads as the first.
                ALL.get(usize::from(cell as u8)).copied().unwrap_or(ALL[0])
            }
            fn to_cell(self) -> f64 { f64::from(self as u8) }
        }
    };
}

/// The type of cells that hold words; steps do not read them.
#[derive(Clone, Copy, Debug)]
pub struct Words;

impl Value for Words {
    const DOMAIN: Domain = Domain::Choices(&[]);
    fn from_cell(_: f64) -> Self {
        Self
    }
    fn to_cell(self) -> f64 {
        0.0
    }
}
