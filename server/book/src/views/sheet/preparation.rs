//! How a position is prepared before its fastener goes in.

use crate::record::fact::{Decided, JointAdded};
use crate::record::job::Position;
use crate::record::words::DecisionKind;

/// Where hard steel went through a plating bath; ASTM F1941 and SAE J1648.
const HYDROGEN: &str =
    "hard steel that was plated and not baked may break days after tightening (hydrogen)";

/// What the joint asks for, then what was done with this hole and its fastener; nothing where nothing goes in.
pub(super) fn of(fact: &JointAdded, position: &Position) -> String {
    if position.is_left_out() {
        return String::new();
    }
    let lubrication = fact.target.as_ref().map_or("", |t| t.lubrication.as_str());
    let mut said: Vec<String> = [fact.preparation.as_str(), lubrication]
        .into_iter()
        .filter(|said| !said.is_empty())
        .map(str::to_owned)
        .collect();
    if let Some((_, decided)) = position.decision() {
        said.extend(plating(decided));
        if !decided.hole_repair.is_empty() {
            said.push(format!("hole repaired: {}", decided.hole_repair));
        }
    }
    said.join("; ")
}

/// Whether the baking of a plated original is shown, and by what.
fn plating(decided: &Decided) -> Option<String> {
    if decided.kind != DecisionKind::PlateAndBake {
        return None;
    }
    let shown = match (decided.baking_shown, decided.citation.as_str()) {
        (true, citation) => format!("baking shown by {citation}"),
        (false, "") => "who plated and baked it is not cited".into(),
        (false, citation) => format!("baking not shown; cited: {citation}"),
    };
    Some(format!("plated and baked, {shown}; {HYDROGEN}"))
}
