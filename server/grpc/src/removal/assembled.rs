//! How a fastener was assembled: marks before parting, the stack, the small parts.

use crate::Validator;
use crate::mark::mark;
use crate::words::Word;
use clampbook_api::v1 as wire;
use clampbook_app::assembled::said;
use clampbook_book::fact::{Assembled, PartSeen, Stacked};

impl Validator {
    /// How a fastener was assembled; nothing when nobody said.
    pub(super) fn assembled(&mut self, removal: &wire::Removal) -> Option<Box<Assembled>> {
        said(Assembled {
            marks: self.marks("removal.marks", &removal.marks),
            stack: self.stack_pieces("removal.stack", &removal.stack),
            parts: self.small_parts("removal.small_parts", &removal.small_parts),
        })
    }

    fn stack_pieces(&mut self, field: &str, stack: &[wire::StackedPiece]) -> Vec<Stacked> {
        self.each(field, stack, |check, item, piece| {
            let kind = check.required_word(&format!("{item}.kind"), piece.kind);
            check.stacked(item, kind, piece.count, &piece.thickness, &piece.text)
        })
    }

    fn small_parts(&mut self, field: &str, parts: &[wire::SmallPart]) -> Vec<PartSeen> {
        self.each(field, parts, |check, item, part| {
            let kind = check.required_word(&format!("{item}.kind"), part.kind);
            let state = check.required_word(&format!("{item}.state"), part.state);
            check.part_seen(item, kind, state, &part.text)
        })
    }
}

/// How a fastener was assembled, into the removal on the wire.
pub(super) fn tell(removal: wire::Removal, assembled: Option<&Assembled>) -> wire::Removal {
    let Some(assembled) = assembled else {
        return removal;
    };
    let piece = |piece: &Stacked| wire::StackedPiece {
        kind: piece.piece.number(),
        count: piece.count.into(),
        thickness: piece
            .thickness
            .as_ref()
            .map(|thickness| thickness.said.clone())
            .unwrap_or_default(),
        thickness_mm: piece.thickness.as_ref().map(|thickness| thickness.mm),
        text: piece.said.clone(),
    };
    let part = |part: &PartSeen| wire::SmallPart {
        kind: part.part.number(),
        state: part.found.number(),
        text: part.said.clone(),
    };
    wire::Removal {
        marks: assembled.marks.iter().map(mark).collect(),
        stack: assembled.stack.iter().map(piece).collect(),
        small_parts: assembled.parts.iter().map(part).collect(),
        ..removal
    }
}
