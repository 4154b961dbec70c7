//! A shop at work: a server, and what people say to it. Whatever a story does not mention is as on any ordinary day.

use std::future::{Future, IntoFuture};
use std::pin::Pin;

use clampbook_api::v1::catalog_service_client::CatalogServiceClient;
use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::v1::removal::LengthSeen;
use clampbook_api::v1::sheet_service_client::SheetServiceClient;
use clampbook_api::v1::specification_service_client::SpecificationServiceClient;
use clampbook_api::v1::torque_service_client::TorqueServiceClient;
use clampbook_api::v1::{self as wire, Criticality, Disposition, RemovalCondition, Tightness};
use tonic::transport::{Channel, Endpoint};
use tonic::{Response, Status};

use super::{Refusal, Server};

/// A request id never used before.
pub(crate) fn fresh_id() -> String {
    uuid::Uuid::now_v7().to_string()
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
            condition: "oiled".into(),
            ..Default::default()
        }),
        ..Default::default()
    }
}

/// A joint of the shop.
pub(crate) struct JointAt<'s> {
    shop: &'s Shop,
    pub(crate) name: String,
}

impl<'s> JointAt<'s> {
    /// Says how the fastener of a hole came out: marked and measured like its neighbours.
    pub(crate) fn takes_out(
        &self,
        hole: i32,
        condition: RemovalCondition,
    ) -> Say<'s, wire::LogRemovalRequest, wire::LogRemovalResponse> {
        let request = wire::LogRemovalRequest {
            removal: Some(removal(&self.name, hole, condition)),
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
            self.takes_out(hole, RemovalCondition::Normal).await;
        }
    }

    /// Decides on the fastener of a hole. The etag is the position's as it stands.
    pub(crate) async fn decides(
        &self,
        hole: i32,
        disposition: Disposition,
    ) -> Say<'s, wire::LogDecisionRequest, wire::LogDecisionResponse> {
        let replacement = (disposition == Disposition::Replace).then(new_bolt);
        let request = wire::LogDecisionRequest {
            decision: Some(wire::Decision {
                joint: self.name.clone(),
                position: hole,
                disposition: disposition.into(),
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
        tightness: Tightness,
    ) -> Say<'s, wire::LogRefitRequest, wire::LogRefitResponse> {
        let request = wire::LogRefitRequest {
            refit: Some(wire::Refit {
                joint: self.name.clone(),
                position: hole,
                fitted_part: wire::FittedPart::Original.into(),
                tightness: tightness.into(),
                ..Default::default()
            }),
            request_id: fresh_id(),
            said_time: None,
        };
        Say::new(self.shop, request, |shop, request| {
            Box::pin(async move { shop.jobs().log_refit(request).await })
        })
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
pub(crate) fn removal(joint: &str, hole: i32, condition: RemovalCondition) -> wire::Removal {
    wire::Removal {
        joint: joint.into(),
        position: hole,
        condition: condition.into(),
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

type Answering<'s, A> = Pin<Box<dyn Future<Output = Result<Response<A>, Status>> + Send + 's>>;

/// Something about to be said. Awaited, it must be taken; `refused` and `outcome` expect otherwise.
pub(crate) struct Say<'s, Q, A> {
    shop: &'s Shop,
    pub(crate) request: Q,
    send: fn(&'s Shop, Q) -> Answering<'s, A>,
}

impl<'s, Q: Send + 's, A: Send + 's> Say<'s, Q, A> {
    fn new(shop: &'s Shop, request: Q, send: fn(&'s Shop, Q) -> Answering<'s, A>) -> Self {
        Self {
            shop,
            request,
            send,
        }
    }

    /// Changes the request before it is sent.
    pub(crate) fn request(mut self, change: impl FnOnce(&mut Q)) -> Self {
        change(&mut self.request);
        self
    }

    /// Sends it.
    pub(crate) async fn outcome(self) -> Result<A, Status> {
        (self.send)(self.shop, self.request)
            .await
            .map(Response::into_inner)
    }

    /// Sends it and expects a refusal.
    pub(crate) async fn refused(self) -> Refusal {
        match self.outcome().await {
            Ok(_) => panic!("it was not refused"),
            Err(status) => Refusal::of(&status),
        }
    }
}

impl<'s, Q: Send + 's, A: Send + 's> IntoFuture for Say<'s, Q, A> {
    type Output = A;
    type IntoFuture = Pin<Box<dyn Future<Output = A> + 's>>;

    fn into_future(self) -> Self::IntoFuture {
        Box::pin(async { self.outcome().await.expect("it is taken") })
    }
}

macro_rules! spoken {
    ($($request:ident $answer:ident $part:ident $message:ident;)+) => {
        $(impl Say<'_, wire::$request, wire::$answer> {
            /// Says more, or otherwise.
            pub(crate) fn and(mut self, more: impl FnOnce(&mut wire::$message)) -> Self {
                more(self.request.$part.get_or_insert_default());
                self
            }
        })+
    };
}

spoken! {
    LogRemovalRequest LogRemovalResponse removal Removal;
    LogDecisionRequest LogDecisionResponse decision Decision;
    LogRefitRequest LogRefitResponse refit Refit;
    LogFindingRequest LogFindingResponse finding Finding;
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
