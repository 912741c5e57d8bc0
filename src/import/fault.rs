//! What is wrong with a row.

use schemars::JsonSchema;
use serde::Serialize;

/// What of a row is not understood.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Fault {
    /// Which row, the header being row 1.
    pub row: u64,
    /// The column, where it is about one.
    pub column: Option<String>,
    /// What stands there.
    pub read: String,
    /// What could.
    pub wanted: String,
}
