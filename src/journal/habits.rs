//! `habits:` in a lifter's settings: what is meant by a line that can be read in several ways.

use super::yaml::Node;
use crate::notation::readings::{AtSign, BeforeX, CommaSign, CountOrder, DateHabit, Habits, Meaning, ThreeNumbers};

/// The keys there are.
pub(super) const KEYS: [&str; 8] =
    ["count", "before x", "three numbers", "at sign", "comma", "dates", "names", "words"];

/// The keys below `habits:`.
pub fn keys() -> &'static [&'static str] {
    &KEYS
}

/// Sets one habit.
///
/// # Errors
/// What the key takes, and the node at fault.
pub(super) fn set<'v>(habits: &mut Habits, key: &str, value: &Node<'v>) -> Result<(), (&'static str, Node<'v>)> {
    let word = value.text().unwrap_or("");
    let wrong = |wanted| Err((wanted, value.clone()));
    match (key, word) {
        ("count", "sets x reps") => habits.count = Some(CountOrder::SetsReps),
        ("count", "reps x sets") => habits.count = Some(CountOrder::RepsSets),
        ("count", _) => return wrong("sets x reps or reps x sets"),
        ("before x", "load") => habits.before_x = Some(BeforeX::Load),
        ("before x", "sets") => habits.before_x = Some(BeforeX::Sets),
        ("before x", "reps") => habits.before_x = Some(BeforeX::Reps),
        ("before x", _) => return wrong("load, sets or reps"),
        ("three numbers", "load x reps x sets") => habits.three_numbers = Some(ThreeNumbers::LoadRepsSets),
        ("three numbers", "load x sets x reps") => habits.three_numbers = Some(ThreeNumbers::LoadSetsReps),
        ("three numbers", "sets x reps x load") => habits.three_numbers = Some(ThreeNumbers::SetsRepsLoad),
        ("three numbers", _) => return wrong("load x reps x sets, load x sets x reps or sets x reps x load"),
        ("at sign", "effort") => habits.at_sign = Some(AtSign::Effort),
        ("at sign", "load") => habits.at_sign = Some(AtSign::Load),
        ("at sign", _) => return wrong("effort or load"),
        ("comma", "decimal") => habits.comma = Some(CommaSign::Decimal),
        ("comma", "list") => habits.comma = Some(CommaSign::List),
        ("comma", _) => return wrong("decimal or list"),
        ("dates", _) => {
            let order = value.get("order").and_then(|order| order.text());
            let day_first = match order {
                Some("day month") => true,
                Some("month day") => false,
                _ => return wrong("an order and a year, such as { order: day month, year: 2025 }"),
            };
            let year = value.get("year").and_then(|year| year.number(1900, 2999));
            habits.dates = Some(DateHabit { day_first, year: year.map(|year| year as i32) });
        }
        ("names", _) => {
            let Some(entries) = value.entries() else {
                return wrong("short forms with their lifts, such as { SQ: Back squat }");
            };
            for (typed, lift) in entries {
                match (typed.text(), lift.text()) {
                    (Some(typed), Some(lift)) if lift != "…" => {
                        drop(habits.names.insert(typed.to_owned(), lift.to_owned()))
                    }
                    _ => return Err(("the lift's name", lift)),
                }
            }
        }
        _ => {
            let Some(entries) = value.entries() else {
                return wrong("words with their meaning, such as { Wdh: reps }");
            };
            for (word, meaning) in entries {
                match (word.text(), meaning.text().and_then(Meaning::named)) {
                    (Some(word), Some(meaning)) => drop(habits.words.insert(word.to_lowercase(), meaning)),
                    _ => return Err(("sets, reps, of, for, at, x, each side, warm-up, then, kg, lb or bw", meaning)),
                }
            }
        }
    }
    Ok(())
}
