//! What sat with a fastener: a long bolt that bottoms and turns out to have had a bracket, marks, small parts, and waiting.

use clampbook_api::v1::{
    DecisionKind, HoldReason, ImportRemovalsRequest, Mark, MarkKind, PieceKind, RemovalOutcome,
    SmallPart, SmallPartCondition, SmallPartKind, StackedPiece,
};

use crate::support::shop::rules_of;
use crate::support::{Refusal, Server, Shop, cli, fresh_id};

/// The text without its line ends.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_long_bolt_bottoms_and_turns_out_to_have_had_a_bracket() {
    let server = Server::start();
    let say = |words: &[&str]| flowing(cli(&server, words).output());
    say(&["jobs", "create", "tractor", "--name", "Orchard tractor"]);
    say(&["assemblies", "add", "tractor", "engine", "--name", "Engine"]);
    say(&[
        "joints",
        "add",
        "tractor",
        "cover",
        "--assembly",
        "engine",
        "--name",
        "Cover",
        "--layout",
        "line",
        "--positions",
        "4",
        "--class",
        "B",
        "--hole-kind",
        "tapped-blind",
        "--thread",
        "M10",
        "--grade",
        "8.8",
        "--lubrication",
        "oiled",
        "--layer",
        "mild steel:12",
        "--tapped",
        "cast aluminium:24",
        "--blind",
        "--bolt-length-mm",
        "32",
    ]);
    for (hole, length) in [
        ("1", "32 mm"),
        ("2", "32 mm"),
        ("3", "44 mm"),
        ("4", "32 mm"),
    ] {
        say(&[
            "removal", "log", "tractor", "cover", hole, "normal", "--length", length, "--grade",
            "8.8",
        ]);
    }
    let flags = say(&["flags", "list", "tractor"]);
    assert!(flags.contains("STOP cover position 3 bottoms"), "{flags}");
    assert!(
        flags.contains("CAUTION cover position 3 odd-length"),
        "{flags}"
    );

    // The hose bracket lies on the bench, and somebody remembers where it came from.
    let mended = say(&[
        "correct",
        "removal",
        "tractor",
        "6",
        "cover",
        "3",
        "normal",
        "--length",
        "44 mm",
        "--grade",
        "8.8",
        "--stack",
        "bracket:1:12 mm:hose bracket",
        "--part",
        "lock:missing",
        "--mark",
        "match-marks:one dot, towards the fan",
        "--reason",
        "the hose bracket was under this one",
    ]);
    assert!(
        mended.contains("12 mm longer than the others (32 mm at position 1, 2, 4); 12 mm more is stacked under it"),
        "{mended}"
    );
    assert!(
        mended.contains("NOTE cover position 3 odd-length"),
        "{mended}"
    );
    // 44 - 12 of the cover - 12 of the bracket leave 20 mm in a hole of 24 mm.
    assert!(!mended.contains("bottoms"), "{mended}");

    let decided = say(&[
        "decide",
        "tractor",
        "cover",
        "3",
        "reuse",
        "--hole-check",
        "measured",
        "--citation",
        "stack and depth measured: bracket 12 mm, thread 24 mm",
        "--reason",
        "belongs under the hose bracket",
    ]);
    assert!(!decided.contains("STOP"), "{decided}");
    assert!(!decided.contains("odd-length"), "{decided}");
    let sheet = say(&["sheet", "tractor"]);
    for words in [
        "HOLE 3 LONGER THAN ITS NEIGHBOURS",
        "marks: match marks: one dot, towards the fan",
        "from the head on: bracket 12 mm (hose bracket)",
        "with it, as found: lock MISSING",
    ] {
        assert!(sheet.contains(words), "{words}: {sheet}");
    }
    let csv = cli(&server, &["sheet", "tractor", "--format", "csv"]);
    let third = csv
        .output()
        .lines()
        .find(|line| line.contains("bracket 12 mm"));
    assert!(third.is_some_and(|line| line.contains(",3,")), "{csv:?}");
}

fn piece(kind: PieceKind, count: i32, thickness: &str) -> StackedPiece {
    StackedPiece {
        kind: kind.into(),
        count,
        thickness: thickness.into(),
        ..Default::default()
    }
}

fn mark(kind: MarkKind, text: &str) -> Mark {
    Mark {
        kind: kind.into(),
        text: text.into(),
    }
}

#[tokio::test]
async fn what_sat_with_it_is_kept_in_order_and_read_back() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let stack = vec![
        piece(PieceKind::Washer, 1, ""),
        piece(PieceKind::Shim, 3, "0.25 mm"),
        piece(PieceKind::Strap, 1, "1/16 in"),
    ];
    let marks = vec![
        mark(MarkKind::TieRodTurns, "14.5"),
        mark(MarkKind::LeftHand, ""),
    ];
    let (told_stack, told_marks) = (stack.clone(), marks.clone());
    plate
        .takes_out(2, RemovalOutcome::Normal)
        .and(move |removal| (removal.stack, removal.marks) = (told_stack, told_marks))
        .await;
    let kept = plate.hole(2).await.removal.expect("a removal");
    assert_eq!(kept.marks, marks);
    let kinds: Vec<_> = kept
        .stack
        .iter()
        .map(|piece| (piece.kind(), piece.count))
        .collect();
    assert_eq!(
        kinds,
        [
            (PieceKind::Washer, 1),
            (PieceKind::Shim, 3),
            (PieceKind::Strap, 1)
        ]
    );
    assert_eq!(kept.stack[0].thickness_mm, None);
    assert_eq!(kept.stack[1].thickness_mm, Some(0.25));
    // 1/16 of 25.4 mm.
    assert_eq!(kept.stack[2].thickness_mm, Some(1.5875));
}

#[tokio::test]
async fn marks_and_pieces_that_say_nothing_are_refused() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let refused = plate
        .takes_out(1, RemovalOutcome::Normal)
        .and(|removal| {
            removal.marks = vec![
                mark(MarkKind::MatchMarks, " "),
                mark(MarkKind::TieRodTurns, "NaN"),
                mark(MarkKind::TieRodTurns, "-3"),
                mark(MarkKind::ExposedThread, "some"),
            ];
            removal.stack = vec![
                piece(PieceKind::Shim, 0, ""),
                piece(PieceKind::Shim, 51, "-1 mm"),
                piece(PieceKind::Unspecified, 1, "inf mm"),
            ];
            removal.small_parts = vec![SmallPart::default()];
        })
        .refused()
        .await;
    refused.names(&[
        "removal.marks[0].text",
        "removal.marks[1].text",
        "removal.marks[2].text",
        "removal.marks[3].text",
        "removal.stack[0].count",
        "removal.stack[1].count",
        "removal.stack[1].thickness",
        "removal.stack[2].kind",
        "removal.stack[2].thickness",
        "removal.small_parts[0].kind",
        "removal.small_parts[0].state",
    ]);
}

#[tokio::test]
async fn a_table_tells_what_sat_with_each() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let import = async |csv: &str| {
        let request = ImportRemovalsRequest {
            parent: job.name.clone(),
            csv: csv.into(),
            request_id: fresh_id(),
            ..Default::default()
        };
        shop.jobs().import_removals(request).await
    };
    let bad = "joint,position,outcome,stack,marks,small_parts\n\
               plate,1,normal,plank:1,match-marks,nut:gone\n\
               plate,2,normal,shim:many:0.5 mm,exposed-thread:22 furlongs,\n";
    let refusal = Refusal::of(&import(bad).await.expect_err("it is refused"));
    for words in [
        "line 2, column stack: \"plank\" is not known; allowed are washer, spring-washer",
        "line 2, column marks: is required",
        "line 2, column small_parts: \"gone\" is not known; allowed are present, missing, unfit",
        "line 3, column stack: 0: allowed are 1 to 50",
        "line 3, column marks:",
    ] {
        assert!(
            refusal.wrong.iter().any(|(_, why)| why.contains(words)),
            "{words}: {refusal:?}"
        );
    }
    let good = "joint,position,outcome,stack,marks,small_parts\n\
                plate,1,normal,washer; shim:2:0.5 mm:brass,left hand; cap-number:3: arrow forward,nut:present; pin:unfit:half sheared\n";
    import(good).await.expect("it is taken");
    let kept = plate.hole(1).await.removal.expect("a removal");
    assert_eq!(kept.marks[1], mark(MarkKind::CapNumber, "3: arrow forward"));
    assert_eq!(kept.stack[1].text, "brass");
    let pin = SmallPart {
        kind: SmallPartKind::Pin.into(),
        state: SmallPartCondition::Unfit.into(),
        text: "half sheared".into(),
    };
    assert_eq!(kept.small_parts[1], pin);
}

#[tokio::test]
async fn a_hold_stops_the_hole_until_something_else_is_decided() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let unsaid = plate.decides(1, DecisionKind::Hold).await.refused().await;
    unsaid.names(&["decision.hold_reason"]);
    let beside = plate
        .decides(1, DecisionKind::Reuse)
        .await
        .and(|decision| decision.hold_reason = HoldReason::Part.into())
        .refused()
        .await;
    beside.names(&["decision.hold_reason"]);

    let held = plate
        .decides(1, DecisionKind::Hold)
        .await
        .and(|decision| decision.hold_reason = HoldReason::CrackTest.into())
        .await;
    assert_eq!(rules_of(&held.flags), ["not-refitted", "on-hold"]);
    let kept = plate.hole(1).await.decision.expect("a decision");
    assert_eq!(kept.hold_reason(), HoldReason::CrackTest);
    let sheet = job.sheet().await;
    assert_eq!(
        sheet.stops[0].cause,
        "on hold, waits for a crack test: looked at it twice"
    );
    let row = &sheet.joints[0].rows[0];
    assert!(row.stopped && row.torque_nm.is_none(), "{row:?}");
    assert_eq!(row.reuse, "on hold");
    let free = plate.decides(1, DecisionKind::Reuse).await.await;
    assert_eq!(rules_of(&free.flags), ["not-refitted"]);
    assert!(job.sheet().await.stops.is_empty());
}
