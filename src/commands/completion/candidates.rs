//! What a journal offers at the word being typed: its lifters, lifts, blocks and meets.

use super::super::desk::{Book, Desk};
use super::super::options::Options;
use clap::{Arg, Command, FromArgMatches};
use clap_complete::engine::{ArgValueCompleter, CompletionCandidate};
use std::ffi::{OsStr, OsString};
use std::sync::Arc;

/// Whatever can be listed from a journal.
#[derive(Clone, Copy)]
enum Listed {
    Lifters,
    Lifts,
    Blocks,
    Meets,
}

/// The program with what the journal of these words has for each argument that names a part of it.
pub(super) fn with_those_of_the_journal(program: fn() -> Command, words: &[OsString]) -> Command {
    let words: Arc<[OsString]> = words.into();
    let each = |argument: Arg| {
        let listed = match argument.get_id().as_str() {
            "lifter" => Listed::Lifters,
            "lift" => Listed::Lifts,
            "block" | "against" => Listed::Blocks,
            "meet" => Listed::Meets,
            _ => return argument,
        };
        let words = Arc::clone(&words);
        argument.add(ArgValueCompleter::new(move |typed: &OsStr| matching(listed, program, &words, typed)))
    };
    everywhere(program().mut_args(each), &each)
}

fn everywhere(command: Command, each: &dyn Fn(Arg) -> Arg) -> Command {
    command.mut_subcommands(|below| everywhere(below.mut_args(each), each))
}

/// What begins like the word being typed, in whatever case.
fn matching(listed: Listed, program: fn() -> Command, words: &[OsString], typed: &OsStr) -> Vec<CompletionCandidate> {
    let typed = typed.to_string_lossy().to_lowercase();
    let fits = |name: &String| name.to_lowercase().starts_with(&typed);
    let shown = |name: &String| !name.is_empty() && !name.contains(char::is_control);
    let names = names(listed, program, words).unwrap_or_default();
    names.into_iter().filter(fits).filter(shown).map(CompletionCandidate::new).collect()
}

fn names(listed: Listed, program: fn() -> Command, words: &[OsString]) -> Option<Vec<String>> {
    // A command that is still being typed lacks arguments.
    let program = program().ignore_errors(true);
    let options = Options::from_arg_matches(&program.try_get_matches_from(words).ok()?).ok()?;
    let desk = Desk::open(&options).ok()?;
    if let Listed::Lifters = listed {
        return Some(desk.journal.lifters.iter().filter_map(|lifter| lifter.name.clone()).collect());
    }
    let book: Book = desk.book(&options).ok()?;
    let history = book.history(&options);
    let log = history.log;
    Some(match listed {
        Listed::Lifters => Vec::new(),
        Listed::Lifts => {
            let mut names: Vec<String> = log.lifts.iter().map(|lift| lift.name.clone()).collect();
            names.sort();
            names
        }
        // The newest first: those are asked about.
        Listed::Blocks => log.blocks.iter().rev().map(|block| block.name.clone()).collect(),
        Listed::Meets => history.meets().iter().rev().map(|meet| meet.date.to_string()).collect(),
    })
}
