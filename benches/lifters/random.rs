//! Numbers by chance, the same every time.

/// SplitMix64 (Steele, Lea and Flood 2014): small, and good enough for lifters.
pub struct Random(u64);

impl Random {
    pub fn new(seed: u64) -> Self {
        Random(seed)
    }

    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Between 0 and 1, neither of them.
    pub fn unit(&mut self) -> f64 {
        ((self.bits() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    /// Normal (Box and Muller 1958).
    pub fn normal(&mut self, mean: f64, spread: f64) -> f64 {
        let (radius, angle) = ((-2.0 * self.unit().ln()).sqrt(), std::f64::consts::TAU * self.unit());
        mean + spread * radius * angle.cos()
    }

    /// Heavy-tailed with the same standard deviation: Student's t with three degrees of freedom.
    pub fn heavy(&mut self, spread: f64) -> f64 {
        let squares: f64 = (0..3).map(|_| self.normal(0.0, 1.0).powi(2)).sum();
        // The variance of this t is 3.
        self.normal(0.0, spread) / squares.sqrt()
    }
}
