//! Any stack of layers is a joint or is refused; what is answered about lengths, weak partners, stretch and slots is a number.

#![no_main]

use clampbook_engine::joint::{
    CastleAsk, JointAsk, GripLayer, LengthAsk, GripStack, StretchAsk, TappedHole, Verdict, align,
    check_joint, fit_length, stretch,
};
use clampbook_engine::{Ask, Catalogue};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

type Words<'a> = (&'a str, &'a str, &'a str);
type Layers<'a> = Vec<(u8, f64, Option<f64>)>;
type Numbers = [Option<f64>; 12];

fuzz_target!(|input: (Words<'_>, Layers<'_>, Option<(u8, f64, bool)>, Numbers)| {
    let ((thread, grade, lubrication), layers, tapped, n) = input;
    let metals: Vec<String> = clampbook_engine::metal::Metal::all().map(|m| m.to_string()).collect();
    let metal = |index: u8| metals.get(usize::from(index)).map_or("cheese", String::as_str);
    let layers: Vec<GripLayer> = layers
        .iter()
        .take(9)
        .map(|(index, thickness_mm, outer_diameter_mm)| GripLayer {
            metal: metal(*index).to_owned(),
            thickness_mm: *thickness_mm,
            outer_diameter_mm: *outer_diameter_mm,
        })
        .collect();
    let stack = GripStack {
        layers,
        tapped: tapped.map(|(index, full_thread_mm, blind)| TappedHole {
            metal: metal(index).to_owned(),
            full_thread_mm,
            blind,
            ..TappedHole::default()
        }),
        bolt_length_mm: n[0],
        thread_length_mm: n[1],
        nut_height_mm: n[2],
        bearing_diameter_mm: n[3],
        hole_diameter_mm: n[4],
        head_room_mm: n[5],
        head_space_mm: n[6],
        ..GripStack::default()
    };
    // Words that are mostly none would never come through; half the time they are good ones.
    let pick = |said: &'static str, word| if n[7].is_some() { said } else { word };
    let torque = Ask {
        thread: pick("M10", thread),
        grade: pick("8.8", grade),
        lubrication: pick("oiled", lubrication),
        ..Ask::default()
    };
    let shear_plane_mm = n[8];
    let lengths = LengthAsk { thread: torque.thread, stack: &stack, shear_plane_mm };
    if let Ok(question) = CATALOGUE.resolve_length(&lengths) {
        let found = fit_length(&question);
        assert!(found.grip_mm.is_finite() && found.needed_mm > found.grip_mm);
        assert!(found.standard_mm.is_none_or(|l| l >= found.needed_mm - 1e-6));
        assert!(found.remarks.findings.iter().all(|f| f.share.is_finite()));
    }
    let joint = JointAsk { torque, stack: &stack, shear_plane_mm, ..JointAsk::default() };
    if let Ok(question) = CATALOGUE.resolve_joint(&joint) {
        let checked = check_joint(&question);
        assert!(checked.partners.iter().all(|p| p.capacity.get() >= 0.0));
        assert!(checked.partners.is_sorted_by(|a, b| a.capacity <= b.capacity));
        assert!(checked.bearing.iter().all(|face| face.nominal.get().is_finite()));
    }
    let stretched = StretchAsk { torque, stack: &stack, ..StretchAsk::default() };
    if let Ok(question) = CATALOGUE.resolve_stretch(&stretched) {
        let given = stretch(&question);
        assert!((0.0..=1.0).contains(&given.load_share) && given.elongation_mm > 0.0);
    }
    let castle = CastleAsk {
        stretch: stretched,
        minimum_torque_nm: n[9].unwrap_or(40.0),
        maximum_torque_nm: n[10],
        to_slot_degrees: n[11],
        ..CastleAsk::default()
    };
    if let Ok(question) = CATALOGUE.resolve_castle(&castle)
        && let Verdict::Advance { torque_nm: Some(torque) } = align(&question).verdict
    {
        let most = n[10].unwrap_or(f64::INFINITY);
        assert!(torque <= most * (1.0 + 1e-9), "{torque} beyond {most}");
    }
});
