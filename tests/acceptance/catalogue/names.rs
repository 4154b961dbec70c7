//! What the rows are called: names that any client can put in a path, and that lead back to the row.

use clampbook_api::v1::{
    GetThreadRequest, ListAcrossFlatsRequest, ListGradesRequest, ListLubricationsRequest,
    ListNutGradesRequest, ListParentMetalsRequest, ListRulesRequest, ListThreadsRequest,
};

use crate::support::Shop;

fn is_plain(id: &str) -> bool {
    id.len() <= 63
        && id.starts_with(|c: char| c.is_ascii_lowercase())
        && id
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
        && !id.ends_with('-')
        && !id.contains("--")
}

#[track_caller]
fn are_names_in(collection: &str, names: &[String]) {
    let mut sorted = names.to_vec();
    sorted.sort_unstable();
    sorted.dedup();
    assert_eq!(
        sorted.len(),
        names.len(),
        "each name of {collection} is used once"
    );
    for name in names {
        let id = name.strip_prefix(&format!("{collection}/"));
        assert!(id.is_some_and(is_plain), "{name}");
    }
}

#[tokio::test]
async fn every_row_has_a_name_of_its_own_in_plain_letters() {
    let shop = Shop::open();
    let mut catalog = shop.catalog();
    let request = ListThreadsRequest::default();
    let threads = pages!(catalog, list_threads, request, threads, name, 500);
    are_names_in("threads", &threads);
    let request = ListGradesRequest::default();
    let grades = pages!(catalog, list_grades, request, grades, name, 500);
    are_names_in("grades", &grades);
    let request = ListNutGradesRequest::default();
    let nuts = pages!(catalog, list_nut_grades, request, nut_grades, name, 500);
    are_names_in("nutGrades", &nuts);
    let request = ListLubricationsRequest::default();
    let lubrications = pages!(catalog, list_lubrications, request, lubrications, name, 500);
    are_names_in("lubrications", &lubrications);

    for name in threads {
        let request = GetThreadRequest { name: name.clone() };
        let found = catalog.get_thread(request).await.expect(&name).into_inner();
        assert_eq!(found.name, name);
    }
}

#[tokio::test]
async fn the_names_that_the_contract_gives_as_examples_are_names_of_the_catalogue() {
    let shop = Shop::open();
    let mut catalog = shop.catalog();
    let all = [
        pages!(
            catalog,
            list_threads,
            ListThreadsRequest::default(),
            threads,
            name,
            500
        ),
        pages!(
            catalog,
            list_grades,
            ListGradesRequest::default(),
            grades,
            name,
            500
        ),
        pages!(
            catalog,
            list_nut_grades,
            ListNutGradesRequest::default(),
            nut_grades,
            name,
            500
        ),
        pages!(
            catalog,
            list_lubrications,
            ListLubricationsRequest::default(),
            lubrications,
            name,
            500
        ),
        pages!(
            catalog,
            list_across_flats,
            ListAcrossFlatsRequest::default(),
            across_flats,
            name,
            500
        ),
        pages!(
            catalog,
            list_parent_metals,
            ListParentMetalsRequest::default(),
            parent_metals,
            name,
            500
        ),
        pages!(
            shop.jobs(),
            list_rules,
            ListRulesRequest::default(),
            rules,
            name,
            200
        ),
    ]
    .concat();
    let mut examples = 0;
    for message in crate::contract::messages() {
        let Some(field) = message.get_field_by_name("name") else {
            continue;
        };
        let says = crate::contract::comment(&message.parent_file(), field.path());
        let example = says
            .split_once("for instance `")
            .and_then(|(_, rest)| rest.split_once('`'));
        if let Some((name, _)) = example {
            assert!(
                all.iter().any(|known| known == name),
                "{}: {name}",
                message.name()
            );
            examples += 1;
        }
    }
    assert!(examples >= 5, "{examples}");
}
