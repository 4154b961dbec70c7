//! Shape and names: what the first release promises, later ones can only add to.

use prost_reflect::{FieldDescriptor, Kind};

use super::{enums, files, messages, methods, none};

/// Messages with an identity: their first field is their name.
const RESOURCES: [&str; 11] = [
    "Thread",
    "Grade",
    "NutGrade",
    "Lubrication",
    "Job",
    "Assembly",
    "Joint",
    "Rule",
    "Entry",
    "Specification",
    "Person",
];

/// Ends of the names of fractional numbers: their unit.
const UNITS: [&str; 16] = [
    "_mm",
    "_mm2",
    "_mm3",
    "_nm",
    "_n",
    "_mpa",
    "_gpa",
    "_per_inch",
    "_degrees",
    "_share",
    "_kelvin",
    "_per_mm",
    "_celsius",
    "_percent",
    "_n_per_mm",
    "_kg",
];

/// Fractional numbers without a unit, since there is none: ratios.
const RATIOS: [&str; 19] = [
    "adapter_factor",
    "bearing_friction",
    "equivalent_nut_factor",
    "factor",
    "friction_high",
    "friction_low",
    "high_nut_factor",
    "loading_plane",
    "low_nut_factor",
    "nut_factor",
    "proof_share",
    "ratio",
    "share",
    "relative_scatter",
    "share_of_proof",
    "share_of_scale",
    "shear_ratio",
    "thread_friction",
    "trade_engagement",
];

#[test]
fn the_package_ends_in_its_major_version_and_is_the_directory() {
    assert_eq!(files().count(), pool_files_in("clampbook/v1/"));
    for file in files() {
        assert!(file.name().starts_with("clampbook/v1/"), "{}", file.name());
        assert_eq!(file.file_descriptor_proto().syntax(), "proto3");
    }
}

fn pool_files_in(folder: &str) -> usize {
    super::pool()
        .files()
        .filter(|file| file.name().starts_with(folder))
        .count()
}

#[test]
fn a_service_stands_in_a_file_of_its_name() {
    for file in files() {
        for service in file.services() {
            let name = service
                .name()
                .strip_suffix("Service")
                .expect("services end in Service");
            let mut wanted = String::new();
            for character in name.chars() {
                if character.is_uppercase() && !wanted.is_empty() {
                    wanted.push('_');
                }
                wanted.extend(character.to_lowercase());
            }
            assert_eq!(file.name(), format!("clampbook/v1/{wanted}_service.proto"));
        }
    }
}

#[test]
fn what_has_an_identity_begins_with_its_name() {
    let mut found = Vec::new();
    for message in messages() {
        let first = message.fields().min_by_key(FieldDescriptor::number);
        let named = first.is_some_and(|field| field.name() == "name" && field.number() == 1);
        if RESOURCES.contains(&message.name()) && !named {
            found.push(format!("{} does not begin with its name", message.name()));
        }
        for field in message.fields() {
            let allowed = ["display_name", "job_display_name"];
            if field.name().ends_with("_name") && !allowed.contains(&field.name()) {
                found.push(format!(
                    "{}: only `name` names a resource",
                    field.full_name()
                ));
            }
        }
    }
    for name in RESOURCES {
        if !messages().any(|message| message.name() == name) {
            found.push(format!("{name} is gone"));
        }
    }
    none(&found);
}

#[test]
fn numbers_are_signed_and_fractional_ones_carry_their_unit() {
    let mut found = Vec::new();
    for field in messages().flat_map(|message| message.fields().collect::<Vec<_>>()) {
        let name = field.name();
        match field.kind() {
            Kind::Uint32 | Kind::Uint64 | Kind::Fixed32 | Kind::Fixed64 => {
                found.push(format!("{} is unsigned", field.full_name()));
            }
            Kind::Float => found.push(format!("{} is of single precision", field.full_name())),
            Kind::Double => {
                let carries = UNITS.iter().any(|unit| name.ends_with(unit));
                // As entered or shown: the unit stands beside it.
                let stands_beside =
                    name == "value" && field.parent_message().get_field_by_name("unit").is_some();
                if !carries && !stands_beside && !RATIOS.contains(&name) {
                    found.push(format!("{} carries no unit", field.full_name()));
                }
            }
            Kind::Int32 | Kind::Int64 if name.starts_with("num_") => {
                found.push(format!("{} should end in _count", field.full_name()));
            }
            _ => {}
        }
    }
    none(&found);
}

#[test]
fn presence_is_kept_for_plain_numbers_and_texts_only() {
    let mut found = Vec::new();
    for field in messages().flat_map(|message| message.fields().collect::<Vec<_>>()) {
        let optional = field.field_descriptor_proto().proto3_optional();
        let plain = matches!(
            field.kind(),
            Kind::Double | Kind::Int32 | Kind::Int64 | Kind::String
        );
        if optional && !plain {
            found.push(format!(
                "{} is optional and neither number nor text",
                field.full_name()
            ));
        }
        // A measured value that may be missing must not read as zero.
        let measured = field.kind() == Kind::Double && field.name().starts_with("published_");
        if measured && !optional {
            found.push(format!(
                "{} would read as zero when absent",
                field.full_name()
            ));
        }
    }
    none(&found);
}

#[test]
fn times_and_etags_are_named_as_everywhere() {
    let mut found = Vec::new();
    for field in messages().flat_map(|message| message.fields().collect::<Vec<_>>()) {
        let is_time = matches!(field.kind(), Kind::Message(m) if m.full_name() == "google.protobuf.Timestamp");
        if is_time != field.name().ends_with("_time") {
            found.push(format!(
                "{}: times, and only they, end in _time",
                field.full_name()
            ));
        }
        if field.name().ends_with("etag")
            && (field.name() != "etag" || field.kind() != Kind::String)
        {
            found.push(format!(
                "{}: an etag is a text named etag",
                field.full_name()
            ));
        }
    }
    none(&found);
}

#[test]
fn every_list_has_pages() {
    let mut found = Vec::new();
    for method in methods().filter(|method| method.name().starts_with("List")) {
        let (input, output) = (method.input(), method.output());
        let has = |name: &str, kind: Kind| {
            input
                .get_field_by_name(name)
                .is_some_and(|f| f.kind() == kind)
        };
        if !has("page_size", Kind::Int32) || !has("page_token", Kind::String) {
            found.push(format!("{} takes no page", method.name()));
        }
        let items = output.get_field(1);
        if !items.is_some_and(|field| field.is_list()) {
            found.push(format!("{}: the items are not field 1", output.name()));
        }
        let next = output.get_field(2);
        if next.is_none_or(|field| field.name() != "next_page_token") {
            found.push(format!("{}: next_page_token is not field 2", output.name()));
        }
        if method.is_server_streaming() {
            found.push(format!("{} streams", method.name()));
        }
    }
    none(&found);
}

#[test]
fn whatever_changes_something_can_be_sent_again_and_dated_back() {
    let reads = [
        "List", "Get", "Compute", "Watch", "Render", "Identify", "Plan", "Set", "Check", "Restate",
        "Compare", "Look", "Fit", "Align", "Export", "Search",
    ];
    let mut found = Vec::new();
    for method in methods() {
        let input = method.input();
        let changes = input.get_field_by_name("request_id").is_some();
        if changes == reads.iter().any(|verb| method.name().starts_with(verb)) {
            found.push(format!(
                "{} {}",
                method.name(),
                if changes {
                    "reads"
                } else {
                    "takes no request_id"
                }
            ));
        }
        if changes && input.get_field_by_name("said_time").is_none() {
            found.push(format!("{} takes no said_time", method.name()));
        }
    }
    none(&found);
}

#[test]
fn every_method_has_a_request_of_its_own() {
    let mut inputs: Vec<String> = methods()
        .map(|method| method.input().full_name().to_owned())
        .collect();
    for method in methods() {
        assert_eq!(method.input().name(), format!("{}Request", method.name()));
        let own = format!("{}Response", method.name());
        let output = method.output();
        assert!(
            output.name() == own || RESOURCES.contains(&output.name()) || output.name() == "Sheet",
            "{} answers with {}",
            method.name(),
            output.name()
        );
    }
    let count = inputs.len();
    inputs.sort_unstable();
    inputs.dedup();
    assert_eq!(inputs.len(), count);
}

#[test]
fn the_zero_of_an_enum_says_nothing_and_its_values_carry_its_name() {
    let mut found = Vec::new();
    for one in enums() {
        let mut prefix = String::new();
        for character in one.name().chars() {
            if character.is_uppercase() && !prefix.is_empty() {
                prefix.push('_');
            }
            prefix.extend(character.to_uppercase());
        }
        let zero = one.get_value(0).map(|value| value.name().to_owned());
        if zero != Some(format!("{prefix}_UNSPECIFIED")) {
            found.push(format!("{}: zero is {zero:?}", one.name()));
        }
        for value in one.values() {
            if !value.name().starts_with(&format!("{prefix}_")) {
                found.push(format!("{} does not begin with {prefix}", value.name()));
            }
        }
        let file = one.parent_file();
        let text = super::comment(&file, one.path());
        if !text.contains("Values may be added.") && !text.contains("Frozen") {
            found.push(format!("{} does not say whether it may grow", one.name()));
        }
    }
    none(&found);
}

#[test]
fn numbers_of_removed_fields_are_reserved() {
    let mut found = Vec::new();
    for message in messages() {
        let proto = message.descriptor_proto();
        let highest = message
            .fields()
            .map(|field| field.number())
            .max()
            .unwrap_or(0);
        for number in 1..highest {
            let used = message.get_field(number).is_some();
            let number = i32::try_from(number).expect("small");
            let reserved = proto
                .reserved_range
                .iter()
                .any(|range| (range.start()..range.end()).contains(&number));
            if !used && !reserved {
                found.push(format!(
                    "{}: {number} is neither used nor reserved",
                    message.name()
                ));
            }
        }
    }
    none(&found);
}
