//! More or fewer reps lost from set to set.

use super::lifter::Kind;

const fn losing(name: &'static str, loss: f64) -> Kind {
    Kind { name, loss: (loss, 0.0), ..Kind::PUBLISHED }
}

pub const KINDS: [Kind; 3] =
    [losing("no rep lost a set", 0.0), losing("0.4 reps lost a set", 0.4), losing("0.8 reps lost a set", 0.8)];
