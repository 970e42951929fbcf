//! What the first visit has to fetch.

use std::fmt;

/// Bytes on the wire of everything the first visit loads: no more than today's and a little room.
///
/// The aim is 270 kB with five calculators, some five seconds on a poor mobile connection (about 50 kB/s), once. See "Size"
/// in DEVELOPERS.md for where the rest lies and what was tried.
pub const FIRST_VISIT: usize = 690_000;

/// Name, size, and size as sent.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Weight {
    pub name: String,
    pub raw: usize,
    pub sent: usize,
}

/// All a first visit loads: what the service worker keeps, and the worker itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FirstVisit(pub Vec<Weight>);

impl FirstVisit {
    #[must_use]
    pub fn total(&self) -> usize {
        self.0.iter().map(|weight| weight.sent).sum()
    }

    #[must_use]
    pub fn fits(&self) -> bool {
        self.total() <= FIRST_VISIT
    }
}

impl fmt::Display for FirstVisit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{:<38} {:>9} {:>9}", "first visit", "bytes", "brotli")?;
        for Weight { name, raw, sent } in &self.0 {
            writeln!(out, "{name:<38} {raw:>9} {sent:>9}")?;
        }
        let raw = self.0.iter().map(|weight| weight.raw).sum::<usize>();
        writeln!(out, "{:<38} {raw:>9} {:>9}", "total", self.total())?;
        write!(out, "{:<38} {:>9} {FIRST_VISIT:>9}", if self.fits() { "within the budget of" } else { "BEYOND the budget of" }, "")
    }
}
