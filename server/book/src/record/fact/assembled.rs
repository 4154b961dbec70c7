//! How a fastener was assembled when it came out.

use super::SaidLength;
use crate::record::words::{MarkKind, Piece, SmallPart, SmallPartCondition};
use serde::{Deserialize, Serialize};

/// How a fastener was assembled.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Assembled {
    /// What was marked or measured before parting.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub marks: Vec<Mark>,
    /// What was stacked under it, from the head on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stack: Vec<Stacked>,
    /// Nut, lock, washer and pin as found.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<PartSeen>,
}

/// Something marked or measured before parting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mark {
    /// What.
    pub what: MarkKind,
    /// Where and how, or how much; a left hand needs no words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub said: String,
}

/// A piece of the stack, or several that are alike.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stacked {
    /// What it is.
    pub piece: Piece,
    /// How many.
    pub count: u16,
    /// How thick each is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thickness: Option<SaidLength>,
    /// More, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub said: String,
}

/// A small part as found.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PartSeen {
    /// Which.
    pub part: SmallPart,
    /// How it was found.
    pub found: SmallPartCondition,
    /// More, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub said: String,
}

impl Mark {
    /// As people read it: `tie-rod turns: 14.5`.
    #[must_use]
    pub fn spoken(&self) -> String {
        match self.said.as_str() {
            "" => self.what.spoken().to_owned(),
            said => format!("{}: {said}", self.what.spoken()),
        }
    }
}

impl Stacked {
    /// As people read it: `2 x shim 0.5 mm (brass)`.
    #[must_use]
    pub fn spoken(&self) -> String {
        let mut text = match self.count {
            1 => self.piece.spoken().to_owned(),
            count => format!("{count} x {}", self.piece.spoken()),
        };
        if let Some(thickness) = &self.thickness {
            text.push_str(&format!(" {}", thickness.said));
        }
        if !self.said.is_empty() {
            text.push_str(&format!(" ({})", self.said));
        }
        text
    }
}

impl PartSeen {
    /// As people read it: `lock MISSING`.
    #[must_use]
    pub fn spoken(&self) -> String {
        let mut text = format!("{} {}", self.part.spoken(), self.found.spoken());
        if !self.said.is_empty() {
            text.push_str(&format!(" ({})", self.said));
        }
        text
    }
}
