//! Fasteners as they are named, and whether one fits.

use crate::Validator;
use crate::words::Word;
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error};
use clampbook_book::bounds;
use clampbook_book::fact::{FastenerDetail, FastenerSpec};
use clampbook_book::rules::fits::{self, FitCheck};
use clampbook_engine::Purpose;

/// Looks whether a fastener fits a position.
pub(crate) async fn check(
    call: Call<'_>,
    request: wire::CheckReplacementRequest,
) -> Result<wire::CheckReplacementResponse, Error> {
    let mut check = Validator::default();
    let ids = check.joint_name("joint", &request.joint);
    let position = check.position("position", request.position);
    let part = check
        .required("replacement", request.replacement.as_ref())
        .and_then(|part| fastener_spec(&mut check, "replacement", part));
    let ((job, joint), (position, part)) = check.finish(ids.zip(position.zip(part)))?;
    let checked = call.check_replacement(&job, &joint, position, &part);
    let checked = checked.await?;
    Ok(wire::CheckReplacementResponse {
        checks: checks(&checked.checks),
        severity: fits::worst(&checked.checks)
            .map(Word::number)
            .unwrap_or_default(),
        designation: checked.designation,
    })
}

/// The fastener a message describes, under the path of its field.
fn fastener_spec(
    check: &mut Validator,
    field: &str,
    part: &wire::FastenerSpec,
) -> Option<FastenerSpec> {
    described(check, field, part, clampbook_app::Validator::required_text)
}

/// The fastener that is to be made: its grade may be unknown.
pub(crate) fn made_spec(
    check: &mut Validator,
    field: &str,
    part: &wire::FastenerSpec,
) -> Option<FastenerSpec> {
    described(check, field, part, clampbook_app::Validator::text)
}

fn described(
    check: &mut Validator,
    field: &str,
    part: &wire::FastenerSpec,
    text: fn(&mut clampbook_app::Validator, &str, &str, usize) -> String,
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

impl Validator {
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
pub(crate) fn spec(spec: &FastenerSpec) -> wire::FastenerSpec {
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

/// The fastener a message describes, for a part that is new.
pub(crate) fn new_part(
    check: &mut Validator,
    field: &str,
    part: Option<&wire::FastenerSpec>,
    wanted: bool,
) -> Option<FastenerSpec> {
    match (part, wanted) {
        (Some(part), true) => fastener_spec(check, field, part),
        (None, true) => {
            check.wrong(field, "is required here: say which fastener it is");
            None
        }
        (Some(_), false) => {
            check.wrong(field, "is for a new part only; leave it out");
            None
        }
        (None, false) => None,
    }
}
