//! The commands: each takes its arguments, has the journal read, asks, and has the answer shown. No sums
//! and no wording of answers here.
//!
//! - `options.rs`: the options that every command shares
//! - `filters.rs`: which work is meant, for those that look through it
//! - `desk.rs`: the journal, the lifter and today, ready for a question
//! - `target.rs`: a page that is to be written
//! - `outcome.rs`: what a command ends with, and its exit status; `deliver.rs`: the way to whoever asked
//! - `watch.rs`: answering again when a page is saved; `completion/`: what a shell's Tab asks
//! - one file a command

mod adherence;
mod best;
mod changes;
mod check;
mod completion;
mod deliver;
mod desk;
mod draft;
mod estimate;
mod export;
mod filters;
mod flatten;
mod history;
mod import;
mod lifts;
mod man;
mod r#match;
mod meet;
mod merge;
mod new;
mod options;
mod outcome;
mod plates;
mod recall;
mod report;
mod review;
mod room;
mod roster;
mod since;
mod taper;
mod target;
mod tidy;
mod volume;
mod watch;

use clap::{CommandFactory, Parser, Subcommand};
pub use deliver::deliver;
pub use outcome::Reply;
use std::ffi::OsString;
pub use watch::{Replies, Watching};

/// Ask a plain-text training journal what goes on the bar
#[derive(Parser, Debug)]
#[command(name = "loadline", version, max_term_width = 80, help_template = TEMPLATE, disable_help_subcommand = true)]
pub struct Program {
    #[command(flatten)]
    options: options::Options,
    #[command(subcommand)]
    command: Command,
}

/// The commands stand by the moment at which they are used, not by the alphabet; so do those of [`Command`].
const TEMPLATE: &str = "\
{about}

{usage-heading} {usage}

At the rack:
  match      Compare this week with the same week of the last block
  best       Find the best set, or sets, at a rep count
  plates     Say what to hang on each side of the bar
  estimate   Estimate a maximum, with its spread, and loads to match
  room       Show the weekly steps that still fit under an effort
  recall     Recall the last set-up, cues, faults and remarks
  history    List every mark of one lift

On Sunday:
  review     Look for what to watch in the training itself
  adherence  Hold what was done against what was planned
  since      Count the blocks since the last high-rep phase
  taper      Show what a peak or deload week cuts
  volume     Sum up sets, reps, tonnage and effort
  draft      Draft the next week or block as a page to edit
  meet       Plan a meet's attempts, or sum up those taken
  report     Make one page to look at: a lifter, a block, the roster

The coach:
  roster     Show one line a lifter, for the coach
  export     Export every set as a row, for other programs

In the editor:
  check      Find the lines that are not understood
  tidy       Give every page one spelling; show the change first
  flatten    Print pages one set a line, for git diff
  changes    Say what changed in training since a commit
  merge      Merge two versions of a page by session, for git
  lifts      List the lifts of the journal
  new        Start a journal
  import     Turn a table of sets into pages

Once:
  completion Print a script with which a shell completes commands
  man        Print a manual page, or write all of them

Options:
{options}

`loadline COMMAND --help` explains a command, with examples.
";

#[derive(Subcommand, Debug)]
enum Command {
    Match(r#match::Match),
    Best(best::Best),
    Plates(plates::Plates),
    Estimate(estimate::Estimate),
    Room(room::Room),
    Recall(recall::Recall),
    History(history::History),
    Review(review::Review),
    Adherence(adherence::Adherence),
    Since(since::Since),
    Taper(taper::Taper),
    Volume(volume::Volume),
    Draft(draft::Draft),
    Meet(meet::Meet),
    Report(report::Report),
    Roster(roster::Roster),
    Export(export::Export),
    Check(check::Check),
    Tidy(tidy::Tidy),
    Flatten(flatten::Flatten),
    Changes(changes::Changes),
    Merge(merge::Merge),
    Lifts(lifts::Lifts),
    New(new::New),
    Import(import::Import),
    Completion(completion::Completion),
    Man(man::Man),
}

impl Command {
    fn is_watching(&self) -> bool {
        match self {
            Command::Match(command) => command.watch,
            Command::Check(command) => command.watch,
            _ => false,
        }
    }
}

/// Runs the program on its arguments, the program's name first. Nothing is printed: the replies say what goes where.
/// There is one, or with `--watch` another one after each page that is saved. Only an export, which may be longer than
/// memory, writes its rows to standard output by itself.
pub fn replies(arguments: impl IntoIterator<Item = OsString>) -> Replies {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    if let Some(reply) = completion::answer(&arguments, Program::command) {
        return Replies::One(Some(reply));
    }
    match Program::try_parse_from(arguments) {
        Ok(mut program) if program.command.is_watching() => {
            program.options.goes_on = true;
            Replies::watching(desk::Desk::open(&program.options), Box::new(move || run(&program)))
        }
        Ok(program) => Replies::One(Some(run(&program))),
        Err(error) => Replies::One(Some(Reply::of_arguments(&error))),
    }
}

fn run(program: &Program) -> Reply {
    let options = &program.options;
    let answered = match &program.command {
        Command::Match(command) => command.run(options),
        Command::Best(command) => command.run(options),
        Command::Plates(command) => command.run(options),
        Command::Estimate(command) => command.run(options),
        Command::Room(command) => command.run(options),
        Command::Recall(command) => command.run(options),
        Command::History(command) => command.run(options),
        Command::Review(command) => command.run(options),
        Command::Adherence(command) => command.run(options),
        Command::Since(command) => command.run(options),
        Command::Taper(command) => command.run(options),
        Command::Volume(command) => command.run(options),
        Command::Draft(command) => command.run(options),
        Command::Meet(command) => command.run(options),
        Command::Report(command) => command.run(options),
        Command::Roster(command) => command.run(options),
        Command::Export(command) => command.run(options),
        Command::Check(command) => command.run(options),
        Command::Tidy(command) => command.run(options),
        Command::Flatten(command) => command.run(options),
        Command::Changes(command) => command.run(options),
        Command::Merge(command) => command.run(),
        Command::Lifts(command) => command.run(options),
        Command::New(command) => command.run(options),
        Command::Completion(command) => command.run(options),
        Command::Man(command) => command.run(Program::command()),
        Command::Import(command) => command.run(options),
    };
    answered.unwrap_or_else(Reply::of_failure)
}

/// Every command's name, in the order of the help's groups.
pub fn names() -> Vec<String> {
    Program::command().get_subcommands().map(|command| command.get_name().to_owned()).collect()
}

/// The names of a command's subcommands, in the order of its help; none where it has none.
pub fn names_below(name: &str) -> Vec<String> {
    let program = Program::command();
    let command = program.get_subcommands().find(|command| command.get_name() == name);
    command
        .map_or_else(Vec::new, |command| command.get_subcommands().map(|below| below.get_name().to_owned()).collect())
}
