//! Any number of samples in bounded room.

/// So many samples are kept as they are; more are heaped.
const FEW: usize = 1024;

/// Heaps: with the range at most twice what the samples fill, each is as narrow as a few thousandths of a standard
/// deviation.
const HEAPS: usize = 4096;

#[derive(Clone, Copy, Debug, Default)]
struct Heap {
    count: u32,
    sum: f64,
}

/// Samples as they come: a few as they are, more by narrow intervals, which grow to twice their width whenever one falls
/// outside. The same samples in the same order give the same heaps.
#[derive(Debug, Default)]
pub(super) struct Heaps {
    few: Vec<f64>,
    heaps: Vec<Heap>,
    start: f64,
    width: f64,
    ends: Option<[f64; 2]>,
}

impl Heaps {
    pub(super) fn add(&mut self, value: f64) {
        let [least, most] = self.ends.unwrap_or([value; 2]);
        self.ends = Some([least.min(value), most.max(value)]);
        if !self.heaps.is_empty() {
            return self.put(value);
        }
        self.few.push(value);
        if self.few.len() == FEW {
            self.lay();
        }
    }

    /// From the samples so far to heaps, with as much room on either side together as they fill.
    fn lay(&mut self) {
        let [least, most] = self.ends.unwrap_or_default();
        // Samples that are all the same leave no range: then as narrow as numbers of this size can be told apart well.
        let range = (most - least).max(least.abs().max(most.abs()) * 1e-12).max(f64::MIN_POSITIVE / f64::EPSILON);
        (self.start, self.width) = (least - 0.5 * range, 2.0 * range / HEAPS as f64);
        self.heaps = vec![Heap::default(); HEAPS];
        for value in core::mem::take(&mut self.few) {
            self.put(value);
        }
    }

    fn put(&mut self, value: f64) {
        while value < self.start {
            self.start -= self.width * HEAPS as f64;
            self.widen(HEAPS / 2);
        }
        while value >= self.start + self.width * HEAPS as f64 {
            self.widen(0);
        }
        let heap = &mut self.heaps[(((value - self.start) / self.width) as usize).min(HEAPS - 1)];
        heap.count += 1;
        heap.sum += value;
    }

    /// Two heaps become one; the result begins at this place.
    fn widen(&mut self, at: usize) {
        let mut wider = vec![Heap::default(); HEAPS];
        for (to, pair) in wider[at..].iter_mut().zip(self.heaps.chunks_exact(2)) {
            *to = Heap { count: pair[0].count + pair[1].count, sum: pair[0].sum + pair[1].sum };
        }
        self.heaps = wider;
        self.width *= 2.0;
    }

    /// Lowest and highest sample, and what lies between: values rising, each with how many samples it stands for.
    pub(super) fn finish(mut self) -> (Option<[f64; 2]>, Vec<(f64, u32)>) {
        self.few.sort_unstable_by(f64::total_cmp);
        let few = self.few.into_iter().map(|value| (value, 1));
        let heaped = self.heaps.into_iter().filter(|heap| heap.count > 0).map(|heap| (heap.sum / f64::from(heap.count), heap.count));
        (self.ends, few.chain(heaped).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn heaped(values: impl Iterator<Item = f64>) -> (Vec<(f64, u32)>, [f64; 2]) {
        let mut heaps = Heaps::default();
        values.for_each(|value| heaps.add(value));
        let (ends, heaps) = heaps.finish();
        assert!(heaps.is_sorted_by(|one, other| one.0 <= other.0));
        (heaps, ends.expect("samples"))
    }

    #[test]
    fn a_few_stay_as_they_are() {
        assert_eq!(heaped([3.0, 1.0, 2.0].into_iter()), (vec![(1.0, 1), (2.0, 1), (3.0, 1)], [1.0, 3.0]));
    }

    #[test]
    fn what_falls_outside_makes_room_on_its_side() {
        for far in [7.0, -7.0, 1e6, -1e6, 1e300, -1e300] {
            let inside = (0..FEW).map(|at| at as f64 / FEW as f64);
            let (heaps, ends) = heaped(inside.chain([far, far]));
            assert_eq!(heaps.iter().map(|(_, count)| count).sum::<u32>(), FEW as u32 + 2);
            assert_eq!(ends, [far.min(0.0), far.max(1.0 - 1.0 / FEW as f64)]);
            let outermost = if far > 0.0 { heaps.last() } else { heaps.first() };
            assert_eq!(outermost, Some(&(far, 2)));
        }
    }

    /// However often the room grew, what lies below a heap was counted below it.
    #[test]
    fn heaps_keep_their_order_as_the_room_grows() {
        let far = |at: usize| if at < FEW { at as f64 } else { 37.0 * (at % 9973) as f64 - 150_000.0 };
        let mut values: Vec<f64> = (0..20_000).map(far).collect();
        let (heaps, _) = heaped(values.iter().copied());
        values.sort_unstable_by(f64::total_cmp);
        let mut below = 0;
        for (value, count) in heaps {
            let truly = values.partition_point(|other| *other < value);
            assert!((below..=below + count as usize).contains(&truly), "{truly} lie under {value}, {below} were counted there");
            below += count as usize;
        }
    }

    #[test]
    fn samples_that_are_all_the_same_are_one_heap() {
        for value in [0.0, 25e-3, -1e12] {
            let (heaps, ends) = heaped((0..2 * FEW).map(|_| value));
            assert_eq!((heaps.len(), ends), (1, [value; 2]));
        }
    }
}
