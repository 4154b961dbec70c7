//! Black-box acceptance: the story of a job told through both binaries, chapter by chapter.
//!
//! Each test has a server process of its own. What holds of every journal after every story is checked in `support::Server`.

#[path = "../support/mod.rs"]
mod support;

mod all_at_once;
mod away_made_left_out;
mod bad_arguments;
mod bad_values;
mod building;
mod catalogue;
mod client;
mod contract;
mod corrections;
mod decisions;
mod errors;
mod exports;
mod files;
mod heads_and_plating;
mod history;
mod house;
mod identify;
mod imports;
mod marks;
mod other_side;

mod other_words;
mod own_lubrications;
mod own_only;
mod people;
mod photos;
mod plain_english;
mod printed_sheet;
mod published_torque;
mod quantities;
mod reassembly;
mod resuming;
mod retries;
mod search;
mod serving;
mod specifications;
mod stacked;
mod strength;
mod strip_down;
mod tightening;
mod torque;
mod watching;
mod weak_bolt;
mod whole_jobs;
mod whole_story;
