//! Pages that are read once and kept: where one of them changes, that one is read anew, and all are joined.

use super::context::Context;
use super::drafts::PageLog;
use super::read::{Reading, joined, one, own_lifts};
use crate::journal::{Files, Lifter};
use crate::training::on_every_core;
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashMap};

/// What the pages of a lifter say, page by page. It holds for one state of the settings.
#[derive(Debug, Default)]
pub struct Kept {
    pages: HashMap<String, PageLog>,
    /// Pages whose loose lines name lifts that only the journal has, read with these lifts in mind.
    with_others: HashMap<String, PageLog>,
    others: BTreeMap<String, String>,
}

impl Kept {
    /// A page is another one now, or gone.
    pub fn forget(&mut self, path: &str) {
        self.pages.remove(path);
        self.with_others.remove(path);
    }

    /// Reads the pages that are not kept, and joins all: the same as [`read`](super::read()) gives of them.
    pub fn read(
        &mut self,
        files: &dyn Files,
        lifter: &Lifter,
        paths: Vec<String>,
        check_on: Option<NaiveDate>,
    ) -> Reading {
        let context = Context::of(lifter, check_on.is_some());
        let missing = paths.iter().filter(|path| !self.pages.contains_key(*path)).collect();
        add(files, &context, missing, &mut self.pages);
        let kept = || paths.iter().filter_map(|path| self.pages.get(path));
        let waiting: Vec<&String> =
            paths.iter().filter(|path| self.pages.get(*path).is_some_and(|page| page.waits)).collect();
        if !waiting.is_empty() {
            let others = own_lifts(kept());
            if others != self.others {
                self.with_others.clear();
                self.others = others;
            }
        }
        if !self.others.is_empty() {
            let context = Context { others: &self.others, ..context };
            let missing = waiting.iter().copied().filter(|path| !self.with_others.contains_key(*path)).collect();
            add(files, &context, missing, &mut self.with_others);
        }
        let page = |path: &String| {
            let first = self.pages.get(path)?;
            let again = self.with_others.get(path).filter(|_| first.waits && !self.others.is_empty());
            Some(again.unwrap_or(first).clone())
        };
        let pages = paths.iter().filter_map(page).collect();
        joined(lifter, paths, pages, check_on).into()
    }
}

/// Reads pages side by side, and keeps what they say.
fn add(files: &dyn Files, context: &Context<'_>, paths: Vec<&String>, kept: &mut HashMap<String, PageLog>) {
    let read = on_every_core(paths.len(), |at| paths.get(at).map(|path| ((*path).clone(), one(files, context, path))));
    kept.extend(read.into_iter().flatten());
}
