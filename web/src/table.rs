//! A table of rows: a card for each, to fill in, move and remove; rows keep their identity throughout.

use crate::bench::{Bench, spec_of};
use crate::dom::{El, button, el, item};
use crate::field::{field, shown};
use crate::history::Gesture;
use crate::page::focus_later;
use crate::signal::{Memo, memo};
use crate::words;
use leptos::prelude::*;
use trialfit_core::calculators::ALL;
use trialfit_core::measure::Guide;
use trialfit_core::spec::{Id, Kind, Place, Role, RowId, Table, TableId};

/// With more inputs than this in a row, a card shows a line and opens on demand.
const ALWAYS_OPEN: usize = 3;

/// What was declared of a table.
pub fn declared(table: TableId) -> &'static Table {
    &ALL[usize::from(table.calculator)].tables[usize::from(table.table)]
}

/// Columns of one role that a calculator declares, in the order of declaration; the table may be another's.
pub fn columns(calculator: u8, table: TableId, role: Role) -> Vec<Id> {
    let specs = ALL[usize::from(calculator)].specs.iter().enumerate();
    let columns = specs.filter(|(_, spec)| spec.table == Some(table) && spec.role == role);
    columns.map(|(ordinal, _)| Id { calculator, ordinal: ordinal as u8 }).collect()
}

/// What a row is called: its words where it has some, else its number in the table. Tracked.
pub fn row_name(table: TableId, row: RowId) -> String {
    let is_text = |id: &Id| matches!(spec_of((*id).into()).kind, Kind::Text(_));
    let words = columns(table.calculator, table, Role::Input).into_iter().find(is_text);
    Bench::get().build().with(|build| {
        let number = build.rows(table).iter().position(|&other| other == row).map_or(0, |at| at + 1);
        let words = words.map(|id| build.text(Place { id, row: Some(row) })).filter(|words| !words.is_empty());
        words.map_or_else(|| number.to_string(), |words| format!("{number} {words}"))
    })
}

/// Rows of a table, followed.
pub fn rows_of(table: TableId) -> Memo<Vec<RowId>> {
    memo(move || Bench::get().build().with(|build| build.rows(table).to_vec()))
}

/// What the cards of a table have in common.
#[derive(Clone, Copy)]
struct Rows {
    /// The calculator whose columns are shown.
    calculator: u8,
    table: TableId,
    rows: Memo<Vec<RowId>>,
}

/// The rows of a table as cards, with the columns of one calculator. Rows come, go and move where the table is declared.
pub fn rows(calculator: u8, table: TableId) -> El {
    let Table { label, help, .. } = *declared(table);
    let all = Rows { calculator, table, rows: rows_of(table) };
    let cards = move || all.rows.get().into_iter().map(|row| item(row.0, move || all.card(row))).collect();
    let count = el("span").class("count").says(move || words::rows(all.rows.with(Vec::len)));
    el("div")
        .class("table")
        .set("data-key", &all.key())
        .set("role", "group")
        .set("aria-label", label)
        .child(el("h4").text(label).text(" ").child(count))
        .child(el("p").class("help").text(help))
        .children(all.walk())
        .child(el("ol").class("rows").each(cards))
        .children((calculator == table.calculator).then(|| all.adder()))
}

impl Rows {
    fn key(self) -> String {
        Bench::get().build().with_untracked(|build| build.layout().table_key(self.table))
    }

    fn row_key(self, row: RowId) -> String {
        format!("{}.{}", self.key(), row.0)
    }

    /// Where a row stands among the others.
    fn place_of(self, row: RowId) -> usize {
        self.rows.with(|rows| rows.iter().position(|&other| other == row).unwrap_or(0))
    }

    fn is_full(self) -> bool {
        self.rows.with(Vec::len) >= usize::from(declared(self.table).most)
    }

    fn is_short(self) -> bool {
        self.rows.with(Vec::len) <= usize::from(declared(self.table).least)
    }

    fn set(self, rows: Vec<RowId>) {
        let table = self.table;
        Bench::get().edit(Gesture::Once, declared(table).label, move |build| _ = build.set_rows(table, &rows));
    }

    /// The way to measure it number by number, from the first row on.
    fn walk(self) -> Option<El> {
        let walked = |id: &Id| spec_of((*id).into()).guide == Some(Guide::Walk(self.table));
        let id = columns(self.calculator, self.table, Role::Input).into_iter().find(walked)?;
        let begin = move || {
            let row = self.rows.with_untracked(|rows| rows.first().copied());
            Bench::get().measuring.set(Some(Place { id, row }));
        };
        let button = button("quiet", &format!("{}.measure", self.key())).set("aria-haspopup", "dialog");
        Some(button.set("aria-label", &words::act_of(words::WALK, declared(self.table).label)).text(words::WALK).on_press(begin))
    }

    fn adder(self) -> El {
        button("quiet", &format!("{}.add", self.key()))
            .set("aria-label", &words::act_of(words::ADD_ROW, declared(self.table).label))
            .flag("aria-disabled", move || self.is_full())
            .text(words::ADD_ROW)
            .on_press(move || untrack(|| self.add()))
    }

    fn add(self) {
        if self.is_full() {
            return;
        }
        let table = self.table;
        Bench::get().edit(Gesture::Once, declared(table).label, move |build| _ = build.add_row(table));
        let last = self.rows.with_untracked(|rows| rows.last().copied());
        if let (Some(row), Some(&first)) = (last, columns(self.calculator, table, Role::Input).first()) {
            focus_later(format!("{}.{}", self.row_key(row), spec_of(first.into()).key));
        }
    }

    fn remove(self, row: RowId) {
        if self.is_short() {
            return;
        }
        let at = self.place_of(row);
        let rest: Vec<RowId> = self.rows.get_untracked().into_iter().filter(|&other| other != row).collect();
        // The focus goes on to the row that takes this one's place.
        let next = rest.get(at.min(rest.len().saturating_sub(1))).map(|&next| format!("{}.remove", self.row_key(next)));
        self.set(rest);
        focus_later(next.unwrap_or_else(|| format!("{}.add", self.key())));
    }

    fn is_at_end(self, row: RowId, up: bool) -> bool {
        let at = self.place_of(row);
        if up { at == 0 } else { at + 1 >= self.rows.with(Vec::len) }
    }

    fn step(self, row: RowId, up: bool) {
        let from = self.place_of(row);
        if !self.is_at_end(row, up) {
            let mut order = self.rows.get_untracked();
            order.swap(from, if up { from - 1 } else { from + 1 });
            self.set(order);
        }
    }

    fn card(self, row: RowId) -> El {
        let key = self.row_key(row);
        let columns = columns(self.calculator, self.table, Role::Input);
        let places = columns.iter().map(|&id| Place { id, row: Some(row) });
        let fields = places.fold(el("div").class("fields"), |fields, place| fields.later(move || field(place)));
        let name = memo(move || row_name(self.table, row));
        let title = el("bdi").says(move || name.get());
        let card = el("li").class("row").set("data-key", &key);
        let card = if columns.len() > ALWAYS_OPEN {
            let line = el("span").class("note").says(move || self.summary(row));
            let head = el("summary").child(el("b").child(title)).text(" ").child(line);
            card.child(el("details").class("row-more").set("data-key", &format!("{key}.row")).child(head).child(fields))
        } else {
            card.child(el("b").class("row-name").child(title)).child(fields)
        };
        if self.calculator == self.table.calculator { card.child(self.acts(row, &key, name)) } else { card }
    }

    /// Up, down, away.
    fn acts(self, row: RowId, key: &str, name: Memo<String>) -> El {
        let mover = |up: bool, sign: &str, word: &'static str, act: &str| {
            let id = format!("{key}.{act}");
            button("quiet", &id)
                .bind("aria-label", move || Some(name.with(|name| words::act_of(word, name))))
                .flag("aria-disabled", move || self.is_at_end(row, up))
                .child(el("span").set("aria-hidden", "true").text(sign))
                .on_press(move || {
                    untrack(|| self.step(row, up));
                    focus_later(id.clone());
                })
        };
        let remove = button("quiet", &format!("{key}.remove"))
            .bind("aria-label", move || Some(name.with(|name| words::act_of(words::REMOVE_ROW, name))))
            .flag("aria-disabled", move || self.is_short())
            .text(words::REMOVE_ROW)
            .on_press(move || untrack(|| self.remove(row)));
        el("p").class("acts").child(mover(true, "↑", words::MOVE_UP, "up")).child(mover(false, "↓", words::MOVE_DOWN, "down")).child(remove)
    }

    /// The first values of a row in a line.
    fn summary(self, row: RowId) -> String {
        let numbers = columns(self.calculator, self.table, Role::Input).into_iter();
        let numbers = numbers.filter(|&id| !matches!(spec_of(id.into()).kind, Kind::Text(_)));
        let shown = numbers.take(ALWAYS_OPEN).filter_map(|id| shown(Place { id, row: Some(row) }));
        shown.map(|shown| shown.to_string()).collect::<Vec<_>>().join(" · ")
    }
}
