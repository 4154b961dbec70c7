//! Corrections of entries.

use crate::decision::decided;
use crate::finding::{answered, found};
use crate::mark::marked;
use crate::parts_to_order::{arrived, wanted};
use crate::photo::described;
use crate::pieces::accounted;
use crate::refit::refitted;
use crate::removal::removed;
use crate::tightening::tightened;
use crate::{Validator, entry, flag};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::command::{Correction, Restated};
use clampbook_book::fact::Fact;
use clampbook_book::ids::JobId;
use clampbook_book::shop::Shop;
use wire::correct_entry_request::Correction as Wanted;

/// Corrects an entry.
pub(crate) async fn correct(
    call: Call<'_>,
    request: wire::CorrectEntryRequest,
) -> Result<wire::CorrectEntryResponse, Error> {
    let mut check = Validator::default();
    let parts = correction(&mut check, &request, &call.shop());
    let corrected = call.correct_entry(check.change(&request, parts)?).await?;
    Ok(wire::CorrectEntryResponse {
        entry: Some(entry::entry(&corrected.entry)),
        flags: flag::flags(&corrected.job, &corrected.flags),
        etag: corrected.etag,
    })
}

fn correction(
    check: &mut Validator,
    request: &wire::CorrectEntryRequest,
    shop: &Shop,
) -> Option<(JobId, Correction)> {
    let entry = check.entry_name("entry", &request.entry);
    let reason = check.required_text("reason", &request.reason, bounds::NOTE);
    let etag = check.etag(&request.etag);
    let with = restated(check, request, shop);
    if let (Some((job, _)), Some((Some(other), _))) = (&entry, &with)
        && job != other
    {
        check.wrong(
            "correction",
            format!(
                "is about {}, the entry about {}",
                names::job(other),
                names::job(job)
            ),
        );
    }
    let ((job, entry), (_, with)) = entry.zip(with)?;
    let correction = Correction {
        entry,
        with,
        reason,
        etag,
    };
    Some((job, correction))
}

/// What a correction is about, if it says so, and what should have been said; nothing to withdraw it.
type Again = (Option<JobId>, Option<Restated>);

fn restated(
    check: &mut Validator,
    request: &wire::CorrectEntryRequest,
    shop: &Shop,
) -> Option<Again> {
    match &request.correction {
        None => {
            check.wrong("correction", "is required: say what should have been said");
            None
        }
        Some(Wanted::Withdrawn(true)) => Some((None, None)),
        Some(Wanted::Withdrawn(false)) => {
            check.wrong(
                "withdrawn",
                "is false; leave it out, or say true to withdraw the entry",
            );
            None
        }
        Some(Wanted::Removal(said)) => again(removed(check, said), Fact::Removed),
        Some(Wanted::Decision(said)) => again(decided(check, said), Fact::Decided),
        Some(Wanted::Refit(said)) => again(refitted(check, said), Fact::Refitted),
        Some(Wanted::Tightening(said)) => again(tightened(check, said), Fact::Tightened),
        Some(Wanted::MatchMarks(said)) => again(marked(check, said), Fact::Marked),
        Some(Wanted::NotRefitted(said)) => again(accounted(check, said), Fact::NotRefitted),
        Some(Wanted::Finding(said)) => again(found(check, "finding", said), Fact::PartFound),
        Some(Wanted::CounterpartAnswer(said)) => {
            let answered = answered(check, "counterpart_answer", said);
            again(answered, Fact::CounterpartAnswered)
        }
        Some(Wanted::Wanted(said)) => again(wanted(check, said), Fact::PartWanted),
        Some(Wanted::Arrival(said)) => again(arrived(check, said), Fact::PartArrived),
        Some(Wanted::Photo(said)) => {
            described(check, said).map(|(job, described)| (job, Some(Restated::Photo(described))))
        }
        Some(Wanted::Joint(joint)) => {
            let name = check.joint_name("joint.name", &joint.name);
            let added = name.and_then(|(job, id)| {
                let added = check.joint(Some(&job), Some(id), joint, shop)?;
                Some((job, added))
            });
            again(added, Fact::JointAdded)
        }
    }
}

fn again<F>(said: Option<(JobId, F)>, fact: fn(F) -> Fact) -> Option<Again> {
    said.map(|(job, said)| (Some(job), Some(fact(said).into())))
}
