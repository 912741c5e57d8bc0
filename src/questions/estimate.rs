//! `estimate`: what one could lift once, how surely that is known, and the loads that follow from it.

use super::plates;
use crate::analysis::rack::{HangsOn, Rack, whole};
use crate::analysis::strength::caution::CAUTION;
use crate::analysis::strength::course;
pub use crate::analysis::strength::evidence::{Curve, CurveKind, Estimate};
use crate::analysis::strength::evidence::{
    EstimateFields, Evidence, Missed, Rated, Ratings, day_number, is_miss, own_weight,
};
pub use crate::analysis::strength::graded::Graded;
use crate::analysis::strength::graded::graded;
pub use crate::analysis::strength::rpe_ahead::Rpe;
pub use crate::analysis::strength::time_away::TimeAway;
use crate::history::{History, Mark, Marked};
use crate::science::strength::Strength;
use crate::science::{Equation, Trust, effort_scale};
use crate::training::{Bar, Effort, Figure, Gear, LiftId, Load, Loadable, Mass, Unit};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::ops::RangeInclusive;

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
    /// A set to be looked at.
    pub about: Option<About>,
    /// The dates over which to tell how it went; nothing where that is not asked.
    pub over: Option<course::Ask>,
}

/// A load, alone or with reps or an effort; or reps, alone or with an effort.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct About {
    /// The load; what is added, for lifts whose loads contain the lifter's own weight. Nothing to ask for it.
    pub load: Option<Mass>,
    /// How many reps; nothing to ask for them.
    pub reps: Option<u32>,
    /// How hard; nothing to ask for it.
    pub effort: Option<Effort>,
}

/// What is to be expected of a set today.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Expected {
    /// What was asked.
    #[serde(skip)]
    pub about: About,
    /// The load that was asked about, else the one for the reps at the effort.
    #[serde(rename = "kg")]
    pub load: Mass,
    /// The nearest that the gym's bar and plates make, or its dumbbells, where the load was asked for; null for lifts with the
    /// lifter's own weight.
    #[serde(rename = "loadable_kg")]
    pub loadable: Option<Mass>,
    /// That as a page has it: `bar + 2x25 kg/side`.
    pub plates: Option<String>,
    /// The reps that were asked about, else the whole ones for the effort that was.
    pub reps: Option<u32>,
    /// The effort that was asked about, else that of the reps that were.
    pub rpe: Option<Rpe>,
    /// Reps to failure; null where the load is heavier than the maximum, or lighter than the equation reaches.
    pub reps_to_failure: Option<Figure<1>>,
    /// Whether the reps would not all be made.
    pub missed: bool,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The set that was asked about.
    #[serde(skip)]
    pub asked: Option<About>,
    /// The lift.
    pub lift: String,
    /// The day that it holds for.
    pub on: NaiveDate,
    /// The equation.
    pub equation: Equation,
    /// What shaped the curve of reps against load.
    #[serde(flatten)]
    pub curve: Curve,
    /// The estimate; nothing where no set bears one.
    #[serde(flatten, serialize_with = "Estimate::or_null")]
    #[schemars(with = "EstimateFields")]
    pub estimate: Option<Estimate>,
    /// The lifter's own weight that comes on top, for lifts whose loads contain it.
    #[serde(rename = "own_weight_kg")]
    pub own_weight: Option<Mass>,
    /// The unit that the lifter writes this lift's loads in.
    #[serde(skip)]
    pub unit: Unit,
    /// How many dumbbells or kettlebells the last load was, where it has sizes of its own.
    #[serde(skip)]
    pub pieces: Option<u32>,
    /// What it rests on most: the days of the last eight weeks with evidence, in order of time.
    pub evidence: Vec<EvidenceSet>,
    /// The missed attempts of the same eight weeks that it rests on too, one a day, in order of time.
    pub misses: Vec<EvidenceMiss>,
    /// How it moved over the last blocks, in order of time.
    pub blocks: Vec<BlockEnd>,
    /// What had been said the day before each single, AMRAP, test and meet of the last two years, and what happened.
    pub graded: Vec<Graded>,
    /// How long ago the lift was trained, where that is three weeks or more.
    pub away: Option<TimeAway>,
    /// Loads for reps at an effort; where reps were asked about without a load, theirs alone.
    pub table: Vec<Cell>,
    /// What is to be expected of the set that was asked about; nothing without an estimate.
    pub expected: Option<Expected>,
    /// Clean sets with no reps in reserve told, on the days from the first that bears an estimate on: they count by what was
    /// made alone.
    pub by_what_was_made: u32,
    /// Which sets are not used, and why.
    pub unused: Unused,
    /// How it went over dates, where that was asked.
    pub course: Option<course::Answer>,
    /// The caution.
    pub caution: &'static str,
}

/// A set that an estimate rests on.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct EvidenceSet {
    /// The set.
    #[serde(flatten)]
    pub mark: Mark,
    /// What it says by itself.
    #[serde(flatten)]
    pub estimate: Estimate,
    /// Whether its reps to failure are more than 10, which makes the estimate weak.
    pub weak: bool,
}

/// A missed attempt that an estimate rests on.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct EvidenceMiss {
    /// The attempt: no rep.
    #[serde(flatten)]
    pub mark: Mark,
    /// Its load as estimates are shown: that day's maximum was below it, if strength was what failed.
    #[serde(rename = "below_kg")]
    pub below: Mass,
    /// The heaviest that was made that day, as estimates are shown; nothing where nothing was.
    #[serde(rename = "made_kg")]
    pub made: Option<Mass>,
}

/// The estimate at the end of a block.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct BlockEnd {
    /// The block's name.
    pub block: String,
    /// The last day with evidence in it.
    pub date: NaiveDate,
    /// The estimate of that day, from all days up to it.
    #[serde(flatten)]
    pub estimate: Estimate,
}

/// A load for reps at an effort.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Cell {
    /// The reps.
    pub reps: u32,
    /// The effort.
    #[serde(rename = "rpe")]
    pub effort: Effort,
    /// The load; nothing where the reps to failure lie outside the equation's range.
    #[serde(rename = "kg")]
    pub load: Option<Mass>,
    /// The nearest that the gym's bar and plates make, or its dumbbells; nothing for lifts with the lifter's own weight.
    #[serde(rename = "loadable_kg")]
    pub loadable: Option<Mass>,
}

/// Clean sets of the lift with reps that are not used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Unused {
    /// Without an effort, before the first day that bears an estimate.
    pub without_effort: u32,
    /// Below RPE 5, where the scale names no reps in reserve, before that day.
    pub too_light: u32,
    /// With more reps to failure than the equation reaches.
    pub too_many_reps: u32,
    /// With a load that is no mass, or bodyweight not known.
    pub without_mass: u32,
    /// Those of them that lack the bodyweight and no more.
    #[serde(skip)]
    pub without_bodyweight: u32,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let evidence = Evidence::of(history, ask.lift, ask.equation);
    let strength = evidence.strength_on(history.today);
    let own = evidence.own_weight();
    let hung = Hung::of(history, &evidence).filter(|_| own.is_none());
    let (by_what_was_made, unused) = unused(history, ask, &evidence);
    let row = ask.about.filter(|about| about.load.is_none()).and_then(|about| about.reps);
    Answer {
        asked: ask.about,
        lift: history.log.lift_name(ask.lift).to_owned(),
        on: history.today,
        equation: ask.equation,
        curve: evidence.curve,
        estimate: strength.as_ref().and_then(|strength| Estimate::of(strength.maximum(), own)),
        own_weight: own,
        unit: evidence.unit(),
        pieces: hung.as_ref().and_then(Hung::pieces),
        evidence: grounds(history, &evidence),
        misses: misses(history, &evidence),
        blocks: block_ends(history, &evidence),
        graded: graded(history, ask.lift, &evidence),
        away: TimeAway::of(history, ask.lift),
        expected: strength.as_ref().zip(ask.about).and_then(|(strength, about)| {
            let set = expected(strength, about, own)?;
            let (loadable, plates) = match hung.as_ref().filter(|_| about.load.is_none()) {
                Some(Hung::Bar(bar)) => plates::nearest(set.load, bar, history.gear()).unzip(),
                Some(Hung::InHand { .. }) => (hung.as_ref().and_then(|hung| hung.nearest(set.load, None)), None),
                None => (None, None),
            };
            Some(Expected { loadable, plates, ..set })
        }),
        table: strength.map_or_else(Vec::new, |strength| {
            let loadable = match &hung {
                Some(Hung::Bar(bar)) => Some(Loadable::new(bar, history.gear())),
                _ => None,
            };
            let nearest = |load: Mass| hung.as_ref()?.nearest(load, loadable.as_ref());
            table(row.map_or(1..=MOST_REPS, |reps| reps..=reps), &strength, own, nearest)
        }),
        by_what_was_made,
        unused,
        course: ask.over.map(|over| course::answer(history, &over)),
        caution: CAUTION,
    }
}

/// What is said of a lift beside its lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Brief {
    /// The estimate; nothing where no set bears one.
    pub estimate: Option<Estimate>,
    /// The unit that the lifter writes this lift's loads in.
    pub unit: Unit,
}

impl Brief {
    /// A load in percent of the estimate; nothing without one.
    pub fn percent(&self, load: Mass) -> Option<f64> {
        let maximum = self.estimate?.maximum.in_kilograms();
        (maximum > 0.0).then(|| 100.0 * load.in_kilograms() / maximum)
    }
}

/// The same estimate as [`answer`] gives, and no more than that, for whoever asks at each letter.
pub fn brief(history: &History<'_>, lift: LiftId) -> Brief {
    let evidence = Ratings::of_late(history, Equation::default()).evidence(lift);
    let strength = evidence.strength_on(history.today);
    let estimate = strength.and_then(|strength| Estimate::of(strength.maximum(), evidence.own_weight()));
    Brief { estimate, unit: evidence.unit() }
}

/// What the loads of a lift are.
enum Hung<'g> {
    /// A bar with plates.
    Bar(&'g Bar),
    /// Dumbbells, and what else has sizes of its own: the last load, and by how much it can be moved.
    InHand { last: Mass, pieces: u32, step: Mass },
}

impl<'g> Hung<'g> {
    fn of(history: &History<'g>, evidence: &Evidence<'_>) -> Option<Self> {
        let rack = Rack::new(history.gear());
        let last = evidence.days.last().map(|rated| &rated.mark);
        let in_hand = last.and_then(|mark| {
            let (load, lift) = (&mark.group.load, history.log.lift(mark.done.work.lift));
            let on = rack.hangs_on(load, mark.group.per_side, lift);
            let has_sizes = matches!(load, Load::Plain { .. }) || load.pieces().is_some();
            let last = load.kilograms(None).filter(|_| matches!(on, HangsOn::Implement) && has_sizes)?;
            Some(Hung::InHand { last, pieces: load.pieces().unwrap_or(1), step: rack.step(on, load, lift) })
        });
        in_hand.or_else(|| bar(history.gear(), evidence).map(Hung::Bar))
    }

    fn pieces(&self) -> Option<u32> {
        match self {
            Hung::Bar(_) => None,
            Hung::InHand { pieces, .. } => Some(*pieces),
        }
    }

    /// The nearest load that can be had.
    fn nearest(&self, load: Mass, loadable: Option<&Loadable>) -> Option<Mass> {
        match self {
            Hung::Bar(_) => Some(loadable?.nearest(load)),
            Hung::InHand { last, step, .. } => {
                Some(*last + whole(load - *last, *step)).filter(|load| *load > Mass::ZERO)
            }
        }
    }
}

/// The bar that the last load names, else the one called `bar`, else the gym's first.
fn bar<'g>(gear: &'g Gear, evidence: &Evidence<'_>) -> Option<&'g Bar> {
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

fn misses(history: &History<'_>, evidence: &Evidence<'_>) -> Vec<EvidenceMiss> {
    let is_recent = recent(evidence);
    let recent = evidence.misses.iter().filter(|missed| is_recent(&missed.mark));
    let ground = |missed: &Missed<'_>| {
        let shown = |load: Mass| load - own_weight(&missed.mark).unwrap_or(Mass::ZERO);
        let (below, made) = (shown(missed.mark.kilograms()?), missed.made.map(shown));
        Some(EvidenceMiss { mark: missed.mark.shown(history, is_miss), below, made })
    };
    recent.filter_map(ground).collect()
}

fn grounds(history: &History<'_>, evidence: &Evidence<'_>) -> Vec<EvidenceSet> {
    let is_recent = recent(evidence);
    let recent = evidence.days.iter().filter(|rated| is_recent(&rated.mark));
    let ground = |rated: &Rated<'_>| {
        Some(EvidenceSet {
            mark: rated.mark.shown(history, |set| set.is_clean_work()),
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
    let strengths = evidence.day_by_day();
    let blocks: Vec<&[&Marked<'_>]> = dates.chunk_by(|one, other| in_block(one) == in_block(other)).collect();
    for days in blocks.into_iter().rev() {
        if ends.len() == BLOCKS_BACK {
            break;
        }
        let Some(last) = days.last() else { continue };
        let Some(block) = in_block(last).and_then(|id| history.log.block(id)) else { continue };
        let date = last.done.session.date;
        let own = own_weight(last);
        let known = strengths.iter().rev().find(|(mark, _)| mark.done.session.date == date);
        let estimate = known.and_then(|(_, strength)| Estimate::of(strength.maximum(), own));
        // A session put into a block from outside its days comes between; the block is shown once.
        if ends.iter().any(|end| end.block == block.name) {
            continue;
        }
        ends.extend(estimate.map(|estimate| BlockEnd { block: block.name.clone(), date, estimate }));
    }
    ends.reverse();
    ends
}

/// The same estimate read the other way: the load for reps at an effort, the reps that a load allows, and the effort that
/// reps with it ask for. `None` where the load was asked for by too little, or lies outside the equation's range.
fn expected(strength: &Strength, about: About, own: Option<Mass>) -> Option<Expected> {
    let reserve = about.effort.and_then(effort_scale::reps_in_reserve);
    let load = match about.load {
        Some(load) => load,
        None => Estimate::of(strength.load_for(f64::from(about.reps?), reserve?)?, own)?.maximum,
    };
    let kilograms = (load + own.unwrap_or(Mass::ZERO)).in_kilograms();
    let reps_to_failure = strength.reps_at(kilograms);
    let of_reps = about.reps.filter(|_| about.effort.is_none());
    let rpe = of_reps.map(|reps| Rpe::ahead(strength, kilograms, reps).map_or(Rpe::Light, |[_, middle, _]| middle));
    // A rep that is short by a hundredth is a rep.
    let reps =
        reps_to_failure.zip(reserve).map(|(failure, reserve)| (failure - reserve + 0.01).floor().max(0.0) as u32);
    Some(Expected {
        about,
        load,
        loadable: None,
        plates: None,
        reps: about.reps.or(reps),
        rpe: rpe.or(about.effort.map(Rpe::Of)),
        reps_to_failure: reps_to_failure.map(Figure),
        missed: rpe == Some(Rpe::Missed),
    })
}

fn table(
    rows: RangeInclusive<u32>,
    strength: &Strength,
    own: Option<Mass>,
    nearest: impl Fn(Mass) -> Option<Mass>,
) -> Vec<Cell> {
    let mut table = Vec::new();
    for reps in rows {
        for rpe in EFFORTS {
            let effort = Effort::rpe(rpe * 1000, rpe * 1000);
            let load = effort_scale::reps_in_reserve(effort)
                .and_then(|left| strength.load_for(f64::from(reps), left))
                .and_then(|load| Estimate::of(load, own))
                .map(|load| load.maximum);
            table.push(Cell { reps, effort, load, loadable: load.and_then(&nearest) });
        }
    }
    table
}

/// How many sets count by what was made alone, and which do not count.
fn unused(history: &History<'_>, ask: &Ask, evidence: &Evidence<'_>) -> (u32, Unused) {
    let (mut made, mut unused) = (0, Unused::default());
    let since = evidence.days.first().map(|first| first.mark.done.session.date);
    let works = history.works_of(ask.lift);
    for mark in works.flat_map(|done| Marked::of(done, |set| set.is_clean_work())) {
        let Some(reps) = mark.amount.reps() else { continue };
        let counts = since.is_some_and(|since| mark.done.session.date >= since);
        let reach = mark.effort.map(|effort| effort_scale::reps_to_failure(reps, effort));
        let counted = match reach {
            _ if mark.kilograms().is_none() => {
                unused.without_bodyweight += if mark.group.load.added().is_some() { mark.sets } else { 0 };
                &mut unused.without_mass
            }
            None | Some(None) if counts => &mut made,
            None => &mut unused.without_effort,
            Some(None) => &mut unused.too_light,
            Some(Some(reps)) if Trust::of(reps).is_none() || ask.equation.multiple(reps).is_none() => {
                &mut unused.too_many_reps
            }
            Some(Some(_)) => continue,
        };
        *counted += mark.sets;
    }
    (made, unused)
}
