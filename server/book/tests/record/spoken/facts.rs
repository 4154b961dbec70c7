//! Facts that are filled to the last field, and some of which little is known.
//!
//! They are written without defaults, so that a new field must be filled here before anything builds.

use clampbook_book::fact::*;
use clampbook_book::ids::{AssemblyId, JointId, LubricationId, PersonId, SpecificationId};
use clampbook_book::words::{
    Compared, Criticality, DecisionKind, FindingKind, FindingSeverity, HeatColour, HoldReason,
    HoleCheck, HoleKind, MarkKind, MediaType, Method, Outcome, PersonRole, Piece, PieceFate,
    SmallPart, SmallPartCondition, Step, Tick, Tightness, TorqueUnit,
};

pub(super) fn hub() -> JointId {
    JointId::new("hub").expect("a slug")
}

fn left() -> AssemblyId {
    AssemblyId::new("left").expect("a slug")
}

fn torque(said: &str) -> Option<SaidTorque> {
    Some(SaidTorque {
        said: said.into(),
        nm: 1.5,
    })
}

fn length(said: &str) -> SaidLength {
    SaidLength {
        said: said.into(),
        mm: 1.5,
    }
}

/// Every kind of fact, and every way to say one.
pub(super) fn all() -> Vec<Fact> {
    let mut all = vec![
        Fact::JobOpened(JobOpened {
            display_name: "Orchard tractor".into(),
            machine: "narrow, two cylinders".into(),
            torque_unit: Some(TorqueUnit::PoundForceFoot),
        }),
        Fact::AssemblyAdded(AssemblyAdded {
            assembly: left(),
            display_name: "Left hub".into(),
            counterpart: AssemblyId::new("right"),
        }),
        joint(tapped()),
        joint(castellated()),
        Fact::Marked(Marked {
            joint: hub(),
            position: 1,
            marks: vec![mark()],
            note: "both rods".into(),
        }),
        Fact::Removed(removed()),
        Fact::Removed(Removed {
            length: Some(LengthSeen::Compared(Compared::Longer)),
            ..removed()
        }),
        Fact::Decided(decided()),
        Fact::Refitted(refitted()),
        Fact::Refitted(by_maker()),
        Fact::Tightened(tightened()),
        Fact::CounterpartAnswered(answered(Shown::Reading("24.9 mm".into()))),
        Fact::CounterpartAnswered(answered(Shown::Photo("shelf 2".into()))),
        Fact::CounterpartAnswered(answered(Shown::AddedPhoto(14))),
        Fact::CounterpartAnswered(answered(Shown::NoSuchPart("Ada".into()))),
        corrected(Some(Fact::Removed(Removed {
            kept_in: "bag 4".into(),
            ..Removed::new(hub(), 3, Outcome::Seized)
        }))),
        corrected(None),
    ];
    all.extend(of_parts());
    all.extend(of_photos());
    all.extend(of_shop());
    all
}

/// Facts of which little is known, with what they say.
pub(super) fn short() -> Vec<(Fact, &'static str)> {
    let part = FastenerSpec {
        thread: "7/16-20".into(),
        length: length("1-3/4 in"),
        grade: String::new(),
        detail: None,
    };
    vec![
        (
            Fact::Removed(Removed::new(hub(), 3, Outcome::Normal)),
            "hub position 3: came out normal",
        ),
        (
            Fact::Decided(Decided {
                replacement: Some(part.clone()),
                reason: "bent".into(),
                ..Decided::new(hub(), 3, DecisionKind::Make)
            }),
            "hub position 3: make with 7/16-20 x 1-3/4 in, grade not shown; because bent",
        ),
        (
            Fact::Refitted(Refitted {
                new_part: Some(part),
                tightness: Some(Tightness::Final),
                torque: TorqueRead {
                    published: Some(WantedByMaker {
                        followed: followed(),
                        torque_nm: None,
                        minimum_nm: None,
                        maximum_nm: None,
                    }),
                    ..TorqueRead::default()
                },
                ..by_maker()
            }),
            "hub position 3: new in, 7/16-20 x 1-3/4 in, grade not shown; at its final torque; the record asks for the steps that \
             are PUBLISHED, hub-bolts revision 2",
        ),
        (
            Fact::Marked(Marked {
                joint: hub(),
                position: 0,
                marks: vec![mark()],
                note: String::new(),
            }),
            "hub: marked match marks: two dots",
        ),
        (
            Fact::SpecificationStated(SpecificationStated {
                grade: String::new(),
                lubrication: String::new(),
                purpose: "clamping".into(),
                minimum: None,
                maximum: None,
                unit_confirmed: false,
                note: String::new(),
                ..specification()
            }),
            "hub-bolts revision 2: Hub bolts; 40 N·m, then 90.5° further; for 7/16-20; lubrication not stated; purpose clamping; \
             see Manual, p. 12",
        ),
    ]
}

fn mark() -> Mark {
    Mark {
        what: MarkKind::MatchMarks,
        said: "two dots".into(),
    }
}

fn removed() -> Removed {
    Removed {
        joint: hub(),
        position: 3,
        outcome: Outcome::Seized,
        ticks: vec![Tick::Bent, Tick::Pitted],
        methods: vec![Method::Heat, Method::Hammer],
        heat_colour: Some(HeatColour::Red),
        heated_place: "head".into(),
        thread: "7/16-20".into(),
        length: Some(LengthSeen::Measured(length("1-3/4 in"))),
        head_marking: "three lines".into(),
        grade: "SAE J429 5".into(),
        breakaway: torque("60 lbf·ft"),
        kept_in: "bag 3".into(),
        note: "rust under the head".into(),
        assembled: Some(Box::new(Assembled {
            marks: vec![mark()],
            stack: vec![Stacked {
                piece: Piece::Shim,
                count: 2,
                thickness: Some(length("0.5 mm")),
                said: "brass".into(),
            }],
            parts: vec![PartSeen {
                part: SmallPart::Lock,
                found: SmallPartCondition::Missing,
                said: "wire".into(),
            }],
        })),
    }
}

fn fastener() -> FastenerSpec {
    FastenerSpec {
        thread: "7/16-20".into(),
        length: length("1-3/4 in"),
        grade: "SAE J429 5".into(),
        detail: Some(Box::new(FastenerDetail {
            form: "hexagon bolt".into(),
            finish: "zinc plated".into(),
            purpose: "clamping".into(),
            baked: true,
            thread_length_mm: Some(22.5),
            head_height_mm: Some(7.1),
            head_diameter_mm: Some(17.6),
        })),
    }
}

fn decided() -> Decided {
    Decided {
        joint: hub(),
        position: 3,
        kind: DecisionKind::Replace,
        replacement: Some(fastener()),
        hole_check: Some(HoleCheck::Repaired),
        grade_shown: "SAE J429 8".into(),
        citation: "parts list, p. 4".into(),
        reason: "bent".into(),
        hold_reason: Some(HoldReason::Part),
        hole_repair: "thread insert".into(),
        baking_shown: true,
        left_out_by: "Ada".into(),
    }
}

/// As it was said while how tight was part of it.
fn refitted() -> Refitted {
    Refitted {
        new_part: Some(fastener()),
        tightness: Some(Tightness::Snug),
        torque: read(),
        note: "turned in by hand".into(),
        with: Some(Box::new(FittedWith {
            as_it_came_out: true,
            pieces: vec![
                PieceFitted {
                    what: Thing::Piece(Piece::Washer),
                    count: 2,
                    is_new: true,
                    said: "hard".into(),
                },
                PieceFitted {
                    what: Thing::SmallPart(SmallPart::Nut),
                    count: 1,
                    is_new: true,
                    said: "nylon ring".into(),
                },
            ],
            prevailing_torque: torque("12 lbf·in"),
        })),
        ..Refitted::new(hub(), 3)
    }
}

fn tightened() -> Tightened {
    Tightened {
        joint: hub(),
        position: 3,
        step: Step::Final,
        note: "second go".into(),
        torque: read(),
    }
}

fn read() -> TorqueRead {
    TorqueRead {
        reading: torque("44 lbf·ft"),
        tool: "wrench TW1".into(),
        unit: None,
        wanted: Some(Wanted {
            torque_nm: 61.5,
            minimum_clamp_load_n: 20_500.5,
            maximum_clamp_load_n: 34_500.5,
            nut_factor: 0.16,
            catalog_edition: "2026.11".into(),
            own_tests: "own tests of Ada".into(),
        }),
        published: None,
    }
}

fn followed() -> Followed {
    Followed {
        specification: SpecificationId::new("hub-bolts").expect("a slug"),
        revision: 2,
    }
}

fn by_maker() -> Refitted {
    Refitted {
        tightness: Some(Tightness::Snug),
        torque: TorqueRead {
            unit: Some(TorqueUnit::NewtonMetre),
            published: Some(WantedByMaker {
                followed: followed(),
                torque_nm: Some(67.79),
                minimum_nm: Some(61.01),
                maximum_nm: Some(74.57),
            }),
            ..TorqueRead::default()
        },
        ..Refitted::new(hub(), 3)
    }
}

fn answered(shown: Shown) -> CounterpartAnswered {
    CounterpartAnswered {
        finding: 12,
        shown,
        note: "looked at twice".into(),
    }
}

fn corrected(with: Option<Fact>) -> Fact {
    let reason = match with {
        Some(_) => "wrong bag",
        None => "another hole",
    };
    Fact::Corrected(Corrected {
        replaces: 7,
        with: with.map(Box::new),
        reason: reason.into(),
    })
}

fn of_parts() -> Vec<Fact> {
    let accounted = |what| {
        Fact::NotRefitted(NotRefitted {
            joint: hub(),
            position: 3,
            what,
            count: 2,
            became: PieceFate::WrittenOff,
            why: "torn".into(),
        })
    };
    vec![
        accounted(Thing::Piece(Piece::Shim)),
        accounted(Thing::SmallPart(SmallPart::Pin)),
        accounted(Thing::Fastener),
        Fact::PartFound(PartFound {
            assembly: left(),
            joint: Some(hub()),
            part: "spindle".into(),
            kind: FindingKind::Wear,
            severity: FindingSeverity::Ruined,
            criticality: Some(Criticality::A),
            cause: "ran dry".into(),
            reading: "24.61 mm".into(),
            note: "blue at the root".into(),
        }),
        Fact::PartWanted(PartWanted {
            assembly: left(),
            joint: Some(hub()),
            what: "gasket".into(),
            quantity: 2,
            why: "torn".into(),
            part_number: "1234".into(),
            note: "thick one".into(),
        }),
        Fact::PartArrived(PartArrived {
            assembly: left(),
            what: "gasket".into(),
            quantity: 2,
            reference: "note 77".into(),
            note: "one is creased".into(),
        }),
    ]
}

fn of_photos() -> Vec<Fact> {
    let added = |of| {
        Fact::PhotoAdded(PhotoAdded {
            of,
            hash: ContentHash([7; 32]),
            size_bytes: 2_049,
            media_type: MediaType::Jpeg,
            caption: "bracket under the head".into(),
        })
    };
    let of = [
        PhotoOf::Job,
        PhotoOf::Assembly(left()),
        PhotoOf::Joint(hub()),
        PhotoOf::Position(hub(), 3),
        PhotoOf::Finding(12),
    ];
    of.into_iter().map(added).collect()
}

fn specification() -> SpecificationStated {
    SpecificationStated {
        specification: followed().specification,
        revision: 2,
        display_name: "Hub bolts".into(),
        thread: "7/16-20".into(),
        grade: "SAE J429 5".into(),
        lubrication: "oiled".into(),
        purpose: "clamping".into(),
        steps: vec![
            SpecifiedStep::Torque(torque("40 N·m").expect("one")),
            SpecifiedStep::TurnDegrees(90.5),
        ],
        minimum: torque("38 N·m"),
        maximum: torque("42 N·m"),
        citation: "Manual, p. 12".into(),
        unit_confirmed: true,
        note: "late ones".into(),
    }
}

fn of_shop() -> Vec<Fact> {
    let paste = LubricationId::new("bench-paste").expect("a slug");
    let ida = PersonId::new("ida").expect("a slug");
    vec![
        Fact::LubricationStated(LubricationStated {
            lubrication: paste.clone(),
            revision: 2,
            display_name: "Bench paste".into(),
            nut_factor: 0.15,
            low_nut_factor: 0.13,
            high_nut_factor: 0.17,
            lubricated: true,
            test_count: 12,
            tested_by: "Ada".into(),
            tested_on: "2026-03-02".into(),
            tested: "7/16-20 grade 5, load cell".into(),
            note: "stirred before use".into(),
        }),
        Fact::LubricationWithdrawn(LubricationWithdrawn {
            lubrication: paste,
            reason: "the tin is empty".into(),
        }),
        Fact::SpecificationStated(specification()),
        Fact::SpecificationWithdrawn(SpecificationWithdrawn {
            specification: followed().specification,
            reason: "of another year".into(),
        }),
        Fact::PersonStated(PersonStated {
            person: ida.clone(),
            name: "Ida Holm".into(),
            roles: vec![PersonRole::Mechanic, PersonRole::Lead],
        }),
        Fact::PersonWithdrawn(PersonWithdrawn {
            person: ida,
            reason: "moved away".into(),
        }),
    ]
}

fn tapped() -> JointBuild {
    JointBuild {
        stack: GripStack {
            layers: vec![GripLayer {
                metal: "steel".into(),
                thickness_mm: 12.5,
                outer_diameter_mm: Some(24.5),
            }],
            tapped: Some(TappedHole {
                metal: "grey cast iron".into(),
                shear_mpa: Some(200.5),
                full_thread_mm: 22.5,
                blind: true,
                insert: true,
            }),
            parent_state: "first turn pulled".into(),
            bolt_length_mm: Some(45.5),
            thread_length_mm: Some(24.5),
            nut_height_mm: Some(9.5),
            bearing_diameter_mm: Some(15.5),
            hole_diameter_mm: Some(11.5),
            head_height_mm: Some(7.5),
            head_diameter_mm: Some(18.5),
            head_room_mm: Some(30.5),
            head_space_mm: Some(26.5),
        },
        close_fit: true,
        shear_plane_mm: Some(12.5),
        castle: None,
    }
}

fn castellated() -> JointBuild {
    JointBuild {
        stack: GripStack {
            tapped: None,
            ..tapped().stack
        },
        castle: Some(CastellatedNut {
            slots: Some(6),
            holes: Some(2),
            minimum_torque_nm: Some(60.5),
            maximum_torque_nm: Some(80.5),
        }),
        ..tapped()
    }
}

fn joint(build: JointBuild) -> Fact {
    Fact::JointAdded(JointAdded {
        joint: hub(),
        assembly: left(),
        display_name: "Hub to spindle".into(),
        layout: Layout::Grid { rows: 2 },
        labels: vec!["upper rear".into(), "lower rear".into()],
        criticality: Criticality::A,
        hole_kind: HoleKind::TappedBlind,
        purpose: "clamping".into(),
        target: Some(Target {
            thread: "7/16-20".into(),
            grade: "SAE J429 5".into(),
            lubrication: "oiled".into(),
            proof_share: Some(0.75),
            clamp_load_n: Some(20_500.5),
            nut_factor: Some(0.16),
            nut_grade: Some("SAE J995 5".into()),
            baked: true,
        }),
        lock: "tab washer".into(),
        preparation: "clean and dry".into(),
        computed_torque_approver: "Ada".into(),
        build: Some(Box::new(build)),
        specification: Some(followed()),
    })
}
