//! Every screen shows what it is given: of a message that is filled to the last field, each field is changed in turn, and the
//! screen must change with it. What a screen leaves out is written down in `left_out.txt`; `CLAMPBOOK_BLESS=1` writes it
//! down again, and its diff is what is approved.

mod spoken;

use std::collections::{BTreeMap, BTreeSet};
use std::thread;

use prost_reflect::{
    DescriptorPool, DynamicMessage, FieldDescriptor, Kind, MessageDescriptor, ReflectMessage, Value,
};

use super::*;
use crate::json::NAMES;
use spoken::texts_of;

/// A message type with what shows it.
type Screen = (&'static str, fn(&DynamicMessage) -> String);

/// How many ways there are to fill what holds one of several things.
const WAYS: usize = 4;

/// Answers that hold one of several things.
const WITH_A_CHOICE: [&str; 3] = [
    "AnswerCounterpartResponse",
    "LogFindingResponse",
    "LogNotRefittedResponse",
];

macro_rules! screens {
    ($($message:ident $show:expr;)+) => {
        const SCREENS: &[Screen] = &[$((stringify!($message), |message| {
            $show(&message.transcode_to::<clampbook_api::v1::$message>().expect("the same message"))
        })),+];
    };
}

screens! {
    AddPhotoResponse recorded::photo;
    AlignCastellatedNutResponse stretch::castle;
    AnswerCounterpartResponse recorded::counterpart;
    Assembly job::assembly;
    CheckJointResponse strength::joint;
    CheckReplacementResponse ordering::fits;
    ComputeLongFormTorqueResponse strength::long_form;
    ComputeStretchResponse stretch::stretch;
    ComputeTorqueResponse |m: &_| torque::answer(m);
    Lubrication lubrications::own;
    CorrectEntryResponse recorded::correction;
    Entry journal::entry;
    FitLengthResponse strength::length;
    GetEffectiveValueResponse |m: &_| effective::value(m);
    IdentifyGradeResponse identify::head;
    IdentifySpannerResponse identify::spanner;
    IdentifyThreadResponse identify::thread;
    ImportRemovalsResponse |m: &_| recorded::import(m, false);
    ImportSpecificationsResponse |m: &_| specs::imported(m, false);
    Job job::job;
    Joint joint::joint;
    ListLubricationsResponse catalog::lubrications;
    ListEntriesResponse journal::entries;
    ListFlagsResponse flag::list;
    ListGradesResponse catalog::grades;
    ListAcrossFlatsResponse parts::hexagons;
    ListJobsResponse job::jobs;
    ListJointsResponse joint::joints;
    ListLookAlikesResponse identify::look_alikes;
    ListNutGradesResponse catalog::nuts;
    ListParentMetalsResponse parts::metals;
    ListPartsToOrderResponse ordering::parts;
    ListPeopleResponse people::list;
    ListPositionHistoryResponse journal::history;
    ListPublishedTargetsResponse parts::targets;
    ListPublishedTorquesResponse published_rows::list;
    ListRulesResponse flag::rules;
    ListSpecificationUsesResponse specs::uses;
    ListSpecificationsResponse specs::list;
    ListThreadsResponse catalog::threads;
    ListWaitsResponse ordering::waits;
    LogAlikeRemovalsResponse recorded::alike;
    LogDecisionResponse recorded::decision;
    LogFindingResponse recorded::finding;
    LogMatchMarksResponse recorded::marks;
    LogPartArrivalResponse recorded::arrival;
    LogPartWantedResponse recorded::wanted;
    LogNotRefittedResponse recorded::pieces;
    LogRefitResponse recorded::refit;
    LogRemovalResponse recorded::removal;
    LogTighteningResponse recorded::tightening;
    Person people::one;
    Photo |m: &_| photo::written(m, std::path::Path::new("copy.png"));
    PlanTighteningResponse procedure::answer;
    RestateTorqueResponse |m: &_| published::answer(m);
    Rule flag::rule;
    SearchJobsResponse search::places;
    SetWrenchResponse wrench::answer;
    Specification specs::one;
    Thread catalog::thread;
}

/// Where it is written down what screens leave out.
const LEFT_OUT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/client/show/left_out.txt");

/// What no screen may leave out.
const GRAVE: [&str; 4] = [" flags.", " stops.", "cautions", "objections.text"];

/// Ends of paths that are for programs, not for people.
const FOR_PROGRAMS: [(&str, &str); 8] = [
    ("etag", "goes back with the next request"),
    ("next_page_token", "goes back with the next request"),
    ("hash", "is checked by programs"),
    ("said.device", "stands in the entry"),
    ("said.write_time", "stands in the entry"),
    ("sources.source", "an id; the citation is shown"),
    ("checks.check", "an id; the text is shown"),
    ("checks.share", "the text says it"),
];

/// Messages that are not shown by a screen of their own.
const NO_SCREEN: [(&str, &str); 5] = [
    ("ComputeTorquesResponse", "rows of a table; see many.rs"),
    ("ExportSpecificationsResponse", "is a table already"),
    ("RenderChartResponse", "is a drawing already"),
    ("Sheet", "is printed as JSON only"),
    ("RenderSheetResponse", "is the sheet already"),
];

#[test]
fn every_answer_has_a_screen() {
    let shown: BTreeSet<&str> = SCREENS.iter().map(|(name, _)| *name).collect();
    let without: Vec<&str> = NAMES
        .iter()
        .map(|name| name.trim_start_matches("clampbook.v1."))
        .filter(|name| !shown.contains(name) && !NO_SCREEN.iter().any(|(none, _)| none == name))
        .collect();
    assert_eq!(without, [""; 0]);
}

#[test]
fn every_screen_shows_every_field_but_those_left_out_on_purpose() {
    let pool = DescriptorPool::decode(clampbook_api::FILE_DESCRIPTOR_SET).expect("descriptors");
    let hidden = thread::scope(|all| {
        let looked = SCREENS.iter().map(|(name, show)| {
            let message = pool.get_message_by_name(&format!("clampbook.v1.{name}"));
            let message = message.expect("it is in the contract");
            all.spawn(move || {
                let hidden = not_shown(&message, *show).into_iter();
                hidden
                    .map(|path| format!("{name} {path}"))
                    .collect::<Vec<_>>()
            })
        });
        let looked: Vec<_> = looked.collect();
        looked
            .into_iter()
            .flat_map(|one| one.join().expect("it is shown"))
            .collect::<BTreeSet<String>>()
    });
    let grave = |path: &&String| {
        GRAVE.iter().any(|word| path.contains(word)) && !path.ends_with(".entries")
    };
    assert_eq!(
        hidden.iter().find(grave),
        None,
        "what stops work is never left out"
    );
    let found: String = hidden.into_iter().map(|path| path + "\n").collect();
    if std::env::var_os("CLAMPBOOK_BLESS").is_some_and(|said| said == "1") {
        std::fs::write(LEFT_OUT, &found).expect("it is written down");
    }
    let expected = std::fs::read_to_string(LEFT_OUT).expect("what is left out");
    let beyond = |one: &str, other: &str| {
        let of_other: BTreeSet<&str> = other.lines().collect();
        let beyond = one.lines().filter(|line| !of_other.contains(line));
        beyond.map(str::to_owned).collect::<Vec<_>>()
    };
    let (lost, shown) = (beyond(&found, &expected), beyond(&expected, &found));
    assert!(
        lost.is_empty() && shown.is_empty(),
        "not shown: {lost:#?}\nshown, though it was left out: {shown:#?}"
    );
}

/// Paths of fields whose value changes nothing on the screen.
fn not_shown(message: &MessageDescriptor, show: fn(&DynamicMessage) -> String) -> BTreeSet<String> {
    let mut shown: BTreeMap<String, bool> = BTreeMap::new();
    let has_choice = WITH_A_CHOICE.contains(&message.name());
    for way in 0..WAYS {
        if way > 0 && !has_choice {
            break;
        }
        let full = Filling { way, count: 0 }.message(message, 0);
        let text = show(&full);
        let leaves = leaves(&full);
        for (path, steps) in &leaves {
            let known = shown.entry(path.clone()).or_default();
            *known = *known || show(&with(&full, steps, other)) != text;
        }
        // What stands in the way of a field may be the one beside it.
        for (path, steps) in &leaves {
            if way > 0 || steps.len() > 2 || shown[path] {
                continue;
            }
            let beside = |other: &&Steps| {
                other.split_last().map(|(_, to)| to) == steps.split_last().map(|(_, to)| to)
            };
            let mut others = leaves.iter().map(|(_, other)| other).filter(beside);
            let is_seen = others.any(|away| {
                let base = with(&full, away, none);
                show(&with(&base, steps, other)) != show(&base)
            });
            shown.insert(path.clone(), is_seen);
        }
    }
    let is_for_programs = |path: &str| FOR_PROGRAMS.iter().any(|(end, _)| path.ends_with(end));
    let hidden = shown.iter().filter(|(_, seen)| !**seen);
    let hidden = hidden.filter(|(path, _)| !is_for_programs(path));
    // What a text holds is shown where the text is.
    let is_in_text = |path: &str| texts_of(message, path).iter().any(|text| shown[text]);
    let hidden = hidden.filter(|(path, _)| !is_in_text(path));
    hidden.map(|(path, _)| together(path, &shown)).collect()
}

/// The path, or the outermost message on the way to it of which nothing is shown.
fn together(path: &str, shown: &BTreeMap<String, bool>) -> String {
    let ends = path.match_indices('.').map(|(end, _)| &path[..=end]);
    let is_hidden = |whole: &&str| {
        !shown
            .iter()
            .any(|(other, seen)| *seen && other.starts_with(*whole))
    };
    match { ends }.find(is_hidden) {
        Some(whole) => format!("{whole}*"),
        None => path.to_owned(),
    }
}

/// Fills messages with values that are all different.
struct Filling {
    way: usize,
    count: i32,
}

impl Filling {
    fn message(&mut self, of: &MessageDescriptor, depth: usize) -> DynamicMessage {
        let mut filled = DynamicMessage::new(of.clone());
        for field in of.fields() {
            if field.containing_oneof().is_some_and(|oneof| {
                let fields: Vec<_> = oneof.fields().collect();
                fields[self.way % fields.len()] != field
            }) {
                continue;
            }
            if let Some(value) = self.value(&field, depth) {
                let value = match field.is_list() {
                    true if depth > 0 => Value::List(vec![value]),
                    true => Value::List(
                        [Some(value), self.value(&field, depth)]
                            .into_iter()
                            .flatten()
                            .collect(),
                    ),
                    false => value,
                };
                filled.set_field(&field, value);
            }
        }
        filled
    }

    fn value(&mut self, field: &FieldDescriptor, depth: usize) -> Option<Value> {
        self.count += 1;
        let count = self.count;
        Some(match field.kind() {
            Kind::Message(inner) if inner.full_name() == "google.protobuf.Timestamp" => {
                let mut time = DynamicMessage::new(inner);
                let seconds = 1_700_000_000 + i64::from(count) * 100_000;
                time.set_field_by_name("seconds", Value::I64(seconds));
                Value::Message(time)
            }
            Kind::Message(inner) if depth < 5 => Value::Message(self.message(&inner, depth + 1)),
            Kind::Message(_) => return None,
            Kind::Enum(kind) => Value::EnumNumber(kind.values().last()?.number()),
            Kind::String if field.name() == "body" => {
                Value::String(format!("{{\"said\":\"w{count}\"}}"))
            }
            Kind::String => Value::String(format!("jobs/oak/things/w{count}")),
            Kind::Bool => Value::Bool(true),
            Kind::Double => Value::F64(f64::from(count).mul_add(1.37, 10.0)),
            Kind::Int32 => Value::I32(count + 1),
            Kind::Int64 => Value::I64(i64::from(count) * 3_000),
            other => panic!("{other:?} is not filled"),
        })
    }
}

/// The way to a leaf: fields, and items of lists.
type Steps = Vec<(FieldDescriptor, usize)>;

/// All leaves with their path.
fn leaves(message: &DynamicMessage) -> Vec<(String, Steps)> {
    let mut found = Vec::new();
    walk(message, "", &Vec::new(), &mut found);
    found
}

fn walk(message: &DynamicMessage, path: &str, steps: &Steps, found: &mut Vec<(String, Steps)>) {
    for (field, value) in message.fields() {
        let dot = if path.is_empty() { "" } else { "." };
        let path = format!("{path}{dot}{}", field.name());
        let items = match value {
            Value::List(items) => items.iter().collect(),
            one => vec![one],
        };
        for (index, item) in items.into_iter().enumerate() {
            let mut steps = steps.clone();
            steps.push((field.clone(), index));
            match item {
                Value::Message(inner) if inner.descriptor().package_name() == "clampbook.v1" => {
                    walk(inner, &path, &steps, found);
                }
                _ => found.push((path.clone(), steps)),
            }
        }
    }
}

/// The message with a leaf changed.
fn with(
    message: &DynamicMessage,
    steps: &[(FieldDescriptor, usize)],
    change: fn(&mut Value),
) -> DynamicMessage {
    let mut changed = message.clone();
    turn(&mut changed, steps, change);
    changed
}

fn turn(message: &mut DynamicMessage, steps: &[(FieldDescriptor, usize)], change: fn(&mut Value)) {
    let Some(((field, index), rest)) = steps.split_first() else {
        return;
    };
    let value = match message.get_field_mut(field) {
        Value::List(items) => &mut items[*index],
        one => one,
    };
    match value {
        Value::Message(inner) if !rest.is_empty() => turn(inner, rest, change),
        leaf => change(leaf),
    }
}

/// Another value than the one that is there.
fn other(value: &mut Value) {
    match value {
        Value::String(text) => *text = text.replace('w', "another-"),
        Value::Bool(said) => *said = !*said,
        Value::F64(number) => *number *= 1.7,
        Value::I32(number) => *number += 7,
        Value::I64(number) => *number += 700_000,
        Value::EnumNumber(number) => *number = if *number == 1 { 2 } else { 1 },
        Value::Message(time) => time.set_field_by_name("seconds", Value::I64(1_600_000_000)),
        other => panic!("{other:?} is not changed"),
    }
}

/// Nothing said.
fn none(value: &mut Value) {
    match value {
        Value::String(text) => text.clear(),
        Value::Bool(said) => *said = false,
        Value::F64(number) => *number = 0.0,
        Value::I32(number) => *number = 0,
        Value::I64(number) => *number = 0,
        Value::EnumNumber(number) => *number = 0,
        _ => {}
    }
}
