//! Bytes as letters and digits alone, which no forum or chat alters.
//!
//! Eight bytes make eleven digits (62¹¹ > 2⁶⁴), big end first; a last, shorter block makes fewer, each count its own. So
//! the beginning of a text that was cut short still decodes.

const DIGITS: &[u8; 62] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";

/// Digits that blocks of 0 to 8 bytes take: the fewest that hold them.
const LENGTHS: [usize; 9] = [0, 2, 3, 5, 6, 7, 9, 10, 11];

/// Bytes as text.
#[must_use]
pub fn encode(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(8) * 11);
    for block in bytes.chunks(8) {
        let mut number = block.iter().fold(0_u64, |number, byte| number << 8 | u64::from(*byte));
        let mut digits = [0; 11];
        let length = LENGTHS[block.len()];
        for digit in digits[..length].iter_mut().rev() {
            *digit = DIGITS[(number % 62) as usize];
            number /= 62;
        }
        text.extend(digits[..length].iter().map(|&digit| char::from(digit)));
    }
    text
}

/// The bytes of a text, up to the first block that is none; true when that was all of it.
#[must_use]
pub fn decode(text: &str) -> (Vec<u8>, bool) {
    let mut bytes = Vec::with_capacity(text.len() / 11 * 8 + 8);
    for block in text.as_bytes().chunks(11) {
        match decode_block(block) {
            Some((number, count)) => bytes.extend(&number.to_be_bytes()[8 - count..]),
            None => return (bytes, false),
        }
    }
    (bytes, true)
}

fn decode_block(block: &[u8]) -> Option<(u64, usize)> {
    let count = LENGTHS.iter().position(|&length| length == block.len())?;
    let mut number = 0_u64;
    for letter in block {
        let digit = DIGITS.iter().position(|digit| digit == letter)?;
        number = number.checked_mul(62)?.checked_add(digit as u64)?;
    }
    let fits = count == 8 || number >> (8 * count) == 0;
    fits.then_some((number, count))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_length_comes_back() {
        for length in 0..40_u8 {
            for fill in [0, 1, 0x7F, 0xFF] {
                let bytes: Vec<u8> = (0..length).map(|at| at.wrapping_mul(fill)).collect();
                assert_eq!(decode(&encode(&bytes)), (bytes, true));
            }
            let full = vec![0xFF; usize::from(length)];
            assert_eq!(decode(&encode(&full)), (full, true));
        }
    }

    #[test]
    fn a_block_cut_short_or_foreign_ends_it() {
        let text = encode(b"a bearing load and a bore");
        assert_eq!(decode(&text[..15]), (b"a bearin".to_vec(), false));
        assert_eq!(decode("zzzzzzzzzzz"), (Vec::new(), false), "more than eight bytes hold");
        assert_eq!(decode("0-"), (Vec::new(), false));
    }
}
