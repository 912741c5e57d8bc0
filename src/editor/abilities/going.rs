//! Going about: from a lift to its last mark, from `as planned` to the plan, from a bar to the settings; all marks of a lift;
//! the lifts of a journal.

use super::under::{Thing, Under, everything, under};
use crate::editor::scene::Scene;
use crate::editor::values::{At, LiftSymbol};
use crate::history::{Done, Marked};
use crate::journal::{Files, LIFTER_FILE, SETTINGS_FILE};
use crate::present::wording;
use crate::source::{Page, Place};
use crate::training::{LiftId, fold};
use std::collections::BTreeSet;

/// Where what stands at a place comes from.
pub(crate) fn definition(scene: &Scene<'_>, offset: usize) -> Option<Place> {
    let Under { thing, line, .. } = under(&scene.page, offset)?;
    let log = scene.log();
    match thing {
        Thing::Lift(name) => {
            let here = log.place(scene.id, line);
            let session = scene.session_at(line);
            let lift = scene.history().find_lift(name).ok()?;
            let (_, place) = last_mark(scene, lift, |done| {
                let before = session.is_none_or(|now| {
                    (done.session.date, done.session.minute) <= (now.date, now.minute)
                        && !std::ptr::eq(done.session, now)
                });
                before && log.place(done.work.page, done.work.line) != here
            })?;
            Some(place)
        }
        Thing::AsPlanned(_) => {
            let (_, work) = scene.work_at(line)?;
            Some(log.place(work.page, work.plan()?.line))
        }
        Thing::Block(name) => {
            let block = log.block(scene.history().find_block(name).ok()?)?;
            Some(log.place(block.page, block.line))
        }
        Thing::Load(text) => in_settings(scene, text),
        _ => None,
    }
}

/// The last mark of a lift among the lines that count, with its place.
fn last_mark(scene: &Scene<'_>, lift: LiftId, counts: impl Fn(&Done<'_>) -> bool) -> Option<(String, Place)> {
    let history = scene.history();
    let works: Vec<Done<'_>> = history.works_of(lift).collect();
    let last = works.into_iter().rev().filter(|done| done.work.has_work()).find(|done| counts(done))?;
    let mark = Marked::of(last, |set| set.is_work()).into_iter().next()?.shown(&history, |set| set.is_work());
    let words = wording::mark(&mark);
    Some((format!("{words}, {}", mark.date), mark.place))
}

/// The line of the settings that a bar, or a colour, of a load stands in: the lifter's own before the journal's.
fn in_settings(scene: &Scene<'_>, load: &str) -> Option<Place> {
    let folded = fold(load);
    let gear = scene.lifter.gear.names().into_iter().filter(|name| folded.contains(&fold(name)));
    let name = gear.max_by_key(|name| name.len())?;
    let folder = &scene.lifter.folder;
    let own = if folder.is_empty() { LIFTER_FILE.to_owned() } else { format!("{folder}/{LIFTER_FILE}") };
    [own, SETTINGS_FILE.to_owned()].into_iter().find_map(|path| {
        let page = Page::new(path.as_str(), scene.files.read(&path).ok()?).ok()?;
        let says = |line: &str| line.split('#').next().is_some_and(|line| line.contains(name));
        let line = page.text().lines().position(says)? as u32 + 1;
        Some(Place { page: path.into(), line })
    })
}

/// Every line on which the lift at a place is named, page by page.
pub(crate) fn references(scene: &Scene<'_>, offset: usize) -> Vec<At> {
    let Some(lift) = lift_under(scene, offset) else { return Vec::new() };
    let named = |session: &&crate::training::Session| session.works.iter().any(|work| work.lift == lift);
    let pages: BTreeSet<&str> =
        scene.log().sessions.iter().filter(named).map(|session| scene.log().page_path(session.page)).collect();
    let mut all = Vec::new();
    for path in pages {
        if let Some(page) = scene.files.read(path).ok().and_then(|bytes| Page::new(path, bytes).ok()) {
            all.extend(of_page(scene, &page, lift));
        }
    }
    all
}

/// The same on the page itself.
pub(crate) fn highlight(scene: &Scene<'_>, offset: usize) -> Vec<At> {
    lift_under(scene, offset).map_or_else(Vec::new, |lift| of_page(scene, &scene.page, lift).collect())
}

fn of_page<'s>(scene: &'s Scene<'_>, page: &'s Page, lift: LiftId) -> impl Iterator<Item = At> + use<'s> {
    let history = scene.history();
    let is_it = move |under: &Under<'_>| match under.thing {
        Thing::Lift(name) => history.find_lift(name).is_ok_and(|found| found == lift),
        _ => false,
    };
    everything(page).filter(is_it).map(|under| At { path: page.path().to_owned(), span: under.span })
}

fn lift_under(scene: &Scene<'_>, offset: usize) -> Option<LiftId> {
    match under(&scene.page, offset)?.thing {
        Thing::Lift(name) => scene.history().find_lift(name).ok(),
        _ => None,
    }
}

/// So many lifts are named: an editor asks again with more letters.
const MOST: usize = 100;

/// The lifts whose names hold what is typed, each with its last mark.
pub(crate) fn lifts(scene: &Scene<'_>, typed: &str) -> Vec<LiftSymbol> {
    let wanted = fold(typed);
    let found = scene.log().lifts.iter().zip(0..).filter(|(lift, _)| fold(&lift.name).contains(&wanted));
    let with_mark = found.filter_map(|(lift, id)| {
        let (last, place) = last_mark(scene, LiftId(id), |_| true)?;
        Some(LiftSymbol { name: lift.name.clone(), last, place })
    });
    with_mark.take(MOST).collect()
}
