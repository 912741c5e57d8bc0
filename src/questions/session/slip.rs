//! A load that looks like a slip of the pen, and so is nothing to choose the next one by.

use super::next::Target;
use crate::history::History;
use crate::training::{LiftId, Mass, Set};

/// What the loads of a line are usually like.
pub(super) struct Usual<'t> {
    targets: &'t [Target],
    own: Option<Mass>,
    /// The heaviest load of the lift before.
    heaviest: Option<Mass>,
    /// The heaviest of its last line.
    last: Option<Mass>,
}

impl<'t> Usual<'t> {
    pub(super) fn of(eve: &History<'_>, lift: LiftId, targets: &'t [Target], own: Option<Mass>) -> Self {
        let mut days = eve.works_of(lift).filter_map(|done| {
            let works = done.work.groups.iter().filter(|group| group.sets().any(|set| set.is_work()));
            works.filter_map(|group| group.load.kilograms(done.session.own_mass())).max()
        });
        let last = days.next_back();
        Usual { targets, own, heaviest: days.max().max(last), last }
    }

    /// Whether a set is more than half again what was planned and all that was lifted before, as `check` tells of; or less than
    /// half of what was planned and lifted last, where it may as well be an easier day: common practice, no source.
    pub(super) fn is_slip(&self, nth: usize, set: &Set<'_>) -> bool {
        let Some(load) = set.group.load.kilograms(self.own).filter(|load| *load > Mass::ZERO) else { return false };
        let planned = self.targets.get(nth).and_then(|target| target.load.kilograms(self.own));
        let all = |before: Option<Mass>, is_off: fn(Mass, Mass) -> bool| {
            let mut known = [planned, before].into_iter().flatten().peekable();
            known.peek().is_some() && known.all(|known| is_off(load, known))
        };
        all(self.heaviest, Mass::is_leap_from) || all(self.last, |load, known| load.times(2) < known)
    }
}
