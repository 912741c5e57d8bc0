//! A line of the session, with all that is said of it.

use super::answer::{Hint, LiftAhead, Next, ToBeat, WarmUpSet};
use super::foretelling::{Known, Teaching};
use super::hang::{LoadFinder, share};
use super::marks::{equal, top};
use super::next::{Line, Target, is_missed, next};
use super::slip::Usual;
use super::watch::watch;
use crate::analysis::compare::pairing::{Visit, nearest_before, pair};
use crate::analysis::plan::planned_lines::Where;
use crate::analysis::rack::Rack;
use crate::history::{Done, History, Mark, Marked, WeekKey};
use crate::questions::best::{Bound, standing};
use crate::questions::recall::{self, Note};
use crate::questions::review::Caution;
use crate::science::effort_scale;
use crate::training::{
    Amount, LiftId, Load, Mass, Pain, Plan, PlannedGroup, RemarkKind, Session, Set, Status, Unit, Work, fold,
    spelling::{Spelled, amount},
    words,
};

/// What every line of the session looks at.
pub(super) struct Scene<'s, 'a> {
    pub(super) history: &'s History<'a>,
    /// As it stood before the session.
    pub(super) eve: &'s History<'a>,
    pub(super) session: &'a Session,
    pub(super) pains: &'s [(&'a Session, &'a Pain)],
    pub(super) cautions: &'s [Caution],
    /// Whether more is said than the next set.
    pub(super) at_the_rack: bool,
}

impl<'a> Scene<'_, 'a> {
    pub(super) fn place(&self) -> Where {
        let (log, session) = (self.history.log, self.session);
        Where {
            date: session.date,
            block: log.block_name(session.block),
            week: session.week,
            day: session.day.as_deref().map(str::to_owned),
            place: log.place(session.page, session.line),
        }
    }

    pub(super) fn line(&self, work: &'a Work, teaching: &mut Teaching<'_, 'a>, rack: &Rack<'a>) -> LiftAhead {
        let (log, session) = (self.history.log, self.session);
        let known = teaching.of_lift(work.lift, session.date);
        let own = session.own_mass();
        let then = self.partner(work.lift).and_then(|visit| top(self.eve, &visit.lines));
        let last = self.last_time(work.lift).and_then(|visit| top(self.eve, &visit.lines));
        let mut targets = targets(work, then.as_ref().or(last.as_ref()).map(|(_, mark)| mark));
        let sets: Vec<Set<'_>> = work.groups.iter().flat_map(|group| group.sets()).collect();
        let finder = LoadFinder {
            gear: log.gear_at(session.gym),
            rack,
            lift: log.lift(work.lift),
            per_side: targets
                .first()
                .map_or_else(|| work.groups.first().is_some_and(|group| group.per_side), |one| one.per_side),
            own,
        };
        // A share of a maximum is hung as the nearest load.
        for target in targets.iter_mut().filter(|target| share(&target.load).is_some()) {
            target.load = finder.here(&target.load);
        }
        let first = targets.first();
        let to_beat = then.map(|(marked, mark)| ToBeat { equal: equal(&marked, first, &known.curve, own), mark });
        let usual = (!sets.is_empty()).then(|| Usual::of(self.eve, work.lift, &targets, own));
        let is_slip = |nth: usize, set: &Set<'_>| usual.as_ref().is_some_and(|usual| usual.is_slip(nth, set));
        let (slips, meant): (Vec<_>, Vec<_>) =
            sets.iter().copied().enumerate().partition(|(nth, set)| is_slip(*nth, set));
        let earlier: Vec<(usize, Set<'_>)> = self
            .earlier(work.lift)
            .flat_map(|done| done.work.groups.iter().flat_map(|group| group.sets()).enumerate())
            .collect();
        let deload = self.deload(work.lift, &finder);
        let line = Line {
            targets: &targets,
            done: sets.len(),
            sets: &meant,
            slip: slips.last().map(|(_, set)| self.as_written(set)),
            earlier: &earlier,
            known: &known,
            rise: teaching.rise(work.lift),
            to_beat: to_beat.as_ref(),
            last_time: last.as_ref().map(|(marked, _)| &marked.group.load),
            deload: deload.as_ref(),
            weeks_left: self.weeks_left(),
        };
        let mut next = next(&line, &finder);
        let mut lift = LiftAhead {
            lift: log.lift_name(work.lift).to_owned(),
            place: log.place(work.page, work.line),
            plan: work.plan().map(|plan| plan.text.to_string()),
            plan_in_brief: work.plan().map(|plan| in_brief(plan, known.unit)),
            sets: count(targets.len().max(sets.len())),
            sets_done: count(sets.len()),
            done: Vec::new(),
            to_beat,
            last_time: last.map(|(_, mark)| mark),
            best: None,
            next: None,
            warm_up: Vec::new(),
            setup: None,
            cue: None,
            why: None,
            watch: Vec::new(),
            unit: known.unit,
            hints: Vec::new(),
        };
        if self.at_the_rack {
            lift.warm_up = self.at_the_bar(work, (&sets, &meant), next.as_mut(), &finder);
            let next_load = next.as_ref().and_then(|next| next.load.as_ref());
            lift.hints = self.hints(work, &known, next.as_ref(), next_load.map(|load| &load.load), &finder);
            let counts = |set: &Set<'_>| set.is_work() || is_missed(set);
            let marks = Marked::of(Done { session, work }, counts);
            lift.done = marks.iter().map(|mark| mark.shown(self.history, counts)).collect();
            lift.best =
                first.and_then(|first| standing(self.eve, work.lift, bound(first.amount), count(targets.len())));
            (lift.setup, lift.cue, lift.why) = self.written(work);
            lift.watch = watch(self.eve, work.lift, self.pains, self.cautions);
        }
        LiftAhead { next, ..lift }
    }

    /// What the same week of the last block holds against this line: the session that `match` pairs with this one.
    fn partner(&self, lift: LiftId) -> Option<Visit<'a>> {
        let (block, week) = (self.session.block?, self.session.week?);
        let (_, then) = nearest_before(self.eve, block, week, lift)?;
        let now = self.history.all_of_week(WeekKey { block, week }).filter_map(|session| {
            let lines = session.works.iter().filter(|work| work.lift == lift);
            let lines: Vec<Done<'a>> = lines.map(|work| Done { session, work }).collect();
            (!lines.is_empty()).then_some(Visit { lines })
        });
        let is_this = |visit: &Option<Visit<'_>>| {
            let first = visit.as_ref().and_then(|visit| visit.lines.first());
            first.is_some_and(|done| std::ptr::eq(done.session, self.session))
        };
        pair(now.collect(), then).into_iter().find(|(now, _)| is_this(now)).and_then(|(_, then)| then)
    }

    fn last_time(&self, lift: LiftId) -> Option<Visit<'a>> {
        let earlier: Vec<Done<'a>> = self.earlier(lift).collect();
        let earlier = (!earlier.is_empty()).then_some(Visit { lines: earlier });
        self.last_of(|| earlier.clone().into_iter().chain(Visit::back(self.eve.works_of(lift))))
    }

    /// The last one of this session's label, else the last one.
    fn last_of<V: Iterator<Item = Visit<'a>>>(&self, visits: impl Fn() -> V) -> Option<Visit<'a>> {
        let label = self.session.day.as_deref().map(fold);
        let same = label.and_then(|label| visits().find(|visit| visit.label().as_ref() == Some(&label)));
        same.or_else(|| visits().next())
    }

    /// The lift's work in an earlier session of the day.
    fn earlier(&self, lift: LiftId) -> impl Iterator<Item = Done<'a>> {
        let before =
            self.history.all_on(self.session.date).iter().take_while(|session| !std::ptr::eq(*session, self.session));
        let works = before.flat_map(|session| session.works.iter().map(move |work| Done { session, work }));
        works.filter(move |done| done.work.lift == lift && done.work.has_work())
    }

    /// In a deload: the last load before it, and what the deload makes of that.
    fn deload(&self, lift: LiftId, finder: &LoadFinder<'_, 'a>) -> Option<(Load, Load)> {
        let is_deload = |session: &Session| {
            let week = session.block.and_then(|id| self.history.log.block(id)).zip(session.week);
            session.deload || week.is_some_and(|(block, week)| block.deload.contains(&week))
        };
        let before = || Visit::back(self.eve.works_of(lift).filter(|done| !is_deload(done.session)));
        let last = is_deload(self.session).then(|| self.last_of(before)).flatten()?;
        let (marked, _) = top(self.eve, &last.lines)?;
        let load = &marked.group.load;
        let is_held = load.kilograms(finder.own).is_some() && load.added() != Some(Mass::ZERO);
        is_held.then(|| (finder.here(load), finder.in_deload(load)))
    }

    /// A set of the line and where it stands: `5 @ 825 kg RPE 8 (page.md:11)`.
    fn as_written(&self, set: &Set<'_>) -> String {
        let count = amount(set.amount, set.group.per_side);
        let set_alone = Spelled::of(count).load(set.group.load.text_with_unit()).effort(set.effort).text();
        format!("{set_alone} ({})", self.history.log.place(set.group.page, set.group.line))
    }

    /// Loading weeks of the block after this one.
    fn weeks_left(&self) -> u32 {
        let of_block = || {
            let (block, week) = (self.history.log.block(self.session.block?)?, self.session.week?);
            let light = |week: &u32| block.deload.contains(week) || block.peak.contains(week);
            // Whoever plans further ahead than a year has no steps that would last for it.
            let weeks = week.saturating_add(1)..=block.week_of(block.ends?);
            Some(count(weeks.take(52).filter(|week| !light(week)).count()))
        };
        of_block().unwrap_or(0)
    }

    /// The plates of the next set, and the way up to the first one.
    fn at_the_bar(
        &self,
        work: &'a Work,
        (done, meant): (&[Set<'_>], &[(usize, Set<'_>)]),
        next: Option<&mut Next>,
        finder: &LoadFinder<'_, 'a>,
    ) -> Vec<WarmUpSet> {
        let written = |work: &'a Work| work.details.as_ref().map_or(&[][..], |details| &details.warm_ups);
        let first = meant.first().map(|(_, set)| &set.group.load);
        let ahead = next.as_ref().and_then(|next| next.load.as_ref()).map(|load| load.load.clone());
        let reps = next.as_ref().and_then(|next| next.amount.reps()).unwrap_or(1);
        let own = written(work);
        let work_load = first.or(ahead.as_ref());
        let last_written = || {
            let before = self.eve.works_of(work.lift).rfind(|done| !written(done.work).is_empty())?;
            let sets = finder.written(written(before.work), work_load);
            finder.reaches(&sets, work_load).then_some(sets)
        };
        let (mut sets, mut hung) = (Vec::new(), None);
        if !own.is_empty() {
            sets = finder.written(own, None);
        } else if let Some(before) = last_written() {
            sets = before;
        } else if let Some((ladder, side)) =
            work_load.and_then(|load| finder.ladder(&self.history.log.warm_up.before(reps), load))
        {
            (sets, hung) = (ladder, Some(side));
        }
        for (nth, set) in meant {
            // What the way up ended with hangs there at the first set.
            hung = if *nth == 0 && hung.is_some() { hung } else { finder.side(&set.group.load, hung.as_deref()) };
        }
        if let (Some(next), Some(load)) = (next, &ahead) {
            next.plates = finder.plates(load, hung.as_deref());
            if done.is_empty()
                && let Some(plates) = &mut next.plates
            {
                // Before the first set nothing comes off: the way up ends with it.
                plates.hung.change = None;
            }
        }
        if done.is_empty() { sets } else { Vec::new() }
    }

    /// Set-up, cue and reason: of the line itself, else as last written.
    fn written(&self, work: &Work) -> (Option<Note>, Option<Note>, Option<Note>) {
        let log = self.history.log;
        let own = |kind: RemarkKind| {
            let mut remarks = work.details.iter().flat_map(|details| &details.remarks);
            let remark = remarks.rfind(|remark| remark.kind == kind)?;
            let place = log.place(remark.page, remark.line);
            Some(Note { date: self.session.date, text: remark.text.to_string(), place })
        };
        let note = |kind| own(kind).or_else(|| recall::last_written(self.eve, work.lift, kind));
        (note(RemarkKind::Setup), note(RemarkKind::Cue), note(RemarkKind::Why))
    }

    fn hints(
        &self,
        work: &Work,
        known: &Known,
        next: Option<&Next>,
        load: Option<&Load>,
        finder: &LoadFinder<'_, '_>,
    ) -> Vec<Hint> {
        let Some(next) = next else { return Vec::new() };
        let mut hints = Vec::new();
        let has_mass = load.is_some_and(|load| load.kilograms(finder.own).is_some_and(|mass| mass > Mass::ZERO));
        if next.effort.is_none() && next.amount.reps().is_some() && has_mass {
            hints.push(Hint::NoEffort);
        }
        if has_mass && (finder.gear.bars.is_empty() || finder.gear.plates.is_empty()) {
            hints.push(Hint::NoPlates);
        }
        let begins = self.session.week == Some(1) && self.session.block.is_some();
        if begins && known.foretelling.is_some() && next.plates.is_some() && !self.was_near_maximum(work.lift) {
            hints.push(Hint::NoSingle);
        }
        hints
    }

    /// Whether the lift had a single, a set to failure or a test in the last four weeks.
    fn was_near_maximum(&self, lift: LiftId) -> bool {
        let recent = |done: &Done<'_>| (self.session.date - done.session.date).num_days() <= 28;
        self.eve.works_of(lift).rev().take_while(recent).any(|done| {
            let is_test = done.session.test_day || done.session.meet.is_some();
            let near = |set: Set<'_>| {
                let single =
                    set.amount.reps() == Some(1) && set.effort.and_then(effort_scale::reps_in_reserve).is_some();
                single || set.group.extra.as_ref().is_some_and(|extra| extra.amrap || extra.missed > 0)
            };
            is_test || done.work.groups.iter().flat_map(|group| group.sets()).any(near)
        })
    }
}

/// A plan as written, but with loads that name bar and plates as the mass they come to.
fn in_brief(plan: &Plan, unit: Unit) -> String {
    let loads = plan.groups.iter().filter_map(|group| Some((group.load.text()?, words::brief(&group.load, unit))));
    loads.fold(plan.text.to_string(), |text, (written, brief)| text.replace(&written, &brief))
}

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

fn bound(amount: Amount) -> Bound {
    match amount {
        Amount::Reps(reps) => Bound::Reps(reps),
        Amount::Seconds(seconds) => Bound::Seconds(seconds),
        Amount::Metres(metres) => Bound::Metres(metres),
    }
}

/// The sets of a line that are planned. Where it has no plan and nothing is done, those of a mark.
fn targets(work: &Work, like: Option<&Mark>) -> Vec<Target> {
    let of_group = |group: &PlannedGroup| {
        let load = if matches!(group.load, Load::Percent(_)) { Load::None } else { group.load.clone() };
        Target { amount: group.amounts.least(), per_side: group.per_side, load, effort: group.effort }
    };
    match work.plan() {
        Some(plan) => {
            let groups = plan.groups.iter();
            groups.flat_map(|group| (0..group.fewest).map(move |_| of_group(group))).collect()
        }
        None if work.status == Status::Nothing => {
            let sets = like.iter().flat_map(|mark| (0..mark.sets).map(|_| *mark));
            sets.map(|mark| Target { amount: mark.amount, per_side: mark.per_side, load: Load::None, effort: None })
                .collect()
        }
        None => Vec::new(),
    }
}
