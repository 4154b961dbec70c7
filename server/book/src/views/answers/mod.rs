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
