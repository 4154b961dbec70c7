//! Pictures, how they go on the wire, and how they come back.
//!
//! Included by path wherever photos are sent.

use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::v1::{AddPhotoRequest, GetPhotoRequest, Photo};
use tonic::Status;
use tonic::transport::Channel;

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

/// A picture as long as wanted, and another for each number.
pub(crate) fn long_png(number: u64, bytes: usize) -> Vec<u8> {
    let mut picture = png(number);
    picture.extend((picture.len() as u64..bytes as u64).map(|i| ((i * 31 + number) % 251) as u8));
    picture
}

/// The messages that send a picture in chunks of so many bytes.
pub(crate) fn messages(
    photo: Photo,
    request_id: String,
    content: &[u8],
    chunk: usize,
) -> Vec<AddPhotoRequest> {
    let first = AddPhotoRequest {
        photo: Some(Photo {
            size_bytes: content.len() as i64,
            ..photo
        }),
        request_id,
        ..AddPhotoRequest::default()
    };
    let chunks = content.chunks(chunk).map(|chunk| AddPhotoRequest {
        chunk: chunk.to_vec(),
        ..AddPhotoRequest::default()
    });
    std::iter::once(first).chain(chunks).collect()
}

/// A photo with its content, as it is given out.
pub(crate) async fn read_back(
    jobs: &mut JobServiceClient<Channel>,
    entry: &str,
) -> Result<(Photo, Vec<u8>), Status> {
    let request = GetPhotoRequest { name: entry.into() };
    let mut stream = jobs.get_photo(request).await?.into_inner();
    let first = stream.message().await?.and_then(|first| first.photo);
    let mut content = Vec::new();
    while let Some(mut answer) = stream.message().await? {
        assert_eq!(answer.photo, None, "the photo comes once");
        content.append(&mut answer.chunk);
    }
    Ok((first.expect("the photo comes first"), content))
}
