//! Writing a link: only what somebody gave, in the order of declaration.

use super::{Link, MOST_HELD, NOTE, OF_THE_CAR, Tool, VERSION};
use crate::build::{Build, Origin};
use crate::entry::clean;
use crate::quantity::{Dimension, Unit};
use crate::share::{base62, editions, words};
use crate::show::shortest;
use crate::spec::{Kind, Place, Role, RowId, TableId};
use crate::tolerance::Shape;

/// From this many characters on a link is packed: it no longer is for reading anyway.
const PACK_FROM: usize = 1500;

/// How hard to look for repetitions, of 10: above this, nothing is gained on texts of a few thousand characters.
const EFFORT: u8 = 8;

/// The link, without `#`; packed when it is long.
#[must_use]
pub fn write(link: &Link) -> String {
    let plain = plain(link);
    if plain.len() > PACK_FROM { packed(link) } else { plain }
}

/// The link in its readable form, however long.
#[must_use]
pub fn plain(link: &Link) -> String {
    format!("{VERSION}.{}/{}", editions::CURRENT, body(link))
}

/// The link in its packed form, however short.
#[must_use]
pub fn packed(link: &Link) -> String {
    let deflated = miniz_oxide::deflate::compress_to_vec_zlib(body(link).as_bytes(), EFFORT);
    format!("{VERSION}z.{}/{}/end", editions::CURRENT, base62::encode(&deflated))
}

fn body(link: &Link) -> String {
    let build = &link.build;
    let mut text = String::new();
    build_items(build, None, &mut text);
    if !link.shelf.is_empty() {
        item(&mut text, "shelf", &words::write(&link.shelf));
    }
    if let Some(asked) = &link.asked {
        item(&mut text, "show", asked.tool.key());
        asked.items(build.layout()).iter().for_each(|(key, value)| item(&mut text, key, value));
        if asked.tool == Tool::Combine {
            link.sought.items(build.layout()).iter().for_each(|(key, value)| item(&mut text, key, value));
        }
    } else if !link.show.is_empty() {
        item(&mut text, "show", &link.show);
    }
    let note = clean(&link.note, usize::from(NOTE));
    if !note.is_empty() {
        item(&mut text, "note", &words::write(&note));
    }
    if let Some(units) = link.units {
        item(&mut text, "units", &units.write());
    }
    for (count, held) in link.held.iter().take(MOST_HELD).enumerate() {
        text.push_str(&format!("b{}/", count + 2));
        text.push_str(&differing(build, held));
    }
    text.push_str("end");
    text
}

/// The items by which a held build differs from the first, each with `/` after it.
#[must_use]
pub fn differing(first: &Build, held: &Build) -> String {
    let mut text = String::new();
    build_items(held, Some(first), &mut text);
    text
}

fn item(text: &mut String, key: &str, value: &str) {
    for piece in [key, "=", value, "/"] {
        text.push_str(piece);
    }
}

/// Whether most of what belongs to the particular car is not known: then the link says so once, not of each.
fn is_blank(build: &Build) -> bool {
    let count =
        |which| build.layout().places(Role::Input).filter(|place| is_of_the_car(build, *place) && build.origin(*place) == which).count();
    count(Origin::Missing) > count(Origin::Usual)
}

/// Whether a place belongs to the particular car, and stands in a row that a new build has.
fn is_of_the_car(build: &Build, place: Place) -> bool {
    let layout = build.layout();
    let rows = layout.table_of(place.id).map_or(0, |table| layout.table(table).rows.len());
    layout.spec(place.id).of_the_car && place.row.is_none_or(|row| usize::from(row.0) <= rows)
}

/// What was given for a build; of a held one what differs from the first, back to usual included.
fn build_items(build: &Build, first: Option<&Build>, text: &mut String) {
    let layout = build.layout();
    let blank = first.is_none() && is_blank(build);
    if blank {
        item(text, OF_THE_CAR, "gone");
    }
    // Turned step by step into what a reader has before the cells.
    let mut before = first.cloned();
    for (calculator, it) in layout.calculators().iter().enumerate() {
        for (table, declared) in it.tables.iter().enumerate() {
            let id = TableId { calculator: calculator as u8, table: table as u8 };
            let rows = build.rows(id);
            let is_usual = rows.iter().map(|row| row.0).eq(1..=declared.rows.len() as u16);
            if before.as_ref().map_or(!is_usual, |before| before.rows(id) != rows) {
                item(text, &layout.table_key(id), &if is_usual { "follow".into() } else { row_list(rows) });
                _ = before.as_mut().map(|before| before.set_rows(id, rows));
            }
        }
    }
    let same_parts = before.as_ref().is_some_and(|before| before.parts() == build.parts());
    if let Some(before) = before.as_mut().filter(|before| !same_parts && !before.parts().is_empty()) {
        item(text, "part", "gone");
        while !before.parts().is_empty() {
            before.remove_part(0);
        }
    }
    for (at, part) in build.parts().iter().enumerate().filter(|_| !same_parts) {
        item(text, &format!("part.{}", at + 1), &format!("{}.{}.{}", part.shelf, part.slot, part.id));
    }
    for place in layout.places(Role::Input) {
        cell_items(build, before.as_ref(), place, blank && is_of_the_car(build, place), text);
        let given = build.tolerance(place);
        let was = before.as_ref().map(|before| before.tolerance(place)).unwrap_or_default();
        if let (true, Kind::Quantity { dimension, unit }) = (given.half_width != was.half_width, layout.kind(place.id)) {
            let (dimension, unit) = dimension.difference(unit);
            let half_width = given.half_width.map_or_else(|| "follow".into(), |half_width| number(half_width, dimension, unit));
            item(text, &format!("{}.pm", layout.key(place)), &half_width);
        }
        if given.shape != was.shape {
            item(text, &format!("{}.dist", layout.key(place)), &given.shape.map_or_else(|| "follow".into(), Shape::key));
        }
    }
}

/// What stands at a place, and over it what parts set; `gone` where nothing is known of it unless something is said.
fn cell_items(build: &Build, before: Option<&Build>, place: Place, gone: bool, text: &mut String) {
    let layout = build.layout();
    let bits = |(cell, origin): (f64, Origin)| (cell.to_bits(), origin);
    let same = |before: &Build| before.layers(place).map(bits).eq(build.layers(place).map(bits)) && before.text(place) == build.text(place);
    if before.is_some_and(same) {
        return;
    }
    for (cell, origin) in build.layers(place) {
        let key = match origin {
            Origin::Part(at) => format!("{}.part.{}", layout.key(place), at + 1),
            _ => layout.key(place),
        };
        match value(build, place, cell, origin) {
            Some(_) if gone && origin == Origin::Missing => {}
            Some(value) => item(text, &key, &value),
            // Of a held build, that too is said.
            None if before.is_none() && !gone => {}
            None if matches!(layout.kind(place.id), Kind::Text(_)) => item(text, &format!("{key}.own"), "follow"),
            None => item(text, &key, "follow"),
        }
    }
}

fn row_list(rows: &[RowId]) -> String {
    if rows.is_empty() {
        return "gone".into();
    }
    rows.iter().map(|row| row.0.to_string()).collect::<Vec<_>>().join(".")
}

/// What somebody or some part gave in a place, unless it is the usual.
fn value(build: &Build, place: Place, cell: f64, origin: Origin) -> Option<String> {
    match origin {
        Origin::Usual => None,
        Origin::Missing => Some("gone".into()),
        Origin::Own | Origin::Part(_) => match build.layout().kind(place.id) {
            Kind::Text(_) => Some(words::write(build.text(place))),
            Kind::Choice(choices) => choices.get(cell as usize).map(|choice| choice.key.into()),
            Kind::Quantity { dimension, unit } => Some(number(cell, dimension, unit)),
        },
    }
}

/// The shortest decimal of the unit that reads back to the same bits; else the SI number with its unit.
pub(super) fn number(si: f64, dimension: &'static Dimension, unit: &'static Unit) -> String {
    shortest(si, unit).unwrap_or_else(|| {
        let unit = &dimension.units[0];
        let letters = unit.also.first().copied().unwrap_or_default();
        shortest(si, unit).map_or_else(|| "gone".into(), |number| format!("{number}{letters}"))
    })
}
