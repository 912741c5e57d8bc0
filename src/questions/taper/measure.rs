//! What a week comes to, the mean of several, and the change between the two.

use super::gather::{Weeks, Worked};
use crate::science::{statistics, taper};
use crate::training::{Figure, Hundredths, Mass, Tonnage};
use schemars::JsonSchema;
use serde::{Serialize, Serializer};

/// Sums of one week, or the mean of several. Means a session, a rep, or a set are those of the weeks that have one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Measure {
    /// Sessions with such work.
    pub sessions: Hundredths,
    /// Work sets.
    pub sets: Hundredths,
    /// Those of them that are planned and not done yet.
    pub planned_sets: Hundredths,
    /// Those of these that are planned with no load, of lifts that have one.
    #[serde(skip)]
    pub open_loads: f64,
    /// Work sets over the sessions.
    pub sets_a_session: Option<Hundredths>,
    /// Reps, of both sides.
    pub reps: Hundredths,
    /// Reps of one side over the sets that have reps.
    pub reps_a_set: Option<Hundredths>,
    /// Kilograms times reps, of loads that are a mass without the lifter's own; nothing where a plan leaves one open.
    #[serde(rename = "tonnage_kg")]
    pub tonnage: Option<Tonnage>,
    /// Tonnage over the reps in it.
    #[serde(rename = "average_kg")]
    pub average_load: Option<Mass>,
    /// The heaviest load; nothing where a plan leaves one open.
    #[serde(rename = "top_kg")]
    pub top_load: Option<Mass>,
    /// The mean effort of the sets that have one.
    #[serde(rename = "average_effort")]
    pub effort: Option<Hundredths>,
}

/// The change from one measure to another, in percent where nothing else is said. Nothing from nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Change {
    /// Work sets.
    #[serde(rename = "sets_percent")]
    pub sets: Option<Hundredths>,
    /// Work sets over the sessions, in sets.
    pub sets_a_session: Option<Hundredths>,
    /// Reps.
    #[serde(rename = "reps_percent")]
    pub reps: Option<Hundredths>,
    /// Reps over the sets, in reps.
    pub reps_a_set: Option<Hundredths>,
    /// Tonnage.
    #[serde(rename = "tonnage_percent")]
    pub tonnage: Option<Hundredths>,
    /// The average load.
    #[serde(rename = "average_load_percent")]
    pub average_load: Option<Hundredths>,
    /// The heaviest load.
    #[serde(rename = "top_load_percent")]
    pub top_load: Option<Hundredths>,
    /// The mean effort, in points of RPE.
    pub effort: Option<Hundredths>,
}

/// A lift, a family, or all.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// The mean of the weeks before.
    pub before: Measure,
    /// The week itself.
    pub now: Measure,
    /// From the one to the other.
    pub change: Change,
}

impl Row {
    /// Whether any of its sums rests on a plan.
    pub fn is_planned(&self) -> bool {
        self.before.planned_sets.0 > 0.0 || self.now.planned_sets.0 > 0.0
    }

    /// Whether a plan leaves open what would be in its tonnage or its loads.
    pub fn is_load_open(&self) -> bool {
        self.before.open_loads > 0.0 || self.now.open_loads > 0.0
    }

    /// Nothing where there is nothing to compare.
    pub(super) fn or_null<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Some(self).filter(|row| !row.name.is_empty()).serialize(serializer)
    }

    /// Sums up the work that is wanted.
    pub(super) fn of(name: &str, weeks: &Weeks<'_>, wanted: impl Fn(&Worked<'_>) -> bool) -> Row {
        let week = |work: &[Worked<'_>]| Measure::of(work.iter().filter(|worked| wanted(worked)));
        let before = Measure::mean(&weeks.before.iter().map(|(_, work)| week(work)).collect::<Vec<_>>());
        let now = week(&weeks.now);
        Row { name: name.to_owned(), before, now, change: Change::of(&before, &now) }
    }
}

impl Measure {
    fn of<'w, 'a: 'w>(work: impl Iterator<Item = &'w Worked<'a>>) -> Measure {
        let (mut sessions, mut sets, mut efforts) = (Vec::new(), 0u32, Vec::new());
        let (mut reps, mut loaded_reps, mut set_reps) = (0u32, 0u32, Vec::new());
        let (mut tonnage, mut top_load) = (Tonnage::default(), None);
        let (mut planned, mut open_loads) = (0u32, 0u32);
        for worked in work {
            // Work comes in order of time, so a session's lines stand together.
            if sessions.last().is_none_or(|last| !std::ptr::eq(*last, worked.session)) {
                sessions.push(worked.session);
            }
            for set in &worked.sets {
                sets += 1;
                planned += u32::from(set.is_planned);
                open_loads += u32::from(set.is_load_open);
                efforts.extend(set.effort);
                let total = set.amount.reps().unwrap_or(0).saturating_mul(set.sides);
                reps = reps.saturating_add(total);
                set_reps.extend(set.amount.reps().map(f64::from));
                let Some(load) = set.load else { continue };
                top_load = top_load.max(Some(load));
                if set.in_tonnage {
                    tonnage.add(load, total);
                    loaded_reps = loaded_reps.saturating_add(total);
                }
            }
        }
        let sessions = sessions.len() as f64;
        let are_known = open_loads == 0;
        Measure {
            sessions: Figure(sessions),
            sets: Figure(f64::from(sets)),
            planned_sets: Figure(f64::from(planned)),
            open_loads: f64::from(open_loads),
            sets_a_session: (sets > 0).then(|| Figure(f64::from(sets) / sessions)),
            reps: Figure(f64::from(reps)),
            reps_a_set: statistics::mean(&set_reps).map(Figure),
            tonnage: are_known.then_some(tonnage),
            average_load: tonnage.load_a_rep(loaded_reps).filter(|_| are_known),
            top_load: top_load.filter(|_| are_known),
            effort: statistics::mean(&efforts).map(Figure),
        }
    }

    fn mean(weeks: &[Measure]) -> Measure {
        let over = |values: Vec<f64>| statistics::mean(&values);
        let mean = |pick: fn(&Measure) -> Hundredths| {
            Figure(over(weeks.iter().map(|week| pick(week).0).collect()).unwrap_or(0.0))
        };
        let known = |pick: fn(&Measure) -> Option<Hundredths>| {
            over(weeks.iter().filter_map(|week| Some(pick(week)?.0)).collect()).map(Figure)
        };
        let open_loads = over(weeks.iter().map(|week| week.open_loads).collect()).unwrap_or(0.0);
        let are_known = open_loads == 0.0;
        let load = |pick: fn(&Measure) -> Option<Mass>| {
            over(weeks.iter().filter_map(|week| Some(pick(week)?.in_kilograms())).collect())
                .and_then(Mass::from_kilograms)
                .filter(|_| are_known)
        };
        Measure {
            sessions: mean(|week| week.sessions),
            sets: mean(|week| week.sets),
            planned_sets: mean(|week| week.planned_sets),
            open_loads,
            sets_a_session: known(|week| week.sets_a_session),
            reps: mean(|week| week.reps),
            reps_a_set: known(|week| week.reps_a_set),
            tonnage: are_known.then(|| Tonnage::mean(weeks.iter().filter_map(|week| week.tonnage))),
            average_load: load(|week| week.average_load),
            top_load: load(|week| week.top_load),
            effort: known(|week| week.effort),
        }
    }
}

impl Change {
    fn of(before: &Measure, now: &Measure) -> Change {
        let percent = |pick: fn(&Measure) -> Option<f64>| taper::change(pick(before)?, pick(now)?).map(Figure);
        let difference = |pick: fn(&Measure) -> Option<Hundredths>| Some(Figure(pick(now)?.0 - pick(before)?.0));
        Change {
            sets: percent(|of| Some(of.sets.0)),
            sets_a_session: difference(|of| of.sets_a_session),
            reps: percent(|of| Some(of.reps.0)),
            reps_a_set: difference(|of| of.reps_a_set),
            tonnage: percent(|of| of.tonnage.map(Tonnage::in_kilograms)),
            average_load: percent(|of| of.average_load.map(Mass::in_kilograms)),
            top_load: percent(|of| of.top_load.map(Mass::in_kilograms)),
            effort: difference(|of| of.effort),
        }
    }
}
