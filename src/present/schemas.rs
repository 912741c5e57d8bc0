//! The schema of every answer, made from its types: `docs/schema/` is a copy that a test keeps.

use super::envelope::schema;
use crate::questions as q;

/// The JSON Schema of each answer, by the name of its command.
pub fn schemas() -> Vec<(&'static str, String)> {
    vec![
        ("adherence", schema::<q::adherence::Answer>("adherence")),
        ("best", schema::<q::best::Answer>("best")),
        ("changes", schema::<q::changes::Answer>("changes")),
        ("check", schema::<super::problem::Answer>("check")),
        ("draft", schema::<super::drafted::Spelled<'_>>("draft")),
        ("estimate", schema::<q::estimate::Answer>("estimate")),
        ("export", schema::<super::rows::export::Answer>("export")),
        ("facts", schema::<q::facts::Answer>("facts")),
        ("flatten", schema::<super::rows::flat::Answer<'_>>("flatten")),
        ("history", schema::<q::history::Answer>("history")),
        ("import", schema::<super::import::Outcome>("import")),
        ("import-notes", schema::<super::notes::Outcome<'_>>("import-notes")),
        ("lifts", schema::<q::lifts::Answer>("lifts")),
        ("match", schema::<q::weeks_over::Answer>("match")),
        ("meet", schema::<q::meet::Answer>("meet")),
        ("plates", schema::<q::plates::Answer>("plates")),
        ("recall", schema::<q::recall::Answer>("recall")),
        ("room", schema::<q::room::Answer>("room")),
        ("review", schema::<q::review::Said>("review")),
        ("roster", schema::<q::roster::Answer>("roster")),
        ("session", schema::<q::session::Answer>("session")),
        ("shift", schema::<super::tidied::Answer>("shift")),
        ("since", schema::<q::since::Answer>("since")),
        ("taper", schema::<q::taper::Answer>("taper")),
        ("tidy", schema::<super::tidied::Answer>("tidy")),
        ("volume", schema::<q::volume::Answer>("volume")),
    ]
}
