//! `review`: cautions about the training, each with the lines that gave rise to it. A caution is advice: it has no
//! severity.
//!
//! - `caution.rs`: what there is to say, as data; `scene.rs`: what every caution looks at
//! - one file a caution, a function from the scene to what it found

mod block_behind;
mod caution;
mod deload_overdue;
mod efforts;
mod hard_sets_rise;
mod heavy_deadlift_near_meet;
mod high_reps;
mod load_jump;
mod no_room_left;
mod pain_again;
mod planned_and_skipped;
mod same_fault;
mod scene;
mod unusual_peak;

pub use caution::{Caution, Found, Name};

use crate::analysis::strength::evidence::Ratings;
use crate::history::History;
use crate::science::Equation;
use crate::training::{BlockId, Thresholds};
use chrono::NaiveDate;
use scene::Scene;
use std::cell::RefCell;

/// What is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// The block, as it stood on its last day, in place of the current one as of today.
    pub block: Option<BlockId>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The block; nothing where none has begun.
    pub block: Option<String>,
    /// Whether its first day has come.
    pub begun: bool,
    /// The day that it is looked at from.
    pub on: NaiveDate,
    /// The thresholds in force.
    pub thresholds: Thresholds,
    /// The cautions, in order of time, then by name.
    pub cautions: Vec<Caution>,
}

/// Each looks for one caution, or for two that are alike.
const RULES: [fn(&Scene<'_, '_>) -> Vec<Caution>; 13] = [
    block_behind::find,
    deload_overdue::find,
    efforts::overshoots,
    efforts::undershoots,
    hard_sets_rise::find,
    heavy_deadlift_near_meet::find,
    high_reps::find,
    load_jump::find,
    no_room_left::find,
    pain_again::find,
    planned_and_skipped::find,
    same_fault::find,
    unusual_peak::find,
];

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let thresholds = history.log.thresholds;
    let known = ask.block.or_else(|| history.current_block());
    let Some((id, block)) = known.and_then(|id| Some((id, history.log.block(id)?))) else {
        return Answer { block: None, begun: false, on: history.today, thresholds, cautions: Vec::new() };
    };
    let name = Some(block.name.clone());
    if block.starts > history.today {
        return Answer { block: name, begun: false, on: history.today, thresholds, cautions: Vec::new() };
    }
    let last_day = ask.block.and(block.ends).map_or(history.today, |ends| ends.min(history.today));
    let then = history.as_of(last_day);
    let ratings = RefCell::new(Ratings::of_the_curve(&then, Equation::default()));
    let cautions = cautions(&Scene { history: &then, ratings: &ratings, id, block });
    Answer { block: name, begun: true, on: last_day, thresholds, cautions }
}

/// The cautions about the current block, with curves that other questions ask for too.
pub(crate) fn now<'s, 'a>(history: &'s History<'a>, ratings: &'s RefCell<Ratings<'s, 'a>>) -> Vec<Caution> {
    let known = history.current_block().and_then(|id| Some((id, history.log.block(id)?)));
    let begun = known.filter(|(_, block)| block.starts <= history.today);
    begun.map_or_else(Vec::new, |(id, block)| cautions(&Scene { history, ratings, id, block }))
}

fn cautions(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let mut cautions: Vec<Caution> = RULES.iter().flat_map(|rule| rule(scene)).collect();
    // A rule gives its own in an order that means something; ties keep it.
    cautions.sort_by_key(|caution| (caution.date, caution.found.name().word()));
    cautions
}
