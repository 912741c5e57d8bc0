//! The bytes of a table to rows of cells (RFC 4180, with the delimiter that the mapping says).

use crate::journal::{Mapping, Source};
use crate::problems::{Problem, ProblemKind as K};
use std::collections::BTreeSet;

/// One row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Which one, the header being row 1. Lines with nothing on them are no rows.
    pub number: u64,
    /// Its cells, as bytes.
    pub cells: Vec<Vec<u8>>,
    /// Whether a quote in it never closes.
    pub open_quote: bool,
    /// Whether something stands in a cell behind the quote that closes it.
    pub after_quote: bool,
}

/// A table: a header and its rows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// The names of the columns.
    pub header: Vec<String>,
    /// The rows below it.
    pub rows: Vec<Row>,
}

/// Why there is no table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoTable {
    /// Nothing stands in the file.
    Empty,
    /// The names of the columns are no text.
    HeaderNotUtf8,
    /// A quote in the header never closes, or closes within a cell.
    HeaderOpen,
}

/// Reads a table.
///
/// # Errors
/// [`NoTable`] where it has no header that can be read.
pub fn read_table(bytes: &[u8], delimiter: u8) -> Result<Table, NoTable> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let (open, torn) = quotes(bytes, delimiter);
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(delimiter).from_reader(bytes);
    let mut rows: Vec<Row> = Vec::new();
    // Bytes in memory, whatever they are, make rows of whatever length: no record of them is an error.
    for (record, number) in reader.byte_records().map_while(Result::ok).zip(1..) {
        rows.push(Row {
            number,
            cells: record.iter().map(<[u8]>::to_vec).collect(),
            open_quote: false,
            after_quote: torn.contains(&number),
        });
    }
    if let Some(last) = rows.last_mut() {
        last.open_quote = open;
    }
    let mut rows = rows.into_iter();
    let header = rows.next().ok_or(NoTable::Empty)?;
    if header.open_quote || header.after_quote {
        return Err(NoTable::HeaderOpen);
    }
    let names = header.cells.into_iter().map(|cell| String::from_utf8(cell).map(|name| name.trim().to_owned()));
    let header = names.collect::<Result<_, _>>().map_err(|_| NoTable::HeaderNotUtf8)?;
    Ok(Table { header, rows: rows.collect() })
}

/// Whether the bytes end inside quotes, so that what follows the opening one was all taken for one cell; and the rows in
/// which something follows a closing one, so that a part of a cell was in quotes and a part was not.
fn quotes(bytes: &[u8], delimiter: u8) -> (bool, BTreeSet<u64>) {
    let (mut inside, mut at_start, mut closed) = (false, true, false);
    let (mut row, mut has_any, mut torn) = (1, false, BTreeSet::new());
    let mut bytes = bytes.iter().copied().peekable();
    while let Some(byte) = bytes.next() {
        match byte {
            b'"' if inside => {
                if bytes.next_if_eq(&b'"').is_none() {
                    (inside, closed) = (false, true);
                }
            }
            _ if inside => {}
            b'\r' | b'\n' => {
                row += u64::from(has_any);
                (at_start, closed, has_any) = (true, false, false);
                continue;
            }
            _ if byte == delimiter => (at_start, closed) = (true, false),
            b'"' if at_start => (inside, at_start) = (true, false),
            _ => {
                if closed {
                    torn.insert(row);
                }
                at_start = false;
            }
        }
        has_any = true;
    }
    (inside, torn)
}

impl Table {
    /// Which column has a name.
    pub(super) fn column(&self, name: &str) -> Option<usize> {
        self.header.iter().position(|known| known == name)
    }

    /// What is wrong with the names of columns in a mapping.
    pub fn faults_of(&self, mapping: &Mapping) -> Vec<Problem> {
        let named = mapping.fields.iter().map(|(field, source)| (field.word(), source));
        let all = named.chain(mapping.only.iter().map(|(source, _)| ("only", source)));
        let fault = |(key, source): (&str, &Source)| {
            let Source::Column(name, span) = source else { return None };
            let wanted = match self.header.iter().filter(|known| *known == name).count() {
                1 => return None,
                0 => match self.header.as_slice() {
                    [only] if only.contains(';') => {
                        "the name of a column; with `delimiter: \";\"` the file has more than one"
                    }
                    [only] if only.contains('\t') => {
                        "the name of a column; with `delimiter: tab` the file has more than one"
                    }
                    _ => "the name of a column, as in the first row of the file",
                },
                _ => "the name of one column; the file has this one twice",
            };
            Some(Problem::new(K::WrongSetting { key: key.into(), wanted: wanted.into() }, *span))
        };
        all.filter_map(fault).collect()
    }

    /// The columns that a mapping leaves out.
    pub fn left_out(&self, mapping: &Mapping) -> Vec<String> {
        let sources =
            || mapping.fields.iter().map(|(_, source)| source).chain(mapping.only.iter().map(|(source, _)| source));
        let is_named =
            |column: &String| sources().any(|source| matches!(source, Source::Column(name, _) if name == column));
        self.header.iter().filter(|column| !is_named(column)).cloned().collect()
    }
}

#[cfg(test)]
mod tests {
    use super::{NoTable, quotes, read_table};

    #[test]
    fn quotes_line_ends_and_a_mark_are_read() {
        let table = read_table(b"\xef\xbb\xbfa;b\r\n\"x;\"\"y\"\"\r\nz\";2\r\n\r\n3\r\n", b';').unwrap();
        assert_eq!(table.header, ["a", "b"]);
        assert_eq!(table.rows[0].cells, [b"x;\"y\"\r\nz".to_vec(), b"2".to_vec()]);
        assert_eq!((table.rows[1].number, table.rows[1].cells.len()), (3, 1));
        assert_eq!(read_table(b"", b','), Err(NoTable::Empty));
        assert_eq!(read_table(b"\xff,b\n", b','), Err(NoTable::HeaderNotUtf8));
    }

    #[test]
    fn a_quote_that_never_closes_is_seen() {
        assert!(quotes(b"a,b\n1,\"two\n3,4\n", b',').0);
        assert!(!quotes(b"a,b\n1,\"t\"\"wo\"\n5'10\",4\n", b',').0);
        assert!(read_table(b"a,b\n1,\"two\n3,4\n", b',').unwrap().rows[0].open_quote);
    }

    #[test]
    fn a_cell_that_goes_on_behind_its_quote_is_seen() {
        let table = read_table(b"a,b\r\n\r\n1,\"two\"x\r\n5'10\",\"t\"\"w\"\n\"one\" ,2\n", b',').unwrap();
        assert_eq!(table.rows.iter().map(|row| row.after_quote).collect::<Vec<_>>(), [true, false, true]);
    }
}
