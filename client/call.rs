//! One call: who speaks, how long it may take, sent again only where that is safe.

use std::{
    io::{IsTerminal, stderr},
    time::Duration,
};

use clampbook_api::{
    DEVICE_KEY, PERSON_KEY,
    v1::{
        catalog_service_client::CatalogServiceClient, job_service_client::JobServiceClient,
        people_service_client::PeopleServiceClient, sheet_service_client::SheetServiceClient,
        specification_service_client::SpecificationServiceClient,
        torque_service_client::TorqueServiceClient,
    },
};
use tokio::time::{Instant, sleep, timeout, timeout_at};
use tonic::{
    Request, Response, Status,
    metadata::AsciiMetadataValue,
    transport::{Channel, Endpoint},
};

use crate::{
    args::Global, error::Failure, interrupt::Pending, out::Out, retry::Backoff, speaker,
    ticket::Ticket, transport,
};

/// Largest answer taken; a long journal page is the largest there is.
const LARGEST_ANSWER: usize = 16 * 1024 * 1024;

/// How long nothing is said about a call that has not come back.
const PATIENCE: Duration = Duration::from_millis(500);

/// A server as one person on one device speaks to it.
pub(crate) struct Server {
    channel: Channel,
    address: String,
    timeout: Duration,
    person: Option<AsciiMetadataValue>,
    device: AsciiMetadataValue,
    pending: Pending,
    out: Out,
}

macro_rules! services {
    ($($(#[doc = $doc:literal])+ $name:ident $client:ident;)+) => {
        $($(#[doc = $doc])+
        pub(crate) async fn $name<Q: Clone, A>(
            &self,
            method: impl AsyncFn(&mut $client<Channel>, Request<Q>) -> Result<Response<A>, Status>,
            request: Q,
        ) -> Result<A, Failure> {
            let client = $client::new(self.channel.clone()).max_decoding_message_size(LARGEST_ANSWER);
            self.send(request, async |request| method(&mut client.clone(), request).await).await
        })+
    };
}

impl Server {
    /// Prepares to speak to the server; connects with the first call. Must be called inside the runtime.
    pub(crate) fn new(global: &Global, pending: Pending, out: Out) -> Result<Self, Failure> {
        let endpoint = Endpoint::from_shared(global.server.clone())
            .map_err(|error| Failure::usage(format!("--server: {error}")))?;
        Ok(Self {
            channel: transport::channel(endpoint),
            address: global.server.clone(),
            timeout: global.timeout,
            person: global
                .person
                .clone()
                .or_else(speaker::login_name)
                .map(|name| speaker::metadata(&name)),
            device: speaker::metadata(&global.device),
            pending,
            out,
        })
    }

    services! {
        /// Calls a method of the catalogue service.
        catalog CatalogServiceClient;
        /// Calls a method of the torque service.
        torque TorqueServiceClient;
        /// Calls a method of the job service that changes nothing.
        jobs JobServiceClient;
        /// Calls a method of the specification service.
        specs SpecificationServiceClient;
        /// Calls a method of the people service.
        people PeopleServiceClient;
        /// Calls a method of the sheet service.
        sheets SheetServiceClient;
    }

    /// Calls a method of the job service that changes something; if it stays unknown whether it did, the failure says
    /// how to ask with the same request id.
    pub(crate) async fn change<Q: Clone, A>(
        &self,
        ticket: &Ticket,
        method: impl AsyncFn(&mut JobServiceClient<Channel>, Request<Q>) -> Result<Response<A>, Status>,
        request: Q,
    ) -> Result<A, Failure> {
        self.changing(ticket, self.jobs(method, request)).await
    }

    /// The same, of the catalogue service.
    pub(crate) async fn change_catalog<Q: Clone, A>(
        &self,
        ticket: &Ticket,
        method: impl AsyncFn(
            &mut CatalogServiceClient<Channel>,
            Request<Q>,
        ) -> Result<Response<A>, Status>,
        request: Q,
    ) -> Result<A, Failure> {
        self.changing(ticket, self.catalog(method, request)).await
    }

    /// The same, of the specification service.
    pub(crate) async fn change_specs<Q: Clone, A>(
        &self,
        ticket: &Ticket,
        method: impl AsyncFn(
            &mut SpecificationServiceClient<Channel>,
            Request<Q>,
        ) -> Result<Response<A>, Status>,
        request: Q,
    ) -> Result<A, Failure> {
        self.changing(ticket, self.specs(method, request)).await
    }

    /// The same, of the people service.
    pub(crate) async fn change_people<Q: Clone, A>(
        &self,
        ticket: &Ticket,
        method: impl AsyncFn(
            &mut PeopleServiceClient<Channel>,
            Request<Q>,
        ) -> Result<Response<A>, Status>,
        request: Q,
    ) -> Result<A, Failure> {
        self.changing(ticket, self.people(method, request)).await
    }

    async fn changing<A>(
        &self,
        ticket: &Ticket,
        call: impl Future<Output = Result<A, Failure>>,
    ) -> Result<A, Failure> {
        self.pending.begin(ticket);
        let answer = call.await;
        self.pending.end();
        answer.map_err(|failure| failure.of_request(ticket))
    }

    /// Where the server is.
    pub(crate) fn address(&self) -> &str {
        &self.address
    }

    /// How long one call may take.
    pub(crate) fn timeout(&self) -> Duration {
        self.timeout
    }

    /// A client for a stream, which has a life of its own beyond one call.
    pub(crate) fn stream_client(&self) -> JobServiceClient<Channel> {
        JobServiceClient::new(self.channel.clone()).max_decoding_message_size(LARGEST_ANSWER)
    }

    /// A request in the name of the person who speaks.
    pub(crate) fn signed<Q>(&self, message: Q) -> Request<Q> {
        let mut request = Request::new(message);
        if let Some(person) = &self.person {
            request.metadata_mut().insert(PERSON_KEY, person.clone());
        }
        request
            .metadata_mut()
            .insert(DEVICE_KEY, self.device.clone());
        request
    }

    async fn send<Q: Clone, A>(
        &self,
        message: Q,
        method: impl AsyncFn(Request<Q>) -> Result<Response<A>, Status>,
    ) -> Result<A, Failure> {
        let mut call = Box::pin(self.attempts(message, method));
        match timeout(PATIENCE, &mut call).await {
            Ok(answer) => answer,
            Err(_) => {
                if stderr().is_terminal() {
                    self.out
                        .notice(&format!("waiting for {} ...", self.address));
                }
                call.await
            }
        }
    }

    async fn attempts<Q: Clone, A>(
        &self,
        message: Q,
        method: impl AsyncFn(Request<Q>) -> Result<Response<A>, Status>,
    ) -> Result<A, Failure> {
        let deadline = Instant::now() + self.timeout;
        let mut backoff = Backoff::default();
        let mut may_be_done = false;
        loop {
            let mut request = self.signed(message.clone());
            request.set_timeout(deadline.saturating_duration_since(Instant::now()));
            let status = match timeout_at(deadline, method(request)).await {
                Ok(Ok(answer)) => return Ok(answer.into_inner()),
                Ok(Err(status)) => transport::plain(status),
                Err(_) => transport::deadline_passed(),
            };
            may_be_done |= transport::may_be_done(&status);
            match backoff.pause(&status, deadline) {
                Some(pause) => sleep(pause).await,
                None => return Err(Failure::answered(&status, &self.address, may_be_done)),
            }
        }
    }
}

#[cfg(test)]
mod tests;
