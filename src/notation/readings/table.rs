//! Rows of a table whose head names its columns.

use super::{Choice, Fate, Habits, Named, Names, Place, readings};
use crate::training::fold;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Column {
    Lift,
    Sets,
    Reps,
    Load(Option<&'static str>),
    Rpe,
    Rir,
    Remark,
}

/// The columns of a table.
#[derive(Clone, Debug)]
pub struct Columns(Vec<Column>);

impl Columns {
    /// The columns a row names; `None` where one of them is not known, or the lift or the reps have none.
    pub fn named(row: &str) -> Option<Self> {
        let columns: Option<Vec<Column>> = cells(row).iter().map(|cell| named(&cell.to_lowercase())).collect();
        let columns = columns?;
        let has = |wanted: Column| columns.iter().filter(|column| **column == wanted).count() == 1;
        (has(Column::Lift) && has(Column::Reps)).then_some(Columns(columns))
    }

    /// Whether a row is the line of dashes below the head.
    pub fn is_rule(row: &str) -> bool {
        row.contains("--") && row.chars().all(|c| matches!(c, '|' | '-' | ':' | ' '))
    }

    /// Reads a row.
    pub fn row(&self, row: &str, names: &dyn Names, habits: &Habits, unit: &'static str) -> Fate {
        let cells = cells(row);
        if cells.len() != self.0.len() {
            return Fate::Unread;
        }
        let (mut lift, mut sets, mut reps, mut load, mut rest) =
            (String::new(), String::new(), String::new(), String::new(), String::new());
        for (column, cell) in self.0.iter().zip(cells) {
            if cell.is_empty() || cell == "-" {
                continue;
            }
            match column {
                Column::Lift => lift = cell.trim_matches('*').to_owned(),
                Column::Sets => sets = format!("{cell} sets x "),
                Column::Reps if cell.contains([',', '/', ' ']) => reps = cell.replace(", ", ",").replace(' ', ","),
                Column::Reps => reps = format!("{cell} reps"),
                Column::Load(unit) => {
                    let bare = cell.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
                    let unit = unit.filter(|_| bare).map_or(String::new(), |unit| format!(" {unit}"));
                    load = format!(" @ {cell}{unit}");
                }
                Column::Rpe => rest.push_str(&format!(" RPE {cell}")),
                Column::Rir => rest.push_str(&format!(" RIR {cell}")),
                Column::Remark => rest.push_str(&format!(" ({})", cell.trim_matches(['(', ')']))),
            }
        }
        let Some(Named { name, .. }) = names.lift(&fold(&lift)) else {
            return if reps.is_empty() { Fate::Prose } else { Fate::UnknownLift(lift, Vec::new()) };
        };
        match readings(&format!("{name} {sets}{reps}{load}{rest}"), Place::default(), names, habits, unit) {
            Fate::Prose if reps.is_empty() => Fate::Prose,
            Fate::Prose => Fate::Unread,
            Fate::Several(choices) => {
                Fate::Several(choices.into_iter().map(|choice| Choice { below: false, ..choice }).collect())
            }
            other => other,
        }
    }
}

fn cells(row: &str) -> Vec<&str> {
    row.trim().trim_start_matches('|').trim_end_matches('|').split('|').map(str::trim).collect()
}

fn named(head: &str) -> Option<Column> {
    Some(match head.trim_matches(['*', ' ']) {
        "lift" | "exercise" | "movement" => Column::Lift,
        "sets" | "set" => Column::Sets,
        "reps" | "rep" => Column::Reps,
        "weight" | "load" => Column::Load(None),
        "kg" | "weight (kg)" | "load (kg)" => Column::Load(Some("kg")),
        "lb" | "lbs" | "weight (lb)" | "weight (lbs)" | "load (lb)" => Column::Load(Some("lb")),
        "rpe" => Column::Rpe,
        "rir" => Column::Rir,
        "notes" | "note" | "remarks" | "comment" | "comments" => Column::Remark,
        _ => return None,
    })
}
