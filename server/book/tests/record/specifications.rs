//! Published specifications: kept as printed, revised, imported from a file, and asked which unit they are in.

use crate::bench::NOW;
use crate::shop::{entry, judged, say, try_say};
use clampbook_book::bounds::MOST_STEPS;
use clampbook_book::command::{ImportedSpecification, ShopCommand};
use clampbook_book::fact::{
    Fact, SaidTorque, SpecificationStated, SpecificationWithdrawn, SpecifiedStep,
};
use clampbook_book::ids::SpecificationId;
use clampbook_book::refusal::Refusal;
use clampbook_book::shop::Shop;
use clampbook_engine::quantity::Torque;

pub(crate) fn id(id: &str) -> SpecificationId {
    SpecificationId::new(id).expect("a slug")
}

pub(crate) fn said(said: &str) -> SaidTorque {
    let read = Torque::parse(said).expect("a torque");
    SaidTorque {
        said: said.into(),
        nm: read.torque.get(),
    }
}

/// Brake plate of an invented orchard tractor, as its manual might print it.
pub(crate) fn plate() -> SpecificationStated {
    SpecificationStated {
        specification: id("brake-plate"),
        revision: 0,
        display_name: "Brake plate to knuckle".into(),
        thread: "7/16-20 UNF".into(),
        grade: "SAE J429 5".into(),
        lubrication: "dry".into(),
        purpose: "clamping".into(),
        steps: vec![SpecifiedStep::Torque(said("55 lbf·ft"))],
        minimum: Some(said("50 lbf·ft")),
        maximum: Some(said("60 lbf·ft")),
        citation: "Orchard tractor workshop manual, 2nd ed., p. 41".into(),
        unit_confirmed: false,
        note: String::new(),
    }
}

/// The same, tightened to an angle at the end.
pub(crate) fn turned() -> SpecificationStated {
    SpecificationStated {
        steps: vec![
            SpecifiedStep::Torque(said("40 lbf·ft")),
            SpecifiedStep::TurnDegrees(90.0),
        ],
        minimum: None,
        maximum: None,
        ..plate()
    }
}

pub(crate) fn create(stated: SpecificationStated) -> ShopCommand {
    ShopCommand::CreateSpecification(stated)
}

pub(crate) fn revise(stated: SpecificationStated, etag: &str) -> ShopCommand {
    ShopCommand::ReviseSpecification {
        stated,
        etag: etag.into(),
    }
}

pub(crate) fn withdraw(etag: &str) -> ShopCommand {
    ShopCommand::WithdrawSpecification {
        withdrawn: SpecificationWithdrawn {
            specification: id("brake-plate"),
            reason: "of another year".into(),
        },
        etag: etag.into(),
    }
}

pub(crate) fn with_torque(torque: &str) -> SpecificationStated {
    SpecificationStated {
        steps: vec![SpecifiedStep::Torque(said(torque))],
        minimum: None,
        maximum: None,
        ..plate()
    }
}

fn import(all: Vec<SpecificationStated>) -> ShopCommand {
    let lines = (2..).zip(all);
    ShopCommand::ImportSpecifications(
        lines
            .map(|(line, stated)| ImportedSpecification { line, stated })
            .collect(),
    )
}

/// Fields that are wrong with a command, and why.
fn wrong(shop: &Shop, command: &ShopCommand) -> Vec<(String, String)> {
    match judged(shop, command, NOW) {
        Err(Refusal::Invalid(wrong)) => wrong.into_iter().map(|v| (v.field, v.wrong)).collect(),
        other => panic!("{command:?}: {other:?}"),
    }
}

fn fields(stated: SpecificationStated) -> Vec<String> {
    let wrong = wrong(&Shop::new(), &create(stated));
    wrong.into_iter().map(|(field, _)| field).collect()
}

#[test]
fn superseded_revisions_stay_readable() {
    let mut shop = Shop::new();
    say(&mut shop, create(plate()));
    say(&mut shop, revise(with_torque("52 lbf·ft"), "\"1\""));
    let kept = shop.specification(&id("brake-plate")).expect("it is kept");
    let all: Vec<_> = kept
        .revisions()
        .map(|stated| {
            (
                stated.fact.revision,
                stated.fact.torque().expect("one").said.clone(),
            )
        })
        .collect();
    assert_eq!(
        all,
        [(2, "52 lbf·ft".to_owned()), (1, "55 lbf·ft".to_owned())]
    );
    say(&mut shop, withdraw("\"2\""));
    let kept = shop.specification(&id("brake-plate")).expect("it is kept");
    assert!(!kept.is_in_use());
    assert_eq!(kept.revisions().count(), 2);
}

#[test]
fn what_does_not_fit_is_refused() {
    let mut shop = Shop::new();
    let missing = try_say(&mut shop, &revise(plate(), "\"1\""));
    assert!(
        matches!(missing, Err(Refusal::NotFound { .. })),
        "{missing:?}"
    );
    say(&mut shop, create(plate()));
    let twice = try_say(&mut shop, &create(plate()));
    assert!(matches!(twice, Err(Refusal::Exists { .. })), "{twice:?}");
    let stale = try_say(&mut shop, &revise(plate(), "\"0\""));
    assert!(matches!(stale, Err(Refusal::Stale { .. })), "{stale:?}");
    say(&mut shop, withdraw("\"1\""));
    let gone = try_say(&mut shop, &revise(plate(), "\"2\""));
    assert!(matches!(gone, Err(Refusal::State { .. })), "{gone:?}");
}

#[test]
fn names_steps_and_limits_are_judged_all_at_once() {
    let odd = SpecificationStated {
        thread: "7/16-21".into(),
        grade: "cheese".into(),
        lubrication: "honey".into(),
        steps: vec![
            SpecifiedStep::TurnDegrees(90.0),
            SpecifiedStep::TurnDegrees(f64::NAN),
        ],
        minimum: Some(said("60 lbf·ft")),
        maximum: Some(said("50 lbf·ft")),
        ..plate()
    };
    assert_eq!(
        fields(odd),
        [
            "specification.thread",
            "specification.grade",
            "specification.lubrication",
            "specification.steps[0].turn_degrees",
            "specification.steps[1].turn_degrees",
            "specification.maximum_torque"
        ]
    );
    for degrees in [0.0, -90.0, 720.5, f64::INFINITY] {
        let steps = vec![
            SpecifiedStep::Torque(said("20 lbf·ft")),
            SpecifiedStep::TurnDegrees(degrees),
        ];
        let turned = SpecificationStated {
            steps,
            minimum: None,
            ..plate()
        };
        assert_eq!(
            fields(turned),
            ["specification.steps[1].turn_degrees"],
            "{degrees}"
        );
    }
    for count in [0, MOST_STEPS + 1] {
        let steps = vec![SpecifiedStep::Torque(said("55 lbf·ft")); count];
        assert_eq!(
            fields(SpecificationStated { steps, ..plate() }),
            ["specification.steps"]
        );
    }
    let low = SpecificationStated {
        minimum: Some(said("56 lbf·ft")),
        ..plate()
    };
    assert_eq!(fields(low), ["specification.minimum_torque"]);
}

#[test]
fn a_torque_that_no_maker_means_is_asked_which_unit_it_is_in() {
    // Proof load 85 000 psi x 0.1187 in² = 10 090 lbf; 660 lbf·ft at K 0.20 on 0.4375 in imply 90 500 lbf, 9 times as much.
    let wrong = wrong(&Shop::new(), &create(with_torque("660 lbf·ft")));
    let [(field, why)] = wrong.as_slice() else {
        panic!("{wrong:?}");
    };
    assert_eq!(field, "specification.unit_confirmed");
    assert!(
        why.starts_with("660 lbf·ft makes a clamp load of 897 %"),
        "{why}"
    );
    assert!(why.contains("660 lbf·in is plausible"), "{why}");
    // 11 lbf·ft imply 1 509 lbf, 0.1495 of proof; 89 lbf·ft 12 206 lbf, 1.21 of it.
    for asked in ["11 lbf·ft", "89 lbf·ft"] {
        assert_eq!(
            fields(with_torque(asked)),
            ["specification.unit_confirmed"],
            "{asked}"
        );
    }
    for believed in ["11.1 lbf·ft", "88 lbf·ft"] {
        assert!(
            judged(&Shop::new(), &create(with_torque(believed)), NOW).is_ok(),
            "{believed}"
        );
    }
    let confirmed = SpecificationStated {
        unit_confirmed: true,
        ..with_torque("660 lbf·ft")
    };
    assert!(judged(&Shop::new(), &create(confirmed), NOW).is_ok());
}

#[test]
fn the_unit_is_not_asked_about_where_nothing_can_be_reckoned() {
    for silent in [
        SpecificationStated {
            grade: String::new(),
            ..with_torque("660 lbf·ft")
        },
        SpecificationStated {
            lubrication: String::new(),
            ..with_torque("660 lbf·ft")
        },
        SpecificationStated {
            purpose: "wheel-nut".into(),
            ..with_torque("660 lbf·ft")
        },
    ] {
        assert!(
            judged(&Shop::new(), &create(silent.clone()), NOW).is_ok(),
            "{silent:?}"
        );
    }
}

#[test]
fn a_file_creates_revises_and_leaves_alone() {
    let mut shop = Shop::new();
    let drum = SpecificationStated {
        specification: id("drum"),
        ..plate()
    };
    say(&mut shop, import(vec![plate(), drum.clone()]));
    assert_eq!(shop.specifications().count(), 2);
    let last = shop.last;
    say(&mut shop, import(vec![plate(), drum.clone()]));
    assert_eq!(shop.last, last, "nothing is new");
    say(&mut shop, import(vec![with_torque("52 lbf·ft"), drum]));
    assert_eq!(shop.last, last + 1);
    let plate = shop.specification(&id("brake-plate")).expect("it is kept");
    assert_eq!(plate.newest.fact.revision, 2);
}

#[test]
fn a_wrong_line_is_named_and_nothing_of_the_file_is_kept() {
    let mut shop = Shop::new();
    say(&mut shop, create(plate()));
    say(&mut shop, withdraw("\"1\""));
    let of = |name: &str| SpecificationStated {
        specification: id(name),
        ..plate()
    };
    let file = import(vec![
        of("good"),
        SpecificationStated {
            thread: "7/16-21".into(),
            ..of("bad")
        },
        of("good"),
        plate(),
    ]);
    let wrong: Vec<_> = wrong(&shop, &file)
        .into_iter()
        .map(|(_, why)| why)
        .collect();
    assert_eq!(wrong.len(), 3, "{wrong:?}");
    assert!(wrong[0].starts_with("line 3, column thread: "), "{wrong:?}");
    assert_eq!(wrong[1], "line 4, column id: good stands in line 2 already");
    assert!(
        wrong[2].starts_with("line 5, column id: brake-plate was withdrawn"),
        "{wrong:?}"
    );
    assert_eq!(shop.specifications().count(), 1);
}

#[test]
fn what_is_stored_reads_back_as_it_was_said() {
    let turned = SpecificationStated {
        steps: vec![
            SpecifiedStep::Torque(said("20 lbf·ft")),
            SpecifiedStep::TurnDegrees(90.0),
        ],
        ..plate()
    };
    let fact = Fact::SpecificationStated(turned);
    let text = serde_json::to_string(&fact).expect("it can be stored");
    assert!(
        text.starts_with(r#"{"kind":"specification-stated","specification":"brake-plate""#),
        "{text}"
    );
    assert!(text.contains(r#"{"turn-degrees":90.0}"#), "{text}");
    assert_eq!(
        serde_json::from_str::<Fact>(&text).expect("it can be read"),
        fact
    );
    let shop = Shop::new();
    let mut after = shop.clone();
    let withdrawn = SpecificationWithdrawn {
        specification: id("never-there"),
        reason: String::new(),
    };
    after.apply(&entry(&shop, Fact::SpecificationWithdrawn(withdrawn)));
    assert_eq!((after.last, after.specifications().count()), (1, 0));
}
