//! A page of HTML written to a file: a new one, or in the place of an earlier one.

use crate::commands::desk::Desk;
use crate::commands::outcome::Failure;
use crate::journal::{NotSaved, create, save};
use crate::present::{html, sanitize};
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// What kind of page.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Kind {
    /// A report.
    Report,
    /// A card of a session.
    Card,
}

impl Kind {
    fn word(self) -> &'static str {
        match self {
            Kind::Report => "report",
            Kind::Card => "card",
        }
    }

    fn is_one(self, held: &[u8]) -> bool {
        match self {
            Kind::Report => html::is_report(held),
            Kind::Card => html::is_card(held),
        }
    }

    /// What to do where another file stands there.
    fn way_out(self) -> &'static str {
        match self {
            Kind::Report => "with --replace it is written over",
            Kind::Card => "name another one",
        }
    }
}

/// The file to write to.
pub(crate) struct Target {
    /// As it was named.
    named: PathBuf,
    /// The folder it is in, whole and without links.
    folder: PathBuf,
    /// The file itself.
    path: PathBuf,
    /// What it held; nothing where it is not there yet.
    held: Option<Vec<u8>>,
}

impl Target {
    /// The file of a path. One that is no page of this kind is refused, unless it may be replaced. A page of a journal is
    /// refused in any case: its name does not end in `.html`.
    pub(crate) fn of(path: &Path, kind: Kind, replace: bool) -> Result<Target, Failure> {
        let shown = path.display();
        let ends = path.extension().and_then(|end| end.to_str()).unwrap_or("").to_lowercase();
        if ends != "html" && ends != "htm" {
            return Err(Failure(format!("{shown} is no name for a {}: it must end in .html", kind.word())));
        }
        let unread = |error: io::Error| Failure(format!("{shown} cannot be read: {error}"));
        let held = match fs::read(path) {
            Ok(held) => Some(held),
            Err(error) if error.kind() == ErrorKind::NotFound => None,
            Err(error) => return Err(unread(error)),
        };
        if !replace && held.as_deref().is_some_and(|held| !kind.is_one(held)) {
            return Err(Failure(format!(
                "{shown} is no {} of this program, so nothing was written; {}",
                kind.word(),
                kind.way_out()
            )));
        }
        let whole = std::path::absolute(path).map_err(unread)?;
        let (Some(folder), Some(name)) = (whole.parent(), whole.file_name()) else {
            return Err(Failure(format!("{shown} is no name of a file")));
        };
        let folder = folder
            .canonicalize()
            .map_err(|_| Failure(format!("there is no folder {}; make it first", folder.display())))?;
        Ok(Target { named: path.to_owned(), path: folder.join(name), folder, held })
    }

    /// Writes the page, and says so.
    pub(crate) fn write(&self, page: &str) -> Result<String, Failure> {
        let shown = self.named.display();
        let saved = match &self.held {
            Some(held) => save(&self.path, held, page.as_bytes()),
            None => create(&self.path, page.as_bytes()),
        };
        saved.map_err(|why| {
            Failure(match why {
                NotSaved::Changed => {
                    format!("{shown} changed meanwhile, so nothing was written; run the command again")
                }
                NotSaved::ReadOnly => format!("{shown} may not be written to"),
                NotSaved::System(error) => format!("{shown} could not be written: {error}"),
            })
        })?;
        let size = page.len().div_ceil(1000);
        let what = if self.held.is_some() { "written anew" } else { "written" };
        Ok(format!("{} {what}, {size} kB; open it in a browser\n", sanitize(&shown.to_string())))
    }
}

/// The folder of the page, or the current one, and the journal's; both whole and without links.
pub(crate) fn folders(target: Option<&Target>, desk: &Desk) -> Result<(PathBuf, PathBuf), Failure> {
    let unread = |error: io::Error| Failure(format!("the journal's folder cannot be read: {error}"));
    let folder = match target {
        Some(target) => target.folder.clone(),
        None => std::env::current_dir().and_then(|folder| folder.canonicalize()).map_err(unread)?,
    };
    Ok((folder, desk.root.canonicalize().map_err(unread)?))
}
