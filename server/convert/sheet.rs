//! `sheet_service.proto`.

use super::Check;
use super::common::{hex, timestamp};
use super::record::{count, flag, state};
use super::strength;
use super::words::Word;
use crate::app::Error;
use clampbook_api::v1 as wire;
use clampbook_book::ids::{AssemblyId, JobId};
use clampbook_book::sheet::{Built, CAUTIONS, Published, Row, Sheet, SheetJoint};
use clampbook_book::words::TorqueUnit;

/// What a sheet is wanted for.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// The job.
    pub(crate) job: JobId,
    /// One assembly of it, or all.
    pub(crate) assembly: Option<AssemblyId>,
    /// Unit for torques, if not the job's own.
    pub(crate) unit: Option<TorqueUnit>,
}

/// The form of a rendered sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Format {
    /// Plain text.
    Text,
    /// Comma separated values.
    Csv,
}

/// What a sheet is wanted for.
///
/// # Errors
/// All violations.
pub(crate) fn wanted(request: &wire::GetSheetRequest) -> Result<Wanted, Error> {
    let mut check = Check::default();
    let wanted = scope(&mut check, &request.name, request.torque_unit);
    check.finish(wanted)
}

/// What a sheet is wanted for, and in what form.
///
/// # Errors
/// All violations.
pub(crate) fn rendered(request: &wire::RenderSheetRequest) -> Result<(Wanted, Format), Error> {
    let mut check = Check::default();
    let wanted = scope(&mut check, &request.name, request.torque_unit);
    let format = match wire::SheetFormat::try_from(request.format) {
        Ok(wire::SheetFormat::Text) => Some(Format::Text),
        Ok(wire::SheetFormat::Csv) => Some(Format::Csv),
        Ok(wire::SheetFormat::Unspecified) => {
            check.wrong("format", "is required");
            None
        }
        Err(_) => {
            check.wrong(
                "format",
                format!("{} is not a value of this field", request.format),
            );
            None
        }
    };
    check.finish(wanted.zip(format))
}

fn scope(check: &mut Check, name: &str, unit: i32) -> Option<Wanted> {
    let unit = check.word("torque_unit", unit);
    let (job, assembly) = check.job_or_assembly_name("name", name)?;
    Some(Wanted {
        job,
        assembly,
        unit,
    })
}

/// The sheet on the wire.
pub(crate) fn sheet(job: &JobId, sheet: &Sheet) -> wire::Sheet {
    wire::Sheet {
        name: sheet.name.clone(),
        job_display_name: sheet.job_display_name.clone(),
        machine: sheet.machine.clone(),
        stops: sheet
            .stops
            .iter()
            .map(|(stop, _)| flag(job, stop))
            .collect(),
        position_count: Some(count(&sheet.standings)),
        cautions: CAUTIONS.iter().map(|c| (*c).to_owned()).collect(),
        joints: (1..)
            .zip(&sheet.joints)
            .map(|(step, j)| joint(job, step, j))
            .collect(),
        sheet_time: Some(timestamp(sheet.head.made)),
        entry_count: i32::try_from(sheet.head.entry).unwrap_or(i32::MAX),
        chain_head: hex(&sheet.head.hash),
        catalog_edition: clampbook_book::CATALOGUE_EDITION.into(),
        findings: sheet.findings.clone(),
        waits: sheet.waits.clone(),
    }
}

fn joint(job: &JobId, step: i32, joint: &SheetJoint) -> wire::SheetJoint {
    wire::SheetJoint {
        step,
        joint: format!("jobs/{job}/joints/{}", joint.fact.joint),
        title: joint.title.clone(),
        criticality: joint.fact.criticality.number(),
        passes: joint.passes.clone(),
        cautions: joint.cautions.clone(),
        rows: joint.rows.iter().map(row).collect(),
        sources: joint.sources.clone(),
        build: joint.built.as_ref().map(built),
        published: joint.published.as_ref().map(published),
        marks: joint.marks.clone(),
        photos: joint.photos.clone(),
    }
}

fn published(published: &Published) -> wire::SheetPublished {
    wire::SheetPublished {
        specification: format!("specifications/{}", published.specification),
        revision: i32::try_from(published.revision).unwrap_or(i32::MAX),
        citation: published.citation.clone(),
        lines: published.lines.clone(),
    }
}

fn built(built: &Built) -> wire::SheetBuild {
    let numbers = built.numbers.as_ref();
    wire::SheetBuild {
        lines: built.lines.clone(),
        lengths: numbers.map(|n| strength::lengths(&n.lengths)),
        engagement: numbers.map(|n| strength::engagement(&n.engagement)),
        weakest_partner: numbers
            .and_then(|n| n.weakest)
            .as_ref()
            .map(strength::partner),
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
        torque: row.torque.clone(),
        torque_nm: row.torque_nm,
        lock: row.lock.clone(),
        state: state(row.standing).into(),
        stopped: row.stopped,
        severity: row.worst.map(Word::number).unwrap_or_default(),
        marks: row.marks.clone(),
        stack: row.stack.clone(),
        small_parts: row.parts.clone(),
    }
}
