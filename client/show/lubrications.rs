//! Lubrications of the shop's own.

use clampbook_api::v1::{ListLubricationsResponse, Lubrication};

use super::{
    cite::sources,
    journal::stated,
    text::{led, paragraph, stop},
};
/// All of the shop's own.
pub(crate) fn list(list: &ListLubricationsResponse) -> String {
    if list.lubrications.is_empty() {
        return "The shop has no lubrications of its own.\n".to_owned();
    }
    let shown: Vec<_> = list.lubrications.iter().map(own).collect();
    shown.join("\n")
}

/// One lubrication, with the tests behind it.
pub(crate) fn own(lubrication: &Lubrication) -> String {
    let mut shown = led(&lubrication.text);
    if !lubrication.withdrawn_because.is_empty() {
        let why = format!("WITHDRAWN: {}", lubrication.withdrawn_because);
        shown.push_str(&format!("{}\n", stop(&why)));
    }
    shown.push_str(&paragraph("Clamp load", &lubrication.scatter_text));
    shown.push_str(&stated(lubrication.said.as_ref()));
    shown.push_str(&sources(&lubrication.sources));
    shown
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Basis, Said, Source};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn an_own_lubrication_shows_what_it_rests_on() {
        let paste = Lubrication {
            text: "bench-paste revision 2: bench paste; K 0.15, tests 0.13 to 0.17".to_owned(),
            scatter_text: "± 25 %".to_owned(),
            said: Some(Said {
                display_name: "Ada".to_owned(),
                ..Said::default()
            }),
            withdrawn_because: "the tin is empty".to_owned(),
            sources: vec![Source {
                citation: "own tests of 2026-03-02 by Ada: 12 tests".to_owned(),
                basis: Basis::Shop.into(),
                ..Source::default()
            }],
            ..Lubrication::default()
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
