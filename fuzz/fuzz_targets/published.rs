//! Any published torque with any words is examined or refused; wrenches are set by it with a finite number.

#![no_main]

use clampbook_engine::published::PublishedAsk;
use clampbook_engine::quantity::{Length, Torque};
use clampbook_engine::wrench::{Adapter, setting};
use clampbook_engine::{Catalogue, Purpose};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

fuzz_target!(|input: ([&str; 4], &str, [&str; 2], f64, bool)| {
    let ([thread, grade, from, to], torque, [wrench, adapter], angle, is_flat) = input;
    let Ok(torque) = Torque::parse(torque) else {
        return;
    };
    let ask = PublishedAsk {
        thread,
        grade,
        torque,
        published_lubrication: from,
        lubrication: to,
        flat_seats: is_flat,
        purpose: Purpose::Clamping,
        unit_is_confirmed: is_flat,
    };
    if let Ok(found) = CATALOGUE.examine(&ask) {
        assert!(found.clamp_load.get().is_finite());
        if let Some(restated) = found.restated {
            assert!(restated.torque.get().is_finite() && restated.minimum < restated.maximum);
        }
    }
    let (Ok(wrench), Ok(adapter)) = (Length::parse(wrench), Length::parse(adapter)) else {
        return;
    };
    if let Ok(adapter) = Adapter::new(wrench.length, adapter.length, angle)
        && let Ok(set) = setting(torque.torque, None, Some(&adapter))
    {
        assert!(set.get() > 0.0 && set.get() <= 2.0 * torque.torque.get());
    }
});
