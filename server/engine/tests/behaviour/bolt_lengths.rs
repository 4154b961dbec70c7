//! What a stack asks of the bolt's length, reckoned by hand.

use clampbook_engine::{
    Catalogue, Severity,
    joint::{GripLayer, GripStack, LengthAsk, Lengths, TappedHole, fit::AtHand, fit_length},
};

pub(super) fn layer(thickness_mm: f64) -> GripLayer {
    GripLayer {
        metal: "mild steel".into(),
        thickness_mm,
        outer_diameter_mm: None,
    }
}

pub(super) fn blind(full_thread_mm: f64) -> Option<TappedHole> {
    Some(TappedHole {
        metal: "mild steel".into(),
        full_thread_mm,
        blind: true,
        shear_mpa: None,
        insert: false,
    })
}

fn m10(stack: GripStack, shear_plane_mm: Option<f64>) -> Lengths {
    let catalogue = Catalogue::built_in();
    let ask = LengthAsk {
        thread: "M10",
        stack: &stack,
        shear_plane_mm,
    };
    fit_length(&catalogue.resolve_length(&ask).unwrap())
}

#[track_caller]
fn close(ours: f64, expected: f64) {
    assert!((ours - expected).abs() < 1e-9, "{ours} is not {expected}");
}

/// Nut of 8.4 mm (ISO 4032) and one pitch of 1.5 mm past it; lengths of ISO 888.
#[test]
fn through_the_nut_and_one_thread_past_it() {
    for (grip, needed, standard) in [(30.0, 39.9, 40.0), (30.5, 40.4, 45.0), (5.0, 14.9, 16.0)] {
        let lengths = m10(
            GripStack {
                layers: vec![layer(grip)],
                ..GripStack::default()
            },
            None,
        );
        close(lengths.grip_mm, grip);
        close(lengths.needed_mm, needed);
        assert_eq!(lengths.longest_mm, None);
        assert_eq!(lengths.standard_mm, Some(standard));
        assert_eq!(lengths.at_hand, None);
    }
}

/// One diameter engaged in steel (common practice), one pitch short of the last full thread.
#[test]
fn between_engagement_and_the_bottom_of_a_blind_hole() {
    let no_length = "No standard length fits";
    for (full_thread, longest, standard) in [
        (20.0, 30.5, Some(25.0)),
        (14.5, 25.0, Some(25.0)),
        (14.0, 24.5, None),
    ] {
        let lengths = m10(
            GripStack {
                layers: vec![layer(12.0)],
                tapped: blind(full_thread),
                ..GripStack::default()
            },
            None,
        );
        close(lengths.needed_mm, 22.0);
        close(lengths.longest_mm.unwrap(), longest);
        assert_eq!(lengths.standard_mm, standard);
        let cautions = &lengths.remarks.cautions;
        let said = cautions.iter().any(|c| c.starts_with(no_length));
        assert_eq!(said, standard.is_none());
    }
}

/// M10x45 with 26 mm of thread: full thread begins at 19, the body ends five pitches before, at 11.5.
#[test]
fn a_bolt_at_hand_is_measured_against_the_stack() {
    let at = |plane| {
        let layers = [layer(30.0)];
        m10(
            GripStack {
                layers: layers.to_vec(),
                bolt_length_mm: Some(45.0),
                thread_length_mm: Some(26.0),
                nut_height_mm: Some(8.0),
                ..GripStack::default()
            },
            plane,
        )
    };
    let silent = at(None);
    let found = AtHand {
        engagement_mm: 8.0,
        reach_mm: 15.0,
        protrusion_mm: Some(7.0),
        body_mm: 11.5,
        grip_length_mm: 19.0,
        thread_in_shear_plane: None,
    };
    assert_eq!(silent.at_hand, Some(found));
    assert_eq!(silent.remarks.findings, []);
    for (plane, in_thread) in [(11.0, false), (11.5, false), (11.6, true), (12.0, true)] {
        let lengths = at(Some(plane));
        let at_hand = lengths.at_hand.unwrap();
        assert_eq!(at_hand.thread_in_shear_plane, Some(in_thread), "{plane}");
        let shares: Vec<_> = lengths.remarks.findings.iter().map(|f| f.share).collect();
        assert_eq!(shares.len(), usize::from(in_thread), "{plane}");
        if let [share] = shares[..] {
            close(share, plane / 11.5);
        }
    }
}

/// ISO 4014: an M10x45 has 26 mm of thread; a measured one is taken as it is.
#[test]
fn only_an_assumed_thread_length_is_called_assumed() {
    let at = |thread_length_mm| {
        m10(
            GripStack {
                layers: vec![layer(30.0)],
                bolt_length_mm: Some(45.0),
                thread_length_mm,
                ..GripStack::default()
            },
            None,
        )
    };
    let assumed = |lengths: &Lengths| {
        let said = |text: &&str| text.starts_with("Thread length of the standard's bolt");
        let cited = |c: &clampbook_engine::source::Cited<'_>| c.source.id == "iso-4014";
        let before = lengths.remarks.assumptions.iter().any(said);
        assert!(lengths.remarks.sources.iter().any(cited), "hexagon parts");
        before
    };
    assert!(assumed(&at(None)));
    assert!(!assumed(&at(Some(26.0))));
    assert_eq!(at(None).at_hand, at(Some(26.0)).at_hand);
}

/// Where a bolt threaded to the head lies in the shear plane, one pitch stands for its missing body.
#[test]
fn a_bolt_without_body_is_thread_all_over() {
    let layers = [layer(30.0)];
    let lengths = m10(
        GripStack {
            layers: layers.to_vec(),
            bolt_length_mm: Some(45.0),
            thread_length_mm: Some(45.0),
            nut_height_mm: Some(8.0),
            ..GripStack::default()
        },
        Some(15.0),
    );
    assert_eq!(lengths.at_hand.unwrap().body_mm, 0.0);
    let [found] = &lengths.remarks.findings[..] else {
        panic!("{:?}", lengths.remarks.findings);
    };
    assert_eq!(found.id, "thread-in-shear-plane");
    close(found.share, 10.0);
}

/// 30 mm clamped, nut of 8 mm, pitch 1.5 mm: filled at 38, one thread out at 39.5.
#[test]
fn how_far_a_length_is_off_is_told_as_a_share() {
    for (length, thread, expected) in [
        (24.0, 24.0, Some(("too-short", 30.0 / 24.0))),
        (30.0, 26.0, Some(("too-short", 1.0))),
        (37.0, 26.0, Some(("nut-not-filled", 38.0 / 37.0))),
        (38.0, 26.0, Some(("protrusion", 39.5 / 38.0))),
        (39.0, 26.0, Some(("protrusion", 39.5 / 39.0))),
        (39.5, 26.0, None),
        (56.0, 26.0, None),
        (60.0, 26.0, Some(("run-out", 34.0 / 30.0))),
    ] {
        let layers = [layer(30.0)];
        let lengths = m10(
            GripStack {
                layers: layers.to_vec(),
                bolt_length_mm: Some(length),
                thread_length_mm: Some(thread),
                nut_height_mm: Some(8.0),
                ..GripStack::default()
            },
            None,
        );
        let found: Vec<_> = lengths.remarks.findings.iter().collect();
        assert_eq!(found.len(), usize::from(expected.is_some()), "{length}");
        if let Some((id, share)) = expected {
            assert_eq!(found[0].id, id, "{length}");
            close(found[0].share, share);
        }
    }
}

/// Full thread less one pitch can be used; a hole without any usable thread is told as twice too much.
#[test]
fn how_far_a_bolt_bottoms_is_told_as_a_share() {
    for (full_thread, share) in [(20.0, 20.0 / 18.5), (1.5, 2.0), (1.0, 2.0)] {
        let layers = [layer(12.0)];
        let lengths = m10(
            GripStack {
                layers: layers.to_vec(),
                tapped: blind(full_thread),
                bolt_length_mm: Some(32.0),
                thread_length_mm: Some(26.0),
                ..GripStack::default()
            },
            None,
        );
        let bottoms: Vec<_> = (lengths.remarks.findings.iter())
            .filter(|f| f.id == "bottoming")
            .map(|f| (f.severity, f.share))
            .collect();
        assert_eq!(bottoms.len(), 1);
        assert_eq!(bottoms[0].0, Severity::Stop);
        close(bottoms[0].1, share);
    }
}

/// A bolt of 50 mm through 41.6 mm ends just at the face of the nut of 8.4 mm (ISO 4032): not inside it, though in
/// binary 50 less 41.6 is less than 8.4.
#[test]
fn a_bolt_that_ends_at_the_face_of_the_nut_is_not_inside_it() {
    let stack = GripStack {
        layers: vec![layer(41.6)],
        bolt_length_mm: Some(50.0),
        ..GripStack::default()
    };
    let found = m10(stack, None).remarks.findings;
    let ids: Vec<_> = found.iter().map(|f| f.id).collect();
    assert_eq!(ids, ["protrusion"]);
}

/// 30 mm through 14.1 mm reach 15.9 mm, which is all but the last pitch of 17.4 mm; M10x80 is threaded 26 mm (ISO 888), so
/// three layers of 54 mm end where the thread begins.
#[test]
fn what_just_fits_is_no_stop() {
    let bottom = GripStack {
        layers: vec![layer(14.1)],
        tapped: blind(17.4),
        bolt_length_mm: Some(30.0),
        thread_length_mm: Some(26.0),
        ..GripStack::default()
    };
    let run_out = GripStack {
        layers: vec![layer(10.2), layer(21.9), layer(21.9)],
        bolt_length_mm: Some(80.0),
        ..GripStack::default()
    };
    for stack in [bottom, run_out] {
        let found = m10(stack, None).remarks.findings;
        assert!(found.is_empty(), "{found:?}");
    }
}
