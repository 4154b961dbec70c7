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
    pub fn iter(&self) -> Items<'_, T> {
        Items(self.items[..self.len].iter())
    }
}

/// What is in a short list; it knows how many are to come.
#[derive(Clone, Debug)]
pub struct Items<'a, T>(std::slice::Iter<'a, Option<T>>);

impl<T: Copy> Iterator for Items<'_, T> {
    type Item = T;

    fn next(&mut self) -> Option<T> {
        self.0.next().copied().flatten()
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        self.0.size_hint()
    }
}

impl<T: Copy> ExactSizeIterator for Items<'_, T> {}

impl<T: Copy + PartialEq, const N: usize> Few<T, N> {
    /// Whether an item is in the list.
    #[must_use]
    pub fn contains(&self, item: &T) -> bool {
        self.iter().any(|i| i == *item)
    }
}

impl<T: Copy + fmt::Debug, const N: usize> fmt::Debug for Few<T, N> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_list().entries(self.iter()).finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_knows_how_much_of_it_is_to_come() {
        let mut list = Few::<_, 4>::new();
        assert_eq!(list.iter().len(), 0);
        for item in ["one", "two", "three"] {
            list.push(item);
        }
        let mut items = list.iter();
        assert_eq!(items.len(), 3);
        assert_eq!(items.next(), Some("one"));
        assert_eq!(items.len(), 2);
        assert_eq!(list.iter().collect::<Vec<_>>(), ["one", "two", "three"]);
        assert!(list.contains(&"two") && !list.contains(&"four"));
    }
}
