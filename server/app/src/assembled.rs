//! How a fastener was assembled, as somebody says it: marks before parting, the stack, the small parts.

use super::Validator;
use clampbook_book::bounds;
use clampbook_book::fact::{Assembled, Mark, PartSeen, Stacked};
use clampbook_book::words::{MarkKind, Piece, SmallPart, SmallPartCondition};

impl Validator {
    /// Takes a mark. What is wrong with its kind is noted already.
    pub fn mark(&mut self, item: &str, kind: Option<MarkKind>, said: &str) -> Option<Mark> {
        let field = format!("{item}.text");
        let said = match kind {
            Some(MarkKind::LeftHand) | None => self.text(&field, said, bounds::SHORT),
            Some(_) => self.required_text(&field, said, bounds::SHORT),
        };
        match kind {
            Some(MarkKind::ExposedThread) if !said.is_empty() => {
                self.length(&field, &said);
            }
            Some(MarkKind::TieRodTurns) if !said.is_empty() => self.turns(&field, &said),
            _ => {}
        }
        Some(Mark { what: kind?, said })
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

    /// Takes a piece of the stack. What is wrong with its kind is noted already.
    pub fn stacked(
        &mut self,
        item: &str,
        kind: Option<Piece>,
        count: i32,
        thickness: &str,
        said: &str,
    ) -> Option<Stacked> {
        let count = self.alike(&format!("{item}.count"), count);
        let thickness = match thickness.trim() {
            "" => None,
            said => self.length(&format!("{item}.thickness"), said),
        };
        let said = self.text(&format!("{item}.text"), said, bounds::SHORT);
        Some(Stacked {
            piece: kind?,
            count: count?,
            thickness,
            said,
        })
    }

    /// Takes a small part. What is wrong with its kind and state is noted already.
    pub fn part_seen(
        &mut self,
        item: &str,
        kind: Option<SmallPart>,
        state: Option<SmallPartCondition>,
        said: &str,
    ) -> Option<PartSeen> {
        let said = self.text(&format!("{item}.text"), said, bounds::SHORT);
        Some(PartSeen {
            part: kind?,
            found: state?,
            said,
        })
    }
}

/// How a fastener was assembled; nothing when nobody said.
#[must_use]
pub fn said(assembled: Assembled) -> Option<Box<Assembled>> {
    (assembled != Assembled::default()).then(|| Box::new(assembled))
}
