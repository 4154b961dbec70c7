//! Marks, stack and small parts from the cells of an import: items between semicolons, what is said of each between colons.

use crate::assembled::said;
use crate::{Validator, words};
use clampbook_book::fact::{Assembled, Mark, PartSeen, Stacked};
use clampbook_book::words::{MarkKind, Piece, SmallPart, SmallPartCondition};

/// The three cells of a line, in the order of the columns.
pub(super) const COLUMNS: [&str; 3] = ["marks", "stack", "small_parts"];

impl Validator {
    /// How a fastener was assembled, from one of the cells; `column` says which.
    pub(super) fn assembled_cell(&mut self, column: &str, cell: &str) -> Assembled {
        let items = cell
            .split(';')
            .map(str::trim)
            .filter(|item| !item.is_empty());
        let items: Vec<&str> = items.collect();
        let mut assembled = Assembled::default();
        if !self.is_few(column, items.len()) {
            return assembled;
        }
        let items = items.into_iter();
        match column {
            "marks" => assembled.marks = items.filter_map(|item| self.mark_cell(item)).collect(),
            "stack" => assembled.stack = items.filter_map(|item| self.piece_cell(item)).collect(),
            _ => assembled.parts = items.filter_map(|item| self.part_cell(item)).collect(),
        }
        assembled
    }

    fn mark_cell(&mut self, item: &str) -> Option<Mark> {
        let [kind, text] = fields(item);
        let kind = self.known(kind, MarkKind::ALL, MarkKind::id);
        self.mark("marks", kind, text)
    }

    fn piece_cell(&mut self, item: &str) -> Option<Stacked> {
        let [kind, count, thickness, text] = fields(item);
        let kind = self.known(kind, Piece::ALL, Piece::id);
        // What is no number is refused as the number that is not allowed.
        let count = match count {
            "" => 1,
            count => count.parse().unwrap_or_default(),
        };
        self.stacked("stack", kind, count, thickness, text)
    }

    fn part_cell(&mut self, item: &str) -> Option<PartSeen> {
        let [kind, state, text] = fields(item);
        let kind = self.known(kind, SmallPart::ALL, SmallPart::id);
        let state = self.known(state, SmallPartCondition::ALL, SmallPartCondition::id);
        self.part_seen("small_parts", kind, state, text)
    }

    fn known<W: Copy>(&mut self, said: &str, all: &[W], id: fn(W) -> &'static str) -> Option<W> {
        words::spelled(said, all, id)
            .map_err(|why| self.wrong("kind", why))
            .ok()
    }
}

/// The parts of an item; those left out are empty, and the last may hold colons of its own.
fn fields<const N: usize>(item: &str) -> [&str; N] {
    let mut parts = item.splitn(N, ':').map(str::trim);
    std::array::from_fn(|_| parts.next().unwrap_or_default())
}

/// Cells put together.
pub(super) fn together(cells: impl IntoIterator<Item = Assembled>) -> Option<Box<Assembled>> {
    let mut whole = Assembled::default();
    for cell in cells {
        whole.marks.extend(cell.marks);
        whole.stack.extend(cell.stack);
        whole.parts.extend(cell.parts);
    }
    said(whole)
}
