//! `facts`: bodyweight, sleep, how long sessions were, and pain, over time.

use crate::analysis::strength::axis::{Span, spans};
use crate::analysis::weight_class::ToClass;
use crate::history::History;
use crate::source::Place;
use crate::training::{BlockId, Figure, Mass, Session, is_within};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// What is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// Only this block.
    pub block: Option<BlockId>,
    /// Only from this day on.
    pub since: Option<NaiveDate>,
    /// Only up to this day.
    pub until: Option<NaiveDate>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The sessions that say something of the lifter, in order of time.
    pub sessions: Vec<Facts>,
    /// Pain by where it was, the latest first.
    pub sites: Vec<Site>,
    /// How far the last bodyweight is from the weight class; null where settings name none.
    pub weight_class: Option<ToClass>,
    /// What the sessions come to.
    #[serde(skip)]
    pub means: Means,
    /// The blocks on the axis of dates.
    #[serde(skip)]
    pub blocks: Vec<Span>,
}

/// What sessions come to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Means {
    /// The bodyweight; nothing where none is written.
    pub bodyweight: Option<Moved>,
    /// The mean length of a night, in whole minutes.
    pub sleep_minutes: Option<u32>,
    /// The mean length of a session, in whole minutes.
    pub duration_minutes: Option<u32>,
    /// Sessions in which something hurt.
    pub days_of_pain: usize,
}

/// The last bodyweight, and how it moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// The last one.
    pub last: Mass,
    /// By how much it is more than the first, and the day of that; nothing where there is only one.
    pub by: Option<(Mass, NaiveDate)>,
}

impl Means {
    fn of(sessions: &[Facts]) -> Self {
        let mean = |of: fn(&Facts) -> Option<u16>| {
            let known: Vec<u32> = sessions.iter().filter_map(of).map(u32::from).collect();
            let many = u32::try_from(known.len()).ok()?;
            (known.iter().sum::<u32>() + many / 2).checked_div(many)
        };
        let mut weights = sessions.iter().filter_map(|facts| Some((facts.date, facts.bodyweight?)));
        let first = weights.next();
        let bodyweight = first.map(|(since, first)| match weights.next_back() {
            Some((_, last)) => Moved { last, by: Some((last - first, since)) },
            None => Moved { last: first, by: None },
        });
        Means {
            bodyweight,
            sleep_minutes: mean(|facts| facts.sleep_minutes),
            duration_minutes: mean(|facts| facts.duration_minutes),
            days_of_pain: sessions.iter().filter(|facts| !facts.pains.is_empty()).count(),
        }
    }
}

/// What a session says of the lifter.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Facts {
    /// The date.
    pub date: NaiveDate,
    /// The block's name.
    pub block: Option<String>,
    /// The week of it.
    pub week: Option<u32>,
    /// The bodyweight, where it is written that day.
    #[serde(rename = "bodyweight_kg")]
    pub bodyweight: Option<Mass>,
    /// How long the night was, in minutes.
    pub sleep_minutes: Option<u16>,
    /// How long the session was, in minutes.
    pub duration_minutes: Option<u16>,
    /// What hurt.
    pub pains: Vec<Hurt>,
    /// Where the session stands.
    #[serde(flatten)]
    pub place: Place,
}

/// A pain.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Hurt {
    /// Where, as written.
    pub site: String,
    /// How much.
    pub of_ten: Figure<1>,
}

/// A place that hurt.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Site {
    /// Where, as last written.
    pub site: String,
    /// Each day on which it did, the latest first.
    pub days: Vec<Day>,
}

/// A day on which a place hurt.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Day {
    /// The date.
    pub date: NaiveDate,
    /// How much.
    pub of_ten: Figure<1>,
    /// What was lifted that day, in the order done.
    pub lifts: Vec<String>,
    /// Where the pain is written.
    #[serde(flatten)]
    pub place: Place,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let wanted = |session: &&Session| {
        ask.block.is_none_or(|block| session.block == Some(block)) && is_within(session.date, ask.since, ask.until)
    };
    let weight_class = ToClass::of(history);
    let (means, blocks) = (Means::default(), Vec::new());
    let mut answer = Answer { sessions: Vec::new(), sites: Vec::new(), weight_class, means, blocks };
    for session in history.sessions().iter().filter(wanted) {
        let facts = facts(history, session);
        let says = facts.bodyweight.is_some() || facts.sleep_minutes.is_some() || facts.duration_minutes.is_some();
        if says || !facts.pains.is_empty() {
            answer.sessions.push(facts);
        }
    }
    for session in history.sessions().iter().rev().filter(wanted) {
        sites(history, session, &mut answer.sites);
    }
    answer.means = Means::of(&answer.sessions);
    let ends = answer.sessions.first().zip(answer.sessions.last());
    answer.blocks = ends.map_or_else(Vec::new, |(first, last)| spans(history, first.date, last.date));
    answer
}

fn facts(history: &History<'_>, session: &Session) -> Facts {
    let log = history.log;
    let hurt = |pain: &crate::training::Pain| Hurt { site: pain.site.to_string(), of_ten: tenths(pain.tenths) };
    Facts {
        date: session.date,
        block: log.block_name(session.block),
        week: session.week,
        bodyweight: session.bodyweight.filter(|own| own.date == session.date).map(|own| own.mass),
        sleep_minutes: session.sleep,
        duration_minutes: session.duration,
        pains: session.pains.iter().map(hurt).collect(),
        place: log.place(session.page, session.line),
    }
}

fn tenths(tenths: u32) -> Figure<1> {
    Figure(f64::from(tenths) / 10.0)
}

/// Adds the pains of a session to those of their places; a place is the same however its letters are written.
fn sites(history: &History<'_>, session: &Session, sites: &mut Vec<Site>) {
    let lifts = || {
        let done = session.works.iter().filter(|work| work.has_work());
        let mut lifts: Vec<String> = Vec::new();
        for name in done.map(|work| history.log.lift_name(work.lift)) {
            if !lifts.iter().any(|known| known == name) {
                lifts.push(name.to_owned());
            }
        }
        lifts
    };
    for pain in &session.pains {
        let of_ten = tenths(pain.tenths);
        let day = Day { date: session.date, of_ten, lifts: lifts(), place: history.log.place(pain.page, pain.line) };
        match sites.iter_mut().find(|known| crate::training::fold(&known.site) == crate::training::fold(&pain.site)) {
            Some(site) => site.days.push(day),
            None => sites.push(Site { site: pain.site.to_string(), days: vec![day] }),
        }
    }
}
