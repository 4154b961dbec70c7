//! Any stored text is a fact or not; whatever is one can be applied to any job and to the shop, and written again.

#![no_main]

use clampbook_book::entry::{Caller, Entry, Moment, Said};
use clampbook_book::fact::Fact;
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|texts: Vec<&str>| {
    let Some(id) = JobId::new("fuzz") else { return };
    let mut job = Job::new(id.clone());
    let mut shop = Shop::new();
    for text in texts {
        let Ok(fact) = serde_json::from_str::<Fact>(text) else {
            continue;
        };
        assert!(serde_json::to_string(&fact).is_ok());
        let number = job.last + 1;
        let mut entry = Entry {
            seq: i64::from(number),
            stream: Stream::Job(id.clone()),
            number,
            said: Said {
                caller: Caller {
                    person: String::new(),
                    device: String::new(),
                },
                said: Moment(0),
                written: Moment(0),
            },
            fact,
        };
        job.apply(&entry);
        entry.stream = Stream::Shop;
        shop.apply(&entry);
    }
});
