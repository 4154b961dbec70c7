//! The story: an orchard tractor in a small museum workshop, its front hub and steering joint, left and right.

use super::builds;
use super::manual::{self, HUB_CAP};
use super::page::line;
use super::parts;
use super::scribe::Scribe;
use clampbook_api::v1::removal::LengthSeen;
use clampbook_api::v1::{
    ComputeTorqueRequest, Criticality, Decision, DecisionKind, FastenerSpec, Finding, FindingKind,
    FindingSeverity, FittedPart, Flag, HeatColour, HoleCheck, HoleKind, Joint, JointTarget, Layout,
    LogTighteningRequest, PieceKind, Position, Purpose, Refit, Removal, RemovalMethod,
    RemovalOutcome, Severity, StackedPiece, TighteningStep,
};
use std::io;

/// The job's id.
pub(super) const JOB: &str = "orchard-tractor";

/// Tells it.
pub(super) async fn tell(scribe: &mut Scribe) -> anyhow::Result<()> {
    say("Ida opens a job for the orchard tractor and describes what she will take apart.")?;
    lay_out(scribe).await?;
    say(
        "The manual prints a torque for the hub caps: it takes precedence over anything computed.",
    )?;
    say(
        "She strips the right side, then the left, and logs hole by hole how each fastener came out.",
    )?;
    strip_right(scribe).await?;
    let flags = strip_left(scribe).await?;
    say("The third bolt of the left brake plate was hard to get out. At once the tablet says:")?;
    print_flags(&flags)?;
    say(
        "Under the left bearing she finds the spindle galled. That raises a question about the other side:",
    )?;
    let (spindle, flags) = scribe.finding(spindle()).await?;
    print_flags(&flags)?;

    scribe.person = "Tomas";
    say("Tomas decides on the worst bolts, measures the other spindle, and puts a few back.")?;
    decide(scribe).await?;
    let open = scribe
        .answer(spindle, "journal 1.249 in, bright all round")
        .await?;
    line(format_args!(
        "  right spindle: measured; questions still open there: {}",
        open.iter().filter(|flag| flag.rule == "other-side").count()
    ))?;
    refit(scribe).await?;
    say("The parts to order follow from all that. Weeks later the bolt and the spindle come:")?;
    parts::order(scribe).await?;
    say("How tight is a 7/16-20 of that grade, and what if it were put in dry?")?;
    for lubrication in ["oiled", "dry"] {
        let answer = scribe.torque(question(lubrication)).await?;
        let Some(scatter) = answer.scatter else {
            continue;
        };
        line(format_args!(
            "  {lubrication}: {} for {}, which may come out anywhere from {}",
            answer.torque_text, answer.clamp_load_text, scatter.text
        ))?;
    }

    say("What is flagged on the whole job, and why:")?;
    print_flags(&scribe.flags(JOB).await?)?;
    say("And the sheet for the person who puts it back together:")?;
    line(format_args!("{}", scribe.sheet(JOB).await?))?;
    Ok(())
}

fn say(words: &str) -> io::Result<()> {
    line(format_args!("\n== {words}"))
}

fn print_flags(flags: &[Flag]) -> io::Result<()> {
    for flag in flags
        .iter()
        .filter(|flag| flag.severity() >= Severity::Caution)
    {
        let severity = if flag.severity() == Severity::Stop {
            "STOP"
        } else {
            "caution"
        };
        let place = match flag.joint.as_str() {
            "" => &flag.assembly,
            joint => joint,
        };
        let place = place.rsplit('/').next().unwrap_or_default();
        let hole = if flag.position == 0 {
            String::new()
        } else {
            format!(" hole {}", flag.position)
        };
        line(format_args!(
            "  {severity:<7} {place}{hole}: {} ({})",
            flag.cause, flag.rule
        ))?;
        line(format_args!("          clears: {}", flag.clears))?;
    }
    Ok(())
}

async fn lay_out(scribe: &Scribe) -> anyhow::Result<()> {
    scribe.specification(HUB_CAP, manual::hub_cap()).await?;
    scribe
        .job(
            JOB,
            "Orchard tractor, front axle",
            "Narrow orchard tractor, petrol, two-wheel drive",
        )
        .await?;
    for (id, name, other) in [
        ("left-hub", "Left front hub", ""),
        ("right-hub", "Right front hub", "left-hub"),
        ("left-steering", "Left steering joint", ""),
        ("right-steering", "Right steering joint", "left-steering"),
    ] {
        scribe.assembly(JOB, id, name, other).await?;
    }
    for side in ["left", "right"] {
        scribe
            .joint(JOB, &format!("{side}-hub-cap"), hub_cap(side))
            .await?;
        scribe
            .joint(JOB, &format!("{side}-bearing-nut"), bearing_nut(side))
            .await?;
        scribe
            .joint(JOB, &format!("{side}-brake-plate"), brake_plate(side))
            .await?;
        scribe
            .joint(JOB, &format!("{side}-steering-arm"), steering_arm(side))
            .await?;
    }
    Ok(())
}

fn hub_cap(side: &str) -> Joint {
    Joint {
        positions: vec![Position::default(); 6],
        layout: Layout::Ring.into(),
        criticality: Criticality::C.into(),
        hole_kind: HoleKind::TappedBlind.into(),
        specification: format!("specifications/{HUB_CAP}"),
        ..joint(&format!("{side}-hub"), "cap to hub")
    }
}

fn bearing_nut(side: &str) -> Joint {
    Joint {
        positions: vec![Position::default()],
        layout: Layout::Single.into(),
        criticality: Criticality::A.into(),
        hole_kind: HoleKind::Stud.into(),
        purpose: Purpose::WheelBearing.into(),
        lock: "split pin 5/32 in, new".into(),
        ..joint(&format!("{side}-hub"), "bearing nut")
    }
}

fn brake_plate(side: &str) -> Joint {
    Joint {
        positions: ["upper front", "upper rear", "lower rear", "lower front"]
            .map(hole)
            .into(),
        layout: Layout::Ring.into(),
        criticality: Criticality::A.into(),
        hole_kind: HoleKind::TappedThrough.into(),
        target: target("7/16-20 UNF", "SAE J429 5", "oiled"),
        lock: "tab plate, new".into(),
        preparation: "thread clean, one drop of oil".into(),
        computed_torque_approver: "Ida".into(),
        ..joint(&format!("{side}-hub"), "brake plate to knuckle")
    }
}

fn steering_arm(side: &str) -> Joint {
    Joint {
        positions: ["front", "rear"].map(hole).into(),
        layout: Layout::Line.into(),
        criticality: Criticality::A.into(),
        hole_kind: HoleKind::Through.into(),
        target: Some(JointTarget {
            nut_grade: Some("J995 8".into()),
            ..target("1/2-20 UNF", "SAE J429 8", "oiled").unwrap_or_default()
        }),
        lock: "split pin 1/8 in, new".into(),
        computed_torque_approver: "Ida".into(),
        // Only the right one was measured so far.
        build: (side == "right").then(|| Box::new(builds::steering_arm())),
        ..joint(&format!("{side}-steering"), "steering arm to knuckle")
    }
}

fn joint(assembly: &str, name: &str) -> Joint {
    Joint {
        assembly: format!("jobs/{JOB}/assemblies/{assembly}"),
        display_name: name.into(),
        ..Default::default()
    }
}

fn hole(label: &str) -> Position {
    Position {
        label: label.into(),
        ..Default::default()
    }
}

fn target(thread: &str, grade: &str, lubrication: &str) -> Option<JointTarget> {
    Some(JointTarget {
        thread: thread.into(),
        grade: grade.into(),
        lubrication: lubrication.into(),
        ..Default::default()
    })
}

fn at(joint: &str) -> String {
    format!("jobs/{JOB}/joints/{joint}")
}

/// A bolt that came out by hand, marked and measured.
fn plain(joint: &str, position: i32, length: &str, grade: &str) -> Removal {
    Removal {
        joint: at(joint),
        position,
        outcome: RemovalOutcome::Normal.into(),
        methods: vec![RemovalMethod::Hand.into()],
        length_seen: Some(LengthSeen::Length(length.into())),
        grade: grade.into(),
        kept_in: format!("bag {joint}"),
        ..Default::default()
    }
}

async fn strip_right(scribe: &Scribe) -> anyhow::Result<()> {
    scribe.alike(at("right-hub-cap"), "tin 2").await?;
    let nut = Removal {
        length_seen: None,
        ..plain("right-bearing-nut", 1, "", "")
    };
    scribe.removal(nut).await?;
    for position in 1..=4 {
        scribe
            .removal(plain(
                "right-brake-plate",
                position,
                "1-1/4 in",
                "SAE J429 5",
            ))
            .await?;
    }
    scribe
        .removal(plain("right-steering-arm", 1, "2 in", "SAE J429 8"))
        .await?;
    let weak = Removal {
        head_marking: "three radial lines".into(),
        ..plain("right-steering-arm", 2, "2 in", "SAE J429 5")
    };
    scribe.removal(weak).await?;
    Ok(())
}

async fn strip_left(scribe: &Scribe) -> anyhow::Result<Vec<Flag>> {
    scribe.alike(at("left-hub-cap"), "tin 1").await?;
    let nut = Removal {
        length_seen: None,
        ..plain("left-bearing-nut", 1, "", "")
    };
    scribe.removal(nut).await?;
    for position in [1, 2, 4] {
        scribe
            .removal(plain(
                "left-brake-plate",
                position,
                "1-1/4 in",
                "SAE J429 5",
            ))
            .await?;
    }
    let fought_back = Removal {
        outcome: RemovalOutcome::Seized.into(),
        methods: vec![RemovalMethod::Heat.into(), RemovalMethod::Hammer.into()],
        heat_colour: HeatColour::Red.into(),
        heated_place: "the knuckle boss".into(),
        breakaway_torque: "160 lbf·ft".into(),
        stack: vec![StackedPiece {
            kind: PieceKind::Bracket.into(),
            count: 1,
            thickness: "1/2 in".into(),
            text: "hose bracket".into(),
            ..Default::default()
        }],
        ..plain("left-brake-plate", 3, "1-3/4 in", "SAE J429 5")
    };
    let flags = scribe.removal(fought_back).await?;
    let loose = Removal {
        outcome: RemovalOutcome::LooseOnArrival.into(),
        ..plain("left-steering-arm", 1, "2 in", "SAE J429 8")
    };
    scribe.removal(loose).await?;
    let unmarked = Removal {
        grade: String::new(),
        head_marking: "none".into(),
        ..plain("left-steering-arm", 2, "2 in", "")
    };
    scribe.removal(unmarked).await?;
    Ok(flags)
}

/// The part under the bearing that ran dry.
fn spindle() -> Finding {
    Finding {
        assembly: format!("jobs/{JOB}/assemblies/left-hub"),
        joint: at("left-bearing-nut"),
        part: "spindle".into(),
        kind: FindingKind::Wear.into(),
        severity: FindingSeverity::Ruined.into(),
        cause: "the bearing ran dry and spun".into(),
        reading: "journal 1.236 in".into(),
        ..Default::default()
    }
}

async fn decide(scribe: &Scribe) -> anyhow::Result<()> {
    let left = scribe
        .decision(Decision {
            joint: at("left-brake-plate"),
            position: 3,
            kind: DecisionKind::Replace.into(),
            replacement: Some(FastenerSpec {
                thread: "7/16-20 UNF".into(),
                length: "1-3/4 in".into(),
                grade: "SAE J429 5".into(),
                ..Default::default()
            }),
            hole_check: HoleCheck::Chased.into(),
            citation: "parts book of the tractor, plate 14: hose bracket under this bolt".into(),
            reason: "heated red; the longer bolt belongs under the bracket".into(),
            ..Default::default()
        })
        .await?;
    let stops = left
        .iter()
        .filter(|flag| flag.severity() == Severity::Stop)
        .count();
    line(format_args!(
        "  left-brake-plate hole 3: replaced, hole chased; stops still open there: {stops}"
    ))?;
    Ok(())
}

async fn refit(scribe: &Scribe) -> anyhow::Result<()> {
    for position in [1, 3] {
        scribe
            .refit(Refit {
                joint: at("right-brake-plate"),
                position,
                fitted_part: FittedPart::Original.into(),
                ..Default::default()
            })
            .await?;
    }
    let tightening = |positions: &[i32], step: TighteningStep| LogTighteningRequest {
        joint: at("right-brake-plate"),
        positions: positions.to_vec(),
        step: step.into(),
        ..Default::default()
    };
    scribe
        .tighten(tightening(&[1, 3], TighteningStep::Snug))
        .await?;
    scribe
        .tighten(LogTighteningRequest {
            torque_reading: "67 N·m".into(),
            tool: "click wrench 2".into(),
            ..tightening(&[1], TighteningStep::Final)
        })
        .await?;
    Ok(())
}

fn question(lubrication: &str) -> ComputeTorqueRequest {
    ComputeTorqueRequest {
        thread: "7/16-20".into(),
        grade: "SAE J429 5".into(),
        lubrication: lubrication.into(),
        ..Default::default()
    }
}
