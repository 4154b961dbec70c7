//! A good request for every method, in protobuf JSON, with as many fields filled as there are.

use clampbook_api::v1::ListPeopleRequest;
use prost_reflect::{DynamicMessage, MethodDescriptor};
use serde_json::{Value, json};

use crate::support::{JobAt, Shop, fresh_id};

/// Methods that write, in the order in which their bases can be sent one after the other.
pub(super) const STORY: &[&str] = &[
    "CreateSpecification",
    "ReviseSpecification",
    "ImportSpecifications",
    "CreateLubrication",
    "ReviseLubrication",
    "WithdrawLubrication",
    "CreatePerson",
    "RevisePerson",
    "WithdrawPerson",
    "CreateJob",
    "CreateAssembly",
    "CreateJoint",
    "WithdrawSpecification",
    "LogMatchMarks",
    "LogRemoval",
    "LogAlikeRemovals",
    "ImportRemovals",
    "LogDecision",
    "LogRefit",
    "LogTightening",
    "LogNotRefitted",
    "LogFinding",
    "AnswerCounterpart",
    "LogPartWanted",
    "LogPartArrival",
    "CorrectEntry",
];

const JOB: &str = "jobs/tractor";
const SPECIFICATION: &str = "specifications/brake-plate";
const PLATE: &str = "jobs/tractor/joints/plate";

/// How many good requests there are of a method, each with other fields filled.
pub(super) fn count(method: &MethodDescriptor) -> usize {
    match method.name() {
        "LogDecision" => 3,
        "CorrectEntry" => 12,
        "LogFinding" | "AnswerCounterpart" => 4,
        "LogNotRefitted" => 3,
        "CreateJoint" => 3,
        _ => 1,
    }
}

/// The bases, and a job that they are about.
pub(super) struct Bases;

impl Bases {
    /// Opens the job that the bases are about.
    pub(super) async fn prepare(shop: &Shop) -> Self {
        let job: JobAt<'_> = shop.job("tractor").await;
        job.joint("plate").await;
        Self
    }

    /// A good request of a method, as things stand.
    pub(super) async fn of(
        &self,
        method: &MethodDescriptor,
        variant: usize,
        shop: &Shop,
    ) -> DynamicMessage {
        let json = base(method.name(), variant, shop).await;
        DynamicMessage::deserialize(method.input(), json)
            .unwrap_or_else(|error| panic!("the base of {}: {error}", method.name()))
    }
}

async fn base(method: &str, variant: usize, shop: &Shop) -> Value {
    let mut base = match method {
        "ListThreads"
        | "ListGrades"
        | "ListNutGrades"
        | "ListLubrications"
        | "ListJobs"
        | "ListSpecifications"
        | "ListPeople"
        | "ExportSpecifications"
        | "ListRules"
        | "ListLookAlikes"
        | "ListAcrossFlats"
        | "ListParentMetals"
        | "ListPublishedTargets" => json!({}),
        "ListPublishedTorques" => json!({"purpose": "PURPOSE_FLARE_FITTING"}),
        "IdentifyThread" => json!({
            "diameter": "12.3 mm", "internal": true, "threads_per_inch": 20, "flank_angle_degrees": 60,
            "diameter_error_mm": 0.05, "pitch_error_mm": 0.03, "wear_mm": 0.1,
        }),
        "IdentifyGrade" => json!({"head_marking": "three radial lines"}),
        "IdentifySpanner" => json!({"width": "9/16 in"}),
        "GetThread" => json!({"name": "threads/unf-7-16-20"}),
        "ComputeTorque" => json!({
            "thread": "7/16-20", "grade": "SAE J429 5", "lubrication": "oiled", "proof_share": 0.7, "nut_factor": 0.2,
            "nut_grade": "J995 5", "purpose": "PURPOSE_CLAMPING",
        }),
        "RenderChart" => json!({
            "ask": {"thread": "7/16-20", "grade": "SAE J429 5", "lubrication": "oiled", "proof_share": 0.7, "nut_factor": 0.2,
                "nut_grade": "J995 5", "purpose": "PURPOSE_CLAMPING"},
            "torque_unit": "TORQUE_UNIT_POUND_FORCE_FOOT",
        }),
        "RestateTorque" => json!({
            "thread": "7/16-20", "grade": "SAE J429 5", "torque": "50 lbf·ft", "published_lubrication": "dry",
            "lubrication": "oiled", "flat_seats": true, "purpose": "PURPOSE_CLAMPING",
        }),
        "SetWrench" => json!({
            "torque": "60 lbf·ft", "prevailing_torque": "8 N·m", "prevailing_torque_excluded": true,
            "adapter": {"wrench_length": "16 in", "adapter_length": "2 in", "angle_degrees": 30},
            "used_lock_nut": {"thread": "7/16-20", "kind": "LOCK_NUT_KIND_ALL_METAL"},
            "wrenches": [{
                "label": "A", "minimum_torque": "20 lbf·ft", "maximum_torque": "150 lbf·ft", "graduation": "1 lbf·ft",
                "stated_deviation_share": 0.03, "calibration": "CALIBRATION_IN_DATE",
            }],
        }),
        "PlanTightening" => json!({
            "procedure": "", "layout": "LAYOUT_GRID", "position_count": 10, "row_count": 2, "purpose": "PURPOSE_CLAMPING",
            "gasketed": true, "torque": "60 N·m", "thread": "M10",
        }),
        "ComputeLongFormTorque" => json!({
            "thread": "M12", "grade": "8.8", "thread_friction": 0.14, "bearing_friction": 0.12, "friction_low": 0.1,
            "friction_high": 0.2, "bearing_diameter_mm": 15, "cone_half_angle_degrees": 30, "yield_share": 0.8,
            "purpose": "PURPOSE_CLAMPING",
        }),
        "CheckJoint" => json!({
            "torque": tightened(), "stack": stack(), "fit": "THREAD_FIT_CLOSE", "shear_plane_mm": 12,
        }),
        "FitLength" => json!({"thread": "1/2-13", "stack": stack(), "shear_plane_mm": 12}),
        "ComputeStretch" => stretched(),
        "AlignCastellatedNut" => json!({
            "joint": stretched(), "slots": 6, "holes": 1, "minimum_torque_nm": 60, "maximum_torque_nm": 70,
            "prevailing_torque_nm": 2, "to_slot_degrees": 20,
        }),
        "CreateLubrication" => json!({"lubrication_id": "bench-paste", "lubrication": paste()}),
        "ReviseLubrication" => json!({
            "name": "lubrications/bench-paste", "lubrication": paste(), "etag": paste_etag(shop).await,
        }),
        "WithdrawLubrication" => json!({
            "name": "lubrications/bench-paste", "reason": "the tin is empty", "etag": paste_etag(shop).await,
        }),
        "CreatePerson" => json!({"person_id": "otto", "person": person()}),
        "RevisePerson" => json!({
            "name": "people/otto", "person": person(), "etag": person_etag(shop).await,
        }),
        "WithdrawPerson" => json!({
            "name": "people/otto", "reason": "moved away", "etag": person_etag(shop).await,
        }),
        "CreateSpecification" => {
            json!({"specification_id": "brake-plate", "specification": printed()})
        }
        "ReviseSpecification" => json!({
            "name": SPECIFICATION, "specification": printed(), "etag": printed_etag(shop).await,
        }),
        "WithdrawSpecification" => json!({
            "name": SPECIFICATION, "reason": "of another year", "etag": printed_etag(shop).await,
        }),
        "ImportSpecifications" => {
            json!({"csv": "id,display_name,thread,steps,citation\ndrum,Drum,M10,40 N·m; 90 deg,p. 7\n"})
        }
        "ListSpecificationUses" => json!({"name": SPECIFICATION}),
        "GetEffectiveValue" => json!({"joint": PLATE}),
        "GetSpecification" => json!({"name": SPECIFICATION, "revision": 1}),
        "CreateJob" => json!({
            "job_id": "other",
            "job": {"display_name": "Another", "machine": "a press", "torque_unit": "TORQUE_UNIT_POUND_FORCE_FOOT"},
        }),
        "GetJob" => json!({"name": JOB}),
        "CreateAssembly" => json!({
            "parent": JOB, "assembly_id": "right-hub",
            "assembly": {"display_name": "Right hub", "counterpart": "jobs/tractor/assemblies/hub"},
        }),
        "CreateJoint" if variant == 0 => {
            json!({"parent": JOB, "joint_id": "cover", "joint": cover()})
        }
        "CreateJoint" if variant == 1 => {
            json!({"parent": JOB, "joint_id": "sump", "joint": sump()})
        }
        "CreateJoint" => json!({"parent": JOB, "joint_id": "arm", "joint": arm()}),
        "GetJoint" => json!({"name": PLATE}),
        "SearchJobs" => {
            json!({"machine": "tractor", "thread": "7/16-20", "rule": "not-refitted", "kept_in": "tin", "page_size": 5})
        }
        "ListPositionHistory" => json!({"joint": PLATE, "position": 1}),
        "ListJoints" | "ListFlags" | "ListEntries" => json!({"parent": JOB}),
        "GetRule" => json!({"name": "rules/odd-length"}),
        "LogMatchMarks" => json!({"match_marks": marking()}),
        "LogRemoval" => json!({"removal": removal()}),
        "LogAlikeRemovals" => json!({
            "joint": PLATE, "positions": [2, 3], "outcome": "REMOVAL_OUTCOME_NORMAL",
            "methods": ["REMOVAL_METHOD_HEAT"], "heat_colour": "HEAT_COLOUR_WARM", "kept_in": "tin 1",
        }),
        "ImportRemovals" => {
            json!({"parent": JOB, "csv": "joint,position,outcome\nplate,4,normal\n"})
        }
        "LogDecision" => json!({"decision": decision(variant), "etag": position_etag(shop).await}),
        "LogRefit" => json!({"refit": refit()}),
        "LogTightening" => json!({
            "joint": PLATE, "positions": [1], "step": "TIGHTENING_STEP_FINAL", "torque_reading": "67 N·m",
            "tool": "click wrench 2", "note": "pulled slowly",
        }),
        "LogNotRefitted" => json!({"not_refitted": account(variant)}),
        "LogFinding" => json!({"finding": finding(variant)}),
        "AnswerCounterpart" => json!({"answer": answer(shop, variant).await}),
        "CheckReplacement" => json!({"joint": PLATE, "position": 1, "replacement": fastener()}),
        "ListPartsToOrder" => json!({"parent": JOB}),
        "ListWaits" => json!({"parent": "jobs/tractor/assemblies/hub"}),
        "LogPartWanted" => json!({"wanted": wanted()}),
        "LogPartArrival" => json!({"arrival": arrival()}),
        "CorrectEntry" => correction(shop, variant).await,
        "GetPhoto" => json!({"name": photo(shop).await}),
        "WatchEntries" => json!({"parent": JOB, "after_sequence": 1}),
        "GetSheet" => json!({"name": JOB, "torque_unit": "TORQUE_UNIT_NEWTON_METRE"}),
        "RenderSheet" => json!({
            "name": "jobs/tractor/assemblies/hub", "torque_unit": "TORQUE_UNIT_NEWTON_METRE", "format": "SHEET_FORMAT_TEXT",
        }),
        other => panic!("{other} has no base: write one in bases.rs"),
    };
    if STORY.contains(&method) {
        base["request_id"] = fresh_id().into();
        base["said_time"] = "2026-01-02T03:04:05Z".into();
    } else if method.starts_with("List") {
        base["page_size"] = 5.into();
    }
    base
}

fn paste() -> Value {
    json!({
        "display_name": "bench paste", "nut_factor": 0.15, "low_nut_factor": 0.13, "high_nut_factor": 0.17,
        "lubricated": true, "test_count": 12, "tested_by": "Ada", "tested_on": "2026-03-02",
        "tested": "7/16-20 grade 5, load cell", "note": "stirred before use",
    })
}

async fn paste_etag(shop: &Shop) -> String {
    let request = clampbook_api::v1::ListLubricationsRequest {
        page_size: 500,
        ..Default::default()
    };
    let list = shop.catalog().list_lubrications(request).await;
    let all = list.expect("the lubrications").into_inner().lubrications;
    let paste = all
        .into_iter()
        .find(|c| c.name == "lubrications/bench-paste");
    paste.expect("it was created").etag
}

fn person() -> Value {
    json!({"display_name": "Otto Berg", "roles": ["PERSON_ROLE_INSPECTOR", "PERSON_ROLE_LEAD"]})
}

async fn person_etag(shop: &Shop) -> String {
    let list = shop
        .people()
        .list_people(ListPeopleRequest::default())
        .await;
    let all = list.expect("the people").into_inner().people;
    let otto = all.into_iter().find(|person| person.name == "people/otto");
    otto.expect("he was created").etag
}

fn printed() -> Value {
    json!({
        "display_name": "Brake plate to knuckle", "thread": "7/16-20", "grade": "SAE J429 5", "lubrication": "dry",
        "purpose": "PURPOSE_CLAMPING", "steps": [{"torque": "55 lbf·ft"}, {"turn_degrees": 30}],
        "minimum_torque": "50 lbf·ft", "maximum_torque": "60 lbf·ft", "citation": "Workshop manual, 2nd ed., p. 41",
        "unit_confirmed": true, "note": "read twice",
    })
}

async fn printed_etag(shop: &Shop) -> String {
    let request = clampbook_api::v1::GetSpecificationRequest {
        name: SPECIFICATION.into(),
        revision: 0,
    };
    let found = shop.specifications().get_specification(request).await;
    found.expect("it was created").into_inner().etag
}

fn tightened() -> Value {
    json!({
        "thread": "1/2-13", "grade": "SAE J429 5", "lubrication": "oiled", "proof_share": 0.7, "nut_factor": 0.2,
        "nut_grade": "J995 5", "purpose": "PURPOSE_CLAMPING",
    })
}

fn stack() -> Value {
    json!({
        "layers": [{"metal": "mild steel", "thickness_mm": 25, "outer_diameter_mm": 40}],
        "tapped": {"metal": "grey cast iron", "shear_mpa": 260, "full_thread_mm": 30, "blind": true},
        "bolt_length_mm": 44.45, "thread_length_mm": 31.75, "nut_height_mm": 11, "bearing_diameter_mm": 18,
        "hole_diameter_mm": 13.5,
    })
}

fn stretched() -> Value {
    json!({
        "torque": tightened(), "stack": stack(), "bolt_modulus_mpa": 205000, "loading_plane": 0.5,
        "roughness": "FACE_ROUGHNESS_ROUGH",
    })
}

fn cover() -> Value {
    json!({
        "assembly": "jobs/tractor/assemblies/hub", "display_name": "Cover", "layout": "LAYOUT_GRID", "row_count": 2,
        "positions": [{"label": "a"}, {"label": "b"}, {"label": "c"}, {"label": "d"}],
        "criticality": "CRITICALITY_A", "hole_kind": "HOLE_KIND_STUD", "purpose": "PURPOSE_CLAMPING",
        "target": {
            "thread": "M10", "grade": "8.8", "lubrication": "oiled", "proof_share": 0.7, "nut_factor": 0.2, "nut_grade": "8",
        },
        "lock": "tab plate", "preparation": "clean", "computed_torque_approver": "Ida",
        "build": {
            "stack": {
                "layers": [{"metal": "mild steel", "thickness_mm": 20, "outer_diameter_mm": 40}], "bolt_length_mm": 35,
                "thread_length_mm": 30, "nut_height_mm": 8.4, "bearing_diameter_mm": 14.6, "hole_diameter_mm": 11,
            },
            "shear_plane_mm": 10, "parent_state": "as new",
            "castellated_nut": {"slots": 6, "holes": 1, "minimum_torque_nm": 30, "maximum_torque_nm": 40},
        },
    })
}

/// Into a tapped hole with an insert.
fn sump() -> Value {
    let mut joint = cover();
    joint["hole_kind"] = "HOLE_KIND_TAPPED_BLIND".into();
    joint["target"] = json!({"thread": "1/2-13", "grade": "SAE J429 5", "lubrication": "oiled"});
    joint["build"] = json!({"stack": stack(), "fit": "THREAD_FIT_CLOSE"});
    joint["build"]["stack"]["tapped"]["insert"] = true.into();
    joint
}

/// To what the maker published.
fn arm() -> Value {
    let mut joint = cover();
    joint["target"] = json!({"thread": "7/16-20", "grade": "SAE J429 5", "lubrication": "dry"});
    joint["build"] = Value::Null;
    joint["specification"] = SPECIFICATION.into();
    joint["specification_revision"] = 2.into();
    joint
}

fn marking() -> Value {
    json!({
        "joint": PLATE, "position": 1, "note": "with the centre punch",
        "marks": [{"kind": "MARK_KIND_TIE_ROD_TURNS", "text": "14.5"}, {"kind": "MARK_KIND_LEFT_HAND"}],
    })
}

fn removal() -> Value {
    json!({
        "joint": PLATE, "position": 1, "outcome": "REMOVAL_OUTCOME_SEIZED", "ticks": ["REMOVAL_TICK_BENT"],
        "methods": ["REMOVAL_METHOD_HEAT", "REMOVAL_METHOD_HAMMER"], "heat_colour": "HEAT_COLOUR_RED",
        "heated_place": "the boss", "thread": "7/16-20", "length": "1-1/4 in", "head_marking": "none", "grade": "SAE J429 5",
        "breakaway_torque": "60 lbf·ft", "kept_in": "tin 1", "note": "by hand in the end",
        "marks": [
            {"kind": "MARK_KIND_MATCH_MARKS", "text": "two dots"}, {"kind": "MARK_KIND_EXPOSED_THREAD", "text": "22 mm"},
        ],
        "stack": [{"kind": "PIECE_KIND_SHIM", "count": 2, "thickness": "0.5 mm", "text": "brass"}],
        "small_parts": [{"kind": "SMALL_PART_KIND_LOCK", "state": "SMALL_PART_CONDITION_UNFIT", "text": "one tab gone"}],
    })
}

fn part() -> Value {
    json!({"thread": "7/16-20", "length": "1-1/4 in", "grade": "SAE J429 5"})
}

/// A fastener with everything that can be said of one.
fn fastener() -> Value {
    json!({
        "thread": "7/16-20", "length": "1-1/4 in", "grade": "SAE J429 5", "form": "hexagon bolt", "finish": "zinc plated",
        "purpose": "PURPOSE_CLAMPING", "baked": true, "thread_length_mm": 25, "head_height_mm": 7, "head_diameter_mm": 18,
    })
}

fn wanted() -> Value {
    json!({
        "assembly": "jobs/tractor/assemblies/hub", "joint": PLATE, "what": "gasket, cover", "quantity": 1, "why": "torn",
        "part_number": "K 112", "note": "thin paper",
    })
}

fn arrival() -> Value {
    json!({
        "assembly": "jobs/tractor/assemblies/hub", "what": "gasket, cover", "quantity": 1, "reference": "delivery note 44",
        "note": "one corner bent",
    })
}

async fn entry_of_kind(shop: &Shop, kind: &str) -> String {
    let entries = shop.job_named("tractor").entries().await;
    let said = entries.into_iter().find(|entry| entry.kind == kind);
    said.expect("the story went that far").name
}

/// One decision for each set of fields; what lets a refit follow comes last.
fn decision(variant: usize) -> Value {
    match variant {
        0 => json!({
            "joint": PLATE, "position": 1, "kind": "DECISION_KIND_LEAVE_OUT", "citation": "service sheet 12",
            "reason": "the bracket is gone", "left_out_by": "Ida Holm",
        }),
        1 => json!({
            "joint": PLATE, "position": 1, "kind": "DECISION_KIND_PLATE_AND_BAKE", "citation": "certificate 118",
            "reason": "rusty", "baking_shown": true,
        }),
        _ => json!({
            "joint": PLATE, "position": 1, "kind": "DECISION_KIND_REPLACE", "replacement": fastener(),
            "hole_check": "HOLE_CHECK_REPAIRED", "hole_repair": "thread insert 7/16-20", "grade_shown": "SAE J429 5",
            "citation": "parts book, plate 14", "reason": "bent",
        }),
    }
}

fn tightening() -> Value {
    json!({
        "joint": PLATE, "position": 1, "step": "TIGHTENING_STEP_FINAL", "torque_reading": "67 N·m",
        "tool": "click wrench 2", "note": "pulled slowly",
    })
}

fn refit() -> Value {
    json!({
        "joint": PLATE, "position": 1, "fitted_part": "FITTED_PART_NEW", "new_part": part(),
        "note": "first try",
        "fitted_pieces": [
            {"small_part": "SMALL_PART_KIND_LOCK", "count": 1, "new": true, "text": "copper"},
            {"piece": "PIECE_KIND_SHIM", "count": 2},
        ],
        "as_it_came_out": true, "prevailing_torque": "12 lbf·in",
    })
}

/// One account for each kind of thing.
fn account(variant: usize) -> Value {
    let mut account = json!({
        "joint": PLATE, "position": 1, "count": 2, "fate": "PIECE_FATE_FOUND", "reason": "under the bench",
    });
    match variant {
        0 => account["piece"] = "PIECE_KIND_SHIM".into(),
        1 => account["small_part"] = "SMALL_PART_KIND_PIN".into(),
        _ => account["fastener"] = true.into(),
    }
    account
}

/// One finding for each way of answering it.
fn finding(variant: usize) -> Value {
    json!({
        "assembly": "jobs/tractor/assemblies/hub", "joint": PLATE, "part": format!("spindle {variant}"),
        "kind": "FINDING_KIND_WEAR", "severity": "FINDING_SEVERITY_RUINED", "criticality": "CRITICALITY_A",
        "cause": "bearing ran dry", "reading": "24.61 mm", "note": "blue at the shoulder",
    })
}

async fn answer(shop: &Shop, variant: usize) -> Value {
    let shown = ["reading", "photo", "no_such_part_says", "added_photo"][variant];
    let mut answer = json!({"finding": found(shop, variant).await.entry, "note": "in good light"});
    answer[shown] = match shown {
        "added_photo" => photo(shop).await.into(),
        _ => "as it should be".into(),
    };
    answer
}

/// A photo of the other side.
async fn photo(shop: &Shop) -> String {
    let job = shop.job_named("tractor");
    let subject = match job.look().await.assemblies.as_slice() {
        [_, right, ..] => right.name.clone(),
        _ => JOB.to_owned(),
    };
    let added = job
        .adds_photo(&subject, 0, &crate::support::photo::png(1))
        .await;
    added.expect("a photo").entry
}

async fn found(shop: &Shop, variant: usize) -> clampbook_api::v1::Finding {
    let job = shop.job_named("tractor").look().await;
    let hub = job.assemblies.into_iter().find(|a| !a.findings.is_empty());
    hub.expect("the story went that far")
        .findings
        .swap_remove(variant)
}

async fn position_etag(shop: &Shop) -> String {
    plate(shop).await.positions[0].etag.clone()
}

/// A correction of each kind: of a removal, a decision, a refit, a tightening, a finding, an answer, a part wanted, an arrival, marks and a joint.
async fn correction(shop: &Shop, variant: usize) -> Value {
    let hole = plate(shop).await.positions[0].clone();
    let (entry, part, said) = match variant {
        0 => (hole.removal.map(|r| r.entry), "removal", removal()),
        1 => (hole.decision.map(|d| d.entry), "decision", decision(2)),
        2 => (hole.refit.map(|r| r.entry), "refit", refit()),
        3 => (Some(found(shop, 0).await.entry), "finding", finding(0)),
        4 => {
            let there = found(shop, 0).await.counterpart_answer;
            let said = answer(shop, 0).await;
            (there.map(|a| a.entry), "counterpart_answer", said)
        }
        5 => (
            Some(entry_of_kind(shop, "part-wanted").await),
            "wanted",
            wanted(),
        ),
        6 => (
            Some(entry_of_kind(shop, "part-arrived").await),
            "arrival",
            arrival(),
        ),
        7 => {
            let there = hole.match_marks.first().map(|m| m.entry.clone());
            (there, "match_marks", marking())
        }
        8 => {
            let said = json!({"subject": PLATE, "position": 2, "caption": "the long bolt"});
            (Some(photo(shop).await), "photo", said)
        }
        9 => (hole.tightening.map(|t| t.entry), "tightening", tightening()),
        10 => {
            let there = entry_of_kind(shop, "piece-accounted").await;
            (Some(there), "not_refitted", account(0))
        }
        _ => {
            let mut joint = cover();
            joint["name"] = "jobs/tractor/joints/cover".into();
            (Some(entry_that_added(shop, "cover").await), "joint", joint)
        }
    };
    let mut correction = json!({
        "entry": entry.expect("the story went that far"), "reason": "looked again",
        "etag": shop.job_named("tractor").look().await.etag,
    });
    correction[part] = said;
    correction
}

async fn entry_that_added(shop: &Shop, joint: &str) -> String {
    let entries = shop.job_named("tractor").entries().await;
    let added = entries
        .into_iter()
        .find(|entry| entry.kind == "joint-added" && entry.body.contains(&format!("\"{joint}\"")));
    added.expect("the joint was added").name
}

async fn plate(shop: &Shop) -> clampbook_api::v1::Joint {
    let request = clampbook_api::v1::GetJointRequest { name: PLATE.into() };
    shop.jobs()
        .get_joint(request)
        .await
        .expect("the joint")
        .into_inner()
}
