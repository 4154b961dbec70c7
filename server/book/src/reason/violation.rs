//! What is wrong with a field of a request.

/// One field that is not as it must be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Violation {
    /// Path of the field in the request, in the contract's spelling.
    pub field: String,
    /// What was wrong and what is allowed, one sentence.
    pub wrong: String,
}

impl Violation {
    /// Says what is wrong with a field.
    pub fn new(field: impl Into<String>, wrong: impl Into<String>) -> Self {
        Self {
            field: field.into(),
            wrong: wrong.into(),
        }
    }

    /// The same of a line of a table: the field `steps[1].torque` is item 2 of the column `steps`.
    #[must_use]
    pub fn in_table(&self, line: u64) -> Self {
        let of_column = |field: &str| field.find(['[', '.']).unwrap_or(field.len());
        let (column, inner) = self.field.split_at(of_column(&self.field));
        let index = inner
            .strip_prefix('[')
            .and_then(|inner| inner.split(']').next())
            .and_then(|index| index.parse::<usize>().ok());
        let item = index.map_or_else(String::new, |index| format!("item {}: ", index + 1));
        Self::new(
            "csv",
            format!("line {line}, column {column}: {item}{}", self.wrong),
        )
    }

    /// The same of a field under another path: `under` is left out at its beginning.
    #[must_use]
    pub fn without(&self, under: &str) -> Self {
        let field = self.field.strip_prefix(under).unwrap_or(&self.field);
        Self::new(field, &self.wrong)
    }
}
