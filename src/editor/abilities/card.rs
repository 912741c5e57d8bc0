//! The card of the session at a place, as Markdown.

use crate::editor::scene::Scene;
use crate::present::doc::markdown;
use crate::present::view;
use crate::questions::session::{Ask, answer};

/// What `session` says of the session at a place; nothing where there is none.
pub(crate) fn card(scene: &Scene<'_>, offset: usize) -> Option<String> {
    let session = scene.session_at(scene.line_of(offset))?;
    let ask = Ask { date: Some(session.date), day: session.day.as_deref().map(str::to_owned), ..Ask::default() };
    let answer = answer(&scene.history(), &ask).ok()?;
    Some(markdown(&view::session::show(&answer, true)))
}
