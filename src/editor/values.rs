//! What abilities give, in bytes of a page. How the wire says it, `protocol` knows.

use crate::problems::Problem;
use crate::source::{Edit, Place, Span};

/// Edits by the path of their page.
pub(crate) type Edits = Vec<(String, Vec<Edit>)>;

/// A problem, and what stands elsewhere that has to do with it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Found {
    /// The problem.
    pub(crate) problem: Problem,
    /// The other place.
    pub(crate) elsewhere: Option<Place>,
}

/// A change that mends something.
#[derive(Clone, Debug)]
pub(crate) struct Mend {
    /// What it does, in words.
    pub(crate) title: String,
    /// The problem that goes with it; nothing where it mends all of the page.
    pub(crate) problem: Option<Problem>,
    /// What changes.
    pub(crate) edits: Edits,
    /// Whether it is what is most likely wanted.
    pub(crate) preferred: bool,
}

/// A place in a page.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct At {
    /// The page's path below the root.
    pub(crate) path: String,
    /// Where.
    pub(crate) span: Span,
}

/// What an item to complete is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum OfferKind {
    /// A lift.
    Lift,
    /// A key.
    Key,
    /// A value: a count, an effort, a date.
    Value,
    /// A load.
    Load,
    /// A word of the notation.
    Word,
    /// Several lines.
    Lines,
}

/// An item to complete.
#[derive(Clone, Debug)]
pub(crate) struct Offer {
    /// As it is shown.
    pub(crate) label: String,
    /// What is said beside it.
    pub(crate) detail: Option<String>,
    /// What it is found by.
    pub(crate) found_by: Option<String>,
    /// What it writes.
    pub(crate) edit: Edit,
    /// What it is.
    pub(crate) kind: OfferKind,
}

/// What is said of a place.
#[derive(Clone, Debug)]
pub(crate) struct Said {
    /// Of which place.
    pub(crate) span: Span,
    /// In Markdown.
    pub(crate) markdown: String,
}

/// What a hint is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum HintKind {
    /// How a line compares.
    Verdict,
    /// What goes on the bar.
    Next,
    /// What a load comes to.
    Mass,
}

/// A hint behind a place.
#[derive(Clone, Debug)]
pub(crate) struct Hint {
    /// The byte it stands at.
    pub(crate) at: u32,
    /// What it says.
    pub(crate) text: String,
}

/// What a symbol is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SymbolKind {
    /// A block.
    Block,
    /// A session.
    Session,
    /// A lift.
    Lift,
}

/// A part of a page that has a name.
#[derive(Clone, Debug)]
pub(crate) struct Symbol {
    /// Its name.
    pub(crate) name: String,
    /// What is said beside it.
    pub(crate) detail: Option<String>,
    /// What it is.
    pub(crate) kind: SymbolKind,
    /// All of it.
    pub(crate) span: Span,
    /// Its name's place.
    pub(crate) named: Span,
    /// What it holds.
    pub(crate) children: Vec<Symbol>,
}

/// A lift of the whole journal, with the place of its last work.
#[derive(Clone, Debug)]
pub(crate) struct LiftSymbol {
    /// Its name.
    pub(crate) name: String,
    /// Its last mark, in words.
    pub(crate) last: String,
    /// Where that stands.
    pub(crate) place: Place,
}

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TokenKind {
    /// A heading's text.
    Heading,
    /// A lift's name.
    Lift,
    /// A key.
    Key,
    /// A count.
    Count,
    /// A load.
    Load,
    /// An effort, rest, tempo, or `as planned`.
    Word,
    /// Text in one's own words.
    Text,
    /// A remark in parentheses.
    Remark,
    /// A fault.
    Fault,
}

impl TokenKind {
    /// Every kind, in the order in which they are declared.
    pub(crate) const ALL: [TokenKind; 9] = [
        TokenKind::Heading,
        TokenKind::Lift,
        TokenKind::Key,
        TokenKind::Count,
        TokenKind::Load,
        TokenKind::Word,
        TokenKind::Text,
        TokenKind::Remark,
        TokenKind::Fault,
    ];
}

/// A line of text above a place.
#[derive(Clone, Debug)]
pub(crate) struct Lens {
    /// The place.
    pub(crate) span: Span,
    /// What it says.
    pub(crate) title: String,
}
