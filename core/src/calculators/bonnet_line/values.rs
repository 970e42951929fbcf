//! Values in force, whether a step reads them or a drawing afterwards: both find a point by the same code.

use crate::plan::Case;
use crate::quantity::Value;
use crate::report::{Report, Unknown};
use crate::spec::{PerRow, Single, TableId};
use crate::tolerance::Tolerance;

pub(super) trait Values {
    fn one<V: Value>(&mut self, handle: impl Single<V>) -> Result<V, Unknown>;
    fn at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<V, Unknown>;
    fn off_by<V: Value>(&mut self, handle: impl Single<V>) -> Result<Tolerance, Unknown>;
    fn off_by_at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<Tolerance, Unknown>;
    fn count(&self, table: TableId) -> usize;
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
    fn off_by<V: Value>(&mut self, handle: impl Single<V>) -> Result<Tolerance, Unknown> {
        self.tolerance_of(handle)
    }

    #[inline]
    fn off_by_at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<Tolerance, Unknown> {
        self.tolerance_at(handle, row)
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

    fn off_by<V: Value>(&mut self, handle: impl Single<V>) -> Result<Tolerance, Unknown> {
        self.values.tolerance(self.layout(), handle.id(), 0)
    }

    fn off_by_at<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<Tolerance, Unknown> {
        self.values.tolerance(self.layout(), handle.id(), row)
    }

    fn count(&self, table: TableId) -> usize {
        self.layout().rows(table).len()
    }
}
