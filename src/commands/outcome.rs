//! What a command ends with: what goes to standard output and standard error, and the exit status.

mod deliver;
mod mistake;

use crate::history::{NoBlock, NoLift, NoMeet, NoWeek, NoWork};
use crate::journal::{NoGym, NoLifter, NoRoot, NotSaved, SETTINGS_FILE};
use crate::present::sanitize;
use crate::present::wording::{self, any_of, there_are};
use crate::problems::ProblemKind;
use crate::questions::plates::WhyNot;
use crate::questions::session::NoSession;
use crate::questions::{draft, shift};
use crate::training::{Mass, spelling};
use chrono::NaiveDate;
pub use deliver::deliver;
pub(super) use mistake::below;
use mistake::mistake;

/// What the program ends with.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reply {
    /// For standard output.
    pub out: String,
    /// In place of that, bytes that go out as they are: a page, which may hold any.
    pub bytes: Option<Vec<u8>>,
    /// For standard error.
    pub err: String,
    /// 0 answered; 1 answered, and what was asked to hold does not; 2 could not answer.
    pub status: u8,
    /// Whether another reply follows, so that nobody must have to close this one.
    pub(crate) followed: bool,
}

/// Why a command could not answer: one clear line, with what to do next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Failure(pub(crate) String);

impl Reply {
    /// An answer.
    pub(crate) fn answered(out: String, err: String) -> Self {
        Reply { out, err, ..Reply::default() }
    }

    /// A command that could not answer.
    pub(crate) fn of_failure(failure: Failure) -> Self {
        Reply { err: format!("loadline: {}\n", sanitize(&failure.0)), status: 2, ..Reply::default() }
    }

    /// Arguments that were wrong, or a request for help.
    pub(crate) fn of_arguments(error: &clap::Error, typed: &[String], program: &clap::Command) -> Self {
        let text = error.render().to_string();
        match mistake(error, typed, program) {
            Some(words) => Reply::of_failure(Failure(words)),
            None if error.use_stderr() => {
                // What was typed, or what a shell put there for `*`, stands in it.
                let err = text.lines().map(|line| format!("{}\n", sanitize(line))).collect();
                Reply { err, status: 2, ..Reply::default() }
            }
            None => Reply::answered(text, String::new()),
        }
    }
}

impl From<NoRoot> for Failure {
    fn from(why: NoRoot) -> Self {
        let start = "`loadline new DIR` starts one in a new folder, `loadline new DIR --here` in a folder of notes that you have";
        Failure(match why {
            NoRoot::NoFolder(folder) => format!("there is no folder {}; {start}", folder.display()),
            NoRoot::NotAFolder(folder) => format!("{} is not a folder", folder.display()),
            NoRoot::NoSettings(folder) => {
                format!("{} isn't a journal: it has no {SETTINGS_FILE}; {start}", folder.display())
            }
            NoRoot::NotBelow(folder) => {
                format!("no journal in {} or above it; name one with --journal DIR; {start}", folder.display())
            }
        })
    }
}

impl Failure {
    /// A page that was not written.
    pub(crate) fn of_page(page: &str, why: NotSaved) -> Self {
        Failure(match why {
            NotSaved::Changed => {
                format!("{page} was not written: it changed on disk meanwhile; run the command again")
            }
            NotSaved::ReadOnly => format!("{page} was not written: it is read-only"),
            NotSaved::System(error) => format!("{page} was not written: {error}"),
        })
    }
}

/// What became of the pages that were to be written with one that was not.
pub(crate) fn of_the_others(some_were: bool) -> &'static str {
    if some_were {
        "others were, and could not be taken back: make room, and the next run puts all in place"
    } else {
        "nothing was written"
    }
}

impl From<NoGym> for Failure {
    fn from(NoGym { name, near }: NoGym) -> Self {
        Failure(if near.is_empty() {
            format!("no gym is called `{name}`; name it, with its bars and plates, under `gyms:` in {SETTINGS_FILE}")
        } else {
            format!("no gym is called `{name}`; {}", there_are(&near))
        })
    }
}

impl From<NoLifter> for Failure {
    fn from(why: NoLifter) -> Self {
        Failure(match why {
            NoLifter::Unknown { name, near } => format!("no lifter is called `{name}`; {}", there_are(&near)),
            NoLifter::Nameless { name } => {
                format!("there is no `{name}`: this journal has no lifters by name, so --lifter is not needed")
            }
            NoLifter::Ambiguous { name, folders } => {
                let own = |folder: String| if folder.is_empty() { "the journal's own folder".into() } else { folder };
                let folders: Vec<String> = folders.into_iter().map(own).collect();
                format!("`{name}` could be several lifters; name the folder: {}", any_of(&folders))
            }
            NoLifter::Several(names) => format!("whose training? Name one with --lifter: {}", any_of(&names)),
        })
    }
}

impl From<NoLift> for Failure {
    fn from(why: NoLift) -> Self {
        let NoLift { name, in_book, near } = why;
        let what = if in_book {
            format!("the journal has no work on `{name}`")
        } else {
            format!("no lift is called `{name}`")
        };
        Failure(if near.is_empty() {
            format!("{what}; `loadline lifts` lists those there are")
        } else {
            format!("{what}; did you mean {}?", any_of(&near))
        })
    }
}

impl From<NoBlock> for Failure {
    fn from(why: NoBlock) -> Self {
        let NoBlock { name, near } = why;
        Failure(if near.is_empty() {
            format!("no block is called `{name}`; the journal has none")
        } else {
            format!("no block is called `{name}`; {}", there_are(&near))
        })
    }
}

impl From<NoWeek> for Failure {
    fn from(NoWeek { block, week, weeks }: NoWeek) -> Self {
        Failure(format!("block {block} has no week {week}: it has {}", wording::count(weeks, "week")))
    }
}

impl From<NoWork> for Failure {
    fn from(NoWork { lift, date, near }: NoWork) -> Self {
        Failure(near_days(&format!("no {lift}"), date, &near))
    }
}

/// What is not written on a day, and the nearest days with work.
fn near_days(what: &str, date: NaiveDate, near: &[NaiveDate]) -> String {
    let near: Vec<String> = near.iter().map(ToString::to_string).collect();
    match near.as_slice() {
        [] => format!("{what} is written on {date}, nor on any other day"),
        [only] => format!("{what} is written on {date}; the nearest day with work is {only}"),
        near => format!("{what} is written on {date}; the nearest days with work are {}", wording::all_of(near)),
    }
}

impl From<NoMeet> for Failure {
    fn from(why: NoMeet) -> Self {
        Failure(match why {
            NoMeet::Unknown { asked, near } if near.is_empty() => {
                format!("there is no meet `{asked}`; the journal has none, nor a test day")
            }
            NoMeet::Unknown { asked, near } => {
                format!("there is no meet or test day `{asked}`; {}", there_are(&near))
            }
            NoMeet::Several { date, titles } => {
                format!("which one of {date}? Name it: {}", any_of(&titles))
            }
        })
    }
}

impl From<ProblemKind> for Failure {
    fn from(kind: ProblemKind) -> Self {
        Failure(kind.message())
    }
}

impl From<WhyNot> for Failure {
    fn from(why: WhyNot) -> Self {
        Failure(match why {
            WhyNot::NoMass(load) => format!(
                "`{}` isn't a weight that hangs on a bar; write it in kg or lb, or as a bar with its plates",
                load.text().unwrap_or_default()
            ),
            WhyNot::TooLight { load, kilograms, bar, collars } => {
                let load = wording::load(&load, Some(kilograms));
                match collars {
                    Mass::ZERO => {
                        format!("{load} is lighter than `{}` alone, which is {}", bar.name, bar.mass.written())
                    }
                    _ => format!(
                        "{load} is lighter than `{}` with its collars, which is {} ({} and {})",
                        bar.name,
                        bar.mass + collars,
                        bar.mass.written(),
                        collars.written()
                    ),
                }
            }
            WhyNot::TooHeavy { load, most } => {
                format!("{} is more than a bar holds; the most is {most}", load.text_with_unit().unwrap_or_default())
            }
            WhyNot::OtherBar { then, now } => {
                format!(
                    "the last set was on `{then}` and this one is on `{now}`, so every plate is hung anew: leave out --from"
                )
            }
            WhyNot::UnknownLast { load, bar } => format!(
                "no plates of this gym come near {} on `{}`, so what hung there is not known; write --from with its plates, such as `{} + 2x20 kg/side`",
                load.text_with_unit().unwrap_or_default(),
                bar.name,
                bar.name
            ),
        })
    }
}

impl From<draft::WhyNot> for Failure {
    fn from(why: draft::WhyNot) -> Self {
        use draft::WhyNot as W;
        Failure(match why {
            W::NoBlock => {
                "no work stands in a block, so there is nothing to go on from; write `# Block 1` and `- starts: DATE` under it"
                    .into()
            }
            W::WeekPast { block, week } => {
                format!("every day of week {week} of block {block} is past; name a later one with --week")
            }
            W::NoWeekStarts { block, asked, week } => match week {
                Some((week, starts)) => format!(
                    "no week of block {block} starts on {asked}; week {week} starts on {starts}: write --starts {starts}"
                ),
                None => format!("{asked} is before block {block}; write a later day after --starts"),
            },
            W::NoBlockLike(lifter) => {
                format!("{lifter} has no block with plans or work to draft from; name another lifter after --like")
            }
            W::BlockOver { block, week, free } => format!(
                "block {block} ends with week {week}; for the next one type `loadline draft block --whole --starts {free} --write`"
            ),
            W::NotBegun { block } => format!(
                "nothing of block {block} is done or planned yet; for its first week type `loadline draft block --write`"
            ),
            W::Past(starts) => format!(
                "the first week of a block that starts on {starts} is past; write a later day after --starts"
            ),
            W::NoTraining { block } => format!("block {block} has no training week to make a draft from"),
            W::Overlaps { block, free } => match free {
                Some(free) => format!("block {block} is not over by then; write --starts {free} or a later day"),
                None => format!("block {block} is not over by then; write a later day after --starts"),
            },
            W::ReachesInto { block, starts } => {
                format!("the block would reach into block {block}, which starts on {starts}; write fewer --weeks")
            }
            W::OnlyMeets => "a meet or test stands on every day that would be drafted".into(),
            W::NameTaken(name) => format!("there is a block {name} already; write another --name"),
            W::Stands { block } => format!(
                "the heading of block {block} stands already and says when it starts and how long it is; leave out --starts and --weeks"
            ),
            W::NoSuchDay => "that goes past 9999-12-31, the last day that a page can name; give an earlier day with `--starts`, or with `--on`".into(),
        })
    }
}

impl From<shift::WhyNot> for Failure {
    fn from(why: shift::WhyNot) -> Self {
        use shift::WhyNot as W;
        Failure(match why {
            W::Nothing { from } => {
                format!("nothing is planned for {from} or later, and no block begins; write an earlier --from")
            }
            W::SameDay => "the block starts on that day already; write another day after --starts".into(),
            W::Begun { block, first } => format!(
                "block {block} has begun: something is written of {first}. `loadline shift --from DATE --by 1w` moves what is still to come"
            ),
            W::Overlap { block, other } => format!(
                "blocks {block} and {other} would share days; move whole weeks with --by 1w, or what comes later too with --from"
            ),
            W::TooEarly { block } => format!("block {block} has no room for what would move forward; move fewer days"),
            W::Taken { date } => {
                format!("a session of that label stands on {date} already; move it first, or by other days")
            }
            W::NoSuchDay => "that goes past the days that a page can name; move fewer days".into(),
        })
    }
}

impl From<NoSession> for Failure {
    fn from(why: NoSession) -> Self {
        Failure(match why {
            NoSession::OnDate { date, meet: Some(meet), .. } => {
                format!("{date} is the day of {meet}; `loadline meet` has its attempts")
            }
            NoSession::OnDate { date, lift, near, .. } => {
                let what = lift.map_or_else(|| "no work".to_owned(), |lift| format!("no {lift}"));
                near_days(&what, date, &near)
            }
            NoSession::NoDay { day, near } if near.is_empty() => {
                format!("no session is labelled `{day}`; none of the journal has a label")
            }
            NoSession::NoDay { day, near } => {
                format!("no session is labelled `{day}`; {}", there_are(&near))
            }
            NoSession::Ahead { meet: Some(meet), .. } => {
                format!(
                    "no session is written for today or later; today is {meet}, and `loadline meet` has its attempts"
                )
            }
            NoSession::Ahead { day, lift, begins, next, .. } => {
                let of_day = day.map_or(String::new(), |day| format!(" labelled `{day}`"));
                let with = lift.map_or(String::new(), |lift| format!(" with {lift}"));
                let next = next.map_or(String::new(), |next| {
                    let label = spelling::day(&next.day);
                    format!(
                        "; next in the rotation is {label}, whose heaviest sets on {} were {}",
                        next.date,
                        next.held.join("; ")
                    )
                });
                let draft = "`loadline draft week --write PAGE` drafts the next week";
                let draft = begins.map_or(draft.to_owned(), |starts| {
                    format!(
                        "write `# Block 1` above the first session, with `- starts: {starts}` under it, and {draft}"
                    )
                });
                format!("no session{of_day}{with} is written for today or later; {draft}{next}")
            }
        })
    }
}
