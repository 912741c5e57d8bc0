//! `review`: cautions about the training, each with the lines that gave rise to it. A caution is advice: it has no
//! severity.
//!
//! - `caution.rs`: what a caution is; `scene.rs`: what every caution looks at
//! - one file a caution, or two that are alike: its threshold, its section of docs/cautions.md, what it looks for, and
//!   its words

mod block_behind;
mod caution;
mod deload_overdue;
mod efforts;
mod heavy_deadlift_near_meet;
mod high_reps;
mod load_jump;
mod no_room_left;
mod no_word;
mod pain_again;
mod pain_at_once;
mod planned_and_skipped;
mod same_fault;
mod scene;
mod sets_rise;
mod unusual_peak;

pub use caution::{Caution, Rule, Tells};
pub(crate) use heavy_deadlift_near_meet::NEAR_MEET;
pub(in crate::questions) use pain_at_once::is_at_once;

use crate::analysis::strength::evidence::Ratings;
use crate::history::History;
use crate::science::Equation;
use crate::training::{Block, BlockId, Figure, Hundredths};
use chrono::NaiveDate;
use scene::Scene;
use schemars::JsonSchema;
use serde::Serialize;
use std::cell::RefCell;

/// What is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// The block, as it stood on its last day, in place of the current one as of today.
    pub block: Option<BlockId>,
}

/// What `review` says: its answer, or what a caution means.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[serde(untagged)]
pub enum Said {
    /// The cautions.
    Cautions(Answer),
    /// What one of them means.
    Explanation(Explanation),
}

/// What a caution means.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Explanation {
    /// Its name.
    pub name: &'static str,
    /// The threshold in force; null outside a journal.
    pub threshold: Option<Hundredths>,
    /// In what it is counted.
    pub unit: &'static str,
    /// The reason, then when it is raised, its threshold and its source.
    pub text: Vec<String>,
}

/// Explains a caution, with the threshold in force where a journal is known.
pub fn explain(rule: &Rule, in_force: Option<f64>) -> Explanation {
    let threshold = in_force.map(Figure);
    Explanation { name: rule.name(), threshold, unit: rule.threshold.unit, text: rule.explanation() }
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The block; nothing where none has begun.
    pub block: Option<String>,
    /// Whether its first day has come.
    #[serde(skip)]
    pub begun: bool,
    /// The day that it is looked at from.
    pub on: NaiveDate,
    /// The cautions, in order of time, then by name.
    pub cautions: Vec<Caution>,
    /// How many of them are not new.
    pub still: usize,
}

/// Every caution, by the alphabet.
pub static RULES: &[Rule] = &[
    block_behind::RULE,
    deload_overdue::RULE,
    efforts::FAR_UNDER_PLAN,
    heavy_deadlift_near_meet::RULE,
    high_reps::MISSING,
    high_reps::NEAR_MEET,
    load_jump::RULE,
    no_room_left::RULE,
    no_word::RULE,
    efforts::OVER_PLAN,
    pain_again::RULE,
    pain_at_once::RULE,
    planned_and_skipped::RULE,
    same_fault::RULE,
    sets_rise::RULE,
    unusual_peak::RULE,
];

/// The rule of that name; blanks may stand for hyphens.
pub fn rule(name: &str) -> Option<&'static Rule> {
    let hyphened = name.trim().to_lowercase().replace(' ', "-");
    RULES.iter().find(|rule| rule.name() == hyphened)
}

impl Caution {
    /// In a few words; the whole sentence of one that is kept from a version with other rules.
    pub fn in_brief(&self) -> String {
        let about = self.about.as_deref().unwrap_or_default();
        rule(self.name).map_or_else(|| self.message.clone(), |rule| (rule.brief)(about, self.found.0))
    }

    /// What it tells that is told without it too.
    pub fn tells(&self) -> Tells {
        rule(self.name).map_or(Tells::Other, |rule| rule.tells)
    }
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let known = ask.block.or_else(|| history.current_block());
    let Some((id, block)) = known.and_then(|id| Some((id, history.log.block(id)?))) else {
        return Answer { block: None, begun: false, on: history.today, cautions: Vec::new(), still: 0 };
    };
    let name = Some(block.name.clone());
    if block.starts > history.today {
        return Answer { block: name, begun: false, on: history.today, cautions: Vec::new(), still: 0 };
    }
    let last_day = ask.block.and(block.ends).map_or(history.today, |ends| ends.min(history.today));
    let then = history.as_of(last_day);
    let mut cautions = on_its_day(&then, id, block);
    // Told in whole for a week, and then only counted; of a block that is asked for all are.
    let week_ago = last_day.checked_sub_days(A_WEEK).filter(|_| ask.block.is_none() && !cautions.is_empty());
    if let Some(week_ago) = week_ago {
        let then = history.as_of(week_ago);
        let id = then.current_block();
        let known = id.and_then(|id| Some(on_its_day(&then, id, then.log.block(id)?))).unwrap_or_default();
        for one in &mut cautions {
            one.is_new = !known.iter().any(|known| (known.name, &known.about) == (one.name, &one.about));
        }
    }
    let still = cautions.iter().filter(|one| !one.is_new).count();
    Answer { block: name, begun: true, on: last_day, cautions, still }
}

/// A caution is new for so long.
const A_WEEK: chrono::Days = chrono::Days::new(7);

fn on_its_day(history: &History<'_>, id: BlockId, block: &Block) -> Vec<Caution> {
    let ratings = RefCell::new(Ratings::of_the_curve(history, Equation::default()));
    let begun = block.starts <= history.today;
    if begun { cautions(&Scene { history, ratings: &ratings, id, block }) } else { Vec::new() }
}

/// The cautions about the current block, with curves that other questions ask for too.
pub(crate) fn now<'s, 'a>(history: &'s History<'a>, ratings: &'s RefCell<Ratings<'s, 'a>>) -> Vec<Caution> {
    let known = history.current_block().and_then(|id| Some((id, history.log.block(id)?)));
    let begun = known.filter(|(_, block)| block.starts <= history.today);
    begun.map_or_else(Vec::new, |(id, block)| cautions(&Scene { history, ratings, id, block }))
}

fn cautions(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let mut cautions: Vec<Caution> = RULES.iter().flat_map(|rule| rule.cautions(scene)).collect();
    // A rule gives its own in an order that means something; ties keep it.
    cautions.sort_by_key(|caution| (caution.date, caution.name));
    cautions
}
