//! What a change changed: the inputs that differ between two builds, and every verdict that differs for it.

use crate::build::{Build, Origin};
use crate::order::Order;
use crate::overview::against_limit;
use crate::report::{Report, lower_first};
use crate::sentence::{Piece, Sentence};
use crate::show;
use crate::spec::{Kind, Place, Role, RowId, TableId, Verdict};
use crate::tolerance::{Given, Shape};

/// A build and its report.
pub type Evaluated<'a> = (&'a Build, &'a Report);

/// What was changed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum What {
    /// A cell: its value, who gave it, its words or its tolerance.
    Cell(Place),
    /// A row came.
    Added(TableId, RowId),
    /// A row went.
    Removed(TableId, RowId),
    /// Rows stand in another order.
    Moved(TableId),
}

impl What {
    /// Makes a build in this as another of the same calculators is: a cell's value, words and tolerance, a row with its
    /// cells, or an order of rows. What a part set there becomes a value typed: parts stay where they are fitted.
    pub fn carry(self, from: &Build, to: &mut Build) {
        match self {
            Self::Cell(place) => carry_cell(from, to, place),
            Self::Added(table, row) | Self::Removed(table, row) => {
                let mut rows = to.rows(table).to_vec();
                rows.retain(|other| *other != row);
                if !from.rows(table).contains(&row) {
                    _ = to.set_rows(table, &rows);
                    return;
                }
                rows.push(row);
                as_in(from.rows(table), &mut rows);
                // A table that is full stays as it is.
                if to.set_rows(table, &rows).is_ok() {
                    let is_cell = |place: &Place| place.row == Some(row) && to.layout().table_of(place.id) == Some(table);
                    let cells: Vec<Place> = to.layout().places(Role::Input).filter(is_cell).collect();
                    cells.into_iter().for_each(|place| carry_cell(from, to, place));
                }
            }
            Self::Moved(table) => {
                let mut rows = to.rows(table).to_vec();
                as_in(from.rows(table), &mut rows);
                _ = to.set_rows(table, &rows);
            }
        }
    }
}

/// Takes some of what [`changes`] found into the build before. Twice: what a table had no room for, or could not do
/// without, goes once the rest is done.
pub fn take(before: &mut Build, after: &Build, some: &[What]) {
    for what in some.iter().chain(some) {
        what.carry(after, before);
    }
}

/// Puts rows into the order of others, new ones last.
fn as_in(others: &[RowId], rows: &mut [RowId]) {
    rows.order_by_key(|row| others.iter().position(|other| other == row).unwrap_or(usize::MAX));
}

fn carry_cell(from: &Build, to: &mut Build, place: Place) {
    if from.layout().find(place).is_none() {
        return;
    }
    // What stands in one build may stand in another: nothing is refused.
    match (from.origin(place), to.layout().kind(place.id), from.own_value(place)) {
        (Origin::Usual, ..) => to.put_back(place),
        (_, Kind::Text(_), _) => _ = to.set_text(place, from.text(place)),
        (.., Some(value)) => _ = to.set(place, value),
        (.., None) => to.forget(place),
    }
    let given = from.tolerance(place);
    if given != to.tolerance(place) {
        _ = to.set_half_width(place, given.half_width);
        _ = to.set_shape(place, given.shape);
    }
}

/// One input that differs.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// Which.
    pub what: What,
    /// `Slave bore: 22.2 mm → 25.4 mm.`
    pub line: Sentence,
}

/// One output that stands otherwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Turned {
    /// Which.
    pub place: Place,
    /// How it stood; none where its row was not there.
    pub before: Option<Verdict>,
    /// How it stands; none where its row is gone.
    pub after: Option<Verdict>,
    /// `Left for the battery at idle: within → near, 6.20 A → 1.40 A.`
    pub line: Sentence,
}

/// The difference of two builds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Changes {
    /// Inputs, in their order: those that somebody gave first, then those that go back to usual.
    pub inputs: Vec<Input>,
    /// Verdicts: those that got worse first, the worst of them first; then those that got better, from the worst. A row
    /// that comes or goes counts as *within* while it is not there.
    pub verdicts: Vec<Turned>,
}

/// Compares two builds of the same calculators.
#[must_use]
pub fn changes(before: Evaluated<'_>, after: Evaluated<'_>) -> Changes {
    let mut verdicts: Vec<Turned> = judged(before, after).into_iter().filter_map(|place| turned(before, after, place)).collect();
    let stood = |verdict: Option<Verdict>| verdict.unwrap_or(Verdict::Within);
    verdicts.order_by_key(|it| by_turn(stood(it.before), stood(it.after)));
    Changes { inputs: inputs(before, after), verdicts }
}

/// What orders verdicts that turned: those that got worse first, the worst of them first; then those that got better, from
/// the worst. Of those that got worse the furthest fallen come first among equals, of those that got better the highest
/// risen.
pub(crate) fn by_turn(before: Verdict, after: Verdict) -> (bool, core::cmp::Reverse<Verdict>, Verdict) {
    let better = after < before;
    let (key, other) = if better { (before, after) } else { (after, before) };
    (better, core::cmp::Reverse(key), other)
}

/// Every judged output of either, in order.
fn judged((before, _): Evaluated<'_>, (after, _): Evaluated<'_>) -> Vec<Place> {
    let mut places = Vec::new();
    for id in after.layout().ids().filter(|&id| after.layout().spec(id).is_judged()) {
        let now: Vec<Place> = after.layout().places_of(id).collect();
        let gone = before.layout().places_of(id).filter(|place| !now.contains(place));
        places.extend(now.iter().copied().chain(gone));
    }
    places
}

/// None where there is nothing to judge: no such row, or no such part of the car.
fn verdict((build, report): Evaluated<'_>, place: Place) -> Option<Verdict> {
    build.layout().find(place).filter(|_| report.concerns(place)).map(|_| report.verdict(build, place))
}

fn turned(before: Evaluated<'_>, after: Evaluated<'_>, place: Place) -> Option<Turned> {
    let (was, is) = (verdict(before, place), verdict(after, place));
    if was.unwrap_or(Verdict::Within) == is.unwrap_or(Verdict::Within) {
        return None;
    }
    let line = match (was, is) {
        (None, _) => {
            let mut line = against_limit(after.0, after.1, place);
            line.pieces.insert(0, "New, ".into());
            line
        }
        (Some(was), None) => {
            let words = format!("{}: gone, was {}.", show::label(before.0, place), was.word());
            Sentence { verdict: Verdict::Within, pieces: vec![words.into()] }
        }
        (Some(was), Some(is)) => {
            let head = format!("{}: {} → {}, ", show::label(after.0, place), was.word(), is.word());
            let mut pieces = vec![head.into()];
            pieces.extend(figures(before.1, after, place));
            Sentence { verdict: is, pieces }
        }
    };
    Some(Turned { place, before: was, after: is, line })
}

/// `6.20 A → 1.40 A.`, or why there is none, or why nobody can judge it.
fn figures(before: &Report, (build, after): Evaluated<'_>, place: Place) -> Vec<Piece> {
    let spec = after.layout().spec(place.id);
    let why = after.undecided(build, place).map(|why| Piece::from(lower_first(&why.reason(after.layout()))));
    match (before.value(place), after.value(place), why) {
        (_, Ok(is), Some(why)) => vec![Piece::cell(spec, is), ": ".into(), why],
        (Ok(was), Ok(is), None) if was == is => vec![Piece::cell(spec, is), ".".into()],
        (Ok(was), Ok(is), None) => vec![Piece::cell(spec, was), " → ".into(), Piece::cell(spec, is), ".".into()],
        (Err(_), Ok(is), None) => vec!["now ".into(), Piece::cell(spec, is), ".".into()],
        (_, Err(why), _) => vec![lower_first(&why.reason(after.layout())).into()],
    }
}

fn inputs(before: Evaluated<'_>, after: Evaluated<'_>) -> Vec<Input> {
    let mut found = Vec::new();
    for (calculator, it) in after.0.layout().calculators().iter().enumerate() {
        for table in 0..it.tables.len() {
            let table = TableId { calculator: calculator as u8, table: table as u8 };
            rows(before.0, after.0, table, &mut found);
        }
    }
    for usual in [false, true] {
        for place in after.0.layout().places(Role::Input).filter(|place| before.0.layout().find(*place).is_some()) {
            if (after.0.origin(place) == Origin::Usual) == usual && differs(before.0, after.0, place) {
                found.push(Input { what: What::Cell(place), line: said(before, after, place) });
            }
        }
    }
    found
}

/// Rows that came, went or moved.
fn rows(before: &Build, after: &Build, table: TableId, found: &mut Vec<Input>) {
    let (was, is) = (before.rows(table), after.rows(table));
    let label = after.layout().table(table).label;
    let name = |build: &Build, row: RowId| {
        let column = build.layout().ids().find(|id| build.layout().table_of(*id) == Some(table));
        column.map_or(String::new(), |id| show::row_name(build, Place { id, row: Some(row) }))
    };
    let mut say = |what, words: String| {
        found.push(Input { what, line: Sentence { verdict: Verdict::Within, pieces: vec![words.into()] } });
    };
    for &row in was.iter().filter(|row| !is.contains(row)) {
        say(What::Removed(table, row), format!("{label}: {} taken out.", name(before, row)));
    }
    for &row in is.iter().filter(|row| !was.contains(row)) {
        say(What::Added(table, row), format!("{label}: {} added.", name(after, row)));
    }
    let kept = |rows: &[RowId], other: &[RowId]| rows.iter().copied().filter(|row| other.contains(row)).collect::<Vec<_>>();
    if kept(was, is) != kept(is, was) {
        say(What::Moved(table), format!("{label}: in another order."));
    }
}

/// Whether an input of both was given otherwise. What merely follows something that changed was not.
fn differs(before: &Build, after: &Build, place: Place) -> bool {
    let bits = |build: &Build| build.own_value(place).map(f64::to_bits);
    before.origin(place) != after.origin(place)
        || (before.following(place), after.following(place)) == (None, None) && bits(before) != bits(after)
        || before.text(place) != after.text(place)
        || before.tolerance(place) != after.tolerance(place)
}

fn said(before: Evaluated<'_>, after: Evaluated<'_>, place: Place) -> Sentence {
    let spec = after.0.layout().spec(place.id);
    let mut pieces: Vec<Piece> = vec![show::label(after.0, place).into(), ": ".into()];
    let value = |(build, report): Evaluated<'_>| -> Piece {
        match (spec.kind, build.origin(place), report.value(place)) {
            (Kind::Text(_), ..) => format!("“{}”", build.text(place)).into(),
            (_, Origin::Missing, _) | (.., Err(_)) => "not known".into(),
            (.., Ok(value)) => Piece::cell(spec, value),
        }
    };
    let (was, is) = (value(before), value(after));
    let (origin, now) = (before.0.origin(place), after.0.origin(place));
    let alike = was == is;
    if !alike {
        pieces.extend([was, " → ".into()]);
    }
    pieces.push(is);
    if origin != now {
        match now {
            Origin::Usual => pieces.push(", as usual".into()),
            Origin::Part(at) => {
                let part = after.0.parts().get(usize::from(at)).map(ToString::to_string).unwrap_or_default();
                pieces.push(format!(", from {part}").into());
            }
            // Only who gave it differs.
            Origin::Own if alike => pieces.push(", now given".into()),
            Origin::Own | Origin::Missing => {}
        }
    }
    let (was, is) = (before.0.tolerance(place), after.0.tolerance(place));
    if was != is {
        pieces.push(", give or take ".into());
        pieces.extend(tolerance(spec.kind, was));
        pieces.push(" → ".into());
        pieces.extend(tolerance(spec.kind, is));
    }
    pieces.push(".".into());
    Sentence { verdict: Verdict::Within, pieces }
}

fn tolerance(kind: Kind, given: Given) -> Vec<Piece> {
    let mut pieces = Vec::new();
    match (given.half_width, kind) {
        (Some(value), Kind::Quantity { dimension, unit }) => {
            let (_, unit) = dimension.difference(unit);
            pieces.push(Piece::Figure { value, unit, digits: show::digits(value, unit) });
        }
        _ => pieces.push("as usual".into()),
    }
    match given.shape {
        None => {}
        Some(Shape::Normal { sigmas }) => pieces.push(format!(" (normal, {sigmas} sigma)").into()),
        Some(Shape::Uniform) => pieces.push(" (equally likely anywhere between)".into()),
        Some(Shape::Triangular) => pieces.push(" (triangular)".into()),
    }
    pieces
}
