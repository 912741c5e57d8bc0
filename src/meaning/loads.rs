//! Loads: terms looked up in the gym's gear and added up.

use super::context::Context;
use crate::notation::nodes::{Load as Written, Number, Sign, Term, TermKind};
use crate::problems::{Problem, ProblemKind as K, nearest};
use crate::source::{Cut, Page, Span};
use crate::training::{Load, Mass, Plate, Substance, Unit};

/// A number from which on `@ 8` could as well be an effort.
const EFFORTS: std::ops::RangeInclusive<i64> = 5_000..=10_000;

/// What a written load comes to, or the problem that costs its line. Warnings go to `problems`.
pub(crate) fn load(
    context: &Context<'_>,
    page: &Page,
    written: &Written<'_>,
    problems: &mut Vec<Problem>,
) -> Result<Load, Box<Problem>> {
    let fault = |kind| Problem::new(kind, Span::of(page.text(), written.text));
    if let (TermKind::Mass(1, number, unit), true, false) =
        (written.first.kind, written.more.is_empty(), written.first.per_side)
    {
        if let Some(problem) = asked(context, page, written) {
            return Err(Box::new(problem));
        }
        return Ok(Load::Plain {
            thousandths: number.thousandths,
            unit: unit.unwrap_or(context.units),
            unit_written: unit.is_some(),
            approximate: written.approximate,
        });
    }
    if let TermKind::Percent(number) = written.first.kind {
        return Ok(Load::Percent(number.thousandths));
    }
    let mut sum = Sum {
        context,
        unit: context.units,
        mass: Mass::ZERO,
        own: 0,
        pin: None,
        quoted: false,
        bar: false,
        text: String::new(),
        plates: Vec::new(),
    };
    sum.term(Sign::Plus, &written.first).map_err(|kind| Box::new(fault(kind)))?;
    for (sign, term) in &written.more {
        sum.text.push_str(if *sign == Sign::Plus { " + " } else { " - " });
        sum.term(*sign, term).map_err(|kind| Box::new(fault(kind)))?;
    }
    for (plate, count) in &sum.plates {
        let owned = plate.pairs.map_or(u32::MAX, |pairs| pairs.saturating_mul(2));
        if *count > owned {
            let plate = match &plate.colour {
                Some(colour) => format!("{} ({colour})", plate.text),
                None => plate.text.clone(),
            };
            problems.push(fault(K::PlatesNotOwned { plate, written: *count, owned }));
        }
    }
    let substance = match (sum.quoted, sum.pin, sum.own) {
        (true, ..) => Substance::Quoted,
        (_, Some(pin), 0) => Substance::Pin(pin, sum.mass),
        (_, None, 0) if sum.mass.is_negative() => {
            return Err(Box::new(fault(K::NegativeLoad { read: written.text.into() })));
        }
        (_, None, 0) => Substance::Mass(sum.mass + if sum.bar { context.gear.collars } else { Mass::ZERO }),
        (_, None, 1) => Substance::Bodyweight(sum.mass),
        _ => return Err(Box::new(fault(K::UnreadLoad { read: written.text.into() }))),
    };
    Ok(Load::other(substance, sum.text, written.approximate))
}

/// The same question where an effort is written already, or none can be: the number is a load, and lacks
/// its unit.
pub(crate) fn as_load(page: &Page, problem: Problem) -> Problem {
    let K::LoadOrEffort { read, unit } = &problem.kind else { return problem };
    let at = if problem.span.text(page.text()).starts_with('@') { "@ " } else { "" };
    let (span, text) = (problem.span, format!("{at}{read} {unit}"));
    problem.with_fix(span, text)
}

/// The number that a load is, where it could as well be an effort.
fn like_effort(written: &Written<'_>) -> Option<Number> {
    match written.first.kind {
        TermKind::Mass(1, number, None) if written.more.is_empty() && !written.first.per_side => {
            Some(number).filter(|n| EFFORTS.contains(&n.thousandths) && n.thousandths % 500 == 0)
        }
        _ => None,
    }
}

/// The question whether a load is an effort, where it could be one.
pub(crate) fn asked(context: &Context<'_>, page: &Page, written: &Written<'_>) -> Option<Problem> {
    like_effort(written).map(|number| load_or_effort(context, page, written, number))
}

/// Nobody does more reps in a set and says how hard they were; such a number is a load.
const MOST_WITH_EFFORT: u32 = 50;

fn load_or_effort(context: &Context<'_>, page: &Page, written: &Written<'_>, number: Number) -> Problem {
    let read = crate::training::decimal(number.thousandths);
    let text = page.text();
    let span = Span::of(text, written.text);
    // The `@` goes with the number: `RPE 8` stands without one.
    let before = text.head(span.start as usize).trim_end();
    let at = if before.ends_with('@') { before.len() - 1 } else { span.start as usize };
    let place = Span::new(at, span.end as usize);
    let glued = if text.get(..at).is_some_and(|before| before.ends_with([' ', '\t', '\u{a0}'])) { "" } else { " " };
    let fix = format!("{glued}RPE {read}");
    let problem = Problem::new(K::LoadOrEffort { read, unit: context.units.word() }, place);
    // `Squat: 100 @ 8`: with an effort the hundred would be reps.
    let line = before.rsplit('\n').next().map_or(before, |line| line.rsplit(':').next().unwrap_or(line));
    let reps = line.trim_end_matches('@').split(|c: char| !c.is_ascii_digit()).filter_map(|n| n.parse::<u32>().ok());
    if reps.max().is_some_and(|reps| reps > MOST_WITH_EFFORT) { problem } else { problem.with_fix(place, fix) }
}

/// Terms added up.
struct Sum<'c> {
    context: &'c Context<'c>,
    /// Of numbers without a unit: that of the mass before.
    unit: Unit,
    mass: Mass,
    own: u32,
    pin: Option<i64>,
    quoted: bool,
    bar: bool,
    text: String,
    plates: Vec<(&'c Plate, u32)>,
}

impl<'c> Sum<'c> {
    fn add(&mut self, sign: Sign, mass: Mass) {
        self.mass = if sign == Sign::Plus { self.mass + mass } else { self.mass - mass };
    }

    fn term(&mut self, sign: Sign, term: &Term<'_>) -> Result<(), K> {
        let sides = if term.per_side { 2 } else { 1 };
        match term.kind {
            TermKind::Mass(times, number, unit) => {
                let written = unit;
                self.unit = unit.unwrap_or(self.unit);
                let one = Mass::of(number.thousandths, self.unit);
                self.add(sign, one.times(times * sides));
                if term.per_side {
                    self.hang(one, times * sides);
                }
                if times > 1 {
                    self.text.push_str(&format!("{times}x"));
                }
                self.text.push_str(&crate::training::decimal(number.thousandths));
                if let Some(unit) = written {
                    self.text.push(' ');
                    self.text.push_str(unit.word());
                }
            }
            TermKind::Named(count, words) => self.named(sign, count, words, sides)?,
            TermKind::Bodyweight => {
                if sign == Sign::Minus {
                    return Err(K::UnreadLoad { read: term.text.into() });
                }
                self.own += 1;
                self.text.push_str("bw");
            }
            TermKind::Quoted(inside) => {
                self.quoted = true;
                self.text.push('"');
                self.text.push_str(inside.trim());
                self.text.push('"');
            }
            TermKind::Pin(number) => {
                self.pin = Some(number.thousandths);
                self.text.push_str("pin ");
                self.text.push_str(&crate::training::decimal(number.thousandths));
            }
            TermKind::Percent(_) => return Err(K::UnreadLoad { read: term.text.into() }),
        }
        if term.per_side {
            self.text.push_str("/side");
        }
        Ok(())
    }

    fn named(&mut self, sign: Sign, count: Option<u32>, words: &str, sides: u32) -> Result<(), K> {
        let gear = self.context.gear;
        let spelled: Vec<&str> = words.split_whitespace().collect();
        if let (Some(bar), None, 1) = (gear.bar(words), count, sides) {
            self.bar = true;
            self.add(sign, bar.mass);
        } else if let Some(plate) = gear.colour(words) {
            let count = count.unwrap_or(1);
            self.add(sign, plate.mass.times(count.saturating_mul(sides)));
            self.hang(plate.mass, count.saturating_mul(sides));
        } else {
            let near = nearest(words, gear.names());
            let near = if near.is_empty() { gear.names() } else { near };
            return Err(K::UnknownGear { read: words.into(), near: near.into_iter().map(str::to_owned).collect() });
        }
        if let Some(count) = count {
            self.text.push_str(&format!("{count} "));
        }
        self.text.push_str(&spelled.join(" "));
        Ok(())
    }

    /// Counts plates against those owned.
    fn hang(&mut self, mass: Mass, count: u32) {
        let Some(plate) = self.context.gear.plates.iter().find(|plate| plate.mass == mass && plate.pairs.is_some())
        else {
            return;
        };
        match self.plates.iter_mut().find(|(known, _)| known.mass == mass) {
            Some((_, sum)) => *sum = sum.saturating_add(count),
            None => self.plates.push((plate, count)),
        }
    }
}
