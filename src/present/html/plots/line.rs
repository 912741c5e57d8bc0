//! A line over dates in its band, with what happened on some of them.

pub(in crate::present::html) use super::axis::Words;
use super::axis::{LEFT, RIGHT, figure, fitted, label_below, lines_across};
use super::scale::{Scale, dates, px, ticks};
use chrono::{Datelike, NaiveDate};
use maud::{Markup, html};

const HEIGHT: f64 = 216.0;
const TOP: f64 = 26.0;
const BOTTOM: f64 = 184.0;

/// Room to the right of the line for the last value.
const LAST: f64 = 52.0;

/// A date of the line.
#[derive(Clone, Copy)]
pub(in crate::present::html) struct Dot {
    /// The date.
    pub(in crate::present::html) date: NaiveDate,
    /// The low end of the band.
    pub(in crate::present::html) low: f64,
    /// The line.
    pub(in crate::present::html) middle: f64,
    /// The high end of the band.
    pub(in crate::present::html) high: f64,
}

/// Something that happened. Its name stands beside the plot: in it, names would cover the line.
pub(in crate::present::html) struct Event {
    /// The date.
    pub(in crate::present::html) date: NaiveDate,
    /// The value that it reached; nothing where it has none.
    pub(in crate::present::html) value: Option<f64>,
}

/// What is drawn.
pub(in crate::present::html) struct Course {
    /// The dates of the line, in order of time.
    pub(in crate::present::html) dots: Vec<Dot>,
    /// Where something begins, in order of time, and its name.
    pub(in crate::present::html) begins: Vec<(NaiveDate, String)>,
    /// What happened, in order of time.
    pub(in crate::present::html) events: Vec<Event>,
    /// The last day that is drawn.
    pub(in crate::present::html) until: NaiveDate,
    /// What stands at the end of the line, and below that.
    pub(in crate::present::html) last: (String, String),
}

/// Draws a line in its band.
pub(in crate::present::html) fn line(words: &Words, course: &Course, below: &Markup) -> Markup {
    let Some(first) = course.dots.first() else { return html! {} };
    let from = first.date;
    let across = Scale::new((day(from), day(course.until)), (LEFT + 6.0, RIGHT - LAST));
    let x = |date: NaiveDate| across.at(day(date));
    let values = course.dots.iter().flat_map(|dot| [dot.low, dot.high]);
    let values = values.chain(course.events.iter().filter_map(|event| event.value));
    let (low, high) =
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
    let room = ((high - low) * 0.06).max(0.5);
    let up = Scale::new((low - room, high + room), (BOTTOM, TOP));
    let path = |value: fn(&Dot) -> f64| -> Vec<String> {
        course.dots.iter().map(|dot| format!("{},{}", px(x(dot.date)), px(up.at(value(dot))))).collect()
    };
    let (lows, middles, highs) = (path(|dot| dot.low), path(|dot| dot.middle), path(|dot| dot.high));
    let band: Vec<&str> = highs.iter().chain(lows.iter().rev()).map(String::as_str).collect();
    let drawing = html! {
        polygon.band points=(band.join(" ")) {}
        (lines_across(&up, RIGHT - LAST, &ticks(low - room, high + room, 5), |tick| format!("{tick}")))
        @for tick in dates(from, course.until, 5) {
            (label_below(x(tick.date), BOTTOM + 18.0, "tick", &tick.short))
            line.axis x1=(px(x(tick.date))) x2=(px(x(tick.date))) y1=(px(BOTTOM)) y2=(px(BOTTOM + 4.0)) {}
        }
        line.axis x1=(px(LEFT)) x2=(px(RIGHT - LAST)) y1=(px(BOTTOM)) y2=(px(BOTTOM)) {}
        (begins(course, from, &x))
        polyline.edge points=(lows.join(" ")) {}
        polyline.edge points=(highs.join(" ")) {}
        polyline.curve points=(middles.join(" ")) {}
        @for dot in &course.dots { circle.done cx=(px(x(dot.date))) cy=(px(up.at(dot.middle))) r="2.2" {} }
        @for event in course.events.iter().filter(|event| event.date >= from) {
            (happened(x(event.date), event.value.map_or(BOTTOM, |value| up.at(value))))
        }
        @if let Some(dot) = course.dots.last() {
            text.value x=(px(x(dot.date) + 7.0)) y=(px(up.at(dot.middle) + 4.0)) { (course.last.0) }
            text.tick x=(px(x(dot.date) + 7.0)) y=(px(up.at(dot.middle) + 18.0)) { (course.last.1) }
        }
    };
    figure(words, HEIGHT, &drawing, below)
}

fn day(date: NaiveDate) -> f64 {
    f64::from(date.num_days_from_ce())
}

/// A dashed line where something begins, and its name above where it has room.
fn begins(course: &Course, from: NaiveDate, x: &impl Fn(NaiveDate) -> f64) -> Markup {
    let next = course.begins.iter().skip(1).map(|(date, _)| x(*date)).chain([RIGHT - LAST + 14.0]);
    html! {
        @for ((date, name), next) in course.begins.iter().zip(next) {
            @let at = x((*date).max(from));
            @if *date >= from { line.block x1=(px(at)) x2=(px(at)) y1=(px(TOP - 14.0)) y2=(px(BOTTOM)) {} }
            text.tick x=(px(at + 3.0)) y=(px(TOP - 6.0)) { (fitted(name, next - at - 5.0)) }
        }
    }
}

/// A diamond.
fn happened(x: f64, y: f64) -> Markup {
    let points = [(0.0, -5.5), (5.5, 0.0), (0.0, 5.5), (-5.5, 0.0)];
    let points: Vec<String> =
        points.iter().map(|(right, down)| format!("{},{}", px(x + right), px(y + down))).collect();
    html! { polygon.meet points=(points.join(" ")) {} }
}
