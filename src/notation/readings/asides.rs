//! Parentheses and faults of a line typed in haste: remarks, or what belongs to the sets.

use super::habits::Meaning;
use super::items::{Item, Lexer, LoadKind, attribute, items};
use super::numbers::{digits, efforts_listed, has_half};
use super::undone;
use super::words::{changes_sets, changes_sets_inside};
use crate::notation::grammar::lexer::is_space;
use crate::source::Cut;

impl Lexer<'_, '_> {
    /// `(easy)`, `!depth`: as the notation has them; parentheses round a mass, an effort or a list are none.
    pub(super) fn attribute_or(&mut self, sign: usize) {
        // `@8 !!!`
        let cries = self.rest().len() - self.rest().trim_start_matches('!').len();
        let ends = self.rest().get(cries..).is_none_or(|rest| rest.is_empty() || rest.starts_with(is_space));
        if cries > 0 && ends && !matches!(self.last(), None | Some(Item::Word)) {
            return self.push(Item::Attribute(format!("({})", "!".repeat(cries))), cries);
        }
        let Some((after, read)) = attribute(self.rest()) else { return self.push(Item::Stray, sign) };
        let (text, length) = (read.text.to_owned(), self.rest().len() - after.len());
        let Some(inside) = text.strip_prefix('(').and_then(|text| text.strip_suffix(')')) else {
            return self.push(Item::Attribute(text), length);
        };
        // `(8, 8, 8.5)` behind the sets; `102.5 kg (85%)`, which says the load once more.
        let counted =
            self.out.iter().filter(|placed| matches!(placed.item, Item::Number(_) | Item::Load(..))).count() > 2;
        if let Some((end, all)) = efforts_listed(inside)
            && has_half(&all)
            && counted
            && end == inside.len()
        {
            let texts: Vec<String> = all.iter().map(|number| number.text()).collect();
            return self.push(Item::Attribute(format!("RPE {}", texts.join(","))), length);
        }
        let percent = digits(inside).is_some_and(|(end, _)| inside.tail(end).trim() == "%");
        if counted && percent {
            return self.push(Item::Attribute(text), length);
        }
        if self.meaning(&inside.to_lowercase()) == Some(Meaning::Bodyweight) {
            return self.push(Item::Load("bw".into(), LoadKind::Own), length);
        }
        let digits = inside.contains(|c: char| c.is_ascii_digit());
        // A number beside words may be what was done: `(got 4)`.
        let doubted = inside.contains('?') || inside.eq_ignore_ascii_case("x");
        let changes = doubted
            || undone::is_undone(inside)
            || if digits {
                changes_sets(inside) || !undone::is_beside_the_sets(inside)
            } else {
                changes_sets_inside(inside)
            };
        let said = |item| if changes { Item::Stray } else { item };
        let (mut inner, doubt) = items(inside, self.way);
        // `(e/s)`, but `(5 each)` says the reps once more, or others.
        let sides = inner.iter().filter(|placed| placed.item == Item::Side).count();
        let telling = |item: &Item| {
            matches!(
                item,
                Item::Load(..)
                    | Item::List(_)
                    | Item::Over(..)
                    | Item::Attribute(_)
                    | Item::By
                    | Item::At
                    | Item::Amount(_)
            )
        };
        if !digits {
            let side = sides == 1 && inner.len() == 1;
            return self.push(if side { Item::Side } else { said(Item::Attribute(text.clone())) }, length);
        }
        let foreign = inner.iter().any(|placed| matches!(placed.item, Item::Word | Item::Stray));
        let lone = inner.iter().all(|placed| matches!(placed.item, Item::Number(_)));
        let words = inner.iter().any(|placed| placed.item == Item::Word);
        if foreign && words && !inner.iter().any(|placed| telling(&placed.item)) {
            return self.push(said(Item::Attribute(text.clone())), length);
        }
        // `(30s)` is as often a rest as a pair of bells.
        let seconds = inner.iter().any(|placed| matches!(placed.item, Item::Load(_, LoadKind::Bells)));
        if foreign || lone || (sides > 0 && inner.len() == 2) || (seconds && !inside.contains('@')) {
            return self.push(Item::Stray, length);
        }
        self.comma_in_doubt = self.comma_in_doubt.max(doubt);
        for placed in &mut inner {
            placed.start += self.at + 1;
            placed.end += self.at + 1;
        }
        self.out.append(&mut inner);
        self.skip(length);
    }
}
