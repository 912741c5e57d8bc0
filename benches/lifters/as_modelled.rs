//! Trains as the model before took it: its curve, no loss from set to set, no bias, nothing shared by a day.

use super::lifter::{Kind, Shape};

const BASE: Kind = Kind {
    shape: Shape::Published,
    reps_at_80: (8.0, 1.9),
    loss: (0.0, 0.0),
    too_few: (0.0, 0.0),
    of_day: 0.0,
    gain: 0.0,
    drift: 0.01,
    ..Kind::PUBLISHED
};

pub const KINDS: [Kind; 2] = [
    Kind { name: "as the model before, one set a day", sets: 1, ..BASE },
    Kind { name: "the same, four sets", ..BASE },
];
