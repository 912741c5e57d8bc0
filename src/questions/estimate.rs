//! `estimate`: what one could lift once, how surely that is known, and the loads that follow from it.

use super::caution::CAUTION;
pub use super::evidence::{Curve, Estimate};
use super::evidence::{Evidence, Missed, Rated, day_number, is_miss, own_weight};
pub use super::rpe_ahead::Rpe;
use crate::history::{Done, History, Mark, Marked};
use crate::science::strength::Strength;
use crate::science::{Equation, Trust, effort_scale};
use crate::training::{Bar, Effort, Gear, LiftId, Loadable, Mass, Unit};
use chrono::NaiveDate;

/// The most reps of the table.
const MOST_REPS: u32 = 12;

/// The efforts of the table, RPE 6 to 10.
const EFFORTS: std::ops::RangeInclusive<i64> = 6..=10;

/// The sets that are shown as what the estimate rests on are those of so many days before the last of them: with the
/// drift and the errors that are reckoned with, older ones hardly weigh.
const RESTS_ON_DAYS: i64 = 8 * 7;

/// How many blocks back it is shown how the estimate moved.
const BLOCKS_BACK: usize = 4;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// The lift.
    pub lift: LiftId,
    /// The equation to start from.
    pub equation: Equation,
    /// A load to be looked at.
    pub about: Option<About>,
}

/// A load, and reps or an effort with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct About {
    /// The load; what is added, for lifts whose loads contain the lifter's own weight.
    pub load: Mass,
    /// How many reps, to ask for the effort.
    pub reps: Option<u32>,
    /// How hard, to ask for the reps.
    pub effort: Option<Effort>,
}

/// What is to be expected of a load today.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// What was asked.
    pub about: About,
    /// Reps to failure; nothing where the load is heavier than the maximum, or lighter than the equation reaches.
    pub reps_to_failure: Option<f64>,
    /// The effort for the reps that were asked about.
    pub effort: Option<Rpe>,
    /// The whole reps for the effort that was asked about.
    pub reps: Option<u32>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The lift.
    pub lift: String,
    /// The day that it holds for.
    pub on: NaiveDate,
    /// The equation.
    pub equation: Equation,
    /// What shaped the curve of reps against load.
    pub curve: Curve,
    /// The estimate; nothing where no set bears one.
    pub estimate: Option<Estimate>,
    /// The lifter's own weight that comes on top, for lifts whose loads contain it.
    pub own_weight: Option<Mass>,
    /// The unit that the lifter writes this lift's loads in.
    pub unit: Unit,
    /// What it rests on most: the days of the last eight weeks with evidence, in order of time.
    pub evidence: Vec<Ground>,
    /// The missed attempts of the same eight weeks that it rests on too, one a day, in order of time.
    pub misses: Vec<MissGround>,
    /// How it moved over the last blocks, in order of time.
    pub blocks: Vec<BlockEnd>,
    /// Loads for reps at an effort.
    pub table: Vec<Cell>,
    /// What is to be expected of the load that was asked about; nothing without an estimate.
    pub expected: Option<Expected>,
    /// What bears no estimate, and why.
    pub unused: Unused,
    /// The caution.
    pub caution: &'static str,
}

/// A set that an estimate rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Ground {
    /// The set.
    pub mark: Mark,
    /// What it says by itself.
    pub estimate: Estimate,
    /// Whether its reps to failure are more than 10, which makes the estimate weak.
    pub weak: bool,
}

/// A missed attempt that an estimate rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct MissGround {
    /// The attempt: no rep.
    pub mark: Mark,
    /// Its load as estimates are shown: that day's maximum was below it, if strength was what failed.
    pub below: Mass,
    /// The heaviest that was made that day, as estimates are shown; nothing where nothing was.
    pub made: Option<Mass>,
}

/// The estimate at the end of a block.
#[derive(Clone, Debug, PartialEq)]
pub struct BlockEnd {
    /// The block's name.
    pub block: String,
    /// The last day with evidence in it.
    pub date: NaiveDate,
    /// The estimate of that day, from all days up to it.
    pub estimate: Estimate,
}

/// A load for reps at an effort.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// The reps.
    pub reps: u32,
    /// The effort.
    pub effort: Effort,
    /// The load; nothing where the reps to failure lie outside the equation's range.
    pub load: Option<Mass>,
    /// The nearest that the gym's bar and plates make; nothing for lifts with the lifter's own weight.
    pub loadable: Option<Mass>,
}

/// Clean sets of the lift with reps that bear no estimate.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Unused {
    /// Without an effort.
    pub without_effort: u32,
    /// Below RPE 5, where the scale names no reps in reserve.
    pub too_light: u32,
    /// With more reps to failure than the equation reaches.
    pub too_many_reps: u32,
    /// With a load that is no mass, or bodyweight not known.
    pub without_mass: u32,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let evidence = Evidence::of(history, ask.lift, ask.equation);
    let strength = evidence.strength_on(history.today);
    let own = evidence.own_weight();
    Answer {
        lift: history.log.lift_name(ask.lift).to_owned(),
        on: history.today,
        equation: ask.equation,
        curve: evidence.curve,
        estimate: strength.as_ref().and_then(|strength| Estimate::of(strength.maximum(), own)),
        own_weight: own,
        unit: evidence.unit(),
        evidence: grounds(history, &evidence),
        misses: misses(history, &evidence),
        blocks: block_ends(history, &evidence),
        expected: strength.as_ref().zip(ask.about).map(|(strength, about)| expected(strength, about, own)),
        table: strength.map_or_else(Vec::new, |strength| {
            let loadable = bar(&history.log.gear, &evidence).map(|bar| Loadable::new(bar, &history.log.gear));
            table(&strength, own, loadable.as_ref())
        }),
        unused: unused(history.works_of(ask.lift), ask.equation),
        caution: CAUTION,
    }
}

/// The bar that the last load names, else the one called `bar`, else the gym's first.
pub(crate) fn bar<'g>(gear: &'g Gear, evidence: &Evidence<'_>) -> Option<&'g Bar> {
    let last = evidence.days.last().and_then(|rated| rated.mark.group.load.text());
    let named = last.as_deref().and_then(|text| text.split(" + ").find_map(|term| gear.bar(term)));
    named.or(gear.bar("bar")).or(gear.bars.first())
}

/// What looks whether a mark is of the last eight weeks with evidence.
fn recent(evidence: &Evidence<'_>) -> impl Fn(&Marked<'_>) -> bool {
    let day = |mark: &Marked<'_>| day_number(mark.done.session.date);
    let last = evidence.dates().last().map(|last| day(last));
    move |mark| last.is_some_and(|last| last - day(mark) < RESTS_ON_DAYS)
}

fn misses(history: &History<'_>, evidence: &Evidence<'_>) -> Vec<MissGround> {
    let is_recent = recent(evidence);
    let recent = evidence.misses.iter().filter(|missed| is_recent(&missed.mark));
    let ground = |missed: &Missed<'_>| {
        let shown = |load: Mass| load - own_weight(&missed.mark).unwrap_or(Mass::ZERO);
        let (below, made) = (shown(missed.mark.kilograms()?), missed.made.map(shown));
        Some(MissGround { mark: missed.mark.shown(history, is_miss), below, made })
    };
    recent.filter_map(ground).collect()
}

fn grounds(history: &History<'_>, evidence: &Evidence<'_>) -> Vec<Ground> {
    let is_recent = recent(evidence);
    let recent = evidence.days.iter().filter(|rated| is_recent(&rated.mark));
    let ground = |rated: &Rated<'_>| {
        Some(Ground {
            mark: rated.mark.shown(history, |set| set.is_work() && set.is_clean()),
            estimate: evidence.estimate(rated)?,
            weak: Trust::of(rated.set.to_failure()) == Some(Trust::Weak),
        })
    };
    recent.filter_map(ground).collect()
}

fn block_ends(history: &History<'_>, evidence: &Evidence<'_>) -> Vec<BlockEnd> {
    let in_block = |mark: &Marked<'_>| mark.done.session.block;
    let mut ends: Vec<BlockEnd> = Vec::new();
    let dates = evidence.dates();
    let strengths = evidence.day_by_day(false);
    let blocks: Vec<&[&Marked<'_>]> = dates.chunk_by(|one, other| in_block(one) == in_block(other)).collect();
    for days in blocks.into_iter().rev() {
        if ends.len() == BLOCKS_BACK {
            break;
        }
        let Some(last) = days.last() else { continue };
        let Some(block) = in_block(last).and_then(|id| history.log.block(id)) else { continue };
        let date = last.done.session.date;
        let strength = strengths.iter().rev().find(|(mark, _)| mark.done.session.date == date);
        let estimate = strength.and_then(|(_, strength)| Estimate::of(strength.maximum(), own_weight(last)));
        // A session put into a block from outside its days comes between; the block is shown once.
        if ends.iter().any(|end| end.block == block.name) {
            continue;
        }
        ends.extend(estimate.map(|estimate| BlockEnd { block: block.name.clone(), date, estimate }));
    }
    ends.reverse();
    ends
}

/// The same estimate read the other way: the reps that a load allows, and the effort that reps with it ask for.
fn expected(strength: &Strength, about: About, own: Option<Mass>) -> Expected {
    let load = (about.load + own.unwrap_or(Mass::ZERO)).in_kilograms();
    let reps_to_failure = strength.reps_at(load);
    let too_heavy = load > strength.maximum().middle;
    let effort = about.reps.map(|reps| match reps_to_failure {
        Some(failure) => Rpe::of(10.0 - strength.said(failure - f64::from(reps))),
        None if too_heavy => Rpe::Missed,
        None => Rpe::Light,
    });
    let reserve = about.effort.and_then(effort_scale::reps_in_reserve);
    // A rep that is short by a hundredth is a rep.
    let reps =
        reps_to_failure.zip(reserve).map(|(failure, reserve)| (failure - reserve + 0.01).floor().max(0.0) as u32);
    Expected { about, reps_to_failure, effort, reps }
}

fn table(strength: &Strength, own: Option<Mass>, loadable: Option<&Loadable>) -> Vec<Cell> {
    let mut table = Vec::new();
    for reps in 1..=MOST_REPS {
        for rpe in EFFORTS {
            let effort = Effort::rpe(rpe * 1000, rpe * 1000);
            let load = effort_scale::reps_in_reserve(effort)
                .and_then(|left| strength.load_for(f64::from(reps), left))
                .and_then(|load| Estimate::of(load, own))
                .map(|load| load.maximum);
            let nearest = load.filter(|_| own.is_none()).and_then(|load| Some(loadable?.nearest(load)));
            table.push(Cell { reps, effort, load, loadable: nearest });
        }
    }
    table
}

fn unused<'a>(works: impl Iterator<Item = Done<'a>>, equation: Equation) -> Unused {
    let mut unused = Unused::default();
    for mark in works.flat_map(|done| Marked::of(done, |set| set.is_work() && set.is_clean())) {
        let Some(reps) = mark.amount.reps() else { continue };
        let counted = match mark.effort {
            _ if mark.kilograms().is_none() => &mut unused.without_mass,
            None => &mut unused.without_effort,
            Some(effort) => match effort_scale::reps_to_failure(reps, effort) {
                None => &mut unused.too_light,
                Some(reps) if Trust::of(reps).is_none() || equation.multiple(reps).is_none() => {
                    &mut unused.too_many_reps
                }
                Some(_) => continue,
            },
        };
        *counted += mark.sets;
    }
    unused
}
