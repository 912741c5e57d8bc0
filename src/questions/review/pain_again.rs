//! `pain-again`: pain noted again on one site within a short time.

use super::caution::{Found, Rule, Tells, count};
use super::scene::Scene;
use crate::training::{Pain, Session, Threshold, fold};

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "pain-again", unit: "days", least: 1.0, most: 90.0, default: 14.0 },
    brief: |site, _| format!("{site} pain again"),
    tells: Tells::Other,
    text: "
Pain noted on one site in two sessions within two weeks. See a professional about it: a physician or physiotherapist
can look, and a journal cannot. Pain that is sharp, that rises or that lasts, numbness or weakness: stop, and have it
seen. Pain of 0 of 10 is not counted.

- raised: once for each site, for the last time in the block
- threshold: {threshold}, `cautions: { pain-again: 7 }` for seven
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: common practice, no source
",
    find,
};

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    let mut sites: Vec<(String, Vec<(&Session, &Pain)>)> = Vec::new();
    for session in scene.history.with_pain() {
        // 0 of 10 says that it is gone.
        for pain in session.pains.iter().filter(|pain| pain.tenths > 0) {
            let site = fold(&pain.site);
            match sites.iter_mut().find(|(known, _)| *known == site) {
                Some((_, notes)) => notes.push((session, pain)),
                None => sites.push((site, vec![(session, pain)])),
            }
        }
    }
    sites.iter().filter_map(|(_, notes)| of_site(scene, threshold, notes)).collect()
}

/// The last time in the block that a site hurt again within the time.
fn of_site(scene: &Scene<'_, '_>, threshold: f64, notes: &[(&Session, &Pain)]) -> Option<Found> {
    let within = threshold as i64;
    let here = notes.iter().rev().filter(|(session, _)| session.block == Some(scene.id));
    here.filter_map(|(last, pain)| {
        let apart = |session: &Session| (last.date - session.date).num_days();
        let recent: Vec<_> = notes.iter().filter(|(session, _)| (0..=within).contains(&apart(session))).collect();
        let (first, _) = recent.first()?;
        // Two notes of one session are one pain.
        let places: Vec<_> = recent.iter().map(|(_, pain)| scene.place(pain.page, pain.line)).collect();
        let (site, times, days) = (&pain.site, places.len(), apart(first));
        let within = if days == 0 { "on one day".to_owned() } else { format!("in {}", count(days, "day")) };
        (!std::ptr::eq(*first, *last)).then(|| Found {
            date: last.date,
            about: Some(site.to_string()),
            figure: days as f64,
            message: format!("{site}: pain noted {times} times {within}; see a professional about it"),
            places,
        })
    })
    .next()
}
