//! Photos and marks before the judge.

use crate::bench::{Bench, joint_id, sound};
use clampbook_book::command::Command;
use clampbook_book::decide::MOST_PHOTOS;
use clampbook_book::fact::{ContentHash, Fact, Mark, Marked, PhotoAdded, PhotoOf};
use clampbook_book::refusal::Refusal;
use clampbook_book::words::{Criticality, MarkKind, MediaType};

fn photo(of: PhotoOf) -> Command {
    Command::AddPhoto(PhotoAdded {
        of,
        hash: ContentHash([7; 32]),
        size_bytes: 99,
        media_type: MediaType::Jpeg,
        caption: "as it was".into(),
    })
}

#[test]
fn a_job_has_a_thousand_photos_at_most_and_one_taken_back_makes_room() {
    let mut bench = Bench::new(Criticality::C);
    for _ in 0..MOST_PHOTOS {
        bench.say(photo(PhotoOf::Position(joint_id(), 4)));
    }
    let more = bench.try_say(&photo(PhotoOf::Job));
    assert!(matches!(more, Err(Refusal::State { .. })), "{more:?}");
    let last = bench.job.last;
    bench.correct(last, None).expect("withdrawn");
    bench.say(photo(PhotoOf::Job));
    let again = bench.correct(last, None);
    assert!(matches!(again, Err(Refusal::State { .. })), "{again:?}");
}

#[test]
fn a_photo_is_of_something_that_is_there() {
    let mut bench = Bench::new(Criticality::C);
    let strange = bench.try_say(&photo(PhotoOf::Position(joint_id(), 5)));
    assert!(matches!(strange, Err(Refusal::Invalid(_))), "{strange:?}");
    for entry in [1, 99] {
        let none = bench.try_say(&photo(PhotoOf::Finding(entry)));
        assert!(none.is_err(), "entry {entry} is no finding");
    }
    bench.take_out(sound(1));
    let position = bench.joint().position(1).expect("it").touched;
    bench.say(photo(PhotoOf::Position(joint_id(), 1)));
    let after = bench.joint().position(1).expect("it").touched;
    assert_eq!(after, position, "a picture makes no decision stale");
}

#[test]
fn the_stored_form_of_marks_and_photos_does_not_change() {
    let marked = |position| {
        let marked = Marked {
            joint: joint_id(),
            position,
            marks: vec![Mark {
                what: MarkKind::TieRodTurns,
                said: "14.5".into(),
            }],
            note: String::new(),
        };
        serde_json::to_string(&Fact::Marked(marked)).expect("it can be written")
    };
    let marks = r#""marks":[{"what":"tie-rod-turns","said":"14.5"}]}"#;
    assert_eq!(
        marked(0),
        format!(r#"{{"kind":"marked","joint":"plate",{marks}"#)
    );
    assert_eq!(
        marked(3),
        format!(r#"{{"kind":"marked","joint":"plate","position":3,{marks}"#)
    );
    let Command::AddPhoto(added) = photo(PhotoOf::Position(joint_id(), 3)) else {
        panic!("it is a photo");
    };
    let text = serde_json::to_string(&Fact::PhotoAdded(added)).expect("it can be written");
    let hash = "07".repeat(32);
    assert_eq!(
        text,
        format!(
            r#"{{"kind":"photo-added","of":{{"position":["plate",3]}},"hash":"{hash}","size_bytes":99,"media_type":"image/jpeg","caption":"as it was"}}"#
        )
    );
}
