//! `habits:` in a lifter's settings: what is meant by a line that can be read in several ways.

use super::faults::any_of;
use super::keys::HabitKey;
use super::yaml::Node;
use crate::notation::readings::{DateHabit, Habits, Meaning};
use crate::training::Words;

/// What a key takes, and the node at fault.
type Wrong<'v> = (String, Node<'v>);

/// Sets one habit.
///
/// # Errors
/// What the key takes, and the node at fault.
pub(super) fn set<'v>(habits: &mut Habits, key: HabitKey, value: &Node<'v>) -> Result<(), Wrong<'v>> {
    match key {
        HabitKey::Count => habits.count = Some(word(value)?),
        HabitKey::BeforeX => habits.before_x = Some(word(value)?),
        HabitKey::ThreeNumbers => habits.three_numbers = Some(word(value)?),
        HabitKey::AtSign => habits.at_sign = Some(word(value)?),
        HabitKey::Comma => habits.comma = Some(word(value)?),
        HabitKey::Dates => {
            let order = value.get("order").and_then(|order| order.text());
            let day_first = match order {
                Some("day month") => true,
                Some("month day") => false,
                _ => return wrong("an order and a year, such as { order: day month, year: 2025 }", value.clone()),
            };
            let year = value.get("year").and_then(|year| year.number(1900, 2999));
            habits.dates = Some(DateHabit { day_first, year: year.map(|year| year as i32) });
        }
        HabitKey::Names => {
            for (typed, lift) in entries(value, "short forms with their lifts, such as { SQ: Back squat }")? {
                match (typed.text(), lift.text()) {
                    (Some(typed), Some(lift)) if lift != "…" => {
                        drop(habits.names.insert(typed.to_owned(), lift.to_owned()))
                    }
                    _ => return wrong("the lift's name", lift),
                }
            }
        }
        HabitKey::Words => {
            for (word, meaning) in entries(value, "words with their meaning, such as { Wdh: reps }")? {
                match (word.text(), meaning.text().and_then(Meaning::named)) {
                    (Some(word), Some(meaning)) => drop(habits.words.insert(word.to_lowercase(), meaning)),
                    _ => return wrong(any_of::<Meaning>(), meaning),
                }
            }
        }
    }
    Ok(())
}

fn wrong<T>(wanted: impl Into<String>, node: Node<'_>) -> Result<T, Wrong<'_>> {
    Err((wanted.into(), node))
}

/// One of the words of an enum.
fn word<'v, W: Words>(value: &Node<'v>) -> Result<W, Wrong<'v>> {
    value.text().and_then(W::of_word).map_or_else(|| wrong(any_of::<W>(), value.clone()), Ok)
}

fn entries<'v>(value: &Node<'v>, wanted: &str) -> Result<Vec<(Node<'v>, Node<'v>)>, Wrong<'v>> {
    value.entries().map_or_else(|| wrong(wanted, value.clone()), Ok)
}
