//! Sizes of a fastener that goes in, and what is stacked under it, against those of the one that belongs there.

use crate::record::fact::{FastenerSpec, GripLayer, GripStack, JointBuild};

/// How far a length taken with a rule at the bench may be off, in millimetres. Common practice.
pub const MEASURING_ERROR_MM: f64 = 0.5;

/// Sizes of a fastener that goes in, in millimetres; what is absent is the standard's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sizes {
    /// Length under the head.
    pub length_mm: f64,
    /// Length of its thread.
    pub thread_length_mm: Option<f64>,
    /// Height of its head.
    pub head_height_mm: Option<f64>,
    /// Maximum diameter of its head.
    pub head_diameter_mm: Option<f64>,
    /// What is stacked under it at its hole, besides what the joint is built of.
    pub stacked_mm: f64,
}

impl Sizes {
    /// Of a fastener whose length is all that is known.
    #[must_use]
    pub const fn of_length(length_mm: f64) -> Self {
        Self {
            length_mm,
            thread_length_mm: None,
            head_height_mm: None,
            head_diameter_mm: None,
            stacked_mm: 0.0,
        }
    }

    /// The same with so much stacked under it at its hole.
    #[must_use]
    pub const fn on(self, stacked_mm: f64) -> Self {
        Self { stacked_mm, ..self }
    }

    /// Of a fastener as named.
    #[must_use]
    pub fn of(part: &FastenerSpec) -> Self {
        let detail = part.detail.as_deref();
        Self {
            length_mm: part.length.mm,
            thread_length_mm: detail.and_then(|d| d.thread_length_mm),
            head_height_mm: detail.and_then(|d| d.head_height_mm),
            head_diameter_mm: detail.and_then(|d| d.head_diameter_mm),
            stacked_mm: 0.0,
        }
    }

    /// Whether it is, as far as can be measured and was said, the fastener that belongs there.
    #[must_use]
    pub fn belong(&self, build: &JointBuild) -> bool {
        *self == Self::of_length(self.length_mm) && belongs(build, self.length_mm)
    }

    /// The build with this fastener in place of the one that belongs there.
    pub(crate) fn in_place_of(&self, build: &JointBuild) -> JointBuild {
        // The thread's length was said of the fastener that belongs there; of one of another length it is not known.
        let same = belongs(build, self.length_mm);
        let own = &build.stack;
        let mut layers = own.layers.clone();
        // Between the parts, so that the faces are the joint's own: what it is made of is not known, and only its height counts.
        if let Some(first) = own.layers.first().filter(|_| self.stacked_mm > 0.0) {
            let stacked = GripLayer {
                metal: first.metal.clone(),
                thickness_mm: self.stacked_mm,
                outer_diameter_mm: None,
            };
            layers.insert(1, stacked);
        }
        JointBuild {
            stack: GripStack {
                layers,
                bolt_length_mm: Some(self.length_mm),
                thread_length_mm: (self.thread_length_mm).or(own.thread_length_mm.filter(|_| same)),
                head_height_mm: self.head_height_mm.or(own.head_height_mm),
                head_diameter_mm: self.head_diameter_mm.or(own.head_diameter_mm),
                ..own.clone()
            },
            ..build.clone()
        }
    }
}

/// Whether a fastener of this length is, as far as can be measured, the one that belongs there.
fn belongs(build: &JointBuild, length_mm: f64) -> bool {
    build
        .stack
        .bolt_length_mm
        .is_some_and(|own| (own - length_mm).abs() <= MEASURING_ERROR_MM)
}
