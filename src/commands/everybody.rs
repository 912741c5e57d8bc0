//! One question asked of several lifters: of everybody, or of those who are named.

use super::desk::{self, Desk, today};
use super::options::{Format, Options};
use super::outcome::{Failure, Reply};
use super::progress::progress;
use crate::history::History;
use crate::journal::Lifter;
use crate::meaning;
use crate::present::envelope::{Envelope, json, list};
use crate::present::{Doc, sanitize};
use crate::training::{GymId, on_every_core, show_in};
use serde::Serialize;
use std::sync::Arc;

/// A lifter whose pages are not read yet.
pub(super) struct OneOfThem<'a> {
    pub(super) lifter: &'a Lifter,
    pub(super) pages: &'a [String],
    options: &'a Options,
    desk: &'a Desk,
    /// Whether nobody else is read meanwhile.
    alone: bool,
    gym: Option<GymId>,
}

impl OneOfThem<'_> {
    /// Reads the pages, and asks what they say.
    pub(super) fn read<T>(&self, ask: impl FnOnce(&History<'_>) -> T) -> T {
        let OneOfThem { lifter, desk, options, .. } = self;
        // Many lifters are read one a core; the pages of one, and those that are kept, are read on all of them.
        let mut reading = if self.alone || desk.keeps() {
            desk.read(lifter, None)
        } else {
            Arc::new(meaning::read_alone(&desk.files, lifter, self.pages.to_vec()))
        };
        if let Some(gym) = self.gym {
            Arc::make_mut(&mut reading).log.be_at(gym, today(options));
        }
        ask(&History::new(&reading.log, &lifter.book, today(options)))
    }
}

/// Asks the history of every lifter, or of those who are named, in order of their folders.
pub(super) fn each_lifter<T: Send>(
    options: &Options,
    desk: &Desk,
    ask: impl Fn(&History<'_>, &Lifter) -> T + Sync,
) -> Result<Vec<T>, Failure> {
    each_of_them(options, desk, |one| one.read(|history| ask(history, one.lifter)))
}

/// The same of lifters of whom it is for `ask` to say whether they are read.
pub(super) fn each_of_them<T: Send>(
    options: &Options,
    desk: &Desk,
    ask: impl Fn(&OneOfThem<'_>) -> T + Sync,
) -> Result<Vec<T>, Failure> {
    let lifters = desk.lifters(options)?;
    let gyms: Vec<_> =
        lifters.iter().map(|(lifter, _)| options.gym.as_deref().map(|name| lifter.gym(name)).transpose()).collect();
    // A gym may be one lifter's own; where nobody has it, its name is wrong.
    if gyms.iter().all(Result::is_err) {
        gyms.iter().cloned().collect::<Result<Vec<_>, _>>()?;
    }
    // For a few lifters there is nothing to wait for.
    let bar = progress(if lifters.len() < 20 { 0 } else { lifters.len() }, "lifters");
    let answers = on_every_core(lifters.len(), |at| {
        let (lifter, pages) = lifters.get(at)?;
        show_in(lifter.units);
        let gym = gyms.get(at).and_then(|gym| *gym.as_ref().ok()?);
        let answer = ask(&OneOfThem { lifter, pages, options, desk, alone: lifters.len() == 1, gym });
        bar.inc(1);
        Some(answer)
    });
    bar.finish_and_clear();
    Ok(answers.into_iter().flatten().collect())
}

/// What a lifter is called above a section.
pub(super) fn called(lifter: &Lifter) -> &str {
    let name = lifter.name.as_deref().unwrap_or(&lifter.folder);
    if name.is_empty() { "this journal" } else { name }
}

/// A section a lifter, and in JSON a list of what each one alone is answered. Who cannot be answered is named on standard
/// error, and fails the whole only where that is everybody. What is said once stands at the end.
pub(super) fn sections<T: Serialize>(
    options: &Options,
    ask: impl Fn(&History<'_>) -> Result<T, Failure> + Sync,
    view: impl Fn(&str, &T) -> Doc + Sync,
    once: &Doc,
) -> Result<Reply, Failure> {
    let desk = Desk::open(options)?;
    let of = |history: &History<'_>, lifter: &Lifter| {
        let (name, left_out) = (called(lifter).to_owned(), history.log.left_out);
        let shown = ask(history).map(|answer| match options.format {
            Format::Json => json(&Envelope {
                lifter: history.log.lifter.as_deref(),
                today: today(options),
                left_out,
                unread_pages: &desk.unread(Some(lifter)),
                answer,
            }),
            Format::Text => options.shown(&view(&name, &answer)),
        });
        (name, left_out, shown)
    };
    let (mut shown, mut failed, mut lines) = (Vec::new(), Vec::new(), 0);
    for (name, left_out, section) in each_lifter(options, &desk, of)? {
        match section {
            Ok(section) => {
                lines += left_out;
                shown.push(section);
            }
            Err(why) => failed.push(format!("{name}: {}", why.0)),
        }
    }
    if shown.is_empty()
        && let Some(first) = failed.first()
    {
        return Err(Failure(first.clone()));
    }
    let mut err: String = failed.iter().map(|words| format!("loadline: {}\n", sanitize(words))).collect();
    Ok(match options.format {
        Format::Json => Reply::answered(list(&shown), err),
        Format::Text => {
            err += &desk::left_out(lines, desk.journal.problems.len(), &desk.unread(None));
            shown.push(options.shown(once));
            shown.retain(|section| !section.is_empty());
            Reply::answered(shown.join("\n"), err)
        }
    })
}
