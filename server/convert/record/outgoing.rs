//! The record on the wire.

use crate::convert::assembled::tell;
use crate::convert::build::build;
use crate::convert::common::{self, hex, timestamp};
use crate::convert::finding::standing;
use crate::convert::fitting::spec;
use crate::convert::marking;
use crate::convert::photo;
use crate::convert::pieces;
use crate::convert::words::Word;
use clampbook_api::v1 as wire;
use clampbook_book::entry::Said;
use clampbook_book::fact::{
    AssemblyAdded, Decided, Followed, Layout, LengthSeen, Refitted, Removed, Target,
};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::{Job, Joint, Position, Standing};
use clampbook_book::rules::{self, Flag, On, Rule};
use clampbook_book::standings::Standings;
use clampbook_book::words::Tightness;
use clampbook_engine::quantity::{Torque, TorqueUnit};
use clampbook_engine::units::NewtonMetres;
use clampbook_engine::{Purpose, show};
use clampbook_store::{JobSummary, StoredEntry};
use wire::removal::LengthSeen as WireLength;

/// A job with its assemblies.
pub(crate) fn job(job: &Job) -> wire::Job {
    let opened = job.opened.as_deref();
    wire::Job {
        name: format!("jobs/{}", job.id),
        display_name: opened
            .map(|o| o.fact.display_name.clone())
            .unwrap_or_default(),
        machine: opened.map(|o| o.fact.machine.clone()).unwrap_or_default(),
        torque_unit: job.torque_unit().number(),
        etag: job.etag(),
        create_time: opened.map(|o| timestamp(o.said.written)),
        update_time: Some(timestamp(job.updated)),
        assemblies: job.assemblies.iter().map(|a| assembly(job, a)).collect(),
        position_count: Some(count(&Standings::of(job))),
        photos: photo::standing(&job.id, &job.photos),
    }
}

/// A job in a list.
pub(crate) fn job_summary(summary: &JobSummary) -> wire::Job {
    wire::Job {
        name: format!("jobs/{}", summary.id),
        display_name: summary.display_name.clone(),
        machine: summary.machine.clone(),
        torque_unit: summary.torque_unit.number(),
        etag: clampbook_book::job::etag(summary.last),
        create_time: Some(timestamp(summary.opened)),
        update_time: Some(timestamp(summary.updated)),
        assemblies: Vec::new(),
        position_count: Some(count(&summary.standings)),
        photos: Vec::new(),
    }
}

/// Positions by state.
pub(crate) fn count(count: &Standings) -> wire::PositionCount {
    wire::PositionCount {
        in_place_count: int(count.in_place),
        empty_count: int(count.empty),
        loose_count: int(count.loose),
        final_count: int(count.tight),
        left_out_count: int(count.left_out),
    }
}

/// An assembly of a job.
pub(crate) fn assembly(job: &Job, assembly: &AssemblyAdded) -> wire::Assembly {
    let name = |id| format!("jobs/{}/assemblies/{id}", job.id);
    wire::Assembly {
        name: name(&assembly.assembly),
        display_name: assembly.display_name.clone(),
        counterpart: assembly.counterpart.as_ref().map(name).unwrap_or_default(),
        findings: job
            .findings
            .iter()
            .filter(|finding| finding.found.assembly == assembly.assembly)
            .map(|finding| standing(&job.id, finding))
            .collect(),
    }
}

/// A joint of a job with its positions.
pub(crate) fn joint(job: &JobId, joint: &Joint) -> wire::Joint {
    let fact = &joint.fact;
    let (layout, row_count) = match fact.layout {
        Layout::Ring => (wire::Layout::Ring, 0),
        Layout::Line => (wire::Layout::Line, 0),
        Layout::Single => (wire::Layout::Single, 0),
        Layout::Grid { rows } => (wire::Layout::Grid, i32::from(rows)),
    };
    wire::Joint {
        name: joint.name(job),
        assembly: format!("jobs/{job}/assemblies/{}", fact.assembly),
        display_name: fact.display_name.clone(),
        layout: layout.into(),
        row_count,
        positions: joint
            .positions
            .iter()
            .map(|p| position(job, joint, p))
            .collect(),
        criticality: fact.criticality.number(),
        hole_kind: fact.hole_kind.number(),
        purpose: Purpose::from_id(&fact.purpose)
            .map(Word::number)
            .unwrap_or_default(),
        target: fact.target.as_ref().map(target),
        lock: fact.lock.clone(),
        preparation: fact.preparation.clone(),
        computed_torque_approver: fact.computed_torque_approver.clone(),
        etag: joint.etag(),
        build: fact.build.as_deref().map(|b| Box::new(build(b))),
        specification: fact
            .specification
            .as_ref()
            .map(specification_name)
            .unwrap_or_default(),
        specification_revision: fact.specification.as_ref().map_or(0, |s| int(s.revision)),
        markings: marking::standing(job, joint.marked()),
    }
}

fn target(target: &Target) -> wire::JointTarget {
    wire::JointTarget {
        thread: target.thread.clone(),
        grade: target.grade.clone(),
        condition: target.condition.clone(),
        proof_share: target.proof_share,
        clamp_load_n: target.clamp_load_n,
        nut_factor: target.nut_factor,
        nut_grade: target.nut_grade.clone(),
        baked: target.baked,
    }
}

fn position(job: &JobId, joint: &Joint, position: &Position) -> wire::Position {
    wire::Position {
        number: position.number.into(),
        label: joint.label(position.number).to_owned(),
        state: state(position.standing()).into(),
        removal: position
            .removal()
            .map(|(r, removed)| removal(job, r.entry, &r.said, removed)),
        decision: position
            .decision()
            .map(|(r, decided)| decision(job, r.entry, &r.said, decided)),
        refit: position
            .refit()
            .map(|(r, refitted)| refit(job, r.entry, &r.said, refitted)),
        etag: position.etag(),
        markings: marking::standing(job, position.marked()),
    }
}

/// Where a position stands.
pub(crate) const fn state(standing: Standing) -> wire::PositionState {
    match standing {
        Standing::InPlace => wire::PositionState::InPlace,
        Standing::Empty => wire::PositionState::Empty,
        Standing::LeftOut => wire::PositionState::LeftOut,
        Standing::Fitted(Tightness::Started) => wire::PositionState::Started,
        Standing::Fitted(Tightness::Snug) => wire::PositionState::Snug,
        Standing::Fitted(Tightness::Final) => wire::PositionState::Final,
    }
}

/// A removal as recorded.
pub(crate) fn removal(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    removed: &Removed,
) -> wire::Removal {
    let (length_seen, length_mm) = match &removed.length {
        None => (None, None),
        Some(LengthSeen::Measured(length)) => (
            Some(WireLength::Length(length.said.clone())),
            Some(length.mm),
        ),
        Some(LengthSeen::Compared(word)) => (Some(WireLength::LengthCompared(word.number())), None),
    };
    let told = wire::Removal {
        entry: entry_name(job, number),
        joint: format!("jobs/{job}/joints/{}", removed.joint),
        position: removed.position.into(),
        condition: removed.condition.number(),
        ticks: removed.ticks.iter().map(|tick| tick.number()).collect(),
        means: removed.means.iter().map(|means| means.number()).collect(),
        heat_colour: removed.heat_colour.map(Word::number).unwrap_or_default(),
        heated_place: removed.heated_place.clone(),
        thread: removed.thread.clone(),
        length_mm,
        marking: removed.marking.clone(),
        grade: removed.grade.clone(),
        breakaway_torque: removed
            .breakaway
            .as_ref()
            .map(|t| t.said.clone())
            .unwrap_or_default(),
        breakaway_torque_nm: removed.breakaway.as_ref().map(|t| t.nm),
        kept_in: removed.kept_in.clone(),
        note: removed.note.clone(),
        said: Some(common::said(said)),
        length_seen,
        ..Default::default()
    };
    tell(told, removed.assembled.as_deref())
}

/// A decision as recorded.
pub(crate) fn decision(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    decided: &Decided,
) -> wire::Decision {
    wire::Decision {
        entry: entry_name(job, number),
        joint: format!("jobs/{job}/joints/{}", decided.joint),
        position: decided.position.into(),
        disposition: decided.disposition.number(),
        replacement: decided.replacement.as_ref().map(spec),
        hole_check: decided.hole_check.map(Word::number).unwrap_or_default(),
        grade_shown: decided.grade_shown.clone(),
        citation: decided.citation.clone(),
        reason: decided.reason.clone(),
        said: Some(common::said(said)),
        waits_for: decided.waits_for.map(Word::number).unwrap_or_default(),
        hole_repair: decided.hole_repair.clone(),
        baking_shown: decided.baking_shown,
        left_out_by: decided.left_out_by.clone(),
    }
}

/// What the record asked for, for people, in the unit in which the wrench was read.
fn wanted_text(refitted: &Refitted) -> String {
    let nm = match &refitted.published {
        Some(published) => published.torque_nm,
        None => refitted.wanted.as_ref().map(|wanted| wanted.torque_nm),
    };
    let torque = nm.and_then(|nm| NewtonMetres::new(nm).ok());
    let read = refitted.reading.as_ref();
    let unit = read
        .and_then(|reading| Torque::parse(&reading.said).ok())
        .map_or(TorqueUnit::NewtonMetre, |read| read.unit);
    torque
        .map(|torque| show::torque(torque, unit))
        .unwrap_or_default()
}

/// A refit as recorded.
pub(crate) fn refit(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    refitted: &Refitted,
) -> wire::Refit {
    let part = match refitted.new_part {
        Some(_) => wire::FittedPart::New,
        None => wire::FittedPart::Original,
    };
    let told = wire::Refit {
        entry: entry_name(job, number),
        joint: format!("jobs/{job}/joints/{}", refitted.joint),
        position: refitted.position.into(),
        fitted_part: part.into(),
        new_part: refitted.new_part.as_ref().map(spec),
        tightness: refitted.tightness.number(),
        torque_reading: refitted
            .reading
            .as_ref()
            .map(|t| t.said.clone())
            .unwrap_or_default(),
        torque_reading_nm: refitted.reading.as_ref().map(|t| t.nm),
        tool: refitted.tool.clone(),
        note: refitted.note.clone(),
        wanted_torque_nm: match &refitted.published {
            Some(published) => published.torque_nm,
            None => refitted.wanted.as_ref().map(|w| w.torque_nm),
        },
        wanted_torque_text: wanted_text(refitted),
        catalog_edition: refitted
            .wanted
            .as_ref()
            .map(|w| w.catalog_edition.clone())
            .unwrap_or_default(),
        said: Some(common::said(said)),
        specification: refitted
            .published
            .as_ref()
            .map(|p| specification_name(&p.followed))
            .unwrap_or_default(),
        specification_revision: refitted
            .published
            .as_ref()
            .map_or(0, |p| int(p.followed.revision)),
        ..Default::default()
    };
    pieces::tell(told, refitted.with.as_deref())
}

fn specification_name(followed: &Followed) -> String {
    format!("specifications/{}", followed.specification)
}

/// Flags on the wire.
pub(crate) fn flags(job: &JobId, flags: &[Flag]) -> Vec<wire::Flag> {
    flags.iter().map(|f| flag(job, f)).collect()
}

/// A flag on the wire.
pub(crate) fn flag(job: &JobId, flag: &Flag) -> wire::Flag {
    let (joint, assembly) = match &flag.on {
        On::Joint(id) => (format!("jobs/{job}/joints/{id}"), String::new()),
        On::Assembly(id) => (String::new(), format!("jobs/{job}/assemblies/{id}")),
    };
    let (proposed, hold_for) = rules::proposal(flag).unzip();
    wire::Flag {
        rule: flag.rule.into(),
        severity: flag.severity.number(),
        joint,
        position: flag.position.into(),
        cause: flag.cause.clone(),
        clears: flag.clears.into(),
        entries: flag.entries.iter().map(|n| entry_name(job, *n)).collect(),
        assembly,
        proposed: proposed.map_or(0, Word::number),
        proposed_hold_for: hold_for.flatten().map_or(0, Word::number),
    }
}

/// A rule on the wire.
pub(crate) fn rule(rule: &Rule) -> wire::Rule {
    wire::Rule {
        name: format!("rules/{}", rule.id),
        title: rule.title.into(),
        raised_when: rule.raised_when.into(),
        cleared_by: rule.cleared_by.into(),
        source: rule.source.into(),
    }
}

/// An entry of the journal.
pub(crate) fn entry(stored: &StoredEntry) -> wire::Entry {
    let entry = &stored.entry;
    wire::Entry {
        name: format!("{}/entries/{}", entry.stream, entry.number),
        sequence: stored.seq,
        kind: entry.fact.kind().into(),
        body: stored.body.to_string(),
        said: Some(common::said(&entry.said)),
        request_id: stored.request.to_string(),
        hash: hex(&stored.hash),
    }
}

/// Resource name of an entry.
pub(in crate::convert) fn entry_name(job: &JobId, number: EntryNumber) -> String {
    format!("jobs/{job}/entries/{number}")
}

fn int(count: u32) -> i32 {
    i32::try_from(count).unwrap_or(i32::MAX)
}
