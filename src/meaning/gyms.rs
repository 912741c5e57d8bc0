//! Gyms that sessions name: what hangs on a bar there is read by their gear.

use super::context::Context;
use crate::notation::Reader;
use crate::notation::nodes::{Fact, LineKind, Written};
use crate::problems::{Problem, ProblemKind as K, nearest};
use crate::source::{Page, Span};
use crate::training::{Gym, GymId};
use std::collections::HashMap;

/// The sessions of a page that are elsewhere than usual.
pub(crate) struct Elsewhere<'b> {
    /// What holds in each gym that the lifter has.
    there: Vec<Context<'b>>,
    /// Of session headings, by their lines from 1.
    of_heading: HashMap<u32, GymId>,
}

impl<'b> Elsewhere<'b> {
    /// Looks a page through before it is read: the fact may stand below the work that it has a say in.
    pub(crate) fn of(context: &Context<'b>, page: &Page) -> Self {
        let mut found = Elsewhere { there: Vec::new(), of_heading: HashMap::new() };
        let named = |text: &str| text.as_bytes().windows(3).any(|letters| letters.eq_ignore_ascii_case(b"gym"));
        if context.gyms.is_empty() || !named(page.text()) {
            return found;
        }
        found.there = context.gyms.iter().map(|gym| Context { gear: &gym.gear, ..*context }).collect();
        let mut heading = None;
        for (line, number) in Reader::new(page).zip(1..) {
            match line.kind {
                LineKind::Session(_) => heading = Some(number),
                LineKind::BadSession | LineKind::Block(_) | LineKind::Heading { ends: true } => heading = None,
                LineKind::Fact(Some(Written { value: Fact::Gym(name), .. })) => {
                    let gym = heading.zip(GymId::named(context.gyms, name));
                    found.of_heading.extend(gym);
                }
                _ => {}
            }
        }
        found
    }

    /// What holds below the heading of a line.
    pub(crate) fn at(&self, line: u32) -> Option<&Context<'b>> {
        self.there.get(usize::from(self.of_heading.get(&line)?.0))
    }
}

/// A gym that no settings name. No name is put in its place: another gym has other bars.
pub(crate) fn unknown_gym(gyms: &[Gym], name: &str, span: Span) -> Problem {
    let names = || gyms.iter().map(|gym| gym.name.as_str());
    let near = nearest(name, names());
    let near = if near.is_empty() { names().collect() } else { near };
    Problem::new(K::UnknownGym { name: name.into(), near: near.into_iter().map(str::to_owned).collect() }, span)
}
