//! The rows: one for each set done, with all that a question may ask of it.

use super::book::LIFTS;
use super::load::Load;
use super::model::{Amount, Fate, Model, Pain};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};

/// A bodyweight older than this is no longer in force.
const BODYWEIGHT_DAYS: i64 = 60;

/// What kind of load a set had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// None is given.
    None,
    /// A mass without the lifter's own.
    Mass,
    /// The lifter's own weight, with more or with help.
    Bodyweight,
    /// A stack's setting.
    Pin,
    /// Text in quotes.
    Quote,
}

/// One set done, or one attempt (a set of 0 reps), as the model has it.
#[derive(Clone, Debug)]
pub struct Row {
    /// Which session, in order of time.
    pub session: u32,
    /// Which work line, in order of time.
    pub work: u32,
    pub date: NaiveDate,
    /// Which block, in order of time.
    pub block: Option<u32>,
    pub week: Option<u32>,
    /// Not 0 in a deload or peak week: 1 and 2.
    pub light: u8,
    /// Whether the session is a competition or a test day.
    pub meet: bool,
    /// The day's label.
    pub day: Option<String>,
    /// The lift as it is shown.
    pub lift: String,
    pub family: &'static str,
    pub reps: Option<u32>,
    pub seconds: Option<u32>,
    /// Ten-millionths of a metre.
    pub metres: Option<i64>,
    /// 2 where the amount is of each side.
    pub sides: u32,
    /// Hundred-billionths of a kilogram, with the bodyweight in force.
    pub mass: Option<i64>,
    pub kind: Kind,
    /// Thousandths of the pin's number.
    pub pin: Option<i64>,
    /// What is added to a bodyweight or a pin.
    pub added: Option<i64>,
    /// The load, tidied.
    pub load: Option<String>,
    pub approximate: bool,
    /// Quarter points.
    pub effort: Option<u32>,
    pub clean: bool,
    /// What was wrong with a set of its group.
    pub fault: Option<&'static str>,
    /// Which written group, in order of time.
    pub group: u32,
    pub page: String,
    pub line: u32,
}

/// One work line.
#[derive(Clone, Debug)]
pub struct WorkRow {
    /// Which session, in order of time.
    pub session: u32,
    pub date: NaiveDate,
    pub block: Option<u32>,
    pub week: Option<u32>,
    /// Not 0 in a deload or peak week, as its block or the work up to today says: 1 and 2.
    pub light: u8,
    /// Whether the session's heading marks it so.
    pub marked: bool,
    /// At a meet or on a test day.
    pub meet: bool,
    /// The lift as it is shown.
    pub lift: String,
    pub fate: Fate,
    /// The lift that it stood in for, as it is shown.
    pub instead_of: Option<&'static str>,
    pub page: String,
    pub line: u32,
}

/// Planned sets of a work line that are alike.
#[derive(Clone, Debug)]
pub struct PlanRow {
    /// Which work line, in order of time.
    pub work: u32,
    /// Which of its plan's, from 0.
    pub run: u32,
    pub fewest: u32,
    pub most: u32,
    /// The least of one set, and the most where that is not open.
    pub reps: Option<(u32, Option<u32>)>,
    pub seconds: Option<(u32, Option<u32>)>,
    pub metres: Option<(i64, Option<i64>)>,
    pub sides: u32,
    pub mass: Option<i64>,
    pub kind: Kind,
    pub pin: Option<i64>,
    pub added: Option<i64>,
    pub load: Option<String>,
    /// Quarter points.
    pub effort: Option<(u32, u32)>,
}

/// One session.
#[derive(Clone, Debug)]
pub struct SessionRow {
    pub date: NaiveDate,
    pub block: Option<u32>,
    pub week: Option<u32>,
    /// Not 0 where its week is a deload or peak week: 1 and 2.
    pub light: u8,
    /// Whether its heading says that it is part of one.
    pub marked: bool,
    /// A competition, by name.
    pub meet: Option<&'static str>,
    pub test_day: bool,
    /// The day's label.
    pub day: Option<&'static str>,
}

/// A pain that was noted.
#[derive(Clone, Debug)]
pub struct PainRow {
    /// Which session, in order of time.
    pub session: u32,
    pub site: &'static str,
    pub tenths: u32,
    pub page: String,
    pub line: u32,
}

/// Everything as rows.
pub(super) struct Rows {
    pub(super) sessions: Vec<SessionRow>,
    pub(super) pains: Vec<PainRow>,
    pub(super) sets: Vec<Row>,
    pub(super) works: Vec<WorkRow>,
    pub(super) plans: Vec<PlanRow>,
}

/// What a load comes to, with a bodyweight in force.
fn mass_of(load: &Load, own: Option<i64>) -> Option<i64> {
    match load.kind {
        Kind::Mass => Some(load.mass),
        Kind::Bodyweight => own.map(|own| own + load.mass),
        _ => None,
    }
}

impl Model {
    pub(super) fn rows(&self, today: NaiveDate) -> Rows {
        // The last one written on a date holds for the whole date.
        let weighed: BTreeMap<NaiveDate, i64> =
            self.sessions.iter().filter_map(|session| Some((session.date, session.bodyweight?))).collect();
        let mut light: BTreeMap<(usize, u32), bool> = BTreeMap::new();
        for session in self.sessions.iter().filter(|session| session.date <= today && session.has_work()) {
            if let (Some(block), Some(week)) = (session.block, session.week) {
                *light.entry((block, week)).or_insert(true) &= session.marked;
            }
        }
        let past = self.sessions.iter().filter(|session| session.date <= today && session.peaks);
        let peaks: BTreeSet<(usize, u32)> = past.filter_map(|session| session.block.zip(session.week)).collect();
        let (sessions, pains) = (Vec::new(), Vec::new());
        let mut rows = Rows { sessions, pains, sets: Vec::new(), works: Vec::new(), plans: Vec::new() };
        let mut written = 0;
        for (at, session) in self.sessions.iter().enumerate() {
            let own = weighed.range(..=session.date).next_back();
            let own =
                own.filter(|(date, _)| (session.date - **date).num_days() <= BODYWEIGHT_DAYS).map(|(_, mass)| *mass);
            let light = session.block.zip(session.week).map_or(0, |key| {
                let block = &self.blocks[key.0];
                let said = block.light.contains(&key.1);
                let is_light = said || light.get(&key).copied().unwrap_or(false);
                u8::from(is_light) * (1 + u8::from(block.peaks.contains(&key.1) || !said && peaks.contains(&key)))
            });
            rows.sessions.push(SessionRow {
                date: session.date,
                block: session.block.map(|block| block as u32),
                week: session.week,
                light,
                marked: session.marked,
                meet: session.meet,
                test_day: session.test_day,
                day: session.day,
            });
            rows.pains.extend(session.pains.iter().map(|pain| {
                let &Pain { site, tenths, line } = pain;
                PainRow { session: at as u32, site, tenths, page: String::new(), line }
            }));
            for work in &session.works {
                let (place, shown) = &self.lifts[work.lift];
                let number = rows.works.len() as u32;
                rows.works.push(WorkRow {
                    session: at as u32,
                    date: session.date,
                    block: session.block.map(|block| block as u32),
                    week: session.week,
                    light,
                    marked: session.marked,
                    meet: session.meet.is_some() || session.test_day,
                    lift: shown.clone().unwrap_or_default(),
                    fate: work.fate,
                    instead_of: work.instead_of,
                    page: String::new(),
                    line: work.line,
                });
                for (run, planned) in work.plan.iter().flatten().enumerate() {
                    let reps = |amount: Amount| if let Amount::Reps(reps) = amount { Some(reps) } else { None };
                    let seconds =
                        |amount: Amount| if let Amount::Seconds(seconds) = amount { Some(seconds) } else { None };
                    let metres = |amount: Amount| if let Amount::Metres(metres) = amount { Some(metres) } else { None };
                    let Load { kind, mass, pin, text, .. } = &planned.load;
                    rows.plans.push(PlanRow {
                        work: number,
                        run: run as u32,
                        fewest: planned.fewest,
                        most: planned.most,
                        reps: reps(planned.amount).map(|least| (least, planned.longest.and_then(reps))),
                        seconds: seconds(planned.amount).map(|least| (least, planned.longest.and_then(seconds))),
                        metres: metres(planned.amount).map(|least| (least, planned.longest.and_then(metres))),
                        sides: if planned.per_side { 2 } else { 1 },
                        mass: mass_of(&planned.load, own),
                        kind: *kind,
                        pin: (*kind == Kind::Pin).then_some(*pin),
                        added: matches!(kind, Kind::Pin | Kind::Bodyweight).then_some(*mass),
                        load: text.clone(),
                        effort: planned.effort,
                    });
                }
                for (line, group) in &work.groups {
                    written += 1;
                    let Load { kind, mass, pin, text, approximate, .. } = &group.load;
                    for set in &group.sets {
                        rows.sets.push(Row {
                            session: at as u32,
                            work: number,
                            date: session.date,
                            block: session.block.map(|block| block as u32),
                            week: session.week,
                            light,
                            meet: session.meet.is_some() || session.test_day,
                            day: session.day.map(str::to_owned),
                            lift: shown.clone().unwrap_or_default(),
                            family: LIFTS[*place].1,
                            reps: if let Amount::Reps(reps) = set.amount { Some(reps) } else { None },
                            seconds: if let Amount::Seconds(seconds) = set.amount { Some(seconds) } else { None },
                            metres: if let Amount::Metres(metres) = set.amount { Some(metres) } else { None },
                            sides: if group.per_side { 2 } else { 1 },
                            mass: mass_of(&group.load, own),
                            kind: *kind,
                            pin: (*kind == Kind::Pin).then_some(*pin),
                            added: matches!(kind, Kind::Pin | Kind::Bodyweight).then_some(*mass),
                            load: text.clone(),
                            approximate: *approximate,
                            effort: set.effort,
                            clean: set.clean,
                            fault: group.fault,
                            group: written,
                            page: String::new(),
                            line: *line,
                        });
                    }
                }
            }
        }
        rows
    }
}
