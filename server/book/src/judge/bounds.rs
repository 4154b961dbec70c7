//! How long texts may be, in characters, and what they may hold; how large numbers and how long lists may be. For commands
//! only: what is stored is always read.

use crate::judge::refusal::Violation;

/// Display names.
pub const DISPLAY_NAME: usize = 120;
/// The machine, a citation, a lock, a preparation.
pub const SENTENCE: usize = 200;
/// Position labels.
pub const LABEL: usize = 60;
/// Designations: threads, grades, lubrications.
pub const DESIGNATION: usize = 64;
/// A quantity with its unit.
pub const QUANTITY: usize = 32;
/// Markings, storage places, tools, people.
pub const SHORT: usize = 80;
/// Where heat was put.
pub const PLACE: usize = 120;
/// Notes and reasons.
pub const NOTE: usize = 1_000;
/// Marks, pieces of a stack, small parts: of each at one position.
pub const PIECES: usize = 20;
/// Pieces of a stack that are alike.
pub const ALIKE: u16 = 50;
/// Maximum number of turns taken for a tie rod. Common practice: no rod is screwed in so far.
pub const TURNS: f64 = 200.0;
/// Bytes of a photo: 8 MiB.
pub const PHOTO_BYTES: usize = 8 << 20;
/// Positions of a joint.
pub const POSITIONS: usize = 200;
/// Rows of a grid.
pub const ROWS: u16 = 50;
/// Characters of an imported file.
pub const IMPORT: usize = 200_000;
/// Lines of an imported file.
pub const IMPORT_LINES: usize = 2_000;
/// Longest length taken for a fastener, in millimetres. Common practice: no machine bolt is longer.
pub const LENGTH_MM: f64 = 3_000.0;
/// Maximum torque taken for a reading, in newton metres. Common practice: beyond any hand-held multiplier.
pub const TORQUE_NM: f64 = 20_000.0;
/// Most joints in a job. Common practice: far above any machine, low enough to keep a job in memory.
pub const MOST_JOINTS: usize = 2_000;
/// Most assemblies in a job.
pub const MOST_ASSEMBLIES: usize = 500;
/// Most findings in a job. Common practice: far above any machine, low enough to keep a job in memory.
pub const MOST_FINDINGS: usize = 1_000;
/// Most lubrications of a shop's own. Common practice: far more than any shop tests.
pub const MOST_LUBRICATIONS: usize = 500;
/// Most entries about parts in a job. Common practice: far above any machine, low enough to keep a job in memory.
pub const MOST_PARTS: usize = 2_000;
/// Most people of a shop, also those who left. Common practice: far more than any shop employs in its life.
pub const MOST_PEOPLE: usize = 500;
/// Most photos of a job. Common practice: far above any machine, low enough to list them all.
pub const MOST_PHOTOS: usize = 1_000;
/// Most specifications of a shop. Common practice: the manuals of a lifetime of machines.
pub const MOST_SPECIFICATIONS: usize = 20_000;
/// Most steps of a specification. Common practice: makers print five at most.
pub const MOST_STEPS: usize = 10;
/// Maximum angle of one step, in degrees: two turns. Common practice.
pub const MOST_DEGREES: f64 = 720.0;

/// What is wrong with a text, if anything.
#[must_use]
pub fn text(field: &str, value: &str, most: usize) -> Option<Violation> {
    let count = value.chars().count();
    if count > most {
        return Some(Violation::new(
            field,
            format!("has {count} characters; allowed are at most {most}"),
        ));
    }
    let control = value.chars().find(|c| c.is_control() && *c != '\n');
    control.map(|c| {
        Violation::new(
            field,
            format!(
                "holds the control character U+{:04X}; allowed are printed characters and line ends",
                u32::from(c)
            ),
        )
    })
}

/// What is wrong with a text that must not be empty, if anything.
#[must_use]
pub fn required_text(field: &str, value: &str, most: usize) -> Option<Violation> {
    if value.trim().is_empty() {
        return Some(Violation::new(field, "is required"));
    }
    text(field, value, most)
}
