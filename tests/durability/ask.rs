//! Requests of a strip-down: how each is sent, what it must leave in the journal, and what of its answer never changes.

use crate::photo::Photo;
use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::{reason, v1 as wire};
use serde_json::{Value, json};
use tonic::Status;
use tonic::transport::Channel;
use tonic_types::StatusExt;
use wire::correct_entry_request::Correction;

/// A request that changes something.
#[derive(Clone, Debug)]
pub(crate) enum Ask {
    Job(wire::CreateJobRequest),
    Assembly(wire::CreateAssemblyRequest),
    Joint(wire::CreateJointRequest),
    Removal(wire::LogRemovalRequest),
    Alike(wire::LogAlikeRemovalsRequest),
    Import(wire::ImportRemovalsRequest),
    Decision(wire::LogDecisionRequest),
    Correction(wire::CorrectEntryRequest),
    Photo(Photo),
}

/// What of an answer must be the same whenever the request is sent again.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answer {
    /// Entries it names.
    pub(crate) entries: Vec<String>,
    pub(crate) etag: String,
    /// All else, without the flags that are open now.
    pub(crate) content: String,
}

impl Ask {
    /// Its request id.
    pub(crate) fn id(&self) -> &str {
        match self {
            Self::Job(r) => &r.request_id,
            Self::Assembly(r) => &r.request_id,
            Self::Joint(r) => &r.request_id,
            Self::Removal(r) => &r.request_id,
            Self::Alike(r) => &r.request_id,
            Self::Import(r) => &r.request_id,
            Self::Decision(r) => &r.request_id,
            Self::Correction(r) => &r.request_id,
            Self::Photo(r) => &r.request_id,
        }
    }

    /// Sends it.
    pub(crate) async fn send(&self, channel: &Channel) -> Result<Answer, Status> {
        let mut jobs = JobServiceClient::new(channel.clone());
        let named = |name: String| Answer {
            entries: Vec::new(),
            etag: String::new(),
            content: name,
        };
        Ok(match self.clone() {
            // Of these three the answer is what there is now, which goes on changing.
            Self::Job(r) => named(jobs.create_job(r).await?.into_inner().name),
            Self::Assembly(r) => named(jobs.create_assembly(r).await?.into_inner().name),
            Self::Joint(r) => named(jobs.create_joint(r).await?.into_inner().name),
            Self::Removal(r) => {
                let answer = jobs.log_removal(r).await?.into_inner();
                let removal = answer.removal.expect("the removal");
                Answer {
                    entries: vec![removal.entry.clone()],
                    etag: answer.etag,
                    content: format!("{removal:?}"),
                }
            }
            Self::Alike(r) => {
                let removals = jobs.log_alike_removals(r).await?.into_inner().removals;
                Answer {
                    entries: removals.iter().map(|r| r.entry.clone()).collect(),
                    etag: String::new(),
                    content: format!("{removals:?}"),
                }
            }
            Self::Import(r) => {
                let answer = jobs.import_removals(r).await?.into_inner();
                named(format!("{} removals", answer.removal_count))
            }
            Self::Decision(r) => {
                let answer = jobs.log_decision(r).await?.into_inner();
                let decision = answer.decision.expect("the decision");
                Answer {
                    entries: vec![decision.entry.clone()],
                    etag: answer.etag,
                    content: format!("{decision:?}"),
                }
            }
            Self::Correction(r) => {
                let answer = jobs.correct_entry(r).await?.into_inner();
                let entry = answer.entry.expect("the entry");
                Answer {
                    entries: vec![entry.name.clone()],
                    etag: answer.etag,
                    content: format!("{entry:?}"),
                }
            }
            Self::Photo(r) => r.send(channel).await?,
        })
    }

    /// Sends it; a correction that came too late for its etag is sent again with the newest one, under the same id.
    pub(crate) async fn insist(&mut self, channel: &Channel) -> Result<Answer, Status> {
        loop {
            match (self.send(channel).await, &mut *self) {
                (Err(status), Self::Correction(r)) if says(&status, reason::ETAG_STALE) => {
                    let job = r.entry.split("/entries/").next().unwrap_or_default();
                    r.etag = job_etag(channel, job).await?;
                }
                (answer, _) => return answer,
            }
        }
    }

    /// Bodies of the entries it makes, in order.
    pub(crate) fn bodies(&self) -> Vec<Value> {
        match self {
            Self::Job(r) => {
                let job = r.job.as_ref().expect("a job");
                vec![json!({"v": 1, "kind": "job-opened", "display_name": job.display_name})]
            }
            Self::Assembly(r) => {
                let assembly = r.assembly.as_ref().expect("an assembly");
                vec![
                    json!({"v": 1, "kind": "assembly-added", "assembly": r.assembly_id, "display_name": assembly.display_name}),
                ]
            }
            Self::Joint(r) => {
                let joint = r.joint.as_ref().expect("a joint");
                vec![json!({
                    "v": 1, "kind": "joint-added", "joint": r.joint_id, "assembly": id_of(&joint.assembly),
                    "display_name": joint.display_name, "layout": {"form": "line"},
                    "labels": vec![""; joint.positions.len()], "criticality": "C", "hole_kind": "through",
                    "purpose": "clamping",
                    "target": {"thread": "7/16-20 UNF", "grade": "SAE J429 5", "condition": "oiled"},
                })]
            }
            Self::Removal(r) => vec![removed(r.removal.as_ref().expect("a removal"))],
            Self::Alike(r) => r
                .positions
                .iter()
                .map(|position| {
                    json!({
                        "v": 1, "kind": "removed", "joint": id_of(&r.joint), "position": position,
                        "condition": "normal", "means": ["hand"], "kept_in": r.kept_in,
                    })
                })
                .collect(),
            Self::Import(r) => r.csv.lines().skip(1).map(imported).collect(),
            Self::Decision(r) => {
                let decision = r.decision.as_ref().expect("a decision");
                vec![json!({
                    "v": 1, "kind": "decided", "joint": id_of(&decision.joint), "position": decision.position,
                    "disposition": "reuse", "reason": decision.reason,
                })]
            }
            Self::Correction(r) => {
                let Some(Correction::Removal(removal)) = &r.correction else {
                    panic!("only removals are corrected here: {r:?}");
                };
                let mut with = removed(removal);
                with.as_object_mut().expect("an object").remove("v");
                let replaces: u32 = id_of(&r.entry).parse().expect("a number");
                vec![
                    json!({"v": 1, "kind": "corrected", "replaces": replaces, "with": with, "reason": r.reason}),
                ]
            }
            Self::Photo(r) => vec![r.body()],
        }
    }
}

fn removed(removal: &wire::Removal) -> Value {
    json!({
        "v": 1, "kind": "removed", "joint": id_of(&removal.joint), "position": removal.position,
        "condition": "normal", "note": removal.note,
    })
}

/// A line of an import with the columns `joint,position,outcome,note`.
fn imported(line: &str) -> Value {
    let cells: Vec<&str> = line.split(',').collect();
    let [joint, position, outcome, note] = cells[..] else {
        panic!("{line:?} has four cells");
    };
    let position: u32 = position.parse().expect("a number");
    json!({"v": 1, "kind": "removed", "joint": joint, "position": position, "condition": outcome, "note": note})
}

/// The last part of a resource name.
pub(crate) fn id_of(name: &str) -> &str {
    name.rsplit('/').next().unwrap_or(name)
}

/// The job's etag as it stands.
pub(crate) async fn job_etag(channel: &Channel, job: &str) -> Result<String, Status> {
    let request = wire::GetJobRequest { name: job.into() };
    let answer = JobServiceClient::new(channel.clone())
        .get_job(request)
        .await?;
    Ok(answer.into_inner().etag)
}

/// Whether the server said this reason.
pub(crate) fn says(status: &Status, reason: &str) -> bool {
    status
        .get_details_error_info()
        .is_some_and(|info| info.reason == reason)
}
