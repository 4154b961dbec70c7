//! Photos and marks before the judge.

use crate::bench::{Bench, joint_id, sound};
use crate::folding::fold;
use clampbook_book::bounds::MOST_PHOTOS;
use clampbook_book::command::{Command, PhotoDescribed, Restated};
use clampbook_book::fact::{ContentHash, Fact, Mark, Marked, PhotoAdded, PhotoOf};
use clampbook_book::history::{About, History};
use clampbook_book::ids::AssemblyId;
use clampbook_book::refusal::Refusal;
use clampbook_book::words::{Criticality, MarkKind, MediaType};

pub(crate) fn photo(of: PhotoOf) -> Command {
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

/// What is said of a photo anew.
pub(crate) fn described(of: Option<PhotoOf>, caption: &str) -> Option<Restated> {
    let caption = caption.to_owned();
    Some(Restated::Photo(PhotoDescribed { of, caption }))
}

#[test]
fn other_words_about_a_photo_leave_the_picture_as_it_is() {
    let mut bench = Bench::new(Criticality::C);
    let Command::AddPhoto(mut said) = photo(PhotoOf::Position(joint_id(), 4)) else {
        panic!("it is a photo");
    };
    bench.say(Command::AddPhoto(said.clone()));
    let entry = bench.job.last;
    bench
        .restate(entry, described(None, "bracket under the head"))
        .expect("the caption is said anew");
    said.caption = "bracket under the head".into();
    let stands = |bench: &Bench| bench.job.photos.get(entry).map(|it| it.fact.clone());
    assert_eq!(stands(&bench), Some(said.clone()));
    bench
        .restate(entry, described(Some(PhotoOf::Position(joint_id(), 2)), ""))
        .expect("it was another hole");
    said.caption.clear();
    said.of = PhotoOf::Position(joint_id(), 2);
    assert_eq!(stands(&bench), Some(said));
    assert_eq!(bench.job.photos.len(), 1);
    assert_eq!(bench.job, fold(&bench.entries));
    let mut history = History::of(joint_id(), 4);
    let told = bench.entries.iter().filter_map(|one| history.follow(one));
    assert_eq!(
        told.collect::<Vec<_>>(),
        [About::Said, About::Replaces(entry), About::Replaces(entry)]
    );
    bench.restate(entry, None).expect("withdrawn all the same");
    assert!(bench.job.photos.is_empty());
}

#[test]
fn only_a_photo_that_stands_is_said_anew_and_of_something_that_is_there() {
    let mut bench = Bench::new(Criticality::C);
    bench.take_out(sound(1));
    let removal = bench.job.last;
    bench.say(photo(PhotoOf::Job));
    let entry = bench.job.last;
    bench.say(photo(PhotoOf::Job));
    let withdrawn = bench.job.last;
    bench.restate(withdrawn, None).expect("withdrawn");
    let before = bench.job.clone();
    for no_photo in [1, removal, withdrawn] {
        let refused = bench.restate(no_photo, described(None, "so"));
        let told = refused.expect_err("it is none").to_string();
        assert!(told.contains("is not a photo, or stands no more"), "{told}");
    }
    for nowhere in [0, 99] {
        let refused = bench.restate(nowhere, described(None, "so"));
        let missing = matches!(refused, Err(Refusal::NotFound { .. }));
        assert!(missing, "{nowhere}: {refused:?}");
    }
    let hole = Some(PhotoOf::Position(joint_id(), 5));
    let Err(Refusal::Invalid(wrong)) = bench.restate(entry, described(hole, "so")) else {
        panic!("the joint has four holes");
    };
    assert_eq!(wrong[0].field, "photo.position");
    let cellar = PhotoOf::Assembly(AssemblyId::new("cellar").expect("a slug"));
    let refused = bench.restate(entry, described(Some(cellar), "so"));
    let missing = matches!(refused, Err(Refusal::NotFound { .. }));
    assert!(missing, "{refused:?}");
    let Command::AddPhoto(other) = photo(PhotoOf::Job) else {
        panic!("it is a photo");
    };
    let other = Fact::PhotoAdded(PhotoAdded {
        hash: ContentHash([8; 32]),
        ..other
    });
    let another_picture = bench.correct(entry, Some(other));
    assert!(
        matches!(another_picture, Err(Refusal::State { .. })),
        "{another_picture:?}"
    );
    assert_eq!(bench.job, before, "nothing of that was written");
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
