//! What a chart must show, and what it must not hide.

use super::{LETTERS, LINE_OF_TEXT, PLOT, lines_of, render};
use clampbook_engine::{Ask, Catalogue, CheckId, compute, quantity::TorqueUnit};

fn svg(ask: &Ask<'_>, unit: TorqueUnit) -> super::Chart {
    let catalogue = Catalogue::built_in();
    let question = catalogue.resolve(ask).expect("a good question");
    render(&question, &compute(&question), unit)
}

fn ask() -> Ask<'static> {
    Ask {
        thread: "7/16-20",
        grade: "SAE J429 5",
        lubrication: "dry",
        ..Ask::default()
    }
}

#[test]
fn everything_is_named_with_its_unit() {
    let chart = svg(&ask(), TorqueUnit::NewtonMetre);
    for said in [
        "Torque, N·m",
        "Clamp load, kN",
        "7/16-20 UNF, SAE J429 5, dry, K 0.20",
        "33.7 kN at 74.8 N·m (55.2 lbf·ft)",
        "minimum 21.9 kN",
        "maximum 45.4 kN",
        "proof 44.9 kN",
        "yield ",
        "the maker's. CAUTION: With the scatter of tool and friction the clamp",
        "35 % either way",
    ] {
        assert!(chart.svg.contains(said), "{said} in {}", chart.svg);
    }
    assert!(chart.description.contains("makes a clamp load of 33.7 kN"));
}

/// Of several checks the most serious one, in its own words.
#[test]
fn a_stop_is_told_before_a_caution() {
    let plated = Ask {
        thread: "M12x1.25",
        grade: "12.9",
        lubrication: "zinc plated",
        nut_grade: Some("ISO 898-2 8"),
        ..ask()
    };
    let chart = svg(&plated, TorqueUnit::NewtonMetre);
    assert!(
        chart.svg.contains("STOP: Electroplated steel of 39 HRC"),
        "{}",
        chart.svg
    );
    assert!(!chart.svg.contains("CAUTION"));
    assert!(chart.description.contains("fit a part that was baked"));
}

/// Whatever check speaks, its sentence ends above the plot.
#[test]
fn every_sentence_of_a_check_has_room_over_the_plot() {
    for id in CheckId::ALL {
        let said = format!("Computed, not the maker's. CAUTION: {}", id.text());
        let lines = lines_of(&said, LETTERS);
        assert_eq!(lines.join(" "), said);
        let last = 44.0 + LINE_OF_TEXT * (lines.len() - 1) as f64;
        assert!(last + LINE_OF_TEXT <= PLOT.2, "{lines:?}");
    }
}

#[test]
fn inch_units_tell_loads_in_pounds() {
    let chart = svg(&ask(), TorqueUnit::PoundForceFoot);
    assert!(chart.svg.contains("Torque, lbf·ft"));
    assert!(chart.svg.contains("Clamp load, lbf"));
    assert!(chart.svg.contains("7570 lbf at 55.2 lbf·ft (74.8 N·m)"));
}

/// 1 lbf is 4.448 221 615 260 5 N exactly (NIST SP 811, 2008, appendix B.8). Grade 5 is proved at 85 ksi and yields at 92
/// (SAE J429), on 0.1187 in² (ASME B1.1, 7/16-20): 10 090 and 10 920 lbf; aimed at are three quarters of proof, 7 568 lbf,
/// with 35 % either way 4 919 and 10 217 lbf.
#[test]
fn loads_in_pounds_are_newtons_by_the_published_factor() {
    let catalogue = Catalogue::built_in();
    let question = catalogue.resolve(&ask()).expect("a good question");
    let answer = compute(&question);
    let chart = render(&question, &answer, TorqueUnit::PoundForceFoot).svg;
    for said in [
        ">7570 lbf at 55.2 lbf·ft (74.8 N·m)<",
        ">minimum 4920 lbf<",
        ">maximum 10200 lbf<",
        ">proof 10100 lbf<",
        ">yield 10900 lbf<",
    ] {
        assert!(chart.contains(said), "{said} in {chart}");
    }
    let place = |load: f64| PLOT.3 - (PLOT.3 - PLOT.2) * load / 12_000.0;
    let edge = format!("<text x=\"{:.1}\" ", PLOT.0 - 10.0);
    let marks: Vec<&str> = chart.lines().filter(|l| l.starts_with(&edge)).collect();
    assert_eq!(marks.len(), 7, "{marks:?}");
    for (mark, load) in marks.iter().zip((0..=12_000).step_by(2_000)) {
        let y = place(f64::from(load)) + 4.5;
        let said = format!("{edge}y=\"{y:.1}\" text-anchor=\"end\">{load}</text>");
        assert_eq!(*mark, said);
    }
    let proof = answer.proof_load.expect("it has one").get() / 4.448_221_615_260_5;
    assert!((proof - 10_090.0).abs() < 5.0, "{proof}");
    let line = format!("M{} {:.1}H{}", PLOT.0, place(proof), PLOT.1);
    assert!(chart.contains(&line), "{line} in {chart}");
}

#[test]
fn a_standard_without_proof_says_what_stands_for_it() {
    let stainless = Ask {
        thread: "M10",
        grade: "A2-70",
        ..ask()
    };
    let chart = svg(&stainless, TorqueUnit::NewtonMetre);
    assert!(chart.svg.contains("0.85 of yield "), "{}", chart.svg);
}

/// One ink: no colour but black on white, and everything inside the sheet.
#[test]
fn it_is_drawn_in_one_ink_inside_the_sheet() {
    for (share, unit) in [
        (0.05, TorqueUnit::NewtonMetre),
        (1.0, TorqueUnit::PoundForceInch),
    ] {
        let asked = Ask {
            proof_share: Some(share),
            ..ask()
        };
        let chart = svg(&asked, unit);
        let colours = chart.svg.split(['"', ' ']).filter(|w| {
            w.starts_with('#')
                || w.starts_with("rgb")
                || ["red", "blue", "green", "grey"].contains(w)
        });
        assert_eq!(colours.collect::<Vec<_>>(), Vec::<&str>::new());
        for piece in chart.svg.split(" x=\"").skip(1) {
            let number = piece.split('"').next().unwrap_or_default();
            let x: f64 = number.parse().unwrap_or_else(|e| panic!("{number}: {e}"));
            assert!((0.0..=super::WIDTH).contains(&x), "{x}");
        }
        assert!(!chart.svg.contains("NaN") && !chart.svg.contains("inf\""));
        assert_eq!(
            chart.svg.matches("<svg").count(),
            chart.svg.matches("</svg>").count()
        );
    }
}

#[test]
fn names_of_proof_and_yield_never_cover_each_other() {
    let chart = svg(&ask(), TorqueUnit::NewtonMetre);
    let y_of = |name: &str| -> f64 {
        let line = chart.svg.lines().find(|l| l.contains(&format!(">{name} ")));
        let line = line.unwrap_or_else(|| panic!("no {name}"));
        let y = line.split("y=\"").nth(1).and_then(|r| r.split('"').next());
        y.and_then(|y| y.parse().ok()).expect("a place")
    };
    assert!(y_of("proof") - y_of("yield") >= super::LINE_OF_TEXT - 0.1);
}

/// At a small share minimum, aimed at and maximum lie within a line of text; their names must not.
#[test]
fn names_of_a_small_joint_never_cover_each_other() {
    let small = Ask {
        proof_share: Some(0.05),
        ..ask()
    };
    let chart = svg(&small, TorqueUnit::NewtonMetre);
    let mut places = Vec::new();
    for name in [">minimum ", " at ", ">maximum "] {
        let line = chart
            .svg
            .lines()
            .find(|l| l.contains("paint-order") && l.contains(name));
        let y = line.and_then(|l| {
            l.split(" y=\"")
                .nth(1)?
                .split('"')
                .next()?
                .parse::<f64>()
                .ok()
        });
        places.push(y.unwrap_or_else(|| panic!("no {name}")));
    }
    for pair in places.windows(2) {
        assert!(
            pair[0] - pair[1] >= super::LINE_OF_TEXT - 0.11,
            "{places:?}"
        );
    }
    assert!(places[0] < super::PLOT.3);
}
