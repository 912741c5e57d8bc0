//! A row a thing, with a mark for each of its days.

use super::dates::Dates;
use super::glyphs::Glyphs;
use super::svg::{Days, LEFT, RIGHT, figure, fitted, px};
use crate::analysis::strength::axis::Span;
use crate::present::doc::{Links, Picture};
use crate::present::{Role, Typeset, wording};
use chrono::NaiveDate;
use maud::{Markup, html};

const TOP: f64 = 26.0;
const ROW: f64 = 26.0;

/// Days of things.
#[derive(Clone, Debug)]
pub struct Strip {
    /// What the days are.
    pub title: String,
    /// Each thing with its days, in order of time.
    pub rows: Vec<(String, Vec<NaiveDate>)>,
    /// The first day and the last of the axis, so that neighbours have the same.
    pub ends: (NaiveDate, NaiveDate),
    /// The blocks on it.
    pub blocks: Vec<Span>,
    /// With which characters.
    pub glyphs: Glyphs,
}

impl Strip {
    fn dates(&self) -> Dates {
        Dates::covering(self.ends.0, self.ends.1)
    }

    /// The days on the axis, and how many lie before it.
    fn days<'d>(&self, days: &'d [NaiveDate]) -> (impl Iterator<Item = NaiveDate> + 'd, usize) {
        let (first, last) = self.ends;
        let before = days.iter().filter(|day| **day < first).count();
        (days.iter().copied().filter(move |day| (first..=last).contains(day)), before)
    }
}

impl Picture for Strip {
    fn draw(&self, screen: usize) -> Typeset {
        let mut out = Typeset::new();
        let dates = self.dates();
        let (names, for_names) = self.glyphs.names(self.rows.iter().map(|(name, _)| name.as_str()), screen);
        let room = screen.saturating_sub(for_names).max(2);
        for (name, (_, days)) in names.into_iter().zip(&self.rows) {
            let mut line = vec![self.glyphs.floor().2; room];
            for day in self.days(days).0 {
                let at = (dates.position(day) * (room - 1) as f64).round() as usize;
                if let Some(cell) = line.get_mut(at.min(room - 1)) {
                    *cell = self.glyphs.alone();
                }
            }
            out.pieces(vec![(Role::Answer, name), (Role::Plot, line.into_iter().collect())]);
        }
        out
    }

    fn html(&self, links: &Links) -> Markup {
        let axis = Days { dates: self.dates(), end: RIGHT - 6.0 };
        let bottom = TOP + ROW * self.rows.len() as f64;
        let drawing = html! {
            (axis.blocks(&self.blocks, (TOP, bottom), RIGHT, false))
            @for (nth, (name, days)) in self.rows.iter().enumerate() {
                @let y = TOP + ROW * nth as f64 + 22.0;
                @let (shown, before) = self.days(days);
                line.grid x1=(px(LEFT)) x2=(px(RIGHT)) y1=(px(y)) y2=(px(y)) {}
                text.row x=(px(LEFT)) y=(px(y - 8.0)) { (fitted(name, 190.0)) }
                @if before > 0 {
                    text.tick x=(px(RIGHT)) y=(px(y - 8.0)) text-anchor="end" { (before) " before" }
                }
                @for day in shown { circle.done cx=(px(axis.x(day))) cy=(px(y)) r="3.5" {} }
            }
            @for tick in axis.ticks() { (axis.label(&tick, bottom)) }
        };
        let said = |(name, days): &(String, Vec<NaiveDate>)| {
            let last = days.last().map_or(String::new(), |day| format!(", the last on {}", wording::day(*day)));
            format!("{name}: {}{last}", wording::count(days.len() as u64, "day"))
        };
        let description = format!("{}.", self.rows.iter().map(said).collect::<Vec<_>>().join("; "));
        figure(links, &self.title, &description, bottom + 26.0, &drawing, &html! {})
    }
}
