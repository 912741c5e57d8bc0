//! The place of the cursor.

use crate::editor::scene::Scene;
use crate::editor::values::{Offer, OfferKind};
use crate::source::{Cut, Edit, Span};
use crate::training::{LiftId, Session, Work, fold};

/// The place, and what is typed of a word there.
pub(super) struct Spot<'a> {
    /// The line up to the cursor.
    pub(super) before: &'a str,
    /// The number of the line, from 1.
    pub(super) line: u32,
    /// Whether the line begins with a bullet.
    pub(super) has_bullet: bool,
    /// Whether a colon follows the word.
    pub(super) colon_follows: bool,
    /// What is typed of a name: all behind the bullet.
    name: &'a str,
    /// What is typed of a word: all behind the last blank or sign.
    word: &'a str,
    end: usize,
}

impl<'a> Spot<'a> {
    pub(super) fn of(scene: &'a Scene<'_>, offset: usize) -> Self {
        let text = scene.page.text();
        let line = scene.line_of(offset);
        let start = scene.span_of(line).start as usize;
        let before = text.cut(start..offset);
        let rest = text.tail(offset).lines().next().unwrap_or("");
        let bare = before.trim_start();
        let has_bullet = ["- ", "* ", "+ "].iter().any(|bullet| bare.starts_with(bullet));
        let behind = if has_bullet { bare.tail(2).trim_start() } else { bare };
        let name = behind.rsplit_once(':').map_or(behind, |(_, rest)| rest.trim_start());
        let at = name.rfind([' ', ',', '@', '!', '/', '#']).map_or(0, |at| at + 1);
        let word = name.get(at..).unwrap_or(name);
        Spot { before, line, has_bullet, colon_follows: rest.contains(':'), name, word, end: offset }
    }

    /// An offer in the place of what is typed of a word.
    pub(super) fn offer(&self, text: &str, kind: OfferKind) -> Offer {
        self.instead_of(self.word, text, kind)
    }

    /// The same in the place of what is typed of a name of several words.
    pub(super) fn named(&self, text: &str, kind: OfferKind) -> Offer {
        self.instead_of(self.name, text, kind)
    }

    /// A word by itself.
    pub(super) fn word(&self, text: &str, kind: OfferKind) -> Offer {
        self.offer(text, kind)
    }

    fn instead_of(&self, typed: &str, text: &str, kind: OfferKind) -> Offer {
        let edit = Edit::new(Span::new(self.end - typed.len(), self.end), text);
        Offer { label: text.trim().to_owned(), detail: None, found_by: None, edit, kind }
    }

    /// Whether an offer is one of what is typed so far.
    pub(super) fn matches(&self, offer: &Offer) -> bool {
        let typed = self.end - offer.edit.span.start as usize;
        let typed = self.before.tail(self.before.len().saturating_sub(typed));
        let found_by = offer.found_by.as_deref().unwrap_or(&offer.label);
        typed.is_empty() || fold(found_by).contains(&fold(typed)) || found_by.starts_with(typed)
    }

    /// The work that the line belongs to, with its session.
    pub(super) fn work<'s>(&self, scene: &Scene<'s>) -> Option<(&'s Session, &'s Work)> {
        let session = scene.session_at(self.line)?;
        let works = session.works.iter().filter(|work| work.page == scene.id && work.line <= self.line);
        Some((session, works.max_by_key(|work| work.line)?))
    }

    /// The lift that the line names: of the log where it is read, else by the name before the colon.
    pub(super) fn lift(&self, scene: &Scene<'_>) -> Option<LiftId> {
        let named = self.before.trim_start().get(2..).and_then(|line| line.split_once(':')).map(|(name, _)| name);
        let named = named.filter(|_| !self.before.starts_with([' ', '\t']));
        let by_name = named.and_then(|name| scene.history().find_lift(name).ok());
        by_name.or_else(|| self.work(scene).map(|(_, work)| work.lift))
    }
}
