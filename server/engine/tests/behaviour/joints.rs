//! Joints as a whole: what physics demands of every answer, and numbers that are none.

use clampbook_engine::{
    Ask, Catalogue, Severity,
    joint::{
        CastleAsk, GripLayer, GripStack, JointAsk, LengthAsk, MOST_LAYERS, StretchAsk, TappedHole,
        Verdict, align, check::JointFaults, check_joint, fit_length, stretch,
    },
    long_form::{LongAsk, compute_long_form},
};

const NO_LENGTHS: [f64; 6] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 1e300];

fn torque<'a>() -> Ask<'a> {
    Ask {
        thread: "M10",
        grade: "8.8",
        lubrication: "oiled",
        ..Ask::default()
    }
}

fn layer(metal: &str, thickness_mm: f64) -> GripLayer {
    GripLayer {
        metal: metal.into(),
        thickness_mm,
        outer_diameter_mm: None,
    }
}

fn tapped(full_thread_mm: f64) -> Option<TappedHole> {
    Some(TappedHole {
        metal: "cast aluminium".into(),
        full_thread_mm,
        blind: true,
        shear_mpa: None,
        insert: false,
    })
}

#[test]
fn an_insert_bears_as_much_more_as_its_hole_is_wider() {
    let catalogue = Catalogue::built_in();
    let layers = [layer("mild steel", 12.0)];
    let bears = |thread, insert| {
        let ask = JointAsk {
            torque: Ask { thread, ..torque() },
            stack: &GripStack {
                layers: layers.to_vec(),
                tapped: tapped(30.0).map(|hole| TappedHole { insert, ..hole }),
                bolt_length_mm: Some(30.0),
                ..GripStack::default()
            },
            ..JointAsk::default()
        };
        let checked = check_joint(&catalogue.resolve_joint(&ask)?);
        let thread = checked.partners.iter().find(|p| p.id == "tapped-thread");
        Ok(thread.map(|p| p.capacity.get()).unwrap_or_default())
    };
    // ASME B18.29.1 (from memory): the hole of an M10x1.5 insert has a major diameter of 11.949 mm.
    let gain = bears("M10", true).unwrap() / bears("M10", false).unwrap();
    assert!((gain - 1.1949).abs() < 0.000_05, "{gain}");
    let refused: JointFaults = bears("1/2 BSW", true).unwrap_err();
    assert!(
        refused
            .stack
            .iter()
            .any(|f| f.field == "stack.tapped.insert")
    );
}

#[test]
fn more_engagement_bears_more_until_the_hole_is_full() {
    let catalogue = Catalogue::built_in();
    let layers = [layer("mild steel", 12.0)];
    let bears = |length| {
        let ask = JointAsk {
            torque: torque(),
            stack: &GripStack {
                layers: layers.to_vec(),
                tapped: tapped(30.0),
                bolt_length_mm: Some(length),
                ..GripStack::default()
            },
            ..JointAsk::default()
        };
        let checked = check_joint(&catalogue.resolve_joint(&ask).unwrap());
        let thread = checked.partners.iter().find(|p| p.id == "tapped-thread");
        thread.unwrap().capacity.get()
    };
    assert!(bears(20.0) < bears(25.0) && bears(25.0) < bears(40.0));
    // What does not go into thread bears nothing more.
    assert_eq!(bears(42.0), bears(60.0));
    assert_eq!(bears(11.0), 0.0);
}

/// A bolt bottoms when it reaches further than full thread less one pitch: 20 - 1.5 of an M10.
#[test]
fn bottoming_begins_one_pitch_before_the_end() {
    let catalogue = Catalogue::built_in();
    let layers = [layer("mild steel", 12.0)];
    let stops = |length| {
        let ask = LengthAsk {
            thread: "M10",
            stack: &GripStack {
                layers: layers.to_vec(),
                tapped: tapped(20.0),
                bolt_length_mm: Some(length),
                thread_length_mm: Some(length),
                ..GripStack::default()
            },
            shear_plane_mm: None,
        };
        let found = fit_length(&catalogue.resolve_length(&ask).unwrap());
        let bottoms = |f: &&clampbook_engine::remarks::Remark| f.id == "bottoming";
        found
            .remarks
            .findings
            .iter()
            .find(bottoms)
            .map(|f| f.severity)
    };
    assert_eq!(stops(30.5), None);
    assert_eq!(stops(30.51), Some(Severity::Stop));
}

#[test]
fn a_nut_that_is_not_filled_is_a_stop_and_one_just_filled_a_caution() {
    let catalogue = Catalogue::built_in();
    let layers = [layer("mild steel", 30.0)];
    // 30 mm and a nut of 8.4: filled at 38.4, one thread out at 39.9.
    for (length, found) in [
        (29.0, Some(("too-short", Severity::Stop))),
        (38.0, Some(("nut-not-filled", Severity::Stop))),
        (39.0, Some(("protrusion", Severity::Caution))),
        (40.0, None),
    ] {
        let ask = LengthAsk {
            thread: "M10",
            stack: &GripStack {
                layers: layers.to_vec(),
                bolt_length_mm: Some(length),
                thread_length_mm: Some(26.0),
                ..GripStack::default()
            },
            shear_plane_mm: None,
        };
        let lengths = fit_length(&catalogue.resolve_length(&ask).unwrap());
        let worst = lengths.remarks.findings.first();
        assert_eq!(worst.map(|f| (f.id, f.severity)), found, "{length}");
        assert!(worst.is_none_or(|f| f.share > 1.0), "{length}");
    }
}

#[test]
fn every_wrong_number_of_a_stack_is_named_at_once() {
    let catalogue = Catalogue::built_in();
    for wrong in NO_LENGTHS {
        let layers = [layer("mild steel", wrong), layer("cheese", 10.0)];
        let ask = LengthAsk {
            thread: "M10",
            stack: &GripStack {
                layers: layers.to_vec(),
                bolt_length_mm: Some(wrong),
                nut_height_mm: Some(wrong),
                hole_diameter_mm: Some(wrong),
                ..GripStack::default()
            },
            shear_plane_mm: Some(wrong),
        };
        let faults = catalogue.resolve_length(&ask).unwrap_err();
        let named: Vec<_> = faults.iter().map(|f| f.field).collect();
        for field in [
            "stack.layers[0].thickness_mm",
            "stack.layers[1].metal",
            "stack.bolt_length_mm",
            "stack.nut_height_mm",
            "stack.hole_diameter_mm",
            "shear_plane_mm",
        ] {
            assert!(named.contains(&field), "{wrong}: {field} not in {named:?}");
        }
    }
    let many = vec![layer("mild steel", 5.0); MOST_LAYERS + 1];
    for layers in [Vec::new(), many] {
        let ask = LengthAsk {
            thread: "M10",
            stack: &GripStack {
                layers,
                ..GripStack::default()
            },
            shear_plane_mm: None,
        };
        let faults = catalogue.resolve_length(&ask).unwrap_err();
        assert_eq!(faults[0].field, "stack.layers");
    }
}

#[test]
fn friction_that_is_none_is_refused() {
    let catalogue = Catalogue::built_in();
    for wrong in NO_LENGTHS {
        let ask = LongAsk {
            thread: "M10",
            grade: "8.8",
            thread_friction: wrong,
            bearing_friction: wrong,
            cone_half_angle_degrees: Some(wrong),
            bearing_diameter_mm: Some(wrong),
            ..LongAsk::default()
        };
        let faults = catalogue.resolve_long_form(&ask).unwrap_err();
        let named: Vec<_> = faults.iter().map(|f| f.field).collect();
        assert_eq!(
            named,
            [
                "thread_friction",
                "bearing_friction",
                "bearing_diameter_mm",
                "cone_half_angle_degrees",
            ],
            "{wrong}"
        );
    }
}

#[test]
fn a_cone_takes_more_torque_than_a_flat_seat_and_torque_grows_with_load() {
    let catalogue = Catalogue::built_in();
    let torque = |cone, load| {
        let ask = LongAsk {
            thread: "M12",
            grade: "8.8",
            thread_friction: 0.12,
            bearing_friction: 0.12,
            cone_half_angle_degrees: cone,
            clamp_load_n: Some(load),
            ..LongAsk::default()
        };
        compute_long_form(&catalogue.resolve_long_form(&ask).unwrap())
            .torque
            .get()
    };
    assert!(torque(Some(30.0), 20_000.0) > torque(None, 20_000.0));
    assert!(torque(None, 20_001.0) > torque(None, 20_000.0));
}

fn castle(stack: &GripStack) -> CastleAsk<'_> {
    CastleAsk {
        stretch: StretchAsk {
            torque: Ask {
                thread: "1/2-20",
                grade: "SAE J429 5",
                lubrication: "dry",
                ..Ask::default()
            },
            stack,
            ..StretchAsk::default()
        },
        minimum_torque_nm: 80.0,
        maximum_torque_nm: Some(110.0),
        ..CastleAsk::default()
    }
}

fn steel() -> GripStack {
    GripStack {
        layers: vec![layer("mild steel", 40.0)],
        bolt_length_mm: Some(65.0),
        ..GripStack::default()
    }
}

/// Whatever the angle: advanced torque stays inside the published range, and a change of washers
/// brings the slot inside it.
#[test]
fn a_slot_never_leads_beyond_the_published_maximum() {
    let catalogue = Catalogue::built_in();
    let steel = steel();
    let mut seen = [false; 2];
    for tenths in 0..=600 {
        let angle = f64::from(tenths) / 10.0;
        let ask = CastleAsk {
            to_slot_degrees: Some(angle),
            prevailing_torque_nm: Some(5.0),
            ..castle(&steel)
        };
        let answer = align(&catalogue.resolve_castle(&ask).unwrap());
        let window = answer.window.unwrap().get();
        match answer.verdict {
            Verdict::Advance { torque_nm } => {
                let torque = torque_nm.unwrap();
                assert!((85.0..=115.000_001).contains(&torque), "{angle}: {torque}");
                seen[0] = true;
            }
            Verdict::ChangeWasher {
                thinner_mm,
                thicker_mm,
            } => {
                // Thinner takes from the angle, thicker adds and comes from the slot before.
                for mm in [thinner_mm.0, thinner_mm.1] {
                    let left = angle - mm / 1.27 * 360.0;
                    assert!((-1e-9..=window + 1e-9).contains(&left), "{angle}: {left}");
                }
                for mm in [thicker_mm.0, thicker_mm.1] {
                    let left = angle + mm / 1.27 * 360.0 - 60.0;
                    assert!((-1e-9..=window + 1e-9).contains(&left), "{angle}: {left}");
                }
                seen[1] = true;
            }
            other => panic!("{angle}: {other:?}"),
        }
    }
    assert_eq!(seen, [true, true]);
}

#[test]
fn without_a_published_maximum_or_beyond_yield_no_answer_is_given() {
    let catalogue = Catalogue::built_in();
    let steel = steel();
    let verdict = |ask: &CastleAsk<'_>| align(&catalogue.resolve_castle(ask).unwrap()).verdict.id();
    let asked = castle(&steel);
    assert_eq!(verdict(&asked), "measure");
    let nameless = CastleAsk {
        maximum_torque_nm: None,
        ..asked
    };
    assert_eq!(verdict(&nameless), "refuse");
    // 80 N·m need 31.5 kN dry; on moly the same torque is far beyond the bolt's yield at 400.
    let mut slippery = CastleAsk {
        minimum_torque_nm: 400.0,
        maximum_torque_nm: Some(500.0),
        ..asked
    };
    slippery.stretch.torque.lubrication = "moly";
    assert_eq!(verdict(&slippery), "refuse");
}

#[test]
fn a_stiffer_bolt_takes_more_of_a_load_from_outside() {
    let catalogue = Catalogue::built_in();
    let share = |metal| {
        let layers = [layer(metal, 40.0)];
        let ask = StretchAsk {
            torque: torque(),
            stack: &GripStack {
                layers: layers.to_vec(),
                bolt_length_mm: Some(60.0),
                ..GripStack::default()
            },
            ..StretchAsk::default()
        };
        stretch(&catalogue.resolve_stretch(&ask).unwrap()).load_share
    };
    assert!(share("cast magnesium") > share("grey cast iron"));
    assert!(share("grey cast iron") > share("mild steel"));
}
