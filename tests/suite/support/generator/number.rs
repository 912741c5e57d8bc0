//! The rows' units, and numbers as they are written.

/// A kilogram in the rows' unit: hundred-billionths of a kilogram, in which pounds are whole numbers too.
pub const KG: i64 = 100_000_000_000;
/// A pound in the rows' unit (NIST SP 811: 0.45359237 kg exactly).
pub const LB: i64 = 45_359_237_000;
/// A metre in the rows' unit: ten-millionths of a metre.
pub const METRE: i64 = 10_000_000;

/// Thousandths as a number with as few decimals as it needs.
pub(super) fn decimal(thousandths: i64) -> String {
    let text = format!("{}.{:03}", thousandths / 1000, thousandths % 1000);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Halves as a number.
pub(super) fn half(halves: u32) -> String {
    decimal(i64::from(halves) * 500)
}
