//! Which habits the lines bear out, looked at all together: by which of its ways a habit leaves the most lines with one
//! reading, and the fewest that nobody would do.

use super::sections::date_habit;
use super::{Notes, Section};
use crate::journal::HabitKey;
use crate::notation::readings::{
    Fate, Habits, Meaning, Named, Names, Place, lift_of, like_a_name, lone_lift, readings,
};
use crate::source::Cut;
use crate::training::{Words, fold};
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashMap};

/// Each habit is held against at most so many lines, taken evenly from all.
const MOST_LINES: usize = 4000;
/// Fewer lines bear out nothing.
const LEAST_LINES: usize = 3;
/// Nobody does more sets of one kind, but for once.
const MANY_SETS: u32 = 6;
/// A load is far from a lift's usual one under this share of it, and over that one.
const USUAL: (f64, f64) = (0.3, 2.0);
/// Words are asked about in order, so many at most, and tried out together, so many on a line.
const MOST_WORDS: usize = 12;
const WORDS_TOGETHER: usize = 3;
/// What a word is tried as, the likeliest first. That one says `each side` no other number on its line can tell.
const MEANINGS: [Meaning; 4] = [Meaning::Sets, Meaning::Reps, Meaning::At, Meaning::By];

/// What was found out about the habits.
#[derive(Clone, Debug, Default)]
pub struct Findings {
    /// What the lines bear out.
    pub proposed: Vec<Finding>,
    /// Habits that lines ask for, and that nothing decides: the key, what it takes, how many lines.
    pub open: Vec<(HabitKey, String, usize)>,
    /// Words of unread lines that nobody knows, the most frequent first.
    pub words: Vec<UnknownWord>,
    /// Names that no lift has, the most frequent first.
    pub names: Vec<UnknownName>,
    /// The habits with what is proposed in them.
    pub habits: Habits,
}

/// A habit that the lines bear out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The key, as in the settings.
    pub key: HabitKey,
    /// Its value.
    pub value: String,
    /// How many lines it gives one reading that somebody would do.
    pub lines: usize,
    /// Of how many that it concerns.
    pub of: usize,
}

/// A word that nobody knows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownWord {
    /// As it is typed.
    pub word: String,
    /// In how many lines.
    pub lines: usize,
}

/// A name that no lift has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownName {
    /// As it is typed first.
    pub name: String,
    /// How many lines are about it.
    pub lines: usize,
    /// Lifts with a name like it.
    pub near: Vec<String>,
}

/// A habit with one of its values.
struct Way {
    value: &'static str,
    set: Box<dyn Fn(&mut Habits)>,
}

/// A habit: its key, whether it is settled, which lines it may concern, and its values.
struct Asked {
    key: HabitKey,
    known: fn(&Habits) -> bool,
    concerns: fn(&str) -> bool,
    ways: Vec<Way>,
}

fn asked() -> [Asked; 5] {
    [
        Asked {
            key: HabitKey::Comma,
            known: |habits| habits.comma.is_some(),
            concerns: |text| text.contains(','),
            ways: ways(|habits, way| habits.comma = Some(way)),
        },
        Asked {
            key: HabitKey::ThreeNumbers,
            known: |habits| habits.three_numbers.is_some(),
            concerns: has_by,
            ways: ways(|habits, way| habits.three_numbers = Some(way)),
        },
        Asked {
            key: HabitKey::AtSign,
            known: |habits| habits.at_sign.is_some(),
            concerns: |text| text.contains('@'),
            ways: ways(|habits, way| habits.at_sign = Some(way)),
        },
        Asked {
            key: HabitKey::BeforeX,
            known: |habits| habits.before_x.is_some(),
            concerns: has_by,
            ways: ways(|habits, way| habits.before_x = Some(way)),
        },
        Asked {
            key: HabitKey::Count,
            known: |habits| habits.count.is_some(),
            concerns: has_by,
            ways: ways(|habits, way| habits.count = Some(way)),
        },
    ]
}

/// A way for each value of a habit.
fn ways<W: Words>(set: fn(&mut Habits, W)) -> Vec<Way> {
    W::ALL.iter().map(|way| Way { value: way.word(), set: Box::new(move |habits| set(habits, *way)) }).collect()
}

fn has_by(text: &str) -> bool {
    text.contains(['x', 'X', '×', '*'])
}

/// A line with the lift above it.
struct Seen<'n> {
    text: &'n str,
    lift: Option<Named>,
    /// A name above that is no lift's.
    unknown: Option<&'n str>,
    follows: bool,
}

struct Survey<'s> {
    names: &'s dyn Names,
    unit: &'static str,
    /// The loads of each lift in the lines that have one reading.
    usual: HashMap<String, f64>,
}

/// Looks at all lines of the notes. `step` is called as the work goes on.
pub fn survey(
    notes: &[Notes],
    sections: &[Section<'_>],
    (names, habits, unit): (&dyn Names, &Habits, &'static str),
    today: NaiveDate,
    step: &mut dyn FnMut(),
) -> Findings {
    let mut found = Findings { habits: habits.clone(), ..Findings::default() };
    if let Some((dates, lines, of)) = date_habit(notes, habits.dates, today) {
        let order = if dates.day_first { "day month" } else { "month day" };
        match dates.year {
            Some(year) => {
                let value = format!("{{ order: {order}, year: {year} }}");
                found.proposed.push(Finding { key: HabitKey::Dates, value, lines, of });
                found.habits.dates = Some(dates);
            }
            None => found.open.push((HabitKey::Dates, format!("{{ order: {order}, year: … }}"), of)),
        }
    } else if habits.dates.is_none() && open_days(sections) > 0 {
        found.open.push((HabitKey::Dates, "{ order: day month, year: … }".into(), open_days(sections)));
    }
    let mut seen = seen(sections, names, habits);
    if seen.len() > MOST_LINES {
        let every = seen.len().div_ceil(MOST_LINES);
        seen = seen.into_iter().step_by(every).collect();
    }
    let mut survey = Survey { names, unit, usual: HashMap::new() };
    survey.usual = survey.usual_loads(&seen, &found.habits);
    found.names = survey.unknown_names(&seen, &found.habits);
    survey.words(&seen, &mut found);
    step();
    // What one habit settles may settle another: once more, until nothing new is found.
    let all = asked();
    for _ in 0..all.len() {
        let before = found.proposed.len();
        found.open.retain(|(key, ..)| *key == HabitKey::Dates);
        for asked in all.iter().filter(|asked| !(asked.known)(&found.habits)).collect::<Vec<_>>() {
            survey.habit(asked, &seen, &mut found);
            step();
        }
        if found.proposed.len() == before {
            break;
        }
    }
    found
}

/// How many days of the notes have no date.
fn open_days(sections: &[Section<'_>]) -> usize {
    sections.iter().filter(|section| section.of_calendar && section.date.is_none()).count()
}

/// Every line with a number in it and where it stands.
fn seen<'n>(sections: &[Section<'n>], names: &dyn Names, habits: &Habits) -> Vec<Seen<'n>> {
    let mut out = Vec::new();
    for section in sections {
        let mut lift: Option<(Named, Option<usize>)> = None;
        let (mut follows, mut unknown) = (false, None);
        let rest = (!section.rest.is_empty()).then_some(section.rest);
        for text in rest.into_iter().chain(section.lines.iter().map(|line| line.text)) {
            let indent = text.len() - text.trim_start().len();
            if text.trim().is_empty() {
                (lift, unknown) = (None, None);
                continue;
            }
            if let Some(named) = lone_lift(text.trim_start_matches('#'), names, habits) {
                (lift, follows, unknown) = (Some((named, None)), false, None);
                continue;
            }
            if !text.contains(|c: char| c.is_ascii_digit()) {
                // A name of its own ends the lift before it; words between sets are a word about them.
                if lift.as_ref().is_none_or(|(_, out)| out.is_none())
                    && let Some(name) = like_a_name(text)
                {
                    (lift, unknown) = (None, Some(name));
                }
                continue;
            }
            if let Some(named) = lift_of(text, names, habits) {
                lift = Some((named, Some(indent)));
                unknown = None;
                out.push(Seen { text, lift: None, unknown, follows: false });
                continue;
            }
            let inside = |out: &Option<usize>| out.is_none_or(|out| indent > out);
            let above = lift.as_ref().filter(|(_, out)| inside(out)).map(|(named, _)| named.clone());
            out.push(Seen {
                text,
                follows: follows && above.is_some(),
                unknown: unknown.filter(|_| above.is_none()),
                lift: above,
            });
            follows = true;
        }
    }
    out
}

impl Survey<'_> {
    fn fate(&self, seen: &Seen<'_>, habits: &Habits) -> Fate {
        let place = Place { lift: seen.lift.as_ref(), unknown: seen.unknown, follows: seen.follows };
        readings(seen.text, place, self.names, habits, self.unit)
    }

    /// The middle of a lift's loads in lines that have one reading.
    fn usual_loads(&self, seen: &[Seen<'_>], habits: &Habits) -> HashMap<String, f64> {
        let mut loads: HashMap<String, Vec<f64>> = HashMap::new();
        for seen in seen {
            let Fate::Read(choice) = self.fate(seen, habits) else { continue };
            let own = seen.lift.as_ref().map_or("", |lift| &lift.name);
            let (name, sets) = choice.text.split_once(": ").unwrap_or((own, &choice.text));
            loads.entry(fold(name)).or_default().extend(groups(sets).filter_map(|(_, load)| load));
        }
        let middle = |(name, mut loads): (String, Vec<f64>)| {
            loads.sort_by(f64::total_cmp);
            (loads.len() >= LEAST_LINES).then(|| Some((name, *loads.get(loads.len() / 2)?))).flatten()
        };
        loads.into_iter().filter_map(middle).collect()
    }

    /// What a line says by these habits, where it has one reading that somebody would do.
    fn read(&self, seen: &Seen<'_>, habits: &Habits) -> Option<String> {
        let fate = self.fate(seen, habits);
        text(&fate).filter(|_| self.is_done(seen, &fate)).map(str::to_owned)
    }

    /// Whether a line has one reading, and one that somebody would do.
    fn is_done(&self, seen: &Seen<'_>, fate: &Fate) -> bool {
        let Fate::Read(choice) = fate else { return false };
        let own = seen.lift.as_ref().map_or("", |lift| &lift.name);
        let (name, sets) = choice.text.split_once(": ").unwrap_or((own, &choice.text));
        let usual = self.usual.get(&fold(name));
        groups(sets).all(|(sets, load)| {
            let near = |load: f64| usual.is_none_or(|usual| load >= usual * USUAL.0 && load <= usual * USUAL.1);
            sets <= MANY_SETS && load.is_none_or(near)
        })
    }

    /// Holds the ways of one habit against each other.
    fn habit(&self, asked: &Asked, seen: &[Seen<'_>], found: &mut Findings) {
        let mut good = vec![0usize; asked.ways.len()];
        let (mut of, mut open) = (0, 0);
        for seen in seen.iter().filter(|seen| (asked.concerns)(seen.text)) {
            let now = self.fate(seen, &found.habits);
            // No habit tells which lift a name is.
            if matches!(now, Fate::UnknownLift(..) | Fate::Prose) {
                continue;
            }
            let by = |way: &Way| {
                let mut habits = found.habits.clone();
                (way.set)(&mut habits);
                self.fate(seen, &habits)
            };
            let ways: Vec<Fate> = asked.ways.iter().map(by).collect();
            let differ = ways.windows(2).any(|pair| matches!(pair, [one, two] if text(one) != text(two)));
            if !differ {
                continue;
            }
            of += 1;
            open += usize::from(!matches!(now, Fate::Read(_)));
            for (good, way) in good.iter_mut().zip(&ways) {
                *good += usize::from(self.is_done(seen, way));
            }
        }
        if open == 0 {
            return;
        }
        let mut order: Vec<(usize, &Way)> = good.into_iter().zip(&asked.ways).collect();
        order.sort_by_key(|(good, _)| std::cmp::Reverse(*good));
        let (Some((lines, best)), Some((second, _))) = (order.first(), order.get(1)) else { return };
        let (bad, rival) = (of - lines, of - second);
        if *lines >= LEAST_LINES && lines * 20 >= of * 17 && rival >= 2.max(bad * 3) && rival * 7 >= of {
            found.proposed.push(Finding { key: asked.key, value: best.value.to_owned(), lines: *lines, of });
            (best.set)(&mut found.habits);
        } else {
            let values: Vec<&str> = asked.ways.iter().map(|way| way.value).collect();
            found.open.push((asked.key, values.join(", or "), open));
        }
    }

    /// Names that no lift has.
    fn unknown_names(&self, seen: &[Seen<'_>], habits: &Habits) -> Vec<UnknownName> {
        let mut names: BTreeMap<String, UnknownName> = BTreeMap::new();
        for seen in seen {
            let Fate::UnknownLift(name, choices) = self.fate(seen, habits) else { continue };
            let entry = names.entry(fold(&name)).or_insert_with(|| {
                let mut near: Vec<String> =
                    choices.iter().filter_map(|choice| Some(choice.text.split_once(':')?.0.to_owned())).collect();
                if near.is_empty() {
                    near = self.names.near(&name);
                }
                UnknownName { name: name.clone(), lines: 0, near }
            });
            entry.lines += 1;
        }
        let mut names: Vec<UnknownName> = names.into_values().collect();
        names.sort_by(|one, other| (other.lines, &one.name).cmp(&(one.lines, &other.name)));
        names
    }

    /// Words of unread lines, the most frequent first, tried out as what a word can mean.
    fn words(&self, seen: &[Seen<'_>], found: &mut Findings) {
        let mut lines: BTreeMap<Vec<String>, Vec<&Seen<'_>>> = BTreeMap::new();
        let mut counts: BTreeMap<String, usize> = BTreeMap::new();
        for seen in seen {
            if !matches!(self.fate(seen, &found.habits), Fate::Unread) {
                continue;
            }
            let words = words_between(seen.text, &found.habits);
            if (1..=WORDS_TOGETHER).contains(&words.len()) {
                words.iter().for_each(|word| *counts.entry(word.clone()).or_default() += 1);
                lines.entry(words).or_default().push(seen);
            }
        }
        let mut shapes: Vec<_> = lines.into_iter().filter(|(_, lines)| lines.len() >= LEAST_LINES).collect();
        shapes.sort_by_key(|(words, lines)| (std::cmp::Reverse(lines.len()), words.clone()));
        for (words, lines) in shapes.into_iter().take(MOST_WORDS) {
            let open: Vec<&String> = words.iter().filter(|word| !found.habits.words.contains_key(*word)).collect();
            let Some((meanings, read)) = self.meanings(&open, &lines, &found.habits) else { continue };
            for (word, meaning) in open.iter().zip(meanings) {
                counts.remove(*word);
                found.habits.words.insert((*word).clone(), meaning);
                let value = format!("{{ {word}: {meaning} }}");
                found.proposed.push(Finding { key: HabitKey::Words, value, lines: read, of: lines.len() });
            }
        }
        let mut unknown: Vec<(String, usize)> = counts.into_iter().filter(|(_, lines)| *lines >= LEAST_LINES).collect();
        unknown.sort_by_key(|(word, lines)| (std::cmp::Reverse(*lines), word.clone()));
        let unknown = unknown.into_iter().take(MOST_WORDS).map(|(word, lines)| UnknownWord { word, lines });
        found.words = unknown.collect();
    }

    /// The meanings of some words by which nearly all of these lines are read, where there is one such reading.
    fn meanings(&self, words: &[&String], lines: &[&Seen<'_>], habits: &Habits) -> Option<(Vec<Meaning>, usize)> {
        let tried = lines.get(..lines.len().min(8))?;
        let ways = MEANINGS.len().pow(u32::try_from(words.len()).ok()?);
        let mut best: Option<(usize, Vec<Meaning>, Vec<Option<String>>)> = None;
        for way in 0..ways {
            let mut left = way;
            let meanings: Option<Vec<Meaning>> = words
                .iter()
                .map(|_| {
                    let meaning = MEANINGS.get(left % MEANINGS.len()).copied();
                    left /= MEANINGS.len();
                    meaning
                })
                .collect();
            let meanings = meanings?;
            let mut habits = habits.clone();
            habits.words.extend(words.iter().map(|word| (*word).clone()).zip(meanings.iter().copied()));
            let read: Vec<Option<String>> = tried.iter().map(|seen| self.read(seen, &habits)).collect();
            let count = read.iter().flatten().count();
            match &best {
                Some((most, _, other)) if count == *most && count > 0 && *other != read => {
                    // Two readings as good as each other: only a person can tell.
                    best = Some((count, Vec::new(), read));
                }
                Some((most, ..)) if count <= *most => {}
                _ => best = Some((count, meanings, read)),
            }
        }
        let (count, meanings, _) = best?;
        (count >= LEAST_LINES && count * 10 >= tried.len() * 8 && !meanings.is_empty()).then(|| {
            let mut habits = habits.clone();
            habits.words.extend(words.iter().map(|word| (*word).clone()).zip(meanings.iter().copied()));
            let read = lines.iter().filter(|seen| self.read(seen, &habits).is_some()).count();
            (meanings, read)
        })
    }
}

/// What a fate says of a line.
fn text(fate: &Fate) -> Option<&str> {
    match fate {
        Fate::Read(choice) => Some(&choice.text),
        _ => None,
    }
}

/// The words behind a line's first number that nobody knows, in lower case, each once.
fn words_between(text: &str, habits: &Habits) -> Vec<String> {
    let Some(first) = text.find(|c: char| c.is_ascii_digit()) else { return Vec::new() };
    let mut words: Vec<String> = Vec::new();
    for word in text.tail(first).split(|c: char| !c.is_alphabetic()) {
        let word = word.to_lowercase();
        if word.chars().count() > 1
            && !Meaning::is_known(&word)
            && !habits.words.contains_key(&word)
            && !words.contains(&word)
        {
            words.push(word);
        }
    }
    words
}

/// The sets and the load of each group of a line in the notation.
fn groups(sets: &str) -> impl Iterator<Item = (u32, Option<f64>)> + '_ {
    sets.split(", ").map(|group| {
        let (count, load) = group.split_once(" @ ").map_or((group, None), |(count, load)| (count, Some(load)));
        let times = count.split_once('x').and_then(|(sets, _)| sets.rsplit(' ').next()?.parse().ok());
        let load = load.and_then(|load| load.split(' ').next()?.parse().ok());
        (times.unwrap_or(1), load)
    })
}
