//! Searching across jobs.

use crate::Validator;
use crate::page::{Sizes, token};
use clampbook_api::v1 as wire;
use clampbook_app::search::{Found, From};
use clampbook_app::{Call, Error, JobsAfter, names};
use clampbook_book::bounds;
use clampbook_book::ids::SLUG_LENGTH;
use clampbook_book::job::Job;
use clampbook_book::rules;
use clampbook_book::search::{Hit, Wanted};
use clampbook_engine::Catalogue;
use std::sync::Arc;

const PLACES: Sizes = Sizes {
    default: 50,
    most: 200,
};

/// Searches all jobs.
pub(crate) async fn jobs(
    call: Call<'_>,
    request: wire::SearchJobsRequest,
) -> Result<wire::SearchJobsResponse, Error> {
    let Search { wanted, size, from } = search(&request, &call.catalogue())?;
    let wanted = Arc::new(wanted);
    let page = call.search(&wanted, from, size).await?;
    Ok(found(&wanted, &page))
}

/// A search and the page of it that is wanted.
struct Search {
    /// What is searched for.
    wanted: Wanted,
    /// Most places to tell.
    size: usize,
    /// Where to go on.
    from: Option<From>,
}

/// Takes a search.
///
/// # Errors
/// All violations.
fn search(request: &wire::SearchJobsRequest, catalogue: &Catalogue) -> Result<Search, Error> {
    let mut check = Validator::default();
    let wanted = Wanted {
        machine: check.text("machine", &request.machine, bounds::SENTENCE),
        thread: check.text("thread", &request.thread, bounds::DESIGNATION),
        rule: check.text("rule", &request.rule, SLUG_LENGTH),
        part: check.text("part", &request.part, bounds::SHORT),
        kept_in: check.text("kept_in", &request.kept_in, bounds::SHORT),
    };
    if wanted == Wanted::default() {
        check.wrong(
            "machine",
            "is required, or thread, rule, part or kept_in: say what is searched for",
        );
    }
    if let (false, Err(why)) = (wanted.thread.is_empty(), catalogue.thread(&wanted.thread)) {
        check.wrong("thread", why.to_string());
    }
    if !wanted.rule.is_empty() && rules::rule(&wanted.rule).is_none() {
        check.wrong("rule", format!("there is no rule {}", wanted.rule));
    }
    let of_holes = !wanted.thread.is_empty() || !wanted.kept_in.is_empty();
    if of_holes && !wanted.part.is_empty() {
        check.wrong(
            "part",
            "is not a hole: do not give it together with thread or kept_in",
        );
    }
    let page = check.page(
        &list(&wanted),
        request.page_size,
        &request.page_token,
        PLACES,
    );
    let from = page
        .as_ref()
        .and_then(|page| page.after.as_deref())
        .map(from);
    if let Some(None) = from {
        check.wrong("page_token", "is not a token of this list");
    }
    let page = check.finish(page)?;
    Ok(Search {
        wanted,
        size: page.size,
        from: from.flatten(),
    })
}

/// Name of the list, which its tokens are bound to.
fn list(wanted: &Wanted) -> String {
    format!("SearchJobs {wanted:?}")
}

fn from(text: &str) -> Option<From> {
    let mut parts = text.split(' ');
    let mut next = || parts.next()?.parse::<i64>().ok();
    Some(From {
        jobs: JobsAfter {
            as_of: next()?,
            place: next()?,
        },
        told: usize::try_from(next()?).ok()?,
    })
}

/// What was found, on the wire.
fn found(wanted: &Wanted, found: &Found) -> wire::SearchJobsResponse {
    let next = found.next.map(|from| {
        let text = format!("{} {} {}", from.jobs.as_of, from.jobs.place, from.told);
        token(&list(wanted), &text)
    });
    wire::SearchJobsResponse {
        places: found
            .hits
            .iter()
            .map(|(job, hit)| place(job, hit))
            .collect(),
        next_page_token: next.unwrap_or_default(),
    }
}

fn place(job: &Job, hit: &Hit) -> wire::FoundPlace {
    let opened = job.opened.as_ref().map(|opened| &opened.fact);
    wire::FoundPlace {
        job_display_name: opened.map(|o| o.display_name.clone()).unwrap_or_default(),
        machine: opened.map(|o| o.machine.clone()).unwrap_or_default(),
        assembly: names::assembly(&job.id, &hit.assembly),
        joint: hit
            .joint
            .as_ref()
            .map(|joint| names::joint(&job.id, joint))
            .unwrap_or_default(),
        position: hit.position.into(),
        what: hit.what.clone(),
        job: names::job(&job.id),
    }
}
