//! The flywheel against printed answers, closed forms and the ranges a fitter would accept.

mod assembled;
mod idle;
mod inertia;
mod launch;
mod response;
mod shown;
mod strength;
mod whole;

use trialfit_core::build::Build;
use trialfit_core::spec::{Id, Place, RowId};

fn demo() -> Build {
    Build::default()
}

/// Types an SI number (or a choice's ordinal) at a key.
#[track_caller]
fn set(build: &mut Build, key: &str, value: f64) {
    let place = build.layout().place_by_key(key).unwrap_or_else(|| panic!("no such key: {key}"));
    build.set(place, value).unwrap_or_else(|why| panic!("{key}: {why:?}"));
}

fn row(id: Id, row: u16) -> Place {
    Place { id, row: Some(RowId(row)) }
}
