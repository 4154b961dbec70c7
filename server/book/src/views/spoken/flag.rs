//! What a flag says behind its place: the cause, what clears it, what the rule proposes.

use crate::reason::rules::{self, Flag};

/// What a flag says, a line each for the cause, what clears it, and what is proposed, if anything is.
#[must_use]
pub fn flag(flag: &Flag) -> String {
    let mut text = format!("{}\nClears: {}", flag.cause, flag.clears);
    if let Some((what, hold_reason)) = rules::proposal(flag) {
        text.push_str(&format!("\nProposed: {}", what.spoken()));
        if let Some(hold_reason) = hold_reason {
            text.push_str(&format!(", waits for {}", hold_reason.spoken()));
        }
    }
    text
}
