//! `recall` as text.

use crate::present::{Doc, Role, wording};
use crate::questions::recall::{Answer, Note};
use crate::source::Place;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let nothing = answer.setup.is_none()
        && answer.cues.is_empty()
        && answer.reasons.is_empty()
        && answer.remarks.is_empty()
        && answer.faults.is_empty()
        && answer.last_sets.is_empty();
    if nothing && answer.replaced.is_empty() {
        out.line(Role::Answer, format!("{}: nothing was written about it yet", answer.lift));
        out.wrapped(
            Role::Plain,
            "Under a work line, `  - setup: …`, `  - cue: …`, `  - why: …` and `  - note: …` are recalled here.",
            0,
        );
        return out;
    }
    out.line(Role::Answer, answer.lift.clone());
    for mark in &answer.last_sets {
        let work = wording::mark(mark);
        entry(&mut out, "did", &format!("{work} ({})", wording::date(mark.date)), &mark.place);
    }
    notes(&mut out, "set-up", answer.setup.as_slice());
    notes(&mut out, "cue", &answer.cues);
    notes(&mut out, "why", &answer.reasons);
    for seen in &answer.faults {
        let text = format!(
            "{} in {}, last {}",
            wording::faults(std::slice::from_ref(&seen.fault)),
            wording::count(seen.times, "set"),
            wording::date(seen.last)
        );
        entry(&mut out, "fault", &text, &seen.place);
    }
    notes(&mut out, "note", &answer.remarks);
    for day in &answer.replaced {
        let text = format!("{} stood in on {}", day.by, wording::date(day.date));
        entry(&mut out, "swap", &text, &day.place);
    }
    out
}

fn notes(out: &mut Doc, word: &str, notes: &[Note]) {
    for note in notes {
        let text = format!("{} ({})", note.text, wording::date(note.date));
        entry(out, word, &text, &note.place);
    }
}

fn entry(out: &mut Doc, word: &str, text: &str, place: &Place) {
    out.wrapped(Role::Plain, format!("{word:<7} {text}"), 8);
    out.places(" ".repeat(8), [place], 8, 1);
}
