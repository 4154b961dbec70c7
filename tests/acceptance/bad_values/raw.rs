//! A client that sends whatever bytes it is given.

use bytes::{Buf, BufMut};
use http::uri::PathAndQuery;
use prost_reflect::MethodDescriptor;
use tonic::codec::{Codec, DecodeBuf, Decoder, EncodeBuf, Encoder};
use tonic::{Request, Status};

use crate::support::Shop;

/// Passes bytes through as they are.
#[derive(Clone, Copy, Default)]
struct Bytes;

impl Codec for Bytes {
    type Encode = Vec<u8>;
    type Decode = Vec<u8>;
    type Encoder = Self;
    type Decoder = Self;

    fn encoder(&mut self) -> Self {
        *self
    }

    fn decoder(&mut self) -> Self {
        *self
    }
}

impl Encoder for Bytes {
    type Item = Vec<u8>;
    type Error = Status;

    fn encode(&mut self, item: Vec<u8>, to: &mut EncodeBuf<'_>) -> Result<(), Status> {
        to.put_slice(&item);
        Ok(())
    }
}

impl Decoder for Bytes {
    type Item = Vec<u8>;
    type Error = Status;

    fn decode(&mut self, from: &mut DecodeBuf<'_>) -> Result<Option<Vec<u8>>, Status> {
        Ok(Some(from.copy_to_bytes(from.remaining()).to_vec()))
    }
}

/// Calls a method with one message. Of a stream that answers message by message the first answer is waited for, of a
/// watch only its beginning.
pub(super) async fn call(
    shop: &Shop,
    method: &MethodDescriptor,
    message: Vec<u8>,
) -> Result<Vec<u8>, Status> {
    let path = format!("/{}/{}", method.parent_service().full_name(), method.name());
    let path: PathAndQuery = path.parse().expect("a path");
    let mut client = tonic::client::Grpc::new(shop.channel());
    client.ready().await.expect("a connection");
    match (method.is_client_streaming(), method.is_server_streaming()) {
        (false, false) => client
            .unary(Request::new(message), path, Bytes)
            .await
            .map(tonic::Response::into_inner),
        (false, true) => client
            .server_streaming(Request::new(message), path, Bytes)
            .await
            .map(|_| Vec::new()),
        (true, _) => {
            let messages = Request::new(tokio_stream::once(message));
            let mut answers = client.streaming(messages, path, Bytes).await?.into_inner();
            answers.message().await.map(Option::unwrap_or_default)
        }
    }
}
