//! A block that wears out: at its end 3 % are missing, which a week of rest brings back.

use super::lifter::Kind;

pub const KINDS: [Kind; 1] = [Kind { name: "tired by the block's end, 3 %", tired: 0.03, ..Kind::PUBLISHED }];
