//! Air at one atmosphere around something warm: what free convection from a horizontal cylinder needs of it.
//!
//! Churchill & Chu (1975): √Nu = 0.60 + 0.387·Ra^⅙ / (1 + (0.559/Pr)^(9/16))^(8/27), with Ra = g·ΔT·D³/(T·ν·a).
//! Everything of the air in the second term depends on the film's temperature alone, so that it is one curve:
//! √Nu = 0.60 + b(T)·ΔT^⅙·√D. Both curves below were fitted to a library of air's properties (an equation of state and
//! transport correlations) from −40 to 250 °C, to 0.015 % of the conductivity and 0.01 % of b.

/// Film temperatures the curves were fitted over, in kelvin.
const FITTED: [f64; 2] = [233.15, 523.15];

/// A film of air at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Film {
    /// Thermal conductivity, W/(m·K).
    conductivity: f64,
    /// b of the head of this file, in K^−⅙·m^−½.
    buoyancy: f64,
}

impl Film {
    /// Air at this temperature in kelvin; past the fitted range, air at its end.
    #[must_use]
    #[inline]
    pub(crate) fn at(kelvin: f64) -> Self {
        let kelvin = kelvin.clamp(FITTED[0], FITTED[1]);
        let x = (kelvin - 373.15) / 100.0;
        let u = 373.15 / kelvin - 1.0;
        Self {
            conductivity: 0.031_621_4 + x * (0.006_908_28 + x * (-0.000_318_535 + x * 3.557_07e-5)),
            buoyancy: 5.786_18 + u * (4.383_46 + u * (-0.303_866 + u * 0.102_323)),
        }
    }

    /// Heat carried off each square metre and kelvin by free convection, W/(m²·K), and the exponent with which it rises
    /// with the temperature difference (0 to ⅓). `diameter` in metres with its square root, `rise` in kelvin, not negative.
    #[must_use]
    #[inline]
    pub(crate) fn convection(self, diameter: f64, root: f64, rise: f64) -> (f64, f64) {
        let driven = self.buoyancy * sixth_root(rise) * root;
        let sum = 0.60 + driven;
        (self.conductivity / diameter * sum * sum, driven / (3.0 * sum))
    }
}

/// x^⅙ of a number not below nothing, to a few parts in 10¹². The library's cube root is exact to the last bit by fused
/// multiplication, which WebAssembly has to imitate at many times the cost.
#[inline]
fn sixth_root(x: f64) -> f64 {
    let square_root = x.sqrt();
    if square_root < f64::MIN_POSITIVE {
        return 0.0;
    }
    // A third of the exponent, and of what the mantissa adds to it, is within 6 % of the cube root (Kahan); each of
    // Halley's steps then cubes the error.
    let mut root = f64::from_bits(square_root.to_bits() / 3 + 0x2A9F_7893_0000_0000);
    for _ in 0..2 {
        let cube = root * root * root;
        root *= (cube + square_root + square_root) / (cube + cube + square_root);
    }
    root
}

#[cfg(test)]
mod tests {
    use super::sixth_root;

    /// x = (x^⅙)⁶ by definition, over every temperature difference there is.
    #[test]
    fn sixth_roots_come_back() {
        for power in -40..=12 {
            for mantissa in 1..100 {
                let x = f64::from(mantissa) * libm::pow(10.0, f64::from(power)) / 10.0;
                let root = sixth_root(x);
                let back = root * root * root * root * root * root;
                assert!((back / x - 1.0).abs() < 1e-10, "{x}: {back}");
            }
        }
        assert_eq!(sixth_root(0.0), 0.0);
    }
}
