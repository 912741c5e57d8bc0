//! `merge`

use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::journal::{merge_lines, save};
use crate::meaning::{Merged, merge};
use crate::present::sanitize;
use clap::Args;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};

/// Merge two versions of a page by session, for git
///
/// Makes one page of two that were made from a common one, BASE, and writes it into OURS; docs/git.md shows how to
/// make git use it. Sessions and blocks are told by their headings. What one version added, changed or took out is
/// taken whole; what both changed is merged line by line, as git does it.
///
/// Where both changed the same lines, or both wrote a session under the same heading in different words, both stand
/// between markers, which `check` finds. Nothing goes that was not taken out. A page that is not UTF-8, or has markers
/// already, is merged line by line. A BASE that is not there is an empty one.
///
/// Exit status: 0 merged, 1 something is left between markers, 2 could not merge.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # two weeks on one page, only shown (in journal-example/nerys/5 winter)
  loadline merge --print /dev/null \"week 1.md\" \"week 2.md\"
  # the other way round: the sessions stand in the same order
  loadline merge --print /dev/null \"week 2.md\" \"week 1.md\"")]
pub(crate) struct Merge {
    /// The page that both were made from
    base: PathBuf,
    /// The page here; the merged page is written into it
    ours: PathBuf,
    /// The page that comes in
    theirs: PathBuf,
    /// Print the merged page and write nothing
    #[arg(short, long)]
    print: bool,
}

impl Merge {
    pub(crate) fn run(&self, _: &Options) -> Result<Reply, Failure> {
        let base = match std::fs::read(&self.base) {
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => Vec::new(),
            Err(error) => return Err(Failure(format!("{} cannot be read: {error}", self.base.display()))),
            Ok(base) => base,
        };
        let (ours, theirs) = (bytes(&self.ours)?, bytes(&self.theirs)?);
        let by_lines = |base: &[u8], ours: &[u8], theirs: &[u8]| {
            merge_lines(base, ours, theirs).map(|(bytes, settled)| Merged { bytes, settled })
        };
        let merged = merge(&base, &ours, &theirs, &by_lines);
        // Whatever reads the page gets its bytes; a terminal would obey some of them.
        let to_terminal = self.print && std::io::stdout().is_terminal();
        let out = if to_terminal { shown(&merged.bytes) } else { String::new() };
        let bytes = (self.print && !to_terminal).then(|| merged.bytes.clone());
        if !self.print && merged.bytes != ours {
            let named = self.ours.to_string_lossy();
            save(&self.ours, &ours, &merged.bytes).map_err(|why| Failure::of_page(&named, why))?;
        }
        Ok(Reply { out, bytes, status: u8::from(!merged.settled), ..Reply::default() })
    }
}

/// A page for a terminal, line by line.
fn shown(page: &[u8]) -> String {
    let text = String::from_utf8_lossy(page);
    text.lines().map(|line| format!("{}\n", sanitize(line))).collect()
}

fn bytes(path: &Path) -> Result<Vec<u8>, Failure> {
    std::fs::read(path).map_err(|error| Failure(format!("{} cannot be read: {error}", path.display())))
}
