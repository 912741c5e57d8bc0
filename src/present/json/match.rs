//! `match` as JSON.

use super::shared::{AmountJson, LoadJson, Number, effort, kg};
use crate::questions::r#match::{Answer, Lens, Pair, Side, Verdict};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Match {
    block: Option<String>,
    week: Option<u32>,
    against: Option<String>,
    pairs: Vec<PairJson>,
}

#[derive(Clone, Debug, Serialize)]
struct PairJson {
    lift: String,
    day: Option<String>,
    now: Option<SideJson>,
    then: Option<SideJson>,
    lenses: Option<LensesJson>,
    verdict: &'static str,
    basis: Option<u8>,
    p_ahead: Option<Number>,
    up: Vec<&'static str>,
    down: Vec<&'static str>,
    earlier: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
struct LensesJson {
    load: &'static str,
    reps: &'static str,
    sets: &'static str,
    work: &'static str,
    strength: &'static str,
}

#[derive(Clone, Debug, Serialize)]
struct SideJson {
    date: String,
    block: String,
    week: u32,
    load: Option<LoadJson>,
    reps: Option<u32>,
    seconds: Option<u32>,
    metres: Option<Number>,
    sets: Option<u32>,
    tonnage_kg: Option<Number>,
    effort: Option<Number>,
    est_max_kg: Option<Number>,
    faults: Vec<String>,
    page: String,
    line: u32,
}

/// The word of a verdict.
pub fn verdict_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Ahead => "ahead",
        Verdict::Level => "level",
        Verdict::Behind => "behind",
        Verdict::Mixed => "mixed",
        Verdict::Unknown => "unknown",
        Verdict::New => "new",
        Verdict::Missing => "missing",
        Verdict::ToCome => "to come",
    }
}

fn lens_word(lens: Lens) -> &'static str {
    match lens {
        Lens::Ahead => "ahead",
        Lens::Level => "level",
        Lens::Behind => "behind",
        Lens::Unknown => "unknown",
    }
}

fn side(side: &Side) -> SideJson {
    let amount = AmountJson::of(side.amount);
    SideJson {
        date: side.date.to_string(),
        block: side.block.clone(),
        week: side.week,
        load: side.load.as_ref().and_then(|load| LoadJson::of(load, side.kilograms)),
        reps: amount.reps,
        seconds: amount.seconds,
        metres: amount.metres,
        sets: side.sets,
        tonnage_kg: side.tonnage.map(|tonnage| Number(tonnage.rounded_kg())),
        effort: effort(side.effort),
        est_max_kg: side.estimate.map(|estimate| kg(estimate.maximum)),
        faults: side.faults.clone(),
        page: side.place.page.to_string(),
        line: side.place.line,
    }
}

fn pair(pair: &Pair) -> PairJson {
    PairJson {
        lift: pair.lift.clone(),
        day: pair.day.clone(),
        now: pair.now.as_ref().map(side),
        then: pair.then.as_ref().map(side),
        lenses: pair.lenses.as_ref().map(|lenses| LensesJson {
            load: lens_word(lenses.load),
            reps: lens_word(lenses.reps),
            sets: lens_word(lenses.sets),
            work: lens_word(lenses.work),
            strength: lens_word(lenses.strength),
        }),
        verdict: verdict_word(pair.verdict),
        basis: pair.basis,
        p_ahead: pair.chance_ahead.map(|chance| Number((chance * 1000.0).round() / 1000.0)),
        up: pair.that_is(Lens::Ahead),
        down: pair.that_is(Lens::Behind),
        earlier: pair.earlier.clone(),
    }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Match {
    Match {
        block: answer.block.clone(),
        week: answer.week,
        against: answer.against.clone(),
        pairs: answer.pairs.iter().map(pair).collect(),
    }
}
