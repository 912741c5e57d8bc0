//! Arguments that were wrong, said as everything else is: what is wrong, and what to type instead.

use crate::present::wording::any_of;
use crate::problems::nearest;
use crate::training::words::all_of;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Command, Error};

/// What is wrong with the arguments; nothing where help was asked for, or where there is nothing better to say than the
/// parser does.
pub(super) fn mistake(error: &Error, typed: &[String], program: &Command) -> Option<String> {
    let first = |kind| texts(error, kind).into_iter().next();
    let argument = || first(ContextKind::InvalidArg);
    let (whole, found) = called(typed, program);
    let help = format!("`{whole} --help` shows how, with examples");
    let below =
        || -> Vec<String> { found.get_subcommands().map(|below| format!("`{whole} {}`", below.get_name())).collect() };
    let near = |kind| match texts(error, kind).as_slice() {
        [] => String::new(),
        near => format!("; did you mean {}?", any_of(&near.iter().map(|near| format!("`{near}`")).collect::<Vec<_>>())),
    };
    Some(match error.kind() {
        ErrorKind::MissingRequiredArgument => {
            let missing: Vec<String> = texts(error, ContextKind::InvalidArg).iter().map(|name| bare(name)).collect();
            let verb = if missing.len() == 1 { "is" } else { "are" };
            format!("{} {verb} missing here; {help}", all_of(&missing))
        }
        ErrorKind::InvalidSubcommand => {
            let near = near(ContextKind::SuggestedSubcommand);
            let word = first(ContextKind::InvalidSubcommand)?;
            match found.get_name() == program.get_name() {
                true if near.is_empty() => format!("there is no command `{word}`; {help}"),
                true => format!("there is no command `{word}`{near}"),
                false => format!("there is no `{whole} {word}`; write {}", any_of(&below())),
            }
        }
        ErrorKind::UnknownArgument => {
            let typed = argument()?;
            if !typed.starts_with('-') {
                return Some(format!("{}; {help}", stray(&typed, &whole, found, program)));
            }
            let near = near(ContextKind::SuggestedArg);
            let tail = if near.is_empty() { format!("; {help}") } else { near };
            format!("`{typed}` is not known here{tail}")
        }
        ErrorKind::InvalidValue => {
            let (value, valid) = (first(ContextKind::InvalidValue)?, texts(error, ContextKind::ValidValue));
            match (value.as_str(), valid.as_slice()) {
                ("", []) => format!("{} needs a value; {help}", argument()?),
                ("", valid) => format!("{} needs a value: {}", argument()?, any_of(valid)),
                (value, []) => format!("`{value}` is not right for {}; {help}", argument()?),
                (value, valid) => format!("`{value}` is not right for {}; it takes {}", argument()?, any_of(valid)),
            }
        }
        ErrorKind::ValueValidation => {
            let why = std::error::Error::source(error).map_or(help, ToString::to_string);
            format!("`{}` is not right for {}: {why}", first(ContextKind::InvalidValue)?, argument()?)
        }
        ErrorKind::ArgumentConflict => match first(ContextKind::PriorArg) {
            Some(other) if Some(&other) != argument().as_ref() => {
                format!("{} and {other} do not go together", argument()?)
            }
            Some(other) => format!("{other} is given twice"),
            None => return None,
        },
        ErrorKind::MissingSubcommand | ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand => {
            match found.get_name() == program.get_name() {
                true => {
                    "a command is missing: `loadline session` says what goes on the bar; `loadline --help` has them all"
                        .into()
                }
                false => format!("a word is missing: write {}; {help}", any_of(&below())),
            }
        }
        _ => return None,
    })
}

/// The command that was typed, with its name in whole: `loadline import notes`.
fn called<'c>(typed: &[String], program: &'c Command) -> (String, &'c Command) {
    let start = ("loadline".to_owned(), program);
    typed.iter().fold(start, |(whole, at), word| match at.find_subcommand(word) {
        Some(below) => (format!("{whole} {word}"), below),
        None => (whole, at),
    })
}

/// A word after a command that is nearly one of its subcommands: `import nots` for `import notes`.
pub(crate) fn below(typed: &[String], names_below: impl Fn(&str) -> Vec<String>) -> Option<String> {
    let at = typed.iter().position(|word| !names_below(word).is_empty())?;
    let (command, word) = (typed.get(at)?, typed.get(at + 1)?);
    let names = names_below(command);
    if names.contains(word) || word.starts_with('-') || word.contains(['.', '/']) {
        return None;
    }
    let near = nearest(word, names.iter().map(String::as_str));
    let near = near.first()?;
    Some(format!("there is no `loadline {command} {word}`; did you mean `loadline {command} {near}`?"))
}

/// `LIFT` of `<LIFT>`, and `--from DATE or --block NAME` of `<--from <DATE>|--block <NAME>>`.
fn bare(name: &str) -> String {
    name.replace(['<', '>', '[', ']'], "").replace('|', " or ")
}

/// The words of a kind that the parser gives.
fn texts(error: &Error, kind: ContextKind) -> Vec<String> {
    match error.get(kind) {
        Some(ContextValue::String(text)) => vec![text.clone()],
        Some(ContextValue::Strings(texts)) => texts.clone(),
        Some(ContextValue::StyledStr(text)) => vec![text.to_string()],
        _ => Vec::new(),
    }
}

/// A word that a command has no place for: which of its options may have been meant.
fn stray(typed: &str, whole: &str, found: &Command, program: &Command) -> String {
    let named = |of: &Command, wanted: &dyn Fn(&str) -> bool| -> Vec<String> {
        let names = of.get_opts().filter_map(|option| option.get_long()).filter(|name| wanted(name));
        names.map(|name| format!("--{name}")).collect()
    };
    let own = named(found, &|name| !["help", "lifter"].contains(&name));
    if own.iter().any(|name| name == "--lift") {
        format!("`{whole}` takes no word `{typed}`; a lift is named with `--lift \"{typed}\"`")
    } else if own.is_empty() {
        format!("`{whole}` takes no word `{typed}`")
    } else {
        // A lifter's name is the word that is missed most.
        let asked = [named(program, &|name| name == "lifter"), own].concat();
        format!("`{whole}` takes no word `{typed}`; it is asked with {}", any_of(&asked))
    }
}
