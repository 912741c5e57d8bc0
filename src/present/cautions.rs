//! What a caution says, and the page that explains it.

use super::wording;
use crate::questions::review::{Found, Name};
use crate::questions::room::Rpe;

/// A caution in one sentence: short, and never alarming.
pub fn message(found: &Found) -> String {
    match found {
        Found::HighRepsMissing { weeks, last: Some(block) } => {
            format!("no high-rep block for {}; the last was block {block}", count(*weeks, "week"))
        }
        Found::HighRepsMissing { weeks, last: None } => {
            format!("no high-rep block yet in {} of blocks", count(*weeks, "week"))
        }
        Found::HighRepsNearMeet { days, meet } => {
            format!("at least half of the main lifts' sets are still high-rep {} before {meet}", count(*days, "day"))
        }
        Found::Overshoot { lift, most, times } => {
            format!("{lift}: {} of RPE over the plan{}", points(most.value()), at_most(*times))
        }
        Found::GrossUndershoot { lift, most, times, all_done } => {
            let words = format!("{lift}: {} of RPE under the plan{}", points(most.value()), at_most(*times));
            match all_done {
                true => format!("{words}; all planned work was done, so it is no fault"),
                false => format!("{words}; not all planned work was done"),
            }
        }
        Found::NoRoomLeft { lift, week, load, effort, unit } => format!(
            "{lift}: week 1 leaves no room; at the smallest equal steps week {week} comes to {} at {}",
            wording::mass(*load, *unit),
            match effort {
                Rpe::Light => "under RPE 5".to_owned(),
                // To the nearest half, as the scale is.
                Rpe::Of(effort) => format!("about RPE {}", (effort.value() * 2.0).round() / 2.0),
                Rpe::Missed => "over RPE 10".to_owned(),
            }
        ),
        Found::LoadJump { lift, week, reps, from, to, percent } => format!(
            "{lift}: {} to {} for {} in week {week}, {percent:.1} % more than the week before",
            wording::load(from, None),
            wording::load(to, None),
            count(i64::from(*reps), "rep"),
        ),
        Found::HardSetsRise { family, week, sets, before, percent } => format!(
            "{family}: {} in week {week}, {percent:.0} % more than the {before:.1} of the four loading weeks before; \
             this describes, it predicts nothing",
            count(i64::from(*sets), "hard set"),
        ),
        Found::DeloadOverdue { weeks, since } => format!(
            "{} of training without a deload, a peak or a week off, since {}",
            count(*weeks, "week"),
            wording::day(*since)
        ),
        Found::PeakLighter { week, percent, usual, is_planned } => format!(
            "peak week {week}{}: top loads of the competition lifts {percent:+.0} %; they are usually kept, {usual:.0} % \
             at the least",
            as_planned(*is_planned)
        ),
        Found::PeakCut { week, percent, low, high, is_planned } => {
            let (far, as_planned) = (if percent < low { "far more" } else { "far less" }, as_planned(*is_planned));
            format!(
                "peak week {week}{as_planned}: volume {percent:+.0} %, cut {far} than the usual {low:.0} to {high:.0} %"
            )
        }
        Found::HeavyDeadliftNearMeet { lift, percent, days, meet } => format!(
            "{lift}: {percent:.0} % of its estimated maximum {} before {meet}; the last heavy one is usually 7 to 10 \
             days before",
            count(*days, "day")
        ),
        Found::SameFault { lift, fault, sessions, of } => {
            format!("{lift}: !{fault} in {sessions} of the last {of} sessions")
        }
        Found::PainAgain { site, times, days } => {
            let within = if *days == 0 { "on one day".to_owned() } else { format!("in {}", count(*days, "day")) };
            format!("{site}: pain noted {times} times {within}; see a professional about it")
        }
        Found::PlannedAndSkipped { lift, weeks } => {
            format!("{lift}: planned and skipped {weeks} weeks running; perhaps the plan should change")
        }
        Found::BlockBehind { week, against, behind, compared, open, .. } => {
            let so_far = if *open { " so far" } else { "" };
            let lifts = wording::all_of(behind);
            format!("week {week}{so_far} is behind block {against} on {} of {compared}: {lifts}", behind.len())
        }
    }
}

fn count(number: i64, what: &str) -> String {
    wording::count(number.unsigned_abs(), what)
}

fn points(value: f64) -> String {
    if value == 1.0 { "1 point".into() } else { format!("{value} points") }
}

fn at_most(times: usize) -> String {
    if times == 1 { String::new() } else { format!(" at most, on {times} lines") }
}

/// The lift, family or site that a caution is about.
pub fn about(found: &Found) -> Option<&str> {
    match found {
        Found::Overshoot { lift, .. }
        | Found::GrossUndershoot { lift, .. }
        | Found::NoRoomLeft { lift, .. }
        | Found::LoadJump { lift, .. }
        | Found::HeavyDeadliftNearMeet { lift, .. }
        | Found::SameFault { lift, .. }
        | Found::PlannedAndSkipped { lift, .. } => Some(lift),
        Found::HardSetsRise { family, .. } => Some(family.word()),
        Found::PainAgain { site, .. } => Some(site),
        Found::HighRepsMissing { .. }
        | Found::HighRepsNearMeet { .. }
        | Found::DeloadOverdue { .. }
        | Found::PeakLighter { .. }
        | Found::PeakCut { .. }
        | Found::BlockBehind { .. } => None,
    }
}

/// What rests on plans can still be changed.
fn as_planned(is_planned: bool) -> &'static str {
    if is_planned { " as planned" } else { "" }
}

/// The page that explains every caution, a section each.
const PAGE: &str = include_str!("../../docs/cautions.md");

/// The section of a caution: its paragraphs and list items, each on one line.
pub fn explanation(name: Name) -> Vec<String> {
    let heading = format!("## {}", name.word());
    let after = PAGE.lines().skip_while(|line| *line != heading).skip(1);
    let mut parts: Vec<String> = Vec::new();
    let mut open = false;
    for line in after.take_while(|line| !line.starts_with("## ")).map(str::trim) {
        match parts.last_mut().filter(|_| open && !line.is_empty() && !line.starts_with("- ")) {
            Some(part) => {
                part.push(' ');
                part.push_str(line);
            }
            None if !line.is_empty() => parts.push(line.to_owned()),
            None => {}
        }
        open = !line.is_empty();
    }
    parts
}
