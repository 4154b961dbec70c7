//! Durability: what was acknowledged stays, whatever happens to the process, the file or the disk.
//!
//! The oracle is outside of the process under test: every request and every acknowledgement is kept here, in the ledger,
//! and after each blow the journal is compared with it entry by entry.

#[path = "../support/picture.rs"]
mod picture;
#[path = "../support/raw.rs"]
mod raw;
#[allow(
    dead_code,
    reason = "the fixture asks only for what it needs of the story"
)]
#[path = "../support/whole/mod.rs"]
mod whole;

mod ask;
mod check;
mod clock;
mod contents;
mod crew;
mod damage;
mod dice;
mod fixture;
mod full_disk;
mod health;
mod kill;
mod lane;
mod ledger;
mod outside;
mod photo;
mod photographer;
mod place;
mod server;
mod small_disk;
mod stop;
mod torn;
