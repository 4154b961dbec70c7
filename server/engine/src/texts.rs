//! The sentences of an answer, by id.

macro_rules! texts {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $id:literal, $text:literal;)* }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum $name { $($(#[$vdoc])* $variant,)* }

        impl $name {
            /// All ids.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Stable id.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $id,)* }
            }

            /// The sentence for people.
            #[must_use]
            pub const fn text(self) -> &'static str {
                match self { $(Self::$variant => $text,)* }
            }
        }
    };
}

texts! {
    /// What decided the clamp load.
    GovernedBy {
        /// Share of the bolt's proof load.
        ProofOfBolt = "proof-of-bolt", "Share of the bolt's proof load.";
        /// Share of 0.85 of the bolt's yield load.
        YieldOfBolt = "yield-of-bolt", "Share of 0.85 of the bolt's yield load, because its standard has no proof load.";
        /// The clamp load that was asked for.
        WantedClampLoad = "wanted-clamp-load", "The clamp load that was asked for.";
    }
}

texts! {
    /// Which check found something.
    CheckId {
        /// Nominal clamp load against the bolt's proof load.
        NominalAgainstProof = "nominal-against-proof", "The target clamp load is close to or above the bolt's proof load.";
        /// Maximum clamp load against the bolt's proof load.
        MaximumAgainstProof = "maximum-against-proof", "With the scatter of tool and friction the clamp load may exceed the bolt's proof load.";
        /// Maximum clamp load against the bolt's tensile load.
        MaximumAgainstTensile = "maximum-against-tensile", "With the scatter of tool and friction the bolt may break.";
        /// Tension and twist while tightening against yield.
        CombinedAgainstYield = "combined-against-yield", "Tension and twist together exceed yield while tightening (von Mises, plastic section modulus pi d0^3/12).";
        /// Nominal clamp load against the nut's proof load.
        NutAgainstTarget = "nut-against-target", "The nut's proof load is below the target clamp load; fit a stronger nut.";
        /// Maximum clamp load against the nut's proof load.
        NutAgainstMaximum = "nut-against-maximum", "With the scatter of tool and friction the clamp load may exceed the nut's proof load.";
        /// Nut weaker than the bolt.
        NutWeakerThanBolt = "nut-weaker-than-bolt", "The nut's proof load is below the bolt's: the thread may strip before the bolt shows distress.";
        /// Electroplated, hard and not baked.
        PlatedHardUnbaked = "plated-hard-unbaked", "Electroplated steel of 39 HRC or more that was not baked may break days after tightening (hydrogen): fit a part that was baked, or one with another finish.";
        /// Nut not made for this grade of bolt.
        NutNotMadeForBolt = "nut-not-made-for-bolt", "The nut is not made for bolts of this grade, or only locks.";
    }
}

texts! {
    /// What was taken for granted.
    Assumption {
        /// Short form of the torque formula.
        ShortForm = "short-form", "T = K D F: flat seats, steel parts, nut or head turned freely, no prevailing torque.";
        /// Nobody said a share, so 0.75 of proof.
        DefaultProofShare = "default-proof-share", "0.75 of proof, for a joint that comes apart again.";
        /// No proof stress in the standard.
        NoProofInStandard = "no-proof-in-standard", "The standard has no proof stress; 0.85 of minimum yield stands for it.";
        /// No yield stress in the standard.
        NoYieldInStandard = "no-yield-in-standard", "The standard has no yield stress; combined stress was not checked.";
        /// Nut factor as given.
        NutFactorGiven = "nut-factor-given", "The nut factor is the one given, not the catalogue's.";
        /// Nothing known of the lubrication.
        DryScatterAssumed = "dry-scatter-assumed", "No lubrication was given, so the scatter is that of dry threads.";
        /// How the torque was split to compute the twist.
        EqualFriction = "equal-friction", "Twist: equal friction in thread and face, mean bearing diameter 1.25 D.";
        /// Baked, as was said.
        Baked = "baked", "The plated part was baked after plating, as was said; its papers must show it.";
        /// Which section modulus.
        PlasticSectionModulus = "plastic-section-modulus", "Combined stress: plastic section modulus pi d0^3/12.";
    }
}

texts! {
    /// What to be careful about.
    Caution {
        /// A value from memory was used.
        FromMemory = "from-memory", "A value used here is from memory of its source, not read in it; check it before a class A joint.";
        /// Computed, not the maker's.
        NotMakers = "not-makers", "Computed, not the maker's value: a published torque for this joint wins.";
        /// Left-hand thread.
        LeftHand = "left-hand", "Left-hand thread: it tightens anticlockwise.";
        /// Stainless gall.
        Galling = "galling", "Stainless threads gall: lubricate, turn slowly, stop when it binds.";
        /// Obsolete thread.
        ObsoleteThread = "obsolete-thread", "Obsolete thread: today's fine thread of this diameter has another pitch.";
        /// Nut factor of the shop.
        ShopsOwn = "shops-own", "The nut factor is from the shop's own tests and holds for the fasteners and the lubricant that were tested.";
        /// Nut grade not said.
        NutNotChecked = "nut-not-checked", "No nut was named: nut or tapped hole must carry the clamp load too.";
    }
}
