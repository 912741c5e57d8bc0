//! Dots, shades and marks on a grid of characters. Each character holds two by four dots; where one has several things
//! in it, marks come first, then the curve, rules and the shade.

use super::glyphs::Glyphs;
use crate::present::Role;

/// The bits of a Braille character's dots, by column and row of the dot (Unicode, block Braille Patterns).
const BRAILLE: [[u32; 4]; 2] = [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]];

/// What is in a character.
#[derive(Clone, Copy, Debug, Default)]
struct Cell {
    curve: u32,
    shade: u32,
    rule: bool,
    mark: Option<(char, Role)>,
}

/// A grid of characters.
#[derive(Clone, Debug)]
pub(super) struct Canvas {
    columns: usize,
    rows: usize,
    glyphs: Glyphs,
    cells: Vec<Cell>,
}

impl Canvas {
    /// Nothing yet, at least one character wide and high.
    pub(super) fn new(columns: usize, rows: usize, glyphs: Glyphs) -> Self {
        let (columns, rows) = (columns.max(1), rows.max(1));
        Canvas { columns, rows, glyphs, cells: vec![Cell::default(); columns * rows] }
    }

    pub(super) fn columns(&self) -> usize {
        self.columns
    }

    pub(super) fn rows(&self) -> usize {
        self.rows
    }

    /// The column of dots at a position from 0 on the left to 1 on the right.
    pub(super) fn across(&self, position: f64) -> usize {
        let most = self.columns * 2 - 1;
        ((position * most as f64).round().max(0.0) as usize).min(most)
    }

    /// The row of dots, from the top, at a position from 0 to 1: these are the middles of the lowest and the highest row of
    /// characters, where an axis has its ticks.
    pub(super) fn down(&self, position: f64) -> usize {
        let dots = 1.5 + (1.0 - position) * 4.0 * (self.rows - 1) as f64;
        (dots.round().max(0.0) as usize).min(self.rows * 4 - 1)
    }

    fn cell(&mut self, column: usize, row: usize) -> Option<&mut Cell> {
        if column >= self.columns { None } else { self.cells.get_mut(row * self.columns + column) }
    }

    fn bit(across: usize, down: usize) -> u32 {
        BRAILLE.get(across % 2).and_then(|column| column.get(down % 4)).copied().unwrap_or(0)
    }

    /// A straight piece of the curve between two dots.
    pub(super) fn segment(&mut self, from: (usize, usize), to: (usize, usize)) {
        let steps = from.0.abs_diff(to.0).max(from.1.abs_diff(to.1));
        for step in 0..=steps {
            let (across, down) = (between(from.0, to.0, step, steps), between(from.1, to.1, step, steps));
            if let Some(cell) = self.cell(across / 2, down / 4) {
                cell.curve |= Self::bit(across, down);
            }
        }
    }

    /// Shades a column of dots between two rows of them: every fourth dot, in turn with its neighbours.
    pub(super) fn shade(&mut self, across: usize, one: usize, other: usize) {
        let (top, bottom) = (one.min(other), one.max(other));
        for down in (top..=bottom).filter(|down| (down + across % 2 * 2).is_multiple_of(4)) {
            if let Some(cell) = self.cell(across / 2, down / 4) {
                cell.shade |= Self::bit(across, down);
            }
        }
    }

    /// A rule from top to bottom.
    pub(super) fn rule(&mut self, column: usize) {
        for row in 0..self.rows {
            if let Some(cell) = self.cell(column, row) {
                cell.rule = true;
            }
        }
    }

    /// Puts a character at a place.
    pub(super) fn mark(&mut self, column: usize, row: usize, mark: char, role: Role) {
        if let Some(cell) = self.cell(column, row) {
            cell.mark = Some((mark, role));
        }
    }

    /// A row as text, from the top.
    pub(super) fn line(&self, row: usize) -> Vec<(Role, String)> {
        let cells = self.cells.iter().skip(row * self.columns).take(self.columns);
        let mut pieces: Vec<(Role, String)> = Vec::new();
        for (role, c) in cells.map(|cell| self.character(cell)) {
            match pieces.last_mut() {
                Some((last, text)) if *last == role => text.push(c),
                _ => pieces.push((role, c.to_string())),
            }
        }
        pieces
    }

    fn character(&self, cell: &Cell) -> (Role, char) {
        let dots = |bits: u32| char::from_u32(0x2800 + bits).unwrap_or(' ');
        match (self.glyphs, cell) {
            (_, Cell { mark: Some((mark, role)), .. }) => (*role, *mark),
            (Glyphs::Blocks, Cell { curve: 1.., .. }) => (Role::Plot, dots(cell.curve)),
            (Glyphs::Ascii, Cell { curve: 1.., .. }) => (Role::Plot, '*'),
            (_, Cell { rule: true, .. }) => (Role::Place, self.glyphs.rule()),
            (Glyphs::Blocks, Cell { shade: 1.., .. }) => (Role::Place, dots(cell.shade)),
            (Glyphs::Ascii, Cell { shade: 1.., .. }) => (Role::Place, ':'),
            _ => (Role::Plain, ' '),
        }
    }
}

fn between(from: usize, to: usize, step: usize, steps: usize) -> usize {
    if steps == 0 {
        return from;
    }
    let far = from.abs_diff(to) * step;
    let far = (far + steps / 2) / steps;
    if to >= from { from + far } else { from - far }
}

#[cfg(test)]
mod tests {
    use super::{Canvas, Glyphs};
    use crate::present::Role;
    use proptest::prelude::*;

    fn text(canvas: &Canvas) -> Vec<String> {
        let line = |row| canvas.line(row).into_iter().map(|(_, text)| text).collect();
        (0..canvas.rows()).map(line).collect()
    }

    #[test]
    fn a_line_goes_from_dot_to_dot() {
        let mut canvas = Canvas::new(2, 2, Glyphs::Blocks);
        canvas.segment((0, 7), (3, 4));
        assert_eq!(text(&canvas), ["⠀⠀".replace('⠀', " "), "⡠⠊".to_owned()]);
    }

    #[test]
    fn a_mark_hides_the_curve_and_the_curve_the_rest() {
        let mut canvas = Canvas::new(3, 1, Glyphs::Ascii);
        (0..6).for_each(|across| canvas.shade(across, 0, 3));
        canvas.rule(1);
        assert_eq!(text(&canvas), [":|:"]);
        canvas.segment((0, 0), (3, 0));
        canvas.mark(0, 0, 'T', Role::Answer);
        assert_eq!(text(&canvas), ["T*:"]);
    }

    proptest! {
        /// Whatever is drawn, the grid keeps its size, and every dot of a position is inside.
        #[test]
        fn every_point_is_inside(
            columns in 0_usize..130, rows in 0_usize..30, ascii in any::<bool>(),
            points in prop::collection::vec((-0.5..1.5f64, -0.5..1.5f64), 0..20),
        ) {
            let glyphs = if ascii { Glyphs::Ascii } else { Glyphs::Blocks };
            let mut canvas = Canvas::new(columns, rows, glyphs);
            let mut last = None;
            for (x, y) in points {
                let dot = (canvas.across(x), canvas.down(y));
                prop_assert!(dot.0 < canvas.columns() * 2 && dot.1 < canvas.rows() * 4);
                canvas.segment(last.unwrap_or(dot), dot);
                canvas.shade(dot.0, dot.1, 0);
                canvas.rule(dot.0 / 2);
                canvas.mark(dot.0, dot.1, 'x', Role::Plain);
                last = Some(dot);
            }
            let text = text(&canvas);
            prop_assert_eq!(text.len(), rows.max(1));
            prop_assert!(text.iter().all(|line| line.chars().count() == columns.max(1)));
            prop_assert!(!ascii || text.iter().all(|line| line.is_ascii()));
        }
    }
}
