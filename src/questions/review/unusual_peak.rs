//! `unusual-peak`: a peak week that drops intensity, or cuts far less or far more than is usual, done or planned so.

use super::scene::Scene;
use super::{Caution, Found};
use crate::history::WeekKey;
use crate::questions::taper::{self, About, Check, Kind, Verdict};

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let mut cautions = Vec::new();
    for number in taper::peak_weeks(scene.history, scene.id) {
        let answer = taper::answer(scene.history, &taper::Ask { block: Some(scene.id), week: Some(number) });
        let Some(comparison) = answer.comparison.ok().filter(|_| answer.kind == Kind::Peak) else { continue };
        let sessions = taper::sessions_of(scene.history, WeekKey { block: scene.id, week: number });
        let Some(last) = sessions.last() else { continue };
        // What is planned is seen from today: it can still be changed.
        let date = last.date.min(scene.history.today);
        for found in comparison.checks.iter().filter_map(|check| unusual(scene, number, check)) {
            let places = sessions.iter().map(|session| scene.place(session, session.line)).collect();
            cautions.push(Caution { date, found, places });
        }
    }
    cautions
}

fn unusual(scene: &Scene<'_, '_>, week: u32, check: &Check) -> Option<Found> {
    let (percent, low, high) = (check.found?.0, check.advice.low, check.advice.high);
    let far = f64::from(scene.thresholds().unusual_peak);
    let is_planned = check.is_planned;
    let cut = Found::PeakCut { week, percent, low, high, is_planned };
    match (check.about, check.verdict) {
        (About::Intensity, Verdict::Below) => Some(Found::PeakLighter { week, percent, usual: low, is_planned }),
        (About::Volume, Verdict::Below) if low - percent > far => Some(cut),
        (About::Volume, Verdict::Above) if percent - high > far => Some(cut),
        _ => None,
    }
}
