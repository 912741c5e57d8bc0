//! `lsp`

use super::desk::{machine_date, opened};
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::editor::{Machine, serve_stdio};
use clap::Args;
use std::io::IsTerminal;
use std::sync::Arc;

/// Answer an editor while you write (a language server)
///
/// An editor starts this by itself and talks to it over standard input and output. It shows the problems of `check` while
/// you type, with what to write instead, and beside the lines what the other commands say of them. A page below no
/// journal.yaml is left alone. All changes are made by the editor: nothing is written here.
///
/// docs/editors.md shows how each editor is told of it.
///
/// Exit status: 0 the editor has ended, 2 it did not talk as an editor does.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # what an editor is told to start
  loadline lsp
  # the same for another day than today
  loadline lsp --on 2026-11-24")]
pub(crate) struct Lsp {
    /// What many editors add to say how they talk; it is the only way there is
    #[arg(long, hide = true)]
    stdio: bool,
}

impl Lsp {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        if std::io::stdin().is_terminal() {
            return Err(Failure("this is for editors, which start it by themselves; docs/editors.md shows how".into()));
        }
        let on = options.on;
        let today = Arc::new(move || on.unwrap_or_else(machine_date));
        serve_stdio(Machine { opened, today }).map_err(Failure)?;
        Ok(Reply::default())
    }
}
