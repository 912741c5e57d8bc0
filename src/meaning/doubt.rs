//! Lines that the notation reads, and that may mean something else all the same.

use super::loose::{Looser, comes_late};
use crate::notation::nodes::{Amount, Attribute, AttributeKind, Body, Sets, Work};
use crate::notation::readings::{self, Choice, Names, Says};
use crate::source::Cut;
use crate::training::fold;

/// Further up no unit is looked for.
const LINES_ABOVE: usize = 12;

impl Looser<'_, '_> {
    /// Whether a line that the notation reads may mean something else all the same.
    pub(super) fn in_doubt(&mut self, work: &Work<'_>) -> bool {
        let Body::Groups(groups) = &work.body else { return false };
        // `(not done)` is no remark.
        let denied =
            |attribute: &Attribute<'_>| matches!(attribute.kind, AttributeKind::Remark(text) if readings::denies(text));
        if groups.iter().any(|group| group.attributes.iter().any(denied)) {
            return true;
        }
        // `- [>] Bench press: …` is moved to another day, or who knows what; `- Squat (lb): …` says what its numbers are of.
        let of_unit = || work.name.strip_suffix(')').and_then(|name| name.rsplit_once('('));
        if self.is_no_lift(work.name)
            || work.name.starts_with('[')
            || of_unit().is_some_and(|(_, inside)| readings::is_unit(inside))
        {
            return true;
        }
        // Nearly every line has a load in each of its groups, and nothing in it can be in doubt.
        let digit = work.name.bytes().any(|byte| byte.is_ascii_digit());
        if !digit && groups.iter().all(|group| group.load.is_some()) {
            return false;
        }
        let folded = fold(work.name);
        let Some(named) = self.context.lift(&folded) else {
            // No lift anybody knows: a number in it, or one alone behind it, is no training.
            let lone = match groups.as_slice() {
                [group] => {
                    let bare = group.load.is_none() && group.attributes.is_empty() && !group.count.per_side;
                    let text = group.count.text;
                    let timed = matches!(group.count.sets, Sets::Times { high: 1, each: Amount::Seconds { .. }, .. });
                    bare && (timed
                        || text.bytes().all(|byte| byte.is_ascii_digit())
                        || readings::more_a_decimal(text)
                        || (text.split(',').count() == 2 && readings::like_a_name(work.name).is_none()))
                }
                _ => false,
            };
            return lone || digit;
        };
        let load = groups.iter().any(|group| group.load.is_some());
        if !named.takes.own && comes_late(groups) {
            return true;
        }
        groups.iter().any(|group| match &group.count.sets {
            Sets::Times { low, high, each: Amount::Reps { low: reps, high: most } } if low == high && reps == most => {
                let told = group.count.text.contains(['x', 'X', '×']);
                let many = readings::many_without_load(told.then_some(*low), *reps);
                named.takes.held || (many && !load && !named.takes.own && !named.takes.anything)
            }
            _ => false,
        })
    }

    /// Whether the load of a line without one stands alone on the next.
    pub(super) fn lacks_load(&self, work: &Work<'_>, text: &str) -> bool {
        let Body::Groups(groups) = &work.body else { return false };
        groups.iter().all(|group| group.load.is_none()) && self.load_follows(text) && self.is_loaded(work.name)
    }

    /// Whether a name that no book has is of a day or a plan, or of what is no training: `Next week`, `Goal`, `Water`.
    fn is_no_lift(&mut self, name: &str) -> bool {
        if let Some(known) = self.no_lifts.get(name) {
            return *known;
        }
        let known = self.context.book.find(name).is_some();
        let no_lift =
            !known && (readings::is_no_lift(name) || readings::caption(name, false, false) == Some(Says::NotDone));
        self.no_lifts.insert(name.to_owned(), no_lift);
        no_lift
    }

    /// `225 lb x5, 245x3`, or `245x3` below `225 lb x5`: the same in the unit that is written beside a load without one.
    pub(super) fn in_the_other_unit(&self, text: &str, choice: &Choice) -> Option<Choice> {
        let other = if self.unit == "kg" { "lb" } else { "kg" };
        let of = |unit: &str, text: &str| text.match_indices(&format!(" {unit}")).count();
        let typed = |unit: &str| text.to_lowercase().contains(unit);
        // The nearest line above with a unit, down from a blank line or the lift's: it says the same once the page is tidied.
        let has = |line: &str, unit: &str| {
            let lower = line.to_lowercase();
            let behind_a_number = |at: usize| lower.head(at).trim_end().ends_with(|c: char| c.is_ascii_digit());
            lower.match_indices(unit).any(|(at, _)| behind_a_number(at))
        };
        let above = || {
            let before = self.page.text().head(self.whole(text).start as usize);
            let of_lift = |line: &&str| {
                !line.trim().is_empty() && readings::lone_lift(line, self.context, self.context.habits).is_none()
            };
            let lines = before.lines().rev().take_while(of_lift).take(LINES_ABOVE);
            let other_first = |line: &str| match (has(line, self.unit), has(line, other)) {
                (false, false) => None,
                (own, _) => Some(!own),
            };
            choice.below && lines.filter_map(other_first).next().unwrap_or(false)
        };
        let mixed = of(self.unit, &choice.text) > 0 && (of(other, &choice.text) > 0 || above());
        if !mixed || typed(self.unit) || choice.is_fact() {
            return None;
        }
        let text = choice.text.replace(&format!(" {}", self.unit), &format!(" {other}"));
        Some(Choice { say: format!("all of it in {other}"), text, ..choice.clone() })
    }
}
