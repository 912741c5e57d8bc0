//! One side of a comparison: what was done on a lift in one session.

use super::pairing::Visit;
use super::ranking::Scale;
use crate::analysis::strength::evidence::Estimate;
use crate::history::History;
use crate::source::Place;
use crate::training::{self, Amount, AmountFields, Effort, Load, LoadClass, Mass, Set, Tolerance, Tonnage, Weighed};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::HashSet;

/// What was done on a lift in one session.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Side {
    /// The session's date.
    pub date: NaiveDate,
    /// The block's name.
    pub block: String,
    /// The week, from 1.
    pub week: u32,
    /// The heaviest load of the clean sets; `None` where no set is clean.
    pub load: Option<Weighed>,
    /// The most reps, seconds or metres at that load.
    #[serde(flatten, serialize_with = "training::known_amount")]
    #[schemars(with = "AmountFields")]
    pub amount: Option<Amount>,
    /// Whether that is of each side.
    #[serde(skip)]
    pub per_side: bool,
    /// Clean sets at that load, as they are counted there.
    pub sets: Option<u32>,
    /// Of each of these sets, in the order done, the reps, seconds or metres.
    #[serde(serialize_with = "training::amounts")]
    #[schemars(with = "Vec<f64>")]
    pub each: Vec<Amount>,
    /// The rest of the clean sets, in the order done.
    pub back_offs: Vec<BackOff>,
    /// All work sets of known kilograms; nothing where there are none.
    #[serde(rename = "tonnage_kg")]
    pub tonnage: Option<Tonnage>,
    /// The highest effort known at that load.
    pub effort: Option<Effort>,
    /// The estimated maximum of the session's set that shows most.
    #[serde(rename = "est_max_kg", serialize_with = "Estimate::middle")]
    #[schemars(with = "Option<Mass>")]
    pub estimate: Option<Estimate>,
    /// The names of the faults on all work sets.
    pub faults: Vec<String>,
    /// The work sets with a fault, gathered by load and faults; of a meet all that was made, one by one in the order done.
    #[serde(skip)]
    pub also: Vec<(BackOff, Vec<String>)>,
    /// Whether it was done at a meet.
    #[serde(skip)]
    pub is_at_meet: bool,
    /// Where the load stands.
    #[serde(flatten)]
    pub place: Place,
}

/// The clean sets of one session at one load below the heaviest, or counted in another way.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct BackOff {
    /// The load; none where none is written.
    #[schemars(with = "Option<Weighed>")]
    pub load: Weighed,
    /// The most reps, seconds or metres of one set.
    #[serde(flatten, serialize_with = "training::amount")]
    #[schemars(with = "AmountFields")]
    pub amount: Amount,
    /// Whether that is of each side.
    #[serde(skip)]
    pub per_side: bool,
    /// How many sets.
    pub sets: u32,
    /// Of each of these sets, in the order done.
    #[serde(serialize_with = "training::amounts")]
    #[schemars(with = "Vec<f64>")]
    pub each: Vec<Amount>,
    /// The highest effort known.
    pub effort: Option<Effort>,
}

impl BackOff {
    /// Sets like this one, at this load.
    fn begin(load: &Load, like: &Set<'_>, own: Option<Mass>) -> Self {
        BackOff {
            load: Weighed { load: load.clone(), kilograms: load.kilograms(own) },
            amount: like.amount,
            per_side: like.group.per_side,
            sets: 0,
            each: Vec::new(),
            effort: None,
        }
    }

    fn add(&mut self, set: &Set<'_>) {
        self.amount = self.amount.max(set.amount);
        self.sets += 1;
        self.each.push(set.amount);
        self.effort = self.effort.max(set.effort);
    }
}

impl Side {
    /// Sums up a visit. The estimate is put in by whoever has the lifter's curve.
    pub(crate) fn of(history: &History<'_>, visit: &Visit<'_>) -> Option<Side> {
        let session = visit.lines.first()?.session;
        let own = session.own_mass();
        let sets: Vec<Set<'_>> = visit.lines.iter().flat_map(|done| done.work_sets()).collect();
        let clean: Vec<&Set<'_>> = sets.iter().filter(|set| set.is_clean()).collect();
        let scale = Scale::of(clean.iter().map(|set| &set.group.load));
        let top = clean.iter().min_by_key(|set| {
            let (class, rank) = scale.rank(&set.group.load, own);
            (class, std::cmp::Reverse(rank))
        });
        let tolerance = Tolerance::of(&history.log.gear);
        let of_load = |set: &Set<'_>, load: &Load| same(&set.group.load, load, scale, own, tolerance);
        let mut groups = by_load(&clean, top.copied(), own, of_load).into_iter();
        let heaviest = groups.next();
        let mut tonnage: Option<Tonnage> = None;
        for set in &sets {
            if let (Some(mass), Some(reps)) = (set.group.load.kilograms(own), set.amount.reps()) {
                tonnage.get_or_insert_default().add(mass, reps * set.sides());
            }
        }
        let is_at_meet = session.meet.is_some();
        let mut also: Vec<(BackOff, Vec<String>)> = Vec::new();
        for set in sets.iter().filter(|set| is_at_meet || !set.is_clean()) {
            let faults: Vec<String> = set.faults().map(str::to_owned).collect();
            let alike = |sets: &BackOff, known: &Vec<String>| {
                let same_count = sets.amount == set.amount && sets.per_side == set.group.per_side;
                !is_at_meet && same_count && *known == faults && of_load(set, &sets.load)
            };
            gather(&mut also, set, own, alike, || faults.clone());
        }
        let mut known = HashSet::new();
        let faults =
            sets.iter().flat_map(Set::faults).filter(|fault| known.insert(*fault)).map(str::to_owned).collect();
        let first =
            || visit.lines.first().map_or((session.page, session.line), |done| (done.work.page, done.work.line));
        let (page, line) = top.map_or_else(first, |top| (top.group.page, top.group.line));
        Some(Side {
            date: session.date,
            block: history.log.block_name(session.block).unwrap_or_default(),
            week: session.week.unwrap_or(0),
            amount: heaviest.as_ref().map(|sets| sets.amount),
            per_side: heaviest.as_ref().is_some_and(|sets| sets.per_side),
            sets: heaviest.as_ref().map(|sets| sets.sets),
            effort: heaviest.as_ref().and_then(|sets| sets.effort),
            each: heaviest.as_ref().map_or_else(Vec::new, |sets| sets.each.clone()),
            load: heaviest.map(|sets| sets.load),
            back_offs: groups.collect(),
            tonnage,
            estimate: None,
            faults,
            also,
            is_at_meet,
            place: history.log.place(page, line),
        })
    }
}

/// Clean sets by load and by how they are counted, the heaviest first. Of the sets at one load, reps come before seconds, and
/// seconds before metres, as they stand for each other.
fn by_load(
    clean: &[&Set<'_>],
    top: Option<&Set<'_>>,
    own: Option<Mass>,
    of_load: impl Fn(&Set<'_>, &Load) -> bool,
) -> Vec<BackOff> {
    let kind = |set: &Set<'_>| match set.amount {
        Amount::Reps(_) => 2,
        Amount::Seconds(_) => 1,
        Amount::Metres(_) => 0,
    };
    let mut groups: Vec<(BackOff, u32)> = Vec::new();
    if let Some(top) = top {
        let at_the_top = clean.iter().filter(|set| of_load(set, &top.group.load));
        let most = at_the_top.max_by_key(|set| (kind(set), set.amount));
        groups.extend(most.map(|most| (BackOff::begin(&top.group.load, most, own), kind(most))));
    }
    for set in clean {
        let alike = |sets: &BackOff, of_kind: &u32| {
            *of_kind == kind(set) && sets.per_side == set.group.per_side && of_load(set, &sets.load)
        };
        gather(&mut groups, set, own, alike, || kind(set));
    }
    groups.into_iter().map(|(sets, _)| sets).collect()
}

/// Puts a set to those that are like it, or begins with it.
fn gather<K>(
    groups: &mut Vec<(BackOff, K)>,
    set: &Set<'_>,
    own: Option<Mass>,
    alike: impl Fn(&BackOff, &K) -> bool,
    key: impl FnOnce() -> K,
) {
    if let Some((sets, _)) = groups.iter_mut().find(|(sets, key)| alike(sets, key)) {
        return sets.add(set);
    }
    let mut sets = BackOff::begin(&set.group.load, set, own);
    sets.add(set);
    groups.push((sets, key()));
}

/// Whether two loads of one session are the same.
fn same(one: &Load, top: &Load, scale: Scale, own: Option<Mass>, tolerance: Tolerance) -> bool {
    let ((class, _), (top_class, _)) = (scale.rank(one, own), scale.rank(top, own));
    if class != top_class {
        return false;
    }
    match class {
        LoadClass::Mass => match (scale, one.added(), top.added()) {
            (Scale::Added, Some(one), Some(top)) => tolerance.compare(one, top).is_eq(),
            _ => match (one.kilograms(own), top.kilograms(own)) {
                (Some(one), Some(top)) => tolerance.compare(one, top).is_eq(),
                _ => false,
            },
        },
        LoadClass::Pin => one.pin() == top.pin(),
        LoadClass::Quoted => one.text() == top.text(),
        LoadClass::Unknown => one.added() == top.added(),
    }
}
