//! The journal without the network: jobs laid out, stripped and put back through the store itself.

#![allow(dead_code, reason = "each bench uses a part of it")]

use clampbook_book::command::{Command, ImportedRemoval};
use clampbook_book::entry::{Caller, Moment};
use clampbook_book::fact::{
    AssemblyAdded, JobOpened, JointAdded, Layout, Refitted, Removed, Target,
};
use clampbook_book::ids::{AssemblyId, JobId, JointId, PositionNumber};
use clampbook_book::judge::judge;
use clampbook_book::words::{Criticality, HoleKind, Method, Outcome, TorqueUnit};
use clampbook_journal::{Fingerprint, Options, Order, Store, Work};
use std::path::Path;
use std::sync::Arc;
use std::time::Instant;
use uuid::Uuid;

/// Removals per second through the store, `lanes` at once, each lane in a job of its own with `joints` of `positions`.
pub(crate) async fn removals_per_second(
    path: &Path,
    lanes: usize,
    joints: usize,
    positions: usize,
) -> f64 {
    let store = open(path);
    for lane in 0..lanes {
        for command in layout(joints, positions) {
            store.commit(order(lane, command)).await.expect("laid out");
        }
    }
    let start = Instant::now();
    let running: Vec<_> = (0..lanes)
        .map(|lane| {
            let store = store.clone();
            tokio::spawn(async move {
                for n in 0..joints * positions {
                    store
                        .commit(order(lane, removal(n, positions)))
                        .await
                        .expect("it is out");
                }
            })
        })
        .collect();
    for lane in running {
        lane.await.expect("a lane");
    }
    let rate = (lanes * joints * positions) as f64 / start.elapsed().as_secs_f64();
    store.stop().await;
    rate
}

/// Opens a journal.
pub(crate) fn open(path: &Path) -> Store {
    let clock = Arc::new(|| Moment(1_800_000_000_000_000));
    Store::open(Options::new(path, Box::new(judge), clock)).expect("a journal")
}

/// The job with this number.
pub(crate) fn job(number: usize) -> JobId {
    JobId::new(&format!("bench-{number}")).expect("a slug")
}

/// All that is said about a job: laid out, stripped by one import, and so many positions put back; so many entries.
pub(crate) fn whole_job(
    joints: usize,
    positions: usize,
    back: usize,
) -> impl Iterator<Item = Command> {
    let stripped = (0..joints * positions).map(|n| ImportedRemoval {
        line: n as u64 + 2,
        removed: removed(n, positions),
    });
    layout(joints, positions)
        .chain([Command::ImportRemovals(stripped.collect())])
        .chain((0..back).map(move |n| Command::LogRefit(refitted(n, positions))))
}

/// An order about a job.
#[expect(
    clippy::disallowed_methods,
    reason = "a machine that is measured has a clock"
)]
pub(crate) fn order(number: usize, command: Command) -> Order {
    Order {
        work: Work::Job(job(number), command),
        request: Uuid::now_v7(),
        fingerprint: Fingerprint::default(),
        caller: Caller {
            person: "local person".into(),
            device: "this machine".into(),
        },
        said: None,
        blob: None,
    }
}

fn layout(joints: usize, positions: usize) -> impl Iterator<Item = Command> {
    let assembly = AssemblyId::new("hub").expect("a slug");
    let opened = Command::OpenJob(JobOpened {
        display_name: "Bench".into(),
        machine: String::new(),
        torque_unit: Some(TorqueUnit::NewtonMetre),
    });
    let hub = Command::AddAssembly(AssemblyAdded {
        assembly: assembly.clone(),
        display_name: "Hub".into(),
        counterpart: None,
    });
    let plates = (0..joints).map(move |n| {
        Command::AddJoint(JointAdded {
            joint: plate(n),
            assembly: assembly.clone(),
            display_name: "Plate".into(),
            layout: Layout::Ring,
            labels: vec![String::new(); positions],
            criticality: Criticality::B,
            hole_kind: HoleKind::TappedThrough,
            purpose: "clamping".into(),
            target: Some(Target {
                thread: "7/16-20 UNF".into(),
                grade: "SAE J429 5".into(),
                lubrication: "oiled".into(),
                proof_share: None,
                clamp_load_n: None,
                nut_factor: None,
                nut_grade: None,
                baked: false,
            }),
            lock: String::new(),
            preparation: String::new(),
            computed_torque_approver: String::new(),
            build: None,
            specification: None,
        })
    });
    [opened, hub].into_iter().chain(plates)
}

fn removal(n: usize, positions: usize) -> Command {
    Command::LogRemoval(removed(n, positions))
}

fn removed(n: usize, positions: usize) -> Removed {
    Removed {
        joint: plate(n / positions),
        position: PositionNumber::try_from(n % positions).expect("small") + 1,
        outcome: Outcome::Normal,
        ticks: Vec::new(),
        methods: vec![Method::Hand],
        heat_colour: None,
        heated_place: String::new(),
        thread: String::new(),
        length: None,
        head_marking: String::new(),
        grade: "SAE J429 5".into(),
        breakaway: None,
        kept_in: "bag 2".into(),
        note: String::new(),
        assembled: None,
    }
}

fn refitted(n: usize, positions: usize) -> Refitted {
    let position = PositionNumber::try_from(n % positions).expect("small") + 1;
    Refitted {
        note: "by hand, to the shoulder".into(),
        ..Refitted::new(plate(n / positions), position)
    }
}

fn plate(n: usize) -> JointId {
    JointId::new(&format!("plate-{n}")).expect("a slug")
}
