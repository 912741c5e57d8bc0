//! `plates` as text: what to hang first, then the bar drawn.

use crate::present::bar::{Disc, draw};
use crate::present::doc::Picture;
use crate::present::{Doc, Role, Typeset, wording};
use crate::questions::plates::{Answer, Before, Hung, Moves, Nearest, Run};
use crate::training::{Mass, Unit, shown_in};

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let nearest = match answer.nearest {
        Nearest::Exact => &answer.exact,
        Nearest::Below => &answer.below,
        Nearest::Above => &answer.above,
    };
    let Some(nearest) = nearest else { return out };
    let load = wording::weighed(&answer.load);
    let bar = &answer.bar.name;
    let title = match &answer.exact {
        Some(hung) => format!("{load} on {bar}: {}", what_to_do(hung)),
        None => {
            let near = format!("{}, {}", total(nearest, answer), off(nearest, answer.unit));
            format!("{load} cannot be made exactly on {bar}; the nearest is {near}")
        }
    };
    out.wrapped(Role::Answer, &title, 2);
    if let Some(before) = &answer.from {
        out.wrapped(Role::Plain, format!("before: {}", hung_before(before, answer.unit)), 2);
    }
    match &answer.exact {
        Some(hung) => {
            if let Some(change) = &hung.change {
                out.wrapped(Role::Plain, format!("after: {}", runs(&change.side)), 2);
            }
        }
        None => {
            for (word, hung) in [("lighter", &answer.below), ("heavier", &answer.above)] {
                match hung {
                    Some(hung) => out.append(neighbour(word, hung, answer)),
                    None => {
                        out.wrapped(Role::Caution, format!("{word}: none, the plates run out"), 2);
                    }
                }
            }
        }
    }
    if nearest.total != answer.bar.mass {
        out.wrapped(Role::Place, sum(answer, nearest), 2);
    }
    out.append(drawing(answer, nearest));
    out
}

/// The nearest load on one side of the one asked for.
fn neighbour(word: &str, hung: &Hung, answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let title = format!("{word}: {}, {}: {}", total(hung, answer), off(hung, answer.unit), what_to_do(hung));
    out.wrapped(Role::Plain, &title, 2);
    if let Some(change) = &hung.change {
        out.wrapped(Role::Plain, format!("  after: {}", runs(&change.side)), 4);
    }
    out
}

/// `180 kg, 3x25 kg red + 2.5 kg`: what hung before, from the inside out.
fn hung_before(before: &Before, unit: Unit) -> String {
    let load = wording::weighed(&before.load);
    let hung = in_units(before.total, unit);
    let as_asked = before.load.kilograms.is_some_and(|asked| in_units(asked, unit) == hung);
    let hung = if as_asked { String::new() } else { format!(", hung as {hung}") };
    format!("{load}{hung}, {}", runs(&before.side))
}

/// What to hang, or what to change where something hangs already.
fn what_to_do(hung: &Hung) -> String {
    match &hung.change {
        Some(change) => moves(change),
        None => each_side(&hung.side),
    }
}

/// `3x25 kg red + 10 kg green each side`
fn each_side(side: &[Run]) -> String {
    if side.is_empty() { "no plates".into() } else { format!("{} each side", runs(side)) }
}

/// `3x25 kg red + 10 kg green`
fn runs(runs: &[Run]) -> String {
    if runs.is_empty() {
        return "no plates".into();
    }
    let one = |run: &Run| {
        let times = if run.count > 1 { format!("{}x", run.count) } else { String::new() };
        let colour = run.colour.as_ref().map_or(String::new(), |colour| format!(" {colour}"));
        format!("{times}{}{colour}", run.plate)
    };
    runs.iter().map(one).collect::<Vec<_>>().join(" + ")
}

/// `take off 2.5 kg, put on 10 kg green, each side`
fn moves(moves: &Moves) -> String {
    match (moves.off.is_empty(), moves.on.is_empty()) {
        (true, true) => "nothing to change".into(),
        (true, false) => format!("put on {} each side", runs(&moves.on)),
        (false, true) => format!("take off {} each side", runs(&moves.off)),
        (false, false) => format!("take off {}, put on {}, each side", runs(&moves.off), runs(&moves.on)),
    }
}

fn total(hung: &Hung, answer: &Answer) -> String {
    in_units(hung.total, answer.unit)
}

/// A mass in the unit that it was asked in, and in the one that masses are told in.
fn in_units(mass: Mass, unit: Unit) -> String {
    if unit == shown_in() { mass.to_string() } else { format!("{} ({mass})", wording::mass(mass, unit)) }
}

/// `0.45 lb too light`
pub(super) fn off(hung: &Hung, unit: Unit) -> String {
    let apart = hung.off.apart(Mass::ZERO);
    let number = match apart.rounded_in(unit) {
        0.0 => "under 0.01".to_owned(),
        number => number.to_string(),
    };
    format!("{number} {} {}", unit.word(), if hung.off.is_negative() { "too light" } else { "too heavy" })
}

/// `bar 20 kg + collars 5 kg + 2 x 37.5 kg = 100 kg`
fn sum(answer: &Answer, hung: &Hung) -> String {
    let mut out = format!("{} {}", answer.bar.name, answer.bar.mass.written());
    if answer.collars != Mass::ZERO {
        out.push_str(&format!(" + collars {}", answer.collars.written()));
    }
    if !hung.side.is_empty() {
        out.push_str(&format!(" + 2 x {}", hung.side_mass.written()));
    }
    format!("{out} = {}", total(hung, answer))
}

/// One side of the bar, or nothing on a screen too narrow for it. Plates of one kind share a box where
/// there is no room for a box each.
fn drawing(answer: &Answer, hung: &Hung) -> Doc {
    let side = hung.change.as_ref().map_or(&hung.side, |change| &change.side);
    let number = numbers_of(side);
    let each: Vec<Disc> = side
        .iter()
        .flat_map(|run| (0..run.count).map(|_| Disc { label: number(run), reach: reach(run.mass) }))
        .collect();
    let kinds: Vec<Disc> = side
        .iter()
        .map(|run| {
            let times = if run.count > 1 { format!("{}x", run.count) } else { String::new() };
            Disc { label: format!("{times}{}", number(run)), reach: reach(run.mass) }
        })
        .collect();
    let mut out = Doc::new();
    out.picture(Side { each, kinds, collar: answer.collars != Mass::ZERO });
    out
}

/// How the plates of a side are named in short: by their numbers, with the unit where they are of two.
pub(super) fn numbers_of(side: &[Run]) -> impl Fn(&Run) -> String + Copy + use<> {
    let mixed = side.iter().any(|run| side.first().is_some_and(|first| first.mass.unit() != run.mass.unit()));
    move |run| {
        if mixed { run.plate.replace(' ', "") } else { run.plate.split(' ').next().unwrap_or_default().to_owned() }
    }
}

/// One side of a bar.
#[derive(Debug)]
struct Side {
    /// A box for each plate.
    each: Vec<Disc>,
    /// A box for each kind.
    kinds: Vec<Disc>,
    collar: bool,
}

impl Picture for Side {
    fn draw(&self, screen: usize) -> Typeset {
        let mut out = Typeset::new();
        let lines = draw(&self.each, self.collar, screen).or_else(|| draw(&self.kinds, self.collar, screen));
        if let Some(lines) = lines {
            out.gap();
            lines.into_iter().for_each(|line| out.line(Role::Plain, line));
        }
        out
    }
}

/// How far a plate reaches above and below the bar, in lines. It tells big from small, and is to no scale.
fn reach(mass: Mass) -> usize {
    match mass {
        mass if mass >= Mass::kg(20) => 3,
        mass if mass >= Mass::kg(10) => 2,
        _ => 1,
    }
}
