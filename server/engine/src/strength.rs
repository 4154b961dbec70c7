//! The weaker partner of a bolt: limits of size of its thread, stripping, engagement, bearing faces.

pub mod bearing;
pub mod engagement;
pub mod limits;
