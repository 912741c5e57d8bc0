//! What tests share.
//!
//! - `journal.rs`: a journal made of a few pages, in a folder of its own
//! - `repository.rs`: a journal under version control
//! - `run.rs`: the program run on it, its whole output as one text
//! - `generator/`: seeded journals, with the model they were written from
//! - `page_suite.rs`: Markdown files of cases
//! - `browser.rs`: a browser without a screen; `duckdb.rs`: an engine that asks many files
//! - `snapshot.rs`: whole outputs kept in files

pub mod browser;
pub mod duckdb;
pub mod editor;
pub mod generator;
pub mod journal;
pub mod page_suite;
pub mod repository;
pub mod run;
pub mod snapshot;

/// How many cases of a long test to take: a few, or as many as a variable says.
pub fn cases(variable: &str, few: usize) -> usize {
    std::env::var(variable)
        .map_or(few, |number| number.parse().unwrap_or_else(|_| panic!("{variable} is a whole number")))
}
