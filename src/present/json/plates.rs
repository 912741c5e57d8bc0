//! `plates` as JSON.

use super::shared::{LoadJson, Number};
use crate::questions::plates::{Answer, Hung, Moves, Nearest, Run};
use crate::training::Bar;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Plates {
    load: Option<LoadJson>,
    bar: BarJson,
    collars_kg: Number,
    from: Option<BeforeJson>,
    nearest: &'static str,
    exact: Option<HungJson>,
    below: Option<HungJson>,
    above: Option<HungJson>,
}

#[derive(Clone, Debug, Serialize)]
struct BarJson {
    name: String,
    kg: Number,
}

#[derive(Clone, Debug, Serialize)]
struct BeforeJson {
    load: Option<LoadJson>,
    kg: Number,
    text: String,
    side: Vec<RunJson>,
}

#[derive(Clone, Debug, Serialize)]
struct HungJson {
    kg: Number,
    off_kg: Number,
    text: String,
    side_kg: Number,
    side: Vec<RunJson>,
    change: Option<MovesJson>,
}

#[derive(Clone, Debug, Serialize)]
struct RunJson {
    count: u32,
    plate: String,
    kg: Number,
    colour: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
struct MovesJson {
    moved: usize,
    off: Vec<RunJson>,
    on: Vec<RunJson>,
    text: String,
    side: Vec<RunJson>,
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Plates {
    Plates {
        load: LoadJson::of(&answer.load, Some(answer.kilograms)),
        bar: BarJson { name: answer.bar.name.clone(), kg: Number(answer.bar.mass.rounded_kg()) },
        collars_kg: Number(answer.collars.rounded_kg()),
        from: answer.from.as_ref().map(|before| BeforeJson {
            load: LoadJson::of(&before.load, Some(before.kilograms)),
            kg: Number(before.total.rounded_kg()),
            text: text(&answer.bar, &before.side),
            side: runs(&before.side),
        }),
        nearest: match answer.nearest {
            Nearest::Exact => "exact",
            Nearest::Below => "below",
            Nearest::Above => "above",
        },
        exact: answer.exact.as_ref().map(|one| hung(one, &answer.bar)),
        below: answer.below.as_ref().map(|one| hung(one, &answer.bar)),
        above: answer.above.as_ref().map(|one| hung(one, &answer.bar)),
    }
}

fn hung(hung: &Hung, bar: &Bar) -> HungJson {
    HungJson {
        kg: Number(hung.total.rounded_kg()),
        off_kg: Number(hung.off.rounded_kg()),
        text: text(bar, &hung.side),
        side_kg: Number(hung.side_mass.rounded_kg()),
        side: runs(&hung.side),
        change: hung.change.as_ref().map(|change| moves(change, bar)),
    }
}

fn moves(moves: &Moves, bar: &Bar) -> MovesJson {
    MovesJson {
        moved: moves.moved,
        off: runs(&moves.off),
        on: runs(&moves.on),
        text: text(bar, &moves.side),
        side: runs(&moves.side),
    }
}

/// The loaded bar as a page has it: `trap bar + 3x25 kg/side + 2.5 kg/side`.
fn text(bar: &Bar, side: &[Run]) -> String {
    let plates = side.iter().map(|run| match run.count {
        1 => format!(" + {}/side", run.plate.mass.written()),
        count => format!(" + {count}x{}/side", run.plate.mass.written()),
    });
    format!("{}{}", bar.name, plates.collect::<String>())
}

fn runs(runs: &[Run]) -> Vec<RunJson> {
    let run = |run: &Run| RunJson {
        count: run.count,
        plate: run.plate.mass.written(),
        kg: Number(run.plate.mass.rounded_kg()),
        colour: run.plate.colour.clone(),
    };
    runs.iter().map(run).collect()
}
