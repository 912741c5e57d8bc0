//! Finding a journal's root.

use super::SETTINGS_FILE;
use std::path::{Path, PathBuf};

/// No journal where one was looked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoRoot {
    /// The folder that was named does not exist.
    NoFolder(PathBuf),
    /// The folder that was named is none.
    NotAFolder(PathBuf),
    /// The folder that was named has no settings.
    NoSettings(PathBuf),
    /// Neither this folder nor any above it has settings.
    NotBelow(PathBuf),
}

/// The root of the journal in the folder that is named, or the one above the current folder.
///
/// # Errors
/// [`NoRoot`] where there is none.
pub fn find_root(named: Option<&Path>, current: &Path) -> Result<PathBuf, NoRoot> {
    if let Some(folder) = named {
        if !folder.exists() {
            return Err(NoRoot::NoFolder(folder.into()));
        }
        if !folder.is_dir() {
            return Err(NoRoot::NotAFolder(folder.into()));
        }
        if folder.join(SETTINGS_FILE).is_file() {
            return Ok(folder.into());
        }
        return Err(NoRoot::NoSettings(folder.into()));
    }
    let above = current.ancestors().find(|folder| folder.join(SETTINGS_FILE).is_file());
    above.map(Path::to_path_buf).ok_or_else(|| NoRoot::NotBelow(current.into()))
}
