//! A client that sends whatever bytes it is given.
//!
//! Included by path wherever calls are made from the descriptors.

use bytes::{Buf, BufMut};
use http::uri::PathAndQuery;
use prost_reflect::MethodDescriptor;
use tonic::codec::{Codec, DecodeBuf, Decoder, EncodeBuf, Encoder};
use tonic::transport::Channel;
use tonic::{Request, Status};

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

/// Calls a method with one message, or with several where it takes a stream. Of a stream that answers message by message
/// the first answer is waited for, of a watch only its beginning.
pub(crate) async fn call(
    channel: Channel,
    method: &MethodDescriptor,
    request: Request<Vec<Vec<u8>>>,
) -> Result<Vec<u8>, Status> {
    let path = format!("/{}/{}", method.parent_service().full_name(), method.name());
    let path: PathAndQuery = path.parse().expect("a path");
    let mut client = tonic::client::Grpc::new(channel);
    client.ready().await.expect("a connection");
    let one = |mut messages: Vec<Vec<u8>>| messages.remove(0);
    match (method.is_client_streaming(), method.is_server_streaming()) {
        (false, false) => client
            .unary(request.map(one), path, Bytes)
            .await
            .map(tonic::Response::into_inner),
        (false, true) => client
            .server_streaming(request.map(one), path, Bytes)
            .await
            .map(|_| Vec::new()),
        (true, _) => {
            let messages = request.map(tokio_stream::iter);
            let mut answers = client.streaming(messages, path, Bytes).await?.into_inner();
            answers.message().await.map(Option::unwrap_or_default)
        }
    }
}
