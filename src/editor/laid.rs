//! Open pages laid over the disk.

use crate::journal::{Disk, Files, Listing};
use std::collections::BTreeMap;
use std::io;

/// Files as they lie on disk, but for those that are open in the editor.
pub(crate) struct Laid<'a> {
    /// The journal's folder.
    pub(crate) disk: &'a Disk,
    /// Open files, by their paths below the root.
    pub(crate) open: &'a BTreeMap<String, Vec<u8>>,
}

impl Files for Laid<'_> {
    fn list(&self) -> Listing {
        let mut listing = self.disk.list();
        listing.files.extend(self.open.keys().cloned());
        listing.files.sort_unstable();
        listing.files.dedup();
        listing
    }

    fn read(&self, path: &str) -> io::Result<Vec<u8>> {
        self.open.get(path).map_or_else(|| self.disk.read(path), |bytes| Ok(bytes.clone()))
    }
}
