//! A crew: several lanes at fresh jobs of one server, all at once, and photographers among them.

use crate::ask::Ask;
use crate::dice::Dice;
use crate::lane::{Lane, POSITIONS};
use crate::ledger::Ledger;
use crate::photo::BreaksOff;
use crate::server::{Server, in_time};
use clampbook_api::v1 as wire;
use std::sync::Arc;
use tokio::sync::oneshot;
use tokio::task::JoinSet;
use tonic::transport::Channel;

const LANES: usize = 8;
const JOBS: usize = 2;
const CONNECTIONS: usize = 4;

/// Those who take photos. With those whose photos break off they are fewer than the server takes photos at once.
const PHOTOGRAPHERS: usize = 1;

/// Who lays out, then who takes photos, then whose photos break off, are numbered on from the lanes.
const LAYS_OUT: usize = LANES;
const PHOTOGRAPHS: usize = LAYS_OUT + 1;
const BREAKS_OFF: usize = PHOTOGRAPHS + PHOTOGRAPHERS;

/// Lanes at work.
#[derive(Debug)]
pub(crate) struct Crew {
    pub(crate) ledger: Arc<Ledger>,
    connections: Vec<Channel>,
    round: usize,
    lanes: JoinSet<()>,
}

impl Crew {
    /// Opens jobs named after `round`, and lets all lanes begin.
    pub(crate) async fn begin(server: &Server, round: usize, dice: &mut Dice) -> Self {
        let ledger = Arc::new(Ledger::new());
        let connections: Vec<Channel> = (0..CONNECTIONS).map(|_| server.connect()).collect();
        for job in 0..JOBS {
            lay_out(&connections[0], &ledger, &job_id(round, job), dice).await;
        }
        let mut crew = Self {
            ledger,
            connections,
            round,
            lanes: JoinSet::new(),
        };
        for number in 0..LANES {
            let lane = crew.lane(number, number, dice);
            crew.lanes.spawn(lane.work());
        }
        for number in 0..PHOTOGRAPHERS {
            let lane = crew.lane(PHOTOGRAPHS + number, number, dice);
            crew.lanes.spawn(lane.photograph());
        }
        crew
    }

    /// Somebody with a number at the joint of a lane.
    fn lane(&self, number: usize, joint: usize, dice: &mut Dice) -> Lane {
        Lane {
            number,
            job: job_id(self.round, joint % JOBS),
            joint: joint_id(joint),
            channel: self.connections[number % CONNECTIONS].clone(),
            ledger: Arc::clone(&self.ledger),
            dice: dice.fork(),
            out: 0,
            bare: Vec::new(),
        }
    }

    /// Sends some of a photo for each place where one may break off, and waits until that is on its way.
    pub(crate) async fn photos_break_off(&mut self, dice: &mut Dice) {
        let mut on_their_way = Vec::new();
        for (number, place) in BreaksOff::ALL.into_iter().enumerate() {
            let (sent, on_its_way) = oneshot::channel();
            let lane = self.lane(BREAKS_OFF + number, number, dice);
            self.lanes.spawn(lane.break_off(place, sent));
            on_their_way.push(on_its_way);
        }
        for on_its_way in on_their_way {
            let sent = in_time("some of a photo to be sent", on_its_way).await;
            sent.expect("it is not refused");
        }
    }

    /// Waits for so many acknowledgements on top of those there are.
    pub(crate) async fn acknowledged(&self, more: usize) {
        let count = self.ledger.acknowledged_count() + more;
        in_time("acknowledgements", self.ledger.reaches(count)).await;
    }

    /// Waits until every lane has ended, and gives what they wrote down.
    pub(crate) async fn ends(self) -> Arc<Ledger> {
        in_time("the lanes to end", self.lanes.join_all()).await;
        self.ledger
    }
}

async fn lay_out(channel: &Channel, ledger: &Ledger, job: &str, dice: &mut Dice) {
    let parent = format!("jobs/{job}");
    let mut asks = vec![
        Ask::Job(wire::CreateJobRequest {
            job_id: job.into(),
            job: Some(wire::Job {
                display_name: format!("Strip-down {job}"),
                ..Default::default()
            }),
            request_id: dice.id(),
            said_time: None,
        }),
        Ask::Assembly(wire::CreateAssemblyRequest {
            parent: parent.clone(),
            assembly_id: "hub".into(),
            assembly: Some(wire::Assembly {
                display_name: "Front hub".into(),
                ..Default::default()
            }),
            request_id: dice.id(),
            said_time: None,
        }),
    ];
    let own = (0..LANES).filter(|lane| job.ends_with(&format!("-{}", lane % JOBS)));
    asks.extend(own.map(|lane| {
        Ask::Joint(wire::CreateJointRequest {
            parent: parent.clone(),
            joint_id: joint_id(lane),
            joint: Some(joint(&parent)),
            request_id: dice.id(),
            said_time: None,
        })
    }));
    for ask in asks {
        let place = ledger.sent(LAYS_OUT, ask.clone());
        let answer = ask.send(channel).await.expect("it is laid out");
        ledger.acknowledged(place, answer);
    }
}

fn joint(job: &str) -> wire::Joint {
    wire::Joint {
        assembly: format!("{job}/assemblies/hub"),
        display_name: "flange".into(),
        layout: wire::Layout::Line.into(),
        positions: vec![wire::Position::default(); usize::try_from(POSITIONS).expect("a few")],
        criticality: wire::Criticality::C.into(),
        hole_kind: wire::HoleKind::Through.into(),
        target: Some(wire::JointTarget {
            thread: "7/16-20 UNF".into(),
            grade: "SAE J429 5".into(),
            lubrication: "oiled".into(),
            ..Default::default()
        }),
        ..Default::default()
    }
}

fn job_id(round: usize, job: usize) -> String {
    format!("round-{round}-{job}")
}

fn joint_id(lane: usize) -> String {
    format!("flange-{lane}")
}
