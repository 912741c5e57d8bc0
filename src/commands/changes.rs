//! `changes`

use super::desk::{Desk, left_out, today};
use super::options::{Format, Options};
use super::outcome::{Failure, Reply};
use crate::history::History;
use crate::journal::{Commit, Files, Journal, Lifter, Memory, NoGit, Repository, SETTINGS_FILE, open};
use crate::meaning;
use crate::present::envelope::{Envelope, json};
use crate::present::{view, wording};
use crate::questions::changes::{Answer, OfLifter, State, answer};
use crate::training::{fold, show_in};
use clap::Args;
use std::path::Path;

/// Say what changed in training since a commit
///
/// Holds two states of the journal against each other: sessions added, removed and altered, with the sets, plans and
/// facts that were and are; blocks altered; records set and taken back. Pages renamed, sessions moved to another
/// page, other spellings, cues, warm-ups and prose change nothing here; `git diff` shows those. A lift that only has another name now is told in one line.
///
/// REV is a commit that git knows, such as HEAD~3 or a tag, and is held against the work tree with its new pages.
/// A..B are two commits; A...B is B against the last commit that it has in common with A. Git is only asked: nothing
/// is written.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # what is not committed yet
  loadline changes
  # one line a lifter
  loadline changes HEAD~1 --summary
  # what the last commit brought, for one lifter
  loadline changes HEAD~1..HEAD --lifter nerys")]
pub(crate) struct Changes {
    /// A commit, or two of them
    #[arg(value_name = "REV|REV..REV", default_value = "HEAD")]
    range: String,
    /// One line a lifter, with how much changed
    #[arg(long)]
    summary: bool,
}

/// What is held against what.
enum Range<'a> {
    /// A commit, and the work tree.
    Since(&'a str),
    /// Two commits.
    Between(&'a str, &'a str),
    /// The last common ancestor of two, and the second of them.
    FromAncestor(&'a str, &'a str),
}

impl<'a> Range<'a> {
    /// As git reads a range: an end that is not written is HEAD.
    fn of(text: &'a str) -> Self {
        let end = |name: &'a str| if name.is_empty() { "HEAD" } else { name };
        if let Some((one, other)) = text.split_once("...") {
            Range::FromAncestor(end(one), end(other))
        } else if let Some((one, other)) = text.split_once("..") {
            Range::Between(end(one), end(other))
        } else {
            Range::Since(text)
        }
    }
}

/// A state of the journal as it was read: its files, what it was called, and the commit.
type Read = (Memory, Option<String>, Option<String>);

/// A state of the journal, opened.
struct Opened {
    /// Pages that one of the two states could not read.
    unread: Vec<String>,
    state: State,
    files: Memory,
    journal: Journal,
}

impl Changes {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let repository = repository(options)?;
        let (from, to) = self.states(&repository)?;
        let unread = from.unread.clone();
        if !from.state.journal && !to.state.journal {
            let words =
                "there is no journal here in either state; if git ignores this folder, take it out of .gitignore";
            return Err(Failure(words.into()));
        }
        let pairs = pairs(from.lifters(options)?, to.lifters(options)?);
        if let (Some(name), true) = (options.one_lifter()?, pairs.is_empty()) {
            return Err(Failure(format!("no lifter is called `{name}`, neither before nor after")));
        }
        let (mut lifters, mut nowhere): (Vec<OfLifter>, [u32; 2]) = (Vec::new(), [0, 0]);
        for (was, is) in pairs {
            let [before, after] = [(&from, was), (&to, is)].map(|(opened, lifter)| {
                lifter.map(|lifter| {
                    let pages = opened.journal.pages_of(lifter);
                    (meaning::read(&opened.files, lifter, pages, None), lifter)
                })
            });
            let history = |read: &Option<(meaning::Reading, &Lifter)>| read.as_ref().map(|(read, _)| read.log.left_out);
            nowhere = [nowhere[0] + history(&before).unwrap_or(0), nowhere[1] + history(&after).unwrap_or(0)];
            let [before, after] = [&before, &after]
                .map(|read| read.as_ref().map(|(read, lifter)| History::new(&read.log, &lifter.book, today(options))));
            for units in [was, is].into_iter().flatten().map(|lifter| lifter.units) {
                show_in(units);
            }
            lifters.push(answer(before.as_ref(), after.as_ref()));
        }
        let answer = Answer { from: from.state.clone(), to: to.state.clone(), lifters };
        let out = match options.format {
            Format::Json => {
                let one = options.lifter.first().and_then(|_| answer.lifters.first());
                let lifter = one.and_then(|one| one.lifter.as_deref());
                let (today, left_out) = (today(options), nowhere[1]);
                json(&Envelope { lifter, today, left_out, unread_pages: &unread, answer: &answer })
            }
            Format::Text => options.shown(&view::changes::show(&answer, self.summary)),
        };
        let err = match options.format {
            Format::Json => String::new(),
            Format::Text => {
                let states = [&from, &to];
                let lines = states.iter().zip(nowhere).map(|(opened, lines)| opened.left_out(lines));
                std::iter::once(left_out(0, 0, &unread)).chain(lines).collect()
            }
        };
        Ok(Reply::answered(out, err))
    }

    fn states(&self, repository: &Repository) -> Result<(Opened, Opened), Failure> {
        let at = |revision: Option<&str>, commit: &Commit| -> Result<Read, Failure> {
            let files = repository.files_at(commit)?;
            Ok((files, revision.map(str::to_owned), Some(commit.name().to_owned())))
        };
        let named = |revision: &str| at(Some(revision), &repository.commit(revision)?);
        let (mut from, mut to) = match Range::of(&self.range) {
            Range::Since(one) => (named(one)?, (repository.work_tree()?, None, None)),
            Range::Between(one, other) => (named(one)?, named(other)?),
            Range::FromAncestor(one, other) => {
                let ancestor = repository.common_ancestor(&repository.commit(one)?, &repository.commit(other)?)?;
                (at(None, &ancestor)?, named(other)?)
            }
        };
        // What one state could not read is in neither: else its sessions would be told as added or removed.
        let mut unread = [from.0.unread(), to.0.unread()].concat();
        unread.sort_unstable();
        unread.dedup();
        from.0.without(&unread);
        to.0.without(&unread);
        Ok((Opened::of(from, &unread), Opened::of(to, &unread)))
    }
}

impl Opened {
    fn of((files, revision, commit): Read, unread: &[String]) -> Self {
        let journal = files.read(SETTINGS_FILE).is_ok();
        let state = State { revision, commit, journal };
        Opened { state, journal: open(&files), files, unread: unread.to_vec() }
    }

    /// The lifters, or the one who was asked for, where there is one of that name.
    fn lifters(&self, options: &Options) -> Result<Vec<&Lifter>, Failure> {
        match options.one_lifter()? {
            _ if !self.state.journal => Ok(Vec::new()),
            None => Ok(self.journal.lifters.iter().collect()),
            Some(name) => Ok(self.journal.lifter(Some(name), None).into_iter().collect()),
        }
    }

    /// Says how much of this state is missing from the answer.
    fn left_out(&self, lines: u32) -> String {
        if lines == 0 {
            return String::new();
        }
        let verb = if lines == 1 { "has an error and counts" } else { "have errors and count" };
        let (lines, of) = (wording::count(lines, "line"), wording::state(&self.state));
        crate::present::sanitize(&format!("loadline: {lines} of {of} {verb} nowhere")).into_owned() + "\n"
    }
}

/// The repository of the journal that is meant. In a bare one there is no journal to find, which is no answer.
fn repository(options: &Options) -> Result<Repository, Failure> {
    match Desk::root(options) {
        Ok(root) => Ok(Repository::of(&root.canonicalize().unwrap_or(root))?),
        Err(failure) => {
            let folder = options.journal.as_deref().unwrap_or(Path::new("."));
            let folder = folder.canonicalize().unwrap_or_else(|_| folder.to_owned());
            match Repository::of(&folder) {
                Err(bare @ NoGit::Bare(_)) => Err(bare.into()),
                _ => Err(failure),
            }
        }
    }
}

/// Who of the one state is who of the other: by name and folder, else by name, else by folder.
fn pairs<'a>(was: Vec<&'a Lifter>, is: Vec<&'a Lifter>) -> Vec<(Option<&'a Lifter>, Option<&'a Lifter>)> {
    let name = |lifter: &Lifter| lifter.name.as_deref().map(fold);
    let same_name = |one: &Lifter, other: &Lifter| name(one) == name(other);
    let same_folder = |one: &Lifter, other: &Lifter| one.folder == other.folder;
    // Which of the two must agree, the surest first.
    let rules = [(true, true), (true, false), (false, true)];
    let mut was: Vec<Option<&Lifter>> = was.into_iter().map(Some).collect();
    let mut pairs: Vec<(Option<&Lifter>, Option<&Lifter>)> =
        is.into_iter().map(|lifter| (None, Some(lifter))).collect();
    for (by_name, by_folder) in rules {
        let same = |one: &Lifter, other: &Lifter| {
            (!by_name || same_name(one, other)) && (!by_folder || same_folder(one, other))
        };
        for (before, after) in pairs.iter_mut().filter(|(before, _)| before.is_none()) {
            let Some(after) = after else { continue };
            let found = was.iter_mut().find(|one| one.is_some_and(|one| same(one, after)));
            *before = found.and_then(Option::take);
        }
    }
    pairs.extend(was.into_iter().flatten().map(|gone| (Some(gone), None)));
    pairs
}

impl From<NoGit> for Failure {
    fn from(why: NoGit) -> Self {
        Failure(match why {
            NoGit::NotInstalled => "git is not there to be asked; install it, or put it on the PATH".into(),
            NoGit::NoRepository(folder) => {
                format!("{} is in no git repository; `git init` there begins one", folder.display())
            }
            NoGit::Bare(folder) => {
                format!("{} is a bare repository, without pages to read; clone it and ask there", folder.display())
            }
            NoGit::NotInWorkTree(folder) => {
                format!("{} is not in the repository's work tree; ask where the pages are", folder.display())
            }
            NoGit::NoCommit => "there is no commit yet; `git add .` and `git commit` make the first".into(),
            NoGit::LikeAnOption(name) => format!("`{name}` is no revision: none begins with a dash"),
            NoGit::Unknown(name) => {
                format!("git knows no commit `{name}`; `git log --oneline` and `git tag` list those there are")
            }
            NoGit::Unrelated(one, other) => {
                format!("{one} and {other} have no commit in common; write two dots to hold them against each other")
            }
            NoGit::Said(words) => format!("git does not answer: {words}"),
        })
    }
}
