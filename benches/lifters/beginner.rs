//! Gains 0.8 % a week at first, and slowly less.

use super::lifter::Kind;

pub const KINDS: [Kind; 1] = [Kind { name: "beginner, 0.8 % a week", gain: 0.008, starts: 70.0, ..Kind::PUBLISHED }];
