//! Who speaks and what they may do.
//!
//! Until people and tokens exist the server listens on loopback only, and anyone who reaches it is a named local person.

use super::{Error, Operation};
use clampbook_book::entry;

/// Written down for who gives no name, of themselves or of the device.
pub(crate) fn unnamed() -> entry::Caller {
    entry::Caller {
        person: "local person".into(),
        device: "this machine".into(),
    }
}

/// What somebody may do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    /// Everything.
    Local,
    /// Reading only.
    Reader,
}

/// Who speaks.
#[derive(Clone, Debug)]
pub(crate) struct Caller {
    /// As the journal writes it down.
    pub(crate) who: entry::Caller,
    /// What they may do.
    pub(crate) role: Role,
}

impl Caller {
    /// Refuses what the caller's role does not include.
    ///
    /// # Errors
    /// `NOT_ALLOWED`, naming the operation.
    pub(crate) fn may(&self, operation: Operation) -> Result<(), Error> {
        match self.role {
            Role::Local => Ok(()),
            Role::Reader if !operation.writes() => Ok(()),
            Role::Reader => Err(Error::not_allowed(operation)),
        }
    }
}
