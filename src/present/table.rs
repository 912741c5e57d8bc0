//! Aligned columns. On a screen too narrow for all of them, those that can be done without go first; what
//! is still too wide is stacked, a few lines a row.

use super::markup::{Markup, Role};
use super::sanitize::sanitize;
use unicode_width::UnicodeWidthStr;

/// How many columns a text takes on a screen.
pub(crate) fn width(text: &str) -> usize {
    sanitize(text).width()
}

/// A column.
#[derive(Clone, Debug)]
pub(crate) struct Column {
    pub(crate) title: &'static str,
    pub(crate) right: bool,
    /// Columns of a higher number go first when there is no room; 0 never goes.
    pub(crate) spare: u8,
}

impl Column {
    pub(crate) fn left(title: &'static str) -> Self {
        Column { title, right: false, spare: 0 }
    }

    pub(crate) fn right(title: &'static str) -> Self {
        Column { title, right: true, spare: 0 }
    }

    pub(crate) fn spare(mut self, order: u8) -> Self {
        self.spare = order;
        self
    }
}

/// A table being made.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    columns: Vec<Column>,
    rows: Vec<Vec<(Role, String)>>,
    /// How many cells stand on the first line where rows are stacked.
    head: usize,
}

/// Blanks between columns.
const GAP: usize = 2;

impl Table {
    pub(crate) fn new(columns: Vec<Column>) -> Self {
        Table { columns, rows: Vec::new(), head: 2 }
    }

    /// The same with so many cells on the first line where rows are stacked.
    pub(crate) fn with_head(mut self, cells: usize) -> Self {
        self.head = cells;
        self
    }

    /// Adds a row, a cell a column.
    pub(crate) fn row(&mut self, cells: Vec<(Role, String)>) {
        self.rows.push(cells);
    }

    /// Lays the table out for a screen.
    pub(crate) fn lay_out(&self, screen: usize) -> Markup {
        let (kept, widths) = self.kept(screen);
        let total = total(&kept, &widths);
        if total > screen { self.stacked(screen) } else { self.side_by_side(&kept, &widths) }
    }

    /// Whether a column is shown on a screen of that width.
    pub(crate) fn shows(&self, column: usize, screen: usize) -> bool {
        let (kept, widths) = self.kept(screen);
        total(&kept, &widths) <= screen && kept.contains(&column)
    }

    /// The columns that there is room for, and how wide each would be.
    fn kept(&self, screen: usize) -> (Vec<usize>, Vec<usize>) {
        let widths: Vec<usize> = (0..self.columns.len()).map(|at| self.natural_width(at)).collect();
        // A column in which every cell is empty says nothing.
        let mut kept: Vec<usize> = (0..self.columns.len()).filter(|at| self.rows.iter().any(|row| row.get(*at).is_some_and(|(_, text)| !text.is_empty()))).collect();
        while total(&kept, &widths) > screen {
            let spare = |at: &usize| self.columns.get(*at).map_or(0, |column| column.spare);
            let Some(least) = kept.iter().map(spare).max().filter(|spare| *spare > 0) else { break };
            kept.retain(|at| spare(at) != least);
        }
        (kept, widths)
    }

    fn natural_width(&self, at: usize) -> usize {
        let title = self.columns.get(at).map_or(0, |column| width(column.title));
        self.rows.iter().filter_map(|row| row.get(at)).map(|(_, text)| width(text)).max().unwrap_or(0).max(title)
    }

    fn side_by_side(&self, kept: &[usize], widths: &[usize]) -> Markup {
        let mut out = Markup::new();
        let titled = kept.iter().any(|at| self.columns.get(*at).is_some_and(|column| !column.title.is_empty()));
        let titles = self.columns.iter().map(|column| (Role::Place, column.title.to_owned())).collect();
        for row in titled.then_some(&titles).into_iter().chain(&self.rows) {
            let mut line = Vec::new();
            for (nth, at) in kept.iter().enumerate() {
                let Some((role, text)) = row.get(*at) else { continue };
                let room = widths.get(*at).copied().unwrap_or(0).saturating_sub(width(text));
                let right = self.columns.get(*at).is_some_and(|column| column.right);
                if nth > 0 {
                    line.push((Role::Plain, " ".repeat(GAP)));
                }
                let pad = (Role::Plain, " ".repeat(room));
                let cell = (*role, text.clone());
                line.extend(if right { [pad, cell] } else { [cell, pad] });
            }
            out.pieces(line);
        }
        out
    }

    /// Each row on lines of its own: its first cells, then the others below them with their titles. Columns
    /// that can be done without are left out.
    fn stacked(&self, screen: usize) -> Markup {
        let mut out = Markup::new();
        for row in &self.rows {
            let mut line: Vec<(Role, String)> = Vec::new();
            let mut used = 0;
            let mut below = false;
            for (at, (role, text)) in row.iter().enumerate().filter(|(_, (_, text))| !text.is_empty()) {
                let Some(column) = self.columns.get(at).filter(|column| column.spare == 0) else { continue };
                let title = if at < self.head || column.title.is_empty() { String::new() } else { format!("{} ", column.title) };
                let wide = width(&title) + width(text);
                let first_below = at >= self.head && !below;
                below |= first_below;
                if (used > 0 && first_below) || (used > 0 && used + GAP + wide > screen) {
                    out.pieces(std::mem::take(&mut line));
                    line.push((Role::Plain, "  ".into()));
                    used = 2;
                } else if used > 0 {
                    line.push((Role::Plain, " ".repeat(GAP)));
                    used += GAP;
                }
                line.push((Role::Place, title));
                line.push((*role, text.clone()));
                used += wide;
            }
            out.pieces(line);
        }
        out
    }
}

/// How wide these columns are together.
fn total(kept: &[usize], widths: &[usize]) -> usize {
    kept.iter().map(|at| widths.get(*at).copied().unwrap_or(0) + GAP).sum::<usize>().saturating_sub(GAP)
}
