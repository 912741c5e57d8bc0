//! All of a lifter's training.

use super::{Block, BlockId, Competitor, Gear, Gym, GymId, Lift, LiftId, Session, TaperBands, Thresholds, WarmUp};
use crate::source::{PageId, Place};
use chrono::NaiveDate;
use std::sync::Arc;

/// Everything that a lifter's pages say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Log {
    /// The lifter's name, where there is one.
    pub lifter: Option<String>,
    /// Lifts, in order of their first work.
    pub lifts: Vec<Lift>,
    /// Blocks, in order of time.
    pub blocks: Vec<Block>,
    /// Sessions, in order of time.
    pub sessions: Vec<Session>,
    /// Paths below the journal's root, by page.
    pub pages: Vec<Arc<str>>,
    /// The bars and plates where the lifter usually trains.
    pub gear: Gear,
    /// Other gyms.
    pub gyms: Vec<Gym>,
    /// The gym that is asked about, whatever is written.
    pub asked_gym: Option<GymId>,
    /// A set of this many reps or more is a high-rep set.
    pub high_reps: u32,
    /// From where on an answer cautions.
    pub thresholds: Thresholds,
    /// What the settings say of a peak or deload week.
    pub taper: TaperBands,
    /// The steps of a warm-up that nobody wrote.
    pub warm_up: WarmUp,
    /// Who competes in what.
    pub competitor: Competitor,
    /// Lines that an error costs, and work lines below a heading that is no date.
    pub left_out: u32,
}

/// What stands for a lift or a page that the log has not: only a fault of the program's asks for one, and where it is not
/// stopped for it, as in all tests, a reader sees that something is missing.
const UNKNOWN: &str = "?";

impl Log {
    /// A block.
    pub fn block(&self, id: BlockId) -> Option<&Block> {
        self.blocks.get(id.0 as usize)
    }

    /// The name of a block.
    pub fn block_name(&self, id: impl Into<Option<BlockId>>) -> Option<String> {
        id.into().and_then(|id| self.block(id)).map(|block| block.name.clone())
    }

    /// A lift.
    pub fn lift(&self, id: LiftId) -> Option<&Lift> {
        self.lifts.get(id.0 as usize)
    }

    /// The lift's name as it is shown.
    pub fn lift_name(&self, id: LiftId) -> &str {
        let lift = self.lift(id);
        debug_assert!(lift.is_some(), "{id:?} is no lift of the log");
        lift.map_or(UNKNOWN, |lift| &lift.name)
    }

    /// The bars and plates of a gym; those of the usual one where none is named.
    pub fn gear_at(&self, gym: Option<GymId>) -> &Gear {
        gym.and_then(|gym| self.gym(gym)).map_or(&self.gear, |gym| &gym.gear)
    }

    /// A gym that is not the usual one.
    pub fn gym(&self, gym: GymId) -> Option<&Gym> {
        self.gyms.get(usize::from(gym.0))
    }

    /// Where the lifter is on a day: the gym that a session of it names.
    pub fn gym_on(&self, date: NaiveDate) -> Option<GymId> {
        let first = self.sessions.partition_point(|session| session.date < date);
        let of_day = self.sessions.iter().skip(first).take_while(|session| session.date == date);
        of_day.filter_map(|session| session.gym).last()
    }

    /// Whatever is written: from a day on, the lifter is in this gym.
    pub fn be_at(&mut self, gym: GymId, from: NaiveDate) {
        self.gear = self.gear_at(Some(gym)).clone();
        self.asked_gym = Some(gym);
        self.sessions.iter_mut().filter(|session| session.date >= from).for_each(|session| session.gym = Some(gym));
    }

    /// The path below the journal's root of one of the log's pages.
    pub fn page_path(&self, id: PageId) -> &str {
        self.page(id).map_or(UNKNOWN, |path| path)
    }

    /// A line of one of the log's pages.
    pub fn place(&self, id: PageId, line: u32) -> Place {
        Place { page: self.page(id).cloned().unwrap_or_else(|| UNKNOWN.into()), line }
    }

    fn page(&self, id: PageId) -> Option<&Arc<str>> {
        let page = self.pages.get(id.0 as usize);
        debug_assert!(page.is_some(), "{id:?} is no page of the log");
        page
    }
}
