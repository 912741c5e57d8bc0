//! Sets one by one, in shapes that other programs and people compare line by line.
//!
//! - `flat.rs`: one line a set, each standing alone, for a difference between two pages

pub(crate) mod flat;
