//! `import`: of tables and of notes.

mod notes;
mod pages;
mod reading;
mod table;

use super::options::Options;
use super::outcome::{Failure, Reply};
use clap::{Args, Subcommand};
use notes::OfNotes;
use table::OfTable;

/// Turn a table of sets, or years of notes, into pages
///
/// `import table` reads a table (CSV) by a mapping; `import FILE.csv` is the same. `import notes` reads notes as people
/// type them. Nothing is guessed: what is not understood is told, line by line or row by row. docs/import.md shows both,
/// step by step.
///
/// Exit status: 0 all was understood, or looked at, 1 a row was not understood, 2 could not answer, or could not write.
#[derive(Args, Debug)]
#[command(
    disable_help_subcommand = true,
    args_conflicts_with_subcommands = true,
    subcommand_negates_reqs = true,
    arg_required_else_help = true,
    after_help = "Examples:
  # the page that a table would be
  loadline import table docs/csv/sets.csv --columns docs/csv/sets.yaml
  # the same
  loadline import docs/csv/sets.csv --columns docs/csv/sets.yaml"
)]
pub(crate) struct Import {
    #[command(subcommand)]
    what: Option<What>,
    #[command(flatten)]
    table: Option<OfTable>,
}

#[derive(Subcommand, Debug)]
enum What {
    Table(OfTable),
    Notes(OfNotes),
}

impl Import {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        match (&self.what, &self.table) {
            (Some(What::Table(table)), _) | (None, Some(table)) => table.run(options),
            (Some(What::Notes(notes)), _) => notes.run(options),
            (None, None) => Err(Failure("name a table, or `notes` and their files".into())),
        }
    }
}
