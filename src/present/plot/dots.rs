//! Numbers over dates, joined or by themselves: what a lifter weighs, sleeps, suffers.

use super::dates::Dates;
use super::frame::Frame;
use super::glyphs::Glyphs;
use super::scale::Scale;
use super::svg::{Area, Days, RIGHT, figure, points, px};
use crate::analysis::strength::axis::Span;
use crate::present::doc::{Links, Picture};
use crate::present::{Role, Typeset, wording};
use chrono::NaiveDate;
use maud::{Markup, html};

/// Days further apart are not joined: what lay between them is not known.
const JOINED_DAYS: i64 = 4 * 7;

/// The steps of the axis of numbers.
const STEPS: usize = 3;

const HEIGHT: f64 = 126.0;
const TOP: f64 = 26.0;
const BOTTOM: f64 = 102.0;

/// A number on a date.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// The date.
    pub date: NaiveDate,
    /// The number.
    pub value: f64,
    /// The letter that stands there; a dot where there is none.
    pub sign: Option<char>,
}

/// Numbers over dates.
#[derive(Clone, Debug)]
pub struct Dots {
    /// What they are.
    pub title: String,
    /// Their unit.
    pub unit: &'static str,
    /// The numbers, in order of time.
    pub points: Vec<Point>,
    /// Whether the axis begins at zero.
    pub from_zero: bool,
    /// The first day and the last of the axis, so that neighbours have the same.
    pub ends: (NaiveDate, NaiveDate),
    /// The blocks on it.
    pub blocks: Vec<Span>,
    /// Whether days near each other are joined by a line.
    pub joined: bool,
    /// Whether a screen has the dates below: of plots below one another the last one.
    pub dated: bool,
    /// With which characters.
    pub glyphs: Glyphs,
}

/// Rows of a plot on a screen, about: several stand below one another.
const ROWS: usize = 4;

impl Dots {
    fn scale(&self) -> Scale {
        let ends = self
            .points
            .iter()
            .fold((f64::MAX, f64::MIN), |(low, high), point| (low.min(point.value), high.max(point.value)));
        Scale::covering(if self.from_zero { 0.0 } else { ends.0 }, ends.1, STEPS, false)
    }

    fn runs(&self) -> impl Iterator<Item = &[Point]> {
        let near = |from: &Point, to: &Point| (to.date - from.date).num_days() <= JOINED_DAYS;
        self.points.chunk_by(move |from, to| self.joined && near(from, to))
    }
}

impl Picture for Dots {
    fn draw(&self, screen: usize) -> Typeset {
        let dates = Dates::covering(self.ends.0, self.ends.1);
        let mut frame = Frame::of_rows(ROWS, self.scale(), screen, self.glyphs);
        let blocks = frame.blocks(&dates, &self.blocks);
        frame.rules(&blocks, &dates);
        let at = |frame: &Frame, point: &Point| {
            let down = frame.canvas.down(frame.scale.position(point.value));
            (frame.canvas.across(dates.position(point.date)), down)
        };
        for run in self.runs() {
            for pair in run.windows(2) {
                if let [from, to] = pair {
                    let (from, to) = (at(&frame, from), at(&frame, to));
                    frame.canvas.segment(from, to);
                }
            }
        }
        for point in &self.points {
            let (across, down) = at(&frame, point);
            let sign = point.sign.filter(char::is_ascii).unwrap_or(self.glyphs.alone());
            frame.canvas.mark(across / 2, down / 4, sign, Role::Plot);
        }
        frame.drawn(&format!("{}, {}", self.title, self.unit), &dates, self.dated.then_some(&blocks))
    }

    fn html(&self, links: &Links) -> Markup {
        let area = Area { top: TOP, bottom: BOTTOM, right: RIGHT, scale: self.scale() };
        let axis = Days { dates: Dates::covering(self.ends.0, self.ends.1), end: RIGHT - 6.0 };
        let drawing = html! {
            (area.lines())
            @for tick in axis.ticks() { (axis.label(&tick, BOTTOM)) }
            (axis.blocks(&self.blocks, (TOP, BOTTOM), RIGHT, false))
            @for run in self.runs() {
                @if run.len() > 1 {
                    polyline.curve points=(points(run.iter().map(|point| (axis.x(point.date), area.y(point.value))))) {}
                }
            }
            @for point in &self.points {
                @let (x, y) = (axis.x(point.date), area.y(point.value));
                circle.done cx=(px(x)) cy=(px(y)) r="3" {}
            }
        };
        let title = format!("{}, {}", self.title, self.unit);
        figure(links, &title, &self.description(), HEIGHT, &drawing, &html! {})
    }
}

impl Dots {
    fn description(&self) -> String {
        let said = |point: &Point| format!("{} on {}", point.value, wording::day(point.date));
        match self.points.as_slice() {
            [] => String::new(),
            [only] => format!("{}.", said(only)),
            [first, .., last] => format!("From {} to {}.", said(first), said(last)),
        }
    }
}
