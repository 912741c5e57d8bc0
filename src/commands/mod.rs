//! The commands: each takes its arguments, has the journal read, asks, and has the answer shown. No sums
//! and no wording of answers here.
//!
//! - `options.rs`: the options that every command shares
//! - `filters.rs`: which work is meant, for those that look through it
//! - `desk.rs`: the journal, the lifter and today, ready for a question; `everybody.rs`: one question to several lifters
//! - `desk/cautions.rs`: what is wrong with `cautions:` in the settings
//! - `target.rs`: a page that is to be written, `target/html_file.rs`: one of HTML; `progress.rs`: how far long work is
//! - `outcome.rs`, with arguments that were wrong in `outcome/mistake.rs`: what
//!   a command ends with, and its exit status; `outcome/deliver.rs`: the way to whoever asked
//! - `watch.rs`: answering again when a page is saved; `watch/kept_desk.rs`: what is kept until then
//! - `completion/`: what a shell's Tab asks
//! - one file a command

mod adherence;
mod best;
mod changes;
mod check;
mod completion;
mod desk;
mod draft;
mod estimate;
mod everybody;
mod export;
mod facts;
mod filters;
mod flatten;
mod history;
mod import;
mod lifts;
mod lsp;
mod man;
mod r#match;
mod meet;
mod merge;
mod new;
mod options;
mod outcome;
mod plates;
mod progress;
mod recall;
mod report;
mod review;
mod room;
mod roster;
mod session;
mod shift;
mod since;
mod taper;
mod target;
mod tidy;
mod volume;
mod watch;

use crate::{present, questions as q};
use clap::{CommandFactory, FromArgMatches, Parser, Subcommand};
pub use desk::{opened, wrong_cautions};
use options::Options;
pub use outcome::{Reply, deliver};
use schemars::JsonSchema;
use serde::Serialize;
use std::ffi::OsString;
use watch::kept_desk::KeptDesk;
pub use watch::{Replies, Watching};

/// Ask a plain-text training journal what goes on the bar
#[derive(Parser, Debug)]
#[command(name = "loadline", version, max_term_width = 80, disable_help_subcommand = true)]
pub struct Program {
    #[command(flatten)]
    options: Options,
    #[command(subcommand)]
    command: Command,
}

/// The list of commands, each a module, its arguments, and what its JSON says, which its schema is made from. They stand by
/// the moment at which they are used, not by the alphabet.
macro_rules! commands {
    ($($group:literal: $($module:ident $name:ident $(= $answer:ty)?),*;)*) => {
        #[derive(Subcommand, Debug)]
        enum Command {
            $($($name($module::$name),)*)*
        }

        impl Command {
            fn run(&self, options: &Options) -> Result<Reply, outcome::Failure> {
                match self {
                    $($(Command::$name(command) => command.run(options),)*)*
                }
            }
        }

        /// The JSON Schema of each answer, by the name of its command: `docs/schema/` is a copy that a test keeps.
        pub fn schemas() -> Vec<(String, String)> {
            let mut schemas = vec![schema::<present::notes::Outcome<'_>>("import-notes")];
            $($($(schemas.push(schema::<$answer>(&stringify!($name).to_lowercase()));)?)*)*
            schemas
        }

        /// The groups of the help, each with how many commands it has.
        const GROUPS: &[(&str, usize)] = &[$(($group, [$(stringify!($name)),*].len())),*];
    };
}

commands! {
    "At the rack":
        session Session = q::session::Answer,
        r#match Match = q::weeks_over::Answer,
        best Best = q::best::Answer,
        plates Plates = q::plates::Answer,
        estimate Estimate = q::estimate::Answer,
        room Room = q::room::Answer,
        recall Recall = q::recall::Answer,
        history History = q::history::Answer;
    "On Sunday":
        review Review = q::review::Said,
        adherence Adherence = q::adherence::Answer,
        since Since = q::since::Answer,
        taper Taper = q::taper::Answer,
        volume Volume = q::volume::Answer,
        facts Facts = q::facts::Answer,
        draft Draft = present::drafted::Spelled<'_>,
        shift Shift = present::tidied::Answer,
        meet Meet = q::meet::Answer,
        report Report;
    "The coach":
        roster Roster = q::roster::Answer,
        export Export = present::rows::export::Answer;
    "In the editor":
        check Check = present::problem::Answer,
        tidy Tidy = present::tidied::Answer,
        flatten Flatten = present::rows::flat::Answer<'_>,
        changes Changes = q::changes::Answer,
        merge Merge,
        lifts Lifts = q::lifts::Answer,
        new New,
        import Import = present::import::Outcome,
        lsp Lsp;
    "Once":
        completion Completion,
        man Man;
}

fn schema<T: Serialize + JsonSchema>(name: &str) -> (String, String) {
    (name.to_owned(), present::envelope::schema::<T>(name))
}

/// The program's arguments, with the commands in their groups.
fn program() -> clap::Command {
    let program = Program::command();
    let line = |command: &clap::Command| {
        let about = command.get_about().map(ToString::to_string).unwrap_or_default();
        format!("  {:<11}{about}\n", command.get_name())
    };
    let lines: Vec<String> = program.get_subcommands().map(line).collect();
    let mut lines = lines.into_iter();
    let group =
        |(name, count): &(&str, usize)| format!("\n{name}:\n") + &lines.by_ref().take(*count).collect::<String>();
    let groups: String = GROUPS.iter().map(group).collect();
    let template = format!(
        "{{about}}\n\n{{usage-heading}} {{usage}}\n{groups}\nOptions:\n{{options}}\n\n\
         `loadline COMMAND --help` explains a command, with examples.\n"
    );
    // A number that is too small is told what is right, and is no option that is not known.
    let numbers = |command: clap::Command| {
        command.mut_args(|arg| {
            let is_asked = arg.get_action().takes_values();
            arg.allow_negative_numbers(is_asked)
        })
    };
    program.help_template(template).mut_subcommands(move |command| numbers(command).mut_subcommands(numbers))
}

impl Command {
    fn is_watching(&self) -> bool {
        match self {
            Command::Session(command) => command.watch,
            Command::Match(command) => command.watch,
            Command::Check(command) => command.watch,
            Command::Report(command) => command.watch,
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
    let typed: Vec<String> = arguments.iter().skip(1).map(|word| word.to_string_lossy().into_owned()).collect();
    let parsed = program().try_get_matches_from(arguments).and_then(|matches| Program::from_arg_matches(&matches));
    let parsed = parsed.map(|mut program| {
        // An empty variable names nothing.
        program.options.journal = program.options.journal.filter(|path| !path.as_os_str().is_empty());
        program
    });
    match parsed {
        Ok(mut program) if program.command.is_watching() => {
            program.options.goes_on = true;
            let kept = KeptDesk::new(opened);
            program.options.kept = Some(kept.clone());
            Replies::watching(desk::Desk::root(&program.options), kept, Box::new(move || run(&program)))
        }
        Ok(mut program) => {
            program.options.manual = matches!(program.command, Command::Man(_)).then(self::program);
            Replies::One(Some(run(&program)))
        }
        Err(error) => Replies::One(Some(match outcome::below(&typed, names_below) {
            Some(words) if error.use_stderr() => Reply::of_failure(outcome::Failure(words)),
            _ => Reply::of_arguments(&error, &typed, &program()),
        })),
    }
}

fn run(program: &Program) -> Reply {
    program.command.run(&program.options).unwrap_or_else(Reply::of_failure)
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
