//! Sessions from a table, as a page.

use crate::import::{Session, Sets, Work, WrittenEffort};
use crate::training::spelling::{self, Spelled};

/// A page, and the lines of it that sessions and their work stand in.
#[derive(Clone, Debug, Default)]
pub struct Printed {
    /// The page. It ends in a line end.
    pub text: String,
    /// The lines of the headings, from 1, in the order of the sessions.
    pub headings: Vec<u32>,
    /// The lines of each session's work.
    pub works: Vec<Vec<u32>>,
}

/// The page of some sessions.
pub fn page(sessions: &[Session]) -> Printed {
    let mut printed = Printed::default();
    let mut lines: Vec<String> = Vec::new();
    for session in sessions {
        if !lines.is_empty() {
            lines.push(String::new());
        }
        lines.push(heading(session));
        printed.headings.push(number(&lines));
        lines.push(String::new());
        if let Some((own, _)) = &session.bodyweight {
            lines.extend([format!("bodyweight: {own}"), String::new()]);
        }
        let mut works = Vec::new();
        for work in &session.works {
            lines.push(format!("- {}: {}", work.lift, groups(work)));
            works.push(number(&lines));
            lines.extend(work.notes.iter().map(|note| format!("  - note: {note}")));
        }
        printed.works.push(works);
    }
    printed.text = lines.into_iter().map(|line| line + "\n").collect();
    printed
}

fn number(lines: &[String]) -> u32 {
    u32::try_from(lines.len()).unwrap_or(u32::MAX)
}

fn heading(session: &Session) -> String {
    let time = session.minute.map(|minute| format!(" {}", spelling::clock(minute)));
    let day = session.day.as_deref().map(|day| format!(" {}", spelling::day(day)));
    format!("## {}{}{}", session.date, time.unwrap_or_default(), day.unwrap_or_default())
}

fn groups(work: &Work) -> String {
    let mut load: Option<&str> = None;
    let mut texts = Vec::new();
    for sets in &work.groups {
        // What has the load of the group before is written without, as one would.
        let own = sets.load.as_deref().filter(|own| load != Some(*own));
        load = sets.load.as_deref();
        texts.push(group(sets, own));
    }
    texts.join(", ")
}

fn group(sets: &Sets, load: Option<&str>) -> String {
    Spelled::of(spelling::sets(sets.count, sets.amount, sets.per_side))
        .load(load)
        .effort(sets.effort.map(effort))
        .faults(&sets.faults, sets.missed)
        .text()
}

fn effort(effort: WrittenEffort) -> String {
    let scale = if effort.in_reserve { "RIR" } else { "RPE" };
    format!("{scale} {}", spelling::range(effort.low, effort.high))
}
