//! Loadline, a plain-text training journal toolkit.
//!
//! Text goes one way: `notation` (text to tree) → `journal` (pages, settings, lifters) → `meaning` (what
//! a page says, as values of `training`) → `history` (the index) → `questions` (history in, answer out, by way of `analysis`) →
//! `present` (text, JSON) → `editor` (the language server) ← `commands` (thin). `science` is what the literature knows, for questions to use.
//! Nothing points back. `DEVELOPERS.md` shows the layout.
//!
//! The library serves the program and its tests; it is no promise to anybody else.

#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing))]

pub mod analysis;
pub mod commands;
pub mod editor;
pub mod history;
pub mod import;
pub mod journal;
pub mod meaning;
pub mod notation;
pub mod present;
pub mod problems;
pub mod questions;
pub mod science;
pub mod source;
pub mod training;
