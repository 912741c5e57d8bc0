//! A sum by which things are known again.

use std::hash::{DefaultHasher, Hash, Hasher};

/// A sum of 128 bits that is being made: of two things that differ, one is never taken for the other. Another build of the
/// program may add up otherwise.
#[derive(Clone, Debug)]
pub struct Digest([DefaultHasher; 2]);

impl Default for Digest {
    fn default() -> Self {
        // The library's own hasher has 64 bits; two that begin differently have twice as many.
        let mut other = DefaultHasher::new();
        other.write_u8(1);
        Digest([DefaultHasher::new(), other])
    }
}

impl Digest {
    /// The sum of one thing.
    pub fn of(thing: &(impl Hash + ?Sized)) -> [u64; 2] {
        let mut digest = Digest::default();
        digest.add(thing);
        digest.sum()
    }

    /// Takes in one thing more.
    pub fn add(&mut self, thing: &(impl Hash + ?Sized)) {
        for half in &mut self.0 {
            thing.hash(half);
        }
    }

    /// The sum so far.
    pub fn sum(&self) -> [u64; 2] {
        self.0.each_ref().map(Hasher::finish)
    }
}

#[cfg(test)]
mod tests {
    use super::Digest;

    #[test]
    fn another_order_and_another_cut_are_other_sums() {
        let sum = |things: &[&str]| {
            let mut digest = Digest::default();
            things.iter().for_each(|thing| digest.add(*thing));
            digest.sum()
        };
        let all = [sum(&["ab", "c"]), sum(&["a", "bc"]), sum(&["c", "ab"]), sum(&["abc"]), sum(&[])];
        for (at, one) in all.iter().enumerate() {
            assert!(one[0] != one[1] && !all[at + 1..].contains(one), "{at}");
        }
        assert_eq!(Digest::of("abc"), sum(&["abc"]));
    }
}
