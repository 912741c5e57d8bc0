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
    let mut new = beside(&real, false)?;
    new.write_all(page)?;
    like(new.as_file(), &known)?;
    new.as_file().sync_all()?;
    if fs::read(&real)? != read {
        return Err(NotSaved::Changed);
    }
    new.persist(&real).map_err(|error| error.error)?;
    Ok(())
}

/// Writes a page that must not be there yet.
///
/// # Errors
/// [`NotSaved`] where it was not written: [`NotSaved::Changed`] where there is one by now.
pub fn create(path: &Path, page: &[u8]) -> Result<(), NotSaved> {
    create_all(&[(path, page)]).map_err(|(_, why)| why)
}

/// Writes pages that must not be there yet, all of them or none.
///
/// # Errors
/// The place of the page that could not be written, and [`NotSaved`] as for one.
pub fn create_all<'p>(pages: &[(&'p Path, &[u8])]) -> Result<(), (&'p Path, NotSaved)> {
    let staged = |path: &Path, page: &[u8]| {
        let mut new = beside(path, true)?;
        new.write_all(page)?;
        new.as_file().sync_all()?;
        Ok(new)
    };
    let mut all = Vec::new();
    for (path, page) in pages {
        all.push((*path, staged(path, page).map_err(|error: io::Error| (*path, error.into()))?));
    }
    let mut there: Vec<&Path> = Vec::new();
    for (path, new) in all {
        if let Err(error) = new.persist_noclobber(path) {
            // Pages of which one is missing are none.
            there.into_iter().for_each(|path| drop(fs::remove_file(path)));
            let there_by_now = error.error.kind() == io::ErrorKind::AlreadyExists;
            return Err((path, if there_by_now { NotSaved::Changed } else { error.error.into() }));
        }
        there.push(path);
    }
    Ok(())
}

/// Writes pages, all of them or none: those that were `read`, and new ones where nothing was.
///
/// # Errors
/// The place of the page that could not be written, and [`NotSaved`] as for one; what was written is taken back.
pub fn save_all<'p>(pages: &[(&'p Path, Option<&[u8]>, &[u8])]) -> Result<(), (&'p Path, NotSaved)> {
    for (at, (path, read, page)) in pages.iter().enumerate() {
        let saved = read.map_or_else(|| create(path, page), |read| save(path, read, page));
        if let Err(why) = saved {
            for (path, read, page) in pages.iter().take(at).rev() {
                match read {
                    Some(read) => drop(save(path, page, read)),
                    None => drop(fs::remove_file(path)),
                }
            }
            return Err((path, why));
        }
    }
    Ok(())
}

/// Writes a file piece by piece; one that is there already is replaced, and keeps its permissions.
///
/// # Errors
/// [`NotSaved`] where it was not written, or `fill` failed.
pub fn replace(path: &Path, fill: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> Result<(), NotSaved> {
    let known = fs::metadata(path).ok();
    if known.as_ref().is_some_and(|known| known.permissions().readonly()) {
        return Err(NotSaved::ReadOnly);
    }
    let real = if known.is_some() { path.canonicalize()? } else { std::path::absolute(path)? };
    if let Some(folder) = real.parent().filter(|folder| !folder.is_dir()) {
        let why = format!("there is no folder {}; make it first", folder.display());
        return Err(NotSaved::System(io::Error::new(io::ErrorKind::NotFound, why)));
    }
    let mut new = io::BufWriter::new(beside(&real, known.is_none())?);
    fill(&mut new)?;
    let new = new.into_inner().map_err(io::IntoInnerError::into_error)?;
    if let Some(known) = known {
        like(new.as_file(), &known)?;
    }
    new.as_file().sync_all()?;
    new.persist(&real).map_err(|error| error.error)?;
    Ok(())
}

/// A file beside a page, hidden, so that whoever reads the journal meanwhile takes it for no page. A new page is one
/// that others may read where the system lets them, as an editor would make it.
fn beside(path: &Path, is_new: bool) -> io::Result<tempfile::NamedTempFile> {
    let folder = path.parent().ok_or_else(|| io::Error::from(io::ErrorKind::NotFound))?;
    let mut builder = tempfile::Builder::new();
    builder.prefix(".loadline-").suffix(".tmp");
    #[cfg(unix)]
    if is_new {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    #[cfg(not(unix))]
    let _ = is_new;
    builder.tempfile_in(folder)
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
mod tests {
    use super::{NotSaved, create, save, save_all};
    use std::fs;

    /// What a folder holds.
    fn names(folder: &std::path::Path) -> Vec<String> {
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

    #[test]
    fn a_page_is_written_whole_and_nothing_is_left_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let page = folder.path().join("page.md");
        create(&page, b"one\n").unwrap();
        save(&page, b"one\n", b"one\ntwo\n").unwrap();
        assert_eq!(fs::read(&page).unwrap(), b"one\ntwo\n");
        assert_eq!(names(folder.path()), ["page.md"]);
    }

    #[test]
    fn of_several_pages_all_are_written_or_none() {
        let folder = tempfile::tempdir().unwrap();
        let [new, old, other] = ["new.md", "old.md", "other.md"].map(|name| folder.path().join(name));
        fs::write(&old, "old\n").unwrap();
        fs::write(&other, "by somebody else\n").unwrap();
        let pages = |read: &'static [u8]| -> [(&std::path::Path, Option<&[u8]>, &[u8]); 3] {
            [(&new, None, b"1\n"), (&old, Some(b"old\n"), b"2\n"), (&other, Some(read), b"3\n")]
        };
        assert!(matches!(save_all(&pages(b"as it was read\n")), Err((path, NotSaved::Changed)) if path == other));
        assert_eq!(
            (names(folder.path()), fs::read(&old).unwrap()),
            (vec!["old.md".into(), "other.md".into()], b"old\n".to_vec())
        );
        save_all(&pages(b"by somebody else\n")).unwrap();
        assert_eq!(fs::read(&other).unwrap(), b"3\n");
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
