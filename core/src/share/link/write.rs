//! Writing a link: only what somebody gave, in the order of declaration.

use super::{Link, NOTE, VERSION};
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
    let layout = build.layout();
    let mut text = String::new();
    let mut item = |key: &str, value: &str| {
        for piece in [key, "=", value, "/"] {
            text.push_str(piece);
        }
    };
    for (calculator, it) in layout.calculators().iter().enumerate() {
        for (table, declared) in it.tables.iter().enumerate() {
            let id = TableId { calculator: calculator as u8, table: table as u8 };
            let rows = build.rows(id);
            if !rows.iter().map(|row| row.0).eq(1..=declared.rows.len() as u16) {
                item(&layout.table_key(id), &row_list(rows));
            }
        }
    }
    for (at, part) in build.parts().iter().enumerate() {
        item(&format!("part.{}", at + 1), &format!("{}.{}.{}", part.shelf, part.slot, part.id));
    }
    for place in layout.places(Role::Input) {
        for (cell, origin) in build.layers(place) {
            let key = match origin {
                Origin::Part(at) => format!("{}.part.{}", layout.key(place), at + 1),
                _ => layout.key(place),
            };
            if let Some(value) = value(build, place, cell, origin) {
                item(&key, &value);
            }
        }
        let given = build.tolerance(place);
        if let (Some(half_width), Kind::Quantity { dimension, unit }) = (given.half_width, layout.kind(place.id)) {
            let (dimension, unit) = dimension.difference(unit);
            item(&format!("{}.pm", layout.key(place)), &number(half_width, dimension, unit));
        }
        if let Some(shape) = given.shape {
            item(&format!("{}.dist", layout.key(place)), &shape_key(shape));
        }
    }
    if !link.shelf.is_empty() {
        item("shelf", &words::write(&link.shelf));
    }
    if !link.show.is_empty() {
        item("show", &link.show);
    }
    let note = clean(&link.note, usize::from(NOTE));
    if !note.is_empty() {
        item("note", &words::write(&note));
    }
    text.push_str("end");
    text
}

fn row_list(rows: &[RowId]) -> String {
    if rows.is_empty() {
        return "gone".into();
    }
    rows.iter().map(|row| row.0.to_string()).collect::<Vec<_>>().join(".")
}

fn shape_key(shape: Shape) -> String {
    match shape {
        Shape::Normal { sigmas } => format!("normal-{sigmas}"),
        Shape::Uniform => "uniform".into(),
        Shape::Triangular => "triangular".into(),
    }
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
fn number(si: f64, dimension: &'static Dimension, unit: &'static Unit) -> String {
    shortest(si, unit).unwrap_or_else(|| {
        let unit = &dimension.units[0];
        let letters = unit.also.first().copied().unwrap_or_default();
        shortest(si, unit).map_or_else(|| "gone".into(), |number| format!("{number}{letters}"))
    })
}
