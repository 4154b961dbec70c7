//! How many rows of each basis there are: a row that comes, goes or changes its basis is seen.

use clampbook_data::{
    Basis, GRADES, HEX_PARTS, LOCK_NUTS, LOOK_ALIKES, LUBRICATIONS, NUTS, PARENT_METALS,
    PROCEDURES, PUBLISHED_TARGETS, PUBLISHED_TORQUES, SPANNERS, System, THREADS,
};

/// Found, computed, found and computed, from memory, common practice.
type Counts = [usize; 5];

fn count(bases: impl IntoIterator<Item = Basis>) -> Counts {
    let mut counts = [0; 5];
    for basis in bases {
        counts[match basis {
            Basis::Found => 0,
            Basis::Computed => 1,
            Basis::FoundAndComputed => 2,
            Basis::Memory => 3,
            Basis::CommonPractice => 4,
            Basis::Shop => panic!("a published row cannot be the shop's"),
        }] += 1;
    }
    counts
}

fn threads(system: System) -> Counts {
    count(
        THREADS
            .iter()
            .filter(|t| t.system == system)
            .map(|t| t.origin.basis),
    )
}

/// The table as `SOURCES.md` has it, made from the rows.
fn counted() -> [(&'static str, Counts); 14] {
    [
        ("threads, unified", threads(System::Inch)),
        ("threads, metric", threads(System::Metric)),
        ("threads, British", threads(System::British)),
        (
            "grades by size",
            count(
                GRADES
                    .iter()
                    .flat_map(|g| g.strengths)
                    .map(|s| s.origin.basis),
            ),
        ),
        (
            "nuts by size",
            count(NUTS.iter().flat_map(|n| n.proofs).map(|p| p.origin.basis)),
        ),
        (
            "lubrications",
            count(LUBRICATIONS.iter().map(|c| c.origin.basis)),
        ),
        (
            "hexagon parts",
            count(HEX_PARTS.iter().map(|h| h.origin.basis)),
        ),
        (
            "parent metals",
            count(PARENT_METALS.iter().map(|m| m.origin.basis)),
        ),
        ("lock nuts", count(LOCK_NUTS.iter().map(|n| n.origin.basis))),
        (
            "steps of procedures",
            count(
                PROCEDURES
                    .iter()
                    .flat_map(|p| p.steps)
                    .map(|s| s.origin.basis),
            ),
        ),
        (
            "look-alikes",
            count(LOOK_ALIKES.iter().map(|l| l.origin.basis)),
        ),
        ("spanners", count(SPANNERS.iter().map(|s| s.origin.basis))),
        (
            "printed torques",
            count(PUBLISHED_TORQUES.iter().map(|t| t.origin.basis)),
        ),
        (
            "printed targets",
            count(PUBLISHED_TARGETS.iter().map(|t| t.origin.basis)),
        ),
    ]
}

#[test]
fn rows_of_each_basis_are_counted() {
    let golden = [
        ("threads, unified", [0, 29, 54, 0, 0]),
        ("threads, metric", [0, 49, 27, 0, 0]),
        ("threads, British", [0, 5, 70, 5, 0]),
        ("grades by size", [47, 0, 0, 20, 0]),
        ("nuts by size", [15, 0, 26, 17, 0]),
        ("lubrications", [8, 0, 3, 10, 0]),
        ("hexagon parts", [0, 0, 0, 32, 0]),
        ("parent metals", [0, 0, 0, 9, 0]),
        ("lock nuts", [34, 0, 0, 0, 0]),
        ("steps of procedures", [21, 0, 0, 2, 80]),
        ("look-alikes", [0, 0, 0, 0, 26]),
        ("spanners", [0, 0, 0, 50, 0]),
        ("printed torques", [273, 0, 0, 0, 0]),
        ("printed targets", [9, 0, 31, 4, 0]),
    ];
    assert_eq!(counted(), golden);
}

#[test]
fn the_counts_told_are_those_of_the_tables() {
    let told = include_str!("../SOURCES.md");
    for (name, [found, computed, both, memory, practice]) in counted() {
        let line = format!("| {name} | {found} | {computed} | {both} | {memory} | {practice} |");
        assert!(told.contains(&line), "SOURCES.md lacks {line:?}");
    }
    assert_eq!(PROCEDURES.len(), 23);
}

/// Whatever the basis, somebody can look where the value is from.
#[test]
fn every_printed_value_cites_something() {
    let uncited = GRADES
        .iter()
        .flat_map(|g| g.strengths)
        .filter(|s| s.origin.basis == Basis::Memory && s.origin.sources.is_empty());
    assert_eq!(uncited.count(), 0);
    assert!(
        PUBLISHED_TARGETS
            .iter()
            .all(|t| !t.origin.sources.is_empty())
    );
    assert!(
        PUBLISHED_TORQUES
            .iter()
            .all(|t| !t.origin.sources.is_empty())
    );
}
