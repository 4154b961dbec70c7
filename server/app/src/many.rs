//! Asking many questions in one breath.

use super::Error;
use super::error::unless_wrong;
use clampbook_book::refusal::Violation;
use clampbook_engine::{Answer, Ask, Catalogue};

/// Most questions of one chunk.
pub const CHUNK: usize = 256;

/// Answers one question of a chunk, which has one catalogue. `found` is what the adapter found wrong already.
///
/// # Errors
/// All faults of the question as violations, or the refused purpose.
pub fn one_of_many<'c>(
    catalogue: &'c Catalogue,
    ask: &Ask<'_>,
    found: Vec<Violation>,
) -> Result<Answer<'c>, Error> {
    let question = unless_wrong(catalogue.resolve(ask), "", found)?;
    Ok(clampbook_engine::compute(&question))
}
