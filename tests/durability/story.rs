//! The story of the fixture: two jobs in which everything is said once that can be said.
//!
//! It was told once, and the journal of it is kept for ever. It is not told anew while the schema stays what it is.

use crate::parts::{
    at, bolt, brake_plate, decision, fought_back, hole, joint, plain, refit, replaced,
};
use crate::teller::Teller;
use clampbook_api::v1 as wire;
use tonic::transport::Channel;
use wire::correct_entry_request::Correction;
use wire::removal::LengthSeen;

/// The jobs of the story.
pub(crate) const JOBS: [&str; 2] = ["jobs/orchard-tractor", "jobs/hay-press"];

/// Tells it.
pub(crate) async fn tell(channel: Channel) {
    let mut teller = Teller::new(channel);
    teller.lays_out_the_tractor().await;
    teller.strips_the_tractor().await;
    teller.person = "%C5%BDofie";
    teller.decides_and_refits().await;
    teller.corrects().await;
    teller.person = "Tomas";
    teller.opens_the_press().await;
}

impl Teller {
    async fn lays_out_the_tractor(&mut self) {
        let job = wire::Job {
            display_name: "Orchard tractor, front axle".into(),
            machine: "Narrow orchard tractor, petrol".into(),
            torque_unit: wire::TorqueUnit::PoundForceFoot.into(),
            ..Default::default()
        };
        self.job("orchard-tractor", job).await;
        self.assembly(JOBS[0], "left-hub", "Left front hub", "")
            .await;
        self.assembly(JOBS[0], "right-hub", "Right front hub", "left-hub")
            .await;
        let brake_plate = brake_plate("brake plate to knuckle");
        self.joint(JOBS[0], "brake-plate", brake_plate).await;
        let nut = wire::Joint {
            positions: vec![wire::Position::default()],
            layout: wire::Layout::Single.into(),
            criticality: wire::Criticality::A.into(),
            hole_kind: wire::HoleKind::Stud.into(),
            purpose: wire::Purpose::WheelBearing.into(),
            lock: "split pin 5/32 in, new".into(),
            ..joint("left-hub", "bearing nut")
        };
        self.joint(JOBS[0], "bearing-nut", nut).await;
        let cover = wire::Joint {
            positions: vec![wire::Position::default(); 6],
            layout: wire::Layout::Grid.into(),
            row_count: 2,
            criticality: wire::Criticality::C.into(),
            hole_kind: wire::HoleKind::TappedBlind.into(),
            target: Some(wire::JointTarget {
                thread: "M8x1.25".into(),
                grade: "8.8".into(),
                nut_factor: Some(0.21),
                proof_share: Some(0.6),
                ..Default::default()
            }),
            ..joint("right-hub", "cover to hub")
        };
        self.joint(JOBS[0], "cover", cover).await;
        let arm = wire::Joint {
            positions: vec![hole("front"), hole("rear")],
            layout: wire::Layout::Line.into(),
            criticality: wire::Criticality::B.into(),
            hole_kind: wire::HoleKind::Through.into(),
            target: Some(wire::JointTarget {
                thread: "1/2-20 UNF".into(),
                grade: "SAE J429 8".into(),
                condition: "oiled".into(),
                clamp_load_n: Some(40_000.0),
                nut_grade: Some("J995 8".into()),
                ..Default::default()
            }),
            ..joint("right-hub", "steering arm to knuckle")
        };
        self.joint(JOBS[0], "steering-arm", arm).await;
    }

    async fn strips_the_tractor(&mut self) {
        let alike = wire::LogAlikeRemovalsRequest {
            joint: at("cover"),
            positions: vec![1, 2, 3],
            condition: wire::RemovalCondition::Stiff.into(),
            means: vec![wire::RemovalMeans::LongBar.into()],
            kept_in: "tin 2".into(),
            request_id: self.id(),
            ..Default::default()
        };
        let alike = self.say(alike);
        let answer = self.jobs.log_alike_removals(alike).await;
        answer.expect("they are out");
        let list = wire::ImportRemovalsRequest {
            parent: JOBS[0].into(),
            csv: "joint,position,condition,means,ticks,length,kept_in,note\n\
                  cover,4,broken-before,drilled;extractor-or-welded-nut,,,,half of it was gone\n\
                  cover,5,normal,hand,fretted;lock-missing,45 mm,tin 2,\n\
                  bearing-nut,1,normal,hand,,,nail in the wall,\"finger tight, as it should\"\n"
                .into(),
            request_id: self.id(),
            ..Default::default()
        };
        let list = self.say(list);
        let answer = self.jobs.import_removals(list).await;
        answer.expect("the list is taken");
        for position in [1, 2] {
            self.removal(plain("brake-plate", position)).await;
        }
        self.removal(fought_back()).await;
        let shorter = wire::Removal {
            length_seen: Some(LengthSeen::LengthCompared(
                wire::LengthCompared::Shorter.into(),
            )),
            ..plain("brake-plate", 4)
        };
        self.removal(shorter).await;
        let loose = wire::Removal {
            condition: wire::RemovalCondition::LooseOnArrival.into(),
            grade: String::new(),
            marking: "none".into(),
            ..plain("steering-arm", 1)
        };
        self.removal(loose).await;
    }

    async fn decides_and_refits(&mut self) {
        self.decision(replaced("heated red")).await;
        let shown = wire::Decision {
            disposition: wire::Disposition::CleanAndReuse.into(),
            replacement: None,
            hole_check: wire::HoleCheck::Measured.into(),
            grade_shown: "SAE J429 8".into(),
            citation: "hardness readings, 34 to 36 HRC".into(),
            ..decision("steering-arm", 1, "hole measured and within limits")
        };
        self.decision(shown).await;
        let tight = wire::Refit {
            tightness: wire::Tightness::Final.into(),
            torque_reading: "50 lbf·ft".into(),
            tool: "click wrench 2".into(),
            ..refit(1)
        };
        self.refit(tight).await;
        let new = wire::Refit {
            fitted_part: wire::FittedPart::New.into(),
            new_part: Some(bolt("1-3/4 in")),
            note: "bracket under its head".into(),
            ..refit(3)
        };
        self.refit(new).await;
    }

    async fn corrects(&mut self) {
        let removal = self.removal(plain("steering-arm", 2)).await;
        let longer = wire::Removal {
            length_seen: Some(LengthSeen::Length("2-1/4 in".into())),
            ..plain("steering-arm", 2)
        };
        self.correction(&removal, Correction::Removal(longer), "measured again")
            .await;
        let reuse = decision("brake-plate", 2, "sound as it looks");
        let decided = self.decision(reuse).await;
        let other = wire::Decision {
            disposition: wire::Disposition::CleanAndReuse.into(),
            ..decision("brake-plate", 2, "sound, but for the paint on it")
        };
        self.correction(
            &decided,
            Correction::Decision(other),
            "there was paint on it",
        )
        .await;
        let refitted = self.refit(refit(2)).await;
        let snug = wire::Refit {
            tightness: wire::Tightness::Started.into(),
            ..refit(2)
        };
        self.correction(&refitted, Correction::Refit(snug), "only by hand yet")
            .await;
        self.correction(
            &refitted,
            Correction::Withdrawn(true),
            "it was another plate",
        )
        .await;
        let described = wire::Joint {
            name: at("brake-plate"),
            ..brake_plate("brake back plate to knuckle")
        };
        let first = format!("{}/entries/4", JOBS[0]);
        self.correction(
            &first,
            Correction::Joint(described),
            "as the parts book calls it",
        )
        .await;
    }

    async fn opens_the_press(&mut self) {
        let job = wire::Job {
            display_name: "Hay press – knotter and needles".into(),
            torque_unit: wire::TorqueUnit::KilogramForceMetre.into(),
            ..Default::default()
        };
        self.job("hay-press", job).await;
        self.assembly(JOBS[1], "knotter", "Knotter", "").await;
    }
}
