//! `block-behind`: most lifts of the block's last loading week behind the same week of the block before.

use super::caution::{Found, Rule, Tells};
use super::scene::Scene;
use crate::questions::r#match::{self, Ask, Pair, Verdict, WeekKind};
use crate::source::Place;
use crate::training::{Threshold, words};

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "block-behind", unit: "percent", least: 1.0, most: 100.0, default: 50.0 },
    brief: |_, found| format!("{found:.0} % of lifts behind"),
    tells: Tells::Other,
    text: "
Most lifts of the block's last loading week are behind the same week of the last block, as `match` compares them. The
week that ends the loading is the one that shows what the block brought. One poor day is no trend.

- raised: where at least half of the sessions compared are behind, and more are behind than ahead
- threshold: {threshold} of them, `cautions: { block-behind: 75 }` for three in four
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: common practice, no source
",
    find,
};

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    of_scene(scene, threshold).into_iter().collect()
}

fn of_scene(scene: &Scene<'_, '_>, threshold: f64) -> Option<Found> {
    let week = scene.last_loading_week()?;
    let ask = Ask { block: Some(scene.id), week: Some(week), ..Ask::default() };
    let answer = r#match::answer_with(scene.history, &ask, &mut scene.ratings.borrow_mut());
    let against = answer.against.filter(|_| [answer.kind, answer.against_kind] == [WeekKind::Loading; 2])?;
    // A lift that was not in the last block says nothing of that block.
    let pairs: Vec<&Pair> = answer.pairs.iter().filter(|pair| pair.earlier.is_none()).collect();
    let with = |verdict: Verdict| pairs.iter().filter(move |pair| pair.verdict == verdict);
    let (ahead, behind) = (with(Verdict::Ahead).count(), with(Verdict::Behind).count());
    let compared = ahead + behind + with(Verdict::Level).count() + with(Verdict::Mixed).count();
    if behind == 0 || behind <= ahead || threshold * compared as f64 > (behind * 100) as f64 {
        return None;
    }
    let sides = || with(Verdict::Behind).filter_map(|pair| pair.now.as_ref());
    let mut places: Vec<(chrono::NaiveDate, Place)> = sides().map(|side| (side.date, side.place.clone())).collect();
    places.sort();
    let so_far = if scene.block.week_ends(week) > scene.history.today { " so far" } else { "" };
    let lifts: Vec<String> = with(Verdict::Behind).map(|pair| pair.lift.clone()).collect();
    let lifts = words::all_of(&lifts);
    Some(Found {
        date: places.last().map(|(date, _)| *date)?,
        about: None,
        figure: behind as f64 / compared as f64 * 100.0,
        message: format!("week {week}{so_far} is behind block {against} on {behind} of {compared}: {lifts}"),
        places: places.into_iter().map(|(_, place)| place).collect(),
    })
}
