//! Pictures, and how they are sent.

use clampbook_api::v1::{AddPhotoRequest, GetPhotoRequest, Photo};
use tonic::Status;

use super::shop::{JobAt, fresh_id};

/// A picture of one dot. Its last bytes, behind the end that PNG marks, make it another for each number.
pub(crate) fn png(number: u64) -> Vec<u8> {
    let mut picture = vec![
        0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00, 0x00, 0x00, 0x0d, 0x49, 0x48, 0x44,
        0x52, 0x00, 0x00, 0x00, 0x01, 0x00, 0x00, 0x00, 0x01, 0x08, 0x00, 0x00, 0x00, 0x00, 0x3a,
        0x7e, 0x9b, 0x55, 0x00, 0x00, 0x00, 0x0a, 0x49, 0x44, 0x41, 0x54, 0x78, 0x9c, 0x63, 0x60,
        0x00, 0x00, 0x00, 0x02, 0x00, 0x01, 0x48, 0xaf, 0xa4, 0x71, 0x00, 0x00, 0x00, 0x00, 0x49,
        0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82,
    ];
    picture.extend(number.to_le_bytes());
    picture
}

/// A picture as long as wanted.
pub(crate) fn long_png(bytes: usize) -> Vec<u8> {
    let mut picture = png(7);
    picture.extend((picture.len()..bytes).map(|i| (i * 31 % 251) as u8));
    picture
}

/// The messages that send a picture in chunks of so many bytes.
pub(crate) fn messages(
    subject: &str,
    position: i32,
    content: &[u8],
    chunk: usize,
) -> Vec<AddPhotoRequest> {
    let first = AddPhotoRequest {
        photo: Some(Photo {
            subject: subject.into(),
            position,
            caption: "as it was".into(),
            size_bytes: content.len() as i64,
            ..Photo::default()
        }),
        request_id: fresh_id(),
        ..AddPhotoRequest::default()
    };
    let chunks = content.chunks(chunk).map(|chunk| AddPhotoRequest {
        chunk: chunk.to_vec(),
        ..AddPhotoRequest::default()
    });
    std::iter::once(first).chain(chunks).collect()
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
        let request = GetPhotoRequest { name: entry.into() };
        let mut stream = self.shop.jobs().get_photo(request).await?.into_inner();
        let first = stream.message().await?.and_then(|first| first.photo);
        let mut content = Vec::new();
        while let Some(mut answer) = stream.message().await? {
            assert_eq!(answer.photo, None, "the photo comes once");
            content.append(&mut answer.chunk);
        }
        Ok((first.expect("the photo comes first"), content))
    }
}
