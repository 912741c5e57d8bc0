//! `--watch`: answers again each time a page or the settings are saved.

pub(super) mod kept_desk;

use super::outcome::{Failure, Reply};
use crate::journal::is_read;
use kept_desk::KeptDesk;
use notify::{Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher};
use std::io::IsTerminal;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// Saving is several events: a file emptied and filled, or another one put in its place. It is over when none comes
/// for so long.
const QUIET: Duration = Duration::from_millis(5);

/// Who saves without end is answered all the same.
const PATIENCE: Duration = Duration::from_millis(60);

/// The replies of the program.
pub enum Replies {
    /// One.
    One(Option<Reply>),
    /// One, and then one after each save that changes it.
    Watching(Box<Watching>),
}

/// A program that goes on answering.
pub struct Watching {
    again: Box<dyn Fn() -> Reply>,
    kept: KeptDesk,
    watch: Watch,
    /// The first answer, until it is given.
    first: Option<Reply>,
    last: Reply,
}

impl Replies {
    pub(super) fn watching(root: Result<PathBuf, Failure>, kept: KeptDesk, again: Box<dyn Fn() -> Reply>) -> Replies {
        let watch = root.and_then(|root| Watch::of(&root));
        match watch {
            Ok(watch) => {
                let last = again();
                // Who cannot be answered at first has mostly mistyped a name, and is not kept waiting.
                if last.status == 2 {
                    return Replies::One(Some(last));
                }
                Replies::Watching(Box::new(Watching { again, kept, watch, first: Some(last.clone()), last }))
            }
            Err(failure) => Replies::One(Some(Reply::of_failure(failure))),
        }
    }
}

impl Iterator for Replies {
    type Item = Reply;

    fn next(&mut self) -> Option<Reply> {
        match self {
            Replies::One(reply) => reply.take(),
            Replies::Watching(watching) => watching.next_change(),
        }
    }
}

impl Watching {
    /// The first answer, and then each that differs from the one before.
    fn next_change(&mut self) -> Option<Reply> {
        if let Some(first) = self.first.take() {
            return Some(one_of_many(first, true));
        }
        while self.watch.wait(&self.kept) {
            let reply = (self.again)();
            if self.last != reply {
                self.last = reply.clone();
                return Some(one_of_many(reply, false));
            }
        }
        None
    }
}

/// On a terminal an answer takes the place of the last one; else it stands below it.
fn one_of_many(reply: Reply, first: bool) -> Reply {
    let Reply { out, err, status, .. } = reply;
    let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
    if std::io::stdout().is_terminal() && !dumb {
        let hint = "Answers again when a page is saved; Ctrl-C ends.";
        let out = format!("\x1b[H\x1b[2J\x1b[3J{out}{err}\n{hint}\n");
        return Reply { out, status, followed: true, ..Reply::default() };
    }
    let apart = if first { "" } else { "\n" };
    Reply { out: format!("{apart}{out}"), err, status, followed: true, ..Reply::default() }
}

/// A journal that is watched.
struct Watch {
    root: PathBuf,
    events: Receiver<notify::Result<Event>>,
    /// It watches as long as it is kept.
    _watcher: RecommendedWatcher,
}

impl Watch {
    /// Begins to watch a journal.
    fn of(root: &Path) -> Result<Watch, Failure> {
        // The system names what changed by its true place.
        let root = root.canonicalize().unwrap_or_else(|_| root.to_path_buf());
        let failed = |error: notify::Error| Failure(format!("{} cannot be watched: {error}", root.display()));
        let (sender, events) = channel();
        let mut watcher = notify::recommended_watcher(sender).map_err(failed)?;
        watcher.watch(&root, RecursiveMode::Recursive).map_err(failed)?;
        Ok(Watch { root, events, _watcher: watcher })
    }

    /// Waits until something that an answer rests on is saved; false where nothing can be any more. What is kept learns of
    /// everything that changes meanwhile.
    fn wait(&self, kept: &KeptDesk) -> bool {
        loop {
            match self.events.recv() {
                Ok(event) if self.counts(&event, kept) => break,
                Ok(_) => {}
                Err(_) => return false,
            }
        }
        let begun = Instant::now();
        while begun.elapsed() < PATIENCE
            && let Ok(event) = self.events.recv_timeout(QUIET)
        {
            self.counts(&event, kept);
        }
        true
    }

    /// Whether an answer could be another one after this. Reading is an event too, and must not be answered.
    fn counts(&self, event: &notify::Result<Event>, kept: &KeptDesk) -> bool {
        // Events that were lost may have been anything.
        let Some(event) = event.as_ref().ok().filter(|event| !event.need_rescan()) else {
            kept.touched(None);
            return true;
        };
        if !matches!(event.kind, EventKind::Create(_) | EventKind::Modify(_) | EventKind::Remove(_)) {
            return false;
        }
        let mut counts = false;
        for path in event.paths.iter().filter_map(|path| path.strip_prefix(&self.root).ok()) {
            let is_hidden = |path: &str| path.split(['/', '\\']).any(|part| part.starts_with('.'));
            let name = path.to_str().map(|path| path.replace('\\', "/"));
            if name.as_deref().is_none_or(|name| !is_hidden(name)) {
                kept.touched(name.as_deref());
            }
            counts |= is_read(path);
        }
        counts
    }
}
