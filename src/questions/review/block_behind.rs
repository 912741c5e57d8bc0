//! `block-behind`: most lifts of the block's last loading week behind the same week of the block before.

use super::scene::Scene;
use super::{Caution, Found};
use crate::questions::r#match::{self, Ask, Pair, Verdict};
use crate::source::Place;

pub(super) fn find(scene: &Scene<'_, '_>) -> Vec<Caution> {
    of_scene(scene).into_iter().collect()
}

fn of_scene(scene: &Scene<'_, '_>) -> Option<Caution> {
    let week = scene.last_loading_week()?;
    let ask = Ask { block: Some(scene.id), week: Some(week), ..Ask::default() };
    let answer = r#match::answer_with(scene.history, &ask, &mut scene.ratings.borrow_mut());
    let against = answer.against.filter(|_| !answer.light && !answer.against_light)?;
    // A lift that was not in the last block says nothing of that block.
    let pairs: Vec<&Pair> = answer.pairs.iter().filter(|pair| pair.earlier.is_none()).collect();
    let with = |verdict: Verdict| pairs.iter().filter(move |pair| pair.verdict == verdict);
    let (ahead, behind) = (with(Verdict::Ahead).count(), with(Verdict::Behind).count());
    let compared = ahead + behind + with(Verdict::Level).count() + with(Verdict::Mixed).count();
    let percent = scene.thresholds().block_behind as usize;
    if behind == 0 || behind <= ahead || behind * 100 < percent * compared {
        return None;
    }
    let sides = || with(Verdict::Behind).filter_map(|pair| pair.now.as_ref());
    let mut places: Vec<(chrono::NaiveDate, Place)> = sides().map(|side| (side.date, side.place.clone())).collect();
    places.sort();
    Some(Caution {
        date: places.last().map(|(date, _)| *date)?,
        found: Found::BlockBehind {
            week,
            against,
            behind: with(Verdict::Behind).map(|pair| pair.lift.clone()).collect(),
            compared,
            percent: behind as f64 / compared as f64 * 100.0,
            open: scene.block.week_ends(week) > scene.history.today,
        },
        places: places.into_iter().map(|(_, place)| place).collect(),
    })
}
