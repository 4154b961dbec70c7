//! Words for what is found on parts other than fasteners.

use serde::{Deserialize, Serialize};

vocabulary! {
    /// What is wrong with a part.
    FindingKind {
        /// Worn or galled.
        Wear = "wear", "wear";
        /// Got too hot.
        Heat = "heat", "heat";
        /// Cracked.
        Crack = "crack", "crack";
        /// Rusted or pitted.
        Corrosion = "corrosion", "corrosion";
        /// Bent or twisted.
        Bent = "bent", "bent";
        /// Its thread or splines are stripped.
        Stripped = "stripped", "stripped";
        /// Lets out what it should hold.
        Leak = "leak", "leak";
        /// Something else.
        Other = "other", "other";
    }
}

vocabulary! {
    /// What a finding means for the part, or what was done about it.
    FindingSeverity {
        /// Can be used.
        Usable = "usable", "usable";
        /// Must be looked at again.
        Doubtful = "doubtful", "doubtful";
        /// Cannot be used.
        Ruined = "ruined", "ruined";
        /// Was repaired and can be used.
        Repaired = "repaired", "repaired";
        /// Was replaced by another.
        Replaced = "replaced", "replaced";
    }
}
