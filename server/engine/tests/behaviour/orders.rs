//! Tightening orders.

use clampbook_engine::sequence::{Layout, MOST_POSITIONS, tightening_order};

#[test]
fn every_order_names_each_position_once() {
    let rings = (1..=MOST_POSITIONS).map(|positions| Layout::Ring { positions });
    let lines = (1..=60).map(|positions| Layout::Line { positions });
    let grids = (1..=9).flat_map(|rows| (1..=9).map(move |columns| Layout::Grid { rows, columns }));
    for layout in rings.chain(lines).chain(grids).chain([Layout::Single]) {
        let mut order = tightening_order(layout).unwrap();
        order.sort_unstable();
        let all: Vec<u16> = (1..=layout.positions().unwrap()).collect();
        assert_eq!(order, all, "{layout:?}");
    }
}

#[test]
fn each_pair_of_an_even_ring_is_opposite() {
    for positions in (2..=200).step_by(2) {
        let order = tightening_order(Layout::Ring { positions }).unwrap();
        for pair in order.chunks_exact(2) {
            assert_eq!(pair[0].abs_diff(pair[1]), positions / 2);
        }
    }
}

#[test]
fn an_odd_ring_never_goes_on_to_the_neighbour() {
    for positions in (5..=199).step_by(2) {
        let order = tightening_order(Layout::Ring { positions }).unwrap();
        for step in order.windows(2) {
            let apart = step[0].abs_diff(step[1]);
            assert!(apart > 1 && apart < positions - 1, "{positions}: {step:?}");
        }
    }
}

/// US Army TM 5-3805-248-23-1: straight patterns from the centre outwards.
#[test]
fn lines_and_grids_go_from_the_centre_outwards() {
    let line = |positions| tightening_order(Layout::Line { positions }).unwrap();
    assert_eq!(line(1), [1]);
    assert_eq!(line(4), [2, 3, 1, 4]);
    assert_eq!(line(5), [3, 2, 4, 1, 5]);
    let head = tightening_order(Layout::Grid {
        rows: 2,
        columns: 5,
    })
    .unwrap();
    assert_eq!(head, [3, 8, 2, 9, 4, 7, 1, 10, 5, 6]);
}

#[test]
fn a_grid_goes_by_distance_with_opposites_together() {
    let grid = |rows, columns| tightening_order(Layout::Grid { rows, columns }).unwrap();
    assert_eq!(grid(3, 3), [5, 2, 8, 4, 6, 1, 9, 3, 7]);
    let wide = [8, 3, 13, 7, 9, 2, 14, 4, 12, 6, 10, 1, 15, 5, 11];
    assert_eq!(grid(3, 5), wide);
    assert_eq!(grid(1, 6), [3, 4, 2, 5, 1, 6]);
    assert_eq!(grid(6, 1), [3, 4, 2, 5, 1, 6]);
}

#[test]
fn none_and_absurdly_many_positions_are_refused() {
    for layout in [
        Layout::Ring { positions: 0 },
        Layout::Line {
            positions: MOST_POSITIONS + 1,
        },
        Layout::Grid {
            rows: 0,
            columns: 3,
        },
        Layout::Grid {
            rows: u16::MAX,
            columns: u16::MAX,
        },
    ] {
        assert!(tightening_order(layout).is_err(), "{layout:?}");
    }
}
