//! People of the shop.

use super::Spoken;
use super::told::Told;
use crate::record::fact::{PersonStated, PersonWithdrawn};
use crate::record::words::PersonRole;

impl Spoken for PersonStated {
    fn text(&self) -> String {
        let roles: Vec<&str> = self.roles.iter().copied().map(PersonRole::spoken).collect();
        Told::of(format!("Person {}", self.person))
            .say(&self.name)
            .say(roles.join(", "))
            .text()
    }
}

impl Spoken for PersonWithdrawn {
    fn text(&self) -> String {
        Told::of(format!("Person {} WITHDRAWN", self.person))
            .say(&self.reason)
            .text()
    }
}
