//! `changes` as text: what came, what went, what was and is.

use crate::history::Mark;
use crate::present::{Doc, Role, wording};
use crate::questions::changes::{
    Altered, Answer, BlockChange, BlockTold, Head, LiftChange, LiftTold, Maximum, OfLifter, PlanTold, RecordChange,
    Renamed, Run, Side, Told, Turn,
};
use crate::training::spelling::{self, Spelled};

/// Shows what changed from one state to another, lifter by lifter; in a summary each on one line.
pub fn show(Answer { from, to, lifters }: &Answer, summary: bool) -> Doc {
    let mut out = Doc::new();
    let mut changed = lifters.iter().filter(|answer| !answer.is_empty()).peekable();
    if summary && changed.peek().is_some() {
        for answer in changed {
            let name = answer.lifter.as_ref().map_or(String::new(), |name| format!("{name}: "));
            out.wrapped(Role::Plain, name + &sums(std::slice::from_ref(answer)), 2);
        }
        return out;
    }
    out.wrapped(Role::Answer, sums(lifters), 2);
    out.wrapped(Role::Place, format!("from {} to {}", wording::state(from), wording::state(to)), 2);
    for state in [from, to].into_iter().filter(|state| !state.journal) {
        let words = format!("there is no journal in this folder in {}", wording::state(state));
        out.wrapped(Role::Caution, &words, 2);
    }
    for answer in changed {
        out.gap();
        if let Some(name) = &answer.lifter {
            out.line(Role::Title, name.as_str());
        }
        of_lifter(answer, &mut out);
    }
    out
}

/// `2 sessions added, 1 altered; 1 record set`
fn sums(lifters: &[OfLifter]) -> String {
    let sum = |count: fn(&OfLifter) -> usize| lifters.iter().map(count).sum::<usize>() as u64;
    let records = |answer: &OfLifter, turn| answer.records.iter().filter(|record| record.turn == turn).count();
    let kinds = [
        (
            vec![
                (sum(|a| a.added.len()), "added"),
                (sum(|a| a.removed.len()), "removed"),
                (sum(|a| a.altered.len()), "altered"),
            ],
            "session",
        ),
        (vec![(sum(|a| a.renamed.len()), "renamed")], "lift"),
        (vec![(sum(|a| a.blocks.len()), "altered")], "block"),
        (
            vec![
                (lifters.iter().map(|answer| records(answer, Turn::Set)).sum::<usize>() as u64, "set"),
                (lifters.iter().map(|answer| records(answer, Turn::TakenBack)).sum::<usize>() as u64, "taken back"),
            ],
            "record",
        ),
    ];
    let mut parts = Vec::new();
    for (counts, what) in kinds {
        let mut counts = counts.into_iter().filter(|(count, _)| *count > 0);
        let Some((first, word)) = counts.next() else { continue };
        let mut part = format!("{} {word}", wording::count(first, what));
        part.extend(counts.map(|(count, word)| format!(", {count} {word}")));
        parts.push(part);
    }
    if parts.is_empty() { "no change in training".into() } else { parts.join("; ") }
}

fn of_lifter(answer: &OfLifter, out: &mut Doc) {
    for change in &answer.blocks {
        block(change, out);
    }
    for Renamed { was, is, sessions } in &answer.renamed {
        out.wrapped(Role::Plain, format!("{is} was {was}: {}", wording::count(*sessions, "session")), 4);
    }
    for told in &answer.removed {
        whole("removed", '-', Role::Behind, told, out);
    }
    for told in &answer.added {
        whole("added", '+', Role::Ahead, told, out);
    }
    for change in &answer.altered {
        altered(change, out);
    }
    for change in &answer.records {
        record(change, out);
    }
}

/// A session's day and place, on two lines where there is no room for both on one.
fn title(word: &str, head: &Head, out: &mut Doc) {
    out.beside((Role::Title, format!("{word} {}", short(head))), [&head.place], 4);
}

/// `2026-03-05 technique day`
fn short(head: &Head) -> String {
    let day = head.day.as_deref().map_or(String::new(), |day| format!(" {}", spelling::day(day)));
    format!("{}{day}", head.date)
}

/// Everything that a heading and its facts say.
fn long(head: &Head) -> String {
    let mut words = vec![short(head)];
    words.extend(head.time.clone());
    let marks = [(head.deload, "deload"), (head.peak, "peak"), (head.test_day, "test day")];
    words.extend(marks.iter().filter(|(is, _)| *is).map(|(_, word)| (*word).to_owned()));
    words.extend(head.meet.as_ref().map(|meet| format!("meet {meet}").trim_end().to_owned()));
    words.extend(head.bodyweight.map(|mass| format!("bodyweight {}", mass.written())));
    words.extend(head.pains.iter().map(|pain| format!("pain {} {}/10", pain.site, pain.of_ten.0)));
    words.extend(head.notes.iter().map(|note| format!("note: {note}")));
    words.join(", ")
}

fn whole(word: &str, sign: char, role: Role, told: &Told, out: &mut Doc) {
    title(word, &told.head, out);
    for note in &told.head.notes {
        out.wrapped(role, format!("  {sign} note: {note}"), 6);
    }
    for LiftTold { lift, side } in &told.lifts {
        out.wrapped(role, format!("  {sign} {lift}: {}", work(side)), 6);
        let notes = notes(lift, side);
        if !notes.is_empty() {
            out.wrapped(role, format!("  {sign} {notes}"), 6);
        }
    }
}

fn altered(change: &Altered, out: &mut Doc) {
    title("altered", &change.is, out);
    let (was, is) = (long(&change.was), long(&change.is));
    if was != is {
        both(&was, &is, out);
    }
    for LiftChange { lift, sets_altered, plan_altered, notes_altered, was, is } in &change.lifts {
        let both_there = was.is_there && is.is_there;
        let bare = was.sets.is_empty() && is.sets.is_empty();
        if !both_there || *sets_altered || (bare && *plan_altered) {
            both(&told(lift, "", &work(was), was), &told(lift, "", &work(is), is), out);
        }
        // Where no set was done yet, the plan has been told in the place of the sets.
        if both_there && *plan_altered && !bare {
            both(&told(lift, " plan", &plan(was), was), &told(lift, " plan", &plan(is), is), out);
        }
        if *notes_altered {
            both(&notes(lift, was), &notes(lift, is), out);
        }
    }
}

/// `Bench press note: elbow gone`; nothing without one.
fn notes(lift: &str, side: &Side) -> String {
    if side.notes.is_empty() { String::new() } else { format!("{lift} note: {}", side.notes.join("; ")) }
}

/// A lift with what is said of it; nothing where it is not there.
fn told(lift: &str, what: &str, words: &str, side: &Side) -> String {
    if side.is_there { format!("{lift}{what}: {words}") } else { String::new() }
}

fn both(was: &str, is: &str, out: &mut Doc) {
    for (sign, role, words) in [('-', Role::Behind, was), ('+', Role::Ahead, is)] {
        if !words.is_empty() {
            out.wrapped(role, format!("  {sign} {words}"), 6);
        }
    }
}

/// What was done, else what was to be done.
fn work(side: &Side) -> String {
    let mut words: Vec<String> = Vec::new();
    if side.skipped {
        let why = side.skipped_because.as_ref().map_or(String::new(), |why| format!(" ({why})"));
        words.push(format!("skipped{why}"));
    }
    words.extend(side.sets.iter().map(run));
    if side.sets.is_empty() && !side.plans.is_empty() {
        words.push(format!("planned {}", plan(side)));
    }
    if words.is_empty() { "no sets".into() } else { words.join(", ") }
}

fn plan(side: &Side) -> String {
    let plan = |plan: &PlanTold| {
        let masses: Vec<String> = plan.of_maximum.iter().map(ToString::to_string).collect();
        if masses.is_empty() { plan.text.clone() } else { format!("{} ({})", plan.text, masses.join(", ")) }
    };
    let plans: Vec<String> = side.plans.iter().map(plan).collect();
    if plans.is_empty() { "none".into() } else { plans.join(", ") }
}

/// `3x8 @ 120 kg RPE 6 !depth`
fn run(Run { sets, each: run }: &Run) -> String {
    let load = run.load.text().map(|_| wording::weighed(&run.load));
    Spelled::of(spelling::sets(*sets, run.amount, run.per_side))
        .load(load)
        .effort(run.effort)
        .faults(&run.faults, run.missed)
        .pace(&run.pace)
        .text()
}

fn block(change: &BlockChange, out: &mut Doc) {
    let word = match (&change.was, &change.is) {
        (None, _) => "added",
        (_, None) => "removed",
        _ => "altered",
    };
    out.line(Role::Title, format!("{word} block {}", change.name));
    let words = |told: &Option<BlockTold>| told.as_ref().map_or(String::new(), block_words);
    both(&words(&change.was), &words(&change.is), out);
}

fn block_words(told: &BlockTold) -> String {
    let mut words = vec![match told.ends {
        Some(ends) => format!("{} to {ends}", told.starts),
        None => format!("from {}", told.starts),
    }];
    let light = [("deload", &told.deload), ("peak", &told.peak)].into_iter().filter(|(_, weeks)| !weeks.is_empty());
    words.extend(light.map(|(word, weeks)| format!("{word} {}", spelling::weeks(weeks))));
    let max = |max: &Maximum| format!("max {} {}", max.lift, max.load.text_with_unit().unwrap_or_default());
    words.extend(told.maxima.iter().map(max));
    words.join(", ")
}

fn record(change: &RecordChange, out: &mut Doc) {
    let mark = |mark: &Mark| format!("{} on {}", wording::weighed(&mark.load), wording::date(mark.date));
    let (word, role) = match change.turn {
        Turn::Set => ("record set", Role::Ahead),
        Turn::TakenBack => ("record taken back", Role::Behind),
    };
    let reps = wording::count(change.reps, "rep");
    let words = match (change.turn, &change.was, &change.is) {
        (Turn::Set, None, Some(is)) => format!("{}, the first", mark(is)),
        (Turn::Set, Some(was), Some(is)) => format!("{}, before {}", mark(is), mark(was)),
        (_, Some(was), Some(is)) => format!("{}, now {}", mark(was), mark(is)),
        (_, Some(was), None) => format!("{}, now none", mark(was)),
        (_, None, _) => String::new(),
    };
    out.wrapped(role, format!("{word}: {}, {reps}: {words}", change.lift), 4);
}
