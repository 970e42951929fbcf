//! What drawings and charts share: points on the screen, SVG as text, room for words, the size of the frame.
//!
//! Pictures are laid out in CSS pixels of the frame they stand in, so that lines, arrowheads and words keep their size
//! whatever the scale of what is shown.

mod at;
mod frame;
mod hatch;
mod ink;
mod room;
mod say;

pub(crate) use at::{At, nearest};
pub(crate) use frame::{Frame, frame_of, pointer_in};
pub(crate) use hatch::hatch;
pub(crate) use ink::Ink;
pub(crate) use room::{Room, Words, width};
pub(crate) use say::say;
