//! What the server can do: one ability a file. Each is pure: a page, a place and the history in, values out.

pub(crate) mod fixes;
pub(crate) mod formatting;
pub(crate) mod problems;
