//! A draft as a page.

use super::plan;
use crate::questions::draft::{Answer, Drafted, NewBlock};
use crate::training::spelling;

/// The page: the block's heading where it is a new one, and the sessions. It ends in a line end.
pub fn page(answer: &Answer) -> String {
    let mut parts = Vec::new();
    parts.extend(answer.new.as_ref().map(heading));
    parts.extend(answer.sessions.iter().map(session));
    parts.join("\n")
}

fn heading(new: &NewBlock) -> String {
    let mut text = format!("# Block {}\n\n- starts: {}\n- weeks: {}\n", new.name, new.starts, new.weeks);
    for (key, weeks) in [("deload", &new.deload), ("peak", &new.peak)] {
        if !weeks.is_empty() {
            text += &format!("- {key}: {}\n", spelling::weeks(weeks));
        }
    }
    text
}

fn session(session: &Drafted) -> String {
    let mut text = format!("## {}", session.date);
    for (nth, descriptor) in descriptors(session).iter().enumerate() {
        // The first descriptor follows a blank, more follow commas.
        text += if nth == 0 { " " } else { ", " };
        text += descriptor;
    }
    text += "\n\n";
    for work in &session.works {
        text += &format!("- {}:\n  - plan: {}\n", work.lift, plan(&work.groups));
    }
    text
}

fn descriptors(session: &Drafted) -> Vec<String> {
    let placed = session.placed.iter().flat_map(|(block, week)| [format!("block {block}"), format!("week {week}")]);
    session.day.iter().map(|day| spelling::day(day)).chain(placed).collect()
}
