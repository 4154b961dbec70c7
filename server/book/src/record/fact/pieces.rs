//! What goes back with a fastener, and what became of what did not.

use super::SaidTorque;
use crate::record::ids::{JointId, PositionNumber};
use crate::record::words::{Piece, PieceFate, SmallPart};
use serde::{Deserialize, Serialize};

/// Something that came out of a position or goes into it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Thing {
    /// The fastener itself.
    Fastener,
    /// A piece of the stack.
    Piece(Piece),
    /// A small part.
    SmallPart(SmallPart),
}

/// Pieces that went in with a fastener.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PieceFitted {
    /// What they are.
    pub what: Thing,
    /// How many.
    pub count: u16,
    /// Whether they are new.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub is_new: bool,
    /// More, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub said: String,
}

/// What else is said of a refit.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FittedWith {
    /// Whether everything that came out with the fastener went back as it was, but for what is listed.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub as_it_came_out: bool,
    /// What went in with it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<PieceFitted>,
    /// Torque that turned a lock nut before it seated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[serde(rename = "run_on")]
    pub prevailing_torque: Option<SaidTorque>,
}

/// What became of pieces that came out and did not go back.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NotRefitted {
    /// The joint they came out of.
    pub joint: JointId,
    /// The position in it.
    pub position: PositionNumber,
    /// What they are.
    pub what: Thing,
    /// How many.
    pub count: u16,
    /// What happened to the pieces.
    pub became: PieceFate,
    /// How that is known, in words.
    pub why: String,
}

impl Thing {
    /// The same thing under one name: a washer is one whether it is listed in the stack or among the small parts.
    #[must_use]
    pub const fn plain(self) -> Self {
        match self {
            Self::SmallPart(SmallPart::Washer) => Self::Piece(Piece::Washer),
            other => other,
        }
    }

    /// As people read it.
    #[must_use]
    pub const fn spoken(self) -> &'static str {
        match self {
            Self::Fastener => "fastener",
            Self::Piece(piece) => piece.spoken(),
            Self::SmallPart(part) => part.spoken(),
        }
    }
}
