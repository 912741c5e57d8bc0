//! Kilograms and pounds as plain numbers, as the equations take them.

use super::published::{Reader, Row, check};
use loadline::training::{Mass, Unit};

pub const READERS: &[Reader] = &[("units.lb_to_kg", to_kilograms), ("units.kg_to_lb", to_pounds)];

#[test]
fn published_figures() {
    check(READERS);
}

fn mass(row: &Row, unit: Unit) -> Mass {
    Mass::of((row.input.parse::<f64>().unwrap() * 1000.0) as i64, unit)
}

fn to_kilograms(row: &Row) {
    row.expect(mass(row, Unit::Lb).in_kilograms());
}

fn to_pounds(row: &Row) {
    row.expect(mass(row, Unit::Kg).in_kilograms() / Mass::of(1000, Unit::Lb).in_kilograms());
}

#[test]
fn a_mass_comes_back_from_kilograms() {
    for mass in [Mass::kg(120), Mass::of(2500, Unit::Kg), Mass::of(265_000, Unit::Lb), -Mass::kg(15), Mass::ZERO] {
        let back = Mass::from_kilograms(mass.in_kilograms()).unwrap();
        assert_eq!(back.rounded_kg(), mass.rounded_kg());
        assert_eq!(back.in_thousandths(Unit::Lb), mass.in_thousandths(Unit::Lb));
    }
    for nonsense in [f64::NAN, f64::INFINITY, 1e12] {
        assert_eq!(Mass::from_kilograms(nonsense), None);
    }
}
