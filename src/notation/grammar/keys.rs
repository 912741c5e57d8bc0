//! The name before a colon, and known keys: of blocks, of sessions, of work lines; and keys that are nearly one.

use super::lexer::{is_space, trim};
use crate::notation::expected::Expected;
use crate::notation::nodes::{BlockKeyName, DetailKey};
use crate::problems::distance;
use crate::source::Cut;
use crate::training::{Words, words};
use std::sync::LazyLock;

/// What stands before and after the colon of a bullet, the colon being the first one that white space or
/// the line's end follows, else the first. Closing emphasis marks after it belong to the name.
pub(crate) fn at_colon(content: &str) -> Option<(&str, &str)> {
    let mut first = None;
    for at in memchr::memchr_iter(b':', content.as_bytes()) {
        // Nearly every colon is the first, and a blank stands behind it.
        if first.is_none() && content.as_bytes().get(at + 1) == Some(&b' ') {
            return Some((content.head(at), content.tail(at + 1)));
        }
        let after = content.tail(at + 1);
        let value = after.trim_start_matches(['*', '_', '`']);
        if value.is_empty() || value.starts_with(is_space) {
            let closes =
                content.get(..at).is_some_and(|name| after.len() == value.len() || name.contains(['*', '_', '`']));
            if closes {
                return Some((content.get(..at)?, value));
            }
        }
        first = first.or(Some(at));
    }
    let at = first?;
    Some((content.get(..at)?, content.get(at + 1..)?.trim_start_matches(['*', '_', '`'])))
}

/// A lift's name or a key without a task box and emphasis round it.
pub(crate) fn bare_name(name: &str) -> &str {
    // Nearly every name is bare.
    if let [b'A'..=b'Z' | b'a'..=b'z', .., b'a'..=b'z'] = name.as_bytes() {
        return name;
    }
    let name = trim(name);
    let name = ["[ ]", "[x]", "[X]"].iter().find_map(|mark| name.strip_prefix(mark)).unwrap_or(name);
    name.trim_matches(|c| is_space(c) || matches!(c, '*' | '_' | '`'))
}

words! {
    /// The keys of a session's facts.
    pub(crate) enum FactKey {
        Bodyweight = "bodyweight",
        Sleep = "sleep",
        Duration = "duration",
        SessionRpe = "session RPE",
        Pain = "pain",
        Gym = "gym",
        Note = "note",
    }
}

pub(crate) static FACTS: LazyLock<Keys<FactKey>> =
    LazyLock::new(|| Keys::with(&[("bw", FactKey::Bodyweight), ("weight", FactKey::Bodyweight)]));
pub(crate) static BLOCKS: LazyLock<Keys<BlockKeyName>> = LazyLock::new(|| Keys::with(&[]));
pub(crate) static DETAILS: LazyLock<Keys<DetailKey>> =
    LazyLock::new(|| Keys::with(&[("warmup", DetailKey::WarmUp), ("warm up", DetailKey::WarmUp)]));

/// Letters of the longest known key; a longer text is not even compared.
const LONGEST: usize = 12;

/// Known keys of one kind, and other words for some.
pub(crate) struct Keys<K: 'static>(Vec<Key<K>>);

struct Key<K> {
    word: &'static str,
    key: K,
    letters: u32,
}

impl<K: Words> Keys<K> {
    fn with(others: &[(&'static str, K)]) -> Self {
        let own = K::ALL.iter().map(|key| (key.word(), *key));
        let key = |(word, key)| Key { word, key, letters: letters_of(word) };
        Keys(own.chain(others.iter().copied()).map(key).collect())
    }

    fn known(&self, name: &str) -> Option<&Key<K>> {
        let name = bare_name(name);
        if name.len() > LONGEST {
            return None;
        }
        self.0.iter().find(|known| known.word.eq_ignore_ascii_case(name))
    }

    /// The key that a name is, whatever its case and emphasis.
    pub(crate) fn find(&self, name: &str) -> Option<K> {
        self.known(name).map(|known| known.key)
    }

    /// The spelling of the key that a name is.
    pub(crate) fn word(&self, name: &str) -> Option<&'static str> {
        self.known(name).map(|known| known.word)
    }

    /// The key that a name is one letter off (two, where the key has eight letters or more).
    pub(crate) fn near(&self, name: &str) -> Option<&'static str> {
        let name = bare_name(name);
        if name.len() < 4 || name.len() > LONGEST + 2 {
            return None;
        }
        // One more or one less `s` is the same word, however short it is.
        if let Some(one) = name.strip_suffix(['s', 'S'])
            && let Some(known) =
                self.0.iter().find(|known| known.word.len() < 5 && known.word.eq_ignore_ascii_case(one))
        {
            return Some(known.word);
        }
        let letters = letters_of(name);
        let most = |key: &str| if key.len() >= 8 { 2 } else { 1 };
        // One letter's slip changes at most two letters of the set, so most names need no closer look.
        let could_be = |Key { word, letters: known, .. }: &&Key<K>| {
            let most = most(word);
            word.len() >= 5
                && word.len().abs_diff(name.len()) <= most
                && (known ^ letters).count_ones() <= 2 * most as u32
        };
        self.0
            .iter()
            .filter(could_be)
            .map(|known| (distance(name, known.word), known.word))
            .filter(|(apart, word)| *apart > 0 && *apart <= most(word))
            .min()
            .map(|(_, word)| word)
    }
}

/// The keys that may stand where one is expected, each in its one spelling.
pub(crate) fn words_of(one: Expected) -> Vec<&'static str> {
    fn each<K: Words>() -> Vec<&'static str> {
        K::ALL.iter().map(|key| key.word()).collect()
    }
    match one {
        Expected::FactKey => each::<FactKey>(),
        Expected::DetailKey => each::<DetailKey>(),
        Expected::BlockKey => each::<BlockKeyName>(),
        _ => Vec::new(),
    }
}

/// How a known key of any kind is spelled: in small letters, its words as they stand. Other words for one thing
/// (`bw`, `weight`) are left to whoever writes them.
pub(crate) fn spelling(name: &str) -> Option<&'static str> {
    match DETAILS.find(name) {
        Some(DetailKey::WarmUp) => Some(DetailKey::WarmUp.word()),
        _ => FACTS.word(name).or_else(|| BLOCKS.word(name)).or_else(|| DETAILS.word(name)),
    }
}

/// Which letters a name has, one bit each; all that are no ASCII letter share one.
fn letters_of(name: &str) -> u32 {
    name.bytes().fold(0, |letters, b| {
        letters | if b.is_ascii_alphabetic() { 1 << (b.to_ascii_lowercase() - b'a') } else { 1 << 26 }
    })
}
