//! The caution that stands, once, wherever a load, an attempt or a maximum is proposed.

/// What the lifter is told.
pub const CAUTION: &str = "These numbers are advice: use safeties or spotters, stop on pain; coach, meet rules and a \
                           physician decide.";
