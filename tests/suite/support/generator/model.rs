//! The model: what was trained, before anything is written down.

use super::block::Block;
use super::book::{LIFTS, OWN_LIFTS};
use super::gym::Gym;
use super::load::Load;
use super::random::Random;
use super::shape::Shape;
use chrono::NaiveDate;

#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Amount {
    Reps(u32),
    Seconds(u32),
    Metres(i64),
}

#[derive(Clone)]
pub(super) struct SetDone {
    pub(super) amount: Amount,
    pub(super) effort: Option<u32>,
    pub(super) clean: bool,
}

/// A group as it was done.
#[derive(Clone)]
pub(super) struct Group {
    pub(super) sets: Vec<SetDone>,
    pub(super) per_side: bool,
    pub(super) load: Load,
    /// Whether an effort, a miss or an AMRAP is written.
    pub(super) effort: bool,
    /// What was wrong with the sets that are not clean.
    pub(super) fault: Option<&'static str>,
}

/// Planned sets that are alike.
#[derive(Clone)]
pub(super) struct Planned {
    pub(super) fewest: u32,
    pub(super) most: u32,
    pub(super) amount: Amount,
    /// The most of one set; nothing where that is open.
    pub(super) longest: Option<Amount>,
    pub(super) per_side: bool,
    /// None where the plan leaves it open.
    pub(super) load: Load,
    /// Quarter points, from so many to so many.
    pub(super) effort: Option<(u32, u32)>,
}

/// What stands on a work line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    Done,
    AsPlanned,
    Skipped,
    Nothing,
}

/// What a session's work line left: the lift by its place in the model, its line, and its groups with theirs.
pub(super) struct Work {
    pub(super) lift: usize,
    pub(super) line: u32,
    pub(super) fate: Fate,
    pub(super) groups: Vec<(u32, Group)>,
    pub(super) plan: Option<Vec<Planned>>,
    /// The lift that it stood in for, as it is shown.
    pub(super) instead_of: Option<&'static str>,
}

/// Lines under a work line, and what they say of plans and swaps.
#[derive(Default)]
pub(super) struct Details {
    pub(super) lines: Vec<String>,
    pub(super) plan: Option<Vec<Planned>>,
    pub(super) instead_of: Option<&'static str>,
}

impl Details {
    /// Puts a plan before all others.
    pub(super) fn plan_first(&mut self, text: &str, plan: Vec<Planned>) {
        self.lines.insert(0, format!("plan: {text}"));
        self.plan = Some(plan);
    }
}

/// A pain that was noted: the site as all its spellings have it and as it is written, tenths of ten, and the line.
pub(super) struct Pain {
    pub(super) site: &'static str,
    pub(super) tenths: u32,
    pub(super) line: u32,
}

pub(super) struct Session {
    pub(super) date: NaiveDate,
    pub(super) minute: Option<u32>,
    pub(super) block: Option<usize>,
    pub(super) week: Option<u32>,
    pub(super) day: Option<&'static str>,
    pub(super) marked: bool,
    /// Whether that is as a peak.
    pub(super) peaks: bool,
    /// A competition, by name; nothing in it where it has none.
    pub(super) meet: Option<&'static str>,
    pub(super) test_day: bool,
    pub(super) pains: Vec<Pain>,
    pub(super) bodyweight: Option<i64>,
    pub(super) works: Vec<Work>,
    pub(super) lines: Vec<String>,
}

impl Session {
    pub(super) fn has_work(&self) -> bool {
        let mut sets = self.works.iter().flat_map(|work| &work.groups).flat_map(|(_, group)| &group.sets);
        sets.any(|set| set.amount != Amount::Reps(0))
    }
}

pub(super) struct Model {
    pub(super) shape: Shape,
    pub(super) random: Random,
    pub(super) gym: Gym,
    /// Places in [`LIFTS`], and the name each is shown by.
    pub(super) lifts: Vec<(usize, Option<String>)>,
    pub(super) blocks: Vec<Block>,
    pub(super) sessions: Vec<Session>,
}

impl Model {
    pub(super) fn new(shape: Shape, seed: u64) -> Self {
        let mut random = Random::new(seed);
        let gym = Gym::new(&mut random, shape.wild);
        Model::in_gym(shape, gym, random)
    }

    /// A lifter who trains in this gym.
    pub(super) fn in_gym(shape: Shape, gym: Gym, random: Random) -> Self {
        let mut model = Model { gym, lifts: Vec::new(), blocks: Vec::new(), sessions: Vec::new(), random, shape };
        model.choose_lifts();
        let calendar = model.plan_blocks();
        model.train(calendar);
        model
    }

    pub(super) fn chance(&mut self, percent: u32) -> bool {
        self.random.chance(percent)
    }

    /// Whether to spell something in another way than the tidy one.
    pub(super) fn wild(&mut self, percent: u32) -> bool {
        self.shape.wild && self.random.chance(percent)
    }

    /// The tidy spelling, or at times another one.
    pub(super) fn spell<'t>(&mut self, tidy: &'t str, others: &[&'t str]) -> &'t str {
        if self.wild(35) { self.random.pick(others) } else { tidy }
    }

    fn choose_lifts(&mut self) {
        let mut places: Vec<usize> = (1..LIFTS.len()).collect();
        self.random.shuffle(&mut places);
        let count = match (self.shape.coached, self.shape.wild) {
            (true, _) => 4,
            (_, true) => 7,
            _ => 13,
        };
        places.truncate(count);
        places.insert(0, 0);
        self.lifts = places
            .into_iter()
            .map(|place| (place, (place < OWN_LIFTS).then(|| LIFTS[place].shown().to_owned())))
            .collect();
    }
}
