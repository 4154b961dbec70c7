//! Threads from measurements, heads from marks, spanners, look-alikes.

use clampbook_engine::{
    Catalogue,
    identify::{Measured, MeasuredAsk, Misfit, Verdict},
};

fn measured(diameter_mm: f64, pitch_mm: Option<f64>) -> MeasuredAsk {
    MeasuredAsk {
        diameter_mm,
        pitch_mm,
        ..MeasuredAsk::default()
    }
}

/// Names and verdicts, in the order of the answer.
fn found(catalogue: &Catalogue, ask: &MeasuredAsk) -> Vec<(String, Verdict)> {
    let found = catalogue.identify_thread(&Measured::new(ask).unwrap());
    let named = |c: &clampbook_engine::identify::Candidate<'_>| (c.thread.to_string(), c.verdict);
    found.candidates.iter().map(named).collect()
}

fn fitting(catalogue: &Catalogue, ask: &MeasuredAsk, verdict: Verdict) -> Vec<String> {
    let all = found(catalogue, ask).into_iter();
    all.filter(|(_, v)| *v == verdict)
        .map(|(name, _)| name)
        .collect()
}

#[test]
fn calipers_and_gauge_name_the_thread() {
    let catalogue = Catalogue::built_in();
    // Sizes of new parts a little below nominal, pitch by gauge.
    for (diameter, pitch, first) in [
        (9.93, 1.5, "M10x1.5"),
        (9.93, 1.25, "M10x1.25"),
        (7.93, 1.25, "M8x1.25"),
        (5.95, 1.0, "M6x1"),
        (11.90, 1.25, "M12x1.25"),
        (11.05, 1.27, "7/16-20 UNF"),
        (12.60, 1.954, "1/2-13 UNC"),
        (12.62, 2.117, "1/2-12 BSW"),
        (14.20, 1.411, "9/16-18 UNF"),
        (6.32, 0.977, "1/4-26 BSF"),
        (4.66, 0.81, "2 BA"),
        (4.77, 0.794, "#10-32 UNF"),
        (25.30, 1.814, "1-14 UNS"),
    ] {
        let all = found(&catalogue, &measured(diameter, Some(pitch)));
        let names: Vec<&str> = all
            .iter()
            .filter(|(_, v)| *v == Verdict::Fits)
            .map(|(n, _)| n.as_str())
            .collect();
        assert!(names.contains(&first), "{diameter} {pitch}: {all:?}");
    }
}

#[test]
fn a_worn_screw_may_fit_and_says_so() {
    let catalogue = Catalogue::built_in();
    let ask = measured(12.38, Some(1.27));
    assert!(fitting(&catalogue, &ask, Verdict::MayFit).contains(&"1/2-20 UNF".to_owned()));
    let unworn = MeasuredAsk {
        wear_mm: Some(0.0),
        ..ask
    };
    assert!(!fitting(&catalogue, &unworn, Verdict::MayFit).contains(&"1/2-20 UNF".to_owned()));
    let found = catalogue.identify_thread(&Measured::new(&ask).unwrap());
    let worn = found
        .candidates
        .iter()
        .find(|c| c.thread.to_string() == "1/2-20 UNF")
        .unwrap();
    assert!(worn.only_if_worn);
}

#[test]
fn without_a_pitch_nothing_more_than_may_fit_and_the_gauges_are_named() {
    let catalogue = Catalogue::built_in();
    let ask = measured(12.65, None);
    assert!(fitting(&catalogue, &ask, Verdict::Fits).is_empty());
    let found = catalogue.identify_thread(&Measured::new(&ask).unwrap());
    let [gauges, ..] = &found.try_next[..] else {
        panic!("{found:?}")
    };
    for gauge in [
        "13 threads per inch",
        "12 threads per inch",
        "20 threads per inch",
    ] {
        assert!(gauges.contains(gauge), "{gauges}");
    }
}

/// By hand: 7 threads of 26 and of 28 to the inch are 7/26 and 7/28 in long, 1/52 in apart: half a thread of 26.
#[test]
fn a_whole_number_of_threads_to_tell_two_gauges_apart_is_not_rounded_up() {
    let catalogue = Catalogue::built_in();
    let ask = MeasuredAsk {
        pitch_error_mm: Some(0.05),
        ..measured(12.68, Some(0.94))
    };
    let found = catalogue.identify_thread(&Measured::new(&ask).unwrap());
    let wanted = "Pitch gauges 28 threads per inch and 26 threads per inch: over 7 threads they are half a thread apart.";
    assert!(
        found.try_next.iter().any(|t| t == wanted),
        "{:?}",
        found.try_next
    );
}

#[test]
fn threads_that_differ_only_in_angle_send_for_that_gauge() {
    let catalogue = Catalogue::built_in();
    let ask = measured(6.30, Some(1.27));
    let both = fitting(&catalogue, &ask, Verdict::Fits);
    assert_eq!(both, ["1/4-20 UNC", "1/4-20 BSW"]);
    let found = catalogue.identify_thread(&Measured::new(&ask).unwrap());
    assert!(
        found
            .try_next
            .iter()
            .any(|t| t.contains("55 against 60 degrees")),
        "{found:?}"
    );
    assert!(
        found
            .look_alikes
            .iter()
            .any(|l| l.id() == "1_4-20-unc-in-bsw" && l.is_cruel())
    );
    let by_angle = MeasuredAsk {
        flank_angle_deg: Some(55.0),
        ..ask
    };
    assert_eq!(
        fitting(&catalogue, &by_angle, Verdict::Fits),
        ["1/4-20 BSW"]
    );
}

#[test]
fn a_look_alike_is_listed_with_why_it_is_not() {
    let catalogue = Catalogue::built_in();
    let thin = catalogue.identify_thread(&Measured::new(&measured(12.3, Some(1.27))).unwrap());
    let told = |name: &str| {
        let found = thin
            .candidates
            .iter()
            .find(|c| c.thread.to_string() == name);
        found.unwrap().misfits.clone()
    };
    assert_eq!(told("1/2-20 UNF"), [Misfit::TooSmall]);
    assert_eq!(told("M12x1.25"), [Misfit::TooLarge]);
    let found = catalogue.identify_thread(&Measured::new(&measured(11.9, Some(1.25))).unwrap());
    let other = found
        .candidates
        .iter()
        .find(|c| c.thread.to_string() == "1/2-20 UNF")
        .unwrap();
    assert_eq!(other.verdict, Verdict::DoesNotFit);
    assert_eq!(other.misfits, [Misfit::TooSmall]);
    assert!(!other.misfits[0].text().is_empty());
}

#[test]
fn a_bore_is_held_against_minor_diameters() {
    let catalogue = Catalogue::built_in();
    let ask = MeasuredAsk {
        internal: true,
        ..measured(8.5, Some(1.5))
    };
    assert!(fitting(&catalogue, &ask, Verdict::Fits).contains(&"M10x1.5".to_owned()));
}

#[test]
fn nothing_is_an_answer_that_says_what_to_do() {
    let catalogue = Catalogue::built_in();
    let found = catalogue.identify_thread(&Measured::new(&measured(12.3, Some(3.4))).unwrap());
    let nearest = &found.candidates;
    assert_eq!(nearest.len(), 3);
    assert!(
        nearest
            .iter()
            .all(|c| c.verdict == Verdict::DoesNotFit && !c.misfits.is_empty())
    );
    assert!(found.try_next[0].contains("measure at an unworn place"));
}

#[test]
fn wrong_measurements_are_all_named() {
    let wrong = MeasuredAsk {
        diameter_mm: f64::NAN,
        diameter_error_mm: Some(-0.1),
        wear_mm: Some(f64::INFINITY),
        pitch_mm: Some(0.0),
        pitch_error_mm: Some(9.0),
        flank_angle_deg: Some(-55.0),
        internal: false,
    };
    let fields: Vec<&str> = Measured::new(&wrong)
        .unwrap_err()
        .iter()
        .map(|f| f.field)
        .collect();
    assert_eq!(
        fields,
        [
            "diameter",
            "diameter_error_mm",
            "wear_mm",
            "pitch",
            "pitch_error_mm",
            "flank_angle_degrees"
        ]
    );
    let lonely = MeasuredAsk {
        pitch_error_mm: Some(0.02),
        ..measured(10.0, None)
    };
    assert_eq!(Measured::new(&lonely).unwrap_err().len(), 1);
}

#[test]
fn a_head_leads_to_its_grades_weakest_first() {
    let catalogue = Catalogue::built_in();
    let ids = |said: &str| -> Vec<&str> {
        let found = catalogue.identify_head(said).unwrap();
        assert!(found.is_sorted_by_key(|m| m.weakest_tensile_mpa), "{said}");
        found.iter().map(|m| m.grade.id()).collect()
    };
    for said in [
        "three radial lines",
        "3 lines",
        "Three Radial Lines on the head",
    ] {
        let found = ids(said);
        assert_eq!(found[0], "a449", "{said}");
        assert!(
            found.contains(&"j429-5") && !found.contains(&"j429-8"),
            "{found:?}"
        );
    }
    assert_eq!(ids("8.8"), ["iso898-8-8"]);
    assert_eq!(ids("S"), ["bs-s"]);
    assert_eq!(ids("A2-70"), ["iso3506-a2-70"]);
    assert_eq!(ids("F593C"), ["f593-cw1"]);
    assert_eq!(ids("a325"), ["a325", "f3125-a325"]);
    assert!(!ids("three lines").contains(&"j429-8.2"));
    assert_eq!(ids("six lines")[0], "a354-bd");
    let bare = ids("unmarked");
    assert!(bare.contains(&"j429-1") && bare.contains(&"j429-2"));
    assert_eq!(ids("a smiling face"), Vec::<&str>::new());
    assert!(catalogue.identify_head(" ").is_err());
    assert!(catalogue.identify_head(&"x".repeat(65)).is_err());
}

#[test]
fn look_alikes_are_all_there_and_none_is_of_one_thread() {
    let catalogue = Catalogue::built_in();
    let pairs: Vec<_> = catalogue.look_alikes().collect();
    assert_eq!(pairs.len(), clampbook_data::LOOK_ALIKES.len());
    for pair in &pairs {
        assert_ne!(pair.external().id(), pair.internal().id());
        let share = pair.overlap_share();
        // What goes together must bear on something, and not be stopped by its size.
        assert!(
            !pair.is_cruel() || (0.2..1.3).contains(&share),
            "{}: {share}",
            pair.id()
        );
    }
}
