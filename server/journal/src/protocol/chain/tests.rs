//! What the hash of an entry covers, in each format.

use super::{Format, Head, Known, Link};
use clampbook_book::entry::Moment;
use std::collections::HashSet;
use uuid::Uuid;

const REQUEST: Uuid = Uuid::from_u128(1);
const OTHER: Uuid = Uuid::from_u128(2);

const LINK: Link<'_> = Link {
    stream: "jobs/hub",
    number: 1,
    said: Moment(1),
    written: Moment(2),
    name: "Ada",
    device: "bench",
    kind: "removed",
    request: &REQUEST,
    fingerprint: &[0; 32],
    body: "{}",
    format: Format::First,
};

const KNOWN: Known<'_> = Known {
    person: Some("ada"),
    how: "named",
    fingerprint: 1,
};

/// The link, and what it is when one thing is another.
fn variants(link: Link<'_>) -> Vec<Link<'_>> {
    vec![
        link,
        Link {
            stream: "jobs/hua",
            ..link
        },
        Link { number: 2, ..link },
        Link {
            said: Moment(2),
            ..link
        },
        Link {
            written: Moment(1),
            ..link
        },
        Link {
            name: "Adab",
            device: "ench",
            ..link
        },
        Link { device: "", ..link },
        Link {
            kind: "decided",
            ..link
        },
        Link {
            request: &OTHER,
            ..link
        },
        Link {
            fingerprint: &[1; 32],
            ..link
        },
        Link {
            body: "{ }",
            ..link
        },
    ]
}

/// How many hashes differ, with those of another place and of another hash before it.
fn hashes(variants: &[Link<'_>]) -> usize {
    let link = &variants[0];
    let first = Head::NONE.then(link);
    let mut hashes: HashSet<_> = variants.iter().map(|l| Head::NONE.then(l).hash).collect();
    hashes.insert(first.then(link).hash);
    let further = Head {
        seq: 1,
        ..Head::NONE
    };
    hashes.insert(further.then(link).hash);
    assert_eq!(first.seq, 1);
    assert_eq!(first.hex().len(), 64);
    hashes.len()
}

#[test]
fn every_part_of_an_entry_is_in_its_hash() {
    let variants = variants(LINK);
    assert_eq!(hashes(&variants), variants.len() + 2);
}

#[test]
fn so_it_is_in_format_2_with_who_spoke() {
    let of = |known| Link {
        format: Format::Second(known),
        ..LINK
    };
    let mut variants = variants(of(KNOWN));
    variants.push(LINK);
    let persons = [None, Some(""), Some("ada-2")];
    variants.extend(persons.map(|person| of(Known { person, ..KNOWN })));
    variants.push(of(Known {
        how: "open",
        ..KNOWN
    }));
    variants.push(of(Known {
        fingerprint: 2,
        ..KNOWN
    }));
    assert_eq!(hashes(&variants), variants.len() + 2);
}

/// The hashes of what is written in files never change.
#[test]
fn a_format_is_hashed_as_ever() {
    assert_eq!(
        Head::NONE.then(&LINK).hex(),
        "6df4c9d5fa610fe1dd9d6cd757bd327d880935a7ad37d4dbf49784a285abde33"
    );
    let second = Link {
        format: Format::Second(KNOWN),
        ..LINK
    };
    assert_eq!(
        Head::NONE.then(&second).hex(),
        "ab7c615e3623eaad62df41079be3d1f902d386b4829fd83138ceb24ea5d54569"
    );
}
