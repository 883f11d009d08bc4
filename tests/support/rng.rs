//! Random numbers that are the same on every run.

/// `SplitMix64` (Steele, Lea and Flood, 2014).
pub(crate) struct Rng(u64);

impl Rng {
    pub(crate) const fn new(seed: u64) -> Rng {
        Rng(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From nothing up to `limit`, without it.
    pub(crate) fn below(&mut self, limit: i64) -> i64 {
        i64::try_from(self.next() >> 2).unwrap() % limit.max(1)
    }

    /// From `least` to `most`, both included.
    pub(crate) fn between(&mut self, least: i64, most: i64) -> i64 {
        least + self.below(most - least + 1)
    }

    pub(crate) fn one_in(&mut self, times: i64) -> bool {
        self.below(times) == 0
    }

    pub(crate) fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        let index = self.below(i64::try_from(from.len()).unwrap());
        from[usize::try_from(index).unwrap()]
    }
}
