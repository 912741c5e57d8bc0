//! What a line is by what stands round it: in a heading, in no session, on a card, or below a caption that leaves open
//! whether, when, by whom or how often the sets were done.

use super::above::{Above, Caption, Here, Run};
use super::found::Keep;
use super::loose::{Decided, Looser, Verdict};
use crate::notation::nodes::{Body, Line, LineKind};
use crate::notation::readings::{self, Fate, Names, Place, Says};
use crate::problems::{Problem, ProblemKind as K, Unread};
use crate::source::{Cut, Span};
use crate::training::fold;

impl Looser<'_, '_> {
    /// What is decided of a line by its place, if anything is.
    pub(super) fn by_its_place(&mut self, line: &Line<'_>, text: &str) -> Option<Option<Verdict>> {
        match &line.kind {
            LineKind::Session(heading) => {
                self.starts(true);
                let behind = text.tail(Span::of(text, heading.date.text).end as usize);
                if readings::is_of_no_day(behind) {
                    let words = behind.trim_matches(|c: char| !c.is_alphanumeric()).to_owned();
                    let (at, level) =
                        (self.whole(text).start, Some(text.bytes().take_while(|sign| *sign == b'#').count()));
                    self.here.caption = Some(Caption { text: words, says: Says::NotDone, level, at, seen: false });
                } else if readings::caption(behind, false, false) == Some(Says::Units) {
                    self.take_caption(behind, Says::Units);
                }
                let titled = heading.day.is_some() || heading.meet.is_some() || !readings::hints_at_sets(behind);
                return Some(if titled { None } else { self.sets_in_heading(text, behind) });
            }
            LineKind::BadSession | LineKind::Block(_) => {
                self.starts(matches!(line.kind, LineKind::BadSession));
                return Some(None);
            }
            LineKind::Heading { ends } => return Some(self.heading(text, *ends)),
            _ => {}
        }
        if let Some(caption) = &mut self.here.caption {
            caption.seen = true;
        }
        if let LineKind::Prose = line.kind
            && (line.typed || line.outside)
            && let Some(says) = readings::caption(text, false, false)
            && readings::lone_lift(text, self.context, self.context.habits).is_none()
        {
            self.take_caption(text, says);
        }
        if !self.here.inside {
            return Some(self.outside(line, text));
        }
        self.on_card(line, text).or_else(|| self.below_caption(line, text)).map(Some)
    }

    /// A line that says something of the sets below it. What it says of their unit holds for the whole session.
    fn take_caption(&mut self, text: &str, says: Says) {
        let of_unit = self.here.caption.as_ref().is_some_and(|caption| caption.says == Says::Units);
        if of_unit && matches!(says, Says::Done | Says::Unclear) {
            return;
        }
        let lower = text.to_lowercase();
        // `all in kg` where loads are in kilograms anyway
        let has = |signs: &[&str]| signs.iter().any(|sign| lower.contains(sign));
        let (own, other) = (["kg", "kilo"], ["lb", "pound", "livres", "pfund"]);
        let (own, other) = if self.unit == "kg" { (&own[..], &other[..]) } else { (&other[..], &own[..]) };
        let usual = says == Says::Units && has(own) && !has(other) && !has(&["side", "seite"]);
        if says == Says::Done || usual {
            self.here.caption = None;
            return;
        }
        let level = if says == Says::Units { Some(1) } else { None };
        let (text, at) = (text.trim().to_owned(), self.whole(text).start);
        self.here.caption = Some(Caption { text, says, level, at, seen: false });
    }

    /// A blank line: what stands above it goes on below in few cases.
    pub(super) fn blank(&mut self) {
        self.here.caption.take_if(|caption| caption.level.is_none() && caption.seen);
        self.here.card = false;
        self.here.table = None;
        self.apart();
    }

    /// A session, or something else, starts here.
    fn starts(&mut self, inside: bool) {
        self.end_run();
        self.here = Here { inside, ..Here::default() };
    }

    /// A heading that is none of a session: a lift, a caption, or a title.
    fn heading(&mut self, text: &str, ends: bool) -> Option<Verdict> {
        let signs = text.trim_start();
        let words = signs.trim_matches('#').trim();
        let level = signs.len() - signs.trim_start_matches('#').len();
        let kept = self.here.caption.take().filter(|caption| caption.level.is_some_and(|above| above < level) && !ends);
        let inside = self.here.inside && !ends;
        self.starts(inside);
        let at = self.whole(text).start;
        let caption = |says| Caption { text: words.to_owned(), says, level: Some(level), at, seen: false };
        self.here.caption = match readings::caption(words, true, !inside) {
            None | Some(Says::Done) => kept,
            Some(says) => Some(caption(says)),
        };
        let context = self.context;
        if let Some(named) = readings::lone_lift(words, context, context.habits) {
            let written = format!("- {}:", named.name);
            self.lift_alone(named, text, written, 0, true);
            return None;
        }
        if self.here.caption.is_some() || !readings::hints_at_sets(words) {
            return None;
        }
        self.sets_in_heading(text, words)
    }

    /// Sets in a heading: they count nowhere, which is said. Without a load they may be what the day is called, unless
    /// nothing stands below.
    fn sets_in_heading(&mut self, text: &str, words: &str) -> Option<Verdict> {
        let words = words.trim_start_matches(|c: char| !c.is_alphanumeric());
        let whole = self.whole(text);
        let rest = self.page.text().tail(whole.end as usize);
        let next = rest.lines().map(str::trim_start).find(|line| !line.is_empty());
        let empty = next.is_none_or(|line| line.starts_with('#'));
        let told = |part: &str| match self.fate(part, Place::default()) {
            Fate::Read(choice) => !choice.is_fact() && (empty || choice.text.contains('@')),
            Fate::Several(_) => true,
            _ => false,
        };
        if !told(words) && !words.split(',').any(told) {
            return None;
        }
        let span = Span::of(self.page.text(), text.trim());
        self.decided.problems.push(Problem::new(K::UnreadWork { why: Unread::Heading }, span));
        Some(Verdict::Said)
    }

    /// A line in no session: whether it would be work there.
    fn outside(&mut self, line: &Line<'_>, text: &str) -> Option<Verdict> {
        let said = line.problems.iter().find(|problem| matches!(problem.kind, K::WorkOutsideSession { .. }));
        let bullet = said.is_some();
        let work = bullet || (line.outside && line.problems.is_empty() && self.would_be_work(text));
        if !work {
            return None;
        }
        // Plans, and lists of records.
        if self.here.caption.is_some() {
            return bullet.then_some(Verdict::Prose);
        }
        let span = said.map_or(Span::of(self.page.text(), text.trim()), |said| said.span);
        self.run.get_or_insert(Run { span, lines: 0 }).lines += 1;
        // Where lines are taken one by one, each has its own.
        if self.context.keep == Keep::All {
            self.end_run();
        }
        Some(Verdict::Said)
    }

    /// Whether a line would be read as sets of a known lift, with their load.
    fn would_be_work(&mut self, text: &str) -> bool {
        if self.is_row(text) {
            return matches!(self.row_fate(text), Some(Fate::Read(choice)) if choice.text.contains('@'));
        }
        if !matches!(line_start(text), Some(c) if c.is_alphanumeric() || matches!(c, '-' | '*' | '+' | '[' | '_'))
            || !readings::may_say_something(text)
        {
            self.apart();
            return false;
        }
        let context = self.context;
        if let Some(named) = readings::lone_lift(text, context, context.habits) {
            self.lift_alone(named, text, String::new(), 0, false);
            return false;
        }
        let (lift, _, follows) = self.place(text, 0);
        match self.fate(text, Place { lift: lift.as_ref(), unknown: None, follows }) {
            Fate::Read(choice) => {
                let own = || {
                    let name = choice.text.split_once(':').map(|(name, _)| fold(name.trim_start_matches("[x] ")));
                    let named = if choice.below { lift.clone() } else { name.and_then(|name| context.lift(&name)) };
                    named.is_some_and(|named| !named.takes.counted_with_a_load())
                };
                !choice.is_fact() && !choice.is_detail() && (choice.text.contains('@') || own())
            }
            Fate::Several(_) => true,
            _ => {
                self.apart();
                false
            }
        }
    }

    /// All that was decided, once there are no more lines.
    pub(super) fn all_decided(mut self) -> Decided {
        self.end_run();
        self.decided
    }

    /// Says how many lines stand in no session.
    fn end_run(&mut self) {
        if let Some(Run { span, lines }) = self.run.take() {
            self.decided.problems.push(Problem::new(K::WorkOutsideSession { lines }, span));
        }
    }

    /// `Weight: 100` beside `Sets: 3`, or below a lift: no bodyweight, and no prose.
    fn on_card(&mut self, line: &Line<'_>, text: &str) -> Option<Verdict> {
        let before = std::mem::take(&mut self.here.card);
        // Of the facts only `Weight:` is a word of cards.
        let of_card = match &line.kind {
            LineKind::Prose => line.typed,
            LineKind::Fact(_) => text.trim_start().starts_with(['w', 'W', '-', '*', '+']),
            _ => false,
        };
        if !of_card {
            return None;
        }
        let load = readings::of_card(text)?;
        let below = matches!(self.here.above, Above::Lift { taken: false, .. })
            || (self.here.load_lost && matches!(self.here.above, Above::Refused(..)));
        let beside = || self.next_line(text).and_then(readings::of_card) == Some(false);
        if load && !before && !below && !beside() {
            return None;
        }
        self.here.card = true;
        let lift = self.place(text, 0).0;
        let why = if before { Unread::Below } else { Unread::Whole { unit: self.unit } };
        Some(self.refused(text, K::UnreadWork { why }, &[], &[], lift))
    }

    /// The line below.
    pub(super) fn next_line(&self, text: &str) -> Option<&str> {
        self.page.text().tail(self.whole(text).end as usize).split('\n').nth(1)
    }

    /// Work in the notation below a caption that says it was not done, or how often it was.
    fn below_caption(&mut self, line: &Line<'_>, text: &str) -> Option<Verdict> {
        let caption = self.here.caption.as_ref().filter(|caption| caption.says != Says::Unclear)?;
        if caption.says == Says::Units && !lacks_a_unit(text) {
            return None;
        }
        let kind = K::UnreadWork { why: caption.why() };
        match &line.kind {
            LineKind::Work(work) if matches!(work.body, Body::Groups(_) | Body::Nothing | Body::AsPlanned(..)) => {
                self.here.above = match self.context.lift(&fold(work.name)) {
                    Some(named) => Above::Refused(named, true),
                    None => Above::Unknown(Some(work.name.to_owned())),
                };
            }
            LineKind::SetLine(_) => {}
            _ => return None,
        }
        let waits = self.said_refused(self.whole(text), kind, &[], &[], None);
        Some(Verdict::Refused { waits })
    }

    /// Why a line that is typed loosely does not count below its caption, for all that it reads as training.
    pub(super) fn not_done(&mut self, text: &str, fate: &Fate) -> Option<K> {
        let caption = self.here.caption.as_ref().filter(|caption| caption.at < self.whole(text).start)?;
        let training = match fate {
            Fate::Read(choice) => !choice.is_fact(),
            Fate::Prose => false,
            _ => true,
        };
        let told = match fate {
            Fate::Read(choice) => !choice.text.contains('@') || !lacks_a_unit(text),
            _ => true,
        };
        if !training || (caption.says == Says::Units && told) {
            return None;
        }
        // Below a name that is no lift's, sets alone are its own; the lines that follow are not.
        let of_lift = match fate {
            Fate::Read(choice) => !choice.below,
            _ => readings::lift_of(text, self.context, self.context.habits).is_some(),
        };
        if caption.says == Says::Unclear && !of_lift {
            self.here.caption = None;
            return None;
        }
        Some(K::UnreadWork { why: caption.why() })
    }

    /// What comes of a line right below a finished one: bare numbers may be its sets as they were done, and words may say
    /// that they were others.
    pub(super) fn amended(&self, text: &str, indent: usize, fate: Fate) -> (Fate, bool) {
        let beside = match &self.here.above {
            Above::Work { indent: out, open: false, apart: false, .. } => indent == *out,
            Above::Lift { taken, .. } => *taken,
            _ => false,
        };
        let below = matches!(&self.here.above, Above::Work { open: false, apart: false, .. }) || beside;
        match fate {
            Fate::Read(choice)
                if beside
                    && choice.below
                    && matches!(self.here.above, Above::Work { .. })
                    && readings::is_list(text) =>
            {
                (Fate::Several(vec![choice]), false)
            }
            Fate::Prose if below && (readings::amends(text) || readings::is_number(text)) => (Fate::Prose, true),
            fate => (fate, false),
        }
    }

    /// Whether sets lack a load that was written and not read: above them, or right below.
    pub(super) fn lacks_its_load(&self, text: &str, choice: &readings::Choice, lift: Option<&readings::Named>) -> bool {
        if choice.is_detail() || choice.is_fact() || choice.text.contains('@') {
            return false;
        }
        let lost = || self.here.load_lost || matches!(self.here.above, Above::Refused(..));
        if choice.below {
            return lift.is_some_and(|lift| lift.takes.counted_with_a_load()) && (lost() || self.load_follows(text));
        }
        let name = choice.text.split(':').next().unwrap_or(&choice.text).trim_start_matches("[x] ");
        self.is_loaded(name) && self.load_follows(text)
    }

    /// Whether a lift of that name is counted with a load.
    pub(super) fn is_loaded(&self, name: &str) -> bool {
        self.context.lift(&fold(name)).is_some_and(|named| named.takes.counted_with_a_load())
    }

    /// Whether the next line is a load and nothing else.
    pub(super) fn load_follows(&self, text: &str) -> bool {
        self.next_line(text).is_some_and(|next| {
            readings::is_load(next, self.unit, self.context.habits) || readings::is_load_alone(next)
        })
    }
}

/// The first character of a line.
fn line_start(text: &str) -> Option<char> {
    text.trim_start().chars().next()
}

/// Whether a line has no unit of a load.
fn lacks_a_unit(text: &str) -> bool {
    let lower = text.to_ascii_lowercase();
    !["kg", "kilo", "lb", "pound", "%"].iter().any(|unit| lower.contains(unit))
}
