//! Photos of a story, and how they are sent.

use clampbook_api::v1::{AddPhotoRequest, Photo};
use tonic::Status;

use super::picture;
pub(crate) use super::picture::{long_png, png};
use super::shop::{JobAt, fresh_id};

/// The messages that send a picture of something in chunks of so many bytes.
pub(crate) fn messages(
    subject: &str,
    position: i32,
    content: &[u8],
    chunk: usize,
) -> Vec<AddPhotoRequest> {
    let photo = Photo {
        subject: subject.into(),
        position,
        caption: "as it was".into(),
        ..Photo::default()
    };
    picture::messages(photo, fresh_id(), content, chunk)
}

impl JobAt<'_> {
    /// Sends messages that add a photo.
    pub(crate) async fn sends_photo(
        &self,
        messages: Vec<AddPhotoRequest>,
    ) -> Result<Photo, Status> {
        let answer = self
            .shop
            .jobs()
            .add_photo(tokio_stream::iter(messages))
            .await?;
        Ok(answer.into_inner().photo.expect("the photo"))
    }

    /// Adds a photo.
    pub(crate) async fn adds_photo(
        &self,
        subject: &str,
        position: i32,
        content: &[u8],
    ) -> Result<Photo, Status> {
        self.sends_photo(messages(subject, position, content, 40))
            .await
    }

    /// Gets a photo back with its content.
    pub(crate) async fn photo(&self, entry: &str) -> Result<(Photo, Vec<u8>), Status> {
        picture::read_back(&mut self.shop.jobs(), entry).await
    }
}
