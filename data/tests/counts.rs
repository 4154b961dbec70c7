//! How many rows of each basis there are: a row that comes, goes or changes its basis is seen.

use clampbook_data::{
    Basis, GRADES, HEX_PARTS, LOCK_NUTS, LOOK_ALIKES, PARENT_METALS, PROCEDURES, PUBLISHED_TORQUES,
    SPANNERS, System, THREADS,
};

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

#[test]
fn british_threads_are_mostly_read_and_recomputed() {
    let bases = || {
        let british = THREADS.iter().filter(|t| t.system == System::British);
        british.map(|t| t.basis)
    };
    assert_eq!(bases().count(), 80);
    assert_eq!(count(bases(), Basis::FoundAndComputed), 70);
    assert_eq!(count(bases(), Basis::Computed), 5);
    assert_eq!(count(bases(), Basis::Memory), 5);
}

#[test]
fn grades_from_memory_are_counted() {
    let bases = || GRADES.iter().flat_map(|g| g.strengths).map(|s| s.basis);
    assert_eq!(bases().count(), 67);
    assert_eq!(count(bases(), Basis::Found), 47);
    assert_eq!(count(bases(), Basis::Memory), 20);
}

#[test]
fn printed_torques_are_read_and_spanners_are_from_memory() {
    let printed = PUBLISHED_TORQUES.iter().map(|t| t.basis);
    assert_eq!(
        (PUBLISHED_TORQUES.len(), count(printed, Basis::Found)),
        (115, 115)
    );
    let spanners = SPANNERS.iter().map(|s| s.basis);
    assert_eq!((SPANNERS.len(), count(spanners, Basis::Memory)), (50, 50));
    let pairs = LOOK_ALIKES.iter().map(|l| l.basis);
    assert_eq!(
        (LOOK_ALIKES.len(), count(pairs, Basis::CommonPractice)),
        (26, 26)
    );
}

#[test]
fn hexagon_parts_and_metals_are_from_memory() {
    let hexes = HEX_PARTS.iter().map(|h| h.basis);
    assert_eq!((HEX_PARTS.len(), count(hexes, Basis::Memory)), (32, 32));
    let metals = PARENT_METALS.iter().map(|m| m.basis);
    assert_eq!((PARENT_METALS.len(), count(metals, Basis::Memory)), (9, 9));
}
