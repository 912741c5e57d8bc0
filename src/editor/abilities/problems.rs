//! The problems of a page: those of `check`.

use crate::editor::scene::Scene;
use crate::editor::values::Found;
use crate::problems::{Problem, ProblemKind as K, SHOWN};
use crate::source::Place;

/// What is wrong with a page as a file, and with what it says.
pub(crate) fn problems<'p>(of_file: impl Iterator<Item = &'p Problem>, scene: Option<&Scene<'p>>) -> Vec<Found> {
    let of_page = scene.into_iter().flat_map(|scene| scene.problems().take(SHOWN));
    of_file
        .take(SHOWN)
        .chain(of_page)
        .map(|problem| Found { problem: problem.clone(), elsewhere: elsewhere(&problem.kind) })
        .collect()
}

/// The other place that a problem is about.
fn elsewhere(kind: &K) -> Option<Place> {
    let (K::SessionTwice { first, .. } | K::BlockTwice { first, .. }) = kind else { return None };
    let (page, line) = first.rsplit_once(':').unwrap_or((first, "1"));
    Some(Place { page: page.into(), line: line.parse().ok()? })
}
