//! The axes round a canvas, and what stands under it: dates, blocks, test days and meets.

use super::canvas::Canvas;
use super::dates::{Dates, Tick};
use super::glyphs::Glyphs;
use super::scale::Scale;
use crate::analysis::strength::course::{LightKind, MeetDay, Span};
use crate::history::{Mark, MeetKind};
use crate::present::doc::width;
use crate::present::{Role, Typeset, wording};
use chrono::{Datelike, NaiveDate};

/// The room on the left for the words of a strip.
const LEAST_MARGIN: usize = 5;

/// Rows of a canvas, about: high enough for a block's change to be seen, low enough to be seen at once.
const ROWS: usize = 12;

/// The steps of an axis of numbers.
pub(super) const STEPS: usize = 7;

/// Blocks that are nearer than this to each other are not marked.
const LEAST_BLOCK: usize = 3;

/// How many test days and meets are told of in words.
const MOST_EVENTS: usize = 6;

/// Words at their columns.
pub(super) type Words = Vec<(usize, String)>;

/// Blocks at the columns that they start in.
pub(super) type Blocks<'s> = Vec<(usize, &'s Span)>;

/// A plot being made.
pub(super) struct Frame {
    pub(super) glyphs: Glyphs,
    pub(super) scale: Scale,
    pub(super) canvas: Canvas,
    screen: usize,
    margin: usize,
}

impl Frame {
    /// An empty canvas with the numbers of its axis on the left, as wide as the screen.
    pub(super) fn new(scale: Scale, screen: usize, glyphs: Glyphs) -> Self {
        Frame::of_rows(ROWS, scale, screen, glyphs)
    }

    /// The same with about so many rows.
    pub(super) fn of_rows(rows: usize, scale: Scale, screen: usize, glyphs: Glyphs) -> Self {
        let label = scale.ticks().map(|tick| scale.label(tick).len()).max().unwrap_or(0);
        let margin = label.max(LEAST_MARGIN) + 2;
        // A whole number of rows for each step, so that ticks stand where they belong.
        let each = ((rows + scale.steps() / 2) / scale.steps()).max(1);
        let canvas = Canvas::new(screen.saturating_sub(margin), scale.steps() * each + 1, glyphs);
        Frame { glyphs, scale, canvas, screen, margin }
    }

    /// The canvas with the axis of numbers, and the axis below with ticks at some columns.
    pub(super) fn draw(&self, out: &mut Typeset, unit: &str, ticks: &[usize]) {
        let (at_tick, beside) = self.glyphs.side();
        let room = self.margin - 2;
        out.line(Role::Place, format!("{unit:>room$}"));
        let each = (self.canvas.rows() - 1) / self.scale.steps().max(1);
        let mut labels = self.scale.ticks().collect::<Vec<f64>>().into_iter().rev();
        for row in 0..self.canvas.rows() {
            let label = if row.is_multiple_of(each.max(1)) { labels.next() } else { None };
            let label_text = label.map_or_else(String::new, |tick| self.scale.label(tick));
            let axis = if label.is_some() { at_tick } else { beside };
            let mut pieces = vec![(Role::Place, format!("{label_text:>room$} {axis}"))];
            pieces.extend(self.canvas.line(row));
            out.pieces(pieces);
        }
        let (corner, tick, between) = self.glyphs.floor();
        let floor = (0..self.canvas.columns()).map(|column| if ticks.contains(&column) { tick } else { between });
        let line: String = floor.collect();
        out.line(Role::Place, format!("{}{corner}{line}", " ".repeat(self.margin - 1)));
    }

    /// The canvas with its axes, of numbers and of dates; below them, where there are any, the dates and the blocks in words.
    pub(super) fn drawn(&self, unit: &str, dates: &Dates, blocks: Option<&Blocks<'_>>) -> Typeset {
        let mut out = Typeset::new();
        let (ticks, words) = self.date_ticks(dates);
        self.draw(&mut out, unit, &ticks);
        if let Some(blocks) = blocks {
            self.figures(&mut out, "", Role::Place, &words);
            let names: Words = blocks.iter().map(|(column, span)| (*column, span.name.clone())).collect();
            self.names(&mut out, "block", Role::Plain, &names);
        }
        out
    }

    /// Deload and peak weeks, test days and meets below the axes; and what the signs of the plot mean, of which `starts` tells
    /// the one where a block starts. `all`: how many blocks there are, marked or not.
    pub(super) fn signs(
        &self,
        out: &mut Typeset,
        dates: &Dates,
        (blocks, all, starts): (&Blocks<'_>, usize, &str),
        meets: &[MeetDay],
    ) -> Vec<String> {
        let light = self.light_weeks(dates, blocks);
        self.figures(out, "week", Role::Place, &light);
        self.figures(out, "day", Role::Answer, &self.events(dates, meets));
        let mut legend = Vec::new();
        if !blocks.is_empty() {
            legend.push(format!("{} {starts}", self.glyphs.rule()));
        } else if all > 1 {
            legend.push("blocks are too many to mark: --since shows fewer".into());
        }
        if !light.is_empty() {
            legend.push("d, p: deload and peak weeks".into());
        }
        if !meets.is_empty() {
            let (test_day, meet) = self.glyphs.events();
            legend.push(format!("{test_day} test day, {meet} meet"));
        }
        legend
    }

    /// A line of words at columns, with a word for it on the left. A name that would run into its neighbour is cut.
    pub(super) fn names(&self, out: &mut Typeset, title: &str, role: Role, items: &[(usize, String)]) {
        self.strip(out, title, role, items, |text, room| self.glyphs.fitted(text, room));
    }

    /// The same for what says something else when it is cut: it is left out.
    pub(super) fn figures(&self, out: &mut Typeset, title: &str, role: Role, items: &[(usize, String)]) {
        let whole = |text: &str, room| if width(text) <= room { text.to_owned() } else { String::new() };
        self.strip(out, title, role, items, whole);
    }

    fn strip(
        &self,
        out: &mut Typeset,
        title: &str,
        role: Role,
        items: &[(usize, String)],
        fitted: impl Fn(&str, usize) -> String,
    ) {
        let mut line = String::new();
        for (at, (column, text)) in items.iter().enumerate() {
            let end = items.get(at + 1).map_or(self.canvas.columns(), |(next, _)| next.saturating_sub(1));
            let used = width(&line);
            let Some(blanks) = column.checked_sub(used) else { continue };
            let text = fitted(text, end.saturating_sub(*column));
            line.push_str(&" ".repeat(blanks));
            line.push_str(&text);
        }
        if !line.trim().is_empty() {
            let room = self.margin - 2;
            out.pieces(vec![(Role::Place, format!("{title:>room$}  ")), (role, line)]);
        }
    }

    /// The column of a day.
    pub(super) fn column(&self, dates: &Dates, date: NaiveDate) -> usize {
        self.canvas.across(dates.position(date)) / 2
    }

    /// The row of a number.
    pub(super) fn row(&self, number: f64) -> usize {
        self.canvas.down(self.scale.position(number)) / 4
    }

    /// The finest ticks whose words have room, each with the column of its words; else the ends.
    fn date_ticks(&self, dates: &Dates) -> (Vec<usize>, Words) {
        let placed = dates.ticks().filter(|ticks| ticks.len() > 1).find_map(|ticks| {
            let one_year = ticks.first().map(|tick| tick.date.year()) == ticks.last().map(|tick| tick.date.year());
            let short = || self.placed(dates, &ticks, |tick| &tick.short).filter(|_| one_year);
            self.placed(dates, &ticks, |tick| &tick.label).or_else(short)
        });
        if let Some(placed) = placed {
            return placed;
        }
        let (first, last) = (dates.first().to_string(), dates.last().to_string());
        let columns = self.canvas.columns();
        let mut words = vec![(0, first.clone())];
        if first.len() + last.len() + 2 <= columns {
            words.push((columns - last.len(), last));
        }
        (vec![0, columns - 1], words)
    }

    fn placed(&self, dates: &Dates, ticks: &[Tick], label: impl Fn(&Tick) -> &String) -> Option<(Vec<usize>, Words)> {
        let columns = self.canvas.columns();
        let mut free = 0;
        let mut words = Vec::new();
        for tick in ticks {
            let column = self.column(dates, tick.date);
            let label = label(tick);
            let start = column.min(columns.checked_sub(label.len())?);
            if start < free {
                return None;
            }
            free = start + label.len() + 2;
            words.push((start, label.clone()));
        }
        Some((ticks.iter().map(|tick| self.column(dates, tick.date)).collect(), words))
    }

    /// The columns of the blocks that begin on the axis or before it; none where they stand too close to be told apart.
    pub(super) fn blocks<'s>(&self, dates: &Dates, spans: &'s [Span]) -> Blocks<'s> {
        let shown = spans.iter().filter(|span| span.starts <= dates.last());
        let columns: Blocks<'s> = shown.map(|span| (self.column(dates, span.starts), span)).collect();
        let close = columns.len() > 1 && self.canvas.columns() / columns.len() < LEAST_BLOCK;
        if close { Vec::new() } else { columns }
    }

    /// Marks where blocks start.
    pub(super) fn rules(&mut self, blocks: &[(usize, &Span)], dates: &Dates) {
        for (column, span) in blocks {
            if span.starts > dates.first() {
                self.canvas.rule(*column);
            }
        }
    }

    /// The deload and peak weeks, by a word or a letter.
    fn light_weeks(&self, dates: &Dates, blocks: &[(usize, &Span)]) -> Words {
        let weeks = blocks.iter().flat_map(|(_, span)| &span.light);
        let shown = weeks.filter(|week| week.ends >= dates.first() && week.starts <= dates.last());
        let words = shown.map(|week| {
            let start = self.column(dates, week.starts);
            let room = (self.column(dates, week.ends) + 1).saturating_sub(start);
            let (word, letter) = match week.kind {
                LightKind::Deload => ("deload", "d"),
                LightKind::Peak => ("peak", "p"),
            };
            (start, if word.len() <= room { word } else { letter }.to_owned())
        });
        words.collect()
    }

    /// The signs of test days and meets at their columns.
    fn events(&self, dates: &Dates, meets: &[MeetDay]) -> Words {
        let sign = |meet: &MeetDay| (self.column(dates, meet.date), self.sign(meet.kind).to_string());
        meets.iter().map(sign).collect()
    }

    /// The sign of a test day or meet.
    pub(super) fn sign(&self, kind: MeetKind) -> char {
        let (test_day, meet) = self.glyphs.events();
        match kind {
            MeetKind::TestDay => test_day,
            MeetKind::Meet => meet,
        }
    }

    /// What the signs mean, and what was lifted on those days: the last ones.
    pub(super) fn tell(&self, out: &mut Typeset, legend: &[String], meets: &[MeetDay]) {
        out.wrapped(Role::Place, &legend.join("; "), self.screen, 2);
        let lifted: Vec<(&MeetDay, &Mark)> =
            meets.iter().filter_map(|meet| Some((meet, &meet.lifted.as_ref()?.mark))).collect();
        let skipped = lifted.len().saturating_sub(MOST_EVENTS);
        for (meet, mark) in lifted.into_iter().skip(skipped) {
            let lifted = wording::mark(mark);
            let title = self.glyphs.fitted(&meet.title, self.screen / 2);
            let words =
                format!("{} {} {title}: {}", self.sign(meet.kind), wording::date(meet.date), self.glyphs.safe(&lifted));
            out.wrapped(Role::Plain, &words, self.screen, 2);
        }
        if skipped > 0 {
            out.wrapped(
                Role::Place,
                &format!("and {} before", wording::count(skipped as u64, "such day")),
                self.screen,
                2,
            );
        }
    }
}
