//! `docs/schema/` is made from the types of the answers: a field renamed or dropped shows in its diff. Write it anew with
//! `UPDATE_SNAPSHOTS=1 cargo test`.

use loadline::commands::schemas;
use std::fs;
use std::path::Path;

#[test]
fn schemas_in_the_docs_are_those_of_the_answers() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/schema");
    for (name, text) in schemas() {
        let path = folder.join(format!("{name}.json"));
        if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
            fs::write(&path, &text).expect("a schema written");
        }
        let kept = fs::read_to_string(&path).unwrap_or_default();
        assert_eq!(kept, text, "docs/schema/{name}.json: write it anew with UPDATE_SNAPSHOTS=1 and read the diff");
    }
}
