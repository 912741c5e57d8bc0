//! The arguments that say which work is meant, for every command that sums it up or looks through it.

use super::options::date;
use super::outcome::Failure;
use crate::history::History;
use crate::training::{BlockId, LiftId};
use chrono::NaiveDate;
use clap::Args;

/// A stretch of training.
#[derive(Args, Debug)]
pub(crate) struct Stretch {
    /// Only this block
    #[arg(long, value_name = "NAME")]
    block: Option<String>,
    /// Only from this day on
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(crate) since: Option<NaiveDate>,
    /// Only up to this day
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(crate) until: Option<NaiveDate>,
}

/// A lift, and a stretch of its training.
#[derive(Args, Debug)]
pub(crate) struct Filters {
    /// Only this lift
    #[arg(long, value_name = "LIFT")]
    lift: Option<String>,
    #[command(flatten)]
    pub(crate) stretch: Stretch,
}

impl Stretch {
    /// The block that is named.
    pub(crate) fn block(&self, history: &History<'_>) -> Result<Option<BlockId>, Failure> {
        Ok(self.block.as_deref().map(|name| history.find_block(name)).transpose()?)
    }
}

impl Filters {
    /// The lift that is named.
    pub(crate) fn lift(&self, history: &History<'_>) -> Result<Option<LiftId>, Failure> {
        Ok(self.lift.as_deref().map(|name| history.find_lift(name)).transpose()?)
    }
}
