//! How a joint gives: bolt and members as springs, the angle from snug, what embedding costs, and
//! what the next slot of a castellated nut does.

pub mod castle;
pub mod settling;
pub mod stiffness;
