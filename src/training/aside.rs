//! What a page says beside its sets.

use crate::source::PageId;

/// What kind of thing it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AsideKind {
    /// A session's heading, after its date and label.
    Session,
    /// The lifter's own weight.
    Bodyweight,
    /// How long the night was.
    Sleep,
    /// How long the session was.
    Duration,
    /// How hard the session was.
    SessionRpe,
    /// What hurt, and how much.
    Pain,
    /// Where it was.
    Gym,
    /// A note on the session.
    Note,
    /// A line with an error, or one that counts nowhere.
    Unread,
}

impl AsideKind {
    /// Its name: a fact's key, `session`, `note`, `unread`.
    pub fn word(self) -> &'static str {
        match self {
            AsideKind::Session => "session",
            AsideKind::Bodyweight => "bodyweight",
            AsideKind::Sleep => "sleep",
            AsideKind::Duration => "duration",
            AsideKind::SessionRpe => "session RPE",
            AsideKind::Pain => "pain",
            AsideKind::Gym => "gym",
            AsideKind::Note => "note",
            AsideKind::Unread => "unread",
        }
    }
}

/// A heading, a fact, a note, or a line that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Aside {
    /// What it is.
    pub kind: AsideKind,
    /// Its text in tidy spelling; of a line that could not be read, the line.
    pub text: String,
    /// The page it stands in.
    pub page: PageId,
    /// The line of the session's heading that it stands under, from 1; nothing outside every dated session.
    pub session: Option<u32>,
    /// Its own line, from 1.
    pub line: u32,
}
