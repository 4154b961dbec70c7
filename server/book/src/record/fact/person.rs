//! What is said about the people of the shop.

use crate::record::ids::PersonId;
use crate::record::words::PersonRole;
use serde::{Deserialize, Serialize};

/// Somebody works in the shop, or is called otherwise or does something else from now on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PersonStated {
    /// Their identifier.
    pub person: PersonId,
    /// Their name.
    pub name: String,
    /// What they do in the shop.
    pub roles: Vec<PersonRole>,
}

/// Somebody does not work in the shop any more.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PersonWithdrawn {
    /// Their identifier.
    pub person: PersonId,
    /// Why.
    pub reason: String,
}
