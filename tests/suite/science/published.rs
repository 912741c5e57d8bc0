//! The table of published figures, and how a test reads its part of it.

use std::path::Path;

/// A figure.
pub struct Row {
    /// Its line in the file.
    pub line: usize,
    /// The matter, and after a dot what of it.
    pub topic: String,
    /// What goes in, as `name=value` between semicolons, or in words.
    pub input: String,
    /// What comes out.
    pub expected: String,
    /// How near is near enough: a number, a number and `of it` for a share, or `exact`.
    pub tolerance: String,
    /// Who says so.
    pub source: String,
}

/// A topic, and what checks a row of it.
///
/// A topic that ends in a dot stands for all that begin so.
pub type Reader = (&'static str, fn(&Row));

/// Topics whose last part names an equation, so that one reader serves them all.
const BY_EQUATION: [&str; 6] =
    ["e1rm.", "load_for_reps.", "reps_for_load.", "e1rm_rpe.", "load_for_rpe.", "share_per_rep."];

impl Row {
    /// The topic as a reader names it.
    pub fn group(&self) -> &str {
        BY_EQUATION.into_iter().find(|group| self.topic.starts_with(group)).unwrap_or(&self.topic)
    }

    /// The last part of the topic.
    pub fn last(&self) -> &str {
        self.topic.rsplit('.').next().unwrap()
    }

    /// An input by name, as text.
    pub fn text(&self, name: &str) -> &str {
        self.given(name).unwrap_or_else(|| panic!("line {}: no {name} in {}", self.line, self.input))
    }

    /// An input by name, where it is given.
    pub fn given(&self, name: &str) -> Option<&str> {
        self.input.split(';').filter_map(|part| part.split_once('=')).find(|(key, _)| *key == name).map(|(_, it)| it)
    }

    /// An input that is a number.
    pub fn number(&self, name: &str) -> f64 {
        self.text(name).parse().unwrap()
    }

    /// An input that is a list of numbers.
    pub fn numbers(&self, name: &str) -> Vec<f64> {
        numbers(self.text(name))
    }

    /// The inputs x and y as points.
    pub fn points(&self) -> Vec<(f64, f64)> {
        let (xs, ys) = (self.numbers("x"), self.numbers("y"));
        assert_eq!(xs.len(), ys.len(), "line {}", self.line);
        xs.into_iter().zip(ys).collect()
    }

    /// Fails unless this is what is expected, within the tolerance.
    pub fn expect(&self, actual: impl Into<Option<f64>>) {
        self.expect_all(&[actual.into().unwrap_or_else(|| panic!("line {}: nothing for {}", self.line, self.input))]);
    }

    /// The same for several numbers.
    pub fn expect_all(&self, actual: &[f64]) {
        let expected = numbers(&self.expected);
        assert_eq!(expected.len(), actual.len(), "line {}", self.line);
        for (expected, actual) in expected.iter().zip(actual) {
            let near = match self.tolerance.split_once(" of it") {
                Some((share, _)) => share.parse::<f64>().unwrap() * expected.abs(),
                None if self.tolerance == "exact" => 0.0,
                None => self.tolerance.parse().unwrap(),
            };
            let apart = (expected - actual).abs();
            assert!(apart <= near, "line {}: {} {} gave {actual}, not {expected}", self.line, self.topic, self.input);
        }
    }
}

/// Numbers between spaces.
pub fn numbers(text: &str) -> Vec<f64> {
    text.split(' ').map(|number| number.parse().unwrap_or_else(|_| panic!("{text}"))).collect()
}

/// Every figure.
pub fn rows() -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/published.csv");
    let text = std::fs::read_to_string(path).unwrap();
    let mut lines = text.lines().enumerate();
    assert_eq!(lines.next().unwrap().1, "topic,input,expected,tolerance,source");
    lines
        .map(|(at, line)| {
            let [topic, input, expected, tolerance, source] =
                <[String; 5]>::try_from(cells(line)).unwrap_or_else(|cells| panic!("line {}: {cells:?}", at + 1));
            Row { line: at + 1, topic, input, expected, tolerance, source }
        })
        .collect()
}

/// The cells of a line (RFC 4180, no line breaks inside quotes).
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    let mut characters = line.chars().peekable();
    while let Some(character) = characters.next() {
        match character {
            '"' if quoted && characters.next_if_eq(&'"').is_some() => cells.last_mut().unwrap().push('"'),
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            _ => cells.last_mut().unwrap().push(character),
        }
    }
    assert!(!quoted, "{line}");
    cells
}

/// Checks every row of the readers' topics.
pub fn check(readers: &[Reader]) {
    let rows = rows();
    for (topic, read) in readers {
        let own: Vec<&Row> = rows.iter().filter(|row| row.group() == *topic).collect();
        assert!(!own.is_empty(), "{topic}: nothing to read");
        own.into_iter().for_each(read);
    }
}
