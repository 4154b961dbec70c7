//! That rules can be said which look at who asks and at the time, on a joint and on a whole job.

use super::{Flag, Looks, On, Rule, check, check_job};
use crate::reason::effective::EffectiveJoint;
use crate::reason::rules::scene::Scene;
use crate::record::context::Context;
use crate::record::entry::{Caller, Entry, Moment, Said};
use crate::record::fact::{Fact, JointAdded, Layout, Removed};
use crate::record::ids::{AssemblyId, JobId, JointId};
use crate::record::job::Job;
use crate::record::shop::Shop;
use crate::record::speaker::Speaker;
use crate::record::stream::Stream;
use crate::record::words::{Criticality, HoleKind, Outcome, Severity};

const HOUR: i64 = 3_600_000_000;

/// Until another person than the one who took it out looks at it.
const ANOTHER_PERSON: Rule = Rule {
    id: "another-person",
    title: "Looked at by another person",
    raised_when: "Who asks took it out themselves.",
    cleared_by: "Another person.",
    source: "test",
    looks: Looks::Joint(another_person),
};

/// Once nothing was written for half a day.
const IDLE: Rule = Rule {
    id: "idle",
    title: "Idle",
    raised_when: "Nothing was written for 12 hours.",
    cleared_by: "Any entry.",
    source: "test",
    looks: Looks::Job(idle),
};

fn another_person(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        if !scene.context.by.is_another_than(&case.record.said.by) {
            flags.push(scene.flag(rule, Severity::Caution, &case, "the same person".into()));
        }
    }
}

fn idle(job: &Job, context: &Context<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    if context.now.0 - job.updated.0 > 12 * HOUR {
        flags.push(Flag {
            rule: rule.id,
            severity: Severity::Note,
            on: On::Assembly(AssemblyId::new("left").expect("an id")),
            position: 0,
            cause: "idle".into(),
            clears: rule.cleared_by,
            entries: vec![job.last],
        });
    }
}

fn person(name: &str) -> Caller {
    Caller {
        person: name.into(),
        device: "tablet".into(),
    }
}

/// A job whose one fastener came out by Ida's hand at the beginning of time.
fn job() -> Job {
    let id = JobId::new("orchard-tractor").expect("an id");
    let joint = JointId::new("plate").expect("an id");
    let mut job = Job::new(id.clone());
    let facts = [
        Fact::JointAdded(JointAdded {
            joint: joint.clone(),
            assembly: AssemblyId::new("left").expect("an id"),
            display_name: "brake plate".into(),
            criticality: Criticality::A,
            labels: vec![String::new()],
            layout: Layout::Single,
            hole_kind: HoleKind::Through,
            purpose: "clamping".into(),
            target: None,
            lock: String::new(),
            preparation: String::new(),
            computed_torque_approver: String::new(),
            build: None,
            specification: None,
        }),
        Fact::Removed(Removed::new(joint, 1, Outcome::Normal)),
    ];
    for (number, fact) in (1..).zip(facts) {
        job.apply(&Entry {
            stream: Stream::Job(id.clone()),
            number,
            said: Said {
                by: Speaker::called("Ida".into()),
                device: "tablet".into(),
                said: Moment(0),
                written: Moment(0),
            },
            fact,
        });
    }
    job
}

#[test]
fn a_rule_may_ask_for_another_person() {
    let (job, shop) = (job(), Shop::new());
    let joint = job.joints.iter().next().expect("a joint");
    let joint = EffectiveJoint::new(joint, &shop);
    let raised = |name: &str| {
        let who = person(name);
        let context = Context::asked(&who, Moment(0), &shop);
        check(
            &[&ANOTHER_PERSON],
            &Scene::new(&joint, &context, None, None),
        )
        .len()
    };
    assert_eq!((raised("Ida"), raised("Otto")), (1, 0));
}

#[test]
fn a_rule_may_ask_how_long_nothing_happened() {
    let (job, shop, who) = (job(), Shop::new(), person("Ida"));
    let raised = |hours: i64| {
        let context = Context::asked(&who, Moment(hours * HOUR), &shop);
        check_job(&[&IDLE], &job, &context).len()
    };
    assert_eq!((raised(12), raised(13)), (0, 1));
}
