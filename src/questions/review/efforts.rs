//! `over-plan` and `far-under-plan`: efforts over their plan, and far under it, as `adherence` pairs sets with plans.

use super::caution::{Found, Rule};
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
    most: EffortGap,
    all_done: bool,
    places: Vec<Place>,
}

pub(super) const OVER_PLAN: Rule = Rule {
    threshold: against_plan::OVER_PLAN,
    text: "
An effort over its plan. Once is a hard day; again and again the plan is too heavy, or the load was chosen too high. One
line that is one point over is no more than a rating misses by.

- raised: for each lift of the block with a set one point of RPE over the harder end of its plan on a day on which another
  line was so too, or half a point more by itself
- threshold: {threshold}, `cautions: { over-plan: 1.5 }` for one and a half
- source: common practice, no source
",
    find: over_plan,
};

pub(super) const FAR_UNDER_PLAN: Rule = Rule {
    threshold: against_plan::FAR_UNDER_PLAN,
    text: "
An effort far under its plan. If all planned work was done, it is no fault: the day was good, or the plan was light,
and the room is yours for the weeks to come. If work was left out, it may be worth knowing why.

- raised: for each lift of the block with a set two points of RPE under the easier end of its plan, or more
- threshold: {threshold}, `cautions: { far-under-plan: 3 }` for three
- source: common practice, no source
",
    find: far_under_plan,
};

/// By so many points more an effort counts that is alone on its day.
const BY_ITSELF: f64 = 0.5;

fn over_plan(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    by_lift(scene, AgainstPlan::Over, threshold).into_iter().map(|of| of.found("over", "")).collect()
}

fn far_under_plan(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    let found = by_lift(scene, AgainstPlan::Under, threshold).into_iter().map(|of| {
        let so =
            if of.all_done { "all planned work was done, so it is no fault" } else { "not all planned work was done" };
        of.found("under", &format!("; {so}"))
    });
    found.collect()
}

impl OfLift {
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
    let lines = PlannedLines::of(scene.history, None, scene.sessions()).lines;
    let days: Vec<NaiveDate> = lines.iter().filter(|line| most(line).is_some()).map(|line| line.at.date).collect();
    for line in lines {
        let Some(most) = most(&line) else { continue };
        let alone = days.iter().filter(|day| **day == line.at.date).count() < 2;
        if verdict == AgainstPlan::Over && alone && most.value() < least + BY_ITSELF {
            continue;
        }
        let all_done = line.sums.sets_reached >= line.sums.sets_planned;
        let place = line.at.place;
        match lifts.iter_mut().find(|known| known.lift == line.lift) {
            Some(known) => {
                known.date = line.at.date;
                known.most = known.most.max(most);
                known.all_done &= all_done;
                known.places.push(place);
            }
            None => {
                let (lift, date) = (line.lift, line.at.date);
                lifts.push(OfLift { lift, date, most, all_done, places: vec![place] });
            }
        }
    }
    lifts
}
