//! A bar for each week, in two parts: a filled one of which there is an outlined whole.

pub(in crate::present::html) use super::axis::Words;
use super::axis::{LEFT, RIGHT, figure, label_below, lines_across};
use super::groups::placed;
use super::scale::{Scale, px, ticks};
use maud::{Markup, html};

const HEIGHT: f64 = 176.0;
const TOP: f64 = 20.0;
const BOTTOM: f64 = 132.0;

/// A bar.
pub(in crate::present::html) struct Bar {
    /// What stands below it.
    pub(in crate::present::html) label: String,
    /// Bars that follow one another with the same name stand under it together.
    pub(in crate::present::html) group: String,
    /// The whole.
    pub(in crate::present::html) whole: u32,
    /// The part of it that is filled.
    pub(in crate::present::html) part: u32,
}

/// Draws bars; `top` is the value that the tallest of several plots has, so that they can be held against each other.
pub(in crate::present::html) fn bars(words: &Words, bars: &[Bar], top: u32) -> Markup {
    let high = f64::from(top.max(1));
    let up = Scale::new((0.0, high), (BOTTOM, TOP));
    let (groups, room) = placed(bars, |bar| &bar.group, 0.6);
    let width = (room * 0.72).min(34.0);
    let drawing = html! {
        (lines_across(&up, RIGHT, &ticks(0.0, high, 4), |tick| format!("{tick}")))
        @for group in &groups {
            @for (middle, bar) in &group.things {
                @let left = px(middle - width / 2.0);
                @let (whole, part) = (up.at(f64::from(bar.whole)), up.at(f64::from(bar.part)));
                @if bar.whole > 0 {
                    rect.whole x=(left) y=(px(whole)) width=(px(width)) height=(px(BOTTOM - whole)) {}
                }
                @if bar.part > 0 {
                    rect.part x=(left) y=(px(part)) width=(px(width)) height=(px(BOTTOM - part)) {}
                }
                (label_below(*middle, whole - 5.0, "value", &bar.whole.to_string()))
                (label_below(*middle, BOTTOM + 16.0, "tick", &bar.label))
            }
            (group.label(BOTTOM + 23.0))
        }
        line.axis x1=(px(LEFT)) x2=(px(RIGHT)) y1=(px(BOTTOM)) y2=(px(BOTTOM)) {}
    };
    figure(words, HEIGHT, &drawing, &html! {})
}
