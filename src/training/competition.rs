//! Who competes, in what kit, and on which lifts.

use super::Family;
use super::words::Words;
use std::fmt;

/// Of which classes a lifter's total is scored.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sex {
    /// Women's.
    Female,
    /// Men's.
    Male,
}

impl Words for Sex {
    const WORDS: &'static [(Self, &'static str)] = &[(Sex::Female, "female"), (Sex::Male, "male")];
}

/// In what kit a lifter competes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Equipment {
    /// Belt, sleeves and wraps for the wrists.
    #[default]
    Classic,
    /// Supportive suits, shirts and wraps for the knees.
    Equipped,
}

impl Words for Equipment {
    const WORDS: &'static [(Self, &'static str)] =
        &[(Equipment::Classic, "classic"), (Equipment::Equipped, "equipped")];
}

/// A lift of the meet, in the order of the day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CompetitionLift {
    /// The squat.
    Squat,
    /// The bench press.
    BenchPress,
    /// The deadlift.
    Deadlift,
}

impl CompetitionLift {
    /// All three, in the order of the day.
    pub const ALL: [CompetitionLift; 3] =
        [CompetitionLift::Squat, CompetitionLift::BenchPress, CompetitionLift::Deadlift];

    /// The word for it, as settings and answers have it.
    pub fn word(self) -> &'static str {
        match self {
            CompetitionLift::Squat => "squat",
            CompetitionLift::BenchPress => "bench press",
            CompetitionLift::Deadlift => "deadlift",
        }
    }

    /// The names of the lift book that are this lift wherever they stand, the usual one first.
    pub fn names(self) -> &'static [&'static str] {
        match self {
            CompetitionLift::Squat => &["Back squat", "Low-bar squat", "High-bar squat"],
            CompetitionLift::BenchPress => &["Bench press", "Pause bench press"],
            CompetitionLift::Deadlift => &["Deadlift", "Sumo deadlift"],
        }
    }

    /// Those of them that are trained as this lift: a pause bench press is an attempt at a meet, but an exercise
    /// beside the bench press in training.
    pub fn trained_names(self) -> &'static [&'static str] {
        match self {
            CompetitionLift::BenchPress => &["Bench press"],
            other => other.names(),
        }
    }

    /// The lift that a family's attempts are of, at a meet.
    pub fn of_family(family: Family) -> Option<CompetitionLift> {
        match family {
            Family::Squat => Some(CompetitionLift::Squat),
            Family::HorizontalPress => Some(CompetitionLift::BenchPress),
            Family::Hinge => Some(CompetitionLift::Deadlift),
            _ => None,
        }
    }
}

impl fmt::Display for CompetitionLift {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// What a total is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Event {
    /// Squat, bench press and deadlift.
    FullMeet,
    /// The bench press alone.
    BenchOnly,
    /// Any other choice of the three.
    Other,
}

impl Event {
    /// The event of the lifts that were attempted; `None` where there are none.
    pub fn of(lifts: &[CompetitionLift]) -> Option<Event> {
        match lifts {
            [] => None,
            [CompetitionLift::BenchPress] => Some(Event::BenchOnly),
            lifts if CompetitionLift::ALL.iter().all(|lift| lifts.contains(lift)) => Some(Event::FullMeet),
            _ => Some(Event::Other),
        }
    }
}

/// What settings say of a lifter as a competitor.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Competitor {
    /// Of which classes; nothing where settings do not say.
    pub sex: Option<Sex>,
    /// In what kit.
    pub equipment: Equipment,
    /// The lifts that are competed on, by the name that settings give.
    pub lifts: Vec<(CompetitionLift, String)>,
}

impl Competitor {
    /// The name that settings give a competition lift.
    pub fn lift(&self, wanted: CompetitionLift) -> Option<&str> {
        self.lifts.iter().find(|(lift, _)| *lift == wanted).map(|(_, name)| name.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::{CompetitionLift, Event};
    use crate::training::LiftBook;

    #[test]
    fn the_lift_book_has_every_name_in_the_lifts_own_family() {
        let book = LiftBook::built_in();
        for lift in CompetitionLift::ALL {
            for name in lift.names() {
                let entry = book.find(name).unwrap_or_else(|| panic!("{name} is in no book"));
                assert_eq!((entry.name.as_str(), CompetitionLift::of_family(entry.family)), (*name, Some(lift)));
            }
        }
    }

    #[test]
    fn the_lifts_attempted_make_the_event() {
        use CompetitionLift::{BenchPress, Deadlift, Squat};
        assert_eq!(Event::of(&[]), None);
        assert_eq!(Event::of(&[BenchPress]), Some(Event::BenchOnly));
        assert_eq!(Event::of(&[Squat, BenchPress, Deadlift]), Some(Event::FullMeet));
        assert_eq!(Event::of(&[BenchPress, Deadlift]), Some(Event::Other));
        assert_eq!(Event::of(&[Squat]), Some(Event::Other));
    }
}
