//! The rows of a hundred and of three hundred lifters of five years each: `cargo bench --bench export`. Writes about 3 GB.
//!
//! Measures in one run, for each number of lifters: one export of all; one export a lifter, as many at once as there are
//! cores, each into a folder of its own; and a sum over those files in SQLite, a file at a time. With `--features parquet` the
//! same as Parquet, and with a DuckDB in Python the totals of docs/export.md over the files of each. docs/scale.md shows what
//! came out. `LOADLINE_KEEP=DIR` names a folder in which everything stays, for other engines.

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

/// The bytes of all files below a folder, in MB, and how many files there are.
fn size(folder: &Path) -> (f64, usize) {
    let files = walkdir::WalkDir::new(folder).into_iter().filter_map(|entry| entry.ok()?.metadata().ok());
    let sizes: Vec<u64> = files.filter(|found| found.is_file()).map(|found| found.len()).collect();
    (sizes.iter().sum::<u64>() as f64 / 1e6, sizes.len())
}

/// Asks DuckDB three times for the totals of a view, and prints the seconds of each time and the answer.
const DUCKDB: &str = "
import duckdb, sys, time
engine = duckdb.connect()
engine.execute(sys.argv[1])
seconds = []
for _ in range(3):
    start = time.perf_counter()
    row = engine.execute(sys.argv[2]).fetchone()
    seconds.append(time.perf_counter() - start)
print(f'{duckdb.__version__}:', ', '.join(f'{one:.2f} s' for one in seconds), *row, sep=' ')
";

/// The statements that a page of the docs shows.
fn statements(page: &str) -> Vec<&str> {
    page.split("```sql\n").skip(1).map(|rest| rest.split("```").next().unwrap()).collect()
}

/// Asks DuckDB for the totals, over the files that one of the views of docs/scale.md names.
fn asked(root: &Path, view: usize) {
    let (views, queries) = (include_str!("../docs/scale.md"), include_str!("../docs/export.md"));
    let mut python = Command::new("python3");
    if let Some(folder) = std::env::var_os("LOADLINE_DUCKDB") {
        python.env("PYTHONPATH", folder);
    }
    python.args(["-c", DUCKDB, statements(views)[view], statements(queries)[0]]).current_dir(root);
    let said = python.output().map(|output| String::from_utf8_lossy(&output.stdout).trim().to_owned());
    println!("DuckDB, {}    {}", ["CSV    ", "Parquet"][view - 1], said.unwrap_or_default());
}

/// What `volume` says of one of the lifters, who are all alike: work sets, reps, kilograms.
fn volume(journal: &Path, on: &str) -> [f64; 3] {
    let mut program = Command::new(env!("CARGO_BIN_EXE_loadline"));
    program.arg("--journal").arg(journal).args(["--on", on, "volume", "--by", "lift", "--format", "json"]);
    let answer: serde_json::Value = serde_json::from_slice(&program.output().unwrap().stdout).unwrap();
    let rows = answer["rows"].as_array().unwrap();
    ["sets", "reps", "tonnage_kg"].map(|field| rows.iter().filter_map(|row| row[field].as_f64()).sum())
}

fn main() {
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let program = env!("CARGO_BIN_EXE_loadline");
    for lifters in LIFTERS {
        let kept = std::env::var_os("LOADLINE_KEEP");
        let parent = kept.as_ref().map_or_else(std::env::temp_dir, std::path::PathBuf::from);
        let root = parent.join(format!("loadline-export-{}-{lifters}", std::process::id()));
        let journal = root.join("journal");
        let (bytes, on) = write(&journal, lifters);
        let load = fs::read_to_string("/proc/loadavg").unwrap_or_default();
        println!("{lifters} lifters, {:.1} MB of pages, {cores} cores; load {}", bytes as f64 / 1e6, load.trim());
        let [sets, reps, tonnage] = volume(&journal.join("lifter 0"), &on).map(|sum| sum * lifters as f64);
        println!("volume                  {sets} sets, {reps} reps, {tonnage:.0} kg");
        let at = journal.to_str().unwrap();
        let one = root.join("all.csv");
        let export = [program, "--journal", at, "--on", &on, "export", "--all", "--write", one.to_str().unwrap()];
        let all = measured(&export, &root);
        let written = fs::metadata(&one).unwrap().len() as f64 / 1e6;
        println!("export --all            {all}; {written:.1} MB written");
        fs::remove_file(one).unwrap();
        // Each lifter's folder is a journal of its own too, so that nobody else's pages are listed.
        let each = |write: &str| {
            let script = format!(
                "ls '{at}' | grep -v yaml | xargs -P {cores} -I N sh -c 'mkdir -p \"sets/folder=$1\" parquet && \"$2\" \
                 --journal \"$3/$1\" --on {on} export {write}' sh N '{program}' '{at}'"
            );
            measured(&["sh", "-c", &script], &root)
        };
        println!("a process a lifter      {}", each("--write \"sets/folder=$1/sets.csv\""));
        let start = Instant::now();
        let (sets, tonnage) = summed(&root.join("sets"));
        let seconds = start.elapsed().as_secs_f64();
        println!("SQLite, file by file    {seconds:.1} s, one thread: {sets} work sets, {tonnage:.0} kg");
        asked(&root, 1);
        if cfg!(feature = "parquet") {
            let all = root.join("all");
            let named = all.to_str().unwrap();
            let export = ["export", "--all", "--as", "parquet", "--write", named];
            println!(
                "--all, Parquet          {}",
                measured(&[&[program, "--journal", at, "--on", &on], &export[..]].concat(), &root)
            );
            fs::remove_dir_all(all).unwrap();
            println!("a process a lifter      {}", each("--as parquet --write \"parquet/folder=$1\""));
            let (megabytes, files) = size(&root.join("parquet"));
            println!("Parquet                 {megabytes:.1} MB in {files} files");
            asked(&root, 2);
        }
        if kept.is_none() {
            let _ = fs::remove_dir_all(root);
        }
    }
}
