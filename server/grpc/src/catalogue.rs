//! The catalogue: its lists, each a page of rows, and a single thread.

mod parts;
mod rows;

use crate::page::{Sizes, of_list};
use crate::{Validator, identify, lubrication};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error};
use clampbook_book::{CATALOGUE_EDITION, bounds};
use clampbook_engine::Purpose;
pub(crate) use rows::{band, basis, cited, grade as on_wire, lubrication, sources, thread as row};

const SIZES: Sizes = Sizes {
    default: 100,
    most: 500,
};

/// Methods that list a part of the catalogue: which rows, and how one goes onto the wire.
macro_rules! lists {
    ($($(#[doc = $doc:literal])+ $list:ident($request:ident) -> $answer:ident { $field:ident: |$call:ident| $rows:expr, $show:expr })+) => {
        $($(#[doc = $doc])+
        pub(crate) fn $list(call: Call<'_>, request: wire::$request) -> Result<wire::$answer, Error> {
            let $call = &call;
            let wanted = (request.page_size, request.page_token.as_str());
            let ($field, next_page_token) = page(call.operation().name(), wanted, $rows, $show)?;
            Ok(wire::$answer {
                $field,
                next_page_token,
                edition: CATALOGUE_EDITION.into(),
            })
        })+
    };
}

lists! {
    /// Threads.
    threads(ListThreadsRequest) -> ListThreadsResponse {
        threads: |call| call.catalogue().threads(), rows::thread
    }
    /// Grades of bolts.
    grades(ListGradesRequest) -> ListGradesResponse {
        grades: |call| call.catalogue().grades(), rows::grade
    }
    /// Grades of nuts.
    nut_grades(ListNutGradesRequest) -> ListNutGradesResponse {
        nut_grades: |call| call.catalogue().nuts(), rows::nut
    }
    /// Pairs of threads that look alike.
    look_alikes(ListLookAlikesRequest) -> ListLookAlikesResponse {
        look_alikes: |call| call.catalogue().look_alikes(), |pair| identify::look_alike(&pair)
    }
    /// Hexagon heads, nuts and holes by size.
    across_flats(ListAcrossFlatsRequest) -> ListAcrossFlatsResponse {
        across_flats: |call| call.across_flats(), |part| parts::across_flats(&part)
    }
    /// Metals that are clamped or tapped.
    parent_metals(ListParentMetalsRequest) -> ListParentMetalsResponse {
        parent_metals: |call| call.parent_metals(), |metal| parts::metal(&metal)
    }
    /// Printed clamp loads and turns.
    published_targets(ListPublishedTargetsRequest) -> ListPublishedTargetsResponse {
        published_targets: |call| call.published_targets(), |row| parts::target(&row)
    }
}

/// Lubrications, and the shop's own with all that it keeps about each.
pub(crate) fn lubrications(
    call: Call<'_>,
    request: wire::ListLubricationsRequest,
) -> Result<wire::ListLubricationsResponse, Error> {
    let shop = call.shop();
    let rows = shop.catalogue().lubrications();
    let wanted = (request.page_size, request.page_token.as_str());
    let show = |row| lubrication::lubrication(&shop, row);
    let (lubrications, next_page_token) = page(call.operation().name(), wanted, rows, show)?;
    Ok(wire::ListLubricationsResponse {
        lubrications,
        next_page_token,
        edition: CATALOGUE_EDITION.into(),
    })
}

/// Printed torques, for one purpose or for all.
pub(crate) fn published_torques(
    call: Call<'_>,
    request: wire::ListPublishedTorquesRequest,
) -> Result<wire::ListPublishedTorquesResponse, Error> {
    let mut check = Validator::default();
    let purpose = check.word::<Purpose>("purpose", request.purpose);
    // A token belongs to the list of one purpose.
    let list = format!("{}:{}", call.operation().name(), request.purpose);
    let page = check.numbered_page(&list, request.page_size, &request.page_token, SIZES);
    let (size, after) = check.finish(page)?;
    let rows = call.published_torques(purpose);
    let (page, next_page_token) = of_list(&list, &rows, size, after);
    Ok(wire::ListPublishedTorquesResponse {
        published_torques: page.into_iter().map(parts::published).collect(),
        next_page_token,
        edition: CATALOGUE_EDITION.into(),
    })
}

/// The thread that a mechanic means.
pub(crate) fn thread(
    call: Call<'_>,
    request: wire::GetThreadRequest,
) -> Result<wire::Thread, Error> {
    let mut check = Validator::default();
    let name = check.required_text("name", &request.name, bounds::DESIGNATION);
    let name = check.finish(Some(name))?;
    call.thread(&name, rows::thread)
}

/// One page of rows, and the token for the next.
fn page<T, W>(
    list: &str,
    (size, token): (i32, &str),
    items: impl IntoIterator<Item = T>,
    show: impl Fn(T) -> W,
) -> Result<(Vec<W>, String), Error> {
    let mut check = Validator::default();
    let wanted = check.numbered_page(list, size, token, SIZES);
    let (size, after) = check.finish(wanted)?;
    let (page, next) = of_list(list, items, size, after);
    Ok((page.into_iter().map(show).collect(), next))
}
