//! Sessions: headings, facts, prose between the lifts.

use super::model::{Model, Pain, Session};
use super::number::{KG, LB, decimal, half};
use chrono::NaiveDate;

const LABELS: [&str; 6] = ["heavier", "Technique", "technique", "pull", "upper body", "B"];

pub(super) const TALK: [&str; 8] = [
    "Slept badly, the bar felt heavy all the same.",
    "Warm hall, chalk ran out halfway.",
    "Longer rests than planned because the rack was taken.",
    "The last set moved as quickly as the first one.",
    "Left hip a little stiff, gone after the first sets.",
    "Belt one hole tighter from the second set on.",
    "Short of time, so the small lifts were cut.",
    "Filmed from the side; depth is fine, elbows drop a bit at the end.",
];

impl Model {
    /// A session for each day; two on one day are told apart by their times.
    pub(super) fn train(&mut self, mut calendar: Vec<NaiveDate>) {
        calendar.sort_unstable();
        let mut minute = None;
        for at in 0..calendar.len() {
            let date = calendar[at];
            let follows = at > 0 && calendar[at - 1] == date;
            let leads = calendar.get(at + 1) == Some(&date);
            minute = match (follows, minute) {
                (false, _) if leads && self.shape.timed => Some(self.random.within(300..=600)),
                (false, _) => self.chance(20).then(|| self.random.within(300..=600)),
                (true, earlier) if self.shape.timed || earlier.is_some() => {
                    Some(earlier.unwrap_or(600) + self.random.within(1..=90))
                }
                (true, _) => Some(self.random.within(700..=1200)),
            };
            let session = self.session(date, minute);
            self.sessions.push(session);
        }
    }

    pub(super) fn session(&mut self, date: NaiveDate, minute: Option<u32>) -> Session {
        let mut block = self.block_on(date);
        let mut week = block.map(|block| self.week_of(block, date));
        let mut words: Vec<String> = Vec::new();
        let mut day = self.chance(55).then(|| self.random.pick(&LABELS));
        if let Some(day) = day {
            words.push(if day.len() == 1 { format!("day {day}") } else { format!("{day} day") });
        }
        if !self.blocks.is_empty() && self.wild(4) {
            let other = self.random.below(self.blocks.len());
            block = Some(other);
            week = Some(self.week_of(other, date));
            words.push(format!("{} {}", self.spell("block", &["Block"]), self.blocks[other].name));
        }
        if block.is_some() && self.wild(5) {
            week = Some(self.random.within(1..=4));
            words.push(format!("week {}", week.unwrap_or(1)));
        }
        // Whole weeks are marked now and then, so that such weeks are light by their sessions alone.
        let whole = block.zip(week).is_some_and(|(block, week)| (block as u32 * 7 + week * 3) % 11 == 4);
        let marked = self.shape.wild && (whole || self.chance(6));
        let mut peaks = false;
        if marked {
            let word = self.random.pick(&["deload", "peak", "Deload"]);
            peaks = word == "peak";
            words.push(word.to_owned());
        }
        let mut meet = None;
        let mut test_day = false;
        if self.wild(10) {
            let word = self.random.pick(&["easy does it", "new shoes", "meet Harbour Open", "meet"]);
            meet = word.strip_prefix("meet").map(str::trim_start);
            words.push(word.to_owned());
        } else if self.shape.coached && self.chance(4) {
            // A test day is its own label.
            test_day = day.is_none();
            words.extend(test_day.then(|| self.spell("test day", &["Test day"]).to_owned()));
            day = day.or(Some("test"));
        }
        self.random.shuffle(&mut words);
        let mut session = Session {
            date,
            minute,
            block,
            week,
            day,
            marked,
            peaks,
            meet,
            test_day,
            pains: Vec::new(),
            bodyweight: None,
            works: Vec::new(),
            lines: Vec::new(),
        };
        session.lines.push(self.session_heading(date, minute, &words));
        session.lines.push(String::new());
        self.facts(&mut session);
        for _ in 0..self.random.within(self.shape.lifts.clone()) {
            if self.chance(self.shape.talk) {
                self.prose(&mut session.lines);
            }
            let lift = if self.chance(30) { self.random.below(3) } else { self.random.below(self.lifts.len()) };
            self.work(&mut session, lift);
        }
        if self.chance(self.shape.talk) {
            self.prose(&mut session.lines);
        }
        session.lines.push(String::new());
        session
    }

    pub(super) fn session_heading(&mut self, date: NaiveDate, minute: Option<u32>, words: &[String]) -> String {
        let weekday = date.format("%A").to_string();
        let mut text = self.spell("##", &["#", "###", " ##"]).to_owned() + " ";
        if self.wild(15) {
            text += &format!("{}{} ", &weekday[..3], self.spell("", &[",", "."]));
        }
        text += &date.to_string();
        if self.wild(15) {
            text += &format!("{}{weekday}", self.spell(" ", &[", "]));
        }
        if let Some(minute) = minute {
            text += &format!(" {}:{:02}", minute / 60, minute % 60);
        }
        if !words.is_empty() {
            text += self.spell(" ", &[", "]);
            text += &words.join(", ");
        }
        text + self.spell("", &[" ##", " "])
    }

    pub(super) fn facts(&mut self, session: &mut Session) {
        if self.chance(30) {
            let (number, unit, word) = if self.wild(30) {
                (self.random.within(160..=200) * 1000, LB, "lb")
            } else {
                (self.random.within(780..=880) * 100, KG, "kg")
            };
            session.bodyweight = Some(i64::from(number) * (unit / 1000));
            let key = self.spell("bodyweight", &["bw", "weight", "Bodyweight", "- bodyweight"]);
            let plain = (unit == LB) == self.gym.pounds && self.wild(40);
            session.lines.push(format!(
                "{key}: {}{}",
                decimal(i64::from(number)),
                if plain { String::new() } else { format!(" {word}") }
            ));
        }
        for fact in
            ["sleep: 7:30", "duration: 75 min", "- session RPE: 7", "- pain: left knee 2/10", "- note: hall was cold"]
        {
            if self.chance(self.shape.talk / 3) {
                if fact.contains("pain") {
                    let line = session.lines.len() as u32;
                    session.pains.push(Pain { site: "left knee", tenths: 20, line });
                }
                session.lines.push(fact.to_owned());
            }
        }
        while self.shape.coached && self.chance(20) {
            let site = self.random.pick(&["left knee", "Left Knee", "right elbow", "low back", "lower back"]);
            let halves = self.random.pick(&[0, 1, 2, 5, 8, 20]);
            let line = session.lines.len() as u32;
            session.pains.push(Pain { site, tenths: 5 * halves, line });
            session.lines.push(format!("{}pain: {site} {}/10", self.spell("- ", &["", "* "]), half(halves)));
        }
        if self.chance(50) {
            session.lines.push(String::new());
        }
    }

    /// Lines that are no work, some of which would be elsewhere.
    pub(super) fn prose(&mut self, lines: &mut Vec<String>) {
        let talk = self.random.pick(&TALK);
        match if self.wild(40) { self.random.below(5) } else { 9 } {
            0 => lines.extend(["```".into(), "- Front squat: 5x20 @ 300 kg".into(), "```".into()]),
            1 => lines.push("> - Front squat: 5x20 @ 300 kg".into()),
            2 => lines.extend(["<!-- not done:".into(), "- Front squat: 5x20 @ 300 kg".into(), "-->".into()]),
            3 => lines.extend(["#### Afterwards".into(), talk.to_owned()]),
            4 => lines.extend(["- stretched a little".into(), "  - hips and calves, as ever".into()]),
            _ => lines.extend([String::new(), talk.to_owned(), String::new()]),
        }
    }
}
