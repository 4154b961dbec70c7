//! A whole story: everything that can be said about a shop and its jobs, said once, in `story.json`.
//!
//! A step of it is a method and its request in protobuf JSON; `name = Method` keeps the entry it made, and `$name` stands for
//! it later. What every request has (its id, when it was said, an etag) is filled in here. Included by path.

use std::collections::HashMap;
use std::sync::LazyLock;

use clampbook_api::{DEVICE_KEY, PERSON_KEY};
use prost_reflect::prost::Message;
use prost_reflect::{DescriptorPool, DynamicMessage, MethodDescriptor, SerializeOptions};
use serde_json::{Value, json};
use tonic::transport::Channel;
use tonic::{Request, Status};

use super::picture::png;
use super::raw;

static POOL: LazyLock<DescriptorPool> = LazyLock::new(|| {
    DescriptorPool::decode(clampbook_api::FILE_DESCRIPTOR_SET).expect("the descriptors are sound")
});

/// All of the contract.
pub(crate) fn pool() -> &'static DescriptorPool {
    &POOL
}

/// Who speaks in turn, and how that is sent.
const PEOPLE: [(&str, &str); 3] = [("Ida", "Ida"), ("Žofie", "%C5%BDofie"), ("Tomas", "Tomas")];

/// The steps of the story.
pub(crate) fn story() -> Vec<(String, Value)> {
    serde_json::from_str(include_str!("story.json")).expect("the story is JSON")
}

/// A method of the contract.
pub(crate) fn method(name: &str) -> MethodDescriptor {
    let found = pool()
        .services()
        .find_map(|service| service.methods().find(|method| method.name() == name));
    found.unwrap_or_else(|| panic!("there is no method {name}"))
}

/// One step as it was told.
pub(crate) struct Step {
    pub(crate) method: MethodDescriptor,
    pub(crate) request: DynamicMessage,
    pub(crate) answer: DynamicMessage,
    /// Who said it.
    pub(crate) person: &'static str,
    /// The entries it made, as they are listed.
    pub(crate) entries: Vec<Value>,
}

/// Somebody who tells the story.
pub(crate) struct Teller {
    channel: Channel,
    said: u32,
    named: HashMap<String, Value>,
}

impl Teller {
    pub(crate) fn new(channel: Channel) -> Self {
        Self {
            channel,
            said: 0,
            named: HashMap::new(),
        }
    }

    /// Goes on at another server of the same journal.
    pub(crate) fn speaks_to(&mut self, channel: Channel) {
        self.channel = channel;
    }

    fn speaker(&self) -> (&'static str, &'static str) {
        PEOPLE[self.said as usize % PEOPLE.len()]
    }

    /// Tells all of it.
    pub(crate) async fn tells_all(&mut self) {
        for (what, said) in story() {
            self.tells(&what, said).await;
        }
    }

    /// Tells one step.
    pub(crate) async fn tells(&mut self, what: &str, said: Value) -> Step {
        let (name, called) = what.split_once(" = ").unwrap_or(("", what));
        let request = self.request(called, said).await;
        let method = method(called);
        let answer = self
            .send(&method, &request)
            .await
            .unwrap_or_else(|status| panic!("{called} {request}: {status:?}"));
        let entries = self.entries_of(&stream_of(&request), &request).await;
        if !name.is_empty() {
            self.named.insert(name.into(), entries[0]["name"].clone());
        }
        Step {
            request: message(&method, request),
            method,
            answer,
            person: self.speaker().0,
            entries,
        }
    }

    /// The request of a step with what every request has.
    pub(crate) async fn request(&mut self, called: &str, said: Value) -> Value {
        self.said += 1;
        let mut request = self.with_names(said);
        if method(called).input().get_field_by_name("etag").is_some() {
            request["etag"] = self.etag(&request).await;
        }
        if called == "AddPhoto" {
            request["photo"]["size_bytes"] = png(0).len().into();
        }
        request["request_id"] = format!("00000000-0000-4000-8000-{:012}", self.said).into();
        let (hours, minutes) = (8 + self.said / 60, self.said % 60);
        request["said_time"] = format!("2025-11-03T{hours:02}:{minutes:02}:07.250Z").into();
        request
    }

    /// Sends a request, a photo in two pieces.
    pub(crate) async fn send(
        &self,
        method: &MethodDescriptor,
        request: &Value,
    ) -> Result<DynamicMessage, Status> {
        let mut messages = vec![message(method, request.clone()).encode_to_vec()];
        if method.is_client_streaming() {
            for chunk in png(self.said.into()).chunks(40) {
                let mut piece = DynamicMessage::new(method.input());
                let chunk = prost_reflect::Value::Bytes(chunk.to_vec().into());
                piece.set_field_by_name("chunk", chunk);
                messages.push(piece.encode_to_vec());
            }
        }
        let mut request = Request::new(messages);
        let (_, person) = self.speaker();
        let metadata = request.metadata_mut();
        metadata.insert(PERSON_KEY, person.parse().expect("ASCII"));
        metadata.insert(DEVICE_KEY, "tablet 1".parse().expect("ASCII"));
        let answer = raw::call(self.channel.clone(), method, request).await?;
        Ok(DynamicMessage::decode(method.output(), &*answer).expect("an answer"))
    }

    /// Asks for something, which must be answered.
    pub(crate) async fn ask(&self, called: &str, request: Value) -> DynamicMessage {
        let method = method(called);
        let answer = self.send(&method, &request).await;
        answer.unwrap_or_else(|status| panic!("{called} {request}: {status:?}"))
    }

    /// The names of entries in place of what they are called in the story.
    fn with_names(&self, said: Value) -> Value {
        match said {
            Value::String(text) if text.starts_with('$') => self.named[&text[1..]].clone(),
            Value::Array(items) => items
                .into_iter()
                .map(|item| self.with_names(item))
                .collect(),
            Value::Object(fields) => fields
                .into_iter()
                .map(|(field, value)| (field, self.with_names(value)))
                .collect(),
            other => other,
        }
    }

    /// The etag that a request needs, as things stand.
    async fn etag(&self, request: &Value) -> Value {
        if let Some(decision) = request
            .get("decision")
            .filter(|_| request.get("entry").is_none())
        {
            let joint = json(
                &self
                    .ask("GetJoint", json!({"name": decision["joint"]}))
                    .await,
            );
            let index = decision["position"].as_u64().expect("a position") - 1;
            return joint["positions"][index as usize]["etag"].clone();
        }
        let name = request.get("name").or_else(|| request.get("entry"));
        let name = name.and_then(Value::as_str).expect("a name");
        match name.split('/').next() {
            Some("jobs") => {
                let job = stream_of(request);
                json(&self.ask("GetJob", json!({"name": job})).await)["etag"].clone()
            }
            Some("specifications") => {
                let asked = json!({"name": name});
                json(&self.ask("GetSpecification", asked).await)["etag"].clone()
            }
            Some("people") => {
                let all = json(&self.ask("ListPeople", json!({"page_size": 500})).await);
                let mut all = all["people"].as_array().expect("people").iter();
                let person = all.find(|person| person["name"] == name);
                person.expect("the person")["etag"].clone()
            }
            _ => {
                let all = json(
                    &self
                        .ask("ListLubrications", json!({"page_size": 500}))
                        .await,
                );
                let all = all["lubrications"].as_array().expect("lubrications");
                let own = all.iter().find(|own| own["name"] == name);
                own.map_or("withdrawn".into(), |own| own["etag"].clone())
            }
        }
    }

    /// The entries of a stream that a request made.
    async fn entries_of(&self, stream: &str, request: &Value) -> Vec<Value> {
        let asked = json!({"parent": stream, "page_size": 1_000});
        let listed = json(&self.ask("ListEntries", asked).await);
        let entries = listed["entries"].as_array().expect("entries").iter();
        entries
            .filter(|entry| entry["request_id"] == request["request_id"])
            .cloned()
            .collect()
    }
}

/// The stream that a request is about.
fn stream_of(request: &Value) -> String {
    if let Some(job) = request["job_id"].as_str() {
        return format!("jobs/{job}");
    }
    let text = request.to_string();
    match text.split_once("\"jobs/") {
        Some((_, rest)) => format!("jobs/{}", rest.split(['/', '"']).next().unwrap_or_default()),
        None => "shop".into(),
    }
}

/// A request of a method.
pub(crate) fn message(method: &MethodDescriptor, request: Value) -> DynamicMessage {
    DynamicMessage::deserialize(method.input(), request)
        .unwrap_or_else(|error| panic!("a request of {}: {error}", method.name()))
}

/// A message as protobuf JSON with the names of the contract, without what was not said.
pub(crate) fn json(message: &DynamicMessage) -> Value {
    let options = SerializeOptions::new().use_proto_field_name(true);
    message
        .serialize_with_options(serde_json::value::Serializer, &options)
        .expect("it can be written as JSON")
}
