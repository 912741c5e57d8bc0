//! `cautions:` in the settings: from where on an answer cautions, each threshold by the caution's name.

use crate::training::{Effort, EffortGap, Thresholds};
use serde_yaml::Value;

/// What one settings file says: names that are known, with their thresholds. Every one may be missing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cautions {
    said: Vec<(&'static str, u32)>,
}

/// A threshold that can be set.
struct Known {
    name: &'static str,
    /// The range of values; of points of RPE in halves.
    least: u32,
    most: u32,
    /// In what one is counted.
    unit: Unit,
    /// What it takes.
    wanted: &'static str,
    put: fn(&mut Thresholds, u32),
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Unit {
    /// Whole numbers.
    Whole,
    /// Points of RPE, in halves.
    Points,
}

/// Points of RPE go to nine, the length of the scale.
const KNOWN: [Known; 14] = [
    Known {
        name: "overshoot",
        least: 1,
        most: 18,
        unit: Unit::Points,
        wanted: "points of RPE from 0.5 to 9, in halves, such as 1",
        put: |thresholds, halves| thresholds.overshoot = gap(halves),
    },
    // Half a point under is nothing, so it cannot be a gross undershoot.
    Known {
        name: "gross-undershoot",
        least: 2,
        most: 18,
        unit: Unit::Points,
        wanted: "points of RPE from 1 to 9, in halves, such as 2",
        put: |thresholds, halves| thresholds.gross_undershoot = gap(halves),
    },
    Known {
        name: "high-reps-missing",
        least: 1,
        most: 104,
        unit: Unit::Whole,
        wanted: "weeks from 1 to 104, such as 8",
        put: |thresholds, weeks| thresholds.high_reps_missing = weeks,
    },
    Known {
        name: "high-reps-near-meet",
        least: 1,
        most: 26,
        unit: Unit::Whole,
        wanted: "weeks from 1 to 26, such as 4",
        put: |thresholds, weeks| thresholds.high_reps_near_meet = weeks,
    },
    Known {
        name: "no-room-left",
        least: 12,
        most: 20,
        unit: Unit::Points,
        wanted: "an RPE from 6 to 10, in halves, such as 9.5",
        put: |thresholds, halves| {
            let thousandths = i64::from(halves) * 500;
            thresholds.no_room_left = Effort::rpe(thousandths, thousandths);
        },
    },
    Known {
        name: "load-jump",
        least: 1,
        most: 100,
        unit: Unit::Whole,
        wanted: "percent from 1 to 100, such as 10",
        put: |thresholds, percent| thresholds.load_jump = percent,
    },
    Known {
        name: "hard-sets-rise",
        least: 10,
        most: 500,
        unit: Unit::Whole,
        wanted: "percent from 10 to 500, such as 50",
        put: |thresholds, percent| thresholds.hard_sets_rise = percent,
    },
    Known {
        name: "deload-overdue",
        least: 1,
        most: 104,
        unit: Unit::Whole,
        wanted: "weeks from 1 to 104, such as 8",
        put: |thresholds, weeks| thresholds.deload_overdue = weeks,
    },
    Known {
        name: "unusual-peak",
        least: 0,
        most: 100,
        unit: Unit::Whole,
        wanted: "points of percent from 0 to 100, such as 10",
        put: |thresholds, points| thresholds.unusual_peak = points,
    },
    Known {
        name: "heavy-deadlift-near-meet",
        least: 1,
        most: 28,
        unit: Unit::Whole,
        wanted: "days from 1 to 28, such as 7",
        put: |thresholds, days| thresholds.heavy_deadlift_near_meet = days,
    },
    // Once is no return, and five sessions are looked at.
    Known {
        name: "same-fault",
        least: 2,
        most: 5,
        unit: Unit::Whole,
        wanted: "sessions from 2 to 5, such as 3",
        put: |thresholds, sessions| thresholds.same_fault = sessions,
    },
    Known {
        name: "pain-again",
        least: 1,
        most: 90,
        unit: Unit::Whole,
        wanted: "days from 1 to 90, such as 14",
        put: |thresholds, days| thresholds.pain_again = days,
    },
    Known {
        name: "planned-and-skipped",
        least: 2,
        most: 12,
        unit: Unit::Whole,
        wanted: "weeks from 2 to 12, such as 3",
        put: |thresholds, weeks| thresholds.planned_and_skipped = weeks,
    },
    Known {
        name: "block-behind",
        least: 1,
        most: 100,
        unit: Unit::Whole,
        wanted: "percent from 1 to 100, such as 50",
        put: |thresholds, percent| thresholds.block_behind = percent,
    },
];

fn gap(halves: u32) -> EffortGap {
    EffortGap::halves(u8::try_from(halves).unwrap_or(u8::MAX))
}

/// The names there are.
pub(super) fn names() -> Vec<&'static str> {
    KNOWN.iter().map(|known| known.name).collect()
}

/// The known name that is meant: as in other keys, a blank may stand for the hyphen.
pub(super) fn named(name: &str) -> Option<&'static str> {
    let hyphened = name.replace(' ', "-");
    KNOWN.iter().map(|known| known.name).find(|known| *known == hyphened)
}

impl Cautions {
    /// Sets the threshold of a known name.
    ///
    /// # Errors
    /// What the threshold takes, where the value is none.
    pub(super) fn set(&mut self, name: &str, value: &Value) -> Result<(), &'static str> {
        let Some(known) = KNOWN.iter().find(|known| known.name == name) else { return Ok(()) };
        let per = if known.unit == Unit::Points { 2.0 } else { 1.0 };
        let number = value.as_f64().map(|number| number * per);
        let number = (known.least..=known.most).find(|whole| Some(f64::from(*whole)) == number).ok_or(known.wanted)?;
        self.said.push((known.name, number));
        Ok(())
    }

    fn put(&self, thresholds: &mut Thresholds) {
        for (name, number) in &self.said {
            if let Some(known) = KNOWN.iter().find(|known| known.name == *name) {
                (known.put)(thresholds, *number);
            }
        }
    }

    /// The thresholds in force: the lifter's own, else the journal's, else the defaults.
    pub(super) fn in_force(own: &Cautions, journal: &Cautions) -> Thresholds {
        let mut thresholds = Thresholds::default();
        journal.put(&mut thresholds);
        own.put(&mut thresholds);
        thresholds
    }
}

#[cfg(test)]
mod tests {
    use super::{Cautions, KNOWN, named};
    use crate::training::{EffortGap, Thresholds};
    use serde_yaml::Value;

    fn set(name: &str, value: Value) -> Option<Cautions> {
        let mut cautions = Cautions::default();
        cautions.set(name, &value).ok().map(|()| cautions)
    }

    #[test]
    fn a_threshold_is_a_number_in_its_range() {
        for (name, value, read) in [
            ("overshoot", Value::from(1.5), Some(3)),
            ("overshoot", Value::from(0.5), Some(1)),
            ("overshoot", Value::from(0), None),
            ("overshoot", Value::from(1.25), None),
            ("overshoot", Value::from(10), None),
            ("overshoot", Value::from("much"), None),
            ("gross-undershoot", Value::from(3), Some(6)),
            ("gross-undershoot", Value::from(0.5), None),
            ("load-jump", Value::from(12), Some(12)),
            ("load-jump", Value::from(12.5), None),
            ("no-room-left", Value::from(9), Some(18)),
            ("no-room-left", Value::from(11), None),
        ] {
            let read = read.map(|number| Cautions { said: vec![(named(name).unwrap(), number)] });
            assert_eq!(set(name, value.clone()), read, "{name} {value:?}");
        }
    }

    #[test]
    fn a_blank_may_stand_for_the_hyphen() {
        assert_eq!(named("gross undershoot"), Some("gross-undershoot"));
        assert_eq!(named("gross-undershoot"), Some("gross-undershoot"));
        assert_eq!(named("undershoot"), None);
    }

    /// Each one changes a threshold, and one of its own.
    #[test]
    fn every_name_sets_its_own_threshold() {
        let changed: Vec<Thresholds> = KNOWN
            .iter()
            .map(|known| Cautions { said: vec![(known.name, known.most)] })
            .map(|cautions| Cautions::in_force(&cautions, &Cautions::default()))
            .collect();
        for (at, thresholds) in changed.iter().enumerate() {
            assert_ne!(*thresholds, Thresholds::default(), "{}", KNOWN[at].name);
            assert!(changed.iter().skip(at + 1).all(|other| other != thresholds), "{}", KNOWN[at].name);
        }
    }

    #[test]
    fn the_lifters_own_threshold_wins() {
        let own = set("overshoot", Value::from(1.5)).unwrap();
        let mut journal = set("overshoot", Value::from(0.5)).unwrap();
        journal.set("gross-undershoot", &Value::from(3)).unwrap();
        let in_force = Cautions::in_force(&own, &journal);
        let expected = Thresholds {
            overshoot: EffortGap::halves(3),
            gross_undershoot: EffortGap::halves(6),
            ..Thresholds::default()
        };
        assert_eq!(in_force, expected);
        assert_eq!(Cautions::in_force(&Cautions::default(), &Cautions::default()), Thresholds::default());
    }
}
