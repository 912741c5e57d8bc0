//! Lifts that are not planned again because of a pain: skipped for one, or at a site that hurts. Which site a lift
//! loads is a rule of thumb, wide rather than narrow: common practice, no source.

use super::Note;
use crate::history::{Done, History};
use crate::training::{Family as F, LiftId, Pain, RemarkKind, Session, Status, Work, fold, words};
use std::cell::RefCell;
use std::collections::HashMap;

/// Pain of so many tenths of ten or more keeps a lift out. Common practice, no source.
pub(in crate::questions) const HURTS_FROM: u32 = 50;

/// So many days a pain holds, whatever was done since, unless a later note of the site says less; after them until the
/// lift has been done again. Common practice, no source.
const HOLDS_DAYS: i64 = 14;

/// Sites, by the beginning of a word, and the families that load them.
const SITES: &[(&[&str], &[F])] = &[
    (&["knee", "patell", "quad", "thigh", "menisc"], &[F::Squat, F::SingleLeg]),
    (&["hip", "groin", "adductor", "glute", "pelvi"], &[F::Squat, F::Hinge, F::SingleLeg]),
    (&["hamstring"], &[F::Hinge, F::SingleLeg, F::Squat]),
    (
        &["ankle", "achilles", "calf", "calves", "shin", "foot", "feet", "toe", "heel"],
        &[F::Squat, F::SingleLeg, F::Carry],
    ),
    (&["back", "spine", "spinal", "lumbar", "sacr", "sciatic"], &[F::Squat, F::Hinge, F::HorizontalPull, F::Carry]),
    (
        &["shoulder", "rotator", "delt", "collarbone", "clavicle", "scapula", "pec"],
        &[F::HorizontalPress, F::VerticalPress, F::VerticalPull],
    ),
    (
        &["elbow", "forearm", "bicep", "tricep", "wrist", "arm"],
        &[F::HorizontalPress, F::VerticalPress, F::HorizontalPull, F::VerticalPull, F::Arms],
    ),
    (
        &["hand", "finger", "thumb", "palm"],
        &[F::HorizontalPress, F::VerticalPress, F::HorizontalPull, F::VerticalPull, F::Arms, F::Hinge, F::Carry],
    ),
    (&["neck", "trap"], &[F::VerticalPress, F::Hinge, F::Carry]),
    (&["rib", "abdom", "stomach", "hernia", "oblique"], &[F::Trunk, F::Squat, F::Hinge, F::Carry]),
    (&["chest"], &F::ALL),
];

/// Words of a pain that names no site.
const PAIN: &[&str] =
    &["pain", "hurt", "ache", "aching", "injur", "strain", "sprain", "tweak", "niggl", "sharp", "twinge", "inflam"];

/// Words that say that a site's name is a machine's or the way home: `shoulder press taken`, `back late`.
const NO_PAIN: &[&str] = &[
    "machine", "taken", "busy", "broken", "closed", "missing", "rack", "bar", "press", "late", "home", "from", "travel",
];

/// The lifts that a pain keeps out of a draft.
pub(super) struct Pains<'h, 'a> {
    history: &'h History<'a>,
    /// The last note of each site, where it hurts.
    hurts: Vec<(&'a Session, &'a Pain)>,
    /// What was asked already: a lift may have many lines.
    known: RefCell<HashMap<LiftId, Option<Note>>>,
}

impl<'h, 'a> Pains<'h, 'a> {
    pub(super) fn of(history: &'h History<'a>) -> Self {
        let mut last: HashMap<String, (&Session, &Pain)> = HashMap::new();
        for session in history.with_pain() {
            last.extend(session.pains.iter().map(|pain| (fold(&pain.site), (session, pain))));
        }
        let mut hurts: Vec<_> = last.into_values().filter(|(_, pain)| pain.tenths >= HURTS_FROM).collect();
        // The worst is told.
        hurts.sort_by(|(_, one), (_, other)| (other.tenths, &one.site).cmp(&(one.tenths, &other.site)));
        Pains { history, hurts, known: RefCell::default() }
    }

    /// Why a lift is not planned again.
    pub(super) fn keep_out(&self, id: LiftId) -> Option<Note> {
        self.known.borrow_mut().entry(id).or_insert_with(|| self.found(id)).clone()
    }

    fn found(&self, id: LiftId) -> Option<Note> {
        let lift = || self.history.log.lift_name(id).to_owned();
        if let Some((session, reason)) = self.skipped(id) {
            return Some(Note::Skipped { lift: lift(), date: session.date, reason, was: Vec::new() });
        }
        let family = self.history.log.lift(id).map_or(F::Other, |lift| lift.family);
        let (session, pain) = self.hurts.iter().find(|(session, pain)| {
            let families = families(&pain.site);
            // Of what a site or a lift is not known, all that was done or planned that day.
            let that_day = || self.on(session).any(|work| work.work.lift == id);
            let loads = if families.is_empty() || family == F::Other { that_day() } else { families.contains(&family) };
            let done_since =
                || self.history.works_of(id).any(|done| done.session.date > session.date && done.work.has_work());
            loads && ((self.history.today - session.date).num_days() <= HOLDS_DAYS || !done_since())
        })?;
        let (site, tenths, date) = (pain.site.to_string(), pain.tenths, session.date);
        Some(Note::Hurts { lift: lift(), site, tenths, date, was: Vec::new() })
    }

    fn on(&self, of: &Session) -> impl Iterator<Item = Done<'a>> {
        let that_day = self.history.since(of.date).iter().take_while(move |session| session.date == of.date);
        that_day.flat_map(|session| session.works.iter().map(move |work| Done { session, work }))
    }

    /// The last line of a lift, where it was skipped for pain.
    fn skipped(&self, lift: LiftId) -> Option<(&'a Session, String)> {
        let said = |work: &Work| work.status == Status::Skipped || work.has_work();
        let last = self.history.works_of(lift).rfind(|done| said(done.work))?;
        if last.work.status != Status::Skipped {
            return None;
        }
        let details = last.work.details.as_ref();
        let reason = details.and_then(|details| details.skipped_because.as_deref());
        let notes = details.into_iter().flat_map(|details| &details.remarks);
        let mut said =
            reason.into_iter().chain(notes.filter(|note| note.kind == RemarkKind::Note).map(|note| &*note.text));
        if let Some(reason) = said.find(|reason| is_pain(reason)) {
            return Some((last.session, reason.to_owned()));
        }
        // A skip without a reason, on a day on which what the lift loads hurt.
        let family = self.history.log.lift(lift).map_or(F::Other, |lift| lift.family);
        let mut pains = last.session.pains.iter().filter(|pain| pain.tenths > 0 && reason.is_none());
        let pain = pains.find(|pain| families(&pain.site).contains(&family))?;
        Some((last.session, format!("{} {}", pain.site, words::of_ten(pain.tenths))))
    }
}

fn each_word(text: &str) -> impl Iterator<Item = String> {
    text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).map(str::to_lowercase)
}

/// The families that load a site; none where it is not known.
fn families(site: &str) -> Vec<F> {
    let known = each_word(site).filter_map(|word| {
        SITES.iter().find(|(names, _)| names.iter().any(|name| word.starts_with(name))).map(|(_, families)| *families)
    });
    known.flatten().copied().collect()
}

/// Whether a reason for a skip is a pain: it says so, or names a site and nothing else that could be meant.
fn is_pain(reason: &str) -> bool {
    let any = |of: &[&str]| each_word(reason).any(|word| of.iter().any(|name| word.starts_with(name)));
    any(PAIN) || (!families(reason).is_empty() && !any(NO_PAIN))
}

#[cfg(test)]
mod tests {
    use super::is_pain;

    #[test]
    fn a_reason_is_a_pain_where_it_says_so_or_names_a_site_alone() {
        for reason in
            ["knee", "left knee again", "sore shoulder", "lower back 6/10", "it hurts", "tweaked something", "back"]
        {
            assert!(is_pain(reason), "{reason}");
        }
        for reason in
            ["no time", "holiday", "shoulder press machine taken", "back late from work", "gym closed", "tired"]
        {
            assert!(!is_pain(reason), "{reason}");
        }
    }
}
