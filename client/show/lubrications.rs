//! Lubrications of the shop's own.

use clampbook_api::v1::{ListLubricationsResponse, Lubrication};

use super::{
    cite::sources,
    journal::time,
    quantity::plain,
    text::{paragraph, stop, strong},
};
use crate::name;

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
    let mut shown = format!(
        "{}: {}\n",
        strong(name::id(&lubrication.name)),
        lubrication.display_name
    );
    if !lubrication.withdrawn_because.is_empty() {
        let why = format!("WITHDRAWN: {}", lubrication.withdrawn_because);
        shown.push_str(&format!("{}\n", stop(&why)));
    }
    let mut row = |heading: &str, value: &str| shown.push_str(&paragraph(heading, value));
    row(
        "K",
        &format!(
            "{}, tests {} to {}",
            plain(lubrication.nut_factor),
            plain(lubrication.low_nut_factor),
            plain(lubrication.high_nut_factor)
        ),
    );
    row(
        "Clamp load",
        &format!("± {} %", plain(lubrication.relative_scatter * 100.0)),
    );
    let said = lubrication.said.clone().unwrap_or_default();
    row(
        "Revision",
        &format!(
            "{}, by {}, {}",
            lubrication.revision,
            said.person,
            time(said.said_time)
        ),
    );
    if let Some(own) = lubrication.own.as_ref().filter(|own| !own.note.is_empty()) {
        row("Note", &own.note);
    }
    shown.push_str(&sources(&lubrication.sources));
    shown
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Basis, OwnLubrication, Said, Source};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn an_own_lubrication_shows_what_it_rests_on() {
        let paste = Lubrication {
            name: "lubrications/bench-paste".to_owned(),
            display_name: "bench paste".to_owned(),
            nut_factor: 0.15,
            low_nut_factor: 0.13,
            high_nut_factor: 0.17,
            relative_scatter: 0.25,
            revision: 2,
            said: Some(Said {
                person: "Ada".to_owned(),
                ..Said::default()
            }),
            own: Some(OwnLubrication {
                note: "stirred before use".to_owned(),
                ..OwnLubrication::default()
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
