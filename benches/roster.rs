//! A thousand lifters of five years each in one roster: `cargo bench --bench roster`. Writes about 1.6 GB.
//!
//! In each round it is asked in turn without an index, with one that is still to be written, with one that is there, and after
//! ten lifters saved a page.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::print_stdout)]
#![allow(missing_docs, dead_code, unreachable_pub)]

#[path = "../tests/suite/support/generator/mod.rs"]
mod generator;

use std::fs::{self, File};
use std::io::Write;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

const LIFTERS: usize = 1000;
const ROUNDS: usize = 3;

/// Runs the roster: its answer, the seconds it took, and its peak memory in KB.
fn roster(root: &Path, on: &str, cache: &Path) -> (Vec<u8>, f64, f64) {
    let start = Instant::now();
    let output = Command::new("/usr/bin/time")
        .args(["-f", "%M", env!("CARGO_BIN_EXE_loadline"), "--journal", root.to_str().unwrap(), "--on", on, "roster"])
        .env("LOADLINE_CACHE", cache)
        .output()
        .expect("it runs");
    let seconds = start.elapsed().as_secs_f64();
    assert!(output.status.success());
    assert!(String::from_utf8_lossy(&output.stdout).lines().count() > LIFTERS);
    let memory = String::from_utf8_lossy(&output.stderr).lines().last().unwrap().parse().unwrap();
    (output.stdout, seconds, memory)
}

fn main() {
    let folder = std::env::temp_dir().join(format!("loadline-roster-{}", std::process::id()));
    let (root, cache) = (folder.join("journal"), folder.join("cache"));
    let journal = generator::lifetime(5, 7);
    let mut bytes = 0;
    for lifter in 0..LIFTERS {
        let folder = root.join(format!("lifter {lifter}"));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("lifter.yaml"), format!("name: Lifter {lifter}\n")).unwrap();
        for (path, text) in &journal.files {
            let page = path.ends_with(".md");
            let at = if page { folder.join(path) } else { root.join(path) };
            fs::create_dir_all(at.parent().unwrap()).unwrap();
            fs::write(at, text).unwrap();
            bytes += if page { text.len() } else { 0 };
        }
    }
    println!("{LIFTERS} lifters, {:.2} GB in {} pages", bytes as f64 / 1e9, LIFTERS * (journal.files.len() - 1));
    // What was saved just now is not kept.
    std::thread::sleep(Duration::from_secs(3));
    let on = journal.today.to_string();
    let last = journal.files.iter().map(|(path, _)| path).filter(|path| path.ends_with(".md")).max().unwrap();
    let ways = ["without an index", "with one written", "with one there", "ten pages saved"];
    let mut seconds = [[0.0; ROUNDS]; 4];
    let mut memory = [[0.0; ROUNDS]; 4];
    for round in 0..ROUNDS {
        let _ = fs::remove_dir_all(&cache);
        let mut before = Vec::new();
        for way in 0..ways.len() {
            if way == 3 {
                for lifter in 0..10 {
                    let page = root.join(format!("lifter {}", lifter * 97)).join(last);
                    File::options().append(true).open(page).unwrap().write_all(b"\nWent well.\n").unwrap();
                }
            }
            let cache = if way == 0 { Path::new("off") } else { cache.as_path() };
            let (answer, taken, peak) = roster(&root, &on, cache);
            assert!(before.is_empty() || before == answer, "{}: another answer", ways[way]);
            before = answer;
            (seconds[way][round], memory[way][round]) = (taken, peak);
        }
    }
    for (way, name) in ways.iter().enumerate() {
        seconds[way].sort_by(f64::total_cmp);
        memory[way].sort_by(f64::total_cmp);
        let (low, middle, high) = (seconds[way][0], seconds[way][ROUNDS / 2], seconds[way][ROUNDS - 1]);
        println!(
            "{name:<20} {middle:.2} s in the middle, {low:.2} to {high:.2}; {:.3} of that without; {:.0} MB",
            middle / seconds[0][ROUNDS / 2],
            memory[way][ROUNDS - 1] / 1024.0
        );
    }
    let load = fs::read_to_string("/proc/loadavg").unwrap_or_default();
    println!("machine load            {}", load.trim());
    let _ = fs::remove_dir_all(folder);
}
