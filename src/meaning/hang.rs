//! Loads put into plans that have none, and not a byte else.

use crate::journal::Files;
use crate::notation::nodes::{DetailKey, LineKind};
use crate::notation::read;
use crate::source::{Edit, Page, Revision, Span};

/// The loads of a page's plan, by its line from 1: one for each of its groups.
pub type OfPlan<'m> = dyn Fn(&str, u32) -> Option<Vec<String>> + 'm;

/// The pages that change. Pages that cannot be read stay.
pub fn hang(files: &dyn Files, paths: &[String], loads: &OfPlan<'_>) -> Vec<Revision> {
    let pages = paths.iter().filter_map(|path| Page::new(path.as_str(), files.read(path).ok()?).ok());
    pages.filter_map(|before| Some(Revision { after: hung(&before, loads)?, before })).collect()
}

/// A page with its loads; nothing where it stays.
fn hung(page: &Page, loads: &OfPlan<'_>) -> Option<Page> {
    let mut edits: Vec<Edit> = Vec::new();
    for (line, number) in read(page).iter().zip(1..) {
        let LineKind::Detail(detail) = &line.kind else { continue };
        let is_plan = detail.key == DetailKey::Plan && detail.groups.iter().all(|group| group.load.is_none());
        let Some(loads) = is_plan.then(|| loads(page.path(), number)).flatten() else { continue };
        if loads.len() == detail.groups.len() {
            edits.extend(detail.groups.iter().zip(loads).map(|(group, load)| {
                let end = Span::of(page.text(), group.count.text).end as usize;
                Edit::new(Span::new(end, end), format!(" @ {load}"))
            }));
        }
    }
    page.edited(&edits).filter(|_| !edits.is_empty())
}

#[cfg(test)]
mod tests {
    use super::hang;
    use crate::journal::Memory;

    #[test]
    fn a_load_stands_between_the_count_and_the_effort_and_what_has_one_stays() {
        let page = "## 2026-03-05\n\n- Squat:\n  - plan: 3-4x5 RPE 7-8, 2x8 RPE 6  (slow)\n- Row:\n  - plan: 3x8 @ 60 kg\n\
                    - Dip:\n  - plan: 3x8 RPE 7\n";
        let files = Memory::default().with("page.md", page.as_bytes());
        let loads = |path: &str, line: u32| match (path, line) {
            ("page.md", 4) => Some(vec!["140 kg".to_owned(), "120 kg".to_owned()]),
            ("page.md", 6) => Some(vec!["70 kg".to_owned()]),
            _ => None,
        };
        let after: Vec<String> =
            hang(&files, &["page.md".to_owned()], &loads).iter().map(|one| one.after.text().to_owned()).collect();
        let expected = page.replace("3-4x5 RPE", "3-4x5 @ 140 kg RPE").replace("2x8 RPE 6  (", "2x8 @ 120 kg RPE 6  (");
        assert_eq!(after, [expected]);
    }
}
