//! Random numbers that are the same on every run.

/// `SplitMix64` (Steele, Lea and Flood, 2014).
#[derive(Clone, Debug)]
pub struct Rng(u64);

impl Rng {
    /// The numbers of a seed.
    pub const fn new(seed: u64) -> Rng {
        Rng(seed)
    }

    /// The numbers that belong to some bytes: a target that chooses at random chooses the same for the same input.
    pub fn of(bytes: &[u8]) -> Rng {
        Rng(hash(bytes))
    }

    /// The next number.
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From nothing up to `limit`, without it; nothing where `limit` is nothing.
    pub fn below(&mut self, limit: usize) -> usize {
        let limit = u64::try_from(limit.max(1)).unwrap_or(u64::MAX);
        usize::try_from(self.number() % limit).unwrap_or_default()
    }

    /// From `least` to `most`, both included.
    pub fn between(&mut self, least: usize, most: usize) -> usize {
        least + self.below(most - least + 1)
    }

    /// Whether one of so many.
    pub fn one_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    /// One of several.
    ///
    /// # Panics
    /// Where there are none.
    pub fn pick<'t, T>(&mut self, from: &'t [T]) -> &'t T {
        &from[self.below(from.len())]
    }

    /// One of several words.
    pub fn word<'t>(&mut self, from: &[&'t str]) -> &'t str {
        from[self.below(from.len())]
    }
}

/// FNV-1a (Fowler, Noll and Vo), 64 bits.
pub fn hash(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}
