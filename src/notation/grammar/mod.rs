//! The inside of a line, in nom. Each function takes only its input and gives the text after what it
//! read, and the value. Once a sign commits a reading (`@`, `RPE`, `(`), a fault is final and carries its
//! own trouble, so that the place named is the place at fault.
//!
//! - `trouble.rs`: what a function says when it cannot read on
//! - `chars.rs`, `number.rs`: gaps, words, numbers, units, lengths of time
//! - `count.rs`, `load.rs`, `attribute.rs`: the three parts of a group
//! - `group.rs`: groups, and how reading goes on after a fault
//! - `work.rs`: work lines and set lines
//! - `heading.rs`, `keys.rs`, `fact.rs`: headings; known keys; the values of keys

pub(crate) mod attribute;
pub(crate) mod chars;
pub(crate) mod count;
pub(crate) mod fact;
pub(crate) mod group;
pub(crate) mod heading;
pub(crate) mod keys;
pub(crate) mod load;
pub(crate) mod number;
pub(crate) mod trouble;
pub(crate) mod work;
