//! The closed vocabularies of the trade, spelled once for journal, screen and paper.
//!
//! `id` is what the journal stores and import files use; `spoken` is what people read.

use serde::{Deserialize, Serialize};

macro_rules! vocabulary {
    ($(#[doc = $doc:literal])+ $name:ident { $($(#[doc = $vdoc:literal])+ $variant:ident = $id:literal, $spoken:literal;)+ }) => {
        $(#[doc = $doc])+
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum $name {
            $($(#[doc = $vdoc])+ #[serde(rename = $id)] $variant),+
        }

        impl $name {
            /// Every word of the vocabulary.
            pub const ALL: &[Self] = &[$(Self::$variant),+];

            /// Stable identifier: lower case with hyphens.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $id),+ }
            }

            /// The word as people say it.
            #[must_use]
            pub const fn spoken(self) -> &'static str {
                match self { $(Self::$variant => $spoken),+ }
            }

            /// The word with this identifier.
            #[must_use]
            pub fn from_id(id: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|word| word.id() == id)
            }
        }
    };
}

mod assembled;
mod finding;
mod person;
mod photo;
mod pieces;

pub use assembled::{MarkKind, Piece, SmallPart, SmallPartCondition};
pub use finding::{FindingKind, FindingSeverity};
pub use person::{Known, PersonRole};
pub use photo::MediaType;
pub use pieces::PieceFate;

vocabulary! {
    /// How a fastener came out.
    Outcome {
        /// As it should.
        Normal = "normal", "normal";
        /// Loose when the machine came in.
        LooseOnArrival = "loose-on-arrival", "loose on arrival";
        /// Hard all the way.
        Stiff = "stiff", "stiff";
        /// Only by force or heat.
        Seized = "seized", "seized";
        /// Turned without coming, or the stud came along.
        Spun = "spun", "spun";
        /// Head or nut rounded off.
        Rounded = "rounded", "rounded";
        /// Pulled the threads out.
        PulledThreads = "pulled-threads", "pulled threads";
        /// Had been started crooked.
        CrossThreaded = "cross-threaded", "cross-threaded";
        /// Broke while being removed.
        BrokeNow = "broke-now", "broke now";
        /// Found broken.
        BrokenBefore = "broken-before", "broken before";
        /// Not there.
        MissingBefore = "missing-before", "missing before";
        /// Cut on purpose.
        CutOnPurpose = "cut-on-purpose", "cut on purpose";
    }
}

vocabulary! {
    /// What else was seen on a removed fastener.
    Tick {
        /// Bent.
        Bent = "bent", "bent";
        /// Thinner where it was stretched.
        Necked = "necked", "necked";
        /// Polished or rusted by small movements.
        Fretted = "fretted", "fretted";
        /// Pitted by rust.
        Pitted = "pitted", "pitted";
        /// Not the bolt that belongs here.
        WrongBolt = "wrong-bolt", "wrong bolt";
        /// Its lock was not there.
        LockMissing = "lock-missing", "lock missing";
        /// Left-hand thread.
        LeftHand = "left-hand", "left hand";
    }
}

vocabulary! {
    /// What it took to get a fastener out.
    Method {
        /// Hand tools.
        Hand = "hand", "hand";
        /// Long bar.
        LongBar = "long-bar", "long bar";
        /// Impact driver struck by hand.
        ImpactDriver = "impact-driver", "impact driver";
        /// Powered impact wrench.
        AirImpact = "air-impact", "air impact";
        /// Penetrating oil and time.
        PenetrantSoak = "penetrant-soak", "penetrant soak";
        /// Heat.
        Heat = "heat", "heat";
        /// Hammer, with or without punch.
        Hammer = "hammer", "hammer";
        /// Puller or press.
        PullerOrPress = "puller-or-press", "puller or press";
        /// Nut split or fastener cut.
        SplitOrCut = "split-or-cut", "split or cut";
        /// Extractor or welded nut.
        ExtractorOrWeldedNut = "extractor-or-welded-nut", "extractor or welded nut";
        /// Drilled out.
        Drilled = "drilled", "drilled";
    }
}

vocabulary! {
    /// How hot something got, by eye.
    HeatColour {
        /// No colour seen.
        Warm = "warm", "warm";
        /// Temper colours, straw to blue.
        Blue = "blue", "blue";
        /// Any red.
        Red = "red", "red";
    }
}

vocabulary! {
    /// A length by comparison with the neighbours.
    Compared {
        /// As long as the rest.
        Same = "same", "same";
        /// Longer than the rest.
        Longer = "longer", "longer";
        /// Shorter than the rest.
        Shorter = "shorter", "shorter";
    }
}

vocabulary! {
    /// Risk class of a joint.
    Criticality {
        /// Life and limb.
        A = "A", "A life and limb";
        /// Function.
        B = "B", "B function";
        /// Other.
        C = "C", "C other";
    }
}

vocabulary! {
    /// What a fastener goes into.
    HoleKind {
        /// Through to a nut.
        Through = "through", "through to a nut";
        /// Tapped, open at the far end.
        TappedThrough = "tapped-through", "tapped through";
        /// Tapped, closed at the far end.
        TappedBlind = "tapped-blind", "tapped blind";
        /// A stud with its nut.
        Stud = "stud", "stud and nut";
    }
}

vocabulary! {
    /// What is done with a removed fastener.
    DecisionKind {
        /// Goes back as it is.
        Reuse = "reuse", "reuse";
        /// Is cleaned and goes back.
        CleanAndReuse = "clean-and-reuse", "clean and reuse";
        /// Is replaced.
        Replace = "replace", "replace";
        /// Waits until something is known or there.
        Hold = "hold", "hold";
        /// Its thread is chased and it goes back.
        Chase = "chase", "chase and reuse";
        /// Is plated and baked, and goes back.
        PlateAndBake = "plate-and-bake", "plate and bake";
        /// Is replaced by one that is made to fit.
        Make = "make", "make";
        /// Does not go back, on purpose, and nothing else does.
        LeaveOut = "leave-out", "leave out";
    }
}

vocabulary! {
    /// What a decision on hold waits for.
    HoldReason {
        /// To be measured.
        Measuring = "measuring", "measuring";
        /// Hardness readings.
        Hardness = "hardness", "hardness readings";
        /// A crack test.
        CrackTest = "crack-test", "a crack test";
        /// A part to arrive.
        Part = "part", "a part to arrive";
    }
}

vocabulary! {
    /// What was found at a hole.
    HoleCheck {
        /// A sound bolt runs in by hand to full depth.
        RunsInByHand = "runs-in-by-hand", "bolt runs in by hand to full depth";
        /// Chased, then runs in by hand.
        Chased = "chased", "chased, bolt runs in by hand to full depth";
        /// Repaired, then runs in by hand.
        Repaired = "repaired", "repaired, bolt runs in by hand to full depth";
        /// Measured, within limits.
        Measured = "measured", "measured, within limits";
    }
}

vocabulary! {
    /// How far a tightening goes.
    Step {
        /// Snug.
        Snug = "snug", "snug";
        /// To its final torque.
        Final = "final", "final";
    }
}

impl Step {
    /// How tight a fastener is after it.
    #[must_use]
    pub const fn tightness(self) -> Tightness {
        match self {
            Self::Snug => Tightness::Snug,
            Self::Final => Tightness::Final,
        }
    }
}

vocabulary! {
    /// How tight a refitted fastener is.
    Tightness {
        /// Started by hand.
        Started = "started", "started by hand";
        /// Snug.
        Snug = "snug", "snug";
        /// At its final torque.
        Final = "final", "final";
    }
}

vocabulary! {
    /// Unit in which torques are shown to people.
    TorqueUnit {
        /// N·m.
        NewtonMetre = "newton-metre", "N·m";
        /// lbf·ft.
        PoundForceFoot = "pound-force-foot", "lbf·ft";
        /// lbf·in.
        PoundForceInch = "pound-force-inch", "lbf·in";
        /// kgf·m.
        KilogramForceMetre = "kilogram-force-metre", "kgf·m";
    }
}

vocabulary! {
    /// How serious a flag is, mildest first.
    Severity {
        /// Worth knowing.
        Note = "note", "note";
        /// To be minded.
        Caution = "caution", "caution";
        /// Work on the position must not go on.
        Stop = "stop", "stop";
    }
}
