//! A page of the journal that a command is to write.

pub(super) mod html_file;

use super::desk::Desk;
use super::outcome::Failure;
use std::fs;
use std::path::{Path, PathBuf};

/// The page to write to.
pub(crate) struct Target {
    /// Where it is.
    pub(crate) path: PathBuf,
    /// The path below the journal's root.
    pub(crate) below: String,
    /// What it held; nothing where it is not there yet.
    pub(crate) read: Option<Vec<u8>>,
}

impl Target {
    /// The page of a path: from the current folder where that lies in the journal, else from the journal's.
    pub(crate) fn of(desk: &Desk, path: &Path) -> Result<Target, Failure> {
        let shown = path.display();
        let unread = |error: std::io::Error| Failure(format!("{shown} cannot be read: {error}"));
        let outside = || Failure(format!("{shown} lies outside the journal; name a page in {}", desk.root.display()));
        let root = desk.root.canonicalize().map_err(unread)?;
        let current = std::env::current_dir().and_then(|folder| folder.canonicalize()).ok();
        let whole = current.filter(|folder| folder.starts_with(&root)).unwrap_or_else(|| root.clone()).join(path);
        let (Some(folder), Some(name)) = (whole.parent(), whole.file_name()) else { return Err(outside()) };
        let folder = folder
            .canonicalize()
            .map_err(|_| Failure(format!("there is no folder {}; make it first", folder.display())))?;
        let mut path = folder.join(name);
        // A link, also one that leads nowhere, is looked through before anything is said of what it is.
        let is_there = fs::symlink_metadata(&path).is_ok();
        if is_there {
            path = path.canonicalize().map_err(unread)?;
        }
        let below = path.strip_prefix(&root).map_err(|_| outside())?;
        let parts: Vec<_> = below.components().map(|part| part.as_os_str().to_string_lossy()).collect();
        let below = parts.join("/");
        if !below.get(below.len().saturating_sub(3)..).is_some_and(|end| end.eq_ignore_ascii_case(".md")) {
            return Err(Failure(format!("{shown} isn't a page; the name of a page ends in .md")));
        }
        if is_there && !fs::metadata(&path).is_ok_and(|found| found.is_file()) {
            return Err(Failure(format!("{shown} is no file with text in it")));
        }
        let read = is_there.then(|| fs::read(&path)).transpose().map_err(unread)?;
        Ok(Target { path, below, read })
    }
}
