//! Ratings that are mostly good and sometimes far off.

use super::lifter::Kind;

pub const KINDS: [Kind; 1] = [Kind { name: "heavy-tailed ratings", heavy_tails: true, ..Kind::PUBLISHED }];
