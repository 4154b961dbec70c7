//! What a thread, a head or a spanner is.

use clampbook_api::v1::{
    IdentifyGradeResponse, IdentifySpannerResponse, IdentifyThreadResponse, ListLookAlikesResponse,
    LookAlike, LookAlikeHalf, SpannerFit, SpannerMatch, ThreadCandidate, ThreadVerdict,
};

use super::{
    assumed,
    cite::sources,
    text::{caution, paragraph, paragraphs, stop, strong, table, unbroken},
};

/// Threads that measurements may belong to.
pub(crate) fn thread(found: &IdentifyThreadResponse) -> String {
    let rows: Vec<_> = found.candidates.iter().map(candidate).collect();
    let agrees = |c: &ThreadCandidate| c.verdict() != ThreadVerdict::DoesNotFit;
    let mut shown = String::new();
    if !found.candidates.iter().any(agrees) {
        let none = strong("No thread of the tables agrees; these are the nearest.");
        shown.push_str(&format!("{none}\n\n"));
    }
    shown.push_str(&table(["thread", "", "off by", "because"], &rows));
    shown.push('\n');
    shown.push_str(&paragraphs("Try next", &found.try_next));
    shown.push_str(&paragraphs(
        "Mind",
        found.look_alikes.iter().map(look_alike),
    ));
    shown.push_str(&assumed(&found.assumptions));
    shown.push_str(&sources(&found.sources));
    shown
}

fn candidate(candidate: &ThreadCandidate) -> [String; 4] {
    let verdict = match candidate.verdict() {
        ThreadVerdict::Fits => "fits",
        ThreadVerdict::MayFit => "may fit",
        ThreadVerdict::DoesNotFit => "does not fit",
        ThreadVerdict::Unspecified => "not said",
    };
    let thread = candidate.thread.as_ref();
    let because = if candidate.only_if_worn {
        "Only if it is worn.".to_owned()
    } else {
        candidate.misfits.join(" ")
    };
    [
        thread.map(|t| t.designation.clone()).unwrap_or_default(),
        verdict.to_owned(),
        unbroken(&candidate.off_text),
        because,
    ]
}

fn look_alike(pair: &LookAlike) -> String {
    let half = match pair.half() {
        LookAlikeHalf::Cruel => stop("CRUEL"),
        _ => caution("KIND"),
    };
    format!(
        "{half} {} screw in {} nut: {} {}",
        pair.external_thread, pair.internal_thread, pair.what_happens, pair.how_to_tell
    )
}

/// All look-alikes.
pub(crate) fn look_alikes(list: &ListLookAlikesResponse) -> String {
    let mut shown: String = list
        .look_alikes
        .iter()
        .map(|pair| {
            let bears = format!("{} of the depth bears.", pair.overlap_text);
            format!(
                "{}{}",
                paragraph("", &look_alike(pair)),
                paragraph("", &bears)
            )
        })
        .collect();
    shown.push_str(&format!("\nCatalogue edition {}.\n", list.edition));
    shown
}

/// Grades that carry a mark.
pub(crate) fn head(found: &IdentifyGradeResponse) -> String {
    let rows: Vec<_> = found
        .grades
        .iter()
        .map(|m| {
            let grade = m.grade.as_ref();
            [
                grade
                    .map(|g| format!("{} {}", g.standard, g.designation))
                    .unwrap_or_default(),
                unbroken(&m.weakest_tensile_text),
                grade.map(|g| g.head_marking.clone()).unwrap_or_default(),
            ]
        })
        .collect();
    let mut shown = if rows.is_empty() {
        String::new()
    } else {
        table(["grade, weakest first", "tensile", "mark"], &rows)
    };
    shown.push('\n');
    shown.push_str(&paragraphs("Mind", &found.cautions));
    let not_computed = found.grades.iter().filter_map(|m| m.grade.as_ref());
    let not_computed = not_computed.filter(|g| !g.not_computed.is_empty());
    let lines =
        not_computed.map(|g| format!("{} {}: {}", g.standard, g.designation, g.not_computed));
    shown.push_str(&paragraphs("No torque", lines));
    shown
}

/// Sizes and flats.
pub(crate) fn spanner(found: &IdentifySpannerResponse) -> String {
    if found.matches.is_empty() {
        return format!("{}\n", strong("The tables have none."));
    }
    let rows: Vec<_> = found.matches.iter().map(spanner_match).collect();
    let mut shown = table(["thread", "flats", "stamped", "fit", "note"], &rows);
    let mut cited: Vec<_> = found
        .matches
        .iter()
        .flat_map(|m| m.sources.clone())
        .collect();
    let mut seen = Vec::new();
    cited.retain(|s| {
        let new = !seen.contains(&s.source);
        seen.push(s.source.clone());
        new
    });
    shown.push('\n');
    shown.push_str(&sources(&cited));
    shown
}

fn spanner_match(found: &SpannerMatch) -> [String; 5] {
    let fit = match found.fit() {
        SpannerFit::Loose => "loose: rounds the corners",
        _ => "right",
    };
    [
        found.thread_size.clone(),
        unbroken(&found.across_flats_text),
        found.stamped.clone(),
        fit.to_owned(),
        found.note.clone(),
    ]
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::Thread;
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn a_measured_thread_shows_verdicts_and_what_to_try() {
        let found = IdentifyThreadResponse {
            candidates: vec![ThreadCandidate {
                thread: Some(Thread {
                    designation: "1/4-20 UNC".to_owned(),
                    ..Thread::default()
                }),
                verdict: ThreadVerdict::Fits.into(),
                off_text: "0.05 mm".to_owned(),
                ..ThreadCandidate::default()
            }],
            try_next: vec!["Gauge of the flank angle.".to_owned()],
            ..IdentifyThreadResponse::default()
        };
        assert_snapshot!(finish(&thread(&found), Look::default()), @r"
        thread            off by   because
        1/4-20 UNC  fits  0.05 mm

        Try next     Gauge of the flank angle.
        ");
    }

    #[test]
    fn a_mark_that_nothing_carries_says_so() {
        let found = IdentifyGradeResponse {
            cautions: vec!["No grade in the tables carries this mark.".to_owned()],
            ..IdentifyGradeResponse::default()
        };
        let shown = finish(&head(&found), Look::default());
        assert!(shown.contains("No grade in the tables"), "{shown}");
    }
}
