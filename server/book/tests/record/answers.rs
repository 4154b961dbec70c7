//! What an answer of the engine says: each number stands in its sentence, in the units of its thread.

use clampbook_book::answers;
use clampbook_engine::joint::{
    CastleAsk, GripLayer, GripStack, JointAsk, JointCheck, StretchAsk, TappedHole, align,
    check_joint, stretch,
};
use clampbook_engine::long_form::{LongAsk, compute_long_form};
use clampbook_engine::quantity::{Torque, TorqueUnit};
use clampbook_engine::units::NewtonMetres;
use clampbook_engine::wrench::{Calibration, Reading, Wrench};
use clampbook_engine::{Ask, Catalogue};
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

const NM: TorqueUnit = TorqueUnit::NewtonMetre;
const FOOT: TorqueUnit = TorqueUnit::PoundForceFoot;

const M10: Ask<'static> = Ask {
    thread: "M10",
    grade: "8.8",
    lubrication: "oiled",
    ..NOTHING
};

const NOTHING: Ask<'static> = Ask {
    thread: "",
    grade: "",
    lubrication: "",
    proof_share: None,
    clamp_load_n: None,
    nut_factor: None,
    nut_grade: None,
    purpose: clampbook_engine::Purpose::Clamping,
    baked: false,
};

fn stack(thickness_mm: f64, bolt_length_mm: f64, tapped: Option<f64>) -> GripStack {
    GripStack {
        layers: vec![GripLayer {
            metal: "mild steel".into(),
            thickness_mm,
            outer_diameter_mm: None,
        }],
        tapped: tapped.map(|full_thread_mm| TappedHole {
            metal: "cast aluminium".into(),
            full_thread_mm,
            blind: true,
            ..TappedHole::default()
        }),
        bolt_length_mm: Some(bolt_length_mm),
        ..GripStack::default()
    }
}

fn checked(torque: Ask<'_>, stack: &GripStack) -> JointCheck<'static> {
    let ask = JointAsk {
        torque,
        stack,
        ..JointAsk::default()
    };
    check_joint(&CATALOGUE.resolve_joint(&ask).expect("a question"))
}

/// ISO 898-1: 580 MPa on 57.99 mm² are 33.6 kN, three quarters of it 25.2. 12 mm clamped and two diameters of thread make 32 mm;
/// 24 - 1.5 mm of thread may be used.
#[test]
fn a_metric_joint_is_told_in_millimetres_and_kilonewtons() {
    let joint = checked(M10, &stack(12.0, 32.0, Some(24.0)));
    let family = CATALOGUE.thread("M10").expect("a thread").system();
    assert_eq!(
        answers::target(&joint.answer, NM),
        "25.2 kN, governed by 0.75 of the bolt's proof load of 33.6 kN."
    );
    assert_eq!(
        answers::lengths(&joint.lengths, family),
        "12 mm clamped; at least 32 mm needed, at most 34.5 mm in this blind hole."
    );
    let bolt = joint.lengths.at_hand.expect("a bolt");
    let does = answers::at_hand(&bolt, family);
    assert!(
        does.starts_with("reaches 20 mm past the clamped parts, 20 mm engaged; body "),
        "{does}"
    );
    let engagement = answers::engagement(&joint.engagement, family);
    assert!(
        engagement.starts_with("20 mm there; wanted are "),
        "{engagement}"
    );
    assert!(
        engagement.ends_with(" by strength, 20 mm by rule of thumb."),
        "{engagement}"
    );
    let parts: Vec<String> = (joint.partners.iter())
        .map(|partner| answers::partner(partner, NM))
        .collect();
    assert!(
        parts.contains(&"bolt proof bears 33.6 kN.".to_owned()),
        "{parts:?}"
    );
    // ISO 4014: 14.63 mm on a hole of 11 mm are 73.07 mm²; VDI 2230, table A9 (from memory): mild steel takes 490 MPa.
    assert_eq!(
        answers::face(&joint.bearing[0]),
        "head on mild steel: 345 MPa to 432 MPa, allowed 490 MPa."
    );
}

/// ASME B18.2.2: a 7/16 nut is 3/8 in high; with 1/20 in of thread past it 1.425 in, which is up to 1-7/16.
#[test]
fn an_inch_joint_is_told_in_fractions_and_pounds() {
    let torque = Ask {
        thread: "7/16-20",
        grade: "SAE J429 5",
        ..M10
    };
    let joint = checked(torque, &stack(25.4, 1.75 * 25.4, None));
    let family = CATALOGUE.thread("7/16-20").expect("a thread").system();
    assert_eq!(
        answers::lengths(&joint.lengths, family),
        "1 in clamped; at least 1-7/16 in needed."
    );
    assert_eq!(answers::standard(&joint.lengths, family), "1-1/2 in");
    assert_eq!(
        answers::target(&joint.answer, FOOT),
        "7570 lbf, governed by 0.75 of the bolt's proof load of 10100 lbf."
    );
    let asked = Ask {
        clamp_load_n: Some(20_000.0),
        ..torque
    };
    let joint = checked(asked, &stack(25.4, 1.75 * 25.4, None));
    assert_eq!(
        answers::target(&joint.answer, FOOT),
        "4500 lbf, as asked, 0.45 of the bolt's proof load of 10100 lbf."
    );
}

#[test]
fn every_number_of_a_torque_by_the_long_form_is_told() {
    let ask = LongAsk {
        thread: "M10",
        grade: "8.8",
        thread_friction: 0.12,
        bearing_friction: 0.14,
        friction_low: Some(0.1),
        friction_high: Some(0.16),
        clamp_load_n: Some(20_000.0),
        ..LongAsk::default()
    };
    let answer = compute_long_form(&CATALOGUE.resolve_long_form(&ask).expect("a question"));
    assert_eq!(
        answers::long_target(&answer, NM),
        "Target 20 kN, governed by wanted clamp load; working load 33.6 kN."
    );
    // P/(2π) of 1.5 mm times 20 kN.
    let parts = answers::parts(&answer, NM);
    assert!(
        parts.starts_with("4.77 N·m (42.3 lbf·in) stretch the bolt, "),
        "{parts}"
    );
    assert!(parts.ends_with(" loosen it."), "{parts}");
    let stress = answers::stress(&answer);
    assert!(
        stress.contains(" MPa of 640 MPa to yield while tightening"),
        "{stress}"
    );
    let friction = answers::friction(&answer.friction.expect("both ends"), NM);
    assert!(
        friction.starts_with("From the lowest to the highest friction"),
        "{friction}"
    );
    assert!(friction.ends_with(" kN."), "{friction}");
}

#[test]
fn how_a_joint_gives_and_what_a_slot_means_is_told() {
    let stack = stack(40.0, 60.0, None);
    let asked = StretchAsk {
        torque: M10,
        stack: &stack,
        ..StretchAsk::default()
    };
    let found = stretch(&CATALOGUE.resolve_stretch(&asked).expect("a question"));
    assert!(answers::gives(&found).contains(" µm, the parts are compressed by "));
    assert!(answers::stiffness(&found).contains(" kN/mm, parts "));
    assert!(answers::settling(&found, NM).ends_with(" kN of clamp load."));
    let slots = |to_slot_degrees| {
        let ask = CastleAsk {
            stretch: asked,
            minimum_torque_nm: 30.0,
            maximum_torque_nm: Some(45.0),
            to_slot_degrees,
            ..CastleAsk::default()
        };
        align(&CATALOGUE.resolve_castle(&ask).expect("a question"))
    };
    let measured = slots(Some(2.0));
    let deed = answers::deed(&measured.verdict, NM);
    assert!(deed.starts_with("Tighten to the slot: about 3"), "{deed}");
    // DIN 935: six slots, 60° of 1.5 mm pitch.
    let told = answers::slots(&measured, NM);
    assert!(
        told.starts_with("60° from slot to slot, 250 µm of travel, "),
        "{told}"
    );
    let far = slots(Some(40.0));
    assert_eq!(answers::deed(&far.verdict, NM), "Change the washers");
    let washers = answers::washers(&far.verdict);
    assert!(washers.starts_with("Thinner by 0."), "{washers}");
    assert_eq!(answers::washers(&measured.verdict), "");
}

#[test]
fn a_wrench_tells_its_setting_in_its_own_unit_or_that_it_must_not_be_used() {
    let torque = |text: &str| Torque::parse(text).expect("a torque");
    let graduation = torque("1 lbf·ft");
    let wrench = Wrench {
        minimum: None,
        maximum: torque("150 lbf·ft").torque,
        graduation: graduation.torque,
        stated_deviation: Some(0.04),
        calibration: Calibration::InDate,
    };
    let setting = NewtonMetres::new(80.0).expect("a torque");
    let fit = wrench.judge(setting);
    let read = fit.set.map(|set| Reading::on(&graduation, set));
    // 80 N·m are 59.0 lbf·ft (NIST SP 811); 4 % either way are 56.6 and 61.4.
    assert_eq!(
        answers::one_wrench("A", &wrench, &fit, read.as_ref()),
        "A: 59 lbf·ft, really 56.6 lbf·ft (76.8 N·m) to 61.4 lbf·ft (83.2 N·m) (4 % either way)."
    );
    let far = wrench.judge(NewtonMetres::new(400.0).expect("a torque"));
    let told = answers::one_wrench("A", &wrench, &far, None);
    assert!(
        told.starts_with("A: not to be used at 196.7 % of its scale."),
        "{told}"
    );
}
