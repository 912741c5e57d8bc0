//! Planned ranges, one after the other, each with what was done in it, above it or below it.

pub(in crate::present::html) use super::axis::Words;
use super::axis::{RIGHT, figure, lines_across};
use super::groups::placed;
use super::scale::{Scale, px, ticks};
use maud::{Markup, html};

const HEIGHT: f64 = 176.0;
const TOP: f64 = 14.0;
const BOTTOM: f64 = 144.0;

/// How what was done stands to its range.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::present::html) enum Stands {
    /// Below it.
    Under,
    /// In it.
    On,
    /// Above it.
    Over,
}

/// A planned range.
pub(in crate::present::html) struct Range {
    /// Ranges that follow one another with the same name stand under it together.
    pub(in crate::present::html) group: String,
    /// Its low end.
    pub(in crate::present::html) low: f64,
    /// Its high end.
    pub(in crate::present::html) high: f64,
    /// What was done; nothing where that is not known.
    pub(in crate::present::html) done: Option<(f64, Stands)>,
}

/// Draws ranges on a scale that reaches from `bounds.0` to `bounds.1`.
pub(in crate::present::html) fn ranges(words: &Words, ranges: &[Range], bounds: (f64, f64)) -> Markup {
    let up = Scale::new(bounds, (BOTTOM, TOP));
    let (groups, room) = placed(ranges, |range| &range.group, 0.5);
    let width = (room * 0.6).min(26.0);
    let drawing = html! {
        (lines_across(&up, RIGHT, &ticks(bounds.0, bounds.1, 5), |tick| format!("{tick}")))
        @for group in &groups {
            @for (middle, range) in &group.things {
                // A plan of one value is a range, too; it would be no taller than a line.
                @let (top, bottom) = (up.at(range.high) - 3.0, up.at(range.low) + 3.0);
                rect.planned x=(px(middle - width / 2.0)) y=(px(top)) width=(px(width)) height=(px(bottom - top)) rx="3" {}
                @if let Some((done, stands)) = range.done { (sign(*middle, up.at(done), stands)) }
            }
            (group.label(BOTTOM + 10.0))
        }
    };
    figure(words, HEIGHT, &drawing, &html! {})
}

/// A dot in the range, a triangle that points up above it, one that points down below it.
fn sign(x: f64, y: f64, stands: Stands) -> Markup {
    let triangle = |up: f64| {
        let (tip, foot) = (y - 6.0 * up, y + 4.5 * up);
        format!("{},{} {},{} {},{}", px(x), px(tip), px(x + 5.5), px(foot), px(x - 5.5), px(foot))
    };
    html! {
        @match stands {
            Stands::On => circle.done cx=(px(x)) cy=(px(y)) r="4.2" {},
            Stands::Over => polygon.over points=(triangle(1.0)) {},
            Stands::Under => polygon.under points=(triangle(-1.0)) {},
        }
    }
}
