//! The journals that open pages belong to. A page below no `journal.yaml` belongs to none: nothing is read for it.

use super::held::{Held, Machine};
use crate::journal::find_root;
use std::path::{Path, PathBuf};

/// All journals that are known.
pub(crate) struct Workspace {
    journals: Vec<Held>,
    machine: Machine,
}

impl Workspace {
    /// None yet.
    pub(crate) fn new(machine: Machine) -> Self {
        Workspace { journals: Vec::new(), machine }
    }

    /// The journal that a folder stands in is one from now on.
    pub(crate) fn add(&mut self, folder: &Path) {
        if let Ok(root) = find_root(None, folder)
            && !self.journals.iter().any(|held| held.root == root)
        {
            self.journals.push(Held::new(&root, self.machine.clone()));
        }
    }

    /// The journal of a file, with the file's path below its root.
    pub(crate) fn find(&mut self, file: &Path) -> Option<(&mut Held, String)> {
        let folder = file.parent()?;
        let root = find_root(None, folder).ok()?;
        self.add(folder);
        let held = self.journals.iter_mut().find(|held| held.root == root)?;
        let path = below(&held.root, file)?;
        Some((held, path))
    }

    /// Every journal.
    pub(crate) fn all(&mut self) -> impl Iterator<Item = &mut Held> {
        self.journals.iter_mut()
    }

    /// The file of a path below a journal's root.
    pub(crate) fn place(root: &Path, path: &str) -> PathBuf {
        path.split('/').fold(root.to_path_buf(), |place, part| place.join(part))
    }
}

/// A file's path below a root, with `/` between folders.
fn below(root: &Path, file: &Path) -> Option<String> {
    let parts: Option<Vec<&str>> = file.strip_prefix(root).ok()?.iter().map(|part| part.to_str()).collect();
    Some(parts?.join("/"))
}
