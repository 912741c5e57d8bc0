//! One spelling for what is read in several: `tidy` of a page, of some lines, and of the line that was just ended.

use crate::editor::scene::Scene;
use crate::meaning::tidied;
use crate::notation::nodes::LineKind;
use crate::notation::{Reader, is_bullet};
use crate::source::{Edit, Revision, Span};

/// What tidying a page changes, in order.
pub(crate) fn formatting(scene: &Scene<'_>) -> Vec<Edit> {
    let after = tidied(scene.lifter, scene.page.clone());
    Revision { before: scene.page.clone(), after }.edits()
}

/// What tidying the lines of a place changes.
pub(crate) fn range_formatting(scene: &Scene<'_>, place: Span) -> Vec<Edit> {
    let lines = Span {
        start: scene.span_of(scene.line_of(place.start as usize)).start,
        end: scene.span_of(scene.line_of(place.end as usize)).end,
    };
    let within = |edit: &Edit| lines.start <= edit.span.start && edit.span.end <= lines.end;
    formatting(scene).into_iter().filter(within).collect()
}

/// What a new line changes: the one above it is tidied, and below a line of sets it begins as the next one.
pub(crate) fn on_new_line(scene: &Scene<'_>, offset: usize) -> Vec<Edit> {
    let line = scene.line_of(offset);
    let Some(above) = line.checked_sub(1).filter(|above| *above > 0) else { return Vec::new() };
    let mut edits = range_formatting(scene, scene.span_of(above));
    let here = scene.span_of(line);
    let is_empty = here.text(scene.page.text()).trim().is_empty();
    let written = scene.span_of(above).text(scene.page.text());
    let above = Reader::new(&scene.page).nth(above as usize - 1);
    if let Some(LineKind::SetLine(groups)) = above.map(|line| line.kind)
        && is_empty
        && !groups.is_empty()
        && is_bullet(written)
    {
        let indent: String = written.chars().take_while(|c| c.is_whitespace()).collect();
        edits.push(Edit::new(here, format!("{indent}- ")));
    }
    edits
}
