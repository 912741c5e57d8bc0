//! `completion`: the script for a shell, and the answers that the script asks for at each Tab.

mod bash;
mod candidates;

use super::options::Options;
use super::outcome::{Failure, Reply};
use bash::Bash;
use clap::{Args, Command, ValueEnum};
use clap_complete::env::{Elvish, EnvCompleter, Fish, Powershell, Zsh};
use std::ffi::{OsStr, OsString};

/// What a script sets when it asks: the name of its shell.
const ASKING: &str = "LOADLINE_COMPLETE";

/// Print a script with which a shell completes commands
///
/// Commands, options and their values are completed, and from the journal that is
/// meant its lifters, lifts, blocks and meets. The script asks the program at each
/// Tab, so it need not be made anew when the journal or the program changes.
///
///   bash: add `source <(loadline completion bash)` to ~/.bashrc
///   zsh: add `source <(loadline completion zsh)` to ~/.zshrc, after `compinit`
///   fish: `loadline completion fish > ~/.config/fish/completions/loadline.fish`
///   elvish: add `eval (loadline completion elvish | slurp)` to rc.elv
///   powershell: add the script to $PROFILE
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(
    verbatim_doc_comment,
    after_help = "Examples:
  # to try it in this shell: source <(loadline completion bash)
  loadline completion bash
  # once and for all
  loadline completion fish"
)]
pub(crate) struct Completion {
    /// The shell
    shell: Shell,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Shell {
    Bash,
    Zsh,
    Fish,
    Powershell,
    Elvish,
}

impl Shell {
    fn completer(self) -> &'static dyn EnvCompleter {
        match self {
            Shell::Bash => &Bash,
            Shell::Zsh => &Zsh,
            Shell::Fish => &Fish,
            Shell::Powershell => &Powershell,
            Shell::Elvish => &Elvish,
        }
    }
}

impl Completion {
    pub(crate) fn run(&self, _: &Options) -> Result<Reply, Failure> {
        let mut script = Vec::new();
        self.shell
            .completer()
            .write_registration(ASKING, "loadline", "loadline", "loadline", &mut script)
            .map_err(|error| Failure(error.to_string()))?;
        Ok(Reply::answered(String::from_utf8_lossy(&script).into_owned(), String::new()))
    }
}

/// The answer to a shell's script, where one asks: what could stand at the word being typed. A shell has no use for
/// complaints, so that what cannot be completed is nothing.
pub(super) fn answer(arguments: &[OsString], program: fn() -> Command) -> Option<Reply> {
    let shell = std::env::var_os(ASKING)?;
    let shell = Shell::from_str(&shell.to_string_lossy(), true).ok()?;
    let words = match arguments.iter().position(|word| word == OsStr::new("--")) {
        Some(at) => arguments.get(at + 1..).unwrap_or(&[]).to_vec(),
        None => return None,
    };
    // These three hand words over as they are typed.
    let plain: Vec<OsString> = match shell {
        Shell::Bash | Shell::Zsh | Shell::Fish => words.iter().map(bash::unquoted).collect(),
        Shell::Powershell | Shell::Elvish => words,
    };
    let mut program = candidates::with_those_of_the_journal(program, &plain);
    let mut out = Vec::new();
    let here = std::env::current_dir().ok();
    let done = shell.completer().write_complete(&mut program, plain, here.as_deref(), &mut out);
    let out = if done.is_ok() { String::from_utf8_lossy(&out).into_owned() } else { String::new() };
    Some(Reply::answered(out, String::new()))
}
