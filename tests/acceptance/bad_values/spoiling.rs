//! Bad values for a field, from its kind and from what its comment promises.

use prost_reflect::{DynamicMessage, FieldDescriptor, Kind, ReflectMessage, Value};

use crate::contract::comment;

/// A request with one bad value in it.
pub(super) struct Bad {
    /// Path of the field, with the index of a list's item.
    pub(super) path: String,
    /// The bad value, for people.
    pub(super) what: String,
    /// What the field's comment says.
    comment: String,
    /// The whole request.
    pub(super) message: DynamicMessage,
}

impl Bad {
    /// True when the value names a resource, which may be well formed and not there.
    pub(super) fn is_name(&self) -> bool {
        is_name(&self.comment)
    }
}

/// Every bad request that can be made from a good one.
pub(super) fn all(base: &DynamicMessage) -> Vec<Bad> {
    let mut bad = Vec::new();
    spoil(base, "", &|inner| inner, &mut bad);
    for one in &mut bad {
        // Each is a request of its own, so that one that is taken by mistake does not hide the next.
        if one.path != "request_id" && base.has_field_by_name("request_id") {
            let id = Value::String(crate::support::fresh_id());
            one.message.set_field_by_name("request_id", id);
        }
    }
    bad
}

/// The request with everything filled in that only the server says.
pub(super) fn with_output_only_rubbish(base: &DynamicMessage) -> DynamicMessage {
    let mut message = base.clone();
    for field in base.descriptor().fields() {
        let says = said_of(&field);
        if is_ignored(&says, base.has_field(&field)) {
            if let Some(rubbish) = rubbish(&field) {
                message.set_field(&field, rubbish);
            }
        } else if base.has_field(&field) {
            let changed = match base.get_field(&field).as_ref() {
                Value::Message(inner) => Some(Value::Message(with_output_only_rubbish(inner))),
                Value::List(items) if matches!(items.first(), Some(Value::Message(_))) => {
                    let items = items
                        .iter()
                        .filter_map(Value::as_message)
                        .map(with_output_only_rubbish);
                    Some(Value::List(items.map(Value::Message).collect()))
                }
                _ => None,
            };
            if let Some(changed) = changed {
                message.set_field(&field, changed);
            }
        }
    }
    message
}

fn rubbish(field: &FieldDescriptor) -> Option<Value> {
    if field.is_list() {
        return None;
    }
    match field.kind() {
        Kind::String => Some(Value::String("\u{7}rubbish".repeat(1_000))),
        Kind::Int32 => Some(Value::I32(i32::MIN)),
        Kind::Double => Some(Value::F64(f64::NAN)),
        Kind::Enum(_) => Some(Value::EnumNumber(9_999)),
        Kind::Message(message) => Some(Value::Message(DynamicMessage::new(message))),
        _ => None,
    }
}

type Wrap<'w> = dyn Fn(DynamicMessage) -> DynamicMessage + 'w;

fn spoil(message: &DynamicMessage, under: &str, wrap: &Wrap<'_>, bad: &mut Vec<Bad>) {
    for field in message.descriptor().fields() {
        let says = said_of(&field);
        if is_ignored(&says, message.has_field(&field)) {
            continue;
        }
        let path = format!("{under}{}", field.name());
        let mut push = |path: &str, what: &str, value: Option<Value>| {
            let mut spoiled = message.clone();
            match value {
                Some(value) => spoiled.set_field(&field, value),
                None => spoiled.clear_field(&field),
            }
            bad.push(Bad {
                path: path.into(),
                what: what.into(),
                comment: says.clone(),
                message: wrap(spoiled),
            });
        };
        if is_required(&field, &says) && message.has_field(&field) {
            push(&path, "nothing", None);
        }
        if field.is_list() {
            let there: Vec<Value> = message
                .get_field(&field)
                .as_list()
                .unwrap_or_default()
                .to_vec();
            if let Some(first) = there.first() {
                push(
                    &path,
                    "5,000 items",
                    Some(Value::List(vec![first.clone(); 5_000])),
                );
            }
            for (what, value) in bad_values(&field, &says) {
                let mut items = there.clone();
                items.push(value);
                let last = items.len() - 1;
                push(&format!("{path}[{last}]"), &what, Some(Value::List(items)));
            }
        } else {
            for (what, value) in bad_values(&field, &says) {
                push(&path, &what, Some(value));
            }
        }
        match message.get_field(&field).as_ref() {
            Value::Message(inner) if message.has_field(&field) && !is_time(&field) => {
                let wrap_inner = |inner: DynamicMessage| {
                    let mut outer = message.clone();
                    outer.set_field(&field, Value::Message(inner));
                    wrap(outer)
                };
                spoil(inner, &format!("{path}."), &wrap_inner, bad);
            }
            Value::List(items) => {
                if let Some(Value::Message(first)) = items.first() {
                    let wrap_inner = |inner: DynamicMessage| {
                        let mut items = items.clone();
                        items[0] = Value::Message(inner);
                        let mut outer = message.clone();
                        outer.set_field(&field, Value::List(items));
                        wrap(outer)
                    };
                    spoil(first, &format!("{path}[0]."), &wrap_inner, bad);
                }
            }
            _ => {}
        }
    }
}

fn bad_values(field: &FieldDescriptor, says: &str) -> Vec<(String, Value)> {
    match field.kind() {
        Kind::String => bad_texts(field.name(), says),
        Kind::Double => [
            f64::NAN,
            f64::INFINITY,
            f64::NEG_INFINITY,
            -1.0,
            -0.0,
            0.0,
            1e300,
        ]
        .map(|number| (number.to_string(), Value::F64(number)))
        .into(),
        Kind::Int32 => [i32::MIN, -1, i32::MAX]
            .map(|number| (number.to_string(), Value::I32(number)))
            .into(),
        Kind::Int64 => [i64::MIN, -1, i64::MAX]
            .map(|number| (number.to_string(), Value::I64(number)))
            .into(),
        Kind::Enum(_) => {
            let mut numbers = vec![9_999, -1];
            if field.is_list() {
                numbers.push(0);
            }
            numbers
                .into_iter()
                .map(|n| (n.to_string(), Value::EnumNumber(n)))
                .collect()
        }
        // A yes or no has no bad value, unless only a yes makes sense: then it is one of several choices.
        Kind::Bool if field.containing_oneof().is_some() => vec![("no".into(), Value::Bool(false))],
        Kind::Message(message) if is_time(field) => {
            let time = |seconds: i64, nanos: i32| {
                let mut time = DynamicMessage::new(message.clone());
                time.set_field_by_name("seconds", Value::I64(seconds));
                time.set_field_by_name("nanos", Value::I32(nanos));
                (format!("{seconds} s {nanos} ns"), Value::Message(time))
            };
            vec![
                time(i64::MIN, 0),
                time(i64::MAX, 0),
                time(0, 0),
                time(4_000_000_000, 0),
                time(1_700_000_000, -1),
                time(1_700_000_000, i32::MAX),
            ]
        }
        _ => Vec::new(),
    }
}

fn bad_texts(name: &str, says: &str) -> Vec<(String, Value)> {
    let mut texts = vec!["\u{7}bell".to_owned(), "nul\0".to_owned()];
    // One more than the comment allows; far more where it says nothing.
    let most = most_characters(says).unwrap_or(5_000);
    texts.push("x".repeat(most + 1));
    texts.push("ä".repeat(most + 1));
    if is_name(says) {
        let wrong = [
            "nonsense",
            "jobs/",
            "jobs/NOT LOWER",
            "jobs/a/b/c/d",
            "/jobs/tractor",
            "jobs/tractor/",
            "jobs/no-such-job",
            "jobs/tractor/joints/../x",
            "rules/no-such-rule",
            "threads/none",
        ];
        texts.extend(wrong.map(ToOwned::to_owned));
    }
    if name.ends_with("_id") {
        texts.extend(["UPPER", "-hyphen", "under_score", "a b"].map(ToOwned::to_owned));
    }
    if name.ends_with("_token") {
        texts.extend(["zz", "00", "0011223344556677"].map(ToOwned::to_owned));
    }
    if says.contains("with its unit")
        || says.contains("as said, for instance `1-3/4 in`")
        || says.starts_with("Required. Length")
    {
        let wrong = [
            "sixty",
            "60",
            "-60 N·m",
            "-5 mm",
            "NaN N·m",
            "inf mm",
            "1e300 N·m",
            "1e300 mm",
            "0 mm",
            "0 N·m",
            "5 furlongs",
        ];
        texts.extend(wrong.map(ToOwned::to_owned));
    }
    texts
        .into_iter()
        .map(|text| {
            let shown: String = text.chars().take(30).collect();
            (
                format!("{shown:?} of {} characters", text.chars().count()),
                Value::String(text),
            )
        })
        .collect()
}

/// The maximum length that a comment names: `At most 64 characters`, `1 to 1,000 characters`.
fn most_characters(says: &str) -> Option<usize> {
    let (before, _) = says.split_once(" characters")?;
    before.rsplit(' ').next()?.replace(',', "").parse().ok()
}

fn is_name(says: &str) -> bool {
    [
        "`jobs/{job}",
        "Resource name",
        "`rules/{rule}`",
        "resource name",
    ]
    .iter()
    .any(|words| says.contains(words))
}

/// What only the server says, and the name of something that is made under an id of its own.
fn is_ignored(says: &str, is_in_base: bool) -> bool {
    says.starts_with("Output only.") || (says.starts_with("Identifier.") && !is_in_base)
}

fn is_required(field: &FieldDescriptor, says: &str) -> bool {
    let always = says.starts_with("Required.") || says.contains("Required on creation");
    always && field.containing_oneof().is_none()
}

fn is_time(field: &FieldDescriptor) -> bool {
    matches!(field.kind(), Kind::Message(message) if message.full_name() == "google.protobuf.Timestamp")
}

fn said_of(field: &FieldDescriptor) -> String {
    comment(&field.parent_message().parent_file(), field.path())
}
