//! Which lifts of a journal are competed on.

use crate::history::{Done, History, Meet, MeetKind};
use crate::training::{Amount, CompetitionLift, LiftId, Session, Weighed, fold};

/// Which lifts of a journal are competed on.
pub(super) struct Lifts<'h, 'a> {
    history: &'h History<'a>,
    /// By the names that settings give.
    set: Vec<(CompetitionLift, LiftId)>,
}

impl<'h, 'a> Lifts<'h, 'a> {
    pub(super) fn of(history: &'h History<'a>) -> Self {
        let names = &history.log.competitor.lifts;
        let set = names.iter().filter_map(|(lift, name)| Some((*lift, history.lift_named(name)?))).collect();
        Lifts { history, set }
    }

    /// What a lift of the journal is at a meet or test day: by the settings, else by its name; at a meet also by its
    /// family, since nothing else is lifted there.
    pub(super) fn competed(&self, lift: LiftId, kind: MeetKind) -> Option<CompetitionLift> {
        if let Some((competed, _)) = self.set.iter().find(|(_, id)| *id == lift) {
            return Some(*competed);
        }
        let known = self.history.log.lift(lift)?;
        let by_name = CompetitionLift::ALL.into_iter().find(|competed| {
            let is_set = self.history.log.competitor.lift(*competed).is_some();
            !is_set && competed.names().iter().any(|name| fold(name) == fold(&known.name))
        });
        let by_family = || CompetitionLift::of_family(known.family).filter(|_| !known.bodyweight);
        by_name.or_else(|| if kind == MeetKind::Meet { by_family() } else { None })
    }

    /// The work of a meet's sessions that is of competition lifts, in the order written.
    pub(super) fn works(&self, meet: &Meet<'a>) -> Vec<(CompetitionLift, Done<'a>)> {
        let done = |session: &'a Session| session.works.iter().map(move |work| Done { session, work });
        let works = meet.sessions.iter().copied().flat_map(done);
        works.filter_map(|done| Some((self.competed(done.work.lift, meet.kind)?, done))).collect()
    }

    /// The attempts that the page of a meet plans of a lift: the planned sets of one rep that have a load, in order.
    pub(super) fn planned(&self, meet: &Meet<'a>, competed: CompetitionLift) -> Vec<Weighed> {
        let of_lift = self.works(meet).into_iter().filter(|(of, _)| *of == competed);
        let groups = of_lift.filter_map(|(_, done)| Some((done.session.own_mass(), done.work.plan()?)));
        let groups = groups.flat_map(|(own, plan)| plan.groups.iter().map(move |group| (own, group)));
        let singles = groups.filter(|(_, group)| group.amounts.least() == Amount::Reps(1) && group.has_load());
        let weighed = singles.flat_map(|(own, group)| {
            let load = Weighed { load: group.load.clone(), kilograms: group.load.kilograms(own) };
            std::iter::repeat_n(load, group.fewest as usize)
        });
        weighed.collect()
    }

    /// The lift of the journal that is meant by a competition lift: the one of the settings, else that of the last meet
    /// or test day that had it, else the first of its names that there is work on. Its name alone where there is none.
    pub(super) fn meant(&self, competed: CompetitionLift) -> (String, Option<LiftId>) {
        let named = |name: &str| (name.to_owned(), self.history.lift_named(name));
        if let Some(name) = self.history.log.competitor.lift(competed) {
            return named(name);
        }
        let name = |id: LiftId| self.history.log.lift_name(id).to_owned();
        let done = self.history.meets().into_iter().rev().filter(|meet| !meet.is_to_come(self.history.today));
        let last = done.flat_map(|meet| self.works(&meet)).find(|(of, done)| *of == competed && done.work.has_work());
        if let Some((_, done)) = last {
            return (name(done.work.lift), Some(done.work.lift));
        }
        let with_work = |id: &LiftId| self.history.works_of(*id).any(|done| done.work.has_work());
        let known = competed.names().iter().filter_map(|name| self.history.lift_named(name)).find(with_work);
        match known {
            Some(id) => (name(id), Some(id)),
            None => named(competed.names().first().copied().unwrap_or_default()),
        }
    }
}
