//! Sets one by one, in shapes that other programs and people compare line by line.
//!
//! - `columns.rs`: the columns of a table of sets
//! - `export.rs`: the same as objects
//! - `parquet.rs`: the same as a file of Parquet, where the feature `parquet` is on
//! - `flat.rs`: one line a set, each standing alone, for a difference between two pages

pub mod columns;
pub mod export;
pub(crate) mod flat;
#[cfg(feature = "parquet")]
pub mod parquet;
