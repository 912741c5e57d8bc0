//! The language server: what the commands answer, in the page while it is written. One parser, one set of questions, one
//! wording: nothing is read, worked out or worded here that a command would not say the same.
//!
//! - `laid.rs`: open pages laid over the disk
//! - `held.rs`: one journal, its page logs kept; `workspace.rs`: all journals that open pages belong to
//! - `scene.rs`: what an ability sees: a page, its lifter, the history
//! - `values.rs`: what abilities give, in bytes of a page
//! - `abilities/`: one ability a file; each is pure
//! - `settings_schema.rs`: what settings may say, for servers of YAML
//! - `protocol/`: the wire: its types, its positions, the table from request to handler, the loop
//!
//! The server writes no file, opens no network and runs no program: every change is an edit that the editor applies.

mod abilities;
mod held;
mod laid;
mod protocol;
mod scene;
mod settings_schema;
mod values;
mod workspace;

pub use held::Machine;
pub use protocol::{Encoding, Text, serve, serve_stdio};
pub use settings_schema::settings_schemas;
