//! A plan as it is written.

use crate::training::spelling::{self, Spelled};
use crate::training::{EffortRange, PlannedGroup};

/// The groups of a plan without ranges, as one line of the notation: `3x8 @ 120 kg RPE 6-7, 2x5 @ 130 kg`.
pub(crate) fn plan(groups: &[PlannedGroup]) -> String {
    groups.iter().map(group).collect::<Vec<String>>().join(", ")
}

fn group(group: &PlannedGroup) -> String {
    let count = match &group.bouts {
        Some(bouts) => {
            let bouts: Vec<String> = bouts.0.iter().map(u32::to_string).collect();
            format!("{}x{}{}", group.fewest, bouts.join("+"), if group.per_side { "/side" } else { "" })
        }
        None => spelling::sets(group.fewest, group.amounts.least(), group.per_side),
    };
    Spelled::of(count).load(group.load.text_with_unit()).effort(group.effort.map(effort)).text()
}

/// The scale is written in halves; what lies between them is rounded to the harder one.
fn effort(range: EffortRange) -> String {
    let half = |quarters: u32| i64::from(quarters.div_ceil(2)) * 500;
    format!("RPE {}", spelling::range(half(range.low.quarters()), half(range.high.quarters())))
}

#[cfg(test)]
mod tests {
    use super::plan;
    use crate::training::{AmountRange, Bouts, Effort, EffortRange, Load, PlannedGroup, Unit};

    #[test]
    fn a_plan_is_spelled_tidily() {
        let rpe = |thousandths| Effort::rpe(thousandths, thousandths);
        let kg = |thousandths| Load::Plain { thousandths, unit: Unit::Kg, unit_written: false, approximate: false };
        let group = |sets, amounts, load, effort| PlannedGroup {
            fewest: sets,
            most: sets,
            amounts,
            bouts: None,
            per_side: false,
            load,
            effort,
        };
        let reps = |reps| AmountRange::Reps { least: reps, most: Some(reps) };
        let range = EffortRange { low: rpe(6500), high: rpe(7500) };
        let groups = [group(3, reps(8), kg(122_500), Some(range)), group(2, reps(5), Load::None, None)];
        assert_eq!(plan(&groups), "3x8 @ 122.5 kg RPE 6.5-7.5, 2x5");
        let hold = AmountRange::Seconds { least: 75, most: 75 };
        let one = EffortRange { low: rpe(7000), high: rpe(7000) };
        let side = PlannedGroup { per_side: true, ..group(2, hold, Load::None, Some(one)) };
        assert_eq!(plan(&[side]), "2x1:15/side RPE 7");
        let in_bouts = Some(Box::new(Bouts([12, 4, 4].into())));
        let bouts = PlannedGroup { bouts: in_bouts, ..group(2, reps(20), kg(60_000), None) };
        assert_eq!(plan(&[bouts]), "2x12+4+4 @ 60 kg");
    }
}
