//! `review`

use super::desk::{Desk, today};
use super::everybody::sections;
use super::options::{Format, Options};
use super::outcome::{Failure, Reply};
use crate::history::History;
use crate::present::envelope::{Envelope, json};
use crate::present::{view, wording};
use crate::problems::nearest;
use crate::questions::review::{self, Answer, Ask, RULES, answer, rule};
use clap::Args;
use std::sync::atomic::{AtomicBool, Ordering};

/// Look for what to watch in the training itself
///
/// Goes through the current block as of today, and what came before it where that is needed: efforts over their plan,
/// jumps in load, a deload that is long overdue, high-rep work that is missing or comes too close to a meet, faults and
/// pain that come back, and more. Each caution shows the lines that gave rise to it. A caution is advice; the coach
/// decides. All of them, with their reasons and sources, are in docs/cautions.md, and each has a threshold that can be
/// set. One is told for a week; after that it is counted under `still`, until it stands no longer.
///
/// Exit status: 0 answered, 1 with --strict where there is a caution, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the current block
  loadline review
  # with those that are no longer new
  loadline review --all
  # another block, as it stood on its last day
  loadline review --block 8
  # everybody, who has nothing to look at in one line
  loadline review --all-lifters
  # why there is such a caution, and how to set its threshold
  loadline review --explain load-jump")]
pub(crate) struct Review {
    /// This block, as it stood on its last day [default: the current one]
    #[arg(long, value_name = "NAME")]
    block: Option<String>,
    /// Tell those in whole too that stood a week ago, which are otherwise only counted
    #[arg(long)]
    all: bool,
    /// Tell all in whole, and end with exit status 1 where there is one
    #[arg(long)]
    strict: bool,
    /// Answer for every lifter, a section each
    #[arg(long)]
    all_lifters: bool,
    /// Explain the caution of this name instead
    #[arg(long, value_name = "NAME", conflicts_with_all = ["block", "strict", "all", "all_lifters"])]
    explain: Option<String>,
}

impl Review {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        if let Some(name) = &self.explain {
            return explain(name, options);
        }
        let ask = |history: &History<'_>| -> Result<Answer, Failure> {
            let block = self.block.as_deref().map(|name| history.find_block(name)).transpose()?;
            Ok(answer(history, &Ask { block }))
        };
        // What the exit status speaks of is told.
        let all = self.all || self.strict;
        if options.asks_several(self.all_lifters)? {
            let found = AtomicBool::new(false);
            let noted = |history: &History<'_>| {
                ask(history).inspect(|answer| {
                    found.fetch_or(!answer.cautions.is_empty(), Ordering::Relaxed);
                })
            };
            let of_one = |name: &str, answer: &Answer| view::review::of_one(name, answer, all);
            let reply = sections(options, noted, of_one, &view::review::once(all))?;
            return Ok(Reply { status: u8::from(self.strict && found.into_inner()), ..reply });
        }
        let book = Desk::open(options)?.book(options)?;
        let answer = ask(&book.history(options))?;
        let reply = book.answer(options, &answer, || view::review::show(&answer, all));
        Ok(Reply { status: u8::from(self.strict && !answer.cautions.is_empty()), ..reply })
    }
}

/// Explains a caution. No journal is needed; where there is one, its threshold is named.
fn explain(word: &str, options: &Options) -> Result<Reply, Failure> {
    let rule = rule(word).ok_or_else(|| unknown(word))?;
    let desk = Desk::open(options).ok();
    let lifter = desk.as_ref().and_then(|desk| desk.lifter(options).ok());
    let in_force = lifter.map(|lifter| rule.threshold.in_force(&lifter.thresholds));
    let out = match options.format {
        Format::Json => json(&Envelope {
            lifter: lifter.and_then(|lifter| lifter.name.as_deref()),
            today: today(options),
            left_out: 0,
            unread_pages: &[],
            answer: review::explain(rule, in_force),
        }),
        Format::Text => options.shown(&view::review::explain(rule, in_force)),
    };
    Ok(Reply::answered(out, String::new()))
}

fn unknown(word: &str) -> Failure {
    let names = || RULES.iter().map(|rule| rule.name());
    let owned = |names: Vec<&str>| names.into_iter().map(str::to_owned).collect::<Vec<_>>();
    let known = match nearest(word, names()) {
        near if near.is_empty() => wording::there_are(&owned(names().collect())),
        near => format!("did you mean {}?", wording::any_of(&owned(near))),
    };
    Failure(format!("no caution is called `{word}`; {known}"))
}
