//! A table's columns and rows.

use super::{Piece, Role};
use crate::present::places::by_page;
use crate::source::Place;
use std::collections::BTreeMap;

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Column {
    pub(crate) title: &'static str,
    pub(crate) right: bool,
    /// Columns of a higher number go first when there is no room; 0 never goes.
    pub(crate) spare: u8,
    /// How narrow the column may be made, by breaking its cells between words; those of a lower turn first.
    pub(super) wraps: Option<(u8, usize)>,
    /// Its title on pages, where that is another.
    pub(super) called: Option<&'static str>,
    /// On pages its cells stand below those of this column.
    pub(super) under: Option<usize>,
    /// Its cells are the headings of their rows.
    pub(super) heading: bool,
    /// Its cells are verdicts, which pages give a sign.
    pub(super) verdict: bool,
    pub(super) medium: Medium,
}

/// Where a column is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Medium {
    Both,
    Screen,
    Page,
}

impl Column {
    pub(crate) fn left(title: &'static str) -> Self {
        Column {
            title,
            right: false,
            spare: 0,
            wraps: None,
            called: None,
            under: None,
            heading: false,
            verdict: false,
            medium: Medium::Both,
        }
    }

    pub(crate) fn right(title: &'static str) -> Self {
        Column { right: true, ..Column::left(title) }
    }

    /// A column of verdicts, without a title on a screen.
    pub(crate) fn verdict() -> Self {
        Column { verdict: true, ..Column::left("").called("verdict") }
    }

    pub(crate) fn called(mut self, title: &'static str) -> Self {
        self.called = Some(title);
        self
    }

    pub(crate) fn under(mut self, column: usize) -> Self {
        self.under = Some(column);
        self
    }

    pub(crate) fn heading(mut self) -> Self {
        self.heading = true;
        self
    }

    pub(crate) fn on_screens(mut self) -> Self {
        self.medium = Medium::Screen;
        self
    }

    pub(crate) fn on_pages(mut self) -> Self {
        self.medium = Medium::Page;
        self
    }

    /// Its title on a page.
    pub(super) fn name(&self) -> &'static str {
        self.called.unwrap_or(self.title)
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
    /// The places that cells name, by row and column.
    pub(super) places: BTreeMap<(usize, usize), Vec<Place>>,
    /// On a phone, two cells of a row stand above the other two.
    pub(super) paired: bool,
    /// On a phone, each row is a card.
    pub(super) carded: bool,
}

impl Table {
    pub(crate) fn new(columns: Vec<Column>) -> Self {
        Table {
            columns,
            rows: Vec::new(),
            head: 2,
            caption: None,
            places: BTreeMap::new(),
            paired: false,
            carded: false,
        }
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

    /// The same with two cells of a row above the other two on a phone.
    pub(crate) fn paired(mut self) -> Self {
        self.paired = true;
        self
    }

    /// The same with each row a card on a phone, for cells that say by themselves what they are.
    pub(crate) fn carded(mut self) -> Self {
        self.carded = true;
        self
    }

    /// Lays the table out by itself.
    pub(crate) fn lay_out(&self, screen: usize) -> super::Typeset {
        self.laid(screen)
    }

    /// Adds a row, a cell a column.
    pub(crate) fn row(&mut self, cells: Vec<Piece>) -> &mut Self {
        self.rows.push(cells);
        self
    }

    /// Adds a cell of places to the last row.
    pub(crate) fn at<'p>(&mut self, places: impl IntoIterator<Item = &'p Place>) -> &mut Self {
        let places: Vec<Place> = places.into_iter().cloned().collect();
        let nth = self.rows.len().saturating_sub(1);
        if let Some(row) = self.rows.last_mut() {
            let text = by_page(&places).join("; ");
            self.places.insert((nth, row.len()), places);
            row.push((Role::Place, text));
        }
        self
    }

    /// The columns with something in them that a medium shows.
    pub(super) fn filled(&self, hidden: Medium) -> Vec<usize> {
        let says = |at: usize| self.rows.iter().any(|row| row.get(at).is_some_and(|(_, text)| !text.is_empty()));
        let shown = self.columns.iter().enumerate().filter(|(at, column)| column.medium != hidden && says(*at));
        shown.map(|(at, _)| at).collect()
    }

    /// Whether it has no rows.
    pub(crate) fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }
}
