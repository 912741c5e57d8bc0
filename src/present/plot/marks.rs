//! The heaviest sets over dates: each day a figure, its reps, at the height of its load.

use super::dates::Dates;
use super::frame::{Frame, STEPS};
use super::glyphs::Glyphs;
use super::scale::Scale;
use crate::analysis::strength::heaviest::Answer;
use crate::present::doc::Picture;
use crate::present::{Role, Typeset};

/// The heaviest set of each day.
#[derive(Clone, Debug)]
pub struct Marks {
    /// The sets.
    pub answer: Answer,
    /// With which characters.
    pub glyphs: Glyphs,
}

impl Picture for Marks {
    fn draw(&self, screen: usize) -> Typeset {
        marks(&self.answer, screen, self.glyphs).unwrap_or_default()
    }
}

/// The plot; nothing without a day.
fn marks(answer: &Answer, screen: usize, glyphs: Glyphs) -> Option<Typeset> {
    let (first, last) = (answer.days.first()?, answer.days.last()?);
    let loads = || answer.days.iter().map(|day| day.load);
    let (low, high) = (loads().min()?.rounded_in(answer.unit), loads().max()?.rounded_in(answer.unit));
    let dates = Dates::covering(first.date, last.date);
    let mut frame = Frame::new(Scale::covering(low, high, STEPS, false), screen, glyphs);
    let blocks = frame.blocks(&dates, &answer.blocks);
    frame.rules(&blocks, &dates);
    // The heavier ones last, so that a place shows the heaviest of its days.
    let mut days = answer.days.clone();
    days.sort_by_key(|day| (day.load, day.reps, day.date));
    for day in &days {
        let row = frame.canvas.down(frame.scale.position(day.load.rounded_in(answer.unit))) / 4;
        let column = frame.column(&dates, day.date);
        let figure = char::from_digit(day.reps, 10).unwrap_or('+');
        let role = if day.reps == 1 { Role::Answer } else { Role::Plot };
        frame.canvas.mark(column, row, figure, role);
    }
    let mut out = Typeset::new();
    let (ticks, words) = frame.date_ticks(&dates);
    frame.draw(&mut out, answer.unit.word(), &ticks);
    frame.figures(&mut out, "", Role::Place, &words);
    let names: Vec<(usize, String)> = blocks.iter().map(|(column, span)| (*column, span.name.clone())).collect();
    frame.names(&mut out, "block", Role::Plain, &names);
    let light = frame.light_weeks(&dates, &blocks);
    frame.figures(&mut out, "week", Role::Place, &light);
    frame.figures(&mut out, "day", Role::Answer, &frame.events(&dates, &answer.meets));
    let mut legend = vec!["figures: the reps of the day's heaviest set".to_owned()];
    if answer.days.iter().any(|day| day.reps > 9) {
        legend.push("+ ten or more".into());
    }
    if !blocks.is_empty() {
        legend.push(format!("{} a block starts", glyphs.rule()));
    } else if answer.blocks.len() > 1 {
        legend.push("blocks are too many to mark: --since shows fewer".into());
    }
    if !light.is_empty() {
        legend.push("d, p: deload and peak weeks".into());
    }
    if !answer.meets.is_empty() {
        let (test_day, meet) = glyphs.events();
        legend.push(format!("{test_day} test day, {meet} meet"));
    }
    frame.tell(&mut out, &legend, &answer.meets);
    Some(out)
}
