//! The lifters, their pages, and a model of what was planned and reached.

use crate::support::repository::Repository;
use chrono::{Datelike, Days, NaiveDate};
use std::collections::BTreeMap;

/// Of how many planned sets so many were reached, by the lifter's folder and the Monday of the week.
type Counts = BTreeMap<(String, NaiveDate), (u32, u32)>;

/// What becomes of a planned line.
pub enum Done {
    /// All of it, at that effort.
    AsPlanned(&'static str),
    /// These sets, of which so many reach planned ones.
    Sets(&'static str, u32),
    /// Left out, for a reason.
    Skipped(&'static str),
    /// Nothing is written.
    Nothing,
}

pub struct Squad {
    pub repository: Repository,
    /// Wren's telephone.
    pub phone: Option<Repository>,
    counts: Counts,
    today: NaiveDate,
}

/// Each lifter's folder, and the loads of the first week: squat, split squat, bench press, row, deadlift.
pub const SIX: [(&str, [&str; 5]); 6] = [
    ("bram", ["150 kg", "2x24 kg", "110 kg", "80 kg", "190 kg"]),
    ("edda", ["80 kg", "2x14 kg", "50 kg", "42.5 kg", "100 kg"]),
    ("mila", ["105 kg", "2x16 kg", "62.5 kg", "55 kg", "130 kg"]),
    ("oskar", ["120 kg", "2x20 kg", "90 kg", "70 kg", "150 kg"]),
    ("tarek", ["315 lb", "2x50 lb", "225 lb", "155 lb", "405 lb"]),
    ("wren", ["95 kg", "2x16 kg", "60 kg", "50 kg", "120 kg"]),
];

/// The block that everybody begins with.
pub fn first_page([squat, split, bench, row, pull]: [&str; 5]) -> String {
    let line = |lift: &str, plan: String| format!("- {lift}:\n  - plan: {plan}\n");
    format!(
        "# Block 1\n\n- starts: 2026-03-02\n- weeks: 4\n- deload: week 4\n- phase: strength\n\n## 2026-03-02 squat day\n\n{}{}\n\
         ## 2026-03-04 bench day\n\n{}{}\n## 2026-03-06 pull day\n\n{}{}",
        line("Back squat", format!("3x5 @ {squat} RPE 6-7")),
        line("Split squat", format!("2x8/side @ {split} RPE 7")),
        line("Bench press", format!("3x5 @ {bench} RPE 6-7")),
        line("Barbell row", format!("3x8 @ {row} RPE 7")),
        line("Deadlift", format!("3x4 @ {pull} RPE 6-7")),
        line("Plank", "3x45s".into()),
    )
}

/// How many sets a plan without a choice in it has: `3x5 @ 100 kg, 1x5 @ 90 kg` has four.
fn sets(plan: &str) -> u32 {
    let groups = plan.split(", ").map(|group| group.split(['x', ' ']).next().unwrap().parse::<u32>());
    // A single set may be written without its count.
    groups.map(|count| count.unwrap_or(1)).sum()
}

fn monday(date: NaiveDate) -> NaiveDate {
    date - Days::new(u64::from(date.weekday().num_days_from_monday()))
}

impl Squad {
    pub fn new() -> Self {
        let today = NaiveDate::from_ymd_opt(2026, 3, 1).unwrap();
        Squad { repository: Repository::new(), phone: None, counts: Counts::new(), today }
    }

    /// From now on it is this day of 2026, such as `03-08`.
    pub fn on(&mut self, day: &str) {
        let today = format!("2026-{day}");
        self.today = today.parse().unwrap();
        self.repository.on(&today);
        if let Some(phone) = &mut self.phone {
            phone.on(&today);
        }
    }

    /// A lifter writes what became of each planned line of a page, asked of its date and lift.
    pub fn train(&mut self, lifter: &str, page: &str, how: impl Fn(&str, &str) -> Done) {
        let path = format!("{lifter}/{page}.md");
        let text = self.filled(lifter, &self.repository.read(&path), how);
        self.repository.write(&path, &text);
    }

    /// A page with its planned lines filled in, and counted.
    pub fn filled(&mut self, lifter: &str, page: &str, how: impl Fn(&str, &str) -> Done) -> String {
        let lines: Vec<&str> = page.lines().collect();
        let (mut text, mut date) = (String::new(), "");
        for (at, line) in lines.iter().enumerate() {
            if let Some(heading) = line.strip_prefix("## ") {
                date = &heading[..10];
            }
            let plan = lines.get(at + 1).and_then(|next| next.strip_prefix("  - plan: "));
            let lift = line.strip_prefix("- ").and_then(|line| line.strip_suffix(':'));
            text += line;
            if let (Some(lift), Some(plan)) = (lift, plan) {
                let (planned, done) = (sets(plan), how(date, lift));
                let (words, reached) = match done {
                    Done::AsPlanned("") => (" as planned".to_owned(), planned),
                    Done::AsPlanned(effort) => (format!(" as planned RPE {effort}"), planned),
                    Done::Sets(sets, reached) => (format!(" {sets}"), reached),
                    Done::Skipped(why) => (format!(" skipped ({why})"), 0),
                    Done::Nothing => (String::new(), 0),
                };
                text += &words;
                let week = monday(date.parse().unwrap());
                let counts = self.counts.entry((lifter.to_owned(), week)).or_default();
                *counts = (counts.0 + planned, counts.1 + reached);
            }
            text.push('\n');
        }
        text
    }

    /// Everybody who is named does a page as planned: the first lift of each day at an effort, the others easier.
    pub fn as_planned(&mut self, lifters: &[&str], page: &str, effort: &'static str) {
        for lifter in lifters {
            self.train(lifter, page, |_, lift| match lift {
                "Back squat" | "Bench press" | "Deadlift" => Done::AsPlanned(effort),
                _ => Done::AsPlanned(""),
            });
        }
    }

    /// So many planned sets of a week were reached elsewhere than under their plan.
    pub fn reach(&mut self, lifter: &str, week: &str, sets: u32) {
        let week = format!("2026-{week}").parse().unwrap();
        self.counts.entry((lifter.to_owned(), week)).or_default().1 += sets;
    }

    /// Plans of a week that nobody does, moved elsewhere or planned anew: they are not counted.
    pub fn forget(&mut self, lifter: &str, week: &str) {
        self.counts.remove(&(lifter.to_owned(), format!("2026-{week}").parse().unwrap()));
    }

    /// What the roster of a Sunday says of the week, against the model.
    pub fn sunday(&self, present: &[&str]) {
        let answer = self.repository.json(&["roster", "--sort", "name"]);
        let lines = answer["lifters"].as_array().unwrap();
        let told: Vec<(&str, u64, u64)> = lines
            .iter()
            .map(|line| {
                let number = |field: &str| line[field].as_u64().unwrap();
                (line["folder"].as_str().unwrap(), number("sets_planned"), number("sets_reached"))
            })
            .collect();
        let expected: Vec<(&str, u64, u64)> = present
            .iter()
            .map(|lifter| {
                let (planned, reached) =
                    self.counts.get(&((*lifter).to_owned(), monday(self.today))).copied().unwrap_or_default();
                (*lifter, u64::from(planned), u64::from(reached))
            })
            .collect();
        assert_eq!(told, expected, "{}: planned sets and those reached", self.today);
        assert_eq!(answer["left_out"], 0, "{}: a line counts nowhere", self.today);
    }
}
