//! The sets of a line as one way has them: in the notation, in words, and whether anybody would do them.

use super::names::Takes;
use super::shapes::{Candidate, Labels, Reps, Sure};

/// Nobody does more sets or reps than these; a line may say so all the same, and is asked about.
pub(super) const MOST_SETS: u32 = 20;
pub(super) const MOST_REPS: u32 = 100;
const MOST_IN_ALL: u32 = 250;

/// Whether so many sets and reps of a lift with a load, where none is written, are rather the load: `100x5`, `100`.
pub fn many_without_load(sets: Option<u32>, reps: u32) -> bool {
    match sets {
        Some(sets) => sets > 6 || reps > 20,
        None => reps > 30,
    }
}

/// One way to read the sets of a line.
#[derive(Clone, Debug)]
pub(super) struct Sets {
    /// In the notation: `3x5 @ 100 kg RPE 8`.
    pub(super) text: String,
    /// In words: `3 sets of 5 at 100 kg`.
    pub(super) say: String,
    pub(super) labels: Labels,
    pub(super) sure: Sure,
    pub(super) plausible: bool,
    /// What it says, set by set.
    pub(super) key: String,
}

/// Sets of one kind, as one way has them.
#[derive(Clone, Debug)]
pub(super) struct Group {
    pub(super) way: Candidate,
    pub(super) per_side: bool,
    pub(super) attributes: Vec<String>,
}

impl Sets {
    /// Sets that stand in the notation already.
    pub(super) fn as_written(text: String) -> Self {
        let (say, key) = (text.clone(), text.clone());
        Sets { text, say, labels: Labels::default(), sure: Sure::Read, plausible: true, key }
    }

    /// Whether more sets or reps than anybody does of a loaded lift stand there without a load: `2x100`.
    pub(super) fn lacks_a_load(&self, takes: Takes) -> bool {
        let counted = takes.counted_with_a_load() && !takes.anything;
        // A number too long to be read is many, and a word is none.
        let number = |text: &str| {
            let digits = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
            digits.then(|| text.parse().unwrap_or(u32::MAX))
        };
        let count = |count: &str| {
            let (sets, reps) = count.split_once('x').map_or((None, count), |(sets, reps)| (number(sets), reps));
            many_without_load(sets, number(reps).unwrap_or(0))
        };
        counted && !self.text.contains('@') && self.text.split(|c: char| !c.is_ascii_alphanumeric()).any(count)
    }

    pub(super) fn of(groups: &[Group], labels: Labels, sure: Sure) -> Self {
        let mut texts = Vec::new();
        let mut says = Vec::new();
        let mut key = String::new();
        let mut carried: Vec<String> = Vec::new();
        let mut plausible = true;
        for group in groups {
            let loads = if group.way.loads.is_empty() { &carried } else { &group.way.loads };
            let rest = group.rest();
            for (reps, load) in group.sets(loads) {
                key.push_str(&format!("{reps}@{load}{}{rest};", group.per_side));
            }
            plausible &= group.plausible();
            texts.extend(group.texts());
            says.push(group.say());
            if !group.way.loads.is_empty() {
                carried.clone_from(&group.way.loads);
                carried.drain(..carried.len() - 1);
            }
        }
        Sets { text: texts.join(", "), say: says.join(", then "), labels, sure, plausible, key }
    }
}

impl Group {
    /// Each set's reps and load.
    fn sets(&self, loads: &[String]) -> Vec<(String, String)> {
        let reps: Vec<String> = match &self.way.reps {
            Reps::Times(sets, reps) => {
                let sets = sets.unwrap_or(1).max(if loads.len() > 1 { loads.len() as u32 } else { 1 });
                vec![reps.to_string(); sets.min(MOST_SETS * 5) as usize]
            }
            Reps::List(list) => list.iter().map(u32::to_string).collect(),
            Reps::Amount(None, text) if text.contains(',') => text.split(',').map(str::to_owned).collect(),
            Reps::Amount(sets, text) => vec![text.clone(); sets.unwrap_or(1).min(MOST_SETS * 5) as usize],
        };
        let load = |at: usize| match loads {
            [one] => one.clone(),
            several => several.get(at).cloned().unwrap_or_default(),
        };
        reps.into_iter().enumerate().map(|(at, reps)| (reps, load(at))).collect()
    }

    /// What stands behind the load.
    fn rest(&self) -> String {
        let effort = self.way.effort.map(|effort| format!(" RPE {}", effort.text()));
        let attributes = self.attributes.iter().map(|attribute| format!(" {attribute}"));
        effort.into_iter().chain(attributes).collect()
    }

    /// In the notation: one group, or one for each load of a list.
    fn texts(&self) -> Vec<String> {
        let side = if self.per_side { "/side" } else { "" };
        let rest = self.rest();
        if self.way.loads.len() > 1 {
            return self
                .sets(&self.way.loads)
                .into_iter()
                .map(|(reps, load)| format!("{reps}{side} @ {load}{rest}"))
                .collect();
        }
        let count = match &self.way.reps {
            Reps::Times(None, reps) => reps.to_string(),
            Reps::Times(Some(sets), reps) => format!("{sets}x{reps}"),
            Reps::List(list) => list.iter().map(u32::to_string).collect::<Vec<_>>().join(","),
            Reps::Amount(None, text) if text.contains(',') => text.clone(),
            Reps::Amount(None, text) => format!("1x{text}"),
            Reps::Amount(Some(sets), text) => format!("{sets}x{text}"),
        };
        let load = self.way.loads.first().map_or(String::new(), |load| format!(" @ {load}"));
        vec![format!("{count}{side}{load}{rest}")]
    }

    fn plausible(&self) -> bool {
        match &self.way.reps {
            Reps::Times(sets, reps) => {
                let sets = sets.unwrap_or(1);
                sets <= MOST_SETS && *reps <= MOST_REPS && sets * reps <= MOST_IN_ALL
            }
            Reps::List(list) => {
                // `50 5 5 4`: nobody does fifty reps and then five.
                let falls = list.windows(2).all(|pair| matches!(pair, [one, next] if *one <= next * 2 + 10));
                falls && list.len() <= MOST_SETS as usize && list.iter().all(|reps| *reps <= MOST_REPS)
            }
            Reps::Amount(sets, _) => sets.unwrap_or(1) <= MOST_SETS,
        }
    }

    fn say(&self) -> String {
        let times = |sets: Option<u32>, of: &str| match sets.unwrap_or(1) {
            1 => format!("one set of {of}"),
            sets => format!("{sets} sets of {of}"),
        };
        let count = match &self.way.reps {
            Reps::Times(sets, reps) => times(*sets, &reps.to_string()),
            Reps::List(list) => format!("sets of {}", list.iter().map(u32::to_string).collect::<Vec<_>>().join(", ")),
            Reps::Amount(None, text) if text.contains(',') => format!("sets of {}", text.replace(',', ", ")),
            Reps::Amount(sets, text) => times(*sets, text),
        };
        let side = if self.per_side { " on each side" } else { "" };
        let load = match self.way.loads.as_slice() {
            [] => String::new(),
            loads => format!(" at {}", loads.join(", ")),
        };
        format!("{count}{side}{load}{}", self.rest())
    }
}
