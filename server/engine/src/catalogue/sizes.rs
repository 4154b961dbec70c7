//! Threads by diameter, so that a designation is held against the few threads of its size and not against all.

use crate::{designation::Size, thread::Thread};

/// Places of threads in their list, sorted by diameter in mm and then by place.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Sizes(Vec<(f64, usize)>);

impl Sizes {
    pub(super) fn of(threads: &[Thread]) -> Self {
        let mut places: Vec<_> = threads
            .iter()
            .enumerate()
            .map(|(place, thread)| (thread.diameter().get(), place))
            .collect();
        places.sort_by(|(a, _), (b, _)| a.total_cmp(b));
        Self(places)
    }

    /// Threads that may be of this size, and all that are: those of its diameters, or all when it is no measure.
    pub(super) fn threads<'t>(
        &self,
        size: Size,
        threads: &'t [Thread],
    ) -> impl Iterator<Item = &'t Thread> {
        let [first, second] = size
            .diameters()
            .map(|d| d.map_or(&[][..], |d| self.same(d)));
        let unmeasured: &[Thread] = match size {
            Size::Ba(_) => threads,
            _ => &[],
        };
        let measured = first
            .iter()
            .chain(second)
            .map(|(_, place)| &threads[*place]);
        measured.chain(unmeasured)
    }

    fn same(&self, diameter: f64) -> &[(f64, usize)] {
        let from = self.0.partition_point(|(d, _)| *d < diameter);
        let same = self.0[from..].iter().take_while(|(d, _)| *d == diameter);
        &self.0[from..from + same.count()]
    }
}
