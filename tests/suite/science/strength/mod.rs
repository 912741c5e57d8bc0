//! Strength from what was lifted: on pages that were once answered wrongly, on lifters whose truth is known, and by what
//! must hold for any sets.
//!
//! - `pages.rs`: small pages and what is made of them
//! - `laws.rs`: what holds for any sets
//! - `lifters.rs`: a part of the made-up lifters of `benches/lifters/`

mod laws;
mod lifters;
mod pages;
