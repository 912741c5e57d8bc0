//! Counts, loads, efforts and faults: what is planned, what was done last time, what was done a block ago.

use super::spot::Spot;
use crate::editor::scene::Scene;
use crate::editor::values::{Offer, OfferKind};
use crate::history::{Mark, WeekKey};
use crate::present::view::beside;
use crate::present::wording;
use crate::questions::session::{self, LiftAhead};
use crate::questions::{history, recall, room};

/// A line of sets as a whole: the plan's, last time's, last block's.
pub(super) fn whole(scene: &Scene<'_>, spot: &Spot<'_>) -> Vec<Offer> {
    let mut offers = Vec::new();
    let mut add = |text: String, detail: String| {
        offers.push(Offer { detail: Some(detail), ..spot.offer(&text, OfferKind::Value) });
    };
    let ahead = ahead(scene, spot);
    if let Some(ahead) = &ahead {
        if let Some(plan) = &ahead.plan {
            add(plan.clone(), "as planned".into());
        }
        if let Some(beat) = &ahead.to_beat {
            add(wording::mark(&beat.mark), format!("to beat: {}", when(&beat.mark)));
        }
        if let Some(last) = &ahead.last_time {
            add(wording::mark(last), format!("last time: {}", when(last)));
        }
    }
    if ahead.is_none() {
        for mark in last(scene, spot) {
            add(wording::mark(&mark), format!("last time: {}", when(&mark)));
        }
    }
    offers
}

/// Loads: the next set's, the one to beat, last time's; bars and colours.
pub(super) fn loads(scene: &Scene<'_>, spot: &Spot<'_>) -> Vec<Offer> {
    let mut offers = Vec::new();
    let mut add = |load: Option<String>, detail: &str| {
        let offer = |load: String| Offer { detail: Some(detail.into()), ..spot.offer(&load, OfferKind::Load) };
        offers.extend(load.map(offer));
    };
    match ahead(scene, spot) {
        Some(ahead) => {
            let next = ahead.next.as_ref();
            add(next.and_then(|next| next.load.as_ref()?.load.text()), next.map_or("", |next| &next.why));
            if let Some((load, detail)) = with_room(scene, spot) {
                add(Some(load), &detail);
            }
            add(ahead.to_beat.as_ref().and_then(|beat| beat.mark.load.load.text()), "to beat");
            add(ahead.last_time.as_ref().and_then(|mark| mark.load.load.text()), "last time");
        }
        None => last(scene, spot).iter().for_each(|mark| add(mark.load.load.text(), "last time")),
    }
    let session = scene.session_at(spot.line);
    let gear = scene.log().gear_at(session.and_then(|session| session.gym));
    offers.extend(gear.names().into_iter().chain(["bw"]).map(|name| spot.offer(name, OfferKind::Word)));
    offers
}

/// Efforts: the planned ones, else all from 6 on.
pub(super) fn ratings(scene: &Scene<'_>, spot: &Spot<'_>) -> Vec<Offer> {
    let plan = spot.work(scene).and_then(|(_, work)| work.plan());
    let planned = plan.iter().flat_map(|plan| plan.groups.iter()).filter_map(|group| group.effort);
    let mut values: Vec<String> =
        planned.flat_map(|effort| [effort.low, effort.high]).map(|one| one.value().to_string()).collect();
    if values.is_empty() || spot.before.trim_end().to_lowercase().ends_with("rir") {
        let rir = spot.before.trim_end().to_lowercase().ends_with("rir");
        let halves = if rir { (0..=8).step_by(2) } else { (12..=20).step_by(1) };
        values = halves.map(|half| (f64::from(half) / 2.0).to_string()).collect();
    }
    values.iter().map(|value| spot.offer(value, OfferKind::Value)).collect()
}

/// Faults that this lift has had.
pub(super) fn faults(scene: &Scene<'_>, spot: &Spot<'_>) -> Vec<Offer> {
    let Some(lift) = spot.lift(scene) else { return Vec::new() };
    let sign = if spot.before.ends_with('!') || spot.before.rsplit(' ').next().is_some_and(|word| word.starts_with('!'))
    {
        ""
    } else {
        "!"
    };
    let seen = recall::answer(&scene.history(), lift).faults;
    let offer = |seen: &recall::FaultSeen| {
        let detail = format!("{}, last {}", wording::count(seen.times, "set"), wording::date(seen.last));
        Offer { detail: Some(detail), ..spot.offer(&format!("{sign}{}", seen.fault), OfferKind::Value) }
    };
    seen.iter().map(offer).collect()
}

/// What `session` says of the line.
fn ahead(scene: &Scene<'_>, spot: &Spot<'_>) -> Option<LiftAhead> {
    let (now, work) = spot.work(scene)?;
    let ask = session::Ask { date: Some(now.date), lift: Some(work.lift), ..session::Ask::default() };
    session::next_sets(&scene.history(), &ask).ok()?.lifts.into_iter().next()
}

/// The load that `room` has for the week of the line, as it stood the day before.
fn with_room(scene: &Scene<'_>, spot: &Spot<'_>) -> Option<(String, String)> {
    let (now, work) = spot.work(scene)?;
    let eve = scene.history().as_of(scene.today.min(now.date.pred_opt()?));
    let allowed = room::allowed(&eve, work.lift, WeekKey::of(now)?)?;
    Some((wording::mass(allowed.ahead.load, allowed.unit), beside::allowed(&allowed)))
}

/// The marks of the last day with the line's lift.
fn last(scene: &Scene<'_>, spot: &Spot<'_>) -> Vec<Mark> {
    let Some(lift) = spot.lift(scene) else { return Vec::new() };
    let ask = history::Ask { lift, since: None, until: None };
    let marks = history::answer(&scene.history(), &ask).marks;
    let date = marks.last().map(|last| last.mark.date);
    marks.into_iter().map(|one| one.mark).filter(|mark| Some(mark.date) == date).collect()
}

fn when(mark: &Mark) -> String {
    let of = wording::block_week(mark.block.as_deref(), mark.week);
    if of.is_empty() { wording::date(mark.date) } else { of }
}
