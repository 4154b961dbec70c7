//! How tight.

use crate::words::{Word, severity};
use crate::{Validator, catalogue};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error};
use clampbook_book::answers;
use clampbook_book::refusal::Violation;
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::units::Newtons;
use clampbook_engine::{Answer, Ask, Check, Purpose, Question, Thread, show};

/// Computes a torque.
pub(crate) fn compute(
    call: Call<'_>,
    request: wire::ComputeTorqueRequest,
) -> Result<wire::ComputeTorqueResponse, Error> {
    let (ask, found) = ask(&request);
    call.compute_torque(&ask, found, |question, found| {
        let unit = unit_of(request.torque_unit(), question.thread());
        answer(question, found, unit)
    })
}

/// The question of a request, and what was found wrong with it so far; what is wrong with the rest, the engine says.
pub(crate) fn ask(request: &wire::ComputeTorqueRequest) -> (Ask<'_>, Vec<Violation>) {
    let mut check = Validator::default();
    let purpose = check.word::<Purpose>("purpose", request.purpose);
    let _ = check.word::<TorqueUnit>("torque_unit", request.torque_unit);
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

/// The unit of an answer's texts: the one that was asked for, else what is usual at the thread. A unit that nobody knows was
/// found wrong already.
pub(crate) fn unit_of(asked: wire::TorqueUnit, thread: &Thread) -> TorqueUnit {
    TorqueUnit::from_wire(asked).unwrap_or_else(|| TorqueUnit::usual(thread.system()))
}

/// The answer on the wire.
fn answer(
    question: &Question<'_>,
    answer: &Answer<'_>,
    unit: TorqueUnit,
) -> wire::ComputeTorqueResponse {
    let literature = &answer.literature;
    wire::ComputeTorqueResponse {
        torque_nm: answer.torque.get(),
        clamp_load_n: answer.clamp_load.get(),
        nut_factor: answer.nut_factor.get(),
        tensile_stress_area_mm2: answer.tensile_stress_area.get(),
        working_load_n: answer.working_load.get(),
        scatter: Some(scatter(answer, unit)),
        literature: Some(wire::LiteratureSpread {
            low_nut_factor: answer.literature.low_nut_factor.get(),
            high_nut_factor: answer.literature.high_nut_factor.get(),
            low_torque_nm: answer.literature.low_torque.get(),
            high_torque_nm: answer.literature.high_torque.get(),
            nut_factor_text: format!(
                "{} to {}",
                show::nut_factor(literature.low_nut_factor),
                show::nut_factor(literature.high_nut_factor)
            ),
            torque_text: show::torque_range(literature.low_torque, literature.high_torque, unit),
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
        torque_text: show::torque(answer.torque, unit),
        clamp_load_text: show::load(answer.clamp_load, unit),
        nut_factor_text: show::nut_factor(answer.nut_factor),
        working_load_text: show::load(answer.working_load, unit),
        target_text: answers::target(answer, unit),
        tensile_stress_area_text: show::area(answer.tensile_stress_area.get()),
        proof_load_n: answer.proof_load.map(Newtons::get),
    }
}

/// What the clamp load may really be.
pub(crate) fn scatter(answer: &Answer<'_>, unit: TorqueUnit) -> wire::Scatter {
    wire::Scatter {
        minimum_clamp_load_n: answer.scatter.minimum.get(),
        maximum_clamp_load_n: answer.scatter.maximum.get(),
        relative_scatter: answer.scatter.relative_scatter,
        text: show::load_range(answer.scatter.minimum, answer.scatter.maximum, unit),
    }
}

/// What was found, worst first.
pub(crate) fn findings(answer: &Answer<'_>) -> impl Iterator<Item = Check> {
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
