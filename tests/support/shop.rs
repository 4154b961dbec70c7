//! A shop at work: a server, and what people say to it. Whatever a story does not mention is as on any ordinary day.

mod joint;
mod say;

use clampbook_api::v1::catalog_service_client::CatalogServiceClient;
use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::v1::people_service_client::PeopleServiceClient;
use clampbook_api::v1::sheet_service_client::SheetServiceClient;
use clampbook_api::v1::specification_service_client::SpecificationServiceClient;
use clampbook_api::v1::torque_service_client::TorqueServiceClient;
use clampbook_api::v1::{self as wire, Criticality};
use tonic::transport::{Channel, Endpoint};

use super::Server;
pub(crate) use joint::{JointAt, new_bolt, ordinary_joint, removal};
pub(crate) use say::Say;

/// A request id never used before.
pub(crate) fn fresh_id() -> String {
    uuid::Uuid::new_v4().to_string()
}

/// A shop with its server.
pub(crate) struct Shop {
    channel: Channel,
    pub(crate) server: Server,
}

impl Shop {
    /// Opens a shop with an empty journal.
    pub(crate) fn open() -> Self {
        Self::at(Server::start())
    }

    /// Opens a shop at a server that runs already.
    pub(crate) fn at(server: Server) -> Self {
        Self {
            channel: connect(server.url()),
            server,
        }
    }

    /// Stops the server and starts it again, with these flags.
    pub(crate) async fn restart(&mut self, flags: &[&str]) {
        self.server.stop().await;
        self.server.start_again(flags);
        self.channel = connect(self.server.url());
    }

    pub(crate) fn channel(&self) -> Channel {
        self.channel.clone()
    }

    pub(crate) fn jobs(&self) -> JobServiceClient<Channel> {
        JobServiceClient::new(self.channel())
    }

    pub(crate) fn catalog(&self) -> CatalogServiceClient<Channel> {
        CatalogServiceClient::new(self.channel())
    }

    pub(crate) fn torque(&self) -> TorqueServiceClient<Channel> {
        TorqueServiceClient::new(self.channel())
    }

    pub(crate) fn specifications(&self) -> SpecificationServiceClient<Channel> {
        SpecificationServiceClient::new(self.channel())
    }

    pub(crate) fn people(&self) -> PeopleServiceClient<Channel> {
        PeopleServiceClient::new(self.channel())
    }

    pub(crate) fn sheets(&self) -> SheetServiceClient<Channel> {
        SheetServiceClient::new(self.channel())
    }

    /// Opens a job with one assembly, `hub`.
    pub(crate) async fn job(&self, id: &str) -> JobAt<'_> {
        let request = wire::CreateJobRequest {
            job_id: id.into(),
            job: Some(wire::Job {
                display_name: format!("Job {id}"),
                machine: "Orchard tractor".into(),
                ..Default::default()
            }),
            request_id: fresh_id(),
            said_time: None,
        };
        self.jobs()
            .create_job(request)
            .await
            .expect("the job opens");
        let job = self.job_named(id);
        job.assembly("hub", "").await;
        job
    }

    /// A job that is there already.
    pub(crate) fn job_named(&self, id: &str) -> JobAt<'_> {
        JobAt {
            shop: self,
            name: format!("jobs/{id}"),
        }
    }
}

/// A job of the shop.
pub(crate) struct JobAt<'s> {
    pub(super) shop: &'s Shop,
    pub(crate) name: String,
}

impl<'s> JobAt<'s> {
    /// Adds an assembly; `other` is the id of its counterpart, or empty.
    pub(crate) async fn assembly(&self, id: &str, other: &str) {
        let counterpart = match other {
            "" => String::new(),
            other => format!("{}/assemblies/{other}", self.name),
        };
        let request = wire::CreateAssemblyRequest {
            parent: self.name.clone(),
            assembly_id: id.into(),
            assembly: Some(wire::Assembly {
                display_name: format!("The {id}"),
                counterpart,
                ..Default::default()
            }),
            request_id: fresh_id(),
            said_time: None,
        };
        self.shop
            .jobs()
            .create_assembly(request)
            .await
            .expect("the assembly is added");
    }

    /// Adds an ordinary joint: a ring of four 7/16-20 bolts, grade 5, oiled, class B.
    pub(crate) async fn joint(&self, id: &str) -> JointAt<'s> {
        self.joint_like(id, |_| {}).await
    }

    /// Adds a joint of class A whose computed torque somebody approved.
    pub(crate) async fn vital_joint(&self, id: &str) -> JointAt<'s> {
        self.joint_like(id, |joint| {
            joint.criticality = Criticality::A.into();
            joint.computed_torque_approver = "Ida".into();
        })
        .await
    }

    /// Adds a joint that differs from the ordinary one.
    pub(crate) async fn joint_like(
        &self,
        id: &str,
        differ: impl FnOnce(&mut wire::Joint),
    ) -> JointAt<'s> {
        let mut joint = ordinary_joint(&self.name, id);
        differ(&mut joint);
        let request = wire::CreateJointRequest {
            parent: self.name.clone(),
            joint_id: id.into(),
            joint: Some(joint),
            request_id: fresh_id(),
            said_time: None,
        };
        let answer = self.shop.jobs().create_joint(request).await;
        let joint = answer.expect("the joint is added").into_inner();
        JointAt {
            shop: self.shop,
            name: joint.name,
        }
    }

    /// A joint that is there already.
    pub(crate) fn joint_named(&self, id: &str) -> JointAt<'s> {
        JointAt {
            shop: self.shop,
            name: format!("{}/joints/{id}", self.name),
        }
    }

    /// The job as it stands.
    pub(crate) async fn look(&self) -> wire::Job {
        let request = wire::GetJobRequest {
            name: self.name.clone(),
        };
        self.shop
            .jobs()
            .get_job(request)
            .await
            .expect("the job")
            .into_inner()
    }

    /// Its open flags.
    pub(crate) async fn flags(&self) -> Vec<wire::Flag> {
        let request = wire::ListFlagsRequest {
            parent: self.name.clone(),
            ..Default::default()
        };
        let answer = self
            .shop
            .jobs()
            .list_flags(request)
            .await
            .expect("flags")
            .into_inner();
        assert_eq!(answer.next_page_token, "", "one page holds them all");
        answer.flags
    }

    /// Its entries.
    pub(crate) async fn entries(&self) -> Vec<wire::Entry> {
        let request = wire::ListEntriesRequest {
            parent: self.name.clone(),
            page_size: 1_000,
            ..Default::default()
        };
        self.shop
            .jobs()
            .list_entries(request)
            .await
            .expect("entries")
            .into_inner()
            .entries
    }

    /// Its sheet as data.
    pub(crate) async fn sheet(&self) -> wire::Sheet {
        let request = wire::GetSheetRequest {
            name: self.name.clone(),
            ..Default::default()
        };
        self.shop
            .sheets()
            .get_sheet(request)
            .await
            .expect("the sheet")
            .into_inner()
    }

    /// Its sheet as printed.
    pub(crate) async fn print(&self, format: wire::SheetFormat) -> String {
        let request = wire::RenderSheetRequest {
            name: self.name.clone(),
            format: format.into(),
            ..Default::default()
        };
        self.shop
            .sheets()
            .render_sheet(request)
            .await
            .expect("the sheet")
            .into_inner()
            .content
    }

    /// Says that wear ruined a part of class A in an assembly.
    pub(crate) fn finds(
        &self,
        assembly: &str,
        part: &str,
    ) -> Say<'s, wire::LogFindingRequest, wire::LogFindingResponse> {
        let request = wire::LogFindingRequest {
            finding: Some(wire::Finding {
                assembly: format!("{}/assemblies/{assembly}", self.name),
                part: part.into(),
                kind: wire::FindingKind::Wear.into(),
                severity: wire::FindingSeverity::Ruined.into(),
                criticality: Criticality::A.into(),
                ..Default::default()
            }),
            request_id: fresh_id(),
            said_time: None,
        };
        Say::new(self.shop, request, |shop, request| {
            Box::pin(async move { shop.jobs().log_finding(request).await })
        })
    }

    /// Answers what a finding asks about the other side.
    pub(crate) fn answers(
        &self,
        finding: &str,
        shown: Option<wire::counterpart_answer::Shown>,
    ) -> Say<'s, wire::AnswerCounterpartRequest, wire::AnswerCounterpartResponse> {
        let request = wire::AnswerCounterpartRequest {
            answer: Some(wire::CounterpartAnswer {
                finding: finding.into(),
                shown,
                ..Default::default()
            }),
            request_id: fresh_id(),
            said_time: None,
        };
        Say::new(self.shop, request, |shop, request| {
            Box::pin(async move { shop.jobs().answer_counterpart(request).await })
        })
    }

    /// Says that an entry was wrong. The etag is the job's as it stands.
    pub(crate) async fn corrects(
        &self,
        entry: &str,
        correction: wire::correct_entry_request::Correction,
    ) -> Say<'s, wire::CorrectEntryRequest, wire::CorrectEntryResponse> {
        let request = wire::CorrectEntryRequest {
            entry: entry.into(),
            correction: Some(correction),
            reason: "it was the other hole".into(),
            etag: self.look().await.etag,
            request_id: fresh_id(),
            said_time: None,
        };
        Say::new(self.shop, request, |shop, request| {
            Box::pin(async move { shop.jobs().correct_entry(request).await })
        })
    }
}

/// A connection of its own.
pub(crate) fn connect(url: &str) -> Channel {
    Endpoint::from_shared(url.to_owned())
        .expect("an address")
        .connect_lazy()
}

/// The rules of the flags, without repeats, in order.
pub(crate) fn rules_of(flags: &[wire::Flag]) -> Vec<&str> {
    let mut rules: Vec<&str> = flags.iter().map(|flag| flag.rule.as_str()).collect();
    rules.sort_unstable();
    rules.dedup();
    rules
}
