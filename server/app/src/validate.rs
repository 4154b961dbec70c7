//! Collects what is wrong with what somebody says.

use crate::Error;
use clampbook_book::bounds;
use clampbook_book::fact::{SaidLength, SaidTorque};
use clampbook_book::ids::PositionNumber;
use clampbook_book::refusal::Violation;
use clampbook_book::words::{HeatColour, Method};
use clampbook_engine::quantity::{Length, Torque};
use unicode_normalization::UnicodeNormalization;

/// Violations found so far, and the path they are found under.
#[derive(Debug, Default)]
pub struct Validator {
    violations: Vec<Violation>,
}

impl Validator {
    /// Notes that a field is wrong.
    pub fn wrong(&mut self, field: impl Into<String>, why: impl Into<String>) {
        self.violations.push(Violation::new(field, why));
    }

    /// Notes several violations.
    pub fn extend(&mut self, violations: impl IntoIterator<Item = Violation>) {
        self.violations.extend(violations);
    }

    /// Notes violations of a message inside the request.
    pub fn extend_under(&mut self, path: &str, violations: Vec<Violation>) {
        self.extend(violations.into_iter().map(|violation| Violation {
            field: format!("{path}{}", violation.field),
            ..violation
        }));
    }

    /// Takes an optional text, composed (NFC) and without blanks at the ends.
    pub fn text(&mut self, field: &str, value: &str, most: usize) -> String {
        let value = tidy(value);
        self.violations.extend(bounds::text(field, &value, most));
        value
    }

    /// Takes a text that must not be empty.
    pub fn required_text(&mut self, field: &str, value: &str, most: usize) -> String {
        let value = tidy(value);
        self.violations
            .extend(bounds::required_text(field, &value, most));
        value
    }

    /// Takes a message that must be there.
    pub fn required<'m, M>(&mut self, field: &str, message: Option<&'m M>) -> Option<&'m M> {
        if message.is_none() {
            self.wrong(field, "is required");
        }
        message
    }

    /// Takes a length with its unit, as said.
    pub fn length(&mut self, field: &str, said: &str) -> Option<SaidLength> {
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
    pub fn torque(&mut self, field: &str, said: &str) -> Option<SaidTorque> {
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

    /// Takes a position number; whether the joint has it is judged against the record.
    pub fn position(&mut self, field: &str, number: i32) -> Option<PositionNumber> {
        let most = bounds::POSITIONS;
        let position = PositionNumber::try_from(number)
            .ok()
            .filter(|p| (1..=most).contains(&usize::from(*p)));
        if position.is_none() {
            self.wrong(
                field,
                format!("{number} is not a position; allowed are 1 to {most}"),
            );
        }
        position
    }

    /// Heat and its colour are said together or not at all.
    pub fn heat_agrees(
        &mut self,
        field: &str,
        methods: &[Method],
        colour: Option<HeatColour>,
        unsaid: bool,
    ) {
        let heated = methods.contains(&Method::Heat);
        if heated && unsaid {
            self.wrong(field, "is required when heat was used: warm, blue or red");
        } else if !heated && colour.is_some() {
            self.wrong(field, "is given, but the methods do not include heat");
        }
    }

    /// Takes how many pieces are alike.
    pub fn alike(&mut self, field: &str, said: i32) -> Option<u16> {
        let count = u16::try_from(said)
            .ok()
            .filter(|count| (1..=bounds::ALIKE).contains(count));
        if count.is_none() {
            let why = format!("{said}: allowed are 1 to {}", bounds::ALIKE);
            self.wrong(field, why);
        }
        count
    }

    /// Whether a list of pieces is not too long.
    pub fn is_few(&mut self, field: &str, count: usize) -> bool {
        let few = count <= bounds::PIECES;
        if !few {
            let why = format!("has {count} items; allowed are {}", bounds::PIECES);
            self.wrong(field, why);
        }
        few
    }

    /// Notes items that are said twice.
    pub fn distinct<T: PartialEq>(&mut self, field: &str, items: &[T]) {
        for (i, item) in items.iter().enumerate() {
            if items[..i].contains(item) {
                self.wrong(format!("{field}[{i}]"), "is given twice");
            }
        }
    }

    /// How many violations were found so far.
    #[must_use]
    pub fn count(&self) -> usize {
        self.violations.len()
    }

    /// The violations found.
    #[must_use]
    pub fn into_violations(self) -> Vec<Violation> {
        self.violations
    }

    /// The value, if nothing was wrong.
    ///
    /// # Errors
    /// All violations found.
    pub fn finish<T>(self, value: Option<T>) -> Result<T, Error> {
        match value {
            Some(value) if self.violations.is_empty() => Ok(value),
            _ => Err(Error::invalid(self.violations)),
        }
    }
}

fn tidy(value: &str) -> String {
    value.trim().nfc().collect()
}
