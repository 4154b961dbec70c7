//! Words for people.

use serde::{Deserialize, Serialize};

vocabulary! {
    /// What a person does in the shop.
    PersonRole {
        /// Takes apart and puts together.
        Mechanic = "mechanic", "mechanic";
        /// Looks at what others did.
        Inspector = "inspector", "inspector";
        /// Answers for the work of the others.
        Lead = "lead", "lead";
    }
}

vocabulary! {
    /// How a person who says something is known.
    Known {
        /// Not at all: no name was given, and the door is open to anyone.
        Open = "open", "open door";
        /// By the name that was given, which nobody checked.
        Named = "named", "by name";
    }
}
