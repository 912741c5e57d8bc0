//! A thousand lifters of five years each in one roster: `cargo bench --bench roster`. Writes about 1.6 GB.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::print_stdout)]
#![allow(missing_docs, dead_code, unreachable_pub)]

#[path = "../tests/suite/support/generator/mod.rs"]
mod generator;

use std::fs;
use std::process::Command;
use std::time::Instant;

const LIFTERS: usize = 1000;

fn main() {
    let root = std::env::temp_dir().join(format!("loadline-roster-{}", std::process::id()));
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
    let program = env!("CARGO_BIN_EXE_loadline");
    let on = journal.today.to_string();
    let mut seconds = Vec::new();
    let mut memory = String::new();
    for _ in 0..3 {
        let start = Instant::now();
        let output = Command::new("/usr/bin/time")
            .args(["-f", "%M", program, "--journal", root.to_str().unwrap(), "--on", &on, "roster"])
            .output()
            .expect("it runs");
        seconds.push(start.elapsed().as_secs_f64());
        assert!(output.status.success());
        assert!(String::from_utf8_lossy(&output.stdout).lines().count() > LIFTERS);
        memory = String::from_utf8_lossy(&output.stderr).lines().last().unwrap_or_default().to_owned();
    }
    seconds.sort_by(f64::total_cmp);
    println!("{LIFTERS} lifters, {:.2} GB in {} pages", bytes as f64 / 1e9, LIFTERS * (journal.files.len() - 1));
    println!(
        "roster                  {:.1} s, the median of three; {:.1} to {:.1}",
        seconds[1], seconds[0], seconds[2]
    );
    println!("peak memory             {memory} KB");
    let _ = fs::remove_dir_all(root);
}
