//! The lift that a line is about.

use crate::notation::grammar::lexer::is_space;
use crate::training::{Family, LiftBook, fold, fold_on, singular};

/// What a lift can be loaded with and counted in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Takes {
    /// Of the lifter's own weight: takes `bw`, `+` and `-`.
    pub own: bool,
    /// Of the lifter's own weight, or with a bar or bells.
    pub bar: bool,
    /// Held for a time.
    pub held: bool,
    /// Carried, dragged or run over a distance, or done for a time.
    pub carried: bool,
    /// Not known well enough to rule anything out.
    pub anything: bool,
    /// Carried, but with nothing in the hands: run, ridden, climbed.
    pub machine: bool,
    /// Worked one side at a time.
    pub one_side: bool,
    /// Named as `weighted`: a mass is on top of the lifter's own.
    pub added: bool,
    /// Named as `assisted`: a mass is what helps.
    pub helped: bool,
    /// The unit of bare loads, `kg` or `lb`; the readings fill it in.
    pub unit: &'static str,
}

impl Takes {
    /// Whether a set of it is a number of reps and a load that must be written.
    pub fn counted_with_a_load(&self) -> bool {
        !self.own && !self.held && !self.carried
    }
}

/// A lift that is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// Its name as it is shown.
    pub name: String,
    /// What it takes.
    pub takes: Takes,
}

/// The names of lifts there are: those of the lift book, of the settings and of the journal.
pub trait Names {
    /// The lift of a folded name.
    fn lift(&self, folded: &str) -> Option<Named>;
    /// Names like one that is not known, the nearest first.
    fn near(&self, typed: &str) -> Vec<String>;
}

impl Names for LiftBook {
    fn lift(&self, folded: &str) -> Option<Named> {
        let entry = self.find_folded(folded)?;
        let takes = Takes {
            own: entry.bodyweight,
            bar: entry.bar,
            held: entry.held,
            carried: entry.carried,
            machine: entry.carried && entry.family != Family::Carry,
            anything: !self.is_built_in(folded),
            one_side: entry.one_side,
            added: false,
            helped: false,
            unit: "",
        };
        Some(Named { name: entry.name.clone(), takes })
    }

    fn near(&self, typed: &str) -> Vec<String> {
        LiftBook::near(self, typed).into_iter().map(str::to_owned).collect()
    }
}

/// Names have no more words.
const MOST_WORDS: usize = 6;

/// The longest lift's name that a text begins with, and where it ends.
pub(super) fn leading(text: &str, names: &dyn Names) -> Option<(Named, usize)> {
    let mut found = None;
    // Each piece is the one before with a word more.
    let (mut folded, mut done) = (String::new(), 0);
    for (nth, end) in word_ends(text).take(MOST_WORDS * 2).enumerate() {
        fold_on(text.get(done..end)?, &mut folded);
        done = end;
        if nth == 0 && !folded.starts_with(|c: char| c.is_alphanumeric()) {
            return None;
        }
        if let Some(named) = known(text.get(..end)?, &singular(&folded), names) {
            found = Some((named, end));
        }
    }
    found
}

/// A name, with the trade's short forms for what is held in the hands: DB, BB, KB.
pub(super) fn known(piece: &str, folded: &str, names: &dyn Names) -> Option<Named> {
    if let Some(named) = names.lift(folded) {
        return Some(named);
    }
    let (first, lift) = piece.split_once(is_space)?;
    let short = [("db", "dumbbell"), ("bb", "barbell"), ("kb", "kettlebell")];
    let (_, long) = short.into_iter().find(|(short, _)| first.eq_ignore_ascii_case(short))?;
    let with = names.lift(&fold(&format!("{long} {lift}")));
    // A barbell lift's plain name is that of the bar.
    with.or_else(|| names.lift(&fold(lift)).filter(|named| long == "barbell" && !named.takes.own))
}

/// The lift of a name with a word in parentheses behind it: `RDL (DB)`, `bench (close grip)`.
pub(super) fn variant(name: &str, inside: &str, names: &dyn Names) -> Option<Named> {
    let of = |name: String| known(&name, &fold(&name), names);
    // `Squat (lb)` says what its numbers are of.
    if is_unit(inside) {
        return None;
    }
    of(format!("{} {name}", inside.trim())).or_else(|| of(format!("{name} {}", inside.trim())))
}

/// Whether words say a unit of loads and nothing else: `lb`, `in kg`.
pub fn is_unit(words: &str) -> bool {
    let unit = words.trim().to_lowercase();
    matches!(unit.trim_start_matches("in ").trim_end_matches('s'), "lb" | "kg" | "pound" | "kilo")
}

/// `ez curl 20kg+bar`: the bar is not the one that the journal knows the mass of. A high-bar squat has that one.
pub(super) fn of_another_bar(name: &str, sets: &str) -> bool {
    let words = |text: &str| -> Vec<String> {
        text.split(|c: char| !c.is_alphanumeric() && c != '\'').map(str::to_lowercase).collect()
    };
    let named = words(name);
    let other =
        named.windows(2).any(|pair| matches!(pair, [which, bar] if bar == "bar" && which != "high" && which != "low"));
    other && words(sets).iter().any(|word| word == "bar")
}

/// Where the words of a text end: at a blank, a colon, a number or the text's end.
fn word_ends(text: &str) -> impl Iterator<Item = usize> + '_ {
    let joins = |c: char| c.is_alphanumeric() || matches!(c, '\'' | '\u{2019}' | '&');
    let signs = text.char_indices().map(move |(at, c)| (at, joins(c))).chain([(text.len(), false)]);
    let mut before = false;
    signs.filter_map(move |(at, inside)| {
        let ends = before && !inside;
        before = inside;
        ends.then_some(at)
    })
}
