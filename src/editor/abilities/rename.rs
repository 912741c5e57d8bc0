//! Another name for a lift, a day's label or a block, over all pages and settings. Where two would become one, it is refused.

use super::under::{Thing, Under, everything, under};
use crate::editor::scene::Scene;
use crate::editor::values::Edits;
use crate::journal::{Files, LIFTER_FILE, SETTINGS_FILE, lift_added};
use crate::notation::Reader;
use crate::notation::nodes::LineKind;
use crate::source::{Edit, Page, Span};
use crate::training::{BookEntry, fold};

/// What can be renamed at a place: where its name stands.
pub(crate) fn renamable(scene: &Scene<'_>, offset: usize) -> Option<Span> {
    let under = under(&scene.page, offset)?;
    matches!(under.thing, Thing::Lift(_) | Thing::Day(_) | Thing::Block(_)).then_some(under.span)
}

/// The edits that give what stands at a place another name.
///
/// # Errors
/// Why it cannot have that name, in words.
pub(crate) fn rename(scene: &Scene<'_>, offset: usize, to: &str) -> Result<Edits, String> {
    let nothing = || "there is no lift, label or block here to rename".to_owned();
    let under = under(&scene.page, offset).ok_or_else(nothing)?;
    let to = to.split_whitespace().collect::<Vec<_>>().join(" ");
    if to.is_empty() {
        return Err("a name is missing".into());
    }
    match under.thing {
        Thing::Lift(name) => lift(scene, name, &to),
        Thing::Day(label) => day(scene, label, &to),
        Thing::Block(name) => block(scene, name, &to),
        _ => Err(nothing()),
    }
}

fn lift(scene: &Scene<'_>, name: &str, to: &str) -> Result<Edits, String> {
    let book = &scene.lifter.book;
    let entry = book.find(name);
    let taken = |other: &BookEntry| entry.is_none_or(|entry| entry.name != other.name);
    if let Some(other) = book.find(to).filter(|other| taken(other)) {
        return Err(format!("{to} is {} already; the two would become one lift", other.name));
    }
    let same = entry.is_none() && fold(name) == fold(to);
    if !same && entry.is_none() && scene.log().lifts.iter().any(|lift| fold(&lift.name) == fold(to)) {
        return Err(format!("the journal has a lift {to} already; the two would become one"));
    }
    if !is_a_lift(to) {
        return Err(format!("`{to}` cannot be the name of a lift: `- {to}: 3x5` would not be read as work on it"));
    }
    let own = entry.filter(|entry| !book.is_built_in(&fold(&entry.name)));
    let mut edits = Edits::new();
    match (entry, own) {
        // Another name that the book has for it is only another spelling.
        (Some(entry), _) if book.find(to).is_some_and(|other| other.name == entry.name) => {}
        (Some(entry), None) => edits.push((SETTINGS_FILE.to_owned(), vec![added(scene, entry, to)?])),
        (Some(entry), Some(_)) => {
            let written = if fold(&entry.name) == fold(name) { &entry.name } else { name };
            edits.extend(in_settings(scene, written, to).ok_or_else(|| {
                format!("`{written}` was not found under `lifts:` of the settings, so its pages are left alone")
            })?);
        }
        (None, _) => {}
    }
    // Of a lift of the settings each spelling keeps its meaning; one of the built-in book loses them all with its name.
    let is_it = |written: &str| match (entry, own) {
        (Some(entry), None) => book.find(written).is_some_and(|other| other.name == entry.name),
        _ => fold(written) == fold(name),
    };
    edits.extend(on_pages(scene, |under| matches!(under.thing, Thing::Lift(written) if is_it(written)), to));
    Ok(edits)
}

/// Whether a line with that name is work on a lift of that name.
fn is_a_lift(name: &str) -> bool {
    let Ok(page) = Page::new("", format!("## 2026-01-01\n\n- {name}: 3x5 @ 100 kg\n").into_bytes()) else {
        return false;
    };
    let last = Reader::new(&page).last().map(|line| line.kind);
    matches!(last, Some(LineKind::Work(work)) if work.name == name && !work.lost)
}

/// A lift of the built-in book, written into the settings under its new name with its family.
fn added(scene: &Scene<'_>, entry: &BookEntry, to: &str) -> Result<Edit, String> {
    if entry.bodyweight || entry.one_side || entry.bar || entry.held || entry.carried {
        return Err(format!(
            "the built-in book knows more of {} than its family; add {to} under `lifts:` in {SETTINGS_FILE} first",
            entry.name
        ));
    }
    let bytes = scene.files.read(SETTINGS_FILE).map_err(|error| error.to_string())?;
    let no_room = || format!("{to} could not be added to `lifts:` in {SETTINGS_FILE}; write it there first");
    lift_added(&bytes, to, entry.family).ok_or_else(no_room)
}

/// The name where the settings have it: the lifter's own before the journal's.
fn in_settings(scene: &Scene<'_>, name: &str, to: &str) -> Option<Edits> {
    let folder = &scene.lifter.folder;
    let own = if folder.is_empty() { LIFTER_FILE.to_owned() } else { format!("{folder}/{LIFTER_FILE}") };
    [own, SETTINGS_FILE.to_owned()].into_iter().find_map(|path| {
        let page = Page::new(path.as_str(), scene.files.read(&path).ok()?).ok()?;
        let text = page.text();
        let begins = text.find("lifts:")?;
        let mut found = text.match_indices(name).map(|(at, _)| at).filter(|at| *at > begins);
        let whole = |at: &usize| {
            let before = text.get(..*at).and_then(|before| before.chars().next_back());
            let after = text.get(at + name.len()..).and_then(|after| after.chars().next());
            [before, after].iter().flatten().all(|c| !c.is_alphanumeric()) && after != Some('-')
        };
        let at = found.find(whole)?;
        Some(vec![(path, vec![Edit::new(Span::new(at, at + name.len()), to)])])
    })
}

fn day(scene: &Scene<'_>, label: &str, to: &str) -> Result<Edits, String> {
    let bare = to.strip_prefix("day ").or(to.strip_suffix(" day")).unwrap_or(to);
    let has = |name: &str| {
        scene.log().sessions.iter().filter_map(|session| session.day.as_deref()).any(|day| fold(day) == fold(name))
    };
    if fold(bare) != fold(label) && has(bare) {
        return Err(format!("there is a {bare} day already; the two would become one"));
    }
    let is_word = bare.chars().all(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '\''));
    if !is_word {
        return Err(format!("`{bare}` cannot be the label of a day: letters, digits and blanks make one"));
    }
    Ok(on_pages(scene, |under| matches!(under.thing, Thing::Day(day) if fold(day) == fold(label)), bare))
}

fn block(scene: &Scene<'_>, name: &str, to: &str) -> Result<Edits, String> {
    let bare = to.strip_prefix("Block ").or(to.strip_prefix("block ")).unwrap_or(to);
    if fold(bare) != fold(name) && scene.log().blocks.iter().any(|block| fold(&block.name) == fold(bare)) {
        return Err(format!("there is a block {bare} already; the two would become one"));
    }
    if bare.contains(',') {
        return Err(format!("`{bare}` cannot be the name of a block: a comma ends it in a session's heading"));
    }
    Ok(on_pages(scene, |under| matches!(under.thing, Thing::Block(block) if fold(block) == fold(name)), bare))
}

/// The name in the place of each thing that is it, over all of the lifter's pages.
fn on_pages(scene: &Scene<'_>, is_it: impl Fn(&Under<'_>) -> bool, to: &str) -> Edits {
    let mut edits = Edits::new();
    for path in scene.journal.pages_of(scene.lifter) {
        let Some(page) = scene.files.read(&path).ok().and_then(|bytes| Page::new(path.as_str(), bytes).ok()) else {
            continue;
        };
        let of_page: Vec<Edit> = everything(&page).filter(&is_it).map(|under| Edit::new(under.span, to)).collect();
        if !of_page.is_empty() {
            edits.push((path, of_page));
        }
    }
    edits
}
