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
        let row = frame.row(day.load.rounded_in(answer.unit));
        let column = frame.column(&dates, day.date);
        let figure = char::from_digit(day.reps, 10).unwrap_or('+');
        let role = if day.reps == 1 { Role::Answer } else { Role::Plot };
        frame.canvas.mark(column, row, figure, role);
    }
    let mut out = frame.drawn(answer.unit.word(), &dates, Some(&blocks));
    let mut legend = vec!["figures: the reps of the day's heaviest set".to_owned()];
    if answer.days.iter().any(|day| day.reps > 9) {
        legend.push("+ ten or more".into());
    }
    let starts = (&blocks, answer.blocks.len(), "a block starts");
    legend.extend(frame.signs(&mut out, &dates, starts, &answer.meets));
    frame.tell(&mut out, &legend, &answer.meets);
    Some(out)
}
