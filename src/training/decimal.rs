//! Numbers as they are written.

/// Thousandths as a number with as few decimals as it needs.
pub(crate) fn decimal(thousandths: i64) -> String {
    fraction(thousandths, 1000)
}

/// The digits of a number, at least so many. Every load of a journal is written so, where `format!` takes several times as long.
fn digits(number: u64, least: usize, out: &mut String) {
    let mut place = 10_u64.saturating_pow(number.checked_ilog10().unwrap_or(0).max(least.saturating_sub(1) as u32));
    while place > 0 {
        out.push(char::from(b'0' + (number / place % 10) as u8));
        place /= 10;
    }
}

/// Parts of a whole, of which there are a power of ten, as a number with as few decimals as it needs.
pub(super) fn fraction(parts: i64, per_whole: i64) -> String {
    let sign = if parts < 0 { "-" } else { "" };
    let (parts, per_whole) = (parts.unsigned_abs(), per_whole.unsigned_abs().max(1));
    let (whole, rest) = (parts / per_whole, parts % per_whole);
    let mut out = sign.to_owned();
    digits(whole, 1, &mut out);
    if rest > 0 {
        out.push('.');
        digits(rest, per_whole.ilog10() as usize, &mut out);
        out.truncate(out.trim_end_matches('0').len());
    }
    out
}
