//! Collects what is wrong with a request.

use crate::app::Error;
use clampbook_book::bounds;
use clampbook_book::fact::{SaidLength, SaidTorque};
use clampbook_book::refusal::Violation;
use clampbook_engine::quantity::{Length, Torque};
use unicode_normalization::UnicodeNormalization;

/// Violations found so far, and the path they are found under.
#[derive(Default)]
pub(crate) struct Check {
    violations: Vec<Violation>,
}

impl Check {
    /// Notes that a field is wrong.
    pub(crate) fn wrong(&mut self, field: impl Into<String>, why: impl Into<String>) {
        self.violations.push(Violation::new(field, why));
    }

    /// Notes several violations.
    pub(crate) fn extend(&mut self, violations: impl IntoIterator<Item = Violation>) {
        self.violations.extend(violations);
    }

    /// Notes violations of a message inside the request.
    pub(crate) fn extend_under(&mut self, path: &str, violations: Vec<Violation>) {
        self.extend(violations.into_iter().map(|violation| Violation {
            field: format!("{path}{}", violation.field),
            ..violation
        }));
    }

    /// Takes an optional text, composed (NFC) and without blanks at the ends.
    pub(crate) fn text(&mut self, field: &str, value: &str, most: usize) -> String {
        let value = tidy(value);
        self.violations.extend(bounds::text(field, &value, most));
        value
    }

    /// Takes a text that must not be empty.
    pub(crate) fn required_text(&mut self, field: &str, value: &str, most: usize) -> String {
        let value = tidy(value);
        self.violations
            .extend(bounds::required_text(field, &value, most));
        value
    }

    /// Takes a message that must be there.
    pub(crate) fn required<'m, M>(&mut self, field: &str, message: Option<&'m M>) -> Option<&'m M> {
        if message.is_none() {
            self.wrong(field, "is required");
        }
        message
    }

    /// Takes a length with its unit, as said.
    pub(crate) fn length(&mut self, field: &str, said: &str) -> Option<SaidLength> {
        let said = self.required_text(field, said, bounds::QUANTITY);
        match Length::parse(&said).map(|read| read.length.get()) {
            Ok(mm) if mm > 0.0 && mm <= bounds::LENGTH_MM => Some(SaidLength { said, mm }),
            Ok(_) => {
                self.wrong(
                    field,
                    format!(
                        "{said}: allowed are lengths above 0 and up to {} mm",
                        bounds::LENGTH_MM
                    ),
                );
                None
            }
            Err(why) => {
                if !said.is_empty() {
                    self.wrong(field, why.to_string());
                }
                None
            }
        }
    }

    /// Takes a torque with its unit, as said; empty is none.
    pub(crate) fn torque(&mut self, field: &str, said: &str) -> Option<SaidTorque> {
        let said = self.text(field, said, bounds::QUANTITY);
        if said.is_empty() {
            return None;
        }
        match Torque::parse(&said).map(|read| read.torque.get()) {
            Ok(nm) if nm > 0.0 && nm <= bounds::TORQUE_NM => Some(SaidTorque { said, nm }),
            Ok(_) => {
                self.wrong(
                    field,
                    format!(
                        "{said}: allowed are torques above 0 and up to {} N·m",
                        bounds::TORQUE_NM
                    ),
                );
                None
            }
            Err(why) => {
                self.wrong(field, why.to_string());
                None
            }
        }
    }

    /// Notes items that are said twice.
    pub(crate) fn distinct<T: PartialEq>(&mut self, field: &str, items: &[T]) {
        for (i, item) in items.iter().enumerate() {
            if items[..i].contains(item) {
                self.wrong(format!("{field}[{i}]"), "is given twice");
            }
        }
    }

    /// How many violations were found so far.
    pub(crate) fn count(&self) -> usize {
        self.violations.len()
    }

    /// The violations found.
    pub(crate) fn into_violations(self) -> Vec<Violation> {
        self.violations
    }

    /// The value, if nothing was wrong.
    ///
    /// # Errors
    /// All violations found.
    pub(crate) fn finish<T>(self, value: Option<T>) -> Result<T, Error> {
        match value {
            Some(value) if self.violations.is_empty() => Ok(value),
            _ => Err(Error::invalid(self.violations)),
        }
    }
}

fn tidy(value: &str) -> String {
    value.trim().nfc().collect()
}
