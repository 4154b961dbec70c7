//! Places that were found across jobs.

use clampbook_api::v1::{FoundPlace, SearchJobsResponse};

use super::text::{strong, wrap};
use crate::name;

/// All places, one line each.
pub(crate) fn places(list: &SearchJobsResponse) -> String {
    match list.places.as_slice() {
        [] => "Nothing was found.\n".to_owned(),
        places => places.iter().map(place).collect(),
    }
}

fn place(place: &FoundPlace) -> String {
    let at = match (name::id(&place.joint), place.position) {
        ("", _) => name::id(&place.assembly).to_owned(),
        (joint, 0) => joint.to_owned(),
        (joint, position) => format!("{joint} position {position}"),
    };
    let head = strong(&format!("{} {at}", name::id(&place.job)));
    wrap("", 2, &format!("{head}: {}", place.what))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn a_place_is_told_as_narrowly_as_it_is() {
        let mut found = FoundPlace {
            job: "jobs/oak".to_owned(),
            assembly: "jobs/oak/assemblies/hub".to_owned(),
            joint: "jobs/oak/joints/plate".to_owned(),
            position: 3,
            what: "7/16-20, bag 2".to_owned(),
            ..FoundPlace::default()
        };
        let told = |found: &FoundPlace| finish(&place(found), Look::default());
        assert_eq!(told(&found), "oak plate position 3: 7/16-20, bag 2\n");
        found.position = 0;
        assert_eq!(told(&found), "oak plate: 7/16-20, bag 2\n");
        found.joint.clear();
        assert_eq!(told(&found), "oak hub: 7/16-20, bag 2\n");
        let none = places(&SearchJobsResponse::default());
        assert_eq!(none, "Nothing was found.\n");
    }
}
