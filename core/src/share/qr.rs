//! A link as a QR code (ISO/IEC 18004), to be read off a screen or a sheet by a telephone.

use core::fmt::Write;
use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

/// White modules round about it, as the standard asks.
const QUIET: i32 = 4;

/// The largest version drawn. At 125 modules with its margin a phone's screen and a printer still show each of them;
/// of a larger one a telephone's camera makes little.
const LARGEST: u8 = 25;

/// A code to draw: black on white, whatever the colours round about.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Qr {
    /// Modules along each side, the quiet zone included.
    pub side: u32,
    /// The black modules as the `d` of an SVG path, a unit each.
    pub path: String,
}

/// The code of a text; none for one too long to be read off a screen.
#[must_use]
pub fn qr(text: &str) -> Option<Qr> {
    let segments = QrSegment::make_segments(text);
    let code = QrCode::encode_segments_advanced(&segments, QrCodeEcc::Low, Version::MIN, Version::new(LARGEST), None, true).ok()?;
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let run = (x..code.size()).take_while(|&x| code.get_module(x, y)).count() as i32;
            if run > 0 {
                _ = write!(path, "M{} {}h{run}v1h-{run}z", x + QUIET, y + QUIET);
            }
            x += run + 1;
        }
    }
    Some(Qr { side: (code.size() + 2 * QUIET).unsigned_abs(), path })
}
