//! Commands, with everything a story does not mention filled in.

use clampbook_book::command::{AlikeRemovals, Command, Correction, ShopCommand, Tightening};
use clampbook_book::fact::{
    AssemblyAdded, Decided, JobOpened, JointAdded, Layout, LubricationStated, LubricationWithdrawn,
    Mark, Marked, PartArrived, PartFound, PartWanted, PersonStated, PersonWithdrawn, Refitted,
    Removed, Target,
};
use clampbook_book::ids::{
    AssemblyId, EntryNumber, JointId, LubricationId, PersonId, PositionNumber,
};
use clampbook_book::words::{
    Criticality, DecisionKind, FindingKind, FindingSeverity, HoleKind, MarkKind, Method, Outcome,
    PersonRole, Step, TorqueUnit,
};

fn joint(id: &str) -> JointId {
    JointId::new(id).expect("a slug")
}

fn assembly(id: &str) -> AssemblyId {
    AssemblyId::new(id).expect("a slug")
}

pub(crate) fn open_job() -> Command {
    Command::OpenJob(JobOpened {
        display_name: "Orchard tractor".into(),
        machine: "narrow orchard tractor".into(),
        torque_unit: Some(TorqueUnit::NewtonMetre),
    })
}

pub(crate) fn add_assembly() -> Command {
    Command::AddAssembly(AssemblyAdded {
        assembly: assembly("left-hub"),
        display_name: "Left front hub".into(),
        counterpart: None,
    })
}

pub(crate) fn add_joint(id: &str, positions: usize) -> Command {
    Command::AddJoint(joint_added(id, positions))
}

pub(crate) fn joint_added(id: &str, positions: usize) -> JointAdded {
    JointAdded {
        joint: joint(id),
        assembly: assembly("left-hub"),
        display_name: "Brake drum".into(),
        layout: Layout::Ring,
        labels: vec![String::new(); positions],
        criticality: Criticality::A,
        hole_kind: HoleKind::Through,
        purpose: "clamping".into(),
        target: None,
        lock: String::new(),
        preparation: String::new(),
        computed_torque_approver: String::new(),
        build: None,
        specification: None,
    }
}

pub(crate) fn removed(joint_id: &str, position: PositionNumber) -> Removed {
    Removed {
        joint: joint(joint_id),
        position,
        outcome: Outcome::Stiff,
        ticks: Vec::new(),
        methods: vec![Method::Hand],
        heat_colour: None,
        heated_place: String::new(),
        thread: "7/16-20 UNF".into(),
        length: None,
        head_marking: String::new(),
        grade: String::new(),
        breakaway: None,
        kept_in: "bag 12".into(),
        note: String::new(),
        assembled: None,
    }
}

pub(crate) fn log_removal(joint_id: &str, position: PositionNumber) -> Command {
    Command::LogRemoval(removed(joint_id, position))
}

pub(crate) fn log_alike(joint_id: &str) -> Command {
    Command::LogAlikeRemovals(AlikeRemovals {
        joint: joint(joint_id),
        positions: Vec::new(),
        outcome: Outcome::Normal,
        methods: vec![Method::Hand],
        heat_colour: None,
        kept_in: "tray".into(),
    })
}

pub(crate) fn decide_on(joint_id: &str, position: PositionNumber, etag: String) -> Command {
    Command::LogDecision {
        decided: Decided {
            joint: joint(joint_id),
            position,
            kind: DecisionKind::CleanAndReuse,
            replacement: None,
            hole_check: None,
            grade_shown: String::new(),
            citation: String::new(),
            reason: "sound".into(),
            hold_reason: None,
            hole_repair: String::new(),
            baking_shown: false,
            left_out_by: String::new(),
        },
        etag,
    }
}

pub(crate) fn log_refit(joint_id: &str, position: PositionNumber) -> Command {
    Command::LogRefit(Refitted::new(joint(joint_id), position))
}

pub(crate) fn tighten(joint_id: &str, position: PositionNumber, step: Step) -> Command {
    Command::LogTightening(Tightening {
        joint: joint(joint_id),
        positions: vec![position],
        step,
        reading: None,
        tool: String::new(),
        note: String::new(),
    })
}

pub(crate) fn withdraw(entry: EntryNumber, etag: String) -> Command {
    Command::Correct(Correction {
        entry,
        with: None,
        reason: "another bag".into(),
        etag,
    })
}

/// A joint whose torque rests on a lubrication of the shop's own.
pub(crate) fn add_pasted_joint(id: &str, lubrication: &str) -> Command {
    Command::AddJoint(JointAdded {
        target: Some(Target {
            thread: "7/16-20 UNF".into(),
            grade: "SAE J429 5".into(),
            lubrication: lubrication.into(),
            proof_share: None,
            clamp_load_n: None,
            nut_factor: None,
            nut_grade: None,
            baked: false,
        }),
        // Nothing stops it, so that the record asks for a torque.
        criticality: Criticality::C,
        ..joint_added(id, 2)
    })
}

pub(crate) fn paste(id: &str, nut_factor: f64) -> LubricationStated {
    LubricationStated {
        lubrication: LubricationId::new(id).expect("a slug"),
        revision: 0,
        display_name: format!("paste of {id}"),
        nut_factor,
        low_nut_factor: 0.10,
        high_nut_factor: 0.20,
        lubricated: true,
        test_count: 12,
        tested_by: "Ada".into(),
        tested_on: "2026-03-02".into(),
        tested: "7/16-20, grade 5".into(),
        note: String::new(),
    }
}

pub(crate) fn create_paste(id: &str, nut_factor: f64) -> ShopCommand {
    ShopCommand::CreateLubrication(paste(id, nut_factor))
}

pub(crate) fn revise_paste(id: &str, nut_factor: f64, etag: String) -> ShopCommand {
    ShopCommand::ReviseLubrication {
        stated: paste(id, nut_factor),
        etag,
    }
}

pub(crate) fn withdraw_paste(id: &str, etag: String) -> ShopCommand {
    ShopCommand::WithdrawLubrication {
        withdrawn: LubricationWithdrawn {
            lubrication: LubricationId::new(id).expect("a slug"),
            reason: "the tin is empty".into(),
        },
        etag,
    }
}

fn person(id: &str, name: &str) -> PersonStated {
    PersonStated {
        person: PersonId::new(id).expect("a slug"),
        name: name.into(),
        roles: vec![PersonRole::Mechanic],
    }
}

pub(crate) fn create_person(id: &str, name: &str) -> ShopCommand {
    ShopCommand::CreatePerson(person(id, name))
}

pub(crate) fn revise_person(id: &str, name: &str, etag: String) -> ShopCommand {
    ShopCommand::RevisePerson {
        stated: person(id, name),
        etag,
    }
}

pub(crate) fn withdraw_person(id: &str, etag: String) -> ShopCommand {
    ShopCommand::WithdrawPerson {
        withdrawn: PersonWithdrawn {
            person: PersonId::new(id).expect("a slug"),
            reason: "moved away".into(),
        },
        etag,
    }
}

pub(crate) fn log_match_marks(joint_id: &str, position: PositionNumber) -> Command {
    Command::LogMatchMarks(Marked {
        joint: joint(joint_id),
        position,
        marks: vec![Mark {
            what: MarkKind::MatchMarks,
            said: "punch mark towards the rim".into(),
        }],
        note: String::new(),
    })
}

pub(crate) fn log_finding(severity: FindingSeverity) -> Command {
    Command::LogFinding(PartFound {
        assembly: assembly("left-hub"),
        joint: None,
        part: "spindle".into(),
        kind: FindingKind::Wear,
        severity,
        criticality: Some(Criticality::A),
        cause: String::new(),
        reading: String::new(),
        note: String::new(),
    })
}

pub(crate) fn want_part(quantity: u16) -> Command {
    Command::LogPartWanted(PartWanted {
        assembly: assembly("left-hub"),
        joint: None,
        what: "grease seal".into(),
        quantity,
        why: "torn".into(),
        part_number: String::new(),
        note: String::new(),
    })
}

pub(crate) fn part_arrives(quantity: u16) -> Command {
    Command::LogPartArrival(PartArrived {
        assembly: assembly("left-hub"),
        what: "grease seal".into(),
        quantity,
        reference: "delivery note 44".into(),
        note: String::new(),
    })
}
