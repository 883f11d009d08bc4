//! The short form of a fingerprint, as a paper has it: `1a2b 3c4d 5e6f`.

/// How many digits the short form has.
const SHORT: usize = 12;

/// How few digits may be typed, and how many a whole fingerprint has.
const FEWEST: usize = 8;
const WHOLE: usize = 64;

/// What stands before the digits in a record.
const ALGORITHM: &str = "sha256:";

/// The first digits of a fingerprint, as somebody reads them off a paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fingerprint {
    digits: [u8; WHOLE],
    many: usize,
}

impl Fingerprint {
    /// Reads at least eight digits; spaces between them and capital letters make no difference.
    ///
    /// # Errors
    /// In words, where they are too few or too many, or something else is among them.
    pub fn read(text: &str) -> Result<Fingerprint, String> {
        let lower = text.trim().to_lowercase();
        let bare = lower.strip_prefix(ALGORITHM).unwrap_or(&lower);
        let digits: String = bare.chars().filter(|c| !c.is_whitespace() && *c != '-').collect();
        if let Some(other) = digits.chars().find(|c| !c.is_ascii_hexdigit()) {
            return Err(format!("{other:?} is no digit of a fingerprint: these are 0 to 9 and a to f"));
        }
        match digits.len() {
            many @ FEWEST..=WHOLE => {
                let mut read = Fingerprint { digits: [b'0'; WHOLE], many };
                read.digits[..many].copy_from_slice(digits.as_bytes());
                Ok(read)
            }
            few if few < FEWEST => Err(format!("these are {few} digits; type at least the first {FEWEST}")),
            many => Err(format!("these are {many} digits, and a fingerprint has {WHOLE}")),
        }
    }

    /// Whether a fingerprint of a record begins with these digits.
    pub fn is_start_of(&self, recorded: &str) -> bool {
        recorded.strip_prefix(ALGORITHM).unwrap_or(recorded).as_bytes().starts_with(&self.digits[..self.many])
    }

    /// The short form of a fingerprint of a record.
    pub fn short(recorded: &str) -> String {
        in_groups(recorded.strip_prefix(ALGORITHM).unwrap_or(recorded))
    }
}

impl std::fmt::Display for Fingerprint {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(&in_groups(&String::from_utf8_lossy(&self.digits[..self.many])))
    }
}

/// The first digits in groups of four.
fn in_groups(digits: &str) -> String {
    let shown: Vec<char> = digits.chars().take(SHORT).collect();
    shown.chunks(4).map(|group| group.iter().collect::<String>()).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::Fingerprint;

    #[test]
    fn spaces_and_capitals_make_no_difference() {
        let recorded = "sha256:1a2b3c4d5e6f7788";
        for typed in ["1a2b3c4d", "1A2B 3C4D 5E6F", " 1a2b-3c4d-5e6f ", "sha256:1a2b3c4d5e6f7788"] {
            assert!(Fingerprint::read(typed).is_ok_and(|read| read.is_start_of(recorded)), "{typed}");
        }
        assert_eq!(Fingerprint::short(recorded), "1a2b 3c4d 5e6f");
        assert!(Fingerprint::read("1a2b 3c4e").is_ok_and(|read| !read.is_start_of(recorded)));
    }

    #[test]
    fn what_is_no_fingerprint_is_said() {
        for (typed, why) in [("1a2b 3c4", "7 digits"), ("1a2b 3c4g", "'g' is no digit"), (&"0".repeat(65), "65 digits")]
        {
            assert!(Fingerprint::read(typed).is_err_and(|said| said.contains(why)), "{typed}");
        }
    }
}
