//! `journal.yaml` and `lifter.yaml`: every key is checked, an unknown one is an error that names the
//! nearest there is. Settings that cannot be read leave the defaults in place, and say so.

use crate::notation;
use crate::problems::{Problem, ProblemKind as K, nearest};
use crate::source::{Edit, Span, apply};
use crate::training::{Bar, BookEntry, Family, Mass, Plate, Unit};
use serde_yaml::{Mapping, Value};

/// The file that makes a folder a journal.
pub const SETTINGS_FILE: &str = "journal.yaml";
/// The file that makes a folder a lifter's.
pub(crate) const LIFTER_FILE: &str = "lifter.yaml";

/// Settings longer than this are not read: nobody types a megabyte.
const LONGEST: usize = 1 << 20;
/// Brackets nested deeper than this are not read.
const DEEPEST: usize = 64;

/// What one settings file says. Every key may be missing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Settings {
    /// Of loads written without a unit.
    pub units: Option<Unit>,
    /// Bars by name.
    pub bars: Option<Vec<Bar>>,
    /// Plates owned.
    pub plates: Option<Vec<Plate>>,
    /// The pair of collars.
    pub collars: Option<Mass>,
    /// Lifts added or overridden.
    pub lifts: Vec<BookEntry>,
    /// A set of this many reps or more is a high-rep set.
    pub high_reps: Option<u32>,
    /// Globs of what is no page.
    pub exclude: Vec<String>,
    /// The lifter's name.
    pub name: Option<String>,
}

const JOURNAL_KEYS: [&str; 6] = ["units", "gear", "lifts", "high reps", "cautions", "exclude"];
const LIFTER_KEYS: [&str; 6] = ["name", "units", "sex", "lifts", "high reps", "cautions"];

/// More fixes than this are not tried in one file, nor any in a file longer than [`LONGEST_TRIED`].
const MOST_TRIED: usize = 20;
/// A file whose fixes are tried; others are no settings that anybody typed.
const LONGEST_TRIED: usize = 1 << 16;

/// Reads one settings file. A fix is offered only where the file reads better with it.
pub(crate) fn read(bytes: &[u8], of_lifter: bool) -> (Settings, Vec<Problem>) {
    let (settings, mut problems) = read_once(bytes, of_lifter);
    let text = std::str::from_utf8(bytes).ok().filter(|text| text.len() <= LONGEST_TRIED);
    let before: Vec<K> = problems.iter().map(|problem| problem.kind.clone()).collect();
    let mut tried = 0;
    for problem in &mut problems {
        let Some(fix) = problem.fix.take() else { continue };
        tried += 1;
        let fixed = text.filter(|_| tried <= MOST_TRIED).and_then(|text| apply(text, std::slice::from_ref(&fix)).ok());
        let helps = fixed.is_some_and(|fixed| {
            let (_, left) = read_once(fixed.as_bytes(), of_lifter);
            let mut known = before.clone();
            left.len() < known.len()
                && std::iter::once(&problem.kind)
                    .chain(left.iter().map(|left| &left.kind))
                    .all(|kind| known.iter().position(|known| known == kind).map(|at| known.swap_remove(at)).is_some())
        });
        problem.fix = helps.then_some(fix);
    }
    (settings, problems)
}

fn read_once(bytes: &[u8], of_lifter: bool) -> (Settings, Vec<Problem>) {
    let mut reader =
        Reader { text: std::str::from_utf8(bytes).unwrap_or(""), problems: Vec::new(), settings: Settings::default() };
    if std::str::from_utf8(bytes).is_err() {
        reader.refuse("it is not UTF-8 text", Span::default());
    } else if bytes.len() > LONGEST {
        reader.refuse("it is longer than a megabyte", Span::default());
    } else if deeper_than(reader.text, DEEPEST) {
        reader.refuse("its brackets are nested too deep", Span::default());
    } else {
        reader.file(of_lifter);
    }
    (reader.settings, reader.problems)
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

struct Reader<'a> {
    text: &'a str,
    problems: Vec<Problem>,
    settings: Settings,
}

impl Reader<'_> {
    fn refuse(&mut self, why: &str, span: Span) {
        self.problems.push(Problem::new(K::UnreadSettings { why: why.into() }, span));
    }

    fn file(&mut self, of_lifter: bool) {
        let value: Value = match serde_yaml::from_str(self.text) {
            Ok(value) => value,
            Err(error) => {
                let at = error.location().map_or(0, |place| place.index().min(self.text.len()));
                let words = error.to_string();
                let words = words.split(" at line ").next().unwrap_or(&words).to_owned();
                return self.refuse(&words, Span::new(at, at));
            }
        };
        match value {
            Value::Null => {}
            Value::Mapping(keys) => {
                let known: &[&str] = if of_lifter { &LIFTER_KEYS } else { &JOURNAL_KEYS };
                for (key, value) in &keys {
                    self.key(key, value, known);
                }
            }
            _ => self.refuse("it is not a list of `key: value` lines", Span::default()),
        }
    }

    /// The place of a key in the file: the first one written like it.
    fn place(&self, key: &str) -> Span {
        let found = self.text.match_indices(key).map(|(at, _)| at).find(|at| {
            let before = self.text.get(..*at).and_then(|before| before.chars().next_back());
            let after = self.text.get(at + key.len()..).unwrap_or("").trim_start_matches(['"', '\'', ' ']);
            before.is_none_or(|c| !c.is_alphanumeric() && c != '#') && after.starts_with(':')
        });
        found.map_or(Span::default(), |at| Span::new(at, at + key.len()))
    }

    fn wrong(&mut self, key: &str, wanted: &'static str) {
        let span = self.place(key);
        self.problems.push(Problem::new(K::WrongSetting { key: key.into(), wanted }, span));
    }

    fn unknown(&mut self, key: &str, known: &[&str]) {
        let near: Vec<String> = nearest(key, known.iter().copied()).into_iter().map(str::to_owned).collect();
        let span = self.place(key);
        let mut problem = Problem::new(K::UnknownSetting { key: key.into(), near: near.clone() }, span);
        if let ([near], false) = (near.as_slice(), span.is_empty()) {
            problem = problem.with_fix(span, near.as_str());
        }
        self.problems.push(problem);
    }

    fn key(&mut self, key: &Value, value: &Value, known: &[&str]) {
        let Some(key) = key.as_str() else {
            return self.refuse("a key is not text", Span::default());
        };
        if !known.contains(&key) {
            return self.unknown(key, known);
        }
        match key {
            "units" => match value.as_str() {
                Some("kg") => self.settings.units = Some(Unit::Kg),
                Some("lb") => self.settings.units = Some(Unit::Lb),
                _ => self.wrong(key, "kg or lb"),
            },
            "gear" => match value {
                Value::Mapping(gear) => self.gear(gear),
                _ => self.wrong(key, "bars:, plates: and collars: below it"),
            },
            "lifts" => match value {
                Value::Sequence(lifts) => lifts.iter().for_each(|lift| self.lift(lift)),
                _ => self.wrong(key, "a list of lifts, such as `- { name: Belt squat, family: squat }`"),
            },
            "high reps" => match value.as_u64().and_then(|n| u32::try_from(n).ok()).filter(|n| (1..=100).contains(n)) {
                Some(reps) => self.settings.high_reps = Some(reps),
                None => self.wrong(key, "a number of reps from 1 to 100"),
            },
            "exclude" => match strings(value).filter(|globs| globs.iter().all(|glob| glob::Pattern::new(glob).is_ok()))
            {
                Some(globs) => self.settings.exclude = globs,
                None => self.wrong(key, "a list of paths, such as [\"archive/**\"]"),
            },
            "name" => match value.as_str().filter(|name| !name.trim().is_empty()) {
                Some(name) => self.settings.name = Some(name.trim().into()),
                None => self.wrong(key, "a name"),
            },
            "sex" => {
                if !matches!(value.as_str(), Some("female" | "male")) {
                    self.wrong(key, "female or male");
                }
            }
            _ => {
                if !matches!(value, Value::Mapping(_) | Value::Null) {
                    self.wrong(key, "thresholds by the caution's name");
                }
            }
        }
    }

    fn gear(&mut self, gear: &Mapping) {
        const KEYS: [&str; 3] = ["bars", "plates", "collars"];
        for (key, value) in gear {
            match (key.as_str().unwrap_or(""), value) {
                ("bars", Value::Mapping(bars)) => {
                    let mut read = Vec::new();
                    for (name, mass) in bars {
                        match (name.as_str(), self.mass(mass)) {
                            (Some(name), Some(mass)) => read.push(Bar { name: name.into(), mass }),
                            (name, _) => self.wrong(name.unwrap_or("bars"), "a mass, such as 20 kg"),
                        }
                    }
                    self.settings.bars = Some(read);
                }
                ("bars", _) => self.wrong("bars", "bars by name, such as { bar: 20 kg }"),
                ("plates", Value::Sequence(plates)) => {
                    let read: Vec<Option<Plate>> = plates.iter().map(|plate| self.plate(plate)).collect();
                    self.settings.plates = Some(read.into_iter().flatten().collect());
                }
                ("plates", _) => {
                    self.wrong("plates", "a list of plates, such as `- { mass: 25 kg, colour: red, pairs: 5 }`")
                }
                ("collars", mass) => match self.mass(mass) {
                    Some(mass) => self.settings.collars = Some(mass),
                    None => self.wrong("collars", "the mass of the pair, such as 5 kg"),
                },
                ("bar", mass) if self.mass(mass).is_some() => self.lone_bar(mass),
                (other, _) => self.unknown(other, &KEYS),
            }
        }
    }

    /// `bar: 20 kg` in the place of `bars: { bar: 20 kg }`.
    fn lone_bar(&mut self, mass: &Value) {
        self.unknown("bar", &["bars"]);
        let Some(problem) = self.problems.last_mut() else { return };
        let mass = spelled(mass);
        let Some(at) = self.text.get(problem.span.end as usize..).and_then(|rest| rest.find(&mass)) else { return };
        let end = problem.span.end as usize + at + mass.len();
        problem.fix = Some(Edit::new(Span::new(problem.span.start as usize, end), format!("bars: {{ bar: {mass} }}")));
    }

    fn plate(&mut self, plate: &Value) -> Option<Plate> {
        const KEYS: [&str; 3] = ["mass", "colour", "pairs"];
        let Value::Mapping(keys) = plate else {
            self.wrong("plates", "a list of plates, such as `- { mass: 25 kg, colour: red, pairs: 5 }`");
            return None;
        };
        for (key, _) in keys {
            let key = key.as_str().unwrap_or("");
            if !KEYS.contains(&key) {
                self.unknown(key, &KEYS);
            }
        }
        let (text, mass) = match keys.get("mass").map(|mass| (spelled(mass), self.mass(mass))) {
            Some((text, Some(mass))) if mass > Mass::ZERO => (text, mass),
            _ => {
                self.wrong("mass", "the mass of one plate, such as 25 kg");
                return None;
            }
        };
        let colour = keys.get("colour").and_then(Value::as_str).map(str::to_owned);
        let pairs = match keys.get("pairs") {
            None => None,
            Some(pairs) => match pairs.as_u64().and_then(|n| u32::try_from(n).ok()).filter(|n| *n <= 1000) {
                Some(pairs) => Some(pairs),
                None => {
                    self.wrong("pairs", "how many pairs, such as 5");
                    None
                }
            },
        };
        Some(Plate { mass, text, colour, pairs })
    }

    fn lift(&mut self, lift: &Value) {
        const KEYS: [&str; 5] = ["name", "family", "also", "bodyweight", "one side"];
        const WANTED: &str = "a list of lifts, such as `- { name: Belt squat, family: squat }`";
        let Value::Mapping(keys) = lift else { return self.wrong("lifts", WANTED) };
        for (key, _) in keys {
            let key = key.as_str().unwrap_or("");
            if !KEYS.contains(&key) {
                self.unknown(key, &KEYS);
            }
        }
        let Some(name) = keys.get("name").and_then(Value::as_str).filter(|name| !name.trim().is_empty()) else {
            return self.wrong("lifts", WANTED);
        };
        let family = match keys.get("family") {
            None => Family::Other,
            Some(family) => match family.as_str().and_then(Family::named) {
                Some(family) => family,
                None => {
                    self.wrong("family", "one of squat, hinge, horizontal press, vertical press, horizontal pull, vertical pull, single leg, arms, trunk, carry, other");
                    Family::Other
                }
            },
        };
        let also = match keys.get("also") {
            None => Vec::new(),
            Some(also) => strings(also).unwrap_or_else(|| {
                self.wrong("also", "a list of names");
                Vec::new()
            }),
        };
        let mut flag = |key: &str| match keys.get(key) {
            None => false,
            Some(Value::Bool(flag)) => *flag,
            Some(_) => {
                self.wrong(key, "true or false");
                false
            }
        };
        let (bodyweight, one_side) = (flag("bodyweight"), flag("one side"));
        self.settings.lifts.push(BookEntry { name: name.trim().into(), family, also, bodyweight, one_side });
    }

    /// A mass: text with its unit, or a number of the journal's unit.
    fn mass(&self, value: &Value) -> Option<Mass> {
        let (number, unit) = notation::mass(&spelled(value))?;
        Some(Mass::of(number, unit.or(self.settings.units).unwrap_or(Unit::Kg)))
    }
}

/// A scalar as its text.
fn spelled(value: &Value) -> String {
    match value {
        Value::String(text) => text.trim().to_owned(),
        Value::Number(number) => number.to_string(),
        _ => String::new(),
    }
}

fn strings(value: &Value) -> Option<Vec<String>> {
    let Value::Sequence(items) = value else { return None };
    items.iter().map(|item| item.as_str().map(str::to_owned)).collect()
}
