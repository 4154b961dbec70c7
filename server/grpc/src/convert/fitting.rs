//! `fitting.proto`: whether a fastener fits, and a fastener as it is named.

use super::Check;
use super::words::Word;
use clampbook_api::v1 as wire;
use clampbook_app::Error;
use clampbook_book::bounds;
use clampbook_book::fact::{FastenerDetail, FastenerSpec};
use clampbook_book::ids::{JobId, JointId, PositionNumber};
use clampbook_book::rules::fits::{self, FitCheck};
use clampbook_engine::Purpose;

/// Which fastener is asked about, and where.
#[derive(Debug)]
pub(crate) struct Asked {
    /// The job.
    pub(crate) job: JobId,
    /// The joint.
    pub(crate) joint: JointId,
    /// The position.
    pub(crate) position: PositionNumber,
    /// The fastener.
    pub(crate) part: FastenerSpec,
}

/// Which fastener is asked about.
///
/// # Errors
/// All violations.
pub(crate) fn asked(request: &wire::CheckReplacementRequest) -> Result<Asked, Error> {
    let mut check = Check::default();
    let ids = check.joint_name("joint", &request.joint);
    let position = check.position("position", request.position);
    let part = check
        .required("replacement", request.replacement.as_ref())
        .and_then(|part| fastener_spec(&mut check, "replacement", part));
    let asked = ids
        .zip(position.zip(part))
        .map(|((job, joint), (position, part))| Asked {
            job,
            joint,
            position,
            part,
        });
    check.finish(asked)
}

/// The fastener a message describes, under the path of its field.
pub(super) fn fastener_spec(
    check: &mut Check,
    field: &str,
    part: &wire::FastenerSpec,
) -> Option<FastenerSpec> {
    described(check, field, part, Check::required_text)
}

/// The fastener that is to be made: its grade may be unknown.
pub(super) fn made_spec(
    check: &mut Check,
    field: &str,
    part: &wire::FastenerSpec,
) -> Option<FastenerSpec> {
    described(check, field, part, Check::text)
}

fn described(
    check: &mut Check,
    field: &str,
    part: &wire::FastenerSpec,
    text: fn(&mut Check, &str, &str, usize) -> String,
) -> Option<FastenerSpec> {
    let under = |name: &str| format!("{field}.{name}");
    let thread = check.required_text(&under("thread"), &part.thread, bounds::DESIGNATION);
    let length = check.length(&under("length"), &part.length);
    let grade = text(check, &under("grade"), &part.grade, bounds::DESIGNATION);
    let purpose = check.word::<Purpose>(&under("purpose"), part.purpose);
    let detail = FastenerDetail {
        form: check.text(&under("form"), &part.form, bounds::LABEL),
        finish: check.text(&under("finish"), &part.finish, bounds::DESIGNATION),
        purpose: purpose.map_or_else(String::new, |purpose| purpose.id().to_owned()),
        baked: part.baked,
        thread_length_mm: check.size_mm(&under("thread_length_mm"), part.thread_length_mm),
        head_height_mm: check.size_mm(&under("head_height_mm"), part.head_height_mm),
        head_diameter_mm: check.size_mm(&under("head_diameter_mm"), part.head_diameter_mm),
    };
    Some(FastenerSpec {
        thread,
        length: length?,
        grade,
        detail: (detail != FastenerDetail::default()).then(|| Box::new(detail)),
    })
}

impl Check {
    /// Takes a size in millimetres that may be left unsaid.
    fn size_mm(&mut self, field: &str, said: Option<f64>) -> Option<f64> {
        let mm = said?;
        if mm > 0.0 && mm <= bounds::LENGTH_MM {
            return Some(mm);
        }
        let most = bounds::LENGTH_MM;
        self.wrong(
            field,
            format!("{mm} mm: allowed are sizes above 0 and up to {most} mm"),
        );
        None
    }
}

/// A fastener on the wire.
pub(super) fn spec(spec: &FastenerSpec) -> wire::FastenerSpec {
    let detail = spec.detail.as_deref().cloned().unwrap_or_default();
    wire::FastenerSpec {
        thread: spec.thread.clone(),
        length: spec.length.said.clone(),
        grade: spec.grade.clone(),
        length_mm: spec.length.mm,
        form: detail.form,
        finish: detail.finish,
        purpose: Purpose::from_id(&detail.purpose)
            .map(Word::number)
            .unwrap_or_default(),
        baked: detail.baked,
        thread_length_mm: detail.thread_length_mm,
        head_height_mm: detail.head_height_mm,
        head_diameter_mm: detail.head_diameter_mm,
    }
}

/// What was found, on the wire.
pub(crate) fn answer(checks: &[FitCheck], designation: String) -> wire::CheckReplacementResponse {
    wire::CheckReplacementResponse {
        checks: self::checks(checks),
        severity: fits::worst(checks).map(Word::number).unwrap_or_default(),
        designation,
    }
}

/// The single checks, on the wire.
pub(crate) fn checks(checks: &[FitCheck]) -> Vec<wire::FitCheck> {
    checks.iter().map(fit_check).collect()
}

fn fit_check(check: &FitCheck) -> wire::FitCheck {
    wire::FitCheck {
        subject: check.subject.id().into(),
        severity: check.severity.map(Word::number).unwrap_or_default(),
        text: check.text.clone(),
        source: check.source.clone(),
        rule: check.rule.into(),
    }
}
