//! From where on an answer cautions. A lifter may set each one.

/// A threshold: the name under which `cautions:` sets it, and what it takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Threshold {
    /// Its name, which is that of its caution.
    pub name: &'static str,
    /// In what it is counted.
    pub unit: &'static str,
    /// The least that it can be set to.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// What is in force where nobody has set it.
    pub default: f64,
}

/// What counts in points of RPE goes by halves, as the scale does; all else by whole ones.
pub const POINTS: &str = "points of RPE";

impl Threshold {
    /// Whether it can be set so.
    pub fn takes(&self, number: f64) -> bool {
        let steps = if self.unit == POINTS { number * 2.0 } else { number };
        steps.fract() == 0.0 && (self.least..=self.most).contains(&number)
    }

    /// What it takes: `weeks from 1 to 104, such as 8`.
    pub fn wanted(&self) -> String {
        let by = if self.unit == POINTS { ", in halves" } else { "" };
        format!("{} from {} to {}{by}, such as {}", self.unit, self.least, self.most, self.default)
    }

    /// The one in force: the first that is said and can be, else the default.
    pub fn in_force(&self, said: &Thresholds) -> f64 {
        let own =
            said.0.iter().filter(|(name, _)| name == self.name).map(|(_, thousandths)| *thousandths as f64 / 1000.0);
        own.into_iter().find(|number| self.takes(*number)).unwrap_or(self.default)
    }
}

/// Numbers by name, in thousandths, as the settings say them: the lifter's own before the journal's. They have not
/// been held against the thresholds there are.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Thresholds(pub Vec<(String, i64)>);

#[cfg(test)]
mod tests {
    use super::{POINTS, Threshold, Thresholds};

    const JUMP: Threshold = Threshold { name: "load-jump", unit: "percent", least: 1.0, most: 100.0, default: 10.0 };
    const OVER: Threshold = Threshold { name: "over-plan", unit: POINTS, least: 0.5, most: 9.0, default: 1.0 };

    #[test]
    fn a_threshold_is_a_number_in_its_range() {
        for (threshold, number, takes) in [
            (OVER, 1.5, true),
            (OVER, 0.5, true),
            (OVER, 0.0, false),
            (OVER, 1.25, false),
            (OVER, 10.0, false),
            (JUMP, 12.0, true),
            (JUMP, 12.5, false),
            (JUMP, f64::NAN, false),
        ] {
            assert_eq!(threshold.takes(number), takes, "{} {number}", threshold.name);
        }
        assert_eq!(OVER.wanted(), "points of RPE from 0.5 to 9, in halves, such as 1");
        assert_eq!(JUMP.wanted(), "percent from 1 to 100, such as 10");
    }

    #[test]
    fn the_first_that_can_be_is_in_force() {
        let said = |all: &[(&str, i64)]| Thresholds(all.iter().map(|(name, at)| ((*name).to_owned(), *at)).collect());
        assert_eq!(OVER.in_force(&said(&[("load-jump", 12_000), ("over-plan", 1_500), ("over-plan", 500)])), 1.5);
        assert_eq!(OVER.in_force(&said(&[("over-plan", 1_250), ("over-plan", 500)])), 0.5);
        assert_eq!(OVER.in_force(&Thresholds::default()), 1.0);
    }
}
