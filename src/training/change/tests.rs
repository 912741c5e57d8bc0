use super::change_the_side;
use crate::training::{Gear, Loadable, Mass, Plate, Unit};
use proptest::prelude::*;
use std::cmp::Reverse;

fn plate(thousandths: i64, pairs: Option<u32>) -> Plate {
    let mass = Mass::of(thousandths, Unit::Kg);
    Plate { mass, text: mass.written(), colour: None, pairs }
}

fn numbers(plates: &[Plate]) -> String {
    plates.iter().map(|plate| plate.mass.written().replace(" kg", "")).collect::<Vec<_>>().join("+")
}

/// What comes off, what goes on, and what hangs then; the side's kilograms before and after.
fn change(before: i64, after: i64) -> (String, String, String) {
    let plates = Gear::usual(Unit::Kg).plates;
    let hung = Loadable::of(Loadable::most(), Mass::ZERO, &plates).side(Mass::of(2 * before, Unit::Kg)).unwrap();
    let change = change_the_side(&hung, Mass::of(2 * after, Unit::Kg), &plates).unwrap();
    (numbers(&change.off), numbers(&change.on), numbers(&change.side))
}

fn told(off: &str, on: &str, side: &str) -> (String, String, String) {
    (off.into(), on.into(), side.into())
}

#[test]
fn the_same_load_needs_no_change() {
    assert_eq!(change(40_000, 40_000), told("", "", "25+15"));
}

/// From 20 a side to 40: one more 20, rather than off with it and 25 and 15 on.
#[test]
fn what_hangs_stays_where_that_moves_less() {
    assert_eq!(change(20_000, 40_000), told("", "20", "20+20"));
    assert_eq!(change(77_500, 87_500), told("", "10", "25+25+25+2.5+10"));
}

#[test]
fn what_is_outside_comes_off_first() {
    // 25+15+1.25: the 1.25 has to go, and it goes before the 15.
    assert_eq!(change(41_250, 25_000), told("1.25+15", "", "25"));
    assert_eq!(change(41_250, 60_000), told("1.25", "20", "25+15+20"));
}

/// From 25+5 to 25+10 a side two plates move, or one (another 5): one.
#[test]
fn of_equal_changes_no_plate_hangs_outside_a_lighter_one() {
    assert_eq!(change(30_000, 35_000), told("", "5", "25+5+5"));
    // 15+2.5 to 30: 2.5 off and 15 on, not 2.5 and 15 off and 20 and 10 on.
    assert_eq!(change(17_500, 30_000), told("2.5", "15", "15+15"));
    // 5 to 35: 25+5 and 20+10 are both two more; 25 is heavier, and neither is lighter than the 5 inside.
    assert_eq!(change(5_000, 35_000), told("", "25+5", "5+25+5"));
    // 20 to 50: 15+15 stays in order, 25+5 would not.
    assert_eq!(change(20_000, 50_000), told("", "20+10", "20+20+10"));
}

#[test]
fn a_plate_that_hangs_is_there_whatever_the_gym_owns() {
    let owned = [plate(20_000, Some(1)), plate(5_000, Some(1))];
    let hung = [plate(20_000, None), plate(20_000, None), plate(7_000, None)];
    let change = change_the_side(&hung, Mass::kg(2 * 45), &owned).unwrap();
    assert_eq!((numbers(&change.off), numbers(&change.on)), ("7".into(), "5".into()));
    let change = change_the_side(&hung, Mass::kg(2 * 27), &owned).unwrap();
    assert_eq!((numbers(&change.off), numbers(&change.on)), ("7+20".into(), "7".into()));
    assert_eq!(change_the_side(&hung, Mass::kg(2 * 60), &owned), None);
}

proptest! {
    /// Every number of plates left on and every number of each put on, tried one by one.
    #[test]
    fn no_change_moves_fewer_plates(
        kinds in prop::collection::btree_map((1..10i64).prop_map(|n| n * 1250), 1..4u32, 1..4),
        hung in prop::collection::vec(any::<prop::sample::Index>(), 0..5),
        pick in any::<prop::sample::Index>(),
    ) {
        let kinds: Vec<Plate> = kinds.into_iter().map(|(mass, pairs)| plate(mass, Some(pairs))).collect();
        let mut before: Vec<Plate> = Vec::new();
        for at in hung {
            let next = at.get(&kinds);
            let there = before.iter().filter(|plate| plate.mass == next.mass).count();
            if there < next.pairs.unwrap() as usize {
                before.push(next.clone());
            }
        }
        let mut every = Vec::new();
        for kept in 0..=before.len() {
            let mut all: Vec<Vec<Mass>> = vec![Vec::new()];
            for kind in kinds.iter().rev() {
                let stays = before[..kept].iter().filter(|plate| plate.mass == kind.mass).count() as u32;
                let free = kind.pairs.unwrap() - stays;
                all = all
                    .iter()
                    .flat_map(|on| (0..=free).map(|count| {
                        let mut on = on.clone();
                        on.extend((0..count).map(|_| kind.mass));
                        on
                    }))
                    .collect();
            }
            for on in all {
                let moved = before.len() - kept + on.len();
                let side: Vec<Mass> = before[..kept].iter().map(|plate| plate.mass).chain(on).collect();
                let unordered = !side.is_sorted_by_key(|mass| Reverse(*mass));
                let both = side.iter().fold(Mass::ZERO, |sum, mass| sum + mass.times(2));
                every.push((both, (moved, unordered, side.len(), Reverse(side))));
            }
        }
        let wanted = pick.get(&every).0;
        let best = &every.iter().filter(|(both, _)| *both == wanted).map(|(_, rank)| rank).min().unwrap();
        let change = change_the_side(&before, wanted, &kinds).unwrap();
        let side: Vec<Mass> = change.side.iter().map(|plate| plate.mass).collect();
        prop_assert_eq!(&side, &best.3.0);
        prop_assert_eq!(change.moved(), best.0);
        let stays = before.len() - change.off.len();
        let comes_off: Vec<Plate> = before[stays..].iter().rev().cloned().collect();
        prop_assert_eq!(&change.off, &comes_off);
        prop_assert_eq!(&change.side[stays..], change.on.as_slice());
    }
}
