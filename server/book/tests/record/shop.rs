//! What the shop keeps: stated, revised, withdrawn, and what follows for a job.

use crate::bench::{Bench, NOW, back, sound};
use clampbook_book::command::ShopCommand;
use clampbook_book::context::Context;
use clampbook_book::entry::{Caller, Entry, Moment, Said};
use clampbook_book::fact::{Fact, LubricationStated, LubricationWithdrawn};
use clampbook_book::ids::LubricationId;
use clampbook_book::judge::{Asked, CLOCK_LEAD, judge};
use clampbook_book::refusal::Refusal;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use clampbook_book::words::Tightness;

fn paste(nut_factor: f64) -> LubricationStated {
    LubricationStated {
        lubrication: LubricationId::new("bench-paste").expect("a slug"),
        revision: 0,
        display_name: "bench paste".into(),
        nut_factor,
        low_nut_factor: 0.13,
        high_nut_factor: 0.19,
        lubricated: true,
        test_count: 12,
        tested_by: "Ida".into(),
        tested_on: "2026-03-02".into(),
        tested: "7/16-20 grade 5".into(),
        note: String::new(),
    }
}

fn withdrawn() -> LubricationWithdrawn {
    LubricationWithdrawn {
        lubrication: LubricationId::new("bench-paste").expect("a slug"),
        reason: "the tin is empty".into(),
    }
}

pub(crate) fn judged(
    shop: &Shop,
    command: &ShopCommand,
    said: Moment,
) -> Result<Vec<Fact>, Refusal> {
    let ida = ida();
    let context = Context {
        said,
        ..Context::asked(&ida, NOW, shop)
    };
    judge(Asked::OfShop(command), &context)
}

fn ida() -> Caller {
    Caller {
        person: "Ida".into(),
        device: "tablet".into(),
    }
}

pub(crate) fn entry(shop: &Shop, fact: Fact) -> Entry {
    Entry {
        stream: Stream::Shop,
        number: shop.last + 1,
        said: Said {
            by: shop.speaker(&ida()),
            device: "tablet".into(),
            said: NOW,
            written: NOW,
        },
        fact,
    }
}

pub(crate) fn try_say(shop: &mut Shop, command: &ShopCommand) -> Result<(), Refusal> {
    for fact in judged(shop, command, NOW)? {
        let entry = entry(shop, fact);
        shop.apply(&entry);
    }
    Ok(())
}

pub(crate) fn say(shop: &mut Shop, command: ShopCommand) {
    try_say(shop, &command).unwrap_or_else(|refusal| panic!("{command:?}: {refusal}"));
}

fn create(nut_factor: f64) -> ShopCommand {
    ShopCommand::CreateLubrication(paste(nut_factor))
}

fn revise(nut_factor: f64, etag: &str) -> ShopCommand {
    ShopCommand::ReviseLubrication {
        stated: paste(nut_factor),
        etag: etag.into(),
    }
}

fn withdraw(etag: &str) -> ShopCommand {
    ShopCommand::WithdrawLubrication {
        withdrawn: withdrawn(),
        etag: etag.into(),
    }
}

fn nut_factor(shop: &Shop) -> Option<f64> {
    let found = shop.catalogue().lubrication("bench paste").ok()?;
    Some(found.nut_factor().get())
}

#[test]
fn revisions_are_counted_kept_and_the_last_one_holds() {
    let mut shop = Shop::new();
    assert_eq!(nut_factor(&shop), None);
    say(&mut shop, create(0.15));
    say(&mut shop, revise(0.16, "\"1\""));
    say(&mut shop, revise(0.17, "\"2\""));
    let kept = shop
        .lubrication(&withdrawn().lubrication)
        .expect("it is kept");
    let all: Vec<_> = kept
        .revisions()
        .map(|stated| (stated.fact.revision, stated.fact.nut_factor))
        .collect();
    assert_eq!(all, [(3, 0.17), (2, 0.16), (1, 0.15)]);
    assert_eq!(
        (nut_factor(&shop), kept.etag().as_str()),
        (Some(0.17), "\"3\"")
    );

    say(&mut shop, withdraw("\"3\""));
    assert_eq!(nut_factor(&shop), None);
    let kept = shop
        .lubrication(&withdrawn().lubrication)
        .expect("it is kept");
    assert!(!kept.is_in_use());
    assert_eq!(
        (kept.etag().as_str(), kept.revisions().count()),
        ("\"4\"", 3)
    );
}

#[test]
fn what_does_not_fit_is_refused() {
    let mut shop = Shop::new();
    let missing = try_say(&mut shop, &revise(0.15, "\"1\""));
    assert!(
        matches!(missing, Err(Refusal::NotFound { .. })),
        "{missing:?}"
    );
    say(&mut shop, create(0.15));
    let twice = try_say(&mut shop, &create(0.15));
    assert!(matches!(twice, Err(Refusal::Exists { .. })), "{twice:?}");
    for stale in [revise(0.16, "\"0\""), withdraw("\"2\"")] {
        let refused = try_say(&mut shop, &stale);
        assert!(matches!(refused, Err(Refusal::Stale { .. })), "{refused:?}");
    }
    say(&mut shop, withdraw("\"1\""));
    for gone in [revise(0.16, "\"2\""), withdraw("\"2\"")] {
        let refused = try_say(&mut shop, &gone);
        assert!(matches!(refused, Err(Refusal::State { .. })), "{refused:?}");
    }
    let taken = try_say(&mut shop, &create(0.15));
    assert!(matches!(taken, Err(Refusal::Exists { .. })), "{taken:?}");
    let early = judged(&shop, &create(0.15), Moment(NOW.0 + CLOCK_LEAD + 1));
    assert!(matches!(early, Err(Refusal::Invalid(_))), "{early:?}");
}

#[test]
fn all_that_is_wrong_is_said_at_once_with_its_field() {
    let stated = LubricationStated {
        lubrication: LubricationId::new("dry").expect("a slug"),
        display_name: "rusty".into(),
        nut_factor: f64::NAN,
        low_nut_factor: 0.01,
        high_nut_factor: 7.0,
        // NOW is in 2027.
        tested_on: "2999-01-01".into(),
        ..paste(0.15)
    };
    let refused = judged(&Shop::new(), &ShopCommand::CreateLubrication(stated), NOW);
    let Err(Refusal::Invalid(wrong)) = refused else {
        panic!("{refused:?}");
    };
    let fields: Vec<_> = wrong.iter().map(|v| v.field.as_str()).collect();
    assert_eq!(
        fields,
        [
            "lubrication.nut_factor",
            "lubrication.low_nut_factor",
            "lubrication.high_nut_factor",
            "lubrication.tested_on",
            "lubrication_id",
            "lubrication.display_name"
        ]
    );
}

#[test]
fn a_tightening_keeps_what_it_was_asked_for_whatever_the_shop_says_later() {
    let mut bench = Bench::with(|joint| {
        let target = joint.target.as_mut().expect("a target");
        target.lubrication = "bench paste".into();
    });
    say(&mut bench.shop, create(0.15));
    bench.take_out(sound(1));
    bench.refit(back(1, Tightness::Final));
    say(&mut bench.shop, revise(0.16, "\"1\""));
    bench.take_out(sound(2));
    bench.refit(back(2, Tightness::Final));
    let kept = |number| {
        let position = bench.joint().position(number).expect("it");
        let tight = position.tight().expect("it is back");
        let wanted = tight.torque.wanted.clone().expect("it was computed");
        (wanted.nut_factor, wanted.own_tests)
    };
    let tests = |revision| {
        format!(
            "own tests of 2026-03-02 by Ida: 12 tests, K 0.13 to 0.19, 7/16-20 grade 5 (lubrications/bench-paste, revision {revision})"
        )
    };
    assert_eq!(kept(1), (0.15, tests(1)));
    assert_eq!(kept(2), (0.16, tests(2)));
}

#[test]
fn the_fold_takes_whatever_was_written_and_computes_with_what_can_be_believed() {
    let mut shop = Shop::new();
    let odd = entry(&shop, Fact::LubricationWithdrawn(withdrawn()));
    shop.apply(&odd);
    assert_eq!((shop.last, shop.lubrications().count()), (1, 0));
    let unbelievable = LubricationStated {
        nut_factor: 7.0,
        ..paste(0.15)
    };
    let written = entry(&shop, Fact::LubricationStated(unbelievable));
    shop.apply(&written);
    assert_eq!((shop.last, shop.lubrications().count()), (2, 1));
    assert_eq!(nut_factor(&shop), None, "no number is made of it");
}

#[test]
fn what_is_said_about_the_shop_changes_no_job_and_the_other_way_round() {
    let mut bench = Bench::with(|_| {});
    let before = bench.job.clone();
    let stated = entry(&bench.shop, Fact::LubricationStated(paste(0.15)));
    bench.job.apply(&stated);
    assert_eq!(bench.job.joints, before.joints);
    let mut shop = Shop::new();
    for said in &bench.entries {
        shop.apply(said);
    }
    assert_eq!(shop.lubrications().count(), 0);
}
