//! A joint at hand, and the parts that are ordinary there.

use clampbook_api::v1::removal::LengthSeen;
use clampbook_api::v1::{self as wire, Criticality, DecisionKind, RemovalOutcome, TighteningStep};

use super::{Say, Shop, fresh_id};

/// What an ordinary joint is.
pub(crate) fn ordinary_joint(job: &str, id: &str) -> wire::Joint {
    wire::Joint {
        assembly: format!("{job}/assemblies/hub"),
        display_name: format!("The {id}"),
        layout: wire::Layout::Ring.into(),
        positions: vec![wire::Position::default(); 4],
        criticality: Criticality::B.into(),
        hole_kind: wire::HoleKind::TappedThrough.into(),
        target: Some(wire::JointTarget {
            thread: "7/16-20 UNF".into(),
            grade: "SAE J429 5".into(),
            lubrication: "oiled".into(),
            ..Default::default()
        }),
        ..Default::default()
    }
}

/// A joint of the shop.
pub(crate) struct JointAt<'s> {
    pub(super) shop: &'s Shop,
    pub(crate) name: String,
}

impl<'s> JointAt<'s> {
    /// Says how the fastener of a hole came out: marked and measured like its neighbours.
    pub(crate) fn takes_out(
        &self,
        hole: i32,
        outcome: RemovalOutcome,
    ) -> Say<'s, wire::LogRemovalRequest, wire::LogRemovalResponse> {
        let request = wire::LogRemovalRequest {
            removal: Some(removal(&self.name, hole, outcome)),
            request_id: fresh_id(),
            said_time: None,
        };
        Say::new(self.shop, request, |shop, request| {
            Box::pin(async move { shop.jobs().log_removal(request).await })
        })
    }

    /// Says that all holes came out well.
    pub(crate) async fn comes_apart(&self) {
        for hole in 1..=self.hole_count().await {
            self.takes_out(hole, RemovalOutcome::Normal).await;
        }
    }

    /// Decides on the fastener of a hole. The etag is the position's as it stands.
    pub(crate) async fn decides(
        &self,
        hole: i32,
        kind: DecisionKind,
    ) -> Say<'s, wire::LogDecisionRequest, wire::LogDecisionResponse> {
        let replacement = (kind == DecisionKind::Replace).then(new_bolt);
        let request = wire::LogDecisionRequest {
            decision: Some(wire::Decision {
                joint: self.name.clone(),
                position: hole,
                kind: kind.into(),
                replacement,
                reason: "looked at it twice".into(),
                ..Default::default()
            }),
            etag: self.hole(hole).await.etag,
            request_id: fresh_id(),
            said_time: None,
        };
        Say::new(self.shop, request, |shop, request| {
            Box::pin(async move { shop.jobs().log_decision(request).await })
        })
    }

    /// Puts the original back into a hole.
    pub(crate) fn puts_back(
        &self,
        hole: i32,
    ) -> Say<'s, wire::LogRefitRequest, wire::LogRefitResponse> {
        let request = wire::LogRefitRequest {
            refit: Some(wire::Refit {
                joint: self.name.clone(),
                position: hole,
                fitted_part: wire::FittedPart::Original.into(),
                ..Default::default()
            }),
            request_id: fresh_id(),
            said_time: None,
        };
        Say::new(self.shop, request, |shop, request| {
            Box::pin(async move { shop.jobs().log_refit(request).await })
        })
    }

    /// Tightens what is in.
    pub(crate) fn tightens(
        &self,
        holes: &[i32],
        step: TighteningStep,
    ) -> Say<'s, wire::LogTighteningRequest, wire::LogTighteningResponse> {
        let request = wire::LogTighteningRequest {
            joint: self.name.clone(),
            positions: holes.to_vec(),
            step: step.into(),
            request_id: fresh_id(),
            ..Default::default()
        };
        Say::new(self.shop, request, |shop, request| {
            Box::pin(async move { shop.jobs().log_tightening(request).await })
        })
    }

    /// Brings what is in to its final torque, with a reading and the wrench that it was read on.
    pub(crate) async fn is_read(&self, hole: i32, reading: &str) -> wire::LogTighteningResponse {
        self.tightens(&[hole], TighteningStep::Final)
            .request(|said| {
                said.torque_reading = reading.into();
                said.tool = "click wrench 2".into();
            })
            .await
    }

    /// Puts the original back into a hole and brings it to its final torque.
    pub(crate) async fn goes_back(&self, hole: i32) -> wire::LogTighteningResponse {
        self.puts_back(hole).await;
        self.tightens(&[hole], TighteningStep::Final).await
    }

    /// The joint as it stands.
    pub(crate) async fn look(&self) -> wire::Joint {
        let request = wire::GetJointRequest {
            name: self.name.clone(),
        };
        self.shop
            .jobs()
            .get_joint(request)
            .await
            .expect("the joint")
            .into_inner()
    }

    /// One hole as it stands.
    pub(crate) async fn hole(&self, number: i32) -> wire::Position {
        let joint = self.look().await;
        let found = joint.positions.into_iter().find(|p| p.number == number);
        found.expect("the joint has this hole")
    }

    async fn hole_count(&self) -> i32 {
        i32::try_from(self.look().await.positions.len()).expect("a few")
    }
}

/// How a fastener came out, marked and measured like its neighbours.
pub(crate) fn removal(joint: &str, hole: i32, outcome: RemovalOutcome) -> wire::Removal {
    wire::Removal {
        joint: joint.into(),
        position: hole,
        outcome: outcome.into(),
        length_seen: Some(LengthSeen::Length("1-1/4 in".into())),
        grade: "SAE J429 5".into(),
        ..Default::default()
    }
}

/// A new bolt as the ordinary joint wants it.
pub(crate) fn new_bolt() -> wire::FastenerSpec {
    wire::FastenerSpec {
        thread: "7/16-20".into(),
        length: "1-1/4 in".into(),
        grade: "SAE J429 5".into(),
        ..Default::default()
    }
}
