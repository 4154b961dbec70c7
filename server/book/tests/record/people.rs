//! The people of the shop: stated, called otherwise, withdrawn, and known again when they speak.

use crate::shop::{entry, say, try_say};
use clampbook_book::bounds::MOST_PEOPLE;
use clampbook_book::command::ShopCommand;
use clampbook_book::context::Context;
use clampbook_book::entry::{Caller, Moment};
use clampbook_book::fact::{Fact, PersonStated, PersonWithdrawn};
use clampbook_book::ids::PersonId;
use clampbook_book::refusal::Refusal;
use clampbook_book::shop::Shop;
use clampbook_book::words::{Known, PersonRole};

fn id(id: &str) -> PersonId {
    PersonId::new(id).expect("a slug")
}

fn person(slug: &str, name: &str) -> PersonStated {
    PersonStated {
        person: id(slug),
        name: name.into(),
        roles: vec![PersonRole::Mechanic, PersonRole::Inspector],
    }
}

fn create(slug: &str, name: &str) -> ShopCommand {
    ShopCommand::CreatePerson(person(slug, name))
}

fn revise(slug: &str, name: &str, etag: &str) -> ShopCommand {
    ShopCommand::RevisePerson {
        stated: person(slug, name),
        etag: etag.into(),
    }
}

fn withdraw(slug: &str, etag: &str) -> ShopCommand {
    ShopCommand::WithdrawPerson {
        withdrawn: PersonWithdrawn {
            person: id(slug),
            reason: "moved away".into(),
        },
        etag: etag.into(),
    }
}

/// A shop of Ida Holm and Otto.
fn shop() -> Shop {
    let mut shop = Shop::new();
    say(&mut shop, create("ida", "Ida Holm"));
    say(&mut shop, create("otto", "Otto"));
    shop
}

/// Id, name and how known of a caller who says this.
fn known(shop: &Shop, said: &str) -> (Option<String>, String, Known) {
    let caller = Caller {
        person: said.into(),
        device: "tablet".into(),
    };
    let by = Context::asked(&caller, Moment(0), shop).by;
    let person = by.person.map(|id| id.to_string());
    (person, by.name.to_string(), by.known)
}

fn violation(result: Result<(), Refusal>) -> (String, String) {
    let Err(Refusal::Invalid(wrong)) = result else {
        panic!("{result:?}");
    };
    assert_eq!(wrong.len(), 1, "{wrong:?}");
    (wrong[0].field.clone(), wrong[0].wrong.to_string())
}

#[test]
fn a_caller_is_known_by_name_or_id_and_gets_the_name_of_today() {
    let mut shop = shop();
    let ida = |name: &str| (Some("ida".to_owned()), name.to_owned(), Known::Named);
    for said in ["Ida Holm", " ida HOLM ", "ida", " Ida", "people/ida"] {
        assert_eq!(known(&shop, said), ida("Ida Holm"), "{said}");
    }
    for free in ["Ida Lund", "people/Ida Holm", "Žofie"] {
        let expected = (None, free.to_owned(), Known::Named);
        assert_eq!(known(&shop, free), expected);
    }
    let nobody = Caller::unnamed();
    let nobody = known(&shop, &nobody.person);
    assert_eq!(nobody, (None, "local person".to_owned(), Known::Open));

    say(&mut shop, revise("ida", "Ida Lund", "\"1\""));
    assert_eq!(known(&shop, "ida lund"), ida("Ida Lund"));
    assert_eq!(known(&shop, "ida"), ida("Ida Lund"));
    assert_eq!(known(&shop, "Ida Holm").0, None, "nobody is called so now");
    let kept = shop.person(&id("ida")).expect("she is kept");
    let names: Vec<_> = kept.revisions().map(|s| s.fact.name.clone()).collect();
    assert_eq!(names, ["Ida Lund", "Ida Holm"]);
    assert_eq!(kept.newest.fact.roles, person("ida", "").roles);

    say(&mut shop, withdraw("ida", "\"3\""));
    for gone in ["ida", "Ida Lund"] {
        assert_eq!(known(&shop, gone).0, None, "{gone}");
    }
}

#[test]
fn two_people_do_not_share_a_name_nor_one_the_id_of_another() {
    let mut shop = shop();
    let taken = violation(try_say(&mut shop, &create("ida-2", " IDA holm")));
    let why = "\" IDA holm\" is the name of people/ida; add what tells the two apart";
    assert_eq!(taken, ("person.display_name".into(), why.into()));
    let renamed = violation(try_say(&mut shop, &revise("otto", "Ida Holm", "\"2\"")));
    assert_eq!(renamed.0, "person.display_name");
    let (field, why) = violation(try_say(&mut shop, &create("ida-2", "Otto ")));
    assert!(why.contains("people/otto"), "{field}: {why}");
    let (field, why) = violation(try_say(&mut shop, &create("ida-2", "IDA")));
    assert_eq!(field, "person.display_name");
    assert!(why.contains("is the id of people/ida, Ida Holm"), "{why}");
    let (field, why) = violation(try_say(&mut shop, &create("nobody", "Local person")));
    assert_eq!(field, "person.display_name");
    assert!(why.contains("nobody gives a name"), "{why}");

    say(&mut shop, create("zofie", "Tomas"));
    let (field, why) = violation(try_say(&mut shop, &create("tomas", "Tomas Vik")));
    assert_eq!(field, "person_id");
    assert!(
        why.contains("\"tomas\" is the name of people/zofie"),
        "{why}"
    );

    say(&mut shop, revise("otto", "OTTO", "\"2\""));
    assert_eq!(known(&shop, "otto").1, "OTTO", "a name may be its own id");
}

#[test]
fn a_withdrawn_person_s_id_is_never_given_again_but_the_name_is_free() {
    let mut shop = shop();
    say(&mut shop, withdraw("ida", "\"1\""));
    for name in ["Ida Holm", "Žofie"] {
        let again = try_say(&mut shop, &create("ida", name));
        assert!(matches!(again, Err(Refusal::Exists { .. })), "{again:?}");
    }
    for gone in [revise("ida", "Ida", "\"3\""), withdraw("ida", "\"3\"")] {
        let refused = try_say(&mut shop, &gone);
        assert!(matches!(refused, Err(Refusal::State { .. })), "{refused:?}");
    }
    say(&mut shop, create("ida-2", "Ida Holm"));
    assert_eq!(known(&shop, "Ida Holm").0.as_deref(), Some("ida-2"));
    assert_eq!(known(&shop, "ida").0, None);
    let kept = shop.person(&id("ida")).expect("she is kept");
    assert_eq!(kept.newest.fact.name, "Ida Holm");
    let end = kept.withdrawn.as_ref().expect("she left").to_string();
    assert!(end.starts_with("by Ida Holm on "), "{end}");
}

#[test]
fn what_was_read_may_be_stale_or_of_nobody() {
    let mut shop = shop();
    for stale in [revise("ida", "Ida", "\"2\""), withdraw("ida", "\"0\"")] {
        let refused = try_say(&mut shop, &stale);
        assert!(matches!(refused, Err(Refusal::Stale { .. })), "{refused:?}");
    }
    for missing in [
        revise("zofie", "Žofie", "\"1\""),
        withdraw("zofie", "\"1\""),
    ] {
        let refused = try_say(&mut shop, &missing);
        let found = matches!(refused, Err(Refusal::NotFound { .. }));
        assert!(found, "{refused:?}");
    }
}

#[test]
fn a_shop_has_room_for_so_many_people() {
    let mut shop = Shop::new();
    for number in 0..MOST_PEOPLE {
        let fact = Fact::PersonStated(person(&format!("p{number}"), &format!("P {number}")));
        let next = entry(&shop, fact);
        shop.apply(&next);
    }
    let refused = try_say(&mut shop, &create("one-more", "One more"));
    assert!(matches!(refused, Err(Refusal::State { .. })), "{refused:?}");
}

#[test]
fn the_fold_takes_a_withdrawal_of_nobody() {
    let mut shop = Shop::new();
    let odd = Fact::PersonWithdrawn(PersonWithdrawn {
        person: id("ida"),
        reason: "never came".into(),
    });
    let odd = entry(&shop, odd);
    shop.apply(&odd);
    assert_eq!((shop.last, shop.people().len()), (1, 0));
}

#[test]
fn what_is_stored_has_these_words() {
    let stated = Fact::PersonStated(person("ida", "Ida Holm"));
    let stored = serde_json::to_string(&stated).expect("it is stored");
    assert_eq!(
        stored,
        r#"{"kind":"person-stated","person":"ida","name":"Ida Holm","roles":["mechanic","inspector"]}"#
    );
}
