//! A page written whole or not at all: a new file beside it takes its place in one step, so that a full disk or a
//! lost power supply leaves the old page or the new one, never half of either.

use super::staging::Staging;
use std::ffi::OsStr;
use std::fs::{self, File, Metadata};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

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

/// Writes a page that was `read` so. A link stays, and what it leads to is written; permissions stay, and attributes where
/// the system lets them be written.
///
/// # Errors
/// [`NotSaved`] where it was not written.
pub fn save(path: &Path, read: &[u8], page: &[u8]) -> Result<(), NotSaved> {
    let real = path.canonicalize()?;
    put_in_place(&real, Some(&fs::metadata(&real)?), |new| new.write_all(page), Some((read, page)))
}

/// Writes a page that must not be there yet.
///
/// # Errors
/// [`NotSaved`] where it was not written: [`NotSaved::Changed`] where there is one by now.
pub fn create(path: &Path, page: &[u8]) -> Result<(), NotSaved> {
    let (folder, name) = parts(path)?;
    create_all(folder, &[(name, page)]).map_err(|(_, why)| why)
}

/// Writes new files of one folder, all of them or none. A folder that is not there yet comes with all of them at once. In
/// one that is there they get their places one by one; a run that is killed between two is finished by the next one that
/// writes there.
///
/// # Errors
/// The place of the file that could not be written, and [`NotSaved`] as for one.
pub fn create_all(folder: &Path, files: &[(&OsStr, &[u8])]) -> Result<(), (PathBuf, NotSaved)> {
    let is_new = !folder.exists();
    let whole = std::path::absolute(folder).map_err(|error| (folder.to_owned(), error.into()))?;
    let beside = if is_new { whole.parent().unwrap_or(&whole) } else { &whole };
    let of_folder = |error: io::Error| (folder.to_owned(), NotSaved::from(error));
    fs::create_dir_all(beside).map_err(of_folder)?;
    let staging = Staging::of(beside).map_err(of_folder)?;
    // What an earlier run left is no matter of this one; import asks for it by itself.
    let _ = staging.finish();
    let mut unready = PathBuf::new();
    for (name, bytes) in files {
        let staged = || {
            let (mut new, place) = staging.file(name, true)?;
            new.write_all(bytes)?;
            new.sync_all()?;
            Ok(place)
        };
        unready = staged().map_err(|error: io::Error| (folder.join(name), error.into()))?;
    }
    if is_new {
        return staging.become_folder(&whole).map_err(of_folder);
    }
    let ready = match files {
        [_] => unready.parent().unwrap_or(&unready).to_owned(),
        _ => staging.all_whole().map_err(of_folder)?,
    };
    let mut there: Vec<PathBuf> = Vec::new();
    for (name, _) in files {
        match staging.put(&ready.join(name), name) {
            Ok(place) => there.push(place),
            Err(error) => {
                // Pages of which one is missing are none.
                let _ = fs::remove_dir_all(&ready);
                there.into_iter().for_each(|path| drop(fs::remove_file(path)));
                let is_there = error.kind() == io::ErrorKind::AlreadyExists;
                return Err((folder.join(name), if is_there { NotSaved::Changed } else { error.into() }));
            }
        }
    }
    // With nothing left in it, it would be taken for pages of a killed run.
    let _ = fs::remove_dir(ready);
    Ok(())
}

/// Puts the pages in their places that a killed run had made ready for a folder, and gives their places.
///
/// # Errors
/// Whatever the system says; what could not be placed stays as it was left.
pub fn finish(folder: &Path) -> io::Result<Vec<PathBuf>> {
    if Staging::has_remains(folder) { Staging::of(folder)?.finish() } else { Ok(Vec::new()) }
}

/// Writes a file piece by piece; one that is there already is replaced, and keeps its permissions.
///
/// # Errors
/// [`NotSaved`] where it was not written, or `fill` failed.
pub fn replace(path: &Path, fill: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> Result<(), NotSaved> {
    let known = fs::metadata(path).ok();
    let real = if known.is_some() { path.canonicalize()? } else { std::path::absolute(path)? };
    if let Some(folder) = real.parent().filter(|folder| !folder.is_dir()) {
        let why = format!("there is no folder {}; make it first", folder.display());
        return Err(NotSaved::System(io::Error::new(io::ErrorKind::NotFound, why)));
    }
    let buffered = |new: &mut File| {
        let mut new = io::BufWriter::new(new);
        fill(&mut new)?;
        new.flush()
    };
    put_in_place(&real, known.as_ref(), buffered, None)
}

/// Fills a new file that takes the place of the one that is `known`. With what was read there and what is to stand there, it
/// does so only where nothing else was written meanwhile.
fn put_in_place(
    real: &Path,
    known: Option<&Metadata>,
    fill: impl FnOnce(&mut File) -> io::Result<()>,
    versions: Option<(&[u8], &[u8])>,
) -> Result<(), NotSaved> {
    if known.is_some_and(|known| known.permissions().readonly()) {
        return Err(NotSaved::ReadOnly);
    }
    let (folder, name) = parts(real)?;
    let staging = Staging::of(folder)?;
    let _ = staging.finish();
    let (mut new, place) = staging.file(name, known.is_none())?;
    fill(&mut new)?;
    if let Some(known) = known {
        like(&new, known)?;
        keep_attributes(real, &place);
    }
    new.sync_all()?;
    match versions {
        Some((read, _)) if fs::read(real)? != read => Err(NotSaved::Changed),
        Some((read, page)) => change_over(&place, real, read, page),
        None => Ok(fs::rename(place, real)?),
    }
}

/// Puts a new page in the place of the one that was `read`. Where the system changes two files over in one step, the look is
/// taken at the very file that went: what was written at the last moment comes back.
fn change_over(new: &Path, real: &Path, read: &[u8], page: &[u8]) -> Result<(), NotSaved> {
    #[cfg(target_os = "linux")]
    {
        use rustix::fs::{CWD, RenameFlags, renameat_with};
        use rustix::io::Errno;
        let swap = || renameat_with(CWD, new, CWD, real, RenameFlags::EXCHANGE);
        match swap() {
            Ok(()) if fs::read(new).is_ok_and(|went| went == read) => return Ok(()),
            Ok(()) => {
                swap().map_err(io::Error::from)?;
                // Something newer yet stood there, and goes back.
                if fs::read(new).is_ok_and(|came| came != page) {
                    swap().map_err(io::Error::from)?;
                }
                return Err(NotSaved::Changed);
            }
            Err(Errno::NOENT) => return Err(NotSaved::Changed),
            // This file system knows no such step.
            Err(_) => {}
        }
    }
    let _ = (read, page);
    Ok(fs::rename(new, real)?)
}

/// The folder of a file, and its name there.
fn parts(path: &Path) -> io::Result<(&Path, &OsStr)> {
    let folder = path.parent().map(|folder| if folder.as_os_str().is_empty() { Path::new(".") } else { folder });
    folder.zip(path.file_name()).ok_or_else(|| io::ErrorKind::NotFound.into())
}

/// Gives a new file what the system keeps beside the bytes of the old one: labels, comments, lists of who may read it. Some
/// of it only the administrator may write.
fn keep_attributes(old: &Path, new: &Path) {
    #[cfg(unix)]
    for name in xattr::list(old).into_iter().flatten() {
        if let Ok(Some(value)) = xattr::get(old, &name) {
            let _ = xattr::set(new, &name, &value);
        }
    }
    #[cfg(not(unix))]
    let _ = (old, new);
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

#[cfg(test)]
pub(super) mod tests {
    #[cfg(target_os = "linux")]
    use super::change_over;
    use super::{NotSaved, create, save};
    use std::fs;

    /// What a folder holds.
    pub(in crate::journal) fn names(folder: &std::path::Path) -> Vec<String> {
        let mut names: Vec<String> =
            fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    #[test]
    fn a_page_that_changed_meanwhile_stays_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let page = folder.path().join("page.md");
        fs::write(&page, "by somebody else\n").unwrap();
        assert!(matches!(save(&page, b"as it was read\n", b"new\n"), Err(NotSaved::Changed)));
        assert!(matches!(create(&page, b"new\n"), Err(NotSaved::Changed)));
        assert_eq!(fs::read(&page).unwrap(), b"by somebody else\n");
        assert_eq!(names(folder.path()), ["page.md"]);
    }

    /// What an editor writes between the last look at a page and the moment the new one takes its place.
    #[cfg(target_os = "linux")]
    #[test]
    fn what_is_written_at_the_last_moment_comes_back() {
        let folder = tempfile::tempdir().unwrap();
        let (page, new) = (folder.path().join("page.md"), folder.path().join("new"));
        fs::write(&page, "by somebody else\n").unwrap();
        fs::write(&new, "new\n").unwrap();
        assert!(matches!(change_over(&new, &page, b"as it was read\n", b"new\n"), Err(NotSaved::Changed)));
        assert_eq!(fs::read(&page).unwrap(), b"by somebody else\n");
        fs::remove_file(&page).unwrap();
        assert!(matches!(change_over(&new, &page, b"as it was read\n", b"new\n"), Err(NotSaved::Changed)));
        assert!(!page.exists(), "a page that somebody took away stays away");
        fs::write(&page, "as it was read\n").unwrap();
        change_over(&new, &page, b"as it was read\n", b"new\n").unwrap();
        assert_eq!(fs::read(&page).unwrap(), b"new\n");
    }

    #[test]
    fn a_page_is_written_whole_and_nothing_is_left_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let page = folder.path().join("page.md");
        create(&page, b"one\n").unwrap();
        save(&page, b"one\n", b"one\ntwo\n").unwrap();
        assert_eq!(fs::read(&page).unwrap(), b"one\ntwo\n");
        assert_eq!(names(folder.path()), ["page.md"]);
    }

    #[cfg(unix)]
    #[test]
    fn permissions_and_links_stay() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let (page, link) = (folder.path().join("page.md"), folder.path().join("link.md"));
        fs::write(&page, "one\n").unwrap();
        fs::set_permissions(&page, fs::Permissions::from_mode(0o640)).unwrap();
        std::os::unix::fs::symlink(&page, &link).unwrap();
        save(&link, b"one\n", b"two\n").unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read(&page).unwrap(), b"two\n");
        assert_eq!(fs::metadata(&page).unwrap().permissions().mode() & 0o777, 0o640);
        fs::set_permissions(&page, fs::Permissions::from_mode(0o440)).unwrap();
        assert!(matches!(save(&page, b"two\n", b"three\n"), Err(NotSaved::ReadOnly)));
    }
}
