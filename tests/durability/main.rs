//! Durability: what was acknowledged stays, whatever happens to the process, the file or the disk.
//!
//! The oracle is outside of the process under test: every request and every acknowledgement is kept here, in the ledger,
//! and after each blow the journal is compared with it entry by entry.

#[path = "../support/picture.rs"]
mod picture;

mod ask;
mod check;
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
mod parts;
mod photo;
mod photographer;
mod server;
mod stop;
mod story;
mod teller;
mod torn;
