//! Marks, stack and small parts from the cells of an import: items between semicolons, what is said of each between colons.

use super::{Check, boxed};
use crate::convert::words::{self, Word};
use clampbook_api::v1 as wire;
use clampbook_book::fact::Assembled;
use clampbook_book::words::{MarkKind, Piece, Presence, SmallPart};

/// The three cells of a line, in the order of the columns.
pub(in crate::convert) const COLUMNS: [&str; 3] = ["marks", "stack", "small_parts"];

impl Check {
    /// How a fastener was assembled, from one of the cells; `column` says which.
    pub(in crate::convert) fn assembled_cell(&mut self, column: &str, cell: &str) -> Assembled {
        let items = cell
            .split(';')
            .map(str::trim)
            .filter(|item| !item.is_empty());
        let mut assembled = Assembled::default();
        match column {
            "marks" => {
                let marks: Vec<_> = items.map(|item| self.mark(column, item)).collect();
                assembled.marks = self.marks(column, &marks);
            }
            "stack" => {
                let stack: Vec<_> = items.map(|item| self.piece(column, item)).collect();
                assembled.stack = self.stacked(column, &stack);
            }
            _ => {
                let parts: Vec<_> = items.map(|item| self.part(column, item)).collect();
                assembled.parts = self.small_parts(column, &parts);
            }
        }
        assembled
    }

    fn mark(&mut self, column: &str, item: &str) -> wire::Mark {
        let [kind, text] = fields(item);
        wire::Mark {
            kind: self.known(column, kind, MarkKind::ALL, MarkKind::id),
            text: text.into(),
        }
    }

    fn piece(&mut self, column: &str, item: &str) -> wire::StackedPiece {
        let [kind, count, thickness, text] = fields(item);
        wire::StackedPiece {
            kind: self.known(column, kind, Piece::ALL, Piece::id),
            // What is no number is refused as the number that is not allowed.
            count: match count {
                "" => 1,
                count => count.parse().unwrap_or_default(),
            },
            thickness: thickness.into(),
            thickness_mm: None,
            text: text.into(),
        }
    }

    fn part(&mut self, column: &str, item: &str) -> wire::SmallPart {
        let [kind, state, text] = fields(item);
        wire::SmallPart {
            kind: self.known(column, kind, SmallPart::ALL, SmallPart::id),
            state: self.known(column, state, Presence::ALL, Presence::id),
            text: text.into(),
        }
    }

    /// Number of a word on the wire; 0, which is refused, when it is not known.
    fn known<W: Word>(
        &mut self,
        column: &str,
        said: &str,
        all: &[W],
        id: fn(W) -> &'static str,
    ) -> i32 {
        words::spelled(said, all, id)
            .map_err(|why| self.wrong(column, why))
            .map(W::number)
            .unwrap_or_default()
    }
}

/// The parts of an item; those left out are empty, and the last may hold colons of its own.
fn fields<const N: usize>(item: &str) -> [&str; N] {
    let mut parts = item.splitn(N, ':').map(str::trim);
    std::array::from_fn(|_| parts.next().unwrap_or_default())
}

/// Cells put together.
pub(in crate::convert) fn together(
    cells: impl IntoIterator<Item = Assembled>,
) -> Option<Box<Assembled>> {
    let mut whole = Assembled::default();
    for cell in cells {
        whole.marks.extend(cell.marks);
        whole.stack.extend(cell.stack);
        whole.parts.extend(cell.parts);
    }
    boxed(whole)
}
