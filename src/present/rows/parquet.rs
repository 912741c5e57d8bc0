//! Rows of sets as a file of Parquet, with the type of each column; and the names of the folders that such files stand in.

use super::columns::{COLUMNS, Cell, Cells, Column, Is, Scene};
use crate::questions::export::Line;
use chrono::{Datelike, NaiveDate};
use parquet::basic::{Compression, GzipLevel};
use parquet::data_type::{BoolType, ByteArray, ByteArrayType, DataType, Int32Type, Int64Type};
use parquet::errors::Result;
use parquet::file::properties::{EnabledStatistics, WriterProperties};
use parquet::file::writer::{SerializedFileWriter, SerializedRowGroupWriter};
use parquet::schema::parser::parse_message_type;
use std::str::FromStr;
use std::sync::Arc;

/// The name of the file in the folder of a lifter and a year.
pub const FILE: &str = "sets.parquet";

/// Who wrote a file, as its last bytes tell.
const WRITER: &str = concat!("loadline version ", env!("CARGO_PKG_VERSION"));
const MAGIC: &[u8] = b"PAR1";

/// Whether a file that ends so is an export. A thousand bytes are enough.
pub fn is_one(end: &[u8]) -> bool {
    let begins = b"loadline version ";
    end.ends_with(MAGIC) && end.windows(begins.len()).any(|bytes| bytes == begins)
}

/// The rows of a year, whole.
pub struct Year {
    /// The year that all of them are of.
    pub year: i32,
    /// The file.
    pub bytes: Vec<u8>,
}

/// Rows of one year as a file; `None` where there are none.
///
/// # Errors
/// What the library says.
pub fn year<'a>(scene: &Scene<'a>, lines: impl Iterator<Item = Line<'a>>) -> Result<Option<Year>> {
    let mut cells = Cells::new(scene, |value: &mut Value, column, cell| *value = Value::of(column.is, cell));
    let mut kept: Vec<Kept> = COLUMNS.iter().map(|column| Kept::of(column.is)).collect();
    let mut year = None;
    for line in lines {
        year.get_or_insert(line.session().date.year());
        kept.iter_mut().zip(cells.of(line)).for_each(|(kept, value)| kept.push(value));
    }
    let Some(year) = year else { return Ok(None) };
    let mut bytes = Vec::new();
    let schema = Arc::new(parse_message_type(&schema())?);
    let mut file = SerializedFileWriter::new(&mut bytes, schema, Arc::new(properties()))?;
    let mut group = file.next_row_group()?;
    kept.iter().try_for_each(|kept| kept.write(&mut group))?;
    group.close()?;
    file.close()?;
    Ok(Some(Year { year, bytes }))
}

fn properties() -> WriterProperties {
    WriterProperties::builder()
        .set_created_by(WRITER.to_owned())
        .set_compression(Compression::GZIP(GzipLevel::default()))
        // A year of one lifter is a page or two: what is told of each page would be longer than it.
        .set_statistics_enabled(EnabledStatistics::Chunk)
        .set_offset_index_disabled(true)
        .build()
}

/// The columns in the words of the format.
fn schema() -> String {
    let columns: String = COLUMNS.iter().map(|Column { name, is, .. }| match is {
        Is::Text => format!("optional byte_array {name} (string); "),
        Is::Date => format!("optional int32 {name} (date); "),
        Is::Whole => format!("optional int32 {name}; "),
        Is::Kilograms | Is::Metres | Is::Points => {
            format!("optional int64 {name} (decimal({DIGITS}, {})); ", decimals(*is))
        }
        Is::Flag => format!("optional boolean {name}; "),
        Is::List => {
            format!("required group {name} (list) {{ repeated group list {{ required byte_array element (string); }} }} ")
        }
    }).collect();
    format!("message sets {{ {columns}}}")
}

/// So many digits fit into 64 bits, which every engine sums exactly.
const DIGITS: usize = 18;

/// So many of them stand behind the point: as many as are ever needed, so that nothing is rounded.
fn decimals(is: Is) -> usize {
    match is {
        Is::Kilograms => 11,
        Is::Metres => 7,
        Is::Points => 3,
        _ => 0,
    }
}

/// The folder of a lifter: `lifter=NAME`, as Hive and those after it name a folder by the value of a column.
pub fn lifter_folder(name: Option<&str>) -> String {
    match name.filter(|name| !name.is_empty()) {
        None => format!("lifter={NULL}"),
        Some(NULL) => format!("lifter=%5F{}", NULL.get(1..).unwrap_or_default()),
        Some(name) => format!("lifter={}", escaped(name)),
    }
}

/// The folder of a year in it.
pub fn year_folder(year: i32) -> String {
    format!("year={year}")
}

/// Whether a folder is that of a year.
pub fn is_year_folder(name: &str) -> bool {
    name.strip_prefix("year=").is_some_and(|year| year.parse::<i32>().is_ok())
}

/// What stands for null in the name of a folder.
const NULL: &str = "__HIVE_DEFAULT_PARTITION__";

/// A value in the name of a folder. Signs that part paths, that engines take for a pattern, or that some system does not
/// have in names are written as `%2F`; letters stay, for engines do not agree on how those beyond ASCII are written.
fn escaped(value: &str) -> String {
    let last = value.chars().count().saturating_sub(1);
    let mut out = String::new();
    for (at, sign) in value.chars().enumerate() {
        let is_edge = at == last && matches!(sign, ' ' | '.');
        if sign.is_ascii_control() || is_edge || "\"#%'*/:<=>?\\[]^{|}+&".contains(sign) {
            out.push_str(&format!("%{:02X}", u32::from(sign)));
        } else {
            out.push(sign);
        }
    }
    out
}

/// A cell in the type of its column.
#[derive(Clone, Default)]
enum Value {
    #[default]
    Null,
    Flag(bool),
    Short(i32),
    Long(i64),
    Words(ByteArray),
    List(Vec<ByteArray>),
}

impl Value {
    fn of(is: Is, cell: Cell<'_>) -> Value {
        let value = match (is, cell) {
            (Is::Date, Cell::Text(day)) => NaiveDate::from_str(&day).ok().map(|day| Value::Short(day.to_epoch_days())),
            (Is::Whole, Cell::Number(digits)) => digits.parse().ok().map(Value::Short),
            (is, Cell::Number(digits)) => scaled(&digits, decimals(is)).map(Value::Long),
            (_, Cell::Text(words)) => Some(Value::Words(ByteArray::from(&*words))),
            (_, Cell::Flag(flag)) => Some(Value::Flag(flag)),
            (_, Cell::List(words)) => Some(Value::List(words.iter().map(|word| ByteArray::from(&**word)).collect())),
            (_, Cell::Null) => None,
        };
        value.unwrap_or_default()
    }
}

/// Decimal digits as a whole number of the last decimal; `None` for what has more digits than fit.
fn scaled(digits: &str, decimals: usize) -> Option<i64> {
    let (whole, rest) = digits.split_once('.').unwrap_or((digits, ""));
    let zeros = decimals.checked_sub(rest.len())?;
    let number: i64 = format!("{whole}{rest}{:0<zeros$}", "").parse().ok()?;
    (number.unsigned_abs() < 10_u64.pow(DIGITS as u32)).then_some(number)
}

/// The values of a column, as the format wants them: those that are there, and where.
struct Kept {
    values: Values,
    /// Of each row, and of each further word of a list, whether something stands there.
    there: Vec<i16>,
    /// Whether it is a further word of the list before it.
    further: Option<Vec<i16>>,
}

enum Values {
    Flags(Vec<bool>),
    Shorts(Vec<i32>),
    Longs(Vec<i64>),
    Words(Vec<ByteArray>),
}

impl Kept {
    fn of(is: Is) -> Kept {
        let values = match is {
            Is::Text | Is::List => Values::Words(Vec::new()),
            Is::Date | Is::Whole => Values::Shorts(Vec::new()),
            Is::Kilograms | Is::Metres | Is::Points => Values::Longs(Vec::new()),
            Is::Flag => Values::Flags(Vec::new()),
        };
        Kept { values, there: Vec::new(), further: (is == Is::List).then(Vec::new) }
    }

    fn push(&mut self, value: &Value) {
        let mut count = 1;
        match (&mut self.values, value) {
            (Values::Flags(flags), Value::Flag(flag)) => flags.push(*flag),
            (Values::Shorts(numbers), Value::Short(number)) => numbers.push(*number),
            (Values::Longs(numbers), Value::Long(number)) => numbers.push(*number),
            (Values::Words(all), Value::Words(words)) => all.push(words.clone()),
            (Values::Words(all), Value::List(words)) => {
                all.extend(words.iter().cloned());
                count = words.len();
            }
            _ => count = 0,
        }
        self.there.extend(std::iter::repeat_n(i16::from(count > 0), count.max(1)));
        if let Some(further) = &mut self.further {
            further.extend((0..count.max(1)).map(|nth| i16::from(nth > 0)));
        }
    }

    fn write(&self, group: &mut SerializedRowGroupWriter<'_, &mut Vec<u8>>) -> Result<()> {
        match &self.values {
            Values::Flags(flags) => self.put::<BoolType>(flags, group),
            Values::Shorts(numbers) => self.put::<Int32Type>(numbers, group),
            Values::Longs(numbers) => self.put::<Int64Type>(numbers, group),
            Values::Words(words) => self.put::<ByteArrayType>(words, group),
        }
    }

    fn put<T: DataType>(&self, values: &[T::T], group: &mut SerializedRowGroupWriter<'_, &mut Vec<u8>>) -> Result<()> {
        let Some(mut column) = group.next_column()? else { return Ok(()) };
        column.typed::<T>().write_batch(values, Some(&self.there), self.further.as_deref())?;
        column.close()
    }
}
