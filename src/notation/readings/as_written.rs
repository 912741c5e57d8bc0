//! Sets that stand in the notation as they are typed, though the bullet or the colon before them is missing, and in which no
//! habit of typing has a part: `3x5 @ 20 kg + 45`, chains in quotes, a set in bouts.

use super::names::Takes;
use super::numbers::{Number, heaviest};
use super::sets::{MOST_REPS, MOST_SETS};
use crate::notation::grammar::tokens::lexed;
use crate::notation::grammar::work;
use crate::notation::nodes::{Amount, AttributeKind, Group, Load, Scale, Sets, TermKind};
use crate::notation::tidy::spelled;
use crate::training::Unit;

/// The sets in their spelling, where each has its load and nothing in them is in doubt for a lift that takes this.
pub(super) fn as_written(text: &str, takes: Takes) -> Option<String> {
    lexed(text, |tokens| {
        let groups = work::in_full(tokens)?;
        let certain = groups.iter().all(|group| is_certain(group, takes));
        certain.then(|| groups.iter().map(spelled).collect::<Vec<_>>().join(", "))
    })
}

/// `10+5+3` of a lift of one's own weight and nothing else: a set in bouts, or sets one by one.
pub(super) fn bouts(text: &str, takes: Takes) -> Vec<String> {
    let reps = text.split('+').all(|reps| (1..=2).contains(&reps.len()) && reps.bytes().all(|b| b.is_ascii_digit()));
    let told = takes.own && !takes.held && text.contains('+') && reps;
    if told { vec![text.to_owned(), text.replace('+', ",")] } else { Vec::new() }
}

fn is_certain(group: &Group<'_>, takes: Takes) -> bool {
    let load = group.load.as_ref().is_some_and(|load| suits(load, takes));
    let count = match &group.count.sets {
        Sets::Times { low, each, .. } => {
            // `8x3`: which of them are the sets is asked.
            let told = match each {
                Amount::Reps { low: reps, .. } => *low <= 6 || low <= reps,
                _ => true,
            };
            *low <= MOST_SETS && told && is_done(each, takes)
        }
        Sets::List(amounts) => amounts.len() <= MOST_SETS as usize && amounts.iter().all(|each| is_done(each, takes)),
    };
    load && count && group.attributes.iter().all(|attribute| is_plain(&attribute.kind))
}

/// Whether a set of this lift can be that: a lift that is held or carried takes no bare count, and no other a time.
fn is_done(amount: &Amount, takes: Takes) -> bool {
    let counted = !takes.held && !takes.carried;
    match amount {
        Amount::Reps { low, .. } => counted && (1..=MOST_REPS).contains(low),
        Amount::Bouts(reps) => counted && reps.iter().all(|reps| (1..=MOST_REPS).contains(reps)),
        Amount::Seconds { .. } | Amount::Distance { .. } => !counted || takes.anything,
        Amount::AtLeast(_) | Amount::AsManyAsPossible => false,
    }
}

/// Whether the lift takes the load: its own weight where it has one, a mass with its unit where it has none. A colour of
/// plates that the gym may not have is none of the notation's business.
fn suits(load: &Load<'_>, takes: Takes) -> bool {
    let known =
        std::iter::once(&load.first).chain(load.more.iter().map(|(_, term)| term)).all(|term| match term.kind {
            // `20 min @ 150`: watts.
            TermKind::Mass(_, _, None) if takes.machine => false,
            TermKind::Mass(plates, number, unit) => {
                let in_pounds = unit.map_or(takes.unit == "lb", |unit| unit == Unit::Lb);
                number.thousandths.saturating_mul(i64::from(plates)) <= heaviest(in_pounds)
            }
            TermKind::Named(None, name) => name.eq_ignore_ascii_case("bar"),
            TermKind::Named(..) => false,
            TermKind::Bodyweight | TermKind::Quoted(_) | TermKind::Pin(_) | TermKind::Percent(_) => true,
        });
    known
        && match load.first.kind {
            TermKind::Bodyweight => takes.own || takes.anything,
            TermKind::Mass(_, number, unit) => !takes.own && (unit.is_some() || number.thousandths > 20_000),
            _ => !takes.own,
        }
}

/// A remark may say something of the sets, which is for the habits to find.
fn is_plain(attribute: &AttributeKind<'_>) -> bool {
    let effort = |number: &crate::notation::nodes::Number| Number { thousandths: number.thousandths }.is_effort();
    match attribute {
        AttributeKind::Remark(_) => false,
        AttributeKind::Effort(Scale::Rpe, low, high) => effort(low) && effort(high),
        AttributeKind::Efforts(Scale::Rpe, all) => all.iter().all(effort),
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::{Takes, as_written};

    #[test]
    fn what_stands_in_the_notation_is_read_as_it_is_and_nothing_else() {
        let bar = Takes { bar: true, unit: "kg", ..Takes::default() };
        for (text, read) in [
            ("3x5@20 kg+45", Some("3x5 @ 20 kg + 45")),
            ("3x5 @ 60kg + \"chains\" RPE 8", Some("3x5 @ 60 kg + \"chains\" RPE 8")),
            ("2x5+5+5 @ 60 kg", Some("2x5+5+5 @ 60 kg")),
            ("5 @ 60 kg, 2x5 @ 20 kg + 45", Some("5 @ 60 kg, 2x5 @ 20 kg + 45")),
            // No load, or one that might be an effort.
            ("2x5+5+5", None),
            ("3x5 @ 8 + 2", None),
            ("3x5 @ bw + 20 kg", None),
            // A lift that is counted is not held.
            ("3x20s @ 20 kg + 45", None),
            ("12x5 @ 20 kg + 45", None),
            ("3x5 @ 20 kg + 45 RPE 4", None),
            ("3x5 @ 20 kg + 45 (last one failed)", None),
            ("3x5 @ 300 kg + 501", None),
        ] {
            assert_eq!(as_written(text, bar).as_deref(), read, "{text}");
        }
        let own = Takes { own: true, unit: "kg", ..Takes::default() };
        assert_eq!(as_written("8,8 @ bw + 20 kg - \"band\"", own).as_deref(), Some("8,8 @ bw + 20 kg - \"band\""));
        assert_eq!(as_written("8,8 @ 20 kg + 45", own), None);
    }
}
