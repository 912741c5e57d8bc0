//! What stands above a line that is typed loosely, and whose sets it may be.

use crate::notation::readings::{Columns, Named, Says};
use crate::problems::{Open, Unread};
use crate::source::{Edit, Page, Span};

/// A lift's name: where it stands on the page, or as it is written anew.
pub(super) enum Name {
    At(Span),
    Written(String),
}

impl Name {
    pub(super) fn text<'n>(&'n self, page: &'n Page) -> &'n str {
        match self {
            Name::At(span) => span.text(page.text()),
            Name::Written(name) => name,
        }
    }
}

/// What sets further down belong to.
#[derive(Default)]
pub(super) enum Above {
    #[default]
    Nothing,
    /// A work line, which bullets further in belong to.
    /// `open` where nothing stands behind its colon: then they need not stand further in.
    /// `apart` where other lines stand between: then only bullets are its own, as in the notation.
    Work { name: Name, indent: usize, follows: bool, open: bool, apart: bool },
    /// A lift alone on its line, whose first set turns it into one; what to write then. `headed` where it is a heading, which
    /// a blank line does not part from its sets.
    Lift { named: Named, line: u32, edit: Edit, indent: usize, taken: bool, follows: bool, headed: bool },
    /// A refused line that names its lift; whether details below it are its own.
    Refused(Named, bool),
    /// A line that is no lift's, or one whose sets have ended: no set below it is that of a lift further up. Its name,
    /// where it is like one.
    Unknown(Option<String>),
}

impl Above {
    /// What is above the next line once a blank line, or one that says nothing of sets, stands between.
    pub(super) fn apart(self, page: &Page) -> Self {
        match self {
            Above::Nothing => Above::Nothing,
            Above::Work { name, indent, follows, .. } => {
                Above::Work { name, indent, follows, open: false, apart: true }
            }
            Above::Lift { named, indent, taken: true, follows, .. } => {
                Above::Work { name: Name::Written(named.name), indent, follows, open: false, apart: true }
            }
            Above::Lift { named, line, edit, indent, taken, follows, headed: true } => {
                Above::Lift { named, line, edit, indent, taken, follows, headed: false }
            }
            Above::Lift { edit, .. } => Above::Unknown(Some(edit.span.text(page.text()).trim().to_owned())),
            Above::Refused(..) => Above::Unknown(None),
            Above::Unknown(name) => Above::Unknown(name),
        }
    }
}

/// A caption above the lines that are read.
pub(super) struct Caption {
    pub(super) text: String,
    pub(super) says: Says,
    /// How deep it is, where it is a heading: then it holds until the next one.
    pub(super) level: Option<usize>,
    /// Where it stands.
    pub(super) at: u32,
    /// Whether a line stands below it.
    pub(super) seen: bool,
}

impl Caption {
    /// Why what stands below it does not count.
    pub(super) fn why(&self) -> Unread {
        let open = match self.says {
            Says::Rounds => Open::Rounds,
            Says::Units => Open::Units,
            _ => Open::Done,
        };
        Unread::Caption { text: self.text.clone(), open }
    }
}

/// What stands round a line.
#[derive(Default)]
pub(super) struct Here {
    /// Whether it stands in a session.
    pub(super) inside: bool,
    pub(super) above: Above,
    /// The table that it may be a row of.
    pub(super) table: Option<Columns>,
    /// The caption that it stands below.
    pub(super) caption: Option<Caption>,
    /// Whether the line above is of a card.
    pub(super) card: bool,
    /// Whether a line of the lift above was refused, which perhaps had the load of those below.
    pub(super) load_lost: bool,
}

/// Lines of work in no session: the first, and how many there are.
pub(super) struct Run {
    pub(super) span: Span,
    pub(super) lines: u32,
}
