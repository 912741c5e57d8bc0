//! How hard a coming set will be: all that this question asks of the model of strength stands here.
//!
//! By how much effort rises from set to set is learned here, from pairs of sets.

use crate::analysis::strength::evidence::{Evidence, Ratings, own_weight};
use crate::analysis::strength::rpe_ahead::Rpe;
use crate::history::{Done, History, Marked};
use crate::science::effort_scale;
use crate::science::strength::{ExpectedCurve, Strength};
use crate::training::{Efforts, Family, LiftId, Load, Mass, Set, Unit};
use chrono::{Days, NaiveDate};
use std::cell::RefCell;
use std::collections::HashMap;

/// How many standard deviations an 80 % interval reaches to each side.
pub(super) const REACH: f64 = 1.281_551_565_544_600_4;

/// By how many points of RPE a set is harder than the one before, where nothing is known, and how many pairs of sets that
/// is worth. Our own.
const RISE: (f64, f64) = (0.6, 5.0);

/// Where nothing but the sets of today says how strong the lifter is, the first of them says it alone.
const UNKNOWN: f64 = 1e6;

/// The load for some reps that is worth as much as another one for others.
pub(super) fn carried(curve: &ExpectedCurve, load: f64, from: f64, to: f64) -> f64 {
    load * (curve.log_multiple(from) - curve.log_multiple(to)).exp()
}

/// Strength on the day of the session, before its first set.
#[derive(Clone)]
pub(super) struct Foretelling {
    pub(super) curve: ExpectedCurve,
    /// The logarithm of the maximum of everything lifted, in kilograms.
    maximum: f64,
    /// Nothing where only the sets of today say anything.
    strength: Option<Strength>,
}

impl Foretelling {
    /// From every day of the evidence; nothing where it has none.
    fn on(evidence: &Evidence<'_>, date: NaiveDate) -> Option<Self> {
        let strength = evidence.strength_on(date)?.in_one_attempt();
        let maximum = strength.maximum().middle.ln();
        maximum.is_finite().then_some(Foretelling {
            curve: evidence.expected_curve(),
            maximum,
            strength: Some(strength),
        })
    }

    /// From a set of today alone.
    pub(super) fn from(curve: ExpectedCurve, load: f64, reps_to_failure: f64) -> Self {
        let maximum = load.ln() + curve.log_multiple(reps_to_failure);
        Foretelling { curve, maximum, strength: None }
    }

    /// The reps to failure with a load.
    pub(super) fn reps(&self, load: f64) -> f64 {
        let known = self.strength.as_ref().and_then(|strength| strength.reps_with(load));
        known.map_or_else(|| self.curve.reps(self.maximum - load.ln()), |reps| reps.middle)
    }

    /// The reps left after a set that was said to leave so many and foretold to leave so many: ratings are off by this
    /// lifter's bias.
    pub(super) fn left(&self, said: f64, foretold: f64) -> f64 {
        self.strength.as_ref().map_or(said, |strength| strength.left(said, foretold))
    }

    /// What this lifter will call a set that leaves so many reps.
    pub(super) fn called(&self, left: f64) -> Rpe {
        self.strength.as_ref().map_or(Rpe::of(10.0 - left), |strength| Rpe::called(strength, left))
    }

    /// The load for so many reps to failure.
    pub(super) fn load(&self, reps: f64) -> f64 {
        let known = self.strength.as_ref().and_then(|strength| strength.load_for(reps, 0.0));
        known.map_or_else(|| (self.maximum - self.curve.log_multiple(reps)).exp(), |load| load.middle)
    }

    /// The variance of [`reps`](Foretelling::reps): of strength, of the curve, and of the form of the day.
    pub(super) fn variance(&self, load: f64) -> f64 {
        let spread = self.strength.as_ref().and_then(|strength| strength.reps_with(load));
        let variance = spread.map_or(UNKNOWN, |reps| ((reps.high - reps.low) / 2.0 / REACH).powi(2));
        if variance.is_finite() { variance } else { UNKNOWN }
    }
}

/// What the model says of a lift.
pub(super) struct Known {
    pub(super) curve: ExpectedCurve,
    /// Nothing where no set of known effort says how strong the lifter is.
    pub(super) foretelling: Option<Foretelling>,
    /// The unit of the lift's loads.
    pub(super) unit: Unit,
}

/// What the journal teaches about a lifter up to the day before the session.
pub(super) struct Teaching<'h, 'a> {
    history: &'h History<'a>,
    ratings: &'h RefCell<Ratings<'h, 'a>>,
    curves: HashMap<LiftId, ExpectedCurve>,
    pairs: HashMap<LiftId, Pairs>,
}

/// Pairs of sets, one after the other.
#[derive(Clone, Copy, Default)]
struct Pairs {
    /// By how much effort rose, summed.
    rise: f64,
    count: f64,
}

impl Pairs {
    /// The mean, with what is believed without them as good as some more.
    fn mean(self, before: f64) -> f64 {
        (before * RISE.1 + self.rise) / (RISE.1 + self.count)
    }

    fn of<'p>(all: impl Iterator<Item = &'p Pairs>) -> Pairs {
        all.fold(Pairs::default(), |sum, one| Pairs { rise: sum.rise + one.rise, count: sum.count + one.count })
    }
}

impl<'h, 'a> Teaching<'h, 'a> {
    pub(super) fn new(history: &'h History<'a>, ratings: &'h RefCell<Ratings<'h, 'a>>) -> Self {
        Teaching { history, ratings, curves: HashMap::new(), pairs: HashMap::new() }
    }

    /// A lift as of a day.
    pub(super) fn of_lift(&mut self, lift: LiftId, date: NaiveDate) -> Known {
        let evidence = self.ratings.borrow_mut().evidence(lift);
        Known { curve: evidence.expected_curve(), foretelling: Foretelling::on(&evidence, date), unit: evidence.unit() }
    }

    fn gather(&mut self, done: Done<'a>) {
        let sets: Vec<Set<'a>> = done.work.groups.iter().flat_map(|group| group.sets()).collect();
        let own = done.session.own_mass();
        for pair in sets.windows(2) {
            let [one, next] = pair else { continue };
            let (Some(first), Some(second)) = (rated_alone(one, own), rated_alone(next, own)) else { continue };
            let reps_then = if first.load == second.load {
                first.reps_to_failure
            } else {
                let lift = done.work.lift;
                let learned = || self.ratings.borrow_mut().evidence(lift).expected_curve();
                let curve = self.curves.entry(lift).or_insert_with(learned);
                curve.reps(curve.log_multiple(first.reps_to_failure) + (first.load / second.load).ln())
            };
            // What the second was worth with nothing lost, less what it was.
            let rise = reps_then - second.reps_to_failure;
            let pairs = self.pairs.entry(done.work.lift).or_default();
            *pairs = Pairs { rise: pairs.rise + rise, count: pairs.count + 1.0 };
        }
    }

    /// By how much effort rises on a lift from set to set: by its own pairs of sets, those of its family, and those of all
    /// lifts.
    pub(super) fn rise(&self, lift: LiftId) -> f64 {
        let log = self.history.log;
        let family = log.lift(lift).map(|lift| lift.family).filter(|family| *family != Family::Other);
        let of_family =
            |(id, _): &(&LiftId, &Pairs)| family.is_some() && log.lift(**id).map(|lift| lift.family) == family;
        let all = Pairs::of(self.pairs.values()).mean(RISE.0);
        let family = Pairs::of(self.pairs.iter().filter(of_family).map(|(_, pairs)| pairs)).mean(all);
        self.pairs.get(&lift).copied().unwrap_or_default().mean(family)
    }

    /// Learns how effort rises from set to set.
    pub(super) fn learn(&mut self) {
        recent(self.history).for_each(|done| self.gather(done));
    }
}

/// The work lines of the last two years: a lifter changes.
fn recent<'a>(history: &History<'a>) -> impl Iterator<Item = Done<'a>> {
    let first = history.today.checked_sub_days(Days::new(2 * 52 * 7)).unwrap_or(NaiveDate::MIN);
    history.since(first).iter().flat_map(|session| session.works.iter().map(move |work| Done { session, work }))
}

/// A set that was rated by itself.
struct Alone {
    load: f64,
    reps_to_failure: f64,
}

/// Nothing for one that shares its rating with others, has a fault, or no load.
fn rated_alone(set: &Set<'_>, own: Option<Mass>) -> Option<Alone> {
    let alone = match &set.group.efforts {
        Efforts::Each(_) => true,
        Efforts::All(_) => set.group.count() == 1,
        Efforts::None => false,
    };
    let load = set.group.load.kilograms(own)?.in_kilograms();
    let reps_to_failure = effort_scale::reps_to_failure(set.amount.reps()?, set.effort?)?;
    (alone && set.is_clean() && load > 0.0).then_some(Alone { load, reps_to_failure })
}

/// The load of a mark as everything lifted, and what of it is the lifter's own weight.
pub(super) fn everything(mark: &Marked<'_>) -> Option<(f64, Mass)> {
    Some((mark.kilograms()?.in_kilograms(), own_weight(mark).unwrap_or(Mass::ZERO)))
}

/// The lifter's own weight in a load, where it is in it.
pub(super) fn own_part(load: &Load, own: Option<Mass>) -> Mass {
    load.added().and(own).unwrap_or(Mass::ZERO)
}
