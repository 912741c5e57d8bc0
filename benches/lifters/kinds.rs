//! All kinds of lifters, and for each a second set of parameters, so that no model is fitted to one.

use super::lifter::{Kind, Shape};
use super::{
    as_modelled, as_published, beginner, biased, copied, heavy_tails, injured, last_rated, loss, single, tired,
};

/// In the order of the table.
pub fn all() -> Vec<Kind> {
    let groups: [&[Kind]; 11] = [
        &as_modelled::KINDS,
        &as_published::KINDS,
        &single::KINDS,
        &heavy_tails::KINDS,
        &biased::KINDS,
        &tired::KINDS,
        &copied::KINDS,
        &beginner::KINDS,
        &loss::KINDS,
        &injured::KINDS,
        &last_rated::KINDS,
    ];
    groups.concat()
}

/// The same kind with other sizes: another curve, biases that grow with the reps left, steadier ratings that share
/// more of a day, more form, more drift.
pub fn another(kind: Kind) -> Kind {
    Kind {
        shape: if matches!(kind.shape, Shape::Published) { Shape::Published } else { Shape::Power },
        reps_at_80: (kind.reps_at_80.0 - 0.9, kind.reps_at_80.1 * 0.8),
        loss: (kind.loss.0 * 1.15, kind.loss.1 * 1.2),
        grows: true,
        error: (0.35, 0.3),
        of_day: 0.5,
        form: 0.025,
        drift: kind.drift * 1.2,
        gain: if kind.gain > 0.004 { kind.gain } else { kind.gain + 0.0008 },
        sets: if kind.sets == 1 { 1 } else { kind.sets - 1 },
        starts: kind.starts * 0.6,
        ..kind
    }
}
