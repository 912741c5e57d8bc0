//! Five sets, of which only the last, or only the first, is rated.

use super::lifter::{Kind, Rated};

pub const KINDS: [Kind; 2] = [
    Kind { name: "only the last of five rated", sets: 5, rated: Rated::Last, ..Kind::PUBLISHED },
    Kind { name: "only the first of five rated", sets: 5, rated: Rated::First, ..Kind::PUBLISHED },
];
