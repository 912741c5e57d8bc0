//! Seeded journals, with the model they were written from.
//!
//! A model is made first: blocks, sessions, lifts, sets. It is written down twice: as pages in the notation,
//! and as plain rows, one for each set. The rows never pass through the program, so they can bear witness
//! against it. Shared with the benches, hence nothing here but `std` and `chrono`.

use chrono::{Datelike, Days, NaiveDate};
use std::collections::BTreeMap;
use std::ops::RangeInclusive;

/// A kilogram in the rows' unit: hundred-billionths of a kilogram, in which pounds are whole numbers too.
pub const KG: i64 = 100_000_000_000;
/// A pound in the rows' unit (NIST SP 811: 0.45359237 kg exactly).
pub const LB: i64 = 45_359_237_000;
/// A metre in the rows' unit: ten-millionths of a metre.
pub const METRE: i64 = 10_000_000;
/// A bodyweight older than this is no longer in force.
const BODYWEIGHT_DAYS: i64 = 60;

/// A small generator of numbers (splitmix64), the same on every machine.
pub struct Random(u64);

impl Random {
    /// Starts from a seed.
    pub fn new(seed: u64) -> Self {
        Random(seed.wrapping_mul(0xD129_0B26_83F3_5A4B))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number below `count`.
    pub fn below(&mut self, count: usize) -> usize {
        (self.next() % count.max(1) as u64) as usize
    }

    /// A number in a range.
    pub fn within(&mut self, range: RangeInclusive<u32>) -> u32 {
        range.start() + self.below((range.end() - range.start() + 1) as usize) as u32
    }

    /// Whether something of that many percent happens.
    pub fn chance(&mut self, percent: u32) -> bool {
        self.below(100) < percent as usize
    }

    /// One of several.
    pub fn pick<T: Clone>(&mut self, items: &[T]) -> T {
        items[self.below(items.len())].clone()
    }

    /// Another order.
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for at in (1..items.len()).rev() {
            items.swap(at, self.below(at + 1));
        }
    }
}

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
    pub date: NaiveDate,
    /// Which block, in order of time.
    pub block: Option<u32>,
    pub week: Option<u32>,
    /// Whether the week is a deload or peak week.
    pub light: bool,
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
    /// Which written group, in order of time.
    pub group: u32,
    pub page: String,
    pub line: u32,
}

/// A block of the model.
#[derive(Clone, Debug)]
pub struct Block {
    pub name: String,
    pub starts: NaiveDate,
    pub ends: Option<NaiveDate>,
    light: Vec<u32>,
    /// The lift, by its place in the model, and its maximum.
    maxima: Vec<(usize, i64)>,
    lines: Vec<String>,
}

/// A journal written.
pub struct Journal {
    /// Paths below the root, and texts; settings first.
    pub files: Vec<(String, String)>,
    pub today: NaiveDate,
    /// In order of time and writing.
    pub rows: Vec<Row>,
    /// In order of time.
    pub blocks: Vec<Block>,
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

/// How large a journal is, and how wildly it is spelled.
pub struct Shape {
    blocks: RangeInclusive<u32>,
    weeks: RangeInclusive<u32>,
    sessions: RangeInclusive<u32>,
    lifts: RangeInclusive<u32>,
    /// Percent of the places for a detail or a line of prose that are used.
    talk: u32,
    /// Whether every legal spelling is used, or the tidy one.
    wild: bool,
    /// Whether sessions of one date always have times.
    timed: bool,
    first: NaiveDate,
}

/// A small journal in wild spelling.
pub fn journal(seed: u64) -> Journal {
    Model::new(Shape { timed: false, ..small() }, seed).written()
}

/// A small journal whose sessions of one date all have times, so that any page may hold any of them.
pub fn timed_journal(seed: u64) -> Journal {
    Model::new(small(), seed).written()
}

fn small() -> Shape {
    Shape {
        blocks: 1..=3,
        weeks: 3..=6,
        sessions: 1..=3,
        lifts: 2..=4,
        talk: 25,
        wild: true,
        timed: true,
        first: day(2019, 1, 7),
    }
}

/// The journal of so many years: four sessions a week with plans, cues and remarks, tidily spelled, a page
/// a block. Thirty years are about 10 MB.
#[allow(dead_code, reason = "the benches use it")]
pub fn lifetime(years: u32, seed: u64) -> Journal {
    let blocks = years * 52 / 4;
    let shape = Shape {
        blocks: blocks..=blocks,
        weeks: 4..=4,
        sessions: 4..=4,
        lifts: 5..=5,
        talk: 92,
        wild: false,
        timed: true,
        first: day(1996, 1, 1),
    };
    Model::new(shape, seed).written()
}

fn day(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).expect("a real date")
}

/// How a lift is loaded and counted.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Style {
    Barbell,
    Dumbbells,
    OneSide,
    Bodyweight,
    Hold,
    Rollout,
    Carry,
    Stack,
    Band,
    Odd,
}

/// A lift of the trade: its spellings, the shown one first, its family, and its usual kilograms.
struct Lift(&'static str, &'static str, Style, i64);

impl Lift {
    fn spellings(&self) -> Vec<&'static str> {
        self.0.split('|').collect()
    }

    fn shown(&self) -> &'static str {
        self.0.split('|').next().unwrap_or("")
    }
}

/// Names from the lift book, then two that only the settings know, then names of the lifter's own.
const LIFTS: [Lift; 24] = [
    Lift("Front squat|front squats|FRONT-SQUAT|front_squat|barbell front squat", "squat", Style::Barbell, 100),
    Lift("Back squat|Squat|squats|barbell back squat", "squat", Style::Barbell, 140),
    Lift("Deadlift|deadlifts|conventional deadlift|DL", "hinge", Style::Barbell, 160),
    Lift("Bench press|bench|Bench-Press|flat bench press", "horizontal press", Style::Barbell, 90),
    Lift("Overhead press|OHP|strict press", "vertical press", Style::Barbell, 60),
    Lift("Pull-up|pull ups|Pullup|weighted pull-up", "vertical pull", Style::Bodyweight, 15),
    Lift("Romanian deadlift|RDL|barbell RDL|romanian deadlifts", "hinge", Style::Barbell, 110),
    Lift("Bulgarian split squat|RFESS|BSS", "single leg", Style::OneSide, 24),
    Lift("Barbell row|bent-over row|BB row", "horizontal pull", Style::Barbell, 80),
    Lift("Dip|dips|parallel bar dip", "horizontal press", Style::Bodyweight, 20),
    Lift("Dumbbell row|DB row|one-arm dumbbell row", "horizontal pull", Style::OneSide, 32),
    Lift("Dumbbell bench press|DB bench", "horizontal press", Style::Dumbbells, 28),
    Lift("Plank|planks|front plank", "trunk", Style::Hold, 10),
    Lift("Ab wheel rollout|ab wheel|rollouts", "trunk", Style::Rollout, 0),
    Lift("Farmer's carry|farmer’s walk|farmers walk", "carry", Style::Carry, 60),
    Lift("Sled push|sled-push", "carry", Style::Carry, 90),
    Lift("Lat pulldown|pulldowns|cable pulldown", "vertical pull", Style::Stack, 9),
    Lift("Leg extension|leg extensions", "other", Style::Stack, 6),
    Lift("Face pull|face pulls", "horizontal pull", Style::Band, 0),
    Lift("Biceps curl|curls|bicep curl", "arms", Style::Odd, 30),
    Lift("Ring row|ring rows|strap row", "horizontal pull", Style::Bodyweight, 5),
    Lift("Slope march|slope-march|bank march", "carry", Style::Carry, 20),
    Lift("Tyre heave|tyre heaves|TYRE-HEAVE", "other", Style::Odd, 80),
    Lift("Anvil shrug walk|anvil shrug-walk", "other", Style::Carry, 40),
];
/// Where in [`LIFTS`] those begin that nobody knows.
const OWN_LIFTS: usize = 22;

/// The gym that the pages are written for.
struct Gym {
    pounds: bool,
    bars: Vec<(&'static str, i64)>,
    colours: Vec<(&'static str, i64)>,
    collars: i64,
    step: i64,
    high_reps: u32,
    /// The lifter's folder with a `/`, or nothing.
    folder: &'static str,
    files: Vec<(String, String)>,
}

impl Gym {
    fn new(random: &mut Random, wild: bool) -> Self {
        let colours =
            vec![("red", 25 * KG), ("blue", 20 * KG), ("yellow", 15 * KG), ("green", 10 * KG), ("white", 5 * KG)];
        let mut gym = Gym {
            pounds: false,
            bars: vec![("bar", 20 * KG)],
            colours,
            collars: 0,
            step: KG * 5 / 2,
            high_reps: 8,
            folder: "",
            files: Vec::new(),
        };
        let lifts = "lifts:\n  - { name: Ring row, family: horizontal pull, also: [strap row], bodyweight: true }\n  \
                     - { name: Slope march, family: carry, also: [bank march] }\n";
        let mut settings = lifts.to_owned();
        match if wild { random.below(4) } else { 1 } {
            0 => {}
            1 | 2 => {
                gym.bars = vec![("bar", 20 * KG), ("trap bar", 45 * LB), ("axle", KG * 25 / 2)];
                gym.colours = vec![("red", 25 * KG), ("blue", 20 * KG), ("violet", 35 * LB), ("grey", KG * 5 / 2)];
                gym.collars = random.pick(&[0, KG * 5 / 2, 5 * KG]);
                gym.step = 2 * KG;
                settings += "gear:\n  bars: { bar: 20 kg, trap bar: 45 lb, axle: 12.5 kg }\n  plates:\n    \
                             - { mass: 25 kg, colour: red }\n    - { mass: 20 kg, colour: blue, pairs: 4 }\n    \
                             - { mass: 35 lb, colour: violet }\n    - { mass: 2.5 kg, colour: grey }\n    - { mass: 1 kg }\n";
                settings += &format!("  collars: {} kg\n", decimal(gym.collars / (KG / 1000)));
            }
            _ => {
                gym.pounds = true;
                gym.colours.clear();
                gym.step = 5 * LB;
                settings += "units: lb\n";
            }
        }
        if wild && random.chance(30) {
            gym.high_reps = random.within(6..=12);
            settings += &format!("high reps: {}\n", gym.high_reps);
        }
        if wild && random.chance(30) {
            gym.folder = "ilse/";
            let mut own = "name: Ilse\n".to_owned();
            if random.chance(50) {
                gym.high_reps = random.within(6..=12);
                own += &format!("high reps: {}\n", gym.high_reps);
            }
            gym.files.push(("ilse/lifter.yaml".into(), own));
        }
        gym.files.push(("journal.yaml".into(), settings));
        gym
    }
}

/// A load: what it comes to, how it is tidied, and how it is written here.
#[derive(Clone)]
struct Load {
    kind: Kind,
    /// Of masses the mass, of bodyweights and pins what is added.
    mass: i64,
    pin: i64,
    text: Option<String>,
    written: String,
    approximate: bool,
    /// One mass with its unit, which may stand beside an `x`.
    joins: bool,
}

impl Load {
    fn none() -> Self {
        Load { kind: Kind::None, mass: 0, pin: 0, text: None, written: String::new(), approximate: false, joins: false }
    }

    fn of(kind: Kind, mass: i64, text: String, written: String) -> Self {
        Load { kind, mass, text: Some(text), written, ..Load::none() }
    }

    fn own() -> Self {
        Load::of(Kind::Bodyweight, 0, "bw".into(), "bw".into())
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Amount {
    Reps(u32),
    Seconds(u32),
    Metres(i64),
}

#[derive(Clone)]
struct SetDone {
    amount: Amount,
    effort: Option<u32>,
    clean: bool,
}

/// A group as it was done.
#[derive(Clone)]
struct Group {
    sets: Vec<SetDone>,
    per_side: bool,
    load: Load,
    /// Whether an effort, a miss or an AMRAP is written.
    effort: bool,
}

/// What a session's work line left: the lift by its place in the model, and its groups with their lines.
struct Work {
    lift: usize,
    groups: Vec<(u32, Group)>,
}

struct Session {
    date: NaiveDate,
    minute: Option<u32>,
    block: Option<usize>,
    week: Option<u32>,
    day: Option<&'static str>,
    marked: bool,
    bodyweight: Option<i64>,
    works: Vec<Work>,
    lines: Vec<String>,
}

impl Session {
    fn has_work(&self) -> bool {
        let mut sets = self.works.iter().flat_map(|work| &work.groups).flat_map(|(_, group)| &group.sets);
        sets.any(|set| set.amount != Amount::Reps(0))
    }
}

struct Model {
    shape: Shape,
    random: Random,
    gym: Gym,
    /// Places in [`LIFTS`], and the name each is shown by.
    lifts: Vec<(usize, Option<String>)>,
    blocks: Vec<Block>,
    sessions: Vec<Session>,
}

const LABELS: [&str; 6] = ["primary", "Secondary", "secondary", "pull", "upper body", "B"];
const TALK: [&str; 8] = [
    "Slept badly, the bar felt heavy all the same.",
    "Warm hall, chalk ran out halfway.",
    "Longer rests than planned because the rack was taken.",
    "The last set moved as quickly as the first one.",
    "Left hip a little stiff, gone after the first sets.",
    "Belt one hole tighter from the second set on.",
    "Short of time, so the small lifts were cut.",
    "Filmed from the side; depth is fine, elbows drop a bit at the end.",
];
const CUES: [&str; 5] = [
    "elbows high, sit between the knees",
    "chest first out of the bottom",
    "long arms, push the floor away",
    "tight upper back before the bar moves",
    "ribs down, breathe at the top only",
];

/// Thousandths as a number with as few decimals as it needs.
fn decimal(thousandths: i64) -> String {
    let text = format!("{}.{:03}", thousandths / 1000, thousandths % 1000);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Halves as a number.
fn half(halves: u32) -> String {
    decimal(i64::from(halves) * 500)
}

impl Model {
    fn new(shape: Shape, seed: u64) -> Self {
        let mut random = Random::new(seed);
        let gym = Gym::new(&mut random, shape.wild);
        let mut model = Model { gym, lifts: Vec::new(), blocks: Vec::new(), sessions: Vec::new(), random, shape };
        model.choose_lifts();
        let calendar = model.plan_blocks();
        model.train(calendar);
        model
    }

    fn chance(&mut self, percent: u32) -> bool {
        self.random.chance(percent)
    }

    /// Whether to spell something in another way than the tidy one.
    fn wild(&mut self, percent: u32) -> bool {
        self.shape.wild && self.random.chance(percent)
    }

    /// The tidy spelling, or at times another one.
    fn spell<'t>(&mut self, tidy: &'t str, others: &[&'t str]) -> &'t str {
        if self.wild(35) { self.random.pick(others) } else { tidy }
    }

    fn choose_lifts(&mut self) {
        let mut places: Vec<usize> = (1..LIFTS.len()).collect();
        self.random.shuffle(&mut places);
        let count = if self.shape.wild { 7 } else { 13 };
        places.truncate(count);
        places.insert(0, 0);
        self.lifts = places
            .into_iter()
            .map(|place| (place, (place < OWN_LIFTS).then(|| LIFTS[place].shown().to_owned())))
            .collect();
    }

    /// Blocks in order of time; gives the days that are trained on.
    fn plan_blocks(&mut self) -> Vec<NaiveDate> {
        let mut names = vec!["summer base", "6", "Harbour", "long sets", "B7", "winter", "21"];
        self.random.shuffle(&mut names);
        let mut date = self.shape.first;
        if self.shape.wild {
            date = date + Days::new(u64::from(self.random.within(0..=2500)));
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
        let mut light = Vec::new();
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
        Block { name, starts, ends, light, maxima, lines }
    }

    /// The block that holds a day.
    fn block_on(&self, date: NaiveDate) -> Option<usize> {
        self.blocks.iter().rposition(|block| block.starts <= date && block.ends.is_none_or(|ends| date <= ends))
    }

    /// The week of a day, the nearest there is.
    fn week_of(&self, block: usize, date: NaiveDate) -> u32 {
        let block = &self.blocks[block];
        let date = block.ends.map_or(date, |ends| date.min(ends));
        ((date - block.starts).num_days().max(0) / 7) as u32 + 1
    }

    /// A session for each day; two on one day are told apart by their times, or by their order.
    fn train(&mut self, mut calendar: Vec<NaiveDate>) {
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
                (true, _) => self.chance(50).then(|| self.random.within(700..=1200)),
            };
            let session = self.session(date, minute);
            self.sessions.push(session);
        }
    }

    fn session(&mut self, date: NaiveDate, minute: Option<u32>) -> Session {
        let mut block = self.block_on(date);
        let mut week = block.map(|block| self.week_of(block, date));
        let mut words: Vec<String> = Vec::new();
        let day = self.chance(55).then(|| self.random.pick(&LABELS));
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
        if marked {
            words.push(self.random.pick(&["deload", "peak", "Deload"]).to_owned());
        }
        if self.wild(10) {
            words.push(self.random.pick(&["easy does it", "new shoes", "meet Harbour Open", "meet"]).to_owned());
        }
        self.random.shuffle(&mut words);
        let mut session =
            Session { date, minute, block, week, day, marked, bodyweight: None, works: Vec::new(), lines: Vec::new() };
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

    fn session_heading(&mut self, date: NaiveDate, minute: Option<u32>, words: &[String]) -> String {
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

    fn facts(&mut self, session: &mut Session) {
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
                session.lines.push(fact.to_owned());
            }
        }
        if self.chance(50) {
            session.lines.push(String::new());
        }
    }

    /// Lines that are no work, some of which would be elsewhere.
    fn prose(&mut self, lines: &mut Vec<String>) {
        let talk = self.random.pick(&TALK);
        match if self.wild(40) { self.random.below(5) } else { 9 } {
            0 => lines.extend(["```".into(), "- Front squat: 5x20 @ 300 kg".into(), "```".into()]),
            1 => lines.push("> - Front squat: 5x20 @ 300 kg".into()),
            2 => lines.extend(["<!-- not done:".into(), "- Front squat: 5x20 @ 300 kg".into(), "-->".into()]),
            3 => lines.extend(["#### Afterwards".into(), talk.to_owned()]),
            4 => lines.extend(["- stretched a little".into(), "  - 5x20 @ 300 kg".into()]),
            _ => lines.extend([String::new(), talk.to_owned(), String::new()]),
        }
    }

    /// A lift's name in one of its spellings. The first one that is written of an own name is the shown one.
    fn lift_name(&mut self, lift: usize) -> &'static str {
        let lift = &LIFTS[self.lifts[lift].0];
        if self.wild(50) { self.random.pick(&lift.spellings()) } else { lift.shown() }
    }

    fn work(&mut self, session: &mut Session, lift: usize) {
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
    fn set_lines(&mut self, session: &mut Session, work: &mut Work, style: Style, shown: &str, details: &[String]) {
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

    fn as_planned(
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

    fn detail_lines(&mut self, lift: usize, style: Style, details: &mut Vec<String>) {
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

    /// Groups on one line, with their text. `carried`: the load that stands before, for set lines.
    fn groups(
        &mut self,
        lift: usize,
        style: Style,
        block: Option<usize>,
        carried: Option<Load>,
        most: u32,
        set_line: bool,
    ) -> (String, Vec<Group>) {
        let mut text = String::new();
        let mut groups: Vec<Group> = Vec::new();
        let count = if most == 1 || self.chance(55) { 1 } else { self.random.within(2..=most) };
        let default = matches!(style, Style::Bodyweight | Style::Hold | Style::Rollout);
        let per_side = match style {
            Style::OneSide => !self.chance(10),
            Style::Odd | Style::Carry => self.chance(6),
            _ => false,
        };
        let unloaded = carried.is_none() && !default && self.chance(8);
        for at in 0..count {
            let before = groups.last().map(|group| group.load.clone()).or_else(|| carried.clone());
            // A load that first appears after groups with none is an error, but not on a later set line.
            let written = match &before {
                None => !(unloaded || default && self.chance(50)),
                Some(load) if load.kind == Kind::None => set_line && at == 0 && self.chance(50),
                Some(_) => !self.chance(45),
            };
            let load = match (written, before) {
                (true, _) => self.load(lift, style, block),
                (false, Some(load)) => Load { written: String::new(), ..load },
                (false, None) if default => Load { written: String::new(), ..Load::own() },
                (false, None) => Load::none(),
            };
            let written = load.kind != Kind::None && !load.written.is_empty();
            let strict = groups.last().is_some_and(|group| group.effort && group.sets.len() > 1);
            let before_ends = text.rsplit(", ").next().is_some_and(|piece| piece.contains(['@', '!', '(']));
            let (piece, group) = self.group(style, per_side, load, written, strict);
            if at > 0 {
                // A comma that is glued to both sides parts groups only where no list can be meant.
                let over = text.ends_with(|c: char| !c.is_ascii_digit()) && before_ends;
                let glue = over && self.wild(15);
                text += if glue { "," } else { ", " };
            }
            text += &piece;
            groups.push(group);
        }
        (text, groups)
    }

    /// One group. `strict`: the group before has an effort for several sets, so that a bare number would be
    /// taken for one of its efforts.
    fn group(&mut self, style: Style, per_side: bool, load: Load, written: bool, strict: bool) -> (String, Group) {
        let mut amounts = self.amounts(style);
        if strict {
            // A list would begin with a bare number.
            let first = amounts[0];
            amounts.fill(first);
        }
        let mut sets: Vec<SetDone> =
            amounts.iter().map(|amount| SetDone { amount: *amount, effort: None, clean: true }).collect();
        let mut count = self.count(&amounts, per_side, strict);
        let mut attributes = self.efforts(&mut sets);
        let effort = !attributes.is_empty();
        if self.chance(7) {
            let fault = self.random.pick(&["depth", "lockout", "pause", "hitch"]);
            if sets.len() > 1 && self.chance(60) {
                let first = self.random.below(sets.len());
                sets[first].clean = false;
                let mut on = vec![(first + 1).to_string()];
                if first + 1 < sets.len() && self.chance(40) {
                    sets[first + 1].clean = false;
                    on.push((first + 2).to_string());
                }
                attributes.push(format!("!{fault}({})", on.join(self.spell(",", &[", "]))));
            } else {
                sets.iter_mut().for_each(|set| set.clean = false);
                attributes.push(format!("!{fault}"));
            }
        }
        if self.chance(8) {
            attributes.push(
                self.random.pick(&["rest 3:00", "rest 90s", "rest 2 min", "tempo 3-1-0", "tempo 3-1-X-0"]).to_owned(),
            );
        }
        if self.chance(8) {
            attributes.push(
                self.random.pick(&["(slow, but fine)", "(grip: hook)", "(belt on)", "(1 more was there)"]).to_owned(),
            );
        }
        self.random.shuffle(&mut attributes);
        let tail: String = attributes.iter().map(|attribute| format!(" {attribute}")).collect();
        let plain_reps =
            amounts.iter().all(|amount| matches!(amount, Amount::Reps(_))) && !count.contains(['+', ',']) && !per_side;
        if written && load.joins && plain_reps && self.wild(8) {
            let bare = count.bytes().all(|b| b.is_ascii_digit());
            count = match bare && self.chance(50) {
                true => format!("{} x {count}", load.written),
                false => format!("{count}{}{}", self.spell(" x ", &["x"]), load.written),
            };
        } else if written && self.wild(4) && !tail.is_empty() {
            return (format!("{count}{tail} @ {}", load.written), Group { sets, per_side, load, effort });
        } else if written {
            count += self.spell(" @ ", &["@", " @", "@ "]);
            count += &load.written;
        }
        (count + &tail, Group { sets, per_side, load, effort })
    }

    fn amounts(&mut self, style: Style) -> Vec<Amount> {
        let sets = self.random.within(1..=5) as usize;
        match style {
            Style::Hold => vec![Amount::Seconds(self.random.pick(&[20, 30, 45, 60, 90])); sets.min(3)],
            Style::Carry if self.chance(85) => {
                let metres = self.random.pick(&[
                    20 * METRE,
                    40 * METRE,
                    25 * METRE / 2,
                    2000 * METRE,
                    40 * METRE / 10_000 * 9_144,
                    1_609_344 * (METRE / 1000),
                ]);
                vec![Amount::Metres(metres); sets.min(3)]
            }
            _ => {
                let reps = self.random.pick(&[1, 2, 3, 5, 5, 6, 8, 8, 8, 10, 10, 12, 15]);
                let mut amounts = vec![Amount::Reps(reps); sets];
                if sets > 1 && self.chance(25) {
                    let lower = self.random.below(sets);
                    for amount in &mut amounts[lower..] {
                        *amount = Amount::Reps(reps.saturating_sub(self.random.within(0..=2)).max(1));
                    }
                    if self.chance(10) {
                        amounts[sets - 1] = Amount::Reps(0);
                    }
                    if self.chance(20) {
                        self.random.shuffle(&mut amounts);
                    }
                } else if sets == 1 && self.chance(6) {
                    amounts[0] = Amount::Reps(0);
                }
                amounts
            }
        }
    }

    /// A count in one of its spellings. `strict`: it may not begin with a bare number.
    fn count(&mut self, amounts: &[Amount], per_side: bool, strict: bool) -> String {
        let side = if per_side { self.spell("/side", &[" /side", "/ side"]) } else { "" };
        let times = self.spell("x", &[" x ", "X", "×", " × "]);
        let sets = amounts.len();
        let same = amounts.iter().all(|amount| *amount == amounts[0]);
        let one = match amounts[0] {
            Amount::Reps(reps) if same && reps >= 6 && self.chance(6) => {
                let last = self.random.within(1..=2);
                if self.chance(50) {
                    format!("{}+{last}", reps - last)
                } else {
                    format!("{}+{last}+{last}", reps - 2 * last)
                }
            }
            Amount::Reps(reps) => reps.to_string(),
            Amount::Seconds(seconds) if seconds % 60 == 0 && self.chance(50) => {
                format!("{}{}", seconds / 60, self.spell("min", &[" min"]))
            }
            Amount::Seconds(seconds) if seconds >= 60 => format!("{}:{:02}", seconds / 60, seconds % 60),
            Amount::Seconds(seconds) => format!("{seconds}{}", self.spell("s", &[" s"])),
            Amount::Metres(metres) if metres % METRE != 0 && metres % (METRE / 10) != 0 => {
                let yard = METRE / 10_000 * 9_144;
                if metres % (1760 * yard) == 0 {
                    format!("{}mi", metres / yard / 1760)
                } else {
                    format!("{}yd", metres / yard)
                }
            }
            Amount::Metres(metres) if metres >= 1000 * METRE => format!("{}km", decimal(metres / METRE)),
            Amount::Metres(metres) => format!("{}{}", decimal(metres / (METRE / 1000)), self.spell("m", &[" m"])),
        };
        if sets == 1 && !strict && amounts[0] != Amount::Reps(0) && self.chance(60) {
            return format!("{one}{side}");
        }
        if same && (sets == 1 || strict || !matches!(amounts[0], Amount::Reps(_)) || !self.chance(10)) {
            return format!("{sets}{times}{one}{side}");
        }
        self.list(amounts, side)
    }

    fn list(&mut self, amounts: &[Amount], side: &str) -> String {
        let numbers: Vec<String> = amounts
            .iter()
            .map(|amount| match amount {
                Amount::Reps(reps) => reps.to_string(),
                _ => String::new(),
            })
            .collect();
        if !side.is_empty() && self.wild(30) {
            return numbers.iter().map(|number| format!("{number}/side")).collect::<Vec<_>>().join(",");
        }
        format!("{}{side}", numbers.join(","))
    }

    /// One effort for all sets: quarter points, and how it is written.
    fn one_effort(&mut self) -> (u32, String) {
        let halves = self.random.within(10..=20);
        let rpe = self.spell("RPE ", &["rpe ", "RPE", "Rpe "]);
        match self.random.below(10) {
            0..6 => (halves * 2, format!("{rpe}{}", half(halves))),
            6..8 => {
                let high = (halves + self.random.within(1..=2)).min(20);
                let low = halves.min(high - 1);
                (low + high, format!("{rpe}{}{}{}", half(low), self.spell("-", &["–"]), half(high)))
            }
            8 => {
                let reserve = self.random.within(0..=5);
                (40 - 4 * reserve, format!("{}{reserve}", self.spell("RIR ", &["rir ", "RIR"])))
            }
            _ => {
                let reserve = self.random.within(0..=4);
                (40 - 4 * reserve - 2, format!("RIR {reserve}-{}", reserve + 1))
            }
        }
    }

    /// Efforts of a group's sets, and the attributes that say so.
    fn efforts(&mut self, sets: &mut [SetDone]) -> Vec<String> {
        let count = sets.len();
        let mut attributes = Vec::new();
        match self.random.below(100) {
            0..45 => {}
            45..80 => {
                let (effort, text) = self.one_effort();
                sets.iter_mut().for_each(|set| set.effort = Some(effort));
                attributes.push(if self.wild(6) { format!("@ {text}") } else { text });
            }
            80..92 if count > 1 => {
                let reserve = self.chance(30);
                let values: Vec<u32> = (0..count)
                    .map(|_| if reserve { self.random.within(0..=5) } else { self.random.within(11..=20) })
                    .collect();
                for (set, value) in sets.iter_mut().zip(&values) {
                    set.effort = Some(if reserve { 40 - 4 * value } else { 2 * value });
                }
                let texts: Vec<String> =
                    values.iter().map(|value| if reserve { value.to_string() } else { half(*value) }).collect();
                attributes.push(format!("{}{}", if reserve { "RIR " } else { "RPE " }, texts.join(",")));
            }
            92..95 => {
                // Beside an RPE, the RPE wins.
                sets.iter_mut().for_each(|set| set.effort = Some(32));
                attributes.extend(["RIR 1".into(), "RPE 8".into()]);
            }
            _ => {}
        }
        let last = &mut sets[count - 1];
        let misses = if last.amount == Amount::Reps(0) { 70 } else { 3 };
        let reps = matches!(last.amount, Amount::Reps(_));
        if reps && self.random.chance(misses) {
            attributes.push(format!("miss {}", self.random.within(1..=2)));
            last.effort = last.effort.or(Some(40));
        } else if reps && self.random.chance(4) {
            attributes.push("AMRAP".into());
            last.effort = last.effort.or(Some(40));
        }
        attributes
    }

    fn load(&mut self, lift: usize, style: Style, block: Option<usize>) -> Load {
        let usual = LIFTS[self.lifts[lift].0].3;
        match style {
            Style::Barbell => {
                let maximum = block.and_then(|block| {
                    self.blocks[block].maxima.iter().find(|(at, _)| *at == lift).map(|(_, mass)| *mass)
                });
                if let Some(maximum) = maximum.filter(|_| self.random.chance(12)) {
                    let percent = self.random.within(120..=190) * 500;
                    let text = format!("{}%", decimal(i64::from(percent)));
                    let written = if self.wild(20) { text.replace('%', " %") } else { text.clone() };
                    let mass = i128::from(maximum) * i128::from(percent) / 100_000;
                    return Load::of(Kind::Mass, mass as i64, text, written);
                }
                let kilos = usual + i64::from(self.random.within(0..=6)) * 5 - 15;
                self.bar_load(kilos)
            }
            Style::Dumbbells if self.chance(40) => {
                let each = usual + i64::from(self.random.within(0..=4)) * 2;
                Load::of(
                    Kind::Mass,
                    2 * each * KG,
                    format!("2x{each} kg"),
                    format!("2{}{each} kg", self.spell("x", &[" x ", "×"])),
                )
            }
            Style::Bodyweight if self.chance(3) => self.plain(usual * 1000, false),
            Style::Bodyweight if self.chance(5) => {
                let text = "bw - \"green band\"".to_owned();
                Load::of(Kind::Quote, 0, text.clone(), text)
            }
            Style::Bodyweight | Style::Hold | Style::Rollout => self.own_load(usual),
            Style::Stack => {
                let pin = i64::from(self.random.within(0..=4)) + usual;
                let added = if self.chance(25) { KG * 5 / 2 } else { 0 };
                let more = if added > 0 { " + 2.5 kg" } else { "" };
                let written = format!(
                    "{}{pin}{}",
                    self.spell("pin ", &["Pin ", "pin"]),
                    if added > 0 { self.spell(" + 2.5 kg", &["+2.5kg"]) } else { "" }
                );
                Load { pin: pin * 1000, ..Load::of(Kind::Pin, added, format!("pin {pin}{more}"), written) }
            }
            Style::Band => {
                let band = self.random.pick(&["blue band", "green band", "blue band, doubled"]);
                let written = if self.wild(30) { format!("“{band}”") } else { format!("\"{band}\"") };
                Load::of(Kind::Quote, 0, format!("\"{band}\""), written)
            }
            Style::Odd if self.chance(10) => {
                let text = "\"the old stone\"".to_owned();
                Load::of(Kind::Quote, 0, text.clone(), text)
            }
            _ => {
                let kilos = usual + i64::from(self.random.within(0..=4)) * 2;
                self.plain(kilos * 1000, true)
            }
        }
    }

    fn own_load(&mut self, usual: i64) -> Load {
        let bw = self.spell("bw", &["BW", "Bw"]);
        let number = (usual + i64::from(self.random.within(1..=4)) * 5) * 1000 / 2;
        match self.random.below(10) {
            0..4 => Load::of(Kind::Bodyweight, 0, "bw".into(), bw.into()),
            4..6 if usual > 0 => {
                let text = format!("bw - {} kg", decimal(number));
                let written = format!(
                    "{bw}{}{}{}",
                    self.spell(" - ", &["-", " – ", " − "]),
                    decimal(number),
                    self.spell(" kg", &["kg"])
                );
                Load::of(Kind::Bodyweight, -number * (KG / 1000), text, written)
            }
            6 => {
                let text = format!("bw + {}", decimal(number));
                let unit = if self.gym.pounds { LB } else { KG };
                Load::of(Kind::Bodyweight, number * (unit / 1000), text.clone(), text.replace("bw", bw))
            }
            7 => Load::of(
                Kind::Bodyweight,
                25 * LB,
                "bw + 25 lb".into(),
                format!("{bw}{}25 lb", self.spell(" + ", &["+"])),
            ),
            _ => {
                let text = format!("bw + {} kg", decimal(number));
                let written = format!(
                    "{bw}{}{}{}",
                    self.spell(" + ", &["+", " +"]),
                    decimal(number),
                    self.spell(" kg", &["kg", "kgs"])
                );
                Load::of(Kind::Bodyweight, number * (KG / 1000), text, written)
            }
        }
    }

    /// What hangs on a bar, near so many kilograms.
    fn bar_load(&mut self, kilos: i64) -> Load {
        match self.random.below(100) {
            0..8 => {
                let plates = (kilos - 20).max(10);
                let text = format!("45 lb + {plates} kg");
                let written = self.spaced(&text);
                Load::of(Kind::Mass, 45 * LB + plates * KG, text, written)
            }
            8..14 => {
                // Of a number without a unit: that of the mass before it.
                let text = format!("20 kg + {}", kilos - 20);
                let written = self.spaced(&text);
                Load::of(Kind::Mass, kilos * KG, text, written)
            }
            14..22 => {
                let (mut terms, mut mass) = (vec!["20 kg".to_owned()], 20 * KG);
                self.plates_by_mass(kilos, &mut terms, &mut mass);
                let text = terms.join(" + ");
                let written = self.spaced(&text);
                Load::of(Kind::Mass, mass, text, written)
            }
            22..32 => {
                let (name, bar) = self.random.pick(&self.gym.bars);
                let (mut terms, mut mass) = (vec![name.to_owned()], bar + self.gym.collars);
                if self.gym.colours.is_empty() || self.chance(30) {
                    self.plates_by_mass(kilos, &mut terms, &mut mass);
                } else {
                    let (colour, plate) = self.random.pick(&self.gym.colours);
                    let count = self.random.within(1..=3);
                    terms.push(if count == 1 && self.chance(50) {
                        format!("{colour}/side")
                    } else {
                        format!("{count} {colour}/side")
                    });
                    mass += 2 * i64::from(count) * plate;
                    if self.chance(30) {
                        terms.push("2.5 kg/side".into());
                        mass += 5 * KG;
                    }
                }
                let text = terms.join(" + ");
                let written = self.spaced(&text);
                Load::of(Kind::Mass, mass, text, written)
            }
            _ => {
                let finer = if self.chance(30) { i64::from(self.random.within(0..=3)) * 1250 } else { 0 };
                self.plain(kilos * 1000 + finer, true)
            }
        }
    }

    fn plates_by_mass(&mut self, kilos: i64, terms: &mut Vec<String>, mass: &mut i64) {
        let mut side = (kilos - 20).max(5) * 500;
        for plate in [25_000, 15_000, 10_000, 5_000, 2_500] {
            let count = side / plate;
            side -= count * plate;
            match count {
                0 => {}
                1 => terms.push(format!("{} kg/side", decimal(plate))),
                _ => terms.push(format!("{count}x{} kg/side", decimal(plate))),
            }
            *mass += 2 * count * plate * (KG / 1000);
        }
    }

    /// A sum with other blanks.
    fn spaced(&mut self, text: &str) -> String {
        match if self.wild(35) { self.random.below(4) } else { 9 } {
            0 => text.replace(" + ", "+"),
            1 => text.replace(" kg", "kg").replace(" lb", "lb"),
            2 => text.replace("kg", "KG"),
            3 => text.replace('x', " x ").replace("a x le", "axle"),
            _ => text.to_owned(),
        }
    }

    /// One mass in kilograms or pounds, near so many thousandths of a kilogram.
    fn plain(&mut self, thousandths: i64, may_be_pounds: bool) -> Load {
        let pounds = may_be_pounds && self.chance(if self.gym.pounds { 60 } else { 12 });
        let number = if pounds { thousandths * 22 / 10 / 5000 * 5000 } else { thousandths };
        let (unit, word) = if pounds { (LB, "lb") } else { (KG, "kg") };
        // A lone number from 5 to 10 could be an effort.
        let bare = pounds == self.gym.pounds && !(5_000..=10_000).contains(&number) && self.wild(35);
        let approximate = self.chance(4);
        let shown = decimal(number);
        let written = if bare {
            shown.clone()
        } else {
            let blank = self.spell(" ", &["", "\u{a0}"]);
            let plural = if pounds { self.spell("lb", &["lbs", "LB"]) } else { self.spell("kg", &["kgs", "KG"]) };
            format!("{shown}{blank}{plural}")
        };
        let about = if approximate { self.spell("~", &["~ "]) } else { "" };
        let text = if bare { shown } else { format!("{shown} {word}") };
        Load {
            approximate,
            joins: !bare && !approximate,
            ..Load::of(
                Kind::Mass,
                number * (unit / 1000),
                if approximate { format!("~{text}") } else { text },
                format!("{about}{written}"),
            )
        }
    }

    /// Everything written down: pages and rows.
    fn written(mut self) -> Journal {
        let last = self.sessions.last().map_or(self.shape.first, |session| session.date);
        let today = if self.wild(25) {
            let dates: Vec<NaiveDate> = self.sessions.iter().map(|session| session.date).collect();
            self.random.pick(&dates)
        } else {
            last + Days::new(u64::from(self.random.within(0..=20)))
        };
        let rows = self.rows(today);
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

    fn rows(&self, today: NaiveDate) -> Vec<Row> {
        // The last one written on a date holds for the whole date.
        let weighed: BTreeMap<NaiveDate, i64> =
            self.sessions.iter().filter_map(|session| Some((session.date, session.bodyweight?))).collect();
        let mut light: BTreeMap<(usize, u32), bool> = BTreeMap::new();
        for session in self.sessions.iter().filter(|session| session.date <= today && session.has_work()) {
            if let (Some(block), Some(week)) = (session.block, session.week) {
                *light.entry((block, week)).or_insert(true) &= session.marked;
            }
        }
        let mut rows = Vec::new();
        let mut written = 0;
        for (at, session) in self.sessions.iter().enumerate() {
            let own = weighed.range(..=session.date).next_back();
            let own =
                own.filter(|(date, _)| (session.date - **date).num_days() <= BODYWEIGHT_DAYS).map(|(_, mass)| *mass);
            let is_light = session.block.zip(session.week).is_some_and(|key| {
                self.blocks[key.0].light.contains(&key.1) || light.get(&key).copied().unwrap_or(false)
            });
            for work in &session.works {
                let (place, shown) = &self.lifts[work.lift];
                for (line, group) in &work.groups {
                    written += 1;
                    let Load { kind, mass, pin, text, approximate, .. } = &group.load;
                    for set in &group.sets {
                        rows.push(Row {
                            session: at as u32,
                            date: session.date,
                            block: session.block.map(|block| block as u32),
                            week: session.week,
                            light: is_light,
                            day: session.day.map(str::to_owned),
                            lift: shown.clone().unwrap_or_default(),
                            family: LIFTS[*place].1,
                            reps: if let Amount::Reps(reps) = set.amount { Some(reps) } else { None },
                            seconds: if let Amount::Seconds(seconds) = set.amount { Some(seconds) } else { None },
                            metres: if let Amount::Metres(metres) = set.amount { Some(metres) } else { None },
                            sides: if group.per_side { 2 } else { 1 },
                            mass: match kind {
                                Kind::Mass => Some(*mass),
                                Kind::Bodyweight => own.map(|own| own + mass),
                                _ => None,
                            },
                            kind: *kind,
                            pin: (*kind == Kind::Pin).then_some(*pin),
                            added: matches!(kind, Kind::Pin | Kind::Bodyweight).then_some(*mass),
                            load: text.clone(),
                            approximate: *approximate,
                            effort: set.effort,
                            clean: set.clean,
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
