//! `unusual-peak`: a peak week that drops intensity, or cuts far less or far more than is usual, done or planned so.

use super::caution::{Found, Rule, Tells};
use super::scene::Scene;
use crate::history::WeekKey;
use crate::questions::taper::{self, About, Check, Kind, Verdict};
use crate::training::Threshold;

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "unusual-peak", unit: "percent", least: 0.0, most: 100.0, default: 10.0 },
    brief: |_, found| format!("unusual peak week, {found:+.0} %"),
    tells: Tells::Other,
    text: "
A peak week in which the top loads of the competition lifts drop by more than 5 %, or in which volume is cut far less
or far more than is usual, as `taper` reckons. Intensity is usually kept and volume cut by 41 to 60 %; the smaller and
the less strong cut less, the very strong more. What is usual can be set too, under `taper:`. Most of it is what lifters
do, not proof that it works best. A peak that is planned so can still be changed, so its plans are looked at ahead.

- raised: for each peak week, once it is over, once nothing to come can change it, or once it is planned so
- threshold: {threshold} beyond what is usual for volume, `cautions: { unusual-peak: 20 }` for twenty
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: Bosquet et al. 2007, Med Sci Sports Exerc 39(8):1358–1365; Pritchard et al. 2016, J Strength Cond Res
  30(7):1796–1804; Grgic and Mikulic 2017, J Strength Cond Res 31(9):2371–2378; the threshold is this project's own
",
    find,
};

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    let mut cautions = Vec::new();
    for number in taper::peak_weeks(scene.history, scene.id) {
        let answer = taper::answer(scene.history, &taper::Ask { block: Some(scene.id), week: Some(number) });
        let Some(comparison) = answer.comparison.ok().filter(|_| answer.kind == Kind::Peak) else { continue };
        let sessions = taper::sessions_of(scene.history, WeekKey { block: scene.id, week: number });
        let Some(last) = sessions.last() else { continue };
        // What is planned is seen from today: it can still be changed.
        let date = last.date.min(scene.history.today);
        for (figure, message) in comparison.checks.iter().filter_map(|check| unusual(threshold, number, check)) {
            let places = sessions.iter().map(|session| scene.place(session.page, session.line)).collect();
            cautions.push(Found { date, about: None, figure, message, places });
        }
    }
    cautions
}

/// The change in percent and what there is to say of it.
fn unusual(far: f64, week: u32, check: &Check) -> Option<(f64, String)> {
    let (percent, low, high) = (check.found?.0, check.advice.low, check.advice.high);
    // What rests on plans can still be changed.
    let as_planned = if check.is_planned { " as planned" } else { "" };
    let cut = |how: &str| {
        format!(
            "peak week {week}{as_planned}: volume {percent:+.0} %, cut {how} than the usual {low:.0} to {high:.0} %"
        )
    };
    let message = match (check.about, check.verdict) {
        (About::Intensity, Verdict::Below) => format!(
            "peak week {week}{as_planned}: top loads of the competition lifts {percent:+.0} %; they are usually kept, \
             {low:.0} % at the least"
        ),
        (About::Volume, Verdict::Below) if low - percent > far => cut("far more"),
        (About::Volume, Verdict::Above) if percent - high > far => cut("far less"),
        _ => return None,
    };
    Some((percent, message))
}
