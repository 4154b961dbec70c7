//! The body of an entry: a fact as versioned JSON text, written once and read for ever.

use clampbook_book::fact::Fact;
use serde::{Deserialize, Serialize};

/// Version that is written.
const VERSION: u32 = 1;

/// How every body of version 1 that we wrote begins.
const BEGINNING: &str = r#"{"v":1,"#;

/// How a removal's begins. Most entries are removals, and serde reads a struct several times faster than an enum with its
/// tag inside.
const REMOVAL: &str = r#"{"v":1,"kind":"removed","#;

#[derive(Serialize)]
struct Written<'a> {
    v: u32,
    #[serde(flatten)]
    fact: &'a Fact,
}

#[derive(Deserialize)]
struct Version {
    v: u32,
}

/// The text to store for a fact.
///
/// # Errors
/// The fact would not be the same when read again, for instance because it holds a number that is not finite. Such an
/// entry could never be corrected, only make its job unreadable, so it must not be written.
pub(crate) fn encode(fact: &Fact) -> Result<String, String> {
    let kind = fact.kind();
    let text = serde_json::to_string(&Written { v: VERSION, fact })
        .map_err(|error| format!("fact {kind} cannot be stored: {error}"))?;
    match decode(&text) {
        Ok(read) if read == *fact => Ok(text),
        Ok(_) => Err(format!("fact {kind} would change by being stored")),
        Err(error) => Err(format!("fact {kind} could not be read again: {error}")),
    }
}

/// The fact in a stored text.
pub(crate) fn decode(text: &str) -> Result<Fact, String> {
    if text.starts_with(REMOVAL) {
        return serde_json::from_str(text)
            .map(Fact::Removed)
            .map_err(|error| error.to_string());
    }
    if !text.starts_with(BEGINNING) {
        let Version { v } = serde_json::from_str(text).map_err(|error| error.to_string())?;
        if v != VERSION {
            return Err(format!("body version {v} is not known"));
        }
    }
    serde_json::from_str(text).map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use super::{decode, encode};
    use clampbook_book::fact::{Fact, Refitted, SaidTorque, TorqueRead};
    use clampbook_book::ids::JointId;
    use clampbook_book::words::Tightness;

    fn refit(nm: f64) -> Fact {
        Fact::Refitted(Refitted {
            note: "a\u{0}b \"c\" \u{1f527}".into(),
            tightness: Some(Tightness::Final),
            torque: TorqueRead {
                reading: Some(SaidTorque {
                    said: "61.3 N·m".into(),
                    nm,
                }),
                ..TorqueRead::default()
            },
            ..Refitted::new(JointId::new("drum").expect("a slug"), 1)
        })
    }

    #[test]
    fn what_is_written_is_read_the_same_to_the_last_bit() {
        // The last two come back changed in their last digit when read with less care.
        for nm in [
            61.3,
            0.1 + 0.2,
            f64::MIN_POSITIVE,
            1.7976931348623157e308,
            182.574_809_465_844_54,
            127.998_621_297_284_03,
        ] {
            let fact = refit(nm);
            let text = encode(&fact).expect("it can be stored");
            assert!(text.starts_with(r#"{"v":1,"kind":"refitted","#), "{text}");
            assert_eq!(decode(&text).expect("it can be read"), fact);
        }
    }

    #[test]
    fn a_removal_is_read_the_same_on_both_ways() {
        let text = r#"{"v":1,"kind":"removed","joint":"drum","position":3,"condition":"seized","ticks":["bent"],
            "means":["heat","long-bar"],"heat_colour":"blue","length":{"measured":{"said":"1-3/4 in","mm":44.45}},
            "breakaway":{"said":"60 lbf·ft","nm":81.349079},"kept_in":"bag 3","something":"of a later version"}"#;
        let detour = text.replace(r#"{"v":1,"#, r#"{"v": 1,"#);
        let fact = decode(text).expect("it can be read");
        assert!(matches!(&fact, Fact::Removed(removed) if removed.position == 3));
        assert_eq!(decode(&detour).expect("it can be read"), fact);
    }

    #[test]
    fn numbers_that_json_cannot_hold_are_not_written() {
        for nm in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let error = encode(&refit(nm)).expect_err("it must be refused");
            assert!(error.contains("fact refitted"), "{error}");
        }
    }

    #[test]
    fn a_body_of_a_version_to_come_is_named_not_guessed() {
        let text = encode(&refit(1.0))
            .expect("it can be stored")
            .replace(r#""v":1"#, r#""v":2"#);
        assert_eq!(
            decode(&text).expect_err("it must be refused"),
            "body version 2 is not known"
        );
        let spaced = encode(&refit(1.0))
            .expect("it can be stored")
            .replace(r#"{"v":1"#, r#"{ "v": 1"#);
        assert_eq!(decode(&spaced).expect("it can be read"), refit(1.0));
    }
}
