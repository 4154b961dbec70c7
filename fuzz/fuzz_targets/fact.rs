//! Any stored text is a fact or not; whatever is one can be applied to any job and to the shop, and written again; rules and
//! sheet can say something of what it adds up to. Texts are lines; `fuzz/seeds/fact` has facts of every kind to begin with.

#![no_main]

use clampbook_book::context::Context;
use clampbook_book::entry::{Caller, Entry, Moment, Said};
use clampbook_book::fact::Fact;
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::rules;
use clampbook_book::sheet::{self, Head, Scope};
use clampbook_book::shop::Shop;
use clampbook_book::speaker::Speaker;
use clampbook_book::stream::Stream;
use clampbook_book::words::TorqueUnit;
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

/// A shop has a catalogue, which takes longer to make than a text to read.
static OPENED: LazyLock<Shop> = LazyLock::new(Shop::new);

fuzz_target!(|text: &str| {
    let Some(id) = JobId::new("fuzz") else { return };
    let mut job = Job::new(id.clone());
    let mut shop = OPENED.clone();
    for text in text.lines() {
        let Ok(fact) = serde_json::from_str::<Fact>(text) else {
            continue;
        };
        assert!(serde_json::to_string(&fact).is_ok());
        let number = job.last + 1;
        let mut entry = Entry {
            stream: Stream::Job(id.clone()),
            number,
            said: Said {
                by: Speaker::called("".into()),
                device: "".into(),
                said: Moment(0),
                written: Moment(0),
            },
            fact,
        };
        job.apply(&entry);
        entry.stream = Stream::Shop;
        shop.apply(&entry);
    }
    let nobody = Caller::unnamed();
    let world = Context::asked(&nobody, Moment(0), &shop);
    let flags = rules::flags(&job, &world);
    assert!(flags.iter().all(|flag| !flag.cause.is_empty()));
    let scope = Scope {
        assembly: None,
        unit: Some(TorqueUnit::NewtonMetre),
    };
    let head = Head {
        entry: job.last,
        hash: [0; 32],
        made: Moment(0),
    };
    let sheet = sheet::sheet(&job, &scope, &world, &head);
    for row in sheet.joints.iter().flat_map(|joint| &joint.rows) {
        assert!(!row.torque.to_string().is_empty(), "a cell without a word");
    }
});
