//! `warm-up:` in the settings: the steps of a warm-up that nobody wrote.

use super::yaml::Node;
use crate::training::{Rung, WarmUp};

const WANTED: &str = "reps by the percent of the first work set, such as { 40: 8, 60: 5, 75: 3, 87: 1 }, or off";

/// Reads the steps.
///
/// # Errors
/// What the key takes, and the node at fault.
pub(super) fn read<'v>(value: &Node<'v>) -> Result<WarmUp, (&'static str, Node<'v>)> {
    // `off` and `no` are words of one sort of YAML and truth values of another.
    if matches!(value.text(), Some("off" | "no")) || value.value.as_bool() == Some(false) {
        return Ok(WarmUp::OFF);
    }
    let entries = value.entries().filter(|entries| !entries.is_empty()).ok_or((WANTED, value.clone()))?;
    let mut rungs = Vec::new();
    for (key, reps) in entries {
        let percent = key.number(1, 99).ok_or(("a percent of the first work set from 1 to 99", key))?;
        let reps = reps.number(1, 100).ok_or(("a number of reps from 1 to 100", reps))?;
        rungs.push(Rung { percent, reps });
    }
    rungs.sort_by_key(|rung| rung.percent);
    Ok(WarmUp::steps(rungs))
}
