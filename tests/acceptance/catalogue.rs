//! The published tables, page by page.

use clampbook_api::reason;
use clampbook_api::v1::{
    Basis, FitLengthRequest, GetRuleRequest, GetThreadRequest, GripLayer, GripStack,
    ListAcrossFlatsRequest, ListGradesRequest, ListLubricationsRequest, ListNutGradesRequest,
    ListParentMetalsRequest, ListPublishedTargetsRequest, ListRulesRequest, ListThreadsRequest,
    RemovalOutcome, Source,
};
use tonic::Code;

use crate::support::{Refusal, Shop};

/// Reads a whole list in pages of `size` and gives the names, in order.
macro_rules! pages {
    ($client:expr, $method:ident, $request:expr, $items:ident, $name:ident, $size:expr) => {{
        let mut request = $request.clone();
        request.page_size = $size;
        let mut names = Vec::new();
        loop {
            let page = $client
                .$method(request.clone())
                .await
                .expect("a page")
                .into_inner();
            let most = usize::try_from($size).expect("a size");
            assert!(
                most == 0 || page.$items.len() <= most,
                "a page of {}",
                page.$items.len()
            );
            names.extend(page.$items.into_iter().map(|item| item.$name));
            if page.next_page_token.is_empty() {
                break names;
            }
            request.page_token = page.next_page_token;
        }
    }};
}

/// Asserts that small pages add up to the whole list, without gaps and repeats.
macro_rules! adds_up {
    ($client:expr, $method:ident, $request:expr, $items:ident, $name:ident) => {{
        let whole = pages!($client, $method, $request, $items, $name, 1_000);
        assert!(!whole.is_empty());
        for size in [0, 1, 7] {
            let parts = pages!($client, $method, $request, $items, $name, size);
            assert_eq!(parts, whole, "in pages of {size}");
        }
        whole
    }};
}

// Here, since they read pages too.
mod names;
mod paging;

#[tokio::test]
async fn all_pages_of_every_table_add_up_to_the_table() {
    let shop = Shop::open();
    let mut catalog = shop.catalog();
    let threads = adds_up!(
        catalog,
        list_threads,
        ListThreadsRequest::default(),
        threads,
        name
    );
    assert!(
        threads.len() > 100,
        "#0 to 2 in and M1.6 to M64: {}",
        threads.len()
    );
    let grades = adds_up!(
        catalog,
        list_grades,
        ListGradesRequest::default(),
        grades,
        name
    );
    for grade in ["j429-1", "j429-2", "j429-5", "j429-5-2", "j429-8"] {
        assert!(
            grades.contains(&format!("grades/{grade}")),
            "{grade} of {grades:?}"
        );
    }
    adds_up!(
        catalog,
        list_nut_grades,
        ListNutGradesRequest::default(),
        nut_grades,
        name
    );
    let lubrications = adds_up!(
        catalog,
        list_lubrications,
        ListLubricationsRequest::default(),
        lubrications,
        name
    );
    assert!(lubrications.len() >= 12, "{}", lubrications.len());
    let hexes = adds_up!(
        catalog,
        list_across_flats,
        ListAcrossFlatsRequest::default(),
        across_flats,
        name
    );
    assert!(hexes.contains(&"hexParts/hex-m10".to_owned()));
    let metals = adds_up!(
        catalog,
        list_parent_metals,
        ListParentMetalsRequest::default(),
        parent_metals,
        name
    );
    let targets = adds_up!(
        catalog,
        list_published_targets,
        ListPublishedTargetsRequest::default(),
        published_targets,
        name
    );
    let mut unique = [threads, grades, lubrications, hexes, metals, targets].concat();
    let count = unique.len();
    unique.sort_unstable();
    unique.dedup();
    assert_eq!(unique.len(), count, "names are unique");
}

#[tokio::test]
async fn parts_and_metals_tell_how_their_values_came_about_and_are_understood() {
    let shop = Shop::open();
    let mut catalog = shop.catalog();
    let hexes = catalog
        .list_across_flats(ListAcrossFlatsRequest::default())
        .await
        .expect("hexagons")
        .into_inner()
        .across_flats;
    // ISO 4014, ISO 4032, ISO 273, DIN 935 at M10.
    let m10 = hexes.iter().find(|h| h.size == "M10").expect("M10");
    assert_eq!(
        (
            m10.across_flats_mm,
            m10.nut_height_mm,
            m10.clearance_hole_mm,
            m10.castle_slots
        ),
        (16.0, 8.4, 11.0, Some(6))
    );
    assert!(
        hexes
            .iter()
            .all(|h| h.sources.iter().all(|s| s.basis() == Basis::Memory))
    );
    let metals = catalog
        .list_parent_metals(ListParentMetalsRequest::default())
        .await
        .expect("metals")
        .into_inner()
        .parent_metals;
    // Every name listed is one that a stack takes, and the answer that used it tells the basis again.
    for metal in &metals {
        for name in metal.aliases.iter().chain([&metal.display_name]) {
            let request = FitLengthRequest {
                thread: "M10".into(),
                stack: Some(GripStack {
                    layers: vec![GripLayer {
                        metal: name.clone(),
                        thickness_mm: 12.0,
                        ..GripLayer::default()
                    }],
                    ..GripStack::default()
                }),
                ..FitLengthRequest::default()
            };
            let answer = shop
                .torque()
                .fit_length(request)
                .await
                .expect(name)
                .into_inner();
            for source in &metal.sources {
                let used = |s: &&Source| (&s.source, s.basis) == (&source.source, source.basis);
                assert!(
                    answer.sources.iter().any(|s| used(&s)),
                    "{name}: {:?}",
                    answer.sources
                );
            }
        }
    }
    let targets = catalog
        .list_published_targets(ListPublishedTargetsRequest::default())
        .await
        .expect("targets")
        .into_inner()
        .published_targets;
    for target in &targets {
        let load = target.minimum_clamp_load_n.is_some();
        assert_ne!(load, target.turn_degrees.is_some(), "{target:?}");
    }
}

#[tokio::test]
async fn every_row_says_where_it_comes_from() {
    let shop = Shop::open();
    let mut catalog = shop.catalog();
    let all = |page_size| ListThreadsRequest {
        page_size,
        page_token: String::new(),
    };
    for thread in catalog
        .list_threads(all(500))
        .await
        .expect("a page")
        .into_inner()
        .threads
    {
        assert!(!thread.sources.is_empty(), "{}", thread.name);
        for source in thread.sources {
            assert!(
                !source.citation.is_empty() && source.basis != 0,
                "{}",
                thread.name
            );
            assert!(!source.citation.contains("http"), "{}", source.citation);
        }
    }
    let lubrications = catalog
        .list_lubrications(ListLubricationsRequest::default())
        .await
        .expect("a page");
    for lubrication in lubrications.into_inner().lubrications {
        assert!(!lubrication.sources.is_empty(), "{}", lubrication.name);
        assert!(
            lubrication.low_nut_factor <= lubrication.nut_factor,
            "{}",
            lubrication.name
        );
        assert!(
            lubrication.nut_factor <= lubrication.high_nut_factor,
            "{}",
            lubrication.name
        );
    }
}

#[tokio::test]
async fn a_thread_is_found_as_it_is_said() {
    let shop = Shop::open();
    for (said, name) in [
        ("7/16-20", "threads/unf-7-16-20"),
        ("threads/unf-7-16-20", "threads/unf-7-16-20"),
        ("7/16 fine", "threads/unf-7-16-20"),
        ("M10x1.25", "threads/m10x1-25"),
        ("m10", "threads/m10x1-5"),
    ] {
        let answer = shop
            .catalog()
            .get_thread(GetThreadRequest { name: said.into() })
            .await;
        assert_eq!(answer.expect(said).into_inner().name, name, "{said}");
    }
    let status = shop
        .catalog()
        .get_thread(GetThreadRequest {
            name: "7/16-21".into(),
        })
        .await;
    let refusal = Refusal::of(&status.expect_err("there is none"));
    refusal.is(Code::NotFound, reason::RESOURCE_NOT_FOUND);
    let status = shop
        .catalog()
        .get_thread(GetThreadRequest {
            name: "7/16".into(),
        })
        .await;
    Refusal::of(&status.expect_err("coarse or fine?")).names(&["name"]);
}

#[tokio::test]
async fn published_stress_areas_stand_beside_the_computed_ones() {
    let shop = Shop::open();
    // ISO 898-1:2013, table 4, and ASME B1.1, table 7 (square inches times 645.16).
    for (said, published, within) in [
        ("M10", 58.0, 0.05),
        ("M10x1.25", 61.2, 0.05),
        ("M64", 2680.0, 5.0),
        ("7/16-20", 0.1187 * 645.16, 0.000_05 * 645.16),
        ("1/2-13", 0.1419 * 645.16, 0.000_05 * 645.16),
    ] {
        let answer = shop
            .catalog()
            .get_thread(GetThreadRequest { name: said.into() })
            .await;
        let area = answer.expect(said).into_inner().tensile_stress_area_mm2;
        assert!(
            (area - published).abs() <= within,
            "{said}: {area}, published {published}"
        );
    }
}

#[tokio::test]
async fn every_rule_can_be_looked_up_by_the_id_a_flag_carries() {
    let shop = Shop::open();
    let rules = shop
        .jobs()
        .list_rules(ListRulesRequest::default())
        .await
        .expect("rules")
        .into_inner()
        .rules;
    for rule in &rules {
        let found = shop
            .jobs()
            .get_rule(GetRuleRequest {
                name: rule.name.clone(),
            })
            .await;
        assert_eq!(&found.expect("a rule").into_inner(), rule);
        for text in [
            &rule.title,
            &rule.raised_when,
            &rule.cleared_by,
            &rule.source,
        ] {
            assert!(!text.is_empty(), "{}", rule.name);
        }
    }
    let plate = shop.job("tractor").await.joint("plate").await;
    let answer = plate.takes_out(1, RemovalOutcome::Seized).await;
    for flag in answer.flags {
        let known = rules
            .iter()
            .any(|rule| rule.name == format!("rules/{}", flag.rule));
        assert!(known, "{}", flag.rule);
    }
}
