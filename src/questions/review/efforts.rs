//! `over-plan` and `far-under-plan`: efforts over their plan, and far under it, as `adherence` pairs sets with plans.

use super::caution::{Found, Rule, Tells};
use super::scene::Scene;
use crate::analysis::plan::against_plan::{self, AgainstPlan};
use crate::analysis::plan::planned_lines::{Line, PlannedLines};
use crate::source::Place;
use crate::training::EffortGap;
use chrono::NaiveDate;

/// What a lift's lines of the block come to.
struct OfLift {
    lift: String,
    date: NaiveDate,
    /// Whether there is more than one day of them.
    again: bool,
    most: EffortGap,
    all_done: bool,
    places: Vec<Place>,
}

pub(super) const OVER_PLAN: Rule = Rule {
    threshold: against_plan::OVER_PLAN,
    brief: |lift, found| format!("{lift} {found} RPE over plan"),
    tells: Tells::OverPlan,
    text: "
An effort over its plan. Once is a hard day; again and again the plan is too heavy, or the load was chosen too high. One
day that is one point over is no more than form and ratings stray by.

- raised: for each lift of the block with sets one point of RPE over the harder end of their plan on two days, or two
  points on one
- threshold: {threshold}, `cautions: { over-plan: 1.5 }` for one and a half
- on sensible training: 0.73 times in two weeks of a strong lifter, 0.77 of a small one (simulated)
- source: common practice, no source
",
    find: over_plan,
};

pub(super) const FAR_UNDER_PLAN: Rule = Rule {
    threshold: against_plan::FAR_UNDER_PLAN,
    brief: |lift, found| format!("{lift} {found} RPE under plan"),
    tells: Tells::Other,
    text: "
An effort far under its plan. If all planned work was done, it is no fault: the day was good, or the plan was light,
and the room is yours for the weeks to come. If work was left out, it may be worth knowing why.

- raised: for each lift of the block with sets two points of RPE under the easier end of their plan on two days, or three
  points on one, or two on one on which planned work was left out
- threshold: {threshold}, `cautions: { far-under-plan: 3 }` for three
- on sensible training: 0.04 times in two weeks of a strong lifter, 0.09 of a small one (simulated)
- source: common practice, no source
",
    find: far_under_plan,
};

/// By so many points more an effort counts that is of one day only: so far neither form nor ratings stray, as the
/// simulated lifters of docs/science.md have it.
const BY_ITSELF: f64 = 1.0;

fn over_plan(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    let told = by_lift(scene, AgainstPlan::Over, threshold).into_iter().filter(|of| of.is_told(threshold));
    told.map(|of| of.found("over", "")).collect()
}

fn far_under_plan(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    let lifts = by_lift(scene, AgainstPlan::Under, threshold).into_iter();
    let found = lifts.filter(|of| of.is_told(threshold) || !of.all_done).map(|of| {
        let so =
            if of.all_done { "all planned work was done, so it is no fault" } else { "not all planned work was done" };
        of.found("under", &format!("; {so}"))
    });
    found.collect()
}

impl OfLift {
    /// Whether it is more than a day's form or a rating's error.
    fn is_told(&self, threshold: f64) -> bool {
        self.again || self.most.value() >= threshold + BY_ITSELF
    }

    fn found(self, which: &str, more: &str) -> Found {
        let (lift, times) = (&self.lift, self.places.len());
        let most = self.most.value();
        let points = if most == 1.0 { "1 point".into() } else { format!("{most} points") };
        let at_most = if times == 1 { String::new() } else { format!(" at most, on {times} lines") };
        let message = format!("{lift}: {points} of RPE {which} the plan{at_most}{more}");
        Found { date: self.date, about: Some(self.lift), figure: most, message, places: self.places }
    }
}

/// The lines with such a gap or a wider one, gathered by lift.
fn by_lift(scene: &Scene<'_, '_>, verdict: AgainstPlan, least: f64) -> Vec<OfLift> {
    let mut lifts: Vec<OfLift> = Vec::new();
    let most = |line: &Line| {
        let such = line.efforts.iter().filter(|effort| effort.verdict == verdict && effort.gap.value() >= least);
        such.map(|effort| effort.gap).max()
    };
    for line in PlannedLines::of(scene.history, None, scene.sessions()).lines {
        let Some(most) = most(&line) else { continue };
        let (date, place) = (line.at.date, line.at.place);
        let all_done = line.sums.sets_reached >= line.sums.sets_planned;
        match lifts.iter_mut().find(|known| known.lift == line.lift) {
            Some(known) => {
                known.again |= known.date != date;
                known.date = date;
                known.most = known.most.max(most);
                known.all_done &= all_done;
                known.places.push(place);
            }
            None => lifts.push(OfLift { lift: line.lift, date, again: false, most, all_done, places: vec![place] }),
        }
    }
    lifts
}
