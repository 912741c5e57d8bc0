//! A fall of 12 % in a week, asked about then or later.

use super::lifter::Kind;

const fn fallen(name: &'static str, ago: u32) -> Kind {
    Kind { name, injured: Some((0.128, ago)), ..Kind::PUBLISHED }
}

pub const KINDS: [Kind; 4] = [
    fallen("injured, -12 %, the same week", 0),
    fallen("injured, a week later", 1),
    fallen("injured, 4 weeks later", 4),
    fallen("injured, 8 weeks later", 8),
];
