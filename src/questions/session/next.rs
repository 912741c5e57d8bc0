//! The load of the next set, by the first of four rules that holds.
//!
//! 1. Sets of the line are done today with a known effort: what was foretold for them, moved towards what was said.
//! 2. The plan has a load: that one, and a word where it looks to be outside its effort.
//! 3. The plan has an effort: the load that is foretold to have it.
//! 4. No estimate reaches, or no effort is wanted: the load of last time, said to be only that.
//!
//! In a deload the last two hang no more than what the deload makes of the load before it, and the first goes up no further.

use super::answer::{Next, ToBeat};
use super::foretelling::{Foretelling, Known, REACH};
use super::hang::LoadFinder;
use crate::analysis::strength::rpe_ahead::Rpe;
use crate::science::effort_scale;
use crate::training::{Amount, EffortRange, Load, Mass, Set, Unit, Weighed, words};

/// Half the width of a planned effort, at least: one that names a single number means half a point either way.
const LEAST_HALF: f64 = 0.5;

/// A set so far outside its range is still as wanted.
const NEARLY: f64 = 0.25;

/// An effort so far outside of what a plan with a load says is worth a word.
const WORTH_A_WORD: f64 = 0.5;

/// So far over the middle of the range is aimed at: who says too few reps left trains too light without a sign of it, and
/// who says too many fails and is found out. This project's own choice, by lifters who follow the advice (docs/science.md).
const AIMED_OVER: f64 = 0.25;

/// Plates and dumbbells that lie far apart may take a set so far over its range, and no further; nor over this, where the
/// plan does not.
const STEPPED_OVER: f64 = 1.0;
const NEARLY_FAILING: f64 = 9.5;

/// What is left of a load after a set that was a whole point over its range: two and a half per cent less, or the next load
/// below that hangs (common practice, no source).
const LIGHTER: f64 = 0.975;

/// After a miss the same again is at least this.
const AFTER_A_MISS: f64 = 10.5;

/// The effort that the block's last loading week shall not go over, and in how many of these weeks the load rises by a step:
/// what `room` goes by.
const CAP: f64 = 9.0;
const WEEKS_A_STEP: u32 = 3;

/// How many reps were left where the next one failed.
const MISSED: f64 = -0.5;

/// A set that is to be done.
pub(super) struct Target {
    pub(super) amount: Amount,
    pub(super) per_side: bool,
    /// None where the plan leaves it open.
    pub(super) load: Load,
    pub(super) effort: Option<EffortRange>,
}

/// A line, and all that the rules look at.
pub(super) struct Line<'s> {
    pub(super) targets: &'s [Target],
    /// How many sets of the line are done.
    pub(super) done: usize,
    /// Those of them that look as they are meant, each with its place.
    pub(super) sets: &'s [(usize, Set<'s>)],
    /// A set that does not, as it is written.
    pub(super) slip: Option<String>,
    /// The lift's sets in an earlier session of the day.
    pub(super) earlier: &'s [(usize, Set<'s>)],
    pub(super) known: &'s Known,
    /// By how much effort rises from set to set.
    pub(super) rise: f64,
    pub(super) to_beat: Option<&'s ToBeat>,
    /// The load of last time.
    pub(super) last_time: Option<&'s Load>,
    /// In a deload: the load of the last time before it, and what the deload makes of that.
    pub(super) deload: Option<&'s (Load, Load)>,
    /// Loading weeks of the block after this one.
    pub(super) weeks_left: u32,
}

/// An effort that is wanted, as points.
#[derive(Clone, Copy)]
struct Wanted {
    low: f64,
    high: f64,
}

impl Wanted {
    fn of(range: EffortRange) -> Self {
        let (low, high) = (range.low.value(), range.high.value());
        let (middle, half) = ((low + high) / 2.0, ((high - low) / 2.0).max(LEAST_HALF));
        Wanted { low: middle - half, high: middle + half }
    }

    fn aim(self) -> f64 {
        self.middle() + AIMED_OVER
    }

    /// More than this is hung for no rounding's sake.
    fn most(self) -> f64 {
        (self.high + STEPPED_OVER).min(self.high.max(NEARLY_FAILING))
    }

    fn middle(self) -> f64 {
        (self.low + self.high) / 2.0
    }

    fn holds(self, effort: f64) -> bool {
        (self.low - NEARLY..=self.high + NEARLY).contains(&effort)
    }
}

/// What is foretold, after the sets of today.
struct Day {
    foretelling: Foretelling,
    /// Reps to put to what was foretold of a fresh set.
    shift: f64,
    /// Of that, in reps; nothing where no set of today says anything.
    variance: Option<f64>,
    /// Reps that the sets done have cost.
    tired: f64,
}

impl Day {
    fn reps_left(&self, load: f64, reps: f64) -> f64 {
        self.foretelling.reps(load) + self.shift - self.tired - reps
    }

    fn effort(&self, load: f64, reps: f64) -> f64 {
        10.0 - self.reps_left(load, reps)
    }

    /// The load at which a set of so many reps has an effort.
    fn load(&self, reps: f64, effort: f64) -> f64 {
        self.foretelling.load(reps + 10.0 - effort + self.tired - self.shift)
    }

    /// What the lifter will call it: the loads are chosen by how hard a set is, and said is what he will rate it, as
    /// `estimate` and `room` do.
    fn called(&self, load: f64, reps: f64) -> Rpe {
        self.foretelling.called(self.reps_left(load, reps))
    }

    /// The same with the ends of its 80 % interval.
    fn ahead(&self, load: f64, reps: f64) -> [Rpe; 3] {
        let left = self.reps_left(load, reps);
        let apart = REACH * self.variance.unwrap_or_else(|| self.foretelling.variance(load)).sqrt();
        [left + apart, left, left - apart].map(|left| self.foretelling.called(left))
    }
}

/// What a rule says.
struct Said {
    load: Option<Load>,
    rule: u8,
    why: String,
}

/// The next set of a line; nothing where all are done.
pub(super) fn next(line: &Line<'_>, finder: &LoadFinder<'_, '_>) -> Option<Next> {
    let target = line.targets.get(line.done)?;
    let reps = target.amount.reps().map(f64::from);
    let day = reps.and_then(|_| line.day(finder));
    let said = line.rated(target, day.as_ref(), finder).or_else(|| line.planned(target, day.as_ref(), finder));
    let said = said.or_else(|| line.by_effort(target, day.as_ref(), finder));
    let said = said.unwrap_or_else(|| line.last_time(target, day.as_ref(), finder));
    let asked = line
        .slip
        .as_ref()
        .map_or(String::new(), |slip| format!("; {slip} looks like a slip and is left out: is that load right?"));
    let kilograms = said.load.as_ref().and_then(|load| load.kilograms(finder.own));
    let everything = kilograms.filter(|mass| *mass > Mass::ZERO).map(Mass::in_kilograms);
    let ahead = day.zip(everything).zip(reps).map(|((day, load), reps)| day.ahead(load, reps));
    let [low, middle, high] = ahead.map_or([None; 3], |ahead| ahead.map(Some));
    Some(Next {
        set: u32::try_from(line.done + 1).unwrap_or(u32::MAX),
        amount: target.amount,
        per_side: target.per_side,
        load: said.load.map(|load| Weighed { load, kilograms }),
        effort: middle,
        effort_low: low,
        effort_high: high,
        rule: said.rule,
        why: said.why + &asked,
        plates: None,
    })
}

impl Line<'_> {
    fn unit(&self) -> Unit {
        self.known.unit
    }

    /// The sets done that say how hard they were: their place, kilograms, reps, and how many were said to be left; nothing
    /// is said of one that was missed.
    fn ratings(sets: &[(usize, Set<'_>)], finder: &LoadFinder<'_, '_>) -> Vec<(f64, f64, f64, Option<f64>)> {
        let rated = sets.iter().filter_map(|(nth, set)| {
            let (load, reps) = (set.group.load.kilograms(finder.own)?, set.amount.reps()?);
            let said = match set.effort {
                _ if is_missed(set) => None,
                effort => Some(effort_scale::reps_in_reserve(effort?)?),
            };
            (load > Mass::ZERO).then_some((*nth as f64, load.in_kilograms(), f64::from(reps), said))
        });
        rated.collect()
    }

    /// What is foretold for the next set. Each rating moves it by V / (V + R): V the variance of the foretelling, R that
    /// of a rating with so many reps left as foretold, never as said. A lifter who is foretold an easy set rates it
    /// poorly, whatever he says of it.
    fn day(&self, finder: &LoadFinder<'_, '_>) -> Option<Day> {
        let ratings = [Line::ratings(self.earlier, finder), Line::ratings(self.sets, finder)].concat();
        let first = ratings.first();
        let of_today = || {
            let (_, load, reps, said) = first?;
            let reps = (reps + said.unwrap_or_default()).max(1.0);
            Some(Foretelling::from(self.known.curve.clone(), *load, reps))
        };
        let foretelling = self.known.foretelling.clone().or_else(of_today)?;
        let mut variance = first.map(|(_, load, ..)| foretelling.variance(*load));
        let mut shift = 0.0;
        for (nth, load, reps, said) in &ratings {
            let foretold = foretelling.reps(*load) + shift - nth * self.rise - reps;
            let left = said.map_or(MISSED, |said| foretelling.left(said, foretold));
            let noise = (0.5 + 0.25 * foretold.max(0.0)).powi(2);
            let before = variance.unwrap_or_default();
            let gain = before / (before + noise);
            shift += gain * (left - foretold);
            variance = Some(before * (1.0 - gain));
        }
        let mut day = Day { foretelling, shift, variance, tired: self.done as f64 * self.rise };
        if let Some((_, missed)) = self.sets.last().filter(|(_, set)| is_missed(set))
            && let (Some(load), Some(target)) = (missed.group.load.kilograms(finder.own), self.targets.get(self.done))
            && let Some(reps) = target.amount.reps()
        {
            let effort = day.effort(load.in_kilograms(), f64::from(reps));
            day.shift -= (AFTER_A_MISS - effort).max(0.0);
        }
        Some(day)
    }

    /// What the plan wants of a set, else what the same week of the last block was.
    fn wanted(&self, target: &Target) -> Option<Wanted> {
        let then = || self.to_beat?.mark.effort.map(|effort| EffortRange { low: effort, high: effort });
        target.effort.or_else(then).map(Wanted::of)
    }

    /// The load of the last set done.
    fn hung(&self) -> Option<&Load> {
        self.sets.last().map(|(_, set)| &set.group.load).filter(|load| **load != Load::None)
    }

    /// The first rule.
    fn rated(&self, target: &Target, day: Option<&Day>, finder: &LoadFinder<'_, '_>) -> Option<Said> {
        let day = day.filter(|_| !Line::ratings(self.sets, finder).is_empty())?;
        let reps = f64::from(target.amount.reps()?);
        let before = self.done.checked_sub(1).and_then(|last| self.targets.get(last));
        let planned = Some(&target.load).filter(|load| **load != Load::None);
        // Another load of the plan is meant as such; else what hangs there comes first.
        let is_new = planned.is_some() && before.is_none_or(|before| before.load != target.load);
        let first = if is_new { planned } else { self.hung().or(planned) }?;
        let kilograms = first.kilograms(finder.own)?.in_kilograms();
        let effort = day.effort(kilograms, reps);
        let name = if planned == Some(first) { "the plan's load" } else { "the same again" };
        let same = if is_new { "as planned".to_owned() } else { "the same again".to_owned() };
        // A load of the plan is never left in silence.
        let is_beside = planned.is_some_and(|planned| planned != first && !finder.is_same(planned, first));
        let beside = match planned.filter(|_| is_beside) {
            Some(planned) => format!("; the plan has {}", words::brief(planned, self.unit())),
            None => String::new(),
        };
        let kept = |why: String| Said { why: why + &beside, load: Some(first.clone()), rule: 1 };
        let Some(wanted) = self.wanted(target) else { return Some(kept(same)) };
        // Whatever was foretold, nothing is added to a set that was said to be over its range.
        let (limit, said) = self.limit(wanted, reps, finder);
        let over = |load: &Load| everything_of(load, finder.own).is_some_and(|load| load > limit);
        if wanted.holds(effort) && !over(first) {
            return Some(kept(same));
        }
        let most = day.load(reps, wanted.most());
        // A deload stays one, however easy it was.
        let deload = self.deload.and_then(|(_, load)| everything_of(load, finder.own));
        let ceiling =
            deload.map_or(f64::INFINITY, |deload| deload.max(everything_of(first, finder.own).unwrap_or(deload)));
        let wish = day.load(reps, wanted.aim()).min(ceiling);
        let foretold = finder.near_below(first, wish, most);
        let then = words::brief(first, self.unit());
        if foretold.as_ref().is_some_and(over) || (wanted.holds(effort) && over(first)) {
            let lighter = finder.near_below(first, limit.min(wish), limit.min(most));
            let why = match lighter.as_ref().filter(|lighter| !finder.is_same(lighter, first)) {
                Some(_) => format!("{name}, {then}, would be too much: {} was over the plan", Rpe::of(said)),
                None => format!("{same}: {} was over the plan", Rpe::of(said)),
            };
            let load = lighter.or_else(|| Some(first.clone()));
            return Some(Said { why: why + &beside, load, rule: 1 });
        }
        let Some(load) = foretold.filter(|load| !finder.is_same(load, first)) else {
            let why = if deload.is_some() {
                "a deload goes no heavier".to_owned()
            } else {
                format!("no load comes nearer to {}", Rpe::of(wanted.middle()))
            };
            return Some(kept(format!("{same}: {why}")));
        };
        let why = format!("{}; {name}, {then}, would be {}", aimed(wanted), day.called(kilograms, reps));
        Some(Said { why: why + &beside, load: Some(load), rule: 1 })
    }

    /// The heaviest load for as many reps, in kilograms, and how hard the last set was said to be: no more than that set had
    /// where it was over the range, and less where it was a whole point over.
    fn limit(&self, wanted: Wanted, reps: f64, finder: &LoadFinder<'_, '_>) -> (f64, f64) {
        let last = Line::ratings(self.sets, finder).pop();
        let Some((_, load, _, Some(left))) = last.filter(|(_, _, done, _)| reps >= *done) else {
            return (f64::INFINITY, 0.0);
        };
        let said = 10.0 - left;
        match said - wanted.high {
            over if over >= STEPPED_OVER => (load * LIGHTER, said),
            over if over > 0.0 => (load, said),
            _ => (f64::INFINITY, said),
        }
    }

    /// The second rule.
    fn planned(&self, target: &Target, day: Option<&Day>, finder: &LoadFinder<'_, '_>) -> Option<Said> {
        let load = Some(&target.load).filter(|load| **load != Load::None)?;
        let beside = || {
            let (day, reps) = (day?, f64::from(target.amount.reps()?));
            let foretold = |load: &Load| {
                let everything = load.kilograms(finder.own).filter(|mass| *mass > Mass::ZERO)?;
                Some(day.called(everything.in_kilograms(), reps))
            };
            let (wanted, effort) = (Wanted::of(target.effort?), foretold(load)?);
            if wanted.low - effort.points() >= WORTH_A_WORD {
                return Some(format!("; {effort} is foretold, under the plan"));
            }
            if effort.points() - wanted.high < WORTH_A_WORD {
                return None;
            }
            // Who may fail is told what would not.
            let lighter = finder.near_below(load, day.load(reps, wanted.aim()), day.load(reps, wanted.high));
            let lighter = lighter.filter(|lighter| !finder.is_same(lighter, load)).and_then(|lighter| {
                let effort = foretold(&lighter).filter(|effort| wanted.holds(effort.points()))?;
                Some(format!("; {} would be {effort}", words::brief(&lighter, self.unit())))
            });
            Some(format!("; {effort} is foretold, over the plan{}", lighter.unwrap_or_default()))
        };
        Some(Said { why: format!("as planned{}", beside().unwrap_or_default()), load: Some(load.clone()), rule: 2 })
    }

    /// The third rule.
    fn by_effort(&self, target: &Target, day: Option<&Day>, finder: &LoadFinder<'_, '_>) -> Option<Said> {
        let (day, wanted, reps) = (day?, self.wanted(target)?, f64::from(target.amount.reps()?));
        if let Some(hung) = self.hung() {
            let why = "the same again: no effort is written of the sets before".to_owned();
            return Some(Said { load: Some(hung.clone()), rule: 3, why });
        }
        let then = self.to_beat.map(|beat| &beat.mark.load.load);
        let like = self.last_time.or(then)?;
        let everything = |load: &Load| everything_of(load, finder.own);
        everything(like)?;
        let wish = day.load(reps, wanted.aim());
        let deload = self.deload.and_then(|(_, load)| everything(load));
        if deload.is_some_and(|deload| deload < wish) {
            return self.deloaded(3, finder);
        }
        // What hangs nearest, but nothing that is foretold under the range while a load within it hangs.
        let heaviest = day.load(reps, wanted.most());
        let hangs = |kilograms: f64| {
            let load = finder.near_below(like, kilograms, heaviest)?;
            let effort = |load: &Load| Some(day.effort(everything(load)?, reps));
            let is_under = effort(&load)? < wanted.low;
            let heavier =
                || finder.heavier(&load).filter(|load| effort(load).is_some_and(|effort| effort <= wanted.high));
            Some(is_under.then(heavier).flatten().unwrap_or(load))
        };
        let free = hangs(wish)?;
        // Room to the block's end takes a load to the lower end of the range, and no further.
        let room = self.room(day, reps, finder.step(like)).map(|room| room.max(day.load(reps, wanted.low)));
        let beat = self.to_beat.and_then(|beat| beat.everything(finder.own)).filter(|beat| *beat > wish);
        let ceiling = [room, deload].into_iter().flatten().fold(day.load(reps, wanted.high), f64::min);
        let (load, why) = match beat {
            Some(beat) if beat <= ceiling => {
                let load = finder.near_below(like, beat, heaviest)?;
                let is_below = everything(&load)? + 1e-6 < beat && !near_enough(&load, beat, finder);
                let heavier =
                    || finder.heavier(&load).filter(|load| everything(load).is_some_and(|all| all <= heaviest));
                let load = is_below.then(heavier).flatten().unwrap_or(load);
                (load, "as much as is to beat: the effort allows it".to_owned())
            }
            beat => {
                let load = room.filter(|room| *room < wish).and_then(hangs).unwrap_or_else(|| free.clone());
                let effort = day.effort(everything(&load)?, reps);
                let why = if !finder.is_same(&load, &free) {
                    let (brief, heavier) = (words::brief(&free, self.unit()), day.called(everything(&free)?, reps));
                    format!("leaves room to the block's end; {brief} would be {heavier}")
                } else if wanted.holds(effort) {
                    aimed(wanted)
                } else {
                    self.between(wanted, &load, day, reps, finder)
                };
                let beat = beat.map(|beat| format!("; what is to beat would be {}", day.called(beat, reps)));
                (load, why + &beat.unwrap_or_default())
            }
        };
        Some(Said { load: Some(load), rule: 3, why })
    }

    /// What the deload makes of the last load before it.
    fn deloaded(&self, rule: u8, finder: &LoadFinder<'_, '_>) -> Option<Said> {
        let (before, load) = self.deload?;
        let why = match finder.is_same(before, load) {
            true => "a deload: no more than before it".to_owned(),
            false => format!("a deload: a tenth or more off {}", words::brief(before, self.unit())),
        };
        Some(Said { load: Some(load.clone()), rule, why })
    }

    /// Why a load is far from what is wanted: the next one is further, or there is none.
    fn between(&self, wanted: Wanted, load: &Load, day: &Day, reps: f64, finder: &LoadFinder<'_, '_>) -> String {
        let next = finder.heavier(load);
        let all = next.as_ref().and_then(|next| everything_of(next, finder.own));
        match next.zip(all).filter(|(_, all)| day.effort(*all, reps) > wanted.high) {
            Some((next, all)) => {
                format!("the next load, {}, would be {}", words::brief(&next, self.unit()), day.called(all, reps))
            }
            None => format!("no load comes nearer to {}", Rpe::of(wanted.middle())),
        }
    }

    /// The heaviest load from which a step of the gym in every third loading week, or one, still keeps the block's last one
    /// under the cap.
    fn room(&self, day: &Day, reps: f64, step: Mass) -> Option<f64> {
        let steps = (self.weeks_left / WEEKS_A_STEP).max(1);
        (self.weeks_left > 0).then(|| day.load(reps, CAP) - step.times(steps).in_kilograms())
    }

    /// The fourth rule.
    fn last_time(&self, target: &Target, day: Option<&Day>, finder: &LoadFinder<'_, '_>) -> Said {
        if let Some(said) = self.deloaded(4, finder).filter(|_| self.hung().is_none()) {
            return said;
        }
        let (load, why) = match (self.hung(), self.last_time) {
            (Some(hung), _) if day.is_some() => (Some(hung.clone()), "the same again"),
            (Some(hung), _) => (Some(hung.clone()), "the same again: no estimate reaches this"),
            (None, Some(load)) if *load != Load::None && load.added() != Some(Mass::ZERO) => {
                let why = match day {
                    Some(_) => "last time's load: the plan has no load and no effort",
                    None => "last time's load, and only that: no estimate reaches this",
                };
                (Some(finder.here(load)), why)
            }
            (None, Some(load)) => (Some(load.clone()).filter(|load| *load != Load::None), "as planned"),
            (None, None) if target.amount.reps().is_none() => (None, "as planned"),
            (None, None) => (None, "nothing says a load yet"),
        };
        Said { load, rule: 4, why: why.to_owned() }
    }
}

/// What a load is chosen for; how hard it will be is said beside it.
fn aimed(wanted: Wanted) -> String {
    format!("aims at {}", Rpe::of(wanted.middle()))
}

fn everything_of(load: &Load, own: Option<Mass>) -> Option<f64> {
    load.kilograms(own).map(Mass::in_kilograms)
}

/// Whether a load counts as the same as so many kilograms.
fn near_enough(load: &Load, kilograms: f64, finder: &LoadFinder<'_, '_>) -> bool {
    let same = crate::training::Tolerance::of(finder.gear);
    let masses = load.kilograms(finder.own).zip(Mass::from_kilograms(kilograms));
    masses.is_some_and(|(one, other)| same.compare(one, other).is_eq())
}

/// Whether a set ended with a rep that failed.
pub(super) fn is_missed(set: &Set<'_>) -> bool {
    let is_last = set.at + 1 == set.group.count();
    set.amount.is_nothing() || (is_last && set.group.extra.as_ref().is_some_and(|extra| extra.missed > 0))
}
