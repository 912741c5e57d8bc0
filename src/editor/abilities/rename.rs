//! Another name for a lift, a day's label or a block, over all pages and settings. Where two would become one, it is refused.

use super::under::{Thing, Under, everything, under};
use crate::editor::scene::Scene;
use crate::editor::values::Edits;
use crate::journal::{Files, LIFTER_FILE, LiftName, Lifter, SETTINGS_FILE, lift_added, lift_names, lift_written};
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
    // Of a lift of the settings each spelling keeps its meaning; one of the built-in book loses them all with its name.
    let is_it = |written: &str| match (entry, own) {
        (Some(entry), None) => book.find(written).is_some_and(|other| other.name == entry.name),
        _ => fold(written) == fold(name),
    };
    let (mut edits, mut whose) = (Edits::new(), vec![scene.lifter]);
    // Another name that the book has for it is only another spelling.
    if entry.is_none_or(|entry| book.find(to).is_none_or(|other| other.name != entry.name)) {
        let shared = own.map_or(Ok(false), |_| is_shared(scene, name))?;
        if let Some(entry) = own.filter(|_| shared) {
            whose = sharing(scene, name, entry, to)?;
        }
        edits = in_settings(scene, &whose, shared, &is_it, to)?;
        if let (Some(entry), None) = (entry, own) {
            let (path, edit) = added(scene, entry, to)?;
            match edits.iter_mut().find(|(known, _)| *known == path) {
                Some((_, edits)) => edits.push(edit),
                None => edits.push((path, vec![edit])),
            }
        }
    }
    for lifter in whose {
        let is_it = |under: &Under<'_>| matches!(under.thing, Thing::Lift(written) if is_it(written));
        edits.extend(on_pages(scene, lifter, is_it, to));
    }
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

/// The settings of a lifter alone.
fn own_file(lifter: &Lifter) -> String {
    if lifter.folder.is_empty() { LIFTER_FILE.to_owned() } else { format!("{}/{LIFTER_FILE}", lifter.folder) }
}

fn names_in(scene: &Scene<'_>, path: &str) -> Vec<LiftName> {
    scene.files.read(path).map(|bytes| lift_names(&bytes)).unwrap_or_default()
}

/// Whether settings say what lift a name is.
fn defines(names: &[LiftName], name: &str) -> bool {
    names.iter().any(|one| one.defines && fold(&one.name) == fold(name))
}

/// Whether a lift of the settings is every lifter's: the lifter's own come before the journal's.
fn is_shared(scene: &Scene<'_>, name: &str) -> Result<bool, String> {
    let of_journal = !defines(&names_in(scene, &own_file(scene.lifter)), name);
    if of_journal && !defines(&names_in(scene, SETTINGS_FILE), name) {
        return Err(format!("`{name}` was not found under `lifts:` of the settings, so its pages are left alone"));
    }
    Ok(of_journal)
}

/// The lifters for whom a name is the journal's lift, none of whom has another lift of the new name.
fn sharing<'s>(scene: &Scene<'s>, name: &str, entry: &BookEntry, to: &str) -> Result<Vec<&'s Lifter>, String> {
    let has_it = |lifter: &&Lifter| !defines(&names_in(scene, &own_file(lifter)), name);
    let sharing: Vec<&Lifter> = scene.journal.lifters.iter().filter(has_it).collect();
    for lifter in sharing.iter().filter(|lifter| lifter.folder != scene.lifter.folder) {
        let who = lifter.name.as_deref().unwrap_or("another lifter");
        if let Some(other) = lifter.book.find(to).filter(|other| other.name != entry.name) {
            return Err(format!("{to} is {} already for {who}; the two would become one lift", other.name));
        }
        let is_there = |under: &Under<'_>| matches!(under.thing, Thing::Lift(written) if fold(written) == fold(to));
        if fold(name) != fold(to) && lifter.book.find(to).is_none() && !on_pages(scene, lifter, is_there, to).is_empty()
        {
            return Err(format!("{who} has a lift {to} already; the two would become one"));
        }
    }
    Ok(sharing)
}

/// The new name wherever settings have the old one.
fn in_settings(
    scene: &Scene<'_>,
    whose: &[&Lifter],
    shared: bool,
    is_it: &dyn Fn(&str) -> bool,
    to: &str,
) -> Result<Edits, String> {
    let edits_of = |path: &str| -> Vec<Edit> {
        // Where the lift is a lifter's own, another one of that name in the journal's settings is for the others.
        let ours = |one: &LiftName| is_it(&one.name) && (shared || !one.defines || path != SETTINGS_FILE);
        let names = names_in(scene, path).into_iter().filter(ours);
        names.map(|one| Edit::new(one.span, lift_written(to))).collect()
    };
    let own = whose.iter().map(|lifter| own_file(lifter));
    let files = own.chain([SETTINGS_FILE.to_owned()]).map(|path| (edits_of(&path), path));
    let edits: Edits = files.filter(|(edits, _)| !edits.is_empty()).map(|(edits, path)| (path, edits)).collect();
    if !shared && scene.journal.lifters.len() > 1 && edits.iter().any(|(path, _)| path == SETTINGS_FILE) {
        return Err(format!(
            "{SETTINGS_FILE} names this lift for all lifters, and only {} pages would be changed; write it in {} first",
            scene.lifter.name.as_ref().map_or_else(|| "this lifter's".to_owned(), |name| format!("{name}'s")),
            own_file(scene.lifter)
        ));
    }
    Ok(edits)
}

/// A lift of the built-in book, written into the settings under its new name with its family: into the lifter's own where
/// there are others.
fn added(scene: &Scene<'_>, entry: &BookEntry, to: &str) -> Result<(String, Edit), String> {
    let own = own_file(scene.lifter);
    let is_alone = scene.journal.lifters.len() < 2 || scene.files.read(&own).is_err();
    let path = if is_alone { SETTINGS_FILE.to_owned() } else { own };
    if entry.bodyweight || entry.one_side || entry.bar || entry.held || entry.carried {
        return Err(format!(
            "the built-in book knows more of {} than its family; add {to} under `lifts:` in {path} first",
            entry.name
        ));
    }
    let bytes = scene.files.read(&path).map_err(|error| error.to_string())?;
    let no_room = || format!("{to} could not be added to `lifts:` in {path}; write it there first");
    lift_added(&bytes, to, entry.family).ok_or_else(no_room).map(|edit| (path.clone(), edit))
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
    Ok(on_pages(scene, scene.lifter, |under| matches!(under.thing, Thing::Day(day) if fold(day) == fold(label)), bare))
}

fn block(scene: &Scene<'_>, name: &str, to: &str) -> Result<Edits, String> {
    let bare = to.strip_prefix("Block ").or(to.strip_prefix("block ")).unwrap_or(to);
    if fold(bare) != fold(name) && scene.log().blocks.iter().any(|block| fold(&block.name) == fold(bare)) {
        return Err(format!("there is a block {bare} already; the two would become one"));
    }
    if bare.contains(',') {
        return Err(format!("`{bare}` cannot be the name of a block: a comma ends it in a session's heading"));
    }
    Ok(on_pages(
        scene,
        scene.lifter,
        |under| matches!(under.thing, Thing::Block(block) if fold(block) == fold(name)),
        bare,
    ))
}

/// The name in the place of each thing that is it, over all of a lifter's pages.
fn on_pages(scene: &Scene<'_>, lifter: &Lifter, is_it: impl Fn(&Under<'_>) -> bool, to: &str) -> Edits {
    let mut edits = Edits::new();
    for path in scene.journal.pages_of(lifter) {
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
