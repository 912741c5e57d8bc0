//! The statements of docs/scale.md and docs/export.md in DuckDB, over CSV and over Parquet, against `volume` and SQLite.

use super::totals::{against_volume, queries, shown, sqlite};
use crate::support::duckdb::Duckdb;
use crate::support::generator;
use crate::support::journal::example;
use crate::support::run;
use std::fs;
use std::path::{Path, PathBuf};

/// Lifters in folders of their own with what each is asked as of, and their exports beside them.
struct Scene {
    folder: tempfile::TempDir,
    lifters: Vec<(PathBuf, String)>,
}

fn scene() -> Scene {
    let folder = tempfile::tempdir().unwrap();
    let nerys = folder.path().join("lifters/nerys");
    fs::create_dir_all(&nerys).unwrap();
    fs::copy(example().join("journal.yaml"), nerys.join("journal.yaml")).unwrap();
    let pages = walkdir::WalkDir::new(example().join("nerys")).into_iter().map(Result::unwrap);
    for page in pages.filter(|page| page.path().is_file()) {
        let place = nerys.join(page.path().strip_prefix(example().join("nerys")).unwrap());
        fs::create_dir_all(place.parent().unwrap()).unwrap();
        fs::copy(page.path(), place).unwrap();
    }
    let mut lifters = vec![(nerys, run::TODAY.to_owned())];
    for seed in 4000..4003 {
        let made = generator::journal(seed);
        let root = folder.path().join(format!("lifters/{seed}"));
        for (path, text) in &made.files {
            let file = root.join(path);
            fs::create_dir_all(file.parent().unwrap()).unwrap();
            fs::write(file, text).unwrap();
        }
        lifters.push((root, made.today.to_string()));
    }
    Scene { folder, lifters }
}

impl Scene {
    /// Exports everybody as docs/scale.md does.
    fn export(&self, shape: &str, place: impl Fn(&str) -> String) {
        for (root, on) in &self.lifters {
            let place = self.folder.path().join(place(root.file_name().unwrap().to_str().unwrap()));
            fs::create_dir_all(place.parent().unwrap()).unwrap();
            let place = place.to_str().unwrap();
            let said = run::run(root, 80, &["export", "--on", on, "--as", shape, "--write", place]);
            assert!(!said.contains("--- exit"), "{said}");
        }
    }

    /// Holds the answers of an engine, in which a view `sets` is made so, against what everything else says.
    fn check(&self, engine: &Duckdb, view: &str) -> Vec<Vec<Option<String>>> {
        let ask = |query: &str| engine.ask(self.folder.path(), &[view, query]);
        let totals = &queries()[0];
        let mut roots: Vec<&Path> = Vec::new();
        for (root, on) in &self.lifters {
            let name = root.file_name().unwrap().to_str().unwrap();
            let sums = ask(&totals.replace("FROM sets", &format!("FROM (FROM sets WHERE folder = '{name}')")));
            let sums: Vec<Option<f64>> =
                sums[0].iter().map(|sum| sum.as_ref().map(|sum| sum.parse().unwrap())).collect();
            against_volume(&[root], &["--on", on], &sums);
            roots.push(root);
        }
        let mut days = 0;
        for (root, on) in &self.lifters {
            let name = root.file_name().unwrap().to_str().unwrap();
            let of_one = format!("CREATE VIEW one AS FROM sets WHERE folder = '{name}'");
            let query = queries()[1].replace("FROM sets", "FROM one").replace("JOIN sets", "JOIN one");
            let query =
                format!("SELECT date, len(lifts) FROM ({}) ORDER BY ALL", query.trim_end().trim_end_matches(';'));
            let told = engine.ask(self.folder.path(), &[view, &of_one, &query]);
            let sql = sqlite(root, &["--on", on]);
            let query = queries()[1].clone();
            let query =
                format!("SELECT date, length(lifts) FROM ({}) ORDER BY 1, 2", query.trim_end().trim_end_matches(';'));
            let mut asked = sql.prepare(&query).unwrap();
            let rows = asked.query_map([], |row| Ok(vec![Some(row.get(0)?), Some(row.get::<_, u32>(1)?.to_string())]));
            let known: Vec<Vec<Option<String>>> = rows.unwrap().map(|row| row.unwrap()).collect();
            assert_eq!(told, known, "{name}");
            days += known.len();
        }
        assert!(days > 0, "no day with pain");
        ask(totals)
    }
}

/// The statements of docs/scale.md: the heaviest sets, the view over CSV, the view over Parquet.
fn statements() -> [String; 3] {
    shown("docs/scale.md", "sql").try_into().unwrap()
}

#[test]
fn an_engine_says_of_many_files_of_csv_what_volume_says() {
    let Some(engine) = Duckdb::find() else { return };
    let scene = scene();
    scene.export("csv", |name| format!("sets/folder={name}/sets.csv"));
    let [heaviest, csv, _] = statements();
    let sums = scene.check(&engine, &csv);
    let rows = engine.ask(scene.folder.path(), &[&heaviest]);
    for (root, on) in &scene.lifters {
        let name = root.file_name().unwrap().to_str().unwrap();
        let sql = sqlite(root, &["--on", on]);
        let query =
            "SELECT lift, max(CAST(kg AS REAL)) FROM sets WHERE kind = 'work' AND CAST(reps AS INT) >= 5 GROUP BY 1";
        let mut asked = sql.prepare(query).unwrap();
        let known = asked.query_map([], |row| Ok((row.get::<_, String>(0)?, row.get::<_, Option<f64>>(1)?))).unwrap();
        let mut known: Vec<(String, Option<f64>)> = known.map(|row| row.unwrap()).collect();
        known.sort_by(|one, other| one.0.cmp(&other.0));
        let of_one = rows.iter().filter(|row| row[0].as_deref() == Some(name));
        let number = |cell: &Option<String>| cell.as_ref().map(|number| number.parse::<f64>().unwrap());
        let mut told: Vec<(String, Option<f64>)> =
            of_one.map(|row| (row[1].clone().unwrap(), number(&row[2]))).collect();
        told.sort_by(|one, other| one.0.cmp(&other.0));
        assert!(!known.is_empty());
        assert_eq!(told, known, "{name}");
    }
    #[cfg(feature = "parquet")]
    {
        scene.export("parquet", |name| format!("parquet/folder={name}"));
        let [_, _, parquet] = statements();
        // Decimals: the very same digits.
        assert_eq!(scene.check(&engine, &parquet), sums);
    }
    assert_eq!(sums.len(), 1);
}
