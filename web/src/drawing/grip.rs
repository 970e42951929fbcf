//! What dragging and nudging do to an input: steps, sizes and bounds from its declaration.

use crate::picture::At;
use trialfit_core::calculators;
use trialfit_core::scene::Point;
use trialfit_core::spec::{Id, Kind, Spec};

/// The declaration behind a handle.
pub(crate) fn spec_of(id: Id) -> Option<&'static Spec> {
    calculators::ALL.get(id.calculator as usize)?.specs.get(id.ordinal as usize)
}

/// A value, SI, as the input can hold it: at a size of the trade or a whole number of steps, within what is possible.
pub(crate) fn settled(spec: &Spec, value: f64) -> f64 {
    on_unit(spec, value, |number| {
        if spec.sizes.is_empty() {
            stepped(number, spec.step)
        } else {
            let nearer = |left: &&f64, right: &&f64| (*left - number).abs().total_cmp(&(*right - number).abs());
            spec.sizes.iter().min_by(nearer).copied().unwrap_or(number)
        }
    })
}

/// The value so many steps or sizes on.
pub(crate) fn nudged(spec: &Spec, value: f64, steps: i32) -> f64 {
    on_unit(spec, value, |number| {
        let size = |at: Option<usize>| at.and_then(|at| spec.sizes.get(at)).copied();
        // Sizes come back from SI with the last digits changed.
        let slack = 1e-9 * number.abs().max(1e-9);
        if spec.sizes.is_empty() {
            let step = if spec.step > 0.0 { spec.step } else { (number.abs() * 0.01).max(1e-9) };
            stepped(number + f64::from(steps) * step, spec.step)
        } else if steps > 0 {
            let next = spec.sizes.iter().position(|&size| size > number + slack);
            size(next.map(|at| at + steps as usize - 1)).or(spec.sizes.last().copied()).unwrap_or(number)
        } else {
            let next = spec.sizes.iter().rposition(|&size| size < number - slack);
            size(next.and_then(|at| at.checked_sub(steps.unsigned_abs() as usize - 1))).or(spec.sizes.first().copied()).unwrap_or(number)
        }
    })
}

fn on_unit(spec: &Spec, value: f64, change: impl FnOnce(f64) -> f64) -> f64 {
    let Kind::Quantity { unit, .. } = spec.kind else { return value };
    let [least, most] = spec.possible;
    unit.to_si(change(unit.from_si(value)).max(least).min(most))
}

/// The nearest whole number of steps, as the decimal a person would write.
fn stepped(number: f64, step: f64) -> f64 {
    if step <= 0.0 {
        return number;
    }
    let steps = (number / step).round();
    let to_one = (1.0 / step).round();
    if to_one >= 1.0 && (to_one * step - 1.0).abs() < 1e-9 { steps / to_one } else { steps * step }
}

/// How an input follows a way dragged on the drawing, in SI.
pub(crate) fn dragged(per: Point, way: Point) -> f64 {
    per.x * way.x + per.y * way.y
}

/// How closely a handle follows a direction on the screen: 1 along, 0 across, −1 against.
pub(crate) fn along(per: Point, direction: At) -> f64 {
    let way = At::new(per.x, -per.y);
    if way.length() > 0.0 { way.unit().dot(direction.unit()) } else { 0.0 }
}

/// Below this an arrow key means something else to a handle.
const ALONG: f64 = 0.4;

/// Which of the handles at one spot an arrow key moves, and which way: the one it points along; where none lies that
/// way the first, right and up for more.
pub(crate) fn by_key(spot: &[Point], key: At) -> Option<(usize, i32)> {
    let measure = |per: &Point| along(*per, key);
    let best = (0..spot.len()).max_by(|&left, &right| measure(&spot[left]).abs().total_cmp(&measure(&spot[right]).abs()))?;
    let follows = measure(&spot[best]);
    if follows.abs() >= ALONG {
        return Some((best, if follows > 0.0 { 1 } else { -1 }));
    }
    Some((0, if key.x > 0.0 || key.y < 0.0 { 1 } else { -1 }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::calculators::car::{FINAL_DRIVE, REDLINE, TYRE_WIDTH};
    use trialfit_core::quantity::{Length, millimetres, per_minute};
    use trialfit_core::spec::Role;

    fn bore() -> Spec {
        Spec::new::<Length>(Role::Input, "bore", "Bore", "mm", "").sizes(&[15.87, 17.46, 19.05, 20.64]).possible(10.0, 40.0)
    }

    #[test]
    fn values_settle_on_steps_and_stay_possible() {
        let redline = spec_of(REDLINE.id).expect("declared");
        assert_eq!(settled(redline, per_minute(6812.0).si()), per_minute(6800.0).si());
        assert_eq!(settled(redline, per_minute(99_999.0).si()), per_minute(15_000.0).si());
        let ratio = spec_of(FINAL_DRIVE.id).expect("declared");
        assert_eq!(settled(ratio, 3.899_999), 3.9, "steps of 0.01 give the decimal itself");
        assert_eq!(nudged(ratio, 3.9, 1), 3.91);
    }

    #[test]
    fn nudges_go_by_the_inputs_step() {
        let width = spec_of(TYRE_WIDTH.id).expect("declared");
        assert_eq!(nudged(width, millimetres(195.0).si(), 1), millimetres(200.0).si());
        assert_eq!(nudged(width, millimetres(195.0).si(), -10), millimetres(145.0).si());
    }

    #[test]
    fn sizes_of_the_trade_are_taken_one_by_one() {
        let bore = bore();
        assert_eq!(settled(&bore, millimetres(18.5).si()), millimetres(19.05).si());
        assert_eq!(nudged(&bore, millimetres(17.46).si(), 1), millimetres(19.05).si());
        assert_eq!(nudged(&bore, millimetres(17.46).si(), -1), millimetres(15.87).si());
        assert_eq!(nudged(&bore, millimetres(18.0).si(), -1), millimetres(17.46).si(), "from between sizes to the next");
        assert_eq!(nudged(&bore, millimetres(20.64).si(), 1), millimetres(20.64).si());
        assert_eq!(nudged(&bore, millimetres(15.87).si(), -10), millimetres(15.87).si());
        assert_eq!(nudged(&bore, millimetres(15.87).si(), 2), millimetres(19.05).si());
    }

    #[test]
    fn a_drag_counts_only_along_the_handle() {
        let across = Point { x: 0.001, y: 0.0 };
        assert_eq!(dragged(across, Point { x: 12.0, y: 50.0 }), 0.012);
    }

    #[test]
    fn arrow_keys_find_their_handle() {
        let (right, up) = (At::new(1.0, 0.0), At::new(0.0, -1.0));
        let both = [Point { x: 0.001, y: 0.0 }, Point { x: 0.0, y: 0.001 }];
        assert_eq!(by_key(&both, right), Some((0, 1)));
        assert_eq!(by_key(&both, up), Some((1, 1)));
        assert_eq!(by_key(&both, up * -1.0), Some((1, -1)));
        assert_eq!(by_key(&[Point { x: -0.5, y: 0.0 }], right), Some((0, -1)), "towards the left is more");
        assert_eq!(by_key(&both[..1], up), Some((0, 1)), "nothing lies that way: more");
        assert_eq!(by_key(&[], up), None);
    }
}
