//! What to watch on a lift: faults seen lately, what hurts, and cautions about it.

use super::answer::{Watch, WatchKind};
use crate::analysis::compare::pairing::Visit;
use crate::history::History;
use crate::questions::review::{Caution, is_at_once};
use crate::training::{Family, LiftId, Pain, Session, fold, words};
use chrono::{Days, NaiveDate};

/// Faults of so many sessions of the lift are looked at.
const SESSIONS: usize = 3;

/// Pain of so many days is.
const DAYS: u64 = 14;

/// What sites the lifts of a family load: common practice, no source.
const SITES: [(&str, &[Family]); 26] = {
    use Family::{
        Arms, Carry, Hinge, HorizontalPress, HorizontalPull, SingleLeg, Squat, Trunk, VerticalPress, VerticalPull,
    };
    [
        ("knee", &[Squat, SingleLeg]),
        ("hip", &[Squat, Hinge, SingleLeg]),
        ("groin", &[Squat, Hinge, SingleLeg]),
        ("adductor", &[Squat, Hinge, SingleLeg]),
        ("glute", &[Squat, Hinge, SingleLeg]),
        ("quad", &[Squat, SingleLeg]),
        ("thigh", &[Squat, Hinge, SingleLeg]),
        ("hamstring", &[Hinge, Squat, SingleLeg]),
        ("ankle", &[Squat, SingleLeg, Carry]),
        ("foot", &[Squat, SingleLeg, Carry]),
        ("calf", &[Squat, SingleLeg, Carry]),
        ("back", &[Squat, Hinge, HorizontalPull, Carry]),
        ("spine", &[Squat, Hinge, HorizontalPull, Carry]),
        ("neck", &[VerticalPress, VerticalPull, Carry]),
        ("trap", &[VerticalPress, HorizontalPull, Carry]),
        ("shoulder", &[HorizontalPress, VerticalPress, HorizontalPull, VerticalPull]),
        ("chest", &[HorizontalPress, VerticalPress]),
        ("pec", &[HorizontalPress, VerticalPress]),
        ("elbow", &[HorizontalPress, VerticalPress, HorizontalPull, VerticalPull, Arms]),
        ("forearm", &[HorizontalPull, VerticalPull, Hinge, Arms, Carry]),
        ("wrist", &[HorizontalPress, VerticalPress, Arms, Carry]),
        ("hand", &[Hinge, HorizontalPull, VerticalPull, Carry]),
        ("bicep", &[Hinge, HorizontalPull, VerticalPull, Arms]),
        ("tricep", &[HorizontalPress, VerticalPress, Arms]),
        ("rib", &[HorizontalPress, Trunk]),
        ("abdomen", &[Trunk, Squat, Hinge]),
    ]
};

/// Pain noted in the days up to a session, the last note of each site: the session it stands in, and the note.
pub(super) fn pains<'a>(history: &History<'a>, date: NaiveDate) -> Vec<(&'a Session, &'a Pain)> {
    let mut pains: Vec<(&Session, &Pain)> = Vec::new();
    let first = date.checked_sub_days(Days::new(DAYS)).unwrap_or(NaiveDate::MIN);
    for session in history.all_since(first).iter().take_while(|session| session.date <= date) {
        for pain in &session.pains {
            pains.retain(|(_, known)| fold(&known.site) != fold(&pain.site));
            pains.push((session, pain));
        }
    }
    // 0 of 10 says that it is gone.
    pains.retain(|(_, pain)| pain.tenths > 0);
    pains
}

/// Whether lifts of a family load a site, or the lift's name has it in it.
fn concerns(site: &str, family: Option<Family>, lift: &str) -> bool {
    let words =
        |text: &str| -> Vec<String> { text.split([' ', '-']).map(fold).filter(|word| word.len() > 2).collect() };
    let (site, lift) = (words(site), words(lift));
    let loads = SITES.iter().any(|(known, families)| {
        site.contains(&fold(known)) && family.is_some_and(|family| families.contains(&family))
    });
    let side = |word: &String| ["left", "right", "lower", "upper", "side"].contains(&word.as_str());
    loads || site.iter().filter(|word| !side(word)).any(|word| lift.contains(word))
}

/// A pain with its day.
fn noted(history: &History<'_>, session: &Session, pain: &Pain) -> Watch {
    Watch {
        kind: WatchKind::Pain,
        text: format!("{} {}, {}", pain.site, words::of_ten(pain.tenths), words::short_day(session.date)),
        place: history.log.place(pain.page, pain.line),
    }
}

/// The pains that say stop.
pub(super) fn stop(history: &History<'_>, pains: &[(&Session, &Pain)]) -> Vec<Watch> {
    let at_once = pains.iter().filter(|(_, pain)| is_at_once(pain, &history.log.thresholds));
    at_once.map(|(session, pain)| noted(history, session, pain)).collect()
}

/// What to watch on a lift.
pub(super) fn watch(eve: &History<'_>, lift: LiftId, pains: &[(&Session, &Pain)], cautions: &[Caution]) -> Vec<Watch> {
    let name = eve.log.lift_name(lift);
    let mut watch = faults(eve, lift);
    let family = eve.log.lift(lift).map(|lift| lift.family);
    for (session, pain) in pains.iter().filter(|(_, pain)| concerns(&pain.site, family, name)) {
        watch.push(noted(eve, session, pain));
    }
    for caution in cautions.iter().filter(|caution| caution.about.as_deref() == Some(name)) {
        let Some(place) = caution.places.last() else { continue };
        let bare = caution.message.strip_prefix(name).and_then(|rest| rest.strip_prefix(": "));
        let text = bare.unwrap_or(&caution.message).to_owned();
        watch.push(Watch { kind: WatchKind::Caution, text, place: place.clone() });
    }
    watch
}

/// The faults of the last sessions, each the last time that it was seen, the latest first.
fn faults(eve: &History<'_>, lift: LiftId) -> Vec<Watch> {
    let mut seen: Vec<String> = Vec::new();
    let mut watch = Vec::new();
    for visit in Visit::back(eve.works_of(lift)).take(SESSIONS) {
        for done in visit.lines.iter().rev() {
            for group in &done.work.groups {
                for fault in group.extra.iter().flat_map(|extra| &extra.faults) {
                    if seen.iter().any(|known| **known == *fault.name) {
                        continue;
                    }
                    seen.push(fault.name.to_string());
                    let on = on_sets(&fault.sets, group.count());
                    watch.push(Watch {
                        kind: WatchKind::Fault,
                        text: format!("{}{on}, {}", fault.name, words::short_day(done.session.date)),
                        place: eve.log.place(group.page, group.line),
                    });
                }
            }
        }
    }
    watch
}

/// ` on the last set`, ` on set 2`, ` on sets 2 and 3`; nothing where it was on all of them.
fn on_sets(sets: &[u32], count: usize) -> String {
    match sets {
        [] => String::new(),
        [only] if *only as usize == count && count > 1 => " on the last set".into(),
        [only] => format!(" on set {only}"),
        all => format!(" on sets {}", words::all_of(&all.iter().map(u32::to_string).collect::<Vec<_>>())),
    }
}
