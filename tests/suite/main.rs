//! The tests from outside, in one binary. `house.rs` fails when a file of this folder is not declared.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    unreachable_pub,
    missing_docs
)]

mod amended;
mod circles;
mod coach;
mod commands;
mod contract;
mod course;
mod days;
mod docs;
mod drafts;
mod editor;
mod export;
mod faults;
mod git;
mod gyms;
mod hands;
mod help;
mod house;
mod import;
mod index;
mod kept;
mod laws;
mod loading;
mod markdown;
mod merge;
mod notation;
mod notes;
mod oracle;
mod plans;
mod plots;
mod problems;
mod readings;
mod report;
mod schemas;
mod science;
mod standards;
mod support;
mod tidy;
mod tree;
