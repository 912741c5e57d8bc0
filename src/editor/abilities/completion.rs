//! What can be written at a place: told by what the grammar would read there, filled from the journal.
//!
//! - `spot.rs`: the place, what is typed of a word there, and what it makes of an offer
//! - `lifts.rs`, `sets.rs`, `days.rs`: lifts; counts, loads, efforts and faults; dates and whole sessions
//! - `settings.rs`: keys of settings files

mod days;
mod lifts;
mod sets;
pub(crate) mod settings;
mod spot;

use crate::editor::scene::Scene;
use crate::editor::values::{Offer, OfferKind};
use crate::notation::nodes::Keyword;
use crate::notation::{Expected as E, expected_at, words_of};
use crate::training::Unit;
use spot::Spot;

/// So many items are given at once: an editor asks again with more letters.
const MOST: usize = 100;

/// What can be written, the likeliest first, and whether there is more.
pub(crate) fn completion(scene: &Scene<'_>, offset: usize) -> (Vec<Offer>, bool) {
    let spot = Spot::of(scene, offset);
    let expected = expected_at(&scene.page, offset);
    let mut offers = Vec::new();
    for one in expected.iter() {
        match one {
            E::Date => offers.extend(days::dates(scene, &spot)),
            E::Label => offers.extend(days::labels(scene, &spot)),
            E::Lift if spot.has_bullet => offers.extend(lifts::lifts(scene, &spot)),
            E::FactKey | E::DetailKey if spot.has_bullet => offers.extend(keys(&spot, one)),
            E::BlockKey => offers.extend(keys(&spot, one)),
            E::Count => offers.extend(sets::whole(scene, &spot)),
            E::Planned => offers.extend(["as planned", "skipped"].map(|word| spot.word(word, OfferKind::Word))),
            E::Load => offers.extend(sets::loads(scene, &spot)),
            E::At => offers.push(spot.word("@ ", OfferKind::Word)),
            E::Effort | E::Attribute => offers.extend(keywords(&spot, one == E::Effort)),
            E::Rating => offers.extend(sets::ratings(scene, &spot)),
            E::FaultWord | E::Fault => offers.extend(sets::faults(scene, &spot)),
            E::Unit => offers.extend(Unit::ALL.map(|unit| spot.word(unit.word(), OfferKind::Word))),
            E::Side => offers.push(spot.word("/side", OfferKind::Word)),
            _ => {}
        }
    }
    let mut seen: Vec<String> = Vec::new();
    offers.retain(|offer| {
        let matches = spot.matches(offer) && !seen.contains(&offer.label);
        if matches {
            seen.push(offer.label.clone());
        }
        matches
    });
    let more = offers.len() > MOST;
    offers.truncate(MOST);
    (offers, more)
}

/// The keywords of efforts or of the other attributes, with a blank before the value of those that have one.
fn keywords(spot: &Spot<'_>, of_efforts: bool) -> impl Iterator<Item = Offer> {
    Keyword::ALL.into_iter().filter(move |keyword| keyword.is_effort() == of_efforts).map(|keyword| {
        let blank = if keyword.has_value() { " " } else { "" };
        spot.word(&format!("{keyword}{blank}"), OfferKind::Word)
    })
}

/// Keys, each with its line of the docs.
fn keys(spot: &Spot<'_>, of: E) -> Vec<Offer> {
    let offer = |key: &'static str| {
        let detail = super::keys::of_page(key).map(str::to_owned);
        let text = if spot.colon_follows { key.to_owned() } else { format!("{key}: ") };
        Offer { label: key.to_owned(), detail, ..spot.offer(&text, OfferKind::Key) }
    };
    words_of(of).into_iter().map(offer).collect()
}
