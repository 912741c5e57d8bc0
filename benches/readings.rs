//! Lines as people type them, read one by one: `cargo bench --bench readings`.
//!
//! Every line of `tests/data/typed.txt` and of both sets of notes beside it, and lines made to be laid out in as many ways
//! as may be. It fails where the line in the middle takes more than 50 µs, or any more than 5 ms.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, clippy::print_stdout)]
#![allow(missing_docs)]

use loadline::notation::readings::{Fate, Habits, Place, left_over, readings};
use loadline::training::LiftBook;
use std::hint::black_box;
use std::time::Instant;

const RUNS: usize = 9;

/// The median of several runs, in microseconds.
fn time_of(line: &str, book: &LiftBook, habits: &Habits) -> f64 {
    let mut times: Vec<f64> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            let fate = black_box(readings(black_box(line), Place::default(), book, habits, "kg"));
            if fate == Fate::Unread {
                black_box(left_over(line, Place::default(), book, habits, "kg"));
            }
            start.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[RUNS / 2]
}

fn main() {
    let (book, habits) = (LiftBook::built_in(), Habits::default());
    let data = [
        include_str!("../tests/data/typed.txt"),
        include_str!("../tests/data/notes.txt"),
        include_str!("../tests/data/notes_fresh.txt"),
    ];
    let typed = data.iter().flat_map(|data| data.lines()).filter(|line| !line.starts_with(['#', '@']));
    let mut lines: Vec<String> =
        typed.filter_map(|line| line.rsplit_once(" => ")).map(|(line, _)| line.replace("\\t", "\t")).collect();
    let many = lines.len();
    for piece in
        ["8x3 ", "8x3 @8, ", "60x8x3 ", "80,5 ", "8 ", "100 x 5 @ 8 then ", "bench ", "(8x3 @ 80,5) ", "x @ x "]
    {
        for count in [4, 16, 64] {
            let line = format!("bench {}", piece.repeat(count));
            lines.push(line.chars().take(399).collect());
        }
    }
    let mut times: Vec<(f64, &String)> = lines.iter().map(|line| (time_of(line, &book, &habits), line)).collect();
    let of_notes = {
        let mut times: Vec<f64> = times.iter().take(many).map(|(time, _)| *time).collect();
        times.sort_by(f64::total_cmp);
        (times[times.len() / 2], times[times.len() * 99 / 100])
    };
    times.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (longest, line) = times[times.len() - 1];
    let read =
        lines.iter().filter(|line| matches!(readings(line, Place::default(), &book, &habits, "kg"), Fate::Read(_)));
    println!("{many} lines of notes: {:.1} us in the middle, {:.1} us at most for 99 of 100", of_notes.0, of_notes.1);
    println!(
        "{} lines with those made to be hard, {} read; the longest {longest:.1} us: {line}",
        lines.len(),
        read.count()
    );
    assert!(of_notes.0 <= 50.0, "the line in the middle");
    assert!(longest <= 5000.0, "{line}");
}
