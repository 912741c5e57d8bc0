//! An estimate with its interval over dates.

use super::dates::Dates;
use super::frame::{Frame, STEPS};
use super::glyphs::Glyphs;
use super::scale::Scale;
use crate::analysis::strength::course::{Answer, Estimate, Lifted, Point, Span};
use crate::present::{Role, Typeset, wording};
use crate::training::{Amount, Mass};
use chrono::NaiveDate;

/// Dates further apart are not joined: with the drift that is reckoned with, the older one says little by then.
const JOINED_DAYS: i64 = 8 * 7;

/// The plot; nothing without a date.
#[must_use]
pub fn line(answer: &Answer, screen: usize, glyphs: Glyphs) -> Option<Typeset> {
    let (first, last) = (answer.points.first()?, answer.points.last()?);
    let number = |mass: Mass| mass.rounded_in(answer.unit);
    let meets: Vec<_> = answer.meets.iter().filter(|meet| meet.date <= last.date).cloned().collect();
    let single = |lifted: &Lifted| lifted.mark.amount == Amount::Reps(1);
    let singles = meets.iter().filter_map(|meet| meet.lifted.as_ref()).filter(|lifted| single(lifted));
    let ends = answer.points.iter().flat_map(|point| [point.estimate.low, point.estimate.high]);
    let all: Vec<f64> = ends.chain(singles.map(|lifted| lifted.load)).map(number).collect();
    let (low, high) = all.iter().fold((f64::MAX, f64::MIN), |(low, high), one| (low.min(*one), high.max(*one)));
    let dates = Dates::covering(first.date, last.date);
    let mut frame = Frame::new(Scale::covering(low, high, STEPS, false), screen, glyphs);
    let blocks = frame.blocks(&dates, &answer.blocks);
    frame.rules(&blocks, &dates);
    let near = |from: &Point, to: &Point| (to.date - from.date).num_days() <= JOINED_DAYS;
    for run in answer.points.chunk_by(near) {
        for pair in run.windows(2) {
            if let [from, to] = pair {
                join(&mut frame, &dates, from, to, number);
            }
        }
        if let [alone] = run {
            join(&mut frame, &dates, alone, alone, number);
            let row = frame.canvas.down(frame.scale.position(number(alone.estimate.maximum))) / 4;
            let column = frame.column(&dates, alone.date);
            frame.canvas.mark(column, row, glyphs.alone(), Role::Plot);
        }
    }
    let parted = answer.points.chunk_by(near).count() > 1;
    for meet in &meets {
        if let Some(lifted) = meet.lifted.as_ref().filter(|lifted| single(lifted)) {
            let row = frame.canvas.down(frame.scale.position(number(lifted.load))) / 4;
            let column = frame.column(&dates, meet.date);
            frame.canvas.mark(column, row, frame.sign(meet.kind), Role::Answer);
        }
    }
    let mut out = Typeset::new();
    let (ticks, words) = frame.date_ticks(&dates);
    frame.draw(&mut out, answer.unit.word(), &ticks);
    frame.figures(&mut out, "", Role::Place, &words);
    let names: Vec<(usize, String)> = blocks.iter().map(|(column, span)| (*column, span.name.clone())).collect();
    frame.names(&mut out, "block", Role::Plain, &names);
    let ends: Vec<(usize, String)> =
        blocks.iter().filter_map(|(column, span)| Some((*column, end_of(answer, span)?))).collect();
    frame.figures(&mut out, "end", Role::Answer, &ends);
    let light = frame.light_weeks(&dates, &blocks);
    frame.figures(&mut out, "week", Role::Place, &light);
    frame.figures(&mut out, "day", Role::Answer, &frame.events(&dates, &meets));
    let legend = legend(answer, glyphs, &blocks, parted, (!light.is_empty(), !meets.is_empty()));
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
    let words = wording::estimated(last.estimate.maximum, answer.unit);
    words.split(' ').next().map(str::to_owned)
}

fn legend(
    answer: &Answer,
    glyphs: Glyphs,
    blocks: &[(usize, &Span)],
    parted: bool,
    (light, meets): (bool, bool),
) -> Vec<String> {
    let (curve, interval) = glyphs.curve();
    let what = if answer.added { "estimated maximum, added to bodyweight" } else { "estimated maximum" };
    let mut legend = vec![format!("{curve} {what}"), format!("{interval} four in five lie between")];
    if !blocks.is_empty() {
        legend.push(format!("{} a block starts; end: the estimate at its last day", glyphs.rule()));
    } else if answer.blocks.len() > 1 {
        legend.push("blocks are too many to mark: --since shows fewer".into());
    }
    if light {
        legend.push("d, p: deload and peak weeks".into());
    }
    if meets {
        let (test_day, meet) = glyphs.events();
        legend.push(format!("{test_day} test day, {meet} meet"));
    }
    if parted {
        legend.push(format!("{} a day by itself", glyphs.alone()));
        legend.push("no line over more than 8 weeks without a rated set".into());
    }
    legend
}
