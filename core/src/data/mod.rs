//! Properties of fluids and air, each with its source and valid range.
//!
//! Outside its range a property is `None`: nothing is carried on silently.

pub mod atmosphere;
pub mod conductors;
pub mod coolant;
pub mod film;
pub mod fuses;
pub mod water;

/// Value between evenly spaced entries, straight from one to the next. `None` outside the table or for what is no number.
///
/// Numbers are dimensionless or in the unit the caller's table states.
fn interpolated(table: &[f64], first: f64, step: f64, at: f64) -> Option<f64> {
    let (cell, share) = cell(table.len(), first, step, at)?;
    Some(table[cell] + (table[cell + 1] - table[cell]) * share)
}

/// Cell that holds `at` on an even grid of `nodes`, and how far into it: 0 to 1.
fn cell(nodes: usize, first: f64, step: f64, at: f64) -> Option<(usize, f64)> {
    let position = (at - first) / step;
    let last = nodes.checked_sub(2)?;
    if !(0.0..=(last + 1) as f64).contains(&position) {
        return None;
    }
    let cell = (position as usize).min(last);
    Some((cell, position - cell as f64))
}
