//! One bad value at a time, for every field of every method, made from the descriptors and sent as raw bytes.
//!
//! Each must be refused with a code that fits, name a field that exists, and leave the journal as it was. A new method
//! needs one line in `bases.rs`; a new field needs nothing, unless every value of it is allowed, which `allowed.rs` excuses.

mod allowed;
mod bases;
mod spoiling;

use std::collections::BTreeSet;

use prost_reflect::prost::Message;
use prost_reflect::{DynamicMessage, Kind, MessageDescriptor, MethodDescriptor};
use tonic::{Code, Request, Status};

use self::bases::Bases;
use self::spoiling::Bad;
use crate::contract::methods;
use crate::support::{Refusal, Shop, raw};

#[tokio::test]
async fn no_field_of_any_method_takes_a_bad_value() {
    let shop = Shop::open();
    let bases = Bases::prepare(&shop).await;
    let mut wrong = Vec::new();
    let mut tried = 0;
    // What is wrong with one question of a stream is answered in its place; torque.rs sees to that.
    let unary = in_order().into_iter().filter(|m| !m.is_client_streaming());
    let story = unary.flat_map(|method| {
        (0..bases::count(&method)).map(move |variant| (method.clone(), variant))
    });
    for (method, variant) in story {
        let base = bases.of(&method, variant, &shop).await;
        for bad in spoiling::all(&base) {
            tried += 1;
            let before = shop.server.entry_count();
            let outcome = call(&shop, &method, bad.message.encode_to_vec()).await;
            let place = format!("{} {} = {}", method.name(), bad.path, bad.what);
            match outcome {
                Ok(_) if allowed::allows(&bad) => continue,
                Ok(_) => wrong.push(format!("{place}: taken")),
                Err(status) => {
                    let why = misfits(&method, &bad, &status);
                    wrong.extend(why.map(|why| format!("{place}: {why}")));
                }
            }
            if shop.server.entry_count() != before {
                wrong.push(format!("{place}: something was written"));
            }
        }
        // What all of that was made from is good; and what only the server says is ignored, not refused.
        let good = spoiling::with_output_only_rubbish(&base);
        if let Err(status) = call(&shop, &method, good.encode_to_vec()).await {
            let name = method.name();
            wrong.push(format!("{name}: the base itself is refused: {status:?}"));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} of {tried}:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
    assert!(tried > 500, "only {tried} values were tried");
}

async fn call(shop: &Shop, method: &MethodDescriptor, message: Vec<u8>) -> Result<Vec<u8>, Status> {
    raw::call(shop.channel(), method, Request::new(vec![message])).await
}

/// Methods that write come in the order of the story, each making what the next one needs; then those that read.
fn in_order() -> Vec<MethodDescriptor> {
    let mut all: Vec<_> = methods().collect();
    all.sort_by_key(|method| {
        let place = bases::STORY.iter().position(|name| *name == method.name());
        place.unwrap_or(bases::STORY.len())
    });
    all
}

/// What is not as it should be about a refusal, if anything.
fn misfits(method: &MethodDescriptor, bad: &Bad, status: &Status) -> Option<String> {
    let fits = match status.code() {
        Code::InvalidArgument => true,
        Code::NotFound => bad.is_name(),
        // A stale etag is a conflict with somebody else's writing.
        Code::Aborted => bad.path == "etag",
        Code::FailedPrecondition => bad.path.ends_with("purpose"),
        _ => false,
    };
    if !fits {
        return Some(format!("answered with {status:?}"));
    }
    let refusal = Refusal::of(status);
    if status.code() != Code::InvalidArgument {
        return None;
    }
    if refusal.wrong.is_empty() {
        return Some(format!("no field is named: {refusal:?}"));
    }
    for (field, why) in &refusal.wrong {
        if !exists(&method.input(), field) {
            return Some(format!("{field} is no field of {}", method.input().name()));
        }
        if why.is_empty() {
            return Some(format!("{field} is wrong without a reason"));
        }
    }
    let named: BTreeSet<&str> = refusal
        .wrong
        .iter()
        .map(|(field, _)| field.as_str())
        .collect();
    let is_near = |field: &&str| {
        let field = without_indices(field);
        let path = without_indices(&bad.path);
        field == path
            || field.starts_with(&format!("{path}."))
            || path.starts_with(&format!("{field}."))
    };
    if named.iter().any(is_near) || allowed::is_blamed_elsewhere(&bad.path, &named) {
        None
    } else {
        Some(format!("blamed on {named:?}"))
    }
}

/// True when a path like `joint.positions[3].label` leads to a field.
fn exists(message: &MessageDescriptor, path: &str) -> bool {
    let path = without_indices(path);
    let (first, rest) = path.split_once('.').unwrap_or((&path, ""));
    let Some(field) = message.get_field_by_name(first) else {
        return false;
    };
    match field.kind() {
        _ if rest.is_empty() => true,
        Kind::Message(inner) => exists(&inner, rest),
        _ => false,
    }
}

fn without_indices(path: &str) -> String {
    let mut plain = String::new();
    let mut inside = false;
    for character in path.chars() {
        match character {
            '[' => inside = true,
            ']' => inside = false,
            other if !inside => plain.push(other),
            _ => {}
        }
    }
    plain
}

#[tokio::test]
async fn bytes_that_are_no_message_are_refused_and_nothing_else_suffers() {
    let shop = Shop::open();
    Bases::prepare(&shop).await;
    let before = shop.server.entry_count();
    for method in methods() {
        for bytes in [
            vec![0xff; 40],
            vec![0x0a, 0xff, 0xff, 0xff, 0xff, 0x07],
            vec![0x0a, 0x02, 0xc3, 0x28],
        ] {
            let status = call(&shop, &method, bytes)
                .await
                .expect_err("it is no message");
            // The code that gRPC has for a request that cannot be read.
            assert_eq!(
                status.code(),
                Code::Internal,
                "{}: {status:?}",
                method.name()
            );
            assert!(!status.message().contains("panic"), "{status:?}");
        }
    }
    assert_eq!(shop.server.entry_count(), before);
    let known = DynamicMessage::new(methods().next().expect("a method").input());
    assert!(known.encode_to_vec().is_empty());
}

#[tokio::test]
async fn fields_of_a_newer_release_are_passed_over() {
    let shop = Shop::open();
    let bases = Bases::prepare(&shop).await;
    let method = methods()
        .find(|method| method.name() == "GetJob")
        .expect("a method");
    let mut bytes = bases.of(&method, 0, &shop).await.encode_to_vec();
    // Field 1000, a text: tag 8002, then its length.
    bytes.extend([0xc2, 0x3e, 0x03, b'n', b'e', b'w']);
    call(&shop, &method, bytes)
        .await
        .expect("what is not known is no reason to refuse");
}
