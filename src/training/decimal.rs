//! Numbers as they are written.

/// Thousandths as a number with as few decimals as it needs.
pub(crate) fn decimal(thousandths: i64) -> String {
    fraction(thousandths, 1000)
}

/// Parts of a whole, of which there are a power of ten, as a number with as few decimals as it needs.
pub(super) fn fraction(parts: i64, per_whole: i64) -> String {
    let sign = if parts < 0 { "-" } else { "" };
    let (parts, per_whole) = (parts.unsigned_abs(), per_whole.unsigned_abs().max(1));
    let (whole, rest) = (parts / per_whole, parts % per_whole);
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let digits = per_whole.ilog10() as usize;
    let decimals = format!("{rest:0digits$}");
    format!("{sign}{whole}.{}", decimals.trim_end_matches('0'))
}
