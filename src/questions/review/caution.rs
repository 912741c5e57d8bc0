//! What a caution is: a rule, and what it has found.

use super::scene::Scene;
use crate::source::Place;
use crate::training::{Figure, Hundredths, Threshold, words};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// A kind of caution: all there is to say of it. Settings, answers and docs/cautions.md are made of these.
pub struct Rule {
    /// Its name, and the threshold that is set by it.
    pub threshold: Threshold,
    /// What it says in a few words, as `roster` and the top of a report have it: of the lift, family or site that it is
    /// about, where there is one, and the figure that was found.
    pub(super) brief: fn(&str, f64) -> String,
    /// What a line of the roster says of its own, and need not where this caution does.
    pub tells: Tells,
    /// Its section of docs/cautions.md: the reason, then a list of when it is raised, the threshold with an example of
    /// how to set it, and the source. `{threshold}` stands for the default.
    pub text: &'static str,
    /// Looks for it, with the threshold in force.
    pub(super) find: fn(&Scene<'_, '_>, f64) -> Vec<Found>,
}

/// What a caution tells that is told without it too.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tells {
    /// A pain.
    Pain,
    /// Efforts over plan.
    OverPlan,
    /// Neither.
    Other,
}

/// What a rule has found.
pub(super) struct Found {
    /// The day that it is about: that of the last line that gave rise to it, or the day that is looked from.
    pub(super) date: NaiveDate,
    /// The lift, family or site that it is about.
    pub(super) about: Option<String>,
    /// The figure that is held against the threshold, in its unit.
    pub(super) figure: f64,
    /// What there is to say, in one sentence: short, and never alarming.
    pub(super) message: String,
    /// The lines that gave rise to it, in order of time.
    pub(super) places: Vec<Place>,
}

/// A caution.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Caution {
    /// Its name.
    pub name: &'static str,
    /// The day that it is about: that of the last line that gave rise to it, or the day that is looked from.
    pub date: NaiveDate,
    /// The lift, family or site; nothing where it is about none.
    pub about: Option<String>,
    /// What was found, in the unit.
    pub found: Hundredths,
    /// The threshold in force, in the unit.
    pub threshold: Hundredths,
    /// In what both are counted.
    pub unit: &'static str,
    /// The caution in words.
    pub message: String,
    /// The lines that gave rise to it, in order of time.
    pub places: Vec<Place>,
    /// Whether there was none such a week ago; of a block that was asked for all are new.
    #[serde(rename = "new")]
    pub is_new: bool,
}

impl Rule {
    /// Its name.
    pub fn name(&self) -> &'static str {
        self.threshold.name
    }

    /// All that it finds.
    pub(super) fn cautions(&self, scene: &Scene<'_, '_>) -> Vec<Caution> {
        let threshold = self.threshold.in_force(&scene.history.log.thresholds);
        let caution = |Found { date, about, figure, message, places }| {
            let Threshold { name, unit, .. } = self.threshold;
            let (found, threshold) = (Figure(figure), Figure(threshold));
            Caution { name, date, about, found, threshold, unit, message, places, is_new: true }
        };
        (self.find)(scene, threshold).into_iter().map(caution).collect()
    }

    /// Its section of docs/cautions.md, with the default in its place.
    pub fn section(&self) -> String {
        let Threshold { unit, default, .. } = self.threshold;
        let unit = if default == 1.0 { unit.replacen("points", "point", 1) } else { unit.to_owned() };
        self.text.trim().replace("{threshold}", &format!("{default} {unit}"))
    }

    /// The section's paragraphs and list items, each on one line.
    pub fn explanation(&self) -> Vec<String> {
        let section = self.section();
        let mut parts: Vec<String> = Vec::new();
        for line in section.lines().map(str::trim) {
            match parts.last_mut().filter(|part| !part.is_empty() && !line.is_empty() && !line.starts_with("- ")) {
                Some(part) => *part = format!("{part} {line}"),
                None => parts.push(line.to_owned()),
            }
        }
        parts.retain(|part| !part.is_empty());
        parts
    }
}

/// A figure found as a number of something: `8 weeks`.
pub(super) fn whole(found: f64, what: &str) -> String {
    words::count(found.round().max(0.0) as u64, what)
}

/// `1 week`, `2 weeks`.
pub(super) fn count(number: i64, what: &str) -> String {
    words::count(number.unsigned_abs(), what)
}
