//! How many rows of each basis there are: a row that comes, goes or changes its basis is seen.

use clampbook_data::{Basis, LOCK_NUTS, PROCEDURES};

fn count(bases: impl Iterator<Item = Basis>, wanted: Basis) -> usize {
    bases.filter(|basis| *basis == wanted).count()
}

#[test]
fn lock_nuts_are_all_read_in_their_documents() {
    assert_eq!(LOCK_NUTS.len(), 34);
    assert_eq!(count(LOCK_NUTS.iter().map(|n| n.basis), Basis::Found), 34);
}

#[test]
fn most_steps_are_common_practice_and_say_so() {
    let steps = || PROCEDURES.iter().flat_map(|p| p.steps).map(|s| s.basis);
    assert_eq!(PROCEDURES.len(), 23);
    assert_eq!(steps().count(), 102);
    assert_eq!(count(steps(), Basis::Found), 21);
    assert_eq!(count(steps(), Basis::Memory), 2);
    assert_eq!(count(steps(), Basis::CommonPractice), 79);
}
