//! `cautions:` in the settings: from where on an answer cautions, each threshold by its name.

use crate::training::{EffortGap, Thresholds};
use serde_yaml::Value;

/// What one settings file says. Every threshold may be missing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Cautions {
    /// How far above its plan an effort is an overshoot.
    pub overshoot: Option<EffortGap>,
    /// How far below its plan an effort is a gross undershoot.
    pub gross_undershoot: Option<EffortGap>,
}

/// The names there are.
pub(super) const NAMES: [&str; 2] = ["overshoot", "gross undershoot"];

impl Cautions {
    /// Sets the threshold of a known name.
    ///
    /// # Errors
    /// What the threshold takes, where the value is none.
    pub(super) fn set(&mut self, name: &str, value: &Value) -> Result<(), &'static str> {
        match name {
            "overshoot" => {
                let gap = points(value, 1).ok_or("points of RPE from 0.5 to 9, in halves, such as 1")?;
                self.overshoot = Some(gap);
            }
            // Half a point under is nothing, so it cannot be a gross undershoot.
            _ => {
                let gap = points(value, 2).ok_or("points of RPE from 1 to 9, in halves, such as 2")?;
                self.gross_undershoot = Some(gap);
            }
        }
        Ok(())
    }

    /// The thresholds in force: the lifter's own, else the journal's, else the defaults.
    pub(super) fn in_force(own: &Cautions, journal: &Cautions) -> Thresholds {
        let usual = Thresholds::default();
        Thresholds {
            overshoot: own.overshoot.or(journal.overshoot).unwrap_or(usual.overshoot),
            gross_undershoot: own.gross_undershoot.or(journal.gross_undershoot).unwrap_or(usual.gross_undershoot),
        }
    }
}

/// Points of RPE in halves, at least so many halves and at most nine points: the length of the scale.
fn points(value: &Value, least: u8) -> Option<EffortGap> {
    let halves = value.as_f64()? * 2.0;
    (least..=18).find(|known| f64::from(*known) == halves).map(EffortGap::halves)
}

#[cfg(test)]
mod tests {
    use super::Cautions;
    use crate::training::{EffortGap, Thresholds};
    use serde_yaml::Value;

    #[test]
    fn a_threshold_is_a_number_of_halves_in_its_range() {
        for (name, value, read) in [
            ("overshoot", Value::from(1.5), Some(EffortGap::halves(3))),
            ("overshoot", Value::from(0.5), Some(EffortGap::halves(1))),
            ("overshoot", Value::from(0), None),
            ("overshoot", Value::from(1.25), None),
            ("overshoot", Value::from(10), None),
            ("overshoot", Value::from("much"), None),
            ("gross undershoot", Value::from(3), Some(EffortGap::halves(6))),
            ("gross undershoot", Value::from(0.5), None),
        ] {
            let mut cautions = Cautions::default();
            let set = cautions.set(name, &value).is_ok();
            assert_eq!(
                set.then_some(cautions.overshoot.or(cautions.gross_undershoot)).flatten(),
                read,
                "{name} {value:?}"
            );
        }
    }

    #[test]
    fn the_lifters_own_threshold_wins() {
        let own = Cautions { overshoot: Some(EffortGap::halves(3)), gross_undershoot: None };
        let journal = Cautions { overshoot: Some(EffortGap::HALF), gross_undershoot: Some(EffortGap::halves(6)) };
        let in_force = Cautions::in_force(&own, &journal);
        assert_eq!((in_force.overshoot.value(), in_force.gross_undershoot.value()), (1.5, 3.0));
        let usual = Cautions::in_force(&Cautions::default(), &Cautions::default());
        assert_eq!((usual, usual.overshoot.value(), usual.gross_undershoot.value()), (Thresholds::default(), 1.0, 2.0));
    }
}
