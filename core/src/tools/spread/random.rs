//! Random numbers by place: whoever asks for the n-th gets the same, whatever was asked before.

use crate::tolerance::Shape;
use core::f64::consts::TAU;
use rand_pcg::Lcg64Xsh32;
use rand_pcg::rand_core::Rng as _;

/// Words of 32 bits that each draw takes, whatever its shape.
pub(super) const WORDS: u64 = 4;

/// Stream of the generator; any number will do.
const STREAM: u64 = 0x7472_6961_6c66_6974;

pub(super) struct Random(Lcg64Xsh32);

impl Random {
    /// From this word of the seed's sequence on.
    pub(super) fn new(seed: u64, word: u64) -> Self {
        let mut generator = Lcg64Xsh32::new(seed, STREAM);
        generator.advance(word);
        Self(generator)
    }

    /// 53 bits from 0 to just under 1.
    fn unit(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 * (1.0 / (1_u64 << 53) as f64)
    }

    /// A number of this shape, as a share of the half-width. Normal by Box and Muller (1958), triangular as a sum of two
    /// uniforms: both exact, and both of two numbers.
    pub(super) fn draw(&mut self, shape: Shape) -> f64 {
        let (first, second) = (self.unit(), self.unit());
        match shape {
            Shape::Normal { sigmas } => (-2.0 * libm::log(1.0 - first)).sqrt() * libm::cos(TAU * second) / sigmas,
            Shape::Uniform => 2.0 * first - 1.0,
            Shape::Triangular => first + second - 1.0,
        }
    }
}
