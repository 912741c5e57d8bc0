use super::{Ladder, Rung, WarmUp, ladder};
use crate::training::{Bar, Gear, Loadable, Mass, Plate, Unit};
use proptest::prelude::*;

fn bar(kg: i64) -> Bar {
    Bar { name: "bar".into(), mass: Mass::kg(kg) }
}

/// `20x8 60x5 +20`: each load with its reps, and the plates that go on to it.
fn spelled(ladder: &Ladder) -> String {
    let plate = |plate: &Plate| format!(" +{}", plate.mass.in_kilograms());
    let mut hung = 0;
    let mut words = Vec::new();
    let ends = ladder.steps.iter().map(|step| (format!("{}x{}", step.total.in_kilograms(), step.reps), &step.side));
    for (name, side) in ends.chain([("work".to_owned(), &ladder.work)]) {
        words.push(name + &side[hung..].iter().map(plate).collect::<String>());
        hung = side.len();
    }
    words.join(", ")
}

fn way_up(work: i64, reps: u32) -> String {
    let work = Mass::of(work, Unit::Kg);
    ladder(&WarmUp::default().before(reps), work, &bar(20), &Gear::usual(Unit::Kg))
        .map_or("none".into(), |way| spelled(&way))
}

#[test]
fn plates_only_go_on_and_as_few_as_can_be() {
    assert_eq!(way_up(160_000, 4), "20x8, 60x8 +20, 100x5 +20, 120x3 +10, 140x1 +10, work +10");
    assert_eq!(way_up(100_000, 8), "40x8 +10, 60x5 +10, 80x3 +10, 90x2 +5, work +5");
}

#[test]
fn light_work_has_fewer_steps_and_none_is_below_the_bar() {
    assert_eq!(way_up(60_000, 5), "20x8, 40x5 +10, 50x1 +5, work +5");
    assert_eq!(way_up(40_000, 5), "20x8, 30x3 +5, work +5");
    let mut gear = Gear::usual(Unit::Kg);
    gear.plates.iter_mut().zip([5, 3, 2, 3, 2, 2, 2]).for_each(|(plate, pairs)| plate.pairs = Some(pairs));
    // With two pairs of 5, 2.5 and 1.25 kg the steps are made of what there is.
    let work = Mass::kg(60);
    let few = ladder(&WarmUp::default().before(3), work, &bar(20), &gear).unwrap();
    assert_eq!(spelled(&few), "20x8, 40x5 +10, 50x1 +5, work +5");
    let uneven = ladder(&WarmUp::default().before(3), Mass::of(82_500, Unit::Kg), &bar(20), &gear).unwrap();
    assert_eq!(spelled(&uneven), "20x8, 50x5 +15, 60x3 +5, 70x1 +5, work +2.5 +2.5 +1.25");
    assert_eq!(way_up(25_000, 5), "work +2.5");
    assert_eq!(way_up(20_000, 5), "work");
    assert_eq!(way_up(17_500, 5), "none");
}

#[test]
fn the_settings_choose_the_steps() {
    let work = Mass::kg(100);
    let gear = Gear::usual(Unit::Kg);
    let own = WarmUp::steps(vec![Rung { percent: 50, reps: 6 }, Rung { percent: 80, reps: 2 }]);
    // The empty bar comes before a first step of more than twice its mass.
    assert_eq!(spelled(&ladder(&own.before(5), work, &bar(20), &gear).unwrap()), "20x6, 50x6 +15, 80x2 +15, work +10");
    assert_eq!(spelled(&ladder(&WarmUp::OFF.before(5), work, &bar(20), &gear).unwrap()), "work +25 +15");
}

proptest! {
    /// Of any gym, any work set and any steps: no plate comes off on the way up, every load can be hung with what the gym
    /// owns, none is below the bar, and each is heavier than the one before.
    #[test]
    fn no_plate_comes_off_on_the_way_up(
        pairs in proptest::collection::vec(0u32..5, 7),
        pounds in any::<bool>(),
        bar_kg in 0i64..30,
        collars in 0i64..6,
        work in 0i64..300_000,
        rungs in proptest::collection::btree_map(1u32..99, 1u32..12, 0..6),
    ) {
        let mut gear = Gear::usual(if pounds { Unit::Lb } else { Unit::Kg });
        gear.collars = Mass::kg(collars);
        gear.plates.iter_mut().zip(pairs).for_each(|(plate, pairs)| plate.pairs = Some(pairs));
        let bar = bar(bar_kg);
        let loadable = Loadable::new(&bar, &gear);
        let work = loadable.nearest(Mass::of(work, Unit::Kg));
        let rungs: Vec<Rung> = rungs.into_iter().map(|(percent, reps)| Rung { percent, reps }).collect();
        let way = ladder(&rungs, work, &bar, &gear).unwrap();
        let bare = bar.mass + gear.collars;
        let mut hung: Vec<Plate> = Vec::new();
        let mut before = None;
        for (total, side) in way.steps.iter().map(|step| (step.total, &step.side)).chain([(work, &way.work)]) {
            prop_assert!(side.starts_with(&hung), "{}", spelled(&way));
            prop_assert_eq!(side.iter().fold(bare, |sum, plate| sum + plate.mass.times(2)), total);
            for plate in &gear.plates {
                let count = side.iter().filter(|hung| *hung == plate).count();
                prop_assert!(plate.pairs.is_none_or(|pairs| count <= pairs as usize), "{}", spelled(&way));
            }
            prop_assert!(total >= bare && before.is_none_or(|before| total > before), "{}", spelled(&way));
            before = Some(total);
            hung.clone_from(side);
        }
    }
}
