//! `session` as text: a lift's next set first, then what it rests on.

use super::room::between;
use crate::history::Mark;
use crate::present::{Doc, Role, wording};
use crate::questions::plates::Run;
use crate::questions::session::{Answer, Hint, Hurt, LiftAhead, Next, Out, Plates, ToBeat, WarmUpSet};
use crate::training::{Mass, Unit, spelling};

/// The columns of `--next`, which is for a telephone, or a window beside the editor.
pub const NARROW: usize = 42;

/// Labels stand in a column so wide, after two blanks.
const LABEL: usize = 11;

/// The whole session; unless `all` is asked for, of the lifts behind the one that comes next only what is loaded and why.
pub fn show(answer: &Answer, all: bool) -> Doc {
    let mut out = Doc::new();
    out.append(stops(answer));
    out.wrapped(Role::Title, title(answer), 2);
    let around = around(answer);
    if !around.is_empty() {
        out.wrapped(Role::Caution, around, 2);
    }
    let comes = answer.lifts.iter().position(|lift| lift.next.is_some()).unwrap_or(0);
    for (at, lift) in answer.lifts.iter().enumerate() {
        out.gap();
        out.append(of_lift(lift, all || at == comes));
    }
    if !answer.left_out.is_empty() {
        out.gap();
        out.append(left_out(answer));
    }
    let hints = hints(&answer.lifts);
    if !hints.is_empty() {
        out.gap();
        hints.into_iter().for_each(|hint| out.wrapped(Role::Hint, hint, 2));
    }
    out.gap();
    out.wrapped(Role::Caution, answer.caution, 0);
    out
}

/// Only the next set.
pub fn next(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    out.append(stops(answer));
    if !answer.left_out.is_empty() {
        out.append(left_out(answer));
        return out;
    }
    let Some((lift, next)) = answer.lifts.iter().find_map(|lift| Some((lift, lift.next.as_ref()?))) else {
        out.wrapped(Role::Answer, format!("{}: every set is done", day(answer)), 2);
        return out;
    };
    out.wrapped(Role::Title, format!("{}, set {} of {}", lift.lift, next.set, lift.sets), 2);
    let load = load_and_count(lift, next);
    let effort = effort(next).unwrap_or_default();
    let length = |text: &str| text.chars().count();
    // At the usual place, or nearer where the line would be too long for a small screen.
    let place = NARROW.saturating_sub(length(&effort)).min(20);
    let pad = " ".repeat(place.saturating_sub(length(&load)).max(2));
    out.broken(vec![(Role::Answer, load), (Role::Plain, format!("{pad}{effort}"))], 2);
    if let Some(why) = why(next) {
        out.wrapped(Role::Plain, why, 2);
    }
    if let Some(plates) = &next.plates {
        out.wrapped(Role::Plain, format!("each side  {}", each_side(&plates.hung.side)), 2);
        if let Some(off) = off(plates, lift.unit) {
            out.wrapped(Role::Plain, off, 2);
        }
        if let Some(moves) = change(plates) {
            out.wrapped(Role::Answer, moves, 2);
        }
    }
    if !lift.warm_up.is_empty() {
        out.wrapped(Role::Plain, format!("warm-up  {}", warm_up(lift)), 2);
    }
    if let Some(cue) = &lift.cue {
        out.wrapped(Role::Plain, format!("cue  {}", cue.text), 2);
    }
    out
}

fn stops(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    stop(answer).into_iter().for_each(|stop| out.wrapped(Role::Caution, stop, 2));
    out
}

/// `chest 8/10, 9 Mar: stop, and see a physician before you train again`
pub(in crate::present) fn stop(answer: &Answer) -> Option<String> {
    let pains: Vec<&str> = answer.stop.iter().map(|pain| &*pain.text).collect();
    (!pains.is_empty()).then(|| format!("{}: stop, and see a physician before you train again", pains.join("; ")))
}

/// `Bench press is skipped (shoulder)`
fn left_out(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    for Out { lift, instead, because } in &answer.left_out {
        let what = instead.as_ref().map_or("is skipped".to_owned(), |other| format!("is left for {other}"));
        let because = because.as_ref().map_or(String::new(), |because| format!(" ({because})"));
        out.wrapped(Role::Answer, format!("{lift} {what}{because}"), 2);
    }
    out
}

/// `Thu 26 Nov, technique day         block 9, week 4 of 4`
fn title(answer: &Answer) -> String {
    let day = day(answer);
    block(answer).map_or_else(|| day.clone(), |block| format!("{day:<32}  {block}"))
}

/// `block 9, week 4 of 4`
pub(in crate::present) fn block(answer: &Answer) -> Option<String> {
    let block = answer.session.block.as_ref()?;
    let of = answer.weeks.map_or(String::new(), |weeks| format!(" of {weeks}"));
    let week = answer.session.week.map_or(String::new(), |week| format!(", week {week}{of}"));
    Some(format!("block {block}{week}"))
}

/// `Thu 26 Nov, technique day`
pub(in crate::present) fn day(answer: &Answer) -> String {
    let session = &answer.session;
    let day = session.day.as_ref().map_or(String::new(), |day| format!(", {}", spelling::day(day)));
    format!("{} {}{day}", session.date.format("%a"), wording::short_day(session.date))
}

/// `Tidewater in 23 days; left knee 3/10 two weeks ago`
pub(in crate::present) fn around(answer: &Answer) -> String {
    let meet = answer.meet.iter().map(|meet| match meet.days {
        0 => format!("{} today", meet.name),
        days => format!("{} in {}", meet.name, wording::count(u64::try_from(days).unwrap_or(0), "day")),
    });
    let hurt = |hurt: &Hurt| {
        let when = if hurt.days == 0 { "today".to_owned() } else { wording::ago(hurt.days) };
        format!("{} {}/10 {when}", hurt.site, f64::from(hurt.tenths) / 10.0)
    };
    meet.chain(answer.pains.iter().map(hurt)).collect::<Vec<_>>().join("; ")
}

/// A line below a lift: what it is of, and what it says.
pub(in crate::present) struct Row {
    pub(in crate::present) label: &'static str,
    pub(in crate::present) role: Role,
    pub(in crate::present) text: String,
}

/// What is asked for when a lift's turn comes, and not before.
const IN_ITS_TURN: [&str; 5] = ["last time", "best", "set-up", "cue", "why"];

fn of_lift(lift: &LiftAhead, whole: bool) -> Doc {
    let mut out = Doc::new();
    let pad = " ".repeat(22usize.saturating_sub(lift.lift.chars().count()).max(2));
    let mut head = vec![(Role::Title, lift.lift.clone())];
    head.extend(beside(lift).map(|said| (Role::Plain, format!("{pad}{said}"))));
    out.broken(head, LABEL + 2);
    let next = lift.next.iter().map(|next| Row { label: "next set", role: Role::Answer, text: next_set(lift, next) });
    for Row { label, role, text } in next.chain(rows(lift)).filter(|row| whole || !IN_ITS_TURN.contains(&row.label)) {
        out.broken(vec![(Role::Place, format!("  {label:<LABEL$}")), (role, text)], LABEL + 2);
    }
    out
}

/// What stands beside a lift's name: the plan, or what is done of it.
pub(in crate::present) fn beside(lift: &LiftAhead) -> Option<String> {
    if lift.done.is_empty() {
        return lift.plan_in_brief.as_ref().map(|plan| format!("plan {plan}"));
    }
    Some(format!("{} of {} done: {}", lift.sets_done, lift.sets, done(lift)))
}

/// What stands below the next set.
pub(in crate::present) fn rows(lift: &LiftAhead) -> Vec<Row> {
    let unit = lift.unit;
    let mut rows = Vec::new();
    let mut row = |label, role, text: String| rows.push(Row { label, role, text });
    if let Some(next) = &lift.next {
        if let Some(why) = why(next) {
            row("", Role::Plain, why.to_owned());
        }
        if let Some(plates) = &next.plates {
            let bar = if plates.bar == "bar" { String::new() } else { format!("   {}", plates.bar) };
            row("each side", Role::Plain, format!("{}{bar}", each_side(&plates.hung.side)));
            if let Some(off) = off(plates, unit) {
                row("", Role::Plain, off);
            }
            if let Some(moves) = change(plates) {
                row("", Role::Plain, moves);
            }
        }
    }
    if let Some(beat) = &lift.to_beat {
        row("to beat", Role::Plain, to_beat(beat, unit));
    }
    if let Some(last) = &lift.last_time {
        row("last time", Role::Plain, format!("{}   {}", mark(last, unit), wording::short_day(last.date)));
    }
    let other = |best: &&Mark| {
        let mut others = lift.to_beat.iter().map(|beat| &beat.mark).chain(&lift.last_time);
        others.all(|mark| mark.place != best.place)
    };
    if let Some(best) = lift.best.as_ref().filter(other) {
        row("best", Role::Plain, format!("{}   {}", mark(best, unit), wording::short_day(best.date)));
    }
    for (label, note) in [("set-up", &lift.setup), ("cue", &lift.cue), ("why", &lift.why)] {
        if let Some(note) = note {
            row(label, Role::Plain, note.text.clone());
        }
    }
    for (nth, watch) in lift.watch.iter().enumerate() {
        row(if nth == 0 { "watch" } else { "" }, Role::Caution, watch.text.clone());
    }
    if !lift.warm_up.is_empty() {
        row("warm-up", Role::Plain, warm_up(lift));
    }
    rows
}

/// Why this load, where there is more to say than that it is as planned.
fn why(next: &Next) -> Option<&str> {
    (next.why != "as planned").then_some(next.why.as_str())
}

/// `Thu 26 Nov, technique day: Front squat 160.4 kg x4, Pause bench press …`: of so many lifts.
pub(in crate::present) fn in_brief(answer: &Answer, most: usize) -> String {
    let loads = answer.lifts.iter().filter_map(|lift| {
        let next = lift.next.as_ref()?;
        Some(format!("{} {}", lift.lift, load_and_count(lift, next)))
    });
    let loads: Vec<String> = loads.take(most).collect();
    let more = if answer.lifts.len() > loads.len() { " …" } else { "" };
    format!("{}: {}{more}", day(answer), loads.join(", "))
}

/// `160.4 kg x 4`
pub(in crate::present) fn load_and_count(lift: &LiftAhead, next: &Next) -> String {
    let amount = spelling::amount(next.amount, next.per_side);
    match &next.load {
        Some(load) => format!("{} x {amount}", wording::brief(&load.load, lift.unit)),
        None => amount,
    }
}

/// `160.4 kg, expect RPE 8 (7.5 to 8.5)`
fn next_set(lift: &LiftAhead, next: &Next) -> String {
    let amount = spelling::amount(next.amount, next.per_side);
    let load = match &next.load {
        Some(load) => wording::brief(&load.load, lift.unit),
        None => amount,
    };
    effort(next).map_or_else(|| load.clone(), |effort| format!("{load}, expect {effort}"))
}

/// `RPE 8 (7.5 to 8.5)`
pub(in crate::present) fn effort(next: &Next) -> Option<String> {
    let (low, middle, high) = (next.effort_low?, next.effort?, next.effort_high?);
    Some(format!("{middle} ({})", between(low, high)))
}

/// `25 25 20`; a plate of the other unit has it beside it.
fn each_side(side: &[Run]) -> String {
    if side.is_empty() { "no plates".into() } else { numbers(side).join(" ") }
}

/// The number of each plate.
fn numbers(runs: &[Run]) -> Vec<String> {
    let number = super::plates::numbers_of(runs);
    runs.iter().flat_map(|run| std::iter::repeat_n(number(run), run.count as usize)).collect()
}

/// `these plates are 2.24 kg too heavy`, where the plates do not make the load.
fn off(plates: &Plates, unit: Unit) -> Option<String> {
    let exact = plates.hung.off == Mass::ZERO;
    (!exact).then(|| format!("these plates are {}", super::plates::off(&plates.hung, unit)))
}

/// `take off 20, put on 15 and 2.5`
fn change(plates: &Plates) -> Option<String> {
    let moves = plates.hung.change.as_ref()?;
    let all = |runs: &[Run]| wording::all_of(&numbers(runs));
    Some(match (moves.off.as_slice(), moves.on.as_slice()) {
        ([], []) => "nothing to change".into(),
        ([], on) => format!("put on {}", all(on)),
        (off, []) => format!("take off {}", all(off)),
        (off, on) => format!("take off {}, put on {}", all(off), all(on)),
    })
}

/// `3x4 @ 157.9 kg RPE 8   block 8, 29 Oct`
fn to_beat(beat: &ToBeat, unit: Unit) -> String {
    let of = |equal| wording::with_own(wording::estimated(equal, unit), &beat.mark.load);
    let equal = beat.equal.map_or(String::new(), |equal| format!(", equals {}", of(equal)));
    let block = beat.mark.block.as_ref().map_or(String::new(), |block| format!("block {block}, "));
    format!("{}{equal}   {block}{}", mark(&beat.mark, unit), wording::short_day(beat.mark.date))
}

/// `3x4 @ 157.9 kg RPE 8`
fn mark(mark: &Mark, unit: Unit) -> String {
    let count = wording::sets(mark.sets, mark.amount, mark.per_side);
    let load = mark.load.load.text().map(|_| wording::brief(&mark.load.load, unit));
    // A set of no reps was tried and missed, and is no effort.
    let (effort, missed) = if mark.amount.is_nothing() { (None, 1) } else { (mark.effort, 0) };
    spelling::Spelled::of(count).load(load).effort(effort).faults(&mark.faults, missed).text()
}

/// `4 @ 160.4 kg RPE 8.5, 4 @ 155 kg RPE 8`
fn done(lift: &LiftAhead) -> String {
    let one = |done: &Mark| {
        let text = mark(done, lift.unit);
        if done.sets == 1 { text.strip_prefix("1x").map_or(text.clone(), str::to_owned) } else { text }
    };
    lift.done.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// `bar x8, 70 x5, 100 x3`; with its unit where the load of the set is shown in the other one.
fn warm_up(lift: &LiftAhead) -> String {
    let unit = lift.unit;
    let next = lift.next.as_ref().and_then(|next| next.load.as_ref());
    let in_other = next.is_some_and(|next| {
        let shown = wording::brief(&next.load, unit);
        [Unit::Kg, Unit::Lb].into_iter().any(|other| other != unit && shown.ends_with(other.word()))
    });
    let one = |set: &WarmUpSet| {
        let load = match &set.plates {
            Some(plates) if plates.hung.side.is_empty() => "bar".to_owned(),
            _ => {
                let load = wording::brief(&set.load.load, unit);
                let load = set
                    .load
                    .kilograms
                    .filter(|mass| mass.unit() != unit && set.plates.is_some())
                    .map_or(load, |mass| wording::brief_mass(mass, unit));
                let bare = load.strip_suffix(&format!(" {}", unit.word())).filter(|_| !in_other);
                bare.map_or(load.clone(), str::to_owned)
            }
        };
        set.reps.map_or_else(|| load.clone(), |reps| format!("{load} x{reps}"))
    };
    lift.warm_up.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// What the lifter could do for a better answer, each once with the lifts that it is about.
pub(in crate::present) fn hints(lifts: &[LiftAhead]) -> Vec<String> {
    let of = |hint: Hint| -> Vec<String> {
        lifts.iter().filter(|lift| lift.hints.contains(&hint)).map(|lift| lift.lift.clone()).collect()
    };
    let words = |hint: Hint| match hint {
        Hint::NoEffort => {
            "how hard it will be is not known; an effort written behind the load, such as RPE 8, would tell"
        }
        Hint::NoPlates => "no plates are told; `gear:` in journal.yaml names bars and plates",
        Hint::NoSingle => {
            "nothing near a maximum in four weeks; a single at RPE 8 at the block's start would make all of this surer"
        }
    };
    let all = [Hint::NoEffort, Hint::NoPlates, Hint::NoSingle].map(|hint| (of(hint), words(hint)));
    let said = all.into_iter().filter(|(lifts, _)| !lifts.is_empty());
    said.map(|(lifts, said)| format!("{}: {said}", wording::all_of(&lifts))).collect()
}
