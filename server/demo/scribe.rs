//! Says things to the server as the people of the story would, one call each.

use anyhow::Context;
use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::v1::sheet_service_client::SheetServiceClient;
use clampbook_api::v1::specification_service_client::SpecificationServiceClient;
use clampbook_api::v1::torque_service_client::TorqueServiceClient;
use clampbook_api::v1::{self as wire, Removal};
use clampbook_api::{DEVICE_KEY, PERSON_KEY};
use std::time::Duration;
use tonic::Request;
use tonic::metadata::AsciiMetadataValue;
use tonic::transport::{Channel, Endpoint};
use uuid::Uuid;

const DEADLINE: Duration = Duration::from_secs(10);

/// The server, spoken to by one person at a time.
pub(super) struct Scribe {
    channel: Channel,
    /// Who speaks.
    pub(super) person: &'static str,
}

impl Scribe {
    pub(super) async fn connect(url: &str) -> anyhow::Result<Self> {
        let channel = Endpoint::from_shared(url.to_owned())
            .context("the server's address")?
            .connect()
            .await
            .context("cannot reach the server")?;
        Ok(Self {
            channel,
            person: "Ida",
        })
    }

    fn jobs(&self) -> JobServiceClient<Channel> {
        JobServiceClient::new(self.channel.clone())
    }

    fn say<M>(&self, message: M) -> Request<M> {
        let mut request = Request::new(message);
        request.set_timeout(DEADLINE);
        let metadata = request.metadata_mut();
        metadata.insert(PERSON_KEY, AsciiMetadataValue::from_static(self.person));
        metadata.insert(DEVICE_KEY, AsciiMetadataValue::from_static("tablet-1"));
        request
    }

    pub(super) async fn job(&self, id: &str, name: &str, machine: &str) -> anyhow::Result<()> {
        let request = wire::CreateJobRequest {
            job_id: id.into(),
            job: Some(wire::Job {
                display_name: name.into(),
                machine: machine.into(),
                ..Default::default()
            }),
            request_id: fresh(),
            said_time: None,
        };
        self.jobs().create_job(self.say(request)).await?;
        Ok(())
    }

    pub(super) async fn assembly(
        &self,
        job: &str,
        id: &str,
        name: &str,
        other: &str,
    ) -> anyhow::Result<()> {
        let counterpart = match other {
            "" => String::new(),
            other => format!("jobs/{job}/assemblies/{other}"),
        };
        let request = wire::CreateAssemblyRequest {
            parent: format!("jobs/{job}"),
            assembly_id: id.into(),
            assembly: Some(wire::Assembly {
                display_name: name.into(),
                counterpart,
                ..Default::default()
            }),
            request_id: fresh(),
            said_time: None,
        };
        self.jobs().create_assembly(self.say(request)).await?;
        Ok(())
    }

    pub(super) async fn joint(
        &self,
        job: &str,
        id: &str,
        joint: wire::Joint,
    ) -> anyhow::Result<()> {
        let request = wire::CreateJointRequest {
            parent: format!("jobs/{job}"),
            joint_id: id.into(),
            joint: Some(joint),
            request_id: fresh(),
            said_time: None,
        };
        self.jobs().create_joint(self.say(request)).await?;
        Ok(())
    }

    pub(super) async fn specification(
        &self,
        id: &str,
        specification: wire::Specification,
    ) -> anyhow::Result<()> {
        let request = wire::CreateSpecificationRequest {
            specification_id: id.into(),
            specification: Some(specification),
            request_id: fresh(),
            said_time: None,
        };
        let mut client = SpecificationServiceClient::new(self.channel.clone());
        client.create_specification(self.say(request)).await?;
        Ok(())
    }

    pub(super) async fn removal(&self, removal: Removal) -> anyhow::Result<Vec<wire::Flag>> {
        let request = wire::LogRemovalRequest {
            removal: Some(removal),
            request_id: fresh(),
            said_time: None,
        };
        Ok(self
            .jobs()
            .log_removal(self.say(request))
            .await?
            .into_inner()
            .flags)
    }

    pub(super) async fn alike(&self, joint: String, kept_in: &str) -> anyhow::Result<()> {
        let request = wire::LogAlikeRemovalsRequest {
            joint,
            outcome: wire::RemovalOutcome::Normal.into(),
            methods: vec![wire::RemovalMethod::Hand.into()],
            kept_in: kept_in.into(),
            request_id: fresh(),
            ..Default::default()
        };
        self.jobs().log_alike_removals(self.say(request)).await?;
        Ok(())
    }

    /// Decides on a position as it now stands.
    pub(super) async fn decision(
        &self,
        decision: wire::Decision,
    ) -> anyhow::Result<Vec<wire::Flag>> {
        let name = decision.joint.clone();
        let joint = self
            .jobs()
            .get_joint(self.say(wire::GetJointRequest { name }))
            .await?;
        let etag = joint
            .into_inner()
            .positions
            .into_iter()
            .find(|position| position.number == decision.position)
            .context("no such position")?
            .etag;
        let request = wire::LogDecisionRequest {
            decision: Some(decision),
            etag,
            request_id: fresh(),
            said_time: None,
        };
        Ok(self
            .jobs()
            .log_decision(self.say(request))
            .await?
            .into_inner()
            .flags)
    }

    pub(super) async fn refit(&self, refit: wire::Refit) -> anyhow::Result<()> {
        let request = wire::LogRefitRequest {
            refit: Some(refit),
            request_id: fresh(),
            said_time: None,
        };
        self.jobs().log_refit(self.say(request)).await?;
        Ok(())
    }

    pub(super) async fn tighten(&self, request: wire::LogTighteningRequest) -> anyhow::Result<()> {
        let request = wire::LogTighteningRequest {
            request_id: fresh(),
            ..request
        };
        self.jobs().log_tightening(self.say(request)).await?;
        Ok(())
    }

    /// Gives the entry of the finding and what is open around it.
    pub(super) async fn finding(
        &self,
        finding: wire::Finding,
    ) -> anyhow::Result<(String, Vec<wire::Flag>)> {
        let request = wire::LogFindingRequest {
            finding: Some(finding),
            request_id: fresh(),
            said_time: None,
        };
        let answer = self
            .jobs()
            .log_finding(self.say(request))
            .await?
            .into_inner();
        let finding = answer.finding.context("no finding came back")?;
        Ok((finding.entry, answer.flags))
    }

    /// Answers a finding with a reading of the other side.
    pub(super) async fn answer(
        &self,
        finding: String,
        reading: &str,
    ) -> anyhow::Result<Vec<wire::Flag>> {
        let request = wire::AnswerCounterpartRequest {
            answer: Some(wire::CounterpartAnswer {
                finding,
                shown: Some(wire::counterpart_answer::Shown::Reading(reading.into())),
                ..Default::default()
            }),
            request_id: fresh(),
            said_time: None,
        };
        Ok(self
            .jobs()
            .answer_counterpart(self.say(request))
            .await?
            .into_inner()
            .flags)
    }

    pub(super) async fn parts(&self, job: &str) -> anyhow::Result<Vec<wire::PartToOrder>> {
        let request = wire::ListPartsToOrderRequest {
            parent: format!("jobs/{job}"),
            ..Default::default()
        };
        let answer = self.jobs().list_parts_to_order(self.say(request)).await?;
        Ok(answer.into_inner().parts)
    }

    /// Logs that all of a line came, and gives how many flags about parts are still open on its assembly.
    pub(super) async fn arrival(
        &self,
        part: &wire::PartToOrder,
        reference: &str,
    ) -> anyhow::Result<usize> {
        let request = wire::LogPartArrivalRequest {
            arrival: Some(wire::PartArrival {
                assembly: part.assembly.clone(),
                what: part.what.clone(),
                quantity: part.waiting_count,
                reference: reference.into(),
                ..Default::default()
            }),
            request_id: fresh(),
            said_time: None,
        };
        let answer = self.jobs().log_part_arrival(self.say(request)).await?;
        Ok(answer.into_inner().flags.len())
    }

    pub(super) async fn flags(&self, job: &str) -> anyhow::Result<Vec<wire::Flag>> {
        let request = wire::ListFlagsRequest {
            parent: format!("jobs/{job}"),
            ..Default::default()
        };
        Ok(self
            .jobs()
            .list_flags(self.say(request))
            .await?
            .into_inner()
            .flags)
    }

    pub(super) async fn torque(
        &self,
        request: wire::ComputeTorqueRequest,
    ) -> anyhow::Result<wire::ComputeTorqueResponse> {
        let mut client = TorqueServiceClient::new(self.channel.clone());
        Ok(client.compute_torque(self.say(request)).await?.into_inner())
    }

    pub(super) async fn sheet(&self, job: &str) -> anyhow::Result<String> {
        let request = wire::RenderSheetRequest {
            name: format!("jobs/{job}"),
            format: wire::SheetFormat::Text.into(),
            ..Default::default()
        };
        let mut client = SheetServiceClient::new(self.channel.clone());
        Ok(client
            .render_sheet(self.say(request))
            .await?
            .into_inner()
            .content)
    }
}

fn fresh() -> String {
    Uuid::new_v4().to_string()
}
