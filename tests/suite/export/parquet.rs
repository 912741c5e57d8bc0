//! Parquet: what is told of the types, the same rows as JSON has, and the folder that the files stand in.

use super::dictionary::dictionary;
use crate::support::journal::{Journal, example};
use crate::support::{generator, run};
use chrono::{Datelike, NaiveDate};
use loadline::present::rows::parquet::lifter_folder;
use parquet::basic::{ConvertedType, LogicalType, Type};
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::Field;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::path::Path;

/// Every file below a folder, by its path in it.
fn files(folder: &Path) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for entry in walkdir::WalkDir::new(folder).into_iter().map(Result::unwrap).filter(|entry| entry.path().is_file()) {
        all.push(entry.path().strip_prefix(folder).unwrap().to_str().unwrap().to_owned());
    }
    all.sort();
    all
}

fn export(root: &Path, out: &Path, more: &[&str]) -> String {
    run::run(root, 80, &[&["export", "--as", "parquet", "--write", out.to_str().unwrap()], more].concat())
        .replace(out.to_str().unwrap(), "<out>")
}

/// A field as JSON has it, numbers as their digits.
fn told(field: &Field) -> Value {
    match field {
        Field::Null => Value::Null,
        Field::Bool(flag) => Value::Bool(*flag),
        Field::Int(number) => Value::String(number.to_string()),
        Field::Str(words) => Value::String(words.clone()),
        Field::Date(days) => Value::String(NaiveDate::from_epoch_days(*days).unwrap().to_string()),
        Field::Decimal(_) => {
            let digits = field.to_string();
            Value::String(digits.trim_end_matches('0').trim_end_matches('.').to_owned())
        }
        Field::ListInternal(list) => Value::Array(list.elements().iter().map(told).collect()),
        other => panic!("{other:?}"),
    }
}

fn same_rows(root: &Path, arguments: &[&str]) -> usize {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let said = export(root, &out, arguments);
    assert!(!said.contains("--- exit"), "{said}");
    let mut rows: BTreeMap<(String, i64), Vec<Value>> = BTreeMap::new();
    let known = run::json(root, &[&["export"], arguments].concat())["rows"].as_array().unwrap().clone();
    for row in &known {
        let date: NaiveDate = row["date"].as_str().unwrap().parse().unwrap();
        let key = (row["lifter"].as_str().unwrap_or("__HIVE_DEFAULT_PARTITION__").to_owned(), date.year().into());
        rows.entry(key).or_default().push(row.clone());
    }
    let expected: Vec<String> =
        rows.keys().map(|(lifter, year)| format!("lifter={lifter}/year={year}/sets.parquet")).collect();
    assert_eq!(files(&out), expected);
    for (file, known) in expected.iter().zip(rows.values()) {
        let reader = SerializedFileReader::new(File::open(out.join(file)).unwrap()).unwrap();
        let told_rows: Vec<_> = reader.get_row_iter(None).unwrap().map(Result::unwrap).collect();
        assert_eq!(told_rows.len(), known.len());
        for (row, known) in told_rows.iter().zip(known) {
            assert_eq!(row.len(), known.as_object().unwrap().len());
            for (name, field) in row.get_column_iter() {
                let digits = match &known[name] {
                    Value::Number(number) => Value::String(number.to_string()),
                    other => other.clone(),
                };
                assert_eq!(told(field), digits, "{name}: {known}");
            }
        }
    }
    known.len()
}

#[test]
fn parquet_says_what_json_says() {
    assert!(same_rows(&example(), &["--all"]) > 3000);
    for seed in 3000..3004 {
        let made = generator::journal(seed);
        let journal = made.files.iter().fold(Journal::new(), |journal, (path, text)| journal.file(path, text));
        same_rows(journal.root(), &["--on", &made.today.to_string()]);
    }
}

/// The table of types under "Parquet", against the file.
#[test]
fn columns_have_the_types_that_are_told() {
    let page = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/export.md")).unwrap();
    let section = page.split("\n## Parquet\n").nth(1).unwrap().split("\n## ").next().unwrap();
    let types: BTreeMap<(String, String), String> = section
        .lines()
        .filter_map(|line| line.strip_prefix("| ")?.strip_suffix(" |"))
        .map(|line| line.split('|').map(|cell| cell.trim().to_owned()).collect::<Vec<_>>())
        .map(|cells| ((cells[0].clone(), cells[1].clone()), cells[2].replace('`', "")))
        .collect();
    let folder = tempfile::tempdir().unwrap();
    export(&example(), folder.path(), &["--all"]);
    let first = files(folder.path())[0].clone();
    let reader = SerializedFileReader::new(File::open(folder.path().join(first)).unwrap()).unwrap();
    let schema = reader.metadata().file_metadata().schema().clone();
    let dictionary = dictionary();
    assert_eq!(schema.get_fields().len(), dictionary.len());
    for (field, row) in schema.get_fields().iter().zip(&dictionary) {
        assert_eq!(field.name(), row[0].trim_matches('`'));
        let unit = if row[1] == "number" { row[2].as_str() } else { "" };
        let told = &types[&(row[1].clone(), unit.to_owned())];
        let info = field.get_basic_info();
        let is = match info.logical_type_ref() {
            Some(LogicalType::String) => "STRING".to_owned(),
            Some(LogicalType::Date) => "DATE".to_owned(),
            Some(LogicalType::Decimal { .. }) => {
                assert_eq!(field.get_physical_type(), Type::INT64);
                format!("DECIMAL({}, {})", field.get_precision(), field.get_scale())
            }
            Some(LogicalType::List) => "LIST of STRING".to_owned(),
            _ => field.get_physical_type().to_string(),
        };
        assert_eq!(&is, told, "{row:?}");
        assert_eq!(info.converted_type() == ConvertedType::LIST, !field.is_optional(), "{row:?}");
    }
}

const TWO_YEARS: &str = "## 2025-03-05\n- Dip: 2x8\n\n## 2026-03-05\n- Dip: 3x8\n- Deadlift: 5 @ 100 kg\n";

#[test]
fn a_year_without_rows_goes_and_what_else_is_there_stays() {
    let journal = Journal::new().file("lifter.yaml", "name: Berit\n").page(TWO_YEARS);
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("no/out");
    let said = export(journal.root(), &out, &[]);
    let made = "--- exit 2\n";
    assert!(said.contains("there is no folder ") && said.contains("; make it first") && said.ends_with(made), "{said}");
    let out = folder.path().join("out");
    assert_eq!(export(journal.root(), &out, &[]), "6 rows in <out>\n");
    let both = ["lifter=Berit/year=2025/sets.parquet", "lifter=Berit/year=2026/sets.parquet"];
    assert_eq!(files(&out), both);
    // Others' files: a lifter of another journal, one that is no export, one in the way, names that are no years.
    let others =
        ["lifter=Aske/year=2024/sets.parquet", "lifter=Berit/year=2024/mine.txt", "lifter=Berit/year=x/sets.parquet"];
    for other in others {
        fs::create_dir_all(out.join(other).parent().unwrap()).unwrap();
        fs::copy(out.join(both[0]), out.join(other)).unwrap();
    }
    fs::write(out.join("lifter=Berit/year=2024/sets.parquet"), "PAR1, or so").unwrap();
    assert_eq!(export(journal.root(), &out, &["--lift", "Deadlift"]), "1 row in <out>\n");
    let left = files(&out);
    assert!(others.iter().all(|other| left.contains(&(*other).to_owned())), "{left:?}");
    assert!(left.contains(&"lifter=Berit/year=2024/sets.parquet".to_owned()), "{left:?}");
    assert!(!out.join("lifter=Berit/year=2025").exists() && out.join(both[1]).is_file(), "{left:?}");
    assert_eq!(left.len(), 5, "{left:?}");
    // With --all one may well think that nobody else is there.
    let said = export(journal.root(), &out, &["--all"]);
    assert_eq!(said, "6 rows in <out>\n--- stderr\nlifter=Aske stays: no lifter of this journal is called so\n");
}

#[test]
fn only_an_export_is_replaced_and_a_question_without_an_answer_changes_nothing() {
    let journal = Journal::new().page(TWO_YEARS);
    let folder = tempfile::tempdir().unwrap();
    let nobody = "lifter=__HIVE_DEFAULT_PARTITION__/year=2026/sets.parquet";
    let file = folder.path().join(nobody);
    fs::create_dir_all(file.parent().unwrap()).unwrap();
    fs::write(&file, "mine").unwrap();
    let said = export(journal.root(), folder.path(), &[]);
    assert!(
        said.contains("is no export, so it stays; name another folder") && said.ends_with("--- exit 2\n"),
        "{said}"
    );
    assert_eq!(fs::read_to_string(&file).unwrap(), "mine");
    fs::remove_file(&file).unwrap();
    export(journal.root(), folder.path(), &[]);
    let before = files(folder.path());
    let said = export(journal.root(), folder.path(), &["--lift", "Bench press"]);
    assert!(said.ends_with("--- exit 2\n"), "{said}");
    assert_eq!((files(folder.path()), before.len()), (before.clone(), 2));
    let said = export(journal.root(), &file, &[]);
    assert!(said.contains("is no folder; name one for the files of Parquet"), "{said}");
    let said = journal.run(&["export", "--as", "parquet"]);
    assert_eq!(said, "--- stderr\nloadline: Parquet is a folder of files: name it with --write FOLDER\n--- exit 2\n");
    let answer = run::json(journal.root(), &["export", "--as", "parquet", "--write", folder.path().to_str().unwrap()]);
    assert_eq!((&answer["count"], &answer["rows"]), (&Value::from(6), &Value::Null));
}

#[test]
fn any_name_is_a_folder_below_the_one_that_is_named() {
    let names = ["../x", "a=b", "Åsa Öberg", "x/../../y", "50 %", "..", " ", "C:\\d", "007"];
    let mut journal = Journal::new();
    for (at, name) in names.iter().enumerate() {
        let settings = format!("name: {}\n", serde_json::to_string(name).unwrap());
        let folder = format!("l{at}");
        journal = journal.file(&format!("{folder}/lifter.yaml"), settings).file(&format!("{folder}/p.md"), TWO_YEARS);
    }
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let said = export(journal.root(), &out, &["--all", "--since", "2026-01-01"]);
    assert!(said.starts_with("36 rows of 9 lifters in <out>\n"), "{said}");
    let mut folders: Vec<String> =
        fs::read_dir(&out).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    folders.sort();
    let mut expected = ["..%2Fx", "a%3Db", "Åsa Öberg", "x%2F..%2F..%2Fy", "50 %25", ".%2E", "l6", "C%3A%5Cd", "007"]
        .map(|name| format!("lifter={name}"));
    expected.sort();
    assert_eq!(folders, expected);
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
}

#[test]
fn two_lifters_of_one_name_are_told_before_anything_is_written() {
    let journal = Journal::new()
        .file("a/lifter.yaml", "name: Aske\n")
        .file("a/a.md", TWO_YEARS)
        .file("b/lifter.yaml", "name: aske\n")
        .file("b/b.md", TWO_YEARS);
    let folder = tempfile::tempdir().unwrap();
    let said = export(journal.root(), folder.path(), &["--all"]);
    assert!(said.contains("the lifters in a and b have the same name") && said.ends_with("--- exit 2\n"), "{said}");
    assert_eq!(files(folder.path()), [""; 0]);
    assert!(export(journal.root(), folder.path(), &["--lifter", "a"]).starts_with("6 rows in <out>\n"));
}

#[test]
fn a_name_is_read_back_and_leads_nowhere_else() {
    assert_eq!(lifter_folder(Some("C:\\a\nb* ")), "lifter=C%3A%5Ca%0Ab%2A%20");
    assert_eq!(lifter_folder(Some("dot.")), "lifter=dot%2E");
    let null = ["lifter=__HIVE_DEFAULT_PARTITION__", "lifter=%5F_HIVE_DEFAULT_PARTITION__"];
    assert_eq!([None, Some("")].map(lifter_folder), [null[0], null[0]]);
    assert_eq!(lifter_folder(Some("__HIVE_DEFAULT_PARTITION__")), null[1]);
}

/// A load that no gym has does not fit, and is told by its text alone.
#[test]
fn ten_thousand_tonnes_are_null() {
    let journal = Journal::new().page("## 2026-03-05\n- Sled: 5 @ 20x500000 kg\n- Dip: 8 @ 9999.999 kg\n");
    let folder = tempfile::tempdir().unwrap();
    export(journal.root(), folder.path(), &[]);
    let file = folder.path().join(&files(folder.path())[0]);
    let reader = SerializedFileReader::new(File::open(file).unwrap()).unwrap();
    let kg: Vec<Value> = reader
        .get_row_iter(None)
        .unwrap()
        .map(|row| {
            row.unwrap().get_column_iter().find(|(name, _)| *name == "kg").map(|(_, field)| told(field)).unwrap()
        })
        .collect();
    assert_eq!(kg, [Value::Null, "9999.999".into()]);
}
