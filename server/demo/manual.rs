//! What the tractor's manual prints.

use clampbook_api::v1::specification_step::Step;
use clampbook_api::v1::{Specification, SpecificationStep};

/// Id of the specification of the hub caps.
pub(super) const HUB_CAP: &str = "hub-cap";

/// The hub caps of both sides.
pub(super) fn hub_cap() -> Specification {
    Specification {
        display_name: "Hub cap to hub".into(),
        thread: "1/4-20 UNC".into(),
        grade: "SAE J429 2".into(),
        lubrication: "oiled".into(),
        steps: vec![SpecificationStep {
            step: Some(Step::Torque("55 lbf·in".into())),
        }],
        citation: "Workshop manual of the tractor, 2nd ed., p. 38".into(),
        ..Default::default()
    }
}
