//! The folder in which new pages are made ready: hidden, beside the page, and held by whoever writes there. Git leaves it
//! out, for it ignores itself. What a killed run left in it is put right by the next one that writes into the same folder:
//! a page that was not whole goes, and pages that were all whole get their places.

use std::ffi::{OsStr, OsString};
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tempfile::TempPath;

/// The name of the folder in which pages are made ready, in the folder of the pages.
pub const NAME: &str = ".loadline";
/// Holds a lock on the folder, and makes git ignore all that stands beside it.
const LOCK: &str = ".gitignore";
/// Pages that are being written, and those that are all whole.
const UNREADY: &str = "unready";
const READY: &str = "ready";
/// What pages of several folders are to hold, while they are written.
pub(super) const LOG: &str = "pages.json";

/// A folder held for writing, by this process alone. It goes when it is let go.
pub(super) struct Staging {
    /// Where the pages go.
    folder: PathBuf,
    /// Where they are made ready.
    inner: PathBuf,
    /// Lets the folder go when it is closed, also where the process is killed.
    _lock: File,
}

impl Staging {
    /// Holds a folder: waits for whoever writes there, and clears what a killed run left.
    pub(super) fn of(folder: &Path) -> io::Result<Staging> {
        let inner = folder.join(NAME);
        loop {
            match fs::create_dir(&inner) {
                Err(error) if error.kind() != io::ErrorKind::AlreadyExists => return Err(error),
                _ => {}
            }
            // A link would lead to files of somebody else's.
            if !fs::symlink_metadata(&inner).is_ok_and(|found| found.is_dir()) {
                return Err(in_the_way(&inner));
            }
            let lock = match held(&inner.join(LOCK)) {
                // Whoever held it has let it go, and taken it away.
                Err(error) if error.kind() == io::ErrorKind::NotFound => continue,
                lock => lock?,
            };
            if is_there(&lock, &inner.join(LOCK)) {
                remove(&inner.join(UNREADY))?;
                return Ok(Staging { folder: folder.to_owned(), inner, _lock: lock });
            }
        }
    }

    /// Whether a killed run left something in a folder.
    pub(super) fn has_remains(folder: &Path) -> bool {
        fs::symlink_metadata(folder.join(NAME).join(READY)).is_ok_and(|found| found.is_dir())
    }

    /// Puts whole pages of a killed run in their places, and gives those places.
    pub(super) fn finish(&self) -> io::Result<Vec<PathBuf>> {
        let ready = self.inner.join(READY);
        if !Staging::has_remains(&self.folder) {
            return Ok(Vec::new());
        }
        let mut names: Vec<OsString> =
            fs::read_dir(&ready)?.map(|entry| Ok(entry?.file_name())).collect::<io::Result<_>>()?;
        names.sort();
        let placed = names.iter().map(|name| self.put(&ready.join(name), name)).collect::<io::Result<_>>()?;
        fs::remove_dir(&ready)?;
        Ok(placed)
    }

    /// A new file to be filled. One that is to take a page's place is its owner's alone until it is like that page.
    pub(super) fn file(&self, name: &OsStr, is_new: bool) -> io::Result<(File, PathBuf)> {
        let unready = self.inner.join(UNREADY);
        if let Err(error) = fs::create_dir(&unready)
            && error.kind() != io::ErrorKind::AlreadyExists
        {
            return Err(error);
        }
        let place = unready.join(name);
        let mut options = File::options();
        options.write(true).create_new(true);
        #[cfg(unix)]
        {
            use std::os::unix::fs::OpenOptionsExt;
            options.mode(if is_new { 0o666 } else { 0o600 });
        }
        #[cfg(not(unix))]
        let _ = is_new;
        Ok((options.open(&place)?, place))
    }

    /// From here on the pages get their places, whatever happens to this run.
    pub(super) fn all_whole(&self) -> io::Result<PathBuf> {
        let ready = self.inner.join(READY);
        fs::rename(self.inner.join(UNREADY), &ready)?;
        Ok(ready)
    }

    /// All the files made ready become a folder, in one step.
    pub(super) fn become_folder(&self, folder: &Path) -> io::Result<()> {
        fs::rename(self.inner.join(UNREADY), folder)
    }

    /// Gives a page its place, where there is none yet.
    pub(super) fn put(&self, page: &Path, name: &OsStr) -> io::Result<PathBuf> {
        let place = self.folder.join(name);
        TempPath::try_from_path(page)?.persist_noclobber(&place).map_err(|failed| {
            // What is whole is not thrown away.
            let _ = failed.path.keep();
            failed.error
        })?;
        Ok(place)
    }
}

impl Drop for Staging {
    /// Takes the folder away, unless whole pages wait in it.
    fn drop(&mut self) {
        let _ = remove(&self.inner.join(UNREADY));
        let awaited = fs::symlink_metadata(self.inner.join(LOG)).is_ok();
        if !awaited && !Staging::has_remains(&self.folder) {
            let _ = fs::remove_file(self.inner.join(LOCK));
            let _ = fs::remove_dir(&self.inner);
        }
    }
}

/// The lock, held.
fn held(path: &Path) -> io::Result<File> {
    let lock = match File::options().write(true).create_new(true).open(path) {
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            if !fs::symlink_metadata(path)?.is_file() {
                return Err(in_the_way(path));
            }
            File::options().append(true).open(path)?
        }
        new => new?,
    };
    // Some systems know no locks: what is written there is whole all the same.
    if let Err(error) = lock.lock()
        && error.kind() == io::ErrorKind::Interrupted
    {
        return Err(error);
    }
    if lock.metadata()?.len() == 0 {
        (&lock).write_all(b"*\n")?;
    }
    Ok(lock)
}

/// Whether a lock is that of the folder as it is now.
fn is_there(lock: &File, path: &Path) -> bool {
    let (Ok(own), Ok(there)) = (lock.metadata(), fs::symlink_metadata(path)) else { return false };
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        (own.dev(), own.ino()) == (there.dev(), there.ino())
    }
    #[cfg(not(unix))]
    {
        own.len() == there.len()
    }
}

fn remove(folder: &Path) -> io::Result<()> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        removed => removed,
    }
}

fn in_the_way(path: &Path) -> io::Error {
    let why = format!("{} stands in the way; move it elsewhere", path.display());
    io::Error::new(io::ErrorKind::AlreadyExists, why)
}
