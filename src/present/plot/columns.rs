//! A column a week, or whatever follows in time, with the blocks below.

use super::bars::{eighths, part_cells};
use super::frame::{Frame, STEPS};
use super::glyphs::Glyphs;
use super::scale::Scale;
use crate::present::{Role, Typeset};

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// What it stands in with its neighbours; a rule parts it from another.
    pub group: String,
    /// How high it is; nothing below 0.
    pub whole: f64,
    /// How much of that is told apart, drawn below.
    pub part: f64,
}

/// A column is at most so wide.
const WIDEST: usize = 6;

/// The columns with an axis of numbers in a unit, and how many of them each drawn one stands for: more than one where
/// there is no room for all, and then it is the highest of them.
#[must_use]
pub fn columns(columns: &[Column], unit: &str, screen: usize, glyphs: Glyphs) -> (Typeset, usize) {
    let most = columns.iter().map(|column| column.whole).fold(0.0, f64::max);
    let mut frame = Frame::new(Scale::covering(0.0, most, STEPS, true), screen, glyphs);
    let each = columns.len().div_ceil(frame.canvas.columns()).max(1);
    let highest = |several: &[Column]| {
        let highest = several.iter().max_by(|one, other| one.whole.total_cmp(&other.whole))?;
        let first = several.first()?;
        Some(Column { group: first.group.clone(), ..highest.clone() })
    };
    let drawn: Vec<Column> = columns.chunks(each).filter_map(highest).collect();
    let stride = (frame.canvas.columns() / drawn.len().max(1)).clamp(1, WIDEST);
    let thick = if stride > 2 { stride - 1 } else { stride };
    for (at, column) in drawn.iter().enumerate() {
        for across in at * stride..at * stride + thick {
            raise(&mut frame, across, column);
        }
    }
    let mut groups: Vec<(usize, String)> = Vec::new();
    for (at, column) in drawn.iter().enumerate() {
        if at.checked_sub(1).and_then(|before| drawn.get(before)).is_none_or(|before| before.group != column.group) {
            groups.push((at * stride, column.group.clone()));
        }
    }
    let mut out = Typeset::new();
    // Where a column is several weeks, it may be several blocks too.
    let groups = if each == 1 { groups } else { Vec::new() };
    let starts: Vec<usize> = groups.iter().map(|(column, _)| *column).collect();
    frame.draw(&mut out, unit, &starts);
    frame.names(&mut out, "block", Role::Plain, &groups);
    (out, each)
}

/// One column of characters from the axis up. The top of the axis is the middle of the highest row.
fn raise(frame: &mut Frame, across: usize, column: &Column) {
    let rows = frame.canvas.rows();
    let height = frame.scale.position(column.whole.max(0.0));
    // From the middle of the lowest row, where nought is, up; and the half row below it.
    let eighths = if column.whole > 0.0 { eighths(height * (rows - 1) as f64 + 0.5, rows as f64, rows) } else { 0 };
    let cells = part_cells(column.part, column.whole, eighths);
    let (full, fill) = frame.glyphs.fills();
    for row in 0..rows {
        let risen = eighths.saturating_sub(row * 8).min(8);
        let (mark, role) = match frame.glyphs.risen(risen) {
            _ if row < cells => (fill, Role::Plain),
            _ if risen == 8 => (full, Role::Plot),
            Some(top) => (top, Role::Plot),
            None => continue,
        };
        frame.canvas.mark(across, rows - 1 - row, mark, role);
    }
}
