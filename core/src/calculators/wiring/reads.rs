//! Values in force, whether a step reads them or a chart afterwards: both see a circuit in its loom by the same code.

use crate::plan::Case;
use crate::quantity::Value;
use crate::report::{Report, Unknown};
use crate::spec::{PerRow, TableId};

/// Cells of rows.
pub(super) trait Reads {
    /// The value in force in the `row`-th row, or why there is none.
    fn read<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<V, Unknown>;

    /// Number of rows of a table.
    fn count(&self, table: TableId) -> usize;
}

impl Reads for Case<'_> {
    #[inline]
    fn read<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<V, Unknown> {
        self.cell(handle, row)
    }

    fn count(&self, table: TableId) -> usize {
        self.rows(table)
    }
}

impl Reads for &Report {
    fn read<V: Value>(&mut self, handle: impl PerRow<V>, row: usize) -> Result<V, Unknown> {
        self.cell(handle, row)
    }

    fn count(&self, table: TableId) -> usize {
        self.layout().rows(table).len()
    }
}
