//! Words for how a fastener was assembled: marks before parting, what was stacked, and the small parts with it.

use serde::{Deserialize, Serialize};

vocabulary! {
    /// What was marked or measured before parting.
    MarkKind {
        /// Marks across the parting line.
        MatchMarks = "match-marks", "match marks";
        /// Number of a bearing cap.
        CapNumber = "cap-number", "cap number";
        /// Turns that a tie rod was screwed in.
        TieRodTurns = "tie-rod-turns", "tie-rod turns";
        /// Thread that stood out.
        ExposedThread = "exposed-thread", "exposed thread";
        /// How an eccentric stood.
        Eccentric = "eccentric", "eccentric";
        /// Left-hand thread.
        LeftHand = "left-hand", "left hand";
    }
}

vocabulary! {
    /// A piece stacked under a fastener.
    Piece {
        /// Plain washer.
        Washer = "washer", "washer";
        /// Spring washer.
        SpringWasher = "spring-washer", "spring washer";
        /// Shim.
        Shim = "shim", "shim";
        /// Spacer.
        Spacer = "spacer", "spacer";
        /// Bracket.
        Bracket = "bracket", "bracket";
        /// Clip.
        Clip = "clip", "clip";
        /// Strap.
        Strap = "strap", "strap";
        /// Something else.
        Other = "other", "other piece";
    }
}

impl Piece {
    /// Whether every fastener of a joint has one as a rule, so that it says nothing about an odd one.
    #[must_use]
    pub const fn is_usual(self) -> bool {
        matches!(self, Self::Washer | Self::SpringWasher)
    }
}

vocabulary! {
    /// A small part that belongs to a fastener.
    SmallPart {
        /// Nut.
        Nut = "nut", "nut";
        /// Lock: tab, plate, wire.
        Lock = "lock", "lock";
        /// Washer.
        Washer = "washer", "washer";
        /// Pin.
        Pin = "pin", "pin";
    }
}

vocabulary! {
    /// How a small part was found.
    SmallPartCondition {
        /// There, and fit.
        Present = "present", "present";
        /// Not there.
        Missing = "missing", "MISSING";
        /// There, and not fit to go back.
        Unfit = "unfit", "UNFIT";
    }
}
