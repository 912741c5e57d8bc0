//! Exact distances.

/// A distance, exact for metres, kilometres, yards and miles with up to three decimals: counted in
/// ten-millionths of a metre, of which a thousandth of a yard is 9,144.
///
/// One yard is 0.9144 m exactly and one mile 1609.344 m (international yard and pound agreement; NIST SP 811).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Distance(i64);

impl Distance {
    /// `thousandths` of a metre.
    pub fn metres(thousandths: i64) -> Self {
        Distance(thousandths.saturating_mul(10_000))
    }

    /// `thousandths` of a yard.
    pub fn yards(thousandths: i64) -> Self {
        Distance(thousandths.saturating_mul(9_144))
    }

    /// `thousandths` of a mile, 1760 yards.
    pub fn miles(thousandths: i64) -> Self {
        Distance(thousandths.saturating_mul(9_144 * 1760))
    }

    /// The distance this many times.
    #[must_use]
    pub fn times(self, count: u32) -> Self {
        Distance(self.0.saturating_mul(i64::from(count)))
    }

    /// Two distances one after the other.
    #[must_use]
    pub fn plus(self, other: Distance) -> Self {
        Distance(self.0.saturating_add(other.0))
    }

    /// Metres to the nearest hundredth, for showing.
    pub fn rounded_metres(self) -> f64 {
        ((self.0 + 50_000) / 100_000) as f64 / 100.0
    }

    /// As one would write it: `40m`; `40yd` for whole yards that are no whole number of decimetres.
    pub fn written(self) -> String {
        match (self.0 % 10_000, self.0 % 9_144) {
            _ if self.0 % 1_000_000 != 0 && self.0 % 9_144_000 == 0 => format!("{}yd", self.0 / 9_144_000),
            (0, _) => format!("{}m", super::decimal(self.0 / 10_000)),
            (_, 0) => format!("{}yd", super::decimal(self.0 / 9_144)),
            _ => format!("{}m", self.rounded_metres()),
        }
    }

    /// Metres in full, as a decimal number: `40`, `37.0332`.
    pub fn exact_metres(self) -> String {
        super::decimal::fraction(self.0, 10_000_000)
    }

    /// Whether it is none at all.
    pub fn is_zero(self) -> bool {
        self.0 == 0
    }
}

#[cfg(test)]
mod tests {
    use super::Distance;

    #[test]
    fn yards_and_miles_are_exact() {
        assert_eq!(Distance::yards(1_000).rounded_metres(), 0.91);
        assert_eq!(Distance::miles(1_000), Distance::metres(1_609_344));
        assert_eq!(Distance::yards(10_000_000), Distance::metres(9_144_000));
    }

    #[test]
    fn a_distance_is_written_in_a_unit_that_is_exact() {
        assert_eq!(Distance::metres(40_000).written(), "40m");
        assert_eq!(Distance::metres(2_500).written(), "2.5m");
        assert_eq!(Distance::yards(40_000).written(), "40yd");
        assert_eq!(Distance::yards(40_500).written(), "40.5yd");
    }
}
