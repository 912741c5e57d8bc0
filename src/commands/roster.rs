//! `roster`
//!
//! - `index.rs`: the lines that were worked out before, and still hold; `kept_line.rs`: a line as it is kept
//! - `shelf.rs`: the folder in which they are kept

mod index;
mod kept_line;
mod shelf;

use super::desk::{self, Desk, today};
use super::everybody::each_of_them;
use super::options::{Format, Options, word};
use super::outcome::{Failure, Reply};
use crate::history::History;
use crate::present::envelope::{Envelope, json};
use crate::present::view;
use crate::questions::roster::{self, Answer, Line, Order, sort};
use clap::Args;
use index::Index;
use std::collections::BTreeSet;

/// Show one line a lifter, for the coach
///
/// Who needs the coach comes first: each caution, each lift behind, each effort over plan and each week without a session
/// counts. Of each lifter it says the week of the block, how many of that week's planned sets were done as planned or
/// better (as `adherence` counts them), how many lifts are ahead of the same week of the last block and how many behind,
/// when the last session was, what `review` cautions about, and the next meet. `--lifter` shows one of them, and may be
/// given more than once.
///
/// The lines are kept outside the journal, in ~/.cache/loadline or the folder that LOADLINE_CACHE names, so that on the same
/// day only those are worked out again whose pages or settings changed. LOADLINE_CACHE=off keeps nothing.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # everybody, who needs the coach first
  loadline roster
  # by how many lifts are behind
  loadline roster --sort behind
  # only who needs the coach, of those in one block
  loadline roster --attention --block 9")]
pub(crate) struct Roster {
    /// What comes first: who needs the coach, the name in order, the longest since, the least done, the most behind, over
    /// or cautions, the nearest meet
    #[arg(long, value_name = "BY", default_value = "need", value_parser = word::<Order>())]
    sort: Order,
    /// Only who is in a block of this name
    #[arg(long, value_name = "NAME")]
    block: Option<String>,
    /// Only who needs the coach: a caution, a lift behind, an effort over plan, a week without a session
    #[arg(long)]
    attention: bool,
}

impl Roster {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let desk = Desk::open(options)?;
        let of = |history: &History<'_>, folder: &str| {
            let line = roster::line(history, folder);
            let block = |name: &str| history.log.block(history.find_block(name).ok()?).map(|block| &block.name);
            let of_block =
                self.block.as_deref().is_none_or(|name| block(name).is_some_and(|of| line.block.as_ref() == Some(of)));
            (of_block, line)
        };
        let index = Index::open(options, &desk, self.block.as_deref());
        let lines = each_of_them(options, &desk, |one| {
            let anew = || one.read(|history| of(history, &one.lifter.folder));
            index.as_ref().map_or_else(anew, |index| index.line(one.lifter, one.pages, anew))
        })?;
        if let Some(index) = index {
            index.keep(&desk.journal);
        }
        let among = lines.len();
        // A block that nobody is in may be a slip: then those that somebody is in are named.
        let blocks: BTreeSet<String> = match &self.block {
            Some(_) if !lines.iter().any(|(of_block, _)| *of_block) => {
                lines.iter().filter_map(|(_, line)| line.block.clone()).collect()
            }
            _ => BTreeSet::new(),
        };
        let wanted = |line: &Line| !self.attention || line.needs_attention();
        let lifters = lines.into_iter().filter_map(|(of_block, line)| (of_block && wanted(&line)).then_some(line));
        let mut lifters: Vec<Line> = lifters.collect();
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
            Format::Text => options.shown(&view::roster::show(&answer, among, &blocks)),
        };
        let said =
            if options.format == Format::Text { desk::left_out(0, 0, &desk.unread(None)) } else { String::new() };
        Ok(Reply::answered(out, said))
    }
}
