//! The scripts of docs/scale.md, run on two lifters in folders of their own.
#![cfg(unix)]

use super::totals::shown;
use std::fs;
use std::path::Path;
use std::process::Command;

/// Runs a script where `loadline` is on the path: what it says.
fn run(script: &str, folder: &Path) -> String {
    let program = assert_cmd::cargo::cargo_bin!("loadline");
    let path = format!("{}:{}", program.parent().unwrap().display(), std::env::var("PATH").unwrap());
    let mut command = Command::new("sh");
    command.args(["-c", script]).current_dir(folder).env_remove("LOADLINE_JOURNAL").env("PATH", path);
    let output = command.output().expect("a shell");
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    let mut lines: Vec<String> = String::from_utf8(output.stdout).unwrap().lines().map(str::to_owned).collect();
    lines.sort();
    lines.join("\n")
}

#[test]
fn each_lifter_is_exported_once_and_again_when_a_page_changed() {
    let folder = tempfile::tempdir().unwrap();
    for lifter in ["0001", "two words"] {
        let own = folder.path().join("lifters").join(lifter);
        fs::create_dir_all(&own).unwrap();
        fs::write(own.join("journal.yaml"), "").unwrap();
        fs::write(own.join("page.md"), "## 2026-03-05\n- Dip: 2x8\n").unwrap();
    }
    let scripts = shown("docs/scale.md", "sh");
    let [all, changed, parquet] = scripts.as_slice() else { panic!("{} scripts", scripts.len()) };
    let both = "2 rows in sets/folder=0001/sets.csv\n2 rows in sets/folder=two words/sets.csv";
    assert_eq!(run(all, folder.path()), both);
    assert_eq!(run(changed, folder.path()), "");
    fs::remove_file(folder.path().join("sets/folder=0001/sets.csv")).unwrap();
    assert_eq!(run(changed, folder.path()), "2 rows in sets/folder=0001/sets.csv");
    // Files have their times in steps that may be longer than this test.
    let page = fs::File::options().append(true).open(folder.path().join("lifters/two words/page.md")).unwrap();
    page.set_modified(std::time::SystemTime::now() + std::time::Duration::from_secs(60)).unwrap();
    assert_eq!(run(changed, folder.path()), "2 rows in sets/folder=two words/sets.csv");
    if cfg!(feature = "parquet") {
        assert_eq!(run(parquet, folder.path()), both.replace("sets/", "parquet/").replace("/sets.csv", ""));
        let page = folder.path().join("lifters/two words/page.md");
        fs::write(&page, "## 2026-03-05\n- Dip: 8\n").unwrap();
        let later = std::time::SystemTime::now() + std::time::Duration::from_secs(60);
        fs::File::options().append(true).open(page).unwrap().set_modified(later).unwrap();
        assert_eq!(run(parquet, folder.path()), "1 row in parquet/folder=two words");
        let no_name = "parquet/folder=0001/lifter=__HIVE_DEFAULT_PARTITION__/year=2026/sets.parquet";
        assert!(folder.path().join(no_name).is_file());
    }
}
