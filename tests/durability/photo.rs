//! A photo of a strip-down: how it is sent, whole or broken off, and what it must leave in the journal.

use crate::ask::{Answer, id_of, says};
use crate::dice::Dice;
use crate::picture::{long_png, messages};
use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::{reason, v1 as wire};
use serde_json::{Value, json};
use std::fmt;
use std::sync::Arc;
use tokio::sync::oneshot;
use tokio_stream::StreamExt;
use tonic::transport::Channel;
use tonic::{Code, Status};

/// Bytes of a chunk: less than a window of the transport, so that chunks of several photos come mixed.
const CHUNK: usize = 16 * 1024;

/// Different pictures there are. Two photos may show the same one, whose content is then kept once.
const PICTURES: usize = 530;

/// A photo to be added.
#[derive(Clone)]
pub(crate) struct Photo {
    said: wire::Photo,
    pub(crate) request_id: String,
    pub(crate) content: Arc<[u8]>,
}

/// How much of a photo is sent before its stream falls silent.
#[derive(Clone, Copy, Debug)]
pub(crate) enum BreaksOff {
    /// What it is to be, and no content.
    AfterTheFirst,
    HalfWay,
    BeforeTheLast,
    /// All of it, but that it is all.
    BeforeTheEnd,
}

impl BreaksOff {
    pub(crate) const ALL: [Self; 4] = [
        Self::AfterTheFirst,
        Self::HalfWay,
        Self::BeforeTheLast,
        Self::BeforeTheEnd,
    ];
}

impl Photo {
    /// One of a joint, or of a position of it, by chance.
    pub(crate) fn of(joint: String, positions: i32, dice: &mut Dice) -> Self {
        let positions = usize::try_from(positions).expect("a few");
        let position = dice.between(0, positions);
        let number = dice.between(0, PICTURES);
        Self {
            said: wire::Photo {
                caption: format!("picture {number}"),
                subject: joint,
                position: i32::try_from(position).expect("a few"),
                ..Default::default()
            },
            request_id: dice.id(),
            // Half of them have less than 18 KiB, the largest has 285 KiB.
            content: long_png(number as u64, number.pow(4) / 270_000).into(),
        }
    }

    fn messages(&self) -> Vec<wire::AddPhotoRequest> {
        messages(
            self.said.clone(),
            self.request_id.clone(),
            &self.content,
            CHUNK,
        )
    }

    /// Sends it.
    pub(crate) async fn send(&self, channel: &Channel) -> Result<Answer, Status> {
        let sent = tokio_stream::iter(self.messages());
        let answer = JobServiceClient::new(channel.clone()).add_photo(sent).await;
        let photo = answer?.into_inner().photo.expect("the photo");
        Ok(Answer {
            entries: vec![photo.entry.clone()],
            etag: String::new(),
            content: format!("{photo:?}"),
        })
    }

    /// Sends some of it, says so, and waits for an answer that cannot come.
    pub(crate) async fn break_off(
        &self,
        channel: &Channel,
        place: BreaksOff,
        sent: oneshot::Sender<()>,
    ) -> Status {
        let mut some = self.messages();
        some.truncate(match place {
            BreaksOff::AfterTheFirst => 1,
            BreaksOff::HalfWay => some.len().div_ceil(2),
            BreaksOff::BeforeTheLast => some.len() - 1,
            BreaksOff::BeforeTheEnd => some.len(),
        });
        let mut sent = Some(sent);
        let says_so = std::iter::from_fn(move || {
            let waiting = sent.take().map(|sent| sent.send(()));
            assert!(waiting.is_none_or(|told| told.is_ok()), "nobody waits");
            None
        });
        let stream = tokio_stream::iter(some.into_iter().chain(says_so));
        let answer = JobServiceClient::new(channel.clone())
            .add_photo(stream.chain(tokio_stream::pending()))
            .await;
        answer.expect_err("half a photo is answered")
    }

    /// Asserts that its request id, which was seen, is not taken for another content of the same size.
    pub(crate) async fn assert_only_this_content(&self, channel: &Channel) {
        let mut content = self.content.to_vec();
        *content.last_mut().expect("not empty") ^= 1;
        let other = Self {
            content: content.into(),
            ..self.clone()
        };
        let status = other.send(channel).await.expect_err("another content");
        let told = says(&status, reason::REQUEST_ID_REUSED);
        assert!(
            status.code() == Code::InvalidArgument && told,
            "{self:?}: {status:?}"
        );
    }

    /// Hash of its content, in the digits of the contract.
    pub(crate) fn hash(&self) -> String {
        blake3::hash(&self.content).to_hex().to_string()
    }

    /// Body of the entry that it makes.
    pub(crate) fn body(&self) -> Value {
        let joint = id_of(&self.said.subject);
        let of = match self.said.position {
            0 => json!({"joint": joint}),
            position => json!({"position": [joint, position]}),
        };
        json!({
            "v": 1, "kind": "photo-added", "of": of, "hash": self.hash(), "size_bytes": self.content.len(),
            "media_type": "image/png", "caption": self.said.caption,
        })
    }
}

impl fmt::Debug for Photo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Photo")
            .field("said", &self.said)
            .field("request_id", &self.request_id)
            .field("bytes", &self.content.len())
            .finish()
    }
}
