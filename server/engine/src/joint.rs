//! A whole joint: what is clamped, what holds the far end, and whether anything is weaker than the bolt.

pub mod castle;
pub mod check;
mod faces;
pub mod fit;
pub mod grip;
pub mod head;
pub mod reach;
pub mod stack;
pub mod stretching;
pub mod tapped;
pub mod weakest;

pub use castle::{CastleAnswer, CastleAsk, CastleQuestion, Verdict, align};
pub use check::{JointAsk, JointCheck, JointQuestion, check_joint};
pub use faces::BearingFace;
pub use fit::{LengthAsk, LengthQuestion, Lengths, fit_length};
pub use grip::{GripLayer, GripStack, TappedHole};
pub use stack::MOST_LAYERS;
pub use stretching::{Stretch, StretchAsk, StretchQuestion, stretch};
pub use weakest::{Engagement, Partner};
