//! What somebody is about to say, and how it is taken.

use std::future::{Future, IntoFuture};
use std::pin::Pin;

use clampbook_api::v1 as wire;
use tonic::{Response, Status};

use super::Shop;
use crate::support::Refusal;

type Answering<'s, A> = Pin<Box<dyn Future<Output = Result<Response<A>, Status>> + Send + 's>>;

/// Something about to be said. Awaited, it must be taken; `refused` and `outcome` expect otherwise.
pub(crate) struct Say<'s, Q, A> {
    shop: &'s Shop,
    pub(crate) request: Q,
    send: fn(&'s Shop, Q) -> Answering<'s, A>,
}

impl<'s, Q: Send + 's, A: Send + 's> Say<'s, Q, A> {
    pub(super) fn new(
        shop: &'s Shop,
        request: Q,
        send: fn(&'s Shop, Q) -> Answering<'s, A>,
    ) -> Self {
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
