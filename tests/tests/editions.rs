//! Defaults that links rest on: what each edition had is written in `tests/editions/` and holds for ever.

use std::collections::BTreeMap;
use trialfit_core::build::Build;
use trialfit_core::share::{editions, link};
use trialfit_core::show::shortest;
use trialfit_core::spec::{Kind, Place, Role, TableId};

/// Every input's default and every table's rows, as the record writes them.
fn defaults(build: &Build) -> BTreeMap<String, String> {
    let layout = build.layout();
    let tables = (0_u8..)
        .zip(layout.calculators())
        .flat_map(|(calculator, it)| (0..it.tables.len() as u8).map(move |table| TableId { calculator, table }));
    let rows = |table| build.rows(table).iter().map(|row| row.0.to_string()).collect::<Vec<_>>().join(".");
    let mut all: BTreeMap<String, String> = tables.map(|table| (layout.table_key(table), rows(table))).collect();
    all.extend(layout.places(Role::Input).map(|place| (layout.key(place), default(build, place))));
    all
}

fn default(build: &Build, place: Place) -> String {
    let layout = build.layout();
    if let Some(id) = build.following(place) {
        let row = place.row.filter(|_| layout.table_of(id).is_some());
        return format!("follows {}", layout.key(Place { id, row }));
    }
    match (layout.kind(place.id), build.own_value(place)) {
        (Kind::Text(_), _) => format!("“{}”", build.text(place)),
        (_, None) => "not given".into(),
        (Kind::Choice(choices), Some(value)) => choices[value as usize].key.into(),
        (Kind::Quantity { unit, .. }, Some(value)) => {
            format!("{} {}", shortest(value, unit).unwrap_or_else(|| format!("{value} SI")), unit.symbol).trim_end().into()
        }
    }
}

#[test]
fn every_edition_still_has_its_defaults() {
    let mut wrong = Vec::new();
    for edition in 1..=editions::CURRENT {
        let path = format!("{}/editions/{edition}.txt", env!("CARGO_MANIFEST_DIR"));
        let record = std::fs::read_to_string(&path).unwrap_or_default();
        let opened = link::read(&format!("1.{edition}/end")).expect("an edition's own link");
        let mut now = defaults(&opened.link.build);
        for line in record.lines() {
            let (key, was) = line.split_once(" = ").expect("key = default");
            match now.remove(key) {
                Some(is) if is == was => {}
                Some(is) => wrong.push(format!("{key} was {was} in edition {edition} and is {is}: once shipped, add the old value to SUPERSEDED; before, correct the record")),
                None => wrong.push(format!("{key} of edition {edition} is gone: links that carry it would lose it")),
            }
        }
        if edition == editions::CURRENT {
            wrong.extend(now.iter().map(|(key, is)| format!("{key} = {is}\n  is new: record it in {path}")));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}
