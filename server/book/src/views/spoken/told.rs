//! A text in the making: its place, then what is said, each behind a semicolon.

use crate::record::fact::SaidTorque;
use crate::record::ids::{JointId, PositionNumber};
use std::fmt::Display;

/// What is told of one place.
pub(super) struct Told {
    text: String,
    begun: bool,
}

impl Told {
    /// Begins with what it is about.
    pub(super) fn of(head: impl Into<String>) -> Self {
        Self {
            text: head.into(),
            begun: false,
        }
    }

    /// Adds what is said, unless it is empty.
    pub(super) fn say(mut self, said: impl AsRef<str>) -> Self {
        let said = said.as_ref();
        if !said.is_empty() {
            self.text.push_str(if self.begun { "; " } else { ": " });
            self.text.push_str(said);
            self.begun = true;
        }
        self
    }

    /// Adds what is said behind its name, unless it is empty.
    pub(super) fn named(self, name: &str, said: impl AsRef<str>) -> Self {
        match said.as_ref() {
            "" => self,
            said => self.say(format!("{name} {said}")),
        }
    }

    /// Adds a value behind its name, if there is one.
    pub(super) fn value(self, name: &str, value: Option<impl Display>) -> Self {
        self.named(name, value.map(|v| v.to_string()).unwrap_or_default())
    }

    /// Adds a torque as it was said behind its name, if there is one.
    pub(super) fn torque(self, name: &str, torque: Option<&SaidTorque>) -> Self {
        self.value(name, torque.map(|torque| &torque.said))
    }

    /// Adds a length behind its name, if there is one.
    pub(super) fn mm(self, name: &str, mm: Option<f64>) -> Self {
        self.value(name, mm.map(|mm| format!("{mm} mm")))
    }

    /// Adds a remark that holds.
    pub(super) fn when(self, holds: bool, remark: &str) -> Self {
        self.say(if holds { remark } else { "" })
    }

    /// All that was told.
    pub(super) fn text(self) -> String {
        self.text
    }
}

/// A position of a joint.
pub(super) fn place(joint: &JointId, position: PositionNumber) -> String {
    format!("{joint} position {position}")
}
