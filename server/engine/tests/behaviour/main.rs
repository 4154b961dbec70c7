//! How the core behaves when it is asked in words: designations, look-ups, faults, answers.

#![allow(clippy::unwrap_used)] // a test may panic

mod answers;
mod bolt_lengths;
mod castle;
mod checks;
mod designations;
mod faces;
mod faults;
mod heads;
mod identify;
mod joints;
mod lengths;
mod long_form;
mod measuring;
mod names;
mod old_iron;
mod orders;
mod own_lubrications;
mod partners;
mod procedures;
mod published_values;
mod quantities;
mod readings;
mod rows;
mod spanners;
mod stacks;
mod stock_lengths;
mod stretch;
mod wrenches;

/// The value near a guess for which `of` gives a limit exactly.
fn exactly(guess: f64, limit: f64, of: impl Fn(f64) -> f64) -> f64 {
    reached(guess, limit, of).unwrap_or_else(|| panic!("no value gives {limit} exactly"))
}

/// The same, where rounding may step over the limit.
fn reached(guess: f64, limit: f64, of: impl Fn(f64) -> f64) -> Option<f64> {
    let mut value = guess;
    for _ in 0..64 {
        let off = of(value) / limit;
        if off == 1.0 {
            return Some(value);
        }
        let next = value / off;
        value = match next == value {
            false => next,
            true if off < 1.0 => value.next_up(),
            true => value.next_down(),
        };
    }
    None
}
