//! The GL points of the International Powerlifting Federation.

use crate::training::{Equipment, Event, Sex};

/// Below so many kilograms of bodyweight the formula gives nothing. It is the bound that published results keep
/// (medium confidence); the lightest class is well above it.
pub const LEAST_BODYWEIGHT: f64 = 35.0;

/// GL points of a total, or of a bench press where that is the event, both in kilograms.
///
/// 100 t / (A − B e^(−C w)), with the coefficients in force since 1 May 2020: IPF, *IPF GL Coefficients*, 2020, as
/// quoted in three independent texts that agree, and by whose own examples it is checked. `None` for other events,
/// below [`LEAST_BODYWEIGHT`], and for what is no total.
#[must_use]
pub fn ipf_gl(sex: Sex, equipment: Equipment, event: Event, bodyweight: f64, total: f64) -> Option<f64> {
    let (a, b, c) = coefficients(sex, equipment, event)?;
    if !(bodyweight.is_finite() && bodyweight >= LEAST_BODYWEIGHT && total.is_finite() && total > 0.0) {
        return None;
    }
    Some(100.0 * total / (a - b * (-c * bodyweight).exp()))
}

fn coefficients(sex: Sex, equipment: Equipment, event: Event) -> Option<(f64, f64, f64)> {
    Some(match (sex, equipment, event) {
        (Sex::Male, Equipment::Classic, Event::FullMeet) => (1199.72839, 1025.18162, 0.00921),
        (Sex::Male, Equipment::Classic, Event::BenchOnly) => (320.98041, 281.40258, 0.01008),
        (Sex::Male, Equipment::Equipped, Event::FullMeet) => (1236.25115, 1449.21864, 0.01644),
        (Sex::Male, Equipment::Equipped, Event::BenchOnly) => (381.22073, 733.79378, 0.02398),
        (Sex::Female, Equipment::Classic, Event::FullMeet) => (610.32796, 1045.59282, 0.03048),
        (Sex::Female, Equipment::Classic, Event::BenchOnly) => (142.40398, 442.52671, 0.04724),
        (Sex::Female, Equipment::Equipped, Event::FullMeet) => (758.63878, 949.31382, 0.02435),
        (Sex::Female, Equipment::Equipped, Event::BenchOnly) => (221.82209, 357.00377, 0.02937),
        (_, _, Event::Other) => return None,
    })
}
