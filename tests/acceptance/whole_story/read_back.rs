//! What is sent comes back: in the answer, in the lists and in the entries.

use prost_reflect::{DynamicMessage, Kind, ReflectMessage, Value as Field};
use serde_json::{Value, json};

use crate::support::Shop;
use crate::support::whole::{Step, Teller, json as as_json, story};

/// What of these is shown in the list of parts, message by message; the rest is shown in the entries only.
const IN_THE_LIST_OF_PARTS: [(&str, &[&[&str]]); 2] = [
    (
        "WantedPart",
        &[
            &["assembly", "what", "part_number"],
            &["joint", "quantity", "why"],
        ],
    ),
    ("PartArrival", &[&["assembly", "what"]]),
];

/// What no list shows but that of the entries.
const IN_THE_ENTRIES: [&str; 1] = ["NotRefitted"];

#[tokio::test]
async fn what_is_sent_comes_back_field_by_field() {
    let shop = Shop::open();
    let mut teller = Teller::new(shop.channel());
    let mut wrong = Vec::new();
    for (what, said) in story() {
        let step = teller.tells(&what, said).await;
        let lists = lists(&teller).await;
        for content in contents(&step) {
            let name = content.descriptor().name().to_owned();
            let mut lost = |whence: &str| wrong.push(format!("{what}: {content} is not {whence}"));
            let is_correction = step.method.name() == "CorrectEntry";
            if !is_correction && !holds(&step.answer, &content) {
                lost("in the answer");
            }
            let parts = IN_THE_LIST_OF_PARTS.iter().find(|(part, _)| *part == name);
            let shown = match parts {
                Some((_, parts)) => parts.iter().map(|fields| only(&content, fields)).collect(),
                None if IN_THE_ENTRIES.contains(&name.as_str()) => Vec::new(),
                None => vec![content.clone()],
            };
            let is_listed = |part| lists.iter().any(|list| holds(list, part));
            if !shown.iter().all(is_listed) {
                lost("in any list");
            }
        }
        wrong.extend(not_in_the_entries(&step).map(|lost| format!("{what}: {lost}")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What can be read of all that was said.
async fn lists(teller: &Teller) -> Vec<DynamicMessage> {
    let mut lists = Vec::new();
    for list in [
        "ListLubrications",
        "ListSpecifications",
        "ListJobs",
        "ListPeople",
    ] {
        lists.push(teller.ask(list, json!({"page_size": 500})).await);
    }
    let jobs = as_json(&lists[2]);
    for job in jobs["jobs"].as_array().into_iter().flatten() {
        lists.push(teller.ask("GetJob", json!({"name": job["name"]})).await);
        for list in ["ListJoints", "ListPartsToOrder"] {
            let page = json!({"parent": job["name"], "page_size": 200});
            lists.push(teller.ask(list, page).await);
        }
    }
    lists
}

/// The messages of a request that say something, without what every request has.
fn contents(step: &Step) -> Vec<DynamicMessage> {
    let flat: &[&str] = match step.method.name() {
        "LogAlikeRemovals" => &["joint", "outcome", "methods", "heat_colour", "kept_in"],
        "LogTightening" => &["joint", "step", "torque_reading", "tool", "note"],
        _ => &[],
    };
    if !flat.is_empty() {
        return vec![only(&step.request, flat)];
    }
    let said = step.request.fields();
    said.filter(|(field, _)| field.name() != "said_time")
        .filter_map(|(_, value)| value.as_message().cloned())
        .map(|mut content| {
            // How long it is was for the way only; what it is called says how it is written.
            if content.descriptor().name() == "Photo" {
                content.clear_field_by_name("size_bytes");
            }
            content
        })
        .collect()
}

/// A message with these fields only.
fn only(message: &DynamicMessage, fields: &[&str]) -> DynamicMessage {
    let mut part = message.clone();
    for field in message.descriptor().fields() {
        if !fields.contains(&field.name()) {
            part.clear_field(&field);
        }
    }
    part
}

/// Whether a message says, itself or somewhere in it, all that another one says.
fn holds(message: &DynamicMessage, said: &DynamicMessage) -> bool {
    let inside = |value: &Field| match value {
        Field::Message(inner) => holds(inner, said),
        Field::List(items) => items
            .iter()
            .filter_map(Field::as_message)
            .any(|inner| holds(inner, said)),
        _ => false,
    };
    says(message, said) || message.fields().any(|(_, value)| inside(value))
}

fn says(message: &DynamicMessage, said: &DynamicMessage) -> bool {
    said.fields().all(|(field, value)| {
        message
            .get_field_by_name(field.name())
            .is_some_and(|found| agrees(&found, value))
    })
}

fn agrees(found: &Field, said: &Field) -> bool {
    match (found, said) {
        (Field::Message(found), Field::Message(said)) => says(found, said),
        (Field::List(found), Field::List(said)) => {
            found.len() == said.len() && found.iter().zip(said).all(|(f, s)| agrees(f, s))
        }
        _ => found == said,
    }
}

/// Texts, times and speakers of a request that its entries do not show.
fn not_in_the_entries(step: &Step) -> impl Iterator<Item = String> {
    let bodies: Vec<&str> = step
        .entries
        .iter()
        .filter_map(|entry| entry["body"].as_str())
        .collect();
    let mut said = Vec::new();
    texts(&step.request, &mut said);
    let mut lost: Vec<String> = said
        .into_iter()
        .filter(|text| {
            let quoted = Value::from(text.as_str()).to_string();
            !bodies.iter().any(|body| body.contains(&quoted))
        })
        .map(|text| format!("{text:?} is in no entry: {bodies:?}"))
        .collect();
    if step.entries.is_empty() {
        lost.push("no entry was made".into());
    }
    let request = as_json(&step.request);
    for entry in &step.entries {
        let told = &entry["said"];
        let expected = [
            ("display_name", &Value::from(step.person)),
            ("device", &"tablet 1".into()),
            ("said_time", &request["said_time"]),
        ];
        lost.extend(
            expected
                .into_iter()
                .filter(|(field, value)| told[*field] != **value)
                .map(|(field, value)| format!("{field} {value} is not in {told}")),
        );
    }
    lost.into_iter()
}

/// The free texts of a message: neither names of resources nor what every request has.
fn texts(message: &DynamicMessage, found: &mut Vec<String>) {
    for (field, value) in message.fields() {
        let items = match value {
            Field::List(items) => items.clone(),
            other => vec![other.clone()],
        };
        for item in items {
            match (field.kind(), item) {
                (Kind::Message(_), Field::Message(inner)) => texts(&inner, found),
                (Kind::String, Field::String(text))
                    if !text.starts_with("jobs/")
                        && !text.starts_with("specifications/")
                        && !text.starts_with("lubrications/")
                        && !text.starts_with("people/")
                        && !["job_id", "etag", "request_id", "csv"].contains(&field.name()) =>
                {
                    found.push(text);
                }
                _ => {}
            }
        }
    }
}
