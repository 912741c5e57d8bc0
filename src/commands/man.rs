//! `man`

use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::present::wording::any_of;
use crate::problems::nearest;
use clap::{Args, Command};
use clap_mangen::Man as Page;
use std::path::PathBuf;

/// Print a manual page, or write all of them
///
/// A manual page says what `--help` says, for `man` to show. With --into, the pages of the program and of every command
/// are written into a folder, such as ~/.local/share/man/man1, over older ones of the same names.
///
/// Exit status: 0 printed or written, 2 could not be.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # that of the program; to read it: loadline man | man -l -
  loadline man
  # that of one command
  loadline man match")]
pub(crate) struct Man {
    /// The command [default: the program itself]
    #[arg(conflicts_with = "into")]
    command: Option<String>,
    /// Write every page into this folder
    #[arg(long, value_name = "DIR")]
    into: Option<PathBuf>,
}

impl Man {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let mut program = options.manual.clone().unwrap_or_default();
        program.build();
        if let Some(folder) = &self.into {
            let failed = |error: std::io::Error| Failure(format!("{} was not written: {error}", folder.display()));
            std::fs::create_dir_all(folder).map_err(failed)?;
            clap_mangen::generate_to(program, folder).map_err(failed)?;
            return Ok(Reply::default());
        }
        let page = match &self.command {
            None => program,
            Some(name) => below(&program, name)?,
        };
        let mut out = Vec::new();
        Page::new(page).render(&mut out).map_err(|error| Failure(error.to_string()))?;
        Ok(Reply::answered(String::from_utf8_lossy(&out).into_owned(), String::new()))
    }
}

fn below(program: &Command, name: &str) -> Result<Command, Failure> {
    program.find_subcommand(name).cloned().ok_or_else(|| {
        let near = nearest(name, program.get_subcommands().map(Command::get_name));
        let near: Vec<String> = near.into_iter().map(|near| format!("`{near}`")).collect();
        Failure(match near.as_slice() {
            [] => format!("there is no command `{name}`; `loadline --help` has them all"),
            near => format!("there is no command `{name}`; did you mean {}?", any_of(near)),
        })
    })
}
