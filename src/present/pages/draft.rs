//! A draft as a page: plans, and quoted lines of what is no plan.

use super::plan;
use crate::analysis::strength::time_away::TimeAway;
use crate::questions::draft::{Answer, Drafted, NewBlock, Note};
use crate::training::{spelling, words};

/// The page: the block's heading where it is a new one, and the sessions. It ends in a line end.
pub fn page(answer: &Answer) -> String {
    let quoted = quotes(&answer.notes);
    let mut parts = Vec::new();
    parts.extend(answer.new.as_ref().map(|new| heading(new, &quoted)));
    for (nth, drafted) in answer.sessions.iter().enumerate() {
        let above = if nth == 0 && answer.new.is_none() { &quoted[..] } else { &[] };
        parts.push(session(drafted, above));
    }
    parts.join("\n")
}

fn heading(new: &NewBlock, quoted: &[String]) -> String {
    let mut text = format!("# Block {}\n\n- starts: {}\n- weeks: {}\n", new.name, new.starts, new.weeks);
    for (key, weeks) in [("deload", &new.deload), ("peak", &new.peak)] {
        if !weeks.is_empty() {
            text += &format!("- {key}: {}\n", spelling::weeks(weeks));
        }
    }
    for (lift, load) in &new.maxima {
        text += &format!("- max: {lift} {}\n", load.text().unwrap_or_default());
    }
    quote(&mut text, quoted, true);
    text
}

fn session(session: &Drafted, above: &[String]) -> String {
    let mut text = format!("## {}", session.date);
    if let Some(minute) = session.minute {
        text += &format!(" {}", spelling::clock(minute));
    }
    for (nth, descriptor) in descriptors(session).iter().enumerate() {
        // The first descriptor follows a blank, more follow commas.
        text += if nth == 0 { " " } else { ", " };
        text += descriptor;
    }
    text += "\n";
    quote(&mut text, above, true);
    text += "\n";
    if let Some(gym) = &session.gym {
        text += &format!("gym: {gym}\n\n");
    }
    for work in &session.works {
        text += &format!("- {}:\n  - plan: {}\n", work.lift, plan(&work.groups));
    }
    quote(&mut text, &quotes(&session.notes), !session.works.is_empty());
    text
}

/// Puts quoted lines to a page, a blank one before them.
fn quote(text: &mut String, lines: &[String], gap: bool) {
    if gap && !lines.is_empty() {
        text.push('\n');
    }
    // A comment that a reason opens would swallow what comes after.
    for line in lines {
        *text += &format!("> {}\n", line.replace("<!--", "").replace("-->", ""));
    }
}

/// What is said in quoted lines.
pub(crate) fn quotes(notes: &[Note]) -> Vec<String> {
    let mut lines: Vec<String> = notes.iter().flat_map(said).collect();
    if notes.iter().any(Note::is_of_pain) {
        lines.push("Decide with a professional (coach, physician) before it is planned again.".into());
    }
    lines
}

fn said(note: &Note) -> Vec<String> {
    let was = |was: &[_]| format!("it was {}", plan(was));
    match note {
        Note::Skipped { lift, date, reason, was: groups } => {
            vec![format!("{lift}: not planned; skipped on {} ({reason}), {}", words::day(*date), was(groups))]
        }
        Note::Hurts { lift, site, tenths, date, was: groups } => {
            let pain = words::of_ten(*tenths);
            vec![format!("{lift}: not planned; {site} {pain} on {}, {}", words::day(*date), was(groups))]
        }
        Note::Again(week) => vec![format!("Nothing was done in week {week}, so it is planned again.")],
        Note::OneStep { missed, from } => {
            vec![format!("Nothing was done in week {missed}: this is one step from week {from}, not two.")]
        }
        Note::SteppedBack { missed, to } => {
            let weeks: Vec<String> = missed.iter().map(u32::to_string).collect();
            vec![format!("Nothing was done in weeks {}: back to the loads of week {to}.", words::all_of(&weeks))]
        }
        Note::Away(away) => {
            let TimeAway { last_trained, weeks_away, guess } = away;
            let when = format!("Last trained {weeks_away} weeks ago, on {}", words::day(*last_trained));
            vec![match guess {
                true => {
                    format!("{when}: loads from before that are a guess. Build up again, and let the first sets tell.")
                }
                false => format!("{when}: the first sets tell whether loads from before that still hold."),
            }]
        }
        Note::MeetWeek(meet) => {
            let name = if meet.name.is_empty() { "the meet".to_owned() } else { meet.name.clone() };
            vec![format!("A meet week: {name} is on {}.", words::day(meet.date))]
        }
        Note::MaximaOf(block) => {
            vec![format!("The maxima are those of block {block}; write what was tested since.")]
        }
        Note::MaximumOf(lift) => {
            vec![format!("{lift} is planned in per cents: write `- max: {lift} … kg` above.")]
        }
        Note::NoMaximumIn { lift, block } => {
            vec![format!("{lift} was planned in per cents, and block {block} has no `max:` of it: these are loads.")]
        }
        Note::Like { lifter, block } => {
            vec![
                format!("Made like block {block} of {lifter}, with efforts and no loads."),
                "Begin light: the first sessions show which load has the effort.".into(),
            ]
        }
    }
}

fn descriptors(session: &Drafted) -> Vec<String> {
    let placed = session.placed.iter().flat_map(|(block, week)| [format!("block {block}"), format!("week {week}")]);
    session.day.iter().map(|day| spelling::day(day)).chain(placed).collect()
}
