//! The rows of a hundred and of three hundred lifters of five years each: `cargo bench --bench export`. Writes about 3 GB.
//!
//! Measures in one run, for each number of lifters: one export of all; one export a lifter, as many at once as there are
//! cores, each into a folder of its own; and a sum over those files in SQLite, a file at a time. docs/scale.md shows what
//! came out.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::print_stdout)]
#![allow(missing_docs, dead_code, unreachable_pub)]

#[path = "../tests/suite/support/generator/mod.rs"]
mod generator;

use rusqlite::{Connection, params};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

const LIFTERS: [usize; 2] = [100, 300];
const YEARS: u32 = 5;

/// Writes a journal of so many lifters: its bytes, its last day.
fn write(root: &Path, lifters: usize) -> (usize, String) {
    let journal = generator::lifetime(YEARS, 7);
    let mut bytes = 0;
    for lifter in 0..lifters {
        let folder = root.join(format!("lifter {lifter}"));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("lifter.yaml"), format!("name: Lifter {lifter}\n")).unwrap();
        for (path, text) in &journal.files {
            let page = path.ends_with(".md");
            let at = if page { folder.join(path) } else { root.join(path) };
            fs::create_dir_all(at.parent().unwrap()).unwrap();
            fs::write(at, text).unwrap();
            if !page {
                fs::write(folder.join(path), text).unwrap();
            }
            bytes += if page { text.len() } else { 0 };
        }
    }
    (bytes, journal.today.to_string())
}

/// Runs a command: seconds, those of the processor, and the most memory of a process in it, in MB.
fn measured(command: &[&str], folder: &Path) -> String {
    let start = Instant::now();
    let output = Command::new("/usr/bin/time")
        .args(["-f", "%U %S %M"])
        .args(command)
        .current_dir(folder)
        .stdout(Stdio::null())
        .output()
        .expect("it runs");
    let seconds = start.elapsed().as_secs_f64();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.success(), "{command:?}: {said}");
    let numbers: Vec<f64> = said.lines().last().unwrap().split(' ').map(|number| number.parse().unwrap()).collect();
    let (processor, memory) = (numbers[0] + numbers[1], numbers[2] * 1024.0 / 1e6);
    format!("{seconds:.1} s, {processor:.1} s of the processor, {memory:.0} MB of memory a process")
}

/// Work sets and tonnage of the files, each read into a database of its own, asked, and dropped.
fn summed(out: &Path) -> (u32, f64) {
    let mut sum = (0, 0.0);
    for folder in fs::read_dir(out).unwrap() {
        let mut reader = csv::Reader::from_path(folder.unwrap().path().join("sets.csv")).unwrap();
        let header = reader.headers().unwrap().clone();
        let at = |name: &str| header.iter().position(|known| known == name).unwrap();
        let columns = [at("kind"), at("load_kind"), at("kg"), at("reps"), at("per_side")];
        let mut sql = Connection::open_in_memory().unwrap();
        sql.execute_batch("CREATE TABLE sets (kind, load_kind, kg REAL, reps INTEGER, per_side)").unwrap();
        let all = sql.transaction().unwrap();
        let mut insert = all.prepare("INSERT INTO sets VALUES (?, ?, ?, ?, ?)").unwrap();
        for row in reader.records() {
            let row = row.unwrap();
            let cell = columns.map(|at| row.get(at).unwrap());
            insert.execute(params![cell[0], cell[1], cell[2], cell[3], cell[4]]).unwrap();
        }
        drop(insert);
        all.commit().unwrap();
        let query = "SELECT count(*), total(CASE load_kind WHEN 'mass' THEN kg * reps *
            (CASE per_side WHEN 'true' THEN 2 ELSE 1 END) END) FROM sets WHERE kind = 'work'";
        let (sets, tonnage): (u32, f64) = sql.query_row(query, [], |row| Ok((row.get(0)?, row.get(1)?))).unwrap();
        sum = (sum.0 + sets, sum.1 + tonnage);
    }
    sum
}

fn main() {
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let program = env!("CARGO_BIN_EXE_loadline");
    for lifters in LIFTERS {
        let root = std::env::temp_dir().join(format!("loadline-export-{}-{lifters}", std::process::id()));
        let (journal, out) = (root.join("journal"), root.join("out"));
        let (bytes, on) = write(&journal, lifters);
        fs::create_dir_all(&out).unwrap();
        let load = fs::read_to_string("/proc/loadavg").unwrap_or_default();
        println!("{lifters} lifters, {:.1} MB of pages, {cores} cores; load {}", bytes as f64 / 1e6, load.trim());
        let at = journal.to_str().unwrap();
        let one = root.join("all.csv");
        let export = [program, "--journal", at, "--on", &on, "export", "--all", "--write", one.to_str().unwrap()];
        let all = measured(&export, &root);
        let written = fs::metadata(&one).unwrap().len() as f64 / 1e6;
        println!("export --all            {all}; {written:.1} MB written");
        fs::remove_file(one).unwrap();
        // Each lifter's folder is a journal of its own too, so that nobody else's pages are listed.
        let script = format!(
            "ls '{at}' | grep -v yaml | xargs -P {cores} -I N sh -c 'mkdir -p \"$1/lifter=$2\" && \"$3\" --journal \"$4/$2\" \
             --on {on} export --write \"$1/lifter=$2/sets.csv\"' sh '{}' N '{program}' '{at}'",
            out.display()
        );
        println!("a process a lifter      {}", measured(&["sh", "-c", &script], &root));
        let start = Instant::now();
        let (sets, tonnage) = summed(&out);
        let seconds = start.elapsed().as_secs_f64();
        println!("SQLite, file by file    {seconds:.1} s, one thread: {sets} work sets, {tonnage:.0} kg");
        let _ = fs::remove_dir_all(root);
    }
}
