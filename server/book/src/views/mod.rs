//! What people are shown of the record and of what follows from it.

pub mod answers;
pub mod history;
pub mod search;
pub mod sheet;
pub mod spoken;
pub mod value;
