//! A bar a row, with its number behind it.

use super::glyphs::Glyphs;
use crate::present::doc::{Picture, width};
use crate::present::{Role, Typeset};

/// A bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// The name of its row.
    pub name: String,
    /// How long it is; nothing below 0.
    pub whole: f64,
    /// How much of that is told apart, drawn first.
    pub part: f64,
    /// What stands behind it.
    pub words: String,
}

/// Bars below one another, the longest as long as there is room for.
#[derive(Clone, Debug)]
pub struct Bars {
    /// The bars.
    pub bars: Vec<Bar>,
    /// With which characters.
    pub glyphs: Glyphs,
}

impl Picture for Bars {
    fn draw(&self, screen: usize) -> Typeset {
        let Bars { bars, glyphs } = self;
        let mut out = Typeset::new();
        let (names, room_for_names) = glyphs.names(bars.iter().map(|bar| bar.name.as_str()), screen);
        let room_for_words = bars.iter().map(|bar| width(&bar.words)).max().unwrap_or(0);
        let room = screen.saturating_sub(room_for_names + room_for_words + 1);
        let most = bars.iter().map(|bar| bar.whole).fold(0.0, f64::max);
        for (bar, name) in bars.iter().zip(names) {
            let (part, whole) = pieces(bar, most, room, *glyphs);
            let space = if part.is_empty() && whole.is_empty() { "" } else { " " };
            out.pieces(vec![
                (Role::Plain, name),
                (Role::Plain, part),
                (Role::Plot, whole),
                (Role::Plain, format!("{space}{}", bar.words)),
            ]);
        }
        out
    }
}

/// The part in whole cells, then the rest to the eighth.
fn pieces(bar: &Bar, most: f64, room: usize, glyphs: Glyphs) -> (String, String) {
    let eighths = eighths(bar.whole, most, room);
    let cells = part_cells(bar.part, bar.whole, eighths);
    let (full, fill) = glyphs.fills();
    let part: String = std::iter::repeat_n(fill, cells).collect();
    let rest = eighths.saturating_sub(cells * 8);
    let mut whole: String = std::iter::repeat_n(full, rest / 8).collect();
    whole.extend(glyphs.grown(rest % 8));
    (part, whole)
}

/// How many eighths of a cell a number comes to where the most has `room` cells; at least one for more than nothing.
pub(super) fn eighths(number: f64, most: f64, room: usize) -> usize {
    if number.is_nan() || number <= 0.0 || most <= 0.0 {
        return 0;
    }
    let eighths = (number / most * room as f64 * 8.0).round() as usize;
    // Half a cell is what ASCII rounds up: nothing that was done is without a sign.
    eighths.clamp(4.min(room * 8), room * 8)
}

/// How many cells the part takes of so many eighths: none for nothing, at least one for more, all for the whole.
pub(super) fn part_cells(part: f64, whole: f64, eighths: usize) -> usize {
    if part.is_nan() || part <= 0.0 || whole <= 0.0 || eighths == 0 {
        return 0;
    }
    if part >= whole {
        return eighths.div_ceil(8);
    }
    let cells = (part / whole * eighths as f64 / 8.0).round() as usize;
    cells.clamp(1, (eighths / 8).max(1))
}
