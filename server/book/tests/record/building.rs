//! How a joint is built: what is refused of it, how it is stored, and what the sheet tells.

use crate::bench::{Bench, NOW, joint_id};
use crate::built::{joint, layer, nutted, out, rebuild, tapped};
use clampbook_book::command::Command;
use clampbook_book::fact::{CastellatedNut, Fact, GripStack, JointAdded, JointBuild};
use clampbook_book::ids::JointId;
use clampbook_book::refusal::{Refusal, Violation};
use clampbook_book::sheet::{Head, Scope, SheetJoint, sheet};
use clampbook_book::words::{Criticality, HoleKind, TorqueUnit};

use Criticality::{A, B};

/// What is wrong with adding a joint like the bench's with this change.
fn wrong(change: impl FnOnce(&mut JointAdded)) -> Vec<Violation> {
    let mut bench = joint(B, tapped(Some(32.0), 24.0));
    let mut fact = (*bench.joint().fact).clone();
    fact.joint = JointId::new("other").expect("a slug");
    change(&mut fact);
    let before = bench.job.clone();
    let refusal = bench
        .try_say(&Command::AddJoint(fact.clone()))
        .expect_err("it is refused");
    assert_eq!(bench.job, before, "a refusal changes nothing");
    let Refusal::Invalid(wrong) = refusal else {
        panic!("{refusal}");
    };
    // A correction is judged by the same eyes.
    fact.joint = joint_id();
    let entry = bench.joint().entry;
    let correction = bench.correct(entry, Some(Fact::JointAdded(fact)));
    assert_eq!(correction, Err(Refusal::Invalid(wrong.clone())));
    wrong
}

fn build(joint: &mut JointAdded) -> &mut JointBuild {
    joint.build.as_mut().expect("a build")
}

fn fields(wrong: &[Violation]) -> Vec<&str> {
    wrong.iter().map(|one| one.field.as_str()).collect()
}

#[test]
fn everything_that_is_wrong_with_a_build_is_named_at_once() {
    let wrong = wrong(|joint| {
        let build = build(joint);
        build.stack.layers = vec![layer("cheese", 12.0), layer("mild steel", f64::NAN)];
        let tapped = build.stack.tapped.as_mut().expect("tapped");
        tapped.metal = "butter".into();
        tapped.shear_mpa = Some(f64::INFINITY);
        tapped.full_thread_mm = -1.0;
        tapped.blind = false;
        build.stack.bolt_length_mm = Some(1e300);
        build.shear_plane_mm = Some(0.0);
        build.close_fit = true;
        build.stack.parent_state = "x".repeat(81);
    });
    assert_eq!(
        fields(&wrong),
        [
            "joint.build.parent_state",
            "joint.build.stack.tapped.blind",
            "joint.build.stack.layers[0].metal",
            "joint.build.stack.layers[1].thickness_mm",
            "joint.build.stack.tapped.metal",
            "joint.build.stack.tapped.shear_mpa",
            "joint.build.stack.tapped.full_thread_mm",
            "joint.build.stack.bolt_length_mm",
            "joint.build.shear_plane_mm",
            "joint.build.fit",
        ]
    );
}

#[test]
fn nothing_at_all_and_more_than_a_stack_has_are_refused() {
    let nothing = wrong(|joint| *build(joint) = JointBuild::default());
    assert_eq!(
        fields(&nothing),
        ["joint.build.stack.tapped", "joint.build.stack.layers"]
    );
    let tower = wrong(|joint| build(joint).stack.layers = vec![layer("mild steel", 1.0); 9]);
    assert_eq!(fields(&tower), ["joint.build.stack.layers"]);
}

#[test]
fn a_build_goes_with_the_kind_of_hole() {
    for hole in [HoleKind::Through, HoleKind::Stud] {
        let nut = wrong(|joint| joint.hole_kind = hole);
        assert_eq!(fields(&nut), ["joint.build.stack.tapped"]);
    }
    let open = wrong(|joint| joint.hole_kind = HoleKind::TappedThrough);
    assert_eq!(fields(&open), ["joint.build.stack.tapped.blind"]);
    let castle = wrong(|joint| build(joint).castle = Some(CastellatedNut::default()));
    assert_eq!(fields(&castle), ["joint.build.castellated_nut"]);
}

#[test]
fn a_joint_without_a_target_has_nothing_to_judge_a_build_by() {
    let wrong = wrong(|joint| {
        joint.purpose = "wheel-bearing".into();
        joint.target = None;
    });
    assert_eq!(fields(&wrong), ["joint.build"]);
    assert!(wrong[0].wrong.contains("leave it out"), "{wrong:?}");
}

#[test]
fn a_target_that_was_forgotten_is_asked_for_and_the_rest_judged() {
    let wrong = wrong(|joint| {
        joint.target = None;
        build(joint).stack.layers = vec![layer("cheese", 12.0)];
    });
    assert_eq!(
        fields(&wrong),
        ["joint.build", "joint.build.stack.layers[0].metal"]
    );
    assert!(wrong[0].wrong.contains("give the target too"), "{wrong:?}");
}

#[test]
fn what_is_wrong_with_a_castellated_nut_is_named() {
    let wrong = wrong(|joint| {
        joint.hole_kind = HoleKind::Through;
        joint.build = Some(Box::new(JointBuild {
            stack: GripStack {
                bolt_length_mm: None,
                ..nutted(40.0).stack
            },
            castle: Some(CastellatedNut {
                slots: Some(5),
                holes: Some(3),
                minimum_torque_nm: None,
                maximum_torque_nm: Some(f64::NAN),
            }),
            ..nutted(40.0)
        }));
    });
    assert_eq!(
        fields(&wrong),
        [
            "joint.build.castellated_nut.minimum_torque_nm",
            "joint.build.stack.bolt_length_mm",
            "joint.build.castellated_nut.slots",
            "joint.build.castellated_nut.holes",
            "joint.build.castellated_nut.maximum_torque_nm",
        ]
    );
}

#[test]
fn what_is_said_of_a_build_reads_back_and_old_joints_have_none() {
    let mut bench = joint(A, tapped(Some(32.0), 24.0));
    rebuild(&mut bench, |build| {
        build.stack.tapped.as_mut().expect("tapped").insert = true;
        build.stack.parent_state = "corroded".into();
    });
    let fact = Fact::JointAdded((*bench.joint().fact).clone());
    let stored = serde_json::to_string(&fact).expect("JSON");
    assert_eq!(serde_json::from_str::<Fact>(&stored).expect("a fact"), fact);
    let old = serde_json::to_string(&Fact::JointAdded((*Bench::new(A).joint().fact).clone()));
    let old = old.expect("JSON");
    assert!(!old.contains("build"), "stored as it always was: {old}");
    let Fact::JointAdded(read) = serde_json::from_str(&old).expect("a fact") else {
        panic!("{old}");
    };
    assert_eq!(read.build, None);
    // The stored form, kept for ever.
    assert!(
        stored.contains(
            r#""build":{"layers":[{"metal":"mild steel","thickness_mm":12.0}],"tapped":{"metal":"cast aluminium","full_thread_mm":24.0,"blind":true,"insert":true},"parent_condition":"corroded","bolt_length_mm":32.0}"#
        ),
        "{stored}"
    );
}

fn told(bench: &Bench) -> SheetJoint {
    let scope = Scope {
        assembly: None,
        unit: Some(TorqueUnit::NewtonMetre),
    };
    let head = Head {
        entry: bench.job.last,
        hash: [7; 32],
        made: NOW,
    };
    let mut sheet = sheet(&bench.job, &scope, &bench.context(), &head);
    sheet.joints.remove(0)
}

fn lines(bench: &Bench) -> Vec<String> {
    told(bench).built.expect("it is told").lines()
}

#[test]
fn the_sheet_tells_length_engagement_and_what_governs() {
    let mut bench = joint(B, tapped(Some(32.0), 24.0));
    bench.take_out(out(1, 32.0));
    // 12 clamped, two diameters of thread wanted; 24 - 1.5 mm of it may be used. 580 MPa · 57.99 mm² = 33.6 kN.
    let lines = lines(&bench);
    assert!(
        lines[0].starts_with("Length 32 mm (wants at least 32 mm; bottoms beyond 34.5 mm): engages 20 mm; wanted by strength "),
        "{lines:?}"
    );
    assert!(lines[0].ends_with(", by rule of thumb 20 mm."), "{lines:?}");
    assert_eq!(
        lines[1..],
        ["Weakest: the bolt carries 33.6 kN; the target is 25.2 kN."]
    );
    assert!(told(&bench).rows[0].torque.nm().is_some());
}

/// Rounded to the nearest, a bolt that bottoms would be told to fit, and a thread that strips to be long enough.
#[test]
fn what_there_is_is_rounded_down_and_what_is_needed_up() {
    let mut bench = joint(B, tapped(Some(32.0), 24.06));
    bench.take_out(out(1, 32.0));
    let built = told(&bench).built.expect("it is told");
    // 12 clamped and 24.06 - 1.5 of thread: 34.56 mm.
    assert!(
        built.lines()[0].contains("bottoms beyond 34.5 mm"),
        "{built:?}"
    );
    let needed = (built.checked.as_ref())
        .expect("numbers")
        .engagement
        .by_strength_mm;
    let lines = built.lines();
    let shown = lines[0].split("wanted by strength ").nth(1);
    let shown = shown.and_then(|rest| rest.split(" mm").next());
    let shown: f64 = shown.expect("a length").parse().expect("a number");
    assert!(needed <= shown && shown < needed + 0.1, "{needed} {shown}");
    let nearest = (needed * 10.0).round() / 10.0;
    assert!(
        nearest < needed,
        "{needed}: the nearest would be too little"
    );
}

#[test]
fn the_sheet_of_a_stripping_joint_says_stop_and_which_part_governs() {
    let mut bench = joint(B, tapped(Some(21.5), 14.0));
    bench.take_out(out(1, 21.5));
    let joint = told(&bench);
    assert!(joint.rows.iter().all(|row| row.torque.nm().is_none()));
    assert!(
        joint.rows[0]
            .torque
            .to_string()
            .starts_with("STOP: the tapped thread (cast aluminium) carries 22.4 kN"),
        "{}",
        joint.rows[0].torque
    );
    let built = joint.built.expect("it is told");
    assert_eq!(
        built.lines().pop().as_deref(),
        Some("Weakest: the tapped thread carries 22.4 kN; the target is 25.2 kN.")
    );
    let weakest = built.checked.expect("numbers").weakest.expect("a part");
    assert_eq!(weakest.id, "tapped-thread");
}

#[test]
fn an_insert_and_the_state_of_the_metal_are_told() {
    let mut bench = joint(B, tapped(Some(32.0), 24.0));
    bench.take_out(out(1, 32.0));
    rebuild(&mut bench, |build| {
        build.stack.tapped.as_mut().expect("tapped").insert = true;
        build.stack.parent_state = "corroded".into();
    });
    assert_eq!(
        lines(&bench)[1],
        "Tapped into cast aluminium: corroded, helical insert."
    );
}

#[test]
fn without_a_specified_length_the_sheet_says_which_to_take() {
    let mut bench = joint(B, tapped(None, 40.0));
    bench.take_out(out(1, 32.0));
    // ISO 888: 35 mm is the next.
    assert_eq!(
        lines(&bench)[0],
        "Length wanted: at least 32 mm; bottoms beyond 50.5 mm; take 35 mm. Nobody said which length belongs here: only measured ones are checked."
    );
}

#[test]
fn inch_lengths_stay_inches() {
    let mut bench = Bench::with(|joint| {
        joint.hole_kind = HoleKind::Through;
        joint.build = Some(Box::new(JointBuild {
            stack: GripStack {
                layers: vec![layer("mild steel", 25.4)],
                bolt_length_mm: Some(1.75 * 25.4),
                ..GripStack::default()
            },
            ..JointBuild::default()
        }));
    });
    bench.take_out(crate::bench::sound(1));
    // ASME B18.2.2: a 7/16 nut is 3/8 in high; 1/20 in of thread past it: 1.425 in, 91.2 sixty-fourths, up: 92.
    let line = &lines(&bench)[0];
    assert_eq!(
        line,
        "Length 1-3/4 in (wants at least 1-7/16 in): stands 3/8 in out of the nut."
    );
}

#[test]
fn slots_are_told_and_a_published_range_only_while_nothing_stops() {
    let castle = |maximum| JointBuild {
        castle: Some(CastellatedNut {
            minimum_torque_nm: Some(40.0),
            maximum_torque_nm: maximum,
            ..CastellatedNut::default()
        }),
        ..nutted(30.0)
    };
    let slots = |build: JointBuild| {
        let mut bench = joint(A, build);
        bench.take_out(out(1, 30.0));
        lines(&bench).pop().expect("a line")
    };
    // DIN 935: six slots, 60 degrees of 1.5 mm pitch.
    let step = "Castellated nut: a slot every 60°, 0.25 mm of travel. Never back off to a slot; new split pin.";
    assert_eq!(slots(castle(None)), step);
    let narrow = slots(castle(Some(41.0)));
    assert_eq!(
        narrow,
        format!(
            "{step} Published range: at 40 N·m (29.5 lbf·ft) measure the angle to the next slot; never beyond 41 N·m (30.2 lbf·ft)."
        )
    );
    let mut stopped = castle(Some(41.0));
    stopped.stack.thread_length_mm = Some(5.0);
    assert_eq!(slots(stopped), step, "a stopped joint tells no torque");
}
