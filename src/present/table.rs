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
    /// How narrow the column may be made, by breaking its cells between words; those of a lower turn first.
    wraps: Option<(u8, usize)>,
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
        let mut kept: Vec<usize> = (0..self.columns.len())
            .filter(|at| self.rows.iter().any(|row| row.get(*at).is_some_and(|(_, text)| !text.is_empty())))
            .collect();
        while total(&kept, &widths) > screen {
            let spare = |at: &usize| self.columns.get(*at).map_or(0, |column| column.spare);
            let Some(least) = kept.iter().map(spare).max().filter(|spare| *spare > 0) else { break };
            kept.retain(|at| spare(at) != least);
        }
        let widths = self.narrowed(&kept, widths, screen);
        (kept, widths)
    }

    /// The widths with the columns that may be broken made narrower, as far as is needed and no further.
    fn narrowed(&self, kept: &[usize], natural: Vec<usize>, screen: usize) -> Vec<usize> {
        let mut widths = natural.clone();
        for turn in 1..=2 {
            while total(kept, &widths) > screen {
                let widest = kept
                    .iter()
                    .filter(|at| {
                        let wraps = self.columns.get(**at).and_then(|column| column.wraps);
                        wraps.is_some_and(|(own, _)| own == turn) && widths.get(**at) > self.narrowest(**at).as_ref()
                    })
                    .max_by_key(|at| widths.get(**at));
                match widest.and_then(|at| widths.get_mut(*at)) {
                    Some(width) => *width -= 1,
                    None => break,
                }
            }
        }
        if total(kept, &widths) > screen { natural } else { widths }
    }

    /// How narrow a column may be made: never narrower than its longest word.
    fn narrowest(&self, at: usize) -> Option<usize> {
        let column = self.columns.get(at)?;
        let (_, least) = column.wraps?;
        let cells = self.rows.iter().filter_map(|row| row.get(at));
        let longest = cells.flat_map(|(_, text)| atoms(text).into_iter().map(|atom| width(&atom))).max().unwrap_or(0);
        Some(longest.max(least).max(width(column.title)))
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
            let cells: Vec<(usize, Role, Vec<String>)> = kept
                .iter()
                .filter_map(|at| {
                    row.get(*at).map(|(role, text)| (*at, *role, broken(text, widths.get(*at).copied().unwrap_or(0))))
                })
                .collect();
            let height = cells.iter().map(|(_, _, lines)| lines.len()).max().unwrap_or(0);
            for line in 0..height {
                let mut pieces = Vec::new();
                for (nth, (at, role, lines)) in cells.iter().enumerate() {
                    let text = lines.get(line).map_or("", String::as_str);
                    let room = widths.get(*at).copied().unwrap_or(0).saturating_sub(width(text));
                    let right = self.columns.get(*at).is_some_and(|column| column.right);
                    if nth > 0 {
                        pieces.push((Role::Plain, " ".repeat(GAP)));
                    }
                    let pad = (Role::Plain, " ".repeat(room));
                    let cell = (*role, text.to_owned());
                    pieces.extend(if right { [pad, cell] } else { [cell, pad] });
                }
                out.pieces(pieces);
            }
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
                let title = if at < self.head || column.title.is_empty() {
                    String::new()
                } else {
                    format!("{} ", column.title)
                };
                let wide = width(&title) + width(text);
                let first_below = at >= self.head && !below;
                below |= first_below;
                if used > 0 && (first_below || used + GAP + wide > screen) {
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

/// The pieces that a text may be broken into: words, an effort with its number, a sign with what it belongs
/// to, and a number with its unit being one.
pub(crate) fn atoms(text: &str) -> Vec<String> {
    let mut atoms: Vec<String> = Vec::new();
    let mut open = false;
    for word in text.split(' ') {
        let unit = matches!(word.trim_end_matches([')', ',', ';', ':']), "kg" | "lb");
        match atoms.last_mut().filter(|_| open || unit) {
            Some(atom) => {
                atom.push(' ');
                atom.push_str(word);
            }
            None => atoms.push(word.to_owned()),
        }
        open = matches!(word, "RPE" | "@" | "+" | "=" | "block" | "week");
    }
    atoms
}

/// A cell's lines, none wider than the column where words allow.
fn broken(text: &str, room: usize) -> Vec<String> {
    if width(text) <= room {
        return vec![text.to_owned()];
    }
    let mut lines: Vec<String> = Vec::new();
    for atom in atoms(text) {
        match lines.last_mut().filter(|line| width(line) + 1 + width(&atom) <= room) {
            Some(line) => {
                line.push(' ');
                line.push_str(&atom);
            }
            None => lines.push(atom),
        }
    }
    lines
}
