//! Who competes, in what kit, and on which lifts.

use super::{Family, Mass, words};

words! {
    /// Of which classes a lifter's total is scored.
    pub enum Sex {
        /// Women's.
        Female = "female",
        /// Men's.
        Male = "male",
    }
}

words! {
    /// In what kit a lifter competes.
    #[derive(Default)]
    pub enum Equipment {
        /// Belt, sleeves and wraps for the wrists.
        #[default]
        Classic = "classic",
        /// Supportive suits, shirts and wraps for the knees.
        Equipped = "equipped",
    }
}

words! {
    /// A lift of the meet, in the order of the day.
    #[derive(PartialOrd, Ord, Hash)]
    pub enum CompetitionLift {
        /// The squat.
        Squat = "squat",
        /// The bench press.
        BenchPress = "bench press",
        /// The deadlift.
        Deadlift = "deadlift",
    }
}

impl CompetitionLift {
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

/// A weight class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WeightClass {
    /// The bodyweight that it ends at; of an open one, begins above.
    pub limit: Mass,
    /// Whether it is the one above all others, without an end.
    pub open: bool,
}

impl WeightClass {
    /// As one writes it: `74 kg`, `120+ kg`, `165 lb`.
    pub fn written(&self) -> String {
        let limit = self.limit.written();
        if self.open { limit.replacen(' ', "+ ", 1) } else { limit }
    }
}

/// What settings say of a lifter as a competitor.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Competitor {
    /// Of which classes; nothing where settings do not say.
    pub sex: Option<Sex>,
    /// In what kit.
    pub equipment: Equipment,
    /// The weight class; nothing where settings do not say.
    pub class: Option<WeightClass>,
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
