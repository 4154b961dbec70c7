//! The order in which the positions of a joint are tightened.
//!
//! Positions are numbered from 1: clockwise round a ring, from one end of a line, row by row in a
//! grid. Published orders differ from source to source; what they share is that each step goes as
//! far from the last as it can.

use crate::units::OutOfRange;

/// How the positions of a joint lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Layout {
    /// One position.
    Single,
    /// Evenly round a ring.
    Ring {
        /// How many.
        positions: u16,
    },
    /// In one line.
    Line {
        /// How many.
        positions: u16,
    },
    /// In rows and columns.
    Grid {
        /// How many rows.
        rows: u16,
        /// How many positions in a row.
        columns: u16,
    },
}

/// Most positions one joint may have.
pub const MOST_POSITIONS: u16 = 500;

impl Layout {
    /// How many positions there are.
    ///
    /// # Errors
    /// None or more than [`MOST_POSITIONS`].
    pub fn positions(self) -> Result<u16, OutOfRange> {
        let count = match self {
            Self::Single => 1,
            Self::Ring { positions } | Self::Line { positions } => u32::from(positions),
            Self::Grid { rows, columns } => u32::from(rows) * u32::from(columns),
        };
        match u16::try_from(count) {
            Ok(n) if (1..=MOST_POSITIONS).contains(&n) => Ok(n),
            _ => Err(OutOfRange {
                quantity: "number of positions",
                given: f64::from(count),
                low: 1.0,
                high: f64::from(MOST_POSITIONS),
                unit: "",
            }),
        }
    }
}

/// Positions in tightening order.
///
/// A ring goes in a star (each position followed by its opposite; an odd number steps by half
/// round), everything else from the centre outwards.
///
/// # Errors
/// None or more than [`MOST_POSITIONS`] positions.
/// # Sources
/// Star orders as commonly published for 4, 5, 6, 8, 10 and 12 positions (ASME PCC-1 practice), for 16, 20 and 24 from memory;
/// centre outwards: US Army TM 5-3805-248-23-1.
/// # Example
/// ```
/// use clampbook_engine::sequence::{Layout, tightening_order};
/// let order = tightening_order(Layout::Ring { positions: 8 })?;
/// assert_eq!(order, [1, 5, 3, 7, 2, 6, 4, 8]);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
pub fn tightening_order(layout: Layout) -> Result<Vec<u16>, OutOfRange> {
    let positions = layout.positions()?;
    Ok(match layout {
        Layout::Single => vec![1],
        Layout::Ring { .. } => star(positions),
        Layout::Line { .. } => centre_outwards(1, positions),
        Layout::Grid { rows, columns } => centre_outwards(rows, columns),
    })
}

/// Positions in loosening order: the tightening order backwards, so from the outside to the centre.
///
/// # Errors
/// None or more than [`MOST_POSITIONS`] positions.
/// # Sources
/// Common practice: what was tightened last is loosened first, so that the part does not bend round what is left.
pub fn loosening_order(layout: Layout) -> Result<Vec<u16>, OutOfRange> {
    let mut order = tightening_order(layout)?;
    order.reverse();
    Ok(order)
}

/// Opposite pairs whose first members themselves go in a star; odd numbers step by half round.
fn star(n: u16) -> Vec<u16> {
    if n.is_multiple_of(2) {
        let half = n / 2;
        star(half).into_iter().flat_map(|p| [p, p + half]).collect()
    } else {
        // The step shares no factor with n, so every position comes once.
        let step = (n / 2).max(1);
        (0..n)
            .map(|i| (u32::from(i) * u32::from(step) % u32::from(n)) as u16 + 1)
            .collect()
    }
}

/// By distance from the centre, each position followed by the one opposite.
fn centre_outwards(rows: u16, columns: u16) -> Vec<u16> {
    let last = rows * columns;
    // Twice the distance from the centre keeps everything whole.
    let distance = |position: u16| {
        let (row, column) = ((position - 1) / columns, (position - 1) % columns);
        let from_centre = |at: u16, count: u16| (2 * i32::from(at) + 1 - i32::from(count)).pow(2);
        from_centre(row, rows) + from_centre(column, columns)
    };
    let mut pairs: Vec<u16> = (1..=last.div_ceil(2)).collect();
    pairs.sort_by_key(|&p| distance(p));
    let mut order = Vec::with_capacity(usize::from(last));
    for position in pairs {
        order.push(position);
        let opposite = last + 1 - position;
        if opposite != position {
            order.push(opposite);
        }
    }
    order
}
