//! The effort of the plan is written, whatever was felt.

use super::lifter::Kind;

pub const KINDS: [Kind; 1] = [Kind { name: "the plan's RPE copied", copied: true, ..Kind::PUBLISHED }];
