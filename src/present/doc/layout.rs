//! Aligned columns. On a screen too narrow for all of them, those that can be done without go first. What is still too
//! wide has its cells broken, or its rows folded in two, or stacked: whatever takes the fewest lines. Nothing is wider
//! than the screen but a word that is.

use super::breaks::{atoms, broken, width};
use super::stack::{GAP, INDENT, Line, Stack};
use super::table::Medium;
use super::typeset::Typeset;
use super::{Piece, Role, Table};

/// Columns that say so are made narrower in two turns; any other only after that.
const LAST_TURN: u8 = 2;

impl Table {
    /// Lays the table out for a screen, in the way that takes the fewest lines. What is aligned is read more easily, so
    /// stacked rows have to save half a line each, and stacked rows run together more than that; a row by itself has to save
    /// more than a line, for it looks like those of other tables near it.
    pub(super) fn laid(&self, screen: usize) -> Typeset {
        self.laid_out(screen).0
    }

    /// Whether a column is shown on a screen of that width.
    pub(crate) fn shows(&self, column: usize, screen: usize) -> bool {
        self.laid_out(screen).1.contains(&column)
    }

    /// The table, and the columns that are in it.
    fn laid_out(&self, screen: usize) -> (Typeset, Vec<usize>) {
        let (kept, widths) = self.kept(screen);
        let bare: Vec<usize> = kept.iter().copied().filter(|at| self.spare(*at) == 0).collect();
        let plain = (total(&kept, &widths) <= screen).then(|| self.side_by_side(&kept, &widths));
        // With a line a row and one of titles nothing is to be gained.
        if let Some(laid) = plain.as_ref().filter(|laid| laid.lines.len() <= self.rows.len() + 1) {
            return (laid.typeset(), kept);
        }
        let others = [self.folded(&bare, screen), self.tight(&bare, screen)];
        let stacked = [true, false].map(|apart| Some(self.stacked(&bare, screen, apart)));
        let all = std::iter::once((plain, &kept)).chain(others.into_iter().chain(stacked).map(|laid| (laid, &bare)));
        let alone = self.rows.len() == 1;
        let cost =
            |laid: &Laid| 4 * (laid.lines.len() + usize::from(alone && !laid.aligned)) + laid.unease * self.rows.len();
        let least = all.filter_map(|(laid, columns)| Some((laid?, columns))).min_by_key(|(laid, _)| cost(laid));
        least.map_or_else(|| (Typeset::new(), Vec::new()), |(laid, columns)| (laid.typeset(), columns.clone()))
    }

    fn spare(&self, at: usize) -> u8 {
        self.columns.get(at).map_or(0, |column| column.spare)
    }

    /// The columns that there is room for, and how wide each would be.
    fn kept(&self, screen: usize) -> (Vec<usize>, Vec<usize>) {
        let widths = self.natural_widths();
        // A column in which every cell is empty says nothing.
        let mut kept = self.filled(Medium::Page);
        while total(&kept, &widths) > screen {
            let Some(least) = kept.iter().map(|at| self.spare(*at)).max().filter(|spare| *spare > 0) else { break };
            kept.retain(|at| self.spare(*at) != least);
        }
        let widths = self.narrowed(widths, &kept, screen, LAST_TURN);
        (kept, widths)
    }

    /// The widths with the columns that may be broken made narrower up to a turn, as far as is needed and no further;
    /// as they are where that is not enough.
    fn narrowed(&self, natural: Vec<usize>, kept: &[usize], screen: usize, last_turn: u8) -> Vec<usize> {
        let mut widths = natural.clone();
        for turn in 1..=last_turn {
            if total(kept, &widths) <= screen {
                break;
            }
            // Asked once: a cell may be long, and each column of it that goes is a step.
            let narrowest: Vec<Option<usize>> = (0..self.columns.len()).map(|at| self.narrowest(at, turn)).collect();
            while total(kept, &widths) > screen {
                let widest = kept
                    .iter()
                    .filter(|at| widths.get(**at) > narrowest.get(**at).and_then(Option::as_ref))
                    .max_by_key(|at| widths.get(**at));
                match widest.and_then(|at| widths.get_mut(*at)) {
                    Some(width) => *width -= 1,
                    None => break,
                }
            }
        }
        if total(kept, &widths) > screen { natural } else { widths }
    }

    /// How narrow a column may be made in a turn: never narrower than its longest word. After all turns any column may
    /// be made as narrow as that. Endlessly wide where it is not the column's turn.
    fn narrowest(&self, at: usize, turn: u8) -> Option<usize> {
        let column = self.columns.get(at)?;
        let longest = |text: &str| atoms(text).iter().map(|atom| width(atom)).max().unwrap_or(0);
        let least = match column.wraps {
            Some((own, least)) if own == turn => least.max(width(column.title)),
            _ if turn > LAST_TURN => longest(column.title),
            _ => return Some(usize::MAX),
        };
        let cells = self.rows.iter().filter_map(|row| row.get(at));
        // No word of a cell is wider than the cell.
        Some(cells.fold(least, |most, (_, text)| if width(text) > most { longest(text).max(most) } else { most }))
    }

    fn natural_widths(&self) -> Vec<usize> {
        let mut widths: Vec<usize> = self.columns.iter().map(|column| width(column.title)).collect();
        for row in &self.rows {
            widths.iter_mut().zip(row).for_each(|(most, (_, text))| *most = width(text).max(*most));
        }
        widths
    }

    /// The titles of some columns; nothing where none has one.
    fn titles(&self, of: &[usize]) -> Option<Vec<Piece>> {
        let titled = of.iter().any(|at| self.columns.get(*at).is_some_and(|column| !column.title.is_empty()));
        titled.then(|| self.columns.iter().map(|column| (Role::Place, column.title.to_owned())).collect())
    }

    fn side_by_side(&self, kept: &[usize], widths: &[usize]) -> Laid {
        let titles = self.titles(kept).map(|titles| self.aligned(&titles, kept, widths, ""));
        let rows = self.rows.iter().flat_map(|row| self.aligned(row, kept, widths, ""));
        Laid::of(titles.unwrap_or_default(), rows.collect())
    }

    /// Side by side with every cell broken where it may be.
    fn tight(&self, kept: &[usize], screen: usize) -> Option<Laid> {
        let widths = self.narrowed(self.natural_widths(), kept, screen, LAST_TURN + 1);
        (total(kept, &widths) <= screen).then(|| self.side_by_side(kept, &widths))
    }

    /// Each row on two lines, the first cells and then the others, aligned with those of the other rows.
    fn folded(&self, kept: &[usize], screen: usize) -> Option<Laid> {
        let (head, tail): (Vec<usize>, Vec<usize>) = kept.iter().partition(|at| **at < self.head);
        // A column alone down there has its title beside its cells.
        let title = match tail.as_slice() {
            [only] => self.columns.get(*only).map_or("", |column| column.title),
            _ => "",
        };
        let lead = if title.is_empty() { " ".repeat(INDENT) } else { format!("{}{title} ", " ".repeat(INDENT)) };
        let room = screen.saturating_sub(width(&lead));
        let natural = self.natural_widths();
        let above = self.narrowed(natural.clone(), &head, screen, LAST_TURN + 1);
        let below = self.narrowed(natural, &tail, room, LAST_TURN + 1);
        if head.is_empty() || tail.is_empty() || total(&head, &above) > screen || total(&tail, &below) > room {
            return None;
        }
        let folded = |row: &Vec<Piece>| {
            let mut lines = self.aligned(row, &head, &above, "");
            lines.extend(self.aligned(row, &tail, &below, &lead));
            lines
        };
        let mut titles = self.titles(&head).map(|row| self.aligned(&row, &head, &above, "")).unwrap_or_default();
        let others = self.titles(&tail).filter(|_| title.is_empty());
        titles.extend(others.into_iter().flat_map(|row| self.aligned(&row, &tail, &below, &lead)));
        Some(Laid { aligned: false, ..Laid::of(titles, self.rows.iter().flat_map(folded).collect()) })
    }

    /// A row's cells behind a lead, under those of the rows above, on as many lines as the cell with most lines; on none where all are
    /// empty.
    fn aligned(&self, row: &[Piece], kept: &[usize], widths: &[usize], lead: &str) -> Vec<Line> {
        let wide = |at: usize| widths.get(at).copied().unwrap_or(0);
        let cells = kept.iter().filter_map(|at| row.get(*at).map(|(role, text)| (*at, *role, text)));
        let cells: Vec<(usize, Role, Vec<String>)> =
            cells.map(|(at, role, text)| (at, role, broken(text, wide(at), wide(at)))).collect();
        if cells.iter().all(|(_, _, lines)| lines.iter().all(String::is_empty)) {
            return Vec::new();
        }
        let height = cells.iter().map(|(_, _, lines)| lines.len()).max().unwrap_or(0);
        let line = |line: usize| {
            let mut pieces: Line = Vec::new();
            if !lead.is_empty() {
                let lead = if line == 0 { lead.to_owned() } else { " ".repeat(width(lead)) };
                pieces.push((Role::Place, lead));
            }
            for (nth, (at, role, lines)) in cells.iter().enumerate() {
                let text = lines.get(line).map_or("", String::as_str);
                let right = self.columns.get(*at).is_some_and(|column| column.right);
                if nth > 0 {
                    pieces.push((Role::Plain, " ".repeat(GAP)));
                }
                let pad = (Role::Plain, " ".repeat(wide(*at).saturating_sub(width(text))));
                let cell = (*role, text.to_owned());
                pieces.extend(if right { [pad, cell] } else { [cell, pad] });
            }
            pieces
        };
        (0..height).map(line).collect()
    }

    /// Each row's cells one after the other, those after the first ones with their titles. `apart`: these begin a line
    /// of their own.
    fn stacked(&self, kept: &[usize], screen: usize, apart: bool) -> Laid {
        let mut lines: Vec<Line> = Vec::new();
        for row in &self.rows {
            let mut stack = Stack::new(screen);
            let mut below = false;
            for at in kept {
                let (Some((role, text)), Some(column)) = (row.get(*at), self.columns.get(*at)) else { continue };
                if text.is_empty() {
                    continue;
                }
                let titled = *at >= self.head && !column.title.is_empty();
                let title = if titled { format!("{} ", column.title) } else { String::new() };
                let first_below = *at >= self.head && !below;
                below |= first_below;
                stack.put(&title, *role, text, apart && first_below);
            }
            lines.extend(stack.done());
        }
        Laid { lines, aligned: false, unease: if apart { 2 } else { 5 } }
    }
}

/// A table as it would be shown.
struct Laid {
    lines: Vec<Line>,
    /// Whether each row has its cells side by side, below their titles.
    aligned: bool,
    /// How much harder a row is read than one that is aligned with others, in quarters of a line.
    unease: usize,
}

impl Laid {
    fn of(titles: Vec<Line>, rows: Vec<Line>) -> Laid {
        Laid { lines: titles.into_iter().chain(rows).collect(), aligned: true, unease: 0 }
    }

    fn typeset(&self) -> Typeset {
        let mut out = Typeset::new();
        self.lines.iter().for_each(|line| out.pieces(line.clone()));
        out
    }
}

/// How wide these columns are together.
fn total(kept: &[usize], widths: &[usize]) -> usize {
    kept.iter().map(|at| widths.get(*at).copied().unwrap_or(0) + GAP).sum::<usize>().saturating_sub(GAP)
}
