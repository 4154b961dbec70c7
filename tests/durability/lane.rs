//! A lane: one person who takes a joint apart and says so, one thing after the other, until cut off.

use crate::ask::{Answer, Ask, job_etag};
use crate::dice::Dice;
use crate::ledger::Ledger;
use clampbook_api::v1 as wire;
use clampbook_api::v1::correct_entry_request::Correction;
use std::sync::Arc;
use tonic::transport::Channel;

/// Positions of a lane's joint.
pub(crate) const POSITIONS: i32 = 40;

/// One person at one joint.
#[derive(Debug)]
pub(crate) struct Lane {
    pub(crate) number: usize,
    /// Id of the job.
    pub(crate) job: String,
    /// Id of the joint, which is this lane's alone.
    pub(crate) joint: String,
    pub(crate) channel: Channel,
    pub(crate) ledger: Arc<Ledger>,
    pub(crate) dice: Dice,
    /// Positions that are out.
    pub(crate) out: i32,
    /// Removals that nothing was said about since.
    pub(crate) bare: Vec<Bare>,
}

/// A removal that nothing was said about since.
#[derive(Debug)]
pub(crate) struct Bare {
    position: i32,
    entry: String,
    etag: String,
}

/// The call was cut off.
pub(crate) struct CutOff;

impl Lane {
    /// Goes on until everything is out or a call is cut off.
    pub(crate) async fn work(mut self) {
        while self.out < POSITIONS {
            if self.step().await.is_err() {
                return;
            }
        }
    }

    async fn step(&mut self) -> Result<(), CutOff> {
        match self.dice.between(0, 9) {
            0..=2 => self.removal().await,
            3..=4 => self.alike().await,
            5..=6 => self.import().await,
            choice => match self.bare.pop() {
                Some(bare) if choice == 9 => self.correction(bare).await,
                Some(bare) => self.decision(bare).await,
                None => self.removal().await,
            },
        }
    }

    async fn removal(&mut self) -> Result<(), CutOff> {
        let position = self.next_positions(1)[0];
        let ask = Ask::Removal(wire::LogRemovalRequest {
            removal: Some(self.removed(position, "came out")),
            request_id: self.dice.id(),
            said_time: None,
        });
        let answer = self.tell(ask).await?;
        self.bare.push(Bare {
            position,
            entry: answer.entries[0].clone(),
            etag: answer.etag,
        });
        Ok(())
    }

    async fn alike(&mut self) -> Result<(), CutOff> {
        let ask = Ask::Alike(wire::LogAlikeRemovalsRequest {
            joint: self.joint_name(),
            positions: self.several_positions(),
            outcome: wire::RemovalOutcome::Normal.into(),
            methods: vec![wire::RemovalMethod::Hand.into()],
            kept_in: format!("tin {}", self.number),
            request_id: self.dice.id(),
            ..Default::default()
        });
        self.tell(ask).await.map(drop)
    }

    async fn import(&mut self) -> Result<(), CutOff> {
        let mut csv = "joint,position,outcome,note\n".to_owned();
        for position in self.several_positions() {
            csv += &format!("{},{position},stiff,from the list\n", self.joint);
        }
        let ask = Ask::Import(wire::ImportRemovalsRequest {
            parent: format!("jobs/{}", self.job),
            csv,
            validate_only: false,
            request_id: self.dice.id(),
            said_time: None,
        });
        self.tell(ask).await.map(drop)
    }

    async fn decision(&mut self, bare: Bare) -> Result<(), CutOff> {
        let ask = Ask::Decision(wire::LogDecisionRequest {
            decision: Some(wire::Decision {
                joint: self.joint_name(),
                position: bare.position,
                kind: wire::DecisionKind::Reuse.into(),
                reason: format!("nothing wrong with {}", bare.position),
                ..Default::default()
            }),
            etag: bare.etag,
            request_id: self.dice.id(),
            said_time: None,
        });
        self.tell(ask).await.map(drop)
    }

    async fn correction(&mut self, bare: Bare) -> Result<(), CutOff> {
        let mut ask = wire::CorrectEntryRequest {
            entry: bare.entry,
            correction: Some(Correction::Removal(
                self.removed(bare.position, "came out, on second thoughts"),
            )),
            reason: "misheard".into(),
            etag: String::new(),
            request_id: self.dice.id(),
            said_time: None,
        };
        match job_etag(&self.channel, &format!("jobs/{}", self.job)).await {
            Ok(etag) => ask.etag = etag,
            Err(status) => {
                self.ledger.cut_off(&Ask::Correction(ask), &status);
                return Err(CutOff);
            }
        }
        self.tell(Ask::Correction(ask)).await.map(drop)
    }

    /// Says something, and writes down that it is said and that it is acknowledged.
    pub(crate) async fn tell(&mut self, mut ask: Ask) -> Result<Answer, CutOff> {
        let place = self.ledger.sent(self.number, ask.clone());
        match ask.insist(&self.channel).await {
            Ok(answer) => {
                self.ledger.acknowledged(place, answer.clone());
                Ok(answer)
            }
            Err(status) => {
                self.ledger.cut_off(&ask, &status);
                Err(CutOff)
            }
        }
    }

    fn removed(&self, position: i32, note: &str) -> wire::Removal {
        wire::Removal {
            joint: self.joint_name(),
            position,
            outcome: wire::RemovalOutcome::Normal.into(),
            note: format!("{position} of {} {note}", self.joint),
            ..Default::default()
        }
    }

    pub(crate) fn joint_name(&self) -> String {
        format!("jobs/{}/joints/{}", self.job, self.joint)
    }

    fn several_positions(&mut self) -> Vec<i32> {
        let count = self.dice.between(2, 6);
        self.next_positions(i32::try_from(count).expect("a few"))
    }

    fn next_positions(&mut self, count: i32) -> Vec<i32> {
        let first = self.out + 1;
        self.out = POSITIONS.min(self.out + count);
        (first..=self.out).collect()
    }
}
