//! Blocks, and the days that are trained on.

use super::book::{LIFTS, Style};
use super::model::Model;
use super::number::{KG, LB};
use chrono::{Days, NaiveDate};

/// A block of the model.
#[derive(Clone, Debug)]
pub struct Block {
    pub name: String,
    pub starts: NaiveDate,
    pub ends: Option<NaiveDate>,
    /// Its deload and peak weeks.
    pub light: Vec<u32>,
    /// The peak weeks among them.
    pub(super) peaks: Vec<u32>,
    /// The lift, by its place in the model, and its maximum.
    pub(super) maxima: Vec<(usize, i64)>,
    pub(super) lines: Vec<String>,
}

impl Model {
    /// Blocks in order of time; gives the days that are trained on.
    pub(super) fn plan_blocks(&mut self) -> Vec<NaiveDate> {
        let mut names = vec!["summer base", "6", "Harbour", "long sets", "B7", "winter", "21"];
        self.random.shuffle(&mut names);
        let mut date = self.shape.first;
        if self.shape.wild {
            date = date + Days::new(u64::from(self.random.within(0..=self.shape.later)));
        }
        let mut calendar = Vec::new();
        let count = self.random.within(self.shape.blocks.clone());
        if self.wild(40) {
            calendar.push(date);
            date = date + Days::new(u64::from(self.random.within(1..=80)));
        }
        for at in 0..count {
            let weeks = self.random.within(self.shape.weeks.clone());
            let name = if self.shape.wild { names[at as usize].to_owned() } else { (at + 1).to_string() };
            let written = !self.wild(30);
            let block = self.block(name, date, weeks, written);
            self.blocks.push(block);
            for week in 0..weeks {
                let sessions = self.random.within(self.shape.sessions.clone());
                let mut days: Vec<u32> = (0..7).collect();
                self.random.shuffle(&mut days);
                days.truncate(sessions as usize);
                days.sort_unstable();
                for day in days {
                    calendar.push(date + Days::new(u64::from(week * 7 + day)));
                    if self.wild(6) {
                        calendar.push(date + Days::new(u64::from(week * 7 + day)));
                    }
                }
            }
            date = date + Days::new(u64::from(weeks * 7));
            if self.wild(50) {
                let gap = self.random.within(1..=20);
                calendar.push(date + Days::new(u64::from(self.random.within(0..=gap - 1))));
                date = date + Days::new(u64::from(gap));
            }
        }
        if self.wild(30) {
            calendar.push(date + Days::new(u64::from(self.random.within(0..=90))));
        }
        // Without `weeks:` a block runs until the next one starts, or without an end.
        let starts: Vec<NaiveDate> = self.blocks.iter().map(|block| block.starts).collect();
        for (at, block) in self.blocks.iter_mut().enumerate().filter(|(_, block)| block.ends.is_none()) {
            block.ends = starts.get(at + 1).and_then(|next| next.pred_opt());
        }
        calendar
    }

    /// A block with its lines. Its end is left open where `weeks:` is not written.
    fn block(&mut self, name: String, starts: NaiveDate, weeks: u32, written: bool) -> Block {
        let (mut light, mut peaks) = (Vec::new(), Vec::new());
        let mut keys = vec![format!("starts: {starts}")];
        if written {
            keys.push(format!("weeks: {weeks}"));
        }
        for key in ["deload", "peak"] {
            if self.chance(30) {
                let mut chosen = vec![self.random.within(1..=weeks)];
                if self.wild(20) {
                    chosen.push(self.random.within(1..=weeks));
                }
                let list: Vec<String> = chosen.iter().map(|week| format!("week {week}")).collect();
                keys.push(format!("{key}: {}", list.join(", ")));
                if key == "peak" {
                    peaks.clone_from(&chosen);
                }
                light.extend(chosen);
            }
        }
        if self.chance(60) {
            let phase = self.random.pick(&["hypertrophy", "long sets", "strength", "peaking"]);
            keys.push(format!("phase: {phase}"));
        }
        if self.chance(40) {
            keys.push("goal: more work at the same weights".into());
        }
        let mut maxima = Vec::new();
        for at in 0..self.lifts.len() {
            let (place, _) = self.lifts[at];
            if LIFTS[place].2 == Style::Barbell && self.chance(30) {
                // A lifetime's maxima fit its lifts; wild ones need not.
                let wild = self.random.within(20..=44) * 5;
                let number = if self.shape.wild { wild } else { LIFTS[place].3 as u32 * 5 / 20 * 5 };
                let (unit, word) = if self.wild(30) { (LB, "lb") } else { (KG, "kg") };
                let name = self.lift_name(at);
                keys.push(format!("max: {name} {number} {word}"));
                maxima.push((at, i64::from(number) * unit));
            }
        }
        if self.wild(40) {
            self.random.shuffle(&mut keys);
            // The last maximum of a lift wins, but no lift has two here, so any order will do.
        }
        let mut lines = vec![format!("# {} {name}", self.spell("Block", &["block", "BLOCK"])), String::new()];
        for key in keys {
            let bullet = self.spell("-", &["*", "+"]);
            lines.push(format!("{bullet} {key}"));
        }
        lines.push(String::new());
        if self.wild(30) {
            lines.push("What this block is for stands on the wall.".into());
            lines.push(String::new());
        }
        let ends = written.then(|| starts + Days::new(u64::from(weeks * 7 - 1)));
        Block { name, starts, ends, light, peaks, maxima, lines }
    }

    /// The block that holds a day.
    pub(super) fn block_on(&self, date: NaiveDate) -> Option<usize> {
        self.blocks.iter().rposition(|block| block.starts <= date && block.ends.is_none_or(|ends| date <= ends))
    }

    /// The week of a day, the nearest there is.
    pub(super) fn week_of(&self, block: usize, date: NaiveDate) -> u32 {
        let block = &self.blocks[block];
        let date = block.ends.map_or(date, |ends| date.min(ends));
        ((date - block.starts).num_days().max(0) / 7) as u32 + 1
    }
}
