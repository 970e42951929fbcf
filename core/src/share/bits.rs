//! A build evaluated to the bit, as text: what every machine must agree on.

use super::Unreadable;
use super::link::{self, Link, Opened};
use crate::plan::Plan;
use crate::report::Report;
use crate::spec::Role;
use std::fmt::Write;

/// The link written anew, then a line for every input and output: its key, and its bits in sixteen hexadecimal digits or
/// why it is unknown.
///
/// # Errors
/// [`Unreadable`], when the link cannot be opened; lesser faults of it do not matter here.
pub fn of_link(plan: &Plan, text: &str) -> Result<String, Unreadable> {
    let Opened { link, .. } = link::read(text)?;
    let mut report = Report::new(&link.build);
    plan.evaluate(&link.build, &mut report);
    Ok(of_report(&link, &report))
}

fn of_report(link: &Link, report: &Report) -> String {
    let mut lines = link::write(link);
    let layout = report.layout();
    for place in layout.places(Role::Input).chain(layout.places(Role::Output)) {
        // Writing into a string cannot fail.
        _ = match report.value(place) {
            Ok(value) => write!(lines, "\n{} {:016x}", layout.key(place), value.to_bits()),
            Err(why) => write!(lines, "\n{} {}", layout.key(place), why.reason(layout)),
        };
    }
    lines
}
