//! What is wrong with settings, as their keys and values are read.

use super::yaml::Node;
use crate::notation;
use crate::problems::{Problem, ProblemKind as K, nearest};
use crate::training::{Mass, Unit, Words};
use serde_yaml::Value;

/// What is wrong with a key or a value.
pub(super) struct Fault<'v> {
    pub(super) kind: K,
    pub(super) node: Node<'v>,
    /// What might stand there instead.
    pub(super) instead: Option<&'static str>,
}

impl Fault<'_> {
    /// The fault in its place. Reads the file anew.
    pub(super) fn placed(&self, text: &str) -> Problem {
        Problem::new(self.kind.clone(), self.node.place(text))
    }
}

/// The faults of one file.
#[derive(Default)]
pub(super) struct Faults<'v> {
    pub(super) all: Vec<Fault<'v>>,
    /// Of masses without a unit.
    pub(super) units: Option<Unit>,
}

impl<'v> Faults<'v> {
    pub(super) fn fault(&mut self, kind: K, node: &Node<'v>) {
        self.all.push(Fault { kind, node: node.clone(), instead: None });
    }

    pub(super) fn wrong(&mut self, key: &str, value: &Node<'v>, wanted: impl Into<String>) {
        self.fault(K::WrongSetting { key: key.into(), wanted: wanted.into() }, value);
    }

    /// Whether a key is one of those known; it is a fault if not.
    pub(super) fn knows(&mut self, key: &Node<'v>, known: &[&'static str]) -> bool {
        let Some(name) = key.value.as_str() else {
            self.fault(K::UnreadSettings { why: "a key is not text".into() }, key);
            return false;
        };
        if known.contains(&name) {
            return true;
        }
        let near = nearest(name, known.iter().copied());
        let instead = match near.as_slice() {
            [only] => known.iter().find(|known| *known == only).copied(),
            _ => None,
        };
        let kind = K::UnknownSetting { key: name.into(), near: near.into_iter().map(str::to_owned).collect() };
        self.all.push(Fault { kind, node: key.clone(), instead });
        false
    }

    /// The key that stands there, of some; it is a fault if it is none of them.
    pub(super) fn key<T: Words>(&mut self, key: &Node<'v>, known: &[T]) -> Option<T> {
        let words: Vec<&'static str> = known.iter().map(|key| key.word()).collect();
        self.knows(key, &words).then(|| T::of_word(key.value.as_str()?)).flatten()
    }

    /// The same of all that there are.
    pub(super) fn key_of<T: Words>(&mut self, key: &Node<'v>) -> Option<T> {
        self.key(key, T::ALL)
    }

    /// One of the words of an enum.
    pub(super) fn word<T: Words>(&mut self, key: &str, value: &Node<'v>) -> Option<T> {
        let found = value.value.as_str().and_then(T::of_word);
        if found.is_none() {
            self.wrong(key, value, any_of::<T>());
        }
        found
    }

    /// A mass: text with its unit, or a number of the journal's unit.
    pub(super) fn mass(&self, value: &Node<'v>) -> Option<Mass> {
        self.mass_of(&spelled(value.value))
    }

    /// The same of a text.
    pub(super) fn mass_of(&self, text: &str) -> Option<Mass> {
        let (number, unit) = notation::mass(text)?;
        Some(Mass::of(number, unit.or(self.units).unwrap_or(Unit::Kg)))
    }
}

/// The words of an enum: `a, b or c`.
pub(super) fn any_of<T: Words>() -> String {
    let words: Vec<&str> = T::ALL.iter().map(|value| value.word()).collect();
    words.split_last().map_or(String::new(), |(last, first)| match first {
        [] => (*last).to_owned(),
        _ => format!("{} or {last}", first.join(", ")),
    })
}

/// A scalar as its text.
pub(super) fn spelled(value: &Value) -> String {
    match value {
        Value::String(text) => text.trim().to_owned(),
        Value::Number(number) => number.to_string(),
        _ => String::new(),
    }
}
