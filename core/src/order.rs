//! Putting lists in order, small: the standard library's stable sort is made anew for every type, some five kilobytes each.
//! Collecting a map or a set sorts too; extending an empty one does not.

use core::cmp::Ordering;

/// Lists that can be put in order. What compares alike stays as it was.
pub trait Order<T> {
    /// Puts it in order.
    fn order_by(&mut self, compare: impl FnMut(&T, &T) -> Ordering);

    /// The same, by a key of each.
    fn order_by_key<K: Ord>(&mut self, mut key: impl FnMut(&T) -> K) {
        self.order_by(|one, other| key(one).cmp(&key(other)));
    }
}

impl<T> Order<T> for [T] {
    fn order_by(&mut self, mut compare: impl FnMut(&T, &T) -> Ordering) {
        let places = in_order(self.len(), &mut |one, other| compare(&self[one], &self[other]));
        for at in 0..self.len() {
            // What belongs here may have been moved on for one before.
            let mut from = places[at];
            while from < at {
                from = places[from];
            }
            self.swap(at, from);
        }
    }
}

/// Places in their order: sorted once for all types.
fn in_order(count: usize, compare: &mut dyn FnMut(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by(|one, other| compare(*one, *other));
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the standard library's, which is stable too.
    #[test]
    fn it_is_the_order_of_the_standard_library() {
        let mut seed = 1_u32;
        for length in 0..200 {
            let number = |_| {
                seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                seed >> 28
            };
            let mut ours: Vec<(u32, usize)> = (0..length).map(number).zip(0..length).collect();
            let mut theirs = ours.clone();
            ours.order_by_key(|(number, _)| *number);
            theirs.sort_by_key(|(number, _)| *number);
            assert_eq!(ours, theirs);
        }
    }
}
