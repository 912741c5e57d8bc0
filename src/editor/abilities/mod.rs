//! What the server can do: one ability a file. Each is pure: a page, a place and the history in, values out.
//!
//! - `problems.rs`, `fixes.rs`: what is wrong, and what mends it; `formatting.rs`: one spelling
//! - `completion.rs`, `hover.rs`, `hints.rs`: what can be written, what is said of a thing, what stands behind a line
//! - `outline.rs`, `going.rs`: the parts of a page; where things come from and stand
//! - `rename.rs`: another name for a thing; `tokens.rs`: a page in colour; `lens.rs`, `card.rs`: what `session` and
//!   `review` say
//! - `under.rs`: what stands under a place; `keys.rs`: what a key is for

pub(crate) mod card;
pub(crate) mod completion;
pub(crate) mod fixes;
pub(crate) mod formatting;
pub(crate) mod going;
pub(crate) mod hints;
pub(crate) mod hover;
mod keys;
pub(crate) mod lens;
pub(crate) mod outline;
pub(crate) mod problems;
pub(crate) mod rename;
pub(crate) mod tokens;
pub(crate) mod under;
