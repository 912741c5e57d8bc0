//! A journal as version control has it: the files of a commit, and those of the work tree that git does not ignore. Git is
//! only asked: nothing is written, fetched or configured, and no hook or helper of the repository runs.

use super::files::is_page;
use super::lifters::folder_of;
use super::{Memory, SETTINGS_FILE};
use std::ffi::OsStr;
use std::io::{self, Write};
use std::path::{Component, Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::thread;
use walkdir::WalkDir;

/// The repository that a journal's folder stands in.
#[derive(Clone, Debug)]
pub struct Repository {
    folder: PathBuf,
    /// The folder below the top of the work tree, with a `/` at its end; empty for the top itself.
    prefix: String,
}

/// A commit's full name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Commit(String);

/// Why git has no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoGit {
    /// There is no `git` to ask.
    NotInstalled,
    /// The folder is in no repository.
    NoRepository(PathBuf),
    /// The repository has no work tree.
    Bare(PathBuf),
    /// The folder is in a repository but not in its work tree.
    NotInWorkTree(PathBuf),
    /// Nothing was committed yet.
    NoCommit,
    /// Something that would be taken for an option.
    LikeAnOption(String),
    /// No commit of that name.
    Unknown(String),
    /// Two commits without a common ancestor.
    Unrelated(String, String),
    /// Anything else, in git's words.
    Said(String),
}

impl Commit {
    /// The first seven letters, as people name it.
    pub fn short(&self) -> &str {
        self.0.get(..7).unwrap_or(&self.0)
    }

    /// All of it.
    pub fn name(&self) -> &str {
        &self.0
    }
}

impl Repository {
    /// The repository of a folder.
    ///
    /// # Errors
    /// [`NoGit`] where there is none, or it has no work tree that holds the folder.
    pub fn of(folder: &Path) -> Result<Self, NoGit> {
        let mut found = Repository { folder: folder.to_owned(), prefix: String::new() };
        let asked = found.ask(["rev-parse", "--is-bare-repository", "--is-inside-work-tree", "--show-prefix"])?;
        let said = text(&asked.stderr);
        if !asked.status.success() {
            return Err(match said.contains("not a git repository") {
                true => NoGit::NoRepository(folder.to_owned()),
                false => NoGit::Said(first_line(&said)),
            });
        }
        let out = text(&asked.stdout);
        let mut lines = out.splitn(3, '\n');
        match (lines.next(), lines.next()) {
            (_, Some("true")) => {}
            (Some("true"), _) => return Err(NoGit::Bare(folder.to_owned())),
            _ => return Err(NoGit::NotInWorkTree(folder.to_owned())),
        }
        let prefix = lines.next().unwrap_or_default();
        prefix.strip_suffix('\n').unwrap_or(prefix).clone_into(&mut found.prefix);
        Ok(found)
    }

    /// The commit of a name such as `HEAD~3`, `main` or `2026-03`.
    ///
    /// # Errors
    /// [`NoGit`] where git knows none of that name.
    pub fn commit(&self, revision: &str) -> Result<Commit, NoGit> {
        if revision.starts_with('-') {
            return Err(NoGit::LikeAnOption(revision.to_owned()));
        }
        let wanted = format!("{revision}^{{commit}}");
        let asked = self.ask(["rev-parse", "--verify", "--quiet", wanted.as_str()])?;
        let name = text(&asked.stdout).trim().to_owned();
        // `^HEAD` is known to git, but is all that is not there.
        match asked.status.success() && !name.is_empty() && name.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            true => Ok(Commit(name)),
            false if revision == "HEAD" => Err(NoGit::NoCommit),
            false => Err(NoGit::Unknown(revision.to_owned())),
        }
    }

    /// The last commit that two have in common.
    ///
    /// # Errors
    /// [`NoGit`] where there is none.
    pub fn common_ancestor(&self, one: &Commit, other: &Commit) -> Result<Commit, NoGit> {
        let asked = self.ask(["merge-base", one.name(), other.name()])?;
        let name = text(&asked.stdout).lines().next().unwrap_or_default().to_owned();
        match asked.status.success() && !name.is_empty() {
            true => Ok(Commit(name)),
            false => Err(NoGit::Unrelated(one.short().to_owned(), other.short().to_owned())),
        }
    }

    /// The journal's pages and settings as of a commit. Links are left out.
    ///
    /// # Errors
    /// [`NoGit`] where git cannot read them.
    pub fn files_at(&self, commit: &Commit) -> Result<Memory, NoGit> {
        let mut listing = vec!["ls-tree", "-r", "-z", "--full-tree", commit.name(), "--"];
        let below = self.prefix.trim_end_matches('/');
        if !below.is_empty() {
            listing.push(below);
        }
        let listed = self.answer(listing)?;
        let mut wanted: Vec<(String, String)> = Vec::new();
        let mut unread: Vec<String> = Vec::new();
        for entry in listed.split(|byte| *byte == 0) {
            let is_text = std::str::from_utf8(entry).is_ok();
            let entry = text(entry);
            let Some((about, path)) = entry.split_once('\t') else { continue };
            let mut about = about.split(' ');
            let (mode, object) = (about.next().unwrap_or_default(), about.nth(1).unwrap_or_default());
            let Some(path) = path.strip_prefix(&self.prefix).filter(|path| is_inside(path)) else { continue };
            match mode {
                "160000" if holds_pages(&self.folder.join(path)) => unread.push(path.to_owned()),
                _ if !mode.starts_with("100") || !is_read(path) => {}
                _ if is_text => wanted.push((path.to_owned(), object.to_owned())),
                _ => unread.push(path.to_owned()),
            }
        }
        let mut files = self.contents(&wanted)?;
        unread.iter().for_each(|path| files.lacks(path));
        Ok(files)
    }

    /// The pages and settings that stand in the journal's folder now, but for those that git ignores. Links are left out.
    ///
    /// # Errors
    /// [`NoGit`] where git cannot list them.
    pub fn work_tree(&self) -> Result<Memory, NoGit> {
        let listed = self.answer(["ls-files", "-z", "--cached", "--others", "--exclude-standard"])?;
        let mut files = Memory::default();
        for name in listed.split(|byte| *byte == 0) {
            let path = text(name).trim_end_matches('/').to_owned();
            let place = self.folder.join(&path);
            if !is_inside(&path) || self.is_behind_a_link(&path) {
                continue;
            }
            // A repository within this one has a history of its own.
            if place.is_dir() && !place.is_symlink() && holds_pages(&place) {
                files.lacks(&path);
            }
            if !is_read(&path) {
                continue;
            }
            let about = place.symlink_metadata();
            match about.is_ok_and(|about| about.is_file()).then(|| std::fs::read(&place)) {
                Some(Ok(bytes)) => files = files.with(&path, bytes),
                Some(Err(_)) => files.lacks(&path),
                None if std::str::from_utf8(name).is_err() => files.lacks(&path),
                None => {}
            }
        }
        Ok(files)
    }

    /// Whether a folder on the way to a file is a link. Git lists nothing behind one; an index that was forged may.
    fn is_behind_a_link(&self, path: &str) -> bool {
        let folders = path.match_indices('/').filter_map(|(at, _)| path.get(..at));
        folders.into_iter().any(|folder| self.folder.join(folder).is_symlink())
    }

    /// The contents of objects, each under its path.
    fn contents(&self, wanted: &[(String, String)]) -> Result<Memory, NoGit> {
        let mut child = self.git(["cat-file", "--batch"]).stdin(Stdio::piped()).spawn().map_err(not_started)?;
        let names: String = wanted.iter().map(|(_, object)| format!("{object}\n")).collect();
        let input = child.stdin.take();
        // Git answers while it is still asked: whoever does not listen meanwhile waits for ever.
        let asked = thread::scope(|scope| {
            scope.spawn(move || input.map(|mut input| input.write_all(names.as_bytes())));
            child.wait_with_output()
        });
        let asked = asked.map_err(|error| NoGit::Said(error.to_string()))?;
        let mut rest = asked.stdout.as_slice();
        let mut files = Memory::default();
        for (path, object) in wanted {
            let missing = || NoGit::Said(format!("{path} ({object}) is not in this repository"));
            let end = rest.iter().position(|byte| *byte == b'\n').ok_or_else(missing)?;
            let head = text(rest.get(..end).unwrap_or_default());
            let size = head.strip_prefix(object.as_str()).and_then(|head| head.strip_prefix(" blob "));
            let size: usize = size.and_then(|size| size.parse().ok()).ok_or_else(missing)?;
            let start = end + 1;
            files = files.with(path, rest.get(start..start + size).ok_or_else(missing)?);
            rest = rest.get(start + size + 1..).unwrap_or_default();
        }
        Ok(files)
    }

    /// What git prints; its words where it fails.
    fn answer<A: AsRef<OsStr>>(&self, arguments: impl IntoIterator<Item = A>) -> Result<Vec<u8>, NoGit> {
        let asked = self.ask(arguments)?;
        if asked.status.success() { Ok(asked.stdout) } else { Err(NoGit::Said(first_line(&text(&asked.stderr)))) }
    }

    fn ask<A: AsRef<OsStr>>(&self, arguments: impl IntoIterator<Item = A>) -> Result<Output, NoGit> {
        self.git(arguments).stdin(Stdio::null()).output().map_err(not_started)
    }

    fn git<A: AsRef<OsStr>>(&self, arguments: impl IntoIterator<Item = A>) -> Command {
        let mut git = Command::new("git");
        // Only the folder says which repository is meant, also where a hook of another one runs this program.
        for other in ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_COMMON_DIR", "GIT_NAMESPACE", "GIT_PREFIX"] {
            git.env_remove(other);
        }
        git.env("GIT_OPTIONAL_LOCKS", "0")
            .env("GIT_LITERAL_PATHSPECS", "1")
            .env("GIT_NO_LAZY_FETCH", "1")
            .env("GIT_TERMINAL_PROMPT", "0")
            .env("LC_ALL", "C")
            .args(["--no-pager", "-c", "core.fsmonitor=false", "-C"])
            .arg(&self.folder)
            .args(arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        git
    }
}

/// Whether a file of a journal is read at all.
fn is_read(path: &str) -> bool {
    path == SETTINGS_FILE || folder_of(path).is_some() || is_page(path)
}

/// Whether a path stays below the folder that it is below of. Git makes no other; a forged index or tree may.
fn is_inside(path: &str) -> bool {
    !path.is_empty() && Path::new(path).components().all(|part| matches!(part, Component::Normal(_)))
}

/// Whether a page stands in a folder, or below.
fn holds_pages(folder: &Path) -> bool {
    let files = WalkDir::new(folder).into_iter().filter_map(Result::ok);
    files.into_iter().any(|entry| entry.file_type().is_file() && is_page(&entry.file_name().to_string_lossy()))
}

fn not_started(error: io::Error) -> NoGit {
    match error.kind() {
        io::ErrorKind::NotFound => NoGit::NotInstalled,
        _ => NoGit::Said(error.to_string()),
    }
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn first_line(said: &str) -> String {
    let line = said.lines().next().unwrap_or("it says nothing");
    line.strip_prefix("fatal: ").unwrap_or(line).to_owned()
}
