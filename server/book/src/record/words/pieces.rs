//! Words for what became of pieces.

use serde::{Deserialize, Serialize};

vocabulary! {
    /// What became of pieces that came out and did not go back.
    PieceFate {
        /// Found and put where it belongs.
        Found = "found", "found and fitted";
        /// Thrown away, or kept apart for good.
        WrittenOff = "written-off", "written off";
        /// It never was one, or belongs elsewhere.
        Explained = "explained", "explained";
    }
}
