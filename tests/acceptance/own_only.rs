//! Each list tells of its own: two jobs with the same names for everything, two assemblies in each, and every answer about one
//! says nothing of another.

use clampbook_api::v1::RemovalOutcome;
use serde_json::{Value, json};

use crate::support::Shop;
use crate::support::whole::{Teller, json as as_json};

const JOBS: [&str; 2] = ["tractor", "press"];
const ASSEMBLIES: [&str; 2] = ["left", "right"];
/// Two joints of each assembly.
const JOINTS: [&str; 2] = ["plate", "cover"];

/// One assembly of one job, with a word that is in all that is said about it.
#[derive(Clone, Copy)]
struct Side {
    job: &'static str,
    assembly: &'static str,
}

impl Side {
    fn all() -> impl Iterator<Item = Self> {
        JOBS.into_iter()
            .flat_map(|job| ASSEMBLIES.map(|assembly| Self { job, assembly }))
    }

    fn job(self) -> String {
        format!("jobs/{}", self.job)
    }

    fn name(self) -> String {
        format!("jobs/{}/assemblies/{}", self.job, self.assembly)
    }

    fn joint(self, joint: &str) -> String {
        format!("jobs/{}/joints/{}-{joint}", self.job, self.assembly)
    }

    /// Its word.
    fn word(self) -> String {
        format!("{}of{}", self.assembly, self.job)
    }

    /// Words and names that an answer about it must not hold: those of the other sides.
    fn strange(self) -> Vec<String> {
        Self::all()
            .filter(|other| other.word() != self.word())
            .flat_map(|other| {
                let joints = JOINTS.map(|joint| other.joint(joint));
                [other.word(), other.name()].into_iter().chain(joints)
            })
            .collect()
    }

    /// Those of another job only.
    fn strange_to_the_job(self) -> Vec<String> {
        let other = JOBS.into_iter().find(|job| *job != self.job);
        let other = other.expect("there are two");
        let words = ASSEMBLIES.map(|assembly| format!("{assembly}of{other}"));
        words.into_iter().chain([format!("jobs/{other}")]).collect()
    }
}

/// Says the same of every side: holds, stops, findings, parts wanted and arrived; the holes of all come out in turns.
async fn told(teller: &mut Teller) {
    for job in JOBS {
        let said = json!({"job_id": job, "job": {"display_name": format!("{job} in")}});
        teller.tells("CreateJob", said).await;
    }
    for side in Side::all() {
        let (job, word) = (side.job(), side.word());
        let assembly = json!({"display_name": format!("Assembly {word}")});
        let said = json!({"parent": job, "assembly_id": side.assembly, "assembly": assembly});
        teller.tells("CreateAssembly", said).await;
        for joint in JOINTS {
            let described = json!({
                "assembly": side.name(), "display_name": format!("{joint} {word}"), "layout": "LAYOUT_LINE",
                "positions": [{}, {}, {}], "criticality": "CRITICALITY_B", "hole_kind": "HOLE_KIND_TAPPED_THROUGH",
                "target": {"thread": "7/16-20", "grade": "SAE J429 5", "lubrication": "oiled"},
            });
            let id = format!("{}-{joint}", side.assembly);
            teller
                .tells(
                    "CreateJoint",
                    json!({"parent": job, "joint_id": id, "joint": described}),
                )
                .await;
        }
    }
    for position in 1..=3 {
        for side in Side::all() {
            for joint in JOINTS {
                let said = json!({"removal": {
                    "joint": side.joint(joint), "position": position, "outcome": "REMOVAL_OUTCOME_SEIZED",
                    "kept_in": format!("bag {}", side.word()), "note": side.word(),
                }});
                let step = teller.tells("LogRemoval", said).await;
                tells_only_of(&as_json(&step.answer)["flags"], &side.joint(joint));
            }
        }
    }
    for side in Side::all() {
        let word = side.word();
        let said = json!({"decision": {
            "joint": side.joint("plate"), "position": 1, "kind": "DECISION_KIND_HOLD", "reason": format!("hold {word}"),
            "hold_reason": "HOLD_REASON_HARDNESS",
        }});
        let step = teller.tells("LogDecision", said).await;
        tells_only_of(&as_json(&step.answer)["flags"], &side.joint("plate"));
        let said = json!({"refit": {
            "joint": side.joint("cover"), "position": 2, "fitted_part": "FITTED_PART_ORIGINAL",
            "note": word,
        }});
        let step = teller.tells("LogRefit", said).await;
        tells_only_of(&as_json(&step.answer)["flags"], &side.joint("cover"));
        for what in ["gasket".to_owned(), format!("seal {word}")] {
            let wanted = json!({"assembly": side.name(), "what": what, "quantity": 2, "why": word});
            teller
                .tells("LogPartWanted", json!({"wanted": wanted}))
                .await;
        }
        let finding = json!({
            "assembly": side.name(), "part": format!("spindle {word}"), "kind": "FINDING_KIND_BENT",
            "severity": "FINDING_SEVERITY_RUINED", "criticality": "CRITICALITY_B",
        });
        teller
            .tells("LogFinding", json!({"finding": finding}))
            .await;
    }
    let arrival =
        json!({"assembly": "jobs/tractor/assemblies/left", "what": "gasket", "quantity": 1});
    teller
        .tells("LogPartArrival", json!({"arrival": arrival}))
        .await;
}

/// Flags that are told after something was said of a joint are of that joint.
#[track_caller]
fn tells_only_of(flags: &Value, joint: &str) {
    let flags = flags.as_array().expect("flags");
    let strange = flags.iter().find(|flag| flag["joint"] != joint);
    assert_eq!(strange, None, "of {joint}");
}

#[tokio::test]
async fn nothing_of_another_job_or_assembly_is_told() {
    let shop = Shop::open();
    let mut teller = Teller::new(shop.channel());
    told(&mut teller).await;
    let mut wrong = Vec::new();
    for side in Side::all() {
        let (job, name) = (side.job(), side.name());
        let of_the_job = [
            ("GetJob", json!({"name": job})),
            ("ListJoints", json!({"parent": job})),
            ("ListFlags", json!({"parent": job})),
            ("ListPartsToOrder", json!({"parent": job})),
            ("ListWaits", json!({"parent": job})),
            ("ListEntries", json!({"parent": job})),
            ("GetSheet", json!({"name": job})),
            (
                "RenderSheet",
                json!({"name": job, "format": "SHEET_FORMAT_TEXT"}),
            ),
            (
                "RenderSheet",
                json!({"name": job, "format": "SHEET_FORMAT_CSV"}),
            ),
        ];
        let of_it = [
            ("ListPartsToOrder", json!({"parent": name})),
            ("ListWaits", json!({"parent": name})),
            ("GetSheet", json!({"name": name})),
            (
                "RenderSheet",
                json!({"name": name, "format": "SHEET_FORMAT_TEXT"}),
            ),
            (
                "RenderSheet",
                json!({"name": name, "format": "SHEET_FORMAT_CSV"}),
            ),
            ("GetJoint", json!({"name": side.joint("plate")})),
            (
                "ListPositionHistory",
                json!({"joint": side.joint("cover"), "position": 2}),
            ),
            ("SearchJobs", json!({"kept_in": side.word()})),
        ];
        let asked = of_the_job
            .into_iter()
            .map(|asked| (asked, side.strange_to_the_job()))
            .chain(of_it.into_iter().map(|asked| (asked, side.strange())));
        for ((method, request), strange) in asked {
            let answer = as_json(&teller.ask(method, request.clone()).await).to_string();
            if !answer.contains(side.job) {
                wrong.push(format!("{method} {request} says nothing: {answer}"));
            }
            wrong.extend(strange.into_iter().filter_map(|word| {
                let at = answer.find(&word)?;
                let near = answer.get(at.saturating_sub(80)..).unwrap_or(&answer[at..]);
                let near: String = near.chars().take(160).collect();
                Some(format!("{method} {request} tells of {word}: {near}"))
            }));
        }
        let waits = as_json(&teller.ask("ListWaits", json!({"parent": name})).await);
        let holds = waits["waits"].as_array().expect("waits").iter();
        assert_eq!(
            holds.filter(|wait| wait["on_hold"] == true).count(),
            1,
            "{waits}"
        );
        let parts = as_json(
            &teller
                .ask("ListPartsToOrder", json!({"parent": name}))
                .await,
        );
        let parts = parts["parts"].as_array().expect("parts").iter();
        let gasket = parts
            .clone()
            .find(|part| part["what"] == "gasket")
            .expect("it is wanted");
        let came = side.word() == "leftoftractor";
        assert_eq!(
            gasket["waiting_count"],
            if came { 1 } else { 2 },
            "{gasket}"
        );
        assert_eq!(gasket.get("arrivals").is_some(), came, "{gasket}");
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What was begun first goes together last, whatever else came out before it was all apart.
#[tokio::test]
async fn what_came_apart_in_turns_goes_together_the_other_way_round() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let (plate, cover) = (job.joint("plate").await, job.joint("cover").await);
    plate.takes_out(1, RemovalOutcome::Normal).await;
    cover.comes_apart().await;
    for hole in 2..=4 {
        plate.takes_out(hole, RemovalOutcome::Normal).await;
    }
    let steps = job.sheet().await.joints.into_iter();
    let steps: Vec<String> = steps.map(|joint| joint.joint).collect();
    assert_eq!(steps, [cover.name, plate.name]);
}

#[tokio::test]
async fn what_is_only_started_is_told_as_not_torqued() {
    let shop = Shop::open();
    let mut teller = Teller::new(shop.channel());
    told(&mut teller).await;
    let cover = Side {
        job: "tractor",
        assembly: "left",
    }
    .joint("cover");
    for (position, step) in [(1, "SNUG"), (3, "FINAL")] {
        let said = json!({"refit": {
            "joint": cover, "position": position, "fitted_part": "FITTED_PART_ORIGINAL",
        }});
        teller.tells("LogRefit", said).await;
        let said = json!({
            "joint": cover, "positions": [position], "step": format!("TIGHTENING_STEP_{step}"),
        });
        teller.tells("LogTightening", said).await;
    }
    let name = json!({"name": "jobs/tractor/assemblies/left"});
    let sheet = as_json(&teller.ask("GetSheet", name).await);
    let job = as_json(&teller.ask("GetJob", json!({"name": "jobs/tractor"})).await);
    // One more is only started in the other assembly.
    assert_eq!(job["position_count"]["loose_count"], 3);
    assert_eq!(
        sheet["position_count"]["loose_count"], 2,
        "{}",
        sheet["position_count"]
    );
    let text = json!({"name": "jobs/tractor/assemblies/left", "format": "SHEET_FORMAT_TEXT"});
    let text = as_json(&teller.ask("RenderSheet", text).await);
    let text = text["content"].as_str().expect("a text");
    let line = text.lines().find(|line| line.starts_with("NOT TORQUED"));
    let line = line.expect("what is not torqued");
    let (place, holes) = line.split_once(", hole ").expect("holes");
    let mut holes: Vec<_> = holes.split(", ").collect();
    holes.sort_unstable();
    assert_eq!(holes, ["1", "2"]);
    assert!(place.ends_with("cover leftoftractor"), "{line}");
    let joint = as_json(&teller.ask("GetJoint", json!({"name": cover})).await);
    let states: Vec<_> = joint["positions"]
        .as_array()
        .expect("holes")
        .iter()
        .map(|hole| hole["state"].clone())
        .collect();
    assert_eq!(
        states,
        [
            "POSITION_STATE_SNUG",
            "POSITION_STATE_STARTED",
            "POSITION_STATE_FINAL"
        ]
    );
}

#[tokio::test]
async fn baking_that_nothing_cited_shows_is_not_believed() {
    let shop = Shop::open();
    let mut teller = Teller::new(shop.channel());
    told(&mut teller).await;
    let joint = Side {
        job: "tractor",
        assembly: "left",
    }
    .joint("plate");
    let decides = |grade_shown: &str, citation: &str| {
        json!({"decision": {
            "joint": joint, "position": 2, "kind": "DECISION_KIND_PLATE_AND_BAKE", "reason": "rusty",
            "grade_shown": grade_shown, "citation": citation, "baking_shown": true,
        }})
    };
    let request = teller.request("LogDecision", decides("", "")).await;
    let refused = teller
        .send(&crate::support::whole::method("LogDecision"), &request)
        .await;
    let status = refused.expect_err("it cites nothing");
    crate::support::Refusal::of(&status).names(&["decision.citation"]);
    let step = teller
        .tells("LogDecision", decides("ISO 898-1 12.9", "certificate 118"))
        .await;
    assert!(
        !as_json(&step.answer)
            .to_string()
            .contains("plated-hard-unbaked")
    );
}
