//! `roster`

use super::desk::{self, Desk, today};
use super::options::{Format, Options, word};
use super::outcome::{Failure, Reply};
use super::progress::progress;
use crate::history::History;
use crate::meaning::{self, on_every_core};
use crate::present::envelope::{Envelope, json};
use crate::present::view;
use crate::questions::roster::{self, Answer, Order, sort};
use crate::training::show_in;
use clap::Args;

/// Show one line a lifter, for the coach
///
/// Who needs the coach comes first: each caution, each lift behind, each effort over plan and each week without a session
/// counts. Of each lifter it says the week of the block, how many of that week's planned sets were done as planned or
/// better (as `adherence` counts them), how many lifts are ahead of the same week of the last block and how many behind,
/// when the last session was, what `review` cautions about, and the next meet. `--lifter` shows one of them.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # everybody, who needs the coach first
  loadline roster
  # by how many lifts are behind
  loadline roster --sort behind")]
pub(crate) struct Roster {
    /// What comes first: who needs the coach, the name in order, the longest since, the least done, the most behind, over
    /// or cautions, the nearest meet
    #[arg(long, value_name = "BY", default_value = "need", value_parser = word::<Order>())]
    sort: Order,
}

impl Roster {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let desk = Desk::open(options)?;
        let mut lifters: Vec<roster::Line> = each_lifter(options, &desk, roster::line)?;
        sort(&mut lifters, self.sort);
        let left_out = lifters.iter().map(|line| line.left_out).sum();
        let answer = Answer { lifters };
        let out = match options.format {
            Format::Json => json(&Envelope {
                lifter: None,
                today: today(options),
                left_out,
                unread_pages: &desk.unread(None),
                answer,
            }),
            Format::Text => options.shown(&view::roster::show(&answer)),
        };
        let said =
            if options.format == Format::Text { desk::left_out(0, 0, &desk.unread(None)) } else { String::new() };
        Ok(Reply::answered(out, said))
    }
}

/// Asks the history of every lifter, or of the one who is named; beside it stands the lifter's folder.
pub(super) fn each_lifter<T: Send>(
    options: &Options,
    desk: &Desk,
    ask: impl Fn(&History<'_>, &str) -> T + Sync,
) -> Result<Vec<T>, Failure> {
    let one = match &options.lifter {
        Some(_) => Some(desk.lifter(options)?.folder.clone()),
        None => None,
    };
    let wanted = |folder: &str| one.as_ref().is_none_or(|one| one == folder);
    let lifters: Vec<_> = desk.journal.by_lifter().into_iter().filter(|(lifter, _)| wanted(&lifter.folder)).collect();
    // For a few lifters there is nothing to wait for.
    let bar = progress(if lifters.len() < 20 { 0 } else { lifters.len() }, "lifters");
    let answers = on_every_core(lifters.len(), |at| {
        let (lifter, pages) = lifters.get(at)?;
        show_in(lifter.units);
        let reading = meaning::read_alone(&desk.files, lifter, pages.clone());
        let answer = ask(&History::new(&reading.log, &lifter.book, today(options)), &lifter.folder);
        bar.inc(1);
        Some(answer)
    });
    bar.finish_and_clear();
    Ok(answers.into_iter().flatten().collect())
}
