//! The course of an estimate over dates as JSON.

use super::shared::{MarkJson, Number, kg};
use crate::analysis::strength::course::{Answer, LightKind, LightWeek, MeetDay, Point, Span};
use serde::Serialize;

/// The course.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct CourseJson {
    points: Vec<PointJson>,
    blocks: Vec<BlockJson>,
    meets: Vec<MeetJson>,
}

#[derive(Clone, Debug, Serialize)]
struct PointJson {
    date: String,
    block: Option<String>,
    est_max_kg: Number,
    low_kg: Number,
    high_kg: Number,
    alone_kg: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct BlockJson {
    block: String,
    starts: String,
    ends: Option<String>,
    light: Vec<LightJson>,
}

#[derive(Clone, Debug, Serialize)]
struct LightJson {
    week: u32,
    kind: &'static str,
    starts: String,
    ends: String,
}

#[derive(Clone, Debug, Serialize)]
struct MeetJson {
    kind: &'static str,
    title: String,
    date: String,
    lifted: Option<MarkJson>,
}

impl CourseJson {
    pub(crate) fn of(course: &Answer) -> Self {
        CourseJson {
            points: course.points.iter().map(point).collect(),
            blocks: course.blocks.iter().map(block).collect(),
            meets: course.meets.iter().map(meet).collect(),
        }
    }
}

fn point(point: &Point) -> PointJson {
    PointJson {
        date: point.date.to_string(),
        block: point.block.clone(),
        est_max_kg: kg(point.estimate.maximum),
        low_kg: kg(point.estimate.low),
        high_kg: kg(point.estimate.high),
        alone_kg: point.alone.map(|alone| kg(alone.maximum)),
    }
}

fn block(span: &Span) -> BlockJson {
    BlockJson {
        block: span.name.clone(),
        starts: span.starts.to_string(),
        ends: span.ends.map(|ends| ends.to_string()),
        light: span.light.iter().map(light).collect(),
    }
}

fn light(light: &LightWeek) -> LightJson {
    let kind = match light.kind {
        LightKind::Deload => "deload",
        LightKind::Peak => "peak",
    };
    LightJson { week: light.week, kind, starts: light.starts.to_string(), ends: light.ends.to_string() }
}

fn meet(meet: &MeetDay) -> MeetJson {
    let lifted = meet.lifted.as_ref().map(|lifted| MarkJson::of(&lifted.mark));
    MeetJson { kind: meet.kind.words(), title: meet.title.clone(), date: meet.date.to_string(), lifted }
}
