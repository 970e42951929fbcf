//! What a cell is called, its row included.

use crate::build::Build;
use crate::report::lower_first;
use crate::spec::{Id, Kind, Place};

/// `Slave bore`, `Gears 3: ratio`, `Pulleys, Water pump: diameter`.
#[must_use]
pub fn label(build: &Build, place: Place) -> String {
    let layout = build.layout();
    let label = layout.spec(place.id).label;
    match layout.table_of(place.id) {
        None => label.into(),
        Some(id) => {
            let (table, row, label) = (layout.table(id).label, row_name(build, place), lower_first(label));
            let comma = if row.starts_with(|letter: char| letter.is_ascii_digit()) { "" } else { "," };
            format!("{table}{comma} {row}: {label}")
        }
    }
}

/// The name the row of a place was given, else its place in the table.
#[must_use]
pub fn row_name(build: &Build, place: Place) -> String {
    let layout = build.layout();
    let (Some(table), Some(row)) = (layout.table_of(place.id), place.row) else { return String::new() };
    let named = |id: &Id| layout.table_of(*id) == Some(table) && matches!(layout.kind(*id), Kind::Text(_));
    let name = layout.ids().find(named).map_or("", |id| build.text(Place { id, row: Some(row) }));
    if !name.is_empty() {
        return name.into();
    }
    let at = build.rows(table).iter().position(|known| *known == row).unwrap_or_default();
    (at + 1).to_string()
}
