//! `import notes` as text: what is to be known of the lines.

use super::import::not_written;
use crate::import::notes::BELOW_NO_DAY;
use crate::present::notes::{NotRead, Outcome};
use crate::present::wording::{any_of, count};
use crate::present::{Doc, Role};

/// What is to be known beside the pages. Names come first: most lines that are not read wait for one.
pub fn report(outcome: &Outcome<'_>) -> Doc {
    let mut out = Doc::new();
    if !outcome.names.is_empty() {
        out.line(Role::Title, "names that no lift has; a habit says which lift each is (`names: { SQ: Back squat }`)");
    }
    for name in &outcome.names {
        let near = if name.near.is_empty() { String::new() } else { format!("; {}?", any_of(&name.near)) };
        out.line(Role::Plain, format!("  {}: {}{near}", name.name, count(name.lines as u64, "line")));
    }
    if !outcome.proposed.is_empty() {
        let so_far = if outcome.accepted { "and taken" } else { "which count once they are written under `habits:`" };
        out.line(Role::Title, format!("habits that the lines bear out, {so_far}"));
    }
    for proposed in &outcome.proposed {
        out.line(Role::Plain, format!("  {}: {}", proposed.habit, proposed.borne_out_by));
    }
    if !outcome.open.is_empty() {
        out.line(Role::Title, "habits that only you can tell");
    }
    for open in &outcome.open {
        let ask = if open.lines == 1 { "asks" } else { "ask" };
        out.line(Role::Plain, format!("  {}: {} {ask}", open.habit, count(open.lines as u64, "line")));
    }
    if !outcome.not_read.is_empty() {
        out.line(Role::Title, "not read, and kept in the pages as `> not read: …`");
    }
    // What stands below a day without a date goes with it.
    let mut below = 0u64;
    let lines = &outcome.not_read;
    for (at, line) in lines.iter().enumerate() {
        let of_day = |line: &NotRead<'_>| line.says == BELOW_NO_DAY;
        if of_day(line) {
            below += 1;
        } else {
            out.line(Role::Error, format!("{}:{}: `{}`: {}", line.file, line.line, line.text.trim(), line.says));
        }
        if below > 0 && !lines.get(at + 1).is_some_and(of_day) {
            let so = if below == 1 { "nor is the line" } else { "nor are the lines" };
            out.line(Role::Plain, format!("  {so} below it, to line {}", line.line));
            below = 0;
        }
    }
    let sessions: usize = outcome.writing.pages.iter().map(|page| page.sessions).sum();
    let of = count(outcome.lines as u64, "line");
    let read = count(outcome.work as u64, "line");
    let mut sum = format!("{of}: {read} of work in {}", count(sessions as u64, "session"));
    if outcome.not_read.is_empty() {
        sum += "; every line is read or prose";
    } else {
        let kinds: Vec<String> =
            outcome.by_kind().iter().map(|(kind, count)| format!("{count} {}", kind.replace('-', " "))).collect();
        sum += &format!("; {} not read: {}", outcome.not_read.len(), kinds.join(", "));
    }
    out.line(Role::Title, sum);
    if outcome.accepted {
        out.line(Role::Caution, format!("{} on what is only proposed", rest(outcome.rest_on_proposed)));
    }
    if let Some(habits) = &outcome.habits_written {
        out.line(Role::Place, format!("{habits} has what was found out; take the `#` away before what is so"));
    }
    not_written(&outcome.writing, &mut out);
    out
}

fn rest(lines: usize) -> String {
    if lines == 1 { "1 line rests".into() } else { format!("{lines} lines rest") }
}
