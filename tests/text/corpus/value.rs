//! Numbers of the corpus, exact.

/// A fraction in lowest terms, not negative.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Exact {
    over: i64,
    under: i64,
}

impl Exact {
    pub(crate) fn new(over: i64, under: i64) -> Exact {
        let divisor = greatest(over, under).max(1);
        Exact { over: over / divisor, under: under / divisor }
    }

    /// `12`, `2 1/2`, `5/8` or `11.5`.
    pub(crate) fn parse(text: &str) -> Option<Exact> {
        if let Some((whole, part)) = text.split_once(' ') {
            let (whole, part) = (Exact::parse(whole)?, Exact::parse(part)?);
            return Some(Exact::new(whole.over * part.under + part.over * whole.under, whole.under * part.under));
        }
        if let Some((over, under)) = text.split_once('/') {
            return Some(Exact::new(over.parse().ok()?, under.parse().ok().filter(|under| *under > 0)?));
        }
        if let Some((whole, part)) = text.split_once('.') {
            let scale = 10_i64.pow(u32::try_from(part.len()).ok()?);
            return Some(Exact::new(whole.parse::<i64>().ok()? * scale + part.parse::<i64>().ok()?, scale));
        }
        text.parse().ok().map(|whole| Exact::new(whole, 1))
    }

    pub(crate) fn times(self, other: Exact) -> Exact {
        Exact::new(self.over * other.over, self.under * other.under)
    }

    pub(crate) fn over(self, other: Exact) -> Exact {
        Exact::new(self.over * other.under, self.under * other.over)
    }

    pub(crate) fn plus(self, over: i64, under: i64) -> Exact {
        Exact::new(self.over * under + over * self.under, self.under * under)
    }

    pub(crate) const fn is_whole(self) -> bool {
        self.under == 1
    }

    pub(crate) const fn is_positive(self) -> bool {
        self.over > 0
    }

    /// Its whole part, and the two numbers of the rest.
    pub(crate) const fn mixed(self) -> (i64, i64, i64) {
        (self.over / self.under, self.over % self.under, self.under)
    }

    /// As a decimal number, which it must be.
    pub(crate) fn decimal(self) -> String {
        let (mut scale, mut digits) = (1, 0);
        while scale * self.over % self.under != 0 {
            scale *= 10;
            digits += 1;
            assert!(digits < 6, "{self:?} has no end");
        }
        let value = scale * self.over / self.under;
        if digits == 0 {
            return value.to_string();
        }
        format!("{}.{:0digits$}", value / scale, value % scale)
    }
}

fn greatest(one: i64, other: i64) -> i64 {
    if other == 0 { one } else { greatest(other, one % other) }
}
