//! A question as a mechanic puts it, and the same question with everything looked up.

use crate::{
    designation::Designation,
    grade::{Grade, Strength},
    lubrication::Lubrication,
    nut::{Nut, NutProof},
    purpose::Purpose,
    thread::Thread,
    units::{Newtons, NutFactor, Share},
};

/// What is asked, in the words it was asked in. All texts may be empty; what is needed is said by
/// the faults of [`crate::Catalogue::resolve`].
#[derive(Clone, Copy, Debug, Default)]
pub struct Ask<'a> {
    /// Thread: `7/16-20`, `M10x1.25`, `5/16 UNC`, `1/2 fine`.
    pub thread: &'a str,
    /// Grade of the bolt: `SAE J429 5`, `8.8`.
    pub grade: &'a str,
    /// Lubrication or finish: `dry`, `oiled`; may be empty when a nut factor is given.
    pub lubrication: &'a str,
    /// Share of proof to aim at, 0.05 to 1; 0.75 when absent.
    pub proof_share: Option<f64>,
    /// Clamp load to aim at instead of a share of proof, in N.
    pub clamp_load_n: Option<f64>,
    /// Nut factor K instead of the lubrication's, 0.05 to 0.60.
    pub nut_factor: Option<f64>,
    /// Grade of the nut, to be checked too: `SAE J995 5`, `8`.
    pub nut_grade: Option<&'a str>,
    /// What the part does in its joint.
    pub purpose: Purpose,
    /// Whether papers say that the part was baked after plating.
    pub baked: bool,
}

/// Share of proof aimed at when nothing is said: a joint that comes apart again.
pub const DEFAULT_PROOF_SHARE: f64 = 0.75;

/// What the clamp load is aimed at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// A share of proof, or of 0.85 yield where the standard has no proof.
    ShareOfProof(Share),
    /// A clamp load somebody wants.
    ClampLoad(Newtons),
}

/// A question with everything looked up and every number checked; it always has an answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Question<'c> {
    pub(crate) thread: &'c Thread,
    pub(crate) designation: Designation,
    pub(crate) grade: &'c Grade,
    pub(crate) strength: Strength,
    pub(crate) lubrication: Option<&'c Lubrication>,
    pub(crate) nut_factor: NutFactor,
    /// Whether the nut factor was given and not the lubrication's.
    pub(crate) nut_factor_was_given: bool,
    pub(crate) nut: Option<(&'c Nut, NutProof)>,
    pub(crate) target: Target,
    /// Whether nobody said a share or a load.
    pub(crate) share_by_default: bool,
    /// Whether the part was baked after plating.
    pub(crate) baked: bool,
}

impl<'c> Question<'c> {
    /// The thread.
    #[must_use]
    pub const fn thread(&self) -> &'c Thread {
        self.thread
    }

    /// The thread as designated, with tolerance class and hand where they were said.
    #[must_use]
    pub const fn designation(&self) -> &Designation {
        &self.designation
    }

    /// The grade of the bolt.
    #[must_use]
    pub const fn grade(&self) -> &'c Grade {
        self.grade
    }

    /// Its strength at this size.
    #[must_use]
    pub const fn strength(&self) -> Strength {
        self.strength
    }

    /// The lubrication, if one was said.
    #[must_use]
    pub const fn lubrication(&self) -> Option<&'c Lubrication> {
        self.lubrication
    }

    /// The nut, if one was said.
    #[must_use]
    pub fn nut(&self) -> Option<&'c Nut> {
        self.nut.map(|(nut, _)| nut)
    }

    /// What the clamp load is aimed at.
    #[must_use]
    pub const fn target(&self) -> Target {
        self.target
    }
}
