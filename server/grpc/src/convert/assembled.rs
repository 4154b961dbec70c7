//! `assembled.proto`: marks before parting, the stack, the small parts; from messages and from the cells of an import.

mod cells;

pub(super) use cells::{COLUMNS, together};

use super::Check;
use super::words::Word;
use clampbook_api::v1 as wire;
use clampbook_book::bounds;
use clampbook_book::fact::{Assembled, Mark, PartSeen, Stacked};
use clampbook_book::words::MarkKind;

impl Check {
    /// How a fastener was assembled; nothing when nobody said.
    pub(super) fn assembled(&mut self, removal: &wire::Removal) -> Option<Box<Assembled>> {
        boxed(Assembled {
            marks: self.marks("removal.marks", &removal.marks),
            stack: self.stacked("removal.stack", &removal.stack),
            parts: self.small_parts("removal.small_parts", &removal.small_parts),
        })
    }

    pub(super) fn marks(&mut self, field: &str, marks: &[wire::Mark]) -> Vec<Mark> {
        self.each(field, marks, |check, item, mark| {
            let what = check.required_word(&format!("{item}.kind"), mark.kind);
            let field = format!("{item}.text");
            let said = match what {
                Some(MarkKind::LeftHand) | None => check.text(&field, &mark.text, bounds::SHORT),
                Some(_) => check.required_text(&field, &mark.text, bounds::SHORT),
            };
            match what {
                Some(MarkKind::ExposedThread) if !said.is_empty() => {
                    check.length(&field, &said);
                }
                Some(MarkKind::TieRodTurns) if !said.is_empty() => check.turns(&field, &said),
                _ => {}
            }
            Some(Mark { what: what?, said })
        })
    }

    fn turns(&mut self, field: &str, said: &str) {
        let turns: Option<f64> = said.parse().ok();
        if !turns.is_some_and(|turns| turns > 0.0 && turns <= bounds::TURNS) {
            self.wrong(
                field,
                format!(
                    "{said}: allowed is a number of turns above 0 and up to {}, for instance 14.5",
                    bounds::TURNS
                ),
            );
        }
    }

    fn stacked(&mut self, field: &str, stack: &[wire::StackedPiece]) -> Vec<Stacked> {
        self.each(field, stack, |check, item, piece| {
            let kind = check.required_word(&format!("{item}.kind"), piece.kind);
            let count = check.alike(&format!("{item}.count"), piece.count);
            let thickness = match piece.thickness.trim() {
                "" => None,
                said => check.length(&format!("{item}.thickness"), said),
            };
            let said = check.text(&format!("{item}.text"), &piece.text, bounds::SHORT);
            Some(Stacked {
                piece: kind?,
                count: count?,
                thickness,
                said,
            })
        })
    }

    fn small_parts(&mut self, field: &str, parts: &[wire::SmallPart]) -> Vec<PartSeen> {
        self.each(field, parts, |check, item, part| {
            let kind = check.required_word(&format!("{item}.kind"), part.kind);
            let found = check.required_word(&format!("{item}.state"), part.state);
            let said = check.text(&format!("{item}.text"), &part.text, bounds::SHORT);
            Some(PartSeen {
                part: kind?,
                found: found?,
                said,
            })
        })
    }

    /// Takes how many pieces are alike.
    pub(super) fn alike(&mut self, field: &str, said: i32) -> Option<u16> {
        let count = u16::try_from(said)
            .ok()
            .filter(|count| (1..=bounds::ALIKE).contains(count));
        if count.is_none() {
            let why = format!("{said}: allowed are 1 to {}", bounds::ALIKE);
            self.wrong(field, why);
        }
        count
    }

    /// Takes the items of a list that is not too long.
    pub(super) fn each<M, T>(
        &mut self,
        field: &str,
        items: &[M],
        take: impl Fn(&mut Self, &str, &M) -> Option<T>,
    ) -> Vec<T> {
        if items.len() > bounds::PIECES {
            let why = format!("has {} items; allowed are {}", items.len(), bounds::PIECES);
            self.wrong(field, why);
            return Vec::new();
        }
        items
            .iter()
            .enumerate()
            .filter_map(|(i, item)| take(self, &format!("{field}[{i}]"), item))
            .collect()
    }
}

fn boxed(assembled: Assembled) -> Option<Box<Assembled>> {
    (assembled != Assembled::default()).then(|| Box::new(assembled))
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

/// A mark on the wire.
pub(super) fn mark(mark: &Mark) -> wire::Mark {
    wire::Mark {
        kind: mark.what.number(),
        text: mark.said.clone(),
    }
}
