//! All of a lifter's training.

use super::{Block, BlockId, Competitor, Gear, Lift, LiftId, Session, TaperBands, Thresholds};
use crate::source::PageId;

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
    pub pages: Vec<String>,
    /// The gym's bars and plates.
    pub gear: Gear,
    /// A set of this many reps or more is a high-rep set.
    pub high_reps: u32,
    /// From where on an answer cautions.
    pub thresholds: Thresholds,
    /// What the settings say of a peak or deload week.
    pub taper: TaperBands,
    /// Who competes in what.
    pub competitor: Competitor,
    /// Lines that an error costs, and work lines below a heading that is no date.
    pub left_out: u32,
}

impl Log {
    /// A block.
    pub fn block(&self, id: BlockId) -> Option<&Block> {
        self.blocks.get(id.0 as usize)
    }

    /// A lift.
    pub fn lift(&self, id: LiftId) -> Option<&Lift> {
        self.lifts.get(id.0 as usize)
    }

    /// The lift's name as it is shown.
    pub fn lift_name(&self, id: LiftId) -> &str {
        self.lift(id).map_or("", |lift| &lift.name)
    }

    /// A page's path below the journal's root.
    pub fn page_path(&self, id: PageId) -> &str {
        self.pages.get(id.0 as usize).map_or("", String::as_str)
    }
}
