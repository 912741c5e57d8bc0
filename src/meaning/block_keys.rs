//! The keys of a block.

use super::loads::{as_load, load};
use super::page::PageReading;
use crate::notation::nodes::{BlockKey, BlockKeyName as Name, Written};
use crate::problems::{Problem, ProblemKind as K};
use crate::training::Load;

impl<'c, 'a: 'c> PageReading<'c, 'a, '_> {
    pub(super) fn block_key(
        &mut self,
        name: Name,
        key: Option<BlockKey<'a>>,
        text: &'a str,
        problems: &mut Vec<Problem>,
    ) {
        let maximum = match key {
            Some(BlockKey::Max { lift, load: ref written }) => match load(self.context, self.page, written, problems) {
                Ok(Load::Percent(_)) => {
                    let wanted = "a lift and its load, such as Back squat 200 kg";
                    problems.push(Problem::new(K::UnreadBlockValue { key: "max", wanted }, self.span(written.text)));
                    None
                }
                Ok(load) => Some((self.lift(lift), load)),
                Err(problem) => {
                    problems.push(as_load(self.page, *problem));
                    None
                }
            },
            _ => None,
        };
        let Some(block) = self.log.blocks.last_mut() else { return };
        let numbers = |weeks: &[Written<'_, u32>]| weeks.iter().map(|week| week.value).collect::<Vec<_>>();
        let twice = match (&key, name) {
            (None, Name::Starts) => {
                block.start_written = true;
                false
            }
            (Some(BlockKey::Starts(date)), _) => {
                block.start_written = true;
                put(&mut block.starts, *date)
            }
            (Some(BlockKey::Weeks(weeks)), _) => put(&mut block.weeks, *weeks),
            (Some(BlockKey::Phase(phase)), _) => put(&mut block.phase, (*phase).to_owned()),
            (Some(BlockKey::Goal(goal)), _) => put(&mut block.goal, (*goal).to_owned()),
            (Some(BlockKey::Deload(weeks)), _) => put(&mut block.deload, numbers(weeks)),
            (Some(BlockKey::Peak(weeks)), _) => put(&mut block.peak, numbers(weeks)),
            _ => false,
        };
        block.maxima.extend(maximum);
        if twice {
            let key = match name {
                Name::Starts => "starts",
                Name::Weeks => "weeks",
                Name::Phase => "phase",
                Name::Goal => "goal",
                Name::Deload => "deload",
                Name::Peak => "peak",
                Name::Max => "max",
            };
            problems.push(Problem::new(K::RepeatedBlockKey { key }, self.span(text.trim())));
        }
    }

    /// A start that is there but for its key or bullet has had its problem: the block lacks none.
    pub(super) fn start_misspelled(&mut self, problems: &[Problem]) {
        let page = self.page.text();
        let nearly = |problem: &Problem| match problem.kind {
            K::NearKey { known, .. } => known == "starts",
            K::LooksLikeBlock { .. } => problem.span.text(page).to_ascii_lowercase().starts_with("starts"),
            _ => false,
        };
        if let Some(block) = self.log.blocks.last_mut().filter(|_| problems.iter().any(nearly)) {
            block.start_written = true;
        }
    }
}

/// Sets a value that is not yet set; whether one was.
fn put<T>(place: &mut Option<T>, value: T) -> bool {
    let twice = place.is_some();
    if !twice {
        *place = Some(value);
    }
    twice
}
