//! What presses on what in a joint, and what sinks in: the M10 of [`super::partners`].
//!
//! VDI 2230, table A9 (from memory): mild steel takes 490 MPa, cast aluminium 220, alloy steel 850.

use super::{
    exactly,
    partners::{check, close, into, layer, m10},
};
use clampbook_engine::{
    Ask, Severity,
    joint::{GripLayer, GripStack},
};

/// Bearing ring of an M10 (ISO 4014: 14.63 mm on a hole of 11): 73.07 mm²; a washer of 20 mm: 219.1 mm².
#[test]
fn a_washer_spreads_what_the_head_presses() {
    let washer = GripLayer {
        outer_diameter_mm: Some(20.0),
        ..layer("alloy steel", 2.0)
    };
    let stack = GripStack {
        layers: vec![washer.clone(), layer("cast aluminium", 30.0)],
        ..GripStack::default()
    };
    let faces = check(m10(), stack.clone()).bearing;
    let expected = [
        ("head on alloy steel", 345.2, 431.5, 850.0),
        (
            "washer of alloy steel on cast aluminium",
            115.1,
            143.9,
            220.0,
        ),
        ("nut on cast aluminium", 345.2, 431.5, 220.0),
    ];
    assert_eq!(faces.len(), expected.len(), "{faces:?}");
    for (face, (name, nominal, maximum, allowed)) in faces.iter().zip(expected) {
        assert_eq!(face.face, name);
        close(face.nominal.get(), nominal);
        close(face.maximum.get(), maximum);
        assert_eq!(face.allowed.get(), allowed);
    }
    // A ring no wider than the hole spreads nothing.
    let thin = GripLayer {
        outer_diameter_mm: Some(11.0),
        ..washer
    };
    let stack = GripStack {
        layers: vec![thin, layer("cast aluminium", 30.0)],
        ..stack
    };
    assert_eq!(check(m10(), stack.clone()).bearing.len(), 2);
    // A tapped hole has no nut to press.
    let stack = GripStack {
        tapped: into("mild steel", 15.0),
        ..stack
    };
    assert_eq!(check(m10(), stack).bearing.len(), 1);
}

/// Mild steel takes 490 MPa, on 73.07 mm² 35.8 kN; the maximum clamp load is 1.25 of the one aimed at.
#[test]
fn a_face_sinks_in_or_may_sink_in() {
    let pressed = |load: f64| {
        let torque = Ask {
            clamp_load_n: Some(load),
            ..m10()
        };
        let stack = GripStack {
            layers: vec![layer("mild steel", 10.0)],
            tapped: into("alloy steel", 20.0),
            bolt_length_mm: Some(25.0),
            ..GripStack::default()
        };
        check(torque, stack)
    };
    let found = |load: f64| {
        let check = pressed(load);
        let mut found = check.remarks.findings.iter();
        let bearing = found.find(|f| f.id.starts_with("bearing-pressure"));
        bearing.map(|f| (f.id, f.severity, f.share))
    };
    assert_eq!(found(28_000.0), None);
    let (id, severity, share) = found(30_000.0).unwrap();
    let may = ("bearing-pressure-at-maximum", Severity::Note);
    assert_eq!((id, severity), may);
    close(share, 37_500.0 / 73.07 / 490.0);
    let (id, severity, share) = found(36_000.0).unwrap();
    assert_eq!((id, severity), ("bearing-pressure", Severity::Caution));
    close(share, 36_000.0 / 73.07 / 490.0);
    // A pressure exactly as allowed is allowed.
    let at = |load| pressed(load).bearing[0].nominal.get();
    let (id, ..) = found(exactly(490.0 * 73.07, 490.0, at)).unwrap();
    assert_eq!(id, "bearing-pressure-at-maximum");
    let at = |load| pressed(load).bearing[0].maximum.get();
    assert_eq!(found(exactly(490.0 * 73.07 / 1.25, 490.0, at)), None);
}
