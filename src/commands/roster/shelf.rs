//! The folder in which answers are kept that can be worked out again: outside the journal, and whatever is wrong with it,
//! as if it were empty.

use crate::journal::Digest;
use std::env;
use std::fs::{self, DirBuilder, DirEntry, File};
use std::io::{self, Write};
use std::path::{Component, Path, PathBuf};
use std::time::SystemTime;

/// The folder.
pub(super) struct Shelf {
    folder: PathBuf,
}

/// So many answers are kept, the last that were written: a day of each is asked for, mostly one day.
const KEPT: usize = 16;
/// Each is held to be whole by whoever finds its sum on the first line.
const BEGIN: &str = "roster-";
const END: &str = ".json";
/// One that is being written.
const PART: &str = ".part";
/// Who writes holds a lock on this file.
const LOCK: &str = "lock";

impl Shelf {
    /// The folder that the environment names; nothing where that is none, or lies in the journal.
    pub(super) fn outside(root: &Path) -> Option<Shelf> {
        let folder = real(&named(|name| env::var_os(name).filter(|value| !value.is_empty()))?)?;
        (!folder.starts_with(root.canonicalize().ok()?)).then_some(Shelf { folder })
    }

    /// Where the answer lies that such things are asked for.
    fn place(&self, asked: [u64; 2]) -> PathBuf {
        self.folder.join(format!("{BEGIN}{:016x}{:016x}{END}", asked[0], asked[1]))
    }

    /// What was written there, whole.
    pub(super) fn read(&self, asked: [u64; 2]) -> Option<String> {
        let place = self.place(asked);
        // A pipe would be waited for.
        if !fs::metadata(&place).ok()?.is_file() {
            return None;
        }
        let mut text = fs::read_to_string(place).ok()?;
        let body = text.split_off(text.find('\n')? + 1);
        (text.trim_end() == sum(&body)).then_some(body)
    }

    /// Writes it whole. Where another process writes, or anything else is in the way, nothing is written: the answer is
    /// worked out again then.
    pub(super) fn write(&self, asked: [u64; 2], body: &str) {
        let _ = self.written(asked, body);
    }

    fn written(&self, asked: [u64; 2], body: &str) -> io::Result<()> {
        let mut folders = DirBuilder::new();
        folders.recursive(true);
        #[cfg(unix)]
        {
            use std::os::unix::fs::DirBuilderExt;
            folders.mode(0o700);
        }
        folders.create(&self.folder)?;
        let lock = File::options().create(true).append(true).open(self.folder.join(LOCK))?;
        lock.try_lock()?;
        self.sweep()?;
        let mut part = tempfile::Builder::new().prefix(BEGIN).suffix(PART).tempfile_in(&self.folder)?;
        writeln!(part, "{}", sum(body))?;
        part.write_all(body.as_bytes())?;
        part.persist(self.place(asked))?;
        Ok(())
    }

    /// Takes away what killed runs left, for whoever still writes would hold the lock; and the oldest answers, so that
    /// there is room for one.
    fn sweep(&self) -> io::Result<()> {
        let entries: Vec<DirEntry> = fs::read_dir(&self.folder)?.collect::<Result<_, _>>()?;
        let mut whole: Vec<(SystemTime, PathBuf)> = Vec::new();
        for entry in entries {
            let (name, place) = (entry.file_name().to_string_lossy().into_owned(), entry.path());
            let Some(inner) = name.strip_prefix(BEGIN) else { continue };
            if inner.ends_with(PART) {
                fs::remove_file(place)?;
            } else if inner.strip_suffix(END).is_some_and(|sum| sum.len() == 32) {
                whole.push((entry.metadata()?.modified()?, place));
            }
        }
        whole.sort();
        for (_, place) in whole.iter().rev().skip(KEPT - 1) {
            fs::remove_file(place)?;
        }
        Ok(())
    }
}

/// The folder that such variables name. Paths in `XDG_CACHE_HOME` that begin nowhere are left out, as the XDG Base Directory
/// Specification wants it (from memory, high confidence).
fn named(variable: impl Fn(&str) -> Option<std::ffi::OsString>) -> Option<PathBuf> {
    let whole = |name: &str| variable(name).map(PathBuf::from).filter(|path| path.is_absolute());
    match variable("LOADLINE_CACHE") {
        Some(word) if word == "off" => None,
        Some(folder) => Some(folder.into()),
        None => {
            let caches = whole("XDG_CACHE_HOME").or_else(|| Some(whole("HOME")?.join(".cache")));
            Some(caches?.join("loadline"))
        }
    }
}

/// A folder that need not be there yet, with its links followed.
fn real(folder: &Path) -> Option<PathBuf> {
    let folder = std::path::absolute(folder).ok()?;
    let (there, real) = folder.ancestors().find_map(|above| Some((above, above.canonicalize().ok()?)))?;
    let rest = folder.strip_prefix(there).ok()?;
    let plain = rest.components().all(|part| matches!(part, Component::Normal(_)));
    plain.then(|| real.join(rest))
}

fn sum(body: &str) -> String {
    let [one, other] = Digest::of(body);
    format!("{one:016x}{other:016x}")
}

#[cfg(test)]
mod tests {
    use super::{KEPT, Shelf, named};
    use std::fs::{self, File};
    use std::path::{Path, PathBuf};

    fn names(folder: &Path) -> Vec<String> {
        let names = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
        names.collect()
    }

    #[test]
    fn the_environment_names_the_folder() {
        let named = |pairs: &[(&str, &str)]| {
            named(|name| pairs.iter().find(|(one, _)| *one == name).map(|(_, value)| value.into()))
        };
        let home = ("HOME", "/home/ada");
        assert_eq!(named(&[home]), Some(PathBuf::from("/home/ada/.cache/loadline")));
        assert_eq!(named(&[home, ("XDG_CACHE_HOME", "/caches")]), Some(PathBuf::from("/caches/loadline")));
        assert_eq!(named(&[home, ("XDG_CACHE_HOME", "caches")]), Some(PathBuf::from("/home/ada/.cache/loadline")));
        assert_eq!(named(&[home, ("LOADLINE_CACHE", "/here")]), Some(PathBuf::from("/here")));
        assert_eq!(named(&[home, ("LOADLINE_CACHE", "off")]), None);
        assert_eq!(named(&[]), None);
    }

    #[test]
    fn what_is_not_whole_is_not_there() {
        let folder = tempfile::tempdir().unwrap();
        let shelf = Shelf { folder: folder.path().join("a/b") };
        assert_eq!(shelf.read([1, 2]), None);
        shelf.write([1, 2], "an answer\nof two lines\n");
        assert_eq!(shelf.read([1, 2]).as_deref(), Some("an answer\nof two lines\n"));
        assert_eq!(shelf.read([2, 1]), None);
        let whole = fs::read(shelf.place([1, 2])).unwrap();
        for length in 0..whole.len() {
            fs::write(shelf.place([1, 2]), &whole[..length]).unwrap();
            assert_eq!(shelf.read([1, 2]), None, "cut to {length}");
            let mut other = whole.clone();
            other[length] ^= 4;
            fs::write(shelf.place([1, 2]), other).unwrap();
            assert_eq!(shelf.read([1, 2]), None, "another byte at {length}");
        }
        shelf.write([1, 2], "anew\n");
        assert_eq!(shelf.read([1, 2]).as_deref(), Some("anew\n"));
    }

    #[test]
    fn who_finds_another_writing_writes_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let shelf = Shelf { folder: folder.path().into() };
        shelf.write([1, 1], "one\n");
        let lock = File::options().append(true).open(folder.path().join("lock")).unwrap();
        lock.lock().unwrap();
        shelf.write([1, 1], "two\n");
        assert_eq!(shelf.read([1, 1]).as_deref(), Some("one\n"));
        drop(lock);
        shelf.write([1, 1], "two\n");
        assert_eq!(shelf.read([1, 1]).as_deref(), Some("two\n"));
    }

    #[test]
    fn old_answers_and_pieces_go_and_nothing_else_does() {
        let folder = tempfile::tempdir().unwrap();
        let shelf = Shelf { folder: folder.path().into() };
        for strange in ["notes.txt", "roster-of-june.json", "page.md", "x.part"] {
            fs::write(folder.path().join(strange), "mine").unwrap();
        }
        fs::write(folder.path().join("roster-Ab12.part"), "half of").unwrap();
        for nth in 0..40 {
            shelf.write([nth, 0], "an answer\n");
        }
        let names = names(folder.path());
        assert_eq!(names.len(), 4 + 1 + KEPT, "{names:?}");
        assert!(!names.contains(&"roster-Ab12.part".into()));
        assert!(shelf.read([39, 0]).is_some() && shelf.read([38, 0]).is_some());
    }
}
