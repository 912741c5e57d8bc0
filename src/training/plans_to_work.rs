//! A plan and the work that was done on it, whatever lines the two stand on.

use super::{LiftId, Plan, Session, Status, Work};
use crate::source::PageId;
use std::collections::{HashMap, HashSet};

impl Work {
    /// Gives a line what only another line says of the same work.
    pub(crate) fn fill_in(&mut self, other: Work) {
        let Some(copied) = other.details else { return };
        let details = self.details.get_or_insert_default();
        details.plan = details.plan.take().or(copied.plan);
        details.skipped_because = details.skipped_because.take().or(copied.skipped_because);
        details.instead_of = details.instead_of.or(copied.instead_of);
        if details.warm_ups.is_empty() {
            details.warm_ups = copied.warm_ups;
        }
        for remark in copied.remarks {
            if !details.remarks.iter().any(|known| (known.kind, &known.text) == (remark.kind, &remark.text)) {
                details.remarks.push(remark);
            }
        }
    }

    /// Whether it is planned, and nothing is written of what became of it.
    pub fn is_planned_only(&self) -> bool {
        self.status == Status::Nothing && self.groups.is_empty() && self.plan().is_some()
    }

    /// Whether it is work that stands under no plan, and in for no other lift.
    fn is_work_only(&self) -> bool {
        let details = self.details.as_ref();
        self.has_work() && details.is_none_or(|details| details.plan.is_none() && details.instead_of.is_none())
    }
}

impl Session {
    /// A planned line on which nothing is written, and work lines of the same lift without a plan, are one line. It
    /// stands where the first of the work does.
    pub(crate) fn put_plans_to_work(&mut self) {
        if self.works.len() < 2 || !self.works.iter().any(Work::is_planned_only) {
            return;
        }
        self.drop_copied_plans();
        let of = |wanted: fn(&Work) -> bool| -> HashSet<LiftId> {
            self.works.iter().filter(|work| wanted(work)).map(|work| work.lift).collect()
        };
        let both: HashSet<LiftId> = &of(Work::is_planned_only) & &of(Work::is_work_only);
        if both.is_empty() {
            return;
        }
        let mut plans: HashMap<LiftId, Work> = HashMap::new();
        let mut works: Vec<Work> = Vec::with_capacity(self.works.len());
        let mut place: HashMap<LiftId, usize> = HashMap::new();
        for work in std::mem::take(&mut self.works) {
            let (lift, joins) = (work.lift, both.contains(&work.lift));
            if joins && work.is_planned_only() {
                match plans.get_mut(&lift) {
                    Some(first) => plan_also(first, work),
                    None => {
                        plans.insert(lift, work);
                    }
                }
            } else if joins && work.is_work_only() {
                match place.get(&lift).and_then(|at| works.get_mut(*at)) {
                    Some(first) => {
                        first.groups.extend(work.groups.iter().cloned());
                        first.fill_in(work);
                    }
                    None => {
                        place.insert(lift, works.len());
                        works.push(work);
                    }
                }
            } else {
                works.push(work);
            }
        }
        for (lift, planned) in plans {
            let Some(done) = place.get(&lift).and_then(|at| works.get_mut(*at)) else { continue };
            (done.page, done.line) = (planned.page, planned.line);
            done.fill_in(planned);
        }
        self.works = works;
    }

    /// A coach's planned line whose plan the lifter has copied above the work is that line.
    fn drop_copied_plans(&mut self) {
        let mut copied: HashMap<LiftId, Vec<(PageId, Plan)>> = HashMap::new();
        for work in self.works.iter().filter(|work| !work.is_planned_only()) {
            if let Some(plan) = work.plan() {
                copied.entry(work.lift).or_default().push((work.page, plan.clone()));
            }
        }
        self.works.retain(|work| {
            let (Some(plan), true) = (work.plan(), work.is_planned_only()) else { return true };
            let Some(copies) = copied.get_mut(&work.lift) else { return true };
            let twin = copies.iter().position(|(page, copy)| *page != work.page && copy.groups == plan.groups);
            twin.map(|at| copies.swap_remove(at)).is_none()
        });
    }
}

/// Adds a planned line to another of the same lift.
fn plan_also(first: &mut Work, mut second: Work) {
    let plan = second.details.as_mut().and_then(|details| details.plan.take());
    let own = first.details.as_mut().and_then(|details| details.plan.as_mut());
    if let (Some(own), Some(plan)) = (own, plan) {
        *own = Plan {
            text: format!("{}, {}", own.text, plan.text).into(),
            line: own.line,
            groups: own.groups.iter().chain(&plan.groups).cloned().collect(),
        };
    }
    first.fill_in(second);
}
