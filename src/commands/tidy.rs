//! `tidy`

use super::desk::{Desk, today};
use super::options::{Format, Options};
use super::outcome::{Failure, Reply};
use crate::journal::{Lifter, save};
use crate::meaning;
use crate::present::envelope::{Envelope, json};
use crate::present::view::tidy::Done;
use crate::present::wording::any_of;
use crate::present::{tidied, view};
use crate::problems::nearest;
use crate::source::Revision;
use clap::Args;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Give every page one spelling; show the change first
///
/// Shows, as a unified diff, how the pages would look in one spelling: blanks, bullets, keywords and units, loads
/// behind `@`, lift names as the settings or the lift book have them. What they say stays the same. Prose stays, and
/// so does a line with an error, byte for byte. Nothing is written without --write. docs/notation.md lists the
/// spellings.
///
/// With --fix, the fixes that `check` offers are applied first, until none is left: those for errors, and for lines
/// that were taken for prose. A warning about what counts already stays a question to you.
///
/// A page is written whole or not at all, and not if it changed on disk meanwhile. Exit status: 0 shown, or
/// written; 1 with --check, where a page would change or could not be read; 2 could not answer, or could not write
/// or read every page.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # what would change
  loadline tidy
  # before a commit: names the pages that are not tidy
  loadline tidy --check --lifter nerys")]
pub(crate) struct Tidy {
    /// Only these pages, or the pages in these folders [default: every page]
    paths: Vec<PathBuf>,
    /// Write the pages that change
    #[arg(long)]
    write: bool,
    /// Only say which pages would change; exit status 1 where there is one
    #[arg(long, conflicts_with = "write")]
    check: bool,
    /// Apply the fixes that `check` offers first
    #[arg(long)]
    fix: bool,
}

impl Tidy {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let desk = Desk::open(options)?;
        let one = options.one_lifter()?.map(|_| desk.lifter(options)).transpose()?;
        let lifters: Vec<&Lifter> = one.map_or_else(|| desk.journal.lifters.iter().collect(), |one| vec![one]);
        let named = self.named(&desk)?;
        let wanted = |page: &str| named.as_ref().is_none_or(|named| named.iter().any(|name| name == page));
        let (mut pages, mut revisions): (Vec<String>, Vec<Revision>) = (Vec::new(), Vec::new());
        let (mut faulty, mut left_out) = (0, 0);
        for lifter in lifters {
            let paths = desk.journal.pages_of(lifter);
            if !paths.iter().any(|page| wanted(page)) {
                continue;
            }
            let tidying = meaning::tidy(&desk.files, lifter, &paths, &wanted, self.fix, Some(today(options)));
            pages.extend(tidying.pages);
            revisions.extend(tidying.revisions);
            faulty += tidying.faulty;
            left_out += tidying.left_out;
        }
        pages.sort_unstable();
        revisions.sort_by(|one, other| one.before.path().cmp(other.before.path()));
        if let Some(missing) = named.iter().flatten().find(|name| !pages.contains(name)) {
            return Err(Failure(format!(
                "{missing} was not read: it is another lifter's or nobody's, or cannot be opened; `loadline check` says which"
            )));
        }
        let refused = if self.write { refused(&desk, &revisions) } else { Vec::new() };
        let out = match options.format {
            Format::Json => {
                let answer = tidied::answer(&pages, &revisions, self.write && refused.is_empty());
                let lifter = one.and_then(|lifter| lifter.name.as_deref());
                json(&Envelope { lifter, today: today(options), left_out, unread_pages: &desk.unread(None), answer })
            }
            Format::Text => {
                revisions.retain(|revision| refused.iter().all(|(page, _)| page != revision.before.path()));
                let done = match (self.write, self.check) {
                    (true, _) => Done::Written,
                    (_, true) => Done::Named,
                    _ => Done::Shown,
                };
                let shown = view::tidy::show(pages.len() as u32, &revisions, faulty, done);
                let nothing = revisions.is_empty() && !refused.is_empty();
                if nothing { String::new() } else { options.shown(&shown) }
            }
        };
        // Pages that could not be read are neither tidy nor written.
        let unread = if named.is_none() { desk.unread(one) } else { Vec::new() };
        let status = match (refused.is_empty() && (unread.is_empty() || !self.write), self.check) {
            (false, _) => 2,
            (true, check) => u8::from(check && !(revisions.is_empty() && unread.is_empty())),
        };
        let mut err: String = refused.into_iter().map(|(_, failure)| Reply::of_failure(failure).err).collect();
        for page in unread {
            let tail = if self.write { "; nothing was written to it" } else { "" };
            err.push_str(
                &Reply::of_failure(Failure(format!("{page} could not be read, so it was not tidied{tail}"))).err,
            );
        }
        Ok(Reply { out, err, status, ..Reply::default() })
    }

    /// The pages that are named, by their paths below the journal's folder; nothing where none is.
    fn named(&self, desk: &Desk) -> Result<Option<Vec<String>>, Failure> {
        if self.paths.is_empty() {
            return Ok(None);
        }
        let places: Vec<(&String, PathBuf)> = desk
            .journal
            .pages
            .iter()
            .filter_map(|(page, _)| Some((page, desk.files.place(page).canonicalize().ok()?)))
            .collect();
        let mut named = Vec::new();
        for path in &self.paths {
            // As a shell completes it, else as every answer names a page.
            let here = [path.clone(), desk.files.place(&path.to_string_lossy())];
            let real = here.iter().find_map(|place| place.canonicalize().ok());
            let Some(real) = real else {
                let typed = path.to_string_lossy();
                let typed = typed.trim_start_matches("./");
                return Err(match desk.unread(None).iter().find(|page| *page == typed) {
                    Some(page) => {
                        Failure(format!("{page} cannot be read, and nothing was written; `loadline check` says why"))
                    }
                    None => no_page(path, desk),
                });
            };
            let inside = |place: &Path| place == real || place.starts_with(&real);
            let before = named.len();
            named.extend(places.iter().filter(|(_, place)| inside(place)).map(|(page, _)| (*page).clone()));
            if named.len() == before {
                return Err(Failure(format!("{} isn't a page of this journal, and holds none", path.display())));
            }
        }
        Ok(Some(named))
    }
}

/// There is no such page, nor folder of pages; what is like it, by its path or by its name in any folder.
fn no_page(path: &Path, desk: &Desk) -> Failure {
    let typed = path.to_string_lossy();
    let typed = typed.trim_start_matches("./").trim_end_matches('/');
    // The folders that the typed path goes through are there, and not meant.
    let inside = |folder: &&str| typed.strip_prefix(*folder).is_some_and(|rest| rest.starts_with('/'));
    let pages = || desk.journal.pages.iter().map(|(page, _)| page.as_str());
    let folders = pages().flat_map(|page| page.match_indices('/').filter_map(|(at, _)| page.get(..at)));
    let known: BTreeSet<&str> = pages().chain(folders).filter(|known| !inside(known)).collect();
    let name = |path: &str| {
        let last = path.rsplit('/').next().unwrap_or(path);
        last.strip_suffix(".md").unwrap_or(last).to_owned()
    };
    let mut near = nearest(typed, known.iter().copied());
    let names: Vec<String> = known.iter().map(|known| name(known)).collect();
    for alike in nearest(&name(typed), names.iter().map(String::as_str)) {
        let of_name = known.iter().copied().filter(|known| name(known) == alike);
        near.extend(of_name.filter(|known| !near.contains(known)).collect::<Vec<&str>>());
    }
    near.truncate(3);
    let near: Vec<String> = near.into_iter().map(str::to_owned).collect();
    let what = format!("there is no page {}", path.display());
    Failure(if near.is_empty() { what } else { format!("{what}; did you mean {}?", any_of(&near)) })
}

/// Writes the pages that change; gives those that could not be written, with the reason.
fn refused(desk: &Desk, revisions: &[Revision]) -> Vec<(String, Failure)> {
    let saved = revisions.iter().filter_map(|Revision { before, after }| {
        let why = save(&desk.files.place(before.path()), before.bytes(), after.bytes()).err()?;
        Some((before.path().to_owned(), Failure::of_page(before.path(), why)))
    });
    saved.collect()
}
