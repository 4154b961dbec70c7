//! What is said of a stack and cannot be: widths, planes, parts no table has.

use super::bolt_lengths::{blind, layer};
use clampbook_engine::{
    Catalogue, FaultReason,
    joint::{GripStack, LengthAsk},
};

/// No hexagon parts are kept for BSF: what the tables cannot give must be said, all of it.
#[test]
fn what_no_table_gives_must_be_said() {
    let catalogue = Catalogue::built_in();
    let layers = [layer(10.0)];
    let ask = |bearing_diameter_mm, hole_diameter_mm, nut_height_mm, tapped| {
        catalogue.resolve_length(&LengthAsk {
            thread: "1/4 BSF",
            stack: &GripStack {
                layers: layers.to_vec(),
                bearing_diameter_mm,
                hole_diameter_mm,
                nut_height_mm,
                tapped,
                ..GripStack::default()
            },
            shear_plane_mm: None,
        })
    };
    let (bearing, hole, nut) = (Some(11.0), Some(6.8), Some(5.0));
    assert!(ask(bearing, hole, nut, None).is_ok());
    assert!(ask(bearing, hole, None, blind(12.0)).is_ok());
    for faults in [
        ask(None, None, None, None),
        ask(bearing, None, nut, None),
        ask(None, hole, nut, None),
        ask(bearing, hole, None, None),
        ask(bearing, None, None, blind(12.0)),
    ] {
        let faults = faults.unwrap_err();
        let [fault] = &faults[..] else {
            panic!("{faults:?}");
        };
        assert_eq!(fault.field, "stack.bearing_diameter_mm");
        assert!(matches!(fault.reason, FaultReason::NoAcrossFlats { .. }));
    }
}

/// Faces and holes lie between the bolt's diameter and ten of it, and something is left between them.
#[test]
fn faces_and_holes_are_as_wide_as_can_be() {
    let catalogue = Catalogue::built_in();
    let layers = [layer(10.0)];
    let named = |bearing, hole| {
        let ask = LengthAsk {
            thread: "M10",
            stack: &GripStack {
                layers: layers.to_vec(),
                bearing_diameter_mm: Some(bearing),
                hole_diameter_mm: Some(hole),
                ..GripStack::default()
            },
            shear_plane_mm: None,
        };
        match catalogue.resolve_length(&ask) {
            Ok(_) => vec![],
            Err(faults) => faults.iter().map(|f| f.field).collect(),
        }
    };
    let (bearing, hole) = ("stack.bearing_diameter_mm", "stack.hole_diameter_mm");
    assert_eq!(named(100.0, 10.0), [""; 0]);
    assert_eq!(named(100.1, 10.0), [bearing]);
    assert_eq!(named(9.9, 9.9), [bearing, hole]);
    assert_eq!(named(100.0, 99.9), [""; 0]);
    assert_eq!(named(20.0, 20.0), [hole]);
    assert_eq!(named(20.0, 20.1), [hole]);
}

#[test]
fn a_shear_plane_that_cannot_be_is_refused() {
    let catalogue = Catalogue::built_in();
    let layers = [layer(30.0)];
    for plane in [0.0, -1.0, f64::NAN, f64::INFINITY, 3000.1] {
        let ask = LengthAsk {
            thread: "M10",
            stack: &GripStack {
                layers: layers.to_vec(),
                ..GripStack::default()
            },
            shear_plane_mm: Some(plane),
        };
        let faults = catalogue.resolve_length(&ask).unwrap_err();
        let named: Vec<_> = faults.iter().map(|f| f.field).collect();
        assert_eq!(named, ["shear_plane_mm"]);
    }
}
