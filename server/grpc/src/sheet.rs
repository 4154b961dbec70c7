//! The reassembly sheet.

use crate::flag::flag;
use crate::joint::state;
use crate::request::{hex, int, timestamp};
use crate::words::Word;
use crate::{Validator, job, strength};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, SheetForm, names};
use clampbook_book::ids::{AssemblyId, JobId};
use clampbook_book::sheet::{Built, CAUTIONS, Goal, Pass, Published, Row, Sheet, SheetJoint};
use clampbook_book::shown;
use clampbook_book::words::TorqueUnit;

/// What a sheet is wanted for.
#[derive(Debug)]
struct Wanted {
    /// The job.
    job: JobId,
    /// One assembly of it, or all.
    assembly: Option<AssemblyId>,
    /// Unit for torques, if not the job's own.
    unit: Option<TorqueUnit>,
}

/// The sheet of a job or of one of its assemblies.
pub(crate) async fn get(
    call: Call<'_>,
    request: wire::GetSheetRequest,
) -> Result<wire::Sheet, Error> {
    let mut check = Validator::default();
    let wanted = scope(&mut check, &request.name, request.torque_unit);
    let Wanted {
        job,
        assembly,
        unit,
    } = check.finish(wanted)?;
    Ok(sheet(&job, &call.sheet(&job, assembly, unit).await?))
}

/// The sheet, rendered.
pub(crate) async fn render(
    call: Call<'_>,
    request: wire::RenderSheetRequest,
) -> Result<wire::RenderSheetResponse, Error> {
    let mut check = Validator::default();
    let wanted = scope(&mut check, &request.name, request.torque_unit);
    let form = form(&mut check, request.format);
    let (wanted, form) = check.finish(wanted.zip(form))?;
    let Wanted {
        job,
        assembly,
        unit,
    } = wanted;
    Ok(wire::RenderSheetResponse {
        media_type: form.media_type().into(),
        content: call.render_sheet(&job, assembly, unit, form).await?,
    })
}

fn form(check: &mut Validator, number: i32) -> Option<SheetForm> {
    match wire::SheetFormat::try_from(number) {
        Ok(wire::SheetFormat::Text) => Some(SheetForm::Text),
        Ok(wire::SheetFormat::Csv) => Some(SheetForm::Csv),
        Ok(wire::SheetFormat::Unspecified) => {
            check.wrong("format", "is required");
            None
        }
        Err(_) => {
            check.wrong("format", format!("{} is not a value of this field", number));
            None
        }
    }
}

fn scope(check: &mut Validator, name: &str, unit: i32) -> Option<Wanted> {
    let unit = check.word("torque_unit", unit);
    let (job, assembly) = check.job_or_assembly_name("name", name)?;
    Some(Wanted {
        job,
        assembly,
        unit,
    })
}

/// The sheet on the wire.
fn sheet(id: &JobId, sheet: &Sheet) -> wire::Sheet {
    wire::Sheet {
        name: sheet.name.clone(),
        job_display_name: sheet.job_display_name.clone(),
        machine: sheet.machine.clone(),
        stops: sheet.stops.iter().map(|(stop, _)| flag(id, stop)).collect(),
        position_count: Some(job::count(&sheet.standings)),
        cautions: CAUTIONS.iter().map(|c| (*c).to_owned()).collect(),
        joints: (1..)
            .zip(&sheet.joints)
            .map(|(step, j)| joint(id, step, j))
            .collect(),
        sheet_time: Some(timestamp(sheet.head.made)),
        entry_count: int(sheet.head.entry),
        chain_head: hex(&sheet.head.hash),
        catalog_edition: clampbook_book::CATALOGUE_EDITION.into(),
        findings: sheet.findings.clone(),
        waits: sheet.waits.clone(),
    }
}

fn joint(job: &JobId, step: i32, joint: &SheetJoint) -> wire::SheetJoint {
    wire::SheetJoint {
        step,
        joint: names::joint(job, &joint.fact.joint),
        title: joint.title.clone(),
        criticality: joint.fact.criticality.number(),
        passes: joint.passes.iter().map(pass).collect(),
        cautions: joint.cautions.clone(),
        rows: joint.rows.iter().map(row).collect(),
        sources: joint.sources.clone(),
        build: joint.built.as_ref().map(built),
        published: joint.published.as_ref().map(published),
        marks: joint.marks.clone(),
        photos: joint.photos.clone(),
    }
}

fn pass(pass: &Pass) -> wire::SheetPass {
    wire::SheetPass {
        text: pass.to_string(),
        torque_nm: pass.goal.nm(),
        turn_degrees: pass.goal.turn_degrees(),
        published: pass.goal.is_published(),
    }
}

fn published(published: &Published) -> wire::SheetPublished {
    wire::SheetPublished {
        specification: names::specification(&published.specification),
        revision: int(published.revision),
        citation: published.citation.clone(),
        lines: published.lines(),
        grade: published.grade.clone(),
        lubrication: published.lubrication.clone(),
        minimum_torque_nm: published.minimum.as_ref().and_then(Goal::nm),
        maximum_torque_nm: published.maximum.as_ref().and_then(Goal::nm),
    }
}

fn built(built: &Built) -> wire::SheetBuild {
    let checked = built.checked.as_ref().ok();
    let weakest = checked.and_then(|checked| {
        let unit = shown::engine_unit(checked.unit);
        Some(strength::partner(checked.weakest.as_ref()?, unit))
    });
    wire::SheetBuild {
        lines: built.lines(),
        lengths: checked.map(|checked| strength::lengths(&checked.lengths, checked.family)),
        engagement: checked
            .map(|checked| strength::engagement(&checked.engagement, checked.family)),
        weakest_partner: weakest,
    }
}

fn row(row: &Row) -> wire::SheetRow {
    wire::SheetRow {
        position: row.position.into(),
        label: row.label.clone(),
        fastener: row.fastener.clone(),
        odd: row.odd.map(Word::number).unwrap_or_default(),
        reuse: row.reuse.clone(),
        preparation: row.preparation.clone(),
        torque: row.torque.to_string(),
        torque_nm: row.torque.nm(),
        lock: row.lock.clone(),
        state: state(row.standing).into(),
        stopped: row.torque.is_stopped(),
        severity: row.worst.map(Word::number).unwrap_or_default(),
        marks: row.marks.clone(),
        stack: row.stack.clone(),
        small_parts: row.parts.clone(),
        published: row.torque.is_published(),
    }
}
