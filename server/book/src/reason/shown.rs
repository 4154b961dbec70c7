//! Quantities of the record as people read them; how they are rounded and written is the engine's [`show`].

use crate::record::fact::{SaidTorque, TorqueRead};
use crate::record::words::TorqueUnit;
use clampbook_engine::quantity::{self, Torque};
use clampbook_engine::show::{self, Rounded};
use clampbook_engine::thread::{System, Thread};
use clampbook_engine::units::{Degrees, NewtonMetres, Newtons, NutFactor};

/// The unit as the engine names it.
#[must_use]
pub const fn engine_unit(unit: TorqueUnit) -> quantity::TorqueUnit {
    match unit {
        TorqueUnit::NewtonMetre => quantity::TorqueUnit::NewtonMetre,
        TorqueUnit::PoundForceFoot => quantity::TorqueUnit::PoundForceFoot,
        TorqueUnit::PoundForceInch => quantity::TorqueUnit::PoundForceInch,
        TorqueUnit::KilogramForceMetre => quantity::TorqueUnit::KilogramForceMetre,
    }
}

/// The unit that was chosen, else the one that is usual at a thread of this family.
pub(crate) const fn unit_at(chosen: Option<TorqueUnit>, family: System) -> TorqueUnit {
    match (chosen, quantity::TorqueUnit::usual(family)) {
        (Some(unit), _) => unit,
        (None, quantity::TorqueUnit::NewtonMetre) => TorqueUnit::NewtonMetre,
        (None, quantity::TorqueUnit::PoundForceFoot) => TorqueUnit::PoundForceFoot,
        (None, quantity::TorqueUnit::PoundForceInch) => TorqueUnit::PoundForceInch,
        (None, quantity::TorqueUnit::KilogramForceMetre) => TorqueUnit::KilogramForceMetre,
    }
}

/// A torque of the record.
#[must_use]
pub fn torque(nm: f64, unit: TorqueUnit) -> String {
    in_unit(nm, engine_unit(unit))
}

/// A torque that the record asked for, in the unit that the wrench was read in, else in the one that is asked in.
#[must_use]
pub fn asked(nm: f64, read: &TorqueRead) -> String {
    in_unit(nm, unit_of(read))
}

/// The minimum and the maximum clamp load at a torque that the record asked for, beside it.
#[must_use]
pub fn asked_loads(minimum_n: f64, maximum_n: f64, read: &TorqueRead) -> String {
    match (Newtons::new(minimum_n), Newtons::new(maximum_n)) {
        (Ok(minimum), Ok(maximum)) => show::load_range(minimum, maximum, unit_of(read)),
        _ => "not known".into(),
    }
}

/// The unit in which a wrench was read, else the one that is asked in; older entries keep none and mean newton metres.
fn unit_of(torque: &TorqueRead) -> quantity::TorqueUnit {
    let reading = torque.reading.as_ref();
    match reading.and_then(|reading| Torque::parse(&reading.said).ok()) {
        Some(read) => read.unit,
        None => engine_unit(torque.unit.unwrap_or(TorqueUnit::NewtonMetre)),
    }
}

/// A plain number of newton metres in a unit.
pub(crate) fn in_unit(nm: f64, unit: quantity::TorqueUnit) -> String {
    NewtonMetres::new(nm).map_or_else(|_| "no torque".into(), |torque| show::torque(torque, unit))
}

/// A torque that somebody said, in the unit and with the digits that it was said with; what is no torque stays as said.
#[must_use]
pub fn said_torque(torque: &SaidTorque) -> String {
    Torque::parse(&torque.said).map_or_else(|_| torque.said.clone(), |read| show::entered(&read))
}

/// A published torque in the unit people chose, with what is printed beside it where that is in another one.
#[must_use]
pub fn published(printed: &SaidTorque, unit: TorqueUnit) -> String {
    match Torque::parse(&printed.said) {
        Ok(read) if read.unit == engine_unit(unit) => show::entered(&read),
        Ok(read) => format!(
            "{}, printed as {} {}",
            torque(printed.nm, unit),
            read.entered,
            read.unit.symbol()
        ),
        Err(_) => torque(printed.nm, unit),
    }
}

/// A load beside torques in a unit.
pub(crate) fn load(load: Newtons, unit: TorqueUnit) -> String {
    show::load(load, engine_unit(unit))
}

/// The minimum and the maximum load, beside torques in a unit.
pub(crate) fn load_range(minimum: Newtons, maximum: Newtons, unit: TorqueUnit) -> String {
    show::load_range(minimum, maximum, engine_unit(unit))
}

/// The family of a joint's thread; metric where it is not known.
pub(crate) fn family(thread: Option<&Thread>) -> System {
    thread.map_or(System::Metric, Thread::system)
}

/// A length as measured or as bought.
pub(crate) fn length(mm: f64, family: System) -> String {
    show::length(mm, family, Rounded::Nearest)
}

/// A length that is needed.
pub(crate) fn needed(mm: f64, family: System) -> String {
    show::length(mm, family, Rounded::Up)
}

/// A length there is.
pub(crate) fn available(mm: f64, family: System) -> String {
    show::length(mm, family, Rounded::Down)
}

/// A nut factor of the record.
#[must_use]
pub fn nut_factor(k: f64) -> String {
    NutFactor::new(k).map_or_else(|_| "not known".into(), show::nut_factor)
}

/// An angle of the record.
pub(crate) fn angle(degrees: f64) -> String {
    Degrees::new(degrees).map_or_else(|_| "no angle".into(), show::angle)
}
