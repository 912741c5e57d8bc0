//! Planned ranges, one after the other, each with what was done in it, above it or below it: for pages.

use super::scale::Scale;
use super::svg::{Area, RIGHT, figure, placed, points, px};
use crate::present::Typeset;
use crate::present::doc::{Links, Picture};
use crate::present::wording;
use maud::{Markup, html};
use std::cmp::Ordering;

const HEIGHT: f64 = 176.0;
const TOP: f64 = 14.0;
const BOTTOM: f64 = 144.0;

/// A planned range.
#[derive(Clone, Debug)]
pub struct Range {
    /// Ranges that follow one another with the same name stand under it together.
    pub group: String,
    /// Its low end.
    pub low: f64,
    /// Its high end.
    pub high: f64,
    /// What was done, and how that stands to the range; nothing where it is not known.
    pub done: Option<(f64, Ordering)>,
}

/// The planned efforts of a lift.
#[derive(Clone, Debug)]
pub struct Ranges {
    /// The lift.
    pub title: String,
    /// Its efforts, in order of time.
    pub ranges: Vec<Range>,
    /// From where to where the axis reaches at least.
    pub bounds: (f64, f64),
}

impl Picture for Ranges {
    fn draw(&self, _: usize) -> Typeset {
        Typeset::new()
    }

    fn key(&self) -> Markup {
        html! {
            p.soft {
                "RPE planned and done, set group by set group. " span.key { span.swatch.planned {} "box" } ": planned. "
                "● done as planned, ▲ over, ▼ under; no sign: none written. Below them the week."
            }
        }
    }

    fn html(&self, links: &Links) -> Markup {
        let (low, high) = self.bounds;
        let area = Area { top: TOP, bottom: BOTTOM, right: RIGHT, scale: Scale::covering(low, high, 5, true) };
        let (groups, room) = placed(&self.ranges, |range| &range.group, 0.5);
        let width = (room * 0.6).min(26.0);
        let drawing = html! {
            (area.lines())
            @for group in &groups {
                @for (middle, range) in &group.things {
                    // A plan of one value is a range, too; it would be no taller than a line.
                    @let (top, bottom) = (area.y(range.high) - 3.0, area.y(range.low) + 3.0);
                    rect.planned x=(px(middle - width / 2.0)) y=(px(top)) width=(px(width)) height=(px(bottom - top)) rx="3" {}
                    @if let Some((done, stands)) = range.done { (sign(*middle, area.y(done), stands)) }
                }
                (group.label("", BOTTOM + 10.0))
            }
        };
        figure(links, &self.title, &self.description(), HEIGHT, &drawing, &html! {})
    }
}

impl Ranges {
    fn description(&self) -> String {
        let done = || self.ranges.iter().map(|range| range.done.map(|(_, stands)| stands));
        let count = |wanted| done().filter(|stands| *stands == wanted).count();
        format!(
            "Of {} {} as planned, {} over the plan, {} under it, {} not written.",
            wording::count(self.ranges.len() as u64, "planned effort"),
            count(Some(Ordering::Equal)),
            count(Some(Ordering::Greater)),
            count(Some(Ordering::Less)),
            count(None),
        )
    }
}

/// A dot in the range, a triangle that points up above it, one that points down below it.
fn sign(x: f64, y: f64, stands: Ordering) -> Markup {
    let triangle = |up: f64| points([(x, y - 6.0 * up), (x + 5.5, y + 4.5 * up), (x - 5.5, y + 4.5 * up)]);
    html! {
        @match stands {
            Ordering::Equal => circle.done cx=(px(x)) cy=(px(y)) r="4.2" {},
            Ordering::Greater => polygon.over points=(triangle(1.0)) {},
            Ordering::Less => polygon.under points=(triangle(-1.0)) {},
        }
    }
}
