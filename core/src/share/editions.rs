//! Editions of the defaults. A link says only what differs from the edition it names, so a superseded edition is kept for
//! ever: to change a default, append what stood before to [`SUPERSEDED`], which makes the next edition. What an input
//! follows is frozen like its key.

/// The edition links are written against.
pub const CURRENT: u32 = SUPERSEDED.len() as u32 + 1;

/// For each superseded edition, oldest first: the items, as a link writes them, that turn the next edition's defaults
/// back into its own. `"clutch.clamp-load=5000/car.gears.3.ratio=1.422"`.
pub const SUPERSEDED: &[&str] = &[];
