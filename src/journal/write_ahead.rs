//! Pages that are written together. What each is to hold lies on the disk, in one file, before the first of them changes:
//! where a run is killed between two, the next one that opens the journal puts the rest in place. It is what databases call
//! a write-ahead log.

use super::files::is_page;
use super::save::{NotSaved, create, save};
use super::staging::{LOG, NAME, Staging};
use serde::{Deserialize, Serialize};
use std::ffi::OsStr;
use std::fs::{self, File, TryLockError};
use std::io::{self, Write};
use std::path::{Component, Path, PathBuf};

/// A page to write: where, what was read there (nothing of a new one), and what it is to hold.
pub type Writing<'p> = (&'p Path, Option<&'p [u8]>, &'p [u8]);

/// Why pages were not written.
#[derive(Debug)]
pub struct NotAllSaved<'p> {
    /// The place of the page that could not be written.
    pub path: &'p Path,
    /// Why not.
    pub why: NotSaved,
    /// Whether some were, and could not be taken back. The next run that opens the journal writes the rest.
    pub some_were: bool,
}

/// What is to be written.
#[derive(Debug, Serialize, Deserialize)]
struct Entry {
    /// Below the journal's folder.
    page: PathBuf,
    was: Option<String>,
    is: String,
}

/// What was put in place of a run that was killed.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Resumed {
    /// Pages that hold what they were to hold, by their paths below the journal's folder.
    pub placed: Vec<String>,
    /// Pages that somebody wrote to since, or that can't be there; they are as they were found.
    pub left: Vec<String>,
}

/// Writes pages of a journal, all of them or none: those that were `read`, and new ones where nothing was.
///
/// # Errors
/// [`NotAllSaved`]; what was written is taken back.
pub fn save_all<'p>(root: &Path, pages: &[Writing<'p>]) -> Result<(), NotAllSaved<'p>> {
    let mut log = match pages {
        [] | [_] => None,
        [(path, ..), ..] => {
            let written = Log::write(root, pages);
            Some(written.map_err(|why| NotAllSaved { path, why, some_were: false })?)
        }
    };
    for (at, (path, read, page)) in pages.iter().enumerate() {
        let saved = read.map_or_else(|| create(path, page), |read| save(path, read, page));
        let Err(why) = saved else { continue };
        let done = pages.iter().take(at).rev();
        let back = done.map(|(path, read, page)| match read {
            Some(read) => save(path, page, read),
            None => Ok(fs::remove_file(path)?),
        });
        let some_were = back.fold(0, |failed, one| failed + usize::from(one.is_err())) > 0;
        if let Some(log) = log.as_mut() {
            log.stays = some_were;
        }
        return Err(NotAllSaved { path, why, some_were });
    }
    Ok(())
}

/// Where a run was killed while it wrote several pages: puts the rest in place. Nothing where there is nothing to do, or
/// where that run is still at it.
///
/// # Errors
/// Whatever the system says; and where the file that says what to write says something else.
pub fn resume(root: &Path) -> io::Result<Option<Resumed>> {
    let path = root.join(NAME).join(LOG);
    let file = match File::open(&path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(error),
        // A link would lead to files of somebody else's, and a device has no end.
        Ok(_) if !is_plain(&root.join(NAME), &path) => return Ok(None),
        Ok(file) => file,
    };
    match file.try_lock() {
        Err(TryLockError::WouldBlock) => return Ok(None),
        // Some systems know no locks.
        Err(TryLockError::Error(_)) | Ok(()) => {}
    }
    let entries: Vec<Entry> = serde_json::from_reader(io::BufReader::new(&file))?;
    let mut resumed = Resumed::default();
    for Entry { page, was, is } in entries {
        let shown = page.to_string_lossy().into_owned();
        let place = root.join(&page);
        let in_place = is_inside(root, &page)
            && match (fs::read(&place), was) {
                (Ok(bytes), _) if bytes == is.as_bytes() => true,
                (Ok(bytes), Some(was)) if bytes == was.as_bytes() => written(save(&place, &bytes, is.as_bytes()))?,
                (Err(error), None) if error.kind() == io::ErrorKind::NotFound => {
                    written(create(&place, is.as_bytes()))?
                }
                _ => false,
            };
        if in_place { resumed.placed.push(shown) } else { resumed.left.push(shown) }
    }
    forget(root);
    Ok(Some(resumed))
}

/// The file that says what is to be written, held by who writes it.
struct Log {
    root: PathBuf,
    /// Whether the next run has something to do.
    stays: bool,
    _lock: File,
}

impl Log {
    fn write(root: &Path, pages: &[Writing<'_>]) -> Result<Log, NotSaved> {
        let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).map_err(io::Error::other);
        let entry = |(path, was, is): &Writing<'_>| -> io::Result<Entry> {
            let page = below(root, path)?;
            Ok(Entry { page, was: was.map(text).transpose()?, is: text(is)? })
        };
        let entries: Vec<Entry> = pages.iter().map(entry).collect::<io::Result<_>>()?;
        let staging = Staging::of(root)?;
        let place = root.join(NAME).join(LOG);
        // Another run is at it, or was killed since this one read its pages.
        if fs::symlink_metadata(&place).is_ok() {
            return Err(NotSaved::Changed);
        }
        let (mut lock, unready) = staging.file(OsStr::new(LOG), true)?;
        serde_json::to_writer(io::BufWriter::new(&lock), &entries).map_err(io::Error::from)?;
        lock.flush()?;
        lock.sync_all()?;
        let _ = lock.lock();
        fs::rename(unready, place)?;
        Ok(Log { root: root.to_owned(), stays: false, _lock: lock })
    }
}

impl Drop for Log {
    fn drop(&mut self) {
        if !self.stays {
            forget(&self.root);
        }
    }
}

/// Nothing is left to be written: the file goes, and the folder that it lay in.
fn forget(root: &Path) {
    let _ = fs::remove_file(root.join(NAME).join(LOG));
    drop(Staging::of(root));
}

/// Whether a page was written; where somebody else wrote to it meanwhile it was not.
fn written(saved: Result<(), NotSaved>) -> io::Result<bool> {
    match saved {
        Ok(()) => Ok(true),
        Err(NotSaved::Changed) => Ok(false),
        Err(NotSaved::ReadOnly) => Err(io::ErrorKind::PermissionDenied.into()),
        Err(NotSaved::System(error)) => Err(error),
    }
}

/// Whether both are what they seem: a folder, and a file in it.
fn is_plain(folder: &Path, file: &Path) -> bool {
    let is = |path: &Path, kind: fn(&fs::FileType) -> bool| {
        fs::symlink_metadata(path).is_ok_and(|found| kind(&found.file_type()))
    };
    is(folder, fs::FileType::is_dir) && is(file, fs::FileType::is_file)
}

/// Whether a path is that of a page below a folder, through whatever links. A clone may come with a file that says otherwise.
fn is_inside(root: &Path, page: &Path) -> bool {
    let plain = |part: Component<'_>| match part {
        Component::Normal(name) => !name.as_encoded_bytes().starts_with(b"."),
        _ => false,
    };
    let place = root.join(page);
    // A page that is there leads where its link leads; one that is not, where its folder does.
    let real = if fs::symlink_metadata(&place).is_ok() { place.canonicalize() } else { folder_of(&place) };
    is_page(&page.to_string_lossy())
        && page.components().all(plain)
        && matches!((real, root.canonicalize()), (Ok(real), Ok(root)) if real.starts_with(&root))
}

/// A page's path below a folder, however both were named.
fn below(root: &Path, path: &Path) -> io::Result<PathBuf> {
    if let Ok(page) = path.strip_prefix(root) {
        return Ok(page.to_owned());
    }
    let real = std::path::absolute(path)?;
    let real = folder_of(&real)?.join(real.file_name().ok_or(io::ErrorKind::NotFound)?);
    Ok(real.strip_prefix(root.canonicalize()?).map_err(io::Error::other)?.to_owned())
}

fn folder_of(place: &Path) -> io::Result<PathBuf> {
    place.parent().ok_or(io::ErrorKind::NotFound)?.canonicalize()
}

#[cfg(test)]
mod tests {
    use super::{LOG, NAME, Writing, resume, save_all};
    use crate::journal::NotSaved;
    use crate::journal::save::tests::names;
    use serde_json::json;
    use std::fs;
    use std::path::Path;

    #[test]
    fn of_several_pages_all_are_written_or_none() {
        let folder = tempfile::tempdir().unwrap();
        let [new, old, other] = ["new.md", "old.md", "other.md"].map(|name| folder.path().join(name));
        fs::write(&old, "old\n").unwrap();
        fs::write(&other, "by somebody else\n").unwrap();
        let pages = |read: &'static [u8]| -> [Writing<'_>; 3] {
            [(&new, None, b"1\n"), (&old, Some(b"old\n"), b"2\n"), (&other, Some(read), b"3\n")]
        };
        let failed = save_all(folder.path(), &pages(b"as it was read\n")).unwrap_err();
        assert!(matches!(failed.why, NotSaved::Changed) && failed.path == other && !failed.some_were);
        assert_eq!(names(folder.path()), ["old.md", "other.md"]);
        assert_eq!(fs::read(&old).unwrap(), b"old\n");
        save_all(folder.path(), &pages(b"by somebody else\n")).unwrap();
        assert_eq!(fs::read(&other).unwrap(), b"3\n");
        assert_eq!(names(folder.path()), ["new.md", "old.md", "other.md"]);
    }

    fn killed(folder: &Path, entries: &serde_json::Value) {
        fs::create_dir(folder.join(NAME)).unwrap();
        fs::write(folder.join(NAME).join(LOG), entries.to_string()).unwrap();
    }

    #[test]
    fn a_killed_run_is_gone_on_with_but_for_pages_that_were_written_to_since() {
        let folder = tempfile::tempdir().unwrap();
        let page = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
        page("done.md", "is\n");
        page("waits.md", "was\n");
        page("edited.md", "by somebody else\n");
        let entry = |name: &str| json!({ "page": name, "was": "was\n", "is": "is\n" });
        let new = json!({ "page": "new.md", "was": null, "is": "is\n" });
        killed(folder.path(), &json!([entry("done.md"), entry("waits.md"), entry("edited.md"), entry("gone.md"), new]));
        let resumed = resume(folder.path()).unwrap().unwrap();
        assert_eq!(resumed.placed, ["done.md", "waits.md", "new.md"]);
        assert_eq!(resumed.left, ["edited.md", "gone.md"]);
        assert_eq!(names(folder.path()), ["done.md", "edited.md", "new.md", "waits.md"]);
        assert_eq!(fs::read(folder.path().join("waits.md")).unwrap(), b"is\n");
        assert_eq!(fs::read(folder.path().join("edited.md")).unwrap(), b"by somebody else\n");
        assert_eq!(resume(folder.path()).unwrap(), None);
    }

    /// A clone may come with such a file.
    #[cfg(unix)]
    #[test]
    fn nothing_is_written_outside_the_journal_nor_to_what_is_no_page() {
        let outside = tempfile::tempdir().unwrap();
        let folder = outside.path().join("journal");
        fs::create_dir_all(folder.join(".git")).unwrap();
        fs::write(outside.path().join("own.md"), "was\n").unwrap();
        std::os::unix::fs::symlink(outside.path(), folder.join("up")).unwrap();
        std::os::unix::fs::symlink(outside.path().join("own.md"), folder.join("link.md")).unwrap();
        std::os::unix::fs::symlink(outside.path().join("not there.md"), folder.join("dangling.md")).unwrap();
        let new = |name: &str| json!({ "page": name, "was": null, "is": "is\n" });
        let old = json!({ "page": "link.md", "was": "was\n", "is": "is\n" });
        let absolute = outside.path().join("x.md");
        let entries =
            ["../x.md", "up/x.md", ".git/x.md", "hook", "journal.yaml", "dangling.md", "", absolute.to_str().unwrap()];
        let entries: Vec<_> = entries.into_iter().map(new).chain([old]).collect();
        killed(&folder, &json!(entries));
        let resumed = resume(&folder).unwrap().unwrap();
        assert_eq!((resumed.placed, resumed.left.len()), (Vec::new(), 9));
        assert_eq!(names(outside.path()), ["journal", "own.md"]);
        assert_eq!(fs::read(outside.path().join("own.md")).unwrap(), b"was\n");
        assert_eq!(names(&folder), [".git", "dangling.md", "link.md", "up"]);
    }

    #[test]
    fn what_says_nothing_is_told_and_stays() {
        let folder = tempfile::tempdir().unwrap();
        killed(folder.path(), &json!({ "pages": 3 }));
        assert!(resume(folder.path()).is_err());
        assert_eq!(names(&folder.path().join(NAME)), [LOG]);
    }
}
