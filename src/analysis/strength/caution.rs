//! The caution that stands, once, wherever a load, an attempt or a maximum is proposed.

/// What the lifter is told.
pub const CAUTION: &str = "These numbers are advice: set the safeties or have spotters, stop on pain; the coach, the \
                           meet's rules and a physician decide.";
