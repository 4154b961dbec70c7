//! Room for the head.

use clampbook_engine::{
    Catalogue, Severity,
    joint::{GripLayer, GripStack, LengthAsk, fit_length},
};

/// The stack with 12 mm of steel in it.
fn clamping(stack: &GripStack) -> GripStack {
    GripStack {
        layers: vec![GripLayer {
            metal: "mild steel".into(),
            thickness_mm: 12.0,
            outer_diameter_mm: None,
        }],
        ..stack.clone()
    }
}

fn asked<'a>(thread: &'a str, stack: &'a GripStack) -> LengthAsk<'a> {
    LengthAsk {
        thread,
        stack,
        shear_plane_mm: None,
    }
}

/// ISO 4014: the head of M10 is 6.4 mm high and 16 mm across flats, 18.48 across sharp corners.
#[test]
fn a_head_that_touches_is_a_stop() {
    let catalogue = Catalogue::built_in();
    let found = |stack: GripStack| {
        let question = catalogue
            .resolve_length(&asked("M10", &clamping(&stack)))
            .unwrap();
        let lengths = fit_length(&question);
        let found = lengths.remarks.findings.iter();
        found
            .map(|f| (f.id, f.severity, f.share))
            .collect::<Vec<_>>()
    };
    let room = |head_room_mm| GripStack {
        head_room_mm: Some(head_room_mm),
        ..GripStack::default()
    };
    let space = |head_space_mm| GripStack {
        head_space_mm: Some(head_space_mm),
        ..GripStack::default()
    };
    assert_eq!(found(GripStack::default()), []);
    assert_eq!(found(room(6.4)), []);
    assert_eq!(found(room(3.2)), [("head-room", Severity::Stop, 2.0)]);
    assert_eq!(found(space(18.5)), []);
    assert_eq!(found(space(18.4))[0].0, "head-space");
    let socket = GripStack {
        head_height_mm: Some(10.0),
        head_diameter_mm: Some(16.0),
        head_room_mm: Some(9.0),
        head_space_mm: Some(18.0),
        ..GripStack::default()
    };
    assert_eq!(
        found(socket.clone()).len(),
        1,
        "only its height does not go in"
    );
    let as_wide_as = |space| GripStack {
        head_room_mm: Some(10.0),
        head_space_mm: Some(space),
        ..socket.clone()
    };
    assert_eq!(found(as_wide_as(16.0)), []);
    assert_eq!(
        found(as_wide_as(8.0)),
        [("head-space", Severity::Stop, 2.0)]
    );
}

#[test]
fn the_head_of_the_tables_is_cited_and_one_without_tables_is_asked_for() {
    let catalogue = Catalogue::built_in();
    let all_but_the_head = GripStack {
        head_room_mm: Some(9.0),
        bearing_diameter_mm: Some(20.0),
        hole_diameter_mm: Some(13.0),
        nut_height_mm: Some(10.0),
        ..GripStack::default()
    };
    let question = catalogue
        .resolve_length(&asked("M10", &clamping(&all_but_the_head)))
        .unwrap();
    let cited = fit_length(&question).remarks.sources;
    assert!(cited.iter().any(|c| c.source.id == "iso-4014"), "{cited:?}");
    let faults = catalogue
        .resolve_length(&asked("1/2 BSF", &clamping(&all_but_the_head)))
        .unwrap_err();
    assert_eq!(faults[0].field, "stack.head_height_mm");
    let given = GripStack {
        head_height_mm: Some(8.0),
        head_diameter_mm: Some(22.0),
        ..all_but_the_head
    };
    let question = catalogue.resolve_length(&asked("1/2 BSF", &clamping(&given)));
    assert_eq!(fit_length(&question.unwrap()).remarks.findings, []);
}

#[test]
fn room_that_is_none_is_named() {
    let catalogue = Catalogue::built_in();
    for wrong in [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e300] {
        let stack = GripStack {
            head_height_mm: Some(wrong),
            head_diameter_mm: Some(wrong),
            head_room_mm: Some(wrong),
            head_space_mm: Some(wrong),
            ..GripStack::default()
        };
        let faults = catalogue
            .resolve_length(&asked("M10", &clamping(&stack)))
            .unwrap_err();
        let fields: Vec<_> = faults.iter().map(|f| f.field).collect();
        let expected =
            ["room", "space", "height", "diameter"].map(|f| format!("stack.head_{f}_mm"));
        assert_eq!(fields, expected, "{wrong}");
    }
}
