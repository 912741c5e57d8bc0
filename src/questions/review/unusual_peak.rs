//! `unusual-peak`: a peak week that drops intensity, or cuts far less or far more than is usual.

use super::scene::{Scene, has_work, is_training};
use super::{Caution, Found};
use crate::questions::taper::{self, About, Check, Fit, Kind, Verdict};

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    let mut cautions = Vec::new();
    for week in scene.weeks().iter().filter(|week| week.light) {
        let number = week.key.week;
        let answer = taper::answer(scene.history, &taper::Ask { block: Some(scene.id), week: Some(number) });
        let Some(comparison) = answer.comparison.ok().filter(|_| answer.kind == Kind::Peak) else { continue };
        let sessions = || week.sessions.iter().filter(|session| is_training(session) && has_work(session));
        let Some(last) = sessions().next_back() else { continue };
        for found in comparison.checks.iter().filter_map(|check| unusual(scene, number, check)) {
            let places = sessions().map(|session| scene.place(session, session.line)).collect();
            cautions.push(Caution { date: last.date, found, places });
        }
    }
    cautions
}

fn unusual(scene: &Scene<'_, '_>, week: u32, check: &Check) -> Option<Found> {
    let (percent, low, high) = (check.found?, check.advice.low, check.advice.high);
    let Verdict::Known(fit) = check.verdict else { return None };
    let far = f64::from(scene.thresholds().unusual_peak);
    match (&check.about, fit) {
        (About::Intensity, Fit::Below) => Some(Found::PeakLighter { week, percent, usual: low }),
        (About::Volume, Fit::Below) if low - percent > far => Some(Found::PeakCut { week, percent, low, high }),
        (About::Volume, Fit::Above) if percent - high > far => Some(Found::PeakCut { week, percent, low, high }),
        _ => None,
    }
}
