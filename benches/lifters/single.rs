//! The same with a single at RPE 8 each week.

use super::lifter::Kind;

pub const KINDS: [Kind; 1] = [Kind { name: "with a weekly single at RPE 8", single: true, ..Kind::PUBLISHED }];
