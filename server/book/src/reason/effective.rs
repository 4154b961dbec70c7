//! Which value holds for a joint: the maker's published one always wins over the computed one.

mod found;
mod joint;
mod uses;

pub use found::{OnFastener, fasteners, restated};
pub use joint::EffectiveJoint;
pub use uses::{Use, uses};

use crate::reason::target;
use crate::reason::violation::Violation;
use crate::record::fact::{Followed, JointAdded, SpecificationStated, Target, WantedByMaker};
use crate::record::ids::SpecificationId;
use crate::record::shop::{Shop, Withdrawn};
use clampbook_engine::{Answer, Thread, compute};
use std::fmt;

/// The value that holds for a joint.
#[derive(Clone, Debug)]
pub enum Value<'s> {
    /// What the maker published.
    Published(&'s SpecificationStated),
    /// What the engine computes, because nothing is published that is known here.
    Computed(Box<Answer<'s>>),
    /// Nothing, and why.
    Nothing(String),
}

/// Why the specification that a joint names does not hold for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotInForce<'s> {
    /// The shop keeps none of that name.
    NotKept,
    /// It was withdrawn.
    Withdrawn(&'s Withdrawn),
    /// It is published for another thread, as said there.
    OtherThread(&'s str),
    /// It is published for another purpose.
    OtherPurpose(&'s str),
}

impl fmt::Display for NotInForce<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotKept => f.write_str("is not kept; keep it in the shop first"),
            Self::Withdrawn(withdrawn) => write!(f, "was withdrawn: {}", withdrawn.reason),
            Self::OtherThread(thread) => {
                write!(
                    f,
                    "is published for {thread}, which is not the joint's thread"
                )
            }
            Self::OtherPurpose(purpose) => {
                write!(
                    f,
                    "is published for {purpose}, which is not the joint's purpose"
                )
            }
        }
    }
}

/// The newest revision of the specification that a joint names, or why it does not hold; nothing when it names none.
#[must_use]
pub fn named<'s>(
    joint: &JointAdded,
    shop: &'s Shop,
) -> Option<Result<&'s SpecificationStated, NotInForce<'s>>> {
    let id = &joint.specification.as_ref()?.specification;
    Some(holds(id, joint.target.as_ref(), &joint.purpose, shop))
}

/// The newest revision of a specification, or why it does not hold for a joint of this target and purpose.
///
/// # Errors
/// Why it does not hold.
pub fn holds<'s>(
    id: &SpecificationId,
    target: Option<&Target>,
    purpose: &str,
    shop: &'s Shop,
) -> Result<&'s SpecificationStated, NotInForce<'s>> {
    let kept = shop.specification(id).ok_or(NotInForce::NotKept)?;
    let stated = &*kept.newest.fact;
    let of = |thread: &str| shop.catalogue().thread(thread).map(Thread::id).ok();
    match (&kept.withdrawn, target) {
        (Some(withdrawn), _) => Err(NotInForce::Withdrawn(withdrawn)),
        _ if stated.purpose != purpose => Err(NotInForce::OtherPurpose(&stated.purpose)),
        (_, Some(target)) if of(&target.thread) != of(&stated.thread) => {
            Err(NotInForce::OtherThread(&stated.thread))
        }
        _ => Ok(stated),
    }
}

/// What is wrong with naming a specification that does not hold, as the contract spells the field.
#[must_use]
pub fn not_in_force(named: &Followed, why: NotInForce<'_>) -> Violation {
    let why = format!("specifications/{} {why}", named.specification);
    Violation::new("joint.specification", why)
}

/// The value that holds for a joint.
fn value<'s>(
    joint: &JointAdded,
    published: Option<&'s SpecificationStated>,
    shop: &'s Shop,
) -> Value<'s> {
    if let Some(stated) = published {
        return Value::Published(stated);
    }
    let Some(purpose) = target::purpose(joint) else {
        let why = "no torque: this release does not know what the joint is for";
        return Value::Nothing(why.into());
    };
    if let Some(refusal) = purpose.refusal() {
        let why = format!("NO COMPUTED TORQUE: {} {}", refusal.why, refusal.instead);
        return Value::Nothing(why);
    }
    let Some(wanted) = &joint.target else {
        return Value::Nothing("no torque: nothing is specified for this joint".into());
    };
    match target::question(wanted, purpose, shop.catalogue()) {
        Ok(question) => Value::Computed(Box::new(compute(&question))),
        Err(faults) => {
            let why: Vec<String> = faults.iter().map(ToString::to_string).collect();
            Value::Nothing(format!("no torque: {}", why.join("; ")))
        }
    }
}

/// What a specification asks for, to be kept with what was done to it.
#[must_use]
pub fn wanted(stated: &SpecificationStated) -> WantedByMaker {
    WantedByMaker {
        followed: stated.followed(),
        torque_nm: stated.final_torque().map(|torque| torque.nm),
        minimum_nm: stated.minimum.as_ref().map(|torque| torque.nm),
        maximum_nm: stated.maximum.as_ref().map(|torque| torque.nm),
    }
}
