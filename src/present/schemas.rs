//! The schema of every answer, made from its types: `docs/schema/` is a copy that a test keeps.

use super::envelope::schema;
use crate::questions as q;

/// The JSON Schema of each answer, by the name of its command.
pub fn schemas() -> Vec<(&'static str, String)> {
    vec![
        ("best", schema::<q::best::Answer>("best")),
        ("estimate", schema::<q::estimate::Answer>("estimate")),
        ("history", schema::<q::history::Answer>("history")),
        ("lifts", schema::<q::lifts::Answer>("lifts")),
        ("match", schema::<q::r#match::Answer>("match")),
        ("meet", schema::<q::meet::Answer>("meet")),
        ("plates", schema::<q::plates::Answer>("plates")),
        ("recall", schema::<q::recall::Answer>("recall")),
        ("room", schema::<q::room::Answer>("room")),
        ("since", schema::<q::since::Answer>("since")),
        ("volume", schema::<q::volume::Answer>("volume")),
    ]
}
