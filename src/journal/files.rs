//! Reading files, from disk or from memory.

use super::lifters::folder_of;
use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use walkdir::WalkDir;

/// What lies below a journal's root.
#[derive(Debug, Default)]
pub struct Listing {
    /// Paths below the root, with `/` between folders, sorted.
    pub files: Vec<String>,
    /// What the system would not show: a path below the root, and its words.
    pub refused: Vec<(String, String)>,
}

/// A place that files are read from; paths are those below the journal's root.
pub trait Files: Sync {
    /// Every file that is not hidden, nor below a hidden folder.
    fn list(&self) -> Listing;

    /// The bytes of a file.
    ///
    /// # Errors
    /// Whatever the system says.
    fn read(&self, path: &str) -> io::Result<Vec<u8>>;

    /// What the system refused so far, sorted: paths of files that could not be read and of folders that could not be
    /// listed. No answer is silent about them.
    fn unread(&self) -> Vec<String> {
        Vec::new()
    }
}

/// A folder on disk.
#[derive(Debug)]
pub struct Disk {
    root: PathBuf,
    unread: Mutex<BTreeSet<String>>,
}

impl Disk {
    /// The journal in this folder.
    pub fn new(root: impl Into<PathBuf>) -> Self {
        Disk { root: root.into(), unread: Mutex::default() }
    }

    /// Keeps in mind what was refused. A thread that panicked elsewhere leaves the set as good as it was.
    fn refused(&self, path: &str) {
        self.unread.lock().unwrap_or_else(PoisonError::into_inner).insert(path.to_owned());
    }

    /// Whether the system refused this file so far.
    pub fn was_refused(&self, path: &str) -> bool {
        self.unread.lock().unwrap_or_else(PoisonError::into_inner).contains(path)
    }

    /// Where a file is, by its path below the root.
    pub fn place(&self, path: &str) -> PathBuf {
        self.root.join(path)
    }
}

/// Why a page is not read that no answer could name.
const NAME_NOT_UTF8: &str = "its name is no UTF-8 text; give it another one";

/// Why a device or a pipe is not read.
const NO_TEXT: &str = "it is no file with text in it";

fn is_hidden(name: &str) -> bool {
    name.starts_with('.') && name != "." && name != ".."
}

impl Files for Disk {
    /// Links are followed, but a link to something inside the journal is left out: what it shows is
    /// listed where it really stands, and counting it twice would double the training.
    fn list(&self) -> Listing {
        let mut listing = Listing::default();
        let real_root = self.root.canonicalize().unwrap_or_else(|_| self.root.clone());
        let walk = WalkDir::new(&self.root).follow_links(true).into_iter().filter_entry(|entry| {
            if entry.depth() == 0 {
                return true;
            }
            if is_hidden(&entry.file_name().to_string_lossy()) {
                return false;
            }
            !entry.path_is_symlink() || entry.path().canonicalize().is_ok_and(|real| !real.starts_with(&real_root))
        });
        for entry in walk {
            match entry {
                Ok(entry) if entry.file_type().is_file() => {
                    let path = below(&self.root, entry.path());
                    let is_text = entry.path().strip_prefix(&self.root).is_ok_and(|inner| inner.to_str().is_some());
                    if is_text {
                        listing.files.push(path);
                    } else if is_page(&path) {
                        self.refused(&path);
                        listing.refused.push((path, NAME_NOT_UTF8.into()));
                    }
                }
                // A device or a pipe would be read for ever.
                Ok(entry) if !entry.file_type().is_dir() => {
                    let path = below(&self.root, entry.path());
                    if is_page(&path) || folder_of(&path).is_some() {
                        self.refused(&path);
                        listing.refused.push((path, NO_TEXT.into()));
                    }
                }
                Ok(_) => {}
                // A link that leads back to a folder above it shows nothing new.
                Err(error) if error.loop_ancestor().is_some() => {}
                Err(error) => {
                    let path = error.path().map(|path| below(&self.root, path)).unwrap_or_default();
                    // A link that leads nowhere hides no training unless it is called like a page. Editors leave
                    // such links behind, hidden ones, while a page is open.
                    let gone = error.io_error().is_some_and(|error| error.kind() == io::ErrorKind::NotFound);
                    if path.split('/').any(is_hidden) || gone && !is_page(&path) && folder_of(&path).is_none() {
                        continue;
                    }
                    let why = error.io_error().map_or_else(|| error.to_string(), ToString::to_string);
                    self.refused(&path);
                    listing.refused.push((path, why));
                }
            }
        }
        listing.files.sort_unstable();
        listing
    }

    fn read(&self, path: &str) -> io::Result<Vec<u8>> {
        let place = self.place(path);
        // A device or a pipe would be read for ever.
        let read = match std::fs::metadata(&place) {
            Ok(found) if !found.is_file() => Err(io::Error::other(NO_TEXT)),
            _ => std::fs::read(place),
        };
        read.inspect_err(|_| self.refused(path))
    }

    fn unread(&self) -> Vec<String> {
        self.unread.lock().unwrap_or_else(PoisonError::into_inner).iter().cloned().collect()
    }
}

/// The path below a root, with `/` between folders.
fn below(root: &Path, path: &Path) -> String {
    let inner = path.strip_prefix(root).unwrap_or(path);
    let parts: Vec<_> = inner.components().map(|part| part.as_os_str().to_string_lossy()).collect();
    parts.join("/")
}

/// Files in memory, for tests and for whoever has unsaved pages.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    files: BTreeMap<String, Vec<u8>>,
    /// Pages and folders of pages that are known to be there, and were not read.
    unread: BTreeSet<String>,
}

impl Memory {
    /// Adds or replaces a file.
    #[must_use]
    pub fn with(mut self, path: &str, bytes: impl Into<Vec<u8>>) -> Self {
        self.files.insert(path.into(), bytes.into());
        self
    }

    /// Notes a page, or a folder of pages, that is there and could not be read.
    pub fn lacks(&mut self, path: &str) {
        self.unread.insert(path.into());
    }

    /// Takes out what another state could not read, so that it is not held against nothing.
    pub fn without(&mut self, unread: &[String]) {
        let gone = |path: &str| {
            unread
                .iter()
                .any(|one| path.strip_prefix(one.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with('/')))
        };
        self.files.retain(|path, _| !gone(path));
    }
}

impl Files for Memory {
    fn list(&self) -> Listing {
        let shown = self.files.keys().filter(|path| !path.split('/').any(is_hidden));
        Listing { files: shown.cloned().collect(), refused: Vec::new() }
    }

    fn read(&self, path: &str) -> io::Result<Vec<u8>> {
        self.files.get(path).cloned().ok_or_else(|| io::ErrorKind::NotFound.into())
    }

    fn unread(&self) -> Vec<String> {
        self.unread.iter().cloned().collect()
    }
}

/// Files as they are below, but for those laid over them.
pub struct Overlay<'f> {
    below: &'f dyn Files,
    over: BTreeMap<String, Vec<u8>>,
}

impl<'f> Overlay<'f> {
    /// Nothing laid over yet.
    pub fn new(below: &'f dyn Files) -> Self {
        Overlay { below, over: BTreeMap::new() }
    }

    /// Lays a file over the one of its path.
    pub fn put(&mut self, path: &str, bytes: Vec<u8>) {
        self.over.insert(path.to_owned(), bytes);
    }
}

impl Files for Overlay<'_> {
    fn list(&self) -> Listing {
        let mut listing = self.below.list();
        listing.files.extend(self.over.keys().cloned());
        listing.files.sort_unstable();
        listing.files.dedup();
        listing
    }

    fn read(&self, path: &str) -> io::Result<Vec<u8>> {
        self.over.get(path).map_or_else(|| self.below.read(path), |bytes| Ok(bytes.clone()))
    }
}

/// Whether a path is that of a page.
pub(super) fn is_page(path: &str) -> bool {
    let name = path.rsplit('/').next().unwrap_or(path);
    let markdown = name.len() > 3 && name.get(name.len() - 3..).is_some_and(|end| end.eq_ignore_ascii_case(".md"));
    markdown && !name.eq_ignore_ascii_case("README.md")
}
