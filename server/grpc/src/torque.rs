//! How tight.

use crate::words::{Word, severity};
use crate::{Validator, catalogue};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::{Answer, Ask, Finding, Purpose, Question};

/// Computes a torque.
pub(crate) fn compute(
    call: Call<'_>,
    request: wire::ComputeTorqueRequest,
) -> Result<wire::ComputeTorqueResponse, Error> {
    let (ask, found) = ask(&request);
    call.compute_torque(&ask, found, answer)
}

/// The question of a request, and what was found wrong with it so far; what is wrong with the rest, the engine says.
pub(crate) fn ask(request: &wire::ComputeTorqueRequest) -> (Ask<'_>, Vec<Violation>) {
    let mut check = Validator::default();
    let purpose = check.word::<Purpose>("purpose", request.purpose);
    let ask = Ask {
        thread: &request.thread,
        grade: &request.grade,
        lubrication: &request.lubrication,
        proof_share: request.proof_share,
        clamp_load_n: request.clamp_load_n,
        nut_factor: request.nut_factor,
        nut_grade: request.nut_grade.as_deref(),
        purpose: purpose.unwrap_or_default(),
        baked: request.baked,
    };
    (ask, check.into_violations())
}

/// The answer on the wire.
fn answer(question: &Question<'_>, answer: &Answer<'_>) -> wire::ComputeTorqueResponse {
    wire::ComputeTorqueResponse {
        torque_nm: answer.torque.get(),
        clamp_load_n: answer.clamp_load.get(),
        nut_factor: answer.nut_factor.get(),
        tensile_stress_area_mm2: answer.tensile_stress_area.get(),
        proof_load_n: answer.working_load.get(),
        scatter: Some(scatter(answer)),
        literature: Some(wire::LiteratureSpread {
            low_nut_factor: answer.literature.low_nut_factor.get(),
            high_nut_factor: answer.literature.high_nut_factor.get(),
            low_torque_nm: answer.literature.low_torque.get(),
            high_torque_nm: answer.literature.high_torque.get(),
        }),
        governed_by: answer.governed_by.id().into(),
        sources: answer
            .sources
            .iter()
            .map(|cited| catalogue::cited(&cited))
            .collect(),
        assumptions: answer.assumptions.iter().map(|a| a.text().into()).collect(),
        cautions: answer.cautions.iter().map(|c| c.text().into()).collect(),
        checks: checks(answer),
        thread: question.thread().designation().into(),
        grade: question.grade().full_name().into(),
        lubrication: question
            .lubrication()
            .map(|c| c.name().into())
            .unwrap_or_default(),
    }
}

/// What the clamp load may really be.
pub(crate) fn scatter(answer: &Answer<'_>) -> wire::Scatter {
    wire::Scatter {
        minimum_clamp_load_n: answer.scatter.minimum.get(),
        maximum_clamp_load_n: answer.scatter.maximum.get(),
        relative_scatter: answer.scatter.relative_scatter,
    }
}

/// What was found, worst first.
pub(crate) fn findings(answer: &Answer<'_>) -> impl Iterator<Item = Finding> {
    let mut findings: Vec<_> = answer.findings.iter().collect();
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    findings.into_iter()
}

/// What was found, worst first, on the wire.
pub(crate) fn checks(answer: &Answer<'_>) -> Vec<wire::Check> {
    findings(answer)
        .map(|finding| wire::Check {
            check: finding.id.id().into(),
            severity: severity(finding.severity).number(),
            share: finding.share,
            text: finding.id.text().into(),
        })
        .collect()
}
