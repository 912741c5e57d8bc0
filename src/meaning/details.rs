//! The details of a work line, and what waits for them: a line that was done as planned.

use super::groups::{Carried, Line};
use super::page::{PageReading, Under};
use super::page_log::{Percent, Place, Side, push_lean};
use super::planned::planned;
use super::plans::{Taken, attributed, taken_over};
use crate::notation::nodes::{Detail, DetailKey};
use crate::problems::{Problem, ProblemKind as K};
use crate::source::{PageId, Span};
use crate::training::{Group, LiftId, Load, Plan, Remark, RemarkKind};

impl<'c, 'a: 'c> PageReading<'c, 'a, '_> {
    pub(super) fn detail(&mut self, detail: Detail<'a>, problems: &mut Vec<Problem>) {
        let line_number = self.line;
        let lift = self.current_work().map_or(0, |work| work.lift);
        let bodyweight = self.log.lifts.get(lift as usize).is_some_and(|lift| lift.bodyweight);
        let line = Line { context: self.context, page: self.page, line: line_number, bodyweight };
        let mut plan = None;
        let mut warm_ups = None;
        if matches!(detail.key, DetailKey::Plan | DetailKey::WarmUp) {
            if !detail.lost && detail.key == DetailKey::Plan {
                plan = planned(&line, &detail.groups, problems);
            } else if !detail.lost {
                warm_ups = line.groups(&detail.groups, &mut Carried::Default, problems);
            }
            if plan.is_none() && warm_ups.is_none() {
                if detail.key == DetailKey::Plan {
                    self.unread_plan(detail.text);
                }
                return;
            }
            let of_plan = plan.iter().flatten().map(|group| &group.load);
            let mut loads = of_plan.chain(warm_ups.iter().flatten().map(|group| &group.load));
            if loads.any(|load| matches!(load, Load::Percent(_))) && self.under == Under::Session {
                let written = detail.groups.iter().find_map(|group| group.load.as_ref());
                let span = self.span(written.map_or(detail.text, |load| load.text));
                self.log.percents.push(Percent {
                    session: usize::MAX,
                    work: usize::MAX,
                    line: line_number,
                    span,
                    repeats: false,
                });
                self.keep_percents();
            }
        }
        if let (DetailKey::Plan, Some(planned)) = (detail.key, &mut self.planned)
            && planned.plan.is_none()
            && planned.plan_text.is_empty()
            && !detail.text.is_empty()
        {
            planned.plan = Some(taken_over(&line, &detail.groups));
            detail.text.clone_into(&mut planned.plan_text);
        }
        let other = match detail.key {
            DetailKey::InsteadOf if !detail.text.is_empty() => {
                let name = detail.text.trim_end_matches(['.', ',']);
                Some(self.lift(crate::notation::bare_name(name)))
            }
            _ => None,
        };
        if detail.text.is_empty() {
            return;
        }
        let Some(work) = self.current_work() else { return };
        let details = work.details.get_or_insert_with(Box::default);
        let kind = match detail.key {
            DetailKey::Plan => {
                let groups = plan.unwrap_or_default().into();
                details.plan.get_or_insert_with(|| Plan { text: detail.text.into(), line: line_number, groups });
                return;
            }
            DetailKey::WarmUp => return details.warm_ups.extend(warm_ups.unwrap_or_default()),
            DetailKey::InsteadOf => {
                details.instead_of = other.map(|lift| (LiftId(lift), line_number));
                return;
            }
            DetailKey::Setup => RemarkKind::Setup,
            DetailKey::Cue => RemarkKind::Cue,
            DetailKey::Why => RemarkKind::Why,
            DetailKey::Note => RemarkKind::Note,
        };
        push_lean(
            &mut details.remarks,
            Remark { kind, text: detail.text.into(), page: PageId::default(), line: line_number },
        );
    }

    /// A list of efforts written with blanks is offered without them where it has one for each set of the plan.
    fn list_fits(&mut self, planned: Span, sets: usize) {
        let on_line = self.log.problems.last_from(planned);
        for problem in on_line.filter(|problem| problem.kind == K::EffortListSpaced) {
            problem.fix.take_if(|fix| fix.text.split(',').count() != sets);
        }
    }

    /// A plan that an error costs: it is the line's plan all the same, and no other that follows.
    fn unread_plan(&mut self, text: &str) {
        if let Some(planned) = self.planned.as_mut().filter(|planned| planned.plan_text.is_empty()) {
            text.clone_into(&mut planned.plan_text);
        }
        let line = self.line;
        if let Some(work) = self.current_work().filter(|_| !text.is_empty()) {
            let details = work.details.get_or_insert_with(Box::default);
            details.plan.get_or_insert_with(|| Plan { text: text.into(), line, groups: Box::default() });
        }
    }

    /// What stood open on a work line is settled once the next line that is not its own begins.
    pub(super) fn end_work(&mut self) {
        let Some(planned) = self.planned.take() else { return };
        let (line, lift) = match self.current_work() {
            Some(work) => (work.line, work.lift),
            None => return,
        };
        let mut problems = Vec::new();
        let mut done = Vec::new();
        match planned.plan {
            Some(Taken::Groups(groups)) => {
                done = groups;
                let bodyweight = self.log.lifts.get(lift as usize).is_some_and(|lift| lift.bodyweight);
                let place = Line { context: self.context, page: self.page, line, bodyweight };
                self.list_fits(planned.span, done.iter().map(Group::count).sum());
                attributed(&place, &mut done, planned.attributes, &mut problems);
            }
            Some(Taken::Open) => problems.push(Problem::new(K::OpenPlan { plan: planned.plan_text }, planned.span)),
            // A plan that cannot be read has said so itself; the line that rests on it counts nowhere all the same.
            None if !planned.plan_text.is_empty() => self.log.left_out += 1,
            None => problems.push(Problem::new(K::NoPlan, planned.span)),
        }
        for group in &mut done {
            group.line = line;
            if self.context.keeps_places() {
                let span = planned.span;
                self.log.places.push(Place { line, name: span, count: span, load: span, side: Side::Unsaid });
            }
        }
        if done.iter().any(|group| matches!(group.load, Load::Percent(_))) {
            self.log.percents.push(Percent {
                session: usize::MAX,
                work: usize::MAX,
                line,
                span: planned.span,
                repeats: true,
            });
        }
        if let Some(work) = self.current_work() {
            let after = std::mem::take(&mut work.groups);
            work.groups = done;
            work.groups.extend(after);
        }
        self.keep_percents();
        self.note(problems);
    }
}
