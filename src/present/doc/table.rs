//! A table's columns and rows.

use super::Piece;

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Column {
    pub(crate) title: &'static str,
    pub(crate) right: bool,
    /// Columns of a higher number go first when there is no room; 0 never goes.
    pub(crate) spare: u8,
    /// How narrow the column may be made, by breaking its cells between words; those of a lower turn first.
    pub(super) wraps: Option<(u8, usize)>,
}

impl Column {
    pub(crate) fn left(title: &'static str) -> Self {
        Column { title, right: false, spare: 0, wraps: None }
    }

    pub(crate) fn right(title: &'static str) -> Self {
        Column { title, right: true, spare: 0, wraps: None }
    }

    pub(crate) fn wraps(mut self, turn: u8, narrowest: usize) -> Self {
        self.wraps = Some((turn, narrowest));
        self
    }

    pub(crate) fn spare(mut self, order: u8) -> Self {
        self.spare = order;
        self
    }
}

/// A table being made.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Table {
    pub(super) columns: Vec<Column>,
    pub(super) rows: Vec<Vec<Piece>>,
    /// How many cells stand on the first line where rows are stacked.
    pub(super) head: usize,
    /// What a page calls it; the title above it where it has none.
    pub(super) caption: Option<String>,
}

impl Table {
    pub(crate) fn new(columns: Vec<Column>) -> Self {
        Table { columns, rows: Vec::new(), head: 2, caption: None }
    }

    /// The same with so many cells on the first line where rows are stacked.
    pub(crate) fn with_head(mut self, cells: usize) -> Self {
        self.head = cells;
        self
    }

    /// The same with what a page calls it.
    pub(crate) fn captioned(mut self, caption: impl Into<String>) -> Self {
        self.caption = Some(caption.into());
        self
    }

    /// Lays the table out by itself.
    pub(crate) fn lay_out(&self, screen: usize) -> super::Typeset {
        self.laid(screen)
    }

    /// Adds a row, a cell a column.
    pub(crate) fn row(&mut self, cells: Vec<Piece>) {
        self.rows.push(cells);
    }

    /// Whether it has no rows.
    pub(crate) fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }
}
