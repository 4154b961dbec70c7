//! How the story of the fixture is told: one call for each thing that can be said.

use clampbook_api::v1 as wire;
use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::{DEVICE_KEY, PERSON_KEY};
use prost_types::Timestamp;
use tonic::Request;
use tonic::transport::Channel;
use wire::correct_entry_request::Correction;

/// Somebody who tells a story. Request ids count up, so that telling it twice would change nothing.
pub(crate) struct Teller {
    pub(crate) jobs: JobServiceClient<Channel>,
    /// Who speaks, percent-encoded.
    pub(crate) person: &'static str,
    said: u32,
}

impl Teller {
    pub(crate) fn new(channel: Channel) -> Self {
        Self {
            jobs: JobServiceClient::new(channel),
            person: "Ida",
            said: 0,
        }
    }

    /// A request id.
    pub(crate) fn id(&mut self) -> String {
        self.said += 1;
        format!("00000000-0000-4000-8000-{:012}", self.said)
    }

    /// A message with who says it.
    pub(crate) fn say<M>(&self, message: M) -> Request<M> {
        let mut request = Request::new(message);
        let metadata = request.metadata_mut();
        metadata.insert(PERSON_KEY, self.person.parse().expect("ASCII"));
        metadata.insert(DEVICE_KEY, "tablet 1".parse().expect("ASCII"));
        request
    }

    /// Opens a job, said earlier than written.
    pub(crate) async fn job(&mut self, id: &str, job: wire::Job) {
        let request = wire::CreateJobRequest {
            job_id: id.into(),
            job: Some(job),
            request_id: self.id(),
            // Said on the eve, where there was no network.
            said_time: Some(Timestamp {
                seconds: 1_760_000_000,
                nanos: 250_000_000,
            }),
        };
        let request = self.say(request);
        self.jobs.create_job(request).await.expect("a job");
    }

    /// Adds an assembly; `other` is the id of its counterpart, or empty.
    pub(crate) async fn assembly(&mut self, job: &str, id: &str, name: &str, other: &str) {
        let counterpart = match other {
            "" => String::new(),
            other => format!("{job}/assemblies/{other}"),
        };
        let request = wire::CreateAssemblyRequest {
            parent: job.into(),
            assembly_id: id.into(),
            assembly: Some(wire::Assembly {
                display_name: name.into(),
                counterpart,
                ..Default::default()
            }),
            request_id: self.id(),
            said_time: None,
        };
        let request = self.say(request);
        self.jobs
            .create_assembly(request)
            .await
            .expect("an assembly");
    }

    pub(crate) async fn joint(&mut self, job: &str, id: &str, joint: wire::Joint) {
        let request = wire::CreateJointRequest {
            parent: job.into(),
            joint_id: id.into(),
            joint: Some(joint),
            request_id: self.id(),
            said_time: None,
        };
        let request = self.say(request);
        self.jobs.create_joint(request).await.expect("a joint");
    }

    /// Gives the entry's name.
    pub(crate) async fn removal(&mut self, removal: wire::Removal) -> String {
        let request = wire::LogRemovalRequest {
            removal: Some(removal),
            request_id: self.id(),
            said_time: None,
        };
        let request = self.say(request);
        let answer = self.jobs.log_removal(request).await.expect("a removal");
        answer.into_inner().removal.expect("the removal").entry
    }

    /// Gives the entry's name.
    pub(crate) async fn decision(&mut self, decision: wire::Decision) -> String {
        let name = decision.joint.clone();
        let joint = self.jobs.get_joint(wire::GetJointRequest { name }).await;
        let positions = joint.expect("the joint").into_inner().positions;
        let position = positions.iter().find(|p| p.number == decision.position);
        let request = wire::LogDecisionRequest {
            etag: position.expect("the position").etag.clone(),
            decision: Some(decision),
            request_id: self.id(),
            said_time: None,
        };
        let request = self.say(request);
        let answer = self.jobs.log_decision(request).await.expect("a decision");
        answer.into_inner().decision.expect("the decision").entry
    }

    /// Gives the entry's name.
    pub(crate) async fn refit(&mut self, refit: wire::Refit) -> String {
        let request = wire::LogRefitRequest {
            refit: Some(refit),
            request_id: self.id(),
            said_time: None,
        };
        let request = self.say(request);
        let answer = self.jobs.log_refit(request).await.expect("a refit");
        answer.into_inner().refit.expect("the refit").entry
    }

    pub(crate) async fn correction(&mut self, entry: &str, correction: Correction, reason: &str) {
        let name = entry.split("/entries/").next().unwrap_or_default().into();
        let job = self.jobs.get_job(wire::GetJobRequest { name }).await;
        let request = wire::CorrectEntryRequest {
            entry: entry.into(),
            correction: Some(correction),
            reason: reason.into(),
            etag: job.expect("the job").into_inner().etag,
            request_id: self.id(),
            said_time: None,
        };
        let request = self.say(request);
        self.jobs.correct_entry(request).await.expect("corrected");
    }
}
