//! The bytes of a table to rows of cells (RFC 4180, with the delimiter that the mapping says).

use crate::journal::{Mapping, Source};
use crate::problems::{Problem, ProblemKind as K};

/// One row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Which one, the header being row 1. Lines with nothing on them are no rows.
    pub number: u64,
    /// Its cells, as bytes.
    pub cells: Vec<Vec<u8>>,
    /// Whether a quote in it never closes.
    pub open_quote: bool,
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
    /// A quote in the header never closes.
    HeaderOpen,
}

/// Reads a table.
///
/// # Errors
/// [`NoTable`] where it has no header that can be read.
pub fn read_table(bytes: &[u8], delimiter: u8) -> Result<Table, NoTable> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let open = never_closes(bytes, delimiter);
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(delimiter).from_reader(bytes);
    let mut rows: Vec<Row> = Vec::new();
    // Bytes in memory, whatever they are, make rows of whatever length: no record of them is an error.
    for (record, number) in reader.byte_records().map_while(Result::ok).zip(1..) {
        rows.push(Row { number, cells: record.iter().map(<[u8]>::to_vec).collect(), open_quote: false });
    }
    if let Some(last) = rows.last_mut() {
        last.open_quote = open;
    }
    let mut rows = rows.into_iter();
    let header = rows.next().ok_or(NoTable::Empty)?;
    if header.open_quote {
        return Err(NoTable::HeaderOpen);
    }
    let names = header.cells.into_iter().map(|cell| String::from_utf8(cell).map(|name| name.trim().to_owned()));
    let header = names.collect::<Result<_, _>>().map_err(|_| NoTable::HeaderNotUtf8)?;
    Ok(Table { header, rows: rows.collect() })
}

/// Whether the bytes end inside quotes, so that what follows the opening one was all taken for one cell.
fn never_closes(bytes: &[u8], delimiter: u8) -> bool {
    let (mut inside, mut at_start) = (false, true);
    let mut bytes = bytes.iter().copied().peekable();
    while let Some(byte) = bytes.next() {
        match (inside, byte) {
            (true, b'"') if bytes.next_if_eq(&b'"').is_none() => inside = false,
            (false, b'"') if at_start => inside = true,
            _ => {}
        }
        at_start = !inside && (byte == delimiter || matches!(byte, b'\r' | b'\n'));
    }
    inside
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
            Some(Problem::new(K::WrongSetting { key: key.into(), wanted }, *span))
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
    use super::{NoTable, never_closes, read_table};

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
        assert!(never_closes(b"a,b\n1,\"two\n3,4\n", b','));
        assert!(!never_closes(b"a,b\n1,\"t\"\"wo\"\n5'10\",4\n", b','));
        assert!(read_table(b"a,b\n1,\"two\n3,4\n", b',').unwrap().rows[0].open_quote);
    }
}
