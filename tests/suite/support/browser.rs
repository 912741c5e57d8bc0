//! A browser without a screen, run by its command line: Chromium, from Debian's packages.
//!
//! `LOADLINE_BROWSER` names it; `.ci/run` sets it, so there the tests that need one are always run. Elsewhere one is
//! looked for on the `PATH`; where there is none, the tests say so on standard error and end.

use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const NAMES: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "chrome"];

const HOW: &str = "install one, on Debian with `apt-get install chromium`, or name one with LOADLINE_BROWSER";

/// A page is looked at in a second or two.
const LONGEST: Duration = Duration::from_secs(60);

/// A browser.
pub struct Browser(String);

impl Browser {
    /// The one that is named, else the first that is found. `None` where none is named nor found.
    pub fn find() -> Option<Browser> {
        let runs =
            |name: &str| Command::new(name).arg("--version").output().is_ok_and(|output| output.status.success());
        if let Some(named) = std::env::var("LOADLINE_BROWSER").ok().filter(|named| !named.is_empty()) {
            assert!(runs(&named), "LOADLINE_BROWSER names `{named}`, which does not run: {HOW}");
            return Some(Browser(named));
        }
        let found = NAMES.into_iter().find(|name| runs(name));
        if found.is_none() {
            // Past the capture of the test runner: a test that looked at nothing must not look as if it had.
            let words = format!("no browser on the PATH ({}), so no report was looked at: {HOW}\n", NAMES.join(", "));
            let _ = std::io::stderr().write_all(words.as_bytes());
        }
        found.map(|name| Browser(name.to_owned()))
    }

    /// Opens a page; standard output, and what the page's console said.
    fn open(&self, page: &Path, arguments: &[String]) -> (String, Vec<String>) {
        let profile = tempfile::tempdir().expect("a folder for the browser");
        let (out, err) = (profile.path().join("out.txt"), profile.path().join("err.txt"));
        let mut running = Command::new(&self.0)
            .args(["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"])
            .args(["--disable-background-networking", "--disable-component-update", "--disable-sync"])
            .args(["--hide-scrollbars", "--enable-logging=stderr", "--virtual-time-budget=2000"])
            .arg(format!("--user-data-dir={}", profile.path().display()))
            .args(arguments)
            .arg(format!("file://{}", page.display()))
            .stdin(Stdio::null())
            .stdout(File::create(&out).expect("a file"))
            .stderr(File::create(&err).expect("a file"))
            .spawn()
            .expect("the browser runs");
        let began = Instant::now();
        let status = loop {
            match running.try_wait().expect("the browser's end") {
                Some(status) => break Some(status),
                None if began.elapsed() > LONGEST => break None,
                None => std::thread::sleep(Duration::from_millis(20)),
            }
        };
        if status.is_none() {
            let _ = running.kill();
            let _ = running.wait();
        }
        let said = String::from_utf8_lossy(&fs::read(&err).expect("what it said")).into_owned();
        // A script that asks the reader something would wait for ever: there is none to answer.
        let status = status.unwrap_or_else(|| panic!("{} did not end: {said}", self.0));
        assert!(status.success(), "{}: {said}", self.0);
        let console = said.lines().filter(|line| line.contains("CONSOLE")).map(str::to_owned).collect();
        (String::from_utf8(fs::read(&out).expect("what it found")).expect("UTF-8"), console)
    }

    /// The page's elements after it was loaded, and what its console said.
    pub fn elements(&self, page: &Path, width: u32) -> (String, Vec<String>) {
        self.open(page, &[format!("--window-size={width},900"), "--dump-dom".into()])
    }

    /// A picture of a window with the page.
    pub fn picture(&self, page: &Path, width: u32, height: u32, picture: &Path) {
        let shot = format!("--screenshot={}", picture.display());
        self.open(page, &[format!("--window-size={width},{height}"), shot]);
    }

    /// How many sheets of A4 a page is printed on: each is an object `/Type /Page` (ISO 32000-1, 7.7.3.3).
    pub fn sheets(&self, page: &Path) -> usize {
        let printed = page.with_extension("pdf");
        self.open(page, &["--no-pdf-header-footer".into(), format!("--print-to-pdf={}", printed.display())]);
        let printed = String::from_utf8_lossy(&fs::read(printed).expect("a printed page")).into_owned();
        printed.split("/Type /Page").skip(1).filter(|rest| !rest.starts_with('s')).count()
    }

    /// What a script finds in a page that is shown just so wide, width by width: frames of those widths in a wider
    /// window, for a window itself may have a least width. The script is put at the end of a copy of the page, whose
    /// policy lets it run, and hands its finding to `found`.
    pub fn found<const N: usize>(&self, page: &str, widths: [u32; N], dark: bool, script: &str) -> [String; N] {
        self.found_in([page].into_iter(), widths, dark, script).remove(0)
    }

    /// The same of several pages, in one window.
    pub fn found_in<'p, const N: usize>(
        &self,
        pages: impl Iterator<Item = &'p str>,
        widths: [u32; N],
        dark: bool,
        script: &str,
    ) -> Vec<[String; N]> {
        let folder = tempfile::tempdir().expect("a folder for the pages");
        let write = |name: &str, text: &str| -> PathBuf {
            let path = folder.path().join(name);
            fs::write(&path, text).expect("a page");
            path
        };
        let end = format!("<script>const found = text => parent.postMessage(text, '*'); {script}</script></body>");
        let mut frames = Vec::new();
        for (nth, page) in pages.enumerate() {
            let allowed = page.replacen("default-src 'none';", "default-src 'none'; script-src 'unsafe-inline';", 1);
            assert_ne!(allowed, page, "the page has its policy");
            let name = format!("{nth}.html");
            write(&name, &allowed.replacen("</body>", &end, 1));
            let frame = |width| {
                format!("<iframe src='{name}' style='width:{width}px;height:900px;border:0'></iframe><pre></pre>")
            };
            frames.push(widths.map(frame).concat());
        }
        let gather = "onmessage = event => { for (const frame of document.querySelectorAll('iframe')) \
                      if (frame.contentWindow === event.source) frame.nextSibling.textContent = event.data; }";
        let frame = write("frame.html", &format!("<!DOCTYPE html><script>{gather}</script><body>{}", frames.concat()));
        let scheme = format!("--blink-settings=preferredColorScheme={}", u8::from(!dark));
        let (elements, console) = self.open(&frame, &["--window-size=1600,1000".into(), scheme, "--dump-dom".into()]);
        assert_eq!(console, Vec::<String>::new());
        let mut found = elements.split("<pre>").skip(1).filter_map(|rest| rest.split("</pre>").next());
        let mut of_page = || {
            widths.map(|width| {
                let found = found.next().filter(|found| !found.is_empty());
                let found = found.unwrap_or_else(|| panic!("the script found nothing at {width}: {elements}"));
                found.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
            })
        };
        frames.iter().map(|_| of_page()).collect()
    }
}
