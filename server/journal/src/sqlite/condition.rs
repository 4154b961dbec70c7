//! The condition of an open journal: whether it can be written.

use std::fmt;

/// Whether the journal can be written, and if not, why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Condition {
    /// It can.
    Sound,
    /// The disk is full. Reading goes on, and so does writing as soon as there is room.
    Full,
    /// The disk does not take what is written; it is tried again.
    Failing(String),
    /// The file is not where it was opened. Nothing is written until the server is started again.
    Lost(String),
}

impl Condition {
    /// Whether that is over only with a new start.
    #[must_use]
    pub const fn is_final(&self) -> bool {
        matches!(self, Self::Lost(_))
    }
}

impl fmt::Display for Condition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sound => f.write_str("the journal can be written"),
            Self::Full => f.write_str("the disk is full"),
            Self::Failing(why) => write!(f, "the disk does not take what is written: {why}"),
            Self::Lost(why) => f.write_str(why),
        }
    }
}
