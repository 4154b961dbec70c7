//! What is stacked under one fastener: it adds to its grip, and explains most odd lengths.

use super::scene::{Case, Scene};
use crate::reason::shown;
use crate::record::fact::{Stacked, Thing};
use crate::record::words::Piece;

/// Whether what is stacked under a fastener makes the difference of its length, and that in words with both measures.
pub(super) fn explains(
    scene: &Scene<'_>,
    case: &Case<'_>,
    neighbours: &[u32],
    by_mm: f64,
    within_mm: f64,
) -> (String, bool) {
    let more = more_mm(scene, case, neighbours);
    match (more, spoken(case)) {
        (Some(more), pieces) => {
            let pieces = pieces.unwrap_or_else(|| "nothing".into());
            let stacked = (by_mm - more).abs() <= within_mm;
            let verdict = if stacked {
                "which makes the difference"
            } else {
                "which does not make the difference"
            };
            let side = if more < 0.0 { "less" } else { "more" };
            let text = format!(
                "; {} {side} is stacked under it than under them ({pieces}), {verdict}",
                shown::length(more.abs(), scene.family())
            );
            (text, stacked)
        }
        (None, Some(pieces)) => (format!("; under it: {pieces}, not all measured"), false),
        (None, None) => (String::new(), false),
    }
}

/// What is stacked under a fastener, in order; nothing when nobody said.
pub(super) fn spoken(case: &Case<'_>) -> Option<String> {
    let stack = stack(case)?;
    let pieces: Vec<String> = stack.iter().map(Stacked::spoken).collect();
    Some(pieces.join(", "))
}

/// How much more is stacked under a fastener, in millimetres; nothing when that was not measured.
///
/// Where nothing was said of any neighbour, what every fastener has as a rule is left out.
fn more_mm(scene: &Scene<'_>, case: &Case<'_>, neighbours: &[u32]) -> Option<f64> {
    let others: Vec<f64> = scene
        .all_cases()
        .filter(|other| neighbours.contains(&other.position.number.into()))
        .filter_map(|other| height_mm(stack(&other)?, |_| true))
        .collect();
    if others.is_empty() {
        return height_mm(stack(case)?, |piece| !piece.is_usual());
    }
    let own = stack(case).map_or(Some(0.0), |stack| height_mm(stack, |_| true))?;
    Some(own - others.iter().sum::<f64>() / others.len() as f64)
}

/// Height of the pieces that count, in millimetres; nothing when there is none or one was not measured.
fn height_mm(stack: &[Stacked], counts: impl Fn(Piece) -> bool) -> Option<f64> {
    let mut height = None;
    for piece in stack.iter().filter(|one| counts(one.piece)) {
        let one = piece.thickness.as_ref()?.mm * f64::from(piece.count);
        height = Some(height.unwrap_or(0.0) + one);
    }
    height
}

fn stack<'a>(case: &Case<'a>) -> Option<&'a [Stacked]> {
    let stack = &case.removed.assembled.as_ref()?.stack;
    (!stack.is_empty()).then_some(stack)
}

/// What is stacked under a fastener at its hole, in millimetres, as far as it was measured; washers, which every fastener has,
/// belong to the joint. Until something is in, what came out is taken to go back; then only what went in counts.
pub(super) fn measured_mm(case: &Case<'_>) -> f64 {
    let came_out = stack(case).unwrap_or_default();
    let counts = |piece: Piece| !piece.is_usual();
    let thickness = |of: Piece| {
        let same = came_out.iter().find(|one| one.piece == of);
        same.and_then(|one| one.thickness.as_ref())
            .map_or(0.0, |thickness| thickness.mm)
    };
    let whole = || -> f64 {
        let pieces = came_out.iter().filter(|one| counts(one.piece));
        pieces
            .filter_map(|one| Some(one.thickness.as_ref()?.mm * f64::from(one.count)))
            .sum()
    };
    if case.position.refit().is_none() {
        return whole();
    }
    let with = || {
        case.position
            .refits()
            .filter_map(|refit| refit.with.as_deref())
    };
    if with().any(|with| with.as_it_came_out) {
        return whole();
    }
    let pieces = with().flat_map(|with| &with.pieces);
    pieces
        .filter_map(|fitted| match fitted.what {
            Thing::Piece(piece) if counts(piece) => {
                Some(thickness(piece) * f64::from(fitted.count))
            }
            _ => None,
        })
        .sum()
}
