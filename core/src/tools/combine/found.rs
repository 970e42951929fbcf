//! What a search found.

use super::Aim;
use crate::build::Refusal;
use crate::order::Order;
use crate::shelf::At;
use crate::spec::Place;

/// One combination that no other betters.
#[derive(Clone, Debug, PartialEq)]
pub struct Trade {
    /// The part of each slot searched, in their order; none where the slot stays empty.
    pub parts: Vec<Option<At>>,
    /// What it comes to in each aim: SI, money in whole units of its currency.
    pub figures: Vec<f64>,
    /// Other combinations that come to the same in every aim, of which this is the first.
    pub alike: u64,
}

/// Combinations that no other betters in every aim.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Front {
    most: Vec<bool>,
    trades: Vec<Trade>,
}

impl Front {
    /// An empty front of these aims.
    #[must_use]
    pub fn new(aims: &[Aim]) -> Self {
        Self { most: aims.iter().map(|aim| aim.most).collect(), trades: Vec::new() }
    }

    /// Its combinations: the best in the first aim first, among equals the best in the next.
    #[must_use]
    pub fn trades(&self) -> &[Trade] {
        &self.trades
    }

    /// Takes a combination unless one that is there is as good in every aim, and drops those that it betters.
    pub(super) fn offer(&mut self, figures: &[f64], parts: impl FnOnce() -> Vec<Option<At>>) {
        let no_worse = |one: &[f64], other: &[f64]| {
            let pairs = one.iter().zip(other);
            pairs.zip(&self.most).all(|((one, other), most)| if *most { one >= other } else { one <= other })
        };
        for trade in &mut self.trades {
            if no_worse(&trade.figures, figures) {
                trade.alike += u64::from(trade.figures == figures);
                return;
            }
        }
        let most = &self.most;
        self.trades.retain(|trade| {
            let pairs = figures.iter().zip(&trade.figures);
            !pairs.zip(most).all(|((one, other), most)| if *most { one >= other } else { one <= other })
        });
        self.trades.push(Trade { parts: parts(), figures: figures.to_vec(), alike: 0 });
    }

    fn sort(&mut self) {
        let most = &self.most;
        self.trades.order_by(|one, other| {
            let pairs = one.figures.iter().zip(&other.figures).zip(most);
            let mut orders = pairs.map(|((one, other), most)| if *most { other.total_cmp(one) } else { one.total_cmp(other) });
            orders.find(|order| order.is_ne()).unwrap_or(core::cmp::Ordering::Equal)
        });
    }
}

/// What a search found.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Combined {
    /// Combinations in all. A number, since it may be beyond counting.
    pub combinations: f64,
    /// Those that a rule forbids, as far as nothing else had ruled them out before. A number, like the next.
    pub forbidden: f64,
    /// Those that fail something asked, in the order asked; each counts where it failed first, as slots were filled.
    pub failed: Vec<f64>,
    /// How often figures were worked out for all that.
    pub worked_out: u64,
    /// Those that hold but lack a figure that was aimed at.
    pub not_compared: u64,
    /// Those that pass.
    pub passed: u64,
    /// The best of them.
    pub front: Front,
    /// Parts of the slots searched that were left out, as they set what this build does not have.
    pub left_out: Vec<(At, Place, Refusal)>,
}

impl Combined {
    pub(super) fn new(combinations: f64, aims: &[Aim], musts: usize) -> Self {
        Self { combinations, failed: vec![0.0; musts], front: Front::new(aims), ..Self::default() }
    }

    pub(super) fn finish(mut self) -> Self {
        self.front.sort();
        self
    }
}
