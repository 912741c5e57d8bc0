//! The name before a colon, and known keys: of blocks, of sessions, of work lines; and keys that are nearly one.

use super::lexer::{is_space, trim};
use crate::notation::expected::Expected;
use crate::notation::nodes::{BlockKeyName, DetailKey};
use crate::problems::distance;
use crate::source::Cut;
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

/// The keys of a session's facts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum FactKey {
    Bodyweight,
    Sleep,
    Duration,
    SessionRpe,
    Pain,
    Gym,
    Note,
}

const FACTS: [(&str, FactKey); 9] = [
    ("bodyweight", FactKey::Bodyweight),
    ("bw", FactKey::Bodyweight),
    ("weight", FactKey::Bodyweight),
    ("sleep", FactKey::Sleep),
    ("duration", FactKey::Duration),
    ("session RPE", FactKey::SessionRpe),
    ("pain", FactKey::Pain),
    ("gym", FactKey::Gym),
    ("note", FactKey::Note),
];

const BLOCKS: [(&str, BlockKeyName); 7] = [
    ("starts", BlockKeyName::Starts),
    ("weeks", BlockKeyName::Weeks),
    ("phase", BlockKeyName::Phase),
    ("deload", BlockKeyName::Deload),
    ("peak", BlockKeyName::Peak),
    ("max", BlockKeyName::Max),
    ("goal", BlockKeyName::Goal),
];

const DETAILS: [(&str, DetailKey); 9] = [
    ("plan", DetailKey::Plan),
    ("warm-up", DetailKey::WarmUp),
    ("warmup", DetailKey::WarmUp),
    ("warm up", DetailKey::WarmUp),
    ("setup", DetailKey::Setup),
    ("cue", DetailKey::Cue),
    ("why", DetailKey::Why),
    ("note", DetailKey::Note),
    ("instead of", DetailKey::InsteadOf),
];

/// Letters of the longest known key; a longer text is not even compared.
const LONGEST: usize = 12;

fn find<K: Copy>(keys: &[(&'static str, K)], name: &str) -> Option<K> {
    if name.len() > LONGEST {
        return None;
    }
    keys.iter().find(|(key, _)| key.eq_ignore_ascii_case(name)).map(|(_, value)| *value)
}

/// The fact that a key names.
pub(crate) fn fact(name: &str) -> Option<FactKey> {
    find(&FACTS, bare_name(name))
}

/// The spelling of the fact's key that this is, whatever its case and emphasis.
pub(crate) fn fact_word(name: &str) -> Option<&'static str> {
    let name = bare_name(name);
    FACTS.iter().find(|(key, _)| key.eq_ignore_ascii_case(name)).map(|(key, _)| *key)
}

/// The detail that a key names, in its spelling.
pub(crate) fn detail_word(name: &str) -> Option<&'static str> {
    let name = bare_name(name);
    DETAILS.iter().find(|(key, _)| key.eq_ignore_ascii_case(name)).map(|(key, _)| *key)
}

/// The keys that may stand where one is expected, each in its one spelling.
pub(crate) fn words_of(one: Expected) -> Vec<&'static str> {
    fn each<K: Copy + PartialEq>(keys: &[(&'static str, K)]) -> Vec<&'static str> {
        let first = |at: usize, key: K| keys.iter().take(at).all(|(_, other)| *other != key);
        keys.iter().enumerate().filter(|(at, (_, key))| first(*at, *key)).map(|(_, (word, _))| *word).collect()
    }
    match one {
        Expected::FactKey => each(&FACTS),
        Expected::DetailKey => each(&DETAILS),
        Expected::BlockKey => each(&BLOCKS),
        _ => Vec::new(),
    }
}

/// The detail that a key names.
pub(crate) fn detail(name: &str) -> Option<DetailKey> {
    find(&DETAILS, bare_name(name))
}

/// The key of a block.
pub(crate) fn block(name: &str) -> Option<BlockKeyName> {
    find(&BLOCKS, bare_name(name))
}

/// A known key's spelling in messages.
pub(crate) fn block_key_word(key: BlockKeyName) -> &'static str {
    BLOCKS.iter().find(|(_, known)| *known == key).map_or("", |(word, _)| word)
}

/// How a known key of any kind is spelled: in small letters, its words as they stand. Other words for one thing
/// (`bw`, `weight`) are left to whoever writes them.
pub(crate) fn spelling(name: &str) -> Option<&'static str> {
    let known = FACTS.iter().map(|(key, _)| *key);
    let known = known.chain(BLOCKS.iter().map(|(key, _)| *key)).chain(DETAILS.iter().map(|(key, _)| *key));
    let key = known.into_iter().find(|key| key.eq_ignore_ascii_case(name))?;
    Some(if detail(key) == Some(DetailKey::WarmUp) { "warm-up" } else { key })
}

/// Known keys with the letters of each.
type Keys = LazyLock<Vec<(&'static str, u32)>>;

static FACT_KEYS: Keys = LazyLock::new(|| with_letters(&FACTS));
static BLOCK_KEYS: Keys = LazyLock::new(|| with_letters(&BLOCKS));
static DETAIL_KEYS: Keys = LazyLock::new(|| with_letters(&DETAILS));

fn with_letters<K>(known: &[(&'static str, K)]) -> Vec<(&'static str, u32)> {
    known.iter().map(|(key, _)| (*key, letters_of(key))).collect()
}

/// The fact's key that this is one letter off (two, where the key has eight letters or more).
pub(crate) fn near_fact(name: &str) -> Option<&'static str> {
    near(&FACT_KEYS, name)
}

/// The block's key that this is nearly.
pub(crate) fn near_block(name: &str) -> Option<&'static str> {
    near(&BLOCK_KEYS, name)
}

/// The detail's key that this is nearly.
pub(crate) fn near_detail(name: &str) -> Option<&'static str> {
    near(&DETAIL_KEYS, name)
}

fn near(keys: &[(&'static str, u32)], name: &str) -> Option<&'static str> {
    let name = bare_name(name);
    if name.len() < 4 || name.len() > LONGEST + 2 {
        return None;
    }
    // One more or one less `s` is the same word, however short it is.
    if let Some(one) = name.strip_suffix(['s', 'S'])
        && let Some((key, _)) = keys.iter().find(|(key, _)| key.len() < 5 && key.eq_ignore_ascii_case(one))
    {
        return Some(key);
    }
    let letters = letters_of(name);
    // One letter's slip changes at most two letters of the set, so most names need no closer look.
    let could_be = |(key, known): &&(&'static str, u32)| {
        let most = if key.len() >= 8 { 2 } else { 1 };
        key.len() >= 5 && key.len().abs_diff(name.len()) <= most && (known ^ letters).count_ones() <= 2 * most as u32
    };
    keys.iter()
        .filter(could_be)
        .map(|(key, _)| (distance(name, key), *key))
        .filter(|(apart, key)| *apart > 0 && *apart <= if key.len() >= 8 { 2 } else { 1 })
        .min()
        .map(|(_, key)| key)
}

/// Which letters a name has, one bit each; all that are no ASCII letter share one.
fn letters_of(name: &str) -> u32 {
    name.bytes().fold(0, |letters, b| {
        letters | if b.is_ascii_alphabetic() { 1 << (b.to_ascii_lowercase() - b'a') } else { 1 << 26 }
    })
}
