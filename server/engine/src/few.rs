//! A short list with room inside itself, so that an answer needs no heap.

use std::fmt;

/// Up to `N` items, in the order they were added.
#[derive(Clone, Copy, PartialEq)]
pub struct Few<T, const N: usize> {
    items: [Option<T>; N],
    len: usize,
}

impl<T: Copy, const N: usize> Few<T, N> {
    pub(crate) const fn new() -> Self {
        Self {
            items: [None; N],
            len: 0,
        }
    }

    /// Adds an item. `N` is chosen so that everything that can be added fits.
    pub(crate) fn push(&mut self, item: T) {
        self.items[self.len] = Some(item);
        self.len += 1;
    }

    /// The items in order.
    pub fn iter(&self) -> impl Iterator<Item = T> + '_ {
        self.items.iter().flatten().copied()
    }
}

impl<T: Copy + PartialEq, const N: usize> Few<T, N> {
    /// Whether an item is in the list.
    #[must_use]
    pub fn contains(&self, item: &T) -> bool {
        self.items.iter().flatten().any(|i| i == item)
    }
}

impl<T: Copy + fmt::Debug, const N: usize> fmt::Debug for Few<T, N> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_list().entries(self.iter()).finish()
    }
}
