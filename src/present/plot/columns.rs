//! A column a week, or whatever follows in time, with the blocks below.

use super::bars::{eighths, part_cells};
use super::frame::{Frame, STEPS};
use super::glyphs::Glyphs;
use super::scale::Scale;
use super::svg::{Area, LEFT, RIGHT, figure, label_below, placed, px};
use crate::present::doc::{Links, Picture};
use crate::present::{Role, Typeset, wording};
use maud::{Markup, html};

const HEIGHT: f64 = 160.0;
const TOP: f64 = 32.0;
const BOTTOM: f64 = 116.0;

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// What it stands in with its neighbours; a rule parts it from another.
    pub group: String,
    /// What stands below it on a page.
    pub label: String,
    /// How high it is; nothing below 0.
    pub whole: f64,
    /// How much of that is told apart, drawn below.
    pub part: f64,
    /// Whether more may come.
    pub so_far: bool,
}

/// What columns are of, and what is told apart in them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// Work a week, of which sets of so many reps or more are told apart.
    HighReps(u32),
    /// Sessions a week, of which those that were done are.
    Done,
    /// Sets of a block by how hard they were.
    Bands,
}

/// A column is at most so wide.
const WIDEST: usize = 6;

/// Columns side by side, with an axis of numbers.
#[derive(Clone, Debug)]
pub struct Columns {
    /// What they are of.
    pub title: String,
    /// The columns, in order of time.
    pub columns: Vec<Column>,
    /// The unit of their numbers.
    pub unit: &'static str,
    /// How far the axis reaches at least.
    pub top: f64,
    /// What they are of.
    pub told: Told,
    /// With which characters.
    pub glyphs: Glyphs,
}

impl Columns {
    /// What stands above a column.
    fn value(&self, column: &Column) -> String {
        match self.told {
            Told::Done if column.part < column.whole => format!("{:.0}/{:.0}", column.part, column.whole),
            _ => wording::thousands(column.whole),
        }
    }

    fn description(&self) -> String {
        let weeks = wording::count(self.columns.len() as u64, "week");
        let last = self.columns.last().map(|last| (last.whole, last.part, if last.so_far { " so far" } else { "" }));
        let (whole, part, so_far) = last.unwrap_or_default();
        match self.told {
            Told::HighReps(_) => format!(
                "Work {unit} a week over {weeks}. In the last of them {whole:.0} {unit}, {part:.0} of them high-rep{so_far}.",
                unit = self.unit
            ),
            Told::Done => {
                format!("Sessions a week over {weeks}. In the last of them {part:.0} of {whole:.0} done{so_far}.")
            }
            Told::Bands => {
                let words =
                    |column: &Column| format!("{:.0} at RPE {} in block {}", column.whole, column.label, column.group);
                format!("{}.", self.columns.iter().map(words).collect::<Vec<_>>().join(", "))
            }
        }
    }

    fn most(&self) -> f64 {
        self.columns.iter().map(|column| column.whole).fold(self.top, f64::max)
    }
}

impl Picture for Columns {
    /// Where there is no room for all, several share a drawn one, and that is the highest of them.
    fn draw(&self, screen: usize) -> Typeset {
        let mut frame = Frame::new(Scale::covering(0.0, self.most(), STEPS, true), screen, self.glyphs);
        let each = self.columns.len().div_ceil(frame.canvas.columns()).max(1);
        let highest = |several: &[Column]| {
            let highest = several.iter().max_by(|one, other| one.whole.total_cmp(&other.whole))?;
            let first = several.first()?;
            Some(Column { group: first.group.clone(), ..highest.clone() })
        };
        let drawn: Vec<Column> = self.columns.chunks(each).filter_map(highest).collect();
        let stride = (frame.canvas.columns() / drawn.len().max(1)).clamp(1, WIDEST);
        let thick = if stride > 2 { stride - 1 } else { stride };
        for (at, column) in drawn.iter().enumerate() {
            for across in at * stride..at * stride + thick {
                raise(&mut frame, across, column);
            }
        }
        let mut groups: Vec<(usize, String)> = Vec::new();
        for (at, column) in drawn.iter().enumerate() {
            let before = at.checked_sub(1).and_then(|before| drawn.get(before));
            if before.is_none_or(|before| before.group != column.group) {
                groups.push((at * stride, column.group.clone()));
            }
        }
        let mut out = Typeset::new();
        // Where a column is several weeks, it may be several blocks too.
        let groups = if each == 1 { groups } else { Vec::new() };
        let starts: Vec<usize> = groups.iter().map(|(column, _)| *column).collect();
        frame.draw(&mut out, self.unit, &starts);
        frame.names(&mut out, "block", Role::Plain, &groups);
        if each > 1 {
            let words = format!("a column is {each} weeks: the highest of them; --since shows fewer");
            out.wrapped(Role::Place, &words, screen, 2);
        }
        out
    }

    fn key(&self) -> Markup {
        let Told::HighReps(reps) = self.told else { return Markup::default() };
        html! {
            p.soft {
                "Work " (self.unit) " a week. " span.key { span.swatch.part {} "filled" } ": of " (reps) " reps or more. "
                span.key { span.swatch.whole {} "outlined" } ": the others. * a deload or peak week."
            }
        }
    }

    fn html(&self, links: &Links) -> Markup {
        let area = Area { top: TOP, bottom: BOTTOM, right: RIGHT, scale: Scale::covering(0.0, self.most(), 4, true) };
        let (groups, room) = placed(&self.columns, |column| &column.group, 0.6);
        let width = (room * 0.72).min(34.0);
        let drawing = html! {
            (area.lines())
            @for group in &groups {
                @for (middle, column) in &group.things {
                    @let left = px(middle - width / 2.0);
                    @let top = area.y(column.whole);
                    @for (style, number) in [("whole", column.whole), ("part", column.part)] {
                        @if number > 0.0 {
                            @let y = area.y(number);
                            rect class=(style) x=(left) y=(px(y)) width=(px(width)) height=(px(BOTTOM - y)) {}
                        }
                    }
                    (label_below(*middle, top - 5.0, "value", &self.value(column)))
                    (label_below(*middle, BOTTOM + 16.0, "tick", &column.label))
                    @if column.so_far {
                        text.tick x=(px(middle + width / 2.0)) y=(px(TOP - 20.0)) text-anchor="end" { "so far" }
                    }
                }
                (group.label("block ", BOTTOM + 23.0))
            }
            line.axis x1=(px(LEFT)) x2=(px(RIGHT)) y1=(px(BOTTOM)) y2=(px(BOTTOM)) {}
        };
        let below = match self.told {
            Told::HighReps(_) => Markup::default(),
            Told::Done => html! {
                p.below {
                    span.key { span.swatch.part {} "filled" } ": done. " span.key { span.swatch.whole {} "outlined" } ": planned, not done."
                }
            },
            Told::Bands => html! { p.below { "Of each RPE and up to the next; sets without one are not drawn." } },
        };
        figure(links, &self.title, &self.description(), HEIGHT, &drawing, &below)
    }
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
