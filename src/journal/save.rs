//! A page written whole or not at all: a new file beside it takes its place in one step, so that a full disk or a
//! lost power supply leaves the old page or the new one, never half of either.

use std::fs::{self, File, Metadata};
use std::io::{self, Write};
use std::path::Path;

/// Why a page was not written. It is as it was then.
#[derive(Debug)]
pub enum NotSaved {
    /// It is no longer what was read.
    Changed,
    /// It may not be written to.
    ReadOnly,
    /// Whatever the system says.
    System(io::Error),
}

impl From<io::Error> for NotSaved {
    fn from(error: io::Error) -> Self {
        NotSaved::System(error)
    }
}

/// Writes a page that was `read` so. A link stays, and what it leads to is written; permissions stay.
///
/// # Errors
/// [`NotSaved`] where it was not written.
pub fn save(path: &Path, read: &[u8], page: &[u8]) -> Result<(), NotSaved> {
    let real = path.canonicalize()?;
    let known = fs::metadata(&real)?;
    if known.permissions().readonly() {
        return Err(NotSaved::ReadOnly);
    }
    let folder = real.parent().ok_or_else(|| io::Error::from(io::ErrorKind::NotFound))?;
    // Hidden, so that whoever reads the journal meanwhile takes it for no page.
    let mut new = tempfile::Builder::new().prefix(".loadline-").suffix(".tmp").tempfile_in(folder)?;
    new.write_all(page)?;
    like(new.as_file(), &known)?;
    new.as_file().sync_all()?;
    if fs::read(&real)? != read {
        return Err(NotSaved::Changed);
    }
    new.persist(&real).map_err(|error| error.error)?;
    Ok(())
}

/// Gives a new file the owner and the permissions of the one whose place it takes.
fn like(new: &File, known: &Metadata) -> io::Result<()> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::{MetadataExt, fchown};
        let own = new.metadata()?;
        if (own.uid(), own.gid()) != (known.uid(), known.gid()) {
            // Only the system's administrator may give files away; for anybody else the page becomes the writer's own,
            // as with any editor that writes so.
            let _ = fchown(new, Some(known.uid()), Some(known.gid()));
        }
    }
    new.set_permissions(known.permissions())
}
