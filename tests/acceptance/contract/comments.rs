//! Every element is commented, and the comment says more than the name.

use std::collections::BTreeSet;

use super::{comment, enums, files, messages, none};

/// Words that say nothing by themselves.
const EMPTY_WORDS: [&str; 14] = [
    "a", "an", "the", "of", "for", "to", "is", "in", "it", "this", "and", "or", "as", "its",
];

/// Calls `look` with the name and the comment of every element of the contract.
fn every_element(mut look: impl FnMut(&str, &str, String)) {
    for file in files() {
        for service in file.services() {
            look(
                service.full_name(),
                service.name(),
                comment(&file, service.path()),
            );
            for method in service.methods() {
                look(
                    method.full_name(),
                    method.name(),
                    comment(&file, method.path()),
                );
            }
        }
    }
    for message in messages() {
        let file = message.parent_file();
        look(
            message.full_name(),
            message.name(),
            comment(&file, message.path()),
        );
        for field in message.fields() {
            look(
                field.full_name(),
                field.name(),
                comment(&file, field.path()),
            );
        }
    }
    for one in enums() {
        let file = one.parent_file();
        look(one.full_name(), one.name(), comment(&file, one.path()));
        for value in one.values() {
            look(
                value.full_name(),
                value.name(),
                comment(&file, value.path()),
            );
        }
    }
}

/// The words of a name or a text, lower case, without endings that change with number and time.
fn words(text: &str) -> BTreeSet<String> {
    let mut spaced = String::new();
    for character in text.chars() {
        if character.is_uppercase()
            && !spaced.ends_with(|c: char| c.is_uppercase() || !c.is_alphanumeric())
        {
            spaced.push(' ');
        }
        spaced.push(if character.is_alphanumeric() {
            character
        } else {
            ' '
        });
    }
    spaced
        .split_whitespace()
        .map(|word| word.to_lowercase().trim_end_matches('s').to_owned())
        .filter(|word| !EMPTY_WORDS.contains(&word.as_str()))
        .collect()
}

#[test]
fn every_element_is_commented_in_whole_sentences() {
    let mut found = Vec::new();
    every_element(|place, _, text| {
        if text.is_empty() {
            found.push(format!("{place} has no comment"));
        } else if !text.ends_with('.') {
            found.push(format!("{place} does not end its sentence: {text}"));
        } else if text.starts_with(char::is_lowercase) && !text.contains('·') {
            found.push(format!("{place} does not begin its sentence: {text}"));
        }
    });
    none(&found);
}

#[test]
fn a_comment_says_more_than_the_name() {
    // The words of the trade for these are their names.
    let plain = [
        "REMOVAL_TICK_BENT",
        "REMOVAL_METHOD_LONG_BAR",
        "REMOVAL_METHOD_HEAT",
        "REMOVAL_METHOD_PULLER_OR_PRESS",
        "PURPOSE_SPARK_PLUG",
        "TIGHTNESS_SNUG",
        "POSITION_STATE_SNUG",
    ];
    let mut found = Vec::new();
    every_element(|place, name, text| {
        let named = words(name);
        let says_more = words(&text).iter().any(|word| !named.contains(word));
        if says_more == plain.contains(&name) {
            let why = if says_more {
                "need not be excused any more"
            } else {
                "says only its name"
            };
            found.push(format!("{place} {why}: {text}"));
        }
    });
    none(&found);
}

#[test]
fn comments_hold_no_code_blocks_and_no_addresses() {
    let mut found = Vec::new();
    every_element(|place, _, text| {
        if text.contains("```") || text.contains("http") || text.contains("TODO") {
            found.push(format!("{place}: {text}"));
        }
    });
    none(&found);
}

#[test]
fn numbers_say_their_unit_and_texts_their_length() {
    let units = [
        "millimetre",
        "newton",
        "megapascal",
        "share",
        "dimensionless",
        "inch",
        "minute",
        "degree",
        "second",
        "joule",
        "kilogram",
        "gram",
        "hertz",
        "Hardness",
        "hardness",
        "percent",
        "radian",
        "celsius",
        // The field beside it.
        "`unit`",
    ];
    let mut found = Vec::new();
    for message in messages() {
        for field in message.fields() {
            let text = comment(&message.parent_file(), field.path());
            let says_unit = units
                .iter()
                .any(|unit| text.to_lowercase().contains(&unit.to_lowercase()));
            if field.kind() == prost_reflect::Kind::Double && !says_unit {
                found.push(format!("{} names no unit: {text}", field.full_name()));
            }
        }
    }
    none(&found);
}
