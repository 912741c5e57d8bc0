//! `since`, on pages small enough to check by hand.

use crate::support::journal::Journal;

#[test]
fn what_is_not_counted_is_said() {
    let page = "# Block 1\n\n- starts: 2026-11-23\n- weeks: 4\n\n## 2026-11-24\n\n- Back squat: 3x5 @ 100 kg\n- Dip: 3x12 RPE 8\n\
                - Push-up: 3x20\n- Barbell row: 3x10 @ 50 kg\n";
    assert_eq!(
        Journal::new().page(page).run(&["since"]),
        "\
no block was high-rep yet
high-rep: at least half of a block's weeks have at least half of their sets at
  8 reps or more
0 weeks without it: not too many, up to 8 are usual (common practice, no source)
no such set of 8 reps or more yet
counted are squats, hinges and presses of known kilograms; of 9 other sets
  --lift or --family tells

block  starts      weeks            sets
1      2026-11-23  0 of 1 high-rep  0 of 3
deload and peak weeks are not counted
"
    );
}
