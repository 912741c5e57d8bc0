//! Ratings that are off one way, always.

use super::lifter::Kind;

pub const KINDS: [Kind; 2] = [
    Kind { name: "1.5 reps too few said", too_few: (1.5, 0.3), ..Kind::PUBLISHED },
    Kind { name: "1.5 reps too many said", too_few: (-1.5, 0.3), ..Kind::PUBLISHED },
];
