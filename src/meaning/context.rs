//! What the settings say, as reading a page needs it.

use crate::training::{Gear, LiftBook, Unit};

/// What holds for every page of a lifter.
pub(crate) struct Context<'a> {
    /// Of loads written without a unit.
    pub(crate) units: Unit,
    /// Bars and plates.
    pub(crate) gear: &'a Gear,
    /// Lifts by name.
    pub(crate) book: &'a LiftBook,
    /// Whether places are kept for the warnings that `check` makes at the end.
    pub(crate) careful: bool,
}
