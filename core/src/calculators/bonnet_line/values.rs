//! Values in force, whether a step reads them or a drawing afterwards: both find a point by the same code.

use super::{MEASURING, SPREAD};
use crate::plan::Case;
use crate::quantity::Value;
use crate::report::{Report, Unknown};
use crate::spec::{Input, PerRow, Single, TableId};
use crate::tolerance::{Off, Tolerance};

pub(super) trait Values {
    fn one<V: Value>(&mut self, handle: impl Single<V>) -> Result<V, Unknown>;
    fn at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<V, Unknown>;
    fn off<V: Value>(&mut self, handle: impl Single<V>, usual: Off) -> Off;
    fn off_at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize, usual: Off) -> Off;
    fn count(&self, table: TableId) -> usize;

    /// What dimensions may be off by whose declaration names this half-width.
    fn usual<V: Value>(&mut self, half_width: Input<V>) -> Result<Off, Unknown> {
        Ok(Tolerance { half_width: self.one(half_width)?.to_cell(), shape: self.one(SPREAD)?.shape() }.into())
    }

    /// Of what was measured by tape or rule.
    fn measured(&mut self) -> Result<Off, Unknown> {
        self.usual(MEASURING)
    }
}

impl Values for Case<'_> {
    #[inline]
    fn one<V: Value>(&mut self, handle: impl Single<V>) -> Result<V, Unknown> {
        self.of(handle)
    }

    #[inline]
    fn at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<V, Unknown> {
        self.cell(handle, row)
    }

    #[inline]
    fn off<V: Value>(&mut self, handle: impl Single<V>, usual: Off) -> Off {
        self.off_by(handle, usual)
    }

    #[inline]
    fn off_at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize, usual: Off) -> Off {
        self.off_by_at(handle, row, usual)
    }

    fn count(&self, table: TableId) -> usize {
        self.rows(table)
    }
}

impl Values for &Report {
    fn one<V: Value>(&mut self, handle: impl Single<V>) -> Result<V, Unknown> {
        self.of(handle)
    }

    fn at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<V, Unknown> {
        self.cell(handle, row)
    }

    fn off<V: Value>(&mut self, handle: impl Single<V>, usual: Off) -> Off {
        self.values.given(self.layout(), handle.id(), 0).map_or(usual, |given| usual.unless(given))
    }

    fn off_at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize, usual: Off) -> Off {
        self.values.given(self.layout(), handle.id(), row).map_or(usual, |given| usual.unless(given))
    }

    fn count(&self, table: TableId) -> usize {
        self.layout().rows(table).len()
    }
}
