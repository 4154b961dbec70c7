//! What each fact says in words: nothing that was said is left out of it.

mod facts;

use clampbook_book::fact::Fact;
use clampbook_book::words::{
    Compared, Criticality, DecisionKind, FindingKind, FindingSeverity, HeatColour, HoldReason,
    HoleCheck, HoleKind, MarkKind, MediaType, Method, Outcome, PersonRole, Piece, PieceFate,
    SmallPart, SmallPartCondition, Step, Tick, Tightness, TorqueUnit,
};
use clampbook_book::{rules, spoken};
use serde_json::{Value, json};

/// Fields that say again what another one says, and what only programs compare.
const NOT_SAID: [&str; 4] = ["kind", "nm", "mm", "hash"];

#[test]
fn every_field_of_every_fact_changes_what_it_says() {
    let mut silent = Vec::new();
    for fact in facts::all() {
        let stored = serde_json::to_value(&fact).expect("it is stored as JSON");
        let said = spoken::fact(&fact);
        for path in leaves(&stored) {
            let changed = changed(&stored, &path);
            if spoken::fact(&changed) == said {
                silent.push(format!("{}{path}: {said}", fact.kind()));
            }
        }
    }
    assert!(silent.is_empty(), "not told:\n{}", silent.join("\n"));
}

#[test]
fn a_fact_of_which_little_is_known_is_told_in_few_words() {
    for (fact, said) in facts::short() {
        assert_eq!(spoken::fact(&fact), said);
    }
}

#[test]
fn facts_are_told_from_their_place_on() {
    let said: Vec<String> = facts::all().iter().map(spoken::fact).collect();
    for sentence in [
        "hub position 3: came out seized; bent, pitted; by heat, hammer; heated red; heated at head; thread 7/16-20; \
         length 1-3/4 in; head marking three lines; grade SAE J429 5; broke loose at 60 lbf·ft; marked match marks: two dots; \
         stack 2 x shim 0.5 mm (brass); with lock MISSING (wire); kept in bag 3; rust under the head",
        "hub position 3: original in; snug, NOT TIGHT; the record asks for 67.8 N·m (50 lbf·ft), PUBLISHED, hub-bolts \
         revision 2; minimum 61 N·m (45 lbf·ft); maximum 74.6 N·m (55 lbf·ft)",
        "CORRECTS entry 7, because wrong bag; now hub position 3: came out seized; kept in bag 4",
        "TAKES BACK entry 7, because another hole",
        "Person ida: Ida Holm; mechanic, lead",
        "Person ida WITHDRAWN: moved away",
        "Photo of hub position 3: bracket under the head; JPEG, 3 KiB",
    ] {
        assert!(
            said.iter().any(|one| one == sentence),
            "{sentence}\nis not among\n{}",
            said.join("\n")
        );
    }
}

#[test]
fn a_flag_says_cause_what_clears_it_and_what_is_proposed() {
    let flag = |rule, severity| rules::Flag {
        rule,
        severity,
        on: rules::On::Joint(facts::hub()),
        position: 3,
        cause: "Came out bent.".to_owned(),
        clears: "A new one.",
        entries: vec![7],
    };
    let stop = clampbook_book::words::Severity::Stop;
    for rule in rules::ALL {
        let flag = flag(rule.id, stop);
        let proposed = match rules::proposal(&flag) {
            None => String::new(),
            Some((what, None)) => format!("\nProposed: {}", what.spoken()),
            Some((what, Some(waits))) => {
                format!(
                    "\nProposed: {}, waits for {}",
                    what.spoken(),
                    waits.spoken()
                )
            }
        };
        let said = format!("Came out bent.\nClears: A new one.{proposed}");
        assert_eq!(spoken::flag(&flag), said);
    }
}

/// Pointers to all that a fact says.
fn leaves(value: &Value) -> Vec<String> {
    let mut found = Vec::new();
    walk(value, "", &mut found);
    found
}

fn walk(value: &Value, path: &str, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            for (name, inner) in fields {
                if !NOT_SAID.contains(&name.as_str()) {
                    walk(inner, &format!("{path}/{name}"), found);
                }
            }
        }
        Value::Array(items) => {
            for (index, inner) in items.iter().enumerate() {
                walk(inner, &format!("{path}/{index}"), found);
            }
        }
        _ => found.push(path.to_owned()),
    }
}

/// The fact with another value at a pointer.
fn changed(stored: &Value, path: &str) -> Fact {
    let old = stored.pointer(path).expect("it is there");
    let read = |value: Value| {
        let mut other = stored.clone();
        *other.pointer_mut(path).expect("it is there") = value;
        serde_json::from_value(other).ok()
    };
    let others = others(old);
    let found = others.into_iter().filter(|other| other != old);
    { found }
        .find_map(read)
        .unwrap_or_else(|| panic!("no other value of {path} than {old}"))
}

fn others(old: &Value) -> Vec<Value> {
    match old {
        Value::Bool(said) => vec![Value::Bool(!said)],
        Value::Number(number) => match number.as_u64() {
            Some(whole) => vec![(whole * 2 + 1).into()],
            None => vec![(number.as_f64().expect("a number") * 1.7).into()],
        },
        Value::String(text) => {
            let mut others = vec![format!("{text}x")];
            others.extend(words().into_iter().map(str::to_owned));
            let others = others.into_iter().map(Value::String);
            // What stands in place of a fastener, and of the whole job.
            let beside = [json!({"piece": "shim"}), json!({"joint": "plate"})];
            others.chain(beside).collect()
        }
        other => panic!("{other} is not changed"),
    }
}

/// Every word of every vocabulary that facts use, and the forms of a layout.
fn words() -> Vec<&'static str> {
    let mut words = vec!["ring", "line"];
    macro_rules! of {
        ($($vocabulary:ident),+) => {
            $(words.extend($vocabulary::ALL.iter().map(|word| word.id()));)+
        };
    }
    of!(
        Compared,
        Outcome,
        PersonRole,
        Criticality,
        DecisionKind,
        FindingKind,
        HeatColour,
        HoleCheck,
        HoleKind,
        MarkKind,
        Method,
        MediaType,
        Piece,
        SmallPartCondition,
        SmallPart,
        Step,
        Tick,
        Tightness,
        TorqueUnit,
        FindingSeverity,
        HoldReason,
        PieceFate
    );
    words
}
