//! Above a session how many of its lines are to come, and what `review` cautions of there.

use crate::editor::scene::Scene;
use crate::editor::values::Lens;
use crate::present::wording;
use crate::questions::review;
use crate::training::Status;

/// A line above each session that has something to say.
pub(crate) fn lenses(scene: &Scene<'_>) -> Vec<Lens> {
    let cautions = review::answer(&scene.history(), &review::Ask { block: None }).cautions;
    let mut lenses = Vec::new();
    for session in scene.log().sessions.iter().filter(|session| session.page == scene.id) {
        let to_come = session.works.iter().filter(|work| work.status == Status::Nothing).count();
        let mut said = Vec::new();
        if session.date >= scene.today && to_come > 0 {
            said.push(format!("{} to come", wording::count(to_come as u64, "line")));
        }
        let lines = session.works.iter().map(|work| work.line).chain([session.line]);
        let (first, last) = (session.line, lines.max().unwrap_or(session.line));
        let here = cautions.iter().filter(|caution| {
            caution.places.iter().any(|place| *place.page == *scene.page.path() && (first..=last).contains(&place.line))
        });
        said.extend(here.map(|caution| caution.message.clone()));
        if !said.is_empty() {
            lenses.push(Lens { span: scene.span_of(session.line), title: said.join("; ") });
        }
    }
    lenses
}
