//! A lift's work line, its set lines and its details.

use super::book::{LIFTS, Style};
use super::load::Load;
use super::model::{Model, Session, Work};
use super::session::TALK;

const CUES: [&str; 5] = [
    "elbows high, sit between the knees",
    "chest first out of the bottom",
    "long arms, push the floor away",
    "tight upper back before the bar moves",
    "ribs down, breathe at the top only",
];

impl Model {
    /// A lift's name in one of its spellings. The first one that is written of an own name is the shown one.
    pub(super) fn lift_name(&mut self, lift: usize) -> &'static str {
        let lift = &LIFTS[self.lifts[lift].0];
        if self.wild(50) { self.random.pick(&lift.spellings()) } else { lift.shown() }
    }

    pub(super) fn work(&mut self, session: &mut Session, lift: usize) {
        let name = self.lift_name(lift);
        if self.lifts[lift].1.is_none() {
            self.lifts[lift].1 = Some(name.to_owned());
        }
        let style = LIFTS[self.lifts[lift].0].2;
        let bullet = self.spell("-", &["*", "+"]);
        let shown = match if self.wild(30) { self.random.below(5) } else { 9 } {
            0 => format!("{bullet} **{name}:**"),
            1 => format!("{bullet} **{name}**:"),
            2 => format!("{bullet} [x] {name}:"),
            3 => format!("{bullet} {name} :"),
            4 => format!("{bullet} _{name}_:"),
            _ => format!("{bullet} {name}:"),
        };
        let at = session.lines.len() as u32;
        let mut work = Work { lift, groups: Vec::new() };
        let mut details: Vec<String> = Vec::new();
        self.detail_lines(lift, style, &mut details);
        match self.random.below(100) {
            0..4 => {
                session.lines.push(format!("{shown} {}", self.spell("skipped", &["Skipped (knee)", "skipped."])));
                details.insert(0, "plan: 3x8 @ 60 kg RPE 6".into());
            }
            4..7 => {
                session.lines.push(shown);
                details.insert(0, "plan: 3x8-10 RPE 6-7".into());
            }
            7..17 => self.as_planned(session, &mut work, style, &shown, &mut details),
            17..40 => self.set_lines(session, &mut work, style, &shown, &details),
            _ => {
                let (text, groups) = self.groups(lift, style, session.block, None, 3, false);
                // A glued colon is found only where no later one stands before a blank.
                let colon = if self.wild(6) && !text.contains(": ") { "" } else { " " };
                let end = self.spell("", &[".", " ", ","]);
                session.lines.push(format!("{shown}{colon}{text}{end}"));
                work.groups = groups.into_iter().map(|group| (at, group)).collect();
            }
        }
        for detail in details {
            let indent = self.spell("  ", &["    ", "\t", " "]);
            session.lines.push(format!("{indent}- {detail}"));
        }
        if self.wild(5) {
            session.lines.push(String::new());
        }
        session.works.push(work);
    }

    /// Set lines, or a work line with set lines under it. Details may stand between.
    pub(super) fn set_lines(
        &mut self,
        session: &mut Session,
        work: &mut Work,
        style: Style,
        shown: &str,
        details: &[String],
    ) {
        let mut carried: Option<Load> = None;
        let at = session.lines.len() as u32;
        if self.chance(25) {
            let (text, groups) = self.groups(work.lift, style, session.block, None, 1, false);
            session.lines.push(format!("{shown} {text}"));
            carried = groups.last().map(|group| group.load.clone());
            work.groups.extend(groups.into_iter().map(|group| (at, group)));
        } else {
            session.lines.push(shown.to_owned());
        }
        if self.wild(20) && details.is_empty() {
            session.lines.push("  - cue: slow down".into());
        }
        for _ in 0..self.random.within(1..=4) {
            let most = if self.wild(10) { 2 } else { 1 };
            let (text, groups) = self.groups(work.lift, style, session.block, carried.clone(), most, true);
            let line = session.lines.len() as u32;
            let indent = self.spell("  ", &["    ", "\t"]);
            let bullet = self.spell("-", &["*", "+"]);
            session.lines.push(format!("{indent}{bullet} {text}"));
            carried = groups.last().map(|group| group.load.clone());
            work.groups.extend(groups.into_iter().map(|group| (line, group)));
            if self.wild(8) {
                session.lines.push(self.random.pick(&TALK).to_owned());
            }
        }
    }

    pub(super) fn as_planned(
        &mut self,
        session: &mut Session,
        work: &mut Work,
        style: Style,
        shown: &str,
        details: &mut Vec<String>,
    ) {
        let at = session.lines.len() as u32;
        let (plan, mut groups) = self.groups(work.lift, style, session.block, None, 2, false);
        // The plan's own effort, faults and misses are no part of what was done, so it must have none.
        if groups.iter().any(|group| group.effort || group.sets.iter().any(|set| !set.clean || set.effort.is_some())) {
            session.lines.push(format!("{shown} {plan}"));
            work.groups = groups.into_iter().map(|group| (at, group)).collect();
            return;
        }
        let mut text = format!("{shown} {}", self.spell("as planned", &["As planned", "as  planned"]));
        if self.chance(50) {
            let (efforts, words) = self.one_effort();
            text += &format!(" {words}");
            groups.iter_mut().flat_map(|group| &mut group.sets).for_each(|set| set.effort = Some(efforts));
        }
        if self.chance(8) {
            text += " !depth";
            groups.iter_mut().flat_map(|group| &mut group.sets).for_each(|set| set.clean = false);
        }
        session.lines.push(text + self.spell("", &[".", " (good)"]));
        work.groups = groups.into_iter().map(|group| (at, group)).collect();
        let plan = if self.chance(30) && !plan.ends_with(')') { format!("{plan} RPE 5-6") } else { plan };
        details.insert(0, format!("plan: {plan}"));
    }

    pub(super) fn detail_lines(&mut self, lift: usize, style: Style, details: &mut Vec<String>) {
        let talk = self.shape.talk;
        if !self.shape.wild && self.chance(70) {
            let (reps, load) = (self.random.within(3..=12), LIFTS[self.lifts[lift].0].3);
            let loaded = style == Style::Barbell;
            details.push(if loaded {
                format!("plan: 3x{reps} @ {load} kg RPE 6-7")
            } else {
                format!("plan: 3x{reps}-{} RPE 6-7", reps + 2)
            });
        }
        if self.chance(talk / 2) {
            let key = self.spell("warm-up", &["warmup", "Warm up"]);
            details.push(format!("{key}: 8 @ 20 kg, 5 @ 60 kg, 3 @ {} kg", self.random.within(70..=400)));
        }
        if self.chance(talk) {
            details.push(format!("cue: {}", self.random.pick(&CUES)));
        }
        if self.chance(talk / 2) {
            details.push(format!(
                "setup: rack at {}, safeties at {}",
                self.random.within(7..=12),
                self.random.within(2..=5)
            ));
        }
        if self.chance(talk / 2) {
            details.push("why: it carries over to the competition lift and spares the lower back".into());
        }
        if self.chance(talk) {
            details.push(format!("note: {}", self.random.pick(&TALK)));
        }
        if self.wild(8) {
            let text = self.random.pick(&[
                "plan: 3x8-10 @ 60 kg RPE 6-7",
                "plan: 2-3x5+",
                "felt light: odd",
                "instead of: Back squat",
                "just a thought",
            ]);
            details.push(text.to_owned());
        }
    }
}
