//! The contract as text, so that a change of it is a diff that somebody approves.

use std::fmt::Write;
use std::path::Path;

use prost_reflect::{Cardinality, FieldDescriptor, Kind};

use super::files;

/// Renders names, numbers and kinds; comments may be bettered without asking.
fn render() -> String {
    let mut files: Vec<_> = files().collect();
    files.sort_by(|a, b| a.name().cmp(b.name()));
    let mut text = String::new();
    for file in files {
        line(&mut text, &format!("file {}", file.name()));
        for service in file.services() {
            line(&mut text, &format!("  service {}", service.name()));
            for method in service.methods() {
                let streamed = if method.is_server_streaming() {
                    "stream "
                } else {
                    ""
                };
                let (input, output) = (method.input(), method.output());
                line(
                    &mut text,
                    &format!(
                        "    {}({}) -> {streamed}{}",
                        method.name(),
                        input.name(),
                        output.name()
                    ),
                );
            }
        }
        for message in file.messages() {
            line(&mut text, &format!("  message {}", message.name()));
            for field in message.fields() {
                line(
                    &mut text,
                    &format!("    {} {}: {}", field.number(), field.name(), kind(&field)),
                );
            }
        }
        for one in file.enums() {
            line(&mut text, &format!("  enum {}", one.name()));
            for value in one.values() {
                line(
                    &mut text,
                    &format!("    {} {}", value.number(), value.name()),
                );
            }
        }
    }
    text
}

fn kind(field: &FieldDescriptor) -> String {
    let name = match field.kind() {
        Kind::Message(message) => message
            .full_name()
            .trim_start_matches("clampbook.v1.")
            .to_owned(),
        Kind::Enum(one) => one.name().to_owned(),
        other => format!("{other:?}").to_lowercase(),
    };
    let real_oneof = field
        .containing_oneof()
        .filter(|oneof| !oneof.is_synthetic());
    match (field.cardinality(), real_oneof) {
        (Cardinality::Repeated, _) => format!("repeated {name}"),
        (_, Some(oneof)) => format!("{name} of {}", oneof.name()),
        _ if field.field_descriptor_proto().proto3_optional() => format!("optional {name}"),
        _ => name,
    }
}

fn line(text: &mut String, words: &str) {
    writeln!(text, "{words}").expect("a String takes it");
}

#[test]
fn the_contract_is_the_one_that_was_approved() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/acceptance/contract.txt");
    let now = render();
    if std::env::var_os("CLAMPBOOK_BLESS").is_some() {
        std::fs::write(&path, &now).expect("it is written");
        return;
    }
    let approved = std::fs::read_to_string(&path).unwrap_or_default();
    let gone: Vec<&str> = approved
        .lines()
        .filter(|line| !now.lines().any(|l| l == *line))
        .collect();
    let new: Vec<&str> = now
        .lines()
        .filter(|line| !approved.lines().any(|l| l == *line))
        .collect();
    assert!(
        now == approved,
        "the contract has changed; if that is wanted, run again with CLAMPBOOK_BLESS=1 and look at the diff.\n\
         gone (never within a major version): {gone:#?}\nnew: {new:#?}"
    );
}
