//! Keys of settings files, and families of lifts.

use crate::editor::values::{Offer, OfferKind};
use crate::journal::{SettingKey, setting_keys};
use crate::source::{Cut, Edit, Page, Span};
use crate::training::Family;

/// What can be written at a place of a settings file.
pub(crate) fn completion(page: &Page, offset: usize) -> Vec<Offer> {
    let before = page.text().head(offset);
    let line = before.rsplit('\n').next().unwrap_or("");
    let offer = |typed: &str, word: &str, text: String, kind| Offer {
        label: word.to_owned(),
        detail: None,
        found_by: None,
        edit: Edit::new(Span::new(offset - typed.len(), offset), text),
        kind,
    };
    if let Some((_, typed)) = line.rsplit_once("family: ") {
        let families = Family::ALL.into_iter().map(|family| family.word()).filter(|word| word.starts_with(typed));
        return families.map(|word| offer(typed, word, word.to_owned(), OfferKind::Value)).collect();
    }
    let at_start = line.chars().all(|c| c.is_alphabetic() || c == ' ' || c == '-') && !line.starts_with([' ', '-']);
    if !at_start {
        return Vec::new();
    }
    let keys = setting_keys(page.path()).map(SettingKey::word).filter(|key| key.starts_with(line));
    keys.map(|key| offer(line, key, format!("{key}: "), OfferKind::Key)).collect()
}
