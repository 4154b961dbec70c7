//! What an answer of the engine says, in sentences for people: made here once, for command line, pages and paper.

mod joint;
mod long_form;
mod procedure;
mod stretch;
mod wrench;

pub use joint::{at_hand, engagement, face, lengths, partner, restated, standard, target};
pub use long_form::{friction, long_target, parts, stress};
pub use procedure::step;
pub use stretch::{deed, gives, settling, slots, stiffness, washers};
pub use wrench::{adapter, minimum_prevailing_torque, one_wrench};

use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::show;
use clampbook_engine::units::NewtonMetres;

/// A torque that an answer carries as a plain number.
fn torque(nm: f64, unit: TorqueUnit) -> String {
    NewtonMetres::new(nm).map_or_else(|_| "no torque".into(), |torque| show::torque(torque, unit))
}
