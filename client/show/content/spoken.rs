//! What the text of a message holds, so that a screen that prints the text shows it.

use prost_reflect::{Kind, MessageDescriptor};

/// Messages that say in their `text` what they hold, and the fields that the text does not hold. That a text changes with every
/// fact is held where it is made, in the book.
const SPOKEN: [(&str, &[&str]); 16] = [
    (
        "Lubrication",
        &[
            "aliases",
            "relative_scatter",
            "sources",
            "said",
            "withdrawn_because",
        ],
    ),
    ("CounterpartAnswer", &["entry", "said"]),
    ("Decision", &["entry", "said"]),
    ("Entry", &["name", "sequence", "kind", "said", "request_id"]),
    ("Finding", &["entry", "said"]),
    (
        "Flag",
        &[
            "rule", "severity", "joint", "position", "assembly", "entries",
        ],
    ),
    ("Joint", &["positions", "markings"]),
    ("MatchMarks", &["entry", "said"]),
    ("PartArrival", &["entry", "said"]),
    ("Photo", &["entry", "said"]),
    ("NotRefitted", &["entry", "said"]),
    ("Refit", &["entry", "said"]),
    ("Removal", &["entry", "said"]),
    (
        "Specification",
        &["newest_revision", "said", "withdrawn_because"],
    ),
    ("Tightening", &["entry", "said"]),
    ("WantedPart", &["entry", "said"]),
];

/// The paths of the texts that hold a field: those of the messages on the way to it that do not set it apart.
pub(super) fn texts_of(message: &MessageDescriptor, path: &str) -> Vec<String> {
    let mut message = message.clone();
    let mut way = String::new();
    let mut texts = Vec::new();
    for name in path.split('.') {
        if let Some((_, beside)) = SPOKEN.iter().find(|(of, _)| *of == message.name()) {
            match beside.contains(&name) {
                true => texts.clear(),
                false => texts.push(format!("{way}text")),
            }
        }
        way.push_str(&format!("{name}."));
        let field = message.get_field_by_name(name).expect("it was filled");
        match field.kind() {
            Kind::Message(inner) => message = inner,
            _ => break,
        }
    }
    texts
}
