//! DuckDB, an engine that asks many files at once: its Python package, run with `python3`.
//!
//! `LOADLINE_DUCKDB` names the folder that `pip install --target` put it in; `.ci/run` sets it where it can. Elsewhere it is taken
//! where Python finds it by itself; where it does not, the tests say so on standard error and end.

use std::ffi::OsString;
use std::io::Write;
use std::path::Path;
use std::process::Command;

/// Runs statements one after the other, and prints the rows of the last one; numbers as they are, as text.
const SCRIPT: &str = "
import duckdb, json, sys
engine = duckdb.connect()
for statement in sys.argv[1:]:
    rows = engine.execute(statement)
print(json.dumps([[cell if cell is None else str(cell) for cell in row] for row in rows.fetchall()]))
";

/// The engine.
pub struct Duckdb(Option<OsString>);

impl Duckdb {
    /// The one that is named, else the one that is found. `None` where none is named nor found.
    pub fn find() -> Option<Duckdb> {
        let named = std::env::var_os("LOADLINE_DUCKDB").filter(|named| !named.is_empty());
        let engine = Duckdb(named);
        let runs = engine.python().args(["-c", "import duckdb"]).output().is_ok_and(|output| output.status.success());
        assert!(runs || engine.0.is_none(), "LOADLINE_DUCKDB names {:?}, where Python finds no duckdb", engine.0);
        if !runs {
            // Past the capture of the test runner: a test that asked nothing must not look as if it had.
            let words =
                "no DuckDB in Python, so none was asked: `pip install --target DIR duckdb`, and LOADLINE_DUCKDB=DIR\n";
            let _ = std::io::stderr().write_all(words.as_bytes());
        }
        runs.then_some(engine)
    }

    fn python(&self) -> Command {
        let mut python = Command::new("python3");
        python.envs(self.0.iter().map(|folder| ("PYTHONPATH", folder)));
        python
    }

    /// The rows of the last of these statements, run in a folder.
    pub fn ask(&self, folder: &Path, statements: &[&str]) -> Vec<Vec<Option<String>>> {
        let output = self.python().args(["-c", SCRIPT]).args(statements).current_dir(folder).output().expect("it runs");
        assert!(output.status.success(), "{statements:?}\n{}", String::from_utf8_lossy(&output.stderr));
        serde_json::from_slice(&output.stdout).expect("rows as JSON")
    }
}
