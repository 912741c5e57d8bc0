//! YAML with places: where in its file a key or a value stands.
//!
//! The library's values keep no places, but it says where it was when a value was refused. So a place is
//! found by reading the file once more and refusing the very value that is asked for.

use crate::source::{Cut, Span};
use serde::Deserialize;
use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde_yaml::{Location, Value};
use std::collections::HashSet;
use std::fmt;

/// One step on the way from the top of a file down to a value. Counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step {
    /// The key of a map's nth entry.
    Key(usize),
    /// Its value.
    Value(usize),
    /// The nth item of a list.
    Item(usize),
}

/// The way from the top of a file down to a key or a value.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Way(Vec<Step>);

impl Way {
    fn then(&self, step: Step) -> Way {
        Way(self.0.iter().copied().chain([step]).collect())
    }
}

/// A key or a value, with the way to it.
#[derive(Clone, Debug)]
pub(super) struct Node<'v> {
    pub(super) value: &'v Value,
    way: Way,
}

impl<'v> Node<'v> {
    /// The whole file.
    pub(super) fn top(value: &'v Value) -> Self {
        Node { value, way: Way::default() }
    }

    /// The keys and values of a map, in the order of the file.
    pub(super) fn entries(&self) -> Option<Vec<(Node<'v>, Node<'v>)>> {
        let entry = |(nth, (key, value)): (usize, (&'v Value, &'v Value))| {
            let key = Node { value: key, way: self.way.then(Step::Key(nth)) };
            (key, Node { value, way: self.way.then(Step::Value(nth)) })
        };
        Some(self.value.as_mapping()?.iter().enumerate().map(entry).collect())
    }

    /// The items of a list.
    pub(super) fn items(&self) -> Option<Vec<Node<'v>>> {
        let item = |(nth, value)| Node { value, way: self.way.then(Step::Item(nth)) };
        Some(self.value.as_sequence()?.iter().enumerate().map(item).collect())
    }

    /// The value of a map's key.
    pub(super) fn get(&self, key: &str) -> Option<Node<'v>> {
        self.entries()?.into_iter().find(|(name, _)| name.value.as_str() == Some(key)).map(|(_, value)| value)
    }

    /// Text that is not blank, without the blanks around it.
    pub(super) fn text(&self) -> Option<&'v str> {
        self.value.as_str().map(str::trim).filter(|text| !text.is_empty())
    }

    /// A whole number from `least` to `most`.
    pub(super) fn number(&self, least: u32, most: u32) -> Option<u32> {
        let number = u32::try_from(self.value.as_u64()?).ok()?;
        (least..=most).contains(&number).then_some(number)
    }

    /// Where it stands in the file's text: all of a scalar or of brackets on one line, else the line it begins
    /// on. Reads the file anew.
    pub(super) fn place(&self, text: &str) -> Span {
        place(text, &self.way, self.value)
    }
}

/// The values of a file.
///
/// # Errors
/// Where it is no YAML, or has a key twice in one map.
pub(super) fn parse(text: &str) -> Result<Value, serde_yaml::Error> {
    serde_yaml::from_str(unmarked(text))
}

/// A file without its byte order mark, after which the library would look for a second document.
fn unmarked(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

/// Where a key or a value stands. At the beginning of the file where there is no such value.
fn place(text: &str, way: &Way, value: &Value) -> Span {
    let refused = Walk(&way.0).deserialize(serde_yaml::Deserializer::from_str(unmarked(text))).err();
    let Some(place) = refused.and_then(|error| error.location()) else { return Span::default() };
    let start = byte(text, &place);
    let rest = text.tail(start);
    let rest = rest.lines().next().unwrap_or(rest);
    let length = match value {
        // A bare text may hold a comma, which would end a number in brackets.
        Value::String(bare) if !bare.is_empty() && rest.starts_with(bare.as_str()) => bare.len(),
        Value::Mapping(_) | Value::Sequence(_) if !rest.starts_with(['[', '{']) => before_remark(rest).len(),
        _ => extent(rest),
    };
    Span::new(start, start + length)
}

/// The byte of the file that a place of the library's is at.
pub(super) fn byte(text: &str, place: &Location) -> usize {
    (place.index() + text.len() - unmarked(text).len()).min(text.len())
}

/// A line without the remark at its end.
fn before_remark(line: &str) -> &str {
    line.split(" #").next().unwrap_or(line).trim_end()
}

/// How many bytes of a line the scalar, or what is in brackets, takes that the line begins with.
fn extent(line: &str) -> usize {
    let whole = before_remark(line).len();
    let Some(first) = line.chars().next() else { return 0 };
    let (mut quote, mut depth, mut escaped) = (None, 0usize, false);
    for (at, c) in line.char_indices() {
        match quote {
            Some(_) if escaped => escaped = false,
            Some('"') if c == '\\' => escaped = true,
            Some(open) if c == open => quote = None,
            Some(_) => {}
            None if matches!(c, '"' | '\'') && (depth > 0 || at == 0) => quote = Some(c),
            None if matches!(c, '[' | '{') && (depth > 0 || at == 0) => depth += 1,
            None if matches!(c, ']' | '}') => depth = depth.saturating_sub(1),
            None => {}
        }
        let plain_ends = || {
            let rest = line.tail(at + c.len_utf8());
            rest.starts_with([',', ']', '}']) || rest.starts_with(" #") || rest == ":" || rest.starts_with(": ")
        };
        let ends = match first {
            '"' | '\'' => at > 0 && quote.is_none(),
            '[' | '{' => depth == 0 && quote.is_none(),
            ',' | ']' | '}' => return 0,
            _ => plain_ends(),
        };
        if ends {
            return line.get(..at + c.len_utf8()).map_or(whole, |value| value.trim_end().len());
        }
    }
    whole
}

/// Goes a way down a file, and refuses what stands at its end.
struct Walk<'w>(&'w [Step]);

impl<'de> DeserializeSeed<'de> for Walk<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, file: D) -> Result<(), D::Error> {
        file.deserialize_any(self)
    }
}

/// What is not visited here, every scalar, is refused.
impl<'de> Visitor<'de> for Walk<'_> {
    type Value = ();

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("the way to go on")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<(), A::Error> {
        let Some((Step::Item(nth), rest)) = self.0.split_first() else { return Err(A::Error::custom("here")) };
        for _ in 0..*nth {
            items.next_element::<IgnoredAny>()?;
        }
        items.next_element_seed(Walk(rest)).map(drop)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<(), A::Error> {
        let Some((Step::Key(nth) | Step::Value(nth), rest)) = self.0.split_first() else {
            return Err(A::Error::custom("here"));
        };
        for _ in 0..*nth {
            entries.next_entry::<IgnoredAny, IgnoredAny>()?;
        }
        if matches!(self.0.first(), Some(Step::Key(_))) {
            return entries.next_key_seed(Walk(rest)).map(drop);
        }
        entries.next_key::<IgnoredAny>()?;
        entries.next_value_seed(Walk(rest))
    }
}

/// The first key that stands in its map already, and where it does. The library refuses such a file, but says
/// only in which map.
pub(super) fn repeated_key(text: &str) -> Option<(String, Span)> {
    let file = serde_yaml::from_str(unmarked(text)).ok()?;
    let (key, way) = repeated_in(&file, &Way::default())?;
    Some((key.as_str().unwrap_or("a key").to_owned(), place(text, &way, key)))
}

/// A file whose maps may have one key twice.
#[derive(Deserialize)]
#[serde(untagged)]
enum Loose {
    Map(Entries),
    List(Vec<Loose>),
    Other(IgnoredAny),
}

struct Entries(Vec<(Value, Loose)>);

impl<'de> Deserialize<'de> for Entries {
    fn deserialize<D: Deserializer<'de>>(map: D) -> Result<Self, D::Error> {
        map.deserialize_map(EntriesVisitor)
    }
}

struct EntriesVisitor;

impl<'de> Visitor<'de> for EntriesVisitor {
    type Value = Entries;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a map")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Entries, A::Error> {
        let mut entries = Vec::new();
        while let Some(entry) = map.next_entry()? {
            entries.push(entry);
        }
        Ok(Entries(entries))
    }
}

fn repeated_in<'f>(file: &'f Loose, way: &Way) -> Option<(&'f Value, Way)> {
    match file {
        Loose::Other(_) => None,
        Loose::List(items) => {
            items.iter().enumerate().find_map(|(nth, item)| repeated_in(item, &way.then(Step::Item(nth))))
        }
        Loose::Map(Entries(entries)) => {
            let mut known = HashSet::new();
            entries.iter().enumerate().find_map(|(nth, (key, value))| {
                if known.insert(key) {
                    return repeated_in(value, &way.then(Step::Value(nth)));
                }
                Some((key, way.then(Step::Key(nth))))
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Node, parse, repeated_key};

    /// The text at each key and value of a file, in order.
    fn places(text: &str) -> Vec<&str> {
        fn all<'t>(text: &'t str, node: &Node<'_>, out: &mut Vec<&'t str>) {
            out.push(node.place(text).text(text));
            for (key, value) in node.entries().unwrap_or_default() {
                all(text, &key, out);
                all(text, &value, out);
            }
            node.items().unwrap_or_default().iter().for_each(|item| all(text, item, out));
        }
        let value = parse(text).unwrap();
        let mut out = Vec::new();
        all(text, &Node::top(&value), &mut out);
        out.remove(0);
        out
    }

    #[test]
    fn a_scalar_is_marked_whole() {
        assert_eq!(places("é: 5 # five\n'high reps':  \"a \\\" b\"\n"), ["é", "5", "'high reps'", "\"a \\\" b\""]);
        assert_eq!(places("a: two, three\nb: a:b\nc:\n"), ["a", "two, three", "b", "a:b", "c", ""]);
        assert_eq!(places("\u{feff}a: it's\r\nb: yes\r\n"), ["a", "it's", "b", "yes"]);
    }

    #[test]
    fn brackets_are_marked_as_far_as_their_line_goes() {
        assert_eq!(places("a: [{ b: 'x]' }, c ]"), ["a", "[{ b: 'x]' }, c ]", "{ b: 'x]' }", "b", "'x]'", "c"]);
        assert_eq!(places("a: [b,\n  c]"), ["a", "[b,", "b", "c"]);
    }

    #[test]
    fn a_block_is_marked_where_it_begins() {
        assert_eq!(places("a:\n  - b: 1\n    c: 2\n"), ["a", "- b: 1", "b: 1", "b", "1", "c", "2"]);
    }

    #[test]
    fn the_second_of_two_equal_keys_is_found() {
        let text = "# a: 1\na: 1\nb:\n  - { c: 1 }\n  - { c: 1, d: 2, c: 3 }\n";
        let (key, span) = repeated_key(text).unwrap();
        assert_eq!((key.as_str(), span.start as usize), ("c", text.rfind('c').unwrap()));
        assert!(repeated_key("a: 1\nb: 1\n").is_none());
    }
}
