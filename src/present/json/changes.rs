//! `changes` as JSON.

use super::shared::{AmountJson, LoadJson, MarkJson, Number, effort, kg};
use crate::questions::changes::{Answer, BlockTold, Head, Run, Side, State, Told, Turn};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Changes {
    from: StateJson,
    to: StateJson,
    lifters: Vec<LifterJson>,
}

#[derive(Clone, Debug, Serialize)]
struct StateJson {
    revision: Option<String>,
    commit: Option<String>,
    journal: bool,
}

#[derive(Clone, Debug, Serialize)]
struct LifterJson {
    lifter: Option<String>,
    added: Vec<SessionJson>,
    removed: Vec<SessionJson>,
    altered: Vec<AlteredJson>,
    blocks: Vec<BlockChangeJson>,
    records: Vec<RecordJson>,
}

#[derive(Clone, Debug, Serialize)]
struct HeadJson {
    date: String,
    time: Option<String>,
    day: Option<String>,
    deload: bool,
    peak: bool,
    test_day: bool,
    meet: Option<String>,
    bodyweight_kg: Option<Number>,
    pains: Vec<PainJson>,
    page: String,
    line: u32,
}

#[derive(Clone, Debug, Serialize)]
struct PainJson {
    site: String,
    of_ten: Number,
}

#[derive(Clone, Debug, Serialize)]
struct SessionJson {
    #[serde(flatten)]
    head: HeadJson,
    lifts: Vec<LiftJson>,
}

#[derive(Clone, Debug, Serialize)]
struct LiftJson {
    lift: String,
    #[serde(flatten)]
    side: SideJson,
}

#[derive(Clone, Debug, Serialize)]
struct SideJson {
    sets: Vec<RunJson>,
    plans: Vec<PlanJson>,
    skipped: bool,
}

#[derive(Clone, Debug, Serialize)]
struct PlanJson {
    text: String,
    of_maximum_kg: Vec<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct RunJson {
    sets: u32,
    reps: Option<u32>,
    seconds: Option<u32>,
    metres: Option<Number>,
    per_side: bool,
    load: Option<LoadJson>,
    effort: Option<Number>,
    faults: Vec<String>,
    missed: u32,
    rest: Option<u32>,
    tempo: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
struct AlteredJson {
    was: HeadJson,
    is: HeadJson,
    lifts: Vec<LiftChangeJson>,
}

#[derive(Clone, Debug, Serialize)]
struct LiftChangeJson {
    lift: String,
    sets_altered: bool,
    plan_altered: bool,
    was: Option<SideJson>,
    is: Option<SideJson>,
}

#[derive(Clone, Debug, Serialize)]
struct BlockChangeJson {
    name: String,
    was: Option<BlockJson>,
    is: Option<BlockJson>,
}

#[derive(Clone, Debug, Serialize)]
struct BlockJson {
    starts: String,
    ends: Option<String>,
    deload: Vec<u32>,
    peak: Vec<u32>,
    maxima: Vec<MaximumJson>,
}

#[derive(Clone, Debug, Serialize)]
struct MaximumJson {
    lift: String,
    load: Option<LoadJson>,
}

#[derive(Clone, Debug, Serialize)]
struct RecordJson {
    lift: String,
    reps: u32,
    turn: &'static str,
    was: Option<MarkJson>,
    is: Option<MarkJson>,
}

/// The answer as JSON.
pub fn json(from: &State, to: &State, lifters: &[Answer]) -> Changes {
    Changes { from: state(from), to: state(to), lifters: lifters.iter().map(of_lifter).collect() }
}

fn state(state: &State) -> StateJson {
    StateJson { revision: state.revision.clone(), commit: state.commit.clone(), journal: state.journal }
}

fn of_lifter(answer: &Answer) -> LifterJson {
    let altered = answer.altered.iter().map(|change| AlteredJson {
        was: head(&change.was),
        is: head(&change.is),
        lifts: change
            .lifts
            .iter()
            .map(|lift| LiftChangeJson {
                lift: lift.lift.clone(),
                sets_altered: !lift.was.same_sets(&lift.is),
                plan_altered: !lift.was.same_plan(&lift.is),
                was: known(&lift.was),
                is: known(&lift.is),
            })
            .collect(),
    });
    let blocks = answer.blocks.iter().map(|change| BlockChangeJson {
        name: change.name.clone(),
        was: change.was.as_ref().map(block),
        is: change.is.as_ref().map(block),
    });
    let records = answer.records.iter().map(|change| RecordJson {
        lift: change.lift.clone(),
        reps: change.reps,
        turn: match change.turn {
            Turn::Set => "set",
            Turn::TakenBack => "taken back",
        },
        was: change.was.as_ref().map(MarkJson::of),
        is: change.is.as_ref().map(MarkJson::of),
    });
    LifterJson {
        lifter: answer.lifter.clone(),
        added: answer.added.iter().map(session).collect(),
        removed: answer.removed.iter().map(session).collect(),
        altered: altered.collect(),
        blocks: blocks.collect(),
        records: records.collect(),
    }
}

fn session(told: &Told) -> SessionJson {
    let lifts = told.lifts.iter().map(|(lift, of)| LiftJson { lift: lift.clone(), side: side(of) });
    SessionJson { head: head(&told.head), lifts: lifts.collect() }
}

fn head(head: &Head) -> HeadJson {
    let pains = head
        .pains
        .iter()
        .map(|(site, tenths)| PainJson { site: site.clone(), of_ten: Number(f64::from(*tenths) / 10.0) });
    HeadJson {
        date: head.date.to_string(),
        time: head.minute.map(crate::training::spelling::clock),
        day: head.day.clone(),
        deload: head.deload,
        peak: head.peak,
        test_day: head.test_day,
        meet: head.meet.clone(),
        bodyweight_kg: head.bodyweight.map(kg),
        pains: pains.collect(),
        page: head.place.page.to_string(),
        line: head.place.line,
    }
}

/// A side; nothing where the session says nothing of the lift.
fn known(of: &Side) -> Option<SideJson> {
    of.is_there.then(|| side(of))
}

fn side(side: &Side) -> SideJson {
    let plans = side.plans.iter().map(|plan| PlanJson {
        text: plan.text.clone(),
        of_maximum_kg: plan.of_maximum.iter().copied().map(kg).collect(),
    });
    SideJson { sets: side.sets.iter().map(run).collect(), plans: plans.collect(), skipped: side.skipped }
}

fn run(run: &Run) -> RunJson {
    let amount = AmountJson::of(Some(run.amount));
    RunJson {
        sets: run.sets,
        reps: amount.reps,
        seconds: amount.seconds,
        metres: amount.metres,
        per_side: run.per_side,
        load: LoadJson::of(&run.load, run.kilograms),
        effort: effort(run.effort),
        faults: run.faults.clone(),
        missed: run.missed,
        rest: run.rest,
        tempo: run.tempo.clone(),
    }
}

fn block(told: &BlockTold) -> BlockJson {
    let maxima = told
        .maxima
        .iter()
        .map(|(lift, load)| MaximumJson { lift: lift.clone(), load: LoadJson::of(load, load.kilograms(None)) });
    BlockJson {
        starts: told.starts.to_string(),
        ends: told.ends.map(|ends| ends.to_string()),
        deload: told.deload.clone(),
        peak: told.peak.clone(),
        maxima: maxima.collect(),
    }
}
