//! Pages that are read once and kept: where one of them changes, that one is read anew, and put into the log of all.

use super::context::Context;
use super::join::{Mode, Reading, Whole};
use super::page_log::{PageLog, own_lifts};
use super::read::one;
use crate::journal::{Files, Lifter};
use crate::training::on_every_core;
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashMap, HashSet};
use std::sync::Arc;

/// What the pages of a lifter say, page by page and together. It holds for one state of the settings.
#[derive(Debug, Default)]
pub struct Kept {
    pages: HashMap<String, Arc<PageLog>>,
    /// Pages whose loose lines name lifts that only the journal has, read with these lifts in mind.
    with_others: HashMap<String, Arc<PageLog>>,
    others: BTreeMap<String, String>,
    paths: Vec<String>,
    whole: Option<Whole>,
}

impl Kept {
    /// A page is another one now, or gone.
    pub fn forget(&mut self, path: &str) {
        self.pages.remove(path);
        self.with_others.remove(path);
    }

    /// What was read last.
    pub fn reading(&self) -> Option<&Reading> {
        self.whole.as_ref().map(|whole| &*whole.reading)
    }

    /// Reads the pages that are not kept, and joins them to the others: the same as [`read`](super::read()) gives of all.
    /// The next reading is dear where this one is still held then.
    pub fn read(
        &mut self,
        files: &dyn Files,
        lifter: &Lifter,
        paths: Vec<String>,
        check_on: Option<NaiveDate>,
    ) -> Arc<Reading> {
        if self.whole.as_ref().is_some_and(|whole| whole.check_on != check_on) {
            *self = Kept::default();
        }
        if self.paths != paths {
            let stays: HashSet<&String> = paths.iter().collect();
            self.pages.retain(|path, _| stays.contains(path));
            self.with_others.retain(|path, _| stays.contains(path));
        }
        let context = Context { today: check_on, ..Context::of(lifter, check_on.is_some()) };
        let missing = paths.iter().filter(|path| !self.pages.contains_key(*path)).collect();
        add(files, &context, missing, &mut self.pages);
        let waits = |path: &&String| self.pages.get(*path).is_some_and(|page| page.waits);
        let waiting: Vec<&String> = paths.iter().filter(waits).collect();
        if !waiting.is_empty() {
            let others = own_lifts(paths.iter().filter_map(|path| self.pages.get(path)).map(|page| &**page));
            if others != self.others {
                self.with_others.clear();
                self.others = others;
            }
        }
        if !self.others.is_empty() {
            let context = Context { others: &self.others, ..context };
            let missing = waiting.into_iter().filter(|path| !self.with_others.contains_key(*path)).collect();
            add(files, &context, missing, &mut self.with_others);
        }
        let as_before = self.whole.take().filter(|whole| whole.check_on == check_on && self.paths == paths);
        let mut whole = as_before.unwrap_or_else(|| Whole::new(lifter, paths.clone(), check_on, Mode::Kept));
        let changed = paths.iter().zip(&whole.pages).enumerate().filter_map(|(at, (path, known))| {
            let first = self.pages.get(path)?;
            let again = self.with_others.get(path).filter(|_| first.waits && !self.others.is_empty());
            let page = again.unwrap_or(first);
            (!Arc::ptr_eq(page, known)).then(|| (at, Arc::clone(page)))
        });
        let changed: Vec<_> = changed.collect();
        whole.join(lifter, changed);
        self.paths = paths;
        Arc::clone(&self.whole.insert(whole).reading)
    }
}

/// Reads pages side by side, and keeps what they say.
fn add(files: &dyn Files, context: &Context<'_>, paths: Vec<&String>, kept: &mut HashMap<String, Arc<PageLog>>) {
    let read = on_every_core(paths.len(), |at| {
        let path = paths.get(at)?;
        Some(((*path).clone(), Arc::new(one(files, context, path))))
    });
    kept.extend(read.into_iter().flatten());
}
