//! Published torques: what they imply, whether their unit is believable, and restating them for another lubricant.

use crate::{
    fault::{Fault, FaultReason},
    few::Few,
    grade::Grade,
    lubrication::Lubrication,
    purpose::Purpose,
    quantity::{Torque, TorqueUnit},
    show::number_in,
    source::{Basis, Cited, UsedFor, cited},
    thread::Thread,
    units::{Millimetres, NewtonMetres, Newtons, NutFactor, OutOfRange, greater},
};
use clampbook_data::cite;

/// A published torque that implies less of the proof load than this asks which unit it is in. Common practice.
pub const LEAST_BELIEVABLE: f64 = 0.15;
/// A published torque that implies more of the proof load than this asks which unit it is in. Common practice.
pub const MOST_BELIEVABLE: f64 = 1.2;

/// Clamp load that a torque implies, short form turned round.
///
/// F = T/(K·D)
///
/// * `t`: torque, in N·m
/// * `k`: nut factor, 0.05 to 0.60
/// * `d`: nominal diameter, in mm
///
/// Returns the clamp load, in N.
///
/// # Range
/// As [`crate::torque::short_form`].
/// # Sources
/// Shigley, Mechanical Engineering Design, 9th ed., equation 8-27.
/// # Example
/// Published AN6 example, 3/8-24: 28.9 lbf ft at K 0.160 implies 5788 lbf (torque to three figures).
/// ```
/// # use clampbook_engine::{published::implied_clamp_load, units::*};
/// let t = NewtonMetres::new(28.9 * NEWTON_METRES_PER_POUND_FORCE_FOOT)?;
/// let f = implied_clamp_load(t, NutFactor::new(0.160)?, Millimetres::new(0.375 * 25.4)?);
/// assert!((f.get() / NEWTONS_PER_POUND_FORCE - 5788.0).abs() < 5788.0 * 0.05 / 28.9);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn implied_clamp_load(t: NewtonMetres, k: NutFactor, d: Millimetres) -> Newtons {
    Newtons::computed(t.get() * 1000.0 / (k.get() * d.get()))
}

/// A published torque for another lubricant.
///
/// T2 = T1·K2/K1
///
/// * `t1`: published torque, in N·m
/// * `k1`: nut factor of the published lubrication
/// * `k2`: nut factor of the lubrication that is to be used
///
/// Returns the torque that makes the same clamp load, in N·m.
///
/// # Range
/// Flat seats, published lubrication known; never wheel nuts.
/// # Errors
/// A torque nobody sets.
/// # Sources
/// Shigley, Mechanical Engineering Design, 9th ed., equation 8-27 twice at one clamp load.
/// # Example
/// Published AN6 example, 3/8-24 at 5788 lbf: 28.9 lbf ft dry cadmium (K 0.160) is 19.9 lbf ft with MoS2 (K 0.110).
/// ```
/// # use clampbook_engine::{published::restated, units::*};
/// let t1 = NewtonMetres::new(28.9 * NEWTON_METRES_PER_POUND_FORCE_FOOT)?;
/// let t2 = restated(t1, NutFactor::new(0.160)?, NutFactor::new(0.110)?)?;
/// assert!((t2.get() / NEWTON_METRES_PER_POUND_FORCE_FOOT - 19.9).abs() < 0.05);
/// # Ok::<(), OutOfRange>(())
/// ```
pub fn restated(
    t1: NewtonMetres,
    k1: NutFactor,
    k2: NutFactor,
) -> Result<NewtonMetres, OutOfRange> {
    NewtonMetres::new(t1.get() * k2.get() / k1.get())
}

/// A published torque, and what is wanted of it, in the words of the shop.
#[derive(Clone, Copy, Debug)]
pub struct PublishedAsk<'a> {
    /// Thread: `7/16-20`.
    pub thread: &'a str,
    /// Grade of the bolt the torque is published for; may be empty, then the unit cannot be checked.
    pub grade: &'a str,
    /// The torque as published.
    pub torque: Torque,
    /// Lubrication the torque is published for; must be known.
    pub published_lubrication: &'a str,
    /// Lubrication that is to be used; empty when only the value itself is in question.
    pub lubrication: &'a str,
    /// Whether head and nut sit flat.
    pub flat_seats: bool,
    /// What the part does in its joint.
    pub purpose: Purpose,
    /// Whether somebody has looked again and the unit is as published.
    pub unit_is_confirmed: bool,
}

/// What a published torque implies and, if it was asked for, the torque for another lubricant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Published<'c> {
    /// The thread.
    pub thread: &'c Thread,
    /// The grade, if one was said.
    pub grade: Option<&'c Grade>,
    /// Lubrication it is published for.
    pub published_lubrication: &'c Lubrication,
    /// The torque as published.
    pub torque: Torque,
    /// Clamp load it implies.
    pub clamp_load: Newtons,
    /// The implied clamp load over the proof load, if a grade was said.
    pub share_of_proof: Option<f64>,
    /// Whether the share is believable, or the unit has to be asked about.
    pub unit: UnitCheck,
    /// The torque for the other lubricant; absent when none was said, and as long as the unit is in doubt.
    pub restated: Option<Restated<'c>>,
    /// Where the values come from.
    pub sources: Few<Cited<'c>, 20>,
}

/// A published torque restated for another lubricant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Restated<'c> {
    /// The lubrication.
    pub lubrication: &'c Lubrication,
    /// The torque.
    pub torque: NewtonMetres,
    /// K2/K1.
    pub ratio: f64,
    /// Minimum clamp load at this torque.
    pub minimum: Newtons,
    /// Maximum clamp load at this torque.
    pub maximum: Newtons,
}

/// Whether the unit of a published torque is believable.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum UnitCheck {
    /// No grade was said, so it was not checked.
    NotChecked,
    /// It is.
    Believable,
    /// It is not; somebody must look which unit it is in.
    Ask {
        /// Units in which the same number would be believable.
        readings: Few<Reading, 3>,
    },
    /// It is not, but somebody has looked and the unit is as published.
    Confirmed,
}

/// The same number read in another unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The unit.
    pub unit: TorqueUnit,
    /// The torque it would be.
    pub torque: NewtonMetres,
    /// Share of the proof load it would imply.
    pub share_of_proof: f64,
    /// How far apart the two units are, 12, 9.81 or 1.356 being the usual slips.
    pub factor: f64,
}

impl UnitCheck {
    fn of(torque: &Torque, share: Option<f64>, is_confirmed: bool) -> Self {
        let Some(share) = share else {
            return Self::NotChecked;
        };
        if is_believable(share) {
            return Self::Believable;
        }
        if is_confirmed {
            return Self::Confirmed;
        }
        let mut readings = Few::new();
        for unit in TorqueUnit::ALL {
            let factor = number_in(NewtonMetres::computed(1.0), torque.unit)
                / number_in(NewtonMetres::computed(1.0), unit);
            let other = share * factor;
            if let (true, Ok(torque)) = (
                is_believable(other),
                NewtonMetres::new(torque.torque.get() * factor),
            ) {
                readings.push(Reading {
                    unit,
                    torque,
                    share_of_proof: other,
                    factor: greater(factor, 1.0 / factor),
                });
            }
        }
        Self::Ask { readings }
    }

    /// Whether a number may be derived from the published one.
    #[must_use]
    pub const fn is_settled(&self) -> bool {
        !matches!(self, Self::Ask { .. })
    }
}

fn is_believable(share: f64) -> bool {
    (LEAST_BELIEVABLE..=MOST_BELIEVABLE).contains(&share)
}

/// What was looked up for a published torque.
pub(crate) struct Looked<'c> {
    pub(crate) thread: &'c Thread,
    pub(crate) grade: Option<(&'c Grade, crate::grade::Strength)>,
    pub(crate) published: &'c Lubrication,
    pub(crate) wanted: Option<&'c Lubrication>,
}

/// Works out a published torque once everything is looked up.
///
/// # Errors
/// A restated torque nobody sets.
pub(crate) fn examine<'c>(
    ask: &PublishedAsk<'_>,
    looked: &Looked<'c>,
) -> Result<Published<'c>, Fault> {
    let (thread, from) = (looked.thread, looked.published);
    let clamp_load = implied_clamp_load(ask.torque.torque, from.nut_factor(), thread.diameter());
    let share_of_proof = looked.grade.map(|(_, strength)| {
        let stress = strength.working_stress().get();
        let working = crate::torque::load(stress, thread.geometry().tensile_stress_area);
        clamp_load.get() / working.get()
    });
    let unit = UnitCheck::of(&ask.torque, share_of_proof, ask.unit_is_confirmed);
    let restate = |lubrication: &'c Lubrication| {
        let torque = restated(
            ask.torque.torque,
            from.nut_factor(),
            lubrication.nut_factor(),
        )
        .map_err(|e| Fault::new("torque", FaultReason::from(e)))?;
        let error = lubrication.relative_scatter();
        Ok(Restated {
            lubrication,
            torque,
            ratio: lubrication.nut_factor().get() / from.nut_factor().get(),
            minimum: Newtons::computed(clamp_load.get() * (1.0 - error)),
            maximum: Newtons::computed(clamp_load.get() * (1.0 + error)),
        })
    };
    let wanted = looked.wanted.filter(|_| unit.is_settled());
    Ok(Published {
        thread,
        grade: looked.grade.map(|(grade, _)| grade),
        published_lubrication: from,
        torque: ask.torque,
        clamp_load,
        share_of_proof,
        unit,
        restated: wanted.map(restate).transpose()?,
        sources: sources(looked),
    })
}

fn sources<'c>(looked: &Looked<'c>) -> Few<Cited<'c>, 20> {
    let mut list = Few::new();
    list.push(Cited {
        source: cite::SHIGLEY_8_27,
        used_for: UsedFor::Method,
        basis: Basis::Found,
    });
    // Two lubrications may rest on the same document.
    let mut once = |one: Cited<'c>| {
        if !list.contains(&one) {
            list.push(one);
        }
    };
    for one in cited(looked.thread.origin(), UsedFor::Thread) {
        once(one);
    }
    if let Some((_, strength)) = looked.grade {
        for one in cited(strength.origin(), UsedFor::Strength) {
            once(one);
        }
    }
    for lubrication in [Some(looked.published), looked.wanted]
        .into_iter()
        .flatten()
    {
        lubrication.cited(UsedFor::NutFactor).for_each(&mut once);
    }
    list
}

impl Published<'_> {
    /// Whether a value used here is from memory of its source.
    #[must_use]
    pub fn uses_memory(&self) -> bool {
        self.sources.iter().any(|c| c.basis == Basis::Memory)
    }
}
