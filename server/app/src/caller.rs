//! Who speaks and what they may do.
//!
//! Until people sign in with tokens the server listens on loopback only, and anyone who reaches it is a named local person.

use super::{Error, Operation};
use clampbook_book::entry;

/// What somebody may do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Everything.
    Local,
    /// Reading only.
    Reader,
}

/// Who speaks.
#[derive(Clone, Debug)]
pub struct Caller {
    /// As the journal writes it down.
    pub who: entry::Caller,
    /// What they may do.
    pub role: Role,
}

impl Caller {
    /// Somebody who may do everything.
    #[must_use]
    pub fn local(person: &str, device: &str) -> Self {
        let (person, device) = (person.into(), device.into());
        Self {
            who: entry::Caller { person, device },
            role: Role::Local,
        }
    }

    /// Written down for who gives no name, of themselves or of the device.
    #[must_use]
    pub fn unnamed() -> entry::Caller {
        entry::Caller::unnamed()
    }

    /// Refuses what the caller's role does not include.
    ///
    /// # Errors
    /// `NOT_ALLOWED`, naming the operation.
    pub fn may(&self, operation: Operation) -> Result<(), Error> {
        match self.role {
            Role::Local => Ok(()),
            Role::Reader if !operation.writes() => Ok(()),
            Role::Reader => Err(Error::not_allowed(operation)),
        }
    }
}
