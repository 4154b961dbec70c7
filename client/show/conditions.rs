//! Lubrications of the shop's own.

use clampbook_api::v1::{Condition, ListConditionsResponse};

use super::{
    cite::sources,
    journal::time,
    quantity::plain,
    text::{paragraph, stop, strong},
};
use crate::name;

/// All of the shop's own.
pub(crate) fn list(list: &ListConditionsResponse) -> String {
    if list.conditions.is_empty() {
        return "The shop has no lubrications of its own.\n".to_owned();
    }
    let shown: Vec<_> = list.conditions.iter().map(own).collect();
    shown.join("\n")
}

/// One lubrication, with the tests behind it.
pub(crate) fn own(condition: &Condition) -> String {
    let mut shown = format!(
        "{}: {}\n",
        strong(name::id(&condition.name)),
        condition.display_name
    );
    if !condition.withdrawn_because.is_empty() {
        let why = format!("WITHDRAWN: {}", condition.withdrawn_because);
        shown.push_str(&format!("{}\n", stop(&why)));
    }
    let mut row = |heading: &str, value: &str| shown.push_str(&paragraph(heading, value));
    row(
        "K",
        &format!(
            "{}, tests {} to {}",
            plain(condition.nut_factor),
            plain(condition.low_nut_factor),
            plain(condition.high_nut_factor)
        ),
    );
    row(
        "Clamp load",
        &format!("± {} %", plain(condition.share_of_error * 100.0)),
    );
    let said = condition.said.clone().unwrap_or_default();
    row(
        "Revision",
        &format!(
            "{}, by {}, {}",
            condition.revision,
            said.person,
            time(said.said_time)
        ),
    );
    if let Some(own) = condition.own.as_ref().filter(|own| !own.note.is_empty()) {
        row("Note", &own.note);
    }
    shown.push_str(&sources(&condition.sources));
    shown
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Basis, OwnCondition, Said, Source};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn an_own_condition_shows_what_it_rests_on() {
        let paste = Condition {
            name: "conditions/bench-paste".to_owned(),
            display_name: "bench paste".to_owned(),
            nut_factor: 0.15,
            low_nut_factor: 0.13,
            high_nut_factor: 0.17,
            share_of_error: 0.25,
            revision: 2,
            said: Some(Said {
                person: "Ada".to_owned(),
                ..Said::default()
            }),
            own: Some(OwnCondition {
                note: "stirred before use".to_owned(),
                ..OwnCondition::default()
            }),
            withdrawn_because: "the tin is empty".to_owned(),
            sources: vec![Source {
                citation: "own tests of 2026-03-02 by Ada: 12 tests".to_owned(),
                basis: Basis::Shop.into(),
                ..Source::default()
            }],
            ..Condition::default()
        };
        assert_snapshot!(finish(&own(&paste), Look::default()), @r"
        bench-paste: bench paste
        WITHDRAWN: the tin is empty
        K            0.15, tests 0.13 to 0.17
        Clamp load   ± 25 %
        Revision     2, by Ada, -
        Note         stirred before use
        Sources      own tests of 2026-03-02 by Ada: 12 tests (shop)
        ");
    }
}
