//! The value of a joint with all that belongs to it, for people who ask which one holds.

use crate::reason::effective::{
    EffectiveJoint, NotInForce, OnFastener, Value, fasteners, named, restated,
};
use crate::reason::rules::{self, Flag};
use crate::reason::shown;
use crate::record::context::Context;
use crate::record::fact::SpecificationStated;
use crate::record::job::Joint;
use crate::record::shop::Kept;
use crate::record::words::{Severity, TorqueUnit};
use clampbook_engine::published::Restated;
use clampbook_engine::{Answer, Caution, Cited};

/// The value that holds for a joint, and what there is to say about it.
#[derive(Debug)]
pub struct Effective<'s> {
    /// The joint.
    pub joint: &'s Joint,
    /// The value.
    pub value: Value<'s>,
    /// The specification in force with all its revisions, if the value is published.
    pub kept: Option<&'s Kept<SpecificationStated>>,
    /// Why the specification that is named does not hold.
    pub not_in_force: Option<NotInForce<'s>>,
    /// The joint's lubrication.
    pub lubrication: String,
    /// What the published torque does on each fastener.
    pub fasteners: Vec<OnFastener<'s>>,
    /// The published torque restated for the joint's lubrication.
    pub restated: Option<Restated<'s>>,
    /// What stops the joint.
    pub stops: Vec<Flag>,
    /// Unit that torques are told in, and loads beside them.
    pub unit: TorqueUnit,
}

/// The value that holds for a joint of the shop, with all that belongs to it, told in a unit or in that of its thread.
#[must_use]
pub fn of<'s>(joint: &'s Joint, context: &Context<'s>, unit: Option<TorqueUnit>) -> Effective<'s> {
    let fact = &joint.fact;
    let effective = EffectiveJoint::new(joint, context.shop);
    let stated = effective.published();
    let mut stops = rules::joint_flags(joint, context, unit);
    stops.retain(|flag| flag.severity == Severity::Stop);
    Effective {
        kept: stated.and_then(|stated| context.shop.specification(&stated.specification)),
        not_in_force: named(fact, context.shop).and_then(Result::err),
        lubrication: effective
            .target()
            .map(|target| target.lubrication.clone())
            .unwrap_or_default(),
        fasteners: fasteners(&effective),
        restated: stated.and_then(|stated| restated(fact, stated, context.shop.catalogue())),
        stops,
        unit: shown::unit_at(unit, effective.family()),
        value: effective.value(),
        joint,
    }
}

/// What is said about a specification that states no lubrication, and where loads are computed all the same.
const NOT_STATED: &str = "The publication states no lubrication.";
const COMPUTED_WITH_OWN: &str =
    "The publication states no lubrication; clamp loads are computed with that of the joint.";

/// What is said of a procedure that ends in an angle.
const ENDS_IN_ANGLE: &str =
    "The published steps end in an angle: which clamp load they give is not computed.";

impl<'s> Effective<'s> {
    /// The torque to reach at the end, for people, as on the sheet; empty where there is none.
    #[must_use]
    pub fn torque_text(&self) -> String {
        match &self.value {
            Value::Published(stated) => (stated.final_torque())
                .map(|torque| shown::published(torque, self.unit))
                .unwrap_or_default(),
            Value::Computed(answer) => shown::torque(answer.torque.get(), self.unit),
            Value::Nothing(_) => String::new(),
        }
    }

    /// Why the named specification does not hold, or why there is no value; empty otherwise.
    #[must_use]
    pub fn reason(&self) -> String {
        let named = self.joint.fact.specification.as_ref();
        let not_in_force = named
            .zip(self.not_in_force)
            .map(|(named, why)| format!("specifications/{} {why}", named.specification));
        let nothing = match &self.value {
            Value::Nothing(why) => Some(why.clone()),
            Value::Published(_) | Value::Computed(_) => None,
        };
        let said: Vec<String> = not_in_force.into_iter().chain(nothing).collect();
        said.join("; ")
    }

    /// What to mind before using the value, one plain sentence each.
    #[must_use]
    pub fn cautions(&self) -> Vec<&'static str> {
        match &self.value {
            Value::Published(stated) => cautions(stated, self.answer()),
            Value::Computed(answer) => answer.cautions.iter().map(Caution::text).collect(),
            Value::Nothing(_) => Vec::new(),
        }
    }

    /// Publications behind the clamp loads, or behind the computed torque.
    pub fn sources(&self) -> impl Iterator<Item = Cited<'s>> {
        let sources = self.answer().map(|answer| answer.sources);
        sources
            .into_iter()
            .flat_map(|sources| sources.iter().collect::<Vec<_>>())
    }

    /// The computed torque, or what the published one does on a fastener as specified.
    fn answer(&self) -> Option<&Answer<'s>> {
        match &self.value {
            Value::Computed(answer) => Some(&**answer),
            Value::Published(_) => self.fasteners.first()?.outcome.as_ref().ok(),
            Value::Nothing(_) => None,
        }
    }
}

/// What to mind of a published value, one plain sentence each; `answer` is what it does on a fastener as specified.
#[must_use]
pub fn cautions(stated: &SpecificationStated, answer: Option<&Answer<'_>>) -> Vec<&'static str> {
    let not_stated = match answer {
        Some(_) => COMPUTED_WITH_OWN,
        None => NOT_STATED,
    };
    let own = [
        (stated.lubrication.is_empty(), not_stated),
        (stated.final_torque().is_none(), ENDS_IN_ANGLE),
    ];
    let said = own.into_iter().filter(|(holds, _)| *holds);
    let of_loads = answer
        .iter()
        .flat_map(|answer| answer.cautions.iter())
        .filter(|caution| *caution != Caution::NotMakers)
        .map(Caution::text);
    said.map(|(_, text)| text).chain(of_loads).collect()
}
