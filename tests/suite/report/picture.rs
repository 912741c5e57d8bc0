//! The picture in the README: the example's report in a browser, made anew with `UPDATE_PICTURE=1`.
//!
//! It is no snapshot: letters are drawn a little otherwise on every machine.

use crate::support::browser::Browser;
use crate::support::journal::example;
use crate::support::run;
use std::fs;
use std::path::Path;

const PICTURE: &str = "docs/report.png";

/// More would make a page slow that most read once.
const MOST_BYTES: u64 = 200_000;

#[test]
fn the_readme_shows_a_small_picture_of_a_report_and_says_what_is_on_it() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let picture = root.join(PICTURE);
    if std::env::var_os("UPDATE_PICTURE").is_some() {
        draw(&Browser::find().expect("a browser to draw the picture with"), &picture);
    }
    let bytes = fs::read(&picture).expect("a picture; UPDATE_PICTURE=1 makes it");
    assert!(bytes.starts_with(b"\x89PNG\r\n\x1a\n"));
    assert!(fs::metadata(&picture).unwrap().len() < MOST_BYTES);
    let readme = fs::read_to_string(root.join("README.md")).unwrap();
    let shown = readme.lines().find_map(|line| line.strip_suffix(&format!("]({PICTURE})"))?.strip_prefix("!["));
    assert!(shown.is_some_and(|said| said.len() > 40), "README shows the picture, and says what is on it");
}

/// Two windows side by side: the top of the page, and its plots.
fn draw(browser: &Browser, picture: &Path) {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("report.html"), run::run(&example(), 80, &["report"])).unwrap();
    let frame = |part: &str| format!("<iframe src='report.html#{part}'></iframe>");
    let style = "body{margin:0;display:flex;gap:16px;padding:16px;background:#8a8f96;overflow:hidden}\
                 iframe{border:0;flex:1;height:748px}";
    let page = folder.path().join("picture.html");
    fs::write(&page, format!("<!DOCTYPE html><style>{style}</style>{}{}", frame(""), frame("maxima"))).unwrap();
    browser.picture(&page, 1400, 780, picture);
}
