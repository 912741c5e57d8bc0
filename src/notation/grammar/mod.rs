//! The inside of a line: a text becomes tokens once, and the grammar over them is nom's. Each function takes only its
//! tokens and gives those after what it read, and the value. Once a sign commits a reading (`@`, `RPE`, `(`), a fault is
//! final and carries its own trouble, so that the place named is the place at fault.
//!
//! Each file uses only those above it:
//!
//! - `lexer.rs`: a text as tokens with their places
//! - `tokens.rs`: tokens as nom's input
//! - `trouble.rs`, `leaves.rs`: what is said where reading stops; the smallest parsers
//! - `units.rs`, `number.rs`: units of time and distance; numbers, masses, lengths of time
//! - `signs.rs`: where something can begin, and the next of these places behind a fault
//! - `count.rs`, `load.rs`, `attribute.rs`: the three parts of a group
//! - `group.rs`: groups, and how reading goes on after a fault
//! - `keys.rs`, `work.rs`: known keys; work lines and set lines
//! - `date.rs`, `heading.rs`, `fact.rs`: dates; headings; the values of keys

pub(crate) mod attribute;
pub(crate) mod count;
pub(crate) mod date;
pub(crate) mod fact;
pub(crate) mod group;
pub(crate) mod heading;
pub(crate) mod keys;
pub(crate) mod leaves;
pub(crate) mod lexer;
pub(crate) mod load;
pub(crate) mod number;
pub(crate) mod signs;
pub(crate) mod tokens;
pub(crate) mod trouble;
pub(crate) mod units;
pub(crate) mod work;
