//! Meets and test days, done and to come.

use super::History;
use crate::problems::nearest;
use crate::training::{CompetitionLift, LiftId, Session, fold, words};
use chrono::NaiveDate;

words! {
    /// What kind of day, as headings have it.
    pub enum MeetKind {
        /// A competition.
        Meet = "meet",
        /// A day of attempts at maxima, or rep maxima.
        TestDay = "test day",
    }
}

/// A meet or a test day: all sessions of its date that have its name.
#[derive(Clone, Debug)]
pub struct Meet<'a> {
    /// What kind of day.
    pub kind: MeetKind,
    /// The meet's name; empty where none is written, and for test days.
    pub name: &'a str,
    /// The day.
    pub date: NaiveDate,
    /// The first of its sessions.
    pub first: &'a Session,
    /// Its sessions, in order of time.
    pub sessions: Vec<&'a Session>,
}

impl Meet<'_> {
    /// How it is called: by its name, else by its kind.
    pub fn title(&self) -> &str {
        if self.name.is_empty() { self.kind.word() } else { self.name }
    }

    /// Whether anything is written as done.
    pub fn has_work(&self) -> bool {
        self.sessions.iter().flat_map(|session| &session.works).any(|work| !work.groups.is_empty())
    }

    /// Whether it is still to come: dated after today, or today and nothing is written as done yet.
    pub fn is_to_come(&self, today: NaiveDate) -> bool {
        self.date > today || (self.date == today && !self.has_work())
    }
}

/// No meet of that name or date, or more than one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoMeet {
    /// None of that name or date.
    Unknown {
        /// What was asked for.
        asked: String,
        /// Names like it, or all there are.
        near: Vec<String>,
    },
    /// Several on that date.
    Several {
        /// The date.
        date: NaiveDate,
        /// How they are called.
        titles: Vec<String>,
    },
}

/// More meets than this are not listed.
const MOST_LISTED: usize = 8;

impl<'a> History<'a> {
    /// Every meet and test day, in order of time: those after today too, as far as their headings say.
    pub fn meets(&self) -> Vec<Meet<'a>> {
        let mut meets: Vec<Meet<'a>> = Vec::new();
        for session in self.tests() {
            let (kind, name) = match &session.meet {
                Some(name) => (MeetKind::Meet, &**name),
                None if session.test_day => (MeetKind::TestDay, ""),
                None => continue,
            };
            let same =
                |meet: &&mut Meet<'_>| meet.date == session.date && meet.kind == kind && fold(meet.name) == fold(name);
            match meets.iter_mut().find(same) {
                Some(meet) => meet.sessions.push(session),
                None => meets.push(Meet { kind, name, date: session.date, first: session, sessions: vec![session] }),
            }
        }
        meets
    }

    /// The lifts of the journal that are trained as a competition lift: the one of the settings, else those of its names.
    pub fn trained_as(&self, lift: CompetitionLift) -> Vec<LiftId> {
        let named = |name: &str| self.lift_named(name);
        match self.log.competitor.lift(lift) {
            Some(name) => named(name).into_iter().collect(),
            None => lift.trained_names().iter().filter_map(|name| named(name)).collect(),
        }
    }

    /// What a lift is trained as.
    pub fn discipline(&self, lift: LiftId) -> Option<CompetitionLift> {
        let own = fold(&self.log.lift(lift)?.name);
        let is = |name: &str| self.folded(name) == own;
        CompetitionLift::ALL.into_iter().find(|discipline| match self.log.competitor.lift(*discipline) {
            Some(name) => is(name),
            None => discipline.trained_names().iter().any(|name| is(name)),
        })
    }

    /// The next meet or test day to come, else the last one done.
    pub fn next_meet(&self) -> Option<Meet<'a>> {
        self.next_of(self.meets())
    }

    fn next_of(&self, meets: Vec<Meet<'a>>) -> Option<Meet<'a>> {
        let next = meets.iter().position(|meet| meet.is_to_come(self.today));
        let mut meets = meets;
        match next {
            Some(at) => Some(meets.swap_remove(at)),
            None => meets.pop(),
        }
    }

    /// The meet of a name or of a date. Of several of one name, the next to come, else the last one done. `test day`,
    /// and `test`, is the name of a test day.
    ///
    /// # Errors
    /// [`NoMeet`] where there is none, or more than one on the date.
    pub fn find_meet(&self, asked: &str) -> Result<Meet<'a>, NoMeet> {
        let all = self.meets();
        if let Ok(date) = NaiveDate::parse_from_str(asked.trim(), "%Y-%m-%d") {
            let mut of_date: Vec<Meet<'a>> = all.iter().filter(|meet| meet.date == date).cloned().collect();
            if of_date.len() > 1 {
                let titles = of_date.iter().map(|meet| meet.title().to_owned()).collect();
                return Err(NoMeet::Several { date, titles });
            }
            let dated = |meet: &Meet<'_>| format!("{} of {}", meet.title(), meet.date);
            let near = || all.iter().rev().take(MOST_LISTED).rev().map(dated).collect();
            return of_date.pop().ok_or_else(|| NoMeet::Unknown { asked: asked.to_owned(), near: near() });
        }
        let wanted = fold(if asked.trim().eq_ignore_ascii_case("test") { MeetKind::TestDay.word() } else { asked });
        let bare = wanted.strip_prefix("meet").filter(|rest| !rest.is_empty()).unwrap_or(&wanted);
        let called = |meet: &&Meet<'_>| {
            let title = fold(meet.title());
            title == wanted || title == bare
        };
        let of_name: Vec<Meet<'a>> = all.iter().filter(called).cloned().collect();
        self.next_of(of_name).ok_or_else(|| {
            let mut titles: Vec<&str> = Vec::new();
            for meet in all.iter().rev() {
                if !titles.contains(&meet.title()) {
                    titles.push(meet.title());
                }
            }
            titles.truncate(MOST_LISTED);
            let near: Vec<&str> = nearest(asked, all.iter().map(Meet::title));
            let near = if near.is_empty() { titles } else { near };
            NoMeet::Unknown { asked: asked.to_owned(), near: near.into_iter().map(str::to_owned).collect() }
        })
    }
}
