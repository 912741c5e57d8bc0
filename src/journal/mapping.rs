//! Which column of a table says what: a file that the lifter writes for a table from elsewhere. Every key is checked, as
//! those of the settings are. docs/import.md tells each.

use super::faults::Faults;
use super::settings::parsed;
use super::yaml::Node;
use crate::problems::{Problem, ProblemKind as K};
use crate::source::Span;
use crate::training::words;
use serde_yaml::Value;

words! {
    /// What a column, or a constant, may say of a row.
    #[derive(PartialOrd, Ord)]
    pub enum Field {
        /// The session's date.
        Date = "date",
        /// When it began.
        Time = "time",
        /// The day's label.
        Day = "day",
        /// The lift.
        Lift = "lift",
        /// How many sets of the kind.
        Sets = "sets",
        /// Good reps of a set.
        Reps = "reps",
        /// Seconds held.
        Seconds = "seconds",
        /// Metres covered.
        Metres = "metres",
        /// Whether that is of each side.
        PerSide = "per side",
        /// The load: a number, or as the notation writes it.
        Load = "load",
        /// The unit of numbers in the load.
        Unit = "unit",
        /// How hard.
        Effort = "effort",
        /// `RPE` or `RIR`.
        EffortScale = "effort scale",
        /// Faults by name.
        Faults = "faults",
        /// Reps missed after the good ones.
        Missed = "missed",
        /// The lifter's own weight that day.
        Bodyweight = "bodyweight",
        /// Its unit.
        BodyweightUnit = "bodyweight unit",
        /// Anything.
        Note = "note",
    }
}

/// Where a field's value comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Source {
    /// The column of that name, and where the mapping names it.
    Column(String, Span),
    /// The same for every row.
    Constant(String),
}

/// A mapping.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mapping {
    /// What parts the cells of a row: one ASCII character.
    pub delimiter: u8,
    /// How dates are written, in the words of `strftime`.
    pub date_format: String,
    /// How times are.
    pub time_format: String,
    /// Whether decimals stand after a comma.
    pub decimal_comma: bool,
    /// Whether words that look like formulas have an apostrophe before them that is none of theirs.
    pub formula_guard: bool,
    /// What is said of a row, and where it stands.
    pub fields: Vec<(Field, Source)>,
    /// Only rows that have one of these values in this column.
    pub only: Vec<(Source, Vec<String>)>,
}

impl Mapping {
    /// Where a field's value comes from; nothing where the mapping does not say.
    pub fn source(&self, field: Field) -> Option<&Source> {
        self.fields.iter().find(|(known, _)| *known == field).map(|(_, source)| source)
    }
}

words! {
    /// A key of a mapping.
    enum Key {
        /// What each column says.
        Columns = "columns",
        /// What holds for every row.
        Constants = "constants",
        /// Which rows are taken.
        Only = "only",
        /// What parts the cells.
        Delimiter = "delimiter",
        /// How dates are written.
        DateFormat = "date format",
        /// How times are.
        TimeFormat = "time format",
        /// The sign before decimals.
        Decimal = "decimal",
        /// Whether an apostrophe stands before what looks like a formula.
        FormulaGuard = "formula guard",
    }
}

const COLUMNS_WANTED: &str = "a `date`, a `lift` and one of `reps`, `seconds` and `metres`, each with a column's name";
const FORMAT_WANTED: &str = "a date in the words of strftime, such as \"%d.%m.%Y\"";

/// Reads a mapping.
///
/// # Errors
/// What is wrong with it, with places in its text.
pub fn mapping(bytes: &[u8]) -> Result<Mapping, Vec<Problem>> {
    let (text, value) = parsed(bytes).map_err(|problem| vec![*problem])?;
    let mut reader = Reader { text, faults: Faults::default(), mapping: empty() };
    reader.file(&Node::top(&value));
    let problems: Vec<Problem> = reader.faults.all.into_iter().map(|fault| fault.placed(text)).collect();
    if problems.is_empty() { Ok(reader.mapping) } else { Err(problems) }
}

fn empty() -> Mapping {
    Mapping {
        delimiter: b',',
        date_format: "%Y-%m-%d".into(),
        time_format: "%H:%M".into(),
        decimal_comma: false,
        formula_guard: false,
        fields: Vec::new(),
        only: Vec::new(),
    }
}

struct Reader<'v> {
    text: &'v str,
    faults: Faults<'v>,
    mapping: Mapping,
}

impl<'v> Reader<'v> {
    fn file(&mut self, top: &Node<'v>) {
        let Some(entries) = top.entries() else {
            return self.faults.fault(K::UnreadSettings { why: "it is not a list of `key: value` lines".into() }, top);
        };
        for (key, value) in &entries {
            let Some(known) = self.faults.key_of::<Key>(key) else { continue };
            let name = known.word();
            match known {
                Key::Columns => self.fields(name, value, true),
                Key::Constants => self.fields(name, value, false),
                Key::Only => self.only(value),
                Key::Delimiter => match delimiter(value) {
                    Some(byte) => self.mapping.delimiter = byte,
                    None => self.faults.wrong(name, value, "one sign such as \";\", or tab"),
                },
                Key::DateFormat => match format(value) {
                    Some(format) => self.mapping.date_format = format,
                    None => self.faults.wrong(name, value, FORMAT_WANTED),
                },
                Key::TimeFormat => match format(value) {
                    Some(format) => self.mapping.time_format = format,
                    None => self.faults.wrong(name, value, "a time in the words of strftime, such as \"%H:%M\""),
                },
                Key::Decimal => match value.text() {
                    Some(sign @ ("," | ".")) => self.mapping.decimal_comma = sign == ",",
                    _ => self.faults.wrong(name, value, "\",\" or \".\""),
                },
                Key::FormulaGuard => match value.value.as_bool() {
                    Some(guard) => self.mapping.formula_guard = guard,
                    None => self.faults.wrong(name, value, "true or false"),
                },
            }
        }
        let columns = entries.iter().find(|(key, _)| key.value.as_str() == Some("columns"));
        self.whole(columns.map_or(top, |(key, _)| key));
    }

    fn fields(&mut self, of: &str, fields: &Node<'v>, are_columns: bool) {
        let Some(entries) = fields.entries() else {
            return self.faults.wrong(of, fields, "lines such as `lift: Exercise`");
        };
        for (key, value) in entries {
            let Some(field) = self.faults.key_of::<Field>(&key) else { continue };
            let name = field.word();
            let Some(said) = scalar(value.value) else {
                self.faults.wrong(
                    name,
                    &value,
                    if are_columns { "the name of a column" } else { "a word or a number" },
                );
                continue;
            };
            if self.mapping.source(field).is_some() {
                self.faults.wrong(name, &value, "a column or a constant, not both");
                continue;
            }
            let source =
                if are_columns { Source::Column(said, value.place(self.text)) } else { Source::Constant(said) };
            self.mapping.fields.push((field, source));
        }
    }

    fn only(&mut self, only: &Node<'v>) {
        let wanted = "columns with the values of the rows to take, such as { kind: [work, failed] }";
        let Some(entries) = only.entries() else { return self.faults.wrong("only", only, wanted) };
        for (key, value) in entries {
            let items = value.items().unwrap_or_else(|| vec![value.clone()]);
            let values: Option<Vec<String>> = items.iter().map(|item| scalar(item.value)).collect();
            match (scalar(key.value), values) {
                (Some(column), Some(values)) => {
                    self.mapping.only.push((Source::Column(column, key.place(self.text)), values));
                }
                _ => self.faults.wrong("only", &value, wanted),
            }
        }
    }

    /// Whether all is there that a row cannot do without.
    fn whole(&mut self, columns: &Node<'v>) {
        let has = |field| self.mapping.source(field).is_some();
        let amounts = [Field::Reps, Field::Seconds, Field::Metres];
        let complete = has(Field::Date) && has(Field::Lift) && amounts.into_iter().any(has);
        let scaled = !has(Field::Effort) || has(Field::EffortScale);
        if !complete && self.faults.all.is_empty() {
            self.faults.wrong("columns", columns, COLUMNS_WANTED);
        }
        if !scaled {
            self.faults.wrong(
                "columns",
                columns,
                "`effort` only with an `effort scale`, RPE or RIR, as a column or a constant",
            );
        }
    }
}

/// A scalar as text.
fn scalar(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => Some(text.trim().to_owned()).filter(|text| !text.is_empty()),
        Value::Number(number) => Some(number.to_string()),
        Value::Bool(is) => Some(is.to_string()),
        _ => None,
    }
}

fn delimiter(value: &Node<'_>) -> Option<u8> {
    match value.value.as_str()? {
        "tab" => Some(b'\t'),
        one => match one.as_bytes() {
            [byte] if byte.is_ascii() && !byte.is_ascii_alphanumeric() && !b"\"\r\n\0".contains(byte) => Some(*byte),
            _ => None,
        },
    }
}

/// A format that the calendar's library reads.
fn format(value: &Node<'_>) -> Option<String> {
    let format = value.text()?;
    let is_read = chrono::format::StrftimeItems::new(format).all(|item| item != chrono::format::Item::Error);
    (is_read && format.contains('%')).then(|| format.to_owned())
}

#[cfg(test)]
mod tests {
    use super::{Field, Source, mapping};

    #[test]
    fn columns_constants_and_signs_are_read() {
        let text = "columns: { date: Day, lift: Exercise, reps: Reps }\nconstants:\n  unit: kg\n  sets: 1\ndelimiter: \";\"\ndecimal: \",\"\nonly: { kind: [work, 2] }\n";
        let read = mapping(text.as_bytes()).unwrap();
        assert_eq!((read.delimiter, read.decimal_comma), (b';', true));
        assert!(read.fields.contains(&(Field::Sets, Source::Constant("1".into()))));
        assert_eq!(read.only[0].1, ["work", "2"]);
    }

    #[test]
    fn faults_have_their_places() {
        let text = "columns: { date: Day, lift: Exercise, reps: Reps, effort: RPE }\ncolumms: 1\ndate format: dd.mm\ndelimiter: ab\n";
        let faults = mapping(text.as_bytes()).unwrap_err();
        let marked: Vec<&str> = faults.iter().map(|problem| problem.span.text(text)).collect();
        assert_eq!(marked, ["columms", "dd.mm", "ab", "columns"]);
        for broken in ["", "- a", "columns: [", "columns: {}", "a: 1\na: 2\n", "\u{0}"] {
            assert!(!mapping(broken.as_bytes()).unwrap_err().is_empty(), "{broken:?}");
        }
        assert!(mapping(b"\xff").is_err());
    }
}
