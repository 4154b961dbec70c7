//! No field is forgotten: each that can be said is said in the story, each of an answer is filled some time.

use std::collections::{BTreeMap, BTreeSet};

use prost_reflect::{DynamicMessage, Kind, MessageDescriptor, Value as Field};
use serde_json::{Value, json};

use super::writes;
use crate::contract::{comment, methods};
use crate::support::Shop;
use crate::support::whole::{Teller, json as as_json, message, method, story};

/// Fields that the story does not say, each with the reason.
const NOT_SAID: &[(&str, &str)] = &[
    (".request_id", "filled in for every request"),
    (".said_time", "filled in for every request"),
    (".etag", "filled in for every request"),
    (".validate_only", "then nothing is written; see imports.rs"),
    ("AddPhotoRequest.chunk", "comes in messages of its own"),
    ("Photo.size_bytes", "filled in from the picture"),
    ("Job.name", "follows from the id"),
    ("Assembly.name", "follows from the id"),
];

/// Fields of answers that the story does not fill, each with the reason.
const NOT_FILLED: &[(&str, &str)] = &[];

#[test]
fn everything_that_can_be_said_is_said_in_the_story() {
    let mut said = BTreeSet::new();
    let mut wrong = Vec::new();
    for (what, request) in story() {
        let name = what.split(" = ").last().unwrap_or_default();
        let request = message(&method(name), request);
        seen(&request, &mut said);
        alike(&request, &mut wrong);
    }
    let can_be_said = reachable(writes().map(|method| method.input()), |text| {
        !text.starts_with("Output only.")
    });
    wrong.extend(missing(can_be_said, &said, NOT_SAID));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[tokio::test]
async fn every_field_of_an_answer_is_filled_some_time() {
    let shop = Shop::open();
    let mut teller = Teller::new(shop.channel());
    let mut filled = BTreeSet::new();
    for (what, said) in story() {
        seen(&teller.tells(&what, said).await.answer, &mut filled);
    }
    for (called, asked) in questions(&teller).await {
        seen(&teller.ask(called, asked).await, &mut filled);
    }
    for (what, said) in published_and_not_stopped() {
        seen(&teller.tells(what, said).await.answer, &mut filled);
    }
    let sheet = json!({"name": "jobs/hay-press/assemblies/guards"});
    let sheet = teller.ask("GetSheet", sheet).await;
    seen(&sheet, &mut filled);
    let about_the_record = [
        "JobService",
        "SpecificationService",
        "SheetService",
        "PeopleService",
    ];
    let outputs = methods()
        .filter(|method| about_the_record.contains(&method.parent_service().name()))
        .filter(|method| !method.is_server_streaming())
        .map(|method| method.output());
    let wrong = missing(reachable(outputs, |_| true), &filled, NOT_FILLED);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A joint that is tightened in published steps, and that nothing stops: only its sheet tells those.
fn published_and_not_stopped() -> [(&'static str, Value); 5] {
    let joint = json!({
        "assembly": "jobs/hay-press/assemblies/guards", "display_name": "Guard", "layout": "LAYOUT_SINGLE",
        "positions": [{}], "criticality": "CRITICALITY_C", "hole_kind": "HOLE_KIND_THROUGH",
        "specification": "specifications/brake-plate",
    });
    let removal = json!({
        "joint": "jobs/hay-press/joints/guard", "position": 1, "outcome": "REMOVAL_OUTCOME_NORMAL",
        "grade": "SAE J429 5",
    });
    let refit = json!({
        "joint": "jobs/hay-press/joints/guard", "position": 1, "fitted_part": "FITTED_PART_ORIGINAL",
    });
    let tightening = json!({
        "joint": "jobs/hay-press/joints/guard", "positions": [1], "step": "TIGHTENING_STEP_SNUG",
    });
    let assembly = json!({"display_name": "Guards"});
    [
        (
            "CreateAssembly",
            json!({"parent": "jobs/hay-press", "assembly_id": "guards", "assembly": assembly}),
        ),
        (
            "CreateJoint",
            json!({"parent": "jobs/hay-press", "joint_id": "guard", "joint": joint}),
        ),
        ("LogRemoval", json!({"removal": removal})),
        ("LogRefit", json!({"refit": refit})),
        ("LogTightening", tightening),
    ]
}

/// All that can be asked about what the story told.
async fn questions(teller: &Teller) -> Vec<(&'static str, Value)> {
    let job = "jobs/orchard-tractor";
    let mut asked = vec![
        ("ListJobs", json!({"page_size": 1})),
        ("GetJob", json!({"name": job})),
        ("ListRules", json!({"page_size": 1})),
        ("ListSpecifications", json!({"page_size": 1})),
        ("ListPeople", json!({"page_size": 1})),
        ("ExportSpecifications", json!({"page_size": 1})),
        ("SearchJobs", json!({"kept_in": "bag", "page_size": 1})),
        ("GetSheet", json!({"name": job})),
        (
            "RenderSheet",
            json!({"name": job, "format": "SHEET_FORMAT_TEXT"}),
        ),
        ("GetSpecification", json!({"name": "specifications/drum"})),
        (
            "ListSpecificationUses",
            json!({"name": "specifications/back-plate", "page_size": 1}),
        ),
        (
            "ListSpecificationUses",
            json!({"name": "specifications/brake-plate"}),
        ),
        (
            "CheckReplacement",
            json!({
                "joint": "jobs/orchard-tractor/joints/cover", "position": 1,
                "replacement": {"thread": "M10", "length": "45 mm", "grade": "8.8"},
            }),
        ),
    ];
    for list in [
        "ListJoints",
        "ListFlags",
        "ListPartsToOrder",
        "ListWaits",
        "ListEntries",
    ] {
        for size in [1, 200] {
            asked.push((list, json!({"parent": job, "page_size": size})));
        }
    }
    let joints = as_json(&teller.ask("ListJoints", json!({"parent": job})).await);
    for joint in joints["joints"].as_array().expect("joints") {
        asked.push(("GetEffectiveValue", json!({"joint": joint["name"]})));
        for position in 1..=joint["positions"].as_array().map_or(0, Vec::len) {
            for size in [1, 200] {
                let of = json!({"joint": joint["name"], "position": position, "page_size": size});
                asked.push(("ListPositionHistory", of));
            }
        }
    }
    asked
}

/// The fields of a message and of all in it that hold something.
fn seen(message: &DynamicMessage, found: &mut BTreeSet<String>) {
    for (field, value) in message.fields() {
        found.insert(short(field.full_name()));
        for inner in inner(value) {
            seen(inner, found);
        }
    }
}

/// Texts and numbers that two fields of one message share, so that one could stand in for the other unseen.
fn alike(message: &DynamicMessage, found: &mut Vec<String>) {
    let mut values: BTreeMap<String, String> = BTreeMap::new();
    for (field, value) in message.fields() {
        let telling = match value {
            Field::String(text) => Some(text.clone()),
            Field::F64(number) => Some(number.to_string()),
            _ => None,
        };
        let name = short(field.full_name());
        if let Some(first) = telling.and_then(|telling| values.insert(telling, name.clone())) {
            found.push(format!("{first} and {name} say the same: {value}"));
        }
        for inner in inner(value) {
            alike(inner, found);
        }
    }
}

fn inner(value: &Field) -> Vec<&DynamicMessage> {
    match value {
        Field::Message(message) => vec![message],
        Field::List(items) => items.iter().filter_map(Field::as_message).collect(),
        _ => Vec::new(),
    }
}

/// All fields of these messages, and of all that they may hold, whose comment is as wanted.
fn reachable(
    messages: impl Iterator<Item = MessageDescriptor>,
    wanted: impl Fn(&str) -> bool,
) -> BTreeSet<String> {
    let mut fields = BTreeSet::new();
    let mut ahead: Vec<MessageDescriptor> = messages.collect();
    while let Some(message) = ahead.pop() {
        let file = message.parent_file();
        for field in message.fields() {
            let is_new =
                wanted(&comment(&file, field.path())) && fields.insert(short(field.full_name()));
            if let Kind::Message(inner) = field.kind()
                && is_new
                && inner.package_name() == "clampbook.v1"
            {
                ahead.push(inner);
            }
        }
    }
    fields
}

/// What is missing without a reason, and every reason that is not needed.
fn missing(
    fields: BTreeSet<String>,
    found: &BTreeSet<String>,
    excused: &[(&str, &str)],
) -> Vec<String> {
    let is_excused = |field: &str| excused.iter().any(|(end, _)| field.ends_with(end));
    let missing: Vec<&String> = fields.difference(found).collect();
    let needless = excused
        .iter()
        .filter(|(end, _)| !missing.iter().any(|field| field.ends_with(end)))
        .map(|(end, why)| format!("{end} need not be excused any more: {why}"));
    let without_reason = missing.iter().filter(|field| !is_excused(field));
    let without_reason = without_reason.map(|field| format!("{field} is never filled"));
    without_reason.chain(needless).collect()
}

fn short(name: &str) -> String {
    name.trim_start_matches("clampbook.v1.").into()
}
