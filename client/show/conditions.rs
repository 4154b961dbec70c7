//! Lubrications of the shop's own.

use clampbook_api::v1::{Condition, ListConditionsResponse};

use super::{
    cite::sources,
    journal::stated,
    quantity::plain,
    text::{led, paragraph, stop},
};
/// All of the shop's own.
pub(crate) fn list(list: &ListConditionsResponse) -> String {
    if list.conditions.is_empty() {
        return "The shop keeps none of its own.\n".to_owned();
    }
    let shown: Vec<_> = list.conditions.iter().map(own).collect();
    shown.join("\n")
}

/// One of them, with the tests behind it.
pub(crate) fn own(condition: &Condition) -> String {
    let mut shown = led(&condition.text);
    if !condition.withdrawn_because.is_empty() {
        let why = format!("WITHDRAWN: {}", condition.withdrawn_because);
        shown.push_str(&format!("{}\n", stop(&why)));
    }
    let band = format!("± {} %", plain(condition.share_of_error * 100.0));
    shown.push_str(&paragraph("Clamp load", &band));
    shown.push_str(&stated(condition.said.as_ref()));
    shown.push_str(&sources(&condition.sources));
    shown
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Basis, Said, Source};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn an_own_condition_shows_what_it_rests_on() {
        let paste = Condition {
            text: "bench-paste revision 2: bench paste; K 0.15, tests 0.13 to 0.17".to_owned(),
            share_of_error: 0.25,
            said: Some(Said {
                person: "Ada".to_owned(),
                ..Said::default()
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
        bench-paste revision 2: bench paste; K 0.15, tests 0.13 to 0.17
        WITHDRAWN: the tin is empty
        Clamp load   ± 25 %
        Stated       by Ada, -
        Sources      own tests of 2026-03-02 by Ada: 12 tests (shop)
        ");
    }
}
