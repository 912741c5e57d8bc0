//! The Language Server Protocol. No other folder knows its types.
//!
//! - `text.rs`: bytes to positions and back; `uri.rs`: files to addresses and back
//! - `switches.rs`: what can be turned on and off; `capabilities.rs`: what is agreed on at the start
//! - `wire.rs`: what abilities give, as the wire has it
//! - `server.rs`: the state; `file.rs`: a file as a handler needs it
//! - `requests.rs`, `changes.rs`, `notices.rs`: the handlers of requests, of those that change text, of notifications
//! - `table.rs`: the lists of them
//! - `serve.rs`: the loop, which nothing ends but the editor; `frames.rs`: messages as bytes

mod capabilities;
mod changes;
mod file;
mod frames;
mod notices;
mod requests;
mod serve;
mod server;
mod switches;
mod table;
mod text;
mod uri;
mod wire;

pub use frames::serve_stdio;
pub use serve::serve;
pub use text::{Encoding, Text};
