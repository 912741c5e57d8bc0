//! Lines of a session that the notation does not read, as people type them: each is read, refused, or prose.
//!
//! What is read is written in the notation in the line's place, and the page read again with it: so a page says the same
//! before and after it is tidied, by the way it is read.

use super::above::{Above, Here, Name, Run};
use super::context::Context;
use super::found::Found;
use crate::notation::nodes::{Body, DetailKey, Group, Line, LineKind};
use crate::notation::readings::{self, Choice, Fate, LeftOver, Named, Names, Place, readings};
use crate::notation::{trim_start, without_end};
use crate::problems::{Choice as Offer, Cost, Problem, ProblemKind as K, Unread};
use crate::source::{Edit, Page, Span};
use crate::training::{Unit, fold};
use std::cell::Cell;
use std::collections::HashMap;

/// What was decided about lines that are not taken as they stand.
#[derive(Debug, Default)]
pub(super) struct Decided {
    /// By the line's number.
    pub(super) verdicts: HashMap<u32, Verdict>,
    /// The lines in the notation.
    pub(super) edits: Vec<Edit>,
    /// What is said of them.
    pub(super) problems: Found,
}

/// What becomes of a line.
#[derive(Clone, Copy, Debug)]
pub(super) enum Verdict {
    /// It is read otherwise than it stands, which is said.
    Loose,
    /// It counts nowhere, which is said; whether it may name a lift of another page.
    Refused { waits: bool },
    /// It is none of the notation, whatever it looks like.
    Prose,
    /// It is what it is, and something in it counts nowhere, which is said.
    Said,
}

/// Of more lines that are not understood than this on one page, the others are only refused.
const MOST_NEAR: u32 = 100;

/// The names there are, asked for near ones only so often.
pub(super) struct Known<'c, 'a> {
    context: &'c Context<'a>,
    left: Cell<u32>,
}

impl Names for Known<'_, '_> {
    fn lift(&self, folded: &str) -> Option<Named> {
        self.context.lift(folded)
    }

    fn near(&self, typed: &str) -> Vec<String> {
        let left = self.left.get();
        self.left.set(left.saturating_sub(1));
        if left == 0 { Vec::new() } else { self.context.near(typed) }
    }
}

/// Decides line after line.
pub(super) struct Looser<'c, 'a> {
    pub(super) context: &'c Context<'a>,
    pub(super) names: Known<'c, 'a>,
    pub(super) page: &'c Page,
    pub(super) unit: &'static str,
    /// What stands round the line that is looked at.
    pub(super) here: Here,
    /// Its number.
    pub(super) number: u32,
    /// Work that stands in no session.
    pub(super) run: Option<Run>,
    /// Names of work lines, and whether each is no lift's.
    pub(super) no_lifts: foldhash::HashMap<String, bool>,
    /// How many lines that are not read are still asked what is wrong with them.
    looks_left: u32,
    pub(super) decided: Decided,
}

impl<'c, 'a> Looser<'c, 'a> {
    pub(super) fn new(context: &'c Context<'a>, page: &'c Page) -> Self {
        let unit = if context.units == Unit::Lb { "lb" } else { "kg" };
        Looser {
            context,
            names: Known { context, left: Cell::new(MOST_NEAR) },
            page,
            unit,
            here: Here::default(),
            number: 0,
            run: None,
            no_lifts: foldhash::HashMap::default(),
            looks_left: MOST_NEAR,
            decided: Decided { problems: Found::new(context.keep), ..Decided::default() },
        }
    }

    /// Looks at the next line, of that number; what becomes of it, where it is not taken as it stands.
    pub(super) fn see(&mut self, line: &Line<'_>, number: u32) -> Option<Verdict> {
        self.number = number;
        if line.blank {
            self.blank();
            return None;
        }
        let text = without_end(line.text);
        let verdict = self.by_its_place(line, text).unwrap_or_else(|| self.by_itself(line, text));
        if let Some(verdict) = verdict {
            self.decided.verdicts.insert(number, verdict);
            if matches!(verdict, Verdict::Prose) {
                self.decided.problems.keep_words(self.whole(text));
            }
        }
        verdict
    }

    /// What becomes of a line that only the lines above it tell about.
    fn by_itself(&mut self, line: &Line<'_>, text: &str) -> Option<Verdict> {
        let indent = || text.len() - trim_start(text).len();
        let faulty = line.problems.iter().any(|problem| problem.kind.cost() == Cost::Line);
        // Rows that were read stand in the notation once they are tidied, and those below them are rows all the same.
        if !matches!(line.kind, LineKind::Prose | LineKind::Work(_) | LineKind::SetLine(_) | LineKind::Detail(_)) {
            self.here.table = None;
        }
        match &line.kind {
            LineKind::Work(work) if !faulty && self.lacks_load(work, text) => {
                let lift = self.context.lift(&fold(work.name));
                Some(self.refused(text, K::UnreadWork { why: Unread::Load }, &[], &[], lift))
            }
            LineKind::Work(work) if !faulty && !undone(text) && !self.in_doubt(work) => {
                let follows =
                    matches!(&work.body, Body::Groups(groups) if groups.iter().any(|group| group.load.is_some()));
                let open = matches!(work.body, Body::Nothing);
                self.here.above =
                    Above::Work { name: self.name_at(work.name), indent: indent(), follows, open, apart: false };
                None
            }
            LineKind::Work(work) => {
                let name = self.name_at(work.name);
                // Of a load that comes late the notation says more than that it cannot be read.
                let late = matches!(&work.body, Body::Groups(groups) if !faulty && comes_late(groups))
                    && self.context.lift(&fold(work.name)).is_some_and(|named| named.takes.counted_with_a_load());
                let told =
                    matches!(&work.body, Body::Groups(groups) if groups.iter().any(|group| group.load.is_some()));
                let verdict = self.typed(text, indent(), &line.problems, late);
                // A fault in one of its sets makes no prose of the others.
                let verdict = verdict.filter(|verdict| !told || !faulty || !matches!(verdict, Verdict::Prose));
                if let Above::Refused(_, details) = &mut self.here.above {
                    *details = true;
                }
                // `- Goal: 3x5 @ 120 kg` is no lift, and looks like training all the same.
                if told && !faulty && matches!(verdict, Some(Verdict::Prose)) {
                    let kind = K::UnreadWork { why: Unread::NoLift { name: work.name.to_owned() } };
                    return Some(self.refused(text, kind, &[], &[], None));
                }
                // Sets below `- Peso: 61,3` are not those of the lift above it.
                if matches!(verdict, Some(Verdict::Prose)) {
                    self.here.above = Above::Unknown(None);
                }
                if verdict.is_none() {
                    self.here.above = Above::Work { name, indent: indent(), follows: false, open: false, apart: false };
                }
                verdict
            }
            LineKind::SetLine(_) if !faulty && matches!(self.here.above, Above::Unknown(_)) => {
                Some(self.of_no_lift(text))
            }
            LineKind::SetLine(_) if faulty || !matches!(self.here.above, Above::Work { .. } | Above::Nothing) => {
                self.typed(text, indent(), &line.problems, false)
            }
            LineKind::SetLine(groups)
                if matches!(self.here.above, Above::Work { follows: false, .. })
                    && groups.iter().all(|group| group.load.is_none())
                    && self.load_follows(text)
                    && self.place(text, indent()).0.is_some_and(|lift| lift.takes.counted_with_a_load()) =>
            {
                let lift = self.place(text, indent()).0;
                Some(self.refused(text, K::UnreadWork { why: Unread::Load }, &[], &[], lift))
            }
            LineKind::SetLine(groups) => {
                if let Above::Work { follows, .. } = &mut self.here.above {
                    *follows |= groups.iter().any(|group| group.load.is_some());
                }
                None
            }
            LineKind::Detail(detail) if faulty && matches!(detail.key, DetailKey::Plan | DetailKey::WarmUp) => {
                self.below(text, indent(), &line.problems)
            }
            LineKind::Detail(_) => {
                self.take_lift();
                matches!(self.here.above, Above::Unknown(_) | Above::Refused(_, false)).then(|| self.of_no_lift(text))
            }
            LineKind::Prose if line.typed && line.problems.is_empty() => self.typed(text, indent(), &[], false),
            // `- plan: 3x5 @ 100 kg` below a lift alone on its line, or below work that is read from a loose line.
            LineKind::Prose
                if line.typed
                    && matches!(self.here.above, Above::Lift { .. } | Above::Work { name: Name::Written(_), .. })
                    && of_detail(&line.problems) =>
            {
                self.below(text, indent(), &[])
            }
            _ => {
                self.apart();
                self.here.table = None;
                None
            }
        }
    }

    /// Other lines than sets stand between what is above and the next line.
    pub(super) fn apart(&mut self) {
        if matches!(self.here.above, Above::Nothing | Above::Work { open: false, apart: true, .. } | Above::Unknown(_))
        {
            return;
        }
        self.here.above = std::mem::take(&mut self.here.above).apart(self.page);
    }

    /// Sets, or a detail, that the notation would give to another lift than the one they stand below.
    fn of_no_lift(&mut self, text: &str) -> Verdict {
        let above = std::mem::take(&mut self.here.above);
        let kind = match &above {
            Above::Unknown(Some(name)) => K::UnknownLift { name: name.clone(), near: Vec::new() },
            _ => K::UnreadWork { why: Unread::Below },
        };
        let refused = self.refused(text, kind, &[], &[], None);
        self.here.above = above;
        refused
    }

    /// What a line stands below: a lift, or a name that is none; and whether sets with a load stand between.
    pub(super) fn place(&self, text: &str, indent: usize) -> (Option<Named>, Option<String>, bool) {
        match &self.here.above {
            Above::Work { name, indent: out, follows, open, apart }
                if (indent > *out && (!*apart || crate::notation::is_bullet(text))) || (*open && indent == *out) =>
            {
                let name = name.text(self.page);
                let known = self.context.lift(&fold(name)).unwrap_or_else(|| Named {
                    name: name.to_owned(),
                    takes: readings::Takes { anything: true, ..readings::Takes::default() },
                });
                (Some(known), None, *follows)
            }
            // `then 110 kg x 3` goes on with the lift of the line above it.
            Above::Work { name, indent: out, follows, apart: false, .. }
                if indent == *out && readings::goes_on(text) =>
            {
                let name = name.text(self.page);
                self.context.lift(&fold(name)).map_or((None, None, false), |known| (Some(known), None, *follows))
            }
            Above::Lift { named, indent: out, follows, .. } if indent >= *out => (Some(named.clone()), None, *follows),
            Above::Refused(named, _) => (Some(named.clone()), None, false),
            Above::Unknown(Some(name)) => (None, Some(name.clone()), false),
            _ => (None, None, false),
        }
    }

    /// A plan or a warm-up below a lift, loosely typed.
    fn below(&mut self, text: &str, indent: usize, faults: &[Problem]) -> Option<Verdict> {
        let (lift, _, follows) = self.place(text, indent);
        let place = Place { lift: lift.as_ref(), unknown: None, follows };
        match self.fate(text, place) {
            // In the notation already, once the line above is.
            Fate::Read(choice) if matches!(self.here.above, Above::Work { .. }) && text.ends_with(&choice.text) => None,
            Fate::Read(choice) if choice.below && !matches!(self.here.above, Above::Refused(..)) => {
                Some(self.read(text, indent, choice))
            }
            fate @ Fate::Several(_) => self.in_question(text, fate, faults, lift),
            _ => None,
        }
    }

    /// A line that the notation does not read, or not for certain. `stands`: without a reading it is the notation's still.
    fn typed(&mut self, text: &str, indent: usize, faults: &[Problem], stands: bool) -> Option<Verdict> {
        let context = self.context;
        if faults.is_empty() && self.is_row(text) {
            return self.row(text);
        }
        // Most lines of words are no sets, and too long for a name.
        if faults.is_empty() && !readings::may_say_something(text) {
            self.here.table = None;
            if self.amended(text, indent, Fate::Prose).1 {
                return Some(self.says_otherwise(text, faults));
            }
            if !matches!(&self.here.above, Above::Work { indent: out, .. } if indent > *out) {
                self.apart();
            }
            return None;
        }
        if faults.is_empty()
            && let Some(named) = readings::lone_lift(text, context, context.habits)
        {
            let task = if text.contains("[x]") { "[x] " } else { "" };
            let written = format!("- {task}{}:", named.name);
            self.here.load_lost = false;
            self.lift_alone(named, text, written, indent, false);
            return None;
        }
        let (lift, unknown, follows) = self.place(text, indent);
        let (lift, unknown) = (lift.as_ref(), unknown.as_deref());
        let place = Place { lift, unknown, follows };
        let fate = self.fate(text, place);
        let (fate, amends) = self.amended(text, indent, fate);
        if amends {
            return Some(self.says_otherwise(text, faults));
        }
        if let Some(kind) = self.not_done(text, &fate) {
            return Some(self.refused(text, kind, &[], faults, lift.cloned()));
        }
        match fate {
            Fate::Read(choice) if self.lacks_its_load(text, &choice, lift) => {
                let lift = lift.cloned().or_else(|| readings::lift_of(text, context, context.habits));
                Some(self.refused(text, K::UnreadWork { why: Unread::Load }, &[], faults, lift))
            }
            // A warm-up below a refused line has no lift to stand below.
            Fate::Read(choice) if choice.is_detail() && matches!(self.here.above, Above::Refused(..)) => {
                Some(self.refused(text, self.unread_work(None), &[], faults, lift.cloned()))
            }
            Fate::Read(choice) if choice.is_fact() => {
                self.here.table = None;
                Some(self.fact(text, choice))
            }
            Fate::Read(choice) => match self.in_the_other_unit(text, &choice) {
                Some(other) => {
                    let named = lift.cloned();
                    Some(self.refused(text, K::SeveralReadings { ways: 2 }, &[other, choice], faults, named))
                }
                None => Some(self.read(text, indent, choice)),
            },
            Fate::Several(_) | Fate::UnknownLift(..) => self.in_question(text, fate, faults, lift.cloned()),
            Fate::Unread if stands => None,
            Fate::Unread => {
                let left_over = self.left_over(text, place);
                Some(self.refused(text, self.unread_work(left_over), &[], faults, lift.cloned()))
            }
            // `finally 1 x 90 kg` right below a lift is a set of it, whatever else it says.
            Fate::Prose if lift.is_some() && readings::has_a_set(text) => {
                Some(self.refused(text, self.unread_work(None), &[], faults, lift.cloned()))
            }
            // `felt good`, `rest 3 min`: what follows is still the lift's.
            Fate::Prose if !crate::notation::is_bullet(text) && readings::is_mere_remark(text, context) => {
                self.here.table = None;
                None
            }
            Fate::Prose if !faults.is_empty() || text.contains(':') => {
                // Faults of a line that names no lift are none: it is prose.
                self.here.table = None;
                self.apart();
                let named = text.split_once(':').is_some_and(|(name, _)| {
                    let name = name.trim_start_matches(|c: char| c == '-' || c == '*' || c == '+' || c.is_whitespace());
                    context.lift(&fold(crate::notation::bare_name(name))).is_some()
                });
                if named { None } else { Some(Verdict::Prose) }
            }
            Fate::Prose => {
                self.here.table = None;
                let inside = matches!(&self.here.above, Above::Work { indent: out, .. } if indent > *out);
                if !inside {
                    match readings::like_a_name(text) {
                        Some(name) => self.here.above = Above::Unknown(Some(name.to_owned())),
                        None => self.apart(),
                    }
                }
                None
            }
        }
    }

    /// A line with several readings, or of a lift that nobody knows.
    pub(super) fn in_question(
        &mut self,
        text: &str,
        fate: Fate,
        faults: &[Problem],
        lift: Option<Named>,
    ) -> Option<Verdict> {
        let (kind, choices, lift) = match fate {
            Fate::Several(choices) => (K::SeveralReadings { ways: choices.len() }, choices, lift),
            Fate::UnknownLift(name, choices) => {
                // The lifts that the choices are of.
                let near = choices.iter().filter_map(|choice| Some(choice.text.split_once(':')?.0.to_owned()));
                (K::UnknownLift { name, near: near.collect() }, choices, None)
            }
            _ => return None,
        };
        Some(self.refused(text, kind, &choices, faults, lift))
    }

    /// A lift that stands alone: what stands below it is its own. `written`: the line in the notation.
    pub(super) fn lift_alone(&mut self, named: Named, text: &str, written: String, indent: usize, headed: bool) {
        let (line, edit) = (self.number, Edit::new(self.whole(text), written));
        self.here.above = Above::Lift { named, line, edit, indent, taken: false, follows: false, headed };
    }

    /// What a line is read as.
    pub(super) fn fate(&self, text: &str, place: Place<'_>) -> Fate {
        readings(text, place, &self.names, self.context.habits, self.unit)
    }

    /// Words that say that the sets above were others.
    fn says_otherwise(&mut self, text: &str, faults: &[Problem]) -> Verdict {
        let waits = self.said_refused(self.whole(text), K::UnreadWork { why: Unread::Amends }, &[], faults, None);
        Verdict::Refused { waits }
    }

    /// Writes a line in the notation, and the lift above it where it stands alone.
    pub(super) fn read(&mut self, text: &str, indent: usize, choice: Choice) -> Verdict {
        let loaded = choice.text.contains('@');
        self.here.load_lost &= choice.below && !loaded;
        let written = match (&mut self.here.above, choice.below) {
            (Above::Work { follows, .. }, true) => {
                *follows |= loaded;
                format!("  - {}", choice.text)
            }
            (Above::Lift { follows, .. }, true) => {
                *follows |= loaded;
                self.take_lift();
                format!("  - {}", choice.text)
            }
            (Above::Refused(named, _), true) => {
                let name = std::mem::take(&mut named.name);
                let written = format!("- {name}: {}", choice.text);
                // Once it is tidied it is a line of its own, and so it is for those below.
                self.here.above =
                    Above::Work { name: Name::Written(name), indent, follows: loaded, open: false, apart: false };
                written
            }
            _ => {
                let name = choice.text.split_once(':').map_or("", |(name, _)| name);
                let name = name.trim_start_matches("[x] ").to_owned();
                self.here.above =
                    Above::Work { name: Name::Written(name), indent, follows: loaded, open: false, apart: false };
                format!("- {}", choice.text)
            }
        };
        let span = self.whole(text);
        let read = written.trim_start_matches([' ', '-']).to_owned();
        self.decided.edits.push(Edit::new(span, written.clone()));
        self.said_loose(read, span.trimmed(self.page.text()), Edit::new(span, written))
    }

    /// Says how a line was read.
    fn said_loose(&mut self, read: String, span: Span, fix: Edit) -> Verdict {
        let problem = Problem::new(K::LooseSpelling { read }, span);
        self.decided.problems.push(Problem { fix: Some(fix), ..problem });
        Verdict::Loose
    }

    /// Writes a fact of the day in the notation; it is no lift's, and sets below it are none of those further up.
    fn fact(&mut self, text: &str, choice: Choice) -> Verdict {
        self.apart();
        let span = self.whole(text);
        let written = format!("- {}", choice.text);
        self.decided.edits.push(Edit::new(span, written.clone()));
        self.said_loose(choice.text, span.trimmed(self.page.text()), Edit::new(span, written))
    }

    /// Writes a lift that stands alone on its line in the notation: something below it is its own.
    fn take_lift(&mut self) {
        let Above::Lift { line, edit, taken: taken @ false, .. } = &mut self.here.above else { return };
        *taken = true;
        let (line, edit) = (*line, edit.clone());
        let read = edit.text.trim_start_matches("- ").to_owned();
        self.decided.edits.push(edit.clone());
        let said = self.said_loose(read, edit.span, edit);
        self.decided.verdicts.insert(line, said);
    }

    /// A line that counts nowhere. What the notation found wrong with it says more than that it is not read.
    pub(super) fn refused(
        &mut self,
        text: &str,
        kind: K,
        choices: &[Choice],
        faults: &[Problem],
        lift: Option<Named>,
    ) -> Verdict {
        let unknown = match &kind {
            K::UnknownLift { name, .. } => Some(name.clone()),
            _ => None,
        };
        self.here.load_lost = lift.is_some();
        // `Bench:` above a blank line is a lift, and too far above its sets.
        let bare = unknown.as_ref().map(|name| crate::notation::bare_name(name.trim_end_matches([':', '*', '_'])));
        let kind = match bare {
            Some(lift) if self.context.lift(&fold(lift)).is_some() => {
                K::UnreadWork { why: Unread::Apart { lift: lift.to_owned() } }
            }
            Some(name) if readings::is_no_lift(name) => K::UnreadWork { why: Unread::NoLift { name: name.to_owned() } },
            _ => kind,
        };
        let waits = self.said_refused(self.whole(text), kind, choices, faults, lift.as_ref());
        // Sets below a line that is refused are not those of the lift above it.
        let named = readings::lift_of(text, self.context, self.context.habits);
        self.here.above = match (std::mem::take(&mut self.here.above), named) {
            // `Squat jumps 3x5` is refused as another lift than the squat.
            (_, Some(named)) if unknown.is_none() => Above::Refused(named, false),
            (above, None) if lift.is_some() => above,
            (Above::Unknown(name), None) if unknown.is_none() => Above::Unknown(name),
            _ => Above::Unknown(unknown),
        };
        Verdict::Refused { waits }
    }

    /// Says what is wrong with a line that counts nowhere, and what could be meant by it; whether that is only that it is
    /// not read as work of a lift.
    pub(super) fn said_refused(
        &mut self,
        span: Span,
        kind: K,
        choices: &[Choice],
        faults: &[Problem],
        lift: Option<&Named>,
    ) -> bool {
        let of_lift = matches!(kind, K::UnknownLift { .. } | K::UnreadWork { .. });
        let told = !self.decided.problems.is_full(Span { end: span.start, ..span });
        let below = matches!(self.here.above, Above::Work { .. } | Above::Lift { .. });
        let offers = || -> Vec<Offer> {
            let choices = choices.iter().map(|choice| {
                let written = match (lift, choice.below) {
                    (_, true) if below => format!("  - {}", choice.text),
                    (Some(named), true) => format!("- {}: {}", named.name, choice.text),
                    _ => format!("- {}", choice.text),
                };
                Offer { say: choice.say.clone(), edit: Edit::new(span, written) }
            });
            choices.collect()
        };
        let mut offered = false;
        for fault in faults {
            if !told {
                self.decided.problems.pass(&fault.kind, fault.span);
                offered |= fault.kind.cost() == Cost::Line;
                continue;
            }
            let first = !offered && fault.kind.cost() == Cost::Line;
            offered |= first;
            let choices = if first { offers() } else { fault.choices.clone() };
            self.decided.problems.push(Problem { kind: fault.kind.clone(), span: fault.span, fix: None, choices });
        }
        if offered {
            return false;
        }
        let whole = span.trimmed(self.page.text());
        let part = match &kind {
            K::UnreadWork { why: Unread::Piece { text, .. } } => part_of(self.page, whole, text),
            _ => None,
        };
        let problem = Problem::new(kind, part.unwrap_or(whole));
        self.decided.problems.push(Problem { choices: if told { offers() } else { Vec::new() }, ..problem });
        of_lift
    }

    /// What a line that is not read would be read without; looked for only so often.
    fn left_over(&mut self, text: &str, place: Place<'_>) -> Option<LeftOver> {
        self.looks_left = self.looks_left.checked_sub(1)?;
        readings::left_over(text, place, &self.names, self.context.habits, self.unit)
    }

    pub(super) fn unread_work(&self, left_over: Option<LeftOver>) -> K {
        let why = match left_over {
            Some(LeftOver { text, rest, written }) => Unread::Piece { text, rest, written },
            None => Unread::Whole { unit: self.unit },
        };
        K::UnreadWork { why }
    }

    fn name_at(&self, name: &str) -> Name {
        Name::At(Span::of(self.page.text(), name))
    }

    /// Where a line stands, without its end.
    pub(super) fn whole(&self, text: &str) -> Span {
        Span::of(self.page.text(), text)
    }
}

/// Whether a line's box is not ticked, or its words are crossed out: its sets were not done.
fn undone(text: &str) -> bool {
    let content = text.trim_start_matches([' ', '\t', '-', '*', '+']);
    let sets = || text.split_once(':').is_some_and(|(_, sets)| sets.contains(|c: char| c.is_ascii_digit()));
    (content.starts_with("[ ]") || content.starts_with("~~")) && sets()
}

/// Whether a load comes after sets without one, and is perhaps theirs too.
pub(super) fn comes_late(groups: &[Group<'_>]) -> bool {
    groups.first().is_some_and(|group| group.load.is_none()) && groups.iter().any(|group| group.load.is_some())
}

/// Whether a line is a detail but for its place.
fn of_detail(problems: &[Problem]) -> bool {
    problems.iter().any(|problem| matches!(problem.kind, K::DetailOutsideLift { .. }))
}

/// Where a text stands last within a span.
fn part_of(page: &Page, span: Span, part: &str) -> Option<Span> {
    let start = span.start as usize + span.text(page.text()).rfind(part)?;
    Some(Span::new(start, start + part.len()))
}
