//! The statuses of a stated number.

/// The status of a stated number, the one that tells least of a problem first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    /// The computation goes by it.
    AsGiven,
    /// It is enough and contradicts nothing.
    Ok,
    /// The editor has accepted a finding about it.
    Accepted,
    /// Nothing checks it.
    NotChecked,
    /// It is too much, or contradicts something.
    Wrong,
    /// It is less than is needed.
    Short,
}

impl Status {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Status::Ok => "OK",
            Status::Short => "short",
            Status::Wrong => "wrong",
            Status::Accepted => "accepted",
            Status::AsGiven => "as given",
            Status::NotChecked => "not checked",
        }
    }
}
