//! `journal.yaml` and `lifter.yaml`: every key is checked, an unknown one is an error that names the
//! nearest there is. Settings that cannot be read leave the defaults in place, and say so.

use super::Digest;
use super::faults::{Fault, Faults};
use super::gear::{self, GearSaid};
use super::keys::{LiftKey, SettingKey as Key};
use super::yaml::{Node, byte, parse, repeated_key};
use super::{habits, taper, warm_up, weight_class};
use crate::notation::readings::Habits;
use crate::problems::{Problem, ProblemKind as K};
use crate::source::{Edit, Span, apply};
use crate::training::{BookEntry, CompetitionLift, Competitor, Family, TaperBands, Unit, WarmUp};
use serde_yaml::Value;

/// The file that makes a folder a journal.
pub const SETTINGS_FILE: &str = "journal.yaml";
/// The file that makes a folder a lifter's.
pub const LIFTER_FILE: &str = "lifter.yaml";

/// Settings longer than this are not read: nobody types a megabyte.
const LONGEST: usize = 1 << 20;
/// Brackets nested deeper than this are not read.
const DEEPEST: usize = 64;
/// Finding a fault's place, or trying a fix, reads the file anew. Of a file with more faults than this, or so long that
/// more bytes would be read, the rest stand at its beginning.
const MOST_PLACED: usize = 32;
const MOST_READ: usize = 4 << 20;

/// A caution's name with the number below it, not yet held against the cautions there are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// The name, with hyphens where blanks stand for them.
    pub name: String,
    /// In thousandths; nothing where it is no number, or a finer one.
    pub thousandths: Option<i64>,
    /// Which entry of `cautions:` it is, from 0.
    pub nth: usize,
}

/// What one settings file says. Every key may be missing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Settings {
    /// Of loads written without a unit.
    pub units: Option<Unit>,
    /// Bars and plates where the lifters train.
    pub gear: GearSaid,
    /// Those of other gyms, by name.
    pub gyms: Vec<(String, GearSaid)>,
    /// Lifts added or overridden.
    pub lifts: Vec<BookEntry>,
    /// A set of this many reps or more is a high-rep set.
    pub high_reps: Option<u32>,
    /// From where on an answer cautions.
    pub cautions: Vec<Said>,
    /// What a peak or deload week cuts.
    pub taper: TaperBands,
    /// The steps of a warm-up that nobody wrote.
    pub warm_up: Option<WarmUp>,
    /// What is no page: each stands for files, or for folders with all that is in them.
    pub exclude: Vec<glob::Pattern>,
    /// The lifter's name.
    pub name: Option<String>,
    /// Who competes in what.
    pub competitor: Competitor,
    /// What the lifter means by lines that can be read in several ways.
    pub habits: Habits,
    /// The sum of the file, by which its settings are known again; of none, zeros.
    pub sum: [u64; 2],
}

/// The keys that a settings file may have, by its path.
pub fn setting_keys(path: &str) -> impl Iterator<Item = Key> {
    Key::of(path.ends_with(LIFTER_FILE))
}

const LIFTS_WANTED: &str = "a list of lifts, such as `- { name: Belt squat, family: squat }`";
const MEET_LIFTS_WANTED: &str = "lifts by the word of the meet, such as { deadlift: Sumo deadlift }";

impl Settings {
    /// `class: +120` is a number to the library, which keeps no sign of it: the file has.
    fn signed(mut self, text: &str, value: &Value) -> Self {
        if let Some(class) = &mut self.competitor.class
            && let Some(node) = Node::top(value).get("class").filter(|node| node.value.is_number())
        {
            let written = node.place(text);
            class.open |= text.get(written.start as usize..).is_some_and(|rest| rest.starts_with('+'));
        }
        self
    }

    /// Whether a path below the root, or a folder it stands in, is named by `exclude:`.
    pub fn excludes(&self, path: &str) -> bool {
        let folders = path.match_indices('/').filter_map(|(at, _)| path.get(..at));
        folders.chain([path]).any(|path| self.exclude.iter().any(|glob| glob.matches(path)))
    }
}

/// Reads one settings file.
pub(crate) fn read(bytes: &[u8], of_lifter: bool) -> (Settings, Vec<Problem>) {
    let (text, value) = match parsed(bytes) {
        Ok(parsed) => parsed,
        Err(problem) => return (Settings::default(), vec![*problem]),
    };
    let (settings, faults) = Reader::file(&value, of_lifter);
    let problems = placed(text, of_lifter, &faults);
    (Settings { sum: Digest::of(bytes), ..settings.signed(text, &value) }, problems)
}

/// Reads a file that is written as `lifter.yaml` is, wherever it lies.
pub fn lifter_settings(bytes: &[u8]) -> (Settings, Vec<Problem>) {
    read(bytes, true)
}

/// The text of a file and its values, or why there are none.
pub(super) fn parsed(bytes: &[u8]) -> Result<(&str, Value), Box<Problem>> {
    let refuse = |why: &str, span| Box::new(Problem::new(K::UnreadSettings { why: why.into() }, span));
    let text = text_of(bytes).map_err(|why| refuse(why, Span::default()))?;
    let value = parse(text).map_err(|error| {
        if let Some((key, span)) = repeated_key(text) {
            return refuse(&format!("`{key}` stands here a second time"), span);
        }
        let at = error.location().map_or(0, |place| byte(text, &place));
        let words = error.to_string();
        refuse(words.split(" at line ").next().unwrap_or(&words), Span::new(at, at))
    })?;
    Ok((text, value))
}

/// Where a lifter's settings give the name, if they do.
pub(crate) fn name_place(bytes: &[u8]) -> Option<Span> {
    let text = text_of(bytes).ok()?;
    let value = parse(text).ok()?;
    Some(Node::top(&value).get(Key::Name.word())?.place(text))
}

/// Where an entry of `cautions:` stands: its key and its value.
pub fn caution_places(bytes: &[u8], nth: usize) -> Option<(Span, Span)> {
    let text = text_of(bytes).ok()?;
    let value = parse(text).ok()?;
    let (key, number) = Node::top(&value).get("cautions")?.entries()?.into_iter().nth(nth)?;
    Some((key.place(text), number.place(text)))
}

/// The text of a file, or why it is not read.
fn text_of(bytes: &[u8]) -> Result<&str, &'static str> {
    match std::str::from_utf8(bytes) {
        Err(_) => Err("it is not UTF-8 text"),
        Ok(text) if text.len() > LONGEST => Err("it is longer than a megabyte"),
        Ok(text) if deeper_than(text, DEEPEST) => Err("its brackets are nested too deep"),
        Ok(text) => Ok(text),
    }
}

/// Whether brackets nest deeper than `most`, counted without regard to quotes: the library would find
/// out too, but slowly.
fn deeper_than(text: &str, most: usize) -> bool {
    let mut depth = 0usize;
    text.bytes().any(|b| {
        match b {
            b'[' | b'{' => depth += 1,
            b']' | b'}' => depth = depth.saturating_sub(1),
            _ => {}
        }
        depth > most
    })
}

/// The faults with their places, and with their fixes where the file is accepted with them.
fn placed(text: &str, of_lifter: bool, faults: &[Fault<'_>]) -> Vec<Problem> {
    let mut left = MOST_READ;
    let mut may_read = || {
        left = left.saturating_sub(text.len());
        left > 0
    };
    let place = |(at, fault): (usize, &Fault<'_>)| {
        if at >= MOST_PLACED || !may_read() {
            return Problem::of_file(fault.kind.clone());
        }
        let problem = fault.placed(text);
        let span = problem.span;
        let others = || faults.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, fault)| &fault.kind);
        match fault.instead.filter(|_| may_read()) {
            Some(instead) if helps(text, of_lifter, Edit::new(span, instead), others()) => {
                problem.with_fix(span, instead)
            }
            _ => problem,
        }
    };
    faults.iter().enumerate().map(place).collect()
}

/// Whether a fix leaves the other faults and makes no new one.
fn helps<'k>(text: &str, of_lifter: bool, fix: Edit, others: impl Iterator<Item = &'k K>) -> bool {
    let fixed = apply(text, &[fix]).unwrap_or_default();
    let Ok(value) = parse(&fixed) else { return false };
    Reader::file(&value, of_lifter).1.iter().map(|fault| &fault.kind).eq(others)
}

#[derive(Default)]
struct Reader<'v> {
    faults: Faults<'v>,
    settings: Settings,
}

impl<'v> Reader<'v> {
    fn file(value: &'v Value, of_lifter: bool) -> (Settings, Vec<Fault<'v>>) {
        let mut reader = Reader::default();
        let top = Node::top(value);
        let known: Vec<Key> = Key::of(of_lifter).collect();
        // Masses are of the journal's unit, wherever in the file that stands.
        if let Some(units) = top.get("units") {
            reader.faults.units = reader.faults.word("units", &units);
            reader.settings.units = reader.faults.units;
        }
        match top.entries() {
            Some(entries) => entries.iter().for_each(|(key, value)| reader.key(key, value, &known)),
            None if value.is_null() => {}
            None => {
                reader.faults.fault(K::UnreadSettings { why: "it is not a list of `key: value` lines".into() }, &top)
            }
        }
        (reader.settings, reader.faults.all)
    }

    fn key(&mut self, key: &Node<'v>, value: &Node<'v>, known: &[Key]) {
        let Some(key) = self.faults.key(key, known) else { return };
        let name = key.word();
        match key {
            // Read before all others.
            Key::Units => {}
            Key::Gear => self.settings.gear = gear::read(&mut self.faults, name, value),
            Key::Gyms => self.settings.gyms = gear::gyms(&mut self.faults, value),
            Key::Lifts => match value.items() {
                Some(lifts) => lifts.iter().for_each(|lift| self.lift(lift)),
                None => self.faults.wrong(name, value, LIFTS_WANTED),
            },
            Key::HighReps => match value.number(1, 100) {
                Some(reps) => self.settings.high_reps = Some(reps),
                None => self.faults.wrong(name, value, "a number of reps from 1 to 100"),
            },
            Key::Exclude => self.exclude(value),
            Key::Name => match value.text() {
                Some(called) => self.settings.name = Some(called.into()),
                None => self.faults.wrong(name, value, "a name"),
            },
            Key::Sex => self.settings.competitor.sex = self.faults.word(name, value),
            Key::Equipment => {
                self.settings.competitor.equipment = self.faults.word(name, value).unwrap_or_default();
            }
            Key::Class => match weight_class::read(&self.faults, value) {
                Some(class) => self.settings.competitor.class = Some(class),
                None => self.faults.wrong(name, value, weight_class::WANTED),
            },
            Key::MeetLifts => self.meet_lifts(value),
            Key::Taper => self.taper(value),
            Key::WarmUp => match warm_up::read(value) {
                Ok(steps) => self.settings.warm_up = Some(steps),
                Err((wanted, node)) => self.faults.wrong(name, &node, wanted),
            },
            Key::Habits => self.habits(value),
            Key::Cautions => self.cautions(value),
        }
    }

    fn cautions(&mut self, value: &Node<'v>) {
        if value.value.is_null() {
            return;
        }
        let Some(entries) = value.entries() else {
            return self.faults.wrong("cautions", value, "thresholds by the caution's name, such as { over-plan: 1 }");
        };
        for (nth, (key, value)) in entries.into_iter().enumerate() {
            let Some(name) = key.value.as_str() else {
                self.faults.fault(K::UnreadSettings { why: "a key is not text".into() }, &key);
                continue;
            };
            let number = value.value.as_f64().map(|number| number * 1000.0);
            // Far beyond every threshold a thousandth is lost, so the cast may saturate.
            let thousandths = number.filter(|number| number.fract() == 0.0).map(|number| number as i64);
            self.settings.cautions.push(Said { name: name.replace(' ', "-"), thousandths, nth });
        }
    }

    fn taper(&mut self, value: &Node<'v>) {
        if value.value.is_null() {
            return;
        }
        let Some(entries) = value.entries() else {
            return self.faults.wrong("taper", value, "figures by name, such as { strong cut: 50-70 }");
        };
        for (key, value) in entries {
            let Some(name) = key.value.as_str().and_then(taper::named) else {
                self.faults.knows(&key, &taper::names());
                continue;
            };
            let mass = self.faults.mass(&value);
            if let Err(wanted) = taper::set(&mut self.settings.taper, name, value.value, mass) {
                self.faults.wrong(name, &value, wanted);
            }
        }
    }

    fn habits(&mut self, value: &Node<'v>) {
        if value.value.is_null() {
            return;
        }
        let Some(entries) = value.entries() else {
            return self.faults.wrong("habits", value, "habits by name, such as { before x: load }");
        };
        for (key, value) in entries {
            if let Some(key) = self.faults.key_of(&key)
                && let Err((wanted, node)) = habits::set(&mut self.settings.habits, key, &value)
            {
                self.faults.wrong(key.word(), &node, wanted);
            }
        }
    }

    fn meet_lifts(&mut self, lifts: &Node<'v>) {
        let Some(entries) = lifts.entries() else { return self.faults.wrong("meet lifts", lifts, MEET_LIFTS_WANTED) };
        for (key, value) in entries {
            let Some(lift) = self.faults.key_of::<CompetitionLift>(&key) else { continue };
            match value.text() {
                Some(name) => self.settings.competitor.lifts.push((lift, name.into())),
                None => self.faults.wrong(lift.word(), &value, "the name of a lift, such as Sumo deadlift"),
            }
        }
    }

    fn exclude(&mut self, value: &Node<'v>) {
        let Some(items) = value.items() else {
            return self.faults.wrong("exclude", value, "a list of files and folders, such as [\"archive/\"]");
        };
        for item in items {
            // A folder may be written with a slash at its end, and a path as below the root that it is below.
            let glob = item.text().map(|path| path.trim_start_matches("./").trim_matches('/'));
            match glob.filter(|glob| !glob.is_empty()).map(glob::Pattern::new) {
                Some(Ok(glob)) => self.settings.exclude.push(glob),
                _ => self.faults.wrong(
                    "exclude",
                    &item,
                    "files and folders such as \"archive/\"; `**` stands alone between slashes, and `[` needs its `]`",
                ),
            }
        }
    }

    fn lift(&mut self, lift: &Node<'v>) {
        let Some(entries) = lift.entries() else { return self.faults.wrong("lifts", lift, LIFTS_WANTED) };
        let known = entries.iter().filter_map(|(key, value)| Some((self.faults.key_of::<LiftKey>(key)?, value)));
        let known: Vec<(LiftKey, &Node<'v>)> = known.collect();
        let Some((_, name)) = known.iter().find(|(key, _)| *key == LiftKey::Name) else {
            // A key that is none may be the one that is missing.
            if known.len() == entries.len() {
                self.faults.wrong("lifts", lift, LIFTS_WANTED);
            }
            return;
        };
        let Some(name) = name.text() else { return self.faults.wrong("name", name, "the lift's name") };
        let mut entry = BookEntry {
            name: name.into(),
            family: Family::Other,
            also: Vec::new(),
            bodyweight: false,
            one_side: false,
            bar: false,
            held: false,
            carried: false,
        };
        for (key, value) in known {
            let flag = match key {
                LiftKey::Name => continue,
                LiftKey::Family => {
                    match value.value.as_str().and_then(Family::named) {
                        Some(family) => entry.family = family,
                        None => {
                            let wanted = format!("one of {}", Family::ALL.map(Family::word).join(", "));
                            self.faults.wrong(key.word(), value, wanted);
                        }
                    }
                    continue;
                }
                LiftKey::Also => {
                    match value.items() {
                        Some(names) => names.iter().for_each(|name| match name.text() {
                            Some(name) => entry.also.push(name.into()),
                            None => self.faults.wrong(key.word(), name, "a list of names"),
                        }),
                        None => self.faults.wrong(key.word(), value, "a list of names"),
                    }
                    continue;
                }
                LiftKey::Bodyweight => &mut entry.bodyweight,
                LiftKey::OneSide => &mut entry.one_side,
                LiftKey::Bar => &mut entry.bar,
                LiftKey::Held => &mut entry.held,
                LiftKey::Carried => &mut entry.carried,
            };
            match value.value.as_bool() {
                Some(set) => *flag = set,
                None => self.faults.wrong(key.word(), value, "true or false"),
            }
        }
        self.settings.lifts.push(entry);
    }
}
