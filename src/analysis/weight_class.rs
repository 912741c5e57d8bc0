//! How far the last bodyweight is from the weight class that settings name. It says where the lifter stands, not what to
//! do about it.

use crate::history::History;
use crate::training::{Bodyweight, Mass};
use schemars::JsonSchema;
use serde::Serialize;

/// The weight class, and the last bodyweight beside it.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct ToClass {
    /// The class: `74 kg`, `120+ kg`.
    pub class: String,
    /// The bodyweight that it ends at; of an open one, begins above.
    #[serde(rename = "limit_kg")]
    pub limit: Mass,
    /// Whether it is the one above all others, without an end.
    pub open: bool,
    /// The last bodyweight that is written; null where none is.
    pub bodyweight: Option<Bodyweight>,
    /// How far that is over the limit; less than 0 for under it, null where none is written.
    #[serde(rename = "over_kg")]
    pub over: Option<Mass>,
}

impl ToClass {
    /// As of today; nothing where settings name no class.
    pub(crate) fn of(history: &History<'_>) -> Option<ToClass> {
        let class = history.log.competitor.class?;
        let written = history.sessions().iter().rev().filter(|session| session.date <= history.today);
        let bodyweight = written.filter_map(|one| one.bodyweight.filter(|own| own.date == one.date)).next();
        let over = bodyweight.map(|own| own.mass - class.limit);
        Some(ToClass { class: class.written(), limit: class.limit, open: class.open, bodyweight, over })
    }
}
