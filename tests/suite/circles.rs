//! No file of `src` uses, by way of whichever others, a file that uses it.
//!
//! A `mod` and a `pub use` are no use. A name that was taken through a re-export is a use of the file that it is of: so a
//! file of a folder may use what the folder's own file defines, where that one does nothing but hand the others on.

use crate::house::{files, root};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// What a file says of others.
#[derive(Default)]
struct Said {
    /// Each name that a `use` brings, with the path it is taken from, and whether it is handed on.
    names: Vec<(String, Vec<String>, bool)>,
    /// Paths that stand in the code itself.
    paths: Vec<Vec<String>>,
    /// Every word of the code.
    words: BTreeSet<String>,
}

/// The words and signs of a text, without comments and what stands in quotes.
fn tokens(text: &str) -> Vec<String> {
    let (mut out, mut rest): (Vec<String>, &str) = (Vec::new(), text);
    while let Some(first) = rest.chars().next() {
        let word = rest.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(rest.len());
        let length = match first {
            _ if word > 0 => word,
            '/' if rest.starts_with("//") => rest.find('\n').unwrap_or(rest.len()),
            ':' if rest.starts_with("::") => 2,
            '"' => {
                let ends = rest.char_indices().skip(1).scan(false, |escaped, (at, c)| {
                    let end = c == '"' && !*escaped;
                    *escaped = c == '\\' && !*escaped;
                    Some((at, end))
                });
                ends.filter(|(_, end)| *end).map(|(at, _)| at + 1).next().unwrap_or(rest.len())
            }
            // A quote that is no lifetime.
            '\'' if rest.starts_with("'\\") => rest[3..].find('\'').map_or(1, |at| at + 4),
            '\'' if rest.chars().nth(2) == Some('\'') => rest.char_indices().nth(3).map_or(rest.len(), |(at, _)| at),
            _ => first.len_utf8(),
        };
        let (token, after) = rest.split_at(length);
        if !token.starts_with("//") && !token.starts_with(['"', '\'']) && !token.trim().is_empty() {
            out.push(token.to_owned());
        }
        rest = after;
    }
    // `r#match` is the file `match.rs`.
    let raw = |at: usize| out[at..].starts_with(&["r".to_owned(), "#".to_owned()]);
    let kept = (0..out.len()).filter(|at| !raw(*at) && (*at == 0 || !raw(*at - 1)));
    kept.map(|at| out[at].clone()).collect()
}

/// Reads the tree of a `use` up to its end; tells what stands there.
fn tree(tokens: &mut std::slice::Iter<'_, String>, before: &[String], public: bool, out: &mut Said) -> bool {
    let mut path = before.to_vec();
    let mut name = None;
    while let Some(token) = tokens.next() {
        match token.as_str() {
            "::" => {}
            "{" => {
                while tree(tokens, &path, public, out) {}
                path.clear();
            }
            "as" => name = tokens.next().cloned(),
            end @ ("," | "}" | ";") => {
                if path.last().is_some_and(|last| last == "self") {
                    path.pop();
                }
                if let Some(last) = path.last().cloned().filter(|_| path.len() > before.len() || end != "}") {
                    out.names.push((name.unwrap_or(last), path, public));
                }
                return end == ",";
            }
            word => path.push(word.to_owned()),
        }
    }
    false
}

fn said(text: &str) -> Said {
    let tokens = tokens(text.split("#[cfg(test)]").next().unwrap());
    let mut out = Said::default();
    let mut rest = tokens.iter();
    let mut public = false;
    while let Some(token) = rest.next() {
        match token.as_str() {
            "use" => {
                tree(&mut rest, &[], public, &mut out);
            }
            "mod" => {
                rest.next();
            }
            word if word.starts_with(|c: char| c.is_alphabetic() || c == '_') => {
                let mut path = vec![word.to_owned()];
                while let [colons, next, ..] = rest.as_slice()
                    && colons == "::"
                    && next.starts_with(|c: char| c.is_alphabetic() || c == '_')
                {
                    path.push(next.clone());
                    rest.nth(1);
                }
                out.words.extend(path.iter().cloned());
                out.paths.push(path);
            }
            _ => {}
        }
        public = token == "pub" || public && matches!(token.as_str(), "(" | ")" | "crate" | "super" | "in" | "::");
    }
    out
}

/// The file that a path leads to, seen from another; nothing for one that leads out of the project.
fn leads_to(all: &BTreeMap<String, Said>, from: &str, path: &[String], depth: u32) -> Option<String> {
    let parent = |module: &str| module.rsplit_once("::").map_or(String::new(), |(parent, _)| parent.to_owned());
    let below =
        |module: &str, name: &str| if module.is_empty() { name.to_owned() } else { format!("{module}::{name}") };
    let mut at = from.to_owned();
    let mut rest = path;
    match path.first()?.as_str() {
        "crate" => (at, rest) = (String::new(), &path[1..]),
        "self" => rest = &path[1..],
        "super" => {
            while rest.first().is_some_and(|part| part == "super") {
                (at, rest) = (parent(&at), &rest[1..]);
            }
        }
        first if all.contains_key(&below(from, first)) => {}
        _ => return None,
    }
    while let Some(name) = rest.first() {
        let next = below(&at, name);
        if all.contains_key(&next) {
            (at, rest) = (next, &rest[1..]);
            continue;
        }
        let handed = all.get(&at).into_iter().flat_map(|said| &said.names).filter(|(known, ..)| known == name);
        let through = handed
            .filter(|_| depth < 9)
            .find_map(|(_, path, _)| leads_to(all, &at, &[path.as_slice(), &rest[1..]].concat(), depth + 1));
        return through.or_else(|| all.contains_key(&at).then_some(at));
    }
    all.contains_key(&at).then_some(at)
}

/// What each file uses.
fn uses(all: &BTreeMap<String, Said>) -> BTreeMap<&str, BTreeSet<String>> {
    let of = |(module, said): (&'_ String, &Said)| {
        let names = said.names.iter().filter(|(name, _, public)| !public || said.words.contains(name));
        let paths = names.map(|(_, path, _)| path).chain(said.paths.iter().filter(|path| path.len() > 1));
        let used: BTreeSet<String> = paths.filter_map(|path| leads_to(all, module, path, 0)).collect();
        used.into_iter().filter(|used| used != module).collect()
    };
    all.iter().map(|entry| (entry.0.as_str(), of(entry))).collect()
}

/// Files each of which uses the next one, and the last one the first.
fn circle(uses: &BTreeMap<&str, BTreeSet<String>>) -> Option<Vec<String>> {
    let mut left = uses.clone();
    // What uses nothing that is left is in no circle.
    while let Some(free) = left.iter().find(|(_, used)| !used.iter().any(|used| left.contains_key(used.as_str()))) {
        let free = *free.0;
        left.remove(free);
    }
    let mut way = vec![(*left.keys().next()?).to_owned()];
    loop {
        let next = left[way.last().unwrap().as_str()].iter().find(|used| left.contains_key(used.as_str())).unwrap();
        way.push(next.clone());
        if let Some(first) = way.iter().position(|one| one == next).filter(|first| first + 1 < way.len()) {
            return Some(way.split_off(first));
        }
    }
}

#[test]
fn no_file_uses_one_that_uses_it() {
    let mut paths = Vec::new();
    files(&root().join("src"), &mut paths);
    let module = |path: &std::path::Path| {
        let path = path.strip_prefix(root().join("src")).unwrap().with_extension("");
        let parts: Vec<&str> = path.iter().map(|part| part.to_str().unwrap()).filter(|part| *part != "mod").collect();
        parts.join("::")
    };
    let read = |path: &std::path::PathBuf| (module(path), said(&fs::read_to_string(path).unwrap()));
    let all: BTreeMap<String, Said> =
        paths.iter().map(read).filter(|(name, _)| name != "lib" && name != "main").collect();
    let uses = uses(&all);
    if let Some(circle) = circle(&uses) {
        panic!("a circle: {}", circle.join(" → "));
    }
    let links: usize = uses.values().map(BTreeSet::len).sum();
    assert!(links > 800, "{links} uses were found in all: paths are read wrongly");
}

fn circle_of(pages: &[(&str, &str)]) -> Option<String> {
    let all = pages.iter().map(|(module, text)| ((*module).to_owned(), said(text))).collect();
    circle(&uses(&all)).map(|circle| circle.join(" "))
}

#[test]
fn circles_are_found() {
    assert_eq!(circle_of(&[("a", "use crate::b::B;"), ("b", "fn f() { crate::a::f() }")]).as_deref(), Some("a b a"));
    assert_eq!(circle_of(&[("a", "use crate::b::{self, B};"), ("b", "// crate::a\nfn f() { \"crate::a::f\" }")]), None);
    // A folder's file that hands on what its files define, and defines what they share.
    let hands_on = [("a", "mod b;\npub use b::B;\nfn shared() {}"), ("a::b", "use super::shared;")];
    assert_eq!(circle_of(&hands_on), None);
    let uses_it = [("a", "mod b;\npub use b::B;\nfn shared(_: B) {}"), ("a::b", "use super::shared;")];
    assert_eq!(circle_of(&uses_it).as_deref(), Some("a a::b a"));
    // Through a name that is handed on.
    let through = [
        ("a", "mod b;\nmod c;\npub use b::B;\npub(crate) use c::C;"),
        ("a::b", "use super::C;"),
        ("a::c", "use super::B;"),
    ];
    assert_eq!(circle_of(&through).as_deref(), Some("a::b a::c a::b"));
}
