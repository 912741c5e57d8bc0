//! What mends the problems of a place: their fixes and choices, a lift added to the settings, and all fixes of a page.

use crate::editor::scene::Scene;
use crate::editor::values::Mend;
use crate::journal::{Files, SETTINGS_FILE, lift_added};
use crate::problems::{Problem, ProblemKind as K};
use crate::source::{Cut, Edit, Page, Span};
use crate::training::Family;

/// What mends the problems that touch a place.
pub(crate) fn fixes(page: &Page, problems: &[Problem], scene: Option<&Scene<'_>>, place: Span) -> Vec<Mend> {
    let touches = |span: Span| span.start <= place.end && place.start <= span.end;
    let mut mends = Vec::new();
    let mut kinds: Vec<&'static str> = Vec::new();
    for problem in problems.iter().filter(|problem| touches(problem.span)) {
        let mend = |title: String, edit: &Edit, preferred| Mend {
            title,
            problem: Some(problem.clone()),
            edits: vec![(page.path().to_owned(), vec![edit.clone()])],
            preferred,
        };
        mends.extend(problem.fix.iter().map(|fix| mend(title(fix), fix, true)));
        mends.extend(problem.choices.iter().map(|choice| {
            let said = if choice.say.is_empty() {
                title(&choice.edit)
            } else {
                format!("{}: {}", title(&choice.edit), choice.say)
            };
            mend(said, &choice.edit, false)
        }));
        mends.extend(scene.and_then(|scene| added(scene, problem)));
        let name = problem.kind.name();
        if problem.fix.is_some() && !kinds.contains(&name) {
            kinds.push(name);
        }
    }
    for kind in kinds {
        let alike: Vec<&Problem> = problems.iter().filter(|problem| problem.kind.name() == kind).collect();
        let edits = first_of_each_line(page.text(), alike.iter().copied());
        if edits.len() > 1 {
            let title = format!("Fix all {} of {kind} on this page", edits.len());
            mends.push(Mend { title, problem: None, edits: vec![(page.path().to_owned(), edits)], preferred: false });
        }
    }
    mends
}

/// All of a page's problems mended that have one fix: of each line the first, as `tidy --fix` goes about it. Where a warning
/// asks about what counts, only the lifter can tell.
pub(crate) fn fix_all(page: &Page, problems: &[Problem]) -> Option<Mend> {
    let certain = problems.iter().filter(|problem| problem.kind.leaves_out());
    let edits = first_of_each_line(page.text(), certain);
    let title = "Fix all that can be fixed on this page".to_owned();
    (!edits.is_empty()).then(|| Mend {
        title,
        problem: None,
        edits: vec![(page.path().to_owned(), edits)],
        preferred: false,
    })
}

/// Of each line the first fix.
fn first_of_each_line<'p>(text: &str, problems: impl Iterator<Item = &'p Problem>) -> Vec<Edit> {
    let mut edits: Vec<Edit> = Vec::new();
    let mut fixed_up_to = 0;
    for fix in problems.filter_map(|problem| problem.fix.as_ref()) {
        if fix.span.start < fixed_up_to {
            continue;
        }
        let rest = text.tail(fix.span.end as usize);
        fixed_up_to = fix.span.end + rest.find('\n').map_or(rest.len(), |end| end + 1) as u32;
        edits.push(fix.clone());
    }
    edits
}

/// A lift that no book knows, written into the journal's settings.
fn added(scene: &Scene<'_>, problem: &Problem) -> Option<Mend> {
    let K::UnknownLift { name, .. } = &problem.kind else { return None };
    let bytes = scene.files.read(SETTINGS_FILE).ok()?;
    let edit = lift_added(&bytes, name, Family::Other)?;
    Some(Mend {
        title: format!("Add {name} to `lifts:` in {SETTINGS_FILE}"),
        problem: Some(problem.clone()),
        edits: vec![(SETTINGS_FILE.to_owned(), vec![edit])],
        preferred: false,
    })
}

/// What an edit does, in words.
fn title(edit: &Edit) -> String {
    match edit.text.trim().lines().next() {
        None => "Delete it".into(),
        Some(line) => format!("Write `{line}`"),
    }
}
