//! `draft` as text: what was done to each plan, and the caution. The page itself is in `pages/draft.rs`.

use crate::present::pages::draft::quotes;
use crate::present::{Doc, Role, wording};
use crate::questions::draft::{Answer, Change, Drafted, Kept, Kind, LeftOut, Of, Open, WeekKind, WhyOut};
use crate::training::{Unit, decimal, spelling};

/// What is to be known of a draft beside its page.
pub fn show(answer: &Answer, unit: Unit) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Answer, made_from(answer), 2);
    // Of plans that get loads no page is shown that would say it.
    for said in quotes(&answer.notes).iter().filter(|_| !answer.fills.is_empty()) {
        out.wrapped(Role::Caution, said, 2);
    }
    let is_told = |session: &&Drafted| session.works.iter().any(|work| !work.changes.is_empty());
    let first_week =
        |session: &&Drafted| answer.sessions.first().is_none_or(|first| (session.date - first.date).num_days() < 7);
    for session in answer.sessions.iter().filter(|session| first_week(session) || is_told(session)) {
        out.line(Role::Title, heading(session));
        for work in &session.works {
            let words = changes(&work.changes, unit);
            if !words.is_empty() {
                out.wrapped(Role::Plain, format!("  {}: {words}", work.lift), 4);
            }
        }
    }
    if answer.is_whole() {
        let words = "The weeks after it have efforts and no loads: once a week is done, `loadline draft week --write` \
                     hangs the loads of the next one.";
        out.wrapped(Role::Hint, words, 0);
    }
    for left_out in &answer.left_out {
        out.wrapped(Role::Plain, out_words(left_out), 2);
    }
    for already in &answer.already {
        let place = already.place.to_string();
        let words = format!("{} has a session already, {place}", wording::day(already.date));
        out.wrapped(Role::Caution, &words, 2);
    }
    out.wrapped(Role::Caution, answer.caution, 0);
    out
}

fn made_from(answer: &Answer) -> String {
    let Of { kind, block, week, from_block, from_week, week_kind } = &answer.of;
    let how = match week_kind {
        WeekKind::Loading => "",
        WeekKind::Deload => ", a deload week: fewer sets and reps, less load; how much is common practice",
        WeekKind::Peak => ", a peak week: what comes off is common practice",
        WeekKind::Meet => ", a meet week: fewer sets and reps, less load, no deadlift; how much is common practice",
    };
    let from = match from_block == block {
        true => format!("week {from_week}"),
        false => format!("block {from_block} week {from_week}"),
    };
    match kind {
        Kind::Week if !answer.fills.is_empty() => {
            format!("block {block} week {week}, loads from {from}{how}")
        }
        Kind::Week => format!("block {block} week {week} from {from}{how}"),
        Kind::Block => format!("block {block} week {week} from block {from_block} week {from_week}"),
    }
}

fn heading(session: &Drafted) -> String {
    let day = session.day.as_deref().map(|day| format!(" {}", spelling::day(day))).unwrap_or_default();
    format!("{}{day}", wording::day(session.date))
}

fn out_words(left_out: &LeftOut) -> String {
    let day = wording::day(left_out.date);
    match (&left_out.lift, left_out.why) {
        (Some(lift), WhyOut::Pain) => format!("{day}: {lift} left out, for pain; decide with a professional"),
        (Some(lift), WhyOut::MeetNear) => format!("{day}: {lift} left out, the meet is near"),
        (Some(lift), WhyOut::DeadliftFirst) => format!("{day}: {lift} left out, deadlifts come out first"),
        (Some(lift), _) => format!("{day}: {lift} left out, neither a plan nor sets say what it was"),
        (None, WhyOut::AfterMeet) => format!("{day}: no session, for it is after the meet"),
        (None, WhyOut::Past) => format!("{day}: no session, for the day is past"),
        (None, _) => format!("{day}: no session, for a meet or test stands on that day"),
    }
}

/// What was done to a plan.
pub(crate) fn changes(changes: &[Change], unit: Unit) -> String {
    changes.iter().map(|change| change_words(*change, unit)).collect::<Vec<String>>().join(", ")
}

fn change_words(change: Change, unit: Unit) -> String {
    match change {
        Change::Up(by) => format!("+{}", wording::mass(by, unit)),
        Change::Down(by) => format!("-{} to stay under the cap", wording::mass(by, unit)),
        Change::Kept(why) => format!(
            "same load, {}",
            match why {
                Kept::NoRoom => "no room for a step under the cap",
                Kept::Pattern => "a step more would be harder than planned",
                Kept::Percent => "the same per cent of the maximum",
                Kept::Again => "planned again",
                Kept::SteppedBack => "back to what was done",
                Kept::NoEffort => "no clean set with reps, load and effort to reckon from",
                Kept::NotDone => "it was not done",
                Kept::NoEnd => "the block has no end; write `- weeks: 4` under its heading",
                Kept::Implement => "it does not hang on a bar",
            }
        ),
        Change::DownToPlan(by) => {
            format!("-{} to keep to the planned effort", wording::mass(by, unit))
        }
        Change::PercentUp(by) => format!("+{} % of the maximum, as the block's plans rise", decimal(by)),
        Change::SetsOff(sets) => format!("{} off", wording::count(sets, "set")),
        Change::RepsOff(reps) => format!("{} off each set", wording::count(reps, "rep")),
        Change::Lighter(percent) => format!("{percent} % lighter"),
        Change::EffortKept(by) => format!("+{} to keep the effort", wording::mass(by, unit)),
        Change::Estimated(effort) => format!("load by the estimate, for {effort}"),
        Change::FirstWeek => "load of the last block's first week".into(),
        Change::StaysOpen(why) => format!(
            "no load yet, {}",
            match why {
                Open::NotDone => "it has not been done",
                Open::NoMass => "last time no weight in kg or lb was written",
                Open::NoBodyweight => "no bodyweight is written of late; write `- bodyweight: 80 kg` under a day",
                Open::NoEffort => "no clean set with reps, load and effort to reckon from",
                Open::UnderScale => "the plan is under RPE 5, where the scale names no reps in reserve",
                Open::ManyReps => "so many reps are more than an estimate reaches",
            }
        ),
        Change::LoadUnknown => "no load is known for these reps".into(),
    }
}
