//! Which session of the one state is which of the other, and what differs between the two.

use super::side::{Side, sides};
use crate::source::Place;
use crate::training::{Figure, Log, Mass, Pain, Session};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// What stands above a session's work, and where.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "SessionHead")]
pub struct Head {
    /// Its date.
    pub date: NaiveDate,
    /// The time of day, where one is written.
    pub time: Option<String>,
    /// The day's label.
    pub day: Option<String>,
    /// Marked as part of a deload.
    pub deload: bool,
    /// Marked as part of a peak.
    pub peak: bool,
    /// Maximum or rep-maximum attempts.
    pub test_day: bool,
    /// A competition, by name.
    pub meet: Option<String>,
    /// The bodyweight of the day, where it is written on it.
    #[serde(rename = "bodyweight_kg")]
    pub bodyweight: Option<Mass>,
    /// What hurt.
    pub pains: Vec<PainTold>,
    /// Notes on the session.
    pub notes: Vec<String>,
    /// Where its heading stands.
    #[serde(flatten)]
    pub place: Place,
}

/// Something that hurt.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Pain")]
pub struct PainTold {
    /// Where.
    pub site: String,
    /// How much, out of ten.
    pub of_ten: Figure<1>,
}

/// A session as a whole.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Session")]
pub struct Told {
    /// Its heading and facts.
    #[serde(flatten)]
    pub head: Head,
    /// Each lift with what is said of it, in the order written.
    pub lifts: Vec<LiftTold>,
}

/// A lift with what a session says of it.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LiftTold {
    /// The lift.
    pub lift: String,
    /// What is said.
    #[serde(flatten)]
    pub side: Side,
}

/// A session that says something else than before.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Altered {
    /// Its heading and facts as they were.
    pub was: Head,
    /// As they are.
    pub is: Head,
    /// The lifts of which something else is said.
    pub lifts: Vec<LiftChange>,
}

/// A lift of which a session says something else.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LiftChange {
    /// The lift.
    pub lift: String,
    /// Whether its sets are others, or were skipped and are not.
    pub sets_altered: bool,
    /// Whether its plan asks for something else.
    pub plan_altered: bool,
    /// Whether its notes are others.
    pub notes_altered: bool,
    /// What was said; null where the lift was not there.
    #[serde(serialize_with = "Side::or_null")]
    #[schemars(with = "Option<Side>")]
    pub was: Side,
    /// What is said; null where the lift is not there.
    #[serde(serialize_with = "Side::or_null")]
    #[schemars(with = "Option<Side>")]
    pub is: Side,
}

impl Head {
    fn of(log: &Log, session: &Session) -> Self {
        let pain =
            |pain: &Pain| PainTold { site: pain.site.to_string(), of_ten: Figure(f64::from(pain.tenths) / 10.0) };
        let own = session.bodyweight.filter(|own| own.date == session.date);
        Head {
            date: session.date,
            time: session.minute.map(|minute| format!("{:02}:{:02}", minute / 60, minute % 60)),
            day: session.day.as_deref().map(str::to_owned),
            deload: session.deload,
            peak: session.peak,
            test_day: session.test_day,
            meet: session.meet.as_deref().map(str::to_owned),
            bodyweight: own.map(|own| own.mass),
            pains: session.pains.iter().map(pain).collect(),
            notes: session.notes.iter().map(|note| note.text.to_string()).collect(),
            place: log.place(session.page, session.line),
        }
    }

    /// Whether two say the same, wherever they stand and of whatever date they are.
    pub fn says_the_same(&self, other: &Head) -> bool {
        let plain = |head: &Head| (head.deload, head.peak, head.test_day, head.bodyweight);
        plain(self) == plain(other)
            && self.time == other.time
            && self.day == other.day
            && self.meet == other.meet
            && self.pains == other.pains
            && self.notes == other.notes
    }
}

/// A session with its lifts' names folded.
struct Whole {
    head: Head,
    lifts: Vec<(String, String, Side)>,
}

impl Whole {
    fn of(log: &Log, session: &Session) -> Self {
        Whole { head: Head::of(log, session), lifts: sides(log, session) }
    }

    fn side(&self, folded: &str) -> Option<&Side> {
        self.lifts.iter().find(|(known, ..)| known == folded).map(|(.., side)| side)
    }

    fn same_work(&self, other: &Whole) -> bool {
        self.changes(other).is_empty()
    }

    /// The lifts of which this one's successor says something else, in its order; those it lacks after them.
    fn changes(&self, after: &Whole) -> Vec<LiftChange> {
        let gone = self.lifts.iter().filter(|(folded, ..)| after.side(folded).is_none());
        let names = after.lifts.iter().chain(gone).map(|(folded, name, _)| (folded, name));
        let both = names.map(|(folded, name)| {
            let side = |whole: &Whole| whole.side(folded).cloned().unwrap_or_default();
            let (was, is) = (side(self), side(after));
            LiftChange {
                lift: name.clone(),
                sets_altered: !was.same_sets(&is),
                plan_altered: !was.same_plan(&is),
                notes_altered: was.notes != is.notes,
                was,
                is,
            }
        });
        let came_or_went = |change: &LiftChange| change.was.is_there != change.is.is_there;
        both.filter(|change| change.sets_altered || change.plan_altered || change.notes_altered || came_or_went(change))
            .collect()
    }

    fn told(self) -> Told {
        Told { head: self.head, lifts: self.lifts.into_iter().map(|(_, lift, side)| LiftTold { lift, side }).collect() }
    }
}

/// Sessions added, removed and altered, each by date.
pub(super) fn differences(before: Option<&Log>, after: Option<&Log>) -> (Vec<Told>, Vec<Told>, Vec<Altered>) {
    let mut by_date: BTreeMap<NaiveDate, (Vec<Whole>, Vec<Whole>)> = BTreeMap::new();
    for (log, session) in sessions(before) {
        by_date.entry(session.date).or_default().0.push(Whole::of(log, session));
    }
    for (log, session) in sessions(after) {
        by_date.entry(session.date).or_default().1.push(Whole::of(log, session));
    }
    let (mut added, mut removed, mut altered) = (Vec::new(), Vec::new(), Vec::new());
    for (mut was, mut is) in by_date.into_values() {
        take_pairs(&mut was, &mut is, |was, is| was.head.says_the_same(&is.head) && was.same_work(is));
        let same_name = |was: &Whole, is: &Whole| was.head.day == is.head.day;
        let mut pairs = take_pairs(&mut was, &mut is, |was, is| same_name(was, is) && was.head.time == is.head.time);
        pairs.extend(take_pairs(&mut was, &mut is, same_name));
        pairs.extend(take_pairs(&mut was, &mut is, Whole::same_work));
        let shares_a_lift = |was: &Whole, is: &Whole| is.lifts.iter().any(|(folded, ..)| was.side(folded).is_some());
        pairs.extend(take_pairs(&mut was, &mut is, shares_a_lift));
        altered.extend(pairs);
        removed.extend(was);
        added.extend(is);
    }
    // One that only changed its date was neither added nor removed.
    let moved = |was: &Whole, is: &Whole| !is.lifts.is_empty() && was.head.says_the_same(&is.head) && was.same_work(is);
    altered.extend(take_pairs(&mut removed, &mut added, moved));
    altered.sort_by_key(|(was, is)| (is.head.date, was.head.date));
    let altered = altered.into_iter().map(|(was, is)| {
        let lifts = was.changes(&is);
        Altered { was: was.head, is: is.head, lifts }
    });
    let told = |wholes: Vec<Whole>| wholes.into_iter().map(Whole::told).collect();
    (told(added), told(removed), altered.collect())
}

fn sessions(log: Option<&Log>) -> impl Iterator<Item = (&Log, &Session)> {
    log.into_iter().flat_map(|log| log.sessions.iter().map(move |session| (log, session)))
}

/// Takes out of both lists, in their order, what belongs together.
fn take_pairs(
    was: &mut Vec<Whole>,
    is: &mut Vec<Whole>,
    together: impl Fn(&Whole, &Whole) -> bool,
) -> Vec<(Whole, Whole)> {
    let mut pairs = Vec::new();
    let mut left = Vec::new();
    for one in was.drain(..) {
        match is.iter().position(|other| together(&one, other)) {
            Some(at) => pairs.push((one, is.remove(at))),
            None => left.push(one),
        }
    }
    *was = left;
    pairs
}
