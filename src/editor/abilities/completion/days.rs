//! Dates with the label that is next, and whole sessions ready to be filled in.

use super::spot::Spot;
use crate::editor::scene::Scene;
use crate::editor::values::{Offer, OfferKind};
use crate::questions::session::{self, NoSession};
use crate::training::{fold, spelling};
use std::collections::HashSet;

/// Today with the label that is next in the rotation; and the whole session as it was held last, to be filled in.
pub(super) fn dates(scene: &Scene<'_>, spot: &Spot<'_>) -> Vec<Offer> {
    let day = format!("{} {}", scene.today, scene.today.format("%a"));
    let Err(NoSession::Ahead { next: Some(next), .. }) = session::day(&scene.history(), &session::Ask::default())
    else {
        return vec![spot.offer(&day, OfferKind::Value)];
    };
    let heading = format!("{day} {}", spelling::day(&next.day));
    let lines: String = next.held.iter().map(|lift| format!("- {lift}:\n")).collect();
    let whole = format!("{heading}\n\n{}", lines.trim_end());
    let detail = Some(format!("next after {}", next.date));
    vec![
        Offer { detail: detail.clone(), ..spot.offer(&heading, OfferKind::Value) },
        Offer {
            label: format!("{heading}, with its lifts"),
            detail,
            found_by: Some(day),
            ..spot.offer(&whole, OfferKind::Lines)
        },
    ]
}

/// The labels of the journal, the latest first.
pub(super) fn labels(scene: &Scene<'_>, spot: &Spot<'_>) -> Vec<Offer> {
    let mut known: HashSet<String> = HashSet::new();
    let labels = scene.log().sessions.iter().rev().filter_map(|session| session.day.as_deref());
    let labels: Vec<&str> = labels.filter(|label| known.insert(fold(label))).collect();
    labels.iter().map(|label| spot.offer(&spelling::day(label), OfferKind::Value)).collect()
}
