//! What a wrench is set to, and what it really gives.

use clampbook_engine::lock_nut::UsedNut;
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::show;
use clampbook_engine::wrench::{Adapter, Fit, Reading, Wrench};

/// What an adapter does to the torque; empty where it changes nothing.
#[must_use]
pub fn adapter(adapter: Option<&Adapter>) -> String {
    match adapter.map(Adapter::factor) {
        Some(factor) if factor != 1.0 => {
            format!("The torque at the nut times {}.", show::figures(factor))
        }
        _ => String::new(),
    }
}

/// The minimum published prevailing torques of a used lock nut; empty where none are published.
#[must_use]
pub fn minimum_prevailing_torque(nut: Option<&UsedNut>, unit: TorqueUnit) -> String {
    let minimum = nut.into_iter().flat_map(|nut| &nut.minimum);
    let minimum: Vec<String> = minimum
        .map(|minimum| show::torque(minimum.torque, unit))
        .collect();
    match minimum.is_empty() {
        true => String::new(),
        false => format!(
            "{} of prevailing torque by the published tables.",
            minimum.join(" or ")
        ),
    }
}

/// What a wrench is set to and really gives, in its own unit; or that it must not be used.
#[must_use]
pub fn one_wrench(label: &str, wrench: &Wrench, fit: &Fit, read: Option<&Reading>) -> String {
    match read {
        Some(read) => format!(
            "{label}: {}, really {} to {} ({} either way).",
            read.text,
            show::torque(fit.minimum, read.unit),
            show::torque(fit.maximum, read.unit),
            show::percent(wrench.deviation())
        ),
        None => format!(
            "{label}: not to be used at {} of its scale.",
            show::percent(fit.share_of_scale)
        ),
    }
}
