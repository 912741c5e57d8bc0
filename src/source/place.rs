//! Where something stands.

use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;
use std::sync::Arc;

/// A line of a page; in order of the pages' paths. Shown as `page.md:14`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
pub struct Place {
    /// The page's path below the journal's root.
    pub page: Arc<str>,
    /// The line, from 1.
    pub line: u32,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.page, self.line)
    }
}
