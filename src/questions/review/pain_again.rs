//! `pain-again`: pain noted again on one site within a short time.

use super::scene::Scene;
use super::{Caution, Found};
use crate::training::{Pain, Session, fold};

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    // 0 of 10 says that it is gone.
    let pains = |session: &'_ Session| session.pains.iter().filter(|pain| pain.tenths > 0).count() > 0;
    let mut sites: Vec<(String, Vec<(&Session, &Pain)>)> = Vec::new();
    for session in scene.history.sessions().iter().filter(|session| pains(session)) {
        for pain in session.pains.iter().filter(|pain| pain.tenths > 0) {
            let site = fold(&pain.site);
            match sites.iter_mut().find(|(known, _)| *known == site) {
                Some((_, notes)) => notes.push((session, pain)),
                None => sites.push((site, vec![(session, pain)])),
            }
        }
    }
    sites.iter().filter_map(|(_, notes)| of_site(scene, notes)).collect()
}

/// The last time in the block that a site hurt again within the time.
fn of_site(scene: &Scene<'_, '_>, notes: &[(&Session, &Pain)]) -> Option<Caution> {
    let within = i64::from(scene.thresholds().pain_again);
    let here = notes.iter().rev().filter(|(session, _)| session.block == Some(scene.id));
    here.filter_map(|(last, pain)| {
        let apart = |session: &Session| (last.date - session.date).num_days();
        let recent: Vec<_> = notes.iter().filter(|(session, _)| (0..=within).contains(&apart(session))).collect();
        let (first, _) = recent.first()?;
        // Two notes of one session are one pain.
        let places: Vec<_> = recent.iter().map(|(session, pain)| scene.place(session, pain.line)).collect();
        (!std::ptr::eq(*first, *last)).then(|| Caution {
            date: last.date,
            found: Found::PainAgain { site: pain.site.to_string(), times: places.len(), days: apart(first) },
            places,
        })
    })
    .next()
}
