//! What is said of the thing under the cursor, in the words of the commands.

use super::keys;
use super::under::{Thing, Under, under};
use crate::editor::scene::Scene;
use crate::editor::values::Said;
use crate::meaning::typed_load;
use crate::present::doc::{Lead, link, linked, markdown};
use crate::present::view::{self, beside};
use crate::present::wording;
use crate::questions::{best, estimate, plates, recall, session};
use crate::training::{Group, LiftId, Work};

/// What is said of what stands at a place, with links to what it rests on.
pub(crate) fn hover(scene: &Scene<'_>, offset: usize, lead: Lead<'_>) -> Option<Said> {
    let under = under(&scene.page, offset)?;
    let markdown = match under.thing {
        Thing::Lift(name) => lift(scene, name, under, lead),
        Thing::Load(text) => load(scene, text, group_of(scene, under), under.line),
        Thing::Count(_) | Thing::Attribute(_) | Thing::AsPlanned(_) => read_as(scene, under),
        Thing::Date(_, date) => {
            let ask = session::Ask { date: Some(date), ..session::Ask::default() };
            session::day(&scene.history(), &ask).ok().map(|answer| beside::day(&answer))
        }
        Thing::Key(key) => keys::of_page(key).map(str::to_owned),
        Thing::Day(_) | Thing::Block(_) => None,
    }?;
    Some(Said { span: under.span, markdown })
}

/// A lift: the estimated maximum, the best at the rep count of the line, what `recall` says.
fn lift(scene: &Scene<'_>, name: &str, under: Under<'_>, lead: Lead<'_>) -> Option<String> {
    let history = scene.history();
    let lift = history.find_lift(name).ok()?;
    let mut said: Vec<String> = beside::maximum(&estimated(scene, lift)).into_iter().collect();
    let reps = work(scene, under.line).and_then(|work| work.groups.first()?.sets().next()?.amount.reps());
    if let Some(reps) = reps {
        let found = best::standing(&history, lift, best::Bound::Reps(reps), 1);
        said.extend(found.map(|mark| {
            let words = wording::mark(&mark);
            let (reps, place) = (wording::count(reps, "rep"), link(&mark.place, lead));
            format!("best of {reps}: {words}, {} ({place})", wording::date(mark.date))
        }));
    }
    // The longest comes last: many editors show the first lines only.
    said.push(linked(&view::recall::show(&recall::answer(&history, lift)), lead));
    Some(said.join("\n\n"))
}

/// A load that could be written on a line, from 1: what is said of it once it is.
pub(crate) fn load_to_be(scene: &Scene<'_>, text: &str, line: u32) -> Option<String> {
    load(scene, text, None, line)
}

/// A load, as its group has it where it is written: in both units, the plates a side, its share of the estimated maximum.
fn load(scene: &Scene<'_>, text: &str, group: Option<&Group>, line: u32) -> Option<String> {
    let session = scene.session_at(line);
    let own = session.and_then(|session| session.own_mass());
    let typed = typed_load(text, scene.lifter).ok();
    let load = group.map(|group| group.load.clone()).or_else(|| typed.as_ref().map(|typed| typed.load.clone()))?;
    let mass = load.kilograms(own);
    let mut said: Vec<String> = beside::both_units(&load, mass).into_iter().collect();
    let gear = scene.log().gear_at(session.and_then(|session| session.gym));
    let bar = typed.as_ref().and_then(|typed| typed.bar).or_else(|| gear.bar("bar"));
    if let Some(bar) = bar.filter(|_| load.added().is_none() && load.pieces().is_none()) {
        let ask = plates::Ask { load: load.clone(), bar, gear, units: scene.lifter.units, from: None };
        said.extend(plates::answer(&ask).ok().map(|answer| markdown(&view::plates::show(&answer))));
    }
    let lift = owner(scene, line).map(|work| work.lift);
    said.extend(mass.zip(lift).and_then(|(mass, lift)| beside::share(mass, &estimated(scene, lift))));
    (!said.is_empty()).then(|| said.join("\n\n"))
}

/// What a group of sets, or `as planned`, was read as.
fn read_as(scene: &Scene<'_>, under: Under<'_>) -> Option<String> {
    let work = owner(scene, under.line)?;
    let of_line = |group: &&Group| group.line == under.line || matches!(under.thing, Thing::AsPlanned(_));
    let sets = work.groups.iter().filter(of_line).map(|group| {
        let first = group.sets().next();
        let amount = first.map(|set| set.amount)?;
        let effort = group.sets().filter_map(|set| set.effort).max();
        Some(wording::work(group.count() as u32, amount, group.per_side, &group.load, effort))
    });
    let sets: Vec<String> = sets.flatten().collect();
    (!sets.is_empty()).then(|| format!("read as {}", sets.join(", ")))
}

fn estimated(scene: &Scene<'_>, lift: LiftId) -> estimate::Brief {
    estimate::brief(&scene.history(), lift)
}

/// The work that begins on a line.
fn work<'s>(scene: &Scene<'s>, line: u32) -> Option<&'s Work> {
    scene.work_at(line).map(|(_, work)| work)
}

/// The work that a line belongs to.
fn owner<'s>(scene: &Scene<'s>, line: u32) -> Option<&'s Work> {
    let session = scene.session_at(line)?;
    session.works.iter().filter(|work| work.page == scene.id && work.line <= line).max_by_key(|work| work.line)
}

/// The group that a thing stands in: of those of its line, as many as stand before it.
fn group_of<'s>(scene: &Scene<'s>, under: Under<'_>) -> Option<&'s Group> {
    let line = scene.span_of(under.line);
    let before = super::under::everything(&scene.page)
        .filter(|one| one.line == under.line && line.start <= one.span.start && one.span.start < under.span.start);
    let nth = before.filter(|one| matches!(one.thing, Thing::Count(_))).count().checked_sub(1)?;
    owner(scene, under.line)?.groups.iter().filter(|group| group.line == under.line).nth(nth)
}
