//! Naming threads, grades and spanners from what is seen and measured.

use crate::{Validator, catalogue};
use clampbook_api::v1 as wire;
use clampbook_app::identify::{assumptions, cautions};
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_engine::identify::{
    Candidate, HeadMatch, Identified, LookAlike, Measured, MeasuredAsk, Misfit, SpannerFit,
    SpannerMatch, Verdict,
};
use clampbook_engine::show;
use clampbook_engine::units::{MILLIMETRES_PER_INCH, Millimetres};

/// What a measured thread may be.
pub(crate) fn thread(
    call: Call<'_>,
    request: wire::IdentifyThreadRequest,
) -> Result<wire::IdentifyThreadResponse, Error> {
    call.identify_thread(&measured(&request)?, identified)
}

/// Which grades carry a head mark.
pub(crate) fn grade(
    call: Call<'_>,
    request: wire::IdentifyGradeRequest,
) -> Result<wire::IdentifyGradeResponse, Error> {
    let mut check = Validator::default();
    let said = check.required_text("head_marking", &request.head_marking, bounds::DESIGNATION);
    let said = check.finish(Some(said))?;
    call.identify_grade(&said, grades)
}

/// Which threads a spanner turns, or which spanner a thread takes.
pub(crate) fn spanner(
    call: Call<'_>,
    request: wire::IdentifySpannerRequest,
) -> Result<wire::IdentifySpannerResponse, Error> {
    let found = match spanner_ask(&request)? {
        SpannerAsk::Width(width) => call.spanner_of_width(width),
        SpannerAsk::Thread(said) => call.spanner_of_thread(&said)?,
    };
    Ok(wire::IdentifySpannerResponse {
        matches: found.iter().map(spanner_match).collect(),
    })
}

/// The measurements of a request.
///
/// # Errors
/// Lengths that are none, a pitch said twice. What lies outside its bounds, the engine says.
fn measured(request: &wire::IdentifyThreadRequest) -> Result<MeasuredAsk, Error> {
    let mut check = Validator::default();
    let diameter = check.length("diameter", &request.diameter);
    let pitch = pitch(&mut check, request);
    let ask = diameter.map(|diameter| MeasuredAsk {
        internal: request.internal,
        diameter_mm: diameter.mm,
        diameter_error_mm: request.diameter_error_mm,
        wear_mm: request.wear_mm,
        pitch_mm: pitch,
        pitch_error_mm: request.pitch_error_mm,
        flank_angle_deg: request.flank_angle_degrees,
    });
    check.finish(ask)
}

/// The pitch in mm, said as a length or as threads per inch.
fn pitch(check: &mut Validator, request: &wire::IdentifyThreadRequest) -> Option<f64> {
    let by_length = match request.pitch.trim() {
        "" => None,
        said => check.length("pitch", said).map(|pitch| pitch.mm),
    };
    let by_count = request.threads_per_inch.and_then(|tpi| {
        let sensible = tpi.is_finite() && (2.5..=160.0).contains(&tpi);
        if !sensible {
            check.wrong("threads_per_inch", format!("{tpi}: allowed are 2.5 to 160"));
        }
        sensible.then(|| MILLIMETRES_PER_INCH / tpi)
    });
    if by_length.is_some() && by_count.is_some() {
        check.wrong(
            "threads_per_inch",
            "cannot go together with pitch: give one or the other",
        );
    }
    by_length.or(by_count)
}

/// What the measurements lead to, on the wire.
fn identified(measured: &Measured, found: &Identified<'_>) -> wire::IdentifyThreadResponse {
    wire::IdentifyThreadResponse {
        candidates: found.candidates.iter().map(candidate).collect(),
        try_next: found.try_next.clone(),
        look_alikes: found.look_alikes.iter().map(look_alike).collect(),
        assumptions: assumptions(measured),
        sources: found.sources.iter().map(catalogue::cited).collect(),
    }
}

fn candidate(candidate: &Candidate<'_>) -> wire::ThreadCandidate {
    let verdict = match candidate.verdict {
        Verdict::Fits => wire::ThreadVerdict::Fits,
        Verdict::MayFit => wire::ThreadVerdict::MayFit,
        Verdict::DoesNotFit => wire::ThreadVerdict::DoesNotFit,
    };
    wire::ThreadCandidate {
        thread: Some(catalogue::row(candidate.thread)),
        verdict: verdict.into(),
        only_if_worn: candidate.only_if_worn,
        misfits: candidate
            .misfits
            .iter()
            .map(|m| Misfit::text(*m).into())
            .collect(),
        off_mm: candidate.off_mm,
        off_text: show::millimetres(candidate.off_mm),
    }
}

/// A pair of look-alikes on the wire.
pub(crate) fn look_alike(pair: &LookAlike<'_>) -> wire::LookAlike {
    let half = if pair.is_cruel() {
        wire::LookAlikeHalf::Cruel
    } else {
        wire::LookAlikeHalf::Kind
    };
    wire::LookAlike {
        name: names::row("lookAlikes", pair.id()),
        external_thread: pair.external().to_string(),
        internal_thread: pair.internal().to_string(),
        half: half.into(),
        what_happens: pair.what_happens().into(),
        how_to_tell: pair.how_to_tell().into(),
        overlap_share: pair.overlap_share(),
        overlap_text: show::ratio(pair.overlap_share()),
        sources: catalogue::sources(pair.origin()),
    }
}

/// Grades that carry a mark, on the wire.
fn grades(found: &[HeadMatch<'_>]) -> wire::IdentifyGradeResponse {
    wire::IdentifyGradeResponse {
        grades: found
            .iter()
            .map(|m| wire::GradeMatch {
                grade: Some(catalogue::on_wire(m.grade)),
                weakest_tensile_mpa: m.weakest_tensile_mpa,
                weakest_tensile_text: format!("{} MPa", show::figures(m.weakest_tensile_mpa)),
            })
            .collect(),
        cautions: cautions(found),
    }
}

/// What a spanner is asked for.
enum SpannerAsk {
    /// The threads of a spanner.
    Width(Millimetres),
    /// The spanner of a thread.
    Thread(String),
}

/// The question of a request.
///
/// # Errors
/// Both or neither said, or a width that is none.
fn spanner_ask(request: &wire::IdentifySpannerRequest) -> Result<SpannerAsk, Error> {
    let mut check = Validator::default();
    let width = match request.width.trim() {
        "" => None,
        said => check.length("width", said),
    };
    let width = width.and_then(|width| {
        let width = Millimetres::new(width.mm);
        width
            .map_err(|why| check.wrong("width", why.to_string()))
            .ok()
    });
    let thread = check.text("thread", &request.thread, bounds::DESIGNATION);
    let said = (!request.width.trim().is_empty(), !thread.is_empty());
    let ask = match said {
        (false, false) => {
            check.wrong("width", "is required; or give thread");
            None
        }
        (true, true) => {
            check.wrong(
                "thread",
                "cannot go together with width: give one or the other",
            );
            None
        }
        (true, false) => width.map(SpannerAsk::Width),
        (false, true) => Some(SpannerAsk::Thread(thread)),
    };
    check.finish(ask)
}

/// A size and its flats on the wire.
fn spanner_match(found: &SpannerMatch) -> wire::SpannerMatch {
    let fit = match found.fit {
        SpannerFit::Right => wire::SpannerFit::Right,
        SpannerFit::Loose => wire::SpannerFit::Loose,
    };
    wire::SpannerMatch {
        thread_size: found.thread_size.clone(),
        across_flats_mm: found.across_flats_mm,
        across_flats_text: show::millimetres(found.across_flats_mm),
        stamped: found.stamped.into(),
        fit: fit.into(),
        note: found.origin.note.into(),
        sources: catalogue::sources(found.origin),
    }
}
