//! Which fastener goes where, in words.

use crate::record::fact::{LengthSeen, Removed};
use crate::record::job::Position;
use crate::record::words::{Compared, DecisionKind, Outcome};
use crate::views::spoken::named;

/// The fastener that belongs into a position of a joint of this thread, which may be empty.
pub(super) fn which(thread: &str, position: &Position) -> String {
    if let Some((_, refitted)) = position.refit()
        && let Some(part) = &refitted.new_part
    {
        return named(part);
    }
    if position.is_left_out() {
        return "no fastener".into();
    }
    if let Some((_, decided)) = position.decision()
        && decided.is_replacement()
    {
        return decided
            .replacement
            .as_ref()
            .map_or_else(|| found_or(thread, None), named);
    }
    match position.removal() {
        Some((_, removed)) => original(thread, removed),
        None => "in place, not disturbed".into(),
    }
}

/// Whether the original goes back.
pub(super) fn reuse(position: &Position) -> String {
    if let Some((_, decided)) = position.decision().filter(|_| position.is_left_out()) {
        return format!("left out by {}: {}", decided.left_out_by, decided.reason);
    }
    let word = kind(position);
    match position.removal() {
        Some((_, removed)) if ![NEW, MADE].contains(&word) && !removed.kept_in.is_empty() => {
            format!("{word}, from {}", removed.kept_in)
        }
        _ => word.to_owned(),
    }
}

const NEW: &str = "new";
const MADE: &str = "new, made to fit";

fn kind(position: &Position) -> &'static str {
    let kind = position.decision().map(|(_, decided)| decided.kind);
    match (kind, position.removal()) {
        (Some(DecisionKind::Replace), _) => NEW,
        (Some(DecisionKind::CleanAndReuse), _) => "original, cleaned",
        (Some(DecisionKind::Reuse), _) => "original",
        (Some(DecisionKind::Hold), _) => "on hold",
        (Some(DecisionKind::Chase), _) => "original, thread chased",
        (Some(DecisionKind::PlateAndBake), _) => "original, plated and baked",
        (Some(DecisionKind::Make), _) => MADE,
        (Some(DecisionKind::LeaveOut), _) => "decided to be left out",
        (None, Some((_, removed))) if removed.outcome == Outcome::MissingBefore => NEW,
        (None, Some(_)) => "not decided",
        (None, None) => "",
    }
}

fn original(thread: &str, removed: &Removed) -> String {
    let mut words = found_or(thread, Some(removed));
    match &removed.length {
        Some(LengthSeen::Measured(length)) => {
            words.push_str(" x ");
            words.push_str(&length.said);
        }
        Some(LengthSeen::Compared(Compared::Longer)) => words.push_str(", the long one"),
        Some(LengthSeen::Compared(Compared::Shorter)) => words.push_str(", the short one"),
        Some(LengthSeen::Compared(Compared::Same)) | None => {}
    }
    if !removed.grade.is_empty() {
        words.push_str(", ");
        words.push_str(&removed.grade);
    }
    words
}

fn found_or(thread: &str, removed: Option<&Removed>) -> String {
    match (removed.map_or("", |removed| &removed.thread), thread) {
        ("", "") => "thread not recorded".into(),
        ("", thread) | (thread, _) => thread.to_owned(),
    }
}
