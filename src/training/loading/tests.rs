use super::{Fit, Loadable};
use crate::training::{Bar, Gear, Mass, Plate, Unit};
use proptest::prelude::*;
use std::cmp::Reverse;

fn bar(mass: Mass) -> Bar {
    Bar { name: "bar".into(), mass }
}

fn gear(plates: Vec<Plate>, collars: Mass) -> Gear {
    Gear { plates, collars, ..Gear::usual(Unit::Kg) }
}

fn plate(thousandths: i64, unit: Unit, pairs: Option<u32>) -> Plate {
    let mass = Mass::of(thousandths, unit);
    Plate { mass, text: mass.written(), colour: None, pairs }
}

/// The numbers of one side, `25+10+2.5`, or what is wrong.
fn side(total: Mass, bar: &Bar, gear: &Gear) -> String {
    match Loadable::up_to(total, bar, gear).fit(total) {
        Fit::Exact(loading) => {
            assert_eq!(loading.total, total);
            let numbers = loading.side.iter().map(|plate| plate.mass.written());
            numbers.map(|text| text.split(' ').next().unwrap().to_owned()).collect::<Vec<_>>().join("+")
        }
        Fit::Between { .. } => "not loadable".into(),
    }
}

/// IPF Technical Rules (from memory, high confidence): a bar of 20 kg, collars of 2.5 kg each, discs of 25, 20,
/// 15, 10, 5, 2.5 and 1.25 kg, the heaviest innermost. The second column is with the collars, the third without.
#[test]
fn the_loading_table_of_a_competition_bar() {
    let bar = bar(Mass::kg(20));
    let with = Gear { collars: Mass::kg(5), ..Gear::usual(Unit::Kg) };
    let without = Gear::usual(Unit::Kg);
    for (thousandths, collared, bare) in [
        (20_000, "-", ""),
        (22_500, "-", "1.25"),
        (25_000, "", "2.5"),
        (27_500, "1.25", "2.5+1.25"),
        (60_000, "15+2.5", "20"),
        (100_000, "25+10+2.5", "25+15"),
        (102_500, "25+10+2.5+1.25", "25+15+1.25"),
        (142_500, "25+25+5+2.5+1.25", "25+25+10+1.25"),
        (182_500, "25+25+25+2.5+1.25", "25+25+25+5+1.25"),
        (200_000, "25+25+25+10+2.5", "25+25+25+15"),
        (227_500, "25+25+25+25+1.25", "25+25+25+25+2.5+1.25"),
        (260_000, "25+25+25+25+15+2.5", "25+25+25+25+20"),
        (300_000, "25+25+25+25+25+10+2.5", "25+25+25+25+25+15"),
    ] {
        let total = Mass::of(thousandths, Unit::Kg);
        if collared != "-" {
            assert_eq!(side(total, &bar, &with), collared, "{total} with collars");
        }
        assert_eq!(side(total, &bar, &without), bare, "{total} without");
    }
}

/// The usual pound plates on a 45 lb bar: common practice, no source; the sums are arithmetic. The last row is the one
/// where going down from the heaviest plate needs three (45+10+5) and two do.
#[test]
fn the_loading_table_of_a_pound_bar() {
    let bar = bar(Mass::of(45_000, Unit::Lb));
    let gear = Gear::usual(Unit::Lb);
    for (pounds, plates) in [
        (45, ""),
        (50, "2.5"),
        (135, "45"),
        (185, "45+25"),
        (225, "45+45"),
        (315, "45+45+45"),
        (405, "45+45+45+45"),
        (165, "35+25"),
    ] {
        assert_eq!(side(Mass::of(pounds * 1000, Unit::Lb), &bar, &gear), plates, "{pounds} lb");
    }
}

/// With the usual kilo plates, going down from the heaviest plate gives the fewest (arithmetic).
#[test]
fn kilo_plates_are_taken_from_the_heaviest_down() {
    let gear = Gear::usual(Unit::Kg);
    let loadable = Loadable::new(&bar(Mass::ZERO), &gear);
    for steps in 0..=160 {
        let mut left = Mass::of(1_250 * steps, Unit::Kg);
        let total = left.times(2);
        let mut down = Vec::new();
        for plate in &gear.plates {
            for _ in 0..left.holds(plate.mass) {
                down.push(plate.clone());
                left = left - plate.mass;
            }
        }
        assert_eq!(loadable.side(total), Some(down), "{total}");
    }
}

/// 101 kg on that bar leaves 0.5 kg a side, which no plate weighs (arithmetic).
#[test]
fn between_two_loads_both_are_told() {
    let gear = Gear { collars: Mass::kg(5), ..Gear::usual(Unit::Kg) };
    let bar = bar(Mass::kg(20));
    let loadable = Loadable::new(&bar, &gear);
    let Fit::Between { below: Some(below), above: Some(above) } = loadable.fit(Mass::kg(101)) else {
        panic!("101 kg is not loadable");
    };
    assert_eq!((below.total, above.total), (Mass::kg(100), Mass::of(102_500, Unit::Kg)));
    assert_eq!(loadable.nearest(Mass::kg(101)), Mass::kg(100));
    assert_eq!(loadable.nearest(Mass::kg(102)), Mass::of(102_500, Unit::Kg));
    // As near to the one as to the other: the lighter.
    assert_eq!(loadable.nearest(Mass::of(101_250, Unit::Kg)), Mass::kg(100));
}

/// 45 lb and 2 x 87.5 kg: 20.41165665 + 175 = 195.41165665 kg (1 lb = 0.45359237 kg exactly, NIST SP 811).
#[test]
fn a_pound_bar_takes_kilo_plates() {
    let (bar, gear) = (bar(Mass::of(45_000, Unit::Lb)), Gear::usual(Unit::Kg));
    let Fit::Between { below: Some(below), above: Some(above) } = Loadable::new(&bar, &gear).fit(Mass::kg(195)) else {
        panic!("no sum of kilos makes a pound bar whole");
    };
    assert_eq!(below.total, Mass::of(45_000, Unit::Lb) + Mass::of(172_500, Unit::Kg));
    assert_eq!(above.total, Mass::of(45_000, Unit::Lb) + Mass::kg(175));
    assert_eq!(side(above.total, &bar, &gear), "25+25+25+10+2.5");
}

#[test]
fn plates_run_out() {
    let gear = gear(vec![plate(25_000, Unit::Kg, Some(1)), plate(10_000, Unit::Kg, Some(0))], Mass::ZERO);
    let loadable = Loadable::new(&bar(Mass::kg(20)), &gear);
    let Fit::Between { below: Some(below), above: None } = loadable.fit(Mass::kg(90)) else {
        panic!("70 kg is all there is");
    };
    assert_eq!(below.total, Mass::kg(70));
    assert_eq!(loadable.nearest(Mass::kg(5000)), Mass::kg(70));
}

#[test]
fn lighter_than_the_bare_bar_there_is_nothing() {
    let loadable = Loadable::new(&bar(Mass::kg(20)), &Gear { collars: Mass::kg(5), ..Gear::usual(Unit::Kg) });
    assert_eq!(loadable.below(Mass::kg(24)), None);
    assert_eq!(loadable.above(Mass::kg(24)), Some(Mass::kg(25)));
    assert_eq!(loadable.nearest(Mass::kg(24)), Mass::kg(25));
}

#[test]
fn of_plates_alike_the_first_in_the_settings_is_taken() {
    let black = Plate { colour: Some("black".into()), ..plate(10_000, Unit::Kg, Some(1)) };
    let green = Plate { colour: Some("green".into()), ..plate(10_000, Unit::Kg, Some(5)) };
    let gear = gear(vec![black.clone(), green.clone()], Mass::ZERO);
    let loadable = Loadable::new(&bar(Mass::kg(20)), &gear);
    assert_eq!(loadable.side(Mass::kg(60)), Some(vec![black, green]));
}

/// One side's plates of some kinds, heaviest first, for every number of each.
fn every_side(plates: &[Plate]) -> Vec<Vec<Mass>> {
    let mut all = vec![Vec::new()];
    for plate in plates {
        let counts = 0..=plate.pairs.unwrap();
        all = all
            .iter()
            .flat_map(|side: &Vec<Mass>| {
                counts.clone().map(|count| {
                    let mut side = side.clone();
                    side.extend((0..count).map(|_| plate.mass));
                    side
                })
            })
            .collect();
    }
    for side in &mut all {
        side.sort_by_key(|mass| Reverse(*mass));
    }
    all
}

fn plates() -> impl Strategy<Value = Vec<Plate>> {
    // Few different numbers, so that many ways lead to one sum; odd thousandths, so that masses need not be round.
    let mass = prop_oneof![(1..12i64).prop_map(|n| n * 1250), (1..30_000i64)];
    let unit = prop_oneof![Just(Unit::Kg), Just(Unit::Lb)];
    prop::collection::vec((mass, unit, 0..4u32), 0..5)
        .prop_map(|all| all.into_iter().map(|(mass, unit, pairs)| plate(mass, unit, Some(pairs))).collect())
}

proptest! {
    /// Every number of every plate tried one by one, and the best of them taken.
    #[test]
    fn no_way_to_hang_the_plates_is_better(
        plates in plates(),
        bare in 0..30_000i64,
        collars in prop_oneof![Just(0i64), Just(5_000)],
        thousandths in 0..300_000i64,
        pick in any::<prop::sample::Index>(),
        exactly in any::<bool>(),
    ) {
        let bar = bar(Mass::of(bare, Unit::Lb));
        let gear = gear(plates, Mass::of(collars, Unit::Kg));
        let bare = bar.mass + gear.collars;
        let total = |side: &Vec<Mass>| side.iter().fold(bare, |sum, mass| sum + mass.times(2));
        let mut all = every_side(&gear.plates);
        // Half of the time a load that can be made, half of the time any.
        let wanted = if exactly { total(pick.get(&all)) } else { Mass::of(thousandths, Unit::Kg) };
        all.sort_by_key(|side| (total(side), side.len(), Reverse(side.clone())));
        let loadable = Loadable::up_to(wanted, &bar, &gear);
        let below = all.iter().map(&total).filter(|load| *load <= wanted).max();
        let above = all.iter().map(&total).filter(|load| *load >= wanted).min();
        prop_assert_eq!(loadable.below(wanted), below);
        prop_assert_eq!(loadable.above(wanted), above);
        for load in below.into_iter().chain(above) {
            let best = all.iter().find(|side| total(side) == load).unwrap();
            let side: Vec<Mass> = loadable.side(load).unwrap().iter().map(|plate| plate.mass).collect();
            prop_assert_eq!(&side, best);
        }
        let nearest = all.iter().map(total).min_by_key(|load| (load.apart(wanted), *load)).unwrap();
        prop_assert_eq!(loadable.nearest(wanted), nearest);
    }
}
