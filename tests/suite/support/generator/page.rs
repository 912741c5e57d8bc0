//! Everything written down: pages, and where each row stands.

use super::block::Block;
use super::gym::Watch;
use super::model::Model;
use super::random::Random;
use super::row::{PainRow, PlanRow, Row, Rows, SessionRow, WorkRow};
use chrono::{Datelike, Days, NaiveDate};
use std::collections::BTreeMap;

/// A journal written.
pub struct Journal {
    /// Paths below the root, and texts; settings first.
    pub files: Vec<(String, String)>,
    pub today: NaiveDate,
    /// In order of time and writing.
    pub rows: Vec<Row>,
    /// Work lines, in order of time and writing.
    pub works: Vec<WorkRow>,
    /// What they were to be.
    pub plans: Vec<PlanRow>,
    /// In order of time.
    pub sessions: Vec<SessionRow>,
    pub pains: Vec<PainRow>,
    /// In order of time.
    pub blocks: Vec<Block>,
    /// From where on there is a caution.
    pub watch: Watch,
    pub high_reps: u32,
    /// The smallest mass that can be added to a bar.
    pub step: i64,
    folder: &'static str,
    parts: Vec<Part>,
}

/// A block's heading or a session, as lines that may stand in any page.
struct Part {
    date: NaiveDate,
    lines: Vec<String>,
    session: Option<usize>,
}

impl Model {
    /// Everything written down: pages and rows.
    pub(super) fn written(mut self) -> Journal {
        let today = self.some_day();
        self.written_on(today)
    }

    /// A day from which the journal may be looked at: that of a session, or one soon after the last.
    pub(super) fn some_day(&mut self) -> NaiveDate {
        let last = self.sessions.last().map_or(self.shape.first, |session| session.date);
        if self.wild(25) {
            let dates: Vec<NaiveDate> = self.sessions.iter().map(|session| session.date).collect();
            self.random.pick(&dates)
        } else {
            last + Days::new(u64::from(self.random.within(0..=20)))
        }
    }

    pub(super) fn written_on(mut self, today: NaiveDate) -> Journal {
        let Rows { sessions, pains, sets: rows, works, plans } = self.rows(today);
        let mut parts: Vec<Part> = Vec::new();
        for block in &self.blocks {
            parts.push(Part { date: block.starts, lines: block.lines.clone(), session: None });
        }
        for (at, session) in self.sessions.iter_mut().enumerate() {
            parts.push(Part { date: session.date, lines: std::mem::take(&mut session.lines), session: Some(at) });
        }
        parts.sort_by_key(|part| (part.date, part.session));
        let mut journal = Journal {
            files: self.gym.files.clone(),
            today,
            rows,
            works,
            plans,
            sessions,
            pains,
            watch: self.gym.watch,
            high_reps: self.gym.high_reps,
            step: self.gym.step,
            folder: self.gym.folder,
            parts,
            blocks: self.blocks,
        };
        let untimed = self.sessions.windows(2).any(|pair| pair[0].date == pair[1].date && pair[1].minute.is_none());
        journal.lay_out(&mut self.random, self.shape.wild, untimed);
        journal
    }
}

impl Journal {
    /// Deals the parts out to pages: one page, a page a block, or a page a session.
    fn lay_out(&mut self, random: &mut Random, wild: bool, untimed: bool) {
        let layout = if wild { random.below(3) } else { 1 };
        // The order of two sessions on one date that give no time is that of their pages and lines.
        let backwards = wild && !untimed && random.chance(30);
        let mut pages: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        let mut current = "before".to_owned();
        for (at, part) in self.parts.iter().enumerate() {
            if part.session.is_none() {
                let name = part.lines[0].split_whitespace().skip(2).collect::<Vec<_>>().join(" ");
                current = format!("{} block {name}", part.date.format("%Y-%m"));
            }
            let path = match (layout, part.session) {
                (0, _) => "everything.md".to_owned(),
                (1, _) => format!("{current}.md"),
                (_, None) => "plan/blocks.md".to_owned(),
                (_, Some(session)) => format!("{}/{} {session:05}.md", part.date.year(), part.date),
            };
            pages.entry(format!("{}{path}", self.folder)).or_default().push(at);
        }
        let mut places: BTreeMap<usize, (String, u32)> = BTreeMap::new();
        for (path, mut parts) in pages {
            if backwards {
                parts.reverse();
            }
            let mut lines: Vec<&str> = Vec::new();
            if wild && random.chance(15) {
                lines.extend(["---", "kind: training", "---", ""]);
            } else if wild && random.chance(20) {
                lines.extend(["Written by hand, read by machine.", ""]);
            }
            for at in parts {
                let part = &self.parts[at];
                if let Some(session) = part.session {
                    places.insert(session, (path.clone(), lines.len() as u32 + 1));
                }
                lines.extend(part.lines.iter().map(String::as_str));
            }
            let end = if wild && random.chance(15) { "\r\n" } else { "\n" };
            let mark = if wild && random.chance(10) { "\u{feff}" } else { "" };
            let text = format!("{mark}{}{}", lines.join(end), if random.chance(90) { end } else { "" });
            self.files.push((path, text));
        }
        for row in &mut self.rows {
            let (page, start) = &places[&(row.session as usize)];
            row.page.clone_from(page);
            row.line += start;
        }
        for row in &mut self.pains {
            let (page, start) = &places[&(row.session as usize)];
            row.page.clone_from(page);
            row.line += start;
        }
        for row in &mut self.works {
            let (page, start) = &places[&(row.session as usize)];
            row.page.clone_from(page);
            row.line += start;
        }
    }

    /// The same sessions and blocks in other pages and another order. Page and line of the rows do not hold
    /// for it.
    pub fn scattered(&self, seed: u64) -> Vec<(String, String)> {
        let mut random = Random::new(seed);
        let settings = self.files.iter().filter(|(path, _)| path.ends_with(".yaml"));
        let mut files: Vec<(String, String)> = settings.cloned().collect();
        let mut order: Vec<usize> = (0..self.parts.len()).collect();
        random.shuffle(&mut order);
        let mut pages: BTreeMap<usize, String> = BTreeMap::new();
        let count = random.below(12) + 1;
        for at in order {
            let page = pages.entry(random.below(count)).or_default();
            for line in &self.parts[at].lines {
                page.push_str(line);
                page.push('\n');
            }
        }
        files.extend(pages.into_iter().map(|(at, text)| (format!("{}{}/{at}.md", self.folder, at % 3), text)));
        files
    }
}
