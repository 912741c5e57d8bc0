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
    /// Clean sets at that load.
    pub sets: Option<u32>,
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
    /// Where the load stands.
    #[serde(flatten)]
    pub place: Place,
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
        let at_top: Vec<&&Set<'_>> = match top {
            Some(top) => {
                clean.iter().filter(|set| same(&set.group.load, &top.group.load, scale, own, tolerance)).collect()
            }
            None => Vec::new(),
        };
        // Of the sets at one load, reps come before seconds, and seconds before metres, as they stand for each other.
        let most = at_top.iter().map(|set| set.amount).max_by_key(|amount| match amount {
            Amount::Reps(_) => (2, *amount),
            Amount::Seconds(_) => (1, *amount),
            Amount::Metres(_) => (0, *amount),
        });
        let mut tonnage: Option<Tonnage> = None;
        for set in &sets {
            if let (Some(mass), Some(reps)) = (set.group.load.kilograms(own), set.amount.reps()) {
                tonnage.get_or_insert_default().add(mass, reps * set.sides());
            }
        }
        let mut faults: Vec<String> = Vec::new();
        for fault in sets.iter().flat_map(Set::faults) {
            if !faults.iter().any(|known| known == fault) {
                faults.push(fault.to_owned());
            }
        }
        let line = top.map_or_else(|| visit.lines.first().map_or(0, |done| done.work.line), |top| top.group.line);
        Some(Side {
            date: session.date,
            block: session
                .block
                .and_then(|id| history.log.block(id))
                .map(|block| block.name.clone())
                .unwrap_or_default(),
            week: session.week.unwrap_or(0),
            load: top.map(|top| Weighed { load: top.group.load.clone(), kilograms: top.group.load.kilograms(own) }),
            amount: most,
            per_side: at_top.first().is_some_and(|set| set.group.per_side),
            sets: top.map(|_| u32::try_from(at_top.len()).unwrap_or(u32::MAX)),
            tonnage,
            effort: at_top.iter().filter_map(|set| set.effort).max(),
            estimate: None,
            faults,
            place: history.log.place(session.page, line),
        })
    }
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
