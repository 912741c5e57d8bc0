//! The training load chart.

use super::published::{Reader, Row, check};
use loadline::science::load_chart;

pub const READERS: &[Reader] = &[("nsca_chart.pct1rm", percent), ("nsca_chart.e1rm", maximum)];

#[test]
fn published_figures() {
    check(READERS);
}

fn percent(row: &Row) {
    let line = load_chart::charted(row.number("r") as u32).unwrap();
    row.expect(line.percent);
    assert_eq!(line.in_every_print, !row.source.contains("some prints") && !row.source.contains("from memory"));
}

fn maximum(row: &Row) {
    row.expect(load_chart::maximum(row.number("w"), row.number("r") as u32));
}

#[test]
fn nothing_is_read_between_the_lines() {
    for reps in [0, 13, 14, 16] {
        assert_eq!(load_chart::charted(reps), None);
        assert_eq!(load_chart::maximum(100.0, reps), None);
    }
    assert_eq!(load_chart::maximum(0.0, 5), None);
    assert_eq!(load_chart::maximum(f64::NAN, 5), None);
}
