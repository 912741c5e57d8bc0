//! Trains, tires and rates as published: the mean repetitions of Nuzzo et al. 2024, a rating bias of each lifter, reps
//! lost from set to set.

use super::lifter::Kind;

pub const KINDS: [Kind; 1] = [Kind { name: "as published", ..Kind::PUBLISHED }];
