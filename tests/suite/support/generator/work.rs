//! A lift's work line, its set lines and its details.

use super::book::{LIFTS, Lift, OWN_LIFTS, Style};
use super::load::Load;
use super::model::{Details, Fate, Group, Model, Session, Work};
use super::plan::{plan_of, simple};
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
        let mut work = Work { lift, line: at, fate: Fate::Done, groups: Vec::new(), plan: None, instead_of: None };
        let mut details = Details::default();
        self.detail_lines(session, lift, style, &mut details);
        let mut planned = self.random.below(100);
        if self.shape.coached && lift == 1 && self.chance(88) {
            planned %= 7;
        }
        match planned {
            0..4 => {
                work.fate = Fate::Skipped;
                session.lines.push(format!("{shown} {}", self.spell("skipped", &["Skipped (knee)", "skipped."])));
                if !self.wild(30) {
                    details.plan_first("3x8 @ 60 kg RPE 6", simple((3, 3), (8, Some(8)), Some(60), Some((6, 6))));
                }
            }
            4..7 => {
                work.fate = Fate::Nothing;
                session.lines.push(shown);
                if !self.wild(20) {
                    details.plan_first("3x8-10 RPE 6-7", simple((3, 3), (8, Some(10)), None, Some((6, 7))));
                }
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
        if planned >= 17 && self.wild(45) {
            let done: Vec<Group> = work.groups.iter().map(|(_, group)| group.clone()).collect();
            let (text, plan) = self.plan_for(lift, style, session.block, &done);
            details.plan_first(&text, plan);
        }
        work.plan = details.plan;
        work.instead_of = details.instead_of;
        for detail in details.lines {
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
        details: &Details,
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
        if self.wild(20) && details.lines.is_empty() {
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
        details: &mut Details,
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
            groups.iter_mut().for_each(|group| group.fault = Some("depth"));
            groups.iter_mut().flat_map(|group| &mut group.sets).for_each(|set| set.clean = false);
        }
        session.lines.push(text + self.spell("", &[".", " (good)"]));
        work.groups = groups.into_iter().map(|group| (at, group)).collect();
        work.fate = Fate::AsPlanned;
        let hard = self.chance(30) && !plan.ends_with(')');
        let plan = if hard { format!("{plan} RPE 5-6") } else { plan };
        let done: Vec<Group> = work.groups.iter().map(|(_, group)| group.clone()).collect();
        details.plan_first(&plan, plan_of(&done, hard.then_some((20, 24))));
    }

    pub(super) fn detail_lines(&mut self, session: &Session, lift: usize, style: Style, all: &mut Details) {
        let talk = self.shape.talk;
        let details = &mut all.lines;
        if !self.shape.wild && self.chance(70) {
            let (reps, load) = (self.random.within(3..=12), LIFTS[self.lifts[lift].0].3);
            let loaded = style == Style::Barbell;
            let (text, most) = match loaded {
                true => (format!("3x{reps} @ {load} kg RPE 6-7"), reps),
                false => (format!("3x{reps}-{} RPE 6-7", reps + 2), reps + 2),
            };
            details.push(format!("plan: {text}"));
            all.plan = Some(simple((3, 3), (reps, Some(most)), loaded.then_some(load), Some((6, 7))));
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
        if self.wild(12) {
            match self.random.below(6) {
                0 => {
                    details.push("plan: 3x8-10 @ 60 kg RPE 6-7".into());
                    all.plan = Some(simple((3, 3), (8, Some(10)), Some(60), Some((6, 7))));
                }
                1 => {
                    details.push("plan: 2-3x5+".into());
                    all.plan = Some(simple((2, 3), (5, None), None, None));
                }
                2 => details.push("felt light: odd".into()),
                3 => details.push("just a thought".into()),
                _ => {
                    let other = self.replaced(session);
                    let spelled = if self.wild(50) { self.random.pick(&other.spellings()) } else { other.shown() };
                    details.push(format!("instead of: {spelled}"));
                    all.instead_of = Some(other.shown());
                }
            }
        }
    }

    /// A lift to stand in for: one of the session that was left out, where there is one. Lifts of the lifter's own are
    /// shown as first written, which is not known yet.
    fn replaced(&mut self, session: &Session) -> &'static Lift {
        let left_out = session.works.iter().filter(|work| matches!(work.fate, Fate::Skipped | Fate::Nothing));
        let left_out: Vec<usize> = left_out.map(|work| self.lifts[work.lift].0).collect();
        let known: Vec<usize> = self.lifts.iter().map(|(place, _)| *place).collect();
        let from = if left_out.is_empty() || self.chance(20) { known } else { left_out };
        let from: Vec<usize> = from.into_iter().filter(|place| *place < OWN_LIFTS).collect();
        &LIFTS[if from.is_empty() { 0 } else { self.random.pick(&from) }]
    }
}
