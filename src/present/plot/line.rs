//! An estimate with its interval over dates.

use super::dates::Dates;
use super::frame::{Frame, STEPS};
use super::glyphs::Glyphs;
use super::scale::Scale;
use super::svg::{Area, Days, LEFT, RIGHT, figure, points, px};
use crate::analysis::strength::course::{Answer, Estimate, Lifted, MeetDay, Point, Span};
use crate::present::doc::{Links, Picture};
use crate::present::{Role, Typeset, wording};
use crate::training::{Amount, Mass};
use chrono::NaiveDate;
use maud::{Markup, html};

/// Dates further apart are not joined: with the drift that is reckoned with, the older one says little by then.
const JOINED_DAYS: i64 = 8 * 7;

/// On a page, from above.
const HEIGHT: f64 = 192.0;
const TOP: f64 = 26.0;
const BOTTOM: f64 = 164.0;

/// Room to the right of the line for the last value.
const LAST: f64 = 52.0;

/// An estimate over dates.
#[derive(Clone, Debug)]
pub struct Line {
    /// The dates.
    pub course: Answer,
    /// The first day and the last that a page shows, so that neighbours have the same.
    pub ends: (NaiveDate, NaiveDate),
    /// With which characters.
    pub glyphs: Glyphs,
}

impl Picture for Line {
    fn draw(&self, screen: usize) -> Typeset {
        line(&self.course, screen, self.glyphs).unwrap_or_default()
    }

    fn key(&self) -> Markup {
        html! {
            p.soft {
                "What could be lifted once, from clean sets of known effort, judged by today's curve. "
                span.key { span.swatch.band {} "band" } ": 80 % of such ranges hold the truth. "
                "Dashed: a block begins. ◇ a test day or meet: at the load of a single, else on the axis."
            }
        }
    }

    fn html(&self, links: &Links) -> Markup {
        let course = &self.course;
        let added = if course.added { ", added to the lifter's own weight" } else { "" };
        let title = format!("{}{added}, {}", course.lift, course.unit.word());
        figure(links, &title, &description(course), HEIGHT, &self.drawing(), &lifted(course, links))
    }
}

impl Line {
    fn drawing(&self) -> Markup {
        let Some((first, last)) = self.course.points.first().zip(self.course.points.last()) else { return html! {} };
        let number = |mass: Mass| mass.rounded_in(self.course.unit);
        let (low, high) = bounds(&self.course, &self.course.meets);
        let right = RIGHT - LAST;
        let area = Area { top: TOP, bottom: BOTTOM, right, scale: Scale::covering(low, high, 5, false) };
        let axis = Days { dates: Dates::covering(self.ends.0.min(first.date), self.ends.1), end: right };
        let at = |point: &Point, mass: Mass| (axis.x(point.date), area.y(number(mass)));
        let meets = self.course.meets.iter().filter(|meet| meet.date >= first.date);
        html! {
            @for run in runs(&self.course) {
                @let (highs, lows) = (run.iter().map(|point| at(point, point.estimate.high)), run.iter().map(|point| at(point, point.estimate.low)));
                @let middles = run.iter().map(|point| at(point, point.estimate.maximum));
                polygon.band points=(points(highs.clone().chain(lows.clone().rev()))) {}
                // A day by itself has no band, but an interval.
                @if run.len() == 1 { polyline.edge points=(points(highs.chain(lows))) {} }
                @else {
                    polyline.edge points=(points(lows)) {}
                    polyline.edge points=(points(highs)) {}
                    polyline.curve points=(points(middles.clone())) {}
                }
                @for (x, y) in middles { circle.done cx=(px(x)) cy=(px(y)) r="2.2" {} }
            }
            (area.lines())
            @for tick in axis.ticks() {
                (axis.label(&tick, BOTTOM))
                @let x = px(axis.x(tick.date));
                line.axis x1=(x) x2=(x) y1=(px(BOTTOM)) y2=(px(BOTTOM + 4.0)) {}
            }
            line.axis x1=(px(LEFT)) x2=(px(right)) y1=(px(BOTTOM)) y2=(px(BOTTOM)) {}
            (axis.blocks(&self.course.blocks, (TOP, BOTTOM), right + 14.0, true))
            @for meet in meets {
                @let y = meet.lifted.as_ref().filter(|lifted| single(lifted)).map_or(BOTTOM, |lifted| area.y(number(lifted.load)));
                @let x = axis.x(meet.date);
                polygon.meet points=(points([(x, y - 5.5), (x + 5.5, y), (x, y + 5.5), (x - 5.5, y)])) {}
            }
            @let (end, y) = at(last, last.estimate.maximum);
            text.value x=(px(end + 7.0)) y=(px(y + 4.0)) { (wording::estimated(last.estimate.maximum, self.course.unit)) }
            text.tick x=(px(end + 7.0)) y=(px(y + 18.0)) {
                (wording::bare(last.estimate.low, self.course.unit)) "–" (wording::bare(last.estimate.high, self.course.unit))
            }
        }
    }
}

/// From where to where the estimate went, in words.
fn description(course: &Answer) -> String {
    let unit = course.unit;
    let said = |Point { date, estimate, .. }: &Point| {
        let (low, high) = (wording::estimated(estimate.low, unit), wording::estimated(estimate.high, unit));
        format!("{} ({low} to {high}) on {}", wording::estimated(estimate.maximum, unit), wording::day(*date))
    };
    let meets = course.meets.iter().map(|meet| {
        let load = meet.lifted.as_ref().map_or("not lifted".into(), |lifted| wording::mass(lifted.load, unit));
        format!(" {}, {}: {load}.", meet.title, wording::day(meet.date))
    });
    let meets: String = meets.collect();
    match course.points.as_slice() {
        [] => String::new(),
        [only] => format!("Estimated maximum: {}.{meets}", said(only)),
        [first, .., last] => format!("Estimated maximum over dates, from {} to {}.{meets}", said(first), said(last)),
    }
}

/// What was lifted on test days and at meets: in the plot, names would cover the line.
fn lifted(course: &Answer, links: &Links) -> Markup {
    let lifted = course.meets.iter().filter_map(|meet| Some((meet, &meet.lifted.as_ref()?.mark)));
    let lifted: Vec<_> = lifted.collect();
    html! {
           @for (nth, (meet, mark)) in lifted.iter().enumerate() {
               @let work = wording::mark(mark);
    p class={ "below" @if nth + 1 < lifted.len() { " earlier" } } { "◇ " (meet.title) ", " (wording::date(meet.date)) ": " (work) " " (links.place(&mark.place)) }
           }
       }
}

/// The dates that are joined.
fn runs(course: &Answer) -> impl Iterator<Item = &[Point]> {
    course.points.chunk_by(|from, to| (to.date - from.date).num_days() <= JOINED_DAYS)
}

/// More reps than one say less than they could have been.
fn single(lifted: &Lifted) -> bool {
    lifted.mark.amount == Amount::Reps(1)
}

/// The lowest and the highest number that is drawn.
fn bounds(course: &Answer, meets: &[MeetDay]) -> (f64, f64) {
    let singles = meets.iter().filter_map(|meet| meet.lifted.as_ref()).filter(|lifted| single(lifted));
    let ends = course.points.iter().flat_map(|point| [point.estimate.low, point.estimate.high]);
    let all = ends.chain(singles.map(|lifted| lifted.load)).map(|mass| mass.rounded_in(course.unit));
    all.fold((f64::MAX, f64::MIN), |(low, high), one| (low.min(one), high.max(one)))
}

/// The plot; nothing without a date.
fn line(answer: &Answer, screen: usize, glyphs: Glyphs) -> Option<Typeset> {
    let (first, last) = (answer.points.first()?, answer.points.last()?);
    let number = |mass: Mass| mass.rounded_in(answer.unit);
    let meets: Vec<_> = answer.meets.iter().filter(|meet| meet.date <= last.date).cloned().collect();
    let (low, high) = bounds(answer, &meets);
    let dates = Dates::covering(first.date, last.date);
    let mut frame = Frame::new(Scale::covering(low, high, STEPS, false), screen, glyphs);
    let blocks = frame.blocks(&dates, &answer.blocks);
    frame.rules(&blocks, &dates);
    for run in runs(answer) {
        for pair in run.windows(2) {
            if let [from, to] = pair {
                join(&mut frame, &dates, from, to, number);
            }
        }
        if let [alone] = run {
            join(&mut frame, &dates, alone, alone, number);
            let row = frame.row(number(alone.estimate.maximum));
            let column = frame.column(&dates, alone.date);
            frame.canvas.mark(column, row, glyphs.alone(), Role::Plot);
        }
    }
    let parted = runs(answer).count() > 1;
    for meet in &meets {
        if let Some(lifted) = meet.lifted.as_ref().filter(|lifted| single(lifted)) {
            let row = frame.row(number(lifted.load));
            let column = frame.column(&dates, meet.date);
            frame.canvas.mark(column, row, frame.sign(meet.kind), Role::Answer);
        }
    }
    let mut out = frame.drawn(answer.unit.word(), &dates, Some(&blocks));
    let ends: Vec<(usize, String)> =
        blocks.iter().filter_map(|(column, span)| Some((*column, end_of(answer, span)?))).collect();
    frame.figures(&mut out, "end", Role::Answer, &ends);
    let (curve, interval) = glyphs.curve();
    let what = if answer.added { "estimated maximum, added to bodyweight" } else { "estimated maximum" };
    let mut legend = vec![format!("{curve} {what}"), format!("{interval} 80 % range")];
    let starts = (&blocks, answer.blocks.len(), "a block starts; end: the estimate at its last day");
    legend.extend(frame.signs(&mut out, &dates, starts, &meets));
    if parted {
        legend.push(format!("{} a day by itself", glyphs.alone()));
        legend.push("no line over more than 8 weeks without a rated set".into());
    }
    frame.tell(&mut out, &legend, &meets);
    Some(out)
}

/// The estimate and its interval between two dates.
fn join(frame: &mut Frame, dates: &Dates, from: &Point, to: &Point, number: impl Fn(Mass) -> f64) {
    let down = |frame: &Frame, mass: Mass| frame.canvas.down(frame.scale.position(number(mass)));
    let across = |frame: &Frame, date: NaiveDate| frame.canvas.across(dates.position(date));
    let (left, right) = (across(frame, from.date), across(frame, to.date));
    let ends = |frame: &Frame, pick: fn(&Estimate) -> Mass| {
        (down(frame, pick(&from.estimate)) as f64, down(frame, pick(&to.estimate)) as f64)
    };
    let (low, high) = (ends(frame, |of| of.low), ends(frame, |of| of.high));
    for column in left..=right {
        let share = if right > left { (column - left) as f64 / (right - left) as f64 } else { 1.0 };
        let at = |(one, other): (f64, f64)| (one + (other - one) * share).round().max(0.0) as usize;
        frame.canvas.shade(column, at(high), at(low));
    }
    let (start, end) = (down(frame, from.estimate.maximum), down(frame, to.estimate.maximum));
    frame.canvas.segment((left, start), (right, end));
}

/// The estimate of the last date of a block.
fn end_of(answer: &Answer, span: &Span) -> Option<String> {
    let last = answer.points.iter().rev().find(|point| point.block.as_deref() == Some(&span.name))?;
    Some(wording::bare(last.estimate.maximum, answer.unit))
}
