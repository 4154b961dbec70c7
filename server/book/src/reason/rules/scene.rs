//! What the rules look at: one joint, with what was worked out about it once for all rules.

use super::built::{Seen, see};
use super::{Flag, On, Rule};
use crate::reason::effective::EffectiveJoint;
use crate::reason::shown;
use crate::record::context::Context;
use crate::record::fact::{Decided, FastenerSpec, Removed, SpecificationStated, TappedHole};
use crate::record::ids::{EntryNumber, PositionNumber};
use crate::record::job::{Position, Record};
use crate::record::words::{Criticality, HoleCheck, Severity, TorqueUnit};
use clampbook_engine::thread::System;
use clampbook_engine::{Answer, Catalogue, Grade, Nut, Thread};
use std::cell::OnceCell;

/// One joint under the eyes of the rules.
pub(super) struct Scene<'a> {
    pub(super) joint: &'a EffectiveJoint<'a>,
    /// Who asks, when, and in which shop.
    pub(super) context: &'a Context<'a>,
    /// Unit that torques are told in, and loads beside them.
    pub(super) unit: TorqueUnit,
    pub(super) catalogue: &'a Catalogue,
    /// The published specification in force for it.
    pub(super) published: Option<&'a SpecificationStated>,
    /// Thread the joint was specified for.
    pub(super) thread: Option<&'a Thread>,
    /// Grade the joint was specified for.
    pub(super) grade: Option<&'a Grade>,
    /// Torque the joint asks for, and what goes with it.
    pub(super) answer: Option<Answer<'a>>,
    /// Nut the joint was specified with.
    pub(super) nut: Option<&'a Nut>,
    /// How it is built, checked when the first rule asks.
    built: OnceCell<Vec<Seen<'a>>>,
    /// The one position that is asked about; flags of others are not wanted.
    only: Option<PositionNumber>,
}

/// A position whose fastener came out and was not put back in since it was last judged.
pub(super) struct Case<'a> {
    pub(super) position: &'a Position,
    pub(super) record: &'a Record,
    pub(super) removed: &'a Removed,
    pub(super) decided: Option<&'a Decided>,
}

impl<'a> Scene<'a> {
    pub(super) fn new(
        joint: &'a EffectiveJoint<'a>,
        context: &'a Context<'a>,
        unit: Option<TorqueUnit>,
        only: Option<PositionNumber>,
    ) -> Self {
        let catalogue = &**context.shop.catalogue();
        let question = joint.question();
        // Where no torque is computed, what is published still says which fastener is meant.
        let published = joint.published();
        let thread = published.and_then(|stated| catalogue.thread(&stated.thread).ok());
        let grade = published.and_then(|stated| catalogue.grade(&stated.grade).ok());
        let thread = question.as_ref().map(|q| q.thread()).or(thread);
        Self {
            joint,
            context,
            unit: shown::unit_at(unit, shown::family(thread)),
            catalogue,
            published,
            thread,
            grade: question.as_ref().map(|q| q.grade()).or(grade),
            nut: question.as_ref().and_then(|q| q.nut()),
            answer: question.as_ref().map(clampbook_engine::compute),
            built: OnceCell::new(),
            only,
        }
    }

    /// Family of the joint's thread: lengths are told in its unit.
    pub(super) fn family(&self) -> System {
        shown::family(self.thread)
    }

    pub(super) fn is_a(&self) -> bool {
        self.joint.fact().criticality == Criticality::A
    }

    /// Whether its torque is computed, because none is published.
    pub(super) fn is_computed(&self) -> bool {
        self.answer.is_some() && self.published.is_none()
    }

    /// Torque that the joint is tightened to, in newton metres: published, else computed.
    pub(super) fn torque_nm(&self) -> Option<f64> {
        match self.published {
            Some(stated) => stated.final_torque().map(|torque| torque.nm),
            None => self.answer.map(|answer| answer.torque.get()),
        }
    }

    /// Place of the joint's class in tables by class: A, B, C.
    pub(super) fn class(&self) -> usize {
        match self.joint.fact().criticality {
            Criticality::A => 0,
            Criticality::B => 1,
            Criticality::C => 2,
        }
    }

    /// The tapped hole, if somebody said how the joint is built.
    pub(super) fn tapped(&self) -> Option<&'a TappedHole> {
        self.joint.fact().build.as_ref()?.stack.tapped.as_ref()
    }

    /// The joint as it is built, then each fastener of its own; nothing when nobody said how.
    pub(super) fn built(&self) -> &[Seen<'a>] {
        self.built.get_or_init(|| see(self))
    }

    /// The cases that flags are wanted for.
    pub(super) fn cases(&self) -> impl Iterator<Item = Case<'a>> {
        self.all_cases()
            .filter(|case| self.wants(case.position.number))
    }

    /// Whether flags at a position, or with number 0 on the joint, are wanted.
    pub(super) fn wants(&self, position: PositionNumber) -> bool {
        position == 0 || self.only.is_none_or(|only| only == position)
    }

    /// Positions that something was removed from, with the removal and the decision on it. Where by decision nothing goes in,
    /// there is nothing to judge but that decision.
    pub(super) fn all_cases(&self) -> impl Iterator<Item = Case<'a>> {
        let positions = self.joint.positions().iter();
        positions
            .filter(|p| !p.is_left_out())
            .filter_map(|position| {
                let (record, removed) = position.removal()?;
                Some(Case {
                    position,
                    record,
                    removed,
                    decided: position.decision().map(|(_, decided)| decided),
                })
            })
    }

    /// A flag on the position of a case.
    pub(super) fn flag(
        &self,
        rule: &Rule,
        severity: Severity,
        case: &Case<'_>,
        cause: String,
    ) -> Flag {
        self.raise(
            rule,
            severity,
            case.position.number,
            cause,
            vec![case.record.entry],
        )
    }

    /// A flag on any position, or with number 0 on the joint.
    pub(super) fn raise(
        &self,
        rule: &Rule,
        severity: Severity,
        position: PositionNumber,
        cause: String,
        entries: Vec<EntryNumber>,
    ) -> Flag {
        Flag {
            rule: rule.id,
            severity,
            on: On::Joint(self.joint.fact().joint.clone()),
            position,
            cause,
            clears: rule.cleared_by,
            entries,
        }
    }
}

impl<'a> Case<'a> {
    /// Whether it was decided to replace the fastener, by one that is bought or made.
    pub(super) fn is_replaced(&self) -> bool {
        self.decided.is_some_and(Decided::is_replacement)
    }

    /// Whether a sound bolt was shown to run into the hole by hand.
    pub(super) fn hole_is_proved(&self) -> bool {
        matches!(
            self.decided.and_then(|d| d.hole_check),
            Some(HoleCheck::RunsInByHand | HoleCheck::Chased | HoleCheck::Repaired)
        )
    }

    /// Whether the hole was measured and is within limits.
    pub(super) fn hole_is_measured(&self) -> bool {
        self.decided.and_then(|d| d.hole_check) == Some(HoleCheck::Measured)
    }

    /// The fastener that is to go in, if it is a new one.
    pub(super) fn new_part(&self) -> Option<&'a FastenerSpec> {
        self.position.new_part()
    }

    /// Grade of the fastener that is to go in, as far as it was shown; empty when unknown.
    pub(super) fn grade(&self) -> &'a str {
        self.position.grade()
    }
}
